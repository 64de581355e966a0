//! What stands in the lists. Not here: how it looks.

use super::{Part, State, Walls};
use crate::text::contains;
use hodful_takeoff::Evaluation;
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::problem::{Problem, Severity};
use hodful_takeoff::project::{MaterialKind, Project, Wall};
use std::collections::HashMap;

/// The order of the list of walls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sort {
    /// As entered.
    Entered,
    /// By id.
    Id,
    /// By true surface, the largest first.
    Surface,
    /// What is refused first, then what is doubtful.
    State,
}

impl Sort {
    /// The next order.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Entered => Self::Id,
            Self::Id => Self::Surface,
            Self::Surface => Self::State,
            Self::State => Self::Entered,
        }
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Entered => "as entered",
            Self::Id => "by id",
            Self::Surface => "by surface",
            Self::State => "what is wrong first",
        }
    }
}

/// A row of the list of walls, by positions in the project.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WallRow {
    /// A wall.
    Wall(usize),
    /// An opening of the chosen wall.
    Opening(usize, usize),
    /// A pocket of the chosen wall.
    Pocket(usize, usize),
}

/// Where the problems stand.
#[derive(Debug, Clone, Default)]
pub struct Located {
    /// For each problem what it is about.
    pub subjects: Vec<Subject>,
    worst: HashMap<Subject, Severity>,
}

impl Located {
    /// The worst that is said of a thing itself, or, for a wall, of anything in it.
    pub fn worst(&self, subject: Subject) -> Option<Severity> {
        self.worst.get(&subject).copied()
    }

    fn note(&mut self, subject: Subject, severity: Severity) {
        let worst = self.worst.entry(subject).or_insert(severity);
        if severity == Severity::Refused {
            *worst = severity;
        }
    }
}

/// Finds where the problems of a project stand.
pub fn locate(project: &Project, problems: &[Problem]) -> Located {
    let mut located = Located::default();
    if problems.is_empty() {
        return located;
    }
    located.subjects = form::subjects(project, problems.iter().map(|problem| &problem.place));
    for (problem, subject) in problems.iter().zip(located.subjects.clone()) {
        located.note(subject, problem.severity);
        let whole = match subject {
            Subject::Opening { wall, .. } | Subject::Pocket { wall, .. } => Subject::Wall(wall),
            Subject::Coat { build_up, .. } => Subject::BuildUp(build_up),
            Subject::Package { material, .. } => Subject::Material(material),
            Subject::Panel { mix, .. } => Subject::Mix(mix),
            Subject::Phase(_) => Subject::Buying,
            Subject::Alteration { alternative, .. } => Subject::Alternative(alternative),
            _ => continue,
        };
        located.note(whole, problem.severity);
    }
    located
}

/// Build-ups, each with its coats.
pub(super) fn coats(project: &Project) -> Vec<Subject> {
    project
        .build_ups
        .values()
        .enumerate()
        .flat_map(|(build_up, coats)| {
            let of = (0..coats.len()).map(move |coat| Subject::Coat { build_up, coat });
            std::iter::once(Subject::BuildUp(build_up)).chain(of)
        })
        .collect()
}

/// The project, backgrounds, mixes, materials with their packages, the mixer.
pub(super) fn stores(project: &Project) -> Vec<Subject> {
    let mut rows = vec![Subject::Project];
    rows.extend((0..project.backgrounds.len()).map(Subject::Background));
    for (mix, of) in project.mixes.values().enumerate() {
        rows.push(Subject::Mix(mix));
        rows.extend((0..of.test_panels.len()).map(|panel| Subject::Panel { mix, panel }));
    }
    for (material, of) in project.materials.values().enumerate() {
        rows.push(Subject::Material(material));
        rows.extend((0..of.packages.len()).map(|package| Subject::Package { material, package }));
    }
    rows.push(Subject::Mixer);
    rows
}

/// Materials whose grains are known or can be, then blends.
pub(super) fn soils(project: &Project) -> Vec<Subject> {
    let materials = project.materials.values().enumerate();
    let soils = materials.filter(|(_, of)| super::is_soil(of));
    let soils = soils.map(|(at, _)| Subject::Material(at));
    soils
        .chain((0..project.blends.len()).map(Subject::Blend))
        .collect()
}

/// Materials that some coat takes but for water, suppliers, phases, and how the order is placed.
pub(super) fn order(project: &Project, evaluation: &Evaluation) -> Vec<Subject> {
    let needed = evaluation.materials.iter().enumerate();
    let water = |at: usize| {
        let of = project.materials.get_index(at);
        of.is_some_and(|(_, of)| of.kind == MaterialKind::Water)
    };
    let needed = needed.filter(|(at, of)| !of.uses.is_empty() && !water(*at));
    let phases = project.buying.iter().flat_map(|buying| &buying.phases);
    needed
        .map(|(at, _)| Subject::Material(at))
        .chain((0..project.suppliers.len()).map(Subject::Supplier))
        .chain((0..phases.count()).map(Subject::Phase))
        .chain([Subject::Buying])
        .collect()
}

/// Mixes.
pub(super) fn card(project: &Project) -> Vec<Subject> {
    (0..project.mixes.len()).map(Subject::Mix).collect()
}

/// The project as it stands, then options, each with its changes.
pub(super) fn options(project: &Project) -> Vec<Subject> {
    let mut rows = vec![Subject::Project];
    for (alternative, of) in project.options.values().enumerate() {
        rows.push(Subject::Alternative(alternative));
        rows.extend((0..of.changes.len()).map(|change| Subject::Alteration {
            alternative,
            change,
        }));
    }
    rows
}

/// Uncertain inputs, records of coats, and what came.
pub(super) fn chances(project: &Project) -> Vec<Subject> {
    (0..project.uncertain.len())
        .map(Subject::Uncertain)
        .chain((0..project.done.len()).map(Subject::Done))
        .chain((0..project.delivered.len()).map(Subject::Delivered))
        .collect()
}

/// The place of a field of a soil among the others: its tests before all else, the quickest first.
pub(super) fn tests_first(key: &str) -> u8 {
    const ORDER: [&str; 6] = [
        "soil.jar.",
        "soil.hand.",
        "soil.shares.",
        "soil.",
        "screen_test.",
        "bulking_test.",
    ];
    (0..)
        .zip(ORDER)
        .find(|(_, start)| key.starts_with(start))
        .map_or(u8::MAX, |(at, _)| at)
}

fn children(wall: &Wall) -> usize {
    wall.openings.len() + wall.pockets.len()
}

impl State {
    /// How many rows the list of walls has: the walls shown, and what is in the chosen one.
    pub(super) fn wall_rows(&self) -> usize {
        let inside = self
            .walls
            .shown_at(self.walls.wall)
            .and(self.wall())
            .map_or(0, children);
        self.walls.shown.len() + inside
    }

    /// The chosen row.
    pub(super) fn wall_row(&self) -> usize {
        let at = self.walls.shown_at(self.walls.wall).unwrap_or(0);
        let openings = self.wall().map_or(0, |wall| wall.openings.len());
        at + match self.walls.part {
            Part::Wall => 0,
            Part::Opening(opening) => 1 + opening,
            Part::Pocket(pocket) => 1 + openings + pocket,
        }
    }

    /// What stands in a row of the list of walls.
    pub fn wall_row_at(&self, row: usize) -> Option<WallRow> {
        let chosen = self.walls.wall;
        let Some(at) = self.walls.shown_at(chosen) else {
            return self.walls.shown.get(row).map(|wall| WallRow::Wall(*wall));
        };
        let (openings, inside) = self
            .wall()
            .map_or((0, 0), |wall| (wall.openings.len(), children(wall)));
        if row <= at {
            self.walls.shown.get(row).map(|wall| WallRow::Wall(*wall))
        } else if row <= at + inside {
            let of = row - at - 1;
            Some(if of < openings {
                WallRow::Opening(chosen, of)
            } else {
                WallRow::Pocket(chosen, of - openings)
            })
        } else {
            self.walls
                .shown
                .get(row - inside)
                .map(|wall| WallRow::Wall(*wall))
        }
    }

    /// Makes everything that follows from the project and the filter right again: what is shown, what
    /// is chosen, the marks at the problems.
    pub(crate) fn refresh(&mut self) {
        let project = std::sync::Arc::clone(self.project());
        let filter = self.walls.filter.as_str();
        let fits = |wall: &Wall| {
            let face = |face: &hodful_takeoff::project::Face| contains(&face.build_up, filter);
            filter.is_empty()
                || contains(&wall.id, filter)
                || wall
                    .name
                    .as_deref()
                    .is_some_and(|name| contains(name, filter))
                || wall
                    .sheet
                    .as_deref()
                    .is_some_and(|sheet| contains(sheet, filter))
                || wall.outside.as_ref().is_some_and(face)
                || wall.inside.as_ref().is_some_and(face)
        };
        let mut shown: Vec<usize> = (0..project.walls.len())
            .filter(|at| project.walls.get(*at).is_some_and(|wall| fits(wall)))
            .collect();
        let id = |at: &usize| project.walls.get(*at).map(|wall| wall.id.clone());
        match self.walls.sort {
            Sort::Entered => {}
            Sort::Id => shown.sort_by_cached_key(|at| id(at).map(|id| natural(&id))),
            Sort::Surface => {
                let surface = |at: &usize| self.wall_surface(*at);
                shown.sort_by(|a, b| surface(b).total_cmp(&surface(a)));
            }
            Sort::State => shown.sort_by_key(|at| match self.located.worst(Subject::Wall(*at)) {
                Some(Severity::Refused) => 0,
                Some(Severity::Doubtful) => 1,
                None => 2,
            }),
        }
        self.walls.shown = shown;
        self.walls.wall = self.walls.wall.min(project.walls.len().saturating_sub(1));
        if let (None, Some(first)) = (
            self.walls.shown_at(self.walls.wall),
            self.walls.shown.first(),
        ) {
            self.walls.wall = *first;
            self.walls.part = Part::Wall;
        }
        self.untick_gone();
        let (openings, pockets) = self
            .wall()
            .map_or((0, 0), |wall| (wall.openings.len(), wall.pockets.len()));
        self.walls.part = match self.walls.part {
            Part::Opening(at) if at < openings => Part::Opening(at),
            Part::Pocket(at) if at < pockets => Part::Pocket(at),
            _ => Part::Wall,
        };
        let last = |len: usize| len.saturating_sub(1);
        self.coats_row = self.coats_row.min(last(coats(&project).len()));
        self.stores_row = self.stores_row.min(last(stores(&project).len()));
        self.problems_row = self.problems_row.min(last(self.doc.problems().len()));
        self.yard.soils_row = self.yard.soils_row.min(last(soils(&project).len()));
        let order = order(&project, self.doc.bench().evaluation());
        self.yard.order_row = self.yard.order_row.min(last(order.len()));
        self.yard.card_row = self.yard.card_row.min(last(card(&project).len()));
        self.field = self.field.min(last(self.rows().len()));
    }

    /// Takes the ticks away from what is not there any more.
    pub(crate) fn untick_gone(&mut self) {
        if self.walls.ticked.is_empty() {
            return;
        }
        let project = std::sync::Arc::clone(self.project());
        let walls: HashMap<&str, &Wall> = project
            .walls
            .iter()
            .map(|wall| (wall.id.as_str(), &**wall))
            .collect();
        self.walls.ticked.retain(|(wall, opening)| {
            walls.get(wall.as_str()).is_some_and(|wall| {
                opening
                    .as_ref()
                    .is_none_or(|id| wall.openings.iter().any(|own| own.id == *id))
            })
        });
    }

    /// As [`Self::relocate`], unless nothing that matters to it changed: walls as many as before, and
    /// the same refusals.
    pub(crate) fn relocate_after(&mut self, before: &Project) {
        let walls = before.walls.len() == self.project().walls.len();
        if !walls
            || self.located.subjects.len() != self.doc.problems().len()
            || self.doc.refusals_changed()
        {
            self.relocate();
        }
    }

    /// Finds anew where the problems stand.
    pub(crate) fn relocate(&mut self) {
        self.located = locate(self.doc.project(), self.doc.problems());
    }

    /// True surface of both faces of one such wall, mm²; nothing where it cannot be told.
    pub fn wall_surface(&self, at: usize) -> f64 {
        let faces = self.doc.bench().evaluation().faces.get(at);
        faces.map_or(0.0, |faces| {
            faces
                .iter()
                .flatten()
                .map(|face| face.measure.true_surface())
                .sum()
        })
    }
}

impl Walls {
    /// The place in the list of a wall.
    pub fn shown_at(&self, wall: usize) -> Option<usize> {
        // As entered they are in rising order.
        match self.shown.binary_search(&wall) {
            Ok(at) => Some(at),
            Err(_) => self.shown.iter().position(|shown| *shown == wall),
        }
    }
}

/// Ids as people sort them: W2 before W10.
fn natural(id: &str) -> Vec<(bool, u64, String)> {
    let mut parts: Vec<(bool, u64, String)> = Vec::new();
    for letter in id.chars() {
        match (letter.to_digit(10), parts.last_mut()) {
            (Some(digit), Some((true, number, _))) => {
                *number = number.saturating_mul(10).saturating_add(u64::from(digit));
            }
            (Some(digit), _) => parts.push((true, u64::from(digit), String::new())),
            (None, Some((false, _, words))) => words.push(letter),
            (None, _) => parts.push((false, 0, letter.to_string())),
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::natural;

    #[test]
    fn ids_sort_as_people_count() {
        let mut ids = ["W10", "W2", "S", "W1b", "W1"];
        ids.sort_by_key(|id| natural(id));
        assert_eq!(ids, ["S", "W1", "W1b", "W2", "W10"]);
    }
}
