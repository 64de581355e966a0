//! Reading what an estimator types: `12' 6 1/2"`, `3.81 m`, `2*4' + 6"`, `50 lb`, `22 %`.
//!
//! Here belong the readers of every kind of value, each an implementation of
//! [`Measure`](crate::Measure), and the table of units. Not here: printing (see [`crate::print`]),
//! and whether a value makes sense where it stands; a negative length is read, and refused by the
//! one who knows what it is for.
//!
//! # What may be typed
//!
//! ```text
//! sum       product, then + or - and a product, any number of times
//! product   factor, then * × · x or / ÷ and a factor, any number of times
//! factor    any signs, then ( sum ) or a quantity
//! quantity  number, or number and unit, or several of these from large to small: 12' 6 1/2", 1 m 20 cm
//! number    digits with point or comma, a fraction, or both: 12, 3.81, 3,81, 1/2, 6 1/2, 6-1/2, 6½
//! unit      a spelling of the table, or a unit per a unit: kg/m3, lb per cu yd
//! ```
//!
//! Arithmetic is exact, in fractions of whole numbers, and the result is rounded once, to the nearest
//! `f64` of the base unit. Units multiply and divide, so that `12' * 9'` is an area.
//!
//! - **Points and commas.** `3.81` and `3,81` are the same number. A comma before exactly three
//!   digits (`1,234`) groups thousands with feet, yards, pounds, gallons and the like, where a decimal
//!   comma is not in use; with metric units, inches or no unit it can be read in two ways and is
//!   refused. `0,125`, `1234,567`, `1,234,567` and `1,240.50` have one reading and are read.
//! - **Fractions.** The slash of a fraction has no blanks round it: `1/2"` is half an inch, `6' / 2`
//!   is a division. To divide by a fraction, put it in brackets.
//! - **Parts.** In a quantity of several parts only the last may have a fraction or decimals, units
//!   are of one system and come from large to small, and a part is less than one of the unit before.
//!   After feet a number with no unit is inches: `12'6`, `12' 6 1/2`.
//! - **Hyphens.** A hyphen that follows a foot mark (or `ft`, `feet`) with no blank before it, and
//!   that inches or a number with no unit follow, joins feet and inches: `12'-6 1/2"`, `12'- 6`. It is
//!   a minus when another unit follows, or × or / follows a number with no unit: `36'-2*18 in`. With
//!   a blank before it a hyphen is a minus, except that feet and less than twelve inches as the whole
//!   text, `12' - 6"`, can be read in two ways and are refused; `(12') - 6"` takes away. Between a
//!   whole number and a fraction with a unit it joins them: `6-1/2"`. As the whole text of a length
//!   `12-6.5` is 12 ft 6.5 in. The minus sign proper (U+2212) always takes away.
//! - **No unit.** A number with no unit is not a quantity, except 0.
//!
//! A text of more than 200 characters, or more than 20 brackets inside one another, is refused.

mod amount;
mod calendar;
mod exact;
mod fault;
mod kinds;
mod level;
mod lexer;
mod money;
mod number;
mod phrase;
mod plain;
mod quick;
mod sum;
mod table;

pub use amount::Amount;
pub use calendar::Day;
pub use level::Level;
pub use money::Money;
pub use plain::Number;
pub use table::{Factor, Kind, UNITS, Unit, known_units};

/// The millimetres of a length, or `None` where [`Measure::read`](crate::Measure::read) refuses it.
pub(crate) fn read_length_mm(text: &str) -> Option<f64> {
    <crate::units::Length as crate::Measure>::read(text)
        .ok()
        .map(|length| length.value)
}

#[cfg(test)]
mod tests;
