//! Plans held against hand reckoning, published figures, bounds and a checker of their own. Not here: optima, which
//! the cross-check has.
#![allow(clippy::unwrap_used, clippy::panic, reason = "test helpers")]

mod checker;
mod limits;
mod network;
mod plans;
mod properties;
mod published;
mod random;
mod refusals;
mod weekends;

use hodful_workplan::{After, Side, Site, Task, TaskPlan, Work, example};
use jiff::civil::DateTime;

/// A coat that needs nothing before it.
fn face(name: &str, m2: f64, litres: f64) -> Task {
    Task {
        name: name.into(),
        work: Work::Coat {
            coat: 0,
            side: Side::Outside,
            m2,
            litres,
        },
        after: vec![],
        most_hands: None,
        not_before: None,
        in_one_go: true,
    }
}

fn after(task: usize, hours: f64) -> After {
    After {
        task,
        hours,
        dry: false,
    }
}

/// The example with these tasks.
fn site(tasks: Vec<Task>) -> Site {
    Site { tasks, ..example() }
}

fn planned(site: &Site) -> hodful_workplan::Plan {
    let plan = hodful_workplan::plan(site, &mut |_, end| end).unwrap();
    let faults = hodful_workplan::faults(site, &plan, &[], &mut |_, end| end);
    assert_eq!(faults, []);
    plan
}

fn of(plan: &hodful_workplan::Plan, task: usize) -> &TaskPlan {
    plan.tasks[task].as_ref().unwrap()
}

fn at(text: &str) -> DateTime {
    text.parse().unwrap()
}

fn near(a: f64, b: f64) {
    assert!((a - b).abs() <= 1e-9 * b.abs().max(1.0), "{a} is not {b}");
}
