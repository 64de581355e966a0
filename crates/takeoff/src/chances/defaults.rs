//! How far inputs are taken to be off when the project does not say. Not here: the numbers, which stand with the
//! other defaults (see [`crate::sources`]), and what the project says (see `crate::check`).

use crate::project::UncertainInput;
use crate::sources::{self, OURS, UsuallyOff};
use hodful_quantities::mix::PUBLISHED_YIELD;

/// Lowest, likeliest and highest value of an input, with where they come from and as they are shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Usual {
    pub(super) lowest: f64,
    pub(super) likely: f64,
    pub(super) highest: f64,
    pub(super) shown: &'static str,
    pub(super) source: &'static str,
}

/// Of a value that the project has: shares of it, but for the yield that was worked out, which may lie
/// anywhere between the published ones.
pub(super) fn usual(of: UncertainInput, has: f64, yield_is_measured: bool) -> Usual {
    let UsuallyOff {
        lowest,
        highest,
        shown,
    } = match of {
        UncertainInput::Thickness => sources::THICKNESS_OFF,
        UncertainInput::DubbingOut => sources::DUBBING_OUT_OFF,
        UncertainInput::Loss => sources::LOSS_OFF,
        UncertainInput::Shrinkage => sources::SHRINKAGE_OFF,
        UncertainInput::Moisture | UncertainInput::Bulking => sources::DAMP_OFF,
        UncertainInput::Reject => sources::REJECT_OFF,
        UncertainInput::Yield if yield_is_measured => sources::MEASURED_YIELD_OFF,
        UncertainInput::Yield => {
            let (low, high) = PUBLISHED_YIELD;
            return Usual {
                lowest: low.min(has),
                likely: has,
                highest: high.max(has),
                shown: "from the least to the most that is published, 0.75 to 0.87, and what is worked out",
                source: sources::YIELD_SPREAD,
            };
        }
    };
    Usual {
        lowest: lowest * has,
        likely: has,
        highest: highest * has,
        shown,
        source: OURS,
    }
}

/// How far walls differ from each other, as a standard deviation of a factor about 1.
pub(super) fn wall_to_wall(of: UncertainInput) -> f64 {
    match of {
        UncertainInput::DubbingOut => sources::DUBBING_OUT_WALL_TO_WALL.value,
        _ => sources::THICKNESS_WALL_TO_WALL.value,
    }
}
