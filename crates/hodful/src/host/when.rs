//! When something was changed, in words of local time. Not here: which thing.

use jiff::Timestamp;
use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use std::time::SystemTime;

/// When something was changed: `today at 14:32`, `on 24 November at 09:10`. Where the system does not say
/// which time is kept here, in the time of Greenwich, and says so.
pub(super) fn changed(at: SystemTime) -> String {
    let Ok(at) = Timestamp::try_from(at) else {
        return "at a time that cannot be told".to_owned();
    };
    let (zone, told) = match TimeZone::try_system() {
        Ok(zone) => (zone, ""),
        Err(_) => (TimeZone::UTC, " UTC"),
    };
    let words = words(zone.to_datetime(at), zone.to_datetime(Timestamp::now()));
    format!("{words}{told}")
}

/// A time as seen from another.
fn words(at: DateTime, now: DateTime) -> String {
    let day = if at.date() == now.date() {
        "today".to_owned()
    } else if now.date().yesterday().is_ok_and(|day| day == at.date()) {
        "yesterday".to_owned()
    } else if at.year() == now.year() {
        format!("on {} {}", at.day(), month(at))
    } else {
        format!("on {} {} {}", at.day(), month(at), at.year())
    };
    format!("{day} at {:02}:{:02}", at.hour(), at.minute())
}

fn month(of: DateTime) -> &'static str {
    match of.month() {
        1 => "January",
        2 => "February",
        3 => "March",
        4 => "April",
        5 => "May",
        6 => "June",
        7 => "July",
        8 => "August",
        9 => "September",
        10 => "October",
        11 => "November",
        _ => "December",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn times_are_told_as_people_do() {
        let now = date(2026, 3, 1).at(8, 5, 0, 0);
        for (at, told) in [
            (date(2026, 3, 1).at(0, 0, 0, 0), "today at 00:00"),
            (date(2026, 2, 28).at(23, 59, 59, 0), "yesterday at 23:59"),
            (date(2026, 2, 27).at(9, 10, 0, 0), "on 27 February at 09:10"),
            (
                date(2025, 12, 31).at(14, 32, 0, 0),
                "on 31 December 2025 at 14:32",
            ),
            // A clock that was set back.
            (date(2026, 3, 2).at(7, 0, 0, 0), "on 2 March at 07:00"),
        ] {
            assert_eq!(words(at, now), told);
        }
        let new_year = date(2026, 1, 1).at(1, 0, 0, 0);
        assert_eq!(
            words(date(2025, 12, 31).at(1, 0, 0, 0), new_year),
            "yesterday at 01:00"
        );
        assert_eq!(
            words(
                date(-9999, 1, 1).at(0, 0, 0, 0),
                date(-9999, 1, 1).at(0, 0, 0, 0)
            ),
            "today at 00:00"
        );
    }

    #[test]
    fn a_time_of_this_minute_is_today_or_a_moment_ago_yesterday() {
        let told = changed(SystemTime::now());
        assert!(
            told.starts_with("today at ") || told.starts_with("yesterday at 23:59"),
            "{told}"
        );
    }
}
