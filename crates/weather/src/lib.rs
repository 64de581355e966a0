//! Weather read from files, by what is in them and not by their names: EPW files, tables of hours, and days as
//! they are typed. Not here: what is reckoned from weather, and reading files from disk.
//!
//! An EPW file is the one of "EnergyPlus Auxiliary Programs, weather data dictionary": eight lines of head, then
//! one line an hour.
//!
//! A table has a row of names with their units, and a row for every hour or every third:
//!
//! ```
//! let table = "time,temperature C,humidity,wind km/h\n\
//!              2026-04-12T06:00,2.0,90,7.2\n\
//!              2026-04-12T07:00,3.5,85,10.8\n";
//! let read = hodful_weather::read(table.as_bytes(), "table.csv")?;
//! let first = read.weather.hours()[0];
//! assert_eq!((first.dry_bulb, first.humidity, first.wind), (2.0, 0.9, Some(2.0)));
//! # Ok::<(), hodful_weather::Faults>(())
//! ```
//!
//! Days are typed one a line, as a forecast gives them; hours are made from them (see [`read`]):
//!
//! ```
//! let typed = "2026-04-12 low 2C high 14C humidity 70 wind 3 m/s rain 0\n\
//!              2026-04-13 low 36F high 57F wind 8mph\n";
//! let read = hodful_weather::read(typed.as_bytes(), "typed.txt")?;
//! assert_eq!(read.weather.hours().len(), 48);
//! assert_eq!(read.weather.hours()[15].dry_bulb, 14.0);
//! # Ok::<(), hodful_weather::Faults>(())
//! ```

mod epw;
mod fault;
mod kind;
mod moist;
mod names;
mod note;
mod series;
mod table;
mod typed;
mod unit;
mod when;

pub use fault::{Fault, Faults, Trouble};
pub use kind::Kind;
pub use note::{Note, Told};

use fault::Log;
use hodful_air::Weather;
use std::borrow::Cow;

/// Weather that was read, and what was changed on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// The weather.
    pub weather: Weather,
    /// What a user should know: values filled in, left out, or taken from elsewhere.
    pub notes: Vec<Note>,
}

/// Weather from the bytes of a file; the name is for the words of its faults alone.
///
/// Times are local standard time. An EPW file whose years jump, or whose source says that it is typical, stands for
/// any year; all others are dated. Three hours without a value are filled between their neighbours at most, and
/// told; more of them, or a value that cannot be, refuse the file. Humidity that is missing comes from the dew
/// point, pressure from the altitude.
///
/// Hours of typed days lie on a cosine from the low at 6 h up to the high at 15 h and down to the next low, the
/// shape of Reicosky et al., Accuracy of hourly air temperatures calculated from daily minima and maxima,
/// Agricultural and Forest Meteorology 46 (1989) (from memory; there the high is at 14 h). The water in the air
/// stays the same all day: what the humidity means at the middle of low and high, and no more than the air can
/// hold. Without a humidity the air is full at the low (FAO Irrigation and Drainage Paper 56, equation 48); in dry
/// places it is not, so that the weather says of itself that its dryness is not known.
///
/// # Errors
/// [`Faults`]: up to twenty with line and column, and how many more there are.
pub fn read(bytes: &[u8], name: &str) -> Result<Reading, Faults> {
    let mut log = Log::default();
    let weather = text(bytes)
        .map_err(|trouble| log.fault(1, 1, trouble))
        .ok()
        .and_then(|text| weather(&text, &mut log));
    log.end(name, weather)
}

fn weather(text: &str, log: &mut Log) -> Option<Weather> {
    let Some((number, first)) = lines(text).next() else {
        log.fault(1, 1, Trouble::Empty);
        return None;
    };
    if epw::is_one(first) {
        epw::read(text, log)
    } else if when::day_at_start(first).is_some() {
        typed::read(text, log)
    } else if table::is_one(first) {
        table::read(text, log)
    } else {
        log.fault(number, 1, Trouble::Unknown);
        None
    }
}

/// The lines in which something stands, with their numbers; one that begins with `#` is a remark.
fn lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    (1..)
        .zip(text.lines())
        .filter(|(_, line)| !line.trim().is_empty() && !line.trim_start().starts_with('#'))
}

/// The text of a file in UTF-8, or in Latin-1 when it is no UTF-8, with a line feed at the end of each line.
fn text(bytes: &[u8]) -> Result<Cow<'_, str>, Trouble> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    if bytes.starts_with(b"\xff\xfe") || bytes.starts_with(b"\xfe\xff") {
        return Err(Trouble::TwoByteLetters);
    }
    if bytes.contains(&0) {
        return Err(Trouble::NoText);
    }
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => Cow::Borrowed(text),
        Err(_) => Cow::Owned(bytes.iter().copied().map(char::from).collect()),
    };
    if text.contains('\r') && !text.contains('\n') {
        return Ok(Cow::Owned(text.replace('\r', "\n")));
    }
    Ok(text)
}
