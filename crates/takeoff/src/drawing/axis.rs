//! An axis with marks at round numbers: tenths and their doubles and halves, or inches as a rule has them
//! and feet. Not here: where the axis stands.

use crate::figure::Dimension;
use crate::sweep::Scale;
use crate::tolerance::ON_MARK;
use ecow::EcoString;
use hodful_quantities::print::{UnitSystem, feet_inches, fixed, inches};
use hodful_quantities::units::{
    Angle, Area, Length, Mass, MassDensity, Time, Volume, cubic_foot, cubic_meter, cubic_yard,
    degree, hour, inch, kilogram, kilogram_per_cubic_meter, liter, meter, millimeter, pound,
    pound_per_cubic_foot, pound_per_cubic_yard, square_foot, square_meter,
};

/// Most marks across, and most up.
const MOST_MARKS: [u32; 2] = [8, 5];

/// From inches to the next larger distance between marks, up to ten feet: as rules and tapes are marked.
const INCHES: [f64; 11] = [
    1.0 / 16.0,
    0.125,
    0.25,
    0.5,
    1.0,
    2.0,
    3.0,
    6.0,
    12.0,
    60.0,
    120.0,
];

/// Inches between marks under which a rule has none.
const FINEST: f64 = 1.0 / 32.0;

/// Inches in a foot.
const FOOT: f64 = 12.0;

/// Share of the greatest value over which all values may lie and still be drawn from nothing.
const FROM_NOTHING: f64 = 0.75;

/// An axis.
#[derive(Debug)]
pub(super) struct Axis {
    /// Its ends, in units shown.
    ends: [f64; 2],
    /// From one mark to the next, in units shown.
    step: f64,
    print: Print,
    /// From base units to units shown: times the first, plus the second.
    to_shown: [f64; 2],
    /// The unit of its numbers, in words where there is no sign.
    pub(super) unit: EcoString,
}

/// How its numbers are printed.
#[derive(Debug, Clone, Copy)]
enum Print {
    /// So many decimals.
    Decimals(u32, UnitSystem),
    /// Inches, `1 1/2"`.
    Inches,
    /// Feet and inches.
    Feet,
}

/// Units that numbers are shown in.
struct Shown {
    /// How many base units one is.
    one: f64,
    /// What is added.
    plus: f64,
    unit: EcoString,
    is_inches: Option<Print>,
}

impl Shown {
    fn of(one: f64, unit: &str) -> Self {
        Self {
            one,
            plus: 0.0,
            unit: unit.into(),
            is_inches: None,
        }
    }
}

impl Axis {
    /// The axis of an input: from end to end of its range. `None` when there is no drawing such numbers.
    pub(super) fn of_input(scale: &Scale, from: f64, to: f64, units: UnitSystem) -> Option<Self> {
        let shown = of_scale(scale, from.abs().max(to.abs()), units);
        // A range of one value stands in the middle.
        let around = if from.abs() > 0.0 {
            from.abs() / 2.0
        } else {
            shown.one
        };
        let (from, to) = if to > from {
            (from, to)
        } else {
            (from - around, from + around)
        };
        Self::new(shown, [from, to], MOST_MARKS[0], units)
    }

    /// The axis of a figure: from nothing, unless all its values are much alike, and to a mark over the
    /// greatest. `None` when there is no drawing such numbers.
    pub(super) fn of_figure(
        dimension: Dimension,
        least: f64,
        most: f64,
        units: UnitSystem,
    ) -> Option<Self> {
        let shown = of_dimension(dimension, least.abs().max(most.abs()), units);
        let (from, to) = if most > least {
            if least >= 0.0 && least <= most * FROM_NOTHING {
                (0.0, most)
            } else {
                (least, most)
            }
        } else {
            (least.min(0.0), if most > 0.0 { most } else { shown.one })
        };
        let mut axis = Self::new(shown, [from, to], MOST_MARKS[1], units)?;
        axis.whole_things(dimension, units);
        let [low, high] = axis.ends.map(|end| near(end / axis.step));
        axis.ends = [low.floor() * axis.step, high.ceil() * axis.step];
        let span = axis.ends[1] - axis.ends[0];
        (span.is_finite() && span > 0.0).then_some(axis)
    }

    /// The axis of values of a figure, from end to end. `None` when there is no drawing such numbers, or the ends
    /// are one.
    pub(super) fn of_values(
        dimension: Dimension,
        from: f64,
        to: f64,
        units: UnitSystem,
    ) -> Option<Self> {
        let shown = of_dimension(dimension, from.abs().max(to.abs()), units);
        let mut axis = Self::new(shown, [from, to], MOST_MARKS[0], units)?;
        axis.whole_things(dimension, units);
        Some(axis)
    }

    /// Whole things have no mark between them.
    fn whole_things(&mut self, dimension: Dimension, units: UnitSystem) {
        if dimension == Dimension::Count && self.step < 1.0 {
            self.step = 1.0;
            self.print = Print::Decimals(0, units);
        }
    }

    fn new(mut shown: Shown, ends: [f64; 2], most: u32, units: UnitSystem) -> Option<Self> {
        let ends = ends.map(|end| end / shown.one + shown.plus);
        let span = ends[1] - ends[0];
        if !(span.is_finite() && span > 0.0) {
            return None;
        }
        let least = span / f64::from(most);
        let (step, print) = match shown.is_inches {
            Some(print) if least >= FINEST => (in_inches(least)?, print),
            // Between two marks of a rule there are decimals only.
            Some(_) => {
                shown.unit = "in".into();
                in_tenths(least, units)?
            }
            None => in_tenths(least, units)?,
        };
        Some(Self {
            ends,
            step,
            print,
            to_shown: [1.0 / shown.one, shown.plus],
            unit: shown.unit,
        })
    }

    /// How far along the axis a value in base units is: 0 at its beginning, 1 at its end.
    pub(super) fn share(&self, value: f64) -> f64 {
        let [times, plus] = self.to_shown;
        self.along(value * times + plus)
    }

    fn along(&self, shown: f64) -> f64 {
        let [from, to] = self.ends;
        (shown - from) / (to - from)
    }

    /// How far along each mark is, and its number.
    pub(super) fn marks(&self) -> impl Iterator<Item = (f64, EcoString)> {
        let [first, last] = self.ends.map(|end| near(end / self.step));
        let first = first.ceil();
        let most = MOST_MARKS[0].saturating_add(2);
        (0..most)
            .map(move |i| first + f64::from(i))
            .take_while(move |number| *number <= last)
            .map(|number| number * self.step)
            .map(|at| (self.along(at), self.printed(at)))
    }

    fn printed(&self, shown: f64) -> EcoString {
        match self.print {
            Print::Decimals(places, units) => fixed(shown, places, units.grouping()).into(),
            Print::Inches => inches(Length::new::<inch>(shown)).into(),
            Print::Feet => feet_inches(Length::new::<inch>(shown)).into(),
        }
    }
}

/// A number of marks that rounding kept from being whole, whole.
fn near(number: f64) -> f64 {
    let whole = number.round();
    if (number - whole).abs() <= ON_MARK {
        whole
    } else {
        number
    }
}

/// The round number next over one: 1, 2 or 5 and zeros. `None` for what is past all numbers.
fn in_tenths(least: f64, units: UnitSystem) -> Option<(f64, Print)> {
    let mut power = libm::floor(libm::log10(least));
    let over = |power: f64| least / libm::pow(10.0, power);
    let lead = match near(over(power)) {
        lead if lead <= 1.0 => 1.0,
        lead if lead <= 2.0 => 2.0,
        lead if lead <= 5.0 => 5.0,
        _ => {
            power += 1.0;
            1.0
        }
    };
    // A whole power of ten is exact, and its inverse as near as a number can be.
    let step = if power < 0.0 {
        lead / libm::pow(10.0, -power)
    } else {
        lead * libm::pow(10.0, power)
    };
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 0 and some hundreds"
    )]
    let places = (-power).clamp(0.0, 400.0) as u32;
    (step.is_finite() && step > 0.0).then_some((step, Print::Decimals(places, units)))
}

/// The same in inches, as they are marked on rules and tapes.
fn in_inches(least: f64) -> Option<f64> {
    let on_a_rule = INCHES.iter().copied().find(|step| *step >= least);
    on_a_rule.or_else(|| {
        let (feet, _) = in_tenths(least / FOOT, UnitSystem::Us)?;
        Some(feet * FOOT)
    })
}

fn of_scale(scale: &Scale, most: f64, units: UnitSystem) -> Shown {
    let us = units == UnitSystem::Us;
    let in_inches = |print, unit: &str| Shown {
        is_inches: Some(print),
        ..Shown::of(Length::new::<inch>(1.0).value, unit)
    };
    match scale {
        Scale::Length if us => in_inches(Print::Feet, "ft in"),
        Scale::Thickness if us => in_inches(Print::Inches, "in"),
        Scale::Length => Shown::of(Length::new::<meter>(1.0).value, "m"),
        Scale::Thickness => Shown::of(Length::new::<millimeter>(1.0).value, "mm"),
        Scale::Angle => Shown::of(Angle::new::<degree>(1.0).value, "°"),
        Scale::Share => Shown::of(0.01, "%"),
        Scale::Density if us => Shown::of(
            MassDensity::new::<pound_per_cubic_foot>(1.0).value,
            "lb/ft³",
        ),
        Scale::Dose if us => Shown::of(
            MassDensity::new::<pound_per_cubic_yard>(1.0).value,
            "lb/yd³",
        ),
        Scale::Density | Scale::Dose => Shown::of(
            MassDensity::new::<kilogram_per_cubic_meter>(1.0).value,
            "kg/m³",
        ),
        Scale::Volume => of_dimension(Dimension::Volume, most, units),
        Scale::Mass => of_dimension(Dimension::Mass, most, units),
        Scale::Time => Shown::of(Time::new::<hour>(1.0).value, "h"),
        Scale::Temperature if us => Shown {
            plus: 32.0,
            ..Shown::of(5.0 / 9.0, "°F")
        },
        Scale::Temperature => Shown::of(1.0, "°C"),
        Scale::Money => Shown::of(1.0, "money"),
        Scale::Number | Scale::Count => Shown::of(1.0, "number"),
        Scale::Packages(name) => Shown::of(1.0, name),
    }
}

fn of_dimension(dimension: Dimension, most: f64, units: UnitSystem) -> Shown {
    let us = units == UnitSystem::Us;
    let (cubic_yards, cubic_metres) = (
        Volume::new::<cubic_yard>(1.0).value,
        Volume::new::<cubic_meter>(1.0).value,
    );
    match dimension {
        Dimension::Area if us => Shown::of(Area::new::<square_foot>(1.0).value, "ft²"),
        Dimension::Area => Shown::of(Area::new::<square_meter>(1.0).value, "m²"),
        Dimension::Volume if us && most >= cubic_yards => Shown::of(cubic_yards, "yd³"),
        Dimension::Volume if us => Shown::of(Volume::new::<cubic_foot>(1.0).value, "ft³"),
        Dimension::Volume if most >= cubic_metres => Shown::of(cubic_metres, "m³"),
        Dimension::Volume => Shown::of(Volume::new::<liter>(1.0).value, "L"),
        Dimension::Mass if us => Shown::of(Mass::new::<pound>(1.0).value, "lb"),
        Dimension::Mass => Shown::of(Mass::new::<kilogram>(1.0).value, "kg"),
        Dimension::Money => Shown::of(1.0, "money"),
        Dimension::Count | Dimension::Number => Shown::of(1.0, "number"),
        // No figure of a comparison is one of these.
        Dimension::Length => of_scale(&Scale::Length, most, units),
        Dimension::Density => of_scale(&Scale::Density, most, units),
        Dimension::Angle => of_scale(&Scale::Angle, most, units),
    }
}
