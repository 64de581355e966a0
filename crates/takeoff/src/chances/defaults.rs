//! How far inputs are taken to be off when the project does not say, each with its source. Not here: what the
//! project says (see `crate::check`).

use crate::project::UncertainInput;
use crate::sources;
use hodful_quantities::mix::PUBLISHED_YIELD;

/// Behind a default of ours.
pub(crate) const OURS: &str = "a default of ours; no published spread known to us";

/// Greatest share that a drawn loss, shrinkage or reject is let have: of plaster of which one part in twenty
/// arrives nobody reckons any more. Ours, no source.
pub(crate) const MOST_OF_A_SHARE: f64 = 0.95;

/// Least yield that is drawn: no mix makes less than a twentieth of its loose volume. Ours, no source.
pub(crate) const LEAST_YIELD: f64 = 0.05;

/// Standard deviation of the thickness from wall to wall, as a share of it. Ours: see [`OURS`].
pub(crate) const THICKNESS_WALL_TO_WALL: f64 = 0.1;

/// Standard deviation of dubbing out from wall to wall, as a share of it. Ours: see [`OURS`].
pub(crate) const DUBBING_OUT_WALL_TO_WALL: f64 = 0.3;

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
    let (low, high, shown) = match of {
        UncertainInput::Thickness => (0.9, 1.25, "90 % to 125 % of what is written"),
        UncertainInput::DubbingOut => (0.5, 1.8, "50 % to 180 % of what is written"),
        UncertainInput::Loss => (0.5, 2.0, "half to twice what is written"),
        UncertainInput::Shrinkage => (0.5, 1.5, "50 % to 150 % of what is reckoned with"),
        UncertainInput::Moisture | UncertainInput::Bulking => {
            (0.5, 1.5, "50 % to 150 % of what is written")
        }
        UncertainInput::Reject => (0.7, 1.4, "70 % to 140 % of what is written"),
        UncertainInput::Yield if yield_is_measured => {
            (0.95, 1.05, "5 % less to 5 % more than the trial batch")
        }
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
        lowest: low * has,
        likely: has,
        highest: high * has,
        shown,
        source: OURS,
    }
}
