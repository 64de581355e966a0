//! How much vapour air can hold, over water and over ice. Not here: anything of air that is not full.
//!
//! Source: Hyland and Wexler 1983, as in ASHRAE Handbook Fundamentals, chapter 1, equations 5 and 6 (coefficients
//! from memory; held against a public library that implements the chapter).

use super::KELVIN;

/// Triple point of water, °C: below it ice, above it water. Source: as above.
const TRIPLE: f64 = 0.01;

/// Where the equations end, °C.
const RANGE: (f64, f64) = (-100.0, 200.0);

/// `ln p = a/T + Σ bᵢ·Tⁱ + c·ln T`, Pa and K.
struct Curve {
    over: f64,
    powers: [f64; 5],
    log: f64,
}

const OVER_WATER: Curve = Curve {
    over: -5_800.220_6,
    powers: [
        1.391_499_3,
        -0.048_640_239,
        0.000_041_764_768,
        -0.000_000_014_452_093,
        0.0,
    ],
    log: 6.545_967_3,
};

const OVER_ICE: Curve = Curve {
    over: -5_674.535_9,
    powers: [
        6.392_524_7,
        -0.009_677_843,
        0.000_000_622_157_01,
        0.000_000_002_074_782_5,
        -0.000_000_000_000_948_402_4,
    ],
    log: 4.163_501_9,
};

/// The natural logarithm of a pressure in Pa, its slope in 1/K, and how that bends, 1/K².
pub(crate) struct Log {
    pub(crate) value: f64,
    pub(crate) slope: f64,
    pub(crate) bend: f64,
}

impl Curve {
    /// Beyond the range: as at its end.
    fn log(&self, celsius: f64) -> Log {
        let t = celsius.clamp(RANGE.0, RANGE.1) + KELVIN;
        let [b0, b1, b2, b3, b4] = self.powers;
        let part = 1.0 / t;
        let over = self.over * part;
        Log {
            value: over + b0 + t * (b1 + t * (b2 + t * (b3 + t * b4))) + self.log * libm::log(t),
            slope: (self.log - over) * part + b1 + t * (2.0 * b2 + t * (3.0 * b3 + t * 4.0 * b4)),
            bend: (2.0 * over - self.log) * part * part + 2.0 * b2 + t * (6.0 * b3 + t * 12.0 * b4),
        }
    }
}

/// The natural logarithm of the saturation pressure over water.
pub(crate) fn log_over_water(celsius: f64) -> Log {
    OVER_WATER.log(celsius)
}

/// The natural logarithm of the saturation pressure over ice.
pub(crate) fn log_over_ice(celsius: f64) -> Log {
    OVER_ICE.log(celsius)
}

/// Vapour pressure over water of a temperature (°C), Pa. The source gives it from 0 to 200 °C; below 0 °C it is
/// carried on, for water that has not frozen yet. Beyond −100 and 200 °C: as there.
///
/// ```
/// use hodful_air::moist::saturation_over_water_pa;
/// assert!((saturation_over_water_pa(20.0) - 2338.8).abs() < 0.1);
/// ```
pub fn saturation_over_water_pa(celsius: f64) -> f64 {
    libm::exp(log_over_water(celsius).value)
}

/// Vapour pressure over ice of a temperature (°C), Pa. The source gives it from −100 to 0 °C. Beyond −100 and
/// 200 °C: as there.
///
/// ```
/// use hodful_air::moist::saturation_over_ice_pa;
/// assert!((saturation_over_ice_pa(-10.0) - 259.9).abs() < 0.1);
/// ```
pub fn saturation_over_ice_pa(celsius: f64) -> f64 {
    libm::exp(log_over_ice(celsius).value)
}

/// Vapour pressure of air of a temperature (°C) that can hold no more, Pa: over ice below 0.01 °C, else over water.
pub fn saturation_pa(celsius: f64) -> f64 {
    if celsius <= TRIPLE {
        saturation_over_ice_pa(celsius)
    } else {
        saturation_over_water_pa(celsius)
    }
}

/// Whether vapour of a pressure (Pa) falls as water when it is cooled, and not as frost.
pub(crate) fn falls_as_water(vapour_pa: f64) -> bool {
    // The pressure at the triple point, Pa. Source: as above, worked out by the equation over ice.
    const TRIPLE_PA: f64 = 611.657;
    vapour_pa > TRIPLE_PA
}
