//! Tables of hours with a row of names, parted by commas or semicolons. Not here: gaps and order (see `series`).

use crate::fault::Log;
use crate::kind::KINDS;
use crate::names::{is_time, kind, words, written};
use crate::series::{self, Row, Rows};
use crate::unit::{Unit, number, offered, unwritten};
use crate::{Kind, Told, Trouble, lines, when};
use hodful_air::Weather;
use jiff::SignedDuration;
use jiff::civil::DateTime;

/// Whether a first line is the row of names of a table.
pub(super) fn is_one(first: &str) -> bool {
    first.contains([',', ';'])
        && cells(first, delimiter(first))
            .unwrap_or_default()
            .iter()
            .any(|name| is_time(&words(name)) || kind(&words(name)).is_some())
}

/// The cells of a line without the blanks around them; quoted ones may hold the delimiter. `None` when the line is
/// no row.
pub(super) fn cells(line: &str, delimiter: u8) -> Option<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .trim(csv::Trim::All)
        .buffer_capacity(256)
        .from_reader(line.as_bytes());
    let mut rows = reader.records();
    let row = rows.next()?.ok()?;
    Some(row.iter().map(str::to_owned).collect())
}

fn delimiter(first: &str) -> u8 {
    if first.contains(';') { b';' } else { b',' }
}

/// What stands in which column, counted from 0.
#[derive(Debug, Default)]
struct Head {
    /// One column, or a day and a time.
    times: Vec<usize>,
    values: Vec<(usize, Kind, Unit)>,
}

impl Head {
    fn read(line: usize, names: &[String], log: &mut Log) -> Self {
        let mut head = Self::default();
        for (at, name) in names.iter().enumerate() {
            let words = words(name);
            if is_time(&words) {
                head.times.push(at);
            } else if let Some(kind) = kind(&words) {
                head.value(line, at, kind, name, &words, log);
            } else if !name.is_empty() {
                log.note(line, Told::ColumnUnused { name: name.clone() });
            }
        }
        let mut needed = |there: bool, what, example| {
            if !there {
                log.fault(line, 1, Trouble::NoColumn { what, example });
            }
        };
        needed(!head.times.is_empty(), "the time", "time");
        needed(
            head.has(Kind::Temperature),
            "the temperature",
            "temperature C",
        );
        needed(
            head.has(Kind::Humidity) || head.has(Kind::DewPoint),
            "humidity or dew point",
            "humidity",
        );
        if let Some(third) = head.times.get(2) {
            let name = names.get(*third).cloned().unwrap_or_default();
            let what = "the time";
            log.fault(line, third + 1, Trouble::SecondColumn { name, what });
        }
        head
    }

    fn has(&self, kind: Kind) -> bool {
        self.values.iter().any(|(_, of, _)| *of == kind)
    }

    fn value(
        &mut self,
        line: usize,
        at: usize,
        kind: Kind,
        name: &str,
        words: &[String],
        log: &mut Log,
    ) {
        let name = name.to_owned();
        if self.has(kind) {
            let what = kind.words();
            log.fault(line, at + 1, Trouble::SecondColumn { name, what });
            return;
        }
        if let Some(unit) = written(kind, words).or_else(|| unwritten(kind)) {
            self.values.push((at, kind, unit));
        } else {
            let units = offered(kind);
            log.fault(line, at + 1, Trouble::NoUnit { name, units });
        }
    }
}

pub(super) fn read(text: &str, log: &mut Log) -> Option<Weather> {
    let mut lines = lines(text);
    let (line, first) = lines.next()?;
    let delimiter = delimiter(first);
    let names = cells(first, delimiter).unwrap_or_default();
    let head = Head::read(line, &names, log);
    if !log.is_clean() {
        return None;
    }
    let mut offset = None;
    let mut rows = Vec::new();
    let mut last_line = line;
    for (line, written) in lines {
        last_line = line;
        let Some(cells) = cells(written, delimiter) else {
            log.fault(line, 1, Trouble::Row);
            continue;
        };
        if cells.len() < names.len() && !written.trim_end().ends_with(char::from(delimiter)) {
            let (found, needed) = (cells.len(), names.len());
            log.fault(line, found, Trouble::FewColumns { found, needed });
            continue;
        }
        let Some(begins) = begins(line, &head.times, &cells, &mut offset, log) else {
            continue;
        };
        rows.push(row(line, begins, &head, &cells, delimiter == b';', log));
    }
    if rows.is_empty() && log.is_clean() {
        log.fault(last_line, 1, Trouble::NoHours);
    }
    let rows = hourly(rows, log)?;
    let mut columns = [1; KINDS];
    for (at, kind, _) in &head.values {
        if let Some(place) = columns.get_mut(kind.at()) {
            *place = at + 1;
        }
    }
    let rows = Rows {
        list: rows,
        columns,
        place: None,
        typical: false,
        starts: None,
    };
    series::weather(rows, log)
}

/// When an hour begins, in the offset of the first.
fn begins(
    line: usize,
    times: &[usize],
    cells: &[String],
    first: &mut Option<i32>,
    log: &mut Log,
) -> Option<DateTime> {
    let parts: Vec<&str> = times
        .iter()
        .filter_map(|at| cells.get(*at).map(String::as_str))
        .collect();
    let text = parts.join(" ");
    let column = times.first().copied().unwrap_or_default() + 1;
    let Some((time, offset)) = when::time(&text) else {
        let trouble = Trouble::Time {
            text,
            what: "time",
            advice: "write it as 2026-04-12T06:00",
        };
        log.fault(line, column, trouble);
        return None;
    };
    let Some(offset) = offset else {
        return Some(time);
    };
    let shift = offset - *first.get_or_insert(offset);
    if shift == 0 {
        let offset = when::offset_words(offset);
        log.note(line, Told::Offset { offset });
        return Some(time);
    }
    log.note(line, Told::OtherOffset);
    time.checked_sub(SignedDuration::from_mins(i64::from(shift)))
        .ok()
}

fn row(
    line: usize,
    begins: DateTime,
    head: &Head,
    cells: &[String],
    comma: bool,
    log: &mut Log,
) -> Row {
    let mut row = Row {
        line,
        begins,
        values: [None; KINDS],
    };
    for (at, kind, unit) in &head.values {
        let text = cells.get(*at).map_or("", String::as_str);
        if is_missing(text) {
            continue;
        }
        let place = (line, at + 1);
        if let Some(value) = number(text, comma) {
            row.set(*kind, log.value(place, *kind, unit.apply(value), text));
        } else {
            let what = format!("the {}", kind.words());
            let text = text.to_owned();
            log.fault(line, at + 1, Trouble::NoNumber { what, text });
        }
    }
    row
}

fn is_missing(text: &str) -> bool {
    ["", "-", "na", "n/a", "nan", "null"]
        .iter()
        .any(|word| text.eq_ignore_ascii_case(word))
}

/// Rows of every third hour made into hours; rows of every hour as they are. Nothing, and a fault, for other steps.
fn hourly(rows: Vec<Row>, log: &mut Log) -> Option<Vec<Row>> {
    let steps = rows.windows(2).filter_map(|pair| match pair {
        [before, after] => Some((before, after, minutes(before, after))),
        _ => None,
    });
    let smallest = steps
        .clone()
        .map(|(.., minutes)| minutes)
        .filter(|minutes| *minutes > 0)
        .min()
        .unwrap_or(60);
    let wrong = |step: i64| smallest != 60 && smallest != 180 || step % smallest != 0;
    let mut clean = true;
    for (before, after, step) in steps {
        if wrong(step) || (smallest == 180 && step > 180) {
            clean = false;
            let (line, before, after) = (after.line, before.begins, after.begins);
            log.fault(line, 1, Trouble::Step { before, after });
        }
    }
    if let Some(first) = rows.first()
        && first.begins != first.begins.date().at(first.begins.hour(), 0, 0, 0)
    {
        clean = false;
        let trouble = Trouble::Time {
            text: first.begins.to_string(),
            what: "beginning of an hour",
            advice: "give values for whole hours",
        };
        log.fault(first.line, 1, trouble);
    }
    if !clean {
        return None;
    }
    if smallest == 60 {
        return Some(rows);
    }
    let mut hours = Vec::with_capacity(rows.len() * 3);
    let mut rows = rows.into_iter().peekable();
    while let Some(mut row) = rows.next() {
        row.set(Kind::Rain, row.get(Kind::Rain).map(|rain| rain / 3.0));
        hours.push(row);
        if let Some(next) = rows.peek()
            && minutes(&row, next) == 180
        {
            log.note(row.line, Told::ThirdHours);
            hours.extend([1.0, 2.0].map(|hour| between(&row, next, hour)));
        }
    }
    Some(hours)
}

fn minutes(before: &Row, after: &Row) -> i64 {
    let seconds = after.begins.duration_since(before.begins).as_secs();
    // A part of a minute makes a step of none of the steps that can be read.
    if seconds % 60 == 0 { seconds / 60 } else { 1 }
}

/// An hour between two that are three apart; the rain is that of the first.
fn between(row: &Row, next: &Row, hour: f64) -> Row {
    let mut values = row.values;
    for (value, next) in values.iter_mut().zip(next.values) {
        *value = value
            .zip(next)
            .map(|(from, to)| from + (to - from) * hour / 3.0);
    }
    let hours = if hour < 1.5 { 1 } else { 2 };
    let mut between = Row {
        line: row.line,
        begins: row.begins.saturating_add(SignedDuration::from_hours(hours)),
        values,
    };
    between.set(Kind::Rain, row.get(Kind::Rain));
    between
}
