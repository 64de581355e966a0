//! A price in whole and decimal units of the project's one currency. Not here: currencies and rates.

use super::fault::{Fault, misread, too_long};
use super::number;
use crate::typed::{Measure, Misread};
use rust_decimal::Decimal;

/// Decimals a price may have: a price for one of many small things is given in parts of a cent.
const MOST_DECIMALS: u32 = 4;

/// An amount of money: not negative, at most four decimals, exact.
///
/// A project has one currency and does not name it: a sign or a three-letter code typed with the
/// price is kept in the text and means nothing to the value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(Decimal);

impl Money {
    /// Nothing.
    pub const ZERO: Self = Self(Decimal::ZERO);

    /// An amount; `None` when it is negative or has more than four decimals.
    pub fn new(amount: Decimal) -> Option<Self> {
        let amount = amount.normalize();
        (amount >= Decimal::ZERO && amount.scale() <= MOST_DECIMALS).then_some(Self(amount))
    }

    /// The amount.
    pub fn amount(self) -> Decimal {
        self.0
    }

    /// The amount as the nearest number of double precision, for sums and differences that are shown.
    pub fn to_f64(self) -> f64 {
        rust_decimal::prelude::ToPrimitive::to_f64(&self.0).unwrap_or(f64::NAN)
    }

    /// The sum of two amounts; `None` when it is past counting (28 digits).
    pub fn plus(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).and_then(Self::new)
    }

    /// The price of several; `None` when it is past counting (28 digits).
    pub fn times(self, count: u64) -> Option<Self> {
        self.0.checked_mul(Decimal::from(count)).and_then(Self::new)
    }
}

impl Measure for Money {
    const WHAT: &'static str = "a price";
    const SPELLINGS: &'static str = "240, 14.50 or 1,240.00";

    /// Reads an amount with at most four decimals. A comma before exactly three digits groups
    /// thousands (`1,240` is one thousand two hundred and forty): prices are not written with three
    /// decimals. A currency sign or a code of three capital letters may stand at either end.
    ///
    /// ```
    /// use hodful_quantities::{Measure, read::Money};
    /// assert_eq!(Money::read("$1,240.00")?.amount().to_string(), "1240");
    /// assert_eq!(Money::read("14,50 EUR")?.amount().to_string(), "14.5");
    /// assert!(Money::read("-3").is_err());
    /// # Ok::<(), hodful_quantities::Misread>(())
    /// ```
    fn read(text: &str) -> Result<Self, Misread> {
        read(text).map_err(|fault| misread::<Self>(text, &fault))
    }
}

fn read(text: &str) -> Result<Money, Fault> {
    too_long(text)?;
    let bare = without_currency(text.trim());
    if bare.starts_with(['-', '\u{2212}']) {
        return Err(Fault::Says("is negative".into()));
    }
    let (digits, decimals) = number::money(bare).ok_or(Fault::NotOne(Money::WHAT))?;
    if decimals > MOST_DECIMALS {
        return Err(Fault::Says("has more than four decimals".into()));
    }
    digits
        .parse()
        .ok()
        .and_then(Money::new)
        .ok_or(Fault::TooLarge)
}

/// The text without one currency mark, at its start or its end.
fn without_currency(text: &str) -> &str {
    let marked = |rest: Option<&str>| rest.is_some_and(|rest| !rest.trim().is_empty());
    for sign in SIGNS {
        let (front, back) = (text.strip_prefix(*sign), text.strip_suffix(*sign));
        if marked(front) || marked(back) {
            return front.or(back).unwrap_or(text).trim();
        }
    }
    let is_code = |code: &str| code.len() == 3 && code.bytes().all(|b| b.is_ascii_uppercase());
    match (
        text.split_at_checked(3),
        text.len()
            .checked_sub(3)
            .and_then(|n| text.split_at_checked(n)),
    ) {
        (Some((code, rest)), _) if is_code(code) => rest.trim(),
        (_, Some((rest, code))) if is_code(code) => rest.trim(),
        _ => text,
    }
}

/// Signs of currency that may stand with a price.
const SIGNS: &[char] = &[
    '$', '€', '£', '¥', '₹', '₩', '₽', '₺', '₪', '₫', '₱', '₴', '₦', '¢', '¤',
];

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: &str) {
        let money = Money::read(text).unwrap_or_else(|e| panic!("{e}"));
        assert_eq!(
            money.amount(),
            expected.parse::<Decimal>().unwrap(),
            "{text}"
        );
    }

    #[test]
    fn prices() {
        check("240", "240");
        check("0", "0");
        check(" 14.50 ", "14.5");
        check("0.0375", "0.0375");
        check(".5", "0.5");
        check("14,50", "14.5");
        check("1,240.00", "1240");
        check("1,240", "1240");
        check("1.240,50", "1240.5");
        check("1\u{a0}240.5", "1240.5");
        check("1,234,567", "1234567");
        check("$240", "240");
        check("240 €", "240");
        check("USD 14.50", "14.5");
        check("14.50 CAD", "14.5");
    }

    #[test]
    fn refused_with_the_reason() {
        fn check(text: &str, expected: &str) {
            assert_eq!(Money::read(text).unwrap_err().to_string(), expected);
        }
        check("-3", "'-3' is negative; write 240, 14.50 or 1,240.00");
        check(
            "1.00001",
            "'1.00001' has more than four decimals; write 240, 14.50 or 1,240.00",
        );
        check(
            "2 kg",
            "'2 kg' is not a price; write 240, 14.50 or 1,240.00",
        );
        for text in [
            "", "$", "USD", "$$3", "3 4", "1,24,0", "1e3", "NaN", "٣", "$-3",
        ] {
            assert!(Money::read(text).is_err(), "{text}");
        }
        assert!(Money::read(&"9".repeat(40)).is_err());
    }

    #[test]
    fn sums_past_counting_are_none() {
        let most = Money::new(Decimal::MAX).unwrap();
        assert_eq!(most.plus(most), None);
        assert_eq!(most.times(2), None);
        assert_eq!(Money::ZERO.plus(most), Some(most));
    }
}
