//! When a coat is dry: by what its face gives off hour by hour, else by rules of thumb. Not here: the formulas (see
//! `hodful_air`), and what a face gives off (see `climate`).

use super::climate::{Climate, Rates};
use super::tasks::Found;
use hodful_air::drying::{Band, Bound, Coat, FAST_MM_DAY, Origin, SLOW_MM_DAY, band};
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
    /// Whether the weather that is known ends before, so that rules of thumb stand in.
    pub beyond_weather: bool,
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

    /// Of a coat that was put on then, by what its face gives off from then on.
    pub(super) fn of(of: &Found, end: DateTime, rates: Rates<'_>, is_known: bool) -> Self {
        let thickness = of.task.thickness_mm;
        let until = |bound: Option<Bound>| {
            let bound = bound?;
            let after = SignedDuration::try_from_secs_f64(bound.hours * 3600.0).ok()?;
            // To the minute: a drying time is not known any better.
            let after = SignedDuration::from_mins(after.as_mins());
            Some(Until {
                at: end.checked_add(after).ok()?,
                from: bound.from,
            })
        };
        let rule = |mm_day: f64| {
            until(Some(Bound {
                hours: thickness / mm_day * 24.0,
                from: Origin::RuleOfThumb,
            }))
        };
        let Some(Band { fast, likely, slow }) = band_of(of, rates, of.record) else {
            return Self {
                fast: rule(FAST_MM_DAY),
                likely: None,
                slow: rule(SLOW_MM_DAY),
                beyond_weather: of.stand.is_some() && is_known,
            };
        };
        let fast = until(fast).or_else(|| rule(FAST_MM_DAY));
        let likely = until(likely);
        // Beyond the weather the rule stands in, but nothing is dry for sure before it may be or is likely.
        let by_rule = || {
            let all = rule(SLOW_MM_DAY).into_iter().chain(likely).chain(fast);
            all.max_by_key(|until| until.at)
        };
        Self {
            fast,
            likely,
            slow: until(slow).or_else(by_rule),
            beyond_weather: slow.is_none(),
        }
    }
}

/// Hours of drying by rates and by a record; nothing where they are not known.
pub(super) fn band_of(of: &Found, rates: Rates<'_>, record: f64) -> Option<Band> {
    let coat = Coat::of_mix(of.task.water_kg_m2, of.task.dry_kg_m2).ok()?;
    band(&coat, of.task.thickness_mm, record, rates.hours()?).ok()
}

impl Climate {
    /// When a task that ended then is dry.
    pub(super) fn drying(&self, of: &Found, end: DateTime) -> Drying {
        Drying::of(of, end, self.rates(of, end), self.is_known())
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
            cautions: Vec::new(),
        };
        Found::of_one_face(task, Stand::new(180.0, true).ok())
    }

    /// Weather that ends between the likely and the slow end, of a thick coat that dries slower than the rule of
    /// thumb: 40 mm by the rule in 40 days, but not before it is likely, some 80 days on.
    #[test]
    fn nothing_is_dry_for_sure_before_it_is_likely() {
        let of = coat(40.0);
        let end = date(2026, 4, 13).at(16, 0, 0, 0);
        let rate = 0.3 / 24.0;
        let whole = band_of(&of, Rates::Steady(rate), 1.0).unwrap();
        let [likely, slow] = [whole.likely, whole.slow].map(|bound| bound.unwrap().hours);
        let rule_h = 40.0 / SLOW_MM_DAY * 24.0;
        assert!(rule_h < likely && likely < slow, "{likely} {slow}");
        let between =
            (0_u32..100_000).take_while(|hour| f64::from(*hour) < f64::midpoint(likely, slow));
        let known: Vec<f64> = between.map(|_| rate).collect();
        let drying = Drying::of(&of, end, Rates::Hours(&known), true);
        assert!(drying.beyond_weather);
        assert_eq!(drying.slow.unwrap().at, drying.likely.unwrap().at);
        // Nor before it may be, where the weather ends before that is likely.
        let fast = whole.fast.unwrap().hours;
        let known =
            (0_u32..100_000).take_while(|hour| f64::from(*hour) < f64::midpoint(fast, likely));
        let known: Vec<f64> = known.map(|_| rate).collect();
        let early = Drying::of(&of, end, Rates::Hours(&known), true);
        assert!(early.likely.is_none() && early.slow.unwrap().at >= early.fast.unwrap().at);
        // With all of the weather the slow end is the later one.
        let all = Drying::of(&of, end, Rates::Steady(rate), true);
        assert!(!all.beyond_weather && all.slow.unwrap().at > all.likely.unwrap().at);
    }

    /// A wall that took twice as long moves the others.
    #[test]
    fn a_record_moves_all_three() {
        let mut of = coat(10.0);
        let end = date(2026, 4, 13).at(16, 0, 0, 0);
        let before = Drying::of(&of, end, Rates::Steady(0.02), true);
        of.record = 2.0;
        let after = Drying::of(&of, end, Rates::Steady(0.02), true);
        let days = |until: Option<Until>| until.unwrap().at.duration_since(end).as_secs_f64();
        assert!((days(after.likely) / days(before.likely) - 2.0).abs() < 0.01);
        assert!(days(after.slow) > days(before.slow) && days(after.fast) > days(before.fast));
    }
}
