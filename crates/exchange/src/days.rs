//! The days on site as figures and as a calendar. Not here: planning them, and their words.

mod calendar;
mod on_site;
mod weekend;

pub use calendar::{days_calendar, weekend_calendar};
pub use weekend::{WeekendReport, weekend};

use crate::write::plain_text;
use hodful_takeoff::Project;
use hodful_takeoff::days::{ByRule, DayTask, Days, Drying, Until};
use jiff::civil::DateTime;
use serde::Serialize;
use std::iter::zip;

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
    pub coats_without_a_place: usize,
    pub no_plan_ends_before: Option<String>,
    pub weather: Option<String>,
    pub weather_begins: Option<String>,
    pub weather_ends: Option<String>,
    pub is_typical_year: bool,
    pub weather_lacks: Vec<&'static str>,
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
    pub by_rule: Option<&'static str>,
    pub rain: Vec<RainRow>,
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
    pub nights_at_risk: Option<usize>,
}

/// One day on which it rains on a wet coat.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct RainRow {
    pub date: String,
    pub rain_mm: f64,
    pub hours: u32,
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
        ends: of.last_coat().map(time),
        coats_without_a_place: of.without_a_place(),
        no_plan_ends_before: of.plan.bounds.map(|bounds| time(bounds.end())),
        weather: of.weather.as_ref().map(ToString::to_string),
        weather_begins: of.weather_begins.map(time),
        weather_ends: of.weather_ends.map(time),
        is_typical_year: of.is_typical,
        weather_lacks: of.lacking.iter().map(|lacks| lacks.said()).collect(),
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
        notices: texts(&of.notices(project.units)),
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
                dry_fast: dry(task, |drying| drying.fast),
                dry_likely: dry(task, |drying| drying.likely),
                dry_slow: dry(task, |drying| drying.slow),
                nights_at_risk: is_known(of, planned.map(|planned| planned.begin))
                    .then_some(task.nights.len()),
            },
            thickness_m: task.thickness_mm / 1000.0,
            water_kg_m2: task.water_kg_m2,
            person_hours: planned.map(|planned| planned.hours),
            by_rule: by_rule(task),
            rain: rain(task),
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

/// Whether the weather of a coat that is put on then is known.
fn is_known(of: &Days, begin: Option<DateTime>) -> bool {
    let lies_in = |begin: DateTime| {
        of.weather_begins.is_none_or(|begins| begins <= begin)
            && of.weather_ends.is_none_or(|ends| begin <= ends)
    };
    of.weather.is_some() && begin.is_some_and(lies_in)
}

/// Why a rule of thumb stands in for the slow end.
fn by_rule(task: &DayTask) -> Option<&'static str> {
    task.drying?.by_rule.map(ByRule::said)
}

fn rain(task: &DayTask) -> Vec<RainRow> {
    let each = task.rain.iter().map(|rain| RainRow {
        date: rain.date.to_string(),
        rain_mm: rain.mm,
        hours: rain.hours,
    });
    each.collect()
}

/// One end of the drying of a coat.
fn dry(task: &DayTask, pick: fn(&Drying) -> Option<Until>) -> Option<String> {
    let until = task.drying.as_ref().and_then(pick);
    until.map(|until| time(until.at))
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

/// To the minute: `2026-04-13T08:15`.
fn time(at: DateTime) -> String {
    format!("{}T{:02}:{:02}", at.date(), at.hour(), at.minute())
}
