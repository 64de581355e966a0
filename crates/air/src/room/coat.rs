//! A room and the coat on its walls, hour by hour, each acting on the other. Not here: the closed forms.

use super::balance::{Room, Spell, WetWalls};
use crate::drying::Coat;
use crate::fault::{AirFault, not_negative};
use crate::moist::Air;

/// What an hour brings to a room that dries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoomHour {
    /// The outside air.
    pub outside: Air,
    /// Temperature of the room, °C, kept by heating.
    pub celsius: f64,
    /// How the air is changed.
    pub room: Room,
    /// Water that people, cooking and heaters give to the air, kg/h.
    pub given_kg_h: f64,
}

/// A room hour by hour, and when its coat is dry.
#[derive(Debug, Clone, PartialEq)]
pub struct DriedRoom {
    /// Humidity of the room at the end of each hour, 0 to 1.
    pub humidity: Vec<f64>,
    /// Hours until the coat is dry, `None` when they did not suffice.
    pub dry_after_h: Option<f64>,
    /// Water that the coat gave off, kg.
    pub given_kg: f64,
    /// Water that was too much for the air and ran down or was taken up elsewhere, kg.
    pub dripped_kg: f64,
}

/// Dries a coat on so many square metres in a room, from air of the room at the beginning, with so much heat from air
/// to face (W/(m²·K)). Hours after the coat is dry are left out.
///
/// Air that is let in is counted by its volume inside, warmed. Within an hour weather and the speed of the coat stay the
/// same; the rest is in closed form.
///
/// # Errors
///
/// When the area is below 0, or when the air of the room would be none that air can be.
pub fn dry_room(
    coat: &Coat,
    area_m2: f64,
    h_w_m2k: f64,
    begin: &Air,
    hours: impl IntoIterator<Item = RoomHour>,
) -> Result<DriedRoom, AirFault> {
    let area = not_negative("area of the coat (m²)", area_m2)?;
    let mut dried = DriedRoom {
        humidity: Vec::new(),
        dry_after_h: None,
        given_kg: 0.0,
        dripped_kg: 0.0,
    };
    let mut vapour = begin.vapour_kg_m3();
    let mut water = coat.free_kg_m2();
    for (number, hour) in (0_u32..).zip(hours) {
        let pressure = hour.outside.pressure_pa();
        let air = Air::with_vapour(hour.celsius, vapour, pressure)?;
        let wet = WetWalls::in_air(area, &air, h_w_m2k);
        let share = coat.share_of_wet(water);
        let spell = Spell {
            outside_kg_m3: hour.outside.at(hour.celsius)?.vapour_kg_m3(),
            given_kg_h: hour.given_kg_h,
            walls: WetWalls {
                beta_m_h: wet.beta_m_h * share,
                ..wet
            },
        };
        let (after, given) = hour.room.with_walls(vapour, &spell, 1.0, area * water);
        let full = Air::new(hour.celsius, 1.0, pressure)?.vapour_kg_m3();
        dried.dripped_kg += (after - full).max(0.0) * hour.room.volume_m3();
        vapour = after.min(full);
        dried.humidity.push(vapour / full);
        dried.given_kg += given;
        let before = water;
        if area > 0.0 {
            water -= given / area;
        }
        if water <= coat.left_kg_m2() {
            let part = (before - coat.left_kg_m2()) / (before - water);
            dried.dry_after_h = Some(f64::from(number) + part);
            break;
        }
    }
    Ok(dried)
}
