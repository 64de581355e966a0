//! What the records of a coat say together: how far the rest is likely to be off. Not here: volumes of faces,
//! and what follows for materials.
//!
//! The logarithm of what was taken over what was worked out is believed to be normal about 0 before anything
//! is seen: nobody knows on which side a crew will be. Each record is one look at it, off by what differs
//! from wall to wall and by the reading of a rounded count. Both together are the conjugate normal update.

use super::faces::{Rest, Seen};
use crate::compare::One;
use crate::project::{Name, Uncertain, UncertainInput};
use crate::sources::Sourced;
use ecow::{EcoString, eco_format};
use hodful_chance as chance;
use hodful_quantities::Typed;
use hodful_quantities::read::Level;
use hodful_quantities::units::Volume;
use std::iter::zip;

/// How far a whole coat may be off, as a standard deviation of the logarithm of taken over worked out.
pub const USUAL_SPREAD: Sourced<f64> = Sourced {
    value: 0.15,
    source: "a default of ours; no published spread known to us",
};

/// How far single walls may be off besides, likewise.
pub const USUAL_WALL_TO_WALL: Sourced<f64> = Sourced {
    value: 0.1,
    source: "a default of ours; no published spread known to us",
};

/// Half the width of what was read, in units of the last place that is counted: a count of whole batches or
/// buckets is off by half of one at most, and by anything less as likely.
const HALF_A_UNIT: f64 = 0.5;

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
    /// How far it was thought to be off.
    pub spreads: Spreads,
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

/// How far a coat was thought to be off before anything was recorded, as standard deviations of the logarithm.
#[derive(Debug, Clone, PartialEq)]
pub struct Spreads {
    /// All walls together.
    pub together: f64,
    /// From wall to wall besides.
    pub wall_to_wall: f64,
    /// Who says so.
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
    let mut learned: Vec<Learned> = Vec::new();
    for (coats, figures) in zip(one.project.build_ups.values(), &one.evaluation.coats) {
        for (coat, figures) in zip(coats, figures) {
            let is_there = figures.is_some() && learned.iter().all(|of| of.coat != coat.coat);
            if is_there {
                learned.extend(of_coat(one, &coat.coat, seen, rest));
            }
        }
    }
    learned
}

/// What was learned of one name; `None` where a figure is past what can be reckoned with.
fn of_coat(one: &One<'_>, coat: &Name, all: &[Seen<'_>], rest: &Rest<'_>) -> Option<Learned> {
    let spreads = spreads(one, coat);
    let own = || all.iter().filter(|seen| seen.record.coat == coat);
    let seen: Vec<Observation> = own().map(|seen| look(seen, &spreads)).collect();
    let looks: Vec<chance::Observation> = seen
        .iter()
        .map(|of| chance::Observation {
            value: of.log_ratio,
            sd: of.sd,
        })
        .collect();
    let known = chance::learn(0.0, spreads.together, &looks).ok()?;
    let left = rest.of_coat(coat).left_of_variance();
    let own_sd = spreads.wall_to_wall * left.sqrt();
    let next = known.predictive(own_sd).ok()?;
    let sum = |of: fn(&Observation) -> Volume| seen.iter().map(of).sum();
    Some(Learned {
        coat: coat.clone(),
        walls: own().map(|seen| seen.walls).sum(),
        recorded: sum(|of| of.recorded),
        took: sum(|of| of.took),
        spreads,
        mean: known.mean,
        sd: known.sd,
        weight: known.weight,
        factor: libm::exp(known.mean).min(f64::MAX),
        between: (
            libm::exp(next.mean() - EIGHT_IN_TEN * next.sd()),
            libm::exp(next.mean() + EIGHT_IN_TEN * next.sd()),
        ),
        seen,
    })
}

/// A record as a look at the ratio.
///
/// Off by `√(σ²·Σv²/(Σv)² + u²)`: σ from wall to wall, and the reading of the count, `u = a/√3` of a value
/// that lies anywhere within `±a` (JCGM 100:2008, 4.3.7), here relative to the count. A volume that was typed
/// is taken as read.
fn look(seen: &Seen<'_>, spreads: &Spreads) -> Observation {
    let took = seen.record.took;
    let recorded = seen.spread.sum;
    let walls = spreads.wall_to_wall * spreads.wall_to_wall * seen.spread.left_of_variance();
    let reading = took
        .counted
        .map_or(0.0, |count| HALF_A_UNIT / count / 3.0_f64.sqrt());
    // A count of next to nothing says nothing, and is still a number.
    let reading = reading.min(f64::MAX);
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

/// How far a coat is thought to be off: by what the project says of its thickness, else the defaults.
fn spreads(one: &One<'_>, coat: &Name) -> Spreads {
    let of = |name: Option<&Name>| {
        let all = zip(1.., &one.project.uncertain);
        all.filter(|(_, of)| of.of == UncertainInput::Thickness)
            .find(|(_, of)| of.name.as_ref() == name)
    };
    let usual = Spreads {
        together: USUAL_SPREAD.value,
        wall_to_wall: USUAL_WALL_TO_WALL.value,
        source: USUAL_SPREAD.source.into(),
    };
    let Some((number, of)) = of(Some(coat)).or_else(|| of(None)) else {
        return usual;
    };
    let coats = one.project.build_ups.values().flatten();
    let mut own = coats.filter(|other| other.coat == *coat);
    let thickness = own.next().map(|coat| coat.thickness.value().value);
    let told = thickness.and_then(|thickness| {
        let together = together(of, thickness, usual.together)?;
        // That walls do not differ is said by 0 %; who says nothing of it has not thought of it.
        let wall_to_wall = share(of.wall_to_wall.as_ref(), thickness).unwrap_or(usual.wall_to_wall);
        let sds = [together, wall_to_wall];
        let is_sound = sds.iter().all(|sd| sd.is_finite() && *sd >= 0.0);
        is_sound.then(|| Spreads {
            together,
            wall_to_wall,
            source: of
                .source
                .clone()
                .unwrap_or_else(|| eco_format!("uncertain input {number}")),
        })
    });
    told.unwrap_or(usual)
}

/// The standard deviation of a thickness over its mean, all walls together; the usual one when the entry does
/// not say, `None` when what it says is no spread.
fn together(of: &Uncertain, thickness: f64, usual: f64) -> Option<f64> {
    let share = |level: &Option<Typed<Level>>| share(level.as_ref(), thickness);
    let likely = share(&of.likely).unwrap_or(1.0);
    let measured = (share(&of.mean), share(&of.spread));
    let spread = match (share(&of.lowest), share(&of.highest), measured) {
        (None, None, (None, None)) => return Some(usual),
        (Some(lowest), Some(highest), (None, None)) => {
            chance::Spread::triangular(lowest, likely, highest)
        }
        (None, None, (mean, Some(spread))) => {
            chance::Spread::normal(mean.unwrap_or(likely), spread)
        }
        _ => return None,
    };
    let spread = spread.ok().filter(|spread| spread.mean() > 0.0)?;
    Some(spread.sd() / spread.mean())
}

/// A level as a share of the thickness that the project has. Of coats of one name with several thicknesses,
/// that of the first build-up counts.
fn share(level: Option<&Typed<Level>>, thickness: f64) -> Option<f64> {
    Some(match level?.value() {
        Level::Share(share) => share,
        Level::Length(length) => length.value / thickness,
    })
}
