//! The state of damp air: vapour, dew point, wet bulb, heat. Not here: what it does to a wall.
//!
//! All formulas: ASHRAE Handbook Fundamentals, chapter 1 "Psychrometrics" (from memory), with the saturation
//! pressures of Hyland and Wexler. Air and vapour are taken as perfect gases, which is off by less than 0.7 %
//! between −50 and 50 °C (same chapter).

mod saturation;
mod solve;

use crate::fault::AirFault;

pub(crate) use saturation::log_over_water;
pub use saturation::{saturation_over_ice_pa, saturation_over_water_pa, saturation_pa};
pub(crate) use solve::{DRY_AIR_KJ_KG_K, Face, ICE, Phase, WATER, face, face_with};

/// Pressure at sea level in the standard atmosphere, Pa.
pub const STANDARD_PA: f64 = 101_325.0;

/// 0 °C in kelvin.
pub(crate) const KELVIN: f64 = 273.15;

/// Gas constant of water vapour, J/(kg·K). Source: ASHRAE Fundamentals, chapter 1, equation 2.
pub const VAPOUR_GAS_J_KG_K: f64 = 461.52;

/// Ratio of the masses of a molecule of water and of air. Source: ASHRAE Fundamentals, chapter 1 (from memory).
const MASS_RATIO: f64 = 0.621_945;

/// Temperatures of air that are let in, °C: beyond what any building site has.
pub const TEMPERATURES: (f64, f64) = (-60.0, 80.0);

/// Pressures of air that are let in, Pa: from above the highest town to below the lowest shore.
pub const PRESSURES_PA: (f64, f64) = (30_000.0, 120_000.0);

/// Altitudes that are let in, m: those of the pressures.
pub const ALTITUDES_M: (f64, f64) = (-1_000.0, 9_000.0);

/// Air with some vapour in it. One that exists can be worked with.
///
/// ```
/// use hodful_air::{Air, moist::STANDARD_PA};
/// let air = Air::new(20.0, 0.5, STANDARD_PA)?;
/// assert!((air.vapour_kg_m3() * 1000.0 - 8.643).abs() < 0.001);
/// assert!((air.wet_bulb() - 13.78).abs() < 0.01);
/// assert!(Air::new(20.0, 50.0, STANDARD_PA).is_err());
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    dry_bulb: f64,
    humidity: f64,
    pressure_pa: f64,
    vapour_pa: f64,
}

impl Air {
    /// Air of a temperature (°C, −60 to 80), a relative humidity (0 to 1) and a pressure (Pa).
    ///
    /// Below freezing humidity is counted against ice, as the source does; a weather station counts against
    /// water, which is up to 1 % more a degree of frost.
    ///
    /// # Errors
    ///
    /// When one of the three is outside its range, or when the vapour would be almost all of the air.
    pub fn new(dry_bulb: f64, humidity: f64, pressure_pa: f64) -> Result<Self, AirFault> {
        let (least, most) = TEMPERATURES;
        if !(least..=most).contains(&dry_bulb) {
            return Err(AirFault::Temperature {
                celsius: dry_bulb,
                least,
                most,
            });
        }
        if !(0.0..=1.0).contains(&humidity) {
            return Err(AirFault::Humidity { humidity });
        }
        let (least, most) = PRESSURES_PA;
        if !(least..=most).contains(&pressure_pa) {
            return Err(AirFault::Pressure {
                pressure_pa,
                least,
                most,
            });
        }
        let vapour_pa = humidity * saturation_pa(dry_bulb);
        if vapour_pa >= crate::tolerance::MOST_VAPOUR * pressure_pa {
            return Err(AirFault::Vapour {
                vapour_pa,
                pressure_pa,
            });
        }
        Ok(Self {
            dry_bulb,
            humidity,
            pressure_pa,
            vapour_pa,
        })
    }

    /// Air of a temperature (°C) and a pressure (Pa) with so much vapour in a cubic metre (kg/m³). More than the
    /// air can hold counts as all it can hold: the rest is dew.
    ///
    /// # Errors
    ///
    /// As [`Air::new`], and when the vapour is below 0 or no number.
    pub fn with_vapour(
        dry_bulb: f64,
        vapour_kg_m3: f64,
        pressure_pa: f64,
    ) -> Result<Self, AirFault> {
        let vapour = crate::fault::not_negative("vapour in the air (kg/m³)", vapour_kg_m3)?;
        let full = density_kg_m3(saturation_pa(dry_bulb), dry_bulb);
        Self::new(dry_bulb, (vapour / full).min(1.0), pressure_pa)
    }

    /// The same water in the air at another temperature (°C): outside air that is let in and warmed. Air that
    /// is cooled below its dew point keeps what it can hold.
    ///
    /// # Errors
    ///
    /// As [`Air::new`].
    pub fn at(&self, dry_bulb: f64) -> Result<Self, AirFault> {
        let full = saturation_pa(dry_bulb);
        Self::new(dry_bulb, (self.vapour_pa / full).min(1.0), self.pressure_pa)
    }

    /// Temperature, °C.
    pub fn dry_bulb(&self) -> f64 {
        self.dry_bulb
    }

    /// Relative humidity, 0 to 1.
    pub fn humidity(&self) -> f64 {
        self.humidity
    }

    /// Pressure, Pa.
    pub fn pressure_pa(&self) -> f64 {
        self.pressure_pa
    }

    /// Pressure of the vapour alone, Pa.
    pub fn vapour_pa(&self) -> f64 {
        self.vapour_pa
    }

    /// Vapour in a kilogram of dry air, kg/kg.
    pub fn humidity_ratio(&self) -> f64 {
        humidity_ratio(self.vapour_pa, self.pressure_pa)
    }

    /// Vapour in a cubic metre, kg/m³: `p / (461.52·T)`.
    pub fn vapour_kg_m3(&self) -> f64 {
        density_kg_m3(self.vapour_pa, self.dry_bulb)
    }

    /// Room that a kilogram of dry air takes with its vapour, m³/kg: `287.042·T·(1 + 1.607858·W) / p`.
    pub fn volume_m3_kg(&self) -> f64 {
        287.042 * (self.dry_bulb + KELVIN) * (1.0 + 1.607_858 * self.humidity_ratio())
            / self.pressure_pa
    }

    /// Heat in a kilogram of dry air with its vapour, from 0 °C and water, J/kg:
    /// `1006·t + W·(2501000 + 1860·t)`.
    pub fn enthalpy_j_kg(&self) -> f64 {
        let t = self.dry_bulb;
        1006.0 * t + self.humidity_ratio() * (2_501_000.0 + 1860.0 * t)
    }

    /// Where dew or frost begins to fall, °C: the temperature at which this vapour is all the air can hold, looked
    /// for in the saturation pressure itself. `None` for air so dry that it is below −100 °C.
    pub fn dew_point(&self) -> Option<f64> {
        solve::dew_point(self.vapour_pa, self.dry_bulb)
    }

    /// What a wet bulb shows, °C: over water when that is 0 °C or more, else over ice.
    ///
    /// Between the two there is a step of some tenths of a degree, as ice takes more heat than water to become
    /// vapour. For a wall that is still wet ask [`Air::wet_bulb_over_water`], which has no such step.
    pub fn wet_bulb(&self) -> f64 {
        let over_water = self.wet_bulb_over_water();
        if over_water >= 0.0 {
            over_water
        } else {
            face(&ICE, self, 0.0).celsius
        }
    }

    /// What a wet bulb shows whose water does not freeze, °C. It is used for walls and for frost: a coat is water
    /// until it freezes, and this is at 0 °C just when [`Air::wet_bulb`] leaves the water.
    ///
    /// Below 0 °C the saturation pressure over water is carried on past the range of its source.
    pub fn wet_bulb_over_water(&self) -> f64 {
        face(&WATER, self, 0.0).celsius
    }
}

/// Vapour in a kilogram of dry air, kg/kg, by the pressures of the vapour and of the whole, Pa.
pub(crate) fn humidity_ratio(vapour_pa: f64, pressure_pa: f64) -> f64 {
    MASS_RATIO * vapour_pa / (pressure_pa - vapour_pa)
}

/// Vapour in a cubic metre, kg/m³, by its pressure (Pa) and its temperature (°C).
pub(crate) fn density_kg_m3(vapour_pa: f64, celsius: f64) -> f64 {
    vapour_pa / (VAPOUR_GAS_J_KG_K * (celsius + KELVIN))
}

/// Pressure of the air at an altitude (m) in the standard atmosphere, Pa: `101325·(1 − 0.0000225577·z)^5.2559`.
///
/// # Errors
///
/// When the altitude is not between −1000 and 9000 m.
///
/// ```
/// let high = hodful_air::moist::standard_pressure_pa(2000.0)?;
/// assert!((high - 79_495.0).abs() < 5.0);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn standard_pressure_pa(metres: f64) -> Result<f64, AirFault> {
    let (least, most) = ALTITUDES_M;
    if (least..=most).contains(&metres) {
        Ok(STANDARD_PA * libm::pow(1.0 - 0.000_022_557_7 * metres, 5.2559))
    } else {
        Err(AirFault::Altitude {
            metres,
            least,
            most,
        })
    }
}
