//! Setting a field: what must be there is made, what becomes empty is taken away. Not here: reading the
//! text (see `understand`), shapes (see `shape`) and names that others use (see `rename`).

mod openings;
mod walls;

use super::held::{no_field, put, read};
use super::{Subject, rename, tables};
use crate::project::{Dose, MaterialKind, Mix, Mixer, Name, Project, TrialBatch};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::read::{Amount, Number};
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
        Subject::Coat { build_up, coat } => {
            let (_, coats) = project.build_ups.get_index_mut(build_up).ok_or(GONE)?;
            if key == "coat" {
                let others = coats.iter().enumerate().filter(|(i, _)| *i != coat);
                rename::free(
                    text,
                    others.map(|(_, c)| &c.coat),
                    "the build-up has a coat",
                )?;
            }
            put(tables::COAT, coats.get_mut(coat).ok_or(GONE)?, key, text)
        }
        Subject::Mix(i) if key == "name" => rename::mix(project, i, text),
        Subject::Mix(i) => mix(project, i, key, text),
        Subject::Material(i) if key == "name" => rename::material(project, i, text),
        Subject::Material(i) => {
            let (_, material) = project.materials.get_index_mut(i).ok_or(GONE)?;
            put(tables::MATERIAL, material, key, text)
        }
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

/// What is said of a thing that is not there.
pub(super) const GONE: &str = "it is not there any more";

fn mixer(project: &mut Project, key: &str, text: Option<&str>) -> Done {
    match (&mut project.mixer, key, text) {
        (None, "working_volume", Some(text)) => {
            project.mixer = Some(Mixer {
                working_volume: read(text)?,
                bucket: None,
                shovel: None,
            });
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

/// The other of the two is nothing until it is typed, which the checking tells.
fn trial(mix: &mut Mix, key: &str, text: Option<&str>) -> Done {
    const NOTHING: &str = "0 L";
    let mut trial = match &mix.trial_batch {
        Some(trial) => trial.clone(),
        None => TrialBatch {
            loose: read(NOTHING)?,
            mixed: read(NOTHING)?,
        },
    };
    put(tables::TRIAL, &mut trial, key, text.or(Some(NOTHING)))?;
    let loose = match trial.loose.value() {
        Amount::Volume(volume) => volume.value,
        Amount::Mass(mass) => mass.value,
        Amount::Packages { count, .. } => count,
    };
    let empty = loose == 0.0 && trial.mixed.value().value == 0.0;
    mix.trial_batch = (text.is_some() || !empty).then_some(trial);
    Ok(())
}
