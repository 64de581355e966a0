//! The limits of this crate, each with its reason. Nothing else here.

/// Draws that share one stream of random numbers and one scratch state. Small enough that a thousand draws
/// keep ten cores busy. A number and not a share of the cores, so that the draws are the same on any machine.
pub const CHUNK: usize = 100;

/// Most bins of a histogram, whoever asks: beyond, bins are finer than any screen or paper shows.
pub(crate) const MOST_BINS: usize = 1_000;

/// Most bins of a histogram when nobody asks for a number: what a line of a screen holds. Ours, no source.
pub(crate) const MOST_USUAL_BINS: usize = 60;
