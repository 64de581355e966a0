//! A few days with many hands: what fits, what must be ready before, what is left. Not here: the plan itself.

use crate::axis::hours_between;
use crate::find::found;
use crate::plan::Plan;
use crate::refusal::{Refused, refusals};
use crate::schedule::{Ground, in_order};
use crate::site::{Site, Work};
use jiff::SignedDuration;
use jiff::civil::DateTime;

/// What fits into a few days.
#[derive(Debug, Clone, PartialEq)]
pub struct Weekend {
    /// The plan of the days. Its `unplanned` says why what is left is left.
    pub plan: Plan,
    /// What must be ready when the days begin, by the time it must be.
    pub before: Vec<Before>,
    /// Surface that is placed in the days, m².
    pub m2: f64,
    /// Tasks that are left.
    pub left: Vec<usize>,
}

/// Something to be done before the days.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Before {
    /// Which task.
    pub task: usize,
    /// When it must be done.
    pub by: DateTime,
    /// Person-hours.
    pub hours: f64,
}

/// What fits into so many working days from the begin of the site on.
///
/// Preparing that waits for nothing but preparing is taken as done before the days, with the time by which it must
/// be: the begin of what comes after it less the wait, and less the person-hours of what is prepared between, as one
/// person would need them straight on. The rest is planned as by [`crate::plan`]; tasks that do not end within the
/// days are left, with all that hangs on them. Of the orders that are tried the one
/// that leaves least surface is kept; there may be a better one.
///
/// # Errors
///
/// Every reason why the site cannot be worked with.
///
/// ```
/// // One day of the example: both base coats; the finish coats must wait a night.
/// let site = hodful_workplan::example();
/// let one = hodful_workplan::weekend(&site, 1, &mut |_, end| end)?;
/// assert_eq!((one.m2, one.left), (72.0, vec![2, 3]));
/// # Ok::<(), hodful_workplan::Refused>(())
/// ```
pub fn weekend(
    site: &Site,
    days: usize,
    dry: &mut dyn FnMut(usize, DateTime) -> DateTime,
) -> Result<Weekend, Refused> {
    let refused = refusals(site);
    if !refused.is_empty() {
        return Err(Refused(refused));
    }
    let mut ground = Ground::new(site, days.min(crate::tolerance::MOST_DAYS));
    let order = in_order(site, &vec![0.0; site.tasks.len()]);
    for &number in &order {
        let prepares = site.tasks.get(number).is_some_and(|task| {
            matches!(task.work, Work::Prepare { .. })
                && task.after.iter().all(|after| ground.is_given(after.task))
        });
        if let Some(given) = ground.given.get_mut(number) {
            *given = prepares;
        }
    }
    let plan = found(&ground, dry);
    let planned = |task: usize| plan.tasks.get(task).is_some_and(Option::is_some);
    Ok(Weekend {
        before: before(&ground, &order, &plan),
        m2: site
            .tasks
            .iter()
            .enumerate()
            .filter(|&(number, _)| planned(number))
            .map(|(_, task)| task.m2())
            .sum(),
        left: (0..site.tasks.len())
            .filter(|&task| !planned(task) && !ground.is_given(task))
            .collect(),
        plan,
    })
}

/// What is given, with the time by which it must be done, earliest first.
fn before(ground: &Ground<'_>, order: &[usize], plan: &Plan) -> Vec<Before> {
    let site = ground.site;
    // No days at all: as if the first one were worked.
    let opens = ground.axis.times(0).map_or_else(
        || DateTime::from_parts(site.begins, site.hours.from),
        |(begin, _)| begin,
    );
    let mut by = vec![opens; site.tasks.len()];
    let mut found = Vec::new();
    for &number in order.iter().rev() {
        let Some(task) = site.tasks.get(number) else {
            continue;
        };
        let own = by.get(number).copied().unwrap_or(opens);
        let begin = match (&task.work, plan.tasks.get(number).and_then(Option::as_ref)) {
            (Work::Prepare { hours, .. }, _) if ground.is_given(number) => {
                found.push(Before {
                    task: number,
                    by: own,
                    hours: *hours,
                });
                earlier(own, *hours)
            }
            (_, Some(planned)) => planned.begin,
            // It is not done in these days, and asks for nothing in time for them.
            (_, None) => continue,
        };
        for after in &task.after {
            if let Some(by) = by.get_mut(after.task) {
                *by = (*by).min(earlier(begin, after.hours));
            }
        }
    }
    found.sort_by_key(|before| (before.by, before.task));
    found
}

/// So many hours before, or the first day of the calendar.
fn earlier(time: DateTime, hours: f64) -> DateTime {
    let most = hours_between(DateTime::MIN, time);
    let seconds = crate::tolerance::up(hours.min(most) * 3600.0);
    i64::try_from(seconds)
        .ok()
        .and_then(|seconds| time.checked_sub(SignedDuration::from_secs(seconds)).ok())
        .unwrap_or(DateTime::MIN)
}
