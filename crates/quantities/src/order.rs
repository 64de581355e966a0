//! From a need to packages: stock taken off, rounded up, priced. Not here: the cheapest way over
//! several suppliers.

use crate::mix::Quantity;
use crate::read::{Amount, Money};
use crate::tolerance::COUNT_SLACK;
use crate::units::{Mass, Volume};
use std::cmp::Ordering;

/// A package on offer.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// What one holds.
    pub holds: Holds,
    /// Price of one.
    pub price: Option<Money>,
}

/// What a package holds, as delivered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Holds {
    /// A loose volume.
    Volume(Volume),
    /// A mass.
    Mass(Mass),
}

impl Holds {
    /// What the package holds, from the amount typed; `None` for a count of other packages.
    pub fn from_amount(amount: &Amount) -> Option<Self> {
        match amount {
            Amount::Volume(volume) => Some(Self::Volume(*volume)),
            Amount::Mass(mass) => Some(Self::Mass(*mass)),
            Amount::Packages { .. } => None,
        }
    }

    /// How much of a need one of these covers; `None` when the need is not known in this measure.
    pub fn share_of(&self, need: &Quantity) -> Option<f64> {
        match self {
            Self::Volume(holds) => need.loose.map(|n| holds.value / n.value),
            Self::Mass(holds) => need.mass.map(|n| holds.value / n.value),
        }
    }
}

/// What is ordered to cover a need.
#[derive(Debug, Clone, PartialEq)]
pub struct Cover {
    /// Offers by their place in the list, and how many of each; at most two.
    pub counts: Vec<(usize, u64)>,
    /// How many times the need they hold together; at least 1.
    pub times_need: f64,
    /// What they cost; `None` when one of them has no price.
    pub price: Option<Money>,
}

/// Packages and batches past this are not counted: far more than there are, and `f64` still holds
/// every whole number.
pub(crate) const MOST_COUNTED: f64 = 1_000_000_000_000_000.0;

/// How many fewer of one package than fit are tried with the rest in another.
const FEWER_TRIED: u64 = 8;

/// The smallest whole number that is not below `exact`, a hair of rounding forgiven.
///
/// Odd input (negative, not a number) gives 0; a number past counting gives `None`.
///
/// ```
/// use hodful_quantities::order::round_up;
/// assert_eq!(round_up(2.000_000_000_000_1), Some(2));
/// assert_eq!(round_up(2.1), Some(3));
/// ```
pub fn round_up(exact: f64) -> Option<u64> {
    let least = (exact - exact.abs() * COUNT_SLACK).ceil();
    if least > MOST_COUNTED {
        return None;
    }
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole number, clamped to what f64 holds exactly; NaN and negatives give 0"
    )]
    Some(least.max(0.0) as u64)
}

/// Covers a need with packages.
///
/// Every package alone, and as many of one as fit (or up to 8 fewer) with the rest in another, are
/// tried; the cheapest stands, then the one with fewest packages, then the one with least to spare.
/// When a price is missing, the first package listed that can be compared is ordered alone.
///
/// Gives `None` when no offer can be held against the need (mass against volume without a density,
/// or nothing offered), and an empty cover when nothing is needed.
pub fn cover(need: &Quantity, offers: &[Offer]) -> Option<Cover> {
    let nothing = |side: f64| side <= 0.0;
    if need.loose.is_some_and(|v| nothing(v.value)) || need.mass.is_some_and(|m| nothing(m.value)) {
        return Some(Cover {
            counts: Vec::new(),
            times_need: 1.0,
            price: Some(Money::default()),
        });
    }
    let shares: Vec<(usize, f64)> = offers
        .iter()
        .enumerate()
        .filter_map(|(i, o)| o.holds.share_of(need).map(|s| (i, s)))
        .filter(|(_, s)| s.is_finite() && *s > 0.0)
        .collect();
    let priced = shares
        .iter()
        .all(|(i, _)| offers.get(*i).is_some_and(|o| o.price.is_some()));
    let pool = if priced {
        &shares[..]
    } else {
        shares.get(..1).unwrap_or_default()
    };
    let mut best: Option<Way> = None;
    let mut try_way = |first: Row, second: Option<Row>| {
        let way = Way::new(first, second, offers);
        if best.is_none_or(|best| way.compared(&best).is_lt()) {
            best = Some(way);
        }
    };
    for &(i, share) in pool {
        if let Some(count) = round_up(1.0 / share) {
            try_way(
                Row {
                    offer: i,
                    count,
                    share,
                },
                None,
            );
        }
        for &(j, other) in pool {
            if i == j {
                continue;
            }
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a whole number not above a count that round_up accepted"
            )]
            let most = ((1.0 / share) * (1.0 + COUNT_SLACK))
                .floor()
                .min(MOST_COUNTED) as u64;
            for count in most.saturating_sub(FEWER_TRIED).max(1)..=most {
                let first = Row {
                    offer: i,
                    count,
                    share,
                };
                if let Some(count) = round_up((1.0 - first.times_need()) / other).filter(|n| *n > 0)
                {
                    try_way(
                        first,
                        Some(Row {
                            offer: j,
                            count,
                            share: other,
                        }),
                    );
                }
            }
        }
    }
    best.map(Way::cover)
}

/// So many of one offer.
#[derive(Debug, Clone, Copy)]
struct Row {
    offer: usize,
    count: u64,
    /// How much of the need one covers.
    share: f64,
}

impl Row {
    #[allow(clippy::cast_precision_loss, reason = "at most MOST_COUNTED")]
    fn times_need(&self) -> f64 {
        self.count as f64 * self.share
    }

    fn price(&self, offers: &[Offer]) -> Option<Money> {
        offers.get(self.offer)?.price?.times(self.count)
    }
}

/// A way to cover a need.
#[derive(Debug, Clone, Copy)]
struct Way {
    rows: (Row, Option<Row>),
    count: u64,
    times_need: f64,
    price: Option<Money>,
}

impl Way {
    fn new(first: Row, second: Option<Row>, offers: &[Offer]) -> Self {
        let price = first.price(offers);
        Self {
            rows: (first, second),
            count: first.count + second.map_or(0, |row| row.count),
            times_need: first.times_need() + second.map_or(0.0, |row| row.times_need()),
            price: match second {
                Some(row) => price.zip(row.price(offers)).and_then(|(a, b)| a.plus(b)),
                None => price,
            },
        }
    }

    /// The cheaper first, then the one of fewer packages, then the one with less to spare.
    fn compared(&self, other: &Self) -> Ordering {
        (self.price.is_none(), self.price)
            .cmp(&(other.price.is_none(), other.price))
            .then(self.count.cmp(&other.count))
            .then(self.times_need.total_cmp(&other.times_need))
    }

    fn cover(self) -> Cover {
        let (first, second) = self.rows;
        let rows = std::iter::once(first).chain(second);
        Cover {
            counts: rows.map(|row| (row.offer, row.count)).collect(),
            times_need: self.times_need,
            price: self.price,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::typed::Measure;
    use crate::units::cubic_yard;

    fn yards(v: f64) -> Quantity {
        Quantity::of_volume(Volume::new::<cubic_yard>(v), None)
    }

    fn offer(holds: f64, price: Option<&str>) -> Offer {
        Offer {
            holds: Holds::Volume(Volume::new::<cubic_yard>(holds)),
            price: price.map(|p| Money::read(p).unwrap()),
        }
    }

    fn check(need: f64, offers: &[Offer], expected: &[(usize, u64)], price: Option<&str>) {
        let cover = cover(&yards(need), offers).unwrap();
        assert_eq!(cover.counts, expected, "{need}");
        assert_eq!(
            cover.price,
            price.map(|p| Money::read(p).unwrap()),
            "{need}"
        );
        assert!(cover.counts.is_empty() || cover.times_need >= 1.0 - COUNT_SLACK);
    }

    #[test]
    fn loads_and_bags() {
        let offers = [offer(5.0, Some("240")), offer(1.0, Some("85"))];
        check(0.0, &offers, &[], Some("0"));
        check(0.4, &offers, &[(1, 1)], Some("85"));
        check(2.0, &offers, &[(1, 2)], Some("170"));
        check(2.01, &offers, &[(0, 1)], Some("240"));
        check(5.0, &offers, &[(0, 1)], Some("240"));
        check(11.5, &offers, &[(0, 2), (1, 2)], Some("650"));
        check(14.5, &offers, &[(0, 3)], Some("720"));
    }

    #[test]
    fn one_fewer_of_the_large_can_be_cheaper() {
        // 2 of 5 and 1 of 4 come to 279; 1 of 5 and 2 of 4 hold 13 as well and come to 258.
        let offers = [offer(5.0, Some("100")), offer(4.0, Some("79"))];
        check(13.0, &offers, &[(0, 1), (1, 2)], Some("258"));
    }

    #[test]
    fn without_a_price_the_first_listed_stands() {
        check(
            6.5,
            &[offer(5.0, None), offer(1.0, Some("85"))],
            &[(0, 2)],
            None,
        );
    }

    #[test]
    fn nothing_offered_or_nothing_comparable() {
        assert_eq!(cover(&yards(1.0), &[]), None);
        let by_mass = Offer {
            holds: Holds::Mass(Mass::default()),
            price: None,
        };
        assert_eq!(cover(&yards(1.0), &[by_mass]), None);
    }
}
