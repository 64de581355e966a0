//! Days and times as they stand in a file. Not here: whether they follow one another (see `series`).

use jiff::civil::{Date, DateTime, Time};

/// The day with which a line begins, `2026-04-12`.
pub(super) fn date_at_start(text: &str) -> Option<Date> {
    day_at_start(text)?.parse().ok()
}

/// What is written as a day at the start of a line, whether there is such a day or not.
pub(super) fn day_at_start(text: &str) -> Option<&str> {
    let text = text.trim_start();
    let day = text.get(..10)?;
    let ends = text.get(10..)?.chars().next();
    let is_written = |(at, c): (usize, u8)| match at {
        4 | 7 => c == b'-',
        _ => c.is_ascii_digit(),
    };
    if ends.is_some_and(|c| !c.is_whitespace()) || !day.bytes().enumerate().all(is_written) {
        return None;
    }
    // A table may have no row of names and begin with a day and a time.
    let rest = text.get(10..)?.trim_start();
    if rest.contains([',', ';']) && rest.starts_with(|c: char| c.is_ascii_digit()) {
        return None;
    }
    Some(day)
}

/// A time by ISO 8601 and the minutes it is ahead of universal time, when that stands there: `2026-04-12T06:00`,
/// `2026-04-12 06:00:00`, `2026-04-12T06:00Z`, `2026-04-12T06:00+02:00`.
pub(super) fn time(text: &str) -> Option<(DateTime, Option<i32>)> {
    let text = text.trim();
    let day: Date = text.get(..10)?.parse().ok()?;
    let rest = text.get(10..)?;
    let rest = rest.strip_prefix(['T', 't', ' '])?.trim_start();
    let end = rest
        .find(|c: char| !(c.is_ascii_digit() || c == ':' || c == '.'))
        .unwrap_or(rest.len());
    let (clock, offset) = rest.split_at_checked(end)?;
    if !clock.contains(':') {
        return None;
    }
    let clock: Time = clock.parse().ok()?;
    let offset = match offset.trim() {
        "" => None,
        written => Some(minutes(written)?),
    };
    Some((day.to_datetime(clock), offset))
}

/// Minutes ahead of universal time: `Z`, `+02:00`, `-0530`, `+02`.
fn minutes(text: &str) -> Option<i32> {
    if ["Z", "UTC", "GMT"]
        .iter()
        .any(|word| text.eq_ignore_ascii_case(word))
    {
        return Some(0);
    }
    let (sign, digits) = match text.strip_prefix('+') {
        Some(digits) => (1, digits),
        None => (-1, text.strip_prefix(['-', '−'])?),
    };
    let digits = digits.replace(':', "");
    if !digits.chars().all(|c| c.is_ascii_digit()) {
        return None;
    }
    let (hours, minutes) = match digits.len() {
        2 => (digits.parse::<i32>().ok()?, 0),
        4 => {
            let both = digits.parse::<i32>().ok()?;
            (both / 100, both % 100)
        }
        _ => return None,
    };
    (hours <= 14 && minutes < 60).then_some(sign * (hours * 60 + minutes))
}

/// Minutes ahead of universal time as `+02:00`.
pub(super) fn offset_words(minutes: i32) -> String {
    let sign = if minutes < 0 { '−' } else { '+' };
    let all = minutes.abs();
    format!("{sign}{:02}:{:02}", all / 60, all % 60)
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn times_are_read_as_they_are_written() {
        let six = date(2026, 4, 12).at(6, 0, 0, 0);
        for (text, offset) in [
            ("2026-04-12T06:00", None),
            ("2026-04-12 06:00:00", None),
            (" 2026-04-12t06:00:00.000 ", None),
            ("2026-04-12T06:00Z", Some(0)),
            ("2026-04-12 06:00 UTC", Some(0)),
            ("2026-04-12T06:00+02:00", Some(120)),
            ("2026-04-12T06:00:00-0530", Some(-330)),
        ] {
            assert_eq!(time(text), Some((six, offset)), "{text}");
        }
        for text in [
            "",
            "2026-04-12",
            "2026-04-31T06:00",
            "2026-04-12T25:00",
            "12.04.2026 06:00",
            "2026-04-12T06:00+2",
            "2026-04-12T06:00+15:00",
            "2026-04-12T06",
            "2026-04-12é06:00",
        ] {
            assert_eq!(time(text), None, "{text}");
        }
        assert_eq!(offset_words(-330), "−05:30");
    }

    #[test]
    fn a_line_begins_with_a_day_or_does_not() {
        assert_eq!(date_at_start("2026-04-12 low 2C"), Some(date(2026, 4, 12)));
        assert_eq!(day_at_start("2026-04-31 low 2C"), Some("2026-04-31"));
        assert_eq!(date_at_start("2026-04-31 low 2C"), None);
        for text in [
            "2026-04-12T06:00,2",
            "2026-04-12 06:00,2.5",
            "20260412  low",
            "low 2",
        ] {
            assert_eq!(day_at_start(text), None, "{text}");
        }
    }
}
