//! Chances of whole projects: what must hold of every one, whatever is off. Not here: closed forms and worked
//! numbers (tested beside the draws).

use crate::projects::{mm, wall, window, with_walls};
use hodful_project_file as file;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::{Measure, Typed};
use hodful_takeoff::chances::{Chances, FigureChances};
use hodful_takeoff::compare::Line;
use hodful_takeoff::project::{Uncertain, UncertainInput};
use hodful_takeoff::{Assessed, Project, RuleBook};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::sync::LazyLock;

static RULES: LazyLock<RuleBook> = LazyLock::new(file::rules);

/// Rounding of sums taken in another order, relative.
const ROUNDING: f64 = 1e-10;

/// More than one chunk that shares a stream, and not a whole number of them.
const DRAWS: usize = 700;

/// Shares of draws, rising.
const SHARES: [f64; 9] = [0.0, 0.05, 0.1, 0.25, 0.5, 0.8, 0.9, 0.95, 1.0];

fn typed<T: Measure>(text: &str) -> Typed<T> {
    Typed::read(text).unwrap()
}

/// A project with random walls, the last of them several times, and stock in the yard or none.
fn project(sizes: &[(u32, u32)], count: u32, stock: usize) -> Project {
    let walls: Vec<Value> = sizes
        .iter()
        .enumerate()
        .map(|(i, (length, height))| {
            let windows = [window("W", 1000, 800, 900, 1100)];
            let windows = if i % 2 == 0 { &windows[..] } else { &[] };
            let mut wall = wall(&format!("w{i}"), *length, *height, windows);
            if i + 1 == sizes.len() {
                wall["count"] = json!(count);
            }
            if i % 3 == 2 {
                wall["pockets"] = json!([{ "face": "inside", "width": mm(300), "height": mm(400), "depth": mm(50) }]);
            }
            wall
        })
        .collect();
    let mut project = with_walls(&walls);
    let stocks = [None, Some(typed("2 bags")), Some(typed("400 kg"))];
    let stock = &stocks[stock % stocks.len()];
    project.materials["sand"].stock.clone_from(stock);
    project
}

/// How far one input is off: not said, not at all, or so many percent.
#[derive(Debug, Clone, Copy)]
struct Off {
    kind: u8,
    percent: u32,
    wall_to_wall: u32,
}

fn off() -> impl Strategy<Value = Off> {
    (0..4_u8, 1..30_u32, 0..20_u32).prop_map(|(kind, percent, wall_to_wall)| Off {
        kind,
        percent,
        wall_to_wall,
    })
}

/// Every input off by so much; a share of a thickness is a share of it, other shares stand for themselves.
fn uncertain(each: &[Off]) -> Vec<Uncertain> {
    let of = |(of, off): (&UncertainInput, &Off)| {
        use UncertainInput::{DubbingOut, Thickness};
        let plain = Uncertain::of(*of, None);
        let is_length = matches!(of, Thickness | DubbingOut);
        let percent = off.percent;
        let wall_to_wall = is_length.then(|| typed(&format!("{} %", off.wall_to_wall)));
        match off.kind {
            0 => None,
            1 => Some(Uncertain {
                spread: Some(typed("0 %")),
                wall_to_wall: is_length.then(|| typed("0 %")),
                ..plain
            }),
            2 if is_length => Some(Uncertain {
                lowest: Some(typed(&format!("{} %", 100 - percent))),
                highest: Some(typed(&format!("{} %", 100 + 2 * percent))),
                wall_to_wall,
                ..plain
            }),
            _ => Some(Uncertain {
                spread: Some(typed(&format!("{} %", f64::from(percent) / 10.0))),
                wall_to_wall,
                ..plain
            }),
        }
    };
    UncertainInput::ALL
        .iter()
        .zip(each)
        .filter_map(of)
        .collect()
}

fn drawn(of: &Assessed<'_>, seed: u64) -> Chances {
    Chances::draw(&of.one(None), DRAWS, seed).unwrap_or_else(|wrong| panic!("{wrong}"))
}

/// Every number by its shortest decimal that reads back as the same bits.
fn told(figures: &impl std::fmt::Debug) -> String {
    format!("{figures:?}")
}

fn figure_holds(figure: &FigureChances) -> Result<(), TestCaseError> {
    let sample = &figure.sample;
    prop_assert_eq!(sample.count(), DRAWS);
    let values = SHARES.map(|share| figure.enough(share));
    prop_assert!(values.windows(2).all(|two| two[0] <= two[1]), "{values:?}");
    prop_assert_eq!(values[0], sample.lowest());
    prop_assert_eq!(values[SHARES.len() - 1], sample.highest());
    prop_assert!(sample.lowest() >= 0.0, "{:?}", figure.line);
    // A mean of equal values may be off by a rounding.
    let slack = ROUNDING * sample.highest();
    let around = sample.lowest() - slack..=sample.highest() + slack;
    prop_assert!(around.contains(&sample.mean()));
    for share in SHARES {
        // What is enough so often is a value that was drawn, and not below what it is told not to exceed.
        let enough = figure.enough(share);
        prop_assert!(sample.chance_over(enough) <= 1.0 - share + ROUNDING);
        prop_assert!(sample.values().contains(&enough));
    }
    prop_assert!(
        figure
            .shares
            .iter()
            .all(|share| (0.0..=1.0).contains(share))
    );
    prop_assert!((0.0..=1.0).contains(&figure.left()));
    let ranked = figure.ranked();
    prop_assert!(ranked.windows(2).all(|two| two[0].1 >= two[1].1));
    Ok(())
}

/// What must hold of all chances.
fn holds(of: &Chances, assessed: &Assessed<'_>) -> Result<(), TestCaseError> {
    let project = assessed.project;
    let one = assessed.one(None);
    for figure in &of.figures {
        // What is worked out is the figure of the order itself.
        prop_assert_eq!(Some(figure.base), figure.line.value(&one));
        prop_assert_eq!(figure.shares.len(), of.inputs.len());
        figure_holds(figure)?;
    }
    for order in &of.orders {
        let name = &order.material;
        let at = project.materials.get_index_of(name).unwrap();
        let plain = &assessed.evaluation.materials[at];
        prop_assert_eq!(told(&order.cover), told(&plain.cover));
        // The less often it may be short, the more must be there, and then it is short no more often.
        let mut last: Option<f64> = None;
        for chance in SHARES.into_iter().rev() {
            let (need, cover) = of.order_for(name, chance).unwrap();
            let size = need
                .loose
                .map(|v| v.value)
                .or(need.mass.map(|m| m.value))
                .unwrap();
            prop_assert!(last.is_none_or(|last| size >= last), "{name} {chance}");
            last = Some(size);
            prop_assert!(of.short(name, &need).unwrap() <= chance);
            prop_assert!(cover.is_some());
        }
        // The more is there, the less often it is short; with nothing there it always is.
        let times = [0.0, 0.5, 0.9, 1.0, 1.1, 2.0, 9.0];
        let short = times.map(|times| of.short(name, &order.there.times(times)).unwrap());
        prop_assert!(
            short.windows(2).all(|two| two[0] >= two[1]),
            "{name} {short:?}"
        );
        prop_assert_eq!(short[0], 1.0);
        prop_assert!((0.0..=1.0).contains(&order.short.unwrap()));
    }
    let sourced: usize = of.by_source().iter().map(|(_, inputs)| inputs.len()).sum();
    prop_assert_eq!(sourced, of.inputs.len());
    for units in [UnitSystem::Metric, UnitSystem::Us] {
        prop_assert!(of.asked_said(units).iter().all(|line| !line.is_empty()));
        prop_assert!(of.notes(units).iter().all(|line| !line.is_empty()));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_off_the_figures_agree_with_each_other(
        sizes in proptest::collection::vec((3000..9000_u32, 2200..3500_u32), 1..6),
        count in 1..4_u32,
        stock in 0..3_usize,
        each in proptest::collection::vec(off(), 8),
        seed in any::<u64>(),
    ) {
        let mut project = project(&sizes, count, stock);
        project.uncertain = uncertain(&each);
        let assessed = Assessed::new(&project, &RULES).unwrap_or_else(|wrong| panic!("{wrong:?}"));
        let of = drawn(&assessed, seed);
        holds(&of, &assessed)?;
        // What the project says itself is not called a default.
        for input in of.inputs.iter().filter(|input| input.is_default) {
            let is_said = |of: &Uncertain| input.words.starts_with(of.of.word());
            prop_assert!(!project.uncertain.iter().any(is_said), "{}", input.words);
        }
        // The same seed gives the same, on any number of threads.
        for threads in [1, 2] {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            let again = pool.install(|| drawn(&assessed, seed));
            prop_assert_eq!(told(&again), told(&of));
        }
        // What is kept of them is as it was, and nothing else is.
        let mut sand = of.clone();
        sand.keep(|line| *line == Line::Loose("sand".into()));
        prop_assert_eq!(sand.figures.len(), 1);
        prop_assert_eq!(told(&sand.order("sand")), told(&of.order("sand")));
        prop_assert!(sand.order("clay").is_none());
    }

    #[test]
    fn with_nothing_off_every_draw_is_what_is_worked_out(
        sizes in proptest::collection::vec((3000..9000_u32, 2200..3500_u32), 1..6),
        count in 1..4_u32,
        stock in 0..3_usize,
        seed in any::<u64>(),
    ) {
        let mut project = project(&sizes, count, stock);
        project.uncertain = uncertain(&[Off { kind: 1, percent: 1, wall_to_wall: 0 }; 8]);
        let assessed = Assessed::new(&project, &RULES).unwrap_or_else(|wrong| panic!("{wrong:?}"));
        let of = drawn(&assessed, seed);
        prop_assert_eq!(of.clamped, 0);
        prop_assert!(of.inputs.iter().all(|input| !input.is_default));
        for figure in &of.figures {
            let (lowest, highest) = (figure.sample.lowest(), figure.sample.highest());
            prop_assert_eq!(lowest, highest, "{:?}", figure.line);
            prop_assert!((lowest - figure.base).abs() <= ROUNDING * figure.base, "{:?}", figure.line);
            prop_assert!(figure.shares.iter().all(|share| *share == 0.0));
        }
        for order in &of.orders {
            prop_assert_eq!(order.short, Some(0.0));
            let (_, cover) = of.order_for(&order.material, 0.0).unwrap();
            prop_assert_eq!(told(&cover.map(|of| of.counts)), told(&order.cover.as_ref().map(|of| of.counts.clone())));
        }
    }

    #[test]
    fn the_farther_one_thing_is_off_the_farther_the_order_varies(
        sizes in proptest::collection::vec((3000..9000_u32, 2200..3500_u32), 1..6),
        percent in 2..12_u32,
        seed in any::<u64>(),
    ) {
        let still = Off { kind: 1, percent: 1, wall_to_wall: 0 };
        let project = project(&sizes, 1, 0);
        let sd = |percent: u32| {
            let mut each = [still; 8];
            // The first of all inputs is the thickness.
            each[0] = Off { kind: 2, percent, wall_to_wall: 0 };
            let project = Project { uncertain: uncertain(&each), ..project.clone() };
            let assessed = Assessed::new(&project, &RULES).unwrap_or_else(|wrong| panic!("{wrong:?}"));
            let of = drawn(&assessed, seed);
            let sand = of.figure(&Line::Loose("sand".into())).unwrap();
            // All that varies comes from the one input, but for edges, where it bends.
            (sand.sample.sd(), sand.ranked()[0], of.inputs[0].words.clone())
        };
        let (narrow, wide) = (sd(percent), sd(2 * percent));
        for (_, (at, share), _) in [&narrow, &wide] {
            prop_assert_eq!(*at, 0);
            prop_assert!(*share > 0.99, "{}", share);
        }
        // The same draws, twice as far from what is written: twice the spread, but for edges.
        let ratio = wide.0 / narrow.0;
        prop_assert!((1.95..2.1).contains(&ratio), "{}", ratio);
        prop_assert_eq!(narrow.2, "thickness of every coat");
    }
}

/// Nothing to draw is told, and not drawn.
#[test]
fn a_project_without_walls_has_no_chances() {
    let project = with_walls(&[]);
    let assessed = Assessed::new(&project, &RULES).unwrap_or_else(|wrong| panic!("{wrong:?}"));
    let told = Chances::draw(&assessed.one(None), DRAWS, 1);
    assert!(told.unwrap_err().contains("nothing to draw"));
}
