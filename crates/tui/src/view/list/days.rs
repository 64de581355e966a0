//! The days as a calendar: under each day what is done on it, with hours, hands, surface and batches in columns, as
//! many as there is room for. Not here: the days, and what is said of each (see `said`).

use super::{rows_area, top};
use crate::State;
use crate::command::Id;
use crate::state::{DayRow, Focus};
use crate::text::width;
use crate::view::{Pen, over};
use ecow::{EcoString, eco_format};
use hodful_quantities::print;
use hodful_quantities::units::{Area, square_meter};
use hodful_takeoff::air::Verdict;
use hodful_takeoff::days::{DampRoom, Days, Stretch, said};
use jiff::civil::Date;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Modifier;

/// Columns before a name: the mark of the chosen row and the indent of a task.
const BEFORE: u16 = 3;

/// Columns that a name has at least beside the other columns.
const LEAST_NAME: u16 = 14;

/// A column: its heading and how wide it is with the gap before it.
type Column = (&'static str, u16);

/// Hours, hands, surface, batches, in the order in which they come where there is little room.
const COLUMNS: [Column; 4] = [("hours", 13), ("hands", 7), ("surface", 12), ("batches", 9)];

/// How many of the columns there is room for.
fn shown(wide: u16) -> usize {
    let mut taken = BEFORE + LEAST_NAME + 1;
    COLUMNS
        .iter()
        .take_while(|(_, own)| {
            taken += own;
            taken <= wide
        })
        .count()
}

/// Paints the calendar.
pub(super) fn paint(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    let shown = shown(area.width);
    let heading = pen.theme.heading.add_modifier(Modifier::UNDERLINED);
    pen.put(buffer, area.x, area.y, area.width, &title(state), heading);
    let heads = COLUMNS.map(|(head, _)| EcoString::from(head));
    columns(pen, area, area.y, &heads, shown, pen.theme.heading, buffer);
    let rows = rows_area(area);
    let all = state.day_rows();
    let chosen = state.list_row();
    let first = top(chosen, all.len(), usize::from(rows.height));
    for (y, (at, row)) in (rows.y..rows.bottom()).zip(all.iter().enumerate().skip(first)) {
        let line = Rect::new(rows.x, y, rows.width, 1);
        one(state, pen, line, *row, shown, buffer);
        if at == chosen {
            pen.put(buffer, line.x, y, 1, ">", pen.theme.heading);
            let style = if state.focus() == Focus::List {
                pen.theme.selected
            } else {
                pen.theme.chosen
            };
            over(buffer, line, style);
        }
    }
}

/// The heading; where nothing stands beside the list, with the key that tells more.
fn title(state: &State) -> EcoString {
    let (columns, rows) = state.size();
    let areas = crate::view::areas(state, Rect::new(0, 0, columns, rows));
    if areas.facts.is_some() {
        "Days".into()
    } else {
        eco_format!("Days ({}: more)", state.keymap().first(Id::WordsDown))
    }
}

fn one(state: &State, pen: &Pen, area: Rect, row: DayRow, shown: usize, buffer: &mut Buffer) {
    let (x, y) = (area.x + 1, area.y);
    let room = area.width.saturating_sub(1);
    let days = state.days();
    match row {
        DayRow::Room(_) | DayRow::Preparation(_) | DayRow::Dried(_) => {
            let Some(thing) = row.thing() else { return };
            let words = hodful_takeoff::form::title(state.project(), thing);
            let (sign, style) = pen.mark(state.located().worst(thing));
            let room = room.saturating_sub(2);
            let taken = pen.put(buffer, x + 1, y, room, &words, pen.theme.text);
            let own = Rect::new(x + 1 + taken, y, room.saturating_sub(taken), 1);
            let right = damp(days, row);
            if width(&right) + 2 <= usize::from(own.width) {
                pen.put_right(buffer, own, y, &right, pen.theme.dim);
            }
            pen.put(buffer, area.right().saturating_sub(1), y, 1, sign, style);
        }
        DayRow::Work => {
            let right = days.and_then(Days::end_in_short).unwrap_or_default();
            let worst = state.located().worst(hodful_takeoff::form::Subject::Work);
            let (sign, style) = pen.mark(worst);
            pen.put(buffer, x, y, room, "the work", pen.theme.heading);
            let own = Rect::new(area.x, y, area.width.saturating_sub(2), 1);
            // Next to the name, or not at all.
            if width(&right) + 12 <= usize::from(own.width) {
                pen.put_right(buffer, own, y, &right, pen.theme.dim);
            }
            pen.put(buffer, area.right().saturating_sub(1), y, 1, sign, style);
        }
        DayRow::Helpers => {
            let weekend = state.on_site().and_then(|of| of.weekend.as_ref().ok());
            let right = weekend.map(|of| {
                let m2 = Area::new::<square_meter>(of.m2);
                eco_format!("{}", print::area(m2, state.units()))
            });
            let words = "a weekend with helpers";
            let taken = pen.put(buffer, x, y, room, words, pen.theme.heading);
            let own = Rect::new(x + taken, y, room.saturating_sub(taken + 1), 1);
            let right = right.unwrap_or_default();
            if width(&right) + 2 <= usize::from(own.width) {
                pen.put_right(buffer, own, y, &right, pen.theme.dim);
            }
        }
        DayRow::Day(date) => {
            let name = said::day(date);
            let taken = pen.put(buffer, x, y, room, &name, pen.theme.heading);
            let own = Rect::new(x + taken + 1, y, room.saturating_sub(taken + 2), 1);
            let words = days.map(|days| warned(days, date, usize::from(own.width)));
            let words = words.unwrap_or_default();
            pen.put_right(buffer, own, y, &words, pen.theme.doubtful);
        }
        DayRow::Task(at, stretch) => {
            let Some(days) = days else { return };
            let figures = figures(state, days, &stretch);
            let taken: u16 = COLUMNS.iter().take(shown).map(|(_, own)| own).sum();
            let name = area.width.saturating_sub(BEFORE + taken);
            pen.put(
                buffer,
                area.x + BEFORE,
                y,
                name,
                &days.name(at),
                pen.theme.text,
            );
            columns(pen, area, y, &figures, shown, pen.theme.text, buffer);
        }
        DayRow::Unplanned(at) => {
            let Some(days) = days else { return };
            let words = eco_format!("{}: no place", days.name(at));
            let style = pen.theme.bad;
            pen.put(
                buffer,
                area.x + BEFORE,
                y,
                room.saturating_sub(2),
                &words,
                style,
            );
        }
    }
}

/// Texts in the columns that are shown, each at the right end of its own.
fn columns(
    pen: &Pen,
    area: Rect,
    y: u16,
    texts: &[EcoString; 4],
    shown: usize,
    style: ratatui::style::Style,
    buffer: &mut Buffer,
) {
    let mut right = area.right().saturating_sub(1);
    let of = COLUMNS.iter().zip(texts).take(shown).rev();
    for ((_, own), text) in of {
        let column = Rect::new(right.saturating_sub(*own), y, *own, 1);
        pen.put_right(buffer, column, y, text, style);
        right = column.x;
    }
}

/// Hours, hands, surface, batches of what is done on a day.
fn figures(state: &State, days: &Days, of: &Stretch) -> [EcoString; 4] {
    let units = state.units();
    let batch = days.site.mixing.as_ref().filter(|_| of.litres > 0.0);
    let batches = batch.map(|batch| of.litres / batch.litres_per_batch);
    [
        eco_format!("{}–{}", said::clock(of.begin), said::clock(of.end)),
        eco_format!("{}", of.hands),
        if of.m2 > 0.0 {
            eco_format!("{}", print::area(Area::new::<square_meter>(of.m2), units))
        } else {
            "–".into()
        },
        batches.map_or_else(
            || "–".into(),
            |batches| print::fixed(batches, 1, units.grouping()).into(),
        ),
    ]
}

/// How damp a room becomes at most.
fn damp(days: Option<&Days>, row: DayRow) -> EcoString {
    let DayRow::Room(at) = row else {
        return EcoString::new();
    };
    let room = days.and_then(|days| days.rooms.iter().find(|room| room.at == at));
    let highest = room.and_then(DampRoom::highest);
    highest.map_or_else(EcoString::new, |highest| {
        eco_format!("up to {}", said::percent(highest))
    })
}

/// What speaks for care on a day, frost in its night before all else: as much of it as there are columns for.
fn warned(days: &Days, date: Date, columns: usize) -> EcoString {
    let nights = days.nights();
    let night = nights
        .iter()
        .find(|night| night.worst.night.evening == date);
    let verdict = night.map(|night| (night.worst.night.verdict(), night.likely.is_empty()));
    let mut hasty = days.tasks.iter().flat_map(|task| &task.hasty);
    let hasty = hasty.any(|hasty| hasty.from.date() == date);
    let rains = days.rain().iter().any(|rain| rain.most.date == date);
    let frost = match verdict {
        Some((Verdict::Freezes, false)) => &["night may freeze", "may freeze", "frost"][..],
        Some((Verdict::Freezes, true)) => &[
            "night may freeze what dries slowly",
            "may freeze if slow",
            "frost?",
        ],
        Some(_) => &["watch the night", "frost?"],
        None => &[],
    };
    let rest = [(rains, "rain"), (hasty, "dries fast")];
    let rest = rest.into_iter().filter(|(is_so, _)| *is_so);
    let rest: Vec<&str> = rest.map(|(_, words)| words).collect();
    let told = |frost: Option<&&str>, rest: &[&str]| -> String {
        let all: Vec<&str> = frost.into_iter().chain(rest).copied().collect();
        all.join(", ")
    };
    let fewer = (0..=rest.len()).rev().filter_map(|count| rest.get(..count));
    let mut ways = frost
        .iter()
        .map(|frost| told(Some(frost), &rest))
        .chain(fewer.map(|rest| told(frost.last(), rest)));
    let fits = ways.find(|words| width(words) <= columns);
    fits.unwrap_or_default().into()
}
