//! A share of a whole that leaves something over: loss, shrinkage, reject. Not here: percentages
//! that may reach or pass the whole, such as moisture.

use crate::units::{Ratio, ratio};

/// A number in `[0, 1)`.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Fraction(f64);

impl Fraction {
    /// Nothing.
    pub const ZERO: Self = Self(0.0);

    /// Checks a ratio.
    ///
    /// # Errors
    /// [`NotAFraction`] when it is negative, not finite, or at or over the whole.
    ///
    /// ```
    /// use hodful_quantities::{Fraction, units::{Ratio, percent}};
    /// assert!(Fraction::new(Ratio::new::<percent>(7.0)).is_ok());
    /// assert!(Fraction::new(Ratio::new::<percent>(100.0)).is_err());
    /// ```
    pub fn new(value: Ratio) -> Result<Self, NotAFraction> {
        let value = value.get::<ratio>();
        if (0.0..1.0).contains(&value) {
            Ok(Self(value))
        } else {
            Err(NotAFraction)
        }
    }

    /// The share itself.
    pub fn get(self) -> f64 {
        self.0
    }

    /// What is left of the whole, in `(0, 1]`.
    pub fn left(self) -> f64 {
        1.0 - self.0
    }
}

/// A share that is negative or takes the whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("must be at least 0 % and under 100 %")]
pub struct NotAFraction;
