//! Nights in which a coat may freeze, rain on it while it is wet, and hours in which it dries too fast to be worked. Not
//! here: what is said of them (see `said`).

use super::climate::{Climate, Rates};
use super::drying::{Drying, Until};
use super::lacking::Lacking;
use super::tasks::Found;
use hodful_air::film::{Haste, haste};
use hodful_air::frost::{Night, Verdict, care, nights};
use hodful_workplan::TaskPlan;
use jiff::civil::{Date, DateTime};
use jiff::{SignedDuration, ToSpan};

/// Hours after the end of the work in which haste still matters: ours, until the next morning.
const WATCHED: i64 = 12;

/// By which formula it is told that a coat dries too fast, in sentences for who reads a plan.
pub const HASTE_BY: &str = "Too fast is told by a level film of water as warm as the air in the wind of the weather (Uno, ACI Materials Journal 95-M34, 1998), to which the alerts of ACI 305R belong: 0.5 kg/m² (0.1 lb/ft²) an hour to watch, 1.0 (0.2) to act; by the wet face in the sun where that gives off more. A film says more than a wall in still air gives off, and may be off by 40 % either way.";

/// A night that speaks for frost while a coat must be kept from it.
#[derive(Debug, Clone, PartialEq)]
pub struct NightAhead {
    /// The night.
    pub night: Night,
    /// Whether the coat is likely still wet in it; else only if it dries slowly.
    pub likely_wet: bool,
}

/// A day on which it rains on a coat that is wet and open to rain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RainAhead {
    /// The day.
    pub date: Date,
    /// Rain in all while the coat is on the wall, mm.
    pub mm: f64,
    /// Hours in which it rains.
    pub hours: u32,
    /// Whether the coat is likely still wet then; else only if it dries slowly.
    pub likely_wet: bool,
}

/// Hours in a row in which a wet face gives off much.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hasty {
    /// From when.
    pub from: DateTime,
    /// Until when.
    pub to: DateTime,
    /// The most that it may give off, kg/(m²·h), as [`HASTE_BY`] says.
    pub most_kg_m2_h: f64,
}

impl Hasty {
    /// How bad the worst hour is.
    pub fn haste(&self) -> Haste {
        haste(self.most_kg_m2_h)
    }
}

/// Until when a coat that was on the wall at `end` must be kept from frost, when it is dry then.
pub(super) fn kept_until(of: &Found, end: DateTime, dry: Option<Until>) -> DateTime {
    let dry_h = dry.map_or(0.0, |dry| dry.at.duration_since(end).as_secs_f64() / 3600.0);
    let kept = SignedDuration::try_from_secs_f64(care(of.task.binder).hours(dry_h) * 3600.0);
    let until = kept.ok().and_then(|kept| end.checked_add(kept).ok());
    until.unwrap_or(end)
}

/// Whether one night is worse than another: by what it may do, then by its cold.
pub(super) fn is_worse(one: &Night, other: &Night) -> bool {
    let [one, other] = [one, other].map(|of| (of.verdict(), -of.lowest_air));
    one.partial_cmp(&other)
        .is_some_and(std::cmp::Ordering::is_gt)
}

impl Climate {
    /// The nights that speak for frost from `begin` on, outside or in a room, of a coat that was on the wall at `end`,
    /// until it is dry by the slow end, or as long as its binder asks for.
    pub(super) fn nights(
        &self,
        of: &Found,
        [begin, end]: [DateTime; 2],
        drying: &Drying,
    ) -> Vec<NightAhead> {
        let care = care(of.task.binder);
        let slow = kept_until(of, end, drying.slow);
        let likely = kept_until(of, end, drying.likely.or(drying.slow));
        let hours = self.air_from(of, begin);
        let count = hours.iter().take_while(|hour| hour.begins < slow).count();
        let hours = hours.get(..count).unwrap_or(hours);
        let found = nights(hours, &care).unwrap_or_default();
        let is_unknown = self.lacking.contains(&Lacking::Dryness);
        let watched = found.into_iter().map(|night| match hours.first() {
            Some(hour) if is_unknown => {
                let plain = night.clone();
                night.with_dryness_unknown(hour.pressure).unwrap_or(plain)
            }
            _ => night,
        });
        let mut found: Vec<Night> = watched.collect();
        // A night goes on until noon: what is left of one on the day of placing is told with that day.
        if let [morning, rest @ ..] = &mut found[..]
            && morning.evening < begin.date()
            && begin < end
        {
            morning.evening = begin.date();
            if let Some(night) = rest
                .first_mut()
                .filter(|night| night.evening == begin.date())
            {
                if is_worse(morning, night) {
                    std::mem::swap(morning, night);
                }
                found.remove(0);
            }
        }
        let risky = found.into_iter();
        let risky = risky.filter(|night| night.verdict() != Verdict::Safe);
        risky
            .map(|night| NightAhead {
                likely_wet: night.evening.at(18, 0, 0, 0) <= likely,
                night,
            })
            .collect()
    }

    /// The warmest air outside while an outside face is worked, °C.
    pub(super) fn hottest(&self, of: &Found, planned: &TaskPlan) -> Option<f64> {
        of.stand?;
        let worked = planned.portions.iter().flat_map(|part| {
            let hours = self.hours_from(part.begin).iter();
            hours.take_while(|hour| hour.begins < part.end)
        });
        worked.map(|hour| hour.dry_bulb).reduce(f64::max)
    }

    /// Rain on an outside coat that is open to it, from `begin` on until the slow end.
    pub(super) fn rain(&self, of: &Found, begin: DateTime, drying: &Drying) -> Vec<RainAhead> {
        let is_open = of.stand.is_some_and(|stand| stand.is_open_to_rain());
        let Some(until) = drying.slow.or(drying.likely).filter(|_| is_open) else {
            return Vec::new();
        };
        let likely = drying.likely.unwrap_or(until).at;
        let wet = self.hours_from(begin).iter();
        let wet = wet.take_while(|hour| hour.begins < until.at);
        let mut found: Vec<RainAhead> = Vec::new();
        for hour in wet {
            let Some(mm) = hour.rain.filter(|mm| *mm > 0.0) else {
                continue;
            };
            let date = hour.begins.date();
            match found.last_mut() {
                Some(last) if last.date == date => {
                    last.mm += mm;
                    last.hours += 1;
                }
                _ => found.push(RainAhead {
                    date,
                    mm,
                    hours: 1,
                    likely_wet: hour.begins <= likely,
                }),
            }
        }
        found
    }

    /// The coldest hour outside, °C, while a coat inside that stands in no room is wet; it is taken as kept warm.
    pub(super) fn coldest_outside(
        &self,
        of: &Found,
        begin: DateTime,
        drying: &Drying,
    ) -> Option<f64> {
        if of.stand.is_some() || of.room.is_some() {
            return None;
        }
        let slow = drying.slow?.at;
        let wet = self.hours_from(begin).iter();
        let wet = wet.take_while(|hour| hour.begins < slow);
        wet.map(|hour| hour.dry_bulb).reduce(f64::min)
    }

    /// When a wet face gives off much, from placing until the next morning.
    pub(super) fn hasty(&self, of: &Found, planned: &TaskPlan) -> Vec<Hasty> {
        let begin = self.known_from(of, planned.begin);
        let rates = match self.quick(of, begin) {
            Rates::Hours(rates) if of.stand.is_some() => rates,
            _ => &[],
        };
        let start = begin.date().at(begin.hour(), 0, 0, 0);
        let end = planned
            .end
            .checked_add(SignedDuration::from_hours(WATCHED))
            .unwrap_or(planned.end);
        let mut found: Vec<Hasty> = Vec::new();
        for (hour, rate) in (0_i64..).zip(rates) {
            let Ok(from) = start.checked_add(hour.hours()) else {
                break;
            };
            let Ok(to) = from.checked_add(1.hours()) else {
                break;
            };
            if from >= end {
                break;
            }
            if haste(*rate) == Haste::Calm {
                continue;
            }
            match found.last_mut() {
                Some(last) if last.to == from => {
                    last.to = to;
                    last.most_kg_m2_h = last.most_kg_m2_h.max(*rate);
                }
                _ => found.push(Hasty {
                    from,
                    to,
                    most_kg_m2_h: *rate,
                }),
            }
        }
        found
    }
}
