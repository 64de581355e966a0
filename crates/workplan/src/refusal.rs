//! Whether a site can be worked with, and why not, in words. Not here: what does not fit into a plan.

use crate::site::{Crew, Hours, Site, Task, Work};
use crate::tolerance::{MOST, MOST_PEOPLE, STEP_MINUTES};
use jiff::civil::Time;

/// Why a site cannot be worked with.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SiteFault {
    /// A time of the day off the quarters of an hour.
    #[error("{time} is not on a quarter of an hour; the plan goes in quarters, give {} or the next", before(*.time))]
    OffQuarter {
        /// As given.
        time: Time,
    },
    /// Hours with no work in them.
    #[error(
        "from {from} to {to} less the breaks no quarter of an hour is left to work in; give a longer day or fewer breaks"
    )]
    NoHours {
        /// Begin.
        from: Time,
        /// End.
        to: Time,
    },
    /// No day of the week is worked.
    #[error("no day of the week is worked; give one at least")]
    NoWeekdays,
    /// Nobody is there.
    #[error("nobody is in the crew; give one person at least")]
    Nobody,
    /// More people than can be reckoned with.
    #[error(
        "a crew of {people} is more than the {MOST_PEOPLE} that can be planned for; plan it as two crews"
    )]
    TooMany {
        /// As given.
        people: usize,
    },
    /// A number that must be above 0.
    #[error("{what} of {} is {value}; give a number above 0 and up to {MOST}", quoted(.of))]
    NotAbove {
        /// Which number.
        what: &'static str,
        /// Of which task, coat or thing.
        of: String,
        /// As given.
        value: f64,
    },
    /// A number that must be 0 or more.
    #[error("{what} of {} is {value}; give 0 or more, up to {MOST}", quoted(.of))]
    Below {
        /// Which number.
        what: &'static str,
        /// Of which task.
        of: String,
        /// As given.
        value: f64,
    },
    /// No room for anyone, or no mixer.
    #[error("{what} of {} is 0; give 1 or more", quoted(.of))]
    None {
        /// Which number.
        what: &'static str,
        /// Of which task or thing.
        of: String,
    },
    /// A coat that is not in the list.
    #[error("{} has coat number {coat}, but there are only {coats}", quoted(.of))]
    NoSuchCoat {
        /// Of which task.
        of: String,
        /// As given, from 0.
        coat: usize,
        /// How many there are.
        coats: usize,
    },
    /// A task before that is not in the list.
    #[error("{} comes after task number {task}, but there are only {tasks}", quoted(.of))]
    NoSuchTask {
        /// Of which task.
        of: String,
        /// As given, from 0.
        task: usize,
        /// How many there are.
        tasks: usize,
    },
    /// Tasks that wait for each other.
    #[error("{} wait for each other, so that none can begin; take one of their 'after' away", listed(.names))]
    Ring {
        /// Their names.
        names: Vec<String>,
    },
}

/// Every reason why a site cannot be worked with.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{}", lines(.0))]
pub struct Refused(pub Vec<SiteFault>);

fn lines(faults: &[SiteFault]) -> String {
    let lines: Vec<_> = faults.iter().map(ToString::to_string).collect();
    lines.join("\n")
}

fn before(time: Time) -> String {
    let minute = i64::from(time.minute()) / STEP_MINUTES * STEP_MINUTES;
    format!("{:02}:{minute:02}", time.hour())
}

fn quoted(name: &str) -> String {
    format!("'{name}'")
}

fn listed(names: &[String]) -> String {
    let quoted: Vec<_> = names.iter().map(|name| quoted(name)).collect();
    quoted.join(", ")
}

/// Every reason why a site cannot be worked with, in the order of its parts. None: it can.
///
/// ```
/// use hodful_workplan::{Crew, example, refusals};
/// let mut site = example();
/// assert!(refusals(&site).is_empty());
/// site.crew = Crew::Everyone(0);
/// assert_eq!(refusals(&site)[0].to_string(), "nobody is in the crew; give one person at least");
/// ```
pub fn refusals(site: &Site) -> Vec<SiteFault> {
    let mut found = Vec::new();
    hours(&site.hours, &mut found);
    crew(site.crew, &mut found);
    supply(site, &mut found);
    for coat in &site.coats {
        above("the rate of placing", &coat.name, coat.placing, &mut found);
        if let Some(rate) = coat.finishing {
            above("the rate of finishing", &coat.name, rate, &mut found);
        }
        if let Some(minutes) = coat.open_minutes {
            above("the workable time", &coat.name, minutes, &mut found);
        }
    }
    for each in &site.tasks {
        task(each, site, &mut found);
    }
    if found.is_empty() {
        ring(site, &mut found);
    }
    found
}

fn hours(hours: &Hours, found: &mut Vec<SiteFault>) {
    let breaks = hours.breaks.iter().flat_map(|&(from, to)| [from, to]);
    for time in [hours.from, hours.to].into_iter().chain(breaks) {
        let whole = i64::from(time.minute()) % STEP_MINUTES == 0
            && time.second() == 0
            && time.subsec_nanosecond() == 0;
        if !whole {
            found.push(SiteFault::OffQuarter { time });
        }
    }
    if found.is_empty() && crate::axis::quarters(hours).is_empty() {
        found.push(SiteFault::NoHours {
            from: hours.from,
            to: hours.to,
        });
    }
    if hours.weekdays.is_empty() {
        found.push(SiteFault::NoWeekdays);
    }
}

fn crew(crew: Crew, found: &mut Vec<SiteFault>) {
    match crew.people() {
        0 => found.push(SiteFault::Nobody),
        people if people > MOST_PEOPLE => found.push(SiteFault::TooMany { people }),
        _ => {}
    }
}

fn supply(site: &Site, found: &mut Vec<SiteFault>) {
    if let Some(mixing) = site.mixing {
        let of = "mixing";
        least_one("the number of mixers", of, mixing.mixers, found);
        least_one("the people at a mixer", of, mixing.hands_each, found);
        above("the litres of a batch", of, mixing.litres_per_batch, found);
        above(
            "the minutes of a batch",
            of,
            mixing.minutes_per_batch,
            found,
        );
    }
    if let Some(litres) = site.carried_per_hour {
        above("the litres in an hour", "carrying", litres, found);
    }
}

fn task(task: &Task, site: &Site, found: &mut Vec<SiteFault>) {
    let of = task.name.as_str();
    match task.work {
        Work::Coat {
            coat, m2, litres, ..
        } => {
            if coat >= site.coats.len() {
                found.push(SiteFault::NoSuchCoat {
                    of: of.to_owned(),
                    coat,
                    coats: site.coats.len(),
                });
            }
            above("the surface", of, m2, found);
            not_below("the mixed volume", of, litres, found);
        }
        Work::Prepare { hours, .. } => above("the person-hours", of, hours, found),
    }
    if let Some(hands) = task.most_hands {
        least_one("the most people", of, hands, found);
    }
    for after in &task.after {
        not_below("the wait before", of, after.hours, found);
        if after.task >= site.tasks.len() {
            found.push(SiteFault::NoSuchTask {
                of: of.to_owned(),
                task: after.task,
                tasks: site.tasks.len(),
            });
        }
    }
}

fn above(what: &'static str, of: &str, value: f64, found: &mut Vec<SiteFault>) {
    if !(value > 0.0 && value <= MOST) {
        let of = of.to_owned();
        found.push(SiteFault::NotAbove { what, of, value });
    }
}

fn not_below(what: &'static str, of: &str, value: f64, found: &mut Vec<SiteFault>) {
    if !(0.0..=MOST).contains(&value) {
        let of = of.to_owned();
        found.push(SiteFault::Below { what, of, value });
    }
}

fn least_one(what: &'static str, of: &str, value: usize, found: &mut Vec<SiteFault>) {
    if value == 0 {
        let of = of.to_owned();
        found.push(SiteFault::None { what, of });
    }
}

/// Takes away, again and again, each task that waits for none of the rest; what is left waits for itself.
fn ring(site: &Site, found: &mut Vec<SiteFault>) {
    let mut left: Vec<usize> = (0..site.tasks.len()).collect();
    let mut inside = vec![true; site.tasks.len()];
    loop {
        let before = left.len();
        left.retain(|&each| {
            let waits = site.tasks.get(each).is_some_and(|task| {
                task.after
                    .iter()
                    .any(|after| inside.get(after.task).copied().unwrap_or(false))
            });
            if !waits && let Some(inside) = inside.get_mut(each) {
                *inside = false;
            }
            waits
        });
        if left.len() == before {
            break;
        }
    }
    if !left.is_empty() {
        let name = |&each: &usize| site.tasks.get(each).map(|task| task.name.clone());
        let names = left.iter().filter_map(name).collect();
        found.push(SiteFault::Ring { names });
    }
}
