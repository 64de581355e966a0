//! The curve in the place of the layers on the page of coats: which it is, and the one that is drawn now. Not here:
//! how it is put on the screen.

use hodful_takeoff::bench::Bench;
use hodful_takeoff::compare::{Line, line_of_material};
use hodful_takeoff::drawing::{self, Drawing};
use hodful_takeoff::form::Subject;
use hodful_takeoff::sweep::{Ask, Kept};
use hodful_takeoff::{Evaluation, Project};
use std::ops::Range;
use std::sync::Arc;

/// Points of a curve: as many as there are dots across a wide screen.
const POINTS: usize = 201;

/// Nothing is looked for between the points of a curve: a dot is not finer than they are.
const WITHIN: f64 = 1.0;

/// How much less and how much more than the range of before the usual one may be for it to stay: a coat then has
/// between a quarter and nine tenths of it.
const STAYS: Range<f64> = 0.5..1.8;

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
    /// The greatest thickness of its range, mm.
    to: f64,
    /// What is drawn; `None` when it cannot be told.
    kept: Option<Kept>,
    drawing: Drawing,
}

impl Drawn {
    /// Draws a curve; `None` for the layers. Of what was drawn before as much is kept as is still true: the range while
    /// the thickness is well within it, and the curve while nothing else changes, so that it is the mark that moves.
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
        let (stood, kept) = before.map_or((0.0, None), |of| (of.to, of.kept));
        let name = line.label();
        let lines = vec![line];
        let ask = Ask::usual(project, coat, "thickness").map(|usual| Ask {
            to: if STAYS.contains(&(usual.to / stood)) {
                stood
            } else {
                usual.to
            },
            points: POINTS,
            within: WITHIN,
            ..usual
        });
        let to = ask.as_ref().map_or(0.0, |ask| ask.to);
        let kept = ask.and_then(|ask| {
            let mut kept = kept;
            let followed = kept.take_if(|kept| kept.follow(bench, &ask, &lines));
            followed.map_or_else(|| Kept::new(bench, ask, lines), Ok)
        });
        let drawing = match &kept {
            Ok(kept) => drawing::curve(kept.sweep(), 0, &name, project.units),
            Err(words) => Drawing::nothing(words.clone()),
        };
        Some(Self {
            project: Arc::clone(project),
            coat,
            what,
            to,
            kept: kept.ok(),
            drawing,
        })
    }

    /// What is drawn.
    pub(crate) fn drawing(&self) -> &Drawing {
        &self.drawing
    }
}
