//! Printing spans of time. Not here: days of the calendar, which are kept as typed.

use super::{Figure, Grouping, fixed};
use crate::units::Time;

const MINUTE: f64 = 60.0;
const HOUR: f64 = 60.0 * MINUTE;
const DAY: f64 = 24.0 * HOUR;

/// A span of time: to the nearest second under two minutes, to the nearest minute under two days, else
/// to the nearest hour.
///
/// ```
/// use hodful_quantities::{Measure, units::Time, print::time};
/// let shown = |text| time(Time::read(text).unwrap()).to_string();
/// assert_eq!(shown("44.5 s"), "45 s");
/// assert_eq!(shown("278 s"), "5 min");
/// assert_eq!(shown("27836 s"), "7 h 44 min");
/// assert_eq!(shown("50 h"), "2 days 2 h");
/// ```
pub fn time(value: Time) -> Figure {
    let seconds = value.value;
    let digits = if seconds.abs() < 2.0 * DAY {
        if seconds.abs() < 2.0 * MINUTE {
            format!("{} s", fixed(seconds, 0, Grouping::Comma))
        } else {
            two(seconds / MINUTE, HOUR / MINUTE, ["h", "min"])
        }
    } else {
        two(seconds / HOUR, DAY / HOUR, ["days", "h"])
    };
    Figure { digits, unit: "" }
}

/// A number of small units as large and small ones, of which so many make a large one.
fn two(small: f64, make: f64, [large_word, small_word]: [&str; 2]) -> String {
    let small = small.round();
    let large = (small / make).trunc();
    let rest = small - large * make;
    let shown = |of: f64| fixed(of, 0, Grouping::Comma);
    match (large == 0.0, rest == 0.0) {
        (true, _) => format!("{} {small_word}", shown(rest)),
        (false, true) => format!("{} {large_word}", shown(large)),
        (false, false) => format!("{} {large_word} {} {small_word}", shown(large), shown(rest)),
    }
}
