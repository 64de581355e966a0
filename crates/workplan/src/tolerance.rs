//! The limits of this crate, each with its reason, and the steps between whole and real numbers that lean on them.
//! Nothing else here.

/// Minutes of the step of a plan. Ours: finer than a quarter of an hour no site is led.
pub const STEP_MINUTES: i64 = 15;

/// Steps of an hour.
pub(crate) const STEPS_PER_HOUR: f64 = 4.0;

/// Most people of a crew: each is one bit of a word.
pub const MOST_PEOPLE: usize = 64;

/// Working days that are looked ahead, some ten years: no plaster waits longer.
pub(crate) const MOST_DAYS: usize = 3660;

/// Steps of one piece of preparing: some three weeks. What is longer is cut like a face.
pub(crate) const MOST_STEPS: usize = 500;

/// Orders that are tried besides the first two. Ours: most gains come with the first few.
pub(crate) const TRIES: usize = 20;

/// Tasks that are placed in all those tries together, so that a large site takes no longer than a small one by much.
/// A number and not a time, so that the plan is the same on any machine.
pub(crate) const TRIED_TASKS: usize = 4000;

/// Steps above a whole number that are still that number: what sums of reals leave over.
const WHOLE: f64 = 1e-9;

/// By what share a plan may be over a capacity before that is a fault: a plan counts in whole millilitres, and a
/// task holds at least a few hundred.
pub(crate) const OVER: f64 = 1e-3;

/// Largest area, litres, hours or minutes of one entry. Ours: far beyond any building, and sums stay exact enough.
pub(crate) const MOST: f64 = 1e7;

fn slack(x: f64) -> f64 {
    // Of the infinite nothing is taken, or it would be no number.
    (WHOLE * x.abs().max(1.0)).min(f64::MAX)
}

/// The least whole number not under `x`; 0 for what is below or no number.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the cast holds at the ends of the range, which is what is wanted"
)]
pub(crate) fn up(x: f64) -> u64 {
    (x - slack(x)).ceil() as u64
}

/// The largest whole number not over `x`; 0 for what is below or no number.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the cast holds at the ends of the range, which is what is wanted"
)]
pub(crate) fn down(x: f64) -> u64 {
    (x + slack(x)).floor() as u64
}

/// A count as a real number.
#[allow(
    clippy::cast_precision_loss,
    reason = "counts of people, steps and millilitres are far below 2^53"
)]
pub(crate) fn real(count: u64) -> f64 {
    count as f64
}

/// A number of things as a count.
pub(crate) fn count(number: usize) -> u64 {
    u64::try_from(number).unwrap_or(u64::MAX)
}

/// A count as a number of things.
pub(crate) fn number(count: u64) -> usize {
    usize::try_from(count).unwrap_or(usize::MAX)
}
