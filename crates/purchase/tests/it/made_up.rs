//! Cases made up from a seed, and short words to write cases by hand. Not here: any test.

use hodful_purchase::{Aim, Need, Offer, Phase, Plan, Supplier, plan};
use hodful_quantities::Measure;
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::Holds;
use hodful_quantities::read::Money;
use hodful_quantities::units::{Mass, Volume, kilogram, liter};

/// All that a list is made from.
#[derive(Debug, Clone, Default)]
pub(crate) struct Case {
    pub(crate) needs: Vec<Need>,
    pub(crate) offers: Vec<Offer>,
    pub(crate) suppliers: Vec<Supplier>,
    pub(crate) phases: Vec<Phase>,
}

impl Case {
    pub(crate) fn plan(&self, aim: Aim) -> Plan {
        plan(
            &self.needs,
            &self.offers,
            &self.suppliers,
            &self.phases,
            aim,
        )
        .unwrap_or_else(|fault| panic!("{fault}"))
    }

    pub(crate) fn naive(&self) -> Plan {
        let Self {
            needs,
            offers,
            suppliers,
            phases,
        } = self;
        hodful_purchase::naive(needs, offers, suppliers, phases)
            .unwrap_or_else(|fault| panic!("{fault}"))
    }
}

pub(crate) fn money(text: &str) -> Money {
    Money::read(text).unwrap()
}

pub(crate) fn litres(value: f64) -> Volume {
    Volume::new::<liter>(value)
}

pub(crate) fn kilograms(value: f64) -> Mass {
    Mass::new::<kilogram>(value)
}

/// A need in litres, by phase.
pub(crate) fn need(by_phase: &[f64]) -> Need {
    Need {
        by_phase: by_phase
            .iter()
            .map(|v| Quantity::of_volume(litres(*v), None))
            .collect(),
        keeps: None,
    }
}

/// A package of so many litres.
pub(crate) fn offer(material: usize, supplier: Option<usize>, holds: f64, price: &str) -> Offer {
    Offer {
        material,
        supplier,
        holds: Holds::Volume(litres(holds)),
        price: Some(money(price)),
        loose: None,
        mass: None,
    }
}

pub(crate) fn supplier(charge: &str, least: Option<&str>, truck: Option<f64>) -> Supplier {
    Supplier {
        charge: money(charge),
        least_order: least.map(money),
        truck_mass: None,
        truck_volume: truck.map(litres),
    }
}

/// What is bought, as offer, phase and count, in that order.
pub(crate) fn bought(plan: &Plan) -> Vec<(usize, usize, u64)> {
    let lines = plan
        .deliveries
        .iter()
        .flat_map(|d| d.lines.iter().map(|l| (l.offer, d.phase, l.count)));
    let mut bought: Vec<_> = lines.collect();
    bought.sort_unstable();
    bought
}

/// Numbers from a seed: the generator of D. H. Lehmer with the factor of S. K. Park and K. W. Miller, "Random
/// number generators: good ones are hard to find", Communications of the ACM 31, 1988 (from memory).
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn new(seed: u32) -> Self {
        Self(u64::from(seed) % 0x7fff_fffe + 1)
    }

    /// A whole number below `end`.
    pub(crate) fn below(&mut self, end: u32) -> u32 {
        self.0 = self.0 * 48_271 % 0x7fff_ffff;
        // The upper bits are the better ones.
        u32::try_from((self.0 >> 8) % u64::from(end)).unwrap()
    }

    pub(crate) fn one_of<T: Copy>(&mut self, choices: &[T]) -> T {
        choices[self.below(u32::try_from(choices.len()).unwrap()) as usize]
    }

    pub(crate) fn some<T>(&mut self, percent: u32, make: impl FnOnce(&mut Self) -> T) -> Option<T> {
        (self.below(100) < percent).then(|| make(self))
    }
}

/// How large a made-up case is at most.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Size {
    pub(crate) materials: u32,
    pub(crate) offers: u32,
    pub(crate) suppliers: u32,
    pub(crate) phases: u32,
    /// In quarters of the smallest package.
    pub(crate) most_needed: u32,
}

/// A case with prices for everything, sizes in quarters of 100 litres.
pub(crate) fn made_up(random: &mut Random, size: Size) -> Case {
    let mut day = 0;
    let phases = 1 + random.below(size.phases);
    let mut case = Case::default();
    for _ in 0..phases {
        case.phases.push(Phase {
            day: random.some(80, |_| day),
        });
        day += i64::from(1 + random.below(9));
    }
    for _ in 0..random.below(size.suppliers + 1) {
        case.suppliers.push(Supplier {
            charge: money(random.one_of(&["0", "7.5", "20", "45"])),
            least_order: random.some(30, |r| money(r.one_of(&["15", "30.5", "60"]))),
            truck_mass: random.some(30, |r| kilograms(r.one_of(&[500.0, 800.0, 1100.0]))),
            truck_volume: random.some(50, |r| litres(r.one_of(&[500.0, 600.0, 900.0]))),
        });
    }
    for material in 0..=random.below(size.materials) {
        let mut need = need(&[]);
        for _ in 0..phases {
            let quarters = random.below(size.most_needed + 1);
            need.by_phase.push(Quantity::of_volume(
                litres(25.0 * f64::from(quarters)),
                Some(kilograms(1.5) / litres(1.0)),
            ));
        }
        need.keeps = random.some(30, |r| f64::from(r.below(12)));
        case.needs.push(need);
        for _ in 0..=random.below(size.offers) {
            let holds = random.one_of(&[100.0, 150.0, 175.0, 250.0, 300.0]);
            let price = u64::from(random.below(40) + 5);
            let supplier = match case.suppliers.len() {
                0 => None,
                n => random.some(80, |r| r.below(u32::try_from(n).unwrap()) as usize),
            };
            let mut offer = offer(material as usize, supplier, holds, &price.to_string());
            offer.mass = random.some(30, |r| kilograms(f64::from(r.below(10) * 50)));
            case.offers.push(offer);
        }
    }
    case
}
