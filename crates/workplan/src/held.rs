//! What holds the end of a plan: from the last task back, step by step, to the first. Not here: the plan.

use crate::plan::{Because, Link, TaskPlan};
use crate::schedule::{Done, Ground, Outcome, may_begin};

/// From the first task to the last. The critical chain: waits and shared people both count.
pub(crate) fn chain(
    ground: &Ground<'_>,
    outcome: &Outcome,
    tasks: &[Option<TaskPlan>],
) -> Vec<Link> {
    let uses = uses(ground, outcome);
    let planned = || {
        tasks
            .iter()
            .enumerate()
            .filter_map(|(number, task)| task.as_ref().map(|task| (number, task)))
    };
    let mut links = Vec::new();
    // Of equal ends the earliest typed one.
    let mut at = planned().max_by_key(|&(number, task)| (task.end, core::cmp::Reverse(number)));
    while let Some((number, task)) = at {
        let because = because(number, task, ground, tasks, &uses);
        links.push(Link {
            task: number,
            because,
        });
        let before = match because {
            Because::First | Because::NotBefore => None,
            Because::Waits { task }
            | Because::Dries { task }
            | Because::Taken { task }
            | Because::DayEnd { task } => Some(task),
        };
        // Each of these ends before the task begins, so that this comes to an end.
        at = before.and_then(|number| Some((number, tasks.get(number)?.as_ref()?)));
    }
    links.reverse();
    links
}

/// The people of each task, one bit each, and whether it takes mix.
fn uses(ground: &Ground<'_>, outcome: &Outcome) -> Vec<(u64, bool)> {
    let mut uses = vec![(0, false); ground.site.tasks.len()];
    for (piece, placed) in ground.pieces.iter().zip(&outcome.placed) {
        if let (Some((people, mix)), Some(placed)) = (uses.get_mut(piece.task), placed) {
            *people |= placed.hands | placed.finishing;
            *mix |= placed.flow > 0;
        }
    }
    uses
}

fn because(
    number: usize,
    own: &TaskPlan,
    ground: &Ground<'_>,
    tasks: &[Option<TaskPlan>],
    uses: &[(u64, bool)],
) -> Because {
    let begin = ground.axis.first_from(own.begin).unwrap_or(0);
    let after = ground
        .site
        .tasks
        .get(number)
        .map_or(&[][..], |task| &task.after);
    let waits = after.iter().filter_map(|after| {
        let before = tasks.get(after.task)?.as_ref()?;
        let done = Done {
            end: before.end,
            dry: before.dry,
        };
        let plain = ground
            .axis
            .first_from(may_begin(done, after.hours, false)?)?;
        let may = ground
            .axis
            .first_from(may_begin(done, after.hours, after.dry)?)?;
        let task = after.task;
        Some(if may > plain {
            (may, Because::Dries { task })
        } else {
            (may, Because::Waits { task })
        })
    });
    let not_before = ground
        .site
        .tasks
        .get(number)
        .and_then(|task| task.not_before);
    let given = not_before.and_then(|may| Some((ground.axis.first_from(may)?, Because::NotBefore)));
    // Of equal ones what was there before these days.
    let held = waits.chain(given).max_by_key(|&(step, _)| step);
    if let Some((step, because)) = held
        && step >= begin
    {
        return because;
    }
    let ends = |task: &TaskPlan| ground.axis.first_from(task.end);
    let others = tasks.iter().enumerate().filter_map(|(other, task)| {
        let task = task.as_ref().filter(|task| task.end <= own.begin)?;
        Some((other, task))
    });
    let of = |task: usize| uses.get(task).copied().unwrap_or_default();
    let (people, mix) = of(number);
    let freed = others.clone().find(|&(other, task)| {
        let (theirs, too) = of(other);
        ends(task) == Some(begin)
            && task.end.date() == own.begin.date()
            && (theirs & people != 0 || (mix && too))
    });
    if let Some((task, _)) = freed {
        return Because::Taken { task };
    }
    let last = others.max_by_key(|&(other, task)| (task.end, core::cmp::Reverse(other)));
    match last {
        Some((task, other)) if held.is_none_or(|(step, _)| Some(step) <= ends(other)) => {
            Because::DayEnd { task }
        }
        _ => held.map_or_else(
            || last.map_or(Because::First, |(task, _)| Because::DayEnd { task }),
            |(_, because)| because,
        ),
    }
}
