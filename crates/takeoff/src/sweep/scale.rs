//! The numbers of a field: how they are read, written so that the text is the number, and shown. Not
//! here: which field.

use super::way::Point;
use crate::form::Kind;
use ecow::{EcoString, eco_format};
use hodful_quantities::Measure;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::{Amount, Money, Number};
use hodful_quantities::units::{
    Angle, Celsius, Length, Mass, MassDensity, Ratio, Time, Volume, angle_of_radians, cubic_yard,
    density_of_kg_per_mm3, length_of_mm, mass_of_kg, ratio_of, time_of_seconds, volume_of_mm3,
};

/// Digits of a plain number that are shown.
const DIGITS: u32 = 6;

/// The same where a step or a limit is told.
const FEW_DIGITS: u32 = 3;

/// How often a step down is doubled until another value is shown: from the last bit of a number to all of it.
const HALVINGS: u32 = 64;

/// What the numbers of a field measure, and how they are shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Scale {
    /// Millimetres.
    Length,
    /// Millimetres, shown as a thickness.
    Thickness,
    /// Radians.
    Angle,
    /// A share; one is all.
    Share,
    /// Kilograms per cubic millimetre.
    Density,
    /// Kilograms per cubic millimetre that a mix takes.
    Dose,
    /// Cubic millimetres.
    Volume,
    /// Kilograms.
    Mass,
    /// Seconds.
    Time,
    /// Degrees Celsius.
    Temperature,
    /// Money, to four decimals.
    Money,
    /// A plain number.
    Number,
    /// A whole number.
    Count,
    /// So many of a package.
    Packages(EcoString),
}

impl Scale {
    /// That of a kind of field; an amount is counted in what it was typed in. `None` for what holds no
    /// single number.
    pub fn of(kind: &Kind, text: Option<&str>) -> Option<Self> {
        Some(match kind {
            Kind::Length => Self::Length,
            Kind::Thickness => Self::Thickness,
            Kind::Angle => Self::Angle,
            Kind::Share => Self::Share,
            Kind::Density => Self::Density,
            Kind::Dose => Self::Dose,
            Kind::Volume => Self::Volume,
            Kind::Mass => Self::Mass,
            Kind::Time => Self::Time,
            Kind::Temperature => Self::Temperature,
            Kind::Money => Self::Money,
            Kind::Number => Self::Number,
            Kind::Count => Self::Count,
            Kind::Amount | Kind::Mixed => match Amount::read(text?).ok()? {
                Amount::Volume(_) => Self::Volume,
                Amount::Mass(_) => Self::Mass,
                Amount::Packages { name, .. } => Self::Packages(name),
            },
            Kind::Level
            | Kind::Day
            | Kind::ShareRange
            | Kind::NumberRange
            | Kind::Sieves
            | Kind::SieveRanges
            | Kind::Text
            | Kind::Id
            | Kind::OneOf(_)
            | Kind::SomeOf(_)
            | Kind::Corners
            | Kind::Area
            | Kind::Days
            | Kind::Facing => return None,
        })
    }

    /// What a text means, in base units; `None` for what is not of this kind.
    pub fn read(&self, text: &str) -> Option<f64> {
        fn by<T: Measure>(text: &str, number: impl Fn(T) -> f64) -> Option<f64> {
            T::read(text).ok().map(number)
        }
        match self {
            Self::Length | Self::Thickness => by::<Length>(text, |v| v.value),
            Self::Angle => by::<Angle>(text, |v| v.value),
            Self::Share => by::<Ratio>(text, |v| v.value),
            Self::Density | Self::Dose => by::<MassDensity>(text, |v| v.value),
            Self::Volume => by::<Volume>(text, |v| v.value),
            Self::Mass => by::<Mass>(text, |v| v.value),
            Self::Time => by::<Time>(text, |v| v.value),
            Self::Temperature => by::<Celsius>(text, |v| v.0),
            Self::Money => by::<Money>(text, Money::to_f64),
            Self::Number => by::<Number>(text, Number::get),
            Self::Count => text.trim().parse::<u32>().ok().map(f64::from),
            Self::Packages(of) => match Amount::read(text).ok()? {
                Amount::Packages { count, name } if name == *of => Some(count),
                _ => None,
            },
        }
        .filter(|value| value.is_finite())
    }

    /// A value with the text for it. Where only some numbers can be written (whole ones, money), it is
    /// the nearest of them.
    pub(super) fn point(&self, x: f64) -> Point {
        let text = self.text(x);
        match self.read(&text) {
            Some(x) => Point {
                x,
                text: Some(text),
            },
            None => Point { x, text: None },
        }
    }

    /// The same of a value rounded to so many decimals.
    pub(super) fn rounded(&self, x: f64, decimals: usize) -> Point {
        let rounded = format!("{x:.decimals$}").parse();
        self.point(rounded.unwrap_or(x))
    }

    /// A number has the shortest digits that are read as it, and the reader is exact.
    fn text(&self, x: f64) -> EcoString {
        match self {
            Self::Length | Self::Thickness => eco_format!("{x} mm"),
            Self::Angle => eco_format!("{x} rad"),
            // One and more would be read in two ways as it stands.
            Self::Share if x.abs() < 1.0 => eco_format!("{x}"),
            Self::Share => eco_format!("{x} * 100 %"),
            Self::Density | Self::Dose => eco_format!("{x} kg/mm3"),
            Self::Volume => eco_format!("{x} mm3"),
            Self::Mass => eco_format!("{x} kg"),
            Self::Time => eco_format!("{x} s"),
            Self::Temperature => eco_format!("{x} C"),
            Self::Money => eco_format!("{x:.4}"),
            Self::Number => eco_format!("{x}"),
            Self::Count => eco_format!("{x:.0}"),
            Self::Packages(name) => eco_format!("{x} {name}"),
        }
    }

    /// The greatest value that can be shown in the units of a project and is no more than this one: where a limit or a
    /// step is told, what is shown must still be on this side of it. As [`Scale::show`] where what is shown cannot be
    /// read back.
    ///
    /// ```
    /// use hodful_quantities::print::UnitSystem;
    /// use hodful_takeoff::sweep::Scale;
    /// assert_eq!(Scale::Thickness.show(38.09, UnitSystem::Us), "1 1/2\"");
    /// assert_eq!(Scale::Thickness.show_below(38.09, UnitSystem::Us), "1 7/16\"");
    /// assert_eq!(Scale::Thickness.show_below(38.1, UnitSystem::Us), "1 1/2\"");
    /// assert_eq!(Scale::Number.show_below(0.250_858, UnitSystem::Us), "0.25");
    /// ```
    pub fn show_below(&self, value: f64, units: UnitSystem) -> EcoString {
        self.show_on_side(value, units, -1.0)
    }

    /// The same the other way: the least value that can be shown and is no less than this one.
    ///
    /// ```
    /// use hodful_quantities::print::UnitSystem;
    /// use hodful_takeoff::sweep::Scale;
    /// assert_eq!(Scale::Thickness.show_above(38.11, UnitSystem::Us), "1 9/16\"");
    /// assert_eq!(Scale::Thickness.show_above(38.1, UnitSystem::Us), "1 1/2\"");
    /// ```
    pub fn show_above(&self, value: f64, units: UnitSystem) -> EcoString {
        self.show_on_side(value, units, 1.0)
    }

    /// What is shown on one side of a value: `way` is 1 above it, -1 below.
    fn show_on_side(&self, value: f64, units: UnitSystem, way: f64) -> EcoString {
        let shown = |value: f64| match self {
            Self::Number | Self::Packages(_) => self.plain(value, FEW_DIGITS),
            _ => self.show(value, units),
        };
        let nearest = shown(value);
        let past = |shown: &str| {
            let off = (value - self.read_shown(shown)?) * way;
            Some(off).filter(|off| *off > 0.0)
        };
        let Some(off) = past(&nearest) else {
            return nearest;
        };
        // The nearest is past it by half a step of what is shown at most: the first other one, going on by twice as
        // much each time, is the next.
        let mut more = off;
        for _ in 0..HALVINGS {
            let shown = shown(value + way * more);
            if shown != nearest && past(&shown).is_none() {
                return shown;
            }
            more *= 2.0;
        }
        nearest
    }

    /// What is shown, read back.
    fn read_shown(&self, shown: &str) -> Option<f64> {
        // Thousands are grouped by a thin space or a comma, and before a package stands a times sign.
        let is_read = |c: &char| !matches!(c, '\u{202f}' | ',' | '×');
        let plain: String = shown.chars().filter(is_read).collect();
        self.read(&plain)
    }

    /// A value in the units of a project.
    ///
    /// ```
    /// use hodful_quantities::print::UnitSystem;
    /// use hodful_takeoff::sweep::Scale;
    /// assert_eq!(Scale::Thickness.show(38.1, UnitSystem::Us), "1 1/2\"");
    /// assert_eq!(Scale::Share.show(0.02, UnitSystem::Metric), "2.0 %");
    /// ```
    pub fn show(&self, value: f64, units: UnitSystem) -> EcoString {
        let volume = volume_of_mm3(value);
        let figure = match self {
            Self::Length => print::length(length_of_mm(value), units),
            Self::Thickness => print::thickness(length_of_mm(value), units),
            Self::Angle => print::angle(angle_of_radians(value), units),
            Self::Share => print::percentage(ratio_of(value), units),
            Self::Density => print::density(density_of_kg_per_mm3(value), units),
            Self::Dose => print::dose(density_of_kg_per_mm3(value), units),
            Self::Volume if volume.get::<cubic_yard>() >= 1.0 => print::bulk_volume(volume, units),
            Self::Volume => print::volume(volume, units),
            Self::Mass => print::mass(mass_of_kg(value), units),
            Self::Time => return eco_format!("{}", print::time(time_of_seconds(value))),
            Self::Temperature => print::temperature(Celsius(value), units),
            Self::Money => return print::fixed(value, 2, units.grouping()).into(),
            Self::Count => return print::fixed(value, 0, units.grouping()).into(),
            Self::Number | Self::Packages(_) => return self.plain(value, DIGITS),
        };
        eco_format!("{figure}")
    }

    /// A plain number, of a package or by itself, to so many digits.
    fn plain(&self, value: f64, digits: u32) -> EcoString {
        let number = print::significant(value, digits);
        match self {
            Self::Packages(name) => eco_format!("{number} × {name}"),
            _ => number.into(),
        }
    }
}
