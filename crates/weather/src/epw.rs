//! EPW files: eight lines of head and a line of 35 columns an hour. Not here: gaps and order (see `series`).
//!
//! Layout, units, codes for what is missing and ranges: EnergyPlus Auxiliary Programs, weather data dictionary.

use crate::fault::Log;
use crate::kind::KINDS;
use crate::series::{self, Row, Rows};
use crate::table::cells;
use crate::unit::number;
use crate::{Kind, Told, Trouble};
use hodful_air::{Station, Weather};
use jiff::civil::Date;

/// What is read; the rain, which older files lack, last.
const COLUMNS: [(Kind, usize, f64, f64); KINDS] = [
    // Kind, column from 1, values from here on are missing, how many of its unit make one of the kind's.
    (Kind::Temperature, 7, 99.9, 1.0),
    (Kind::DewPoint, 8, 99.9, 1.0),
    (Kind::Humidity, 9, 999.0, 100.0),
    (Kind::Pressure, 10, 999_999.0, 1.0),
    (Kind::Sun, 14, 9999.0, 1.0),
    (Kind::Beam, 15, 9999.0, 1.0),
    (Kind::Diffuse, 16, 9999.0, 1.0),
    (Kind::Wind, 22, 999.0, 1.0),
    (Kind::Cloud, 23, 99.0, 10.0),
    (Kind::Rain, RAIN, 999.0, 1.0),
];

/// Columns a line has at least: up to the days since the last snow, where older files end.
const FEWEST: usize = 32;

/// Columns of a line that is whole.
const ALL: usize = 35;

/// The column of the rain.
const RAIN: usize = 34;

/// Words in the source of a file by which it is put together from several years.
const TYPICAL: [&str; 4] = ["TMY", "TRY", "IWEC", "TYPICAL"];

/// Whether a first line is that of an EPW file.
pub(super) fn is_one(first: &str) -> bool {
    first
        .get(..9)
        .is_some_and(|word| word.eq_ignore_ascii_case("LOCATION,"))
}

pub(super) fn read(text: &str, log: &mut Log) -> Option<Weather> {
    let mut head = Head::default();
    let mut rows = Vec::with_capacity(text.len() / 150);
    let mut columns = 0;
    let mut last_line = 1;
    let mut lines = (1..).zip(text.lines()).peekable();
    while let Some((line, written)) = lines.next() {
        if written.trim().is_empty() {
            continue;
        }
        last_line = line;
        if head.parts_of_hours {
            return None;
        }
        if rows.is_empty() && columns == 0 && !begins_with_digit(written) {
            head.line(line, written, log);
            continue;
        }
        let found = written.bytes().filter(|byte| *byte == b',').count() + 1;
        let cut = lines.peek().is_none() && !text.ends_with('\n') && cut_there(found, columns);
        if cut {
            log.note(line, Told::CutShort);
            continue;
        }
        columns = columns.max(found);
        rows.extend(row(line, written, found, log));
    }
    if rows.is_empty() && log.is_clean() {
        log.fault(last_line, 1, Trouble::NoHours);
    }
    head.compare_end(rows.last(), last_line, log);
    let mut of_kinds = [1; KINDS];
    for (kind, column, ..) in COLUMNS {
        if let Some(place) = of_kinds.get_mut(kind.at()) {
            *place = column;
        }
    }
    if head.place.is_none() {
        log.note(1, Told::NoPlace);
    }
    let rows = Rows {
        list: rows,
        columns: of_kinds,
        place: head.place,
        typical: head.typical,
        starts: head.starts,
    };
    series::weather(rows, log)
}

/// Whether a last line without an end is cut: it has fewer columns than the others, or ends in the rain, of which
/// nobody knows whether it is whole.
fn cut_there(found: usize, others: usize) -> bool {
    found < if others == 0 { ALL } else { others } || found == RAIN
}

/// The text of a cell of an hour, where nothing is quoted. Lines are cut by bytes, which is the quickest.
fn text_of(cell: &[u8]) -> &str {
    std::str::from_utf8(cell).unwrap_or_default().trim()
}

fn begins_with_digit(line: &str) -> bool {
    line.trim_start().starts_with(|c: char| c.is_ascii_digit())
}

/// What the head says.
#[derive(Debug, Default)]
struct Head {
    place: Option<Station>,
    typical: bool,
    starts: Option<(i8, i8)>,
    ends: Option<(String, i8, i8)>,
    parts_of_hours: bool,
}

impl Head {
    fn line(&mut self, line: usize, written: &str, log: &mut Log) {
        let fields = cells(written, b',').unwrap_or_default();
        let fields: Vec<&str> = fields.iter().map(String::as_str).collect();
        match fields.as_slice() {
            [word, rest @ ..] if word.eq_ignore_ascii_case("LOCATION") => {
                self.location(line, rest, log);
            }
            [word, rest @ ..] if word.eq_ignore_ascii_case("DATA PERIODS") => {
                self.periods(line, rest, log);
            }
            _ => {}
        }
    }

    fn location(&mut self, line: usize, fields: &[&str], log: &mut Log) {
        let source = fields.get(3).copied().unwrap_or_default().to_uppercase();
        self.typical = source
            .split(|c: char| !c.is_alphanumeric())
            .any(|part| TYPICAL.iter().any(|word| part.starts_with(word)));
        let mut number = |at: usize, what, lowest, highest| {
            let text = fields.get(at).copied().filter(|text| !text.is_empty())?;
            let Some(value) = number(text, false) else {
                let text = text.to_owned();
                let what = what_of(what);
                log.fault(line, at + 2, Trouble::NoNumber { what, text });
                return None;
            };
            if !(lowest..=highest).contains(&value) {
                let trouble = Trouble::Station {
                    what,
                    value,
                    lowest,
                    highest,
                };
                log.fault(line, at + 2, trouble);
            }
            Some(value)
        };
        let latitude = number(5, "latitude", -90.0, 90.0);
        let longitude = number(6, "longitude", -180.0, 180.0);
        let zone = number(7, "time zone", -12.0, 14.0);
        let altitude = number(8, "altitude", -1000.0, 9999.9);
        if let (Some(latitude), Some(longitude), Some(zone), Some(altitude)) =
            (latitude, longitude, zone, altitude)
        {
            self.place = Some(Station {
                name: fields.first().copied().unwrap_or_default().to_owned(),
                latitude,
                longitude,
                zone,
                altitude,
            });
        }
    }

    /// `periods, records an hour, name, weekday, start, end` and the last four again for each further period.
    fn periods(&mut self, line: usize, fields: &[&str], log: &mut Log) {
        let records = fields.get(1).copied().unwrap_or_default();
        let one = records.trim_end_matches(".0") == "1";
        if !records.is_empty() && !one {
            let records = records.to_owned();
            log.fault(line, 3, Trouble::PartsOfHours { records });
            self.parts_of_hours = true;
        }
        self.starts = fields.get(4).and_then(|text| month_and_day(text));
        let end = match fields {
            [_, _, periods @ ..] => periods.chunks_exact(4).last().and_then(|p| p.last()),
            _ => None,
        };
        self.ends = end.and_then(|text| {
            let (month, day) = month_and_day(text)?;
            Some(((*text).to_owned(), month, day))
        });
    }

    fn compare_end(&self, last: Option<&Row>, line: usize, log: &mut Log) {
        if let (Some((promised, month, day)), Some(last)) = (&self.ends, last)
            && (last.begins.month(), last.begins.day()) != (*month, *day)
        {
            let told = Told::EndsElsewhere {
                promised: promised.clone(),
                last: format!("{}/{}", last.begins.month(), last.begins.day()),
            };
            log.note(line, told);
        }
    }
}

fn what_of(what: &str) -> String {
    format!("the {what}")
}

/// `12/31`, ` 1/ 1` and `1/1/2019`.
fn month_and_day(text: &str) -> Option<(i8, i8)> {
    let mut parts = text.split('/').map(|part| part.trim().parse::<i8>().ok());
    let (month, day) = (parts.next()??, parts.next()??);
    Date::new(2000, month, day).ok().map(|_| (month, day))
}

/// The hour of a line. Hour 1 is the one that begins at midnight; the minute says nothing, since there is one
/// record an hour.
fn row(line: usize, written: &str, found: usize, log: &mut Log) -> Option<Row> {
    if found < FEWEST {
        let needed = FEWEST;
        log.fault(line, found, Trouble::FewColumns { found, needed });
        return None;
    }
    let mut row = None;
    let mut time: [&str; 5] = [""; 5];
    let mut wanted = COLUMNS.iter().peekable();
    let cells = written.as_bytes().split(|byte| *byte == b',');
    for (column, cell) in (1..).zip(cells) {
        if let Some(part) = time.get_mut(column - 1) {
            *part = text_of(cell);
            continue;
        }
        let row = match &mut row {
            Some(row) => row,
            empty => empty.insert(begin(line, time, log)?),
        };
        let Some((kind, _, missing, parts)) = wanted.next_if(|(_, at, ..)| *at == column) else {
            continue;
        };
        let text = text_of(cell);
        if text.is_empty() {
            continue;
        }
        match number(text, false) {
            Some(value) if value >= *missing => {}
            Some(value) => {
                row.set(*kind, log.value((line, column), *kind, value / parts, text));
            }
            None => {
                let what = what_of(kind.words());
                let text = text.to_owned();
                log.fault(line, column, Trouble::NoNumber { what, text });
            }
        }
    }
    row
}

fn begin(line: usize, [year, month, day, hour, minute]: [&str; 5], log: &mut Log) -> Option<Row> {
    let found = match (year.parse(), month.parse(), day.parse()) {
        (Ok(year), Ok(month), Ok(day)) => Date::new(year, month, day).ok(),
        _ => None,
    };
    let Some(date) = found else {
        let column = if year.parse::<i16>().is_err() { 1 } else { 2 };
        let trouble = Trouble::Time {
            text: format!("{year},{month},{day}"),
            what: "day",
            advice: "write year, month and day of the calendar",
        };
        log.fault(line, column, trouble);
        return None;
    };
    let begins = hour
        .parse()
        .ok()
        .filter(|hour| (1..=24).contains(hour))
        .map(|hour: i8| date.at(hour - 1, 0, 0, 0));
    let Some(begins) = begins else {
        let trouble = Trouble::Time {
            text: hour.to_owned(),
            what: "hour",
            advice: "hours are numbered from 1 to 24",
        };
        log.fault(line, 4, trouble);
        return None;
    };
    if minute.parse::<u8>().is_ok_and(|minute| minute <= 60) {
        return Some(Row {
            line,
            begins,
            values: [None; KINDS],
        });
    }
    let trouble = Trouble::Time {
        text: minute.to_owned(),
        what: "minute",
        advice: "write 0 or 60",
    };
    log.fault(line, 5, trouble);
    None
}
