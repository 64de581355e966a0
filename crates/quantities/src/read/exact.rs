//! Exact values with their dimension: what the arithmetic of typed values works on, so that a value
//! is rounded once, at its end. Not here: text.

mod big;
mod small;

pub(super) use big::Big;
pub(super) use small::Small;

use super::fault::Fault;
use super::table::{Factor, Kind, Unit};
use core::cmp::Ordering;

/// The digits of pi, and the places after its point. Source: OEIS A000796 (from memory; held against
/// the constant of the language in a test).
pub(super) const PI_DIGITS: &str = "3141592653589793238462643383279502884";
pub(super) const PI_PLACES: u32 = 36;

/// The highest power of a base unit that arithmetic may pass through.
const HIGHEST: i8 = 9;

/// A fraction of whole numbers. `None` stands for a result that the kind of number has no room for:
/// [`Small`] has room for what is usually typed, [`Big`] for everything.
pub(super) trait Exact: Clone {
    /// Whole digits with so many of them after the point.
    fn of_digits(digits: &str, places: u32) -> Option<Self>;
    /// A quotient; `None` also when `under` is 0.
    fn of_quotient(over: u64, under: u64) -> Option<Self>;
    fn plus(&self, other: &Self) -> Option<Self>;
    fn times(&self, other: &Self) -> Option<Self>;
    /// The quotient; `None` also when `other` is 0, which [`Self::is_zero`] tells apart.
    fn over(&self, other: &Self) -> Option<Self>;
    fn negated(&self) -> Option<Self>;
    fn is_zero(&self) -> bool;
    fn is_whole(&self) -> Option<bool>;
    fn compare(&self, other: &Self) -> Option<Ordering>;
    /// The nearest `f64`, ties to even.
    fn rounded(&self) -> Option<f64>;

    fn one() -> Option<Self> {
        Self::of_quotient(1, 1)
    }
}

/// Powers of length, mass, angle and time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Dimension {
    length: i8,
    mass: i8,
    angle: i8,
    time: i8,
}

impl Dimension {
    pub(super) const fn of(kind: Kind) -> Self {
        let (length, mass, angle, time) = match kind {
            Kind::Length => (1, 0, 0, 0),
            Kind::Area => (2, 0, 0, 0),
            Kind::Volume => (3, 0, 0, 0),
            Kind::Mass => (0, 1, 0, 0),
            Kind::MassDensity => (-3, 1, 0, 0),
            Kind::Ratio => (0, 0, 0, 0),
            Kind::Angle => (0, 0, 1, 0),
            Kind::Time => (0, 0, 0, 1),
        };
        Self {
            length,
            mass,
            angle,
            time,
        }
    }

    /// The dimension in words; `None` for one that has no name here.
    pub(super) fn what(self) -> Option<&'static str> {
        use Kind::{Angle, Area, Length, Mass, MassDensity, Ratio, Time, Volume};
        [Length, Area, Volume, Mass, MassDensity, Ratio, Angle, Time]
            .into_iter()
            .find(|kind| Self::of(*kind) == self)
            .map(Kind::what)
    }

    /// The dimension of a product (sign 1) or a quotient (sign -1); `None` when a power gets out of
    /// all measure.
    fn times(self, other: Self, sign: i8) -> Option<Self> {
        let power = |a: i8, b: i8| {
            a.checked_add(b.checked_mul(sign)?)
                .filter(|p| p.abs() <= HIGHEST)
        };
        Some(Self {
            length: power(self.length, other.length)?,
            mass: power(self.mass, other.mass)?,
            angle: power(self.angle, other.angle)?,
            time: power(self.time, other.time)?,
        })
    }
}

/// An exact value in base units.
#[derive(Debug, Clone)]
pub(super) struct Value<E> {
    pub(super) number: E,
    pub(super) dimension: Dimension,
    /// Whether no unit was typed with it.
    pub(super) bare: bool,
}

impl<E: Exact> Value<E> {
    pub(super) fn bare(number: E) -> Self {
        Self {
            number,
            dimension: Dimension::default(),
            bare: true,
        }
    }

    /// So many of a unit.
    pub(super) fn of(number: &E, unit: &Unit) -> Result<Self, Fault> {
        let number = number.times(&factor(unit)?).ok_or(Fault::TooLarge)?;
        Ok(Self {
            number,
            dimension: Dimension::of(unit.kind),
            bare: false,
        })
    }

    pub(super) fn negated(self) -> Result<Self, Fault> {
        Ok(Self {
            number: self.number.negated().ok_or(Fault::TooLarge)?,
            ..self
        })
    }

    /// The sum.
    ///
    /// # Errors
    /// The two are of unlike dimension.
    pub(super) fn plus(&self, other: &Self) -> Result<Self, Fault> {
        if self.dimension != other.dimension {
            let what = |d: Dimension| d.what().unwrap_or("something else");
            return Err(Fault::Unlike(what(self.dimension), what(other.dimension)));
        }
        let number = self.number.plus(&other.number).ok_or(Fault::TooLarge)?;
        Ok(Self {
            number,
            dimension: self.dimension,
            bare: self.bare && other.bare,
        })
    }

    /// The product.
    ///
    /// # Errors
    /// A power of a unit gets out of all measure.
    pub(super) fn times(&self, other: &Self) -> Result<Self, Fault> {
        let dimension = self
            .dimension
            .times(other.dimension, 1)
            .ok_or(Fault::TooManyUnits)?;
        let number = self.number.times(&other.number).ok_or(Fault::TooLarge)?;
        Ok(Self {
            number,
            dimension,
            bare: self.bare && other.bare,
        })
    }

    /// The quotient.
    ///
    /// # Errors
    /// Division by zero, or as [`Self::times`].
    pub(super) fn over(&self, other: &Self) -> Result<Self, Fault> {
        if other.number.is_zero() {
            return Err(Fault::ByZero);
        }
        let dimension = self
            .dimension
            .times(other.dimension, -1)
            .ok_or(Fault::TooManyUnits)?;
        let number = self.number.over(&other.number).ok_or(Fault::TooLarge)?;
        Ok(Self {
            number,
            dimension,
            bare: self.bare && other.bare,
        })
    }
}

/// The size of a unit in base units of its kind: exact, or for degrees to 36 digits of pi.
pub(super) fn factor<E: Exact>(unit: &Unit) -> Result<E, Fault> {
    let factor = match unit.factor {
        Factor::Exact(over, under) => E::of_quotient(over, under),
        Factor::PiOver(under) => {
            E::of_digits(PI_DIGITS, PI_PLACES).and_then(|pi| pi.over(&E::of_quotient(under, 1)?))
        }
    };
    factor.ok_or(Fault::TooLarge)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn pi_is_the_pi_of_the_language() {
        let pi = Big::of_digits(PI_DIGITS, PI_PLACES)
            .unwrap()
            .rounded()
            .unwrap();
        assert_eq!(pi.to_bits(), core::f64::consts::PI.to_bits());
    }

    #[test]
    fn decimals_round_as_the_language_rounds_them() {
        for text in [
            "0.1",
            "3822.7",
            "123456789.123456789",
            "0.000001",
            "9007199254740993.0",
        ] {
            let digits = text.replace('.', "");
            let places = text.split_once('.').map_or(0, |(_, part)| part.len());
            let places = u32::try_from(places).unwrap();
            let expected: f64 = text.parse().unwrap();
            let big = Big::of_digits(&digits, places).unwrap().rounded().unwrap();
            assert_eq!(big.to_bits(), expected.to_bits());
            if let Some(small) = Small::of_digits(&digits, places).unwrap().rounded() {
                assert_eq!(small.to_bits(), expected.to_bits());
            }
        }
    }

    /// Every operation on three numbers of a kind, as far as it has room.
    fn worked<E: Exact>(a: (u64, u64), b: (u64, u64), c: (u64, u64)) -> Vec<Option<f64>> {
        let [a, b, c] = [a, b, c].map(|(over, under)| E::of_quotient(over, under).unwrap());
        let minus = |a: &E, b: &E| a.plus(&b.negated()?);
        let results = [a.plus(&b), a.times(&b), a.over(&b), minus(&a, &b)];
        results
            .into_iter()
            .flat_map(|r| {
                let more = r.as_ref().and_then(|r| r.plus(&c)?.over(&b));
                let order = r
                    .as_ref()
                    .and_then(|r| r.compare(&c))
                    .map(|o| f64::from(o as i8));
                let whole = r
                    .as_ref()
                    .and_then(Exact::is_whole)
                    .map(|w| f64::from(u8::from(w)));
                [
                    r.and_then(|r| r.rounded()),
                    more.and_then(|m| m.rounded()),
                    order,
                    whole,
                ]
            })
            .collect()
    }

    proptest! {
        /// The library's fractions of unbounded whole numbers are the oracle of the bounded ones.
        #[test]
        fn small_numbers_agree_with_big_ones(
            a in (any::<u64>(), 1..u64::MAX),
            b in (1..u64::MAX, 1..10_000_u64),
            c in (0..100_u64, 1..100_u64),
            shift in 0..60_u32,
        ) {
            let a = (a.0 >> shift, (a.1 >> shift).max(1));
            let b = ((b.0 >> shift).max(1), b.1);
            let (small, big) = (worked::<Small>(a, b, c), worked::<Big>(a, b, c));
            for (small, big) in small.into_iter().zip(big) {
                if let (Some(small), Some(big)) = (small, big) {
                    prop_assert_eq!(small.to_bits(), big.to_bits());
                }
            }
        }
    }
}
