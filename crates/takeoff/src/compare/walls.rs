//! Walls of two projects, matched by their ids. Not here: figures of the whole.

use super::One;
use crate::form::{self, Subject};
use crate::project::{Name, Project, Wall};
use ecow::{EcoString, eco_format};
use std::sync::Arc;

/// What became of a wall.
#[derive(Debug, Clone, PartialEq)]
pub enum WallChange {
    /// It is new.
    Added {
        /// Its id.
        id: Name,
        /// Its true surface, all of it, mm²; `None` where it cannot be told.
        surface: Option<f64>,
    },
    /// It is gone.
    TakenOut {
        /// Its id.
        id: Name,
        /// The true surface that it had, mm²; `None` where it cannot be told.
        surface: Option<f64>,
    },
    /// Something of it is otherwise.
    Changed {
        /// Its id.
        id: Name,
        /// True surface before and now, mm².
        surfaces: [Option<f64>; 2],
        /// The fields that are otherwise.
        fields: Vec<FieldChange>,
    },
}

/// A field that is otherwise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldChange {
    /// The part of the wall: `opening W1`; empty for the wall itself.
    pub part: EcoString,
    /// The field in words.
    pub label: EcoString,
    /// What it was; `None` when it was not given.
    pub from: Option<EcoString>,
    /// What it is; `None` when it is not given.
    pub to: Option<EcoString>,
}

/// What became of the walls of `a` in `b`: those of `b` in their order, then those that are gone. Of two
/// of one id, the first is held against the first.
pub fn walls(a: &One<'_>, b: &One<'_>) -> Vec<WallChange> {
    let mut taken = vec![false; a.project.walls.len()];
    let mut found = Vec::new();
    for (at, wall) in b.project.walls.iter().enumerate() {
        let mut before = a.project.walls.iter().enumerate();
        let before = before.find(|(i, one)| one.id == wall.id && taken.get(*i) == Some(&false));
        let Some((was, old)) = before else {
            found.push(WallChange::Added {
                id: wall.id.clone(),
                surface: surface(b, at),
            });
            continue;
        };
        if let Some(taken) = taken.get_mut(was) {
            *taken = true;
        }
        if Arc::ptr_eq(old, wall) || old == wall {
            continue;
        }
        found.push(WallChange::Changed {
            id: wall.id.clone(),
            surfaces: [surface(a, was), surface(b, at)],
            fields: fields(a.project, was, b.project, at),
        });
    }
    let gone = a.project.walls.iter().enumerate().zip(taken);
    found.extend(
        gone.filter(|(_, taken)| !taken)
            .map(|((at, wall), _)| WallChange::TakenOut {
                id: wall.id.clone(),
                surface: surface(a, at),
            }),
    );
    found
}

/// True surface of a wall, both faces and all of its kind.
fn surface(of: &One<'_>, at: usize) -> Option<f64> {
    let count = f64::from(of.project.walls.get(at)?.count.unwrap_or(1));
    let faces = of.evaluation.faces.get(at)?;
    let sum: f64 = faces
        .iter()
        .flatten()
        .map(|f| f.measure.true_surface())
        .sum();
    faces.iter().any(Option::is_some).then_some(sum * count)
}

/// The fields of a wall and its parts that are otherwise.
fn fields(old: &Project, was: usize, new: &Project, at: usize) -> Vec<FieldChange> {
    let mut found = Vec::new();
    between(
        "",
        old,
        Some(Subject::Wall(was)),
        new,
        Some(Subject::Wall(at)),
        &mut found,
    );
    let (Some(before), Some(now)) = (old.walls.get(was), new.walls.get(at)) else {
        return found;
    };
    for (part, was_part, is_part) in parts(before, now) {
        let of = |wall: usize, part: Option<Part>| {
            part.map(|part| match part {
                Part::Opening(opening) => Subject::Opening { wall, opening },
                Part::Pocket(pocket) => Subject::Pocket { wall, pocket },
            })
        };
        let (was, is) = (of(was, was_part), of(at, is_part));
        match (was, is) {
            (Some(_), Some(_)) => between(&part, old, was, new, is, &mut found),
            _ => found.push(FieldChange {
                part,
                label: EcoString::new(),
                from: was.map(|_| "there".into()),
                to: is.map(|_| "there".into()),
            }),
        }
    }
    found
}

/// A part of a wall by its position.
#[derive(Debug, Clone, Copy)]
enum Part {
    Opening(usize),
    Pocket(usize),
}

/// The parts of both: openings by their ids, pockets by their order.
fn parts(before: &Wall, now: &Wall) -> Vec<(EcoString, Option<Part>, Option<Part>)> {
    let mut parts = Vec::new();
    for (at, opening) in now.openings.iter().enumerate() {
        let was = before.openings.iter().position(|one| one.id == opening.id);
        let words = eco_format!("opening {}", opening.id);
        parts.push((words, was.map(Part::Opening), Some(Part::Opening(at))));
    }
    for (at, opening) in before.openings.iter().enumerate() {
        if !now.openings.iter().any(|one| one.id == opening.id) {
            let words = eco_format!("opening {}", opening.id);
            parts.push((words, Some(Part::Opening(at)), None));
        }
    }
    for at in 0..before.pockets.len().max(now.pockets.len()) {
        let of = |wall: &Wall| (at < wall.pockets.len()).then_some(Part::Pocket(at));
        let words = eco_format!("pocket {}", at.saturating_add(1));
        parts.push((words, of(before), of(now)));
    }
    parts
}

fn between(
    part: &str,
    old: &Project,
    was: Option<Subject>,
    new: &Project,
    is: Option<Subject>,
    found: &mut Vec<FieldChange>,
) {
    let rows = |project: &Project, subject: Option<Subject>| {
        subject.map_or_else(Vec::new, |subject| form::rows(project, subject))
    };
    let (before, now) = (rows(old, was), rows(new, is));
    for row in &now {
        let other = before.iter().find(|other| other.key == row.key);
        let from = other.and_then(|other| other.text.clone());
        if from != row.text {
            found.push(FieldChange {
                part: part.into(),
                label: row.label.clone(),
                from,
                to: row.text.clone(),
            });
        }
    }
    for row in before {
        if row.text.is_some() && !now.iter().any(|other| other.key == row.key) {
            found.push(FieldChange {
                part: part.into(),
                label: row.label,
                from: row.text,
                to: None,
            });
        }
    }
}
