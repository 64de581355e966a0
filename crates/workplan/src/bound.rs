//! What no plan can undercut: the chain of waits and shortest times, and the sheer work. Not here: plans.
//!
//! Source: critical path method, and the capacity bound of resource-constrained scheduling, e.g. Brucker and Knust,
//! Complex Scheduling, "lower bounds" (from memory).

use crate::grid::Placed;
use crate::piece::Load;
use crate::plan::{Bounds, Limit};
use crate::schedule::{Done, Dry, Ground, may_begin};
use crate::site::Role;
use crate::tolerance::{STEPS_PER_HOUR, count, number, real, up};

/// The first step of each task and when it is done, if all people and all mix were there for it alone.
#[derive(Debug)]
pub(crate) struct Earliest {
    pub(crate) first: Vec<Option<usize>>,
    pub(crate) done: Vec<Option<Done>>,
}

/// Each task as early as those before it allow, with as many people as it can take: the critical path method on
/// working time.
pub(crate) fn earliest(ground: &Ground<'_>, order: &[usize], dry: Dry<'_>) -> Earliest {
    let tasks = ground.site.tasks.len();
    let mut first = vec![None; tasks];
    let mut done = vec![None; tasks];
    for &task in order {
        let Ok(mut from) = ground.ready(task, &done) else {
            continue;
        };
        let mut begin = None;
        let mut end = None;
        for piece in ground.pieces.iter().filter(|piece| piece.task == task) {
            let steps = piece.shortest.map_or(usize::MAX, |steps| steps);
            let day = ground.axis.rest_of_day(from);
            if !piece.pauses && from.saturating_add(steps) > day.end {
                from = day.end;
            }
            begin = begin.or(Some(from));
            from = from.saturating_add(steps);
            end = from.checked_sub(1).and_then(|step| ground.axis.times(step));
        }
        if let (Some(first), Some(done), Some((_, end))) =
            (first.get_mut(task), done.get_mut(task), end)
        {
            *first = begin;
            *done = Some(ground.done(task, end, &mut *dry));
        }
    }
    Earliest { first, done }
}

/// Hours from the begin of each task to the end of the longest chain that hangs on it, day and night.
pub(crate) fn tails(ground: &Ground<'_>, order: &[usize], earliest: &Earliest) -> Vec<f64> {
    let tasks = &ground.site.tasks;
    let mut after_end = vec![0.0_f64; tasks.len()];
    let mut tails = vec![0.0; tasks.len()];
    // Work goes on for a part of the day only; waits run day and night.
    let day_and_night = 24.0 / real(count(ground.axis.a_day().max(1)));
    for &task in order.iter().rev() {
        let own: usize = ground
            .pieces
            .iter()
            .filter(|piece| piece.task == task)
            .filter_map(|piece| piece.shortest)
            .sum();
        let tail = real(count(own)) * day_and_night + after_end.get(task).copied().unwrap_or(0.0);
        if let Some(slot) = tails.get_mut(task) {
            *slot = tail;
        }
        for after in tasks.get(task).map_or(&[][..], |task| &task.after) {
            let wait = earliest
                .done
                .get(after.task)
                .copied()
                .flatten()
                .and_then(|done| {
                    let begin = may_begin(done, after.hours, after.dry)?;
                    Some(crate::axis::hours_between(done.end, begin))
                })
                .unwrap_or(after.hours);
            if let Some(slot) = after_end.get_mut(after.task) {
                *slot = slot.max(wait + tail);
            }
        }
    }
    tails
}

/// The bounds for what was planned. None: nothing was.
pub(crate) fn bounds(
    ground: &Ground<'_>,
    earliest: &Earliest,
    placed: &[Option<Placed>],
) -> Option<Bounds> {
    let planned = || {
        let pairs = ground.pieces.iter().zip(placed);
        pairs.filter_map(|(piece, placed)| placed.as_ref().map(|_| piece))
    };
    let chain = planned()
        .filter_map(|piece| earliest.done.get(piece.task).copied().flatten())
        .map(|done| done.end)
        .max()?;
    let crew = ground.site.crew;
    let hours_of = |load: Load, pool: Role, role: Role| {
        let own = if pool == role { load.hours } else { 0.0 };
        own + if role == Role::Finishing {
            load.finishing
        } else {
            0.0
        }
    };
    let roles = [
        Role::Placing,
        Role::Finishing,
        Role::Mixing,
        Role::Carrying,
        Role::Everything,
    ];
    let (most_mix, mix_limit) = ground
        .supply
        .most(crew.who(Role::Mixing).1, crew.who(Role::Carrying).1);
    let of_roles = roles.into_iter().map(|role| {
        let needs = planned().map(|piece| (piece.task, hours_of(piece.load, piece.pool, role)));
        let people = real(count(crew.who(role).1));
        let limit = match role {
            Role::Placing => Limit::Placing,
            Role::Finishing => Limit::Finishing,
            Role::Mixing => Limit::MixingHands,
            Role::Carrying => Limit::Carrying,
            Role::Everything => Limit::Hands,
        };
        (
            work(
                needs.map(|(task, hours)| (task, hours * STEPS_PER_HOUR / people)),
                earliest,
            ),
            limit,
        )
    });
    let mix = planned().map(|piece| (piece.task, real(piece.load.ml) / real(most_mix)));
    let of_mix = (work(mix, earliest), mix_limit);
    let (step, limit) = of_roles
        .chain([of_mix])
        .filter_map(|(step, limit)| Some((step?, limit)))
        .max_by_key(|&(step, _)| step)?;
    let work = ground.axis.times(step).map_or(chain, |(_, end)| end);
    Some(Bounds {
        chain,
        work,
        work_of: limit,
    })
}

/// The last step that so much work reaches, when it begins as early as the first of it can. Steps of each task;
/// what is 0 does not count.
fn work(needs: impl Iterator<Item = (usize, f64)>, earliest: &Earliest) -> Option<usize> {
    let mut first: Option<usize> = None;
    let mut steps = 0.0;
    for (task, need) in needs.filter(|&(_, need)| need > 0.0) {
        let begin = earliest.first.get(task).copied().flatten()?;
        first = Some(first.map_or(begin, |first| first.min(begin)));
        steps += need;
    }
    first?
        .checked_add(number(up(steps)))
        .and_then(|end| end.checked_sub(1))
}
