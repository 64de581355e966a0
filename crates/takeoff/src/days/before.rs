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

/// Parts what is still to do from what is on the walls already; what stands on a coat that is still wet is told not
/// to begin before.
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

/// When what comes on each recorded coat may begin, as [`Found::not_before`].
pub(super) fn hold(
    to_do: &mut [Found],
    on_wall: &[(Found, Recorded)],
    climate: &Climate<'_>,
    [day_begins, day_ends]: [Time; 2],
    notes: &mut Vec<EcoString>,
) {
    let mut undated: Vec<EcoString> = Vec::new();
    for of in to_do {
        let Some((under, state)) = on_wall.iter().find(|(under, _)| under.is_right_under(of))
        else {
            continue;
        };
        let (wait_h, must_dry) = under.wait;
        let Some(placed) = state.placed else {
            undated.push(under.task.said());
            continue;
        };
        let end = DateTime::from_parts(placed, day_ends);
        let waited = jiff::SignedDuration::try_from_secs_f64(wait_h * 3600.0);
        let waited = waited
            .ok()
            .and_then(|wait| end.checked_add(wait).ok())
            .unwrap_or(end);
        let dry = match state.dry {
            _ if !must_dry => end,
            Some(dry) => DateTime::from_parts(dry, day_begins),
            None => climate.drying(under, end).planned_with(end),
        };
        of.not_before = Some(waited.max(dry));
    }
    if !undated.is_empty() {
        notes.push(eco_format!(
            "{} {} recorded without a day, and taken as dry.",
            undated.join("; "),
            if undated.len() == 1 { "is" } else { "are" }
        ));
    }
}
