//! Walls of two projects, matched by their ids. Not here: figures of the whole.

use super::One;
use crate::form::{self, Row, Subject};
use crate::project::{Name, Project, Side, Wall};
use ecow::{EcoString, eco_format};
use std::collections::{HashMap, VecDeque};
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
    /// The field in words: `length`, `outside face, background`.
    pub label: EcoString,
    /// What it was; `None` when it was not given.
    pub from: Option<EcoString>,
    /// What it is; `None` when it is not given.
    pub to: Option<EcoString>,
}

/// What became of the walls of `a` in `b`: those of `b` in their order, then those that are gone. Of two
/// of one id, the first is held against the first. One whose openings only stand in another order is as it
/// was.
pub fn walls(a: &One<'_>, b: &One<'_>) -> Vec<WallChange> {
    let ids = |one: &One<'_>| -> Vec<Name> {
        let ids = one.project.walls.iter().map(|wall| wall.id.clone());
        ids.collect()
    };
    let pairs = matched(&ids(a), &ids(b)).into_iter();
    let changes = pairs.filter_map(|pair| match pair {
        (None, None) => None,
        (None, Some(at)) => Some(WallChange::Added {
            id: b.project.walls.get(at)?.id.clone(),
            surface: surface(b, at),
        }),
        (Some(was), None) => Some(WallChange::TakenOut {
            id: a.project.walls.get(was)?.id.clone(),
            surface: surface(a, was),
        }),
        (Some(was), Some(at)) => {
            let (old, wall) = (a.project.walls.get(was)?, b.project.walls.get(at)?);
            if Arc::ptr_eq(old, wall) || old == wall {
                return None;
            }
            let fields = fields(a.project, was, b.project, at);
            (!fields.is_empty()).then(|| WallChange::Changed {
                id: wall.id.clone(),
                surfaces: [surface(a, was), surface(b, at)],
                fields,
            })
        }
    });
    changes.collect()
}

/// What was and what is, by position: the same where the ids are, the first with the first where there are
/// several. Those that are in their order, then those that are gone.
fn matched(before: &[Name], now: &[Name]) -> Vec<(Option<usize>, Option<usize>)> {
    let mut by_id: HashMap<&Name, VecDeque<usize>> = HashMap::with_capacity(before.len());
    for (was, id) in before.iter().enumerate() {
        by_id.entry(id).or_default().push_back(was);
    }
    let mut gone = vec![true; before.len()];
    let mut pairs = Vec::with_capacity(now.len());
    for (at, id) in now.iter().enumerate() {
        let was = by_id.get_mut(id).and_then(VecDeque::pop_front);
        if let Some(gone) = was.and_then(|was| gone.get_mut(was)) {
            *gone = false;
        }
        pairs.push((was, Some(at)));
    }
    let gone = gone.into_iter().enumerate().filter(|(_, gone)| *gone);
    pairs.extend(gone.map(|(was, _)| (Some(was), None)));
    pairs
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
    let ids = |wall: &Wall| -> Vec<Name> {
        let ids = wall.openings.iter().map(|opening| opening.id.clone());
        ids.collect()
    };
    let (old, new) = (ids(before), ids(now));
    let mut parts = Vec::new();
    for (was, at) in matched(&old, &new) {
        let id = at.and_then(|at| new.get(at));
        let id = id.or_else(|| old.get(was?)).cloned().unwrap_or_default();
        let words = eco_format!("opening {id}");
        parts.push((words, was.map(Part::Opening), at.map(Part::Opening)));
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
                label: label(row),
                from,
                to: row.text.clone(),
            });
        }
    }
    for row in before {
        if row.text.is_some() && !now.iter().any(|other| other.key == row.key) {
            found.push(FieldChange {
                part: part.into(),
                label: label(&row),
                from: row.text,
                to: None,
            });
        }
    }
}

/// The field in words, with what it belongs to where a wall has several such.
fn label(row: &Row) -> EcoString {
    let of_a_side = [Side::Outside, Side::Inside]
        .iter()
        .any(|side| row.key == side.word());
    if row.group.is_empty() || !(of_a_side || row.key.contains('.')) {
        row.label.clone()
    } else {
        eco_format!("{}, {}", row.group, row.label)
    }
}
