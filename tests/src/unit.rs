//! Units that answers are printed in, with their factors written out here on their own, so that a
//! wrong factor in the program cannot hide itself. Not here: reading of what people type.

use hodful_takeoff::figure::Dimension;
use serde::Deserialize;

macro_rules! units {
    ($($variant:ident = $word:literal: $dimension:ident, $factor:expr;)+) => {
        /// A unit of an answer.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
        #[allow(missing_docs, reason = "the words say it")]
        pub enum Unit { $(#[serde(rename = $word)] $variant,)+ }

        impl Unit {
            /// Every unit.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)+];

            /// The word for it.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)+ }
            }

            /// What it is a unit of.
            pub fn dimension(self) -> Dimension {
                match self { $(Self::$variant => Dimension::$dimension,)+ }
            }

            /// One of it in base units: mm, mm², mm³, kg, kg/mm³, rad.
            pub fn in_base(self) -> f64 {
                match self { $(Self::$variant => $factor,)+ }
            }
        }
    };
}

const INCH: f64 = 25.4;
const FOOT: f64 = 12.0 * INCH;
const YARD: f64 = 3.0 * FOOT;
const METRE: f64 = 1000.0;
const POUND: f64 = 0.453_592_37;

// Source of every factor: National Institute of Standards and Technology, Special Publication 811
// (2008), appendix B, and Handbook 44, appendix C (US gallon of 231 cubic inches); from memory. Inch,
// pound and the metric units are exact by definition, the others products of them.
units! {
    Millimetre = "mm": Length, 1.0;
    Metre = "m": Length, METRE;
    Inch = "in": Length, INCH;
    Foot = "ft": Length, FOOT;
    SquareMetre = "m2": Area, METRE * METRE;
    SquareInch = "in2": Area, INCH * INCH;
    SquareFoot = "ft2": Area, FOOT * FOOT;
    SquareYard = "yd2": Area, YARD * YARD;
    CubicMetre = "m3": Volume, METRE * METRE * METRE;
    Litre = "L": Volume, METRE * METRE;
    CubicInch = "in3": Volume, INCH * INCH * INCH;
    CubicFoot = "ft3": Volume, FOOT * FOOT * FOOT;
    CubicYard = "yd3": Volume, YARD * YARD * YARD;
    Gallon = "gal": Volume, 231.0 * INCH * INCH * INCH;
    Kilogram = "kg": Mass, 1.0;
    Pound = "lb": Mass, POUND;
    KilogramPerCubicMetre = "kg/m3": Density, 1.0 / (METRE * METRE * METRE);
    Radian = "rad": Angle, 1.0;
    Ratio = "ratio": Number, 1.0;
    Percent = "percent": Number, 0.01;
    Money = "money": Money, 1.0;
}
