//! Water that a wet wall gives off: its face takes heat from air and sun and spends it on vapour. Not here: how
//! much water the coat holds, and sun and weather themselves.
//!
//! Vapour leaves as fast as heat comes: `m = (h / c)·(Ws − W)` (Lewis; ASHRAE Fundamentals, chapter 6, from memory).
//! Heat through the wall behind, from other walls of the room, and to the open sky is left out. A face on a warm wall
//! dries a little faster than is said here; one on a cold wall, or under a clear sky at night, more slowly. So does one
//! that rain wets anew: rain only stops the drying here, and adds no water.

use crate::moist::{Air, DRY_AIR_KJ_KG_K, Face, WATER, face};

/// Heat from still air of a room to an upright face, W/(m²·K). Source: ISO 6946, annex on surface resistances (from
/// memory). A draught or a fan gives more: about 8 for a breath of 1 m/s.
pub const STILL_ROOM_W_M2K: f64 = 2.5;

/// Heat from outside air to a face in a wind (m/s), W/(m²·K): `4 + 4·v`. A wind below 0 or no number counts as none.
/// Source: ISO 6946, annex on surface resistances (from memory).
pub fn outside_w_m2k(wind_m_s: f64) -> f64 {
    4.0 + 4.0 * wind_m_s.max(0.0)
}

/// Heat that dry air takes up, J/(kg·K), as Lewis' law takes it.
const AIR_J_KG_K: f64 = 1000.0 * DRY_AIR_KJ_KG_K;

/// The face of a wet wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WetFace {
    /// Temperature of the face, °C.
    pub celsius: f64,
    /// Water it gives off, kg/(m²·h), 0 or more.
    pub kg_m2_h: f64,
}

/// The face of a wet wall in air that gives it `h_w_m2k` (W/(m²·K)) and sun of which it takes up `absorbed_w_m2`
/// (W/m²). Without sun it is as cold as a wet bulb; sun lifts it until what comes in goes off with the vapour or
/// back to the air. Either figure below 0 or no number counts as 0, and no heat from the air as nothing given off.
///
/// ```
/// use hodful_air::{Air, moist::STANDARD_PA, wall::wet_face};
/// let air = Air::new(20.0, 0.5, STANDARD_PA)?;
/// let shade = wet_face(&air, 8.0, 0.0);
/// assert!((shade.kg_m2_h * 24.0 - 1.76).abs() < 0.01);
/// let sun = wet_face(&air, 8.0, 300.0);
/// assert!(sun.celsius > air.dry_bulb() && sun.kg_m2_h > 3.0 * shade.kg_m2_h);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn wet_face(air: &Air, h_w_m2k: f64, absorbed_w_m2: f64) -> WetFace {
    let h = h_w_m2k.max(0.0);
    let absorbed = absorbed_w_m2.max(0.0);
    if h <= 0.0 || !h.is_finite() || !absorbed.is_finite() {
        return WetFace {
            celsius: air.dry_bulb(),
            kg_m2_h: 0.0,
        };
    }
    // The sun's heat over the air that passes, kJ for a kilogram.
    let gain = absorbed * DRY_AIR_KJ_KG_K / h;
    given_off(air, h, &face(&WATER, air, gain))
}

/// What a face gives off to air that gives it `h_w_m2k`.
pub(crate) fn given_off(air: &Air, h_w_m2k: f64, face: &Face) -> WetFace {
    let lack = (face.full - air.humidity_ratio()).max(0.0);
    WetFace {
        celsius: face.celsius,
        kg_m2_h: 3600.0 * (h_w_m2k / AIR_J_KG_K) * lack,
    }
}
