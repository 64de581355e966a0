//! What a line does to a project. Not here: undo.

use ecow::{EcoString, eco_format};
use hodful_takeoff::Project;
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::{Opening, Pocket, Wall};
use std::sync::Arc;

/// Walls in the label of a change before it only counts them.
const NAMED: usize = 6;

/// What a line does to a project.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Walls are added behind the others, in this order.
    Walls(Vec<Wall>),
    /// An opening is added to a wall.
    Opening {
        /// Position of the wall.
        wall: usize,
        /// The opening.
        opening: Opening,
    },
    /// A pocket is added to a wall.
    Pocket {
        /// Position of the wall.
        wall: usize,
        /// The pocket.
        pocket: Pocket,
    },
}

impl Change {
    /// Does it. Gives what was added, to be chosen: the first of several walls. `None`, and nothing is
    /// done, when the wall is not there or there are no walls to add.
    pub fn apply(&self, project: &mut Project) -> Option<Subject> {
        match self {
            Self::Walls(walls) => {
                let first = project.walls.len();
                project.walls.extend(walls.iter().cloned().map(Arc::new));
                (!walls.is_empty()).then_some(Subject::Wall(first))
            }
            Self::Opening { wall, opening } => {
                let openings = &mut Arc::make_mut(project.walls.get_mut(*wall)?).openings;
                openings.push(opening.clone());
                Some(Subject::Opening {
                    wall: *wall,
                    opening: openings.len() - 1,
                })
            }
            Self::Pocket { wall, pocket } => {
                let pockets = &mut Arc::make_mut(project.walls.get_mut(*wall)?).pockets;
                pockets.push(pocket.clone());
                Some(Subject::Pocket {
                    wall: *wall,
                    pocket: pockets.len() - 1,
                })
            }
        }
    }

    /// What it does, in words, for undo: `add window W2 to wall S`. `project` is the one it was read
    /// against, or that after it.
    pub fn label(&self, project: &Project) -> EcoString {
        let wall = |at: &usize| {
            let wall = project.walls.get(*at);
            wall.map_or_else(EcoString::new, |wall| wall.id.clone())
        };
        match self {
            Self::Walls(walls) => match walls.as_slice() {
                [one] => eco_format!("add wall {}", one.id),
                some if some.len() <= NAMED => {
                    let ids: Vec<&str> = some.iter().map(|wall| wall.id.as_str()).collect();
                    eco_format!("add walls {}", ids.join(", "))
                }
                many => eco_format!("add {} walls", many.len()),
            },
            Self::Opening { wall: at, opening } => {
                let kind = opening.kind.as_deref().unwrap_or("opening");
                eco_format!("add {kind} {} to wall {}", opening.id, wall(at))
            }
            Self::Pocket { wall: at, .. } => eco_format!("add a pocket to wall {}", wall(at)),
        }
    }
}
