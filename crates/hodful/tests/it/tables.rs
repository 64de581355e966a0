//! Tables and trees: width, units, and that the figures are the ones of the JSON.

use crate::run::{Site, demos};

const WIDTH: usize = 80;

#[test]
fn every_output_fits_eighty_columns() {
    for demo in demos() {
        let site = Site::with_demo(&demo);
        for units in ["us", "metric"] {
            for command in ["measure", "order"] {
                let said = site.run(&[command, "demo.hodful.json", "--units", units]);
                let wide = said.figures.lines().chain(said.words.lines());
                for line in wide {
                    assert!(
                        line.chars().count() <= WIDTH,
                        "{demo} {command} {units}: {line}"
                    );
                }
            }
        }
        let said = site.run(&["check", "demo.hodful.json"]);
        assert!(
            said.figures
                .lines()
                .all(|line| line.chars().count() <= WIDTH),
            "{demo}"
        );
    }
}

#[test]
fn help_fits_eighty_columns_and_has_an_example() {
    let site = Site::new();
    for command in [
        "", "new", "measure", "order", "card", "soils", "settle", "blend", "compare", "sweep",
        "chances", "forecast", "export", "explain", "check", "cautions",
    ] {
        let arguments: Vec<&str> = [command, "--help"]
            .into_iter()
            .filter(|a| !a.is_empty())
            .collect();
        let said = site.run(&arguments);
        assert_eq!(said.code, Some(0));
        for line in said.figures.lines() {
            assert!(line.chars().count() <= WIDTH, "{command}: {line}");
        }
        assert!(command.is_empty() || said.figures.contains(&format!("hodful {command}")));
    }
}

#[test]
fn the_surface_in_the_table_is_the_one_in_the_json() {
    let site = Site::with_demo("ferry-loft");
    let table = site
        .run(&["measure", "demo.hodful.json", "--units", "metric"])
        .figures;
    let report = site
        .run(&["measure", "demo.hodful.json", "--format", "json"])
        .figures;
    let report: serde_json::Value = serde_json::from_str(&report).unwrap();
    for face in report["faces"].as_array().unwrap() {
        let name = format!(
            "{} {}",
            face["wall"].as_str().unwrap(),
            face["face"].as_str().unwrap()
        );
        let line = table.lines().find(|line| line.starts_with(&name)).unwrap();
        let surface = format!("{:.2}", face["true_surface_m2"].as_f64().unwrap());
        assert!(
            line.split_whitespace().any(|cell| cell == surface),
            "{line}: {surface}"
        );
    }
}

#[test]
fn an_order_says_what_to_take_care_of() {
    for demo in demos() {
        let order = Site::with_demo(&demo)
            .run(&["order", "demo.hodful.json"])
            .figures;
        for word in ["TAKE CARE", "Dust", "Lifting", "Local codes"] {
            assert!(order.contains(word), "{demo}: {word}");
        }
    }
    let whole = Site::new().run(&["cautions"]).figures;
    for word in [
        "DUST",
        "MIXER",
        "LIFTING",
        "SCAFFOLD",
        "LIME",
        "WET STRAW",
        "FROST",
        "1926.1153",
    ] {
        assert!(whole.contains(word), "{word}");
    }
}

#[test]
fn an_explanation_goes_down_to_what_was_typed_and_names_its_sources() {
    let site = Site::with_demo("thistlebank-workshop");
    let tree = site
        .run(&["explain", "demo.hodful.json", "order.sand"])
        .figures;
    for word in ["typed ", "Steiner", "yield of mix", "÷ (1 −", "dubbing out"] {
        assert!(tree.contains(word), "{word} is not in\n{tree}");
    }
}
