//! Fractions of 128-bit whole numbers, without allocating. A typed dimension has a few digits, and
//! fractions of unbounded numbers cost ten times as much. Not here: large numbers; every operation
//! that has no room gives `None`, and the text is read again with [`super::Big`].

use super::Exact;
use core::cmp::Ordering;

/// A fraction, not reduced; `under` is above 0.
#[derive(Debug, Clone, Copy)]
pub(in crate::read) struct Small {
    over: i128,
    under: i128,
}

impl Exact for Small {
    fn of_digits(digits: &str, places: u32) -> Option<Self> {
        Some(Self {
            over: digits.parse().ok()?,
            under: 10_i128.checked_pow(places)?,
        })
    }

    fn of_quotient(over: u64, under: u64) -> Option<Self> {
        (under != 0).then(|| Self {
            over: over.into(),
            under: under.into(),
        })
    }

    fn plus(&self, other: &Self) -> Option<Self> {
        if self.under == other.under {
            return Some(Self {
                over: self.over.checked_add(other.over)?,
                ..*self
            });
        }
        let first = self.over.checked_mul(other.under)?;
        let second = other.over.checked_mul(self.under)?;
        Some(Self {
            over: first.checked_add(second)?,
            under: self.under.checked_mul(other.under)?,
        })
    }

    fn times(&self, other: &Self) -> Option<Self> {
        Some(Self {
            over: self.over.checked_mul(other.over)?,
            under: self.under.checked_mul(other.under)?,
        })
    }

    fn over(&self, other: &Self) -> Option<Self> {
        let sign = if other.over < 0 { -1 } else { 1 };
        let inverse = Self {
            over: other.under.checked_mul(sign)?,
            under: other.over.checked_abs()?,
        };
        if inverse.under == 0 {
            None
        } else {
            self.times(&inverse)
        }
    }

    fn negated(&self) -> Option<Self> {
        Some(Self {
            over: self.over.checked_neg()?,
            ..*self
        })
    }

    fn is_zero(&self) -> bool {
        self.over == 0
    }

    fn is_whole(&self) -> Option<bool> {
        self.over.checked_rem(self.under).map(|rest| rest == 0)
    }

    fn compare(&self, other: &Self) -> Option<Ordering> {
        Some(
            self.over
                .checked_mul(other.under)?
                .cmp(&other.over.checked_mul(self.under)?),
        )
    }

    /// The quotient of two whole numbers that `f64` holds exactly is rounded correctly (IEEE 754);
    /// others, reduced, are left to [`super::Big`].
    fn rounded(&self) -> Option<f64> {
        quotient(self.over, self.under).or_else(|| {
            let divisor = common_divisor(self.over.unsigned_abs(), self.under.unsigned_abs());
            let divisor = i128::try_from(divisor).ok()?;
            quotient(
                self.over.checked_div(divisor)?,
                self.under.checked_div(divisor)?,
            )
        })
    }
}

fn quotient(over: i128, under: i128) -> Option<f64> {
    const EXACT: i128 = 1 << f64::MANTISSA_DIGITS;
    let exact = |n: i128| (-EXACT..=EXACT).contains(&n);
    #[allow(clippy::cast_precision_loss, reason = "both are within 2^53")]
    (exact(over) && exact(under)).then(|| over as f64 / under as f64)
}

fn common_divisor(mut a: u128, mut b: u128) -> u128 {
    while let Some(rest) = a.checked_rem(b) {
        (a, b) = (b, rest);
    }
    a
}
