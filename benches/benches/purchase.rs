//! How long a list for the suppliers takes: six materials in twelve packages at four suppliers.
//!
//! Run it with `cargo bench -p hodful-benches --bench purchase`. Set `SPREAD` to anything to have the spread over
//! a hundred made-up cases printed as well. Not here: whether the lists are right.

use divan::Bencher;
use hodful_purchase::{Aim, Need, Offer, Phase, Supplier, plan};
use hodful_quantities::Measure;
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::Holds;
use hodful_quantities::read::Money;
use hodful_quantities::units::{Mass, Volume, kilogram, liter};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64;
use std::time::Instant;

const CASES: u64 = 100;

fn main() {
    if std::env::var_os("SPREAD").is_some() {
        for phases in [1, 3] {
            for aim in [Aim::LeastCost, Aim::FewestDeliveries] {
                spread(phases, aim);
            }
        }
    }
    divan::main();
}

struct Case {
    needs: Vec<Need>,
    offers: Vec<Offer>,
    suppliers: Vec<Supplier>,
    phases: Vec<Phase>,
}

impl Case {
    fn open(&self, aim: Aim) -> bool {
        let plan = plan(
            &self.needs,
            &self.offers,
            &self.suppliers,
            &self.phases,
            aim,
        );
        !plan.expect("the case is in order").proven
    }
}

/// Sand, clay soil, straw, fibre, binder and the like: two packages of each, loads and bags, at four suppliers.
fn case(seed: u64, phases: u32) -> Case {
    let mut random = Pcg64::seed_from_u64(seed);
    let suppliers = (0..4)
        .map(|_| Supplier {
            charge: money(random.random_range(0..16) * 500),
            least_order: random
                .random_bool(0.25)
                .then(|| money(random.random_range(2..12) * 2_500)),
            truck_mass: Some(Mass::new::<kilogram>(
                [2_000.0, 3_500.0, 7_500.0, 12_000.0][random.random_range(0..4)],
            )),
            truck_volume: random
                .random_bool(0.5)
                .then(|| Volume::new::<liter>(f64::from(random.random_range(4..9)) * 1_000.0)),
        })
        .collect();
    let mut needs = Vec::new();
    let mut offers = Vec::new();
    for material in 0..6 {
        let density = f64::from(random.random_range(2..18)) * 0.1;
        let whole = random.random_range(200.0..9_000.0_f64);
        needs.push(Need {
            by_phase: (0..phases)
                .map(|_| {
                    let loose = whole * random.random_range(0.2..1.0) / f64::from(phases);
                    Quantity {
                        loose: Some(Volume::new::<liter>(loose)),
                        mass: Some(Mass::new::<kilogram>(loose * density)),
                    }
                })
                .collect(),
            keeps: random.random_bool(0.2).then_some(21.0),
        });
        for holds in [[25, 40, 50], [500, 750, 900]] {
            let holds = holds[random.random_range(0..3)];
            // Cents a litre, bags dearer by the litre than loads.
            let each = random.random_range(4..16) * if holds < 100 { 13 } else { 10 };
            offers.push(Offer {
                material,
                supplier: Some(random.random_range(0..4)),
                holds: Holds::Volume(Volume::new::<liter>(f64::from(holds))),
                price: Some(money(holds * each / 10)),
                loose: None,
                mass: None,
            });
        }
    }
    let phases = (0..phases).map(|phase| Phase {
        day: Some(i64::from(phase) * 14),
    });
    Case {
        needs,
        offers,
        suppliers,
        phases: phases.collect(),
    }
}

fn money(cents: u32) -> Money {
    Money::read(&format!("{}.{:02}", cents / 100, cents % 100)).expect("it is a price")
}

#[allow(clippy::print_stdout, reason = "asked for by SPREAD")]
fn spread(phases: u32, aim: Aim) {
    let mut times = Vec::new();
    let mut open = 0;
    for seed in 0..CASES {
        let case = case(seed, phases);
        let start = Instant::now();
        open += usize::from(divan::black_box(case.open(aim)));
        times.push(start.elapsed());
    }
    times.sort_unstable();
    let at = |share: usize| times[(times.len() - 1) * share / 100];
    println!(
        "{phases} phases, {aim:?}: p50 {:.2?}, p95 {:.2?}, max {:.2?}; {open} of {CASES} not proven",
        at(50),
        at(95),
        at(100)
    );
}

#[divan::bench(args = [1, 3], sample_count = 20, sample_size = 1)]
fn least_cost(bencher: Bencher<'_, '_>, phases: u32) {
    let case = case(7, phases);
    bencher.bench_local(|| case.open(Aim::LeastCost));
}

#[divan::bench(args = [1, 3], sample_count = 20, sample_size = 1)]
fn fewest_deliveries(bencher: Bencher<'_, '_>, phases: u32) {
    let case = case(7, phases);
    bencher.bench_local(|| case.open(Aim::FewestDeliveries));
}
