//! Rooms, what is on the walls, what records teach and what is prepared, as figures. Not here: days and coats.

use super::{NightRow, RainRow, by_rule, dry, nights, rain, time};
use hodful_takeoff::days::{Days, Needed};
use serde::Serialize;

/// A coat that is on the wall already.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct OnWallRow {
    pub wall: String,
    pub face: &'static str,
    pub coat: String,
    pub placed: Option<String>,
    pub found_dry: Option<String>,
    pub dry_fast: Option<String>,
    pub dry_likely: Option<String>,
    pub dry_slow: Option<String>,
    pub by_rule: Option<&'static str>,
    pub nights: Vec<NightRow>,
    pub rain: Vec<RainRow>,
    pub cautions: Vec<&'static str>,
}

/// What records of drying say of one side of the walls.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct LearnedRow {
    pub face: &'static str,
    pub records: usize,
    pub factor: f64,
    pub weight: f64,
    pub rule_factor: f64,
    pub rule_weight: f64,
}

/// A room while its coats dry.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct RoomRow {
    pub room: String,
    pub volume_m3: f64,
    pub air_changes_per_h: f64,
    pub stay_below: f64,
    pub water_kg: f64,
    pub heat_kwh: f64,
    pub needed_air_changes_per_h: Option<f64>,
    pub no_opening_suffices: bool,
    pub full_h: u32,
    pub dripped_kg: f64,
    pub days: Vec<RoomDayRow>,
}

/// One day of a room.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct RoomDayRow {
    pub date: String,
    pub mean_c: f64,
    pub mean_humidity: f64,
    pub highest_humidity: f64,
    pub water_kg: f64,
    pub too_damp_h: u32,
    pub no_help_h: u32,
    pub drips_h: Option<u32>,
}

/// Something that is prepared.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct PreparedRow {
    pub what: String,
    pub begin: Option<String>,
    pub end: Option<String>,
    pub cautions: Vec<&'static str>,
}

pub(super) fn on_wall(of: &Days) -> Vec<OnWallRow> {
    let each = of.on_wall.iter().map(|of| {
        let task = &of.task;
        OnWallRow {
            wall: task.wall.to_string(),
            face: task.side.word(),
            coat: task.coat.to_string(),
            placed: of.placed.map(|day| day.to_string()),
            found_dry: of.dry.map(|day| day.to_string()),
            dry_fast: dry(task, |drying| drying.fast),
            dry_likely: dry(task, |drying| drying.likely),
            dry_slow: dry(task, |drying| drying.slow),
            by_rule: by_rule(task),
            nights: nights(task),
            rain: rain(task),
            cautions: task.cautions.clone(),
        }
    });
    each.collect()
}

pub(super) fn learned(of: &Days) -> Vec<LearnedRow> {
    let each = of.learned.iter().map(|of| LearnedRow {
        face: of.side.word(),
        records: of.seen.len(),
        factor: of.factor,
        weight: of.weight,
        rule_factor: of.rule_factor,
        rule_weight: of.rule_weight,
    });
    each.collect()
}

pub(super) fn rooms(of: &Days) -> Vec<RoomRow> {
    let each = of.rooms.iter().map(|room| RoomRow {
        room: room.name.to_string(),
        volume_m3: room.volume_m3,
        air_changes_per_h: room.changes_per_h,
        stay_below: room.stay_below,
        water_kg: room.water_kg,
        heat_kwh: room.heat_kwh,
        needed_air_changes_per_h: match room.needed {
            Needed::Changes(changes) => Some(changes),
            Needed::None => Some(0.0),
            Needed::MoreThanOpenings => None,
        },
        no_opening_suffices: room.needed == Needed::MoreThanOpenings,
        full_h: room.full_h,
        dripped_kg: room.dripped_kg,
        days: room
            .days
            .iter()
            .map(|day| RoomDayRow {
                date: day.date.to_string(),
                mean_c: day.celsius,
                mean_humidity: day.humidity,
                highest_humidity: day.highest,
                water_kg: day.water_kg,
                too_damp_h: day.too_damp_h,
                no_help_h: day.no_help_h,
                drips_h: room.has_ceiling.then_some(day.drips_h),
            })
            .collect(),
    });
    each.collect()
}

pub(super) fn prepared(of: &Days) -> Vec<PreparedRow> {
    let all = of.plan.tasks.iter().enumerate().skip(of.tasks.len());
    let each = all.map(|(at, planned)| PreparedRow {
        what: of.name(at).to_string(),
        begin: planned.as_ref().map(|planned| time(planned.begin)),
        end: planned.as_ref().map(|planned| time(planned.end)),
        cautions: of.cautions_of_prepared(at),
    });
    each.collect()
}
