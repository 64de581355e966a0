//! What the records of a coat say together: how far the rest is likely to be off. Not here: volumes of faces,
//! and what follows for materials.
//!
//! Before anything is seen, what a coat takes is believed to be what the draws have of it (see
//! [`crate::chances`]): so many times what is worked out in the mean, each build-up by its own, and so far off. What
//! is looked for is how many times that it really is, the same for all build-ups. The logarithm of it is taken as
//! normal, with the moments of a lognormal value of mean 1 (see [`of_mean_one`]). Each record is one look at it, off by
//! what differs from wall to wall and by the reading. Both together are the conjugate normal update.

use super::CoatAt;
use super::faces::{Rest, Seen};
use crate::chances::belief::Belief;
use crate::project::Name;
use ecow::EcoString;
use hodful_chance as chance;
use hodful_quantities::units::Volume;

/// Standard normal quantile of 0.9: 8 of 10 values are within so many standard deviations (from memory; as
/// in any table of the normal distribution).
pub(super) const EIGHT_IN_TEN: f64 = 1.281_551_565_544_600_4;

/// What was learned of the coats of one name.
#[derive(Debug, Clone, PartialEq)]
pub struct Learned {
    /// Name of the coat.
    pub coat: Name,
    /// The records of it, in the order of the project.
    pub seen: Vec<Observation>,
    /// How many walls those are about.
    pub walls: u64,
    /// Worked out for them.
    pub recorded: Volume,
    /// What they took.
    pub took: Volume,
    /// What was thought before anything was recorded.
    pub before: Before,
    /// Mean of the logarithm of taken over what was thought, records considered.
    pub mean: f64,
    /// Its standard deviation.
    pub sd: f64,
    /// How far the records decide the mean: their share of the precision, from 0 to 1.
    pub weight: f64,
    /// What the rest is forecast at, times what was worked out: the median, of all build-ups together.
    pub factor: f64,
    /// Between which factors the rest comes to 8 times out of 10.
    pub between: (f64, f64),
    /// The same median of each build-up, by its position and that in it.
    factors: Vec<(CoatAt, f64)>,
}

/// One record as a look at the ratio.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Observation {
    /// Number of the record, from 1.
    pub record: usize,
    /// Worked out for its faces, mixed.
    pub recorded: Volume,
    /// What was thought that they take, before anything was recorded.
    pub thought: Volume,
    /// What they took.
    pub took: Volume,
    /// Logarithm of taken over what was thought.
    pub log_ratio: f64,
    /// How far that may be off, as a standard deviation.
    pub sd: f64,
}

/// What was thought of a coat before anything was recorded: what the draws have of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Before {
    /// What it takes in the mean, times what is worked out.
    pub mean: f64,
    /// How far that may be off for all walls together, as a standard deviation and a share of it.
    pub together: f64,
    /// How far a wall may be off besides, likewise.
    pub wall_to_wall: f64,
    /// Which inputs that comes from, and who says so.
    pub source: EcoString,
}

impl Learned {
    /// Taken over worked out, all records together; `None` without a record.
    pub fn ratio(&self) -> Option<f64> {
        (!self.seen.is_empty()).then(|| self.took.value / self.recorded.value)
    }

    /// What the rest of a coat of one build-up is forecast at, times what was worked out; `None` of another name.
    pub(super) fn factor_of(&self, at: CoatAt) -> Option<f64> {
        let mut all = self.factors.iter();
        all.find(|(of, _)| *of == at).map(|(_, factor)| *factor)
    }

    /// What is enough for the rest 9 times out of 10, times what is forecast: the upper end of 8 times out of 10.
    pub(super) fn enough(&self) -> f64 {
        self.between.1 / self.factor
    }
}

/// The moments of the logarithm of a lognormal value whose mean is 1 and whose standard deviation is a share of it:
/// `s² = ln(1 + share²)`, about `−s²/2` (Evans, Hastings and Peacock, Statistical Distributions, "Lognormal
/// distribution", from memory). Gives that mean and `s`.
pub(super) fn of_mean_one(share: f64) -> (f64, f64) {
    let variance = libm::log1p(share * share);
    (-variance / 2.0, variance.sqrt())
}

/// What was learned of every name of coat that some face has, in the order of the project.
pub(super) fn all(beliefs: Vec<Belief>, seen: &[Seen<'_>], rest: &Rest<'_>) -> Vec<Learned> {
    let beliefs = beliefs.into_iter();
    let each = beliefs.filter_map(|belief| of_coat(belief, seen, rest));
    each.collect()
}

/// What was learned of one name; `None` where a figure is past what can be reckoned with.
fn of_coat(belief: Belief, all: &[Seen<'_>], rest: &Rest<'_>) -> Option<Learned> {
    let Belief {
        coat,
        mean,
        means,
        together,
        wall_to_wall,
        source,
    } = belief;
    let own = || all.iter().filter(|seen| *seen.record.coat == coat);
    let seen: Vec<Observation> = own().map(|seen| look(seen, &means, wall_to_wall)).collect();
    let looks: Vec<chance::Observation> = seen
        .iter()
        .map(|of| chance::Observation {
            value: of.log_ratio,
            sd: of.sd,
        })
        .collect();
    let (centre, off) = of_mean_one(together);
    let known = chance::learn(centre, off, &looks).ok()?;
    let times = libm::exp(known.mean);
    let factors = means
        .iter()
        .map(|(at, mean)| (*at, (mean * times).min(f64::MAX)));
    let factors: Vec<(CoatAt, f64)> = factors.collect();
    let factor = rest.weighed(&factors).unwrap_or(mean * times).min(f64::MAX);
    let left = rest.of_coat(&coat).left_of_variance();
    let own_sd = wall_to_wall * left.sqrt();
    let next = known.predictive(own_sd).ok()?;
    let sum = |of: fn(&Observation) -> Volume| seen.iter().map(of).sum();
    Some(Learned {
        walls: own().map(|seen| seen.walls).sum(),
        recorded: sum(|of| of.recorded),
        took: sum(|of| of.took),
        before: Before {
            mean,
            together,
            wall_to_wall,
            source,
        },
        mean: known.mean,
        sd: known.sd,
        weight: known.weight,
        factor,
        between: (
            factor * libm::exp(-EIGHT_IN_TEN * next.sd()),
            factor * libm::exp(EIGHT_IN_TEN * next.sd()),
        ),
        factors,
        seen,
        coat,
    })
}

/// A record as a look at the ratio.
///
/// Off by `√(σ²·Σv²/(Σv)² + u²)`: σ from wall to wall, and `u` by the reading of what it took.
fn look(seen: &Seen<'_>, means: &[(CoatAt, f64)], wall_to_wall: f64) -> Observation {
    let took = seen.record.took;
    let recorded = seen.spread.sum;
    let walls = wall_to_wall * wall_to_wall * seen.spread.left_of_variance();
    let thought = seen.parts.iter().map(|(at, mixed)| {
        let own = means.iter().find(|(of, _)| of == at);
        mixed * own.map_or(1.0, |(_, mean)| *mean)
    });
    let thought: f64 = thought.sum();
    // A count of next to nothing says nothing, and is still a number.
    let reading = took.reading.min(f64::MAX);
    Observation {
        record: seen.record.number,
        recorded: Volume {
            value: recorded,
            ..Volume::default()
        },
        thought: Volume {
            value: thought,
            ..Volume::default()
        },
        took: took.mixed,
        log_ratio: libm::log(took.mixed.value) - libm::log(thought),
        sd: libm::hypot(walls.sqrt(), reading),
    }
}
