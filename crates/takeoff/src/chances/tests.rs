//! Chances held against closed forms, all draws seeded. A mean may be off by three of its standard errors
//! `s/√n`, a standard deviation by three of its own, `s/√(2n)` of normal values (less of a triangle, whose
//! kurtosis is 2.4).

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::cast_precision_loss,
    reason = "a failure is the message; counts are small"
)]

mod told;

use super::*;
use crate::form::tests::project as base;
use crate::project::{Mixer, Project, TrialBatch, Uncertain, UncertainInput};
use crate::rule::{Rule, RuleBook};
use crate::{Assessed, check};
use hodful_quantities::print::UnitSystem;
use hodful_quantities::{Measure, Typed};
use std::sync::Arc;

const DRAWS: usize = 20_000;

/// Each of the two walls, mm²: 6 by 2.7 m less a window of 1 by 1.2 m.
const WALL: f64 = 15.0e6;

fn typed<T: Measure>(text: &str) -> Typed<T> {
    Typed::read(text).unwrap()
}

/// Two walls of 15 m² each, one coat of 12 mm inside, a measured yield.
fn project() -> Project {
    let mut project = base();
    project.mixer = Some(Mixer::of(typed("50 L")));
    project.mixes["base"].trial_batch = Some(TrialBatch::of(typed("100 L"), typed("80 L")));
    project
}

fn rules() -> RuleBook {
    [("net".into(), Rule::default())].into_iter().collect()
}

fn drawn(project: &Project, draws: usize) -> Chances {
    let of = Assessed::new(project, &rules()).unwrap();
    Chances::draw(&of.one(None), draws, 7).unwrap()
}

fn normal(of: UncertainInput, name: Option<&str>, spread: &str) -> Uncertain {
    // Walls alike, unless a test says otherwise.
    let by_wall = matches!(of, UncertainInput::Thickness | UncertainInput::DubbingOut);
    Uncertain {
        spread: Some(typed(spread)),
        wall_to_wall: by_wall.then(|| typed("0 %")),
        ..Uncertain::of(of, name.map(Name::from))
    }
}

/// Nothing is off but what is given.
fn only(project: &mut Project, given: Vec<Uncertain>) {
    let mut all = given;
    for of in UncertainInput::ALL {
        if all.iter().all(|other| other.of != *of) {
            all.push(normal(*of, None, "0 %"));
        }
    }
    project.uncertain = all;
}

fn near(found: f64, expected: f64, within: f64, what: &str) {
    let off = (found - expected).abs();
    assert!(
        off <= within,
        "{what}: {found} is not {expected} ± {within}"
    );
}

fn moments(of: &FigureChances, mean: f64, sd: f64) {
    let count = of.sample.count() as f64;
    near(of.sample.mean(), mean, 3.0 * sd / count.sqrt(), "mean");
    near(of.sample.sd(), sd, 3.0 * sd / (2.0 * count).sqrt(), "sd");
}

#[test]
fn walls_by_themselves_average_out() {
    let mut project = project();
    Arc::make_mut(&mut project.walls[0]).count = Some(4);
    let mut thickness = normal(UncertainInput::Thickness, None, "0 %");
    thickness.wall_to_wall = Some(typed("10 %"));
    only(&mut project, vec![thickness]);
    let of = drawn(&project, DRAWS);
    let sd = 0.1 * 12.0 * WALL * 5.0_f64.sqrt();
    let placed = of.figure(&Line::AllPlaced).unwrap();
    moments(placed, 12.0 * 5.0 * WALL, sd);
    // Standard normal quantile of 0.9: 1.2816; its standard error is √(0.9 · 0.1/n) / φ(1.2816), φ = 0.1755.
    let off = 3.0 * (0.09 / DRAWS as f64).sqrt() / 0.1755 * sd;
    let expected = 12.0 * 5.0 * WALL + 1.281_551_6 * sd;
    near(placed.sample.at(0.9), expected, off, "P90");
}

#[test]
fn what_is_common_does_not() {
    let mut project = project();
    only(
        &mut project,
        vec![normal(UncertainInput::Thickness, None, "10 %")],
    );
    let of = drawn(&project, DRAWS);
    let placed = of.figure(&Line::AllPlaced).unwrap();
    moments(placed, 12.0 * 2.0 * WALL, 0.1 * 12.0 * 2.0 * WALL);
}

/// `T·W` of independent normal values has the variance `t²·w² + s²·W² + s²·w²` (Goodman, On the Exact Variance
/// of Products, 1960, from memory).
#[test]
fn both_together() {
    let mut project = project();
    let mut thickness = normal(UncertainInput::Thickness, Some("scratch"), "1 mm");
    thickness.wall_to_wall = Some(typed("2 mm"));
    only(&mut project, vec![thickness]);
    let of = drawn(&project, DRAWS);
    let (t, s) = (12.0, 1.0);
    let (whole, w) = (2.0 * WALL, 2.0 / 12.0 * WALL * 2.0_f64.sqrt());
    let variance = t * t * w * w + s * s * whole * whole + s * s * w * w;
    let placed = of.figure(&Line::AllPlaced).unwrap();
    moments(placed, t * whole, variance.sqrt());
    // Two inputs, and their shares by the closed form; r² is off by 2r(1 − r²)/√n.
    let at = |words: &str| of.inputs.iter().position(|i| i.words == words).unwrap();
    for (words, part) in [
        ("thickness of scratch", s * s * whole * whole),
        ("thickness of scratch from wall to wall", t * t * w * w),
    ] {
        let share = part / variance;
        let off = 3.0 * 2.0 * share.sqrt() * (1.0 - share) / (DRAWS as f64).sqrt();
        near(placed.shares[at(words)], share, off, words);
    }
}

#[test]
fn a_triangle_has_its_moments() {
    let mut project = project();
    let thickness = Uncertain {
        lowest: Some(typed("90 %")),
        highest: Some(typed("15 mm")),
        wall_to_wall: Some(typed("0 %")),
        ..Uncertain::of(UncertainInput::Thickness, None)
    };
    only(&mut project, vec![thickness]);
    let of = drawn(&project, DRAWS);
    let (a, c, b): (f64, f64, f64) = (10.8, 12.0, 15.0);
    let variance = (a * a + b * b + c * c - a * b - a * c - b * c) / 18.0;
    let whole = 2.0 * WALL;
    let placed = of.figure(&Line::AllPlaced).unwrap();
    moments(placed, (a + b + c) / 3.0 * whole, variance.sqrt() * whole);
    assert!(placed.sample.lowest() >= a * whole * (1.0 - 1e-12));
    assert!(placed.sample.highest() <= b * whole * (1.0 + 1e-12));
    assert_eq!(of.clamped, 0);
}

#[test]
fn two_coats_share_out_by_the_squares() {
    let mut project = project();
    let mut fill = project.build_ups["two coats"][0].clone();
    fill.coat = "fill".into();
    fill.thickness = typed("20 mm");
    project.build_ups["two coats"].push(fill);
    only(
        &mut project,
        vec![
            normal(UncertainInput::Thickness, Some("scratch"), "3 mm"),
            normal(UncertainInput::Thickness, Some("fill"), "10 %"),
        ],
    );
    let of = drawn(&project, DRAWS);
    let placed = of.figure(&Line::AllPlaced).unwrap();
    moments(placed, 32.0 * 2.0 * WALL, 13.0_f64.sqrt() * 2.0 * WALL);
    for (words, share) in [
        ("thickness of scratch", 9.0 / 13.0),
        ("thickness of fill", 4.0 / 13.0),
    ] {
        let at = of.inputs.iter().position(|i| i.words == words).unwrap();
        let share: f64 = share;
        let off = 6.0 * share.sqrt() * (1.0 - share) / (DRAWS as f64).sqrt();
        near(placed.shares[at], share, off, words);
    }
    let (first, _) = placed.ranked()[0];
    assert_eq!(of.inputs[first].words, "thickness of scratch");
}

/// `E(f·d) = E(f)·E(d)` and the variance of a product again; a background that has none draws nothing.
#[test]
fn dubbing_out_from_wall_to_wall() {
    let mut project = project();
    project.backgrounds["cob"].dubbing_out = Some(typed("10 mm"));
    let mut dubbing = normal(UncertainInput::DubbingOut, Some("cob"), "1 mm");
    dubbing.wall_to_wall = Some(typed("20 %"));
    only(&mut project, vec![dubbing]);
    let of = drawn(&project, DRAWS);
    let (d, s) = (10.0, 1.0);
    let (whole, w) = (2.0 * WALL, 0.2 * WALL * 2.0_f64.sqrt());
    let variance = d * d * w * w + s * s * whole * whole + s * s * w * w;
    let placed = of.figure(&Line::AllPlaced).unwrap();
    moments(placed, (12.0 + d) * whole, variance.sqrt());
}

#[test]
fn nothing_off_is_the_plain_evaluation() {
    let mut project = project();
    project.backgrounds["cob"].dubbing_out = Some(typed("7 mm"));
    project.materials["sand"].moisture = Some(typed("4 %"));
    project.materials["sand"].bulking = Some(typed("21 %"));
    project.materials["sand"].reject = Some(typed("3 %"));
    only(&mut project, Vec::new());
    let of = drawn(&project, 300);
    assert!(of.figures.len() > 8);
    for figure in &of.figures {
        for share in [0.0, 0.1, 0.5, 0.9, 1.0] {
            let found = figure.sample.at(share);
            assert_eq!(found.to_bits(), figure.base.to_bits(), "{:?}", figure.line);
        }
    }
    for order in &of.orders {
        assert_eq!(order.short, Some(0.0), "{}", order.material);
    }
}

#[test]
fn the_same_on_any_number_of_cores() {
    let project = project();
    let told = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
        pool.unwrap()
            .install(|| format!("{:?}", drawn(&project, 1_000)))
    };
    let one = told(1);
    assert_eq!(one, told(2));
    assert_eq!(one, told(3));
}

#[test]
fn an_order_for_a_chance_is_short_no_more_often() {
    let project = project();
    let of = drawn(&project, 5_000);
    for name in ["sand", "clay"] {
        for chance in [0.0, 0.05, 0.1, 0.5] {
            let (need, cover) = of.order_for(name, chance).unwrap();
            assert!(of.short(name, &need).unwrap() <= chance, "{name} {chance}");
            // Bags of 25 kg and two of them in the yard: whole bags hold the need.
            let bags: u64 = cover.unwrap().counts.iter().map(|(_, n)| n).sum();
            let there = (bags as f64 + 2.0) * 25.0;
            let mass = need.mass.unwrap().value;
            assert!(
                there >= mass * (1.0 - 1e-9) && there < mass + 25.0,
                "{name}"
            );
        }
        // The plain order is of whole bags too.
        let order = of.order(name).unwrap();
        let short = of.short(name, &order.there).unwrap();
        near(of.order(name).unwrap().short.unwrap(), short, 1e-9, name);
    }
    assert!(of.order_for("straw", 0.1).is_none());
}

/// Sand goes by the thickness alone, which is normal and off by 10 %: of so many times the need, 1.645 standard
/// deviations more are short 5 times in 100, and none more half the time (any table of the normal distribution, from
/// memory). Off by three of `√(p·(1 − p)/n)`.
#[test]
fn a_given_order_is_held_against_the_draws() {
    let mut project = project();
    only(
        &mut project,
        vec![normal(UncertainInput::Thickness, None, "10 %")],
    );
    project.delivered = vec![crate::project::Delivered {
        material: "sand".into(),
        amount: typed("2 bags"),
        date: None,
        note: None,
    }];
    let assessed = Assessed::new(&project, &rules()).unwrap();
    let one = assessed.one(None);
    let mut of = Chances::draw(&one, DRAWS, 7).unwrap();
    let base = of.figure(&Line::Mass("sand".into())).unwrap().base;
    // Two bags of 25 kg lie in the yard.
    for (times, short) in [(1.0 + 0.1 * 1.644_853_6, 0.05_f64), (1.0, 0.5)] {
        of.asked.clear();
        let kg = format!("{} kg", base * times - 50.0);
        of.ask(&one, "sand", &typed(&kg)).unwrap();
        let off = 3.0 * (short * (1.0 - short) / DRAWS as f64).sqrt();
        near(of.asked[0].short, short, off, &kg);
    }
    // Two amounts of one material are one order, in its packages as well; so many bags are short as often as the plain
    // order is.
    let bags = of.order("sand").unwrap().cover.clone().unwrap().counts[0].1;
    of.asked.clear();
    of.ask(&one, "sand", &typed("2 bag")).unwrap();
    let rest = format!("{} bags", bags - 2);
    of.ask(&one, "sand", &typed(&rest)).unwrap();
    assert_eq!(of.asked.len(), 1);
    near(
        of.asked[0].short,
        of.order("sand").unwrap().short.unwrap(),
        1e-9,
        "as worked out",
    );
    let said = of.asked_said(UnitSystem::Metric);
    assert!(
        said[0].starts_with(&format!(
            "2 bag + {rest} of sand and what lay in the yard at the start ("
        )) && said[0].contains("): short "),
        "{said:#?}"
    );
    // What came, two bags of some hundreds of kilograms, is never enough.
    assert_eq!(
        of.came_short("sand").unwrap().1.to_bits(),
        1.0_f64.to_bits()
    );
    assert!(
        said[1].starts_with("What came of sand and what lay in the yard")
            && said[1].contains("short in all of the draws"),
        "{said:#?}"
    );
    assert_eq!(of.came_short("clay"), None);
    for (material, amount, words) in [
        (
            "sannd",
            "2 bags",
            "there is no material 'sannd'; did you mean 'sand'?",
        ),
        ("straw", "10 kg", "nothing is drawn of 'straw'"),
        ("sand", "2 lorries", "there is no package 'lorries'"),
        ("sand", "-5 kg", "'-5 kg' is negative"),
    ] {
        let why = of.ask(&one, material, &typed(amount)).unwrap_err();
        assert!(why.contains(words), "{why}");
    }
}

#[test]
fn what_is_not_said_is_a_default_with_its_source() {
    let mut project = project();
    project.uncertain = vec![Uncertain {
        lowest: Some(typed("5 %")),
        likely: Some(typed("8 %")),
        highest: Some(typed("15 %")),
        source: Some("our last three houses".into()),
        ..Uncertain::of(UncertainInput::Loss, None)
    }];
    let of = drawn(&project, 100);
    let said: Vec<String> = of.inputs.iter().map(|i| i.words.to_string()).collect();
    assert_eq!(
        said,
        [
            "thickness of scratch",
            "shrinkage of scratch",
            "loss of every coat",
            "yield of base",
            "thickness of scratch from wall to wall",
        ]
    );
    let loss = &of.inputs[2];
    assert!(!loss.is_default);
    assert_eq!(
        loss.said(),
        "loss of every coat: 5 % to 15 %, most likely 8 % (our last three houses)"
    );
    assert!(of.inputs[0].is_default && of.inputs[0].source.contains("default of ours"));
    assert!(
        of.notes(UnitSystem::Metric)
            .iter()
            .any(|note| note.starts_with("4 of 5 inputs"))
    );
}

#[test]
fn a_value_that_cannot_be_is_brought_back_and_counted() {
    let mut project = project();
    only(
        &mut project,
        vec![Uncertain {
            mean: Some(typed("0 %")),
            ..normal(UncertainInput::Loss, None, "5 %")
        }],
    );
    let of = drawn(&project, DRAWS);
    // Half of a normal value about 0 lies under it: √(n/4) is the standard error of the count.
    let half = DRAWS as f64 / 2.0;
    near(
        of.clamped as f64,
        half,
        3.0 * (half / 2.0).sqrt(),
        "clamped",
    );
}

fn refused(of: Uncertain) -> Vec<String> {
    let mut project = project();
    project.uncertain = vec![of];
    let problems = check(&project, &rules()).map_or_else(|problems| problems, |_| Vec::new());
    problems.iter().map(ToString::to_string).collect()
}

#[test]
#[allow(clippy::too_many_lines, reason = "one row a refusal")]
fn what_is_no_spread_is_refused() {
    let thickness = || Uncertain::of(UncertainInput::Thickness, None);
    let loss = || Uncertain::of(UncertainInput::Loss, None);
    let cases = [
        (
            Uncertain {
                lowest: Some(typed("90 %")),
                ..thickness()
            },
            "highest: is missing",
        ),
        (
            Uncertain {
                highest: Some(typed("90 %")),
                ..thickness()
            },
            "lowest: is missing",
        ),
        (
            Uncertain {
                likely: Some(typed("90 %")),
                ..thickness()
            },
            "likely: stands alone",
        ),
        (
            Uncertain {
                mean: Some(typed("90 %")),
                ..thickness()
            },
            "spread: is missing",
        ),
        (
            Uncertain {
                lowest: Some(typed("90 %")),
                highest: Some(typed("110 %")),
                spread: Some(typed("5 %")),
                ..thickness()
            },
            "spread: stands beside lowest, likely or highest",
        ),
        (
            Uncertain {
                lowest: Some(typed("14 mm")),
                highest: Some(typed("16 mm")),
                ..thickness()
            },
            "lowest: '14 mm' is above the likeliest, what the project has",
        ),
        (
            Uncertain {
                lowest: Some(typed("8 mm")),
                highest: Some(typed("11 mm")),
                ..thickness()
            },
            "highest: '11 mm' is below the likeliest, what the project has",
        ),
        (
            Uncertain {
                lowest: Some(typed("8 mm")),
                likely: Some(typed("50 %")),
                highest: Some(typed("11 mm")),
                ..thickness()
            },
            "lowest: '8 mm' is above the likeliest, '50 %'",
        ),
        (
            Uncertain {
                lowest: Some(typed("120 %")),
                highest: Some(typed("80 %")),
                ..thickness()
            },
            "lowest: '120 %' is above the highest, '80 %'",
        ),
        (
            Uncertain {
                spread: Some(typed("-2 mm")),
                ..thickness()
            },
            "spread: '-2 mm' is negative",
        ),
        (
            Uncertain {
                wall_to_wall: Some(typed("-1 mm")),
                ..thickness()
            },
            "wall_to_wall: '-1 mm' is negative",
        ),
        (
            Uncertain {
                wall_to_wall: Some(typed("5 %")),
                ..loss()
            },
            "wall_to_wall: is of thickness and dubbing out only",
        ),
        (
            Uncertain {
                spread: Some(typed("2 mm")),
                ..loss()
            },
            "spread: '2 mm' is a length; give points of the share",
        ),
        (
            Uncertain {
                lowest: Some(typed("0 %")),
                highest: Some(typed("100 %")),
                ..loss()
            },
            "highest: '100 %' must be at least 0 % and under 100 %",
        ),
        (
            Uncertain {
                name: Some("scrath".into()),
                ..loss()
            },
            "name: there is no coat 'scrath'; did you mean 'scratch'?",
        ),
        (
            Uncertain {
                name: Some("bse".into()),
                ..Uncertain::of(UncertainInput::Yield, None)
            },
            "name: there is no mix 'bse'; did you mean 'base'?",
        ),
    ];
    for (of, words) in cases {
        let what = check::uncertain::words(&of);
        let found = refused(of);
        let expected = format!("uncertain input 1 ({what}), {words}");
        assert!(
            found.len() == 1 && found[0].starts_with(&expected),
            "'{expected}' is not {found:?}"
        );
    }
    let none: [String; 0] = [];
    assert_eq!(refused(thickness()), none);
    assert_eq!(
        refused(Uncertain {
            wall_to_wall: Some(typed("2 mm")),
            ..thickness()
        }),
        none
    );
    let mut project = project();
    project.uncertain = vec![loss(), loss()];
    let problems = check(&project, &rules()).unwrap_err();
    assert_eq!(
        problems[0].to_string(),
        "uncertain input 2 (loss of every coat): stands twice; say it once how far an input may be off"
    );
}
