//! Which curve stands in the place of the layers on the page of coats. Not here: drawing it.

use hodful_takeoff::compare::{Line, line_of_material};
use hodful_takeoff::{Evaluation, Project};

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
