//! What records of drying say of the coats that are still to dry. Not here: the records (see `check::work::dried`).
//!
//! A coat is told as likely dry at the later of two ends: that of the weather, and that of a rule of thumb. A record
//! teaches the end that decided, and the other one too where the coat was dry before that. So records that all say the
//! same bring what is told to what was seen, and a summer in which the rule was too slow makes no autumn faster.

use super::climate::Climate;
use super::drying::{Until, band_of};
use super::tasks::Found;
use crate::check::work::dried::CheckedDried;
use crate::project::Side;
use ecow::{EcoString, eco_format};
use hodful_air::drying::{Coat, MIDDLE_MM_DAY, Record, SPREAD, hours_until};
use hodful_chance::{Observation, learn};
use jiff::civil::{Date, DateTime, Time};

/// How far one wall may be off from others that dry alike, as a share: ours, no source.
const WALL_TO_WALL: f64 = 0.2;

/// How far a day that is written down may be off, in days: dry is seen once a day.
const READ_TO_DAYS: f64 = 0.5;

/// How many times as long or as short as was likely a coat may have taken before its record is doubted: ours, as the
/// formula may be off by [`SPREAD`] and a rule of thumb by more.
const FAR_OFF: f64 = 3.0;

/// What was learned of one side of the walls.
#[derive(Debug, Clone, PartialEq)]
pub struct LearnedDrying {
    /// The side.
    pub side: Side,
    /// What was seen.
    pub seen: Vec<SeenDrying>,
    /// The end by the weather is told this many times as long as it would be.
    pub factor: f64,
    /// How far the records decide that, 0 to 1; the rest is the formula, which may be off by 1.4 either way.
    pub weight: f64,
    /// The end by the rule of thumb is told this many times as long as it would be.
    pub rule_factor: f64,
    /// How far the records decide that, 0 to 1.
    pub rule_weight: f64,
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
    /// Days by the weather, and by the rule of thumb; the larger is what was likely.
    ends_days: [f64; 2],
}

/// What is learned of either side, where something was seen.
pub(super) fn all(
    found: &[Found],
    dried: &[CheckedDried<'_>],
    climate: &Climate,
    (begins, day_ends): (Date, Time),
    notes: &mut Vec<EcoString>,
) -> Vec<LearnedDrying> {
    let times = [begins.to_datetime(day_ends), begins.at(0, 0, 0, 0)];
    let sides = [Side::Outside, Side::Inside].into_iter();
    let each = sides.filter_map(|side| {
        let own = dried.iter().filter(|of| of.side == side);
        let seen: Vec<SeenDrying> = own
            .filter_map(|of| {
                let coat = found.iter().find(|found| of.is_of(found))?;
                seen(coat, of, climate, times, notes)
            })
            .collect();
        if seen.is_empty() {
            return None;
        }
        Some(LearnedDrying::of(side, seen))
    });
    each.collect()
}

impl LearnedDrying {
    fn of(side: Side, seen: Vec<SeenDrying>) -> Self {
        let [(factor, weight), (rule_factor, rule_weight)] = [0, 1].map(|end| {
            let ratios: Vec<Observation> = seen.iter().filter_map(|of| of.ratio(end)).collect();
            match learn(0.0, libm::log(SPREAD), &ratios) {
                Ok(known) if !ratios.is_empty() => (libm::exp(known.mean), known.weight),
                _ => (1.0, 0.0),
            }
        });
        Self {
            side,
            seen,
            factor,
            weight,
            rule_factor,
            rule_weight,
        }
    }
}

impl SeenDrying {
    /// What it teaches of one of the two ends, where it does.
    fn ratio(&self, end: usize) -> Option<Observation> {
        let own = *self.ends_days.get(end)?;
        let decided = self.ends_days.iter().all(|other| own >= *other);
        (decided || self.took_days < own).then(|| Observation {
            value: libm::log(self.took_days / own),
            sd: libm::hypot(WALL_TO_WALL, READ_TO_DAYS / self.took_days),
        })
    }
}

/// A record beside what would have been said.
fn seen(
    coat: &Found,
    of: &CheckedDried<'_>,
    climate: &Climate,
    [day_ends, begins]: [DateTime; 2],
    notes: &mut Vec<EcoString>,
) -> Option<SeenDrying> {
    let placed = DateTime::from_parts(of.placed, day_ends.time());
    let what = coat.task.said();
    let days = |hours: f64| hours / 24.0;
    // Days are counted from one to the other, as they are written down.
    let since = |day: DateTime| {
        let first = of.placed.at(0, 0, 0, 0);
        day.date()
            .at(0, 0, 0, 0)
            .duration_since(first)
            .as_secs_f64()
            / 86_400.0
    };
    let likely = band_of(coat, climate.rates(coat, placed), 0.0, &Record::NONE)
        .and_then(|band| band.likely)
        .filter(|_| climate.hours_before(placed) <= 0.0)
        .map(|likely| days(likely.hours));
    let Some(dry) = of.dry else {
        let so_far = since(begins);
        let drying = climate.drying(coat, placed);
        let by = |until: Option<Until>, words| until.map(|until| (since(until.at), words));
        let told = by(drying.likely, "were likely").or(by(drying.slow, "are to be reckoned with"));
        if let Some((told, words)) = told.filter(|(told, _)| so_far > *told) {
            notes.push(eco_format!(
                "{what} is not recorded as dry after {so_far:.0} days, where {told:.0} {words}: look at it before anything comes on it, and write down when it is dry."
            ));
        }
        return None;
    };
    if likely.is_none() {
        notes.push(eco_format!(
            "The record of {what} teaches nothing: the weather of its days is not known."
        ));
        return None;
    }
    let water = Coat::of_mix(coat.task.water_kg_m2, coat.task.dry_kg_m2).ok()?;
    let model_h = hours_until(water.needed_kg_m2(), climate.rates(coat, placed).hours()?)?;
    let ends_days = [days(model_h), coat.task.thickness_mm / MIDDLE_MM_DAY];
    Some(SeenDrying {
        what,
        predicted_days: ends_days.into_iter().fold(0.0, f64::max),
        // Dry on the day it was put on counts as half a day: it cannot be read any closer.
        took_days: since(dry.at(0, 0, 0, 0)).max(READ_TO_DAYS),
        ends_days,
    })
}

impl LearnedDrying {
    /// What it says, as it is reckoned with.
    pub(super) fn record(&self) -> Record {
        Record {
            model: self.factor,
            rule: self.rule_factor,
        }
    }

    /// Records that are far off what was likely, in sentences: a slip of a date moves every coat on their side.
    pub(super) fn far_off(&self) -> impl Iterator<Item = EcoString> {
        let off = self.seen.iter().filter(|of| {
            let times = of.took_days / of.predicted_days;
            !(1.0 / FAR_OFF..=FAR_OFF).contains(&times)
        });
        off.map(|of| {
            let dry = if of.took_days < 1.0 {
                "on the day it was put on".into()
            } else {
                eco_format!("after {:.0} days", of.took_days)
            };
            eco_format!(
                "{} is recorded as dry {dry} where {:.0} days were likely: look at its dates, as it moves every coat {}.",
                of.what,
                of.predicted_days,
                self.side.word()
            )
        })
    }

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
        let seen = eco_format!("What was seen {}: {}.", self.side.word(), seen.join("; "));
        let (weather, rule) = (self.factor, self.rule_factor);
        match (self.weight > 0.0, self.rule_weight > 0.0) {
            (true, false) => {
                eco_format!(
                    "{seen} So coats there are reckoned ×{weather:.2} as long where the weather decides; the last day comes no nearer than by the rule of thumb."
                )
            }
            (false, _) => eco_format!(
                "{seen} So coats there are reckoned ×{rule:.2} as long where the rule of thumb decides."
            ),
            (true, true) => eco_format!(
                "{seen} So coats there are reckoned ×{weather:.2} as long where the weather decides, and ×{rule:.2} where the rule of thumb does."
            ),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What would be told of a coat after so many equal records of it, days.
    fn told(model: f64, rule: f64, took_days: f64, records: usize) -> f64 {
        let one = SeenDrying {
            what: "N outside, scratch".into(),
            predicted_days: model.max(rule),
            took_days,
            ends_days: [model, rule],
        };
        let learned = LearnedDrying::of(Side::Outside, vec![one; records]);
        (model * learned.factor).max(rule * learned.rule_factor)
    }

    /// Whichever end decided, and whichever way it was wrong.
    #[test]
    fn many_equal_records_tell_what_was_seen() {
        for (model, rule) in [(1.45, 2.0), (1.45, 6.3), (12.0, 6.3), (6.3, 6.3)] {
            for took in [0.7, 1.5, 4.0, 9.0, 20.0] {
                let told = told(model, rule, took, 2000);
                assert!(
                    (told / took - 1.0).abs() < 0.02,
                    "{model} {rule} {took}: {told}"
                );
            }
        }
    }

    /// Four coats of 10 mm took 4 days where the weather said 1.45 and a rule of thumb 2. The normal update on the log
    /// (Gelman et al., Bayesian Data Analysis, section 2.5, from memory): prior 0 give or take ln 1.4, four observations
    /// of ln 2 give or take 0.2 and an eighth.
    #[test]
    fn four_records_tell_nearly_that() {
        let (prior, own) = (libm::log(1.4) * libm::log(1.4), 0.04 + 0.125 * 0.125);
        let weight = prior / (prior + own / 4.0);
        let wanted = 2.0 * libm::exp(weight * libm::log(2.0));
        let found = told(1.45, 2.0, 4.0, 4);
        assert!(
            (found - wanted).abs() < 1e-9 && found > 3.6,
            "{found} {wanted}"
        );
    }

    /// A summer in which the rule of thumb was too slow says nothing of an autumn in which the weather decides.
    #[test]
    fn a_rule_that_was_too_slow_makes_no_weather_faster() {
        let one = SeenDrying {
            what: "N outside, scratch".into(),
            predicted_days: 6.3,
            took_days: 4.0,
            ends_days: [2.0, 6.3],
        };
        let learned = LearnedDrying::of(Side::Outside, vec![one]);
        assert!((learned.factor - 1.0).abs() < 1e-12 && learned.rule_factor < 1.0);
        assert!(
            learned
                .said()
                .ends_with("as long where the rule of thumb decides.")
        );
    }
}
