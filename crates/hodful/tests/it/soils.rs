//! `hodful soils`, `hodful settle`, `hodful blend`: shapes, exit codes, wrong input, and figures that can be
//! worked out by hand.

use crate::golden::{changed, yard};
use crate::run::{Site, demos};
use serde_json::Value;

fn json(site: &Site, code: i32, arguments: &[&str]) -> Value {
    let said = site.run(&[arguments, &["--format", "json"]].concat());
    assert_eq!(said.code, Some(code), "{}", said.words);
    serde_json::from_str(&said.figures).unwrap()
}

fn number(of: &Value) -> f64 {
    of.as_f64().unwrap_or_else(|| panic!("{of} is no number"))
}

#[test]
fn soils_leave_with_their_bounds() {
    let site = yard();
    let report = json(&site, 0, &["soils", "yard.hodful.json"]);
    assert_eq!(report["format"], "hodful-soils");
    assert_eq!(report["version"], 1);
    let [soil] = report["soils"].as_array().unwrap().as_slice() else {
        panic!("{report}")
    };
    assert_eq!(soil["material"], "pond clay");
    assert_eq!(soil["system"], "USDA");
    let tests = soil["tests"].as_array().unwrap();
    let ways: Vec<&str> = tests.iter().map(|t| t["way"].as_str().unwrap()).collect();
    assert_eq!(ways, ["shares as given", "jar test"]);
    // As typed, exactly.
    for (part, share) in [("sand", 0.12), ("silt", 0.40), ("clay", 0.48)] {
        for key in ["best", "least", "most"] {
            assert!(
                (number(&tests[0][part][key]) - share).abs() < 1e-9,
                "{part}"
            );
        }
    }
    // 12 % sand, 40 % silt and 48 % clay: silty clay begins at 40 % of each (Soil Survey Manual, ch. 3).
    assert_eq!(tests[0]["class"], "silty clay");
    for test in tests {
        for part in ["gravel", "sand", "silt", "clay"] {
            let known = &test[part];
            assert!(number(&known["least"]) <= number(&known["most"]));
        }
    }
    // Heights 9, 24 and 40 of 73 mm are among what the jar leaves open.
    let clay = &tests[1]["clay"];
    let as_it_stands = 40.0 / 73.0;
    assert!(number(&clay["least"]) < as_it_stands && as_it_stands < number(&clay["most"]));
    // 1.5 times what the pipette tables give for 100 mm at 20 °C, 7 h 44 min.
    let silt = number(&soil["jar"]["mark_silt_after_s"]);
    assert!(
        (silt / 3600.0 / (1.5 * 7.733) - 1.0).abs() < 0.005,
        "{silt}"
    );
    let hand = soil["hand"].as_array().unwrap();
    assert_eq!(hand.len(), 2);
    assert!(
        hand.iter()
            .all(|row| row["source"].is_string() && row["how_sure"].is_string())
    );

    let csv = site.run(&["soils", "yard.hodful.json", "--format", "csv"]);
    let lines: Vec<&str> = csv.figures.lines().collect();
    assert!(
        csv.figures
            .starts_with("material,kind,system,way,gravel,sand,silt,clay,")
    );
    assert_eq!(lines.len(), 3, "a head and a line a test");
    assert!(
        lines[1].starts_with("pond clay,soil,USDA,shares as given,0.0,0.12,0.4,0.48,"),
        "{}",
        lines[1]
    );
}

#[test]
fn a_project_without_tests_says_how_to_begin() {
    let site = Site::with_demo("saltcedar-room");
    let said = site.run(&["soils", "demo.hodful.json"]);
    assert_eq!(said.code, Some(0));
    assert!(
        said.figures.contains("No material has a test"),
        "{}",
        said.figures
    );
    let report = json(&site, 0, &["soils", "demo.hodful.json"]);
    assert_eq!(report["soils"].as_array().unwrap().len(), 0);
}

#[test]
fn every_demo_has_its_soils_and_cards_within_eighty_columns() {
    for demo in demos() {
        let site = Site::with_demo(&demo);
        for command in ["soils", "card"] {
            let said = site.run(&[command, "demo.hodful.json"]);
            assert_eq!(said.code, Some(0), "{demo} {command}: {}", said.words);
            for line in said.figures.lines() {
                assert!(line.chars().count() <= 80, "{demo} {command}: {line}");
            }
        }
    }
}

/// Stokes' law by hand at 20 °C: 2650 and 998.2 kg/m³, 1.0016 mPa·s (IAPWS SR6-08(2011)), g 9.80665 m/s²:
/// (2650 − 998.2) · 9.80665 · d² / (18 · 0.0010016).
fn seconds(depth_m: f64, diameter_mm: f64) -> f64 {
    let d = diameter_mm / 1000.0;
    depth_m / ((2650.0 - 998.2) * 9.80665 * d * d / (18.0 * 0.001_001_6))
}

#[test]
fn a_jar_is_marked_when_the_grains_are_down() {
    let site = Site::new();
    for (system, sand) in [("USDA", 0.05), ("ISO", 0.063), ("astm", 0.075)] {
        let report = json(
            &site,
            0,
            &["settle", "--depth", "150mm", "--system", system],
        );
        assert_eq!(report["format"], "hodful-settle");
        for (key, diameter) in [("mark_sand_after_s", sand), ("mark_silt_after_s", 0.002)] {
            let off = number(&report[key]) / seconds(0.15, diameter) - 1.0;
            assert!(off.abs() < 1e-3, "{system} {key}: {off}");
        }
        // What a mark parts is what takes just so long.
        let marks = report["marks"].as_array().unwrap();
        let after: Vec<f64> = marks.iter().map(|mark| number(&mark["after_s"])).collect();
        assert_eq!(after, [60.0, 7200.0, 21_600.0, 86_400.0]);
        for mark in marks {
            let back = seconds(0.15, number(&mark["parts_mm"]));
            assert!((back / number(&mark["after_s"]) - 1.0).abs() < 2e-3);
        }
    }
    let csv = site.run(&[
        "settle",
        "--depth",
        "6in",
        "--temperature",
        "68F",
        "--format",
        "csv",
    ]);
    assert_eq!(csv.code, Some(0), "{}", csv.words);
    assert!(
        csv.figures
            .starts_with("depth_m,temperature_celsius,system,mark,after_s,parts_mm\r\n")
    );
    assert_eq!(csv.figures.lines().count(), 7);
}

#[test]
fn a_mark_too_soon_for_the_law_says_so() {
    // Water 2 m deep: what sinks through it in a minute is over the 0.1 mm that the law holds for.
    let said = Site::new().run(&["settle", "--depth", "2m"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(
        said.figures.contains("too soon: sand is still sinking"),
        "{}",
        said.figures
    );
}

#[test]
fn a_jar_that_cannot_be_is_told_and_ends_with_2() {
    let site = Site::new();
    for (arguments, answer) in [
        (&["settle"][..], "--depth"),
        (&["settle", "--depth", "15"], "'15' has no unit"),
        (&["settle", "--depth", "0mm"], "measure from the surface"),
        (&["settle", "--depth", "-3mm"], "measure from the surface"),
        (&["settle", "--depth", "3kg"], "'3kg' is a mass"),
        (
            &["settle", "--depth", "15cm", "--temperature", "60C"],
            "outside 0 to 40",
        ),
        (
            &["settle", "--depth", "15cm", "--temperature", "-2C"],
            "outside 0 to 40",
        ),
        (
            &["settle", "--depth", "15cm", "--system", "BSI"],
            "USDA, ISO, ASTM",
        ),
    ] {
        let said = site.run(arguments);
        assert_eq!(said.code, Some(2), "{arguments:?}: {}", said.words);
        assert!(said.words.contains(answer), "{arguments:?}: {}", said.words);
        assert!(said.figures.is_empty(), "{arguments:?}");
    }
}

/// A screen of 2 mm holds all gravel, which begins at 2 mm (USDA): of 80 parts that pass, 40 are clay.
#[test]
fn what_goes_into_mixes_past_the_screen_is_told_where_it_differs() {
    let report = json(&yard(), 0, &["soils", "yard.hodful.json"]);
    assert!(report["soils"][0]["past_screen"].is_null(), "no screen");
    let site = changed(|p| {
        let clay = &mut p["materials"]["pond clay"];
        clay["soil"]["shares"] = serde_json::json!(
            { "gravel": "20 %", "sand": "12 %", "silt": "28 %", "clay": "40 %" }
        );
        clay["screen_test"] = serde_json::json!({ "mesh": "2 mm", "raw": "40 L", "held": "8 L" });
    });
    let report = json(&site, 0, &["soils", "yard.hodful.json"]);
    let past = &report["soils"][0]["past_screen"];
    for (part, share) in [
        ("gravel", 0.0),
        ("sand", 0.15),
        ("silt", 0.35),
        ("clay", 0.5),
    ] {
        assert!((number(&past[part]) - share).abs() < 1e-9, "{part}: {past}");
    }
    let said = site.run(&["soils", "yard.hodful.json"]);
    let flat: Vec<&str> = said.figures.split_whitespace().collect();
    let flat = flat.join(" ");
    let line = "Past the screen, as it goes into mixes: gravel 0.0 %, sand 15.0 %, silt 35.0 %, clay 50.0 %.";
    assert!(flat.contains(line), "{flat}");
}

#[test]
fn a_blend_that_is_had_keeps_what_is_asked() {
    let site = yard();
    let report = json(
        &site,
        0,
        &["blend", "yard.hodful.json", "body from the pond"],
    );
    assert_eq!(report["format"], "hodful-blend");
    let [blend] = report["blends"].as_array().unwrap().as_slice() else {
        panic!("{report}")
    };
    assert_eq!(blend["possible"], true);
    assert!(blend["impossible"].is_null());
    let parts: Vec<f64> = blend["materials"]
        .as_array()
        .unwrap()
        .iter()
        .map(|of| number(&of["parts"]))
        .collect();
    let [sand, clay] = parts.as_slice() else {
        panic!("{parts:?}")
    };
    let ratio = sand / clay;
    assert!((2.0..=4.0).contains(&ratio), "{ratio}");
    // Dry mass by hand: sand of 1500 without clay, pond clay of 1150 kg/m³ with 48 %.
    let by_hand = clay * 1150.0 * 0.48 / (sand * 1500.0 + clay * 1150.0);
    assert!((0.10..=0.14).contains(&by_hand), "{by_hand}");
    let figures = blend["figures"].as_array().unwrap();
    let found = figures
        .iter()
        .find(|f| f["figure"] == "clay, by mass")
        .unwrap();
    assert!((number(&found["value"]) - by_hand).abs() < 1e-9);
    assert!((number(&found["margin"]) - (by_hand - 0.10).min(0.14 - by_hand)).abs() < 1e-9);

    let csv = site.run(&[
        "blend",
        "yard.hodful.json",
        "body from the pond",
        "--format",
        "csv",
    ]);
    assert!(
        csv.figures
            .starts_with("blend,possible,row,name,value,least,most,margin\r\n")
    );
    assert!(
        csv.figures
            .contains("body from the pond,true,part,sharp sand,")
    );
}

#[test]
fn a_blend_that_is_not_to_be_had_ends_with_1_and_says_why() {
    let site = yard();
    let said = site.run(&["blend", "yard.hodful.json", "too rich"]);
    assert_eq!(said.code, Some(1));
    for words in [
        "cannot be had as it is asked",
        "The nearest that can be had",
        "It misses the least of clay",
    ] {
        assert!(said.figures.contains(words), "{words}: {}", said.figures);
    }
    let report = json(&site, 1, &["blend", "yard.hodful.json", "too rich"]);
    let why = &report["blends"][0]["impossible"];
    assert_eq!(report["blends"][0]["possible"], false);
    let conflict = why["conflict"].as_array().unwrap();
    assert_eq!(conflict.len(), 2, "{conflict:?}");
    // Half sand at least: 1150 · 0.48 of 1500 + 1150 kg is all the clay there can be, whatever else is asked:
    // the reach of each figure by itself goes up to pure pond clay.
    let reach = &why["reach"][0];
    assert!((number(&reach["most"]) - 0.48).abs() < 1e-9, "{reach}");
    let nearest = 1150.0 * 0.48 / 2650.0;
    let misses = &why["misses"][0];
    assert!(
        (number(&misses["by"]) - (0.40 - nearest)).abs() < 1e-3,
        "{misses}"
    );

    let said = site.run(&["blend", "yard.hodful.json", "not tested"]);
    assert_eq!(said.code, Some(1));
    assert!(
        said.figures.contains("cannot be computed"),
        "{}",
        said.figures
    );
    assert!(
        said.figures.contains("milled clay: silt"),
        "{}",
        said.figures
    );
    // All of them: two are not to be had.
    let report = json(&site, 1, &["blend", "yard.hodful.json"]);
    assert_eq!(report["blends"].as_array().unwrap().len(), 3);
    assert!(report["blends"][2]["fault"].is_string());
}

#[test]
fn an_unknown_blend_is_answered_with_those_there_are() {
    let site = yard();
    let said = site.run(&["blend", "yard.hodful.json", "top"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words
            .contains("there is no blend 'top'; there is body from the pond, too rich, not tested"),
        "{}",
        said.words
    );
    let none = changed(|p| p["blends"] = serde_json::json!({}));
    let said = none.run(&["blend", "yard.hodful.json"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words.contains("there is no blend in the project"),
        "{}",
        said.words
    );
}
