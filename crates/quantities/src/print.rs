//! Printing figures for tables, explanations and fields.
//!
//! Every figure is rounded once, here, by the rule its function names. A [`Figure`] keeps digits and
//! unit apart, so that a column can be aligned under a heading that carries the unit; as text it is
//! both. What is printed can be read again by [`crate::read`], within the printed rounding (a test
//! does so), except whole counts with grouped thousands and text for numbers that are not finite.
//!
//! Not here: reading, columns and colours, and figures for machines, which are never rounded.
//!
//! | function | United States | metric | rule |
//! |---|---|---|---|
//! | [`length`] | `12' 6 1/2"` | `3.823 m` | nearest sixteenth of an inch; nearest millimetre |
//! | [`thickness`] | `1/2"` | `12.7 mm` | nearest sixteenth of an inch; nearest tenth of a millimetre |
//! | [`area`] | `112.9 ft²` | `10.49 m²` | nearest tenth; nearest hundredth |
//! | [`volume`] | `3.5 ft³` | `99 L` | nearest tenth; nearest whole |
//! | [`bulk_volume`] | `4.25 yd³` | `3.25 m³` | nearest hundredth |
//! | [`mass`] | `1,234.5 lb` | `560.0 kg` | nearest tenth |
//! | [`density`] | `90.0 lb/ft³` | `1442 kg/m³` | nearest tenth; nearest whole |
//! | [`dose`] | `84.3 lb/yd³` | `50.0 kg/m³` | nearest tenth |
//! | [`percentage`] | `22.0 %` | `22.0 %` | nearest tenth |
//! | [`angle`] | `20.0°` | `20.0°` | nearest tenth of a degree |
//! | [`time`] | `7 h 44 min` | `7 h 44 min` | nearest second, minute or hour |
//! | [`temperature`] | `68 °F` | `20 °C` | nearest whole degree |
//! | [`money`] | `1,240.00` | `1 240.00` | exact; at least two decimals |
//! | [`count`] | `1,234` | `1 234` | exact |
//!
//! Figures that stand in a formula are printed by [`formula`] instead. Ties go away from zero
//! throughout (see [`fixed`]).

mod feet_inches;
pub mod formula;
mod rounding;
mod times;

pub use feet_inches::{exact_length, feet_inches, inches, worked_out_length};
pub use rounding::{Grouping, fixed, significant};
pub use times::time;

use crate::read::Money;
use crate::units::{
    Angle, Area, Celsius, Length, Mass, MassDensity, Ratio, Volume, cubic_foot, cubic_meter,
    cubic_yard, degree, kilogram, kilogram_per_cubic_meter, liter, percent, pound,
    pound_per_cubic_foot, pound_per_cubic_yard, square_foot, square_meter,
};
use core::fmt;

/// The units a project is shown in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum UnitSystem {
    /// Feet and inches, cubic feet and yards, pounds; thousands grouped by commas.
    Us,
    /// Metres, litres, kilograms; thousands grouped by no-break spaces.
    Metric,
}

impl UnitSystem {
    /// How thousands are grouped in this system's figures.
    pub fn grouping(self) -> Grouping {
        match self {
            Self::Us => Grouping::Comma,
            Self::Metric => Grouping::Space,
        }
    }
}

/// A rounded figure and its unit.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Figure {
    /// The digits, with the decimals fixed for the kind of figure; feet and inches with their marks.
    pub digits: String,
    /// The unit; empty for feet and inches, money and counts.
    pub unit: &'static str,
}

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.unit {
            "" => f.pad(&self.digits),
            // The sign stands at the digits (SI brochure, 5.4.3).
            "°" => f.pad(&format!("{}°", self.digits)),
            unit => f.pad(&format!("{} {unit}", self.digits)),
        }
    }
}

/// A figure of a plain number.
fn figure(value: f64, places: u32, system: UnitSystem, unit: &'static str) -> Figure {
    Figure {
        digits: fixed(value, places, system.grouping()),
        unit,
    }
}

/// A length of a wall or an opening: feet and inches to the nearest sixteenth of an inch, or metres
/// to the nearest millimetre.
///
/// ```
/// use hodful_quantities::{Measure, units::Length, print::{UnitSystem, length}};
/// let sill = Length::read("2' 8\"")?;
/// assert_eq!(length(sill, UnitSystem::Us).to_string(), "2' 8\"");
/// assert_eq!(length(sill, UnitSystem::Metric).to_string(), "0.813 m");
/// # Ok::<(), hodful_quantities::Misread>(())
/// ```
pub fn length(value: Length, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => Figure {
            digits: feet_inches(value),
            unit: "",
        },
        UnitSystem::Metric => figure(value.value / 1000.0, 3, system, "m"),
    }
}

/// A thickness or a depth: inches to the nearest sixteenth, or millimetres to the nearest tenth.
pub fn thickness(value: Length, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => Figure {
            digits: inches(value),
            unit: "",
        },
        UnitSystem::Metric => figure(value.value, 1, system, "mm"),
    }
}

/// An area: square feet to the nearest tenth, or square metres to the nearest hundredth.
pub fn area(value: Area, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<square_foot>(), 1, system, "ft²"),
        UnitSystem::Metric => figure(value.get::<square_meter>(), 2, system, "m²"),
    }
}

/// A volume of plaster: cubic feet to the nearest tenth, or litres to the nearest whole one.
pub fn volume(value: Volume, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<cubic_foot>(), 1, system, "ft³"),
        UnitSystem::Metric => figure(value.get::<liter>(), 0, system, "L"),
    }
}

/// A volume of what comes by the load: cubic yards or cubic metres to the nearest hundredth.
pub fn bulk_volume(value: Volume, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<cubic_yard>(), 2, system, "yd³"),
        UnitSystem::Metric => figure(value.get::<cubic_meter>(), 2, system, "m³"),
    }
}

/// A mass: pounds or kilograms to the nearest tenth.
pub fn mass(value: Mass, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<pound>(), 1, system, "lb"),
        UnitSystem::Metric => figure(value.get::<kilogram>(), 1, system, "kg"),
    }
}

/// A bulk density: pounds per cubic foot to the nearest tenth, or kilograms per cubic metre to the
/// nearest whole one.
pub fn density(value: MassDensity, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<pound_per_cubic_foot>(), 1, system, "lb/ft³"),
        UnitSystem::Metric => figure(value.get::<kilogram_per_cubic_meter>(), 0, system, "kg/m³"),
    }
}

/// A dose of fibre or binder in a mix: pounds per cubic yard or kilograms per cubic metre to the
/// nearest tenth.
pub fn dose(value: MassDensity, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<pound_per_cubic_yard>(), 1, system, "lb/yd³"),
        UnitSystem::Metric => figure(value.get::<kilogram_per_cubic_meter>(), 1, system, "kg/m³"),
    }
}

/// A share: percent to the nearest tenth.
pub fn percentage(value: Ratio, system: UnitSystem) -> Figure {
    figure(value.get::<percent>(), 1, system, "%")
}

/// An angle: degrees to the nearest tenth.
pub fn angle(value: Angle, system: UnitSystem) -> Figure {
    figure(value.get::<degree>(), 1, system, "°")
}

/// A temperature: degrees Celsius or Fahrenheit to the nearest whole one.
pub fn temperature(value: Celsius, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.0 * 9.0 / 5.0 + 32.0, 0, system, "°F"),
        UnitSystem::Metric => figure(value.0, 0, system, "°C"),
    }
}

/// A price: exact, with two decimals or as many more as it has.
///
/// ```
/// use hodful_quantities::{Measure, read::Money, print::{UnitSystem, money}};
/// assert_eq!(money(Money::read("14.5")?, UnitSystem::Us).to_string(), "14.50");
/// assert_eq!(money(Money::read("1240")?, UnitSystem::Us).to_string(), "1,240.00");
/// assert_eq!(money(Money::read("0.0375")?, UnitSystem::Us).to_string(), "0.0375");
/// # Ok::<(), hodful_quantities::Misread>(())
/// ```
pub fn money(value: Money, system: UnitSystem) -> Figure {
    let mut amount = value.amount().normalize();
    if amount.scale() < 2 {
        amount.rescale(2);
    }
    Figure {
        digits: rounding::grouped(&amount.to_string(), system.grouping()),
        unit: "",
    }
}

/// A count of whole things, exact.
///
/// With commas (`1,234`) it is not read again: with no unit the reader takes it for ambiguous.
pub fn count(value: u64, system: UnitSystem) -> Figure {
    Figure {
        digits: rounding::grouped(&value.to_string(), system.grouping()),
        unit: "",
    }
}

#[cfg(test)]
mod tests;
