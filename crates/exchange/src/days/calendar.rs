//! The days as a calendar. Not here: the format (see `icalendar`), and the days as figures.

use crate::icalendar::{self, Calendar, Entry, When};
use hodful_quantities::print;
use hodful_quantities::units::{Area, Volume, liter, square_meter};
use hodful_takeoff::Project;
use hodful_takeoff::days::{DayTask, Days, Drying, WeekendAhead};
use hodful_takeoff::project::Side;
use jiff::Timestamp;
use jiff::civil::Date;
use std::iter::zip;
use xxhash_rust::xxh3::xxh3_128;

/// The days as a calendar: each day's part of a task and of what is prepared with its hours, each coat until it is
/// likely dry and until it is to be reckoned dry, each night that speaks for frost, and each day of rain on a wet coat.
///
/// Its entries are other ones than those of [`weekend_calendar`].
pub fn days_calendar(project: &Project, of: &Days, written: Timestamp) -> String {
    let known = Known {
        project: &project.name,
        kind: "all days",
    };
    calendar(entries(project, &known, of), written)
}

/// The same of a few days with helpers, with what must be ready before them on the days by which it must be.
pub fn weekend_calendar(project: &Project, of: &WeekendAhead, written: Timestamp) -> String {
    let known = Known {
        project: &project.name,
        kind: "helpers",
    };
    let mut entries = entries(project, &known, &of.days);
    entries.extend(of.before.iter().enumerate().map(|(at, ahead)| {
        let day = ahead.by.date();
        Entry {
            uid: known.uid(["ahead", &at.to_string(), &ahead.what, ""]),
            when: When::Days {
                first: day,
                last: day,
            },
            summary: ahead.what.to_string(),
            description: format!(
                "{:.1} hours of people, done by {}.",
                ahead.hours,
                ahead.by()
            ),
            categories: vec!["preparing".to_owned()],
        }
    }));
    calendar(entries, written)
}

fn calendar(entries: Vec<Entry>, written: Timestamp) -> String {
    icalendar::write(&Calendar {
        made_by: concat!("-//Hodful//Hodful ", env!("CARGO_PKG_VERSION"), "//EN").into(),
        written,
        entries,
    })
}

fn entries(project: &Project, known: &Known<'_>, of: &Days) -> Vec<Entry> {
    // An entry stands alone in a calendar: each says what it rests on.
    let rests_on = if of.is_typical {
        " In a typical year, which is no forecast: look at that of the day."
    } else {
        ""
    };
    let mut entries = Vec::new();
    for (number, (task, planned)) in zip(&of.tasks, &of.plan.tasks).enumerate() {
        let Some(planned) = planned else { continue };
        for (part, stretch) in (1_usize..).zip(of.stretches(number)) {
            let fast: Vec<String> = task
                .hasty
                .iter()
                .filter(|hasty| hasty.from.date() == stretch.begin.date())
                .map(|hasty| format!(" Dries too fast {}.", hasty.said(project.units)))
                .collect();
            entries.push(Entry {
                uid: known.coat(task, &part.to_string()),
                when: When::Times {
                    starts: stretch.begin,
                    ends: stretch.end,
                },
                summary: task.said().to_string(),
                description: format!(
                    "{}, {} of mix. {}.{}",
                    print::area(Area::new::<square_meter>(stretch.m2), project.units),
                    print::volume(Volume::new::<liter>(stretch.litres), project.units),
                    planned.limit.words(),
                    fast.concat()
                ),
                categories: vec!["plaster".to_owned()],
            });
        }
        let placed = planned.end.date();
        entries.extend(
            task.drying
                .and_then(|dry| dries(known, task, &dry, placed, rests_on)),
        );
    }
    entries.extend(prepared(known, of));
    for on_wall in &of.on_wall {
        let (task, placed) = (&on_wall.task, on_wall.placed);
        let dry = task.drying.zip(placed);
        entries.extend(dry.and_then(|(dry, placed)| dries(known, task, &dry, placed, rests_on)));
    }
    entries.extend(of.nights().into_iter().map(|night| {
        let evening = night.worst.night.evening;
        Entry {
            uid: known.uid(["night", &evening.to_string(), "", ""]),
            when: When::Days {
                first: evening,
                last: evening,
            },
            summary: format!("Frost: {}", night.worst.verdict()),
            description: format!(
                "{}. Wet then: {}.{rests_on}",
                night.worst.said(project.units),
                night.wet().join("; ")
            ),
            categories: vec!["frost".to_owned()],
        }
    }));
    entries.extend(of.rain().into_iter().map(|rain| {
        let date = rain.most.date;
        Entry {
            uid: known.uid(["rain", &date.to_string(), "", ""]),
            when: When::Days {
                first: date,
                last: date,
            },
            summary: "Rain on wet plaster".to_owned(),
            description: format!(
                "{}. Wet then: {}.{rests_on}",
                rain.said(project.units),
                rain.wet().join("; ")
            ),
            categories: vec!["rain".to_owned()],
        }
    }));
    entries
}

/// A coat from the day after it is put on until it is to be reckoned dry.
fn dries(
    known: &Known<'_>,
    task: &DayTask,
    drying: &Drying,
    placed: Date,
    rests_on: &str,
) -> Option<Entry> {
    let slow = drying.slow?.at.date();
    let likely = drying.likely.map_or_else(String::new, |until| {
        format!("Likely dry {}, ", until.at.date())
    });
    // Rules of thumb, and air of which nothing is said, rest on no weather.
    let in_weather = task.side == Side::Outside || task.room.is_some();
    let rests_on = if in_weather && drying.by_rule.is_none() {
        rests_on
    } else {
        ""
    };
    Some(Entry {
        uid: known.coat(task, "dries"),
        when: When::Days {
            first: next(placed).min(slow),
            last: slow,
        },
        summary: format!("{} dries", task.said()),
        description: format!("{likely}to reckon with {slow}.{rests_on}"),
        categories: vec!["drying".to_owned()],
    })
}

/// What is prepared, each day's part.
fn prepared<'a>(known: &'a Known<'_>, of: &'a Days) -> impl Iterator<Item = Entry> + 'a {
    let all = of.tasks.len()..of.plan.tasks.len();
    all.flat_map(move |at| {
        let (name, place) = (of.name(at), (at - of.tasks.len()).to_string());
        (1_usize..)
            .zip(of.stretches(at))
            .map(move |(part, stretch)| Entry {
                uid: known.uid(["prepare", &place, &name, &part.to_string()]),
                when: When::Times {
                    starts: stretch.begin,
                    ends: stretch.end,
                },
                summary: name.to_string(),
                description: format!("To prepare; {} at it.", people(stretch.hands)),
                categories: vec!["preparing".to_owned()],
            })
    })
}

fn people(hands: usize) -> String {
    match hands {
        1 => "1 person".to_owned(),
        hands => format!("{hands} people"),
    }
}

/// What entries are known by.
struct Known<'a> {
    project: &'a str,
    kind: &'a str,
}

impl Known<'_> {
    /// Of a coat: by its wall, face, coat and part, wherever the wall stands among others and whatever the day, so that
    /// a later calendar moves the entry.
    fn coat(&self, task: &DayTask, part: &str) -> String {
        self.uid([&task.wall, task.side.word(), &task.coat, part])
    }

    /// An id of some texts that tells none of them: a UUID of version 8 (RFC 9562, section 5.8, as RFC 7986, section
    /// 5.3, asks for) from their XXH3 hash, each with its length before it.
    fn uid(&self, texts: [&str; 4]) -> String {
        let all = [self.project, self.kind].into_iter().chain(texts);
        let key: Vec<String> = all.map(|text| format!("{}:{text}", text.len())).collect();
        let hash = xxh3_128(key.concat().as_bytes());
        let version = hash & !(0xf << 76) | (8 << 76);
        let uuid = version & !(0b11 << 62) | (0b10 << 62);
        let digits = format!("{uuid:032x}");
        let groups = [0..8, 8..12, 12..16, 16..20, 20..32];
        let groups = groups.map(|at| digits.get(at).unwrap_or_default());
        groups.join("-")
    }
}

fn next(date: Date) -> Date {
    date.tomorrow().unwrap_or(date)
}
