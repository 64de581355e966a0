//! What must hold of blends whatever the question. Not here: numbers that are no numbers (`odd`).

use proptest::collection::vec;
use proptest::prelude::*;

use super::*;

fn candidate() -> impl Strategy<Value = Candidate> {
    let grains = vec(0.01..1.0_f64, 4);
    let supply = (
        0.0..1.0_f64,
        prop_oneof![Just(0.0), 1.0..3000.0_f64],
        any::<bool>(),
    );
    let plain = (
        400.0..1700.0_f64,
        2400.0..2800.0_f64,
        0.0..1.0_f64,
        any::<bool>(),
    );
    (plain, grains, supply).prop_map(|((loose, grain, passing, is_sand), g, supply)| {
        let sum: f64 = g.iter().sum();
        let (price, yard, can_buy) = supply;
        Candidate {
            loose_density: density(loose),
            grain_density: density(grain),
            grains: Some(Grains {
                clay: g[0] / sum,
                silt: g[1] / sum,
                sand: g[2] / sum,
                gravel: g[3] / sum,
            }),
            passing: vec![(length_of_mm(1.0), passing)],
            is_sand,
            price: Some(price),
            in_yard: kg(yard),
            can_buy: can_buy || yard <= 0.0,
        }
    })
}

fn range(top: f64) -> impl Strategy<Value = Option<Range>> {
    let ends = (0.0..top, 0.0..top, 0..5_u8);
    ends.prop_map(|(a, b, kind)| {
        let (low, high) = if a < b { (a, b) } else { (b, a) };
        match kind {
            0 => None,
            1 => Range::at_least(low).ok(),
            2 => Range::at_most(high).ok(),
            _ => Range::between(low, high).ok(),
        }
    })
}

fn question() -> impl Strategy<Value = (Vec<Candidate>, Target, Option<Mass>)> {
    let target = (
        range(0.6),
        range(0.6),
        range(4.0),
        range(4.0),
        range(1.0),
        range(0.6),
    );
    let target = target.prop_map(
        |(clay, silt, sand_to_clay, sand_to_rest, sieve, share)| Target {
            clay,
            silt,
            sand_to_clay,
            sand_to_rest,
            sieves: vec![(length_of_mm(1.0), sieve.unwrap_or_default())],
            shares: vec![share],
        },
    );
    let amount = proptest::option::of(100.0..4000.0_f64);
    (
        vec(candidate(), 2..7),
        target,
        amount.prop_map(|a| a.map(kg)),
    )
}

fn aim() -> impl Strategy<Value = Aim> {
    prop_oneof![
        Just(Aim::LeastCost),
        Just(Aim::LeastBought),
        Just(Aim::WidestMargin)
    ]
}

/// What the aim wants little of; `None` when there is no blend.
fn aimed(outcome: &Outcome, aim: Aim) -> Option<f64> {
    let Outcome::Found(blend) = outcome else {
        return None;
    };
    match aim {
        Aim::LeastCost => blend.cost,
        Aim::LeastBought => Some(blend.bought_share()),
        Aim::WidestMargin => Some(-blend.margin().unwrap_or(0.0)),
    }
}

/// Past this a margin is without end for what it is used for.
const WIDE: f64 = 999.0;

/// Cost and what is bought are promised to a millionth of themselves, a margin to a millionth of a width.
fn no_worse(after: f64, before: f64, aim: Aim) -> bool {
    let both_wide = after < -WIDE && before < -WIDE;
    let least = if aim == Aim::WidestMargin { 1.0 } else { 1e-3 };
    both_wide || after <= before + 1e-6 * before.abs().max(least)
}

/// The range of a figure by hand: the same requirement worked out from the materials without the rows.
fn figure_by_hand(candidates: &[Candidate], blend: &Blend, requirement: Requirement) -> f64 {
    let sum = |of: &dyn Fn(usize, &Candidate) -> f64| -> f64 {
        let each = candidates.iter().zip(&blend.mass_shares).enumerate();
        each.map(|(i, (c, share))| of(i, c) * share).sum()
    };
    let grains = |c: &Candidate| c.grains.unwrap();
    let loose = |c: &Candidate| 1.0 / c.loose_density.get::<kilogram_per_cubic_meter>();
    let grain = |c: &Candidate| 1.0 / c.grain_density.get::<kilogram_per_cubic_meter>();
    match requirement {
        Requirement::Clay => sum(&|_, c| grains(c).clay),
        Requirement::Silt => sum(&|_, c| grains(c).silt),
        Requirement::SandToClay => {
            sum(&|_, c| grains(c).sand * grain(c)) / sum(&|_, c| grains(c).clay * grain(c))
        }
        Requirement::SandToRest => {
            let of = |sand: bool| sum(&|_, c| if c.is_sand == sand { loose(c) } else { 0.0 });
            of(true) / of(false)
        }
        Requirement::Passing(_) => sum(&|_, c| c.passing[0].1),
        Requirement::Share(which) => {
            let own = sum(&|i, c| if i == which { loose(c) } else { 0.0 });
            own / sum(&|_, c| loose(c))
        }
    }
}

fn keeps(candidates: &[Candidate], target: &Target, blend: &Blend) -> Result<(), TestCaseError> {
    let asked = [
        (Requirement::Clay, target.clay),
        (Requirement::Silt, target.silt),
        (Requirement::SandToClay, target.sand_to_clay),
        (Requirement::SandToRest, target.sand_to_rest),
        (Requirement::Passing(0), Some(target.sieves[0].1)),
        (Requirement::Share(0), target.shares[0]),
    ];
    for (requirement, range) in asked {
        let Some(range) = range else { continue };
        let value = figure_by_hand(candidates, blend, requirement);
        // A ratio is missed by more than the blend is, the more so the less there is of the other: a
        // millionth of the blend, over what both hold on the scale of the lightest.
        let slack = if requirement.is_ratio() {
            if value.is_nan() || value > 1e3 {
                continue;
            }
            1e-4 * (1.0 + value) * (1.0 + value)
        } else {
            1e-5
        };
        prop_assert!(
            range.least().is_none_or(|least| value >= least - slack),
            "{requirement} {value} {range:?}"
        );
        prop_assert!(
            range.most().is_none_or(|most| value <= most + slack),
            "{requirement} {value} {range:?}"
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_found_blend_keeps_the_target((candidates, target, amount) in question(), aim in aim()) {
        let Outcome::Found(blend) = solve(&candidates, &target, aim, amount).unwrap() else {
            return Ok(());
        };
        keeps(&candidates, &target, &blend)?;
        if let Some(rounded) = &blend.rounded {
            keeps(&candidates, &target, &rounded.blend)?;
            prop_assert!(rounded.blend.missing.is_empty());
        }
        prop_assert!(blend.missing.is_empty());
        prop_assert!((blend.mass_shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
        for (candidate, share) in candidates.iter().zip(&blend.mass_shares) {
            if let Some(amount) = amount && !candidate.can_buy {
                prop_assert!(*share * amount.get::<kilogram>() <= candidate.in_yard.get::<kilogram>() * (1.0 + 1e-6) + 1e-2);
            }
        }
        let again = solve(&candidates, &target, aim, amount).unwrap();
        prop_assert_eq!(again, Outcome::Found(blend));
    }

    #[test]
    fn one_more_material_is_never_worse(
        (candidates, target, amount) in question(), more in candidate(), aim in aim()
    ) {
        let before = solve(&candidates, &target, aim, amount).unwrap();
        let Some(before) = aimed(&before, aim) else { return Ok(()) };
        let mut candidates = candidates;
        candidates.push(more);
        let after = solve(&candidates, &target, aim, amount).unwrap();
        let after = aimed(&after, aim);
        prop_assert!(after.is_some_and(|after| no_worse(after, before, aim)), "{before} {after:?}");
    }

    #[test]
    fn the_order_of_the_materials_does_not_matter(
        (candidates, target, amount) in question(), aim in aim()
    ) {
        let before = aimed(&solve(&candidates, &target, aim, amount).unwrap(), aim);
        let turned: Vec<Candidate> = candidates.iter().rev().cloned().collect();
        let mut shares = vec![None; candidates.len() - 1];
        shares.extend(target.shares.iter().copied());
        let target = Target { shares, ..target };
        let after = aimed(&solve(&turned, &target, aim, amount).unwrap(), aim);
        prop_assert_eq!(before.is_some(), after.is_some());
        if let (Some(before), Some(after)) = (before, after) {
            prop_assert!(no_worse(after, before, aim) && no_worse(before, after, aim), "{before} {after}");
        }
    }

    #[test]
    fn a_wider_target_is_never_worse(
        (candidates, target, amount) in question(), by in 0.0..0.2_f64
    ) {
        let wider = |range: Option<Range>| range.and_then(|r| {
            let least = r.least().map(|end| end * (1.0 - by));
            let most = r.most().map(|end| end + (1.0 - end).max(0.0) * by);
            Range::new(least, most).ok()
        });
        let wide = Target {
            clay: wider(target.clay),
            silt: wider(target.silt),
            sand_to_clay: wider(target.sand_to_clay),
            sand_to_rest: wider(target.sand_to_rest),
            sieves: target.sieves.iter().map(|(size, r)| (*size, wider(Some(*r)).unwrap())).collect(),
            shares: target.shares.iter().map(|r| wider(*r)).collect(),
        };
        for aim in [Aim::LeastCost, Aim::LeastBought] {
            let before = aimed(&solve(&candidates, &target, aim, amount).unwrap(), aim);
            let after = aimed(&solve(&candidates, &wide, aim, amount).unwrap(), aim);
            if let Some(before) = before {
                prop_assert!(after.is_some_and(|after| no_worse(after, before, aim)), "{before} {after:?}");
            }
        }
    }

    #[test]
    fn no_blend_beats_the_reach((candidates, target, amount) in question(), parts in vec(0.01..1.0_f64, 7)) {
        let Outcome::Impossible(why) = solve(&candidates, &target, Aim::LeastBought, amount).unwrap() else {
            return Ok(());
        };
        prop_assert!(!why.conflict.is_empty());
        // Nothing is missed only where the amount alone is short, and then supplies are all that is named.
        if why.nearest.missing.is_empty() {
            let short = why.all_there_is.zip(amount).is_some_and(|(all, amount)| all < amount);
            prop_assert!(short && why.conflict.iter().all(|limit| matches!(limit, Limit::Supply(_))));
        }
        if amount.is_some() {
            return Ok(());
        }
        let any = assess(&candidates, &target, &parts[..candidates.len()], None).unwrap();
        for (figure, reach) in any.figures.iter().zip(&why.reach) {
            if let Some(value) = figure.value {
                prop_assert!(reach.least.is_some_and(|least| least <= value * (1.0 + 1e-9) + 1e-12));
                prop_assert!(reach.most.is_some_and(|most| most >= value * (1.0 - 1e-9)));
            }
        }
    }
}
