//! A room whose walls dry: how damp its air becomes, how much outside air carries the water off, whether it drips from
//! a cold ceiling. Not here: coats, weather, and how fast a wet face gives off water.
//!
//! The air of the room is taken as well mixed and its walls as taking up no vapour (fresh earth beside dry earth
//! makes the air drier for a while). Cold air that is let in grows by a few parts in a hundred as it is warmed.
//! [`dry_room`] counts that; the figures for a cubic metre of outside air leave it out, as published tables do, which is
//! on the safe side.

mod advice;
mod balance;
mod coat;
mod cold;

use crate::fault::{AirFault, positive};
use crate::moist::Air;

pub use advice::{FUELS, Fuel, OPENINGS, Opening, RESTING_CHANGES_H};
pub use balance::{Room, Spell, WetWalls, steady_kg_m3};
pub use coat::{DriedCoats, DriedRoom, RoomCoat, RoomHour, dry_coats, dry_room};
pub use cold::{CEILING_M2K_W, CORNER_M2K_W, Cold, MOULD_HUMIDITY, WALL_M2K_W, cold_face};

/// Heat to evaporate a kilogram of water, kWh: 2.45 MJ (FAO Irrigation and Drainage Paper 56, from memory).
pub const HEAT_KWH_KG: f64 = 0.68;

/// Relative humidity to stay below in a room that dries, 0 to 1. Source: BS 5250:2002, 10.1, ventilation that keeps
/// 40 to 70 %.
pub const LIMIT_HUMIDITY: f64 = 0.7;

/// Water that a cubic metre of outside air carries off when it leaves a room of a temperature (°C) at the humidity
/// that the room may have (0 to 1), kg/m³. Below 0 when airing makes the room damper.
///
/// # Errors
///
/// When the room's air is none that air can be.
///
/// ```
/// use hodful_air::{Air, moist::STANDARD_PA, room::carried_kg_m3};
/// let outside = Air::new(5.0, 0.8, STANDARD_PA)?;
/// let grams = 1000.0 * carried_kg_m3(20.0, 0.7, &outside)?;
/// assert!((grams - 6.66).abs() < 0.01);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn carried_kg_m3(room: f64, limit_humidity: f64, outside: &Air) -> Result<f64, AirFault> {
    let limit = Air::new(room, limit_humidity, outside.pressure_pa())?;
    Ok(limit.vapour_kg_m3() - outside.vapour_kg_m3())
}

/// Outside air that carries off so much water (kg) from a room of a temperature (°C) that stays at a humidity (0 to 1),
/// m³.
///
/// # Errors
///
/// When the water is below 0, when the room's air is none that air can be, and when the outside air is too damp to
/// carry anything off.
pub fn air_needed_m3(
    water_kg: f64,
    room: f64,
    limit_humidity: f64,
    outside: &Air,
) -> Result<f64, AirFault> {
    let water = crate::fault::not_negative("water to carry off (kg)", water_kg)?;
    let carried = carried_kg_m3(room, limit_humidity, outside)?;
    if carried > 0.0 {
        Ok(water / carried)
    } else {
        let outside = outside.vapour_kg_m3();
        Err(AirFault::OutsideTooDamp {
            outside,
            limit: outside + carried,
        })
    }
}

/// How often an hour the air of a room (m³) must change for so much air (m³) to pass in so many hours, 1/h.
///
/// # Errors
///
/// When room or hours are not above 0.
///
/// ```
/// // Thirty thousand cubic metres through fifty in a week.
/// let changes = hodful_air::room::changes_per_h(30_000.0, 50.0, 168.0)?;
/// assert!((changes - 3.6).abs() < 0.05);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn changes_per_h(air_m3: f64, room_m3: f64, hours: f64) -> Result<f64, AirFault> {
    let room = positive("volume of the room (m³)", room_m3)?;
    Ok(air_m3 / (room * positive("hours", hours)?))
}

/// Heat to evaporate so much water (kg), kWh.
pub fn heat_kwh(water_kg: f64) -> f64 {
    HEAT_KWH_KG * water_kg
}
