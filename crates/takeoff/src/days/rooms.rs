//! Rooms that inside coats dry into: how damp they become day by day, what must be opened, where it drips. Not here:
//! the balance of a room (see `hodful_air::room`), and where a room is typed (see `check::work::rooms`).
//!
//! Coats and room act on each other: damp air slows the coats down, and the plan goes by when they are dry. So plan
//! and rooms are worked out in turns until they agree.

use super::climate::{Climate, RoomAir};
use super::tasks::Found;
use crate::check::work::rooms::CheckedRoom;
use crate::project::Name;
use hodful_air::drying::{Coat, SLOW_MM_DAY};
use hodful_air::outside::level_film_kg_m2_h;
use hodful_air::room::{
    CEILING_M2K_W, DriedCoats, OPENINGS, Opening, Room, RoomCoat, RoomHour, cold_face, dry_coats,
    heat_kwh,
};
use hodful_air::wall::outside_w_m2k;
use hodful_air::{Air, Hour};
use jiff::civil::{Date, DateTime};
use std::collections::VecDeque;
use std::iter::zip;
use std::ops::Range;

/// Hours that a room is looked at beyond the last coat: until it is dry, 150 days at most. Ours.
const AFTER: usize = 150 * 24;

/// Most changes of air in an hour that are looked for: what opposite windows, wide open, give at most (60 by an
/// Austrian course, see `OPENINGS`).
const MOST_CHANGES: f64 = 60.0;

/// Steps in which the changes of air are halved: to a thousandth.
const HALVINGS: usize = 16;

/// A room while its coats dry.
#[derive(Debug, Clone, PartialEq)]
pub struct DampRoom {
    /// Its position among the rooms of the work.
    pub at: usize,
    /// Its name.
    pub name: Name,
    /// Volume, m³.
    pub volume_m3: f64,
    /// How often in an hour its air is changed.
    pub changes_per_h: f64,
    /// Relative humidity to stay below, 0 to 1.
    pub stay_below: f64,
    /// Water that its coats give off in all, kg.
    pub water_kg: f64,
    /// Heat that this takes, kWh.
    pub heat_kwh: f64,
    /// Its days, from the first coat until the last is dry.
    pub days: Vec<DampDay>,
    /// The fewest changes of air in an hour that keep it below, in all hours in which outside air is well drier.
    pub needed: Needed,
    /// Whether a heater without a flue burns in it.
    pub has_heater: bool,
    /// Whether its coldest part was given, so that dripping is told.
    pub has_ceiling: bool,
    /// Hours in which its air is full of vapour and holds no more: what coats give off then runs down its walls.
    pub full_h: u32,
    /// Water that its air could not hold, kg, from the first coat until the last is dry.
    pub dripped_kg: f64,
}

/// One day of a room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DampDay {
    /// The day.
    pub date: Date,
    /// Its mean warmth, °C.
    pub celsius: f64,
    /// Its mean relative humidity, 0 to 1.
    pub humidity: f64,
    /// The highest.
    pub highest: f64,
    /// Water that coats gave off, kg.
    pub water_kg: f64,
    /// Hours above what it should stay below.
    pub too_damp_h: u32,
    /// Hours of these in which no airing brings it below, as the air outside has too much vapour for that.
    pub no_help_h: u32,
    /// Hours in which it drips from the coldest part.
    pub drips_h: u32,
    /// Hours in which its air is full of vapour, whatever its coldest part is.
    pub full_h: u32,
    /// Water that its air could not hold, kg.
    pub dripped_kg: f64,
}

/// How much air keeps a room below its humidity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Needed {
    /// So many changes in an hour.
    Changes(f64),
    /// More than any opening gives, or the air outside is never dry enough.
    MoreThanOpenings,
    /// It stays below without any.
    None,
}

impl DampRoom {
    /// The highest humidity, 0 to 1.
    pub fn highest(&self) -> Option<f64> {
        self.days.iter().map(|day| day.highest).reduce(f64::max)
    }
}

impl Needed {
    /// The closest opening that surely gives it by the tables, else one that may.
    pub fn opening(&self) -> Option<&'static Opening> {
        let Self::Changes(needed) = *self else {
            return None;
        };
        let surely = OPENINGS.iter().find(|of| of.changes_per_h.0 >= needed);
        surely.or_else(|| OPENINGS.iter().find(|of| of.changes_per_h.1 >= needed))
    }
}

fn real(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}

/// What every hour of a room brings from outside, from the first hour on.
fn hours(room: &CheckedRoom, climate: &Climate, changes: f64, count: usize) -> Vec<RoomHour> {
    let mut made = Vec::new();
    let Ok(aired) = Room::new(room.volume_m3, changes) else {
        return made;
    };
    // Without heating the room is as warm as the last day was outside.
    let mut day = VecDeque::new();
    for hour in climate.hours.iter().take(count) {
        day.push_back(hour.dry_bulb);
        if day.len() > 24 {
            day.pop_front();
        }
        let mean = day.iter().sum::<f64>() / real(day.len());
        let Ok(outside) = hour.air() else { break };
        made.push(RoomHour {
            outside,
            celsius: room.celsius.unwrap_or(mean),
            room: aired,
            given_kg_h: room.given_kg_h,
        });
    }
    made
}

/// A coat that is wet on some square metres from a time on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wet<'a> {
    pub(super) of: &'a Found,
    pub(super) m2: f64,
    pub(super) from: DateTime,
}

/// The coats of a room. What was put on before the weather begins has lost by then what the slow rule of thumb says.
fn coats(at: usize, wet: &[Wet<'_>], climate: &Climate) -> Vec<RoomCoat> {
    let own = wet.iter().filter(|wet| wet.of.room == Some(at));
    own.filter_map(|Wet { of, m2, from }| {
        let task = &of.task;
        let lost = climate.hours_before(*from) / 24.0 * SLOW_MM_DAY / task.thickness_mm;
        let water = task.water_kg_m2 * (1.0 - lost).max(0.0);
        Some(RoomCoat {
            coat: Coat::of_mix(water, task.dry_kg_m2).ok()?,
            area_m2: *m2,
            from: climate.index(*from).unwrap_or(0),
            record: of.record.model,
        })
    })
    .collect()
}

/// A room with its coats, at so many changes of air.
fn dried(room: &CheckedRoom, coats: &[RoomCoat], hours: &[RoomHour]) -> Option<DriedCoats> {
    let first = hours.first()?;
    let begin = first.outside.at(first.celsius).ok()?;
    dry_coats(coats, room.h_w_m2k, &begin, hours.iter().copied()).ok()
}

/// The air of each room with these coats, and what wet faces give off in it, hour by hour.
pub(super) fn airs(rooms: &[CheckedRoom], wet: &[Wet<'_>], climate: &Climate) -> Vec<RoomAir> {
    let each = rooms.iter().enumerate().map(|(at, room)| {
        let coats = coats(at, wet, climate);
        let last = coats.iter().map(|coat| coat.from).max().unwrap_or(0);
        let hours = hours(
            room,
            climate,
            room.changes_per_h,
            last.saturating_add(AFTER),
        );
        let dried = dried(room, &coats, &hours);
        let aired = dried.map(|dried| air(room, &hours, dried, climate));
        aired.unwrap_or_default()
    });
    each.collect()
}

/// The air of a room as its coats make it.
fn air(room: &CheckedRoom, hours: &[RoomHour], dried: DriedCoats, climate: &Climate) -> RoomAir {
    // What moves the air at the walls, by the formula for wind; still air comes to none.
    let wind =
        ((room.h_w_m2k - outside_w_m2k(0.0)) / (outside_w_m2k(1.0) - outside_w_m2k(0.0))).max(0.0);
    let each = zip(
        zip(hours, &dried.humidity),
        zip(&dried.wet_kg_m2_h, &climate.hours),
    );
    let (quick, hours) = each
        .map(|((hour, humidity), (wet, weather))| {
            let air = Air::new(hour.celsius, *humidity, weather.pressure);
            let film = air.map_or(0.0, |air| level_film_kg_m2_h(&air, wind));
            (wet.max(film), as_weather(room, *humidity, weather))
        })
        .unzip();
    RoomAir {
        wet: dried.wet_kg_m2_h,
        quick,
        hours,
    }
}

/// An hour of a room as one of weather, for frost: as warm as it is kept, else as cold and as dry as outside, and under
/// a roof, so that it loses no heat to a clear sky.
fn as_weather(room: &CheckedRoom, humidity: f64, weather: &Hour) -> Hour {
    let (dry_bulb, humidity) = match room.celsius {
        Some(celsius) => (celsius, humidity),
        None => (weather.dry_bulb, weather.humidity),
    };
    Hour {
        dry_bulb,
        humidity,
        cloud: Some(1.0),
        ..*weather
    }
}

/// Every room with one of these coats, and weather to tell it by.
pub(super) fn all(rooms: &[CheckedRoom], wet: &[Wet<'_>], climate: &Climate) -> Vec<DampRoom> {
    let each = rooms.iter().enumerate().filter_map(|(at, room)| {
        let coats = coats(at, wet, climate);
        let first = coats.iter().map(|coat| coat.from).min()?;
        let last = coats.iter().map(|coat| coat.from).max()?;
        let hours = hours(
            room,
            climate,
            room.changes_per_h,
            last.saturating_add(AFTER),
        );
        let of = dried(room, &coats, &hours)?;
        let each = of.dry_after_h.iter();
        let last = each
            .map(|dry| dry.unwrap_or(f64::INFINITY))
            .reduce(f64::max)?;
        let until = zip(0_u32.., &hours).take_while(|(hour, _)| f64::from(*hour) <= last);
        let until = until.count();
        let water = coats
            .iter()
            .map(|coat| coat.area_m2 * (coat.coat.free_kg_m2() - coat.coat.left_kg_m2()));
        let water_kg = water.sum();
        let days = days(room, &of, &hours, &climate.hours, first..until);
        Some(DampRoom {
            at: room.at,
            name: room.name.clone(),
            volume_m3: room.volume_m3,
            changes_per_h: room.changes_per_h,
            stay_below: room.limit,
            water_kg,
            heat_kwh: heat_kwh(water_kg),
            full_h: days.iter().map(|day| day.full_h).sum(),
            dripped_kg: days.iter().map(|day| day.dripped_kg).sum(),
            days,
            needed: needed(room, &coats, climate, first..until),
            has_heater: room.has_heater,
            has_ceiling: room.ceiling_u.is_some(),
        })
    });
    each.collect()
}

/// The hours of a room, day by day.
fn days(
    room: &CheckedRoom,
    of: &DriedCoats,
    hours: &[RoomHour],
    weather: &[Hour],
    shown: Range<usize>,
) -> Vec<DampDay> {
    let mut days: Vec<(DampDay, u32)> = Vec::new();
    for at in shown {
        let (Some(hour), Some(weather)) = (hours.get(at), weather.get(at)) else {
            break;
        };
        let given = (of.given_kg.get(at), of.dripped_kg.get(at));
        let (Some(humidity), (Some(water), Some(dripped))) = (of.humidity.get(at), given) else {
            break;
        };
        let date = weather.begins.date();
        if days.last().is_none_or(|(day, _)| day.date != date) {
            let day = DampDay {
                date,
                celsius: 0.0,
                humidity: 0.0,
                highest: 0.0,
                water_kg: 0.0,
                too_damp_h: 0,
                no_help_h: 0,
                drips_h: 0,
                full_h: 0,
                dripped_kg: 0.0,
            };
            days.push((day, 0));
        }
        let Some((day, count)) = days.last_mut() else {
            continue;
        };
        *count += 1;
        day.celsius += hour.celsius;
        day.humidity += humidity;
        day.highest = day.highest.max(*humidity);
        day.water_kg += water;
        day.too_damp_h += u32::from(*humidity > room.limit);
        let is_too_damp = *humidity > room.limit;
        day.no_help_h += u32::from(is_too_damp && !is_drier(hour, room.limit));
        day.drips_h += u32::from(drips(room, hour, *humidity));
        day.full_h += u32::from(*humidity >= 1.0);
        day.dripped_kg += dripped;
    }
    let each = days.into_iter().map(|(mut day, count)| {
        day.celsius /= f64::from(count);
        day.humidity /= f64::from(count);
        day
    });
    each.collect()
}

/// By how much outside air, warmed, must be drier than the room should be, to count on it: ours. Where it is all but as
/// damp no airing brings the room below.
const DRIER: f64 = 0.1;

/// Whether outside air, warmed, is drier than so much.
fn is_drier(hour: &RoomHour, humidity: f64) -> bool {
    let warmed = hour.outside.at(hour.celsius);
    warmed.is_ok_and(|air| air.humidity() < humidity)
}

/// Whether it drips from the coldest part.
fn drips(room: &CheckedRoom, hour: &RoomHour, humidity: f64) -> bool {
    let Some(u) = room.ceiling_u else {
        return false;
    };
    let cold = cold_face(hour.celsius, hour.outside.dry_bulb(), u, CEILING_M2K_W);
    let air = Air::new(hour.celsius, humidity, hour.outside.pressure_pa());
    cold.is_ok_and(|cold| air.is_ok_and(|air| cold.drips(&air)))
}

/// About the fewest changes of air that keep a room below, while its coats dry, in all hours in which outside air is
/// well drier. Its warmth is taken as kept, whatever air is let in.
fn needed(
    room: &CheckedRoom,
    coats: &[RoomCoat],
    climate: &Climate,
    shown: Range<usize>,
) -> Needed {
    let dries = |hour: &RoomHour| is_drier(hour, room.limit - DRIER);
    let stays = |changes: f64| {
        let hours = hours(room, climate, changes, shown.end);
        let Some(of) = dried(room, coats, &hours) else {
            return false;
        };
        let mut each = zip(&hours, &of.humidity).skip(shown.start);
        each.all(|(hour, humidity)| *humidity <= room.limit || !dries(hour))
    };
    let mut all = hours(room, climate, 0.0, shown.end)
        .into_iter()
        .skip(shown.start);
    if !all.any(|hour| dries(&hour)) {
        return Needed::MoreThanOpenings;
    }
    if stays(0.0) {
        return Needed::None;
    }
    if !stays(MOST_CHANGES) {
        return Needed::MoreThanOpenings;
    }
    let (mut few, mut many) = (0.0, MOST_CHANGES);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(few, many);
        if stays(middle) {
            many = middle;
        } else {
            few = middle;
        }
    }
    Needed::Changes(many)
}
