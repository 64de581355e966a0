//! Working time as one row of quarters of an hour, and back to dates and times. Not here: who works in them.

use crate::site::{Hours, Site};
use crate::tolerance::STEP_MINUTES;
use core::ops::Range;
use jiff::SignedDuration;
use jiff::civil::{Date, DateTime, Time};

/// The quarters of an hour that can be worked in: so many a day, day after day.
#[derive(Debug, Clone)]
pub(crate) struct Axis {
    days: Vec<Date>,
    quarters: Vec<(Time, Time)>,
}

/// Begin and end of each quarter of an hour of a working day that is in no break.
pub(crate) fn quarters(hours: &Hours) -> Vec<(Time, Time)> {
    let mut found = Vec::new();
    let mut begin = hours.from;
    while begin < hours.to {
        let Ok(end) = begin.checked_add(SignedDuration::from_mins(STEP_MINUTES)) else {
            break;
        };
        let rests = |&(from, to): &(Time, Time)| from < end && begin < to;
        if end <= hours.to && !hours.breaks.iter().any(rests) {
            found.push((begin, end));
        }
        begin = end;
    }
    found
}

impl Axis {
    /// So many working days, from the first one on.
    pub(crate) fn new(site: &Site, most_days: usize) -> Self {
        let hours = &site.hours;
        let works = |date: &Date| {
            hours.weekdays.contains(&date.weekday()) && !hours.days_off.contains(date)
        };
        let every = core::iter::successors(Some(site.begins), |date| date.tomorrow().ok());
        Self {
            days: every
                // Seven times as many days hold them, if one day of the week is worked and none is off.
                .take(
                    most_days
                        .saturating_mul(7)
                        .saturating_add(hours.days_off.len().saturating_mul(7)),
                )
                .filter(works)
                .take(most_days)
                .collect(),
            quarters: quarters(hours),
        }
    }

    /// Steps of a day.
    pub(crate) fn a_day(&self) -> usize {
        self.quarters.len()
    }

    /// All steps.
    pub(crate) fn len(&self) -> usize {
        self.days.len().saturating_mul(self.a_day())
    }

    /// The steps from this one to the end of its day.
    pub(crate) fn rest_of_day(&self, step: usize) -> Range<usize> {
        let day = step.checked_div(self.a_day()).unwrap_or(0);
        step..day
            .saturating_add(1)
            .saturating_mul(self.a_day())
            .min(self.len())
    }

    /// Its begin and its end.
    pub(crate) fn times(&self, step: usize) -> Option<(DateTime, DateTime)> {
        let date = *self.days.get(step.checked_div(self.a_day())?)?;
        let &(begin, end) = self.quarters.get(step.checked_rem(self.a_day())?)?;
        Some((
            DateTime::from_parts(date, begin),
            DateTime::from_parts(date, end),
        ))
    }

    /// The first step that begins then or later.
    pub(crate) fn first_from(&self, time: DateTime) -> Option<usize> {
        let day = self.days.partition_point(|&date| date < time.date());
        let step = day.checked_mul(self.a_day())?;
        let step = if self.days.get(day) == Some(&time.date()) {
            step + self
                .quarters
                .partition_point(|&(begin, _)| begin < time.time())
        } else {
            step
        };
        (step < self.len()).then_some(step)
    }

    /// The runs of steps without a break between them, with their begin and end.
    pub(crate) fn runs(&self, steps: Range<usize>) -> Vec<(Range<usize>, DateTime, DateTime)> {
        let mut runs: Vec<(Range<usize>, DateTime, DateTime)> = Vec::new();
        for step in steps {
            let Some((begin, end)) = self.times(step) else {
                break;
            };
            match runs.last_mut() {
                Some((run, _, until)) if *until == begin => {
                    run.end = step + 1;
                    *until = end;
                }
                _ => runs.push((step..step + 1, begin, end)),
            }
        }
        runs
    }
}

/// So many hours later; none beyond the calendar.
pub(crate) fn later(time: DateTime, hours: f64) -> Option<DateTime> {
    let seconds = i64::try_from(crate::tolerance::up(hours * 3600.0)).ok()?;
    time.checked_add(SignedDuration::from_secs(seconds)).ok()
}

/// Hours from one to the other.
pub(crate) fn hours_between(begin: DateTime, end: DateTime) -> f64 {
    end.duration_since(begin).as_secs_f64() / 3600.0
}
