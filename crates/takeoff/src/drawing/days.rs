//! The days on site as bars over time: each coat on each face while it is put on and while it dries, and the nights in
//! which it may freeze. Not here: the days (see [`crate::days`]).
//!
//! It borrows roles of walls by how they look, and says which under the bars: days on which a coat is put on are filled
//! like a coat, drying until the likely end is hatched like dubbing out, and until the slow end it is a dashed box. A
//! night that may freeze is a firm cross, one to watch a fine stroke. Nothing is told by a colour alone.

mod marks;

use super::{Drawing, Role, Stand};
use crate::days::{DayTask, Days};
use ecow::{EcoString, eco_format};
use jiff::ToSpan;
use jiff::civil::{Date, DateTime, Weekday};
use marks::{SAMPLES, dries, mark, may_dry, put_on};
use std::iter::zip;

/// Width of the field, and height of a line of words, mm of a drawing without a size of its own: as much on paper with
/// ten to a millimetre.
const FIELD: f64 = 1200.0;
const LINE: f64 = 50.0;

/// Width of a letter of a name, and of a date, mm: more than they are on paper.
const LETTER: f64 = 17.0;
const DATE: f64 = 85.0;

/// Most letters of a line of a name; a longer one goes on in the next.
const NAME: usize = 32;

/// Most lines of names on a sheet: as many as a page of A4 holds, with the words above and under them.
const MOST_LINES: usize = 38;

/// Most days that are drawn: ours, a year, in which a day can just be told on paper.
const MOST_DAYS: f64 = 366.0;

/// Most days with a line each, and most with a date at each Monday instead of each month.
const DAY_LINES: f64 = 42.0;
const WEEKS: f64 = 98.0;

/// The days as bars, the first task at the top. A drawing of nothing, with the reason, when nothing is planned.
pub fn days(of: &Days) -> Drawing {
    Chart::of(of).map_or_else(nothing, |chart| chart.draw(&rows(of)))
}

/// The same for paper: as many drawings, one after another, as have room for all tasks. None when nothing is planned.
pub fn day_sheets(of: &Days) -> Vec<Drawing> {
    let Some(chart) = Chart::of(of) else {
        return Vec::new();
    };
    let rows = rows(of);
    let mut sheets = Vec::new();
    let mut rest = rows.as_slice();
    while !rest.is_empty() {
        let mut lines = 0;
        let fit = rest.iter().take_while(|row| {
            lines += row.name.len();
            lines <= MOST_LINES
        });
        // A name of more lines than a sheet has is drawn all the same.
        let (sheet, after) = rest.split_at(fit.count().max(1).min(rest.len()));
        sheets.push(chart.draw(sheet));
        rest = after;
    }
    sheets
}

fn nothing() -> Drawing {
    Drawing::nothing("nothing is planned")
}

/// A task on the chart.
struct Row<'a> {
    task: &'a DayTask,
    /// The lines of its name.
    name: Vec<EcoString>,
    /// The days on which it is put on, as runs without a day between.
    put_on: Vec<[Date; 2]>,
}

/// What is on the walls and still wet as far as is known, then the tasks that have a place in the plan.
fn rows(of: &Days) -> Vec<Row<'_>> {
    let on_wall = on_wall(of).map(|(task, placed)| Row {
        task,
        name: lines(&task.said()),
        put_on: vec![[placed, placed]],
    });
    let each = of.tasks.iter().enumerate().map(|(number, task)| {
        let mut put_on: Vec<[Date; 2]> = Vec::new();
        for stretch in of.stretches(number) {
            let [first, last] = [stretch.begin.date(), stretch.end.date()];
            match put_on.last_mut() {
                Some(run) if next(run[1]) >= first => run[1] = last,
                _ => put_on.push([first, last]),
            }
        }
        Row {
            task,
            name: lines(&task.said()),
            put_on,
        }
    });
    let planned = each.filter(|row| !row.put_on.is_empty());
    on_wall.chain(planned).collect()
}

/// Coats that are on the walls and may be wet still, with the day on which they were put on.
fn on_wall(of: &Days) -> impl Iterator<Item = (&DayTask, Date)> {
    let dated = of.on_wall.iter().filter(|on| on.task.drying.is_some());
    dated.filter_map(|on| Some((&on.task, on.placed?)))
}

/// A name in lines that are not too long: broken at blanks, within a word only where that alone is too long.
fn lines(name: &str) -> Vec<EcoString> {
    let mut lines: Vec<EcoString> = Vec::new();
    for word in name.split_whitespace() {
        let letters: Vec<char> = word.chars().collect();
        for piece in letters.chunks(NAME) {
            let has_room = |line: &&mut EcoString| line.chars().count() + piece.len() < NAME;
            match lines.last_mut().filter(has_room) {
                Some(line) => {
                    line.push(' ');
                    line.extend(piece.iter().copied());
                }
                None => lines.push(piece.iter().copied().collect()),
            }
        }
    }
    lines
}

/// The time that is drawn.
struct Chart {
    from: DateTime,
    /// Days drawn, and days that there are.
    shown: f64,
    all: f64,
    /// Whether a night of the whole plan is at risk.
    nights: bool,
}

impl Chart {
    /// From the first day of the first coat to the end of the last that is dry. `None` when nothing is planned nor wet.
    fn of(of: &Days) -> Option<Self> {
        let planned = || {
            zip(&of.tasks, &of.plan.tasks).filter_map(|(task, plan)| Some((task, plan.as_ref()?)))
        };
        let placed = || on_wall(of).map(|(task, placed)| (task, placed.at(0, 0, 0, 0)));
        let begins = planned().map(|(_, plan)| plan.begin);
        let first = begins.chain(placed().map(|(_, at)| at)).min()?;
        let from = first.date().at(0, 0, 0, 0);
        let ends = planned()
            .map(|(task, plan)| (task, plan.end))
            .chain(placed());
        let ends = ends.map(|(task, end)| slow(task).map_or(end, |at| at.max(end)));
        let last = ends.max().unwrap_or(first);
        let all = days_between(from, last).ceil().max(1.0);
        Some(Self {
            from,
            shown: all.min(MOST_DAYS),
            all,
            nights: of.coats().any(|task| !task.nights.is_empty()),
        })
    }

    fn x(&self, at: DateTime) -> f64 {
        FIELD * (days_between(self.from, at) / self.shown).clamp(0.0, 1.0)
    }

    fn day(&self, date: Date) -> f64 {
        self.x(date.at(0, 0, 0, 0))
    }

    fn draw(&self, rows: &[Row<'_>]) -> Drawing {
        let mut drawing = Drawing::default();
        let lines = rows.iter().map(|row| row.name.len());
        let lines = lines.fold(0.0, |lines, more| lines + count(more));
        let high = lines * LINE;
        self.calendar(high, &mut drawing);
        let mut top = high;
        let mut before: Option<&Row<'_>> = None;
        for row in rows {
            // A line between two faces leads the eye to the name.
            let same = |before: &Row<'_>| {
                (&before.task.wall, before.task.side) == (&row.task.wall, row.task.side)
            };
            if before.is_some_and(|before| !same(before)) {
                let line = vec![[0.0, top], [FIELD, top]];
                drawing.stroke(Role::RevealSurface, line, false, None);
            }
            self.row(row, top, &mut drawing);
            top -= count(row.name.len()) * LINE;
            before = Some(row);
        }
        let corners = vec![[0.0, 0.0], [FIELD, 0.0], [FIELD, high], [0.0, high]];
        drawing.stroke(Role::Hole, corners, true, None);
        let bottom = self.legend(&mut drawing);
        let names = rows.iter().flat_map(|row| &row.name);
        let longest = names.map(|name| name.chars().count()).max();
        if self.all > self.shown {
            let words = "what comes later than a year after the first day is left off";
            drawing.captions.push(words.into());
        }
        let left = LETTER * count(longest.unwrap_or_default());
        drawing.bounds = Some([-left, bottom, FIELD, high + 1.2 * LINE]);
        drawing
    }

    /// Lines at days or weeks or months, with the dates over them.
    fn calendar(&self, high: f64, drawing: &mut Drawing) {
        let mut dated = -DATE;
        let mut date = self.from.date();
        for day in 0_u32.. {
            if f64::from(day) >= self.shown {
                break;
            }
            let u = self.day(date);
            let begins = if self.shown <= WEEKS {
                date.weekday() == Weekday::Monday
            } else {
                date.day() == 1
            };
            let narrow = DATE > FIELD / self.shown;
            if u > 0.0 && (begins || self.shown <= DAY_LINES) {
                let role = if begins {
                    Role::RevealSurface
                } else {
                    Role::Lath
                };
                drawing.stroke(role, vec![[u, 0.0], [u, high]], false, None);
            }
            // The first day has its date unless the first Monday is too near.
            let is_dated = begins || !narrow || (day == 0 && self.room_after(date));
            if is_dated && u - dated >= DATE {
                let words = eco_format!("{:02}-{:02}", date.month(), date.day());
                let at = [u, high + 0.7 * LINE];
                drawing.label(at, words, 80, Stand::At);
                dated = u;
            }
            date = next(date);
        }
    }

    /// Whether the date of the first day has room before that of the next week or month.
    fn room_after(&self, first: Date) -> bool {
        let gap = if self.shown <= WEEKS {
            first.weekday().until(Weekday::Monday)
        } else {
            first.days_in_month() - first.day() + 1
        };
        f64::from(gap) * FIELD / self.shown >= DATE
    }

    fn row(&self, row: &Row<'_>, top: f64, drawing: &mut Drawing) {
        let high = count(row.name.len()) * LINE;
        for (line, words) in row.name.iter().enumerate() {
            let v = top - (count(line) + 0.5) * LINE;
            drawing.label([0.0, v], words.clone(), 90, Stand::Before);
        }
        let middle = top - high / 2.0;
        for [first, last] in &row.put_on {
            put_on([self.day(*first), self.day(next(*last))], middle, drawing);
        }
        let Some([_, last]) = row.put_on.last() else {
            return;
        };
        let end = self.day(next(*last));
        let drying = row.task.drying;
        let likely = drying.and_then(|drying| drying.likely);
        let likely = likely.map_or(end, |likely| self.x(likely.at).max(end));
        dries([end, likely], middle, drawing);
        if let Some(slow) = slow(row.task) {
            may_dry([likely, self.x(slow).max(likely)], middle, drawing);
        }
        for night in &row.task.nights {
            // Midnight.
            let u = self.day(next(night.night.evening));
            if u < FIELD {
                mark(night.night.verdict(), [u, middle], drawing);
            }
        }
    }

    /// What the bars and marks mean, under them; gives how far it reaches down.
    fn legend(&self, drawing: &mut Drawing) -> f64 {
        const WIDE: f64 = FIELD / 3.0;
        const SAMPLE: f64 = 70.0;
        let mut bottom = 0.0;
        for (row, samples) in zip(1.., SAMPLES.chunks(3)) {
            if row == 2 && !self.nights {
                break;
            }
            let v = -LINE * (f64::from(row) + 0.1);
            for (column, (words, sample)) in zip(0.., samples) {
                let u = WIDE * f64::from(column);
                sample([u, u + SAMPLE], v, drawing);
                let left = u + SAMPLE;
                let right = left + LETTER * count(words.chars().count());
                let frame = [left, v - LINE / 2.0, right, v + LINE / 2.0];
                let at = [f64::midpoint(left, right), v];
                drawing.label(at, *words, 70, Stand::In(frame));
            }
            bottom = v - 0.6 * LINE;
        }
        bottom
    }
}

fn slow(task: &DayTask) -> Option<DateTime> {
    Some(task.drying?.slow?.at)
}

fn days_between(from: DateTime, to: DateTime) -> f64 {
    to.duration_since(from).as_secs_f64() / 86_400.0
}

fn next(date: Date) -> Date {
    date.checked_add(1.day()).unwrap_or(date)
}

#[allow(clippy::cast_precision_loss, reason = "lines of names, far below 2^53")]
fn count(of: usize) -> f64 {
    of as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_name_goes_on_in_the_next_line_and_loses_nothing() {
        assert_eq!(lines("S outside, scratch"), ["S outside, scratch"]);
        let long = "the wall behind the stair and beside the cistern outside, first coat";
        let found = lines(long);
        assert_eq!(found.len(), 3);
        assert!(found.iter().all(|line| line.chars().count() <= NAME));
        assert_eq!(found.join(" "), long);
        // A word that is longer than a line is broken, and no letter of it is lost.
        let word = "ü".repeat(70);
        let found = lines(&word);
        assert_eq!(
            found.iter().map(|line| line.chars().count()).max(),
            Some(NAME)
        );
        assert_eq!(found.concat(), word);
    }

    /// A fifth of the way through a field of 1200 mm for ten days stands two days after the first midnight.
    #[test]
    fn days_stand_evenly_and_none_outside_the_field() {
        let from = jiff::civil::date(2026, 4, 13);
        let chart = Chart {
            from: from.at(0, 0, 0, 0),
            shown: 10.0,
            all: 10.0,
            nights: false,
        };
        let at = |day: i8, hour: i8| chart.x(jiff::civil::date(2026, 4, day).at(hour, 0, 0, 0));
        let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
        assert!(near(at(15, 0), 240.0) && near(at(15, 12), 300.0));
        assert!(near(at(12, 0), 0.0) && near(at(30, 0), FIELD));
    }
}
