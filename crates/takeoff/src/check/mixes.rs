//! Mixes and build-ups. Not here: materials.

use super::position;
use super::values::Values;
use crate::checked::{CheckedCoat, CheckedMaterial, CheckedMix, Layer, SiteMix};
use crate::problem::Place;
use crate::project::{Coat, Dose, DosePer, MaterialKind, Mix, Project, TestPanel, TrialBatch};
use crate::sources;
use ecow::eco_format;
use hodful_quantities::mix::{self, Additive, AdditiveDose, Mineral, MixFault, Trial, TrialInput};
use hodful_quantities::read::Amount;
use hodful_quantities::units::{Ratio, ratio};
use hodful_quantities::{Fraction, Typed};

/// Every mix, in the order of the project.
pub(super) fn check(
    project: &Project,
    materials: &[CheckedMaterial],
    values: &mut Values,
) -> Vec<SiteMix> {
    project
        .mixes
        .iter()
        .map(|(name, mix)| {
            let place = Place::project().thing("mix", name.clone());
            values.name(&place, "name", name);
            let before = values.count_of_problems();
            let made = one(project, materials, mix, &place, values)
                .filter(|_| values.count_of_problems() == before);
            // A panel that cannot be is told, and keeps nobody from the figures.
            panels(mix, &place, values);
            let names = names(project, mix);
            let known = |at: &usize| materials.get(*at).is_some_and(|m| m.is_known);
            SiteMix {
                made: made.filter(|_| names.as_ref().is_some_and(|all| all.iter().all(known))),
                names,
            }
        })
        .collect()
}

/// The materials that a mix names, water included when it takes any; `None` when one is not there.
fn names(project: &Project, mix: &Mix) -> Option<Vec<usize>> {
    let doses = [&mix.fibre, &mix.binder].into_iter().flatten();
    let named = mix.parts.keys().chain(doses.map(|dose| &dose.material));
    let water = mix.water.as_ref().and_then(|_| {
        let mut all = project.materials.values();
        all.position(|material| material.kind == MaterialKind::Water)
    });
    named
        .map(|name| project.materials.get_index_of(name))
        .chain(water.map(Some))
        .collect()
}

/// What a mix is made of, with the materials by their position in the project.
#[derive(Debug)]
struct Made<T> {
    of: Vec<T>,
    materials: Vec<usize>,
    /// Whether every material is there.
    whole: bool,
}

impl<T> Made<T> {
    fn new() -> Self {
        Self {
            of: Vec::new(),
            materials: Vec::new(),
            whole: true,
        }
    }
}

fn one(
    project: &Project,
    materials: &[CheckedMaterial],
    mix: &Mix,
    place: &Place,
    values: &mut Values,
) -> Option<CheckedMix> {
    let minerals = minerals(project, materials, mix, place, values);
    let additives = additives(project, materials, mix, place, values);
    let water = values.optional(place, "water", mix.water.as_ref());
    let air = values.fraction(place, "air", mix.air.as_ref(), Fraction::ZERO);
    if let Some(typed) = &mix.single_pass {
        values.above_nothing(place, "single_pass", typed);
    }
    let trial_place = place.field("trial_batch");
    let trial = mix
        .trial_batch
        .as_ref()
        .and_then(|typed| trial(typed, &trial_place, values));
    // A material that is not there is told already, and may be all that is wrong.
    if !minerals.whole {
        return None;
    }
    let mut fault = |fault: MixFault| {
        let place = match fault {
            MixFault::NoParts => place.field("parts"),
            MixFault::EmptyTrial | MixFault::TrialNeedsDensity => trial_place.clone(),
            MixFault::NoYield | MixFault::NoRoom => place.clone(),
        };
        values.refuse(place, eco_format!("{fault}"));
    };
    let mix = mix::Mix::new(minerals.of, additives.of, water, air, trial);
    let mix = mix.map_err(&mut fault).ok()?;
    let yielded = mix.yield_ratio().map_err(&mut fault).ok()?;
    let clay = mix.clay();
    Some(CheckedMix {
        mix,
        yielded,
        minerals: minerals.materials,
        additives: additives.materials,
        clay,
    })
}

fn minerals(
    project: &Project,
    materials: &[CheckedMaterial],
    mix: &Mix,
    place: &Place,
    values: &mut Values,
) -> Made<Mineral> {
    let mut made = Made::new();
    for (name, parts) in &mix.parts {
        let part_place = place.field("parts").thing("material", name.clone());
        let index = position(values, &part_place, "material", name, &project.materials);
        let parts = values.at_least_nothing(&part_place, "parts", parts).get();
        let found = index.and_then(|i| {
            let (_, material) = project.materials.get_index(i)?;
            Some((i, material, materials.get(i)?))
        });
        let Some((index, material, checked)) = found else {
            made.whole = false;
            continue;
        };
        let kind = material.kind;
        if !kind.is_mineral() {
            let message = eco_format!(
                "'{name}' is {}; parts are for what is measured loose, fibre, binder and water have keys of their own",
                kind.word()
            );
            values.refuse(part_place, message);
        }
        made.of.push(Mineral {
            parts,
            sand: kind == MaterialKind::Sand,
            loose_density: checked.loose_density,
            particle_density: material.particle_density.as_ref().map(Typed::value),
            void_fraction: material.void_fraction.as_ref().map(Typed::value),
            clay: checked.clay,
            moisture: checked.delivery.moisture,
        });
        made.materials.push(index);
    }
    made
}

fn additives(
    project: &Project,
    materials: &[CheckedMaterial],
    mix: &Mix,
    place: &Place,
    values: &mut Values,
) -> Made<Additive> {
    let mut made = Made::new();
    for (field, kind, dose) in [
        ("fibre", MaterialKind::Fibre, &mix.fibre),
        ("binder", MaterialKind::Binder, &mix.binder),
    ] {
        let Some(dose) = dose else { continue };
        let place = place.field(field);
        let named = place.field("material");
        let name = &dose.material;
        let index = position(values, &named, "material", name, &project.materials);
        let amount = additive_dose(dose, &place, values);
        let found = index.and_then(|i| {
            let (_, material) = project.materials.get_index(i)?;
            Some((i, material, materials.get(i)?))
        });
        let (Some((index, material, checked)), Some(amount)) = (found, amount) else {
            continue;
        };
        if material.kind != kind {
            let message = eco_format!("'{name}' is {}, not {}", material.kind.word(), kind.word());
            values.refuse(named, message);
        }
        made.of.push(Additive {
            dose: amount,
            loose_density: checked.loose_density,
            particle_density: material.particle_density.as_ref().map(Typed::value),
            moisture: checked.delivery.moisture,
        });
        made.materials.push(index);
    }
    made
}

/// Panels are dried, not grown.
fn panels(mix: &Mix, place: &Place, values: &mut Values) {
    for (at, panel) in mix.test_panels.iter().enumerate() {
        let place = place.thing("test panel", eco_format!("number {}", at + 1));
        for (wet, dry, fields) in [
            (
                &panel.wet_length,
                &panel.dry_length,
                ["wet_length", "dry_length"],
            ),
            (
                &panel.wet_thickness,
                &panel.dry_thickness,
                ["wet_thickness", "dry_thickness"],
            ),
        ] {
            for (field, typed) in fields.into_iter().zip([wet, dry]) {
                if let Some(typed) = typed {
                    values.above_nothing(&place, field, typed);
                }
            }
            if let (Some(wet), Some(dry), [_, field]) = (wet, dry, fields)
                && dry.value().value > wet.value().value
            {
                values.refuse(
                    place.field(field),
                    eco_format!("'{}' dry is more than '{}' wet", dry.text(), wet.text()),
                );
            }
        }
    }
}

/// The last panel of a mix of which the thickness was measured wet and dry, and what it lost of it.
pub(crate) fn measured_shrinkage(mix: &Mix) -> Option<(usize, &TestPanel, Fraction)> {
    mix.test_panels
        .iter()
        .enumerate()
        .rev()
        .find_map(|(at, panel)| {
            let (wet, dry) = (panel.wet_thickness.as_ref()?, panel.dry_thickness.as_ref()?);
            let lost = 1.0 - dry.value().value / wet.value().value;
            Some((at, panel, Fraction::new(Ratio::new::<ratio>(lost)).ok()?))
        })
}

fn trial(typed: &TrialBatch, place: &Place, values: &mut Values) -> Option<Trial> {
    values.above_nothing(place, "mixed", &typed.mixed);
    let loose = match typed.loose.value() {
        Amount::Volume(volume) => TrialInput::Loose(volume),
        Amount::Mass(mass) => TrialInput::Mass(mass),
        Amount::Packages { .. } => {
            let message = eco_format!("'{}' is not a volume or a mass", typed.loose.text());
            values.refuse(place.field("loose"), message);
            return None;
        }
    };
    Some(Trial {
        loose,
        mixed: typed.mixed.value(),
    })
}

fn additive_dose(dose: &Dose, place: &Place, values: &mut Values) -> Option<AdditiveDose> {
    match (&dose.dose, &dose.parts) {
        (Some(typed), None) => {
            let density = values.at_least_nothing(place, "dose", typed);
            Some(match dose.per.unwrap_or(DosePer::Mixed) {
                DosePer::Mixed => AdditiveDose::PerMixed(density),
                DosePer::Loose => AdditiveDose::PerLoose(density),
            })
        }
        (None, Some(typed)) => {
            if dose.per.is_some() {
                values.refuse(place.field("per"), "goes with a dose, not with parts");
            }
            Some(AdditiveDose::Parts(
                values.at_least_nothing(place, "parts", typed).get(),
            ))
        }
        _ => {
            values.refuse(
                place.clone(),
                "give either a dose such as '50 kg/m3' or parts such as 2, one of the two",
            );
            None
        }
    }
}

/// Every build-up, in the order of the project.
pub(super) fn build_ups(project: &Project, values: &mut Values) -> Vec<Vec<Layer>> {
    let usual = Fraction::new(sources::share(sources::USUAL_SHRINKAGE)).unwrap_or_default();
    if project.build_ups.len().max(project.backgrounds.len()) > usize::from(u16::MAX) {
        values.refuse(
            Place::project().field("build_ups"),
            "one project holds at most 65,535 build-ups and as many backgrounds",
        );
    }
    project
        .build_ups
        .iter()
        .map(|(name, coats)| {
            let place = Place::project().thing("build-up", name.clone());
            values.name(&place, "name", name);
            if coats.is_empty() {
                values.refuse(place.clone(), "has no coat; give at least one");
            }
            for (i, coat) in coats.iter().enumerate() {
                if coats.iter().take(i).any(|other| other.coat == coat.coat) {
                    values.refuse(
                        place.thing("coat", coat.coat.clone()),
                        "stands twice in the build-up; give each coat a name of its own",
                    );
                }
            }
            coats
                .iter()
                .map(|coat| layer(project, coat, usual, &place, values))
                .collect()
        })
        .collect()
}

fn layer(
    project: &Project,
    coat: &Coat,
    usual: Fraction,
    place: &Place,
    values: &mut Values,
) -> Layer {
    let place = place.thing("coat", coat.coat.clone());
    if let Some(finish) = &coat.weather_finish {
        values.name(&place, "weather_finish", finish);
    }
    let mix = position(
        values,
        &place.field("mix"),
        "mix",
        &coat.mix,
        &project.mixes,
    );
    let before = values.count_of_problems();
    let thickness = values.above_nothing(&place, "thickness", &coat.thickness);
    let is_sound = values.count_of_problems() == before;
    let typed = values.fraction(&place, "shrinkage", coat.shrinkage.as_ref(), usual);
    let measured = project.mixes.get(&coat.mix).and_then(measured_shrinkage);
    let shrinkage = measured.map_or(typed, |(_, _, lost)| lost);
    let loss = values.fraction(&place, "loss", coat.loss.as_ref(), Fraction::ZERO);
    let all_sound = values.count_of_problems() == before;
    Layer {
        thickness: is_sound.then_some(thickness),
        mix,
        coat: mix.filter(|_| all_sound).map(|mix| CheckedCoat {
            thickness,
            mix,
            shrinkage,
            loss,
        }),
    }
}
