//! Days and appointments as an iCalendar file (RFC 5545), which calendars of all kinds take in. Not here: what is to
//! be done when.

use jiff::civil::{Date, DateTime};
use jiff::{Timestamp, tz::Offset};

/// Most octets of a line without its end (RFC 5545, section 3.1).
const LINE: usize = 75;

/// A calendar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Calendar {
    /// Who made it, as `PRODID` wants it, such as `-//Hodful//Hodful 0.1.0//EN`.
    pub made_by: String,
    /// When it is written: the `DTSTAMP` of every entry, to the second.
    pub written: Timestamp,
    /// Its entries, in the order they are written.
    pub entries: Vec<Entry>,
}

/// Something that takes days, or hours of a day, in the local time of whoever reads it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// What it is known by: another file with the same one replaces the entry. It must not change and belong to no
    /// other entry (RFC 7986, section 5.3, asks for one that tells nothing of its maker).
    pub uid: String,
    /// From when to when.
    pub when: When,
    /// A line for the overview.
    pub summary: String,
    /// More about it; nothing when it is empty.
    pub description: String,
    /// Words to sort by.
    pub categories: Vec<String>,
}

/// From when to when.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// Whole days, the last one let in. A last before the first is taken as the first.
    Days {
        /// The first day.
        first: Date,
        /// The last day.
        last: Date,
    },
    /// Times of the day, to the second, in no time zone: eight in the morning wherever it is read. An end that is
    /// not after the start is left out: the entry is then a moment.
    Times {
        /// When it begins.
        starts: DateTime,
        /// When it is over.
        ends: DateTime,
    },
}

/// The calendar as a text: lines of 75 octets at most that end in CR LF. Signs that cannot stand in a text, such as
/// the bell, are left out.
///
/// ```
/// use hodful_exchange::icalendar::{Calendar, Entry, When, write};
/// use jiff::civil::date;
///
/// let text = write(&Calendar {
///     made_by: "-//Hodful//Hodful//EN".into(),
///     written: "2026-03-02T08:00:00Z".parse()?,
///     entries: vec![Entry {
///         uid: "north-wall-first-coat".into(),
///         when: When::Days { first: date(2026, 4, 12), last: date(2026, 4, 13) },
///         summary: "First coat, north wall".into(),
///         description: String::new(),
///         categories: vec![],
///     }],
/// });
/// assert!(text.contains("SUMMARY:First coat\\, north wall\r\n"));
/// assert!(text.contains("DTEND;VALUE=DATE:20260414\r\n"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn write(calendar: &Calendar) -> String {
    let stamp = Offset::UTC.to_datetime(calendar.written);
    let mut text = String::new();
    let mut line = |name: &str, value: &str| fold(&mut text, name, value);
    line("BEGIN", "VCALENDAR");
    line("VERSION", "2.0");
    line("PRODID", &escape(&calendar.made_by));
    for entry in &calendar.entries {
        line("BEGIN", "VEVENT");
        line("UID", &escape(&entry.uid));
        line("DTSTAMP", &format!("{}Z", time(stamp)));
        match entry.when {
            When::Days { first, last } => {
                line("DTSTART;VALUE=DATE", &day(first));
                // The end is the first day that is free again (section 3.6.1).
                if let Ok(free) = last.max(first).tomorrow() {
                    line("DTEND;VALUE=DATE", &day(free));
                }
            }
            When::Times { starts, ends } => {
                line("DTSTART", &time(starts));
                if time(ends) > time(starts) {
                    line("DTEND", &time(ends));
                }
            }
        }
        line("SUMMARY", &escape(&entry.summary));
        if !entry.description.is_empty() {
            line("DESCRIPTION", &escape(&entry.description));
        }
        if !entry.categories.is_empty() {
            let words: Vec<String> = entry.categories.iter().map(|word| escape(word)).collect();
            line("CATEGORIES", &words.join(","));
        }
        line("END", "VEVENT");
    }
    line("END", "VCALENDAR");
    text
}

/// `20260412`; a year before 0 cannot be written and is 0.
fn day(day: Date) -> String {
    format!("{:04}{:02}{:02}", day.year().max(0), day.month(), day.day())
}

/// `20260412T080000`.
fn time(time: DateTime) -> String {
    format!(
        "{}T{:02}{:02}{:02}",
        day(time.date()),
        time.hour(),
        time.minute(),
        time.second()
    )
}

/// A text with its commas, semicolons, backslashes and line ends escaped (section 3.3.11), without the control
/// signs that no text may hold.
fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        match sign {
            '\\' | ',' | ';' => {
                escaped.push('\\');
                escaped.push(sign);
            }
            '\r' if signs.peek() == Some(&'\n') => {}
            '\r' | '\n' => escaped.push_str("\\n"),
            '\t' => escaped.push('\t'),
            _ if sign.is_control() => {}
            _ => escaped.push(sign),
        }
    }
    escaped
}

/// A line, folded where it would be too long: a line end and a blank, never inside a letter (section 3.1).
fn fold(text: &mut String, name: &str, value: &str) {
    let mut used = 0;
    for sign in name.chars().chain([':']).chain(value.chars()) {
        if used + sign.len_utf8() > LINE {
            text.push_str("\r\n ");
            used = 1;
        }
        text.push(sign);
        used += sign.len_utf8();
    }
    text.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    fn calendar(summary: &str, when: When) -> String {
        write(&Calendar {
            made_by: "-//Hodful//Hodful//EN".into(),
            written: "2026-03-02T08:00:00.75+01:00".parse().unwrap(),
            entries: vec![Entry {
                uid: "one".into(),
                when,
                summary: summary.into(),
                description: String::new(),
                categories: vec!["first, coat".into(), "clay".into()],
            }],
        })
    }

    const DAY: When = When::Days {
        first: date(2028, 2, 29),
        last: date(2028, 2, 29),
    };

    /// RFC 5545, section 3.3.11: the example of a text with line ends, comma and backslash rules.
    #[test]
    fn texts_are_escaped_as_the_standard_shows() {
        let text = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared.";
        let expected = r"Project XYZ Final Review\nConference Room - 3B\nCome Prepared.";
        assert_eq!(escape(text), expected);
        assert_eq!(
            escape("a,b;c\\d\"e:f\r\ng\u{7}\th"),
            "a\\,b\\;c\\\\d\"e:f\\ng\th"
        );
    }

    #[test]
    fn days_end_before_the_next_and_times_are_floating() {
        let text = calendar("x", DAY);
        assert!(text.contains("\r\nDTSTART;VALUE=DATE:20280229\r\nDTEND;VALUE=DATE:20280301\r\n"));
        assert!(text.contains("\r\nDTSTAMP:20260302T070000Z\r\n"));
        assert!(text.contains("\r\nCATEGORIES:first\\, coat,clay\r\n"));
        let starts = date(2026, 4, 12).at(8, 0, 0, 0);
        let text = calendar(
            "x",
            When::Times {
                starts,
                ends: starts,
            },
        );
        assert!(text.contains("\r\nDTSTART:20260412T080000\r\nSUMMARY"));
    }

    proptest::proptest! {
        /// Unfolded by the words of section 3.1 the lines are what went in, and none was too long.
        #[test]
        fn lines_are_short_and_unfold(summary in "\\PC{0,300}") {
            let text = calendar(&summary, DAY);
            proptest::prop_assert!(text.ends_with("\r\n"));
            for line in text.split("\r\n") {
                proptest::prop_assert!(line.len() <= 75 && !line.contains(['\r', '\n']));
            }
            let unfolded = text.replace("\r\n ", "");
            let line = format!("\r\nSUMMARY:{}\r\n", escape(&summary));
            proptest::prop_assert!(unfolded.contains(&line));
        }
    }
}
