//! Whether a plan can be done: looked over from its times and people alone, by other means than it was found. Not
//! here: whether it is a good one.

use crate::plan::{Plan, Portion, Stint, TaskPlan};
use crate::plan_fault::PlanFault;
use crate::site::{Crew, Hours, Role, Site, Task, Work};
use crate::tolerance::OVER;
use jiff::SignedDuration;
use jiff::civil::DateTime;

/// Every reason why a plan cannot be done. `dry` is what the plan was made with. `done_before` are tasks that are
/// done before the first day, as [`crate::weekend`] takes them.
pub fn faults(
    site: &Site,
    plan: &Plan,
    done_before: &[usize],
    dry: &mut dyn FnMut(usize, DateTime) -> DateTime,
) -> Vec<PlanFault> {
    let mut found = Vec::new();
    if plan.tasks.len() != site.tasks.len() {
        return vec![PlanFault::OtherSite {
            planned: plan.tasks.len(),
            tasks: site.tasks.len(),
        }];
    }
    people(site, plan, &mut found);
    for (number, (task, planned)) in site.tasks.iter().zip(&plan.tasks).enumerate() {
        let left = plan
            .unplanned
            .iter()
            .filter(|left| left.task == number)
            .count();
        let before = usize::from(done_before.contains(&number));
        if usize::from(planned.is_some()) + left + before != 1 {
            found.push(PlanFault::Lost { task: number });
        }
        if let Some(planned) = planned {
            order(number, task, planned, plan, done_before, dry, &mut found);
            amounts(number, task, planned, &mut found);
            nights(number, task, planned, &mut found);
            for portion in &planned.portions {
                hands(number, site, task, portion, &plan.stints, &mut found);
            }
        }
    }
    mix(site, plan, &mut found);
    found
}

fn hours(begin: DateTime, end: DateTime) -> f64 {
    end.duration_since(begin).as_secs_f64() / 3600.0
}

fn apart(a: f64, b: f64) -> bool {
    (a - b).abs() > OVER * b.abs().max(OVER)
}

fn inside(hours: &Hours, begin: DateTime, end: DateTime) -> bool {
    begin < end
        && begin.date() == end.date()
        && hours.weekdays.contains(&begin.weekday())
        && !hours.days_off.contains(&begin.date())
        && hours.from <= begin.time()
        && end.time() <= hours.to
        && !hours
            .breaks
            .iter()
            .any(|&(from, to)| from < to && from < end.time() && begin.time() < to)
}

fn people(site: &Site, plan: &Plan, found: &mut Vec<PlanFault>) {
    let (m, c, p, f) = match site.crew {
        Crew::Everyone(people) => (0, 0, people, 0),
        Crew::Roles {
            mixing,
            carrying,
            placing,
            finishing,
        } => (mixing, carrying, placing, finishing),
    };
    for stint in &plan.stints {
        if stint.begin.date() < site.begins || !inside(&site.hours, stint.begin, stint.end) {
            found.push(PlanFault::OutsideHours {
                begin: stint.begin,
                end: stint.end,
            });
        }
        let theirs = match stint.role {
            Role::Mixing => 0..m,
            Role::Carrying => m..m + c,
            Role::Placing | Role::Everything => m + c..m + c + p,
            Role::Finishing => m + c + p..m + c + p + f,
        };
        if !theirs.contains(&stint.person) {
            found.push(PlanFault::WrongRole {
                person: stint.person,
                at: stint.begin,
            });
        }
    }
    let mut stints = plan.stints.clone();
    stints.sort_by_key(|stint| (stint.person, stint.begin));
    for (one, next) in stints.iter().zip(stints.iter().skip(1)) {
        if one.person == next.person && next.begin < one.end {
            found.push(PlanFault::TwoPlaces {
                person: one.person,
                at: next.begin,
            });
        }
    }
}

fn order(
    number: usize,
    task: &Task,
    planned: &TaskPlan,
    plan: &Plan,
    done_before: &[usize],
    dry: &mut dyn FnMut(usize, DateTime) -> DateTime,
    found: &mut Vec<PlanFault>,
) {
    let first = planned.portions.iter().map(|portion| portion.begin).min();
    let begin = first.unwrap_or(planned.begin);
    if let Some(may) = task.not_before.filter(|may| begin < *may) {
        found.push(PlanFault::BeforeItsTime {
            task: number,
            begin,
            may,
        });
    }
    for after in task
        .after
        .iter()
        .filter(|after| !done_before.contains(&after.task))
    {
        let before = plan.tasks.get(after.task).and_then(Option::as_ref);
        let end = before.and_then(|before| before.portions.iter().map(|portion| portion.end).max());
        let may = end.map(|end| {
            let seconds = SignedDuration::try_from_secs_f64(after.hours * 3600.0);
            let waited = seconds
                .ok()
                .and_then(|wait| end.checked_add(wait).ok())
                .unwrap_or(DateTime::MAX);
            if after.dry {
                waited.max(dry(after.task, end))
            } else {
                waited
            }
        });
        // Waits are read off real numbers: what is missing of a second is nothing.
        let missing = may.map(|may| may.duration_since(begin));
        if missing.is_none_or(|missing| missing >= SignedDuration::from_secs(1)) {
            found.push(PlanFault::TooEarly {
                task: number,
                begin,
                before: after.task,
                may: may.unwrap_or(begin),
            });
        }
    }
}

fn amounts(number: usize, task: &Task, planned: &TaskPlan, found: &mut Vec<PlanFault>) {
    let sum = |of: fn(&Portion) -> f64| planned.portions.iter().map(of).sum::<f64>();
    for (wanted, planned) in [
        (task.m2(), sum(|portion| portion.m2)),
        (task.litres(), sum(|portion| portion.litres)),
    ] {
        if apart(planned, wanted) {
            found.push(PlanFault::NotOnce {
                task: number,
                wanted,
                planned,
            });
        }
    }
    if let Work::Prepare { hours: wanted, .. } = task.work
        && planned.hours < wanted * (1.0 - OVER)
    {
        found.push(PlanFault::NotOnce {
            task: number,
            wanted,
            planned: planned.hours,
        });
    }
}

fn nights(number: usize, task: &Task, planned: &TaskPlan, found: &mut Vec<PlanFault>) {
    for (one, next) in planned.portions.iter().zip(planned.portions.iter().skip(1)) {
        let nights = one.end.date() != next.begin.date();
        let overlap = next.begin < one.end;
        let pauses = task.coat().is_none() && !task.in_one_go;
        let cut = one.part != next.part && !task.in_one_go;
        if overlap || nights && !pauses && !cut {
            found.push(PlanFault::OverNight { task: number });
        }
    }
}

/// Those who are at the task all the while are as many as told, fit the place, and manage the work.
fn hands(
    number: usize,
    site: &Site,
    task: &Task,
    portion: &Portion,
    stints: &[Stint],
    found: &mut Vec<PlanFault>,
) {
    let there = |finishing: bool| {
        stints
            .iter()
            .filter(|stint| stint.task == Some(number))
            .filter(|stint| stint.begin <= portion.begin && portion.end <= stint.end)
            .filter(|stint| (stint.role == Role::Finishing) == finishing)
            .count()
    };
    let by_finishers = matches!(
        (site.crew, &task.work),
        (
            Crew::Roles { .. },
            Work::Prepare {
                by: Role::Finishing,
                ..
            }
        )
    );
    let (hands, finishing) = if by_finishers {
        (there(true), 0)
    } else {
        (there(false), there(true))
    };
    let time = hours(portion.begin, portion.end);
    let (own, others) = work_of(site, task, portion);
    let enough = |people: usize, work: f64| {
        f64::from(u32::try_from(people).unwrap_or(u32::MAX)) * time >= work * (1.0 - OVER)
    };
    let right = hands == portion.hands
        && finishing == portion.finishing
        && hands > 0
        && task.most_hands.is_none_or(|most| hands <= most)
        && enough(hands, own)
        && enough(finishing, others);
    if !right {
        found.push(PlanFault::WrongHands {
            task: number,
            begin: portion.begin,
        });
    }
}

/// Person-hours of a portion: of its own people, and of those finishing.
fn work_of(site: &Site, task: &Task, portion: &Portion) -> (f64, f64) {
    let Some(coat) = task.coat().and_then(|coat| site.coats.get(coat)) else {
        return (0.0, 0.0);
    };
    let finishing = coat.finishing.map_or(0.0, |rate| portion.m2 / rate);
    let placing = portion.m2 / coat.placing;
    let Crew::Everyone(_) = site.crew else {
        return (placing, finishing);
    };
    let mixing = site.mixing.map_or(0.0, |mixing| {
        let hands = f64::from(u32::try_from(mixing.hands_each).unwrap_or(u32::MAX));
        portion.litres / mixing.litres_per_batch * mixing.minutes_per_batch / 60.0 * hands
    });
    let carrying = site
        .carried_per_hour
        .map_or(0.0, |rate| portion.litres / rate);
    (placing + finishing + mixing + carrying, 0.0)
}

/// At each moment when something begins, what is taken an hour is no more than what is given.
fn mix(site: &Site, plan: &Plan, found: &mut Vec<PlanFault>) {
    let portions: Vec<&Portion> = plan
        .tasks
        .iter()
        .flatten()
        .flat_map(|task| &task.portions)
        .filter(|portion| portion.litres > 0.0)
        .collect();
    let begins = portions.iter().map(|portion| portion.begin);
    // Someone who leaves the mixer while work goes on would take the mix away.
    let ends = plan.stints.iter().filter(|stint| stint.task.is_none());
    let mut moments: Vec<DateTime> = begins.chain(ends.map(|stint| stint.end)).collect();
    moments.sort_unstable();
    moments.dedup();
    for at in moments {
        let on = |begin: DateTime, end: DateTime| begin <= at && at < end;
        let litres: f64 = portions
            .iter()
            .filter(|portion| on(portion.begin, portion.end))
            .map(|portion| portion.litres / hours(portion.begin, portion.end))
            .sum();
        let serving = |role: Role| {
            plan.stints
                .iter()
                .filter(|stint| stint.task.is_none() && stint.role == role)
                .filter(|stint| on(stint.begin, stint.end))
                .count()
        };
        let real = |people: usize| f64::from(u32::try_from(people).unwrap_or(u32::MAX));
        let everyone = matches!(site.crew, Crew::Everyone(_));
        let mixing = if everyone {
            site.crew.people()
        } else {
            serving(Role::Mixing)
        };
        let mixed = site.mixing.map_or(f64::INFINITY, |mixer| {
            let manned = mixing.checked_div(mixer.hands_each).unwrap_or(0);
            real(manned.min(mixer.mixers)) * mixer.litres_per_hour()
        });
        let carried = match site.carried_per_hour {
            Some(rate) if !everyone => real(serving(Role::Carrying)) * rate,
            _ => f64::INFINITY,
        };
        let most = mixed.min(carried);
        if litres > most * (1.0 + OVER) {
            found.push(PlanFault::TooMuchMix { at, litres, most });
        }
    }
}
