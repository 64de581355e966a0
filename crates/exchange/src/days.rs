//! The days on site as figures and as a calendar. Not here: planning them, and their words.

mod on_site;
mod weekend;

pub use weekend::{WeekendReport, weekend};

use crate::icalendar::{self, Calendar, Entry, When};
use crate::write::plain_text;
use hodful_takeoff::Project;
use hodful_takeoff::days::{DayTask, Days, Drying, Until};
use jiff::Timestamp;
use jiff::civil::{Date, DateTime};
use serde::Serialize;
use std::iter::zip;
use xxhash_rust::xxh3::xxh3_128;

/// The days, in the International System; times are local standard time.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct DaysReport {
    pub format: &'static str,
    pub version: u32,
    pub project: String,
    pub begins: String,
    pub ends: Option<String>,
    pub no_plan_ends_before: Option<String>,
    pub weather: Option<String>,
    pub people: usize,
    pub days: Vec<DayRow>,
    pub tasks: Vec<DayTaskRow>,
    pub on_wall: Vec<on_site::OnWallRow>,
    pub learned: Vec<on_site::LearnedRow>,
    pub rooms: Vec<on_site::RoomRow>,
    pub prepared: Vec<on_site::PreparedRow>,
    pub held_by: Vec<String>,
    pub left_out: Vec<String>,
    pub notices: Vec<String>,
    pub notes: Vec<String>,
}

/// One day.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct DayRow {
    pub date: String,
    pub tasks: Vec<usize>,
    pub mixed_m3: f64,
    pub batches: u64,
    pub worked_h: f64,
    pub idle_h: f64,
}

/// One coat on one face.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct DayTaskRow {
    #[serde(flatten)]
    pub line: DayTaskLine,
    pub thickness_m: f64,
    pub water_kg_m2: f64,
    pub person_hours: Option<f64>,
    pub beyond_weather: bool,
    pub room: Option<String>,
    pub workable_min: Option<f64>,
    pub wet_edge_m2: Option<f64>,
    pub nights: Vec<NightRow>,
    pub hasty: Vec<HastyRow>,
    pub cautions: Vec<&'static str>,
}

/// The same as a line of the CSV.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct DayTaskLine {
    pub wall: String,
    pub face: &'static str,
    pub build_up: String,
    pub coat: String,
    pub begin: Option<String>,
    pub end: Option<String>,
    pub surface_m2: f64,
    pub mixed_m3: f64,
    pub batches: Option<u64>,
    pub held_up_by: Option<&'static str>,
    pub dry_fast: Option<String>,
    pub dry_likely: Option<String>,
    pub dry_slow: Option<String>,
    pub nights_at_risk: usize,
}

/// One night that speaks for frost.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct NightRow {
    pub evening: String,
    pub verdict: &'static str,
    pub likely_wet: bool,
    pub lowest_air_c: f64,
    pub lowest_wet_bulb_c: f64,
}

/// Hours in which a face gives off much.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct HastyRow {
    pub from: String,
    pub to: String,
    pub most_kg_m2_h: f64,
}

impl DaysReport {
    /// The lines of the CSV.
    pub fn lines(&self) -> impl Iterator<Item = DayTaskLine> {
        self.tasks
            .iter()
            .map(|DayTaskRow { line, .. }| DayTaskLine {
                wall: plain_text(&line.wall),
                build_up: plain_text(&line.build_up),
                coat: plain_text(&line.coat),
                ..line.clone()
            })
    }
}

/// The days as figures.
pub fn days(project: &Project, of: &Days) -> DaysReport {
    DaysReport {
        format: "hodful-days",
        version: 1,
        project: project.name.to_string(),
        begins: of.site.begins.to_string(),
        ends: of.plan.end().map(time),
        no_plan_ends_before: of.plan.bounds.map(|bounds| time(bounds.end())),
        weather: of.weather.as_ref().map(ToString::to_string),
        people: of.site.crew.people(),
        days: of
            .plan
            .days
            .iter()
            .map(|day| DayRow {
                date: day.date.to_string(),
                tasks: day.tasks.clone(),
                mixed_m3: day.mixes.iter().map(|mix| mix.litres).sum::<f64>() / 1000.0,
                batches: day.mixes.iter().map(|mix| mix.batches).sum(),
                worked_h: day.worked,
                idle_h: day.idle,
            })
            .collect(),
        tasks: rows(of),
        on_wall: on_site::on_wall(of),
        learned: on_site::learned(of),
        rooms: on_site::rooms(of),
        prepared: on_site::prepared(of),
        held_by: texts(&of.held()),
        left_out: texts(&of.left_out()),
        notices: texts(&of.notices()),
        notes: texts(&of.notes),
    }
}

fn texts(of: &[impl ToString]) -> Vec<String> {
    of.iter().map(ToString::to_string).collect()
}

fn rows(of: &Days) -> Vec<DayTaskRow> {
    let has_mixer = of.site.mixing.is_some();
    let each = zip(&of.tasks, &of.plan.tasks).map(|(task, planned)| {
        let planned = planned.as_ref();
        let dry = |pick: fn(&Drying) -> Option<Until>| {
            let until = task.drying.as_ref().and_then(pick);
            until.map(|until| time(until.at))
        };
        DayTaskRow {
            line: DayTaskLine {
                wall: task.wall.to_string(),
                face: task.side.word(),
                build_up: task.build_up.to_string(),
                coat: task.coat.to_string(),
                begin: planned.map(|planned| time(planned.begin)),
                end: planned.map(|planned| time(planned.end)),
                surface_m2: task.m2,
                mixed_m3: task.litres / 1000.0,
                batches: planned.filter(|_| has_mixer).map(|planned| planned.batches),
                held_up_by: planned.map(|planned| planned.limit.words()),
                dry_fast: dry(|drying| drying.fast),
                dry_likely: dry(|drying| drying.likely),
                dry_slow: dry(|drying| drying.slow),
                nights_at_risk: task.nights.len(),
            },
            thickness_m: task.thickness_mm / 1000.0,
            water_kg_m2: task.water_kg_m2,
            person_hours: planned.map(|planned| planned.hours),
            beyond_weather: task.drying.is_some_and(|drying| drying.beyond_weather),
            room: task.room.as_ref().map(ToString::to_string),
            workable_min: task.open.map(|open| open.minutes),
            wet_edge_m2: task.open.map(|open| open.m2),
            nights: nights(task),
            hasty: task
                .hasty
                .iter()
                .map(|hasty| HastyRow {
                    from: time(hasty.from),
                    to: time(hasty.to),
                    most_kg_m2_h: hasty.most_kg_m2_h,
                })
                .collect(),
            cautions: task.cautions.clone(),
        }
    });
    each.collect()
}

fn nights(task: &DayTask) -> Vec<NightRow> {
    let each = task.nights.iter().map(|night| NightRow {
        evening: night.night.evening.to_string(),
        verdict: night.verdict(),
        likely_wet: night.likely_wet,
        lowest_air_c: night.night.lowest_air,
        lowest_wet_bulb_c: night.night.lowest_wet_bulb,
    });
    each.collect()
}

/// The days as a calendar: each day's part of a task with its hours, and each coat until it is likely dry and
/// until it is to be reckoned dry.
pub fn days_calendar(project: &Project, of: &Days, written: Timestamp) -> String {
    let mut entries = Vec::new();
    for (number, (task, planned)) in zip(&of.tasks, &of.plan.tasks).enumerate() {
        let Some(planned) = planned else { continue };
        for (part, stretch) in (1_usize..).zip(of.stretches(number)) {
            entries.push(Entry {
                uid: uid(project, task, &part.to_string()),
                when: When::Times {
                    starts: stretch.begin,
                    ends: stretch.end,
                },
                summary: task.said().to_string(),
                description: format!(
                    "{:.1} m², {:.0} litres of mix. {}.",
                    stretch.m2,
                    stretch.litres,
                    planned.limit.words()
                ),
                categories: vec!["plaster".to_owned()],
            });
        }
        let ends = task
            .drying
            .as_ref()
            .map(|drying| (drying.likely, drying.slow));
        if let Some((likely, Some(slow))) = ends {
            let likely = likely.map_or_else(String::new, |until| {
                format!("Likely dry {}, ", until.at.date())
            });
            entries.push(Entry {
                uid: uid(project, task, "dries"),
                when: When::Days {
                    first: next(planned.end.date()),
                    last: slow.at.date(),
                },
                summary: format!("{} dries", task.said()),
                description: format!("{likely}to reckon with {}.", slow.at.date()),
                categories: vec!["drying".to_owned()],
            });
        }
    }
    icalendar::write(&Calendar {
        made_by: concat!("-//Hodful//Hodful ", env!("CARGO_PKG_VERSION"), "//EN").into(),
        written,
        entries,
    })
}

/// What an entry is known by: by its project, wall, face, coat and part, wherever the wall stands among others and
/// whatever the day, so that a later calendar moves the entry. It tells none of them: a UUID of version 8 (RFC 9562,
/// section 5.8, as RFC 7986, section 5.3, asks for) from their XXH3 hash, each with its length before it.
fn uid(project: &Project, task: &DayTask, part: &str) -> String {
    let texts = [
        &project.name,
        &task.wall,
        task.side.word(),
        &task.coat,
        part,
    ];
    let key: String = texts.map(|text| format!("{}:{text}", text.len())).concat();
    let hash = xxh3_128(key.as_bytes());
    let version = hash & !(0xf << 76) | (8 << 76);
    let uuid = version & !(0b11 << 62) | (0b10 << 62);
    let digits = format!("{uuid:032x}");
    let groups = [0..8, 8..12, 12..16, 16..20, 20..32].map(|at| digits.get(at).unwrap_or_default());
    groups.join("-")
}

fn next(date: Date) -> Date {
    date.tomorrow().unwrap_or(date)
}

/// To the minute: `2026-04-13T08:15`.
fn time(at: DateTime) -> String {
    format!("{}T{:02}:{:02}", at.date(), at.hour(), at.minute())
}
