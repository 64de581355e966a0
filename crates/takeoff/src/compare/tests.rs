//! Comparisons of small projects, worked by hand. Not here: whole buildings (see `tests/whole`), and the
//! value that shares a difference out (tested beside it).

#![allow(clippy::unwrap_used, reason = "a failure is the message")]

mod packages;

use super::said::percent_shown;
use super::*;
use crate::Assessed;
use crate::form::{self, Subject, tests::project};
use crate::project::{Coat, Name};
use crate::rule::{Rule, RuleBook};
use hodful_quantities::Typed;
use hodful_quantities::print::UnitSystem;
use std::sync::Arc;

const SCRATCH: Subject = Subject::Coat {
    build_up: 0,
    coat: 0,
};
const COB: Subject = Subject::Background(1);
const SAND: Subject = Subject::Material(0);
const MIX: Subject = Subject::Mix(0);

/// Square millimetres of the wall of [`plain`], one side of it.
const WALL: f64 = 6000.0 * 2700.0;

fn put(project: &mut Project, subject: Subject, key: &str, text: &str) {
    form::set(project, subject, key, text).unwrap();
}

/// One wall, 6 m by 2.7 m, plastered inside with 12 mm of 3 sand to 1 clay that makes 0.8 of its dry
/// volume.
fn plain() -> Project {
    let mut project = project();
    project.walls.truncate(1);
    Arc::make_mut(&mut project.walls[0]).openings.clear();
    for (subject, key, text) in [
        (COB, "dubbing_out", "0 mm"),
        (SCRATCH, "shrinkage", "4 %"),
        (SCRATCH, "loss", "20 %"),
        (MIX, "trial_batch.loose", "10 L"),
        (MIX, "trial_batch.mixed", "8 L"),
        (SAND, "moisture", "5 %"),
        (SAND, "bulking", "25 %"),
        (SAND, "stock", ""),
    ] {
        put(&mut project, subject, key, text);
    }
    project
}

fn with(project: &Project, changes: &[(Subject, &str, &str)]) -> Project {
    let mut project = project.clone();
    for (subject, key, text) in changes {
        put(&mut project, *subject, key, text);
    }
    project
}

fn rules() -> RuleBook {
    [("net".into(), Rule::default())].into_iter().collect()
}

fn why(a: &Project, b: &Project, line: &Line) -> Causes {
    let rules = rules();
    let (a, b) = (
        Assessed::new(a, &rules).unwrap(),
        Assessed::new(b, &rules).unwrap(),
    );
    let found = causes(&a.one(None), &b.one(None), line).unwrap();
    let sum: f64 = found.terms.iter().map(|term| term.amount).sum();
    assert!((sum - found.difference()).abs() <= 1e-9 * found.from.abs().max(found.to.abs()));
    found
}

/// The causes are these, and no other.
fn check(a: &Project, b: &Project, line: &Line, expected: &[(Cause, f64)]) {
    let found = why(a, b, line);
    // What comes of f64 alone is no cause.
    let none = 1e-9 * found.from.abs().max(found.to.abs());
    let terms: Vec<&Term> = found
        .terms
        .iter()
        .filter(|t| t.amount.abs() > none)
        .collect();
    let kinds: Vec<Cause> = terms.iter().map(|term| term.cause).collect();
    let wanted: Vec<Cause> = expected.iter().map(|(cause, _)| *cause).collect();
    assert_eq!(kinds, wanted, "{found:?}");
    for (term, (_, amount)) in terms.into_iter().zip(expected) {
        let off = (term.amount - amount).abs();
        assert!(off <= 1e-9 * amount.abs(), "{term:?} is not {amount}");
    }
}

fn loose(name: &str) -> Line {
    Line::Loose(name.into())
}

#[test]
fn more_thickness_goes_through_to_the_heap() {
    let base = plain();
    let other = with(&base, &[(SCRATCH, "thickness", "15 mm")]);
    let placed = WALL * 3.0;
    let mixed = placed / 0.96 / 0.8;
    let sand = mixed / 0.8 * 0.75 * 1.25;
    for (line, amount) in [
        (Line::AllPlaced, placed),
        (Line::AllMixed, mixed),
        (loose("sand"), sand),
        // 1400 kg/m³ dry, with 5 % of water.
        (
            Line::Mass("sand".into()),
            sand / 1.25 * 1400.0 / 1.0e9 * 1.05,
        ),
    ] {
        check(&base, &other, &line, &[(Cause::Thickness, amount)]);
        check(&other, &base, &line, &[(Cause::Thickness, -amount)]);
        check(&base, &base, &line, &[]);
    }
}

/// Of a product each factor has its change times the mean of the other: what the value of a game of two
/// comes to.
#[test]
fn two_factors_share_their_product() {
    let base = plain();
    let other = with(
        &base,
        &[
            (SCRATCH, "thickness", "15 mm"),
            (Subject::Wall(0), "length", "8 m"),
        ],
    );
    let wider = 8000.0 * 2700.0;
    let terms = [
        (Cause::Surface, (wider - WALL) * 13.5),
        (Cause::Thickness, f64::midpoint(WALL, wider) * 3.0),
    ];
    check(&base, &other, &Line::AllPlaced, &terms);
}

/// A larger wall takes more dubbing out, and nothing of it is the depth's doing; deeper, it is.
#[test]
fn dubbing_out_is_told_where_its_depth_changes() {
    let base = with(&plain(), &[(COB, "dubbing_out", "6 mm")]);
    let larger = with(&base, &[(Subject::Wall(0), "length", "8 m")]);
    let wider = 8000.0 * 2700.0;
    let surface = (Cause::Surface, (wider - WALL) * 18.0);
    check(&base, &larger, &Line::AllPlaced, &[surface]);
    let deeper = with(&larger, &[(COB, "dubbing_out", "10 mm")]);
    let terms = [
        (Cause::Surface, (wider - WALL) * (12.0 + 8.0)),
        (Cause::DubbingOut, f64::midpoint(WALL, wider) * 4.0),
    ];
    check(&base, &deeper, &Line::AllPlaced, &terms);
}

/// With one of two coats left out, the other carries the dubbing out: that is no other dubbing out.
#[test]
fn a_first_coat_left_out_hands_on_what_it_carries() {
    let mut both = with(&plain(), &[(COB, "dubbing_out", "6 mm")]);
    let second = Coat {
        coat: "finish".into(),
        thickness: Typed::read("3 mm").unwrap(),
        ..both.build_ups[0][0].clone()
    };
    both.build_ups[0].push(second);
    let mut one = both.clone();
    one.build_ups[0].remove(0);
    let line = Line::AllPlaced;
    check(&both, &one, &line, &[(Cause::Coats, -WALL * 12.0)]);
    check(&one, &both, &line, &[(Cause::Coats, WALL * 12.0)]);
    let finish = Line::Placed {
        build_up: "two coats".into(),
        coat: "finish".into(),
    };
    check(&both, &one, &finish, &[(Cause::Coats, WALL * 6.0)]);
}

/// Damp sand brings water, so that less is added: 5 % more of its dry mass.
#[test]
fn water_is_less_by_what_damp_materials_bring() {
    let mut base = plain();
    let water = crate::project::Material::of(crate::project::MaterialKind::Water);
    base.materials.insert("water".into(), water);
    let other = with(&base, &[(SAND, "moisture", "10 %")]);
    let sand = WALL * 12.0 / 0.96 / 0.8 / 0.8 * 0.75 * 1400.0 / 1.0e9;
    let line = Line::Mass("water".into());
    check(&base, &other, &line, &[(Cause::Damp, -sand * 0.05)]);
}

/// Sand as in the test of the heap, 2 m³ a load at 100: 12 mm take one load, ten times as much takes two.
#[test]
fn money_is_what_is_needed_and_rounding_up() {
    let mut base = plain();
    for material in base.materials.values_mut() {
        material.packages.clear();
        material.stock = None;
    }
    let mut load = crate::project::Package::of("load".into(), Typed::read("2 m3").unwrap());
    load.price = Some(Typed::read("100").unwrap());
    base.materials[0].packages.push(load);
    let need = |mm: f64| WALL * mm / 0.96 / 0.8 / 0.8 * 0.75 * 1.25 / 1.0e9;
    let other = with(&base, &[(SCRATCH, "thickness", "120 mm")]);
    let more = (need(120.0) - need(12.0)) * 50.0;
    let terms = [(Cause::Thickness, more), (Cause::RoundingUp, 100.0 - more)];
    assert!(need(12.0) < 2.0 && need(120.0) > 2.0 && need(120.0) < 4.0);
    check(&base, &other, &Line::Cost, &terms);
    // What lies in the yard is taken off, but never more than is needed.
    let stocked = with(&base, &[(SAND, "stock", "1 load")]);
    let needed = need(12.0) * 50.0;
    let terms = [(Cause::Stock, -needed), (Cause::RoundingUp, needed - 100.0)];
    check(&base, &stocked, &Line::Cost, &terms);
    let dearer = with(
        &base,
        &[(
            Subject::Package {
                material: 0,
                package: 0,
            },
            "price",
            "150",
        )],
    );
    let more = need(12.0) * 25.0;
    let terms = [(Cause::Prices, more), (Cause::RoundingUp, 50.0 - more)];
    check(&base, &dearer, &Line::Cost, &terms);
    // While one package has no price, the first is ordered.
    let mut unpriced = base.clone();
    let bag = crate::project::Package::of("bag".into(), Typed::read("20 L").unwrap());
    unpriced.materials[0].packages.push(bag.clone());
    check(&base, &unpriced, &Line::Cost, &[]);
}

/// Two loads in the yard: while they are enough, the yard covers what a thicker coat takes more, and nothing of it is
/// rounding up; past that it covers what is left in it.
#[test]
fn what_the_yard_covers_is_a_cause() {
    let mut base = plain();
    for material in base.materials.values_mut() {
        material.packages.clear();
        material.stock = None;
    }
    let mut load = crate::project::Package::of("load".into(), Typed::read("2 m3").unwrap());
    load.price = Some(Typed::read("100").unwrap());
    base.materials[0].packages.push(load);
    let base = with(&base, &[(SAND, "stock", "2 loads")]);
    let need = |mm: f64| WALL * mm / 0.96 / 0.8 / 0.8 * 0.75 * 1.25 / 1.0e9;
    assert!(need(120.0) < 4.0 && need(240.0) > 4.0);
    let thicker = with(&base, &[(SCRATCH, "thickness", "120 mm")]);
    let more = (need(120.0) - need(12.0)) * 50.0;
    let terms = [(Cause::Thickness, more), (Cause::Covered, -more)];
    check(&base, &thicker, &Line::Cost, &terms);
    let thickest = with(&base, &[(SCRATCH, "thickness", "240 mm")]);
    let left = (4.0 - need(12.0)) / 2.0;
    let more = (need(240.0) - need(12.0)) / 2.0;
    let bought = ((need(240.0) - 4.0) / 2.0).ceil();
    let terms = [
        (Cause::Thickness, more),
        (Cause::Covered, -left),
        (Cause::RoundingUp, bought - (more - left)),
    ];
    check(&base, &thickest, &Line::Packages("sand".into()), &terms);
}

#[test]
fn lines_are_aligned_by_name() {
    let base = plain();
    let mut other = base.clone();
    put(&mut other, SAND, "name", "sharp sand");
    let finish = Coat {
        coat: "finish".into(),
        ..other.build_ups[0][0].clone()
    };
    other.build_ups[0].push(finish);
    let rules = rules();
    let (a, b) = (
        Assessed::new(&base, &rules).unwrap(),
        Assessed::new(&other, &rules).unwrap(),
    );
    let names: [Name; 2] = ["a".into(), "b".into()];
    let [first, second] = names;
    let table = table(0, &[(first, a.one(None)), (second, b.one(None))]);
    let row = |line: &Line| table.rows.iter().find(|row| row.line == *line).unwrap();
    // What is not there is nothing used, and has no percent; what cannot be told is not told.
    let gone = row(&loose("sand"));
    assert_eq!(gone.values[1], Some(0.0));
    assert!((gone.share(0, 1).unwrap() + 1.0).abs() < 1e-12);
    let new = row(&loose("sharp sand"));
    assert_eq!((new.values[0], new.share(0, 1)), (Some(0.0), None));
    assert!(new.difference(0, 1).unwrap() > 0.0);
    assert_eq!(row(&Line::Batches).values, [None, None]);
    assert_eq!(row(&Line::Batches).difference(0, 1), None);
    assert!(!row(&Line::Surface).differs(0) && gone.differs(0));
    // A coat that only the other has stands behind the one under it.
    let at = |coat: &str| {
        let line = Line::Mixed {
            build_up: "two coats".into(),
            coat: coat.into(),
        };
        table.rows.iter().position(|row| row.line == line).unwrap()
    };
    assert_eq!(at("scratch") + 1, at("finish"));
    let words = &row(&Line::Packages("clay".into())).words;
    assert!(words[0].as_ref().unwrap().ends_with(" × bag"), "{words:?}");
    let units = UnitSystem::Metric;
    assert_eq!(row(&Line::Surface).said(0, 1, units).unwrap(), "the same");
    assert_eq!(row(&Line::Batches).said(0, 1, units), None);
    // Twice the coat: 12 mm more of 16.2 m² on the wall.
    let placed = row(&Line::AllPlaced).said(0, 1, units).unwrap();
    assert_eq!(placed, "0.19 m³ more (+100 %)");
    let less = row(&loose("sand")).said(0, 1, units).unwrap();
    assert_eq!(less, "0.30 m³ less (\u{2212}100 %)");
}

#[test]
fn walls_are_matched_by_id() {
    let base = project();
    let rules = rules();
    let between = |a: &Project, b: &Project| {
        let (a, b) = (
            Assessed::new(a, &rules).unwrap(),
            Assessed::new(b, &rules).unwrap(),
        );
        walls(&a.one(None), &b.one(None))
    };
    let said = |a: &Project, b: &Project| -> Vec<String> {
        let changes = between(a, b);
        let lines = changes.iter().flat_map(|of| of.said(UnitSystem::Metric));
        lines.map(String::from).collect()
    };
    assert!(between(&base, &base).is_empty());
    // In another order they are as they were.
    let mut turned = base.clone();
    turned.walls.reverse();
    assert!(between(&base, &turned).is_empty());
    let mut other = base.clone();
    let mut more = (*other.walls[1]).clone();
    more.id = "E".into();
    more.count = Some(2);
    other.walls[1] = Arc::new(more);
    let wall = Subject::Wall(0);
    let opening = Subject::Opening {
        wall: 0,
        opening: 0,
    };
    put(&mut other, wall, "length", "7 m");
    put(&mut other, wall, "inside.background", "bale");
    put(&mut other, opening, "sill", "800 mm");
    // 6 m by 2.7 m less 1 m by 1.2 m; a metre more; and two such.
    assert_eq!(
        said(&base, &other),
        [
            "wall S: changed, +2.70 m²",
            "  length: 6 m → 7 m",
            "  inside face, background: cob → bale",
            "  opening W1, sill: 900 mm → 800 mm",
            "wall E: new, 30.00 m²",
            "wall N: taken out, 15.00 m²",
        ]
    );
    let mut fewer = base.clone();
    let changed = Arc::make_mut(&mut fewer.walls[0]);
    let window = changed.openings.remove(0);
    changed.openings.push(crate::project::Opening {
        id: "D1".into(),
        ..window
    });
    assert_eq!(
        said(&base, &fewer),
        [
            "wall S: changed, +0.00 m²",
            "  opening D1: new",
            "  opening W1: taken out",
        ]
    );
}

/// Of two of one id the first is held against the first; a third is new, or was taken out.
#[test]
fn walls_of_one_id_are_matched_in_their_order() {
    let mut base = project();
    let mut twin = (*base.walls[1]).clone();
    twin.id = "S".into();
    base.walls[1] = Arc::new(twin);
    let longer = with(&base, &[(Subject::Wall(1), "length", "7 m")]);
    let mut more = longer.clone();
    more.walls.push(more.walls[0].clone());
    let (looked, other) = (looked(&base), looked(&more));
    let found = walls(&looked.one(&base), &other.one(&more));
    let kinds: Vec<&str> = found
        .iter()
        .map(|of| match of {
            WallChange::Added { .. } => "added",
            WallChange::TakenOut { .. } => "taken out",
            WallChange::Changed { .. } => "changed",
        })
        .collect();
    assert_eq!(kinds, ["changed", "added"]);
    let back = walls(&other.one(&more), &looked.one(&base));
    assert!(matches!(
        back[..],
        [WallChange::Changed { .. }, WallChange::TakenOut { .. }]
    ));
}

/// A project in which something is refused, with the figures that it has.
struct Looked {
    site: Site,
    evaluation: Evaluation,
}

impl Looked {
    fn one<'p>(&'p self, project: &'p Project) -> One<'p> {
        One {
            project,
            site: &self.site,
            evaluation: &self.evaluation,
            supply: None,
        }
    }
}

fn looked(project: &Project) -> Looked {
    let checked = crate::check::look(project, &rules()).checked;
    Looked {
        evaluation: crate::evaluate::evaluate(&checked),
        site: checked.site,
    }
}

/// What waits keeps back its own lines and no other.
#[test]
fn what_cannot_be_told_keeps_nothing_else_back() {
    let base = plain();
    let mut broken = with(&base, &[(SCRATCH, "thickness", "15 mm")]);
    // Clay of no sound packages: its figures are not told, those of the sand are.
    broken.materials[1].stock = Some(Typed::read("2 sacks").unwrap());
    let (a, b) = (looked(&base), looked(&broken));
    let (a, b) = (a.one(&base), b.one(&broken));
    assert!(b.evaluation.materials[1].waits && !b.evaluation.materials[0].waits);
    for line in [Line::AllPlaced, Line::AllMixed, loose("sand")] {
        let found = causes(&a, &b, &line).unwrap();
        let kinds: Vec<Cause> = found.terms.iter().map(|term| term.cause).collect();
        assert_eq!(kinds, [Cause::Thickness], "{line:?}");
    }
    for line in [loose("clay"), Line::Packages("clay".into()), Line::Cost] {
        assert_eq!(causes(&a, &b, &line), None, "{line:?}");
    }
    // A coat of no mix is not told, nor is what it goes into.
    let mut broken = base.clone();
    broken.build_ups[0][0].mix = "none such".into();
    let b = looked(&broken);
    let b = b.one(&broken);
    for line in lines(&a) {
        let is_told = matches!(line, Line::Surface | Line::Payment);
        assert_eq!(causes(&a, &b, &line).is_some(), is_told, "{line:?}");
    }
}

#[test]
fn nothing_has_no_minus() {
    let units = UnitSystem::Metric;
    let shown = |of: f64| Line::Batches.difference_shown(of, units);
    assert_eq!(shown(-0.04), "+0.0");
    assert_eq!(shown(-0.4), "\u{2212}0.4");
    assert_eq!(shown(3.0), "+3");
    assert_eq!(percent_shown(-0.0001, units), "+0.0 %");
    assert_eq!(percent_shown(-0.25, units), "\u{2212}25 %");
    assert_eq!(percent_shown(0.071, units), "+7.1 %");
    let of = Causes {
        from: 1.0,
        to: 3.0e9,
        terms: vec![
            Term {
                cause: Cause::Thickness,
                amount: 2.5e9,
            },
            Term {
                cause: Cause::Loss,
                amount: 0.5e9,
            },
        ],
    };
    assert_eq!(
        of.sentence(&Line::AllMixed, units),
        "plaster mixed: +3.00 m³ = thickness +2.50 m³, loss +0.50 m³"
    );
}
