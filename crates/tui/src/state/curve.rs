//! The curve in the place of the layers on the page of coats: which it is, and the one that is drawn now. Not here:
//! how it is put on the screen.

use ecow::EcoString;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::compare::{Line, line_of_material};
use hodful_takeoff::drawing::{self, Drawing};
use hodful_takeoff::form::Subject;
use hodful_takeoff::sweep::{Ask, Kept};
use hodful_takeoff::{Evaluation, Project};
use std::sync::Arc;

/// Points of a curve: as many as there are dots across a wide screen.
const POINTS: usize = 201;

/// Nothing is looked for between the points of a curve: a dot is not finer than they are.
const WITHIN: f64 = 1.0;

/// The least range, mm: two inches, or 50 mm. A larger one is twice as long as the next smaller one, so that the axis
/// stands still while a key is held, and the same thickness always has the same axis.
const RANGE: [(UnitSystem, f64); 2] = [(UnitSystem::Us, 50.8), (UnitSystem::Metric, 50.0)];

/// Share of its range that a coat has at most.
const FILLS: f64 = 0.9;

/// Curves that are kept: of the range now, and of the one beside it.
const KEPT: usize = 2;

/// What is drawn over the thickness of the chosen coat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Curve {
    /// Nothing: the layers stand there.
    #[default]
    Layers,
    /// Loads of the mixer.
    Batches,
    /// Cost.
    Cost,
    /// A material as delivered, by its position.
    Material(usize),
}

impl Curve {
    /// The next of them: batches, cost, each material, and the layers again.
    #[must_use]
    pub fn next(self, project: &Project) -> Self {
        let material = |at: usize| {
            let left = project.materials.len().saturating_sub(at);
            if left == 0 {
                Self::Layers
            } else {
                Self::Material(at)
            }
        };
        match self {
            Self::Layers => Self::Batches,
            Self::Batches => Self::Cost,
            Self::Cost => material(0),
            Self::Material(at) => material(at + 1),
        }
    }

    /// The line of a comparison that it is; `None` for the layers.
    pub fn line(self, project: &Project, evaluation: &Evaluation) -> Option<Line> {
        match self {
            Self::Layers => None,
            Self::Batches => Some(Line::Batches),
            Self::Cost => Some(Line::Cost),
            Self::Material(at) => {
                let (name, _) = project.materials.get_index(at)?;
                line_of_material(project, evaluation, name)
            }
        }
    }
}

/// A curve over the thickness of a coat, with the project and the coat that it is of.
#[derive(Debug)]
pub(crate) struct Drawn {
    project: Arc<Project>,
    coat: Subject,
    what: Curve,
    /// What is drawn, the last; before it what was drawn of another range. Nothing when it cannot be told.
    kept: Vec<Kept>,
    drawing: Drawing,
}

impl Drawn {
    /// Draws a curve; `None` for the layers. What was worked out before is kept while nothing else changes, so that it is
    /// the mark that moves along the curve.
    pub(crate) fn new(
        bench: &Bench,
        coat: Subject,
        what: Curve,
        before: Option<Self>,
    ) -> Option<Self> {
        let project = bench.project();
        let line = what.line(project, bench.evaluation())?;
        let before = before.filter(|of| of.coat == coat);
        let is_same = |of: &Self| Arc::ptr_eq(&of.project, project) && of.what == what;
        if before.as_ref().is_some_and(is_same) {
            return before;
        }
        let name = line.label();
        let mut kept = before.map_or_else(Vec::new, |of| of.kept);
        let swept = sweep(bench, coat, vec![line], &mut kept);
        let drawing = match (swept, kept.last()) {
            (Ok(()), Some(kept)) => drawing::curve(kept.sweep(), 0, &name, project.units),
            (Ok(()), None) => Drawing::default(),
            (Err(words), _) => {
                kept.clear();
                Drawing::nothing(words)
            }
        };
        Some(Self {
            project: Arc::clone(project),
            coat,
            what,
            kept,
            drawing,
        })
    }

    /// What is drawn.
    pub(crate) fn drawing(&self) -> &Drawing {
        &self.drawing
    }
}

/// Works the curve out, or takes one that is kept along; it is the last then.
fn sweep(
    bench: &Bench,
    coat: Subject,
    lines: Vec<Line>,
    kept: &mut Vec<Kept>,
) -> Result<(), EcoString> {
    let project = bench.project();
    let ask = Ask {
        to: range(project, coat),
        points: POINTS,
        within: WITHIN,
        ..Ask::usual(project, coat, "thickness")?
    };
    let followed = kept
        .iter_mut()
        .position(|kept| kept.follow(bench, &ask, &lines));
    let last = match followed {
        Some(at) => kept.remove(at),
        None => Kept::new(bench, ask, lines)?,
    };
    kept.push(last);
    if kept.len() > KEPT {
        kept.remove(0);
    }
    Ok(())
}

/// How far the thickness of a coat goes, mm.
fn range(project: &Project, coat: Subject) -> f64 {
    let Subject::Coat { build_up, coat } = coat else {
        return 0.0;
    };
    let coats = project.build_ups.get_index(build_up);
    let of = coats.and_then(|(_, coats)| coats.get(coat));
    let has = of.map_or(0.0, |of| of.thickness.value().value);
    let least = RANGE.iter().find(|(units, _)| *units == project.units);
    let mut to = least.map_or(0.0, |(_, least)| *least);
    while to > 0.0 && to.is_finite() && has > FILLS * to {
        to *= 2.0;
    }
    to
}
