//! What keeps weather from being read, in words, with line and column. Not here: what is changed and told (see
//! `note`).

use crate::note::{Note, Told};
use crate::{Kind, Reading};
use hodful_air::{Weather, WeatherFault};
use jiff::civil::{Date, DateTime};
use std::fmt;

/// Most faults that are told one by one: what a screen holds. Ours, no source.
const MOST: usize = 20;

/// Where something is wrong in a file, and what.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("line {line}, column {column}: {trouble}")]
pub struct Fault {
    /// The line, from 1.
    pub line: usize,
    /// The column of a table, from 1; in typed days the letter of the line.
    pub column: usize,
    /// What.
    pub trouble: Trouble,
}

/// All that is wrong with a file: twenty faults, and how many more.
#[derive(Debug, Clone, PartialEq)]
pub struct Faults {
    /// The file.
    pub name: String,
    /// The first twenty, in the order they were found.
    pub faults: Vec<Fault>,
    /// How many more there are.
    pub more: usize,
}

/// What is wrong.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Trouble {
    /// Nothing in it.
    #[error("there is nothing in the file; give hours or days of weather")]
    Empty,
    /// No text.
    #[error("this is no text; when it is packed, unpack it first")]
    NoText,
    /// UTF-16.
    #[error("each letter takes two bytes (UTF-16); save it as UTF-8")]
    TwoByteLetters,
    /// None of the formats.
    #[error(
        "this is no EPW file (it begins with LOCATION), no table with a row of names (time, temperature C, humidity), \
         and no days as typed (2026-04-12 low 2C high 14C); give one of them"
    )]
    Unknown,
    /// A head and no hours.
    #[error("no hours follow; the file may be cut short, get it again")]
    NoHours,
    /// A text where a number belongs.
    #[error("{what} '{text}' is no number; correct it")]
    NoNumber {
        /// Of what.
        what: String,
        /// As it stands there.
        text: String,
    },
    /// A value that cannot be.
    #[error("{} {value} cannot be: it is {}; correct it, or look whether the unit is right", kind.words(), kind.range_words())]
    Range {
        /// Of what.
        kind: Kind,
        /// As it stands there.
        value: String,
    },
    /// A number of a place that cannot be.
    #[error("{what} {value} cannot be: it is from {lowest} to {highest}; correct it")]
    Station {
        /// Of what.
        what: &'static str,
        /// The value.
        value: f64,
        /// The lowest that can be.
        lowest: f64,
        /// The highest that can be.
        highest: f64,
    },
    /// A line with too few columns.
    #[error(
        "{found} columns, where {needed} are needed at least; the line may be cut, get the file again"
    )]
    FewColumns {
        /// How many there are.
        found: usize,
        /// How many there must be.
        needed: usize,
    },
    /// A day or an hour that is not in the calendar.
    #[error("'{text}' is no {what}; {advice}")]
    Time {
        /// As it stands there.
        text: String,
        /// What it should be.
        what: &'static str,
        /// What to write.
        advice: &'static str,
    },
    /// More records than one in an hour.
    #[error("{records} records an hour; only files with one can be read, get the hourly one")]
    PartsOfHours {
        /// How many.
        records: String,
    },
    /// Hours that are there twice with other values.
    #[error(
        "the hour of {begins} is already in line {first} with other values; keep one of them, and write times without summer time"
    )]
    Twice {
        /// The hour.
        begins: DateTime,
        /// The line of the first.
        first: usize,
    },
    /// Too many hours without a value.
    #[error(
        "{} is missing from {begins} on, hours in a row: {hours}; {most} are filled in at most, and only between others; \
         fill it in or get another file", kind.words()
    )]
    Missing {
        /// Of what.
        kind: Kind,
        /// How many hours.
        hours: usize,
        /// The first of them.
        begins: DateTime,
        /// How many are filled in.
        most: usize,
    },
    /// Too many hours left out.
    #[error(
        "between {before} and {after} hours are missing; {most} are filled in at most; fill them in or get another file"
    )]
    Gap {
        /// The hour before.
        before: DateTime,
        /// The hour after.
        after: DateTime,
        /// How many are filled in.
        most: usize,
    },
    /// Other steps than one or three hours.
    #[error("after {before} comes {after}; give a line for every hour, or for every third")]
    Step {
        /// The time before.
        before: DateTime,
        /// The time after.
        after: DateTime,
    },
    /// No column for what is needed.
    #[error("no column of {what}; name one in the first row, such as '{example}'")]
    NoColumn {
        /// What is needed.
        what: &'static str,
        /// A name.
        example: &'static str,
    },
    /// Two columns for the same.
    #[error("'{name}' is a second column of {what}; take one of them out")]
    SecondColumn {
        /// Its name.
        name: String,
        /// What it holds.
        what: &'static str,
    },
    /// A value without a unit.
    #[error("'{name}' has no unit; write {units}")]
    NoUnit {
        /// As it stands there.
        name: String,
        /// Those that can be.
        units: &'static str,
    },
    /// Humidity that is a share, or none at all.
    #[error("humidity is nowhere above 1 %, so that it may be a share; write it in percent")]
    NoPercent,
    /// A line that the reader of tables refuses.
    #[error("the line is no row of a table; look for a lone quotation mark")]
    Row,
    /// A word nobody knows.
    #[error(
        "'{word}' is no word that is known here; write a day as: 2026-04-12 low 2C high 14C humidity 70 wind 3 m/s rain 5 mm"
    )]
    Word {
        /// The word.
        word: String,
    },
    /// A word that stands twice in a day.
    #[error("'{word}' stands here for the second time; keep one of them")]
    WordTwice {
        /// The word.
        word: String,
    },
    /// A day without a word it needs.
    #[error("the {word} of the day is missing; write '{word} 14C', or '{word} 57F'")]
    NoWord {
        /// The word.
        word: &'static str,
    },
    /// A lowest temperature above the highest.
    #[error("the low of {low:.1} °C is above the high of {high:.1} °C; change them about")]
    LowAboveHigh {
        /// The low.
        low: f64,
        /// The high.
        high: f64,
    },
    /// Days that do not follow one another.
    #[error("after {before} comes {after}; write every day once, one after the other")]
    Days {
        /// The day before.
        before: Date,
        /// The day after.
        after: Date,
    },
    /// What the series itself refuses.
    #[error(transparent)]
    Weather(#[from] WeatherFault),
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} cannot be read", self.name)?;
        for fault in &self.faults {
            write!(f, "\n{fault}")?;
        }
        if self.more > 0 {
            write!(f, "\nand {} more", self.more)?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}

/// What was found while reading.
#[derive(Debug, Default)]
pub(super) struct Log {
    faults: Vec<Fault>,
    more: usize,
    notes: Vec<Note>,
}

impl Log {
    pub(super) fn fault(&mut self, line: usize, column: usize, trouble: Trouble) {
        if self.faults.len() < MOST {
            self.faults.push(Fault {
                line,
                column,
                trouble,
            });
        } else {
            self.more += 1;
        }
    }

    /// One more of what is told.
    pub(super) fn note(&mut self, line: usize, told: Told) {
        match self.notes.iter_mut().find(|note| note.told == told) {
            Some(note) => note.count += 1,
            None => self.notes.push(Note {
                told,
                line,
                count: 1,
            }),
        }
    }

    pub(super) fn is_clean(&self) -> bool {
        self.faults.is_empty()
    }

    /// A value, when it can be. One that cannot be is a fault, or is left out when an hour can do without.
    pub(super) fn value(
        &mut self,
        (line, column): (usize, usize),
        kind: Kind,
        value: f64,
        text: &str,
    ) -> Option<f64> {
        let (lowest, highest) = kind.range();
        if (lowest..=highest).contains(&value) {
            if kind == Kind::Humidity && value > 1.0 {
                self.note(line, Told::TooHumid);
                return Some(1.0);
            }
            return Some(value);
        }
        if kind.needed() {
            let value = text.to_owned();
            self.fault(line, column, Trouble::Range { kind, value });
        } else {
            self.note(line, Told::LeftOut { kind });
        }
        None
    }

    pub(super) fn end(self, name: &str, weather: Option<Weather>) -> Result<Reading, Faults> {
        match weather {
            Some(weather) if self.faults.is_empty() => Ok(Reading {
                weather,
                notes: self.notes,
            }),
            _ => Err(Faults {
                name: name.to_owned(),
                faults: self.faults,
                more: self.more,
            }),
        }
    }
}
