//! Blending held against mass balance on paper and published mixes. Not here: properties over made-up
//! questions (`properties`), and the comparison with another solver (tests/crosscheck).

use hodful_quantities::units::{
    Mass, MassDensity, kilogram, kilogram_per_cubic_meter, length_of_mm,
};

use super::*;

mod odd;
mod properties;

fn kg(value: f64) -> Mass {
    Mass::new::<kilogram>(value)
}

fn density(value: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(value)
}

fn material(loose: f64, [clay, silt, sand]: [f64; 3], price: f64) -> Candidate {
    Candidate {
        loose_density: density(loose),
        grain_density: density(2650.0),
        grains: Some(Grains {
            clay,
            silt,
            sand,
            gravel: 0.0,
        }),
        passing: vec![],
        is_sand: sand > 0.9,
        price: Some(price),
        in_yard: Mass::default(),
        can_buy: true,
    }
}

// The soil and the sand of Taylor, Vardy and MacDougall, Queen's University, 2006: 69 % silt, 27 % clay,
// 4 % sand; 1 : 1.5 by volume is 1 : 2.4 by mass, so the sand is 1.6 times as dense.
fn queens() -> [Candidate; 2] {
    [
        material(1000.0, [0.27, 0.69, 0.04], 0.02),
        material(1600.0, [0.0, 0.0, 1.0], 0.03),
    ]
}

fn clay(least: f64, most: f64) -> Target {
    Target {
        clay: Some(Range::between(least, most).unwrap()),
        ..Target::default()
    }
}

#[track_caller]
fn found(outcome: Result<Outcome, BlendFault>) -> Blend {
    match outcome {
        Ok(Outcome::Found(blend)) => blend,
        other => panic!("not found: {other:?}"),
    }
}

#[track_caller]
fn impossible(outcome: Result<Outcome, BlendFault>) -> Impossible {
    match outcome {
        Ok(Outcome::Impossible(why)) => why,
        other => panic!("not impossible: {other:?}"),
    }
}

#[track_caller]
fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value} {expected}");
}

/// 27/2.6, 27/3.4 and 27/5.8 per cent by the mass balance; the paper's mixes are these parts.
#[test]
fn published_parts_have_their_clay() {
    for (sand, percent) in [(1.0, 10.4), (1.5, 7.94), (3.0, 4.66)] {
        let blend = assess(&queens(), &clay(0.0, 1.0), &[1.0, sand], None).unwrap();
        let value = blend.figures[0].value.unwrap();
        near(100.0 * value, percent, 0.02);
        assert!(blend.missing.is_empty());
    }
}

#[test]
fn the_programme_agrees_with_the_mass_balance_of_two_materials() {
    for aim in [Aim::LeastCost, Aim::LeastBought, Aim::WidestMargin] {
        for target in [0.05, 0.0794, 0.2, 0.26] {
            let blend = found(solve(&queens(), &clay(target, target), aim, None));
            let sand = sand_to_add(0.27, target, 0.0).unwrap();
            near(blend.mass_shares[1] / blend.mass_shares[0], sand, 1e-6);
            near(
                blend.volume_parts[1] / blend.volume_parts[0],
                sand / 1.6,
                1e-6,
            );
            near(blend.volume_parts.iter().sum(), 1.0, 1e-12);
        }
    }
    let enriched = [
        material(1200.0, [0.05, 0.25, 0.70], 0.01),
        material(800.0, [0.60, 0.35, 0.05], 0.4),
    ];
    let target = Target {
        clay: Some(Range::at_least(0.12).unwrap()),
        ..Target::default()
    };
    let blend = found(solve(&enriched, &target, Aim::LeastCost, None));
    let added = clay_to_add(0.05, 0.12, 0.60).unwrap();
    near(blend.mass_shares[1] / blend.mass_shares[0], added, 1e-6);
    assert_eq!(blend.binding, [Limit::Least(Requirement::Clay)]);
    near(
        blend.cost.unwrap(),
        (0.01 + 0.4 * added) / (1.0 + added),
        1e-9,
    );
}

#[test]
fn the_closed_forms_refuse_what_cannot_be() {
    assert_eq!(sand_to_add(0.2, 0.1, 0.1), None);
    assert_eq!(sand_to_add(0.2, 0.1, 0.15), None);
    assert_eq!(sand_to_add(f64::NAN, 0.1, 0.0), None);
    assert_eq!(sand_to_add(1.2, 0.1, 0.0), None);
    assert_eq!(sand_to_add(0.2, 0.2, 0.0), Some(0.0));
    assert_eq!(clay_to_add(0.1, 0.2, 0.2), None);
    near(clay_to_add(0.1, 0.2, 0.6).unwrap(), 0.25, 1e-12);
}

#[test]
fn the_widest_margin_stands_in_the_middle() {
    let blend = found(solve(&queens(), &clay(0.06, 0.12), Aim::WidestMargin, None));
    near(blend.figures[0].value.unwrap(), 0.09, 1e-8);
    near(blend.margin().unwrap(), 0.5, 1e-6);
    let ratio = Target {
        sand_to_rest: Some(Range::between(1.0, 3.0).unwrap()),
        ..Target::default()
    };
    let blend = found(solve(&queens(), &ratio, Aim::WidestMargin, None));
    near(blend.figures[0].value.unwrap(), 2.0, 1e-6);
    assert_eq!(blend.rounded.unwrap().to_string(), "1 : 2");
    // With s of sand to one of soil by mass, clay is 0.27/(1 + s) and sand to the rest s/1.6. Both are as many
    // widths inside where (0.27/(1 + s) − 0.05)/0.05 = (s/1.6 − 1)/2: s² + 2.6 s = 15.68.
    let both = Target {
        clay: Some(Range::between(0.05, 0.10).unwrap()),
        sand_to_rest: Some(Range::between(1.0, 3.0).unwrap()),
        ..Target::default()
    };
    let s = (1.3_f64 * 1.3 + 15.68).sqrt() - 1.3;
    let blend = found(solve(&queens(), &both, Aim::WidestMargin, None));
    near(blend.mass_shares[1] / blend.mass_shares[0], s, 1e-6);
    near(blend.margin().unwrap(), (s / 1.6 - 1.0) / 2.0, 1e-7);
}

#[test]
fn ties_go_to_the_cheaper_then_the_yard_then_the_first() {
    let [soil, sand] = queens();
    // Two soils alike: the first is taken, whatever the aim.
    let twins = [soil.clone(), soil.clone(), sand.clone()];
    for aim in [Aim::LeastCost, Aim::LeastBought, Aim::WidestMargin] {
        let blend = found(solve(&twins, &clay(0.08, 0.08), aim, None));
        near(blend.mass_shares[1], 0.0, 1e-9);
    }
    // Sand for nothing in the yard and for nothing from the shop: the yard first.
    let mut gift = sand.clone();
    gift.price = Some(0.0);
    let mut heap = sand;
    heap.in_yard = kg(10.0);
    heap.can_buy = false;
    let blend = found(solve(
        &[soil, gift, heap],
        &clay(0.08, 0.08),
        Aim::LeastCost,
        None,
    ));
    near(blend.mass_shares[1], 0.0, 1e-9);
    near(blend.bought_share(), blend.mass_shares[0], 1e-9);
}

#[test]
fn the_yard_is_used_before_anything_is_bought() {
    let [mut soil, sand] = queens();
    soil.in_yard = kg(100.0);
    let amount = Some(kg(1000.0));
    let blend = found(solve(
        &[soil.clone(), sand.clone()],
        &clay(0.054, 0.054),
        Aim::LeastCost,
        amount,
    ));
    // 20 % of soil, half of it in the yard.
    near(blend.mass_shares[0], 0.2, 1e-6);
    near(blend.bought[0], 0.1, 1e-6);
    near(blend.cost.unwrap(), 0.1 * 0.02 + 0.8 * 0.03, 1e-8);
    assert!(blend.binding.contains(&Limit::Supply(0)));
    // Without an amount, what is in the yard is enough.
    let blend = found(solve(
        &[soil.clone(), sand.clone()],
        &clay(0.054, 0.054),
        Aim::LeastCost,
        None,
    ));
    near(blend.bought[0], 0.0, 1e-12);
    // When it cannot be bought, it limits what can be made: 27 kg of clay are 8 % of 337.5 kg.
    soil.can_buy = false;
    let why = impossible(solve(
        &[soil, sand],
        &clay(0.08, 0.1),
        Aim::LeastCost,
        amount,
    ));
    assert_eq!(
        why.conflict,
        [Limit::Least(Requirement::Clay), Limit::Supply(0)]
    );
    near(why.within_supplies.unwrap().get::<kilogram>(), 337.5, 1e-3);
    assert_eq!(why.all_there_is, None);
    near(why.nearest.mass_shares[0], 0.1, 1e-6);
    near(why.nearest.missing[0].by, 0.08 - 0.027, 1e-6);
}

#[test]
fn too_little_of_everything_is_named() {
    let [mut soil, mut sand] = queens();
    soil.in_yard = kg(100.0);
    sand.in_yard = kg(300.0);
    (soil.can_buy, sand.can_buy) = (false, false);
    let why = impossible(solve(
        &[soil, sand],
        &clay(0.05, 0.1),
        Aim::LeastBought,
        Some(kg(1000.0)),
    ));
    assert_eq!(why.conflict, [Limit::Supply(0), Limit::Supply(1)]);
    near(why.all_there_is.unwrap().get::<kilogram>(), 400.0, 1e-6);
    near(why.within_supplies.unwrap().get::<kilogram>(), 400.0, 1e-3);
    // All of it is 1 to 3, which has 6.75 % of clay.
    near(why.reach[0].least.unwrap(), 0.0675, 1e-9);
    near(why.reach[0].most.unwrap(), 0.0675, 1e-9);
}

#[test]
fn what_stands_against_what_is_named() {
    let why = impossible(solve(&queens(), &clay(0.30, 0.40), Aim::LeastCost, None));
    assert_eq!(why.conflict, [Limit::Least(Requirement::Clay)]);
    near(why.reach[0].least.unwrap(), 0.0, 1e-12);
    near(why.reach[0].most.unwrap(), 0.27, 1e-12);
    near(why.nearest.mass_shares[0], 1.0, 1e-9);
    near(why.nearest.missing[0].by, 0.03, 1e-9);
    assert_eq!(why.nearest.rounded.unwrap().to_string(), "1 : 0");
    assert_eq!(why.within_supplies, None);

    // Two of sand to one of soil hold 27/4.2 = 6.4 % of clay: no 10 %, and the sieve has no part in it.
    let [mut soil, mut sand] = queens();
    let sieve = length_of_mm(2.0);
    soil.passing = vec![(sieve, 1.0)];
    sand.passing = vec![(sieve, 0.9)];
    let target = Target {
        sand_to_rest: Some(Range::at_least(2.0).unwrap()),
        sieves: vec![(sieve, Range::at_least(0.8).unwrap())],
        ..clay(0.10, 0.15)
    };
    let why = impossible(solve(&[soil, sand], &target, Aim::WidestMargin, None));
    let conflict = [
        Limit::Least(Requirement::Clay),
        Limit::Least(Requirement::SandToRest),
    ];
    assert_eq!(why.conflict, conflict);
    let ratio = why.reach[1];
    assert_eq!((ratio.least, ratio.most), (Some(0.0), Some(f64::INFINITY)));
}

#[test]
fn faults_say_where_and_what() {
    let [soil, sand] = queens();
    let both = |soil: Candidate, target: &Target, amount| {
        solve(&[soil, sand.clone()], target, Aim::LeastCost, amount)
            .unwrap_err()
            .to_string()
    };
    let unknown = Candidate {
        grains: None,
        ..soil.clone()
    };
    let words = both(unknown, &clay(0.1, 0.2), None);
    assert_eq!(
        words,
        "material no. 1 has no figure for clay; test it, leave it out, or drop the requirement"
    );
    let sieve = Target {
        sieves: vec![(length_of_mm(2.0), Range::at_least(0.9).unwrap())],
        ..Target::default()
    };
    assert!(both(soil.clone(), &sieve, None).contains("what passes sieve no. 1"));
    let dear = Candidate {
        price: None,
        ..soil.clone()
    };
    assert!(both(dear, &clay(0.1, 0.2), None).contains("no price"));
    let light = Candidate {
        loose_density: density(0.0),
        ..soil.clone()
    };
    assert!(both(light, &clay(0.1, 0.2), None).contains("the loose density is 0"));
    assert!(both(soil.clone(), &clay(0.1, 1.2), None).contains("clay: 1.2 is asked for"));
    assert!(both(soil.clone(), &clay(0.1, 0.2), Some(kg(0.0))).contains("0 kg"));
    assert_eq!(
        solve(&[], &clay(0.1, 0.2), Aim::LeastCost, None),
        Err(BlendFault::NoCandidates)
    );
    let gone = Candidate {
        can_buy: false,
        ..soil.clone()
    };
    assert_eq!(
        solve(&[gone], &clay(0.1, 0.2), Aim::LeastCost, None),
        Err(BlendFault::NothingToHave)
    );
    for (least, most) in [(0.2, 0.1), (f64::NAN, 0.1), (0.1, f64::INFINITY)] {
        assert!(matches!(
            Range::between(least, most),
            Err(BlendFault::Range { .. })
        ));
    }
    for parts in [&[0.0, 0.0][..], &[1.0], &[-1.0, 2.0], &[f64::NAN, 1.0]] {
        let blend = assess(&[soil.clone(), sand.clone()], &clay(0.0, 1.0), parts, None);
        assert_eq!(blend, Err(BlendFault::Parts));
    }
}

#[test]
fn an_open_range_shows_its_figure_where_it_is_known() {
    let [soil, sand] = queens();
    let open = Target {
        silt: Some(Range::default()),
        sieves: vec![(length_of_mm(2.0), Range::default())],
        ..clay(0.05, 0.06)
    };
    let blend = found(solve(&[soil, sand], &open, Aim::LeastCost, None));
    let [clay, silt] = blend.figures[..] else {
        panic!("clay and silt: {:?}", blend.figures);
    };
    // All the silt comes with the clay.
    near(silt.value.unwrap() / clay.value.unwrap(), 69.0 / 27.0, 1e-9);
    assert_eq!((silt.margin, silt.margin_in_widths), (None, None));
}

#[test]
fn prices_far_apart_are_told_apart() {
    // A costly clay that is not needed leaves the choice between two soils to their prices.
    let [soil, sand] = queens();
    let cheaper = Candidate {
        price: Some(0.0199),
        ..soil.clone()
    };
    let costly = material(900.0, [0.9, 0.1, 0.0], 1000.0);
    let blend = found(solve(
        &[costly, soil, sand, cheaper],
        &clay(0.08, 0.1),
        Aim::LeastCost,
        None,
    ));
    let soil = 0.1 / 0.27;
    near(
        blend.cost.unwrap(),
        soil * 0.0199 + (1.0 - soil) * 0.03,
        1e-9,
    );
    near(blend.mass_shares[0], 0.0, 1e-9);
    near(blend.mass_shares[1], 0.0, 1e-5);
}

#[test]
fn a_figure_that_is_not_used_need_not_be_known() {
    let [soil, mut sand] = queens();
    sand.grains = None;
    let blend = assess(&[soil, sand], &clay(0.0, 0.2), &[1.0, 0.0], None).unwrap();
    near(blend.figures[0].value.unwrap(), 0.27, 1e-12);
    near(blend.missing[0].by, 0.07, 1e-12);
}
