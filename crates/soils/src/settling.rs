//! Grains sinking in still water by Stokes' law, at the temperature of the water. Not here: jars and their layers.

use hodful_quantities::units::{
    Celsius, Length, MassDensity, Time, kilogram_per_cubic_meter, length_of_mm, time_of_seconds,
};

use crate::tolerance::REYNOLDS;
use crate::words::Millimetres;

/// Acceleration of gravity, m/s²: the standard value (CGPM 1901).
const GRAVITY: f64 = 9.806_65;

/// Temperatures that are let in, °C: still water that a jar may hold. Both formulas reach further.
pub const TEMPERATURES: (f64, f64) = (0.0, 40.0);

/// Viscosity of water at atmospheric pressure, in millipascal-seconds (mPa·s): `µ = Σ aᵢ·(T / 300 K)^bᵢ`.
///
/// Source: International Association for the Properties of Water and Steam, SR6-08(2011), *Properties of liquid
/// water at 0.1 megapascal*, equation for viscosity; coefficients from memory, checked in a public library that cites it.
///
/// # Errors
/// [`SettlingFault::Temperature`] outside 0 to 40 °C.
///
/// ```
/// use hodful_soils::settling::viscosity;
/// use hodful_quantities::units::Celsius;
/// assert!((viscosity(Celsius(20.0))? - 1.0016).abs() < 5e-5);
/// assert!(viscosity(Celsius(68.0)).is_err());
/// # Ok::<(), hodful_soils::settling::SettlingFault>(())
/// ```
pub fn viscosity(water: Celsius) -> Result<f64, SettlingFault> {
    let reduced = (in_range(water)? + 273.15) / 300.0;
    let micropascals: f64 = [
        (280.68, -1.9),
        (511.45, -7.7),
        (61.131, -19.6),
        (0.459_03, -40.0),
    ]
    .iter()
    .map(|(a, b)| a * libm::pow(reduced, *b))
    .sum();
    Ok(micropascals / 1000.0)
}

/// Density of water at atmospheric pressure, kg/m³.
///
/// Source: Kell, *Density, thermal expansivity, and compressibility of liquid water from 0° to 150°C*, 1975,
/// equation 16; coefficients read in several public programs that cite it, not in the paper.
///
/// # Errors
/// [`SettlingFault::Temperature`] outside 0 to 40 °C.
pub fn water_density(water: Celsius) -> Result<f64, SettlingFault> {
    // In thousands of degrees the printed powers of ten fall away.
    let t = in_range(water)? / 1000.0;
    let above = [
        -280_542.53,
        105_563.02,
        -46_170.461,
        -7_987.040_1,
        16_945.176,
        999.839_52,
    ]
    .iter()
    .fold(0.0, |sum, coefficient| sum * t + coefficient);
    Ok(above / (1.0 + 16.879_85 * t))
}

fn in_range(water: Celsius) -> Result<f64, SettlingFault> {
    let (least, most) = TEMPERATURES;
    if (least..=most).contains(&water.0) {
        Ok(water.0)
    } else {
        Err(SettlingFault::Temperature { celsius: water.0 })
    }
}

/// Grains of one density in still water of one temperature.
///
/// Stokes' law: `v = (ρ − ρ_water)·g·d² / (18·µ)`. It is for spheres that sink alone and slowly; flat grains of
/// clay sink slower than spheres of their size, and lumps that clay forms in hard water sink faster.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settling {
    /// mm/s per mm² of diameter.
    factor: f64,
    /// Reynolds number per mm³ of diameter.
    reynolds: f64,
}

impl Settling {
    /// Water at a temperature, and the density of the grains themselves.
    ///
    /// # Errors
    /// [`SettlingFault::Temperature`] outside 0 to 40 °C, [`SettlingFault::Grains`] when the grains are not
    /// heavier than water.
    pub fn new(water: Celsius, grains: MassDensity) -> Result<Self, SettlingFault> {
        let viscosity = viscosity(water)? / 1000.0;
        let density = water_density(water)?;
        let grains = grains.get::<kilogram_per_cubic_meter>();
        let heavier = grains - density;
        if !(heavier.is_finite() && heavier > 0.0) {
            return Err(SettlingFault::Grains { kg_per_m3: grains });
        }
        // In SI, v = (…)·d²; with millimetres on both sides one factor of a thousandth is left.
        let factor = heavier * GRAVITY / (18.0 * viscosity) / 1000.0;
        Ok(Self {
            factor,
            reynolds: density * factor / 1e6 / viscosity,
        })
    }

    /// Grains of the usual density of mineral soil, 2650 kg/m³.
    ///
    /// # Errors
    /// [`SettlingFault::Temperature`] outside 0 to 40 °C.
    pub fn of_soil(water: Celsius) -> Result<Self, SettlingFault> {
        let usual = hodful_quantities::mix::USUAL_PARTICLE_DENSITY;
        Self::new(water, MassDensity::new::<kilogram_per_cubic_meter>(usual))
    }

    /// How fast a grain sinks, mm/s.
    ///
    /// # Errors
    /// [`SettlingFault::Diameter`] when the diameter is not above nothing, [`SettlingFault::TooFast`] when the
    /// Reynolds number passes 1 and the law no longer holds (above about 0.1 mm at 20 °C).
    pub fn velocity(&self, diameter: Length) -> Result<f64, SettlingFault> {
        let d = diameter.value;
        let v = self.factor * d * d;
        if !(d > 0.0 && v.is_finite() && v > 0.0) {
            return Err(SettlingFault::Diameter { mm: d });
        }
        let reynolds = self.reynolds * d * d * d;
        if reynolds > REYNOLDS {
            return Err(SettlingFault::TooFast { mm: d, reynolds });
        }
        Ok(v)
    }

    /// How long a grain sinks through a depth.
    ///
    /// # Errors
    /// As [`Self::velocity`], and [`SettlingFault::Depth`] when the depth is not above nothing.
    ///
    /// ```
    /// use hodful_soils::settling::Settling;
    /// use hodful_quantities::units::{Celsius, hour, length_of_mm as mm};
    /// let clay = Settling::of_soil(Celsius(20.0))?.time(mm(100.0), mm(0.002))?;
    /// assert!((clay.get::<hour>() - 7.73).abs() < 0.005);
    /// # Ok::<(), hodful_soils::settling::SettlingFault>(())
    /// ```
    pub fn time(&self, depth: Length, diameter: Length) -> Result<Time, SettlingFault> {
        let depth = checked_depth(depth)?;
        let seconds = depth / self.velocity(diameter)?;
        if seconds.is_finite() {
            Ok(time_of_seconds(seconds))
        } else {
            Err(SettlingFault::Diameter { mm: diameter.value })
        }
    }

    /// The grain that sinks through a depth in just this time: after it, every coarser grain is down. The
    /// inverse of [`Self::time`].
    ///
    /// # Errors
    /// [`SettlingFault::Depth`] and [`SettlingFault::Time`] when they are not above nothing,
    /// [`SettlingFault::TooFast`] when it would be a grain that the law does not hold for.
    pub fn diameter(&self, depth: Length, time: Time) -> Result<Length, SettlingFault> {
        let depth = checked_depth(depth)?;
        let seconds = time.value;
        let fault = SettlingFault::Time { seconds };
        if !(seconds.is_finite() && seconds > 0.0) {
            return Err(fault);
        }
        let d = (depth / seconds / self.factor).sqrt();
        if !(d.is_finite() && d > 0.0) {
            return Err(fault);
        }
        let reynolds = self.reynolds * d * d * d;
        if reynolds > REYNOLDS {
            return Err(SettlingFault::TooFast { mm: d, reynolds });
        }
        Ok(length_of_mm(d))
    }
}

fn checked_depth(depth: Length) -> Result<f64, SettlingFault> {
    if depth.value.is_finite() && depth.value > 0.0 {
        Ok(depth.value)
    } else {
        Err(SettlingFault::Depth { mm: depth.value })
    }
}

/// Why settling cannot be told.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum SettlingFault {
    /// No temperature for a jar of still water.
    #[error(
        "water at {celsius} °C is outside 0 to 40 °C; measure the water in the jar, in degrees Celsius"
    )]
    Temperature {
        /// As given.
        celsius: f64,
    },
    /// Grains that float.
    #[error(
        "grains of {kg_per_m3:.0} kg/m³ do not sink; give the density of the grains, usually 2650 kg/m³"
    )]
    Grains {
        /// As given.
        kg_per_m3: f64,
    },
    /// A diameter that is none.
    #[error("a grain of {} cannot be; give a diameter above 0", Millimetres(*.mm))]
    Diameter {
        /// As given, mm.
        mm: f64,
    },
    /// A depth that is none.
    #[error("water {} deep cannot be; measure from the surface to the bottom", Millimetres(*.mm))]
    Depth {
        /// As given, mm.
        mm: f64,
    },
    /// A time that is none.
    #[error(
        "a mark after {seconds} s cannot be; give the time since the jar was set down, above 0"
    )]
    Time {
        /// As given, s.
        seconds: f64,
    },
    /// Too coarse for the law.
    #[error(
        "a grain of {} sinks too fast for Stokes' law (Reynolds number {reynolds:.1}, at most 1); use a sieve, or mark later",
        Millimetres(*.mm)
    )]
    TooFast {
        /// Its diameter, mm.
        mm: f64,
        /// Its Reynolds number.
        reynolds: f64,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An older published formula for the same thing: Kestin, Sokolov and Wakeham, *Viscosity of liquid water in
    /// the range −8 °C to 150 °C*, 1978 (from memory). It goes out from 1.002 mPa·s at 20 °C, where the release has
    /// 1.0016; the tolerance is a little over twice that difference.
    #[test]
    fn viscosity_agrees_with_another_formula() {
        for tenth in 0..=400 {
            let t = f64::from(tenth) / 10.0;
            let below = 20.0 - t;
            let bent = 1.2364 - 1.37e-3 * below + 5.7e-6 * below * below;
            let other = 1.002 * libm::pow(10.0, below / (t + 96.0) * bent);
            let ours = viscosity(Celsius(t)).unwrap();
            assert!((ours / other - 1.0).abs() < 0.001, "{t} °C: {ours} {other}");
        }
    }

    #[test]
    fn what_the_law_does_not_hold_for_is_refused() {
        let settling = Settling::of_soil(Celsius(20.0)).unwrap();
        assert!(settling.velocity(length_of_mm(0.1)).is_ok());
        let fault = settling.velocity(length_of_mm(0.2)).unwrap_err();
        assert!(matches!(fault, SettlingFault::TooFast { reynolds, .. } if reynolds > 1.0));
        let wood = MassDensity::new::<kilogram_per_cubic_meter>(700.0);
        assert_eq!(
            Settling::new(Celsius(20.0), wood).unwrap_err().to_string(),
            "grains of 700 kg/m³ do not sink; give the density of the grains, usually 2650 kg/m³"
        );
    }
}
