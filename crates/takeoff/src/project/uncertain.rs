//! How far inputs may be off, as typed. Not here: what follows from it (see `crate::chances`).

use super::{Name, words};
use hodful_quantities::Typed;
use hodful_quantities::read::Level;

words! {
    /// Inputs that are never known quite.
    UncertainInput {
        /// Thickness of a coat as it is put on.
        Thickness = "thickness",
        /// Dubbing out of a background.
        DubbingOut = "dubbing out",
        /// Shrinkage of the thickness of a coat.
        Shrinkage = "shrinkage",
        /// Loss of a coat.
        Loss = "loss",
        /// Yield of a mix.
        Yield = "yield",
        /// Moisture of a material as delivered.
        Moisture = "moisture",
        /// Bulking of a material as delivered.
        Bulking = "bulking",
        /// What the screen holds back of a material.
        Reject = "screen reject",
    }
}

/// One input with how far it may be off: three points, or a mean and a spread.
///
/// A share (`90 %`) of a thickness or a depth is a share of what the project has; of all else, which are shares
/// themselves, a value is that share and a spread is in its points. Everything of one entry is
/// off together; what differs from wall to wall is told by `wall_to_wall`.
#[derive(Debug, Clone, PartialEq)]
pub struct Uncertain {
    /// The input.
    pub of: UncertainInput,
    /// Whose: the name of a coat (in every build-up), a background, a mix or a material. All of them, off
    /// together, when not given.
    pub name: Option<Name>,
    /// The lowest that it may be.
    pub lowest: Option<Typed<Level>>,
    /// The likeliest; what the project has when not given.
    pub likely: Option<Typed<Level>>,
    /// The highest that it may be.
    pub highest: Option<Typed<Level>>,
    /// The mean that was measured, instead of three points.
    pub mean: Option<Typed<Level>>,
    /// Standard deviation of that mean.
    pub spread: Option<Typed<Level>>,
    /// Standard deviation from wall to wall besides; of thickness and dubbing out only.
    pub wall_to_wall: Option<Typed<Level>>,
    /// Where it was measured, or who says so.
    pub source: Option<Name>,
}

impl Uncertain {
    /// An input of which nothing is said yet.
    pub fn of(of: UncertainInput, name: Option<Name>) -> Self {
        Self {
            of,
            name,
            lowest: None,
            likely: None,
            highest: None,
            mean: None,
            spread: None,
            wall_to_wall: None,
            source: None,
        }
    }
}
