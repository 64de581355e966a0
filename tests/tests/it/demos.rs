//! Demo projects: each opens as it is, raises only the doubts it means to, and together they show
//! every shape. Not here: their figures.

use crate::places::{shown, top};
use crate::{Outcome, nothing_in, trial};
use hodful_takeoff::Assessed;
use hodful_takeoff::problem::{Problem, Severity};
use hodful_takeoff::project::{ArchKind, OpeningShape, Project, WallShape};
use libtest_mimic::{Failed, Trial};
use std::collections::BTreeSet;
use std::{env, fs};

/// Demo projects and the walls in which each means to raise a doubt.
const DEMOS: [(&str, &[&str]); 5] = [
    ("ferry-loft", &[]),
    (
        "marlpit-barn",
        &["material pit soil", "blend finish from the premix"],
    ),
    ("quillmere-school", &["wall E7"]),
    ("saltcedar-room", &[]),
    ("thistlebank-workshop", &[]),
];

/// Every outline and every opening that a project can have.
const SHAPES: [&str; 12] = [
    "arched, elliptical",
    "arched, segmental",
    "arched, semicircular",
    "circle",
    "curved by length",
    "curved by sweep",
    "gable",
    "opening polygon",
    "opening rectangle",
    "raked",
    "wall polygon",
    "wall rectangle",
];

pub(crate) fn trials(trials: &mut Vec<Trial>) {
    for (name, meant) in DEMOS {
        trials.push(trial(
            format!("demos::{name}::only_doubts_that_are_meant"),
            move || only_meant_doubts(name, meant),
        ));
        trials.push(trial(
            format!("demos::{name}::is_as_it_would_be_saved"),
            move || saved_alike(name),
        ));
    }
    trials.push(trial("demos::all_are_compiled_in", all_are_compiled_in));
    trials.push(trial("demos::every_shape_occurs", every_shape_occurs));
    trials.push(trial("demos::the_school_has_forty_walls", || {
        let walls = open("quillmere-school")?.walls.len();
        if walls == 40 {
            Ok(())
        } else {
            Err(format!("it has {walls}").into())
        }
    }));
}

fn told(problems: &[Problem]) -> Failed {
    problems
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join("\n")
        .into()
}

fn bytes(name: &str) -> Result<Vec<u8>, Failed> {
    hodful_project_file::demo_projects()
        .find(|demo| demo.name == name)
        .map(|demo| demo.bytes.to_vec())
        .ok_or_else(|| format!("there is no demo project {name}").into())
}

fn open(name: &str) -> Result<Project, Failed> {
    hodful_project_file::read(&bytes(name)?).map_err(|problems| told(&problems))
}

fn only_meant_doubts(name: &str, meant: &[&str]) -> Outcome {
    let project = open(name)?;
    let assessed = Assessed::new(&project, &hodful_project_file::rules())
        .map_err(|problems| told(&problems))?;
    let means = |problem: &Problem| {
        let place = problem.place.to_string();
        problem.severity == Severity::Doubtful && meant.iter().any(|m| place.starts_with(m))
    };
    let (meant_found, other): (Vec<_>, Vec<_>) = assessed.doubts.into_iter().partition(means);
    if !other.is_empty() {
        return Err(told(&other));
    }
    let quiet = |m: &&&str| {
        !meant_found
            .iter()
            .any(|p| p.place.to_string().starts_with(**m))
    };
    let missing: Vec<String> = meant
        .iter()
        .filter(quiet)
        .map(|m| format!("{m} raises no doubt"))
        .collect();
    if project.note.is_none() {
        return Err("the project has no note".into());
    }
    nothing_in(&missing)
}

/// A demo project that is opened and saved does not change. `UPDATE=1` writes it so.
fn saved_alike(name: &str) -> Outcome {
    let saved = hodful_project_file::write(&open(name)?);
    if saved == bytes(name)? {
        return Ok(());
    }
    if env::var_os("UPDATE").is_some() {
        let path = top().join(format!("demo-projects/{name}.hodful.json"));
        return fs::write(&path, saved).map_err(|e| format!("{}: {e}", shown(&path)).into());
    }
    Err("opened and saved, the file is another; run the test with UPDATE=1 to write it so".into())
}

fn all_are_compiled_in() -> Outcome {
    let mut names: Vec<_> = hodful_project_file::demo_projects()
        .map(|demo| demo.name.to_owned())
        .collect();
    names.sort();
    let expected = DEMOS.map(|(name, _)| name);
    if names == expected {
        Ok(())
    } else {
        Err(format!("{names:?}, not {expected:?}").into())
    }
}

fn every_shape_occurs() -> Outcome {
    let mut seen = BTreeSet::new();
    for (name, _) in DEMOS {
        for wall in open(name)?.walls {
            seen.insert(match &wall.shape {
                WallShape::Rectangle { .. } => "wall rectangle",
                WallShape::Gable { .. } => "gable",
                WallShape::Raked { .. } => "raked",
                WallShape::Polygon { .. } => "wall polygon",
                WallShape::Curved { sweep: Some(_), .. } => "curved by sweep",
                WallShape::Curved { .. } => "curved by length",
            });
            seen.extend(wall.openings.iter().map(|opening| match &opening.shape {
                OpeningShape::Rectangle { .. } => "opening rectangle",
                OpeningShape::Circle { .. } => "circle",
                OpeningShape::Polygon { .. } => "opening polygon",
                OpeningShape::Arched { head, .. } => match head.unwrap_or(ArchKind::Segmental) {
                    ArchKind::Segmental => "arched, segmental",
                    ArchKind::Semicircular => "arched, semicircular",
                    ArchKind::Elliptical => "arched, elliptical",
                },
            }));
        }
    }
    let missing: Vec<String> = SHAPES
        .iter()
        .filter(|shape| !seen.contains(*shape))
        .map(|shape| format!("no demo project has: {shape}"))
        .collect();
    nothing_in(&missing)
}
