//! When a coat is dry: by what its face gives off hour by hour, else by rules of thumb. Not here: the formulas (see
//! `hodful_air`), and what a face gives off (see `climate`).

use super::climate::{Climate, Rates};
use super::tasks::Found;
use hodful_air::drying::{Band, Bound, Coat, FAST_MM_DAY, Origin, Record, SLOW_MM_DAY, band};
use jiff::SignedDuration;
use jiff::civil::DateTime;

/// When a coat is dry, at each of three speeds. Nothing where it cannot be told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drying {
    /// Not before.
    pub fast: Option<Until>,
    /// Likely; nothing by rules of thumb.
    pub likely: Option<Until>,
    /// To reckon with.
    pub slow: Option<Until>,
    /// Why a rule of thumb stands in for the slow end; nothing where it need not.
    pub by_rule: Option<ByRule>,
}

/// Why a rule of thumb stands in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ByRule {
    /// There is no weather.
    NoWeather,
    /// The weather ends before.
    WeatherEnds,
    /// The room stays too damp for as long as it is looked at.
    RoomStaysDamp,
    /// The mix has so little water that it counts as dry from the start.
    LittleWater,
}

impl ByRule {
    /// In a sentence.
    pub fn said(self) -> &'static str {
        match self {
            Self::NoWeather => "There is no weather: by a rule of thumb.",
            Self::WeatherEnds => {
                "The weather that is known ends before: the rest by a rule of thumb."
            }
            Self::RoomStaysDamp => {
                "The room stays too damp to dry it in the months that are looked at: the rest by a rule of thumb."
            }
            Self::LittleWater => {
                "The mix has next to no water by what is typed: by a rule of thumb."
            }
        }
    }
}

/// When, and by what.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Until {
    /// When.
    pub at: DateTime,
    /// By what.
    pub from: Origin,
}

impl Drying {
    /// What the plan goes by: the likely end, else the slow one, else the given.
    pub(super) fn planned_with(&self, otherwise: DateTime) -> DateTime {
        self.likely
            .or(self.slow)
            .map_or(otherwise, |until| until.at)
    }

    /// Of a coat that was put on then, by what its face gives off from then on, or from so many hours later on.
    fn of(of: &Found, end: DateTime, rates: Rates<'_>, before_h: f64) -> Result<Self, Self> {
        let thickness = of.task.thickness_mm;
        let until = |bound: Bound| {
            let after = SignedDuration::try_from_secs_f64(bound.hours * 3600.0).ok()?;
            // To the minute: a drying time is not known any better.
            let after = SignedDuration::from_mins(after.as_mins());
            Some(Until {
                at: end.checked_add(after).ok()?,
                from: bound.from,
            })
        };
        let Some(band) = band_of(of, rates, before_h, &of.record) else {
            let rule = |mm_day: f64, record: f64| {
                until(Bound {
                    hours: thickness / mm_day * 24.0 * record,
                    from: Origin::RuleOfThumb,
                })
            };
            return Err(Self {
                fast: rule(FAST_MM_DAY, of.record.rule),
                likely: None,
                slow: rule(SLOW_MM_DAY, of.record.rule.max(1.0)),
                by_rule: None,
            });
        };
        let Band {
            fast,
            likely,
            slow,
            is_beyond,
        } = band;
        let known = Self {
            fast: until(fast),
            likely: likely.and_then(until),
            slow: until(slow),
            by_rule: None,
        };
        if is_beyond { Err(known) } else { Ok(known) }
    }
}

/// Hours of drying by rates from so many hours after placing on, and by a record; nothing where they are not known.
pub(super) fn band_of(
    of: &Found,
    rates: Rates<'_>,
    before_h: f64,
    record: &Record,
) -> Option<Band> {
    let coat = Coat::of_mix(of.task.water_kg_m2, of.task.dry_kg_m2).ok()?;
    let thickness = of.task.thickness_mm;
    band(&coat, thickness, record, before_h, rates.hours()?).ok()
}

impl Climate {
    /// When a task that ended then is dry.
    pub(super) fn drying(&self, of: &Found, end: DateTime) -> Drying {
        let rates = self.rates(of, end);
        let before_h = match rates {
            Rates::Hours(_) => self.hours_before(end),
            Rates::Steady(_) | Rates::Unknown => 0.0,
        };
        match Drying::of(of, end, rates, before_h) {
            Ok(known) => known,
            Err(by_rule) => {
                let why = self.why_by_rule(of, rates);
                Drying {
                    by_rule: Some(why),
                    ..by_rule
                }
            }
        }
    }

    fn why_by_rule(&self, of: &Found, rates: Rates<'_>) -> ByRule {
        if Coat::of_mix(of.task.water_kg_m2, of.task.dry_kg_m2).is_err() {
            return ByRule::LittleWater;
        }
        let room = of.room.and_then(|room| self.rooms.get(room));
        let looked_at = room.filter(|_| of.stand.is_none());
        match rates {
            Rates::Unknown => ByRule::NoWeather,
            Rates::Steady(_) => ByRule::RoomStaysDamp,
            Rates::Hours(_) => match looked_at {
                Some(room) if room.wet.len() < self.hours.len() => ByRule::RoomStaysDamp,
                _ => ByRule::WeatherEnds,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::days::DayTask;
    use crate::project::Side;
    use hodful_air::frost::Binder;
    use hodful_air::outside::Stand;
    use jiff::civil::date;

    fn coat(thickness_mm: f64) -> Found {
        let task = DayTask {
            wall: "W".into(),
            side: Side::Outside,
            build_up: "b".into(),
            coat: "c".into(),
            mix: "m".into(),
            m2: 10.0,
            litres: 10.0 * thickness_mm,
            thickness_mm,
            water_kg_m2: 0.5 * thickness_mm,
            dry_kg_m2: 1.7 * thickness_mm,
            binder: Binder::Earth,
            is_high: false,
            on_straw: false,
            room: None,
            open: None,
            drying: None,
            nights: Vec::new(),
            hasty: Vec::new(),
            rain: Vec::new(),
            cautions: Vec::new(),
        };
        Found::of_one_face(task, Stand::new(180.0, true).ok())
    }

    fn told(of: &Found, end: DateTime, rates: Rates<'_>) -> (Drying, bool) {
        match Drying::of(of, end, rates, 0.0) {
            Ok(known) => (known, false),
            Err(beyond) => (beyond, true),
        }
    }

    fn days(until: Option<Until>, end: DateTime) -> f64 {
        until.unwrap().at.duration_since(end).as_secs_f64() / 86_400.0
    }

    /// Weather that ends between the likely and the slow end, of a coat that dries slower than the rule of thumb: what
    /// it still lacks comes after the last hour, so never before it is likely.
    #[test]
    fn nothing_is_dry_before_the_known_hours_end() {
        let of = coat(40.0);
        let end = date(2026, 4, 13).at(16, 0, 0, 0);
        let rate = 0.2 / 24.0;
        let whole = band_of(&of, Rates::Steady(rate), 0.0, &Record::NONE).unwrap();
        let [likely, slow] = [whole.likely.unwrap(), whole.slow].map(|bound| bound.hours);
        let rule_h = 40.0 / SLOW_MM_DAY * 24.0;
        assert!(rule_h < likely && likely < slow, "{likely} {slow}");
        let until = |hours: f64| -> Vec<f64> {
            let known = (0_u32..100_000).take_while(|hour| f64::from(*hour) < hours);
            known.map(|_| rate).collect()
        };
        let known = until(f64::midpoint(likely, slow));
        let (drying, is_beyond) = told(&of, end, Rates::Hours(&known));
        assert!(is_beyond && drying.slow.unwrap().at > drying.likely.unwrap().at);
        // Half of what lies between likely and slow is known: the rest is as that share of 80 days.
        let known_h = f64::from(u32::try_from(known.len()).unwrap());
        let missing = 1.0 - known_h / slow;
        let wanted = (known_h + missing * rule_h) / 24.0;
        assert!((days(drying.slow, end) - wanted).abs() < 0.01, "{wanted}");
        // Where the weather ends before it may be dry, that is not before the last hour either.
        let known = until(whole.fast.hours / 2.0);
        let (early, _) = told(&of, end, Rates::Hours(&known));
        let known_h = f64::from(u32::try_from(known.len()).unwrap());
        assert!(early.likely.is_none() && days(early.fast, end) * 24.0 > known_h);
        assert!(early.slow.unwrap().at > early.fast.unwrap().at);
        // With all of the weather the slow end is the later one.
        let (all, is_beyond) = told(&of, end, Rates::Steady(rate));
        assert!(!is_beyond && all.slow.unwrap().at > all.likely.unwrap().at);
    }

    /// Fourteen days of frost are known, of a coat of 5 mm: a day by the fast rule and ten by the slow one come after.
    #[test]
    fn frost_that_is_known_dries_nothing() {
        let (drying, is_beyond) = told(
            &coat(5.0),
            date(2026, 1, 5).at(16, 0, 0, 0),
            Rates::Hours(&[0.0; 14 * 24]),
        );
        let end = date(2026, 1, 5).at(16, 0, 0, 0);
        assert!(is_beyond && drying.likely.is_none());
        assert!((days(drying.fast, end) - 15.0).abs() < 1e-9);
        assert!((days(drying.slow, end) - 24.0).abs() < 1e-9);
        // Nothing is known: one day and ten.
        let (drying, _) = told(&coat(5.0), end, Rates::Unknown);
        assert!((days(drying.slow, end) - 10.0).abs() < 1e-9);
    }

    /// A wall that took twice as long moves the others, by the weather and by the rule of thumb.
    #[test]
    fn a_record_moves_all_three() {
        let end = date(2026, 4, 13).at(16, 0, 0, 0);
        for (rate, record) in [
            (
                0.005,
                Record {
                    model: 2.0,
                    rule: 1.0,
                },
            ),
            (
                1.0,
                Record {
                    model: 1.0,
                    rule: 2.0,
                },
            ),
        ] {
            let mut of = coat(10.0);
            let (before, _) = told(&of, end, Rates::Steady(rate));
            of.record = record;
            let (after, _) = told(&of, end, Rates::Steady(rate));
            for pick in [
                |of: &Drying| of.likely,
                |of: &Drying| of.slow,
                |of: &Drying| of.fast,
            ] {
                let ratio = days(pick(&after), end) / days(pick(&before), end);
                assert!((ratio - 2.0).abs() < 0.01, "{rate}: {ratio}");
            }
        }
    }
}
