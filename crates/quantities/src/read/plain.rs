//! A plain number, for parts of a mix and counts. Not here: numbers with a unit.

use super::fault::{Fault, misread};
use super::sum;
use super::table::Kind;
use crate::typed::{Measure, Misread};

/// A finite number with no unit.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Number(f64);

impl Number {
    /// A number; `None` when it is not finite.
    pub fn new(value: f64) -> Option<Self> {
        value.is_finite().then_some(Self(value))
    }

    /// The number.
    pub fn get(self) -> f64 {
        self.0
    }
}

impl Measure for Number {
    const WHAT: &'static str = "a number";
    const SPELLINGS: &'static str = "7, 2.5 or 1 1/2";

    /// Reads a plain number or arithmetic with such; a unit or a percentage is refused.
    ///
    /// ```
    /// use hodful_quantities::{Measure, read::Number};
    /// assert_eq!(Number::read("1 1/2")?.get(), 1.5);
    /// assert!(Number::read("7 kg").is_err());
    /// # Ok::<(), hodful_quantities::Misread>(())
    /// ```
    fn read(text: &str) -> Result<Self, Misread> {
        read(text).map_err(|fault| misread::<Self>(text, &fault))
    }
}

/// Reads a plain number.
pub(super) fn read(text: &str) -> Result<Number, Fault> {
    let found = sum::evaluate(text, Kind::Ratio, Number::WHAT)?;
    if !found.bare {
        return Err(match found.dimension.what() {
            Some(other) if other != Kind::Ratio.what() => Fault::OtherKind(other, Number::WHAT),
            _ => Fault::Says("has a unit".into()),
        });
    }
    Ok(Number(found.value))
}
