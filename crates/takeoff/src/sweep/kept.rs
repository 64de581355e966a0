//! A sweep that is kept while only its own field moves: the curve is the same then, and only the mark of where the
//! project stands goes along it. Not here: drawing it.

use super::{Ask, Field, Sweep, sweep};
use crate::bench::Bench;
use crate::compare::Line;
use crate::form::{self, Subject};
use crate::project::{Project, Wall};
use ecow::EcoString;
use std::iter::zip;
use std::sync::Arc;

/// A sweep with the project that it is of, for a key that is held.
#[derive(Debug)]
pub struct Kept {
    /// The project at the sweep, so far as it is not its walls.
    bare: Project,
    walls: Vec<Arc<Wall>>,
    /// Whether nothing was refused: what is refused already keeps nothing else, so that the curve depends on it.
    is_sound: bool,
    ask: Ask,
    lines: Vec<Line>,
    sweep: Sweep,
}

impl Kept {
    /// Works a [`sweep()`] out and keeps it.
    ///
    /// # Errors
    /// As [`sweep()`].
    pub fn new(bench: &Bench, ask: Ask, lines: Vec<Line>) -> Result<Self, EcoString> {
        let sweep = sweep(bench, &ask, &lines)?;
        let mut bare = Project::clone(bench.project());
        Ok(Self {
            walls: std::mem::take(&mut bare.walls),
            bare,
            is_sound: bench.problems().next().is_none(),
            ask,
            lines,
            sweep,
        })
    }

    /// The sweep.
    pub fn sweep(&self) -> &Sweep {
        &self.sweep
    }

    /// Goes along with a bench, when its project differs from that of the sweep in nothing but the field. Says whether
    /// it did: then the sweep is to the last bit what working it out anew would come to.
    pub fn follow(&mut self, bench: &Bench, ask: &Ask, lines: &[Line]) -> bool {
        let can = self.is_sound && bench.problems().next().is_none();
        if !can || self.ask != *ask || self.lines != lines || !self.has_walls_of(bench.project()) {
            return false;
        }
        let Ok(field) = Field::find(bench.project(), &ask.subjects, &ask.key) else {
            return false;
        };
        if field.scale != self.sweep.scale || !self.is_else(bench.project()) {
            return false;
        }
        let one = bench.one(None);
        for curve in &mut self.sweep.curves {
            curve.now = curve.line.value(&one);
        }
        self.sweep.present = field.present;
        true
    }

    /// Whether the walls are the very same.
    fn has_walls_of(&self, project: &Project) -> bool {
        let both = zip(&self.walls, &project.walls);
        self.walls.len() == project.walls.len() && both.into_iter().all(|(a, b)| Arc::ptr_eq(a, b))
    }

    /// Whether a project is that of the sweep but for the field and the walls.
    fn is_else(&self, project: &Project) -> bool {
        let mut other = Project::clone(project);
        other.walls.clear();
        let texts = self.ask.subjects.iter().map(|subject| {
            // What nothing is typed for may be made otherwise than as typed.
            self.text(&other, *subject)?;
            let text = self.text(&self.bare, *subject)?;
            form::set(&mut other, *subject, &self.ask.key, &text).ok()
        });
        let put: Option<()> = texts.collect();
        put.is_some() && other == self.bare
    }

    /// What is typed in the field of a thing.
    fn text(&self, project: &Project, subject: Subject) -> Option<EcoString> {
        let rows = form::rows(project, subject).into_iter();
        rows.filter(|row| row.key == self.ask.key)
            .find_map(|row| row.text)
    }
}
