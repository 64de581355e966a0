//! Puts the pieces into the row of steps, one after the other, each where it ends first: a serial schedule
//! generation scheme with a priority rule. Not here: the row itself, and what is said of the outcome.
//!
//! Source: Kolisch, Serial and parallel resource-constrained project scheduling methods revisited, European Journal
//! of Operational Research 90 (1996), section 2 (from memory).

use crate::axis::{Axis, later};
use crate::grid::{Grid, Placed};
use crate::piece::{Load, Piece, too_large};
use crate::plan::{Unplanned, Why};
use crate::site::{Role, Site};
use crate::supply::Supply;
use crate::tolerance::{STEPS_PER_HOUR, count, number, real, up};
use jiff::civil::DateTime;

/// Says when a task that ended is dry: which task, and its end.
pub(crate) type Dry<'a> = &'a mut dyn FnMut(usize, DateTime) -> DateTime;

/// The checked site with what is worked out once.
#[derive(Debug)]
pub(crate) struct Ground<'a> {
    pub(crate) site: &'a Site,
    pub(crate) axis: Axis,
    pub(crate) supply: Supply,
    pub(crate) pieces: Vec<Piece>,
    /// Whether something waits for a task to be dry.
    pub(crate) dries: Vec<bool>,
    /// Tasks that are done before the first day.
    pub(crate) given: Vec<bool>,
}

/// When a task is done, and when it is dry; the end itself where nothing waits for that.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Done {
    pub(crate) end: DateTime,
    pub(crate) dry: DateTime,
}

/// What came of it.
#[derive(Debug)]
pub(crate) struct Outcome {
    /// Of each piece.
    pub(crate) placed: Vec<Option<Placed>>,
    /// Of each task.
    pub(crate) done: Vec<Option<Done>>,
    pub(crate) unplanned: Vec<Unplanned>,
    pub(crate) crew: Vec<crate::grid::Step>,
}

impl<'a> Ground<'a> {
    /// Of a checked site, with so many working days to look ahead.
    pub(crate) fn new(site: &'a Site, most_days: usize) -> Self {
        let axis = Axis::new(site, most_days);
        let supply = Supply::new(site);
        let pieces = crate::piece::pieces(site, &axis, &supply);
        let mut dries = vec![false; site.tasks.len()];
        for after in site.tasks.iter().flat_map(|task| &task.after) {
            if let Some(dries) = dries.get_mut(after.task) {
                *dries |= after.dry;
            }
        }
        Self {
            site,
            axis,
            supply,
            pieces,
            dries,
            given: vec![false; site.tasks.len()],
        }
    }

    pub(crate) fn is_given(&self, task: usize) -> bool {
        self.given.get(task).copied().unwrap_or(false)
    }

    /// The fewest people with whom a task fits in a day, if mix and finishing do.
    pub(crate) fn hands_for_a_day(&self, task: usize) -> Option<usize> {
        let load = Load::of(self.site.tasks.get(task)?, self.site);
        let crew = self.site.crew;
        let flow = self
            .supply
            .most(crew.who(Role::Mixing).1, crew.who(Role::Carrying).1);
        let day = real(count(self.axis.a_day()));
        let (steps, _) = load.held(usize::MAX, crew.who(Role::Finishing).1, flow);
        (steps <= day).then(|| number(up(load.hours * STEPS_PER_HOUR / day)))
    }

    /// When a task is done whose last step is this.
    pub(crate) fn done(&self, task: usize, end: DateTime, dry: Dry<'_>) -> Done {
        let dries = self.dries.get(task).copied().unwrap_or(false);
        Done {
            end,
            dry: if dries { dry(task, end).max(end) } else { end },
        }
    }

    /// The first step at which a task may begin, when those before it are done so; the task that is in its way, or
    /// none when it is beyond all days.
    pub(crate) fn ready(&self, task: usize, done: &[Option<Done>]) -> Result<usize, Option<usize>> {
        let own = self.site.tasks.get(task);
        let mut ready = match own.and_then(|own| own.not_before) {
            Some(may) => self.axis.first_from(may).ok_or(None)?,
            None => 0,
        };
        for after in own.map_or(&[][..], |own| &own.after) {
            if self.is_given(after.task) {
                continue;
            }
            let done = done
                .get(after.task)
                .copied()
                .flatten()
                .ok_or(Some(after.task))?;
            let may = may_begin(done, after.hours, after.dry).ok_or(None)?;
            ready = ready.max(self.axis.first_from(may).ok_or(None)?);
        }
        Ok(ready)
    }
}

/// When what comes after may begin: none beyond the calendar.
pub(crate) fn may_begin(done: Done, hours: f64, dry: bool) -> Option<DateTime> {
    let waited = later(done.end, hours)?;
    Some(if dry { waited.max(done.dry) } else { waited })
}

/// Places all pieces, task by task in this order.
pub(crate) fn serial(ground: &Ground<'_>, order: &[usize], dry: Dry<'_>) -> Outcome {
    let Ground {
        site, axis, pieces, ..
    } = ground;
    let mut grid = Grid::new(axis, &ground.supply, site.crew);
    let mut placed: Vec<Option<Placed>> = vec![None; pieces.len()];
    let mut done: Vec<Option<Done>> = vec![None; site.tasks.len()];
    let mut unplanned = Vec::new();
    for task in order.iter().copied().filter(|&task| !ground.is_given(task)) {
        let mut from = match ground.ready(task, &done) {
            Ok(step) => step,
            Err(other) => {
                let why = other.map_or(Why::NoDaysLeft, |task| Why::After { task });
                unplanned.push(Unplanned { task, why });
                continue;
            }
        };
        let mut last = None;
        let own = pieces
            .iter()
            .enumerate()
            .skip_while(|(_, piece)| piece.task != task)
            .take_while(|(_, piece)| piece.task == task);
        let mut found = Vec::new();
        let mut why = None;
        for (at, piece) in own {
            let Some(place) = grid.seek(piece, from) else {
                why = Some(no_place(piece, ground));
                break;
            };
            grid.put(&place);
            from = place.steps.end;
            last = place.steps.end.checked_sub(1);
            found.push((at, place));
        }
        if let Some(why) = why {
            for (_, place) in &found {
                grid.take_back(place);
            }
            unplanned.push(Unplanned { task, why });
            continue;
        }
        let end = last.and_then(|step| axis.times(step)).map(|(_, end)| end);
        if let (Some(done), Some(end)) = (done.get_mut(task), end) {
            *done = Some(ground.done(task, end, &mut *dry));
        }
        for (at, place) in found {
            if let Some(placed) = placed.get_mut(at) {
                *placed = Some(place);
            }
        }
    }
    unplanned.sort_by_key(|unplanned: &Unplanned| unplanned.task);
    Outcome {
        placed,
        done,
        unplanned,
        crew: (0..grid.len()).map(|step| grid.step(step)).collect(),
    }
}

fn no_place(piece: &Piece, ground: &Ground<'_>) -> Why {
    if piece.shortest.is_some() {
        return Why::NoDaysLeft;
    }
    let (hours, limit) = too_large(piece, ground.site, &ground.supply);
    if hours.is_finite() {
        Why::TooLarge { hours, limit }
    } else {
        Why::Nobody { limit }
    }
}

/// The tasks in an order in which they may be placed, each after those it waits for. Of those that may come next, the
/// one with the largest `urgency` does, and the earliest typed of equal ones.
pub(crate) fn in_order(site: &Site, urgency: &[f64]) -> Vec<usize> {
    let mut waits: Vec<usize> = site.tasks.iter().map(|task| task.after.len()).collect();
    let mut next: Vec<Vec<usize>> = vec![Vec::new(); site.tasks.len()];
    for (own, task) in site.tasks.iter().enumerate() {
        for after in &task.after {
            if let Some(next) = next.get_mut(after.task) {
                next.push(own);
            }
        }
    }
    let mut open: Vec<usize> = (0..waits.len())
        .filter(|&task| waits.get(task) == Some(&0))
        .collect();
    let of = |task: usize| urgency.get(task).copied().unwrap_or(0.0);
    let mut order = Vec::with_capacity(waits.len());
    while let Some(at) = (0..open.len()).max_by(|&a, &b| {
        let task = |at: usize| open.get(at).copied().unwrap_or(usize::MAX);
        let (a, b) = (task(a), task(b));
        of(a).total_cmp(&of(b)).then(b.cmp(&a))
    }) {
        let task = open.swap_remove(at);
        order.push(task);
        for &after in next.get(task).map_or(&[][..], Vec::as_slice) {
            if let Some(waits) = waits.get_mut(after) {
                *waits = waits.saturating_sub(1);
                if *waits == 0 {
                    open.push(after);
                }
            }
        }
    }
    order
}
