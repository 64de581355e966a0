//! What makes the difference between two projects adds up to it, for any two that come of the demo
//! projects by any edits. Not here: the value itself, which is tested beside it.

use hodful_project_file as file;
use hodful_quantities::read::Money;
use hodful_takeoff::compare::{Cause, Line, One, causes, lines, table};
use hodful_takeoff::form::{self, Kind, Subject};
use hodful_takeoff::project::Project;
use hodful_takeoff::{Assessed, alternative};
use proptest::prelude::*;
use std::sync::Arc;

fn demo(name: &str) -> Project {
    let demo = file::demo_projects().find(|demo| demo.name == name);
    file::read(demo.unwrap().bytes).unwrap()
}

const DEMOS: [&str; 3] = ["thistlebank-workshop", "marlpit-barn", "ferry-loft"];

/// Everything that has fields that go into the figures.
fn subjects(project: &Project) -> Vec<Subject> {
    let mut all = vec![Subject::Mixer];
    all.extend((0..project.backgrounds.len()).map(Subject::Background));
    for (build_up, coats) in project.build_ups.values().enumerate() {
        all.extend((0..coats.len()).map(|coat| Subject::Coat { build_up, coat }));
    }
    all.extend((0..project.mixes.len()).map(Subject::Mix));
    for (material, of) in project.materials.values().enumerate() {
        all.push(Subject::Material(material));
        let packages = 0..of.packages.len();
        all.extend(packages.map(|package| Subject::Package { material, package }));
    }
    for (wall, of) in project.walls.iter().enumerate() {
        all.push(Subject::Wall(wall));
        let openings = 0..of.openings.len();
        all.extend(openings.map(|opening| Subject::Opening { wall, opening }));
    }
    all
}

/// One edit: a field so many times what it was, another name of a choice, or something left out. Edits that
/// are refused are not made.
fn edit(project: &mut Project, (what, which, times): (usize, usize, f64)) {
    let all = subjects(project);
    let subject = all[what % all.len()];
    match (subject, which % 7) {
        (Subject::Coat { build_up, coat }, 0) if project.build_ups[build_up].len() > 1 => {
            project.build_ups[build_up].remove(coat);
            return;
        }
        (Subject::Wall(at), 0) if project.walls.len() > 1 => {
            project.walls.remove(at);
            return;
        }
        (Subject::Wall(at), 1) => {
            let mut more = (*project.walls[at]).clone();
            more.id = form::new_id(project, &more.id);
            project.walls.push(Arc::new(more));
            return;
        }
        _ => {}
    }
    let rows = form::rows(project, subject);
    let rows: Vec<_> = rows.iter().filter(|row| row.text.is_some()).collect();
    let Some(row) = rows.get(which % rows.len().max(1)) else {
        return;
    };
    let text = row.text.clone().unwrap();
    let to = match &row.kind {
        Kind::OneOf(words) if words.is_empty() => return,
        Kind::OneOf(words) => words[which % words.len()].to_string(),
        Kind::Number => format!("{times:.3}"),
        Kind::Money => format!("{:.2}", times * 30.0),
        _ => format!("({text}) * {times:.3}"),
    };
    let before = project.clone();
    if form::set(project, subject, &row.key, &to).is_err() {
        *project = before;
    }
}

fn edits() -> impl Strategy<Value = Vec<(usize, usize, f64)>> {
    proptest::collection::vec((any::<usize>(), any::<usize>(), 0.6..1.6_f64), 0..12)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, ..ProptestConfig::default() })]

    #[test]
    fn the_causes_add_up(demo_at in 0..3_usize, first in edits(), second in edits()) {
        let rules = file::rules();
        let mut a = demo(DEMOS[demo_at]);
        for one in first {
            edit(&mut a, one);
        }
        let mut b = a.clone();
        for one in second {
            edit(&mut b, one);
        }
        let (Ok(a), Ok(b)) = (Assessed::new(&a, &rules), Assessed::new(&b, &rules)) else {
            return Ok(());
        };
        let (a, b) = (a.one(None), b.one(None));
        let both = table(0, &[("a".into(), a), ("b".into(), b)]);
        for row in &both.rows {
            let Some(found) = causes(&a, &b, &row.line) else {
                prop_assert!(row.difference(0, 1).is_none(), "{:?}", row.line);
                continue;
            };
            let scale = found.from.abs().max(found.to.abs()).max(1.0);
            let near = |x: f64, y: f64| (x - y).abs() <= 1e-9 * scale;
            let sum: f64 = found.terms.iter().map(|term| term.amount).sum();
            prop_assert!(near(sum, found.difference()), "{:?}: {found:?}", row.line);
            prop_assert_eq!(row.difference(0, 1), Some(found.difference()));
            // Rounding up is less than one package where there is one kind: what lies in the yard is no part of it.
            if let Line::Packages(name) = &row.line
                && [a, b].iter().all(|one| {
                    one.project.materials.get(name).is_none_or(|of| of.packages.len() <= 1)
                })
            {
                let rounding = found.terms.iter().find(|t| t.cause == Cause::RoundingUp);
                let rounding = rounding.map_or(0.0, |term| term.amount);
                prop_assert!(rounding.abs() <= 1.0 + 1e-6, "{:?}: {found:?}", row.line);
            }
            // What is bought too much, by the packages themselves: the share of them that is over.
            let over = |one: &One<'_>| -> f64 {
                let figures = one.project.materials.iter().zip(&one.evaluation.materials);
                let covers = figures.filter_map(|((name, _), of)| Some((name, of.cover.as_ref()?)));
                let each = covers.map(|(name, cover)| {
                    let size = match &row.line {
                        Line::Cost => cover.price.map_or(0.0, Money::to_f64),
                        Line::Packages(of) if of == name => {
                            cover.counts.iter().map(|(_, count)| f64::from(u32::try_from(*count).unwrap())).sum()
                        }
                        _ => 0.0,
                    };
                    size * (1.0 - 1.0 / cover.times_need)
                });
                each.sum()
            };
            if matches!(row.line, Line::Cost | Line::Packages(_)) {
                let rounding = found.terms.iter().find(|t| t.cause == Cause::RoundingUp);
                let rounding = rounding.map_or(0.0, |term| term.amount);
                prop_assert!(near(rounding, over(&b) - over(&a)), "{:?}: {found:?}", row.line);
            }
            // Forth and back: the same terms the other way round.
            let back = causes(&b, &a, &row.line).unwrap();
            for cause in found.terms.iter().chain(&back.terms).map(|term| term.cause) {
                let of = |all: &hodful_takeoff::compare::Causes| {
                    let terms = all.terms.iter().filter(|term| term.cause == cause);
                    terms.map(|term| term.amount).sum::<f64>()
                };
                prop_assert!(near(of(&found), -of(&back)), "{:?}: {cause:?} {found:?} {back:?}", row.line);
            }
            prop_assert!(causes(&a, &a, &row.line).unwrap().terms.is_empty());
        }
    }
}

/// A fill coat of 5/8 in and 1/2 in more on a field without edges would be 1/2 in × its surface; what edges
/// take besides stands by itself. Worked from the surface of the evaluation.
#[test]
fn half_an_inch_more_fill_is_thickness_edges_and_rounding_up() {
    let rules = file::rules();
    let base = demo("thistlebank-workshop");
    let more = alternative::apply(&base, "fill half an inch thicker").unwrap();
    let (a, b) = (
        Assessed::new(&base, &rules).unwrap(),
        Assessed::new(&more, &rules).unwrap(),
    );
    let line = Line::Placed {
        build_up: "outside bale".into(),
        coat: "fill".into(),
    };
    let found = causes(&a.one(None), &b.one(None), &line).unwrap();
    let at = base.build_ups.get_index_of("outside bale").unwrap();
    let area = a.evaluation.grounds[at].surface.area.value;
    let flat = found
        .terms
        .iter()
        .find(|t| t.cause == Cause::Thickness)
        .unwrap();
    assert!((flat.amount - area * 12.7).abs() <= 1e-9 * flat.amount.abs());
    let kinds: Vec<Cause> = found.terms.iter().map(|t| t.cause).collect();
    assert_eq!(kinds, [Cause::Edges, Cause::Thickness]);
    let cost = causes(&a.one(None), &b.one(None), &Line::Cost).unwrap();
    // Where more is needed, other packages may be chosen, which is a cause of its own.
    let kinds = cost.terms.iter().map(|t| t.cause);
    let kinds: Vec<Cause> = kinds.filter(|cause| *cause != Cause::Prices).collect();
    assert_eq!(kinds, [Cause::Edges, Cause::Thickness, Cause::RoundingUp]);
}

/// One input changed is one cause, whichever it is.
#[test]
fn one_change_is_one_cause() {
    let rules = file::rules();
    let base = demo("thistlebank-workshop");
    let coat = Subject::Coat {
        build_up: 0,
        coat: 0,
    };
    for (subject, key, text, line, cause) in [
        (coat, "loss", "15 %", Line::AllMixed, Cause::Loss),
        (coat, "shrinkage", "3 %", Line::AllMixed, Cause::Shrinkage),
        (
            Subject::Background(0),
            "dubbing_out",
            "1/2 in",
            Line::AllPlaced,
            Cause::DubbingOut,
        ),
        (
            Subject::Material(0),
            "moisture",
            "6 %",
            Line::Mass("yard sand".into()),
            Cause::Damp,
        ),
        (
            Subject::Material(1),
            "reject",
            "12 %",
            Line::Loose("pit clay".into()),
            Cause::Screen,
        ),
        (
            Subject::Mix(0),
            "parts.yard sand",
            "3",
            Line::Loose("yard sand".into()),
            Cause::Mix,
        ),
    ] {
        let mut other = base.clone();
        form::set(&mut other, subject, key, text).unwrap();
        let (a, b) = (
            Assessed::new(&base, &rules).unwrap(),
            Assessed::new(&other, &rules).unwrap(),
        );
        let found = causes(&a.one(None), &b.one(None), &line).unwrap();
        let kinds: Vec<Cause> = found.terms.iter().map(|t| t.cause).collect();
        // Other parts have another yield as well, by absolute volumes.
        if cause == Cause::Mix {
            assert_eq!(kinds, [Cause::Mix, Cause::Yield]);
        } else {
            assert_eq!(kinds, [cause], "{key}");
        }
    }
}

/// Packages that no other project has, and mixes of other names: nothing is told that does not add up.
#[test]
fn two_buildings_that_have_nothing_in_common_are_compared() {
    let rules = file::rules();
    let (first, second) = (demo("thistlebank-workshop"), demo("marlpit-barn"));
    let (a, b) = (
        Assessed::new(&first, &rules).unwrap(),
        Assessed::new(&second, &rules).unwrap(),
    );
    let (a, b) = (a.one(None), b.one(None));
    assert!(lines(&a) != lines(&b));
    let mut told = 0;
    for row in table(0, &[("a".into(), a), ("b".into(), b)]).rows {
        let found = causes(&a, &b, &row.line);
        let Some(found) = found else {
            // Packages of unlike kinds have no difference either.
            assert!(matches!(row.line, Line::Packages(_)), "{row:?}");
            assert_eq!(row.difference(0, 1), None, "{row:?}");
            continue;
        };
        told += 1;
        let sum: f64 = found.terms.iter().map(|term| term.amount).sum();
        let scale = found.from.abs().max(found.to.abs()).max(1.0);
        assert!(
            (sum - found.difference()).abs() <= 1e-9 * scale,
            "{:?}",
            row.line
        );
    }
    assert!(told > 10, "{told}");
}
