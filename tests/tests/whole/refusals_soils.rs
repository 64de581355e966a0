//! What is refused and what is doubtful of soils, tests of them, blends and purchases: one change a case, and the
//! words it must give, with the place. Not here: walls, coats and mixes (see `refusals`).

use crate::refusals::{doubtful, refused, sound, told};
use serde_json::{Value, json};

/// A material of the sound project with what is known of its grains.
fn soil(p: &mut Value, soil: &Value) {
    p["materials"]["clay"]["soil"] = soil.clone();
}

/// A report of shares, sand, silt and clay in percent.
fn shares(sand: u32, silt: u32, clay: u32) -> Value {
    json!({ "sand": format!("{sand} %"), "silt": format!("{silt} %"), "clay": format!("{clay} %") })
}

#[test]
fn clay_that_was_typed_is_held_against_the_test() {
    doubtful(
        |p| soil(p, &json!({ "shares": shares(20, 30, 50) })),
        "material clay, clay: '60 %' is outside what the report of shares leaves open, 50 %",
    );
    doubtful(
        |p| {
            let jar = json!({ "sand": "40 mm", "silt": "40 mm", "clay": "2 mm",
                "water_depth": "200 mm" });
            soil(p, &json!({ "jar": jar }));
        },
        "material clay, clay: '60 %' is outside what the jar test leaves open",
    );
    // One point is what a report is printed to.
    for clay in [59, 60, 61] {
        let mut project = sound();
        soil(
            &mut project,
            &json!({ "shares": shares(10, 90 - clay, clay) }),
        );
        assert_eq!(told(&project), [], "{clay} %");
    }
}

#[test]
fn a_jar_marked_at_a_wrong_hour_is_told_when_to_mark_it() {
    // Stokes' law: grains of 0.002 mm sink 100 mm in 7 h 44 min at 20 °C, 200 mm in twice that, 15 h 28 min with a
    // viscosity of 1.002 mPa·s; newer tables have 1.0016.
    let jar = |silt: &str| {
        json!({ "jar": { "sand": "20 mm", "silt": "20 mm", "clay": "40 mm", "water_depth": "200 mm",
            "temperature": "20 C", "sand_marked": "89 s", "silt_marked": silt } })
    };
    doubtful(
        |p| soil(p, &jar("2 h")),
        "material clay, soil, jar, silt_marked: '2 h': the mark between silt and clay was made early",
    );
    let mut project = sound();
    soil(&mut project, &jar("2 h"));
    let all: Vec<String> = told(&project).iter().map(ToString::to_string).collect();
    assert!(
        all.iter().any(|told| told.contains("mark it 15 h 2")
            && told.ends_with("min after the jar is set down")),
        "{all:#?}"
    );
    let mut project = sound();
    soil(&mut project, &jar("15.5 h"));
    let all = told(&project);
    assert!(
        all.iter().all(|p| !p.to_string().contains("silt_marked")),
        "{all:#?}"
    );
}

#[test]
fn tests_of_one_soil_that_contradict_one_another() {
    let jar = json!({ "sand": "70 mm", "silt": "8 mm", "clay": "2 mm", "water_depth": "200 mm" });
    doubtful(
        |p| soil(p, &json!({ "shares": shares(10, 30, 60), "jar": jar })),
        "material clay, soil, jar: the jar test contradicts the report of shares: sand",
    );
    let sieve = json!([{ "size": "2 mm", "passing": "100 %" }, { "size": "0.05 mm", "passing": "90 %" },
        { "size": "0.002 mm", "passing": "60 %" }]);
    doubtful(
        |p| soil(p, &json!({ "sieve": sieve, "shares": shares(12, 28, 60) })),
        "material clay, soil, shares: the report of shares contradicts the sieve list: sand 12 % against 10 %, silt 28 % against 30 %",
    );
    let mut project = sound();
    soil(
        &mut project,
        &json!({ "sieve": sieve, "shares": shares(11, 29, 60) }),
    );
    assert_eq!(
        told(&project),
        [],
        "one point is what a report is printed to"
    );
}

#[test]
fn swell_outside_what_is_published() {
    for text in ["11 %", "51 %"] {
        doubtful(
            |p| p["materials"]["clay"]["swell"] = json!(text),
            &format!("material clay, swell: '{text}' is outside the published 12 to 50 %"),
        );
    }
    for text in ["12 %", "50 %"] {
        let mut project = sound();
        project["materials"]["clay"]["swell"] = json!(text);
        assert_eq!(told(&project), [], "{text}");
    }
}

#[test]
fn water_of_a_trial_beside_that_of_the_mix() {
    // 10 L of 7 parts of 1450 and 3 of 1100 kg/m3 weigh 13.45 kg dry; the mix wants 20 %, 2.69 kg.
    let trial = |water: &str| json!({ "loose": "10 L", "mixed": "8 L", "water": water });
    for (water, share) in [("3.2 L", "26.8"), ("1.6 kg", "14.9")] {
        doubtful(
            |p| p["mixes"]["base"]["trial_batch"] = trial(water),
            &format!(
                "mix base, trial_batch, water: the trial batch held {share} % of water by dry mass, with what the materials brought, and the mix is reckoned with '20 %'"
            ),
        );
    }
    for water in ["2.68 L", "1.91 kg"] {
        let mut project = sound();
        project["mixes"]["base"]["trial_batch"] = trial(water);
        assert_eq!(told(&project), [], "{water}");
    }
}

#[test]
fn the_last_panel_warns() {
    let panels = |p: &mut Value, panels: Value| p["mixes"]["base"]["test_panels"] = panels;
    let bar = |dry: &str| json!({ "wet_length": "600 mm", "dry_length": dry });
    doubtful(
        |p| panels(p, json!([{ "cracks": "open" }])),
        "mix base, test panel number 1, cracks: the last panel cracked open",
    );
    doubtful(
        |p| panels(p, json!([bar("587 mm")])),
        "mix base, test panel number 1, dry_length: the last panel or bar shrank by 2.17 % of its length, over 2 %",
    );
    doubtful(
        |p| panels(p, json!([{ "cracks": "none" }, bar("590 mm")])),
        "mix base, test panel number 2, dry_length: the last panel or bar shrank by 1.67 % of its length, over 1.05 %",
    );
    // A quarter of an inch in two feet is let pass, and so is what a later panel has mended.
    for sound_panels in [
        json!([{ "wet_length": "24 in", "dry_length": "23 3/4 in" }]),
        json!([{ "cracks": "open" }, bar("598 mm")]),
        json!([{ "cracks": "hairline" }]),
    ] {
        let mut project = sound();
        project["mixes"]["base"]["test_panels"] = sound_panels;
        assert_eq!(told(&project), []);
    }
    // 587 of 600 mm is held to the standard, 590 to the stricter handbook.
    let source = |dry: &str| {
        let mut project = sound();
        panels(&mut project, json!([bar(dry)]));
        let problems = told(&project);
        assert_eq!(problems.len(), 1, "{problems:#?}");
        problems.first().and_then(|p| p.source).unwrap()
    };
    assert!(source("587 mm").contains("DIN 18947"));
    assert!(source("590 mm").contains("Practical Action"));
}

#[test]
fn blends_that_cannot_be_had_or_computed() {
    let blend = |p: &mut Value, of: Value| p["blends"] = json!({ "new": of });
    let both = json!({ "sand": { "least": "90 %" }, "clay": {} });
    doubtful(
        |p| blend(p, json!({ "materials": both, "clay": { "least": "30 %" } })),
        "blend new: cannot be had as it is asked: the least of",
    );
    doubtful(
        |p| {
            blend(
                p,
                json!({ "materials": { "clay": {} }, "silt": { "most": "10 %" } }),
            );
        },
        "blend new: cannot be computed: clay: silt",
    );
    doubtful(
        |p| blend(p, json!({ "clay": { "most": "10 %" } })),
        "blend new: cannot be computed: says none of the materials",
    );
    let mut project = sound();
    blend(
        &mut project,
        json!({ "materials": { "sand": {}, "clay": {} }, "clay": { "least": "10 %", "most": "15 %" } }),
    );
    assert_eq!(told(&project), []);
}

#[test]
fn what_cannot_be_bought_from_whom() {
    let sold_by = |p: &mut Value, truck: &str| {
        p["suppliers"] = json!({ "Sedge Lane": { "delivery": "40", "truck_volume": truck } });
        p["materials"]["sand"]["packages"][0]["supplier"] = json!("Sedge Lane");
    };
    doubtful(
        |p| sold_by(p, "0.5 m3"),
        "buying, aim: bag of sand: one takes 2.00 times what the truck of Sedge Lane carries",
    );
    let mut project = sound();
    sold_by(&mut project, "1 m3");
    assert_eq!(told(&project), []);
}

#[test]
fn what_keeps_and_when_it_comes() {
    let keeps = |p: &mut Value| p["materials"]["sand"]["keeps"] = json!("3 weeks");
    let coats: Vec<Value> = {
        let project = sound();
        let all = project["build_ups"].as_object().unwrap().values();
        let coats = all.flat_map(|coats| coats.as_array().unwrap().clone());
        coats.map(|coat| coat["coat"].clone()).collect()
    };
    doubtful(
        keeps,
        "material sand, keeps: it keeps '3 weeks', but not every order has its day",
    );
    let phases = |p: &mut Value, of: Value| p["buying"] = json!({ "phases": [of] });
    let mut project = sound();
    keeps(&mut project);
    phases(
        &mut project,
        json!({ "name": "all", "coats": coats.clone(), "date": "2026-05-04" }),
    );
    assert_eq!(told(&project), []);
    doubtful(
        |p| {
            phases(
                p,
                json!({ "name": "first", "coats": [], "date": "2026-05-04" }),
            );
        },
        "buying, phase first, coats: no phase names the coat",
    );
}

#[test]
fn a_jar_half_measured_keeps_nobody_from_the_order() {
    let jar = json!({ "jar": { "sand": "20 mm", "silt": "20 mm", "clay": "40 mm" } });
    doubtful(
        |p| soil(p, &jar),
        "material clay, soil, jar, water_depth: it wants the depth of the water",
    );
}

#[test]
fn what_binds_is_no_part_of_a_blend() {
    refused(
        |p| {
            p["materials"]["lime"] = json!({ "kind": "lime", "loose_density": "500 kg/m3" });
            p["blends"] = json!({ "new": { "materials": { "lime": {} } } });
        },
        "blend new, materials, material lime: 'lime' is lime, which binds and is no grain",
    );
}
