//! Weather: hours in a row at one place, looked up by date, or by day of the year whatever the year. Not here:
//! reading it from a file, and what is reckoned from it.

use crate::hour::Hour;
use jiff::civil::{Date, DateTime};

/// Hours of a year with a 29 February.
const LONGEST_YEAR: usize = 366 * 24;

/// Days before each month in a year with a 29 February.
const BEFORE: [i64; 12] = [0, 31, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335];

/// 29 February, counted from 0.
const LEAP_DAY: i64 = 59;

/// Where weather was measured, or is made for.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    /// Its name.
    pub name: String,
    /// Degrees north of the equator; south is below 0.
    pub latitude: f64,
    /// Degrees east of Greenwich; west is below 0.
    pub longitude: f64,
    /// Hours by which local standard time is ahead of universal time.
    pub zone: f64,
    /// Metres above the sea.
    pub altitude: f64,
}

/// Weather: one hour after the other without a gap, every value checked.
///
/// A dated series holds the hours it was made of and no other. A typical year stands for any year: an hour is
/// looked up by month, day and hour, and comes back with the year it was asked for; without a 29 February of its
/// own, 28 February stands for it.
///
/// ```
/// use hodful_air::{Hour, Weather};
/// use jiff::civil::date;
///
/// let hour = |at| Hour {
///     begins: date(2019, 4, 12).at(at, 0, 0, 0),
///     dry_bulb: f64::from(at), humidity: 0.7, pressure: 101_325.0,
///     wind: None, sun: None, beam: None, diffuse: None, cloud: None, rain: None,
/// };
/// let weather = Weather::typical((0..24).map(hour).collect(), None)?;
/// let asked = date(2031, 4, 12).at(9, 30, 0, 0);
/// let found = weather.at(asked).ok_or("no hour")?;
/// assert_eq!((found.dry_bulb, found.begins), (9.0, date(2031, 4, 12).at(9, 0, 0, 0)));
/// assert_eq!(weather.at(date(2031, 4, 13).at(0, 0, 0, 0)), None);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Weather {
    place: Option<Station>,
    hours: Vec<Hour>,
    order: Order,
    dryness_unknown: bool,
}

/// How an hour is found.
#[derive(Debug, Clone, PartialEq)]
enum Order {
    /// By the hours since the first midnight, less those of the first hour.
    Dated { first: Date, skipped: i64 },
    /// By the place in a year with a 29 February; each holds the place in the series.
    Typical {
        places: Vec<Option<usize>>,
        /// Whether 29 February is among them.
        leap_day: bool,
    },
}

/// Why hours are no weather.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum WeatherFault {
    /// No hour at all.
    #[error("there is no hour in it; give one at least")]
    Empty,
    /// An hour that begins at a minute.
    #[error("the hour of {begins} does not begin on the hour; give whole hours")]
    NotOnTheHour {
        /// When it begins.
        begins: DateTime,
    },
    /// Hours that do not follow one another.
    #[error(
        "after {before} comes {after} and not the next hour; put the hours in order and fill the gap"
    )]
    Order {
        /// The hour before.
        before: DateTime,
        /// What comes after it.
        after: DateTime,
    },
    /// More hours than a year has, where each day stands for that day of any year.
    #[error("{begins} is there twice in a typical year; keep one of them")]
    Twice {
        /// The second.
        begins: DateTime,
    },
    /// A value that cannot be.
    #[error("{what} of {value} at {begins} cannot be; {range}")]
    Value {
        /// Which.
        what: &'static str,
        /// The value.
        value: f64,
        /// The hour.
        begins: DateTime,
        /// What can be.
        range: &'static str,
    },
}

impl Weather {
    /// Hours of the dates they carry, rising, each following the one before.
    ///
    /// # Errors
    /// [`WeatherFault`] for the first hour that does not fit.
    pub fn dated(hours: Vec<Hour>, place: Option<Station>) -> Result<Self, WeatherFault> {
        let first = checked(&hours)?.begins;
        pairs(&hours, |before, after| {
            after.duration_since(before).as_secs() == 3600
        })?;
        let order = Order::Dated {
            first: first.date(),
            skipped: i64::from(first.hour()),
        };
        Ok(Self {
            place,
            hours,
            order,
            dryness_unknown: false,
        })
    }

    /// Hours that stand for those of any year. Each follows the one before by month, day and hour; the years do
    /// not matter, 29 February may be missing, and the series may go on past the new year.
    ///
    /// # Errors
    /// [`WeatherFault`] for the first hour that does not fit.
    pub fn typical(hours: Vec<Hour>, place: Option<Station>) -> Result<Self, WeatherFault> {
        checked(&hours)?;
        pairs(&hours, follows_in_any_year)?;
        let mut places = vec![None; LONGEST_YEAR];
        for (at, hour) in hours.iter().enumerate() {
            match slot(hour.begins).and_then(|slot| places.get_mut(slot)) {
                Some(free @ None) => *free = Some(at),
                _ => {
                    return Err(WeatherFault::Twice {
                        begins: hour.begins,
                    });
                }
            }
        }
        let order = typical(places);
        Ok(Self {
            place,
            hours,
            order,
            dryness_unknown: false,
        })
    }

    /// Dated hours made to stand for any year. Of a day that is there in several years, the last counts.
    /// A typical year stays what it is.
    #[must_use]
    pub fn for_any_year(self) -> Self {
        if self.is_typical() {
            return self;
        }
        let from = self.hours.len().saturating_sub(LONGEST_YEAR);
        let mut places = vec![None; LONGEST_YEAR];
        for (at, hour) in self.hours.iter().enumerate().skip(from) {
            if let Some(place) = slot(hour.begins).and_then(|slot| places.get_mut(slot)) {
                *place = Some(at);
            }
        }
        Self {
            order: typical(places),
            ..self
        }
    }

    /// Whether each hour stands for that hour of any year.
    pub fn is_typical(&self) -> bool {
        matches!(self.order, Order::Typical { .. })
    }

    /// The same, with a humidity that was not measured in all hours but taken as high as it can be.
    #[must_use]
    pub fn with_dryness_unknown(self) -> Self {
        Self {
            dryness_unknown: true,
            ..self
        }
    }

    /// Whether the humidity was measured; see [`crate::frost::Night::with_dryness_unknown`].
    pub fn is_dryness_known(&self) -> bool {
        !self.dryness_unknown
    }

    /// Where it is, when that is known.
    pub fn place(&self) -> Option<&Station> {
        self.place.as_ref()
    }

    /// The hours as they were given, one at least.
    pub fn hours(&self) -> &[Hour] {
        &self.hours
    }

    /// The hour in which a time lies, local standard time; its `begins` has the year that was asked for. `None`
    /// outside the series.
    pub fn at(&self, time: DateTime) -> Option<Hour> {
        self.found(self.midnight(time.date()), time.date(), time.hour())
    }

    /// So many hours from the one in which a time lies, each in a time that does not grow with the series; `None`
    /// for each that is outside. It ends early where the calendar does, at the end of the year 9999.
    ///
    /// ```
    /// # use hodful_air::{Hour, Weather};
    /// # use jiff::civil::date;
    /// # let hour = |at| Hour {
    /// #     begins: date(2026, 4, 12).at(at, 0, 0, 0),
    /// #     dry_bulb: f64::from(at), humidity: 0.7, pressure: 101_325.0,
    /// #     wind: None, sun: None, beam: None, diffuse: None, cloud: None, rain: None,
    /// # };
    /// let weather = Weather::dated((0..24).map(hour).collect(), None)?;
    /// let evening = weather.span(date(2026, 4, 12).at(22, 0, 0, 0), 3);
    /// let warmth: Vec<_> = evening.map(|hour| hour.map(|h| h.dry_bulb)).collect();
    /// assert_eq!(warmth, [Some(22.0), Some(23.0), None]);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn span(&self, from: DateTime, hours: usize) -> Span<'_> {
        Span {
            weather: self,
            date: Some(from.date()),
            midnight: self.midnight(from.date()),
            hour: from.hour(),
            left: hours,
        }
    }

    /// The place of the midnight with which a day begins.
    fn midnight(&self, date: Date) -> i64 {
        match &self.order {
            Order::Dated { first, skipped } => {
                date.duration_since(*first).as_secs() / 3600 - skipped
            }
            Order::Typical { leap_day, .. } => {
                let day = day_of_longest_year(date);
                if day == LEAP_DAY && !leap_day {
                    (day - 1) * 24
                } else {
                    day * 24
                }
            }
        }
    }

    fn found(&self, midnight: i64, date: Date, hour: i8) -> Option<Hour> {
        let place = index(midnight + i64::from(hour))?;
        let place = match &self.order {
            Order::Dated { .. } => place,
            Order::Typical { places, .. } => places.get(place).copied().flatten()?,
        };
        let mut found = *self.hours.get(place)?;
        found.begins = date.at(hour, 0, 0, 0);
        Some(found)
    }
}

/// Hours of a weather in a row; see [`Weather::span`].
#[derive(Debug, Clone)]
pub struct Span<'a> {
    weather: &'a Weather,
    date: Option<Date>,
    midnight: i64,
    hour: i8,
    left: usize,
}

impl Iterator for Span<'_> {
    type Item = Option<Hour>;

    fn next(&mut self) -> Option<Self::Item> {
        self.left = self.left.checked_sub(1)?;
        let date = self.date?;
        let found = self.weather.found(self.midnight, date, self.hour);
        self.hour += 1;
        if self.hour == 24 {
            self.hour = 0;
            self.date = date.tomorrow().ok();
            self.midnight = self.date.map_or(0, |date| self.weather.midnight(date));
        }
        Some(found)
    }
}

/// The first hour, when every hour can be.
fn checked(hours: &[Hour]) -> Result<&Hour, WeatherFault> {
    for hour in hours {
        let begins = hour.begins;
        if begins != begins.date().at(begins.hour(), 0, 0, 0) {
            return Err(WeatherFault::NotOnTheHour { begins });
        }
        let at_least_0 = "it is 0 or more";
        for (what, value, lowest, highest, range) in [
            (
                "a temperature",
                Some(hour.dry_bulb),
                -100.0,
                100.0,
                "it is from −100 to 100 °C",
            ),
            (
                "a humidity",
                Some(hour.humidity),
                0.0,
                1.0,
                "it is from 0 to 1",
            ),
            (
                "a pressure",
                Some(hour.pressure),
                1e4,
                2e5,
                "it is from 10 000 to 200 000 Pa",
            ),
            ("a wind", hour.wind, 0.0, f64::MAX, at_least_0),
            ("a sun", hour.sun, 0.0, f64::MAX, at_least_0),
            ("a beam", hour.beam, 0.0, f64::MAX, at_least_0),
            ("a diffuse sun", hour.diffuse, 0.0, f64::MAX, at_least_0),
            ("a cloud", hour.cloud, 0.0, 1.0, "it is from 0 to 1"),
            ("a rain", hour.rain, 0.0, f64::MAX, at_least_0),
        ] {
            if let Some(value) = value
                && !(lowest..=highest).contains(&value)
            {
                return Err(WeatherFault::Value {
                    what,
                    value,
                    begins,
                    range,
                });
            }
        }
    }
    hours.first().ok_or(WeatherFault::Empty)
}

fn pairs(hours: &[Hour], follow: impl Fn(DateTime, DateTime) -> bool) -> Result<(), WeatherFault> {
    for pair in hours.windows(2) {
        if let [before, after] = pair
            && !follow(before.begins, after.begins)
        {
            return Err(WeatherFault::Order {
                before: before.begins,
                after: after.begins,
            });
        }
    }
    Ok(())
}

/// Whether one hour follows another when the year of the second does not matter.
fn follows_in_any_year(before: DateTime, after: DateTime) -> bool {
    let place = |time| slot(time).unwrap_or_default();
    let next = (place(before) + 1) % LONGEST_YEAR;
    place(after) == next || (index(LEAP_DAY * 24) == Some(next) && place(after) == next + 24)
}

fn typical(places: Vec<Option<usize>>) -> Order {
    let day = index(LEAP_DAY * 24).unwrap_or_default();
    let leap_day = places.iter().skip(day).take(24).any(Option::is_some);
    Order::Typical { places, leap_day }
}

/// The day, from 0, in a year with a 29 February.
fn day_of_longest_year(date: Date) -> i64 {
    let month = usize::try_from(date.month() - 1).unwrap_or_default();
    BEFORE.get(month).copied().unwrap_or_default() + i64::from(date.day()) - 1
}

/// The hour, from 0, in a year with a 29 February.
fn slot(time: DateTime) -> Option<usize> {
    index(day_of_longest_year(time.date()) * 24 + i64::from(time.hour()))
}

fn index(place: i64) -> Option<usize> {
    usize::try_from(place).ok()
}
