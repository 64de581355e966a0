//! Rows of a file made into weather: put in order, gaps filled, what is missing taken from elsewhere. Not here: the
//! formats the rows come from.

use crate::fault::Log;
use crate::kind::KINDS;
use crate::{Kind, Told, Trouble, moist};
use hodful_air::moist::{STANDARD_PA, standard_pressure_pa};
use hodful_air::{Hour, Station, Weather};
use jiff::SignedDuration;
use jiff::civil::{Date, DateTime, date};

/// Most hours that are filled in between their neighbours: over three hours the air goes nearly straight, over six a
/// morning frost can hide. Ours, no source.
const MOST_FILLED: usize = 3;

/// A humidity that air outside never stays at: values up to it are shares that were taken for percent. Common
/// practice, no source.
pub(super) const DRIEST: f64 = 0.01;

/// Hours of a year without a 29 February.
const YEAR: i64 = 365 * 24;

/// One hour as it stands in a file.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    pub(super) line: usize,
    pub(super) begins: DateTime,
    pub(super) values: [Option<f64>; KINDS],
}

impl Row {
    pub(super) fn get(&self, kind: Kind) -> Option<f64> {
        self.values.get(kind.at()).copied().flatten()
    }

    pub(super) fn set(&mut self, kind: Kind, value: Option<f64>) {
        if let Some(place) = self.values.get_mut(kind.at()) {
            *place = value;
        }
    }
}

/// Rows, and what is known about all of them.
#[derive(Debug)]
pub(super) struct Rows {
    pub(super) list: Vec<Row>,
    /// The column of each kind, from 1, for the words of faults.
    pub(super) columns: [usize; KINDS],
    pub(super) place: Option<Station>,
    /// Whether the file says of itself that it is typical.
    pub(super) typical: bool,
    /// The day with which it begins by its head.
    pub(super) starts: Option<(i8, i8)>,
}

/// Weather of the rows; `None` when something is wrong with them, which is then in the log.
pub(super) fn weather(mut all: Rows, log: &mut Log) -> Option<Weather> {
    let Some(first) = all.list.first().copied() else {
        if log.is_clean() {
            log.fault(1, 1, Trouble::NoHours);
        }
        return None;
    };
    let clock = Clock::of(&all);
    if matches!(clock, Clock::AnyYear { .. }) {
        log.note(first.line, Told::Typical);
    }
    let rows = in_order(std::mem::take(&mut all.list), clock, log);
    let mut rows = whole(rows, clock, log);
    complete(&mut rows, &all, log);
    if !log.is_clean() {
        return None;
    }
    let hours = rows.iter().map(hour).collect();
    let weather = match clock {
        Clock::Dated => Weather::dated(hours, all.place),
        Clock::AnyYear { .. } => Weather::typical(hours, all.place),
    };
    weather
        .map_err(|fault| log.fault(first.line, 1, fault.into()))
        .ok()
}

/// How hours follow one another.
#[derive(Debug, Clone, Copy)]
enum Clock {
    /// By their dates.
    Dated,
    /// By month, day and hour, from a place in the year.
    AnyYear { leap_day: bool, first: i64 },
}

impl Clock {
    fn of(all: &Rows) -> Self {
        let leap_day = all.list.iter().any(|row| is_leap_day(row.begins));
        let from = |first| Self::AnyYear { leap_day, first };
        let plain = from(0);
        let jumps = || {
            all.list.windows(2).any(|pair| match pair {
                [before, after] => {
                    let steps = plain.number(after.begins) - plain.number(before.begins);
                    let next = steps == 1 || steps == 1 - plain.length();
                    next && hours_between(before.begins, after.begins) != 1
                }
                _ => false,
            })
        };
        if !all.typical && !jumps() {
            return Self::Dated;
        }
        // A year may begin in any month: with its first row, or where the head says when rows are out of order.
        let Some(first) = all.list.first() else {
            return plain;
        };
        let turned = from(plain.number(first.begins));
        let in_order = all.list.is_sorted_by_key(|row| turned.number(row.begins));
        if in_order {
            return turned;
        }
        let starts = all
            .starts
            .and_then(|(month, day)| Date::new(2000, month, day).ok());
        starts.map_or(plain, |day| from(plain.number(day.at(0, 0, 0, 0))))
    }

    /// Hours before the series begins again.
    fn length(self) -> i64 {
        match self {
            Self::Dated => i64::MAX,
            Self::AnyYear { leap_day, .. } => YEAR + if leap_day { 24 } else { 0 },
        }
    }

    /// A number that grows by one with each hour.
    fn number(self, time: DateTime) -> i64 {
        match self {
            Self::Dated => hours_between(date(1, 1, 1).at(0, 0, 0, 0), time),
            Self::AnyYear { leap_day, first } => {
                let year = if leap_day { 2000 } else { 2001 };
                let day = Date::new(year, time.month(), time.day()).unwrap_or(time.date());
                let number = i64::from(day.day_of_year() - 1) * 24 + i64::from(time.hour());
                (number - first).rem_euclid(self.length())
            }
        }
    }
}

fn is_leap_day(time: DateTime) -> bool {
    time.month() == 2 && time.day() == 29
}

fn hours_between(before: DateTime, after: DateTime) -> i64 {
    after.duration_since(before).as_hours()
}

/// The rows in the order of time, each hour once.
fn in_order(mut rows: Vec<Row>, clock: Clock, log: &mut Log) -> Vec<(i64, Row)> {
    let mut last = i64::MIN;
    let mut keyed = Vec::with_capacity(rows.len());
    for row in rows.drain(..) {
        let number = clock.number(row.begins);
        if number < last {
            log.note(row.line, Told::OutOfOrder);
        }
        last = number;
        keyed.push((number, row));
    }
    keyed.sort_by_key(|(number, _)| *number);
    let mut kept: Vec<(i64, Row)> = Vec::with_capacity(keyed.len());
    for (number, row) in keyed {
        match kept.last() {
            Some((before, first)) if *before == number => {
                if first.values == row.values {
                    log.note(row.line, Told::Twice);
                } else {
                    let (begins, first) = (row.begins, first.line);
                    log.fault(row.line, 1, Trouble::Twice { begins, first });
                }
            }
            _ => kept.push((number, row)),
        }
    }
    kept
}

/// The rows with an empty one for every hour that is missing.
fn whole(rows: Vec<(i64, Row)>, clock: Clock, log: &mut Log) -> Vec<Row> {
    let mut found: Vec<Row> = Vec::with_capacity(rows.len());
    let mut last = None;
    for (number, row) in rows {
        if let (Some(before), Some(previous)) = (last, found.last().copied()) {
            let missing = usize::try_from(number - before - 1).unwrap_or(usize::MAX);
            if missing > MOST_FILLED {
                let trouble = Trouble::Gap {
                    before: previous.begins,
                    after: row.begins,
                    most: MOST_FILLED,
                };
                log.fault(row.line, 1, trouble);
            } else {
                let mut begins = previous.begins;
                for _ in 0..missing {
                    log.note(row.line, Told::HourFilled);
                    begins = after(begins, clock);
                    found.push(Row {
                        line: row.line,
                        begins,
                        values: [None; KINDS],
                    });
                }
            }
        }
        last = Some(number);
        found.push(row);
    }
    found
}

fn after(time: DateTime, clock: Clock) -> DateTime {
    let plus = |time: DateTime, hours| time.saturating_add(SignedDuration::from_hours(hours));
    let next = plus(time, 1);
    match clock {
        Clock::AnyYear {
            leap_day: false, ..
        } if is_leap_day(next) => plus(time, 25),
        _ => next,
    }
}

/// Fills what an hour cannot do without.
fn complete(rows: &mut [Row], all: &Rows, log: &mut Log) {
    fill(rows, Kind::Temperature, all, log);
    for row in rows.iter_mut() {
        if row.get(Kind::Humidity).is_none()
            && let (Some(warmth), Some(dew)) = (row.get(Kind::Temperature), row.get(Kind::DewPoint))
        {
            row.set(Kind::Humidity, Some(moist::humidity(warmth, dew)));
            log.note(row.line, Told::FromDewPoint);
        }
    }
    fill(rows, Kind::Humidity, all, log);
    let dry = |row: &Row| row.get(Kind::Humidity).is_some_and(|share| share <= DRIEST);
    if let Some(first) = rows.first()
        && rows.iter().all(dry)
    {
        log.fault(first.line, column(all, Kind::Humidity), Trouble::NoPercent);
    }
    let place = all.place.as_ref();
    let (usual, told) = match place.and_then(|place| standard_pressure_pa(place.altitude).ok()) {
        Some(usual) => (usual, Told::FromAltitude),
        None => (STANDARD_PA, Told::AtSeaLevel),
    };
    for row in rows.iter_mut() {
        if row.get(Kind::Pressure).is_none() {
            row.set(Kind::Pressure, Some(usual));
            log.note(row.line, told.clone());
        }
    }
}

fn column(all: &Rows, kind: Kind) -> usize {
    all.columns.get(kind.at()).copied().unwrap_or(1)
}

/// Fills short runs of a kind along a straight line between the neighbours.
fn fill(rows: &mut [Row], kind: Kind, all: &Rows, log: &mut Log) {
    let mut at = 0;
    while let Some(row) = rows.get(at).copied() {
        if row.get(kind).is_some() {
            at += 1;
            continue;
        }
        let run = rows
            .iter()
            .skip(at)
            .take_while(|row| row.get(kind).is_none())
            .count();
        let value = |place: Option<usize>| place.and_then(|at| rows.get(at)?.get(kind));
        match (value(at.checked_sub(1)), value(Some(at + run))) {
            (Some(before), Some(after)) if run <= MOST_FILLED => {
                for (row, part) in rows
                    .iter_mut()
                    .skip(at)
                    .zip((1..=run).map(|n| share(n, run + 1)))
                {
                    row.set(kind, Some(before + (after - before) * part));
                    log.note(row.line, Told::Filled { kind });
                }
            }
            _ => {
                let column = column(all, kind);
                let trouble = Trouble::Missing {
                    kind,
                    hours: run,
                    begins: row.begins,
                    most: MOST_FILLED,
                };
                log.fault(row.line, column, trouble);
            }
        }
        at += run;
    }
}

#[allow(clippy::cast_precision_loss, reason = "counts of a few hours")]
fn share(part: usize, whole: usize) -> f64 {
    part as f64 / whole as f64
}

fn hour(row: &Row) -> Hour {
    let needed = |kind| row.get(kind).unwrap_or_default();
    Hour {
        begins: row.begins,
        dry_bulb: needed(Kind::Temperature),
        humidity: needed(Kind::Humidity),
        pressure: needed(Kind::Pressure),
        wind: row.get(Kind::Wind),
        sun: row.get(Kind::Sun),
        beam: row.get(Kind::Beam),
        diffuse: row.get(Kind::Diffuse),
        cloud: row.get(Kind::Cloud),
        rain: row.get(Kind::Rain),
    }
}
