//! Closed forms on a plain wall, both ways held against one another, and odd asks. Not here: whole
//! projects from files.

#![allow(clippy::unwrap_used, reason = "a failure is the message")]

use super::*;
use crate::form::tests as forms;
use crate::project::{
    BackgroundKind, Coat, CornerAngle, End, Mixer, Package, Side, TrialBatch, Wall, WallEnd,
};
use crate::rule::{Rule, RuleBook};
use crate::tolerance::STEP_WITHIN;
use crate::{check, evaluate};
use hodful_quantities::print::UnitSystem;
use hodful_quantities::{Measure, Typed};
use std::sync::Arc;

mod kept;

const COAT: Subject = Subject::Coat {
    build_up: 0,
    coat: 0,
};

/// Area of the wall, mm²: 6 m by 2.7 m.
const AREA: f64 = 6000.0 * 2700.0;

fn typed<T: Measure>(text: &str) -> Typed<T> {
    Typed::read(text).unwrap()
}

fn rules() -> Arc<RuleBook> {
    Arc::new([("net".into(), Rule::default())].into_iter().collect())
}

fn bench(project: Project) -> Bench {
    Bench::new(Arc::new(project), rules())
}

fn put(project: &mut Project, subject: Subject, key: &str, text: &str) {
    form::set(project, subject, key, text).unwrap_or_else(|wrong| panic!("{key} {text}: {wrong}"));
}

fn coat(name: &str, thickness: &str) -> Coat {
    Coat {
        coat: name.into(),
        thickness: typed(thickness),
        mix: "base".into(),
        shrinkage: Some(typed("10 %")),
        loss: Some(typed("20 %")),
        weather_finish: None,
    }
}

/// One side of a wall without edges, plastered with sand alone, of which 1 m³ makes 0.8 m³; a bag is
/// 50 L at 7.00, a batch 100 L.
fn plain() -> Project {
    let mut project = forms::project();
    project.walls.truncate(1);
    Arc::make_mut(&mut project.walls[0]).openings.clear();
    project.build_ups[0] = vec![coat("scratch", "1/2 in")];
    let mix = &mut project.mixes[0];
    mix.parts.shift_remove("clay");
    mix.water = None;
    mix.trial_batch = Some(TrialBatch {
        loose: typed("1 m3"),
        mixed: typed("0.8 m3"),
        water: None,
        date: None,
        note: None,
    });
    let sand = &mut project.materials["sand"];
    sand.stock = None;
    sand.packages = vec![Package {
        price: Some(typed("7")),
        ..Package::of("bag".into(), typed("50 L"))
    }];
    project.mixer = Some(Mixer::of(typed("100 L")));
    project
}

fn ask(subjects: &[Subject], key: &str, from: f64, to: f64, points: usize) -> Ask {
    Ask {
        subjects: subjects.to_vec(),
        key: key.into(),
        from,
        to,
        points,
        within: STEP_WITHIN,
    }
}

fn lines() -> Vec<Line> {
    vec![
        Line::AllPlaced,
        Line::AllMixed,
        Line::Loose("sand".into()),
        Line::Packages("sand".into()),
        Line::Batches,
        Line::Cost,
    ]
}

fn of(project: Project, ask: &Ask) -> Sweep {
    sweep(&bench(project), ask, &lines()).unwrap()
}

fn bits(values: &[Option<f64>]) -> Vec<Option<u64>> {
    values.iter().map(|value| value.map(f64::to_bits)).collect()
}

fn near(found: f64, wanted: f64) -> bool {
    (found - wanted).abs() <= 1e-12 * wanted.abs()
}

/// Over a face without edges a layer is `A·t`; placed over what is left after shrinkage and loss is mixed:
/// `A·t / (1 − 0.1) / (1 − 0.2)`, and over the yield loose: `/ 0.8`. Whole bags of 50 L, whole batches of
/// 100 L.
#[test]
fn a_plain_wall_follows_the_thickness() {
    let found = of(plain(), &ask(&[COAT], "thickness", 0.0, 50.8, 201));
    assert_eq!(found.xs.len(), 201);
    assert_eq!(
        (found.label.as_str(), found.of.as_str()),
        ("thickness", "coat scratch of two coats")
    );
    for (at, x) in found.xs.iter().enumerate() {
        let value = |line: usize| found.curves[line].values[at];
        if *x <= 0.0 {
            // No coat is nothing thick.
            assert!((0..6).all(|line| value(line).is_none()));
            continue;
        }
        let placed = AREA * x;
        let mixed = placed / 0.9 / 0.8;
        let loose = mixed / 0.8;
        assert!(near(value(0).unwrap(), placed), "{x}");
        assert!(near(value(1).unwrap(), mixed), "{x}");
        assert!(near(value(2).unwrap(), loose), "{x}");
        let whole = |exact: f64| (exact * (1.0 - 1e-9)).ceil();
        let bags = whole(loose / 50e6);
        assert!(near(value(3).unwrap(), bags), "{x}");
        assert!(near(value(4).unwrap(), whole(mixed / 100e6)), "{x}");
        assert!(near(value(5).unwrap(), 7.0 * bags), "{x}");
    }
    for curve in &found.curves {
        let told: Vec<f64> = curve.values.iter().copied().flatten().collect();
        assert!(told.is_sorted(), "{:?}", curve.line);
    }
}

/// One more bag where `A·t / 0.9 / 0.8 / 0.8` is a whole number of 50 L, one more batch where
/// `A·t / 0.9 / 0.8` is a whole number of 100 L.
#[test]
fn steps_stand_where_the_need_is_a_whole_number_of_packages() {
    let range = 50.8;
    let found = of(plain(), &ask(&[COAT], "thickness", 0.0, range, 201));
    assert!(found.dense.is_empty());
    let check = |line: &Line, each: f64, packages: &[(Name, u64)]| {
        let steps: Vec<&Step> = found.steps.iter().filter(|step| step.of == *line).collect();
        let last = range / each;
        assert_eq!(steps.len().to_string(), last.floor().to_string());
        for (step, number) in steps.iter().zip(1_u32..) {
            let at = f64::from(number) * each;
            // The reader of counts lets a billionth pass.
            let off = step.at - at;
            assert!(
                (-1e-5 * range..=2e-9 * at).contains(&off),
                "{number}: {off}"
            );
            assert_eq!(step.before.total, u64::from(number));
            assert_eq!(step.after.total, u64::from(number) + 1);
            let names = step.before.packages.iter().map(|(name, _)| name);
            assert!(names.eq(packages.iter().map(|(name, _)| name)));
        }
    };
    let bag = 50e6 * 0.9 * 0.8 * 0.8 / AREA;
    let batch = 100e6 * 0.9 * 0.8 / AREA;
    check(&Line::Packages("sand".into()), bag, &[("bag".into(), 1)]);
    check(&Line::Batches, batch, &[]);
    assert!(found.steps.is_sorted_by(|a, b| a.at <= b.at));
    let counted = |line| found.steps_of(&line).count();
    assert_eq!(counted(Line::Cost), counted(Line::Loose("sand".into())));
    assert_eq!(counted(Line::AllMixed), counted(Line::Batches));
    assert_eq!(counted(Line::Surface), 0);
}

/// A bag that holds a thousandth has thousands of steps, of which none is told.
#[test]
fn steps_too_close_together_are_named_and_not_told() {
    let mut project = plain();
    project.materials["sand"].packages[0].holds = typed("50 mL");
    let found = of(project, &ask(&[COAT], "thickness", 1.0, 50.0, 50));
    assert_eq!(found.dense, [Line::Packages("sand".into())]);
    assert!(found.steps.iter().all(|step| step.of == Line::Batches));
}

/// Two bags of 50 L make way for one big bag of 150 L at twice the price: 1, 2 and then again 1.
#[test]
fn smaller_packages_that_make_way_for_a_larger_one_are_a_step() {
    let mut project = plain();
    project.materials["sand"].packages.push(Package {
        price: Some(typed("13")),
        ..Package::of("big bag".into(), typed("150 L"))
    });
    let litres = |l: f64| l * 1e6 * 0.9 * 0.8 * 0.8 / AREA;
    let found = of(project, &ask(&[COAT], "thickness", 1.0, litres(140.0), 7));
    let steps: Vec<&Step> = found.steps_of(&found.curves[3].line).collect();
    let [only] = steps.as_slice() else {
        panic!("{steps:?}");
    };
    assert!((only.at - litres(50.0)).abs() < 1e-3);
    assert_eq!(only.before.packages, [("bag".into(), 1)]);
    assert_eq!(only.after.packages, [("big bag".into(), 1)]);
    assert_eq!((only.before.total, only.after.total), (1, 1));
}

#[test]
fn at_the_present_value_the_figures_are_those_of_the_project() {
    let project = plain();
    let evaluated = {
        let checked = check(&project, &rules()).unwrap();
        evaluate(&checked)
    };
    // Half an inch is 12.7 mm, which is a quarter of the range.
    let found = of(project, &ask(&[COAT], "thickness", 0.0, 50.8, 201));
    assert_eq!(found.present, Some(12.7));
    let at = found.nearest(12.7).unwrap();
    assert_eq!(found.xs[at].to_bits(), 12.7_f64.to_bits());
    let placed = evaluated.coats[0][0].as_ref().unwrap().volume.placed.value;
    assert_eq!(
        found.curves[0].values[at].map(f64::to_bits),
        Some(placed.to_bits())
    );
    for curve in &found.curves {
        assert_eq!(bits(&[curve.values[at]]), bits(&[curve.now]));
    }
}

/// Every number is written so that it is read as itself: any digits, any size that a project has.
#[test]
fn texts_are_read_back_to_the_last_bit() {
    let scales = [
        (Scale::Length, 1e4),
        (Scale::Thickness, 50.8),
        (Scale::Angle, 1.5),
        (Scale::Share, 3.0),
        (Scale::Density, 2.6e-6),
        (Scale::Dose, 1e-7),
        (Scale::Volume, 1e9),
        (Scale::Mass, 1e3),
        (Scale::Time, 1e6),
        (Scale::Temperature, 40.0),
        (Scale::Number, 10.0),
        (Scale::Packages("bags".into()), 10.0),
    ];
    let mut state = 7_u64;
    for (scale, most) in scales {
        for i in 0..2_000 {
            // Numerical Recipes, ranqd1-like: any spread of digits does.
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let high = u32::try_from(state >> 32).unwrap();
            let share = f64::from(high) / f64::from(u32::MAX) / 3.0;
            let x = if i < 1_000 {
                most * share
            } else {
                most * f64::from(i - 1_000) / 999.0
            };
            let point = scale.point(x);
            assert!(point.text.is_some(), "{scale:?} {x}");
            assert_eq!(point.x.to_bits(), x.to_bits(), "{scale:?} {:?}", point.text);
        }
    }
    // Where not every number can be written, the text still is the number.
    assert_eq!(Scale::Count.point(2.6).x.to_bits(), 3.0_f64.to_bits());
    let money = Scale::Money.point(1.0 / 3.0);
    assert_eq!(money.text.as_deref(), Some("0.3333"));
    assert_eq!(money.x.to_bits(), 0.3333_f64.to_bits());
}

/// A face of 120 mm between two internal angles, each of which is entered once for both faces that meet
/// there, has no surface left under 30 mm of plaster: `L − 4t = 0`.
fn cramped() -> Project {
    let mut project = plain();
    let mut narrow = Wall::clone(&project.walls[0]);
    narrow.id = "narrow".into();
    let end = |end| WallEnd {
        face: Side::Inside,
        end,
        angle: CornerAngle::Internal,
        turn: None,
        radius: None,
        cove: None,
    };
    narrow.ends = [end(End::Left), end(End::Right)].into();
    project.walls.push(Arc::new(narrow));
    put(&mut project, Subject::Wall(1), "length", "120 mm");
    project
}

#[test]
fn where_a_face_has_no_room_for_the_coats_there_is_no_figure() {
    let found = of(cramped(), &ask(&[COAT], "thickness", 20.0, 40.0, 41));
    for (x, value) in found.xs.iter().zip(&found.curves[0].values) {
        assert_eq!(value.is_some(), *x <= 30.0, "{x}");
        if let Some(value) = value {
            // The narrow face loses 4·2700·t of its surface: its layer is A·t − 4·2700·t²/2.
            let narrow = 120.0 * 2700.0 * x - 2.0 * 2700.0 * x * x;
            assert!(near(*value, AREA * x + narrow), "{x}");
        }
    }
}

/// Every field of a single number, both ways: the figures and the steps are the same to the last bit.
#[test]
fn the_short_way_is_the_whole_way() {
    let mut rich = cramped();
    rich.build_ups[0].push(coat("fill", "10 mm"));
    rich.walls[0] = forms::project().walls.swap_remove(0);
    put(&mut rich, Subject::Mix(0), "fibre.dose", "30 kg/m3");
    put(&mut rich, Subject::Mix(0), "parts.clay", "1");
    put(&mut rich, Subject::Mix(0), "water", "20 %");
    put(&mut rich, Subject::Mixer, "bucket", "12 L");
    put(&mut rich, Subject::Material(0), "stock", "2 bags");
    let mut refused = rich.clone();
    put(&mut refused, Subject::Wall(0), "length", "0 mm");
    put(&mut refused, Subject::Material(1), "moisture", "-1 %");
    for project in [forms::project(), plain(), rich, refused] {
        let subjects = [
            COAT,
            Subject::Coat {
                build_up: 0,
                coat: 1,
            },
            Subject::Mix(0),
            Subject::Material(0),
            Subject::Material(1),
            Subject::Material(2),
            Subject::Package {
                material: 0,
                package: 0,
            },
            Subject::Mixer,
            Subject::Background(1),
            Subject::Wall(0),
        ];
        let lines: Vec<Line> = lines()
            .into_iter()
            .chain([
                Line::Surface,
                Line::Mass("clay".into()),
                Line::Loose("straw".into()),
            ])
            .collect();
        let bench = bench(project);
        let mut fields = 0;
        for subject in subjects {
            for row in form::rows(bench.project(), subject) {
                let Ok(usual) = Ask::usual(bench.project(), subject, &row.key) else {
                    continue;
                };
                fields += 1;
                let ask = Ask { points: 9, ..usual };
                let found = sweep(&bench, &ask, &lines).unwrap();
                both_ways(&bench, &ask, &lines, &found);
            }
        }
        assert!(fields > 40, "{fields}");
    }
}

fn both_ways(bench: &Bench, ask: &Ask, lines: &[Line], found: &Sweep) {
    let way = Way::whole(bench, ask, lines);
    let mut worker = way.worker();
    let points: Vec<Point> = found.xs.iter().map(|x| found.scale.point(*x)).collect();
    let readings: Vec<_> = points
        .iter()
        .map(|point| worker.read(point.text.as_deref()?))
        .collect();
    for (at, curve) in found.curves.iter().enumerate() {
        let whole: Vec<Option<f64>> = readings
            .iter()
            .map(|reading| reading.as_ref().and_then(|reading| reading.values[at]))
            .collect();
        for ((x, short), whole) in found.xs.iter().zip(&curve.values).zip(&whole) {
            // Where nothing is typed, the value it stands for may be made otherwise than as typed.
            if found.present != Some(*x) {
                assert_eq!(
                    bits(&[*short]),
                    bits(&[*whole]),
                    "{} {x} {:?}",
                    ask.key,
                    curve.line
                );
            }
        }
    }
    let (steps, dense) = steps::find(&way, ask.within, &found.scale, &points, &readings);
    assert_eq!(dense, found.dense, "{}", ask.key);
    assert_eq!(steps, found.steps, "{}", ask.key);
    // And a project that is checked and evaluated from the beginning.
    let (Some(x), Some(middle)) = (found.xs.get(4), points.get(4)) else {
        return;
    };
    let mut project = Project::clone(bench.project());
    let text = middle.text.as_deref().unwrap();
    for subject in &ask.subjects {
        if form::set(&mut project, *subject, &ask.key, text).is_err() {
            return;
        }
    }
    if let Ok(checked) = check(&project, &rules())
        && found.present != Some(*x)
        && let Some(value) = found.curves[0].values[4]
    {
        let evaluated = evaluate(&checked);
        let coats = evaluated.coats.iter().flatten();
        let placed: f64 = coats
            .map(|coat| coat.as_ref().unwrap().volume.placed.value)
            .sum();
        assert_eq!(placed.to_bits(), value.to_bits(), "{} {x}", ask.key);
    }
}

#[test]
fn coats_of_one_name_move_together() {
    let mut project = plain();
    project.build_ups.insert(
        "other".into(),
        vec![coat("scratch", "9 mm"), coat("fill", "4 mm")],
    );
    let mut wall = Wall::clone(&project.walls[0]);
    wall.id = "other".into();
    project.walls.push(Arc::new(wall));
    put(&mut project, Subject::Wall(1), "inside.build_up", "other");
    let ask = Ask::coat(&project, "scratch", "thickness").unwrap();
    assert_eq!(ask.subjects.len(), 2);
    assert!(Ask::coat(&project, "none", "thickness").is_err());
    let found = of(project, &Ask { from: 10.0, ..ask });
    assert_eq!(found.of, "coat scratch of 2 build-ups");
    // Half an inch here, 9 mm there.
    assert_eq!(found.present, None);
    for (x, value) in found.xs.iter().zip(&found.curves[0].values) {
        assert!(near(value.unwrap(), 2.0 * AREA * x + AREA * 4.0), "{x}");
    }
}

/// The wall stands so many times.
#[test]
fn whole_numbers_stay_whole() {
    let ask = Ask {
        to: 12.0,
        ..Ask::usual(&plain(), Subject::Wall(0), "count").unwrap()
    };
    let found = of(plain(), &ask);
    let wanted: Vec<f64> = (1..=12).map(f64::from).collect();
    assert_eq!(found.xs, wanted);
    // Where none is typed, there is one.
    assert_eq!(found.present, Some(1.0));
    for (x, value) in found.xs.iter().zip(&found.curves[0].values) {
        assert!(near(value.unwrap(), AREA * 12.7 * x), "{x}");
    }
    let steps = found.steps_of(&found.curves[4].line);
    assert!(steps.into_iter().all(|step| step.at.fract() == 0.0));
}

/// Straw bale: 25 mm of clay plaster at least and 50.8 mm of plaster at most in all. With 15 mm of another
/// clay coat and 10 mm of lime plaster, this coat is 10 mm at least and 25.8 mm at most.
#[test]
fn limits_in_all_become_limits_of_one_coat() {
    let mut project = plain();
    project.backgrounds["cob"].kind = BackgroundKind::StrawBale;
    let mut lime = project.mixes[0].clone();
    lime.parts.insert("lime".into(), typed("1"));
    project.mixes.insert("lime".into(), lime);
    let lime = crate::project::Material::of(crate::project::MaterialKind::Lime);
    project.materials.insert("lime".into(), lime);
    project.build_ups[0].push(coat("fill", "15 mm"));
    project.build_ups[0].push(Coat {
        mix: "lime".into(),
        ..coat("finish", "10 mm")
    });
    put(&mut project, Subject::Mix(0), "single_pass", "20 mm");
    let limits = |project: &Project, subjects: &[Subject]| {
        let found = of(project.clone(), &ask(subjects, "thickness", 0.0, 50.0, 3));
        let each = found.limits.into_iter();
        each.map(|limit| (limit.name, limit.at, limit.at_most))
            .collect::<Vec<_>>()
    };
    let found = limits(&project, &[COAT]);
    let names: Vec<_> = found.iter().map(|(name, ..)| name.as_str()).collect();
    assert_eq!(names, ["least on bale", "one pass", "most on bale"]);
    for ((_, at, at_most), (wanted, over)) in
        found
            .iter()
            .zip([(10.0, false), (20.0, true), (25.8, true)])
    {
        assert!((at - wanted).abs() < 1e-9, "{at}");
        assert_eq!(*at_most, over);
    }
    // Two clay coats that move together share it: 12.5 mm and 20.4 mm each.
    let fill = Subject::Coat {
        build_up: 0,
        coat: 1,
    };
    let found = limits(&project, &[COAT, fill]);
    let at: Vec<f64> = found.iter().map(|(_, at, _)| *at).collect();
    assert!(
        at.iter()
            .zip([12.5, 20.0, 20.4])
            .all(|(a, b)| (a - b).abs() < 1e-9),
        "{at:?}"
    );
    // The lime coat has a greatest thickness alone: 50.8 − 12.7 − 15.
    let finish = Subject::Coat {
        build_up: 0,
        coat: 2,
    };
    let found = limits(&project, &[finish]);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!((found[0].1 - 23.1).abs() < 1e-9);
    // On cob there is no such code.
    project.backgrounds["cob"].kind = BackgroundKind::Cob;
    assert_eq!(limits(&project, &[COAT]).len(), 1);
}

/// Soil of 27 % clay at 1000 kg/m³ and sand at 1600 kg/m³ (Taylor, Vardy and `MacDougall`, 2006): with one
/// part of soil, 5 % clay is at `0.27 / (1 + 1.6·s) = 0.05`, so at `s = 2.75` parts of sand.
#[test]
fn a_mix_is_lean_from_some_sand_on() {
    let mut project = plain();
    put(&mut project, Subject::Mix(0), "parts.clay", "1");
    for (material, density, clay) in [
        ("sand", "1600 kg/m3", "0 %"),
        ("clay", "1000 kg/m3", "27 %"),
    ] {
        let at = project.materials.get_index_of(material).unwrap();
        put(
            &mut project,
            Subject::Material(at),
            "loose_density",
            density,
        );
        put(&mut project, Subject::Material(at), "clay", clay);
    }
    let found = of(
        project.clone(),
        &ask(&[Subject::Mix(0)], "parts.sand", 0.0, 6.0, 3),
    );
    let [lean] = found.limits.as_slice() else {
        panic!("{:?}", found.limits);
    };
    assert!((lean.at - 2.75).abs() < 1e-9, "{}", lean.at);
    assert!(lean.at_most && lean.source.is_some());
    // With three parts of sand, the soil must be at least 3·1.6·0.05 / 0.22 parts.
    let found = of(project, &ask(&[Subject::Mix(0)], "parts.clay", 0.0, 6.0, 3));
    let lean = &found.limits[0];
    assert!((lean.at - 0.24 / 0.22).abs() < 1e-9, "{}", lean.at);
    assert!(!lean.at_most);
}

#[test]
fn what_is_usual_is_told_in_the_units_of_the_field() {
    let at = |subject, key: &str, to: f64| {
        let found = of(plain(), &ask(&[subject], key, 0.0, to, 3));
        let limits: Vec<f64> = found.limits.iter().map(|limit| limit.at).collect();
        assert!(
            found.limits.iter().all(|limit| limit.source.is_some()),
            "{key}"
        );
        limits
    };
    assert_eq!(at(COAT, "loss", 0.5), [0.3]);
    assert_eq!(at(COAT, "shrinkage", 0.5), [0.05]);
    assert_eq!(at(Subject::Background(0), "dubbing_out", 60.0), [50.0]);
    assert_eq!(at(Subject::Wall(0), "thickness", 2000.0), [1500.0]);
    assert_eq!(at(Subject::Wall(0), "height", 20_000.0), [12_000.0]);
    // 0.75 and 0.87 of the cubic metre that went in.
    let yields = at(Subject::Mix(0), "trial_batch.mixed", 2e9);
    assert!(
        yields
            .iter()
            .zip([0.75e9, 0.87e9])
            .all(|(a, b)| near(*a, b)),
        "{yields:?}"
    );
    assert!(at(COAT, "loss", 0.2).is_empty());
}

/// Of a coat of 38 mm at most 1 7/16 in can be shown in sixteenths, of one of 25.5 mm at least 1 1/16 in; a bit of
/// rounding makes no difference.
#[test]
fn what_is_shown_of_a_limit_keeps_it() {
    let shown = |at: f64, at_most| {
        let limit = Limit {
            at,
            name: "one".into(),
            words: "one".into(),
            source: None,
            at_most,
        };
        limit.shown(&Scale::Thickness, UnitSystem::Us)
    };
    assert_eq!(shown(38.0, true), "1 7/16\"");
    assert_eq!(shown(25.5, false), "1 1/16\"");
    for at_most in [true, false] {
        assert_eq!(shown(38.1, at_most), "1 1/2\"");
        assert_eq!(shown(50.8 - 12.7 - 1e-14, at_most), "1 1/2\"");
        assert_eq!(shown(50.8 - 12.7 + 1e-14, at_most), "1 1/2\"");
    }
}

/// With 60 mm of other coats on bale no thickness of this one comes to 50.8 mm in all; from 25 mm on every one is more
/// than a pass of 20 mm.
#[test]
fn what_no_value_keeps_is_told() {
    let mut project = plain();
    project.backgrounds["cob"].kind = BackgroundKind::StrawBale;
    project.build_ups[0].push(coat("fill", "60 mm"));
    put(&mut project, Subject::Mix(0), "single_pass", "20 mm");
    let broken = |from, to| {
        let found = of(project.clone(), &ask(&[COAT], "thickness", from, to, 3));
        let names = found.broken.iter().map(|limit| limit.name.to_string());
        let within = found.limits.iter().map(|limit| limit.name.to_string());
        (names.collect::<Vec<_>>(), within.collect::<Vec<_>>())
    };
    let one = |name: &str| vec![name.to_owned()];
    assert_eq!(broken(0.0, 30.0), (one("most on bale"), one("one pass")));
    let (broken, within) = broken(25.0, 30.0);
    assert_eq!(broken, ["most on bale", "one pass"]);
    assert_eq!(within, Vec::<String>::new());
}

#[test]
fn ranges_to_begin_with() {
    let mut project = plain();
    let usual = |project: &Project, subject, key: &str| {
        let ask = Ask::usual(project, subject, key).unwrap();
        (ask.from, ask.to)
    };
    assert_eq!(usual(&project, COAT, "thickness"), (0.0, 50.0));
    assert_eq!(usual(&project, COAT, "loss"), (0.0, 0.4));
    assert_eq!(usual(&project, Subject::Wall(0), "height"), (0.0, 5400.0));
    assert_eq!(usual(&project, Subject::Mix(0), "parts.sand"), (0.0, 6.0));
    put(&mut project, Subject::Project, "units", "us");
    assert_eq!(usual(&project, COAT, "thickness"), (0.0, 50.8));
    put(&mut project, COAT, "thickness", "40 mm");
    assert_eq!(usual(&project, COAT, "thickness"), (0.0, 80.0));
    put(&mut project, COAT, "loss", "80 %");
    assert_eq!(usual(&project, COAT, "loss"), (0.0, 0.95));
}

#[test]
fn what_is_refused_already_keeps_nothing_else() {
    let mut project = plain();
    let mut wall = Wall::clone(&project.walls[0]);
    wall.id = "wrong".into();
    project.walls.push(Arc::new(wall));
    put(&mut project, Subject::Wall(1), "length", "0 mm");
    let found = of(project, &ask(&[COAT], "thickness", -10.0, 20.0, 31));
    for (x, value) in found.xs.iter().zip(&found.curves[0].values) {
        assert_eq!(value.is_some(), *x > 0.0, "{x}");
        assert!(value.is_none_or(|value| near(value, AREA * x)), "{x}");
    }
}

#[test]
fn odd_asks_are_told_and_never_break() {
    let bench = bench(plain());
    let wrong = |ask: &Ask| sweep(&bench, ask, &lines()).unwrap_err();
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let words = wrong(&ask(&[COAT], "thickness", 0.0, odd, 9));
        assert_eq!(words, "the range needs two numbers");
    }
    wrong(&ask(&[COAT], "thickness", -1e308, 1e308, 9));
    assert_eq!(
        wrong(&ask(&[COAT], "thicknes", 0.0, 1.0, 9)),
        "there is no field 'thicknes' here"
    );
    assert_eq!(
        wrong(&ask(&[COAT], "coat", 0.0, 1.0, 9)),
        "'name' is not a single number"
    );
    wrong(&ask(&[], "thickness", 0.0, 1.0, 9));
    wrong(&ask(&[Subject::Wall(99)], "thickness", 0.0, 1.0, 9));
    wrong(&ask(&[Subject::Material(0)], "stock", 0.0, 1.0, 9));
    wrong(&ask(&[COAT, Subject::Mixer], "thickness", 0.0, 1.0, 9));
    let count = |from: f64, to: f64, points: usize| {
        let ask = ask(&[COAT], "thickness", from, to, points);
        sweep(&bench, &ask, &lines()).unwrap().xs.len()
    };
    assert_eq!(count(10.0, 10.0, 9), 1);
    assert_eq!(
        (count(0.0, 9.0, 0), count(0.0, 9.0, 1), count(0.0, 9.0, 2)),
        (2, 2, 2)
    );
    assert_eq!(count(1.0, 9.0, 1_000_000_000), MOST_POINTS);
    // From the greater to the less is the same range.
    let turned = sweep(&bench, &ask(&[COAT], "thickness", 20.0, 0.0, 5), &lines()).unwrap();
    assert_eq!(turned.xs, [0.0, 5.0, 10.0, 15.0, 20.0]);
    // Past all sizes, and less than any.
    for (from, to) in [
        (1e300, 1e301),
        (-1e300, 1e300),
        (5e-324, 1e-320),
        (0.0, 5e-324),
    ] {
        let found = sweep(&bench, &ask(&[COAT], "thickness", from, to, 7), &lines()).unwrap();
        assert!(
            found
                .curves
                .iter()
                .all(|curve| curve.values.len() == found.xs.len())
        );
        let _ = crate::drawing::curve(&found, 0, "plaster", bench.project().units);
    }
    let nothing = sweep(&bench, &ask(&[COAT], "thickness", 0.0, 9.0, 5), &[]).unwrap();
    assert!(nothing.curves.is_empty() && nothing.steps.is_empty());
}

/// Lines that name nothing are not there, whatever the value.
#[test]
fn figures_that_are_not_there() {
    let bench = bench(plain());
    let lines = [Line::Loose("gravel".into()), Line::Trips, Line::Bought];
    let found = sweep(&bench, &ask(&[COAT], "thickness", 1.0, 9.0, 5), &lines).unwrap();
    assert!(
        found
            .curves
            .iter()
            .all(|curve| curve.values.iter().all(Option::is_none))
    );
}

/// What is shown of a step is on this side of it, and no farther from it than one step of what can be shown.
#[test]
fn what_is_shown_on_a_side_is_on_it() {
    use UnitSystem::{Metric, Us};
    let scales = [
        (Scale::Length, 2743.7, 1.6, 1.0),
        (Scale::Thickness, 38.07, 1.6, 0.1),
        (Scale::Angle, 0.41, 0.0018, 0.0018),
        (Scale::Share, 0.1237, 0.001, 0.001),
        (Scale::Density, 1.4567e-6, 1.7e-9, 1.1e-9),
        (Scale::Dose, 5.123e-8, 6e-10, 1.1e-10),
        (Scale::Volume, 85.7e6, 2.9e6, 1.1e6),
        (Scale::Volume, 3.456_789e9, 7.7e6, 1.1e7),
        (Scale::Mass, 1234.567, 0.05, 0.11),
        (Scale::Time, 5437.0, 61.0, 61.0),
        (Scale::Temperature, 21.37, 0.56, 1.01),
        (Scale::Money, 1234.5678, 0.0101, 0.0101),
        (Scale::Number, 4.141_592_653, 0.0101, 0.0101),
        (Scale::Count, 7.0, 1.0, 1.0),
        (Scale::Packages("bag".into()), 4.141_592_653, 0.0101, 0.0101),
    ];
    for (scale, about, us, metric) in scales {
        for (units, step) in [(Us, us), (Metric, metric)] {
            for part in 0..40 {
                let value = about + step * f64::from(part) / 13.0;
                let (below, above) = (
                    scale.show_below(value, units),
                    scale.show_above(value, units),
                );
                for (shown, way) in [(below, 1.0), (above, -1.0)] {
                    let plain: String = shown
                        .chars()
                        .filter(|c| !"\u{202f},".contains(*c))
                        .collect();
                    let Some(back) = scale.read(&plain.replace('×', "")) else {
                        panic!("{scale:?} {units:?}: '{shown}' is not read");
                    };
                    let off = (value - back) * way;
                    assert!(
                        off >= 0.0 && off < step,
                        "{scale:?} {units:?} {value}: {shown}, {back}"
                    );
                }
            }
        }
    }
}
