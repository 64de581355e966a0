//! What records of drying say of the coats that are still to dry. Not here: the records (see `check::work::dried`).

use super::climate::Climate;
use super::drying::band_of;
use super::tasks::Found;
use crate::check::work::dried::CheckedDried;
use crate::project::Side;
use ecow::{EcoString, eco_format};
use hodful_air::drying::SPREAD;
use hodful_chance::{Observation, learn};
use jiff::civil::{DateTime, Time};

/// How far one wall may be off from others that dry alike, as a share: ours, no source.
const WALL_TO_WALL: f64 = 0.2;

/// How far a day that is written down may be off, in days: dry is seen once a day.
const READ_TO_DAYS: f64 = 0.5;

/// What was learned of one side of the walls.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnedDrying {
    /// The side.
    pub side: Side,
    /// What was seen.
    pub seen: Vec<SeenDrying>,
    /// Coats of that side are told this many times as long as they would be.
    pub factor: f64,
    /// How far the records decide that, 0 to 1; the rest is the formula, which may be off by 1.4 either way.
    pub weight: f64,
}

/// One coat that dried.
#[derive(Debug, Clone, PartialEq)]
pub struct SeenDrying {
    /// The face and the coat.
    pub what: EcoString,
    /// Days it would likely have taken.
    pub predicted_days: f64,
    /// Days it took.
    pub took_days: f64,
}

/// What is learned of either side, where something was seen.
pub(super) fn all(
    found: &[Found],
    dried: &[CheckedDried<'_>],
    climate: &Climate,
    day_ends: Time,
    notes: &mut Vec<EcoString>,
) -> Vec<LearnedDrying> {
    let sides = [Side::Outside, Side::Inside].into_iter();
    let each = sides.filter_map(|side| {
        let own = dried.iter().filter(|of| of.side == side);
        let seen: Vec<SeenDrying> = own
            .filter_map(|of| {
                let coat = found.iter().find(|found| of.is_of(found))?;
                seen(coat, of, climate, day_ends, notes)
            })
            .collect();
        let ratios: Vec<Observation> = seen
            .iter()
            .map(|of| Observation {
                value: libm::log(of.took_days / of.predicted_days),
                sd: libm::hypot(WALL_TO_WALL, READ_TO_DAYS / of.took_days),
            })
            .collect();
        if ratios.is_empty() {
            return None;
        }
        let known = learn(0.0, libm::log(SPREAD), &ratios).ok()?;
        Some(LearnedDrying {
            side,
            seen,
            factor: libm::exp(known.mean),
            weight: known.weight,
        })
    });
    each.collect()
}

/// A record beside what would have been said.
fn seen(
    coat: &Found,
    of: &CheckedDried<'_>,
    climate: &Climate,
    day_ends: Time,
    notes: &mut Vec<EcoString>,
) -> Option<SeenDrying> {
    let placed = DateTime::from_parts(of.placed, day_ends);
    let took_days = of.dry?.duration_since(of.placed).as_secs_f64() / 86_400.0;
    let what = coat.task.said();
    let band = band_of(coat, climate.rates(coat, placed), 1.0);
    let likely = band.and_then(|band| band.likely);
    let Some(likely) = likely else {
        notes.push(eco_format!(
            "The record of {what} teaches nothing: the weather of its days is not known."
        ));
        return None;
    };
    // Dry on the day it was put on counts as half a day: it cannot be read any closer.
    Some(SeenDrying {
        what,
        predicted_days: likely.hours / 24.0,
        took_days: took_days.max(READ_TO_DAYS),
    })
}

impl LearnedDrying {
    /// What it says: what each coat took beside what was likely, and by how much the others are told longer.
    pub fn said(&self) -> EcoString {
        let seen: Vec<String> = self
            .seen
            .iter()
            .map(|of| {
                format!(
                    "{} took {:.0} days where {:.0} were likely",
                    of.what, of.took_days, of.predicted_days
                )
            })
            .collect();
        eco_format!(
            "What was seen {}: {}. So coats there are reckoned ×{:.2} as long.",
            self.side.word(),
            seen.join("; "),
            self.factor
        )
    }
}
