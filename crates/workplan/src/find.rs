//! Finds a plan: checks the site, tries some orders, keeps the one that ends first. Not here: the steps of it.

use crate::bound::{Earliest, bounds, earliest, tails};
use crate::plan::{Because, Plan};
use crate::refusal::{Refused, refusals};
use crate::schedule::{Dry, Ground, Outcome, in_order, serial};
use crate::site::{After, Coat, Crew, Hours, Mixing, Side, Site, Task, Work};
use crate::tolerance::{MOST_DAYS, TRIED_TASKS, TRIES, count, real, up};
use crate::{held, read_off};
use jiff::civil::{DateTime, Weekday, date, time};
use std::collections::BTreeMap;

/// A plan of all tasks that find a place within some ten years.
///
/// `dry` says when a task that ended then is dry; it is asked once for each end that is tried, of each task that
/// something waits for to be dry. What it says before the end counts as the end.
///
/// The tasks are placed one after the other, each where it ends first, with the fewest people who reach that end. The
/// order is tried as typed, and with the task first on which the longest chain of work and waits hangs (Kolisch, Serial
/// and parallel resource-constrained project scheduling methods revisited, 1996, from memory); then, as long as that
/// ends sooner and a few times at most, with a task that holds the end up in the place of the one it waited for. Kept
/// is the plan that leaves least, of those the one that ends first, of equal ones the one tried first.
///
/// # Errors
///
/// Every reason why the site cannot be worked with.
pub fn plan(
    site: &Site,
    dry: &mut dyn FnMut(usize, DateTime) -> DateTime,
) -> Result<Plan, Refused> {
    let refused = refusals(site);
    if !refused.is_empty() {
        return Err(Refused(refused));
    }
    Ok(found(&Ground::new(site, MOST_DAYS), dry))
}

/// The best plan of the orders that are tried.
pub(crate) fn found(ground: &Ground<'_>, dry: Dry<'_>) -> Plan {
    let site = ground.site;
    let mut known = BTreeMap::new();
    let mut ask = |task, end| *known.entry((task, end)).or_insert_with(|| dry(task, end));
    let dry: Dry<'_> = &mut ask;
    let as_typed = vec![0.0; site.tasks.len()];
    let typed = in_order(site, &as_typed);
    let earliest = earliest(ground, &typed, &mut *dry);
    let tails = tails(ground, &typed, &earliest);
    let mut best = Try::new(ground, typed, &mut *dry);
    best = best.or(Try::new(ground, in_order(site, &tails), &mut *dry), site);
    let mut left = TRIES.min(TRIED_TASKS / site.tasks.len().max(1));
    let mut from = 0;
    while left > 0 && !best.reaches(ground, &earliest) {
        // Who held the end up goes before the one it waited for; the last such pair first.
        let Some((at, pair)) = best.pairs(ground).into_iter().enumerate().nth(from) else {
            break;
        };
        let next = Try::new(ground, in_order(site, &best.swapped(pair)), &mut *dry);
        left -= 1;
        from = at + 1;
        if next.rank(site) < best.rank(site) {
            (best, from) = (next, 0);
        }
    }
    told(ground, &earliest, best.outcome)
}

/// One order, and what came of it.
#[derive(Debug)]
struct Try {
    order: Vec<usize>,
    outcome: Outcome,
}

impl Try {
    fn new(ground: &Ground<'_>, order: Vec<usize>, dry: Dry<'_>) -> Self {
        Self {
            outcome: serial(ground, &order, dry),
            order,
        }
    }

    /// The surface that is left, in cm² and so in whole numbers, the tasks that are left, the end: less is better.
    fn rank(&self, site: &Site) -> (u64, usize, Option<DateTime>) {
        let end = self
            .outcome
            .done
            .iter()
            .flatten()
            .map(|done| done.end)
            .max();
        let left = &self.outcome.unplanned;
        let m2: f64 = left
            .iter()
            .filter_map(|left| site.tasks.get(left.task).map(Task::m2))
            .sum();
        (up(m2 * 1e4), left.len(), end)
    }

    /// The other, if it is better.
    fn or(self, other: Self, site: &Site) -> Self {
        if other.rank(site) < self.rank(site) {
            other
        } else {
            self
        }
    }

    /// Whether no plan of these tasks ends before.
    fn reaches(&self, ground: &Ground<'_>, earliest: &Earliest) -> bool {
        let bounds = bounds(ground, earliest, &self.outcome.placed);
        self.outcome.unplanned.is_empty()
            && bounds.map(|bounds| bounds.end()) == self.rank(ground.site).2
    }

    /// The pairs of tasks of what holds the end of which one waited for people or mix of the other.
    fn pairs(&self, ground: &Ground<'_>) -> Vec<(usize, usize)> {
        let tasks = read_off::tasks(ground, &self.outcome);
        let links = held::chain(ground, &self.outcome, &tasks);
        let pairs = links.iter().rev().filter_map(|link| match link.because {
            Because::Taken { task } | Because::DayEnd { task } => Some((task, link.task)),
            _ => None,
        });
        pairs.collect()
    }

    /// How urgent each is when the second of a pair goes in the place of the first.
    fn swapped(&self, (one, other): (usize, usize)) -> Vec<f64> {
        let mut urgency = vec![0.0; self.order.len()];
        for (place, &task) in self.order.iter().enumerate() {
            if let Some(urgency) = urgency.get_mut(task) {
                *urgency = -real(count(place));
            }
        }
        if let (Some(&a), Some(&b)) = (urgency.get(one), urgency.get(other)) {
            for (task, value) in [(one, b), (other, a)] {
                if let Some(urgency) = urgency.get_mut(task) {
                    *urgency = value;
                }
            }
        }
        urgency
    }
}

fn told(ground: &Ground<'_>, earliest: &Earliest, outcome: Outcome) -> Plan {
    let tasks = read_off::tasks(ground, &outcome);
    let stints = read_off::stints(ground, &outcome);
    Plan {
        days: read_off::days(ground, &tasks, &stints),
        chain: held::chain(ground, &outcome, &tasks),
        bounds: bounds(ground, earliest, &outcome.placed),
        notices: read_off::notices(ground, &tasks),
        unplanned: outcome.unplanned,
        tasks,
        stints,
    }
}

/// An invented small site, for examples and tests: a crew of six with one mixer, a face of 48 m² and one of 24 m²,
/// with a base coat and, once that is dry, a finish coat each.
pub fn example() -> Site {
    let coat = |name: &str, placing, open| Coat {
        name: name.to_owned(),
        placing,
        finishing: None,
        open_minutes: Some(open),
        source: "invented".to_owned(),
    };
    let task = |name: &str, coat, m2: f64, thick, before: Option<usize>| Task {
        name: name.to_owned(),
        work: Work::Coat {
            coat,
            side: Side::Inside,
            m2,
            litres: m2 * thick,
        },
        after: before
            .into_iter()
            .map(|task| After {
                task,
                hours: 24.0,
                dry: true,
            })
            .collect(),
        most_hands: None,
        not_before: None,
        in_one_go: true,
    };
    Site {
        begins: date(2030, 5, 6),
        hours: Hours {
            from: time(8, 0, 0, 0),
            to: time(17, 0, 0, 0),
            breaks: vec![(time(12, 0, 0, 0), time(13, 0, 0, 0))],
            weekdays: vec![
                Weekday::Monday,
                Weekday::Tuesday,
                Weekday::Wednesday,
                Weekday::Thursday,
                Weekday::Friday,
            ],
            days_off: Vec::new(),
        },
        crew: Crew::Roles {
            mixing: 1,
            carrying: 1,
            placing: 4,
            finishing: 0,
        },
        mixing: Some(Mixing {
            mixers: 1,
            hands_each: 1,
            litres_per_batch: 120.0,
            minutes_per_batch: 20.0,
        }),
        carried_per_hour: Some(400.0),
        coats: vec![coat("base", 3.0, 60.0), coat("finish", 2.0, 40.0)],
        tasks: vec![
            task("north wall, base coat", 0, 48.0, 30.0, None),
            task("east wall, base coat", 0, 24.0, 30.0, None),
            task("north wall, finish coat", 1, 48.0, 5.0, Some(0)),
            task("east wall, finish coat", 1, 24.0, 5.0, Some(1)),
        ],
    }
}
