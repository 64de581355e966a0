//! Numbers in messages, short enough to read aloud. Not here: the printing of results, which is the caller's.

use core::fmt;

/// A share of the whole as a percentage, to a tenth, without a needless `.0`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Percent(pub(crate) f64);

impl fmt::Display for Percent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tenths = (self.0 * 1000.0).round() / 10.0;
        if tenths.is_finite() {
            write!(f, "{tenths} %")
        } else {
            f.write_str("a value that is no number")
        }
    }
}

/// A length in millimetres, to a micrometre where it is under ten, else to a tenth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Millimetres(pub(crate) f64);

impl fmt::Display for Millimetres {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.0.is_finite() {
            return f.write_str("a value that is no number");
        }
        let steps = match self.0.abs() {
            under if under < 0.1 => 10_000.0,
            under if under < 10.0 => 1000.0,
            _ => 10.0,
        };
        write!(f, "{} mm", (self.0 * steps).round() / steps)
    }
}

/// A time in seconds, as a clock would be read: `28 s`, `4.6 min`, `7 h 44 min`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Clock(pub(crate) f64);

impl fmt::Display for Clock {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            seconds if !seconds.is_finite() => f.write_str("a time that is no number"),
            seconds if seconds < 90.0 => write!(f, "{} s", seconds.round()),
            seconds if seconds < 5400.0 => write!(f, "{} min", (seconds / 6.0).round() / 10.0),
            seconds => {
                let minutes = (seconds / 60.0).round();
                let hours = (minutes / 60.0).floor();
                write!(f, "{hours} h {} min", minutes - 60.0 * hours)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_they_are_said() {
        assert_eq!(Percent(0.27).to_string(), "27 %");
        assert_eq!(Percent(0.0794).to_string(), "7.9 %");
        assert_eq!(Percent(f64::NAN).to_string(), "a value that is no number");
        assert_eq!(Millimetres(0.0039).to_string(), "0.0039 mm");
        assert_eq!(Millimetres(4.75).to_string(), "4.75 mm");
        assert_eq!(Millimetres(100.0).to_string(), "100 mm");
        assert_eq!(Clock(28.1).to_string(), "28 s");
        assert_eq!(Clock(278.0).to_string(), "4.6 min");
        assert_eq!(Clock(27_836.0).to_string(), "7 h 44 min");
    }
}
