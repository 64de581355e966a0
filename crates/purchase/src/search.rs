//! The search for the best list, and the simple one beside it. Not here: the programme that is solved, and
//! the sums of a list.

use crate::asked::{Aim, Need, Offer, Phase, Supplier};
use crate::case::{Case, Counts};
use crate::fault::PurchaseFault;
use crate::naive::{self, From, Manner};
use crate::planned::{Line, Note, Plan};
use crate::programme::{self, Answer, Fillings, Start};
use crate::settle::{Known, Merit, bought, merit, settle};
use crate::stock::lasts;
use crate::tolerance::{LEAST_NODES, MOST_WORK};
use hodful_quantities::read::Money;

/// The best list by the aim.
///
/// Found by an integer programme and priced again in exact decimals; never worse than [`naive`]. When the
/// search must end before everything was tried, or the packages do not go together on as few trips as the
/// programme counts, the best list that is known is given with `proven` false and a note. The end is by
/// a number of steps, not by a clock, so that the same input gives the same list everywhere.
///
/// A material of which an offer has no price gets the first package listed, as in
/// [`hodful_quantities::order::cover`], and a note; as few of it as will do. Offers are compared with a need
/// by the side (volume or mass) that the need has. A material that no offer can be held against is in
/// `uncovered`, and the rest is planned.
///
/// # Errors
/// [`PurchaseFault`], for numbers that are none or are negative, packages that hold nothing, places outside
/// the lists, phases out of order, packages larger than the truck, and sums past counting.
pub fn plan(
    needs: &[Need],
    offers: &[Offer],
    suppliers: &[Supplier],
    phases: &[Phase],
    aim: Aim,
) -> Result<Plan, PurchaseFault> {
    let case = Case::new(needs, offers, suppliers, phases)?;
    let mut best = settle(&case, &naive::counts(&case, Manner::default())?, &[])?;
    for manner in manners(suppliers.len()) {
        let mut counts = naive::counts(&case, manner)?;
        trim(&case, &mut counts);
        take_better(&mut best, settle(&case, &counts, &[])?, aim);
    }
    if case.rows.is_empty() {
        best.proven = true;
    } else if case.can_be_searched() {
        search(&case, aim, &mut best)?;
    } else {
        best.notes.push(Note::TooManyToSearch);
    }
    Ok(best)
}

/// The simple list: each material by itself and phase by phase by
/// [`hodful_quantities::order::cover`], and the charges on top.
///
/// Where a delivery does not reach the least order, the package that brings it there at the least price is
/// added. Nothing is proven of it.
///
/// # Errors
/// As for [`plan`].
pub fn naive(
    needs: &[Need],
    offers: &[Offer],
    suppliers: &[Supplier],
    phases: &[Phase],
) -> Result<Plan, PurchaseFault> {
    let case = Case::new(needs, offers, suppliers, phases)?;
    settle(&case, &naive::counts(&case, Manner::default())?, &[])
}

/// The simple ways that are compared at first: with and without waiting for the phases, from all and from
/// each one alone.
fn manners(suppliers: usize) -> impl Iterator<Item = Manner> {
    let from = [From::Anyone, From::Oneself]
        .into_iter()
        .chain((0..suppliers).map(From::Supplier));
    from.flat_map(|from| [false, true].map(|all_at_once| Manner { all_at_once, from }))
}

fn take_better(best: &mut Plan, other: Plan, aim: Aim) {
    if merit(&other, aim) < merit(best, aim) {
        *best = other;
    }
}

fn search(case: &Case, aim: Aim, best: &mut Plan) -> Result<(), PurchaseFault> {
    let counts = u64::try_from(case.rows.len() * case.phases).unwrap_or(u64::MAX);
    let mut nodes = (MOST_WORK / counts.saturating_mul(counts).max(1)).max(LEAST_NODES);
    let mut fillings: Fillings = vec![Vec::new(); case.sellers.len()];
    // In each round trucks of one supplier more are counted by their fillings, or it ends.
    for _ in 0..=case.sellers.len() {
        let answer = programme::solve(case, aim, &fillings, &start(case, best), &mut nodes);
        let Some(mut answer) = answer else {
            best.notes.push(Note::SearchEnded);
            return Ok(());
        };
        let covered = covers(case, &answer.counts);
        let bound = bound(case, aim, &answer)?;
        trim(case, &mut answer.counts);
        let found = settle(case, &answer.counts, &answer.known)?;
        let packed = start(case, &found).trips;
        if covered {
            take_better(best, found, aim);
        }
        if !answer.optimal || !covered {
            best.notes.push(Note::SearchEnded);
            return Ok(());
        }
        if merit(best, aim).reaches(&bound) {
            best.proven = true;
            return Ok(());
        }
        if !fill_singly(case, &mut fillings, &answer.trips, &packed) {
            break;
        }
    }
    best.notes.push(Note::LoadsDoNotFill);
    Ok(())
}

/// The counts of a list, its trips and its loads.
fn start(case: &Case, plan: &Plan) -> Start {
    let mut start = Start {
        counts: vec![vec![0; case.phases]; case.rows.len()],
        trips: vec![vec![0; case.phases]; case.sellers.len()],
        loads: Vec::new(),
    };
    let place = |line: &Line| case.rows.iter().position(|row| row.offer == line.offer);
    for delivery in &plan.deliveries {
        let phase = delivery.phase;
        for line in &delivery.lines {
            let there = place(line).and_then(|p| start.counts.get_mut(p)?.get_mut(phase));
            if let Some(there) = there {
                *there = line.count;
            }
        }
        let Some(supplier) = delivery.supplier else {
            continue;
        };
        let trips = start.trips.get_mut(supplier).and_then(|t| t.get_mut(phase));
        if let Some(trips) = trips {
            *trips = delivery.trips;
        }
        start.loads.extend(delivery.loads.iter().map(|load| {
            Known {
                supplier,
                phase,
                times: load.times,
                load: load
                    .lines
                    .iter()
                    .filter_map(|line| place(line).map(|place| (place, line.count)))
                    .collect(),
            }
        }));
    }
    start
}

/// What no list can go below, by an answer that is the best one of the programme.
fn bound(case: &Case, aim: Aim, answer: &Answer) -> Result<Merit, PurchaseFault> {
    let mut price = Some(Money::ZERO);
    let mut add = |each: Money, count: u64| {
        price = price.and_then(|sum| sum.plus(each.times(count)?));
    };
    for (row, counts) in case.rows.iter().zip(&answer.counts) {
        for count in counts {
            add(row.price.unwrap_or(Money::ZERO), *count);
        }
    }
    for (seller, trips) in case.sellers.iter().zip(&answer.trips) {
        for count in trips {
            add(seller.charge, *count);
        }
    }
    let trips = answer.trips.iter().flatten().sum();
    let price = price.ok_or(PurchaseFault::PastCounting)?;
    Ok(Merit::new(aim, trips, price, 0))
}

/// Whether all needs are covered, summed again from whole counts.
fn covers(case: &Case, counts: &Counts) -> bool {
    (0..case.wanted.len()).all(|material| material_covered(case, material, counts))
}

fn material_covered(case: &Case, material: usize, counts: &Counts) -> bool {
    let Some(wanted) = case.wanted.get(material).filter(|w| !w.rows.is_empty()) else {
        return true;
    };
    let shares = wanted.rows.iter().filter_map(|place| case.rows.get(*place));
    let largest = shares.map(|row| row.share).fold(0.0, f64::max);
    lasts(wanted, &bought(case, material, counts), largest)
}

/// Whether the goods of a delivery reach the least order, or there is none.
fn least_reached(case: &Case, supplier: usize, phase: usize, counts: &Counts) -> bool {
    let Some(least) = case.sellers.get(supplier).and_then(|seller| seller.least) else {
        return true;
    };
    let goods = case
        .rows_of(Some(supplier))
        .map(|(place, row)| row.price?.times(*counts.get(place)?.get(phase)?))
        .try_fold(Money::ZERO, |sum, price| sum.plus(price?));
    goods.is_none_or(|goods| goods == Money::ZERO || goods >= least)
}

/// Leaves out packages that are not needed, from the dearest and the last phase on: what costs nothing is
/// counted at will by the solver, and the simple ways round up in each phase.
fn trim(case: &Case, counts: &mut Counts) {
    let mut places: Vec<usize> = (0..case.rows.len()).collect();
    places.sort_by_key(|place| {
        let price = case.rows.get(*place).map(|row| row.price);
        (core::cmp::Reverse(price), *place)
    });
    for phase in (0..case.phases).rev() {
        for place in &places {
            let Some(row) = case.rows.get(*place) else {
                continue;
            };
            let Some(count) = counts.get(*place).and_then(|c| c.get(phase)).copied() else {
                continue;
            };
            // The fewest that still do: `enough` do, `short` do not.
            let (mut short, mut enough) = (None, count);
            let mut tried = 0;
            while tried < enough {
                set(counts, *place, phase, tried);
                let fine = material_covered(case, row.material, counts)
                    && row
                        .supplier
                        .is_none_or(|s| least_reached(case, s, phase, counts));
                if fine {
                    enough = tried;
                } else {
                    short = Some(tried);
                }
                tried = short.map_or(0, |short| short + (enough - short).div_ceil(2));
            }
            set(counts, *place, phase, enough);
        }
    }
}

fn set(counts: &mut Counts, place: usize, phase: usize, count: u64) {
    if let Some(there) = counts.get_mut(place).and_then(|c| c.get_mut(phase)) {
        *there = count;
    }
}

/// Has the trucks of a supplier counted by their fillings where more trips are packed than were counted;
/// whether there was such a supplier with not too many fillings.
fn fill_singly(
    case: &Case,
    fillings: &mut Fillings,
    counted: &[Vec<u64>],
    packed: &[Vec<u64>],
) -> bool {
    let mut any = false;
    for (supplier, (counted, packed)) in counted.iter().zip(packed).enumerate() {
        let more = counted.iter().zip(packed).any(|(c, p)| c < p);
        if let Some(there) = fillings.get_mut(supplier).filter(|f| more && f.is_empty())
            && let Some(found) = programme::fillings(case, supplier)
        {
            *there = found;
            any = true;
        }
    }
    any
}
