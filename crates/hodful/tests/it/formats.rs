//! JSON and CSV: the keys that are promised, and that both carry the same figures.

use crate::run::{Site, demos};
use serde_json::Value;

fn json(site: &Site, arguments: &[&str]) -> Value {
    let said = site.run(&[arguments, &["--format", "json"]].concat());
    assert_eq!(said.code, Some(0), "{}", said.words);
    serde_json::from_str(&said.figures).unwrap()
}

fn keys(value: &Value) -> Vec<&str> {
    value
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect()
}

#[test]
fn measure_has_the_keys_that_are_promised() {
    let site = Site::with_demo("thistlebank-workshop");
    let report = json(&site, &["measure", "demo.hodful.json"]);
    assert_eq!(report["format"], "hodful-measure");
    assert_eq!(report["version"], 1);
    let surfaces = [
        "outline_m2",
        "openings_m2",
        "field_m2",
        "reveals_m2",
        "edges_m2",
        "true_surface_m2",
        "measured_m2",
        "edge_length_m",
        "lath_m2",
    ];
    for face in report["faces"].as_array().unwrap() {
        for key in ["wall", "face", "count"].iter().chain(&surfaces) {
            assert!(keys(face).contains(key), "{key}");
        }
        let f = |key: &str| face[key].as_f64().unwrap();
        let sum = f("field_m2") + f("reveals_m2") + f("edges_m2");
        assert!((sum - f("true_surface_m2")).abs() < 1e-12);
    }
    for key in surfaces {
        let sum: f64 = report["faces"]
            .as_array()
            .unwrap()
            .iter()
            .map(|face| face[key].as_f64().unwrap() * face["count"].as_f64().unwrap())
            .sum();
        let total = report["totals"][key].as_f64().unwrap();
        assert!((sum - total).abs() < 1e-9, "{key}: {sum} and {total}");
    }
}

#[test]
fn order_has_the_keys_that_are_promised() {
    let site = Site::with_demo("thistlebank-workshop");
    let report = json(&site, &["order", "demo.hodful.json"]);
    assert_eq!(report["format"], "hodful-order");
    for coat in report["coats"].as_array().unwrap() {
        for key in [
            "build_up",
            "coat",
            "mix",
            "area_m2",
            "placed_m3",
            "wet_m3",
            "mixed_m3",
            "batches",
        ] {
            assert!(keys(coat).contains(&key), "{key}");
        }
    }
    let materials = report["materials"].as_array().unwrap();
    for material in materials {
        for key in [
            "material", "loose_m3", "mass_kg", "stock_kg", "order", "spare_kg",
        ] {
            assert!(keys(material).contains(&key), "{key}");
        }
        for package in material["order"].as_array().unwrap() {
            for key in ["package", "count", "price"] {
                assert!(keys(package).contains(&key), "{key}");
            }
        }
    }
    let price: f64 = materials
        .iter()
        .flat_map(|m| m["order"].as_array().unwrap())
        .filter_map(|p| p["price"].as_f64())
        .sum();
    assert!((price - report["price"].as_f64().unwrap()).abs() < 1e-9);
    for warning in report["warnings"].as_array().unwrap() {
        for key in ["place", "message", "source"] {
            assert!(keys(warning).contains(&key), "{key}");
        }
    }
}

#[test]
fn csv_has_the_figures_of_json() {
    for demo in demos() {
        let site = Site::with_demo(&demo);
        let report = json(&site, &["measure", "demo.hodful.json"]);
        let said = site.run(&["measure", "demo.hodful.json", "--format", "csv"]);
        assert!(said.figures.contains("\r\n"), "RFC 4180 ends lines so");
        let mut lines = said.figures.lines();
        let head: Vec<&str> = lines.next().unwrap().split(',').collect();
        let at = head
            .iter()
            .position(|key| *key == "true_surface_m2")
            .unwrap();
        let faces = report["faces"].as_array().unwrap();
        let cells: Vec<f64> = lines
            .map(|line| line.split(',').nth(at).unwrap().parse().unwrap())
            .collect();
        assert_eq!(cells.len(), faces.len() + 1);
        for (cell, face) in cells.iter().zip(faces) {
            assert_eq!(*cell, face["true_surface_m2"].as_f64().unwrap());
        }
        assert_eq!(
            *cells.last().unwrap(),
            report["totals"]["true_surface_m2"].as_f64().unwrap()
        );
    }
}

#[test]
fn no_text_becomes_a_formula_of_a_spreadsheet() {
    let site = Site::with_demo("saltcedar-room");
    let text = site
        .read("demo.hodful.json")
        .replace("plaster sand", "=1+1");
    site.write("demo.hodful.json", &text);
    let said = site.run(&["order", "demo.hodful.json", "--format", "csv"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(said.figures.contains("\r\n'=1+1,"), "{}", said.figures);
}

#[test]
fn an_explanation_leaves_as_a_tree_and_as_lines() {
    let site = Site::with_demo("saltcedar-room");
    let report = json(&site, &["explain", "demo.hodful.json", "order.cost"]);
    let figure = &report["figure"];
    let order = json(&site, &["order", "demo.hodful.json"]);
    assert_eq!(figure["value"], order["price"]);
    assert!(!figure["terms"].as_array().unwrap().is_empty());
    let said = site.run(&[
        "explain",
        "demo.hodful.json",
        "order.cost",
        "--format",
        "csv",
    ]);
    assert!(
        said.figures
            .starts_with("level,label,value,unit,formula,typed,place,source\r\n")
    );
    let flat = json(
        &site,
        &["explain", "demo.hodful.json", "order.cost", "--depth", "0"],
    );
    assert!(flat["figure"].get("terms").is_none());
}

#[test]
fn check_leaves_as_json_and_csv() {
    let site = Site::with_demo("quillmere-school");
    let report = json(&site, &["check", "demo.hodful.json"]);
    assert_eq!(report["format"], "hodful-check");
    let problems = report["problems"].as_array().unwrap();
    assert!(!problems.is_empty());
    assert!(problems.iter().all(|p| p["severity"] == "doubtful"));
    let said = site.run(&["check", "demo.hodful.json", "--format", "csv"]);
    assert!(
        said.figures
            .starts_with("severity,place,message,source\r\n")
    );
}

#[test]
fn an_order_of_a_job_that_has_begun_says_what_it_does_not_count() {
    let whole_job = "This order is for the whole job, and of what is there it counts the yard at the start alone.";
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let site = Site::with_demo("marlpit-barn");
    let order = ["order", "demo.hodful.json"];
    let said = site.run(&order);
    assert!(flat(&said.figures).contains(whole_job), "{}", said.figures);
    let report = json(&site, &order);
    assert!(
        report["beside_records"]
            .as_str()
            .unwrap()
            .starts_with(whole_job)
    );
    let csv = site.run(&[&order[..], &["--format", "csv"]].concat());
    assert!(flat(&csv.words).contains(whole_job), "{}", csv.words);
    let paper = site.run(&["export", "demo.hodful.json", "--to", "order.md"]);
    assert_eq!(paper.code, Some(0), "{}", paper.words);
    assert!(flat(&site.read("order.md")).contains(whole_job));
    // Before any record there is nothing to say.
    let site = Site::with_demo("thistlebank-workshop");
    assert!(!site.run(&order).figures.contains("whole job"));
    assert!(json(&site, &order).get("beside_records").is_none());
}
