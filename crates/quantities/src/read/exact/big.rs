//! Fractions with room for everything, from a library. Not here: speed.

use super::Exact;
use core::cmp::Ordering;
use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{Num, ToPrimitive, Zero};

/// A fraction of whole numbers of any size.
#[derive(Debug, Clone)]
pub(in crate::read) struct Big(BigRational);

impl Exact for Big {
    fn of_digits(digits: &str, places: u32) -> Option<Self> {
        let digits = BigInt::from_str_radix(digits, 10).ok()?;
        Some(Self(BigRational::new(digits, BigInt::from(10).pow(places))))
    }

    fn of_quotient(over: u64, under: u64) -> Option<Self> {
        (under != 0).then(|| Self(BigRational::new(over.into(), under.into())))
    }

    fn plus(&self, other: &Self) -> Option<Self> {
        Some(Self(&self.0 + &other.0))
    }

    fn times(&self, other: &Self) -> Option<Self> {
        Some(Self(&self.0 * &other.0))
    }

    fn over(&self, other: &Self) -> Option<Self> {
        (!other.is_zero()).then(|| Self(&self.0 / &other.0))
    }

    fn negated(&self) -> Option<Self> {
        Some(Self(-&self.0))
    }

    fn is_zero(&self) -> bool {
        self.0.is_zero()
    }

    fn is_whole(&self) -> Option<bool> {
        Some(self.0.is_integer())
    }

    fn compare(&self, other: &Self) -> Option<Ordering> {
        Some(self.0.cmp(&other.0))
    }

    fn rounded(&self) -> Option<f64> {
        self.0.to_f64().filter(|number| number.is_finite())
    }
}
