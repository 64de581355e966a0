//! What was changed while weather was read, and is told. Not here: what refuses a file (see `fault`).

use crate::Kind;
use std::fmt;

/// Something a user should know about weather that was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// What.
    pub told: Told,
    /// The first line it is about, from 1.
    pub line: usize,
    /// How many times it happened.
    pub count: usize,
}

/// What was changed, left out or taken from elsewhere.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum Told {
    /// Humidity from 100 to 110 %.
    TooHumid,
    /// A value that cannot be, of a kind an hour can do without.
    LeftOut {
        /// Of what.
        kind: Kind,
    },
    /// A value between its neighbours.
    Filled {
        /// Of what.
        kind: Kind,
    },
    /// An hour that was not there.
    HourFilled,
    /// Humidity worked out from the dew point.
    FromDewPoint,
    /// Pressure worked out from the altitude.
    FromAltitude,
    /// Pressure of an altitude nobody gave.
    AtSeaLevel,
    /// Humidity from the low of the day.
    FromLow,
    /// Hours in another order than time.
    OutOfOrder,
    /// An hour that was there twice, the same.
    Twice,
    /// A last line that is cut.
    CutShort,
    /// Another end than the head gives.
    EndsElsewhere {
        /// By the head.
        promised: String,
        /// The last day that is there.
        last: String,
    },
    /// No place in the head.
    NoPlace,
    /// A series that stands for any year.
    Typical,
    /// Times with an offset from universal time.
    Offset {
        /// The offset, as it stands there.
        offset: String,
    },
    /// An offset other than the first.
    OtherOffset,
    /// A row for every third hour.
    ThirdHours,
    /// A column nothing is taken from.
    ColumnUnused {
        /// Its name.
        name: String,
    },
}

impl fmt::Display for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooHumid => f.write_str("humidity above 100 % is taken as 100 %"),
            Self::LeftOut { kind } => write!(
                f,
                "{} that cannot be is left out; it is {}",
                kind.words(),
                kind.range_words()
            ),
            Self::Filled { kind } => write!(
                f,
                "{} that is missing is filled in between its neighbours",
                kind.words()
            ),
            Self::HourFilled => {
                f.write_str("an hour that is missing is filled in between its neighbours")
            }
            Self::FromDewPoint => f.write_str("humidity is worked out from the dew point"),
            Self::FromAltitude => {
                f.write_str("pressure is missing; the usual one of the altitude is taken")
            }
            Self::AtSeaLevel => {
                f.write_str("pressure is missing; the usual one at the sea is taken")
            }
            Self::FromLow => f.write_str(
                "humidity is missing; the air is taken to be full of water at the low of the day",
            ),
            Self::OutOfOrder => f.write_str("lines are out of order and are put in order"),
            Self::Twice => f.write_str("an hour is there twice, the same; one is left out"),
            Self::CutShort => {
                f.write_str("the last line is cut and is left out; the file may be cut short")
            }
            Self::EndsElsewhere { promised, last } => write!(
                f,
                "the head says that it ends on {promised} (month/day), the last hour is of {last}"
            ),
            Self::NoPlace => f.write_str(
                "latitude, longitude, time zone or altitude is missing; the place is not known",
            ),
            Self::Typical => f.write_str("each day stands for that day of any year"),
            Self::Offset { offset } => write!(
                f,
                "times are taken as they stand, {offset} from universal time, for local standard time"
            ),
            Self::OtherOffset => {
                f.write_str("a time with another offset is brought to the first one")
            }
            Self::ThirdHours => {
                f.write_str("two hours of three are filled in between their neighbours")
            }
            Self::ColumnUnused { name } => write!(f, "nothing is taken from column '{name}'"),
        }
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.count {
            1 => write!(f, "line {}: {}", self.line, self.told),
            count => write!(f, "line {}: {} ({count} times)", self.line, self.told),
        }
    }
}
