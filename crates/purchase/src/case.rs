//! What is asked, checked and brought to one scale: shares of a need, parts of a truck. Not here: any choice.

use crate::asked::{Need, Offer, Phase, Supplier};
use crate::fault::PurchaseFault;
use crate::money::count_to_reach;
use crate::stock::just_in_time;
use crate::tolerance::{COUNT_SLACK, MOST_COUNTS, MOST_PACKAGES, ONE_DENSITY};
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::{Holds, round_up};
use hodful_quantities::read::Money;
use hodful_quantities::units::{Mass, Volume};

/// How many of each package of [`Case::rows`] in each phase.
pub(crate) type Counts = Vec<Vec<u64>>;

/// All that is asked, checked.
#[derive(Debug)]
pub(crate) struct Case {
    pub(crate) phases: usize,
    /// The packages that may be bought.
    pub(crate) rows: Vec<Row>,
    pub(crate) wanted: Vec<Wanted>,
    pub(crate) sellers: Vec<Seller>,
}

/// A package that may be bought.
#[derive(Debug)]
pub(crate) struct Row {
    pub(crate) offer: usize,
    pub(crate) material: usize,
    pub(crate) supplier: Option<usize>,
    pub(crate) holds: Holds,
    /// Of the need of all phases.
    pub(crate) share: f64,
    pub(crate) price: Option<Money>,
    /// Of one, kg.
    pub(crate) mass: Option<f64>,
    /// Of one, mm³.
    pub(crate) volume: Option<f64>,
    /// Part of the truck's mass and volume that one takes; nothing without limit, or where not known.
    pub(crate) takes: [f64; 2],
    /// Whether one of the truck's limits could not be held against it.
    pub(crate) room_unknown: bool,
    /// Most on one truck.
    pub(crate) fits: Option<u64>,
    /// Most that could be of use, by phase.
    pub(crate) most: Vec<u64>,
    /// Most in all phases together; for what has no price.
    pub(crate) most_in_all: Option<u64>,
}

/// A material.
#[derive(Debug)]
pub(crate) struct Wanted {
    /// Needed in all.
    pub(crate) total: Quantity,
    /// Needed by phase, with the sides that are known in all.
    pub(crate) needs: Vec<Quantity>,
    /// The same in shares of the total.
    pub(crate) by_phase: Vec<f64>,
    pub(crate) days: Vec<Option<i64>>,
    pub(crate) keeps: Option<f64>,
    pub(crate) cover: Cover,
    /// Places in [`Case::rows`].
    pub(crate) rows: Vec<usize>,
}

/// Whether a material can be had.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Cover {
    NothingNeeded,
    NoOffer,
    /// By the packages with their prices.
    Priced,
    /// By the first package listed.
    Unpriced,
}

/// A supplier.
#[derive(Debug)]
pub(crate) struct Seller {
    pub(crate) charge: Money,
    /// The least order, where it is one and can be judged.
    pub(crate) least: Option<Money>,
    pub(crate) least_not_judged: bool,
}

impl Wanted {
    /// Whether what comes in one phase can be used in another.
    pub(crate) fn serves(&self, from: usize, to: usize) -> bool {
        let day = |phase: usize| self.days.get(phase).copied().flatten();
        let in_time = match (self.keeps, day(from), day(to)) {
            (Some(keeps), Some(from), Some(to)) => {
                #[allow(
                    clippy::cast_precision_loss,
                    reason = "days so far apart that f64 rounds them are far past any keeping"
                )]
                let days = to.saturating_sub(from) as f64;
                days <= keeps
            }
            _ => true,
        };
        from <= to && in_time
    }

    /// Whether some goods go off before they could be used.
    pub(crate) fn goes_off(&self) -> bool {
        let needed = |phase: usize| self.by_phase.get(phase).is_some_and(|need| *need > 0.0);
        (0..self.days.len()).any(|to| needed(to) && (0..to).any(|from| !self.serves(from, to)))
    }

    /// What could be used of goods that come in a phase, as a share of the total.
    fn of_use(&self, from: usize) -> f64 {
        self.by_phase
            .iter()
            .enumerate()
            .filter(|(to, _)| self.serves(from, *to))
            .map(|(_, need)| need)
            .sum()
    }
}

impl Case {
    pub(crate) fn new(
        needs: &[Need],
        offers: &[Offer],
        suppliers: &[Supplier],
        phases: &[Phase],
    ) -> Result<Self, PurchaseFault> {
        check_phases(phases)?;
        let mut wanted = needs
            .iter()
            .enumerate()
            .map(|(material, need)| Wanted::new(material, need, phases))
            .collect::<Result<Vec<_>, _>>()?;
        for (supplier, terms) in suppliers.iter().enumerate() {
            let limits = [
                terms.truck_mass.map(|m| m.value),
                terms.truck_volume.map(|v| v.value),
            ];
            if let Some(value) = limits.into_iter().flatten().find(|v| !quantity(*v)) {
                return Err(PurchaseFault::Truck { supplier, value });
            }
        }
        let mut rows = Vec::new();
        for (place, offer) in offers.iter().enumerate() {
            let Some(of) = wanted.get_mut(offer.material) else {
                return Err(PurchaseFault::NoSuchMaterial {
                    offer: place,
                    material: offer.material,
                });
            };
            let row = Row::new(place, offer, suppliers, of)?;
            if of.cover != Cover::NothingNeeded && row.share.is_finite() && row.share > 0.0 {
                of.rows.push(rows.len());
                rows.push(row);
            }
        }
        let mut case = Self {
            phases: phases.len(),
            rows,
            wanted,
            sellers: Vec::new(),
        };
        case.leave_out_what_cannot_be_compared();
        case.sellers = suppliers
            .iter()
            .enumerate()
            .map(|(place, terms)| case.seller(place, terms))
            .collect();
        case.bound()?;
        Ok(case)
    }

    /// The packages of one supplier, or those fetched oneself, with their places.
    pub(crate) fn rows_of(&self, supplier: Option<usize>) -> impl Iterator<Item = (usize, &Row)> {
        self.rows
            .iter()
            .enumerate()
            .filter(move |(_, row)| row.supplier == supplier)
    }

    /// Whether the solver can be trusted with it, in time and in numbers.
    pub(crate) fn can_be_searched(&self) -> bool {
        self.rows.len().saturating_mul(self.phases) <= MOST_COUNTS
            && self
                .rows
                .iter()
                .all(|row| row.most.iter().all(|most| *most <= MOST_PACKAGES))
    }

    /// Where a price is missing, leaves only the first package of the material.
    fn leave_out_what_cannot_be_compared(&mut self) {
        let mut kept = Vec::new();
        let rows = core::mem::take(&mut self.rows);
        for wanted in &mut self.wanted {
            wanted.cover = match wanted.cover {
                Cover::NothingNeeded => Cover::NothingNeeded,
                _ if wanted.rows.is_empty() => Cover::NoOffer,
                _ if wanted
                    .rows
                    .iter()
                    .all(|place| rows.get(*place).is_some_and(|row| row.price.is_some())) =>
                {
                    Cover::Priced
                }
                _ => Cover::Unpriced,
            };
            let keep = match wanted.cover {
                Cover::Unpriced => 1,
                _ => wanted.rows.len(),
            };
            kept.extend(wanted.rows.drain(..).take(keep));
        }
        kept.sort_unstable();
        for (old, row) in rows.into_iter().enumerate() {
            if kept.binary_search(&old).is_ok() {
                if let Some(wanted) = self.wanted.get_mut(row.material) {
                    wanted.rows.push(self.rows.len());
                }
                self.rows.push(row);
            }
        }
    }

    fn seller(&self, place: usize, terms: &Supplier) -> Seller {
        let least = terms.least_order.filter(|least| *least > Money::ZERO);
        let mut prices = self.rows_of(Some(place)).map(|(_, row)| row.price);
        let judged = self
            .rows_of(Some(place))
            .all(|(_, row)| row.price.is_some())
            && prices.any(|price| price.is_some_and(|p| p > Money::ZERO));
        Seller {
            charge: terms.charge,
            least: least.filter(|_| judged),
            least_not_judged: least.is_some() && !judged,
        }
    }

    /// Sets how many of each package could be of use: what serves the phases it keeps for, or what reaches
    /// the least order alone. With one more, one could be left out again.
    fn bound(&mut self) -> Result<(), PurchaseFault> {
        for row in &mut self.rows {
            let Some(wanted) = self.wanted.get(row.material) else {
                continue;
            };
            let too_many = PurchaseFault::TooMany {
                material: row.material,
            };
            let least = row
                .supplier
                .and_then(|place| self.sellers.get(place)?.least);
            let for_least = match (least, row.price) {
                (Some(least), Some(price)) if price > Money::ZERO => {
                    count_to_reach(price, least).ok_or(too_many)?
                }
                _ => 0,
            };
            row.most = (0..self.phases)
                .map(|phase| {
                    let for_use = round_up(wanted.of_use(phase) / row.share)?;
                    Some(for_use.max(for_least))
                })
                .collect::<Option<_>>()
                .ok_or(too_many)?;
            if wanted.cover == Cover::Unpriced {
                let counts = just_in_time(wanted, row.share).ok_or(too_many)?;
                row.most_in_all = Some(counts.iter().sum());
            }
        }
        Ok(())
    }
}

impl Wanted {
    fn new(material: usize, need: &Need, phases: &[Phase]) -> Result<Self, PurchaseFault> {
        if let Some(value) = need.keeps.filter(|days| !quantity(*days)) {
            return Err(PurchaseFault::Keeps { material, value });
        }
        if need.by_phase.len() > phases.len() {
            return Err(PurchaseFault::NoSuchPhase {
                material,
                given: need.by_phase.len(),
                phases: phases.len(),
            });
        }
        let nothing = Quantity {
            loose: Some(Volume::default()),
            mass: Some(Mass::default()),
        };
        let mut total = nothing;
        let mut needs = Vec::new();
        for phase in 0..phases.len() {
            let given = need.by_phase.get(phase).copied().unwrap_or(nothing);
            let sides = [given.loose.map(|v| v.value), given.mass.map(|m| m.value)];
            if let Some(value) = sides.into_iter().flatten().find(|v| !quantity(*v)) {
                return Err(PurchaseFault::Need {
                    material,
                    phase,
                    value,
                });
            }
            let given = if sides.into_iter().flatten().any(|v| v <= 0.0) {
                nothing
            } else {
                given
            };
            total = total.plus(&given);
            if let Some(value) = [total.loose.map(|v| v.value), total.mass.map(|m| m.value)]
                .into_iter()
                .flatten()
                .find(|v| !v.is_finite())
            {
                return Err(PurchaseFault::Need {
                    material,
                    phase,
                    value,
                });
            }
            needs.push(given);
        }
        for given in &mut needs {
            given.loose = given.loose.filter(|_| total.loose.is_some());
            given.mass = given.mass.filter(|_| total.mass.is_some());
        }
        let is_nothing = total.loose.is_some_and(|v| v.value <= 0.0)
            || total.mass.is_some_and(|m| m.value <= 0.0);
        let by_phase = needs
            .iter()
            .enumerate()
            .map(|(phase, given)| {
                let loose = given.loose.zip(total.loose).map(|(a, b)| a.value / b.value);
                let mass = given.mass.zip(total.mass).map(|(a, b)| a.value / b.value);
                match (loose, mass) {
                    _ if is_nothing => Ok(0.0),
                    (Some(a), Some(b)) if (a - b).abs() > ONE_DENSITY * a.max(b) => {
                        Err(PurchaseFault::TwoDensities { material, phase })
                    }
                    (Some(share), _) | (None, Some(share)) => Ok(share),
                    (None, None) => Ok(0.0),
                }
            })
            .collect::<Result<Vec<_>, _>>()?;
        Ok(Self {
            total,
            needs,
            by_phase,
            days: phases.iter().map(|phase| phase.day).collect(),
            keeps: need.keeps,
            cover: if is_nothing {
                Cover::NothingNeeded
            } else {
                Cover::NoOffer
            },
            rows: Vec::new(),
        })
    }
}

impl Row {
    fn new(
        place: usize,
        offer: &Offer,
        suppliers: &[Supplier],
        wanted: &Wanted,
    ) -> Result<Self, PurchaseFault> {
        let held = match offer.holds {
            Holds::Volume(v) => v.value,
            Holds::Mass(m) => m.value,
        };
        if !(quantity(held) && held > 0.0) {
            return Err(PurchaseFault::Holds {
                offer: place,
                value: held,
            });
        }
        let given = [offer.mass.map(|m| m.value), offer.loose.map(|v| v.value)];
        if let Some(value) = given.into_iter().flatten().find(|v| !quantity(*v)) {
            return Err(PurchaseFault::Takes {
                offer: place,
                value,
            });
        }
        let total = wanted.total;
        let density = total
            .mass
            .zip(total.loose)
            .map(|(mass, loose)| mass.value / loose.value)
            .filter(|d| d.is_finite() && *d > 0.0);
        let (by_mass, by_volume) = match offer.holds {
            Holds::Volume(v) => (density.map(|d| v.value * d), Some(v.value)),
            Holds::Mass(m) => (Some(m.value), density.map(|d| m.value / d)),
        };
        let sizes = [
            offer.mass.map(|m| m.value).or(by_mass),
            offer.loose.map(|v| v.value).or(by_volume),
        ];
        let mut row = Self {
            offer: place,
            material: offer.material,
            supplier: offer.supplier,
            holds: offer.holds,
            share: offer.holds.share_of(&total).unwrap_or(0.0),
            price: offer.price,
            mass: sizes[0],
            volume: sizes[1],
            takes: [0.0; 2],
            room_unknown: false,
            fits: None,
            most: Vec::new(),
            most_in_all: None,
        };
        let Some(supplier) = offer.supplier else {
            return Ok(row);
        };
        let Some(terms) = suppliers.get(supplier) else {
            return Err(PurchaseFault::NoSuchSupplier {
                offer: place,
                supplier,
            });
        };
        let limits = [
            terms.truck_mass.map(|m| m.value),
            terms.truck_volume.map(|v| v.value),
        ];
        for ((takes, size), limit) in row.takes.iter_mut().zip(sizes).zip(limits) {
            let (Some(size), Some(limit)) = (size, limit) else {
                row.room_unknown |= limit.is_some();
                continue;
            };
            if size <= 0.0 {
                continue;
            }
            let times = size / limit;
            if times > 1.0 + COUNT_SLACK {
                return Err(PurchaseFault::TooLargeForTruck {
                    offer: place,
                    supplier,
                    times,
                });
            }
            *takes = times.min(1.0);
        }
        row.fits = room_for(row.takes, [0.0; 2]);
        Ok(row)
    }
}

/// How many packages that take these parts of a truck still go on it; `None` when no limit is known.
pub(crate) fn room_for(takes: [f64; 2], taken: [f64; 2]) -> Option<u64> {
    takes
        .into_iter()
        .zip(taken)
        .filter(|(takes, _)| *takes > 0.0)
        .map(|(takes, taken)| {
            let fit = ((1.0 + COUNT_SLACK - taken) / takes).floor();
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a whole number; one past counting becomes the largest, a negative one 0"
            )]
            let fit = fit as u64;
            fit
        })
        .min()
}

fn quantity(value: f64) -> bool {
    value.is_finite() && value >= 0.0
}

fn check_phases(phases: &[Phase]) -> Result<(), PurchaseFault> {
    let mut latest = None;
    for (phase, day) in phases.iter().map(|phase| phase.day).enumerate() {
        if day.is_some() && day < latest {
            return Err(PurchaseFault::PhaseOrder { phase });
        }
        latest = day.or(latest);
    }
    Ok(())
}
