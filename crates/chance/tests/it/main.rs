//! Spreads, draws, samples, shares and learning as a caller sees them, held against closed forms and published
//! values. Not here: the words of the generator, which only its own module sees.
#![allow(clippy::unwrap_used, clippy::panic, reason = "test helpers")]

mod learning;
mod properties;
mod samples;
mod spreads;
mod streams;
mod variance;

use hodful_chance::{Sample, Stream, draws};

/// A number as close to another as `f64` keeps it, give or take the last digits.
fn close(ours: f64, theirs: f64) {
    let off = (ours - theirs).abs();
    assert!(
        off <= 1e-12 * theirs.abs().max(1e-3),
        "{ours} is not {theirs}"
    );
}

/// A figure of draws within three standard errors of what it should be.
fn within(ours: f64, theirs: f64, standard_error: f64) {
    let off = (ours - theirs).abs() / standard_error;
    assert!(
        off <= 3.0,
        "{ours} is {off:.2} standard errors from {theirs}"
    );
}

/// What a figure comes to in so many draws.
fn sample(count: usize, seed: u64, figure: impl Fn(&mut Stream) -> f64 + Sync) -> Sample {
    Sample::from(draws(count, seed, || (), |(), stream, _| figure(stream))).unwrap()
}
