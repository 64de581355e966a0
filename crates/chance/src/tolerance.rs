//! The limits of this crate, each with its reason. Nothing else here.

/// Draws that share one stream of random numbers and one scratch state. Small enough that a thousand draws
/// keep ten cores busy. A number and not a share of the cores, so that the draws are the same on any machine.
pub const CHUNK: usize = 100;

/// A chance that is a hair over what is asked for is that: `1 − 0.8` is 0.19999…96 in `f64`, and one of a million draws
/// is a thousand times more than this.
pub(crate) const CHANCE_SLACK: f64 = 1.0e-9;

/// Most bins of a histogram, whoever asks: beyond, bins are finer than any screen or paper shows.
pub(crate) const MOST_BINS: usize = 1_000;

/// Most bins of a histogram when nobody asks for a number: what a line of a screen holds. Ours, no source.
pub(crate) const MOST_USUAL_BINS: usize = 60;
