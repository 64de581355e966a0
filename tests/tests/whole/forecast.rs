//! Forecasts of whole projects: what must hold of every one, the bench beside the evaluation, and what is
//! refused in a record. Not here: numbers worked by hand (tested beside the forecast).

use crate::fields::lead;
use crate::projects::{mm, wall, window, with_walls};
use hodful_project_file as file;
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::{Measure, Typed};
use hodful_takeoff::bench::Bench;
use hodful_takeoff::forecast::Forecast;
use hodful_takeoff::project::{Delivered, Done, Uncertain, UncertainInput};
use hodful_takeoff::{Assessed, Project, RuleBook, Severity, Side, check};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::sync::{Arc, LazyLock};

static RULES: LazyLock<Arc<RuleBook>> = LazyLock::new(|| Arc::new(file::rules()));

/// Rounding of sums taken in another order, relative.
const ROUNDING: f64 = 1e-10;

fn typed<T: Measure>(text: &str) -> Typed<T> {
    Typed::read(text).unwrap()
}

/// Two walls, with a mixer that has a bucket.
fn sound() -> Value {
    let project = with_walls(&[
        wall("S", 6000, 2700, &[window("W1", 1000, 900, 1000, 1200)]),
        wall("E", 4000, 2700, &[]),
    ]);
    let mut project: Value = serde_json::from_slice(&file::write(&project)).unwrap();
    project["mixer"]["bucket"] = json!("12 L");
    project
}

/// Every number by its shortest decimal that reads back as the same bits.
fn told(figures: &impl std::fmt::Debug) -> String {
    format!("{figures:?}")
}

fn record(of: &Value) -> Value {
    let mut record = json!({ "coat": "scratch", "walls": ["S"], "took": "4 batches" });
    for (key, value) in of.as_object().unwrap() {
        record[key] = value.clone();
    }
    record
}

/// What is refused with these records and deliveries.
fn refused(done: Value, delivered: Value, change: impl FnOnce(&mut Value)) -> Vec<String> {
    let mut project = sound();
    project["done"] = done;
    project["delivered"] = delivered;
    change(&mut project);
    let project = file::read(&serde_json::to_vec(&project).unwrap()).unwrap();
    let problems = check(&project, &RULES).map_or_else(|problems| problems, |_| Vec::new());
    for problem in &problems {
        lead(&project, &problem.place);
        assert_eq!(problem.severity, Severity::Refused);
    }
    problems.iter().map(ToString::to_string).collect()
}

fn refuses(of: &Value, words: &str) {
    let found = refused(json!([record(of)]), json!([]), |_| {});
    assert!(
        found.len() == 1 && found[0].starts_with(words),
        "'{words}' is not {found:#?}"
    );
}

#[test]
fn a_record_that_cannot_be_is_refused() {
    for sound in [
        json!({}),
        json!({ "took": "12.5 buckets" }),
        json!({ "took": "1 Batch", "walls": [] }),
        json!({ "took": "0.8 m3", "build_up": "all", "face": "inside", "walls": ["E", "S"] }),
    ] {
        let none: [String; 0] = [];
        assert_eq!(
            refused(json!([record(&sound)]), json!([]), |_| {}),
            none,
            "{sound}"
        );
    }
    refuses(
        &json!({ "coat": "scatch" }),
        "record 1, coat: there is no coat 'scatch'; did you mean 'scratch'?",
    );
    refuses(
        &json!({ "build_up": "al" }),
        "record 1, build_up: there is no build-up 'al'; did you mean 'all'?",
    );
    refuses(
        &json!({ "walls": ["S", "Ee"] }),
        "record 1, walls: there is no wall 'Ee'; did you mean 'E'?",
    );
    refuses(
        &json!({ "walls": ["E", "E"] }),
        "record 1, walls: names E twice",
    );
    refuses(
        &json!({ "took": "14 kg" }),
        "record 1, took: '14 kg' is a mass; give batches, buckets or a volume, as mixed",
    );
    refuses(
        &json!({ "took": "14 barrows" }),
        "record 1, took: '14 barrows' is neither batches, buckets nor a volume",
    );
    for nothing in ["0 batches", "0 buckets", "0 L"] {
        refuses(
            &json!({ "took": nothing }),
            &format!("record 1, took: '{nothing}' is nothing yet"),
        );
    }
    refuses(
        &json!({ "took": "-2 L" }),
        "record 1, took: '-2 L' is negative",
    );
}

#[test]
fn a_record_counts_once() {
    let twice = |one: &Value, other: &Value| {
        refused(json!([record(one), record(other)]), json!([]), |_| {})
    };
    let found = twice(&json!({}), &json!({ "walls": [] }));
    assert_eq!(
        found,
        [
            "record 2, walls: scratch on the outside face of S is in record 1 already and would be counted twice; \
             put what both took into one record, or name other walls"
        ]
    );
    assert_eq!(
        twice(&json!({ "face": "inside" }), &json!({ "face": "outside" })).len(),
        0
    );
    assert_eq!(twice(&json!({}), &json!({ "coat": "fill" })).len(), 0);
    assert_eq!(twice(&json!({}), &json!({ "walls": ["E"] })).len(), 0);
}

#[test]
fn what_a_record_counts_in_must_be_there() {
    let without = |took: &str, change: fn(&mut Value)| {
        refused(json!([record(&json!({ "took": took }))]), json!([]), change)
    };
    let no_mixer = |p: &mut Value| drop(p.as_object_mut().unwrap().remove("mixer"));
    let no_bucket = |p: &mut Value| drop(p["mixer"].as_object_mut().unwrap().remove("bucket"));
    let found = without("4 batches", no_mixer);
    assert!(
        found[0]
            .starts_with("record 1, took: '4 batches' cannot be told as a volume without a mixer")
    );
    let found = without("4 buckets", no_bucket);
    assert!(found[0].starts_with(
        "record 1, took: '4 buckets' cannot be told as a volume; give the mixer a bucket"
    ));
    assert_eq!(without("400 L", no_mixer).len(), 0);
    // No face has the coat.
    let bare = |p: &mut Value| {
        for wall in p["walls"].as_array_mut().unwrap() {
            wall["faces"].as_object_mut().unwrap().remove("outside");
            wall["openings"] = json!([]);
        }
    };
    let outside = |walls: Value| {
        let of = record(&json!({ "face": "outside", "walls": walls }));
        refused(json!([of]), json!([]), bare)
    };
    assert_eq!(
        outside(json!([])),
        ["record 1, walls: no outside face has scratch"]
    );
    assert_eq!(
        outside(json!(["S"])),
        ["record 1, walls: no outside face of S has scratch"]
    );
}

#[test]
fn a_delivery_that_cannot_be_is_refused() {
    let of = |material: &str, amount: &str| {
        let delivered = json!([{ "material": material, "amount": amount }]);
        refused(json!([]), delivered, |p| {
            let clay = p["materials"]["clay"].as_object_mut().unwrap();
            clay.remove("loose_density");
            p["mixes"]["base"]["trial_batch"] = json!({ "loose": "100 L", "mixed": "80 L" });
        })
    };
    for (material, amount) in [("sand", "2 bags"), ("sand", "700 kg"), ("clay", "0.4 m3")] {
        assert_eq!(of(material, amount).len(), 0, "{amount} of {material}");
    }
    let refuses = |material: &str, amount: &str, words: &str| {
        let found = of(material, amount);
        assert!(
            found.len() == 1 && found[0].starts_with(words),
            "'{words}' is not {found:#?}"
        );
    };
    refuses(
        "sond",
        "2 bags",
        "delivery 1, material: there is no material 'sond'; did you mean 'sand'?",
    );
    refuses(
        "sand",
        "2 sacks",
        "delivery 1, amount: there is no package 'sacks'; ",
    );
    refuses(
        "clay",
        "2 sacks",
        "delivery 1, amount: '2 sacks' cannot be held against what the mixes take by volume; give clay its \
         loose_density",
    );
    refuses("sand", "-1 m3", "delivery 1, amount: '-1 m3' is negative");
}

/// A project with random walls, the last of them several times.
fn project(sizes: &[(u32, u32)], count: u32) -> Project {
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
    project.mixer.as_mut().unwrap().bucket = Some(typed("11 L"));
    project
}

/// A record or a delivery, sound or odd.
#[derive(Debug, Clone)]
struct Odd {
    pick: u8,
    wall: usize,
    more: usize,
    amount: usize,
}

fn odd() -> impl Strategy<Value = Odd> {
    (any::<u8>(), 0..8_usize, 0..8_usize, any::<usize>()).prop_map(|(pick, wall, more, amount)| {
        Odd {
            pick,
            wall,
            more,
            amount,
        }
    })
}

impl Odd {
    fn done(&self) -> Done {
        let texts = [
            "4 batches",
            "9 batches",
            "30 buckets",
            "500 L",
            "1 batch",
            "0.001 batches",
            "100000 m3",
            "0 batches",
            "20 kg",
            "3 barrows",
            "-5 L",
            "1e-9 L",
        ];
        let coats = ["scratch", "fill", "scratch", "fill", "finish"];
        let walls = match self.pick % 5 {
            0 => vec![],
            1 => vec![self.wall, self.more],
            _ => vec![self.wall],
        };
        Done {
            coat: coats[usize::from(self.pick / 5) % 5].into(),
            build_up: [None, None, Some("all".into()), Some("none".into())]
                [usize::from(self.pick / 25) % 4]
                .clone(),
            walls: walls.iter().map(|at| format!("w{at}").into()).collect(),
            face: [None, Some(Side::Outside), Some(Side::Inside)][self.amount % 3],
            took: Typed::read(texts[self.amount / 3 % texts.len()])
                .unwrap_or_else(|_| typed("7 batches")),
            date: None,
            note: None,
        }
    }

    fn delivered(&self) -> Delivered {
        let texts = [
            "2 bags",
            "3 sacks",
            "1.5 m3",
            "800 kg",
            "-1 m3",
            "1000000 m3",
        ];
        Delivered {
            material: ["sand", "clay", "water", "lime"][usize::from(self.pick) % 4].into(),
            amount: typed(texts[self.amount % texts.len()]),
            date: None,
            note: None,
        }
    }
}

fn with(project: &Project, done: &[Odd], came: &[Odd]) -> Project {
    Project {
        done: done.iter().map(Odd::done).collect(),
        delivered: came.iter().map(Odd::delivered).collect(),
        ..project.clone()
    }
}

fn volumes(of: &Quantity) -> [Option<f64>; 2] {
    [of.loose.map(|v| v.value), of.mass.map(|m| m.value)]
}

/// What must hold of every forecast.
fn holds(of: &Forecast, project: &Project) -> Result<(), TestCaseError> {
    for coat in &of.coats {
        let sum = coat.recorded.value + coat.rest.value;
        let whole = coat.whole.value;
        prop_assert!((sum - whole).abs() <= ROUNDING * whole, "{sum} and {whole}");
        prop_assert!((0.0..=1.0).contains(&coat.weight));
        prop_assert!(coat.factor >= 0.0 && coat.factor.is_finite());
        prop_assert!(coat.forecast_rest.value >= 0.0);
    }
    // All that was taken is shared out.
    let taken: f64 = of.coats.iter().map(|coat| coat.took.value).sum();
    let recorded: f64 = of.learned.iter().map(|learned| learned.took.value).sum();
    prop_assert!((taken - recorded).abs() <= ROUNDING * recorded);
    for learned in &of.learned {
        let (low, high) = learned.between;
        prop_assert!(low <= learned.factor && learned.factor <= high);
        // The factor lies between what was thought before and what was seen.
        let looks = learned.seen.iter().map(|seen| seen.log_ratio);
        let before = -libm::log1p(learned.before.together * learned.before.together) / 2.0;
        let (least, most) = looks.fold((before, before), |(a, b), x| (a.min(x), b.max(x)));
        prop_assert!((least..=most).contains(&learned.mean));
    }
    // What is enough 9 times out of 10 is no less than the middle; it is told once something is recorded.
    for material in &of.materials {
        prop_assert_eq!(material.enough.is_some(), of.has_records());
        let Some(enough) = &material.enough else {
            continue;
        };
        for (middle, enough) in volumes(&material.forecast.rest)
            .into_iter()
            .zip(volumes(&enough.rest))
        {
            prop_assert!(
                middle
                    .zip(enough)
                    .is_none_or(|(middle, enough)| enough >= middle * 0.99)
            );
        }
    }
    for material in &of.materials {
        for needed in [&material.forecast, &material.worked_out] {
            let (stock, came) = (volumes(&material.stock), volumes(&material.came));
            for i in 0..2 {
                let all = [
                    needed.used,
                    needed.yard,
                    needed.beyond,
                    needed.rest,
                    needed.to_order,
                ];
                let [
                    Some(used),
                    Some(yard),
                    Some(beyond),
                    Some(rest),
                    Some(order),
                ] = all.map(|of| volumes(&of)[i])
                else {
                    continue;
                };
                let there = stock[i].unwrap() + came[i].unwrap();
                let size = there.max(used).max(1.0);
                prop_assert!((there - used - yard + beyond).abs() <= ROUNDING * size);
                prop_assert!(yard >= 0.0 && beyond >= 0.0 && order >= 0.0 && order <= rest);
            }
        }
    }
    for units in [UnitSystem::Metric, UnitSystem::Us] {
        prop_assert!(of.said(project, units).iter().all(|line| !line.is_empty()));
        prop_assert!(of.notes(units).iter().all(|line| !line.is_empty()));
    }
    Ok(())
}

/// The bench refuses and forecasts what the check and the evaluation do.
fn agrees(bench: &Bench, project: &Project) -> Result<(), TestCaseError> {
    let told_by_bench: Vec<_> = bench.problems().cloned().collect();
    let refused = check(project, &RULES).map_or_else(|problems| problems, |_| Vec::new());
    prop_assert_eq!(told_by_bench.get(..refused.len()), Some(refused.as_slice()));
    prop_assert_eq!(bench.is_whole(), Assessed::new(project, &RULES).is_ok());
    if let Ok(of) = bench.forecast() {
        holds(&of, project)?;
    }
    if let Ok(assessed) = Assessed::new(project, &RULES) {
        prop_assert_eq!(told(&assessed.forecast()), told(&bench.forecast()));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

    #[test]
    fn many_odd_records_never_panic(
        sizes in proptest::collection::vec((3000..9000_u32, 2200..3500_u32), 1..6),
        count in 1..4_u32,
        done in proptest::collection::vec(odd(), 0..40),
        came in proptest::collection::vec(odd(), 0..10),
    ) {
        let project = with(&project(&sizes, count), &done, &came);
        // The bench leaves out what is refused, and the same as when it was never there.
        let bench = Bench::new(Arc::new(project.clone()), Arc::clone(&RULES));
        let of = bench.forecast().unwrap();
        holds(&of, &project)?;
        let kept = |left_out: &[usize], at: usize| !left_out.contains(&(at + 1));
        let sound = Project {
            done: project.done.iter().enumerate()
                .filter(|(at, _)| kept(&of.records_left_out, *at))
                .map(|(_, done)| done.clone()).collect(),
            delivered: project.delivered.iter().enumerate()
                .filter(|(at, _)| kept(&of.deliveries_left_out, *at))
                .map(|(_, came)| came.clone()).collect(),
            ..project.clone()
        };
        // A refused record keeps its faces; once it is gone, another may have them.
        let assessed = Assessed::new(&sound, &RULES).unwrap_or_else(|wrong| panic!("{wrong:?}"));
        let alone = assessed.forecast().unwrap();
        prop_assert!(alone.records_left_out.is_empty() && alone.deliveries_left_out.is_empty());
        prop_assert_eq!(told(&alone.coats), told(&of.coats));
        prop_assert_eq!(told(&alone.materials), told(&of.materials));
    }

    #[test]
    fn the_bench_tells_what_the_check_tells(
        sizes in proptest::collection::vec((3000..9000_u32, 2200..3500_u32), 2..5),
        states in proptest::collection::vec(
            (proptest::collection::vec(odd(), 0..6), proptest::collection::vec(odd(), 0..3), 0..6_usize),
            1..5,
        ),
    ) {
        let mut project = project(&sizes, 1);
        let mut bench = Bench::new(Arc::new(project.clone()), Arc::clone(&RULES));
        for (done, came, edit) in &states {
            // The records alone, then the walls that they name alone.
            project = with(&project, done, came);
            bench.set(Arc::new(project.clone()));
            agrees(&bench, &project)?;
            let walls = project.walls.len();
            match edit {
                0 if walls > 1 => drop(project.walls.remove(0)),
                1 => Arc::make_mut(&mut project.walls[walls - 1]).id = "w7".into(),
                2 => Arc::make_mut(&mut project.walls[0]).outside = None,
                3 => Arc::make_mut(&mut project.walls[0]).thickness = typed("0 mm"),
                _ => {}
            }
            bench.set(Arc::new(project.clone()));
            agrees(&bench, &project)?;
        }
    }

    #[test]
    fn without_records_the_forecast_is_what_was_thought_before(
        sizes in proptest::collection::vec((3000..9000_u32, 2200..3500_u32), 1..6),
        count in 1..4_u32, stock in 0..3_usize,
    ) {
        let mut project = project(&sizes, count);
        project.materials["sand"].stock = [None, Some(typed("2 bags")), Some(typed("400 kg"))][stock].clone();
        let of = Assessed::new(&project, &RULES).unwrap();
        let forecast = of.forecast().unwrap();
        holds(&forecast, &project)?;
        for learned in &forecast.learned {
            // The middle of a lognormal value: its mean over √(1 + share²).
            let share = learned.before.together;
            let middle = learned.before.mean / (1.0 + share * share).sqrt();
            prop_assert!((learned.factor - middle).abs() <= ROUNDING);
            prop_assert!(learned.weight == 0.0 && learned.before.mean > 1.0);
        }
        for material in &forecast.materials {
            let at = project.materials.get_index_of(&material.material).unwrap();
            let plain = &of.evaluation.materials[at];
            prop_assert_eq!(told(&material.worked_out.cover), told(&plain.cover));
            prop_assert_eq!(told(&material.worked_out.to_order), told(&plain.to_buy));
        }
        // Where nothing may be off it is the plain order, to the last bit.
        project.uncertain = [
            UncertainInput::Thickness,
            UncertainInput::DubbingOut,
            UncertainInput::Shrinkage,
            UncertainInput::Loss,
        ]
        .map(|of| Uncertain { spread: Some(typed("0 %")), ..Uncertain::of(of, None) })
        .to_vec();
        let of = Assessed::new(&project, &RULES).unwrap();
        let forecast = of.forecast().unwrap();
        holds(&forecast, &project)?;
        prop_assert!(forecast.learned.iter().all(|of| of.factor == 1.0 && of.weight == 0.0));
        for material in &forecast.materials {
            let at = project.materials.get_index_of(&material.material).unwrap();
            let plain = &of.evaluation.materials[at];
            prop_assert_eq!(told(&material.forecast.cover), told(&plain.cover));
            prop_assert_eq!(told(&material.forecast.to_order), told(&plain.to_buy));
            prop_assert_eq!(told(&material.forecast), told(&material.worked_out));
        }
    }

    #[test]
    fn all_recorded_leaves_nothing_and_parts_add_up(
        sizes in proptest::collection::vec((3000..9000_u32, 2200..3500_u32), 2..6),
        count in 1..4_u32, took in proptest::collection::vec(50..4000_u32, 6),
    ) {
        let base = project(&sizes, count);
        let record = |coat: &str, walls: Vec<usize>, took: u32| Done {
            coat: coat.into(),
            build_up: None,
            walls: walls.iter().map(|at| format!("w{at}").into()).collect(),
            face: None,
            took: typed(&format!("{took} L")),
            date: None,
            note: None,
        };
        let mut project = base.clone();
        let each = 0..sizes.len();
        project.done = each.clone().map(|at| record("scratch", vec![at], took[at])).collect();
        let of = Assessed::new(&project, &RULES).unwrap();
        let forecast = of.forecast().unwrap();
        holds(&forecast, &project)?;
        let scratch = &forecast.coats[0];
        prop_assert_eq!(scratch.rest.value, 0.0);
        prop_assert_eq!(scratch.forecast_rest.value, 0.0);
        let taken: u32 = took.iter().take(sizes.len()).sum();
        prop_assert!((scratch.took.value / 1e6 - f64::from(taken)).abs() <= ROUNDING * f64::from(taken));
        // The other coat is as it was.
        let before = &forecast.learned(&forecast.coats[1].coat).unwrap().before;
        let middle = before.mean / (1.0 + before.together * before.together).sqrt();
        prop_assert!((forecast.coats[1].factor - middle).abs() <= ROUNDING);
        prop_assert_eq!(told(&forecast.coats[1].rest), told(&forecast.coats[1].whole));
        // One record of the same walls took and worked out the same.
        project.done = vec![record("scratch", each.collect(), taken)];
        let whole = Assessed::new(&project, &RULES).unwrap().forecast().unwrap();
        let (a, b) = (whole.coats[0].recorded.value, scratch.recorded.value);
        prop_assert!((a - b).abs() <= ROUNDING * a);
        prop_assert_eq!(whole.learned[0].walls, forecast.learned[0].walls);
        for (one, other) in whole.materials.iter().zip(&forecast.materials) {
            for (a, b) in volumes(&one.forecast.used).into_iter().zip(volumes(&other.forecast.used)) {
                prop_assert!((a.unwrap() - b.unwrap()).abs() <= ROUNDING * a.unwrap());
            }
        }
    }
}

/// What was worked out three times over, or a third of it, is still believed; what lies beyond is looked at again.
#[test]
fn a_record_that_is_far_off_is_doubted() {
    let with = |took: &str| {
        let mut project = sound();
        project["done"] = json!([record(&json!({ "took": took }))]);
        file::read(&serde_json::to_vec(&project).unwrap()).unwrap()
    };
    let project = with("4 batches");
    let of = Assessed::new(&project, &RULES).unwrap();
    let forecast = of.forecast().unwrap();
    let scratch = forecast.coats.iter().find(|of| of.coat == "scratch");
    let litres = scratch.unwrap().recorded.value / 1e6;
    for (times, is_doubted) in [
        (1.0, false),
        (2.9, false),
        (3.1, true),
        (0.34, false),
        (0.32, true),
        (1e5, true),
    ] {
        let project = with(&format!("{} L", litres * times));
        let of = Assessed::new(&project, &RULES).unwrap();
        let mut told = of.doubts.iter().filter(|doubt| {
            let words = doubt.to_string();
            words.starts_with("record 1, took: scratch took ") && words.contains("check the amount")
        });
        assert_eq!(
            told.next().is_some(),
            is_doubted,
            "{times}: {:?}",
            of.doubts
        );
        assert!(told.next().is_none());
        for doubt in &of.doubts {
            lead(&project, &doubt.place);
        }
    }
}
