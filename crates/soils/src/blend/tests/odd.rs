//! Any numbers at all: a fault or an answer, never a panic. Not here: whether answers are right.

use proptest::collection::vec;
use proptest::prelude::*;

use super::*;

fn number() -> impl Strategy<Value = f64> {
    prop_oneof![
        6 => 0.0..1.0_f64,
        2 => 100.0..3000.0_f64,
        1 => any::<f64>(),
        1 => prop_oneof![
            Just(0.0), Just(-0.0), Just(1.0), Just(-1.0), Just(f64::NAN), Just(f64::INFINITY),
            Just(f64::MIN_POSITIVE), Just(5e-324), Just(1e-12), Just(1e-8), Just(1e300),
        ],
    ]
}

/// Mostly what is allowed, at its edges and orders of magnitude apart.
fn extreme(top: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(0.0),
        Just(top),
        (0..16_i32).prop_map(move |n| top * 10.0_f64.powi(-n)),
        0.0..top,
    ]
}

fn candidate(
    number: BoxedStrategy<f64>,
    density_of: BoxedStrategy<f64>,
) -> impl Strategy<Value = Candidate> {
    let numbers = (vec(number, 6), vec(density_of, 2));
    (numbers, any::<[bool; 4]>()).prop_map(|((n, d), [known, is_sand, priced, can_buy])| {
        let clay = n[0];
        Candidate {
            loose_density: density(d[0]),
            grain_density: density(d[1]),
            grains: known.then_some(Grains {
                clay,
                silt: (1.0 - clay) * n[1],
                sand: (1.0 - clay) * (1.0 - n[1]),
                gravel: 0.0,
            }),
            passing: vec![(length_of_mm(1.0), n[2])],
            is_sand,
            price: priced.then_some(n[3] * 1e3),
            in_yard: kg(n[4] * 1e4),
            can_buy,
        }
    })
}

fn target(ends: &[f64]) -> Target {
    let range = |i: usize| Range::new(ends.get(i).copied(), ends.get(i + 1).copied()).ok();
    Target {
        clay: range(0),
        silt: range(1),
        sand_to_clay: range(2),
        sand_to_rest: range(3),
        sieves: range(4)
            .map(|r| (length_of_mm(1.0), r))
            .into_iter()
            .collect(),
        shares: vec![range(5), range(6)],
    }
}

fn ask(candidates: &[Candidate], ends: &[f64], amount: Option<f64>) -> Result<(), TestCaseError> {
    let target = target(ends);
    for aim in [Aim::LeastCost, Aim::LeastBought, Aim::WidestMargin] {
        let blend = match solve(candidates, &target, aim, amount.map(kg)) {
            Ok(Outcome::Found(blend)) => blend,
            Ok(Outcome::Impossible(why)) => {
                prop_assert!(!why.conflict.is_empty());
                why.nearest
            }
            Err(fault) => {
                prop_assert!(!fault.to_string().is_empty());
                continue;
            }
        };
        prop_assert!(
            blend
                .mass_shares
                .iter()
                .all(|s| (0.0..=1.0 + 1e-9).contains(s))
        );
        prop_assert!((blend.mass_shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
        prop_assert!((blend.volume_parts.iter().sum::<f64>() - 1.0).abs() < 1e-9);
    }
    let parts: Vec<f64> = ends.iter().copied().take(candidates.len()).collect();
    let _ = assess(candidates, &target, &parts, amount.map(kg));
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_numbers(
        candidates in vec(candidate(number().boxed(), number().boxed()), 0..5),
        ends in vec(number(), 0..9),
        amount in proptest::option::of(number()),
    ) {
        ask(&candidates, &ends, amount)?;
    }

    #[test]
    fn extremes_of_what_is_allowed(
        candidates in vec(
            candidate(extreme(1.0).boxed(), prop_oneof![Just(1.0), Just(23_000.0), 1.0..23_000.0].boxed()),
            1..6,
        ),
        ends in vec(extreme(1.0), 0..9),
        amount in proptest::option::of(extreme(1e12)),
    ) {
        ask(&candidates, &ends, amount)?;
    }

    #[test]
    fn the_closed_forms(a in number(), b in number(), c in number()) {
        for parts in [sand_to_add(a, b, c), clay_to_add(a, b, c)].into_iter().flatten() {
            prop_assert!(parts.is_finite() && parts >= 0.0);
        }
    }
}
