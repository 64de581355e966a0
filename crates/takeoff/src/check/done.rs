//! What was recorded on the site: coats that were put on, and what came. Not here: what is learned from
//! it (see `crate::forecast`), and what a record says of faces once they are measured.
//!
//! It names walls, so it is looked over after them, and again whenever one of them changes.

use super::{nearest, reading, values::Values};
use crate::checked::{CheckedMaterial, CheckedMixer, Site};
use crate::evaluate::quantity;
use crate::problem::{Place, Problem};
use crate::project::{Delivered, Done, Name, Project, Side};
use ecow::{EcoString, eco_format};
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::Holds;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::read::Amount;
use hodful_quantities::units::Volume;
use indexmap::IndexSet;
use std::collections::{HashMap, HashSet};
use std::iter::zip;

/// A record with the faces that it is about.
#[derive(Debug)]
pub(crate) struct Record<'p> {
    /// Its number in the project, from 1.
    pub(crate) number: usize,
    /// Name of the coat.
    pub(crate) coat: &'p Name,
    /// What it took.
    pub(crate) took: Took,
    /// Positions of the walls, with the faces.
    pub(crate) faces: Vec<(usize, Side)>,
}

/// What a coat took.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Took {
    /// Mixed; above nothing.
    pub(crate) mixed: Volume,
    /// How far the reading of it may be off, as a standard deviation and a share of it.
    pub(crate) reading: f64,
}

/// Looks the records and the deliveries over.
pub(crate) fn check(project: &Project, site: &Site, values: &mut Values) {
    records(project, site.mixer.as_ref(), values);
    deliveries(project, site, values);
}

/// Every record, in the order of the project; nothing where something of it is refused.
pub(crate) fn records<'p>(
    project: &'p Project,
    mixer: Option<&CheckedMixer>,
    values: &mut Values,
) -> Vec<Option<Record<'p>>> {
    let mut found = Faces::default();
    let each = zip(1.., &project.done).map(|(number, done)| {
        let place = Place::project().thing("record", eco_format!("{number}"));
        let coat = coat_is_there(project, done, &place, values);
        let faces = coat.then(|| found.of(project, number, done, &place, values));
        let took = took(project, mixer, done, &place, values);
        Some(Record {
            number,
            coat: &done.coat,
            took: took?,
            faces: faces??,
        })
    });
    each.collect()
}

/// Whether there is such a coat, in the build-up that is named.
fn coat_is_there(project: &Project, done: &Done, place: &Place, values: &mut Values) -> bool {
    let found = done.build_up.as_ref().map(|name| {
        let coats = project.build_ups.get(name);
        if coats.is_none() {
            let place = place.field("build_up");
            values.missing(&place, "build-up", name, project.build_ups.keys());
        }
        coats
    });
    let among: IndexSet<&Name> = match found {
        Some(None) => return false,
        Some(Some(coats)) => coats.iter().map(|coat| &coat.coat).collect(),
        None => {
            let coats = project.build_ups.values().flatten();
            coats.map(|coat| &coat.coat).collect()
        }
    };
    let is_there = among.contains(&done.coat);
    if !is_there {
        let place = place.field("coat");
        values.missing(&place, "coat", &done.coat, among.into_iter());
    }
    is_there
}

/// The faces of the records so far.
#[derive(Debug, Default)]
struct Faces<'p> {
    /// Walls by their ids, once a record names one.
    by_id: Option<HashMap<&'p Name, Vec<usize>>>,
    /// The record that has a coat of a face.
    taken: HashMap<(usize, Side, &'p Name), usize>,
}

impl<'p> Faces<'p> {
    /// The faces that a record is about, each in no other record.
    fn of(
        &mut self,
        project: &'p Project,
        number: usize,
        done: &'p Done,
        place: &Place,
        values: &mut Values,
    ) -> Option<Vec<(usize, Side)>> {
        let before = values.count_of_problems();
        let place = place.field("walls");
        let mut faces = Vec::new();
        if done.walls.is_empty() {
            let all = 0..project.walls.len();
            faces.extend(all.flat_map(|at| faces_of(project, done, at)));
        }
        let mut named = HashSet::new();
        for id in &done.walls {
            if !named.insert(id) {
                values.refuse(place.clone(), eco_format!("names {id} twice"));
                continue;
            }
            let by_id = self.by_id.get_or_insert_with(|| by_id(project));
            let Some(walls) = by_id.get(id) else {
                values.push(no_wall(project, id, place.clone()));
                continue;
            };
            let was = faces.len();
            faces.extend(walls.iter().flat_map(|at| faces_of(project, done, *at)));
            if faces.len() == was {
                let message = eco_format!("no {} has {}", face_words(done, Some(id)), coat(done));
                values.refuse(place.clone(), message);
            }
        }
        if faces.is_empty() && done.walls.is_empty() {
            let message = eco_format!("no {} has {}", face_words(done, None), coat(done));
            values.refuse(place.clone(), message);
        }
        let mut twice = None;
        for (at, side) in &faces {
            let first = *self.taken.entry((*at, *side, &done.coat)).or_insert(number);
            if first != number {
                twice.get_or_insert((*at, *side, first));
            }
        }
        if let Some((at, side, first)) = twice {
            let id = project.walls.get(at).map_or("", |wall| wall.id.as_str());
            values.refuse(
                place,
                eco_format!(
                    "{} on the {} face of {id} is in record {first} already and would be counted \
                     twice; put what both took into one record, or name other walls",
                    done.coat,
                    side.word()
                ),
            );
        }
        (values.count_of_problems() == before).then_some(faces)
    }
}

fn by_id(project: &Project) -> HashMap<&Name, Vec<usize>> {
    let mut by_id: HashMap<&Name, Vec<usize>> = HashMap::new();
    for (at, wall) in project.walls.iter().enumerate() {
        by_id.entry(&wall.id).or_default().push(at);
    }
    by_id
}

/// The faces of a wall that a record is about.
fn faces_of(
    project: &Project,
    done: &Done,
    at: usize,
) -> impl Iterator<Item = (usize, Side)> + use<> {
    let is_meant = |side: Side| {
        let face = project.walls.get(at).and_then(|wall| wall.face(side));
        let coats = face.and_then(|face| {
            let is_named = done.build_up.as_ref().is_none_or(|b| *b == face.build_up);
            project
                .build_ups
                .get(&face.build_up)
                .filter(|_| is_named && done.face.is_none_or(|of| of == side))
        });
        coats.is_some_and(|coats| coats.iter().any(|coat| coat.coat == done.coat))
    };
    let sides = [Side::Outside, Side::Inside].map(|side| is_meant(side).then_some((at, side)));
    sides.into_iter().flatten()
}

/// `face`, `outside face`, `outside face of S`.
fn face_words(done: &Done, wall: Option<&Name>) -> EcoString {
    let side = done
        .face
        .map_or_else(EcoString::new, |side| eco_format!("{} ", side.word()));
    let of = wall.map_or_else(EcoString::new, |id| eco_format!(" of {id}"));
    eco_format!("{side}face{of}")
}

/// `scratch`, `scratch of outside bale`.
fn coat(done: &Done) -> EcoString {
    match &done.build_up {
        Some(build_up) => eco_format!("{} of {build_up}", done.coat),
        None => done.coat.clone(),
    }
}

/// A wall that is not there. A building has too many to name them all.
fn no_wall(project: &Project, id: &Name, place: Place) -> Problem {
    let ids = project.walls.iter().map(|wall| &wall.id);
    let hint = match nearest(id, ids) {
        Some(near) => eco_format!("did you mean '{near}'?"),
        None if project.walls.is_empty() => "the project has none".into(),
        None => "walls are named by their ids".into(),
    };
    Problem::missing(place, id, eco_format!("there is no wall '{id}'; {hint}"))
}

/// How plaster is written as mixed.
pub(crate) fn mixed_examples(units: UnitSystem) -> &'static str {
    match units {
        UnitSystem::Us => "8 batches, 35 buckets or 20 ft3",
        UnitSystem::Metric => "8 batches, 35 buckets or 600 L",
    }
}

/// What a coat took, as a volume.
fn took(
    project: &Project,
    mixer: Option<&CheckedMixer>,
    done: &Done,
    place: &Place,
    values: &mut Values,
) -> Option<Took> {
    let place = place.field("took");
    let text = done.took.text();
    let mut refuse = |message: EcoString| {
        values.refuse(place.clone(), message);
        None
    };
    let (volume, reading) = match done.took.value() {
        Amount::Volume(volume) => (Some(volume), reading::of_volume(text, volume.value)),
        Amount::Mass(_) => {
            return refuse(eco_format!(
                "'{text}' is a mass; give batches, buckets or a volume, as mixed"
            ));
        }
        Amount::Packages { count, name } => {
            let name = name.to_lowercase();
            let of = project.mixer.as_ref();
            let one = if is_of(&name, "batch") {
                if of.is_none() {
                    return refuse(eco_format!(
                        "'{text}' cannot be told as a volume without a mixer; give its working_volume"
                    ));
                }
                mixer.map(|mixer| mixer.working_volume)
            } else if is_of(&name, "bucket") {
                if of.is_none_or(|mixer| mixer.bucket.is_none()) {
                    return refuse(eco_format!(
                        "'{text}' cannot be told as a volume; give the mixer a bucket"
                    ));
                }
                mixer.and_then(|mixer| mixer.bucket)
            } else {
                return refuse(eco_format!(
                    "'{text}' is neither batches, buckets nor a volume"
                ));
            };
            if count < 0.0 {
                return refuse(eco_format!("'{text}' is negative"));
            }
            (one.map(|one| one * count), reading::of_count(count))
        }
    };
    // Where the mixer is refused, that is told with the mixer.
    let mixed = volume?;
    if mixed.value < 0.0 {
        return refuse(eco_format!("'{text}' is negative"));
    }
    if !(mixed.value.is_finite() && mixed.value > 0.0) {
        return refuse(eco_format!(
            "'{text}' is nothing yet; say what the coat took, such as {}, or leave the record out",
            mixed_examples(project.units)
        ));
    }
    Some(Took { mixed, reading })
}

/// Every delivery with the position of its material, in the order of the project; nothing where
/// something of it is refused.
pub(crate) fn deliveries(
    project: &Project,
    site: &Site,
    values: &mut Values,
) -> Vec<Option<(usize, Quantity)>> {
    let each = zip(1.., &project.delivered).map(|(number, delivered)| {
        let place = Place::project().thing("delivery", eco_format!("{number}"));
        let name = &delivered.material;
        let at = {
            let place = place.field("material");
            super::position(values, &place, "material", name, &project.materials)?
        };
        let material = site.materials.get(at)?;
        let came = came(project, material, delivered, &place, values)?;
        Some((at, came))
    });
    each.collect()
}

/// How much came of a material, loose and by mass as far as it can be told.
pub(crate) fn came(
    project: &Project,
    material: &CheckedMaterial,
    delivered: &Delivered,
    place: &Place,
    values: &mut Values,
) -> Option<Quantity> {
    let place = place.field("amount");
    let text = delivered.amount.text();
    let amount = delivered.amount.value();
    let mut times = 1.0;
    let holds = match &amount {
        Amount::Packages { count, name } => {
            times = *count;
            let Some(at) = material.packages.iter().position(|p| is_of(name, p)) else {
                let known = material.packages.iter();
                values.missing(&place, "package", name, known);
                return None;
            };
            // Where a package is refused, that is told with the package.
            let offer = material.offers.get(at).filter(|_| material.is_sold)?;
            offer.holds
        }
        amount => Holds::from_amount(amount)?,
    };
    let came = quantity(material, &holds, times);
    let sides = [came.loose.map(|v| v.value), came.mass.map(|m| m.value)];
    if sides.iter().flatten().any(|value| *value < 0.0) {
        values.refuse(place, eco_format!("'{text}' is negative"));
        return None;
    }
    if sides.iter().flatten().all(|value| *value <= 0.0) {
        let message = eco_format!("'{text}' is nothing yet; say what came, or leave it out");
        values.refuse(place, message);
        return None;
    }
    if !material.is_known {
        return None;
    }
    let needed = needed(project, &delivered.material);
    let what = match (needed, came.loose, came.mass) {
        ((true, _), None, _) => "by volume",
        ((_, true), _, None) => "by mass",
        _ => return Some(came),
    };
    let message = eco_format!(
        "'{text}' cannot be held against what the mixes take {what}; give {} its loose_density",
        delivered.material
    );
    values.refuse(place, message);
    None
}

/// Whether the mixes take a material by loose volume, and whether by mass.
fn needed(project: &Project, material: &Name) -> (bool, bool) {
    let doses = || {
        let doses = project.mixes.values().flat_map(|m| [&m.fibre, &m.binder]);
        doses.flatten().filter(|dose| dose.material == *material)
    };
    let in_parts = project
        .mixes
        .values()
        .any(|m| m.parts.contains_key(material));
    (
        in_parts || doses().any(|dose| dose.parts.is_some()),
        doses().any(|dose| dose.dose.is_some()),
    )
}

/// Whether a word names a thing, one or several: `bag`, `bags`, `batch`, `batches`.
pub(crate) fn is_of(word: &str, thing: &str) -> bool {
    word.strip_prefix(thing)
        .is_some_and(|rest| matches!(rest, "" | "s" | "es"))
}
