//! A wet wall in the weather, hour by hour. Not here: how long its coat takes to dry, and rooms.
//!
//! What all walls share of an hour is worked out once ([`Sky`]); a wall is then quickly done.

use crate::fault::{AirFault, share};
use crate::film::{FilmFormula, film_kg_m2_h};
use crate::hour::Hour;
use crate::moist::{Air, DRY_AIR_KJ_KG_K, Face, WATER, face, face_with};
use crate::sun::{Facing, Light, Place, Sun, on_wall_w_m2};
use crate::wall::{WetFace, given_off, outside_w_m2k};

/// Share of the wind of the weather station that reaches a wall. The station measures at 10 m in the open. Our
/// assumption, no source.
pub const WIND_SHARE: f64 = 0.5;

/// Share of the light that a wet face of earth takes up. Our assumption, common values for damp brown earth are 0.6 to
/// 0.8 (common practice, no source).
pub const TAKEN_UP: f64 = 0.7;

/// How a wall stands in the weather. One that exists can be worked with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    facing: Facing,
    shaded: bool,
    covered: bool,
    taken_up: f64,
    wind_share: f64,
}

impl Stand {
    /// A wall that looks towards a direction (degrees from north by east), in the sun or in the shade, open to rain,
    /// with [`TAKEN_UP`] and [`WIND_SHARE`].
    ///
    /// # Errors
    ///
    /// When the direction is not between −360 and 360.
    pub fn new(azimuth: f64, shaded: bool) -> Result<Self, AirFault> {
        Ok(Self {
            facing: Facing::new(azimuth)?,
            shaded,
            covered: false,
            taken_up: TAKEN_UP,
            wind_share: WIND_SHARE,
        })
    }

    /// The same, kept from rain by a roof or a sheet.
    #[must_use]
    pub fn covered(self) -> Self {
        Self {
            covered: true,
            ..self
        }
    }

    /// Whether rain reaches it.
    pub fn is_open_to_rain(&self) -> bool {
        !self.covered
    }

    /// The same with other shares of the light that is taken up and of the wind that reaches it, both 0 to 1.
    ///
    /// # Errors
    ///
    /// When one is no such share.
    pub fn with(self, taken_up: f64, wind_share: f64) -> Result<Self, AirFault> {
        Ok(Self {
            taken_up: share("the share of light taken up", taken_up)?,
            wind_share: share("the share of wind at the wall", wind_share)?,
            ..self
        })
    }
}

/// What all walls share of an hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sky {
    air: Air,
    in_shade: Face,
    sun: Sun,
    light: Light,
    wind_m_s: f64,
    rains: bool,
    film_kg_m2_h: f64,
}

/// A wall in one hour of weather, seen in two ways.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutsideFace {
    /// For how long a coat takes to dry: gives off nothing in rain that reaches it, or at 0 °C or below.
    pub wet: WetFace,
    /// For whether it dries too fast to be worked, kg/(m²·h): [`quick_kg_m2_h`] of the face as the sun warms it. Rain
    /// is left out: it may fall in a part of the hour alone.
    pub quick_kg_m2_h: f64,
}

/// What a fresh face may give off while it is worked, kg/(m²·h), for [`crate::film::haste`] and
/// [`crate::film::open_minutes`]: the larger of [`level_film_kg_m2_h`] in the full wind (m/s) and of the wet face. To the
/// film the published alerts belong; it is for level concrete with water on it, and overstates a wall in still air up
/// to fourfold.
///
/// ```
/// use hodful_air::{Air, moist::STANDARD_PA, outside::quick_kg_m2_h, wall::{outside_w_m2k, wet_face}};
/// // 38 °C, 15 % and 25 km/h, in the shade: 0.000005 · 56^2.5 · (1 − 0.15) · (25 + 4).
/// let air = Air::new(38.0, 0.15, STANDARD_PA)?;
/// let wind = 25.0 / 3.6;
/// let face = wet_face(&air, outside_w_m2k(wind / 2.0), 0.0);
/// assert!((quick_kg_m2_h(&air, wind, &face) - 2.89).abs() < 0.01);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn quick_kg_m2_h(air: &Air, wind_m_s: f64, face: &WetFace) -> f64 {
    level_film_kg_m2_h(air, wind_m_s).max(if face.celsius > 0.0 {
        face.kg_m2_h
    } else {
        0.0
    })
}

/// What a level film as warm as the air gives off in a wind (m/s), kg/(m²·h), by [`FilmFormula::Uno`]; nothing in air at
/// 0 °C or below, for which it was not made.
pub fn level_film_kg_m2_h(air: &Air, wind_m_s: f64) -> f64 {
    let film = air.dry_bulb();
    if film > 0.0 {
        film_kg_m2_h(FilmFormula::Uno, film, air, wind_m_s)
    } else {
        0.0
    }
}

impl Sky {
    /// An hour at a place. Wind and light that are not known count as none, and so does rain.
    ///
    /// # Errors
    ///
    /// When the air is none that air can be.
    pub fn of(place: &Place, hour: &Hour) -> Result<Self, AirFault> {
        let sun = Sun::mid_hour(place, hour.begins);
        let light = Light::known(&sun, hour.sun, hour.beam, hour.diffuse);
        Self::with(hour, sun, light)
    }

    /// An hour at a place that is not known: every wall is in the shade, with what light of the sky is told by itself.
    ///
    /// # Errors
    ///
    /// As [`Sky::of`].
    pub fn without_place(hour: &Hour) -> Result<Self, AirFault> {
        let below = Sun {
            north: 0.0,
            east: 0.0,
            up: -1.0,
            beyond_w_m2: 0.0,
        };
        let diffuse = hour.diffuse.unwrap_or(0.0).max(0.0);
        let light = Light {
            beam: 0.0,
            diffuse,
            global: diffuse,
        };
        Self::with(hour, below, light)
    }

    fn with(hour: &Hour, sun: Sun, light: Light) -> Result<Self, AirFault> {
        let air = hour.air()?;
        let wind_m_s = hour.wind.unwrap_or(0.0).max(0.0);
        Ok(Self {
            air,
            in_shade: face(&WATER, &air, 0.0),
            sun,
            light,
            wind_m_s,
            rains: hour.rain.is_some_and(|mm| mm > 0.0),
            film_kg_m2_h: level_film_kg_m2_h(&air, wind_m_s),
        })
    }

    /// The air.
    pub fn air(&self) -> &Air {
        &self.air
    }

    /// The face of a wet wall in this hour: [`crate::wall::wet_face`] with the wind at the wall and the light on it.
    /// It gives off nothing in rain that reaches it, or when it is at 0 °C or below.
    pub fn wet_face(&self, stand: &Stand) -> WetFace {
        self.face(stand).wet
    }

    /// The face of a wet wall in this hour, for drying and for haste.
    pub fn face(&self, stand: &Stand) -> OutsideFace {
        let h = outside_w_m2k(self.wind_m_s * stand.wind_share);
        let absorbed =
            stand.taken_up * on_wall_w_m2(&self.sun, &self.light, &stand.facing, stand.shaded);
        let in_sun = (absorbed > 0.0).then(|| {
            let gain = absorbed * DRY_AIR_KJ_KG_K / h;
            face_with(&WATER, &self.air, gain, &self.in_shade)
        });
        let face = given_off(&self.air, h, &in_sun.unwrap_or(self.in_shade));
        let is_frozen = face.celsius <= 0.0;
        let given = |stands_still: bool| if stands_still { 0.0 } else { face.kg_m2_h };
        OutsideFace {
            wet: WetFace {
                kg_m2_h: given(is_frozen || (self.rains && !stand.covered)),
                ..face
            },
            quick_kg_m2_h: self.film_kg_m2_h.max(given(is_frozen)),
        }
    }
}

/// What a wall that stays wet gives off in each hour, kg/(m²·h): for [`crate::drying::band`].
///
/// # Errors
///
/// When the air of an hour is none that air can be.
///
/// ```
/// use hodful_air::{Hour, outside::{Stand, rates}, sun::Place};
/// let hour = Hour {
///     begins: jiff::civil::date(2025, 6, 21).at(12, 0, 0, 0),
///     dry_bulb: 20.0, humidity: 0.5, pressure: 101_325.0, wind: Some(2.0),
///     sun: Some(800.0), beam: None, diffuse: None, cloud: None, rain: None,
/// };
/// let place = Place::new(45.0, 9.0, 1.0)?;
/// let south = rates(&place, &Stand::new(180.0, false)?, &[hour])?;
/// let north = rates(&place, &Stand::new(0.0, false)?, &[hour])?;
/// assert!(south[0] > north[0]);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn rates(place: &Place, stand: &Stand, hours: &[Hour]) -> Result<Vec<f64>, AirFault> {
    hours
        .iter()
        .map(|hour| Ok(Sky::of(place, hour)?.wet_face(stand).kg_m2_h))
        .collect()
}
