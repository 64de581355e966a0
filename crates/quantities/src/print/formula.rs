//! Figures that stand in a printed formula, so that it can be worked on a calculator.
//!
//! Units are coherent: feet, square feet, cubic feet and pounds, or metres, square metres, cubic
//! metres and kilograms, so that the digits alone multiply and divide to the digits of the result.
//! Each figure has six significant digits with no grouping ([`significant`]); a product of a few of
//! them then agrees with the printed result to a few units in the sixth digit. Not here: figures for
//! tables, which are rounded to what a trade measures.

use super::{Figure, UnitSystem, significant};
use crate::units::{
    Area, Length, Mass, MassDensity, Ratio, Volume, cubic_foot, cubic_meter, foot, kilogram,
    kilogram_per_cubic_meter, meter, pound, pound_per_cubic_foot, square_foot, square_meter,
};

/// Significant digits of a figure in a formula.
pub const DIGITS: u32 = 6;

fn figure(value: f64, unit: &'static str) -> Figure {
    Figure {
        digits: significant(value, DIGITS),
        unit,
    }
}

/// A length in feet or metres.
///
/// ```
/// use hodful_quantities::{Measure, units::Length, print::{UnitSystem, formula}};
/// let coat = Length::read("1/2 in")?;
/// assert_eq!(formula::length(coat, UnitSystem::Us).to_string(), "0.0416667 ft");
/// assert_eq!(formula::length(coat, UnitSystem::Metric).to_string(), "0.0127 m");
/// # Ok::<(), hodful_quantities::Misread>(())
/// ```
pub fn length(value: Length, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<foot>(), "ft"),
        UnitSystem::Metric => figure(value.get::<meter>(), "m"),
    }
}

/// An area in square feet or square metres.
pub fn area(value: Area, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<square_foot>(), "ft²"),
        UnitSystem::Metric => figure(value.get::<square_meter>(), "m²"),
    }
}

/// A volume in cubic feet or cubic metres.
pub fn volume(value: Volume, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<cubic_foot>(), "ft³"),
        UnitSystem::Metric => figure(value.get::<cubic_meter>(), "m³"),
    }
}

/// A mass in pounds or kilograms.
pub fn mass(value: Mass, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<pound>(), "lb"),
        UnitSystem::Metric => figure(value.get::<kilogram>(), "kg"),
    }
}

/// A mass per volume in pounds per cubic foot or kilograms per cubic metre.
pub fn density(value: MassDensity, system: UnitSystem) -> Figure {
    match system {
        UnitSystem::Us => figure(value.get::<pound_per_cubic_foot>(), "lb/ft³"),
        UnitSystem::Metric => figure(value.get::<kilogram_per_cubic_meter>(), "kg/m³"),
    }
}

/// A ratio as a plain number: 0.22, not 22 %, so that it multiplies.
pub fn ratio(value: Ratio) -> Figure {
    number(value.value)
}

/// A plain number.
pub fn number(value: f64) -> Figure {
    figure(value, "")
}
