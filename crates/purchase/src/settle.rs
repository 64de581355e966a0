//! From counts to a list: loads, charges, exact prices, what is to spare. Not here: which counts.

use crate::asked::Aim;
use crate::case::{Case, Counts, Cover, Row, Wanted};
use crate::fault::PurchaseFault;
use crate::pack::{self, Piece, Trucks};
use crate::planned::{Delivery, Line, Load, Note, Plan};
use hodful_quantities::mix::Quantity;
use hodful_quantities::read::Money;
use hodful_quantities::units::{mass_of_kg, volume_of_mm3};

/// Loads that are known to go together, of one supplier in one phase: places in the rows, and counts.
#[derive(Debug, Clone)]
pub(crate) struct Known {
    pub(crate) supplier: usize,
    pub(crate) phase: usize,
    /// How many trucks are loaded like this.
    pub(crate) times: u64,
    pub(crate) load: Vec<(usize, u64)>,
}

/// By what lists are compared; less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Merit {
    first: (u64, Money),
    then: (u64, u128),
}

impl Merit {
    pub(crate) fn new(aim: Aim, trips: u64, price: Money, packages: u128) -> Self {
        Self {
            first: match aim {
                Aim::LeastCost => (0, price),
                Aim::FewestDeliveries => (trips, price),
            },
            then: (trips, packages),
        }
    }

    /// Whether it is at least as good by the aim itself.
    pub(crate) fn reaches(&self, other: &Self) -> bool {
        self.first <= other.first
    }
}

/// How good a list is.
pub(crate) fn merit(plan: &Plan, aim: Aim) -> Merit {
    let lines = plan.deliveries.iter().flat_map(|d| &d.lines);
    let packages = lines.map(|line| u128::from(line.count)).sum();
    Merit::new(aim, plan.deliveries_count, plan.known_price, packages)
}

/// The list for these counts; not proven.
pub(crate) fn settle(case: &Case, counts: &Counts, known: &[Known]) -> Result<Plan, PurchaseFault> {
    let mut deliveries = Vec::new();
    for phase in 0..case.phases {
        let suppliers = (0..case.sellers.len()).map(Some).chain([None]);
        for supplier in suppliers {
            let bought: Vec<(usize, &Row, u64)> = case
                .rows_of(supplier)
                .filter_map(|(place, row)| {
                    let count = *counts.get(place)?.get(phase)?;
                    (count > 0).then_some((place, row, count))
                })
                .collect();
            if !bought.is_empty() {
                deliveries.push(delivery(case, phase, supplier, &bought, known)?);
            }
        }
    }
    let past = PurchaseFault::PastCounting;
    let known_price = deliveries.iter().try_fold(Money::ZERO, |sum, d| {
        let priced = case.priced(&d.lines)?;
        sum.plus(d.charge)?.plus(priced)
    });
    let known_price = known_price.ok_or(past)?;
    let all_priced = deliveries.iter().all(|d| d.goods.is_some());
    let trips = deliveries
        .iter()
        .try_fold(0_u64, |sum, d| sum.checked_add(d.trips));
    let uncovered = (0..case.wanted.len())
        .filter(|m| {
            case.wanted
                .get(*m)
                .is_some_and(|w| w.cover == Cover::NoOffer)
        })
        .collect();
    Ok(Plan {
        spare: spare(case, counts),
        price: all_priced.then_some(known_price),
        known_price,
        deliveries_count: trips.ok_or(past)?,
        proven: false,
        uncovered,
        notes: notes(case, &deliveries),
        deliveries,
    })
}

fn delivery(
    case: &Case,
    phase: usize,
    supplier: Option<usize>,
    bought: &[(usize, &Row, u64)],
    known: &[Known],
) -> Result<Delivery, PurchaseFault> {
    let past = PurchaseFault::PastCounting;
    let line = |(_, row, count): &(usize, &Row, u64)| Line {
        offer: row.offer,
        count: *count,
    };
    let lines: Vec<Line> = bought.iter().map(line).collect();
    let goods = if bought.iter().all(|(_, row, _)| row.price.is_some()) {
        Some(case.priced(&lines).ok_or(past)?)
    } else {
        None
    };
    let trucks = match supplier {
        None => Vec::new(),
        Some(supplier) => {
            let known: Vec<_> = known
                .iter()
                .filter(|k| k.supplier == supplier && k.phase == phase)
                .map(|k| (k.times, k.load.clone()))
                .collect();
            pack::pack(&pieces(bought), &known)
        }
    };
    let trips = pack::count(&trucks);
    let seller = supplier.and_then(|place| case.sellers.get(place));
    let charge = seller.map_or(Money::ZERO, |seller| seller.charge);
    let sum = |side: fn(&Row) -> Option<f64>| {
        #[allow(clippy::cast_precision_loss, reason = "counts are at most 10^15")]
        bought
            .iter()
            .map(|(_, row, count)| side(row).map(|one| one * *count as f64))
            .sum::<Option<f64>>()
    };
    Ok(Delivery {
        phase,
        supplier,
        lines,
        goods,
        charge: charge.times(trips).ok_or(past)?,
        trips,
        mass: sum(|row| row.mass).map(mass_of_kg),
        volume: sum(|row| row.volume).map(volume_of_mm3),
        loads: trucks.iter().map(|truck| case.load(truck)).collect(),
    })
}

fn pieces(bought: &[(usize, &Row, u64)]) -> Vec<Piece> {
    let piece = |(place, row, count): &(usize, &Row, u64)| Piece {
        row: *place,
        takes: row.takes,
        count: *count,
    };
    bought.iter().map(piece).collect()
}

impl Case {
    /// The price of lines, as far as they have one; `None` past counting.
    fn priced(&self, lines: &[Line]) -> Option<Money> {
        lines.iter().try_fold(Money::ZERO, |sum, line| {
            let row = self.rows.iter().find(|row| row.offer == line.offer)?;
            match row.price {
                Some(price) => sum.plus(price.times(line.count)?),
                None => Some(sum),
            }
        })
    }

    fn load(&self, truck: &Trucks) -> Load {
        let mut lines: Vec<Line> = truck
            .on
            .iter()
            .filter_map(|(place, count)| {
                self.rows.get(*place).map(|row| Line {
                    offer: row.offer,
                    count: *count,
                })
            })
            .collect();
        lines.sort_by_key(|line| line.offer);
        Load {
            times: truck.times,
            lines,
        }
    }
}

/// What is bought of a material, in shares of its need, by phase.
pub(crate) fn bought(case: &Case, material: usize, counts: &Counts) -> Vec<f64> {
    let rows = case.wanted.get(material).map_or(&[][..], |w| &w.rows);
    (0..case.phases)
        .map(|phase| {
            rows.iter()
                .filter_map(|place| {
                    let count = *counts.get(*place)?.get(phase)?;
                    #[allow(clippy::cast_precision_loss, reason = "counts are at most 10^15")]
                    Some(case.rows.get(*place)?.share * count as f64)
                })
                .sum()
        })
        .collect()
}

fn spare(case: &Case, counts: &Counts) -> Vec<Quantity> {
    let spare = |(material, wanted): (usize, &Wanted)| {
        if wanted.cover == Cover::NoOffer {
            return Quantity::default();
        }
        let over = match wanted.cover {
            Cover::NothingNeeded => 0.0,
            _ => bought(case, material, counts).iter().sum::<f64>() - 1.0,
        };
        // What rounding leaves below nothing is nothing.
        wanted.total.times(if over > 0.0 { over } else { 0.0 })
    };
    case.wanted.iter().enumerate().map(spare).collect()
}

fn notes(case: &Case, deliveries: &[Delivery]) -> Vec<Note> {
    let mut notes = Vec::new();
    for (material, wanted) in case.wanted.iter().enumerate() {
        if wanted.cover == Cover::Unpriced {
            notes.push(Note::NotPriced { material });
        }
    }
    for (supplier, seller) in case.sellers.iter().enumerate() {
        if seller.least_not_judged && deliveries.iter().any(|d| d.supplier == Some(supplier)) {
            notes.push(Note::LeastOrderNotJudged { supplier });
        }
    }
    for row in case.rows.iter().filter(|row| row.room_unknown) {
        let mut lines = deliveries.iter().flat_map(|d| &d.lines);
        if lines.any(|line| line.offer == row.offer) {
            notes.push(Note::RoomNotKnown { offer: row.offer });
        }
    }
    notes
}
