//! What is wrong with an input, and the checks that find it.
//!
//! Checks that look at one number belong here; what a shape as a whole must satisfy is checked where the shape is made.

use crate::tolerance::{MAX_LENGTH, MIN_SIZE};

/// One thing that is wrong with an input.
///
/// `field` is the path of the input as a person meets it in the project file (`"length"`, `"splay.jambs"`); `why` says in words
/// what is wrong and never repeats the value, which the caller still has as it was typed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{field} {why}")]
pub struct Fault {
    /// Path of the input, such as `"ridge_from_left"`.
    pub field: &'static str,
    /// What is wrong, in words, such as `"is negative"`.
    pub why: String,
}

impl Fault {
    pub(crate) fn new(field: &'static str, why: impl Into<String>) -> Self {
        Self {
            field,
            why: why.into(),
        }
    }
}

/// Collects every fault of one input.
#[derive(Debug, Default)]
pub(crate) struct Faults(Vec<Fault>);

impl Faults {
    pub(crate) fn add(&mut self, field: &'static str, why: impl Into<String>) {
        self.0.push(Fault::new(field, why));
    }

    pub(crate) fn count(&self) -> usize {
        self.0.len()
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// A length in millimetres that may be zero.
    pub(crate) fn length(&mut self, field: &'static str, value: f64) -> bool {
        match length_fault(value) {
            Some(why) => {
                self.add(field, why);
                false
            }
            None => true,
        }
    }

    /// A length in millimetres that must be more than zero.
    pub(crate) fn size(&mut self, field: &'static str, value: f64) -> bool {
        if !self.length(field, value) {
            return false;
        }
        if value <= 0.0 {
            self.add(field, "is zero");
            return false;
        }
        if value < MIN_SIZE {
            self.add(field, "is under a thousandth of a millimetre");
            return false;
        }
        true
    }

    pub(crate) fn into_vec(self) -> Vec<Fault> {
        self.0
    }

    pub(crate) fn or<T>(self, value: T) -> Result<T, Vec<Fault>> {
        if self.0.is_empty() {
            Ok(value)
        } else {
            Err(self.0)
        }
    }
}

/// What is wrong with a number that must be finite and not negative.
pub(crate) fn number_fault(value: f64) -> Option<&'static str> {
    if value.is_nan() {
        Some("is not a number")
    } else if value.is_infinite() {
        Some("is not finite")
    } else if value < 0.0 {
        Some("is negative")
    } else {
        None
    }
}

/// What is wrong with a length in millimetres that may be zero.
pub(crate) fn length_fault(value: f64) -> Option<&'static str> {
    number_fault(value).or((value > MAX_LENGTH).then_some("is over 10 km"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_odd_number_is_named() {
        for (value, why) in [
            (f64::NAN, "is not a number"),
            (f64::INFINITY, "is not finite"),
            (f64::NEG_INFINITY, "is not finite"),
            (-1.0, "is negative"),
            (1.0e300, "is over 10 km"),
            (0.0, "is zero"),
            (5.0e-324, "is under a thousandth of a millimetre"),
        ] {
            let mut faults = Faults::default();
            assert!(!faults.size("length", value));
            assert_eq!(faults.into_vec(), vec![Fault::new("length", why)]);
        }
    }

    #[test]
    fn a_fault_reads_as_a_sentence() {
        assert_eq!(
            Fault::new("sill", "is negative").to_string(),
            "sill is negative"
        );
    }
}
