//! What is refused and what is doubtful: one project, one change a case, and the words it must give,
//! with the place. Not here: broken files (tested beside the reader).

use crate::fields::lead;
use crate::projects::{wall, window, with_walls};
use hodful_project_file as file;
use hodful_takeoff::{Assessed, Problem, Severity};
use serde_json::{Value, json};

/// A sound project as JSON.
pub(crate) fn sound() -> Value {
    let project = with_walls(&[wall(
        "S",
        6000,
        2700,
        &[window("W1", 1000, 900, 1000, 1200)],
    )]);
    serde_json::from_slice(&file::write(&project)).unwrap()
}

/// Everything the project is told.
pub(crate) fn told(project: &Value) -> Vec<Problem> {
    let bytes = serde_json::to_vec(project).unwrap();
    let rules = file::rules();
    let (project, problems) = file::read_what_can_be(&bytes);
    let told = match &project {
        Some(project) if problems.is_empty() => match Assessed::new(project, &rules) {
            Ok(of) => of.doubts,
            Err(problems) => problems,
        },
        partly => Assessed::with_problems(partly.as_ref(), &rules, problems),
    };
    // Whatever is told leads to a thing and, where it is about a field, to that field.
    for problem in &told {
        if let Some(project) = &project {
            lead(project, &problem.place);
        }
    }
    told
}

/// After a change, one problem of this severity begins so.
fn check(severity: Severity, change: impl FnOnce(&mut Value), words: &str) {
    let mut project = sound();
    change(&mut project);
    let problems = told(&project);
    let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert!(
        problems
            .iter()
            .any(|p| p.severity == severity && p.to_string().starts_with(words)),
        "'{words}' is not among {all:#?}"
    );
}

pub(crate) fn refused(change: impl FnOnce(&mut Value), words: &str) {
    check(Severity::Refused, change, words);
}

pub(crate) fn doubtful(change: impl FnOnce(&mut Value), words: &str) {
    check(Severity::Doubtful, change, words);
}

#[test]
fn the_sound_project_is_told_nothing() {
    assert_eq!(told(&sound()), []);
}

#[test]
fn numbers_that_cannot_be() {
    let opening =
        |p: &mut Value, key: &str, text: &str| p["walls"][0]["openings"][0][key] = json!(text);
    refused(
        |p| opening(p, "sill", "-2 in"),
        "wall S, opening W1, sill: '-2 in' is negative",
    );
    refused(
        |p| opening(p, "from_left", "-1 m"),
        "wall S, opening W1, from_left: '-1 m' is negative",
    );
    refused(
        |p| opening(p, "sill", "2 kg"),
        "wall S, opening W1, sill: '2 kg'",
    );
    refused(
        |p| opening(p, "sill", "27oo"),
        "wall S, opening W1, sill: '27oo' is not a length; write",
    );
    refused(
        |p| p["walls"][0]["shape"]["height"] = json!("0"),
        "wall S, height: '0' is zero",
    );
    refused(
        |p| p["build_ups"]["all"][0]["thickness"] = json!("-5 mm"),
        "build-up all, coat scratch, thickness: '-5 mm' is negative",
    );
    refused(
        |p| p["build_ups"]["all"][0]["thickness"] = json!("0 mm"),
        "build-up all, coat scratch, thickness: '0 mm' must be more than 0",
    );
}

#[test]
fn shares_that_leave_nothing() {
    for text in ["100 %", "120 %", "-1 %"] {
        for key in ["loss", "shrinkage"] {
            refused(
                |p| p["build_ups"]["all"][0][key] = json!(text),
                &format!("build-up all, coat scratch, {key}: '{text}' must be at least 0 %"),
            );
        }
        refused(
            |p| p["materials"]["sand"]["reject"] = json!(text),
            &format!("material sand, reject: '{text}' must be at least 0 %"),
        );
    }
    refused(
        |p| p["mixes"]["base"]["parts"] = json!({ "sand": 0, "clay": 0 }),
        "mix base, parts: the parts add up to 0",
    );
    refused(
        |p| p["mixes"]["base"]["parts"] = json!({}),
        "mix base, parts: the parts add up to 0",
    );
}

#[test]
fn names_that_are_not_there() {
    refused(
        |p| p["walls"][0]["faces"]["outside"]["build_up"] = json!("al"),
        "wall S, outside, build_up: there is no build-up 'al'; did you mean 'all'?",
    );
    refused(
        |p| p["walls"][0]["faces"]["inside"]["background"] = json!("stone"),
        "wall S, inside, background: there is no background 'stone'; there is bale, lath",
    );
    refused(
        |p| p["build_ups"]["all"][0]["mix"] = json!("bass"),
        "build-up all, coat scratch, mix: there is no mix 'bass'; did you mean 'base'?",
    );
    refused(
        |p| p["measurement_rule"] = json!("nett"),
        "measurement_rule: there is no measurement rule 'nett'; did you mean 'net'?",
    );
    refused(
        |p| p["mixes"]["base"]["fibre"] = json!({ "material": "straw", "dose": "50 kg/m3" }),
        "mix base, fibre, material: there is no material 'straw'",
    );
    refused(
        |p| p["mixes"]["base"]["fibre"] = json!({ "material": "sand", "dose": "50 kg/m3" }),
        "mix base, fibre, material: 'sand' is sand, not fibre",
    );
    refused(
        |p| p["walls"][0]["hieght"] = json!("1"),
        "wall S: unknown key 'hieght'",
    );
    refused(
        |p| {
            let twin = p["walls"][0].clone();
            p["walls"].as_array_mut().unwrap().push(twin);
        },
        "wall S: the id stands twice",
    );
}

#[test]
fn geometry_that_cannot_be() {
    refused(
        |p| {
            p["walls"][0]["shape"] = json!({ "kind": "polygon", "corners":
                [["0", "0"], ["4 m", "3 m"], ["4 m", "0"], ["0", "3 m"]] });
        },
        "wall S, corners: make an outline that crosses itself",
    );
    refused(
        |p| p["walls"][0]["openings"][0]["from_left"] = json!("7 m"),
        "wall S, opening W1: has no area inside the outside face of the wall",
    );
    refused(
        |p| {
            p["walls"][0]["faces"]["inside"]["inset"] = json!({ "left": "4 m", "right": "2 m" });
        },
        "wall S, inside, inset",
    );
    for splay in ["80 deg", "89 deg"] {
        refused(
            |p| p["walls"][0]["openings"][0]["reveals"]["inside"]["splay"]["jambs"] = json!(splay),
            &format!("wall S, opening W1, inside, splay.jambs: '{splay}' is at or over 80°"),
        );
    }
    refused(
        |p| p["walls"][0]["openings"][0]["frame"]["depth"] = json!("400 mm"),
        "wall S, opening W1, frame: is deeper than the wall is thick",
    );
    refused(
        |p| p["walls"][0]["openings"][0]["count"] = json!(3),
        "wall S, opening W1, spacing: is needed when there is more than one",
    );
    refused(
        |p| p["walls"][0]["openings"][0]["reveals"]["outside"]["radius"] = json!("120 mm"),
        "wall S, opening W1, outside",
    );
}

#[test]
fn doubts_about_openings() {
    doubtful(
        |p| p["walls"][0]["openings"][0]["from_left"] = json!("5.5 m"),
        "wall S, opening W1: reaches over the edge of the wall on the outside face",
    );
    doubtful(
        |p| {
            let second = window("W2", 1500, 1000, 900, 900);
            p["walls"][0]["openings"]
                .as_array_mut()
                .unwrap()
                .push(second);
        },
        "wall S, opening W1: overlaps W2 on the outside face",
    );
}

#[test]
fn doubts_about_coats() {
    doubtful(
        |p| p["build_ups"]["all"][1]["thickness"] = json!("12 mm"),
        "build-up all: 24.0 mm of clay plaster in all is thin on straw bale",
    );
    doubtful(
        |p| p["build_ups"]["all"][1]["thickness"] = json!("40 mm"),
        "build-up all: 52.0 mm of plaster in all is thick on straw bale",
    );
    doubtful(
        |p| p["mixes"]["base"]["single_pass"] = json!("14 mm"),
        "build-up all, coat fill, thickness: '15 mm' is thicker than one pass",
    );
    doubtful(
        |p| p["walls"][0]["faces"]["outside"]["rain"] = json!("exposed"),
        "build-up all: clay plaster stands in the rain without a weather finish on wall S",
    );
    doubtful(
        |p| {
            p["materials"]["grey"] = json!({ "kind": "cement", "loose_density": "1500 kg/m3",
                "packages": [ { "name": "bag", "holds": "40 kg" } ] });
            p["mixes"]["hard"] = json!({ "parts": { "sand": 4, "grey": 1 },
                "trial_batch": { "loose": "10 L", "mixed": "8 L" } });
            p["build_ups"]["all"][1]["mix"] = json!("hard");
        },
        "build-up all, coat fill: cement plaster goes over clay plaster",
    );
}

#[test]
fn limits_of_thickness_belong_to_what_is_allowed() {
    for (fill, total) in [("13 mm", 25.0), ("38.8 mm", 50.8)] {
        let mut project = sound();
        project["build_ups"]["all"][1]["thickness"] = json!(fill);
        assert_eq!(told(&project), [], "{total} mm in all");
    }
}

#[test]
fn doubts_about_mixes_and_materials() {
    doubtful(
        |p| p["materials"]["clay"]["clay"] = json!("10 %"),
        "mix base: the blend is lean: 2.5 % clay by dry mass",
    );
    doubtful(
        |p| p["mixes"]["base"]["parts"]["sand"] = json!(2),
        "mix base: the blend is rich",
    );
    for (mixed, value) in [("7 L", "0.70"), ("9 L", "0.90")] {
        doubtful(
            |p| p["mixes"]["base"]["trial_batch"] = json!({ "loose": "10 L", "mixed": mixed }),
            &format!("mix base, trial_batch: 10 L loose made {mixed} mixed, a yield of {value}"),
        );
    }
    doubtful(
        |p| p["materials"]["clay"]["packages"] = json!([]),
        "material clay, packages: is used, but no package is given",
    );
    doubtful(
        |p| p["materials"]["sand"]["moisture"] = json!("30 %"),
        "mix base, water: the materials already hold",
    );
    doubtful(
        |p| {
            p["backgrounds"].as_object_mut().unwrap().remove("lath");
        },
        "backgrounds: there are strips of lath",
    );
}

#[test]
fn a_doubt_with_a_code_behind_it_names_it() {
    let mut project = sound();
    project["build_ups"]["all"][1]["thickness"] = json!("5 mm");
    project["walls"][0]["faces"]["outside"]["rain"] = json!("exposed");
    let problems = told(&project);
    assert_eq!(problems.len(), 2);
    assert!(problems.iter().all(|p| {
        p.source
            .is_some_and(|s| s.contains("IRC") || s.contains("IBC"))
    }));
}

#[test]
fn everything_refused_is_told_at_once() {
    let mut project = sound();
    project["walls"][0]["openings"][0]["sill"] = json!("-2 in");
    project["walls"][0]["shape"]["length"] = json!("0");
    project["build_ups"]["all"][0]["loss"] = json!("100 %");
    project["materials"]["sand"]["moisture"] = json!("-4 %");
    project["mixes"]["base"]["water"] = json!("-1 %");
    let problems = told(&project);
    assert_eq!(problems.len(), 5, "{problems:#?}");
    assert!(problems.iter().all(|p| p.severity == Severity::Refused));
}

#[test]
fn reading_checking_and_measuring_are_told_together() {
    let mut project = sound();
    project["materials"]["sand"]["moisture"] = json!("4 mm");
    project["mixes"]["base"]["water"] = json!("20 kg");
    project["build_ups"]["all"][0]["loss"] = json!("100 %");
    let away = wall("N", 6000, 2700, &[window("W9", 9000, 900, 1000, 1200)]);
    project["walls"].as_array_mut().unwrap().push(away);
    let all: Vec<String> = told(&project).iter().map(ToString::to_string).collect();
    for words in [
        "material sand, moisture: '4 mm'",
        "mix base, water: '20 kg'",
        "build-up all, coat scratch, loss: '100 %'",
        "wall N, opening W9: has no area inside the outside face",
        "wall N, opening W9: has no area inside the inside face",
    ] {
        assert!(
            all.iter().any(|told| told.starts_with(words)),
            "'{words}' is not among {all:#?}"
        );
    }
}

#[test]
fn what_the_reading_dropped_is_not_told_as_missing() {
    let mut project = sound();
    project["mixes"]["base"]["parts"] = json!("seven to three");
    let all: Vec<String> = told(&project).iter().map(ToString::to_string).collect();
    assert!(
        all.iter().any(|told| told.starts_with("mix base, parts")),
        "{all:#?}"
    );
    assert!(
        all.iter().all(|told| !told.contains("there is no mix")),
        "{all:#?}"
    );
}

#[test]
fn slips_of_the_pen() {
    refused(
        |p| p["materials"]["sand"]["loose_density"] = json!("1450 lb/ft3"),
        "material sand, loose_density: '1450 lb/ft3' is heavier than solid grains",
    );
    refused(
        |p| {
            let corner = json!({ "face": "outside", "end": "right", "angle": "external" });
            p["walls"][0]["ends"] = json!([corner, corner]);
        },
        "wall S, outside, corner right: stands twice",
    );
    refused(
        |p| {
            p["walls"][0]["openings"][0]["shape"] = json!({ "kind": "arched", "width": "1 m",
                "springing": "1 m", "rise": "200 mm", "head": "semicircular" });
        },
        "wall S, opening W1, rise: '200 mm' is not half of the width '1 m'",
    );
    refused(|p| p["walls"][0]["id"] = json!(" "), "wall  , id: is empty");
    refused(
        |p| {
            let twin = p["materials"]["clay"]["packages"][0].clone();
            p["materials"]["clay"]["packages"]
                .as_array_mut()
                .unwrap()
                .push(twin);
        },
        "material clay, package sack: stands twice",
    );
    for (change, words) in [
        (
            ("/backgrounds/bale/dubbing_out", "3 ft"),
            "background bale, dubbing_out: '3 ft' is unusual",
        ),
        (
            ("/build_ups/all/0/loss", "90 %"),
            "build-up all, coat scratch, loss: '90 %' is unusual",
        ),
        (
            ("/build_ups/all/1/shrinkage", "40 %"),
            "build-up all, coat fill, shrinkage: '40 %' is",
        ),
        (
            ("/mixes/base/water", "240 %"),
            "mix base, water: '240 %' is unusual",
        ),
        (
            ("/materials/sand/bulking", "2500 %"),
            "material sand, bulking: '2500 %' is unusual",
        ),
        (
            ("/walls/0/thickness", "4 m"),
            "wall S, thickness: the thickness is unusual",
        ),
        (
            ("/walls/0/shape/height", "27 m"),
            "wall S, shape: the height is unusual",
        ),
    ] {
        let ((pointer, text), words) = (change, words);
        doubtful(
            |p| {
                let (parent, key) = pointer.rsplit_once('/').unwrap();
                p.pointer_mut(parent).unwrap()[key] = json!(text);
            },
            words,
        );
    }
}

#[test]
fn slips_of_the_unit_in_an_opening() {
    doubtful(
        |p| p["walls"][0]["openings"][0]["shape"]["width"] = json!("1.2 mm"),
        "wall S, opening W1: is 1.2 mm wide and 1200 mm high",
    );
    doubtful(
        |p| {
            p["walls"][0]["openings"][0]["reveals"]["inside"]["splay"] =
                json!({ "jambs": "65 deg" });
        },
        "wall S, opening W1, inside, splay.jambs: '65 deg' is unusual: seldom over 60 degrees",
    );
}

#[test]
fn one_slip_is_told_once() {
    let mut project = sound();
    project["walls"][0]["thickness"] = json!("-18 in");
    assert_eq!(told(&project).len(), 1, "{:#?}", told(&project));
    let mut project = sound();
    project["walls"][0]["openings"][0]["frame"]["depth"] = json!("400 mm");
    assert_eq!(told(&project).len(), 1, "{:#?}", told(&project));
}

#[test]
fn faces_and_openings_that_run_too_far() {
    doubtful(
        |p| {
            p["walls"][0]["ends"] =
                json!([{ "face": "outside", "end": "right", "angle": "external" }]);
            p["walls"][0]["faces"]["outside"]["rain"] = json!("exposed");
        },
        "wall S, inside: runs to the outside corner at the right end; give an inset right",
    );
    doubtful(
        |p| p["walls"][0]["faces"]["inside"]["inset"] = json!({ "top": "700 mm" }),
        "wall S, opening W1: reaches over where the inside plaster stops",
    );
    let mut project = sound();
    project["walls"][0]["faces"]["outside"]["inset"] = json!({ "bottom": "1 m" });
    assert_eq!(
        told(&project),
        [],
        "a cut at the bottom is as usual as a door"
    );
    project["walls"] = json!([]);
    assert_eq!(told(&project)[0].to_string(), "walls: there is no wall yet");
}

#[test]
fn several_bales_are_bales() {
    let mut project = sound();
    for stock in ["2 sack", "2 sacks"] {
        project["materials"]["clay"]["stock"] = json!(stock);
        assert_eq!(told(&project), [], "{stock}");
    }
}

#[test]
fn two_inches_in_sixteenths_are_not_over_two_inches() {
    // 1/4 in and 1 3/4 in add up to 50.800000000000004 mm.
    let mut project = sound();
    project["build_ups"]["all"][0]["thickness"] = json!("1/4 in");
    project["build_ups"]["all"][1]["thickness"] = json!("1 3/4 in");
    assert_eq!(told(&project), []);
    project["build_ups"]["all"][0]["thickness"] = json!("5/16 in");
    assert_eq!(told(&project).len(), 1);
}

#[test]
fn lime_is_not_told_to_be_lean_in_clay() {
    let mut project = sound();
    project["materials"]["lime"] = json!({ "kind": "lime", "loose_density": "500 kg/m3",
        "packages": [ { "name": "bag", "holds": "25 kg" } ] });
    project["mixes"]["wash"] = json!({ "parts": { "sand": 3, "lime": 1 },
        "trial_batch": { "loose": "10 L", "mixed": "8 L" } });
    project["build_ups"]["all"][1]["mix"] = json!("wash");
    // The clay beneath is thick enough by itself.
    project["build_ups"]["all"][0]["thickness"] = json!("25 mm");
    assert_eq!(told(&project), []);
}

#[test]
fn coats_need_room() {
    refused(
        |p| {
            p["walls"][0]["shape"]["length"] = json!("60 mm");
            p["walls"][0]["openings"] = json!([]);
            p["walls"][0]["ends"] = json!([
                { "face": "inside", "end": "left", "angle": "internal" },
                { "face": "inside", "end": "right", "angle": "internal" }
            ]);
            p["build_ups"]["all"][1]["thickness"] = json!("38 mm");
        },
        "wall S, inside: the coats are thicker",
    );
}

#[test]
fn water_that_is_not_counted_is_told() {
    doubtful(
        |p| {
            p["materials"].as_object_mut().unwrap().remove("water");
        },
        "materials: mixes take water, but there is no material of kind water",
    );
}

/// A normal thickness of so wide a spread is under nothing once in a hundred; 4 points are no share of a loss of 5 %.
#[test]
fn spreads_that_cannot_be() {
    let off = |of: &Value| {
        let of = of.clone();
        move |p: &mut Value| p["uncertain"] = json!([of])
    };
    doubtful(
        off(&json!({ "of": "thickness", "spread": "60 %" })),
        "uncertain input 1 (thickness of every coat), spread: '60 %' is too far: 1 time in 100 thickness would be",
    );
    doubtful(
        off(&json!({ "of": "thickness", "wall_to_wall": "60 %" })),
        "uncertain input 1 (thickness of every coat), wall_to_wall: '60 %' is too far: more than 1 wall in 100 would have less than no thickness",
    );
    doubtful(
        off(&json!({ "of": "loss", "mean": "5 %", "spread": "4 %" })),
        "uncertain input 1 (loss of every coat), spread: '4 %', 4 points and not a share of it, is too far: 1 time in 100 loss would be",
    );
    refused(
        off(&json!({ "of": "loss", "mean": "5 %", "spread": "4 mm" })),
        "uncertain input 1 (loss of every coat), spread: '4 mm' is a length; give points of the share, 2 % or 0.02",
    );
}
