//! Sums that prices need here: what is missing to an amount, how many reach it, whole numbers for the
//! solver. Not here: prices as typed, and the exact sums of the result.

use hodful_quantities::read::Money;

/// How much is missing to `least`; nothing when it is reached.
pub(crate) fn missing(least: Money, have: Money) -> Money {
    least
        .amount()
        .checked_sub(have.amount())
        .and_then(Money::new)
        .unwrap_or(Money::ZERO)
}

/// The fewest of this price that come to `amount`; `None` when the price is nothing or they are past
/// counting.
pub(crate) fn count_to_reach(price: Money, amount: Money) -> Option<u64> {
    if price == Money::ZERO {
        return None;
    }
    let ratio = amount.amount().checked_div(price.amount())?;
    let near = u64::try_from(ratio.floor()).ok()?;
    // The quotient is rounded to 28 digits, so the whole number beside it is tried out.
    (near.saturating_sub(1)..=near.checked_add(1)?)
        .find(|n| price.times(*n).is_some_and(|p| p >= amount))
}

/// By how much prices are multiplied so that all of them are whole: 1 to 10 000.
pub(crate) fn whole_by(prices: impl Iterator<Item = Money>) -> u64 {
    let decimals = prices.map(|p| p.amount().normalize().scale()).max();
    10_u64.saturating_pow(decimals.unwrap_or(0))
}

/// A price as a whole number for the solver; `None` past counting.
pub(crate) fn whole(price: Money, by: u64) -> Option<f64> {
    f64::try_from(price.times(by)?.amount())
        .ok()
        .filter(|v| v.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;
    use hodful_quantities::Measure;

    fn money(text: &str) -> Money {
        Money::read(text).unwrap()
    }

    #[test]
    fn counts_that_reach_an_amount() {
        fn check(price: &str, amount: &str, expected: Option<u64>) {
            assert_eq!(count_to_reach(money(price), money(amount)), expected);
        }
        check("0", "5", None);
        check("3", "0", Some(0));
        check("3", "9", Some(3));
        check("3", "9.0001", Some(4));
        check("0.0003", "1", Some(3334));
        check("7.77", "777", Some(100));
        check("0.0001", "999999999999999999999999", None);
    }

    #[test]
    fn prices_become_whole() {
        let prices = ["14.5", "2.005", "3"].map(money);
        let by = whole_by(prices.into_iter());
        assert_eq!(by, 1000);
        let whole: Vec<_> = prices.iter().filter_map(|p| whole(*p, by)).collect();
        assert_eq!(whole, [14_500.0, 2005.0, 3000.0]);
    }

    #[test]
    fn what_is_missing() {
        assert_eq!(missing(money("100"), money("60.5")), money("39.5"));
        assert_eq!(missing(money("100"), money("160")), Money::ZERO);
    }
}
