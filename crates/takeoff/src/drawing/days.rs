//! The days on site as bars over time: each coat on each face while it is put on and while it dries. Not here: the
//! days (see [`crate::days`]).
//!
//! It borrows roles of walls by how they look: work is filled like a coat, the band until the coat is dry is an
//! outline that is firm until the likely end and dashed until the slow one, days are fine lines.

use super::{Drawing, Fill, Label, Role, Stand};
use crate::days::{DayTask, Days, said};
use jiff::ToSpan;
use jiff::civil::{DateTime, Weekday};
use std::iter::zip;

/// Width of a day and height of a row, mm of a drawing without a size of its own.
const DAY: f64 = 100.0;
const ROW: f64 = 120.0;

/// Room for names at the left and for dates above, mm.
const NAMES: f64 = 900.0;
const DATES: f64 = 160.0;

/// Most days that are drawn: ours, as many as can still be told apart on paper.
const MOST_DAYS: f64 = 90.0;

/// The days as bars, the first task at the top. A drawing of nothing, with the reason, when nothing is planned.
pub fn days(of: &Days) -> Drawing {
    let planned =
        || zip(&of.tasks, &of.plan.tasks).filter_map(|(task, plan)| Some((task, plan.as_ref()?)));
    let first = planned().map(|(_, plan)| plan.begin).min();
    let Some(from) = first.map(|first| first.date().at(0, 0, 0, 0)) else {
        return Drawing::nothing("nothing is planned");
    };
    let last = planned().map(|(task, plan)| slow(task).map_or(plan.end, |slow| slow.max(plan.end)));
    let day_of = |at: DateTime| at.duration_since(from).as_secs_f64() / 86_400.0;
    let all = last.max().map_or(1.0, |last| day_of(last).ceil().max(1.0));
    let shown = all.min(MOST_DAYS);
    let x = |at: DateTime| day_of(at).min(shown) * DAY;
    let rows: f64 = planned().map(|_| ROW).sum();
    let mut drawing = Drawing::default();
    let mut date = from;
    while day_of(date) < shown {
        let u = x(date);
        drawing.stroke(Role::Lath, vec![[u, 0.0], [u, rows]], false, None);
        if date.weekday() == Weekday::Monday || date == from {
            let words = said::day(date.date());
            label(&mut drawing, [u, rows + DATES / 2.0], words, 80);
        }
        let Ok(next) = date.checked_add(1.day()) else {
            break;
        };
        date = next;
    }
    let mut top = rows;
    for (number, task) in of.tasks.iter().enumerate() {
        let stretches = of.stretches(number);
        let Some(end) = stretches.last().map(|last| last.end) else {
            continue;
        };
        let [low, high] = [top - ROW * 0.85, top - ROW * 0.15];
        label(
            &mut drawing,
            [-NAMES / 2.0, top - ROW / 2.0],
            task.said(),
            90,
        );
        for stretch in stretches {
            let [left, right] = [x(stretch.begin), x(stretch.end)];
            let ring = vec![[left, low], [right, low], [right, high], [left, high]];
            drawing.fills.push(Fill {
                role: Role::Coat(0),
                ring: ring.clone(),
                of: None,
            });
            drawing.stroke(Role::Outline, ring, true, None);
        }
        let likely = task.drying.and_then(|drying| drying.likely);
        let middle = f64::midpoint(low, high);
        if let Some(likely) = likely {
            let line = vec![[x(end), middle], [x(likely.at), middle]];
            drawing.stroke(Role::Frame, line, false, None);
        }
        if let Some(slow) = slow(task) {
            let from = likely.map_or(end, |likely| likely.at);
            let line = vec![[x(from), middle], [x(slow), middle]];
            drawing.stroke(Role::Plaster, line, false, None);
        }
        top -= ROW;
    }
    drawing.captions.push(
        "filled: put on; line: drying until it is likely dry; dashed: until it is to be reckoned dry".into(),
    );
    if all > MOST_DAYS {
        drawing
            .captions
            .push("what comes later than ninety days is left off".into());
    }
    drawing.bounds = Some([-NAMES, 0.0, shown * DAY, rows + DATES]);
    drawing
}

fn slow(task: &DayTask) -> Option<DateTime> {
    Some(task.drying?.slow?.at)
}

fn label(drawing: &mut Drawing, at: [f64; 2], text: ecow::EcoString, weight: u8) {
    drawing.labels.push(Label {
        at,
        text,
        stand: Stand::At,
        weight,
        of: None,
        names: false,
        only_marked: false,
    });
}
