//! The simple way: each material by itself, phase by phase. Not here: anything that looks at two materials
//! at once, save for reaching a least order.

use crate::case::{Case, Counts, Cover, Row, Wanted};
use crate::fault::PurchaseFault;
use crate::money::{count_to_reach, missing};
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::{self, cover};
use hodful_quantities::read::Money;

/// Turns of the simple way.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Manner {
    /// What keeps until its last phase is all bought in the first.
    pub(crate) all_at_once: bool,
    /// Who is bought from, for the materials to be had there; for the rest, anyone.
    pub(crate) from: From,
}

/// Who is bought from.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) enum From {
    #[default]
    Anyone,
    Oneself,
    Supplier(usize),
}

/// What is bought in the simple way, with goods added where a delivery does not reach the least order.
pub(crate) fn counts(case: &Case, manner: Manner) -> Result<Counts, PurchaseFault> {
    let mut counts = vec![vec![0; case.phases]; case.rows.len()];
    for (material, wanted) in case.wanted.iter().enumerate() {
        if !matches!(wanted.cover, Cover::Priced | Cover::Unpriced) {
            continue;
        }
        let pool = pool(case, wanted, manner.from);
        let offers: Vec<order::Offer> = pool
            .iter()
            .map(|(_, row)| order::Offer {
                holds: row.holds,
                price: row.price,
            })
            .collect();
        for (phase, need) in orders(wanted, manner.all_at_once) {
            let found = cover(&need, &offers).ok_or(PurchaseFault::TooMany { material })?;
            for (offer, count) in found.counts {
                let place = pool.get(offer).map(|(place, _)| *place);
                if let Some(there) = place.and_then(|p| counts.get_mut(p)?.get_mut(phase)) {
                    *there += count;
                }
            }
        }
    }
    reach_least_orders(case, &mut counts)?;
    Ok(counts)
}

fn pool<'a>(case: &'a Case, wanted: &Wanted, from: From) -> Vec<(usize, &'a Row)> {
    let all = || {
        let rows = wanted.rows.iter();
        rows.filter_map(|place| case.rows.get(*place).map(|row| (*place, row)))
    };
    let some: Vec<_> = all()
        .filter(|(_, row)| match from {
            From::Anyone => true,
            From::Oneself => row.supplier.is_none(),
            From::Supplier(supplier) => row.supplier == Some(supplier),
        })
        .collect();
    if some.is_empty() {
        all().collect()
    } else {
        some
    }
}

/// What is ordered in which phase.
fn orders(wanted: &Wanted, all_at_once: bool) -> Vec<(usize, Quantity)> {
    let needed = |phase: &usize| wanted.by_phase.get(*phase).is_some_and(|n| *n > 0.0);
    let phases: Vec<usize> = (0..wanted.by_phase.len()).filter(needed).collect();
    if let Some(first) = phases.first().filter(|_| all_at_once)
        && phases.iter().all(|phase| wanted.serves(*first, *phase))
    {
        return vec![(*first, wanted.total)];
    }
    phases
        .iter()
        .filter_map(|phase| wanted.needs.get(*phase).map(|need| (*phase, *need)))
        .collect()
}

/// Adds to each delivery below the least order the package that brings it there at the least price.
fn reach_least_orders(case: &Case, counts: &mut Counts) -> Result<(), PurchaseFault> {
    for (supplier, seller) in case.sellers.iter().enumerate() {
        let Some(least) = seller.least else { continue };
        for phase in 0..case.phases {
            let bought = |counts: &Counts, place: usize| {
                let row = counts.get(place);
                row.and_then(|row| row.get(phase)).copied().unwrap_or(0)
            };
            let rows = || case.rows_of(Some(supplier));
            if rows().all(|(place, _)| bought(counts, place) == 0) {
                continue;
            }
            let goods = rows()
                .map(|(place, row)| row.price?.times(bought(counts, place)))
                .try_fold(Money::ZERO, |sum, price| sum.plus(price?))
                .ok_or(PurchaseFault::PastCounting)?;
            let missing = missing(least, goods);
            if missing == Money::ZERO {
                continue;
            }
            let added = rows()
                .filter_map(|(place, row)| {
                    let count = count_to_reach(row.price?, missing)?;
                    Some((row.price?.times(count)?, place, count))
                })
                .min()
                .ok_or(PurchaseFault::PastCounting)?;
            if let Some(there) = counts.get_mut(added.1).and_then(|row| row.get_mut(phase)) {
                *there += added.2;
            }
        }
    }
    Ok(())
}
