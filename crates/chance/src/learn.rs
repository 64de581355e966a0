//! What was believed and what was seen, put together. Not here: what was seen, and where it is kept.

use crate::fault::{ChanceFault, deviation, finite};
use crate::spread::Spread;

/// A value that was seen of something whose mean is looked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Observation {
    /// The value.
    pub value: f64,
    /// How far it may be off from the mean, as a standard deviation; 0 when it is exact.
    pub sd: f64,
}

/// What is known of a mean after something was seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Posterior {
    /// The mean.
    pub mean: f64,
    /// How far it may still be off, as a standard deviation.
    pub sd: f64,
    /// The share of what was seen in what is known, 0 to 1: its precision (`Σ 1 / sd²`) as a part of all.
    pub weight: f64,
}

impl Posterior {
    /// Where the next value lies that is off from the mean by a standard deviation of its own: normal, with
    /// `√(sd² + own²)`.
    ///
    /// # Errors
    ///
    /// When the standard deviation is below 0 or not finite.
    pub fn predictive(&self, own: f64) -> Result<Spread, ChanceFault> {
        Spread::normal(self.mean, libm::hypot(self.sd, deviation(own)?))
    }
}

/// What is known of a mean that was believed to be `mean`, give or take `sd`, after the observations.
///
/// Normal mean, known variances: precisions add up, and the means are weighted by them. Source: Gelman et al.,
/// Bayesian Data Analysis, section 2.5 (from memory).
///
/// What is exact outweighs what is not: with a prior `sd` of 0 nothing is learnt from observations that may be
/// off, and an exact observation leaves nothing of a prior that may be off. Where both are exact and
/// contradict each other, what was seen stands; of several exact observations their mean does.
///
/// # Errors
///
/// When a value is not finite, or a standard deviation below 0.
pub fn learn(mean: f64, sd: f64, seen: &[Observation]) -> Result<Posterior, ChanceFault> {
    finite(mean)?;
    let mut least = deviation(sd)?;
    for Observation { value, sd } in seen {
        finite(*value)?;
        least = least.min(deviation(*sd)?);
    }
    let exact_seen = seen.iter().any(|s| s.sd <= 0.0);
    // Precisions as multiples of the greatest, so that none is out of reach; only the exact ones when there are such.
    let precision = |sd: f64| {
        if least > 0.0 {
            (least / sd) * (least / sd)
        } else if sd > 0.0 {
            0.0
        } else {
            1.0
        }
    };
    let of_prior = if exact_seen { 0.0 } else { precision(sd) };
    let of_seen: f64 = seen.iter().map(|s| precision(s.sd)).sum();
    let all = of_prior + of_seen;
    let (mut lowest, mut highest) = (f64::MAX, f64::MIN);
    let known = (mean, of_prior);
    let parts = core::iter::once(known).chain(seen.iter().map(|s| (s.value, precision(s.sd))));
    let mut sum = 0.0;
    for (value, part) in parts.filter(|(_, part)| *part > 0.0) {
        sum += value * (part / all);
        lowest = lowest.min(value);
        highest = highest.max(value);
    }
    Ok(Posterior {
        mean: sum.max(lowest).min(highest),
        sd: least / all.sqrt(),
        weight: (of_seen / all).clamp(0.0, 1.0),
    })
}
