//! How long coats really took to dry. Not here: what is learned from it (see `crate::days::learned`).

use crate::check::values::Values;
use crate::problem::Place;
use crate::project::{Name, Project, Side};
use ecow::eco_format;
use indexmap::IndexSet;
use jiff::civil::Date;
use std::collections::HashMap;
use std::iter::zip;

/// A coat of a face, with the day on which it was put on and the one on which it was dry.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct CheckedDried<'p> {
    /// Positions of the walls with that id.
    pub(crate) walls: Vec<usize>,
    pub(crate) side: Side,
    pub(crate) coat: &'p Name,
    pub(crate) placed: Date,
    /// Nothing: not yet.
    pub(crate) dry: Option<Date>,
}

/// Every record of drying of which nothing is refused.
pub(crate) fn read<'p>(project: &'p Project, values: &mut Values) -> Vec<CheckedDried<'p>> {
    let records = project.work.iter().flat_map(|work| &work.dried);
    let mut taken = HashMap::new();
    let mut found = Vec::new();
    for (number, of) in zip(1_usize.., records) {
        let place = Place::project()
            .field("work")
            .thing("drying", eco_format!("{number}"));
        let before = values.count_of_problems();
        let all = project.walls.iter().enumerate();
        let own = all.filter(|(_, wall)| wall.id == of.wall);
        let walls: Vec<usize> = own.map(|(at, _)| at).collect();
        let mut coats: IndexSet<&Name> = IndexSet::new();
        let mut has_face = false;
        for wall in walls.iter().filter_map(|at| project.walls.get(*at)) {
            if let Some(face) = wall.face(of.face) {
                has_face = true;
                let build_up = project.build_ups.get(&face.build_up);
                coats.extend(build_up.into_iter().flatten().map(|coat| &coat.coat));
            }
        }
        if walls.is_empty() {
            let ids = project.walls.iter().map(|wall| &wall.id);
            values.missing(&place.field("wall"), "wall", &of.wall, ids);
        } else if !has_face {
            let message = eco_format!("{} has no {} face", of.wall, of.face.word());
            values.refuse(place.field("face"), message);
        } else if !coats.contains(&of.coat) {
            values.missing(
                &place.field("coat"),
                "coat",
                &of.coat,
                coats.iter().copied(),
            );
        }
        if let Some(first) = taken.insert((&of.wall, of.face, &of.coat), number) {
            let message = eco_format!(
                "{} on {} {} is already in drying {first}",
                of.coat,
                of.wall,
                of.face.word()
            );
            values.refuse(place.field("coat"), message);
        }
        let placed = of.placed.value().date();
        let dry = of.dry.as_ref().map(|day| day.value().date());
        if let (Some(typed), Some(dry)) = (&of.dry, dry)
            && dry < placed
        {
            let message = eco_format!(
                "'{}' is before it was put on, '{}'",
                typed.text(),
                of.placed.text()
            );
            values.refuse(place.field("dry"), message);
        }
        if values.count_of_problems() == before {
            found.push(CheckedDried {
                walls,
                side: of.face,
                coat: &of.coat,
                placed,
                dry,
            });
        }
    }
    found
}
