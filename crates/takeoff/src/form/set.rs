//! Setting a field: what must be there is made, what becomes empty is taken away. Not here: reading the
//! text (see `understand`), shapes (see `shape`) and names that others use (see `rename`).

mod openings;
mod walls;
mod work;

use super::held::{Field, Held, NEEDED, no_field, put, read};
use super::{Subject, rename, tables};
use crate::project::{
    Alteration, Blend, BulkingTest, Buying, CurveBand, Dose, JarTest, Material, MaterialKind, Mix,
    Mixer, Name, Project, ScreenTest, ShareBetween, SoilShares, TrialBatch,
};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::read::Number;
use std::sync::Arc;

type Done = Result<(), EcoString>;

/// Puts a text that was understood, or nothing, into a field that is there.
pub(super) fn put_text(
    project: &mut Project,
    subject: Subject,
    key: &str,
    text: Option<&str>,
) -> Done {
    match subject {
        Subject::Project => put(tables::PROJECT, project, key, text),
        Subject::Mixer => mixer(project, key, text),
        Subject::Background(i) if key == "name" => rename::background(project, i, text),
        Subject::Background(i) => {
            let (_, background) = project.backgrounds.get_index_mut(i).ok_or(GONE)?;
            put(tables::BACKGROUND, background, key, text)
        }
        Subject::BuildUp(i) if key == "name" => rename::build_up(project, i, text),
        Subject::BuildUp(_) => Err(no_field(key)),
        Subject::Coat { build_up, coat } => self::coat(project, build_up, coat, key, text),
        Subject::Mix(i) if key == "name" => rename::mix(project, i, text),
        Subject::Mix(i) => mix(project, i, key, text),
        Subject::Material(i) if key == "name" => rename::material(project, i, text),
        Subject::Material(i) => {
            let (_, of) = project.materials.get_index_mut(i).ok_or(GONE)?;
            material(of, key, text)
        }
        Subject::Panel { mix, panel } => {
            let (_, mix) = project.mixes.get_index_mut(mix).ok_or(GONE)?;
            let panel = mix.test_panels.get_mut(panel).ok_or(GONE)?;
            put(tables::PANEL, panel, key, text)
        }
        Subject::Blend(i) if key == "name" => rename::blend(project, i, text),
        Subject::Blend(i) => {
            let before = key.strip_prefix("materials.").map(|n| later(project, n));
            let (_, of) = project.blends.get_index_mut(i).ok_or(GONE)?;
            blend(of, key, text, &before.unwrap_or_default())
        }
        Subject::Supplier(i) if key == "name" => rename::supplier(project, i, text),
        Subject::Supplier(i) => {
            let (_, supplier) = project.suppliers.get_index_mut(i).ok_or(GONE)?;
            put(tables::SUPPLIER, supplier, key, text)
        }
        Subject::Buying => {
            put(
                tables::BUYING,
                project.buying.get_or_insert_default(),
                key,
                text,
            )?;
            if project.buying == Some(Buying::default()) {
                project.buying = None;
            }
            Ok(())
        }
        Subject::Phase(i) => {
            let phases = project.buying.as_mut().map(|buying| &mut buying.phases);
            let phases = phases.ok_or(GONE)?;
            if key == "name" {
                let others = phases.iter().enumerate().filter(|(at, _)| *at != i);
                rename::free(text, others.map(|(_, p)| &p.name), "the order has a phase")?;
            }
            put(tables::PHASE, phases.get_mut(i).ok_or(GONE)?, key, text)
        }
        Subject::Work => work::set(project, key, text),
        Subject::Preparation(_) | Subject::Room(_) | Subject::Dried(_) => {
            work::set_thing(project, subject, key, text)
        }
        Subject::Alternative(_)
        | Subject::Alteration { .. }
        | Subject::Uncertain(_)
        | Subject::Done(_)
        | Subject::Delivered(_) => outlook(project, subject, key, text),
        Subject::Package { material, package } => {
            let (_, of) = project.materials.get_index_mut(material).ok_or(GONE)?;
            if key == "name" {
                return rename::package(of, package, text);
            }
            let package = of.packages.get_mut(package).ok_or(GONE)?;
            put(tables::PACKAGE, package, key, text)
        }
        Subject::Wall(i) => walls::set(project, i, key, text),
        Subject::Opening { wall, opening } => openings::set(project, (wall, opening), key, text),
        Subject::Pocket { wall, pocket } => {
            let wall = Arc::make_mut(project.walls.get_mut(wall).ok_or(GONE)?);
            put(
                tables::POCKET,
                wall.pockets.get_mut(pocket).ok_or(GONE)?,
                key,
                text,
            )
        }
    }
}

/// A coat; what one person does of it in an hour belongs to the work on site.
fn coat(
    project: &mut Project,
    build_up: usize,
    coat: usize,
    key: &str,
    text: Option<&str>,
) -> Done {
    let (_, coats) = project.build_ups.get_index_mut(build_up).ok_or(GONE)?;
    let old = coats.get(coat).ok_or(GONE)?.coat.clone();
    if let Some(key) = key.strip_prefix(super::RATE) {
        return work::rate(project, &old, key, text);
    }
    if key == "coat" {
        let others = coats.iter().enumerate().filter(|(i, _)| *i != coat);
        rename::free(
            text,
            others.map(|(_, c)| &c.coat),
            "the build-up has a coat",
        )?;
    }
    let coat = coats.get_mut(coat).ok_or(GONE)?;
    put(tables::COAT, coat, key, text)?;
    let new = coat.coat.clone();
    if new != old {
        rename::coat(project, &old, &new);
    }
    Ok(())
}

/// What is said of a thing that is not there.
pub(super) const GONE: &str = "it is not there any more";

fn mixer(project: &mut Project, key: &str, text: Option<&str>) -> Done {
    match (&mut project.mixer, key, text) {
        (None, "working_volume", Some(text)) => {
            project.mixer = Some(Mixer::of(read(text)?));
            Ok(())
        }
        (None, ..) => {
            Err("there is no mixer yet; give the plaster that one batch makes first".into())
        }
        (Some(_), "working_volume", None) => {
            project.mixer = None;
            Ok(())
        }
        (Some(mixer), ..) => put(tables::MIXER, mixer, key, text),
    }
}

fn mix(project: &mut Project, i: usize, key: &str, text: Option<&str>) -> Done {
    let additive = match key.split_once('.') {
        Some(("fibre", key)) => Some((MaterialKind::Fibre, key)),
        Some(("binder", key)) => Some((MaterialKind::Binder, key)),
        _ => None,
    };
    if let Some((kind, key)) = additive {
        let mut of_kind = project.materials.iter().filter(|(_, m)| m.kind == kind);
        let first = of_kind.next().map(|(name, _)| name.clone());
        let (_, mix) = project.mixes.get_index_mut(i).ok_or(GONE)?;
        let held = match kind {
            MaterialKind::Fibre => &mut mix.fibre,
            _ => &mut mix.binder,
        };
        return dose(held, kind, first, key, text);
    }
    let before = key.strip_prefix("parts.").map(|name| later(project, name));
    let (_, mix) = project.mixes.get_index_mut(i).ok_or(GONE)?;
    match (key.strip_prefix("parts."), key.strip_prefix("trial_batch.")) {
        (Some(name), _) => part(mix, name, text, &before.unwrap_or_default()),
        (_, Some(key)) => trial(mix, key, text),
        _ => put(tables::MIX, mix, key, text),
    }
}

/// The materials that stand behind one.
fn later(project: &Project, name: &str) -> Vec<Name> {
    let from = project.materials.get_index_of(name);
    let skipped = from.map_or(usize::MAX, |at| at.saturating_add(1));
    project.materials.keys().skip(skipped).cloned().collect()
}

/// A new part stands where its material does among the others.
fn part(mix: &mut Mix, name: &str, text: Option<&str>, later: &[Name]) -> Done {
    let Some(text) = text else {
        mix.parts.shift_remove(name);
        return Ok(());
    };
    let parts: Typed<Number> = read(text)?;
    if let Some(held) = mix.parts.get_mut(name) {
        *held = parts;
        return Ok(());
    }
    let behind = mix.parts.keys().position(|part| later.contains(part));
    let at = behind.unwrap_or(mix.parts.len());
    mix.parts.shift_insert(at, name.into(), parts);
    Ok(())
}

/// A dose and parts exclude one another: the one typed last stands.
fn dose(
    held: &mut Option<Dose>,
    kind: MaterialKind,
    first: Option<Name>,
    key: &str,
    text: Option<&str>,
) -> Done {
    let mut dose = match (&held, first) {
        (Some(dose), _) => dose.clone(),
        (None, Some(material)) => Dose {
            material,
            dose: None,
            per: None,
            parts: None,
        },
        (None, None) => {
            let kind = kind.word();
            return Err(eco_format!(
                "the project has no material of kind {kind} yet"
            ));
        }
    };
    if key == "material" && text.is_none() {
        *held = None;
        return Ok(());
    }
    put(tables::DOSE, &mut dose, key, text)?;
    match (key, text) {
        ("dose" | "per", Some(_)) => dose.parts = None,
        ("parts", Some(_)) => {
            dose.dose = None;
            dose.per = None;
        }
        _ => {}
    }
    *held = Some(dose);
    Ok(())
}

/// Sets a field of a part that need not be there. What must stand in it is nothing until it is typed,
/// which the checking tells; the part goes with the last thing typed in it.
fn part_of<T: Clone>(
    held: &mut Option<T>,
    fields: &[Field<T>],
    nothing: &str,
    empty: impl FnOnce() -> Result<T, EcoString>,
    key: &str,
    text: Option<&str>,
) -> Done {
    let mut of = match held.as_ref() {
        Some(of) => of.clone(),
        None => empty()?,
    };
    let needed = |field: &Field<T>, of: &T| !(field.is_optional)(of);
    let field = fields.iter().find(|field| field.key == key);
    let must = field.is_some_and(|field| needed(field, &of));
    put(fields, &mut of, key, text.or(must.then_some(nothing)))?;
    let is_empty = fields.iter().all(|field| match (field.text)(&of) {
        Some(text) => needed(field, &of) && text == nothing,
        None => true,
    });
    *held = (text.is_some() || !is_empty).then_some(of);
    Ok(())
}

const NO_LENGTH: &str = "0 mm";
const NO_SHARE: &str = "0 %";
const NO_AMOUNT: &str = "0 L";

fn material(of: &mut Material, key: &str, text: Option<&str>) -> Done {
    if let Some(key) = key.strip_prefix("bulking_test.") {
        let empty = || {
            Ok(BulkingTest {
                damp: read(NO_LENGTH)?,
                flooded: read(NO_LENGTH)?,
            })
        };
        let held = &mut of.bulking_test;
        return part_of(held, tables::BULKING_TEST, NO_LENGTH, empty, key, text);
    }
    if let Some(key) = key.strip_prefix("screen_test.") {
        let empty = || {
            Ok(ScreenTest {
                mesh: None,
                raw: read(NO_AMOUNT)?,
                held: read(NO_AMOUNT)?,
            })
        };
        let held = &mut of.screen_test;
        return part_of(held, tables::SCREEN_TEST, NO_AMOUNT, empty, key, text);
    }
    let Some(key) = key.strip_prefix("soil.") else {
        return put(tables::MATERIAL, of, key, text);
    };
    let mut soil = of.soil.clone().unwrap_or_default();
    if let Some(key) = key.strip_prefix("shares.") {
        let empty = || {
            Ok(SoilShares {
                gravel: None,
                sand: read(NO_SHARE)?,
                silt: read(NO_SHARE)?,
                clay: read(NO_SHARE)?,
            })
        };
        let held = &mut soil.shares;
        part_of(held, tables::SOIL_SHARES, NO_SHARE, empty, key, text)?;
    } else if let Some(key) = key.strip_prefix("jar.") {
        let empty = || {
            Ok(JarTest {
                sand: read(NO_LENGTH)?,
                silt: read(NO_LENGTH)?,
                clay: read(NO_LENGTH)?,
                water_depth: None,
                temperature: None,
                sand_marked: None,
                silt_marked: None,
            })
        };
        part_of(&mut soil.jar, tables::JAR, NO_LENGTH, empty, key, text)?;
    } else if let Some(key) = key.strip_prefix("hand.") {
        let empty = || Ok(crate::project::HandTests::default());
        part_of(&mut soil.hand, tables::HAND, "", empty, key, text)?;
    } else {
        put(tables::SOIL, &mut *soil, key, text)?;
    }
    of.soil = (*soil != crate::project::Soil::default()).then_some(soil);
    Ok(())
}

/// Options, uncertain inputs and records.
fn outlook(project: &mut Project, subject: Subject, key: &str, text: Option<&str>) -> Done {
    match subject {
        Subject::Alternative(i) if key == "name" => rename::option(project, i, text),
        Subject::Alternative(i) => {
            let (_, of) = project.options.get_index_mut(i).ok_or(GONE)?;
            put(tables::ALTERNATIVE, of, key, text)
        }
        Subject::Alteration {
            alternative,
            change,
        } => {
            let (_, of) = project.options.get_index_mut(alternative).ok_or(GONE)?;
            alteration(of.changes.get_mut(change).ok_or(GONE)?, key, text)
        }
        Subject::Uncertain(i) => {
            let of = project.uncertain.get_mut(i).ok_or(GONE)?;
            put(tables::UNCERTAIN, of, key, text)
        }
        Subject::Done(i) => {
            let of = project.done.get_mut(i).ok_or(GONE)?;
            put(tables::DONE, of, key, text)
        }
        Subject::Delivered(i) => {
            let of = project.delivered.get_mut(i).ok_or(GONE)?;
            put(tables::DELIVERED, of, key, text)
        }
        _ => Err(no_field(key)),
    }
}

fn alteration(of: &mut Alteration, key: &str, text: Option<&str>) -> Done {
    match (of, key) {
        (Alteration::Set { to, .. }, "to") => *to = text.map(Name::from),
        (Alteration::Add { by, .. }, "by") => *by = text.ok_or(NEEDED)?.into(),
        (Alteration::Coat { coat, .. }, _) => return put(tables::COAT, coat, key, text),
        (Alteration::Package { package, .. }, _) => {
            return put(tables::PACKAGE, package, key, text);
        }
        _ => return Err(no_field(key)),
    }
    Ok(())
}

/// A new material stands where it does among the others of the project.
fn blend(of: &mut Blend, key: &str, text: Option<&str>, later: &[Name]) -> Done {
    if let Some(name) = key.strip_prefix("materials.") {
        let mut bounds: Option<ShareBetween> = None;
        bounds.put(text)?;
        match (bounds, of.materials.get_mut(name)) {
            (None, _) => {
                of.materials.shift_remove(name);
            }
            (Some(bounds), Some(held)) => *held = bounds,
            (Some(bounds), None) => {
                let behind = of.materials.keys().position(|one| later.contains(one));
                let at = behind.unwrap_or(of.materials.len());
                of.materials.shift_insert(at, name.into(), bounds);
            }
        }
        return Ok(());
    }
    let Some(key) = key.strip_prefix("curve.") else {
        return put(tables::BLEND, of, key, text);
    };
    let empty = || {
        Ok(CurveBand {
            largest: read(NO_LENGTH)?,
            power: None,
            within: None,
        })
    };
    part_of(&mut of.curve, tables::CURVE, NO_LENGTH, empty, key, text)
}

fn trial(mix: &mut Mix, key: &str, text: Option<&str>) -> Done {
    let empty = || Ok(TrialBatch::of(read(NO_AMOUNT)?, read(NO_AMOUNT)?));
    let held = &mut mix.trial_batch;
    part_of(held, tables::TRIAL, NO_AMOUNT, empty, key, text)
}
