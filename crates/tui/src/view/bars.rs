//! The days as bars in cells: a row a face, a column a day or two, with what is put on, how long it dries and which
//! nights may freeze it. Told by signs, not by colour. Not here: the days.

use super::list::top;
use super::{Pen, over};
use crate::State;
use crate::state::freezes;
use crate::text::{left, width};
use ecow::{EcoString, eco_format};
use hodful_takeoff::days::Days;
use hodful_takeoff::project::Side;
use jiff::ToSpan;
use jiff::civil::{Date, Weekday};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Rows for the dates, the mark of the chosen day, and what the signs mean.
const AROUND: u16 = 3;

/// The least rows in which bars say something.
pub(super) const LEAST: u16 = AROUND + 3;

/// The most columns of the names of faces.
const NAMES: u16 = 14;

/// Most columns of one day.
const WIDEST_DAY: u16 = 3;

/// Most days that are looked at: ours, two years.
const MOST_DAYS: i32 = 731;

/// What a cell tells, the last before the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Cell {
    Nothing,
    /// It may still be wet.
    Slow,
    /// It is likely still wet.
    Dries,
    /// It is likely still wet, and the night may freeze it.
    Frost,
    /// It is put on.
    Work,
}

impl Cell {
    fn sign(self, pen: &Pen) -> &'static str {
        match self {
            Self::Nothing => " ",
            Self::Slow => pen.sign("·", "."),
            Self::Dries => pen.sign("░", "-"),
            Self::Frost => "*",
            Self::Work => pen.sign("█", "#"),
        }
    }
}

/// A face with the positions of its tasks.
struct Face {
    name: EcoString,
    tasks: Vec<usize>,
}

fn faces(days: &Days) -> Vec<Face> {
    let mut faces: Vec<(&str, Side, Vec<usize>)> = Vec::new();
    for (at, task) in days.tasks.iter().enumerate() {
        match faces.last_mut() {
            Some((wall, side, tasks)) if *wall == task.wall && *side == task.side => tasks.push(at),
            _ => faces.push((&task.wall, task.side, vec![at])),
        }
    }
    let each = faces.into_iter().map(|(wall, side, tasks)| Face {
        name: eco_format!("{wall} {}", side.word()),
        tasks,
    });
    each.collect()
}

/// Rows that the bars take; none without a plan.
pub(super) fn rows(state: &State) -> u16 {
    let faces = state.days().map_or(0, |days| faces(days).len());
    match u16::try_from(faces).unwrap_or(u16::MAX) {
        0 => 0,
        faces => faces.saturating_add(AROUND),
    }
}

/// Paints the bars, the chosen day and the chosen face in sight.
pub(super) fn paint(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    let Some(days) = state.days() else { return };
    let faces = faces(days);
    let Some((from, to)) = span(days) else { return };
    let names = faces.iter().map(|face| super::areas::columns(&face.name));
    let names = names.max().unwrap_or(0).clamp(4, NAMES) + 2;
    let room = area.width.saturating_sub(names + 1);
    let all = u16::try_from(between(from, to) + 1).unwrap_or(u16::MAX);
    let day_wide = (room / all.max(1)).clamp(1, WIDEST_DAY);
    let seen = usize::from(room / day_wide);
    let chosen = state.day_row();
    let on = chosen
        .date()
        .and_then(|date| usize::try_from(between(from, date)).ok());
    let first = top(on.unwrap_or(0), usize::from(all), seen);
    let x = |day: usize| {
        let day = u16::try_from(day - first).unwrap_or(u16::MAX);
        area.x + names + day.saturating_mul(day_wide)
    };
    let date = |day: usize| {
        let day = i64::try_from(day).ok()?;
        from.checked_add(day.days()).ok()
    };
    // The dates of Mondays, the first with its month and wherever there is room for it.
    let mut taken = area.x + names;
    let mut month = None;
    for day in first..first + seen.min(usize::from(all) - first) {
        let Some(date) = date(day) else { break };
        if (date.weekday() == Weekday::Monday || day == first) && x(day) >= taken {
            let words = if month == Some(date.month()) {
                eco_format!("{}", date.day())
            } else {
                eco_format!("{} {}", month_name(date), date.day())
            };
            let columns = area.right().saturating_sub(x(day));
            if width(&words) <= usize::from(columns) {
                month = Some(date.month());
                taken =
                    x(day) + pen.put(buffer, x(day), area.y, columns, &words, pen.theme.dim) + 1;
            }
        }
        if Some(day) == on {
            let mark = pen.sign("▼", "v");
            pen.put(buffer, x(day), area.y + 1, 1, mark, pen.theme.heading);
        }
    }
    let high = usize::from(area.height.saturating_sub(AROUND));
    let is_chosen = |face: &Face| chosen.task().is_some_and(|task| face.tasks.contains(&task));
    let own = faces.iter().position(is_chosen);
    let first_face = top(own.unwrap_or(0), faces.len(), high);
    for (y, (at, face)) in (area.y + 2..).zip(faces.iter().enumerate().skip(first_face).take(high))
    {
        let is_own = own == Some(at);
        let mark = if is_own { ">" } else { " " };
        pen.put(buffer, area.x, y, 1, mark, pen.theme.heading);
        let name = left(&face.name, usize::from(names - 2), pen.looks.signs);
        pen.put(buffer, area.x + 1, y, names - 2, &name, pen.theme.text);
        for (day, cell) in cells(days, face, from, first, seen).into_iter().enumerate() {
            let style = match cell {
                Cell::Work => pen.theme.heading,
                Cell::Frost => pen.theme.doubtful,
                _ => pen.theme.text,
            };
            let words = cell.sign(pen).repeat(usize::from(day_wide));
            pen.put(buffer, x(first + day), y, day_wide, &words, style);
        }
        if is_own {
            over(buffer, Rect::new(area.x, y, names, 1), pen.theme.chosen);
        }
    }
    let signs = [
        (Cell::Work, "put on"),
        (Cell::Dries, "dries"),
        (Cell::Slow, "may be wet"),
        (Cell::Frost, "frost"),
    ];
    let words = signs.map(|(cell, words)| format!("{} {words}", cell.sign(pen)));
    let y = area.bottom().saturating_sub(1);
    let room = area.width.saturating_sub(1);
    let wide = words.join("  ");
    let words = if width(&wide) > usize::from(room) {
        words.join(" ")
    } else {
        wide
    };
    pen.put(buffer, area.x + 1, y, room, &words, pen.theme.dim);
}

/// The cells of a face, a day each, from a day on.
fn cells(days: &Days, face: &Face, from: Date, first: usize, seen: usize) -> Vec<Cell> {
    let mut cells = vec![Cell::Nothing; seen];
    let at = |date: Date| i64::from(between(from, date)) - i64::try_from(first).unwrap_or(0);
    let mut put = |begin: i64, end: i64, cell: Cell| {
        let most = i64::try_from(seen).unwrap_or(i64::MAX);
        for day in begin.max(0)..(end + 1).min(most) {
            let own = usize::try_from(day).ok().and_then(|day| cells.get_mut(day));
            if let Some(own) = own {
                *own = (*own).max(cell);
            }
        }
    };
    for &task in &face.tasks {
        let Some(of) = days.tasks.get(task) else {
            continue;
        };
        let mut end = None;
        for stretch in days.stretches(task) {
            let day = at(stretch.begin.date());
            put(day, day, Cell::Work);
            end = Some(day);
        }
        let (Some(end), Some(drying)) = (end, of.drying) else {
            continue;
        };
        for (until, cell) in [(drying.slow, Cell::Slow), (drying.likely, Cell::Dries)] {
            if let Some(until) = until {
                put(end, at(until.at.date()), cell);
            }
        }
        for night in of.nights.iter().filter(|night| freezes(night)) {
            let day = at(night.night.evening);
            put(day, day, Cell::Frost);
        }
    }
    cells
}

/// From the first day of the work to the last on which something may be wet.
fn span(days: &Days) -> Option<(Date, Date)> {
    let planned = days.plan.tasks.iter().flatten();
    let from = planned.clone().map(|of| of.begin.date()).min()?;
    let end = planned.map(|of| of.end.date()).max()?;
    let slow = days
        .tasks
        .iter()
        .filter_map(|of| Some(of.drying?.slow?.at.date()));
    let to = slow.max().map_or(end, |slow| slow.max(end));
    let most = from.checked_add(MOST_DAYS.days()).unwrap_or(to);
    Some((from, to.min(most)))
}

/// Days from one date to another.
fn between(from: Date, to: Date) -> i32 {
    from.until(to).map_or(0, |span| span.get_days())
}

fn month_name(date: Date) -> &'static str {
    const NAMES: [&str; 12] = [
        "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
    ];
    let month = usize::try_from(date.month()).unwrap_or(1);
    NAMES.get(month.saturating_sub(1)).copied().unwrap_or("")
}
