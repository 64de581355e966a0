//! Weather read from bytes, from outside, and the help its tests share. Not here: parts of the reader on their own.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on fails"
)]

mod any;
mod epw;
mod table;
mod typed;

use hodful_air::Hour;
use hodful_weather::{Reading, read};
use jiff::SignedDuration;
use jiff::civil::DateTime;
use std::fmt::Write;

/// A head of eight lines, with the days by which it begins and ends.
pub(crate) fn head(source: &str, records: &str, days: &str) -> String {
    format!(
        "LOCATION,Nowhere,-,ZZZ,{source},000000,47.5,-3.25,1.0,120.0\n\
         DESIGN CONDITIONS,0\n\
         TYPICAL/EXTREME PERIODS,0\n\
         GROUND TEMPERATURES,0\n\
         HOLIDAYS/DAYLIGHT SAVING,No,0,0,0\n\
         COMMENTS 1,\"invented, and \"\"quoted\"\"\"\n\
         COMMENTS 2,\n\
         DATA PERIODS,1,{records},Data,Sunday,{days}\n"
    )
}

/// A line of 35 columns; what is not known has the code for it.
pub(crate) fn line(hour: &Hour) -> String {
    let begins = hour.begins;
    let or = |value: Option<f64>, code: &str| value.map_or(code.to_owned(), |v| v.to_string());
    format!(
        "{},{},{},{},60,?9,{},99.9,{},{},9999,9999,9999,{},{},{},999999,999999,999999,9999,999,{},{},99,9999,99999,9,\
         999999999,999,.999,999,99,999,{},99\n",
        begins.year(),
        begins.month(),
        begins.day(),
        begins.hour() + 1,
        hour.dry_bulb,
        (hour.humidity * 100.0).round(),
        hour.pressure,
        or(hour.sun, "9999"),
        or(hour.beam, "9999"),
        or(hour.diffuse, "9999"),
        or(hour.wind, "999"),
        or(hour.cloud.map(|share| (share * 10.0).round()), "99"),
        or(hour.rain, "999"),
    )
}

/// A file of those hours.
pub(crate) fn file(source: &str, hours: &[Hour]) -> String {
    let mut text = head(source, "1", "1/1,12/31");
    for hour in hours {
        text.push_str(&line(hour));
    }
    text
}

/// So many hours in a row, each with a temperature of its own.
pub(crate) fn hours(from: DateTime, count: u16) -> Vec<Hour> {
    (0..count)
        .map(|at| Hour {
            begins: from + SignedDuration::from_hours(i64::from(at)),
            dry_bulb: f64::from(at % 400) / 10.0 - 10.0,
            humidity: f64::from(30 + at % 71) / 100.0,
            pressure: 101_000.0,
            wind: Some(2.5),
            sun: Some(100.0),
            beam: Some(50.0),
            diffuse: Some(60.0),
            cloud: Some(0.7),
            rain: Some(0.5),
        })
        .collect()
}

/// What was read; words of the faults when it was not.
pub(crate) fn reading(text: impl AsRef<[u8]>) -> Reading {
    read(text.as_ref(), "a file").unwrap_or_else(|faults| panic!("{faults}"))
}

/// The words of the faults.
pub(crate) fn refused(text: impl AsRef<[u8]>) -> String {
    match read(text.as_ref(), "a file") {
        Ok(read) => panic!("read, with {:?}", read.notes),
        Err(faults) => faults.to_string(),
    }
}

/// The words of what was told.
pub(crate) fn told(reading: &Reading) -> String {
    let mut words = String::new();
    for note in &reading.notes {
        writeln!(words, "{note}").unwrap();
    }
    words
}
