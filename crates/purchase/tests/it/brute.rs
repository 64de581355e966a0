//! Everything tried: every number of every package in every phase, and every way to put it on trucks. What is
//! found this way is the oracle; it shares no code with the crate, and works in whole quarters and cents.

use crate::made_up::{Case, Random, Size, made_up};
use hodful_purchase::Aim;
use hodful_quantities::order::Holds;
use hodful_quantities::read::Money;
use hodful_quantities::units::{kilogram, liter};
use std::collections::HashMap;

/// Ways to choose counts past which a case is left out: a matter of time only.
const MOST_WAYS: u64 = 40_000;

#[derive(Debug)]
struct Plain {
    phases: usize,
    /// Litres, by material and phase.
    needs: Vec<Vec<i64>>,
    /// Whether what comes in one phase serves another, by material.
    serves: Vec<Vec<Vec<bool>>>,
    offers: Vec<PlainOffer>,
    suppliers: Vec<PlainSupplier>,
}

#[derive(Debug)]
struct PlainOffer {
    material: usize,
    supplier: Option<usize>,
    litres: i64,
    /// In the truck: kilograms and litres.
    size: [i64; 2],
    cents: i64,
}

#[derive(Debug)]
struct PlainSupplier {
    charge: i64,
    least: i64,
    limits: [Option<i64>; 2],
}

fn whole(value: f64) -> i64 {
    let whole = value.round();
    assert!((whole - value).abs() < 1e-6, "{value} is not whole");
    format!("{whole}").parse().unwrap()
}

fn cents(money: Money) -> i64 {
    whole(f64::try_from(money.amount()).unwrap() * 100.0)
}

impl Plain {
    /// `None` when a package does not fit its truck.
    fn new(case: &Case) -> Option<Self> {
        let suppliers: Vec<PlainSupplier> = case
            .suppliers
            .iter()
            .map(|s| PlainSupplier {
                charge: cents(s.charge),
                least: s.least_order.map_or(0, cents),
                limits: [
                    s.truck_mass.map(|m| whole(m.get::<kilogram>())),
                    s.truck_volume.map(|v| whole(v.get::<liter>())),
                ],
            })
            .collect();
        let mut offers = Vec::new();
        for offer in &case.offers {
            let Holds::Volume(holds) = offer.holds else {
                return None;
            };
            let holds = holds.get::<liter>();
            let needed: f64 = case.needs[offer.material]
                .by_phase
                .iter()
                .map(|q| q.loose.unwrap().value)
                .sum();
            // Without a need there is no density to weigh by.
            let mass = offer
                .mass
                .map_or(if needed > 0.0 { holds * 1.5 } else { 0.0 }, |m| {
                    m.get::<kilogram>()
                });
            // Half kilograms are whole when doubled.
            let size = [whole(mass * 2.0), whole(holds)];
            let limits = offer.supplier.map_or([None; 2], |s| suppliers[s].limits);
            let limits = [limits[0].map(|l| l * 2), limits[1]];
            if size
                .iter()
                .zip(limits)
                .any(|(s, l)| l.is_some_and(|l| *s > l))
            {
                return None;
            }
            offers.push(PlainOffer {
                material: offer.material,
                supplier: offer.supplier,
                litres: whole(holds),
                size,
                cents: cents(offer.price?),
            });
        }
        let phases = case.phases.len();
        let serves = case.needs.iter().map(|need| {
            (0..phases)
                .map(|from| {
                    (0..phases)
                        .map(|to| {
                            let days = case.phases[to].day.zip(case.phases[from].day);
                            let days =
                                days.map(|(a, b)| whole(f64::from(i32::try_from(a - b).unwrap())));
                            from <= to
                                && need
                                    .keeps
                                    .zip(days)
                                    .is_none_or(|(keeps, days)| days <= whole(keeps))
                        })
                        .collect()
                })
                .collect()
        });
        Some(Self {
            phases,
            needs: case
                .needs
                .iter()
                .map(|n| {
                    n.by_phase
                        .iter()
                        .map(|q| whole(q.loose.unwrap().get::<liter>()))
                        .collect()
                })
                .collect(),
            serves: serves.collect(),
            offers,
            suppliers,
        })
    }

    /// Most of an offer that could be of use in one phase.
    fn most(&self, offer: &PlainOffer) -> i64 {
        let needed: i64 = self.needs[offer.material].iter().sum();
        if needed == 0 {
            return 0;
        }
        let least = offer.supplier.map_or(0, |s| self.suppliers[s].least);
        let up = |a: i64, b: i64| (a + b - 1) / b;
        up(needed, offer.litres).max(up(least, offer.cents))
    }

    /// Cents and trips of the best list by each aim.
    fn best(&self) -> Option<[(i64, i64); 2]> {
        let most: Vec<i64> = self.offers.iter().map(|o| self.most(o)).collect();
        let mut ways = 1_u64;
        for most in &most {
            for _ in 0..self.phases {
                ways = ways.saturating_mul(u64::try_from(*most).unwrap() + 1);
            }
        }
        if ways > MOST_WAYS {
            return None;
        }
        let places = self.offers.len() * self.phases;
        let mut counts = vec![0_i64; places];
        let mut best: [Option<(i64, i64)>; 2] = [None, None];
        let mut packed = HashMap::new();
        loop {
            if let Some((cost, trips)) = self.cost(&counts, &mut packed) {
                for (best, better) in best.iter_mut().zip([
                    |a: (i64, i64), b: (i64, i64)| a.0 < b.0,
                    |a: (i64, i64), b: (i64, i64)| (a.1, a.0) < (b.1, b.0),
                ]) {
                    if best.is_none_or(|b| better((cost, trips), b)) {
                        *best = Some((cost, trips));
                    }
                }
            }
            let mut at = 0;
            while at < places && counts[at] == most[at / self.phases] {
                counts[at] = 0;
                at += 1;
            }
            if at == places {
                break;
            }
            counts[at] += 1;
        }
        Some([best[0]?, best[1]?])
    }

    /// Cents and trips, when it covers and reaches the least orders.
    fn cost(
        &self,
        counts: &[i64],
        packed: &mut HashMap<(usize, Vec<i64>), i64>,
    ) -> Option<(i64, i64)> {
        for (material, needs) in self.needs.iter().enumerate() {
            // For every set of phases, what can serve any of them is enough for all of them (P. Hall's
            // condition).
            for set in 1..1_u32 << self.phases {
                let within = |phase: usize| set >> phase & 1 == 1;
                let needed: i64 = (0..self.phases)
                    .filter(|p| within(*p))
                    .map(|p| needs[p])
                    .sum();
                let there: i64 = self
                    .offers
                    .iter()
                    .enumerate()
                    .filter(|(_, o)| o.material == material)
                    .flat_map(|(i, o)| {
                        (0..self.phases)
                            .filter(|from| {
                                (0..self.phases)
                                    .any(|to| within(to) && self.serves[material][*from][to])
                            })
                            .map(move |from| o.litres * counts[i * self.phases + from])
                    })
                    .sum();
                if there < needed {
                    return None;
                }
            }
        }
        let (mut cost, mut trips) = (0, 0);
        for (i, offer) in self.offers.iter().enumerate() {
            let all: i64 = counts[i * self.phases..][..self.phases].iter().sum();
            cost += offer.cents * all;
        }
        for (supplier, terms) in self.suppliers.iter().enumerate() {
            for phase in 0..self.phases {
                let here: Vec<i64> = self
                    .offers
                    .iter()
                    .enumerate()
                    .map(|(i, o)| {
                        if o.supplier == Some(supplier) {
                            counts[i * self.phases + phase]
                        } else {
                            0
                        }
                    })
                    .collect();
                if here.iter().all(|n| *n == 0) {
                    continue;
                }
                let goods: i64 = self
                    .offers
                    .iter()
                    .zip(&here)
                    .map(|(o, n)| o.cents * n)
                    .sum();
                if goods < terms.least {
                    return None;
                }
                let loads = *packed.entry((supplier, here.clone())).or_insert_with(|| {
                    let mut things: Vec<[i64; 2]> = Vec::new();
                    for (offer, n) in self.offers.iter().zip(&here) {
                        for _ in 0..*n {
                            things.push(offer.size);
                        }
                    }
                    let limits = [
                        terms.limits[0].map_or(i64::MAX, |l| l * 2),
                        terms.limits[1].unwrap_or(i64::MAX),
                    ];
                    let mut fewest = i64::try_from(things.len()).unwrap();
                    load(&things, &mut Vec::new(), limits, &mut fewest);
                    fewest
                });
                cost += terms.charge * loads;
                trips += loads;
            }
        }
        Some((cost, trips))
    }
}

/// Every thing on every truck that has room, or on a new one.
fn load(things: &[[i64; 2]], trucks: &mut Vec<[i64; 2]>, limits: [i64; 2], fewest: &mut i64) {
    if i64::try_from(trucks.len()).unwrap() >= *fewest {
        return;
    }
    let Some((thing, rest)) = things.split_first() else {
        *fewest = i64::try_from(trucks.len()).unwrap();
        return;
    };
    for at in 0..trucks.len() {
        let with = [trucks[at][0] + thing[0], trucks[at][1] + thing[1]];
        if with[0] <= limits[0] && with[1] <= limits[1] && !trucks[..at].contains(&trucks[at]) {
            let before = trucks[at];
            trucks[at] = with;
            load(rest, trucks, limits, fewest);
            trucks[at] = before;
        }
    }
    trucks.push(*thing);
    load(rest, trucks, limits, fewest);
    trucks.pop();
}

#[test]
fn the_best_of_everything_is_found() {
    const WANTED: usize = 400;
    let mut random = Random::new(61_803);
    let (mut compared, mut better, mut open) = (0, 0, 0);
    let mut kinds = [0; 4];
    while compared < WANTED {
        let size = Size {
            materials: 2,
            offers: 2,
            suppliers: 2,
            phases: 2,
            most_needed: 24,
        };
        let mut case = made_up(&mut random, size);
        // At most three packages.
        case.offers.truncate(3);
        case.needs.truncate(
            case.offers
                .iter()
                .map(|o| o.material + 1)
                .max()
                .unwrap_or(0),
        );
        let Some(plain) = Plain::new(&case) else {
            continue;
        };
        let Some(best) = plain.best() else { continue };
        compared += 1;
        for (kind, there) in kinds.iter_mut().zip([
            case.phases.len() > 1,
            case.needs.iter().any(|n| n.keeps.is_some()),
            case.suppliers.iter().any(|s| s.least_order.is_some()),
            best[0] != best[1],
        ]) {
            *kind += usize::from(there);
        }
        for (aim, (cost, trips)) in [Aim::LeastCost, Aim::FewestDeliveries]
            .into_iter()
            .zip(best)
        {
            let plan = case.plan(aim);
            let found = cents(plan.price.unwrap());
            open += usize::from(!plan.proven);
            better += usize::from(found < cents(case.naive().price.unwrap()));
            if plan.proven {
                assert_eq!(found, cost, "{aim:?} {case:?} {plan:?}");
            } else {
                assert!(found >= cost, "{aim:?} {case:?} {plan:?}");
            }
            let found_trips = i64::try_from(plan.deliveries_count).unwrap();
            if aim == Aim::FewestDeliveries && plan.proven {
                assert_eq!(found_trips, trips, "{case:?} {plan:?}");
            } else {
                assert!(found_trips >= best[1].1, "{case:?} {plan:?}");
            }
        }
    }
    assert!(better > WANTED / 4, "better than the simple list: {better}");
    assert!(open <= WANTED / 100, "not proven: {open}");
    assert!(kinds.iter().all(|kind| *kind > WANTED / 20), "{kinds:?}");
}
