//! The system of quantities: the International System with the millimetre as base unit of length.
//!
//! With a metre base, whole millimetres do not come back whole from `f64` (9 mm reads
//! 9.000 000 000 000 002); with a millimetre base they do. Units of the United States system stand
//! here with their exact factors, because the units library carries several of them (pound, cubic
//! foot, cubic yard, gallon) rounded to seven digits. Not here: reading, printing, and the table of
//! units as they are typed (see `read`).

use core::marker::PhantomData;

/// Quantities over `f64` with millimetre, kilogram and second as base units.
pub mod mm {
    #![allow(
        missing_docs,
        unused_qualifications,
        clippy::pedantic,
        reason = "written by a macro of the units library"
    )]
    ISQ!(
        uom::si,
        f64,
        (millimeter, kilogram, second, ampere, kelvin, mole, candela)
    );
}

/// Units of volume by their definitions: inch 25.4 mm exactly, US gallon 231 in³, imperial gallon
/// 4.546 09 L. Source: NIST Handbook 44, appendix C; NIST Special Publication 811, appendix B.
pub mod exact_volume {
    #![allow(
        missing_docs,
        missing_debug_implementations,
        unused_qualifications,
        clippy::pedantic,
        reason = "written by a macro of the units library"
    )]
    unit! {
        system: uom::si;
        quantity: uom::si::volume;

        @cubic_inch: 1.638_706_4_E-5; "in³", "cubic inch", "cubic inches";
        @cubic_foot: 2.831_684_659_2_E-2; "ft³", "cubic foot", "cubic feet";
        @cubic_yard: 7.645_548_579_84_E-1; "yd³", "cubic yard", "cubic yards";
        @gallon: 3.785_411_784_E-3; "gal", "gallon", "gallons";
        @imperial_gallon: 4.546_09_E-3; "imp gal", "imperial gallon", "imperial gallons";
    }
}

/// Units of mass by their definitions: pound 0.453 592 37 kg exactly, ounce a sixteenth, short ton
/// 2000 lb. Source: as [`exact_volume`].
pub mod exact_mass {
    #![allow(
        missing_docs,
        missing_debug_implementations,
        unused_qualifications,
        clippy::pedantic,
        reason = "written by a macro of the units library"
    )]
    unit! {
        system: uom::si;
        quantity: uom::si::mass;

        @ounce: 2.834_952_312_5_E-2; "oz", "ounce", "ounces";
        @pound: 4.535_923_7_E-1; "lb", "pound", "pounds";
        @short_ton: 9.071_847_4_E2; "short ton", "short ton", "short tons";
    }
}

/// Units of mass per volume, from the exact pound, foot and yard.
pub mod exact_mass_density {
    #![allow(
        missing_docs,
        missing_debug_implementations,
        unused_qualifications,
        clippy::pedantic,
        reason = "written by a macro of the units library"
    )]
    unit! {
        system: uom::si;
        quantity: uom::si::mass_density;

        @pound_per_cubic_foot: 4.535_923_7_E-1 / 2.831_684_659_2_E-2;
            "lb/ft³", "pound per cubic foot", "pounds per cubic foot";
        @pound_per_cubic_yard: 4.535_923_7_E-1 / 7.645_548_579_84_E-1;
            "lb/yd³", "pound per cubic yard", "pounds per cubic yard";
    }
}

pub use exact_mass::{ounce, pound, short_ton};
pub use exact_mass_density::{pound_per_cubic_foot, pound_per_cubic_yard};
pub use exact_volume::{cubic_foot, cubic_inch, cubic_yard, gallon, imperial_gallon};
pub use mm::{Angle, Area, Length, Mass, MassDensity, Ratio, Time, Volume};
pub use uom::si::{
    angle::{degree, radian},
    area::{square_foot, square_inch, square_meter, square_millimeter, square_yard},
    length::{centimeter, foot, inch, meter, millimeter, yard},
    mass::{gram, kilogram},
    mass_density::kilogram_per_cubic_meter,
    ratio::{percent, ratio},
    time::{day, hour, minute, second},
    volume::{cubic_meter, cubic_millimeter, liter, milliliter},
};

/// A length from millimetres, bit for bit.
pub fn length_of_mm(value: f64) -> Length {
    Length {
        dimension: PhantomData,
        units: PhantomData,
        value,
    }
}

/// An area from square millimetres, bit for bit.
pub fn area_of_mm2(value: f64) -> Area {
    Area {
        dimension: PhantomData,
        units: PhantomData,
        value,
    }
}

/// A volume from cubic millimetres, bit for bit.
pub fn volume_of_mm3(value: f64) -> Volume {
    Volume {
        dimension: PhantomData,
        units: PhantomData,
        value,
    }
}

/// A mass from kilograms, bit for bit.
pub fn mass_of_kg(value: f64) -> Mass {
    Mass {
        dimension: PhantomData,
        units: PhantomData,
        value,
    }
}

/// A mass per volume from kilograms per cubic millimetre, bit for bit.
pub fn density_of_kg_per_mm3(value: f64) -> MassDensity {
    MassDensity {
        dimension: PhantomData,
        units: PhantomData,
        value,
    }
}

/// A ratio from a plain number (0.22 for 22 %), bit for bit.
pub fn ratio_of(value: f64) -> Ratio {
    Ratio {
        dimension: PhantomData,
        units: PhantomData,
        value,
    }
}

/// An angle from radians, bit for bit.
pub fn angle_of_radians(value: f64) -> Angle {
    Angle {
        dimension: PhantomData,
        units: PhantomData,
        value,
    }
}

/// A time from seconds, bit for bit.
pub fn time_of_seconds(value: f64) -> Time {
    Time {
        dimension: PhantomData,
        units: PhantomData,
        value,
    }
}

/// A temperature in degrees Celsius.
///
/// No quantity of the units library: there a temperature and a difference of temperatures are two
/// things, and one cannot be had from the other without care for which is meant.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Celsius(pub f64);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_millimetres_come_back_whole() {
        for n in 1..=20_000 {
            let n = f64::from(n);
            let back = Length::new::<millimeter>(n).get::<millimeter>();
            assert_eq!(n.to_bits(), back.to_bits());
        }
    }

    /// The exact values are those printed in full in NIST Handbook 44, appendix C (from memory:
    /// 28 316.846 592 cm³, 764.554 857 984 L, 3.785 411 784 L, 453.592 37 g, 907.184 74 kg).
    #[test]
    fn united_states_units_are_exact() {
        fn check(value: f64, expected: f64) {
            assert!(
                (value / expected - 1.0).abs() < 4.0 * f64::EPSILON,
                "{value} {expected}"
            );
        }
        check(Volume::new::<cubic_foot>(1.0).value, 28_316_846.592);
        check(Volume::new::<cubic_yard>(1.0).value, 764_554_857.984);
        check(Volume::new::<gallon>(1.0).value, 3_785_411.784);
        check(Volume::new::<imperial_gallon>(1.0).value, 4_546_090.0);
        check(Volume::new::<cubic_inch>(1.0).value, 16_387.064);
        check(Mass::new::<pound>(1.0).value, 0.453_592_37);
        check(Mass::new::<ounce>(1.0).value, 0.028_349_523_125);
        check(Mass::new::<short_ton>(1.0).value, 907.184_74);
        check(Area::new::<square_foot>(1.0).value, 92_903.04);
        check(Area::new::<square_yard>(1.0).value, 836_127.36);
        // 0.453 592 37 kg in 0.028 316 846 592 m³.
        check(
            MassDensity::new::<pound_per_cubic_foot>(1.0).value,
            0.453_592_37 / 28_316_846.592,
        );
        check(
            MassDensity::new::<pound_per_cubic_yard>(1.0).value,
            0.453_592_37 / 764_554_857.984,
        );
    }
}
