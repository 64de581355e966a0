//! Reading temperatures and days. Not here: spans of time, which are quantities like any other.

use super::exact::{Big, Exact};
use super::fault::{Fault, misread, too_long};
use super::number;
use crate::typed::{Measure, Misread};
use crate::units::Celsius;
use jiff::civil::Date;

impl Measure for Celsius {
    const WHAT: &'static str = "a temperature";
    const SPELLINGS: &'static str = "20 C, 20 °C or 68 F";

    /// Reads a temperature in degrees Celsius or Fahrenheit; 32 °F is 0 °C and 9 °F are 5 °C.
    ///
    /// ```
    /// use hodful_quantities::{Measure, units::Celsius};
    /// assert_eq!(Celsius::read("20 C")?, Celsius(20.0));
    /// assert_eq!(Celsius::read("50°F")?, Celsius(10.0));
    /// assert_eq!(Celsius::read("-5.5 °C")?, Celsius(-5.5));
    /// assert_eq!(
    ///     Celsius::read("20").unwrap_err().to_string(),
    ///     "'20' has no unit; write 20 C, 20 °C or 68 F",
    /// );
    /// # Ok::<(), hodful_quantities::Misread>(())
    /// ```
    fn read(text: &str) -> Result<Self, Misread> {
        celsius(text).map_err(|fault| misread::<Self>(text, &fault))
    }
}

/// The spellings of the two scales, in small letters.
const SCALES: [(&[&str], Scale); 2] = [
    (&["c", "°c", "deg c", "degc", "celsius"], Scale::Celsius),
    (
        &["f", "°f", "deg f", "degf", "fahrenheit"],
        Scale::Fahrenheit,
    ),
];

#[derive(Debug, Clone, Copy)]
enum Scale {
    Celsius,
    Fahrenheit,
}

fn celsius(text: &str) -> Result<Celsius, Fault> {
    const WHAT: &str = Celsius::WHAT;
    too_long(text)?;
    let text = text.trim();
    let (sign, rest) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, text),
    };
    let end = rest
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',')))
        .unwrap_or(rest.len());
    let (digits, unit) = rest.split_at_checked(end).ok_or(Fault::NotOne(WHAT))?;
    let value = match number::read(digits) {
        Some(number::Reading::One(one)) => one.exact::<Big>().and_then(|exact| exact.rounded()),
        _ => None,
    };
    let value = sign * value.ok_or(Fault::NotOne(WHAT))?;
    let unit = unit.trim().to_lowercase();
    if unit.is_empty() {
        return Err(Fault::NoUnit);
    }
    let scale = SCALES.iter().find(|(words, _)| words.contains(&&*unit));
    match scale {
        Some((_, Scale::Celsius)) => Ok(Celsius(value)),
        Some((_, Scale::Fahrenheit)) => Ok(Celsius((value - 32.0) * 5.0 / 9.0)),
        None => Err(Fault::NotOne(WHAT)),
    }
}

/// A day of the calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

impl Day {
    /// The day as a date.
    pub fn date(self) -> Date {
        self.0
    }

    /// Days from another day to this one; negative when this one is earlier.
    pub fn since(self, other: Self) -> i32 {
        (self.0 - other.0).get_days()
    }
}

impl core::fmt::Display for Day {
    /// As year, month and day: `2026-05-04` (ISO 8601).
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        self.0.fmt(f)
    }
}

impl Measure for Day {
    const WHAT: &'static str = "a day";
    const SPELLINGS: &'static str = "2026-05-04: year, month, day";

    /// Reads a day as year, month and day (ISO 8601). Other orders are refused, because `4/5` is May in
    /// one country and April in another.
    ///
    /// ```
    /// use hodful_quantities::{Measure, read::Day};
    /// let [scratch, fill] = ["2026-05-04", "2026-06-01"].map(|day| Day::read(day).unwrap());
    /// assert_eq!(fill.since(scratch), 28);
    /// assert!(Day::read("2026-02-30").is_err());
    /// assert!(Day::read("4/5/2026").is_err());
    /// ```
    fn read(text: &str) -> Result<Self, Misread> {
        let day = too_long(text).and_then(|()| {
            let day = text.trim().parse().map_err(|_| Fault::NotOne(Self::WHAT))?;
            Ok(Self(day))
        });
        day.map_err(|fault| misread::<Self>(text, &fault))
    }
}
