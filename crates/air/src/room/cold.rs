//! Cold faces of a room: whether it drips from them, whether mould grows. Not here: the water in the air.

use crate::fault::{AirFault, finite, not_negative, share};
use crate::moist::{Air, saturation_pa};

/// Resistance between the air of a room and its ceiling, m²·K/W. Source: ISO 6946 (from memory).
pub const CEILING_M2K_W: f64 = 0.10;

/// Resistance between the air of a room and its walls, m²·K/W. Source: ISO 6946 (from memory).
pub const WALL_M2K_W: f64 = 0.13;

/// Resistance with which mould is looked for, m²·K/W: corners and behind furniture. Source: ISO 13788 (from memory).
pub const CORNER_M2K_W: f64 = 0.25;

/// Humidity of the air right at a face at which mould can grow, 0 to 1. Source: ISO 13788 (from memory).
pub const MOULD_HUMIDITY: f64 = 0.8;

/// A cold face of a room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cold {
    /// Its temperature, °C.
    pub celsius: f64,
    /// Humidity of the room at which it drips, 0 to 1.
    pub drips_at: f64,
    /// Humidity of the room at which mould can grow, 0 to 1.
    pub mould_at: f64,
}

impl Cold {
    /// Whether it drips in air of this room.
    pub fn drips(&self, room: &Air) -> bool {
        room.humidity() > self.drips_at
    }

    /// Whether mould can grow in air of this room, if it stays like that for days.
    pub fn may_mould(&self, room: &Air) -> bool {
        room.humidity() > self.mould_at
    }
}

/// The face of a part of the building with a U-value (W/(m²·K)) between a room and outside air (both °C), by the
/// resistance between air and face (m²·K/W): `T = T_i − U·R·(T_i − T_e)`. Source: ISO 6946, ISO 13788 (from memory).
///
/// # Errors
///
/// When a figure is no number, or when U-value times resistance is not between 0 and 1.
///
/// ```
/// use hodful_air::room::{CEILING_M2K_W, cold_face};
/// let ceiling = cold_face(20.0, 5.0, 2.0, CEILING_M2K_W)?;
/// assert!((ceiling.celsius - 17.0).abs() < 0.01);
/// assert!((ceiling.drips_at - 0.83).abs() < 0.01);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn cold_face(
    room: f64,
    outside: f64,
    u_w_m2k: f64,
    resistance_m2k_w: f64,
) -> Result<Cold, AirFault> {
    finite("temperature of the room (°C)", room)?;
    finite("temperature outside (°C)", outside)?;
    let u = not_negative("U-value (W/m²K)", u_w_m2k)?;
    let resistance = not_negative("resistance at the face (m²K/W)", resistance_m2k_w)?;
    let part = share("U-value times resistance at the face", u * resistance)?;
    let celsius = room - part * (room - outside);
    let drips_at = (saturation_pa(celsius) / saturation_pa(room)).min(1.0);
    Ok(Cold {
        celsius,
        drips_at,
        mould_at: MOULD_HUMIDITY * drips_at,
    })
}
