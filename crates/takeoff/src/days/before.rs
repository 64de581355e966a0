//! What is on the walls before the first day: coats that are recorded, and the coats under them. Not here: what is
//! still to do (see `tasks`).

use super::climate::Climate;
use super::tasks::Found;
use crate::check::done;
use crate::check::values::Values;
use crate::check::work::dried::CheckedDried;
use crate::compare::One;
use crate::project::Side;
use ecow::{EcoString, eco_format};
use jiff::SignedDuration;
use jiff::civil::{Date, DateTime, Time};
use std::collections::HashMap;

/// A coat that is on a face: since when, and since when it is dry, where that is recorded.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Recorded {
    pub(super) placed: Option<Date>,
    pub(super) dry: Option<Date>,
}

/// By wall, face and name of the coat.
type Records<'p> = HashMap<(usize, Side, &'p str), Recorded>;

/// All that is recorded, by what coats took and by how they dried.
fn recorded<'p>(one: &One<'p>, dried: &[CheckedDried<'p>]) -> Records<'p> {
    let mut found = Records::new();
    // What is refused is told by the check; here it counts for nothing.
    let records = done::records(one.project, one.site.mixer.as_ref(), &mut Values::default());
    for record in records.into_iter().flatten() {
        let typed = record.number.checked_sub(1);
        let typed = typed.and_then(|at| one.project.done.get(at));
        let placed = typed
            .and_then(|done| done.date.as_ref())
            .map(|day| day.value().date());
        for (wall, side) in record.faces {
            found.insert(
                (wall, side, record.coat.as_str()),
                Recorded { placed, dry: None },
            );
        }
    }
    for of in dried {
        for wall in &of.walls {
            let on_wall = Recorded {
                placed: Some(of.placed),
                dry: of.dry,
            };
            found.insert((*wall, of.side, of.coat.as_str()), on_wall);
        }
    }
    found
}

/// Parts what is still to do from what is on the walls already.
///
/// A coat under one that is recorded is on the wall too, whether it is recorded or not.
pub(super) fn part(
    all: Vec<Found>,
    one: &One<'_>,
    dried: &[CheckedDried<'_>],
) -> (Vec<Found>, Vec<(Found, Recorded)>) {
    let recorded = recorded(one, dried);
    let mut to_do: Vec<Found> = Vec::new();
    let mut on_wall: Vec<(Found, Recorded)> = Vec::new();
    for of in all {
        let key = (of.wall, of.task.side, of.task.coat.as_str());
        let Some(state) = recorded.get(&key).copied() else {
            to_do.push(of);
            continue;
        };
        // What lies under it, and was taken as still to do.
        while let Some(under) = to_do.pop_if(|under| under.is_under(&of)) {
            on_wall.push((under, Recorded::default()));
        }
        on_wall.push((of, state));
    }
    (to_do, on_wall)
}

/// What stands right on a recorded coat, by position, with that coat.
pub(super) fn standing<'a>(
    to_do: &'a [Found],
    on_wall: &'a [(Found, Recorded)],
) -> impl Iterator<Item = (usize, &'a Found, Recorded)> {
    to_do.iter().enumerate().filter_map(|(at, of)| {
        // The nearest: one between may be none that can be told.
        let under = on_wall.iter().rfind(|(under, _)| under.is_under(of));
        let between = |under: &Found| {
            to_do
                .iter()
                .any(|other| under.is_under(other) && other.is_under(of))
        };
        let (under, recorded) = under.filter(|(under, _)| !between(under))?;
        Some((at, under, *recorded))
    })
}

/// When what comes on a recorded coat may begin; nothing where that has no day.
pub(super) fn may_begin(
    under: &Found,
    recorded: Recorded,
    climate: &Climate,
    [day_begins, day_ends]: [Time; 2],
) -> Option<DateTime> {
    let (wait_h, must_dry) = under.wait;
    let end = DateTime::from_parts(recorded.placed?, day_ends);
    let waited = SignedDuration::try_from_secs_f64(wait_h * 3600.0);
    let waited = waited.ok().and_then(|wait| end.checked_add(wait).ok());
    let dry = match recorded.dry {
        _ if !must_dry => end,
        Some(dry) => DateTime::from_parts(dry, day_begins),
        None => climate.drying(under, end).planned_with(end),
    };
    Some(waited.unwrap_or(end).max(dry))
}

/// What should be known of what is recorded: coats without a day, and coats that were put on later than the first
/// day.
pub(super) fn notes(
    to_do: &[Found],
    on_wall: &[(Found, Recorded)],
    begins: Date,
    notes: &mut Vec<EcoString>,
) {
    let undated = standing(to_do, on_wall).filter(|(.., recorded)| recorded.placed.is_none());
    let undated: Vec<EcoString> = undated.map(|(_, under, _)| under.task.said()).collect();
    if !undated.is_empty() {
        notes.push(eco_format!(
            "Recorded without a day, and taken as dry: {}.",
            undated.join("; ")
        ));
    }
    let later = on_wall
        .iter()
        .filter(|(_, of)| of.placed.is_some_and(|placed| placed >= begins));
    let later: Vec<EcoString> = later.map(|(of, _)| of.task.said()).collect();
    if !later.is_empty() {
        notes.push(eco_format!(
            "Put on after the first day of the plan: {}. Give the day on which the rest begins.",
            later.join("; ")
        ));
    }
}
