//! What the records of a coat say together: how far the rest is likely to be off. Not here: volumes of faces,
//! and what follows for materials.
//!
//! Before anything is seen, what a coat takes is believed to be what the draws have of it (see
//! [`crate::chances`]): so many times what is worked out in the mean, and so far off. The logarithm of that ratio is
//! taken as normal, about the logarithm of the mean and off by its share: by the first term of the series, which is
//! half the square of that share too high (0.5 % at 10 %). Each record is one look at it, off by what differs from
//! wall to wall and by the reading. Both together are the conjugate normal update.

use super::faces::{Rest, Seen};
use crate::chances::belief::{Belief, beliefs};
use crate::compare::One;
use crate::project::Name;
use ecow::EcoString;
use hodful_chance as chance;
use hodful_quantities::units::Volume;

/// Standard normal quantile of 0.9: 8 of 10 values are within so many standard deviations (from memory; as
/// in any table of the normal distribution).
const EIGHT_IN_TEN: f64 = 1.281_551_565_544_600_4;

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
    /// Mean of the logarithm of taken over worked out, records considered.
    pub mean: f64,
    /// Its standard deviation.
    pub sd: f64,
    /// How far the records decide the mean: their share of the precision, from 0 to 1.
    pub weight: f64,
    /// What the rest is forecast at, times what was worked out: `exp(mean)`, the median.
    pub factor: f64,
    /// Between which factors the rest comes to 8 times out of 10.
    pub between: (f64, f64),
}

/// One record as a look at the ratio.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Observation {
    /// Number of the record, from 1.
    pub record: usize,
    /// Worked out for its faces, mixed.
    pub recorded: Volume,
    /// What they took.
    pub took: Volume,
    /// Logarithm of taken over worked out.
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
}

/// What was learned of every name of coat that some face has, in the order of the project.
pub(super) fn all(one: &One<'_>, seen: &[Seen<'_>], rest: &Rest<'_>) -> Vec<Learned> {
    let beliefs = beliefs(one).into_iter();
    let each = beliefs.filter_map(|belief| of_coat(belief, seen, rest));
    each.collect()
}

/// What was learned of one name; `None` where a figure is past what can be reckoned with.
fn of_coat(belief: Belief, all: &[Seen<'_>], rest: &Rest<'_>) -> Option<Learned> {
    let Belief {
        coat,
        mean,
        together,
        wall_to_wall,
        source,
    } = belief;
    let own = || all.iter().filter(|seen| *seen.record.coat == coat);
    let seen: Vec<Observation> = own().map(|seen| look(seen, wall_to_wall)).collect();
    let looks: Vec<chance::Observation> = seen
        .iter()
        .map(|of| chance::Observation {
            value: of.log_ratio,
            sd: of.sd,
        })
        .collect();
    let known = chance::learn(libm::log(mean), together, &looks).ok()?;
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
        factor: libm::exp(known.mean).min(f64::MAX),
        between: (
            libm::exp(next.mean() - EIGHT_IN_TEN * next.sd()),
            libm::exp(next.mean() + EIGHT_IN_TEN * next.sd()),
        ),
        seen,
        coat,
    })
}

/// A record as a look at the ratio.
///
/// Off by `√(σ²·Σv²/(Σv)² + u²)`: σ from wall to wall, and `u` by the reading of what it took.
fn look(seen: &Seen<'_>, wall_to_wall: f64) -> Observation {
    let took = seen.record.took;
    let recorded = seen.spread.sum;
    let walls = wall_to_wall * wall_to_wall * seen.spread.left_of_variance();
    // A count of next to nothing says nothing, and is still a number.
    let reading = took.reading.min(f64::MAX);
    Observation {
        record: seen.record.number,
        recorded: Volume {
            value: recorded,
            ..Volume::default()
        },
        took: took.mixed,
        log_ratio: libm::log(took.mixed.value) - libm::log(recorded),
        sd: libm::hypot(walls.sqrt(), reading),
    }
}
