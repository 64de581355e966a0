//! What follows from a change of a thickness: the inside of the walls that end at it is shorter or longer
//! by as much. Not here: corners that are not square, whose insets are worked out by the plan.

use crate::tolerance::SAME_THICKNESS;
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::plan;
use hodful_takeoff::project::{Project, Side};

/// The neighbours of walls in their rings: for each wall its position, its thickness, and the positions of
/// the walls before and after it.
pub(super) type Neighbours = Vec<(usize, f64, [usize; 2])>;

/// The neighbours of some walls.
pub(super) fn neighbours(project: &Project, walls: &[usize]) -> Neighbours {
    let mut found = Vec::new();
    for ring in plan::rings(&project.walls) {
        let of: Vec<usize> = ring.walls.iter().map(|wall| wall.wall).collect();
        for (at, wall) in of
            .iter()
            .enumerate()
            .filter(|(_, wall)| walls.contains(wall))
        {
            let before = of.get((at + of.len() - 1) % of.len());
            let after = of.get((at + 1) % of.len());
            if let (Some(before), Some(after), Some(of)) = (before, after, project.walls.get(*wall))
            {
                found.push((*wall, of.thickness.value().value, [*before, *after]));
            }
        }
    }
    found
}

/// Gives the inside faces that end at walls of another thickness the inset that goes with it, where they had
/// the old one. Gives how many.
pub(super) fn insides(project: &mut Project, neighbours: &Neighbours) -> usize {
    let mut followed = 0;
    for (wall, old, [before, after]) in neighbours {
        let Some(text) = project
            .walls
            .get(*wall)
            .map(|wall| wall.thickness.text().to_owned())
        else {
            continue;
        };
        // The right end of the wall before meets it, and the left end of the wall after.
        for (other, key) in [
            (*before, "inside.inset.right"),
            (*after, "inside.inset.left"),
        ] {
            let inset = project
                .walls
                .get(other)
                .and_then(|wall| wall.face(Side::Inside)?.inset.as_ref())
                .and_then(|inset| {
                    if key.ends_with("right") {
                        inset.right.as_ref()
                    } else {
                        inset.left.as_ref()
                    }
                })
                .map(|inset| inset.value().value);
            let same = inset.is_some_and(|inset| (inset - old).abs() < SAME_THICKNESS);
            if same && form::set(project, Subject::Wall(other), key, &text).is_ok() {
                followed += 1;
            }
        }
    }
    followed
}
