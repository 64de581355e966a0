//! How long a question for a blend takes: six materials and eight requirements, met and not met.
//!
//! Run it with `cargo bench -p hodful-benches --bench blend`. A question must be answered within 5 ms, as it is at
//! every key.

use divan::Bencher;
use hodful_quantities::units::{
    Mass, MassDensity, kilogram, kilogram_per_cubic_meter, length_of_mm,
};
use hodful_soils::blend::{Aim, BlendFault, Candidate, Grains, Outcome, Range, Target, solve};

fn main() {
    divan::main();
}

const AIMS: [Aim; 3] = [Aim::LeastCost, Aim::LeastBought, Aim::WidestMargin];

/// Two site soils, two sands, a bagged clay and a lean premix; densities, shares of clay, silt, sand and gravel,
/// what passes 0.25 mm and 2 mm, price, kilograms in the yard.
fn candidates() -> Vec<Candidate> {
    type Row = (f64, [f64; 4], [f64; 2], f64, f64);
    let rows: [Row; 6] = [
        (1150.0, [0.24, 0.41, 0.30, 0.05], [0.80, 0.95], 0.02, 900.0),
        (1250.0, [0.12, 0.28, 0.50, 0.10], [0.62, 0.90], 0.02, 400.0),
        (1500.0, [0.01, 0.03, 0.93, 0.03], [0.25, 0.97], 0.04, 0.0),
        (1450.0, [0.02, 0.06, 0.90, 0.02], [0.48, 0.98], 0.05, 250.0),
        (900.0, [0.62, 0.33, 0.05, 0.00], [0.99, 1.00], 0.45, 75.0),
        (1600.0, [0.05, 0.15, 0.70, 0.10], [0.34, 0.90], 0.12, 300.0),
    ];
    rows.into_iter()
        .map(
            |(loose, [clay, silt, sand, gravel], [fine, coarse], price, yard)| Candidate {
                loose_density: MassDensity::new::<kilogram_per_cubic_meter>(loose),
                grain_density: MassDensity::new::<kilogram_per_cubic_meter>(2650.0),
                grains: Some(Grains {
                    clay,
                    silt,
                    sand,
                    gravel,
                }),
                passing: vec![(length_of_mm(0.25), fine), (length_of_mm(2.0), coarse)],
                is_sand: sand > 0.85,
                price: Some(price),
                in_yard: Mass::new::<kilogram>(yard),
                can_buy: price > 0.03,
            },
        )
        .collect()
}

/// Eight requirements, with this least of clay.
fn target(clay: f64) -> Result<Target, BlendFault> {
    let between = |least, most| Range::between(least, most).map(Some);
    Ok(Target {
        clay: between(clay, clay + 0.04)?,
        silt: between(0.05, 0.25)?,
        sand_to_clay: between(3.0, 9.0)?,
        sand_to_rest: between(0.5, 3.0)?,
        sieves: vec![
            (length_of_mm(0.25), Range::between(0.30, 0.65)?),
            (length_of_mm(2.0), Range::at_least(0.93)?),
        ],
        shares: vec![
            Range::at_most(0.5).map(Some)?,
            None,
            None,
            None,
            Range::at_most(0.2).map(Some)?,
        ],
    })
}

#[divan::bench(args = AIMS)]
fn met(bencher: Bencher<'_, '_>, aim: Aim) {
    let (candidates, target) = (candidates(), target(0.09).expect("ranges"));
    let amount = Some(Mass::new::<kilogram>(1500.0));
    let ask = || solve(&candidates, &target, aim, amount).expect("no fault");
    assert!(matches!(ask(), Outcome::Found(_)), "the target can be met");
    bencher.bench_local(ask);
}

#[divan::bench(args = AIMS)]
fn not_met(bencher: Bencher<'_, '_>, aim: Aim) {
    let (candidates, target) = (candidates(), target(0.24).expect("ranges"));
    let amount = Some(Mass::new::<kilogram>(1500.0));
    let ask = || solve(&candidates, &target, aim, amount).expect("no fault");
    assert!(
        matches!(ask(), Outcome::Impossible(_)),
        "the target cannot be met"
    );
    bencher.bench_local(ask);
}
