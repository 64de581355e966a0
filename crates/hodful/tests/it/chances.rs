//! `hodful chances`: that the formats agree, that the same seed gives the same, and what is refused.

use crate::golden::{changed, yard};
use crate::run::{Said, Site, demos};
use serde_json::{Value, json};

/// What is said, its words with single blanks between.
fn words(said: &Said) -> String {
    let words: Vec<&str> = said.words.split_whitespace().collect();
    words.join(" ")
}

fn chances(site: &Site, file: &str, more: &[&str]) -> Said {
    let said = site.run(&[&["chances", file], more].concat());
    assert_eq!(said.code, Some(0), "{}", said.words);
    said
}

fn report(site: &Site, file: &str, more: &[&str]) -> Value {
    let said = chances(site, file, &[more, &["--format", "json"]].concat());
    serde_json::from_str(&said.figures).unwrap()
}

/// A number of a row, its key with its unit behind it.
fn number(row: &Value, word: &str) -> f64 {
    let keys = ["", "_m3", "_kg"].map(|unit| format!("{word}{unit}"));
    let found = keys.iter().find_map(|key| row[key].as_f64());
    found.unwrap_or_else(|| panic!("{word} in {row}"))
}

#[test]
fn what_is_worked_out_is_the_order() {
    for demo in demos() {
        let site = Site::with_demo(&demo);
        let of = report(&site, "demo.hodful.json", &["--draws", "300"]);
        let order = site.run(&["order", "demo.hodful.json", "--format", "json"]);
        let order: Value = serde_json::from_str(&order.figures).unwrap();
        assert_eq!(of["format"], "hodful-chances");
        assert_eq!((&of["draws"], &of["seed"]), (&json!(300), &json!(1)));
        let figures = of["figures"].as_array().unwrap();
        let figure = |word: &str| figures.iter().find(|row| row["figure"] == word);
        assert_eq!(figure("cost").unwrap()["worked_out"], order["price"]);
        for row in figures {
            let told = ["lowest", "p10", "p50", "p80", "p90", "highest"];
            let told = told.map(|word| number(row, word));
            assert!(told.is_sorted(), "{demo}: {row}");
            let causes = row["causes"].as_array().unwrap();
            assert_eq!(causes.len(), of["inputs"].as_array().unwrap().len());
        }
        for row in of["orders"].as_array().unwrap() {
            let materials = order["materials"].as_array().unwrap();
            let same = materials
                .iter()
                .find(|one| one["material"] == row["material"]);
            assert!(same.is_some(), "{demo}: {row}");
            let short = row["short_share"].as_f64();
            assert!(short.is_none_or(|share| (0.0..=1.0).contains(&share)));
            assert_eq!(row["enough_short_share"], 0.1);
        }
    }
}

#[test]
fn csv_has_the_figures_of_json_a_row_each() {
    let site = Site::with_demo("thistlebank-workshop");
    let of = report(&site, "demo.hodful.json", &["--draws", "400"]);
    let more = ["--draws", "400", "--format", "csv"];
    let csv = chances(&site, "demo.hodful.json", &more).figures;
    let mut lines = csv.split_terminator("\r\n");
    let head: Vec<&str> = lines.next().unwrap().split(',').collect();
    let figures = of["figures"].as_array().unwrap();
    assert_eq!(lines.clone().count(), figures.len());
    for (line, row) in lines.zip(figures) {
        for (word, cell) in head.iter().zip(line.split(',')) {
            let Ok(value) = cell.parse::<f64>() else {
                continue;
            };
            assert_eq!(value, number(row, word), "{word}: {line}");
        }
        assert_eq!(row["figure"], line.split(',').next().unwrap());
    }
}

#[test]
fn the_same_seed_gives_the_same_and_another_other() {
    let site = yard();
    let with = |seed: &str| {
        let more = ["--draws", "500", "--seed", seed, "--format", "json"];
        chances(&site, "yard.hodful.json", &more).figures
    };
    assert_eq!(with("7"), with("7"));
    assert_ne!(with("7"), with("8"));
    let plain = chances(&site, "yard.hodful.json", &[]).figures;
    let said = ["--draws", "10000", "--seed", "1"];
    assert_eq!(plain, chances(&site, "yard.hodful.json", &said).figures);
    let text = site.read("yard.hodful.json");
    let piped = site.run_with_input(&["chances", "-"], &text);
    assert_eq!(piped.figures, plain);
}

#[test]
fn what_is_asked_for_is_as_it_is_among_all() {
    let site = Site::with_demo("thistlebank-workshop");
    let all = report(&site, "demo.hodful.json", &["--draws", "300"]);
    let names = |of: &Value| -> Vec<String> {
        let rows = of["figures"].as_array().unwrap().iter();
        rows.map(|row| {
            let word = |key: &str| row[key].as_str().unwrap_or_default().to_owned();
            let words = ["figure", "build_up", "coat", "material"].map(word);
            words.join(" ").trim().to_owned()
        })
        .collect()
    };
    for (only, which) in [
        ("cost", "cost"),
        ("batches", "batches"),
        ("yard sand", "yard sand"),
        ("fill", " fill"),
        ("mixed", "mixed"),
        ("placed", "placed"),
    ] {
        let some = report(
            &site,
            "demo.hodful.json",
            &["--draws", "300", "--only", only],
        );
        let expected = names(&all);
        let expected = expected.iter().filter(|name| name.contains(which));
        assert_eq!(names(&some), expected.cloned().collect::<Vec<_>>());
        for row in some["figures"].as_array().unwrap() {
            assert!(all["figures"].as_array().unwrap().contains(row), "{row}");
        }
        let orders = some["orders"].as_array().unwrap();
        assert_eq!(orders.len(), usize::from(only == "yard sand"), "{only}");
        assert!(
            orders
                .iter()
                .all(|row| all["orders"].as_array().unwrap().contains(row))
        );
    }
}

/// The order that is enough so often falls short no more often, and the plain one as often as it is told to.
#[test]
fn a_given_order_and_a_given_chance() {
    let site = Site::with_demo("thistlebank-workshop");
    let plain = report(&site, "demo.hodful.json", &["--draws", "2000"]);
    let row = |of: &Value| {
        let orders = of["orders"].as_array().unwrap().iter();
        let mut own = orders.filter(|row| row["material"] == "yard sand");
        own.next().unwrap().clone()
    };
    let order = |of: &Value| {
        let packages = of.as_array().unwrap().iter();
        let each = packages.map(|of| {
            format!(
                "yard sand={} {}",
                of["count"],
                of["package"].as_str().unwrap()
            )
        });
        each.collect::<Vec<String>>()
    };
    let with = |orders: &[String], more: &[&str]| {
        let mut all = vec!["--draws", "2000"];
        all.extend(orders.iter().flat_map(|of| ["--order", of.as_str()]));
        all.extend(more);
        report(&site, "demo.hodful.json", &all)
    };
    let as_worked_out = with(&order(&row(&plain)["order"]), &[]);
    assert_eq!(
        as_worked_out["asked"][0]["short_share"],
        row(&plain)["short_share"]
    );
    let mut last = 1.0;
    for (text, short) in [("1/2", 0.5), ("10%", 0.1), ("5 %", 0.05), ("0.01", 0.01)] {
        let of = with(&[], &["--short", text]);
        assert_eq!(row(&of)["enough_short_share"], short);
        let of = with(&order(&row(&of)["enough_order"]), &[]);
        let share = of["asked"][0]["short_share"].as_f64().unwrap();
        assert!(share <= short && share <= last, "{text}: {share}");
        last = share;
    }
    let more = [
        "--order",
        "yard sand=4 tipped load",
        "--short",
        "5%",
        "--only",
        "cost",
    ];
    let said = chances(&site, "demo.hodful.json", &more).figures;
    let said: Vec<&str> = said.split_whitespace().collect();
    let said = said.join(" ");
    for words in [
        "4 tipped load of yard sand (",
        "): short ",
        "enough 95 times in 100",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
}

#[test]
fn what_cannot_be_is_told_in_words() {
    let site = yard();
    for (arguments, answer) in [
        (
            &["--draws", "0"][..],
            "no draw is asked for; give 1 or more",
        ),
        (&["--draws", "1000001"], "a million is the most"),
        (&["--draws", "-5"], "give a whole number, not below 0"),
        (&["--draws", "many"], "give a whole number, not below 0"),
        (&["--seed", "-1"], "give a whole number, not below 0"),
        (&["--only", "batchs"], "did you mean 'batches'?"),
        (&["--only", "zzzz"], "there is batches, cost, mixed, placed"),
        (&["--only", "water"], "nothing is drawn of 'water'"),
        (&["--order", "sand"], "give a material, = and an amount"),
        (&["--order", "sand=many"], "is not an amount"),
        (
            &["--order", "sharp sannd=1 m3"],
            "there is no material 'sharp sannd'; did you mean",
        ),
        (
            &["--order", "sharp sand=3 lorries"],
            "the order of 'sharp sand': there is no package 'lorries'",
        ),
        (&["--order", "water=3 m3"], "nothing is drawn of 'water'"),
        (&["--short", "0 %"], "give a share from 0.01 % to 99 %"),
        (&["--short", "5"], "can be read as 5 % or as 500 %"),
    ] {
        let said = site.run(&[&["chances", "yard.hodful.json"], arguments].concat());
        assert_eq!(said.code, Some(2), "{arguments:?}: {}", said.words);
        assert!(said.figures.is_empty());
        assert!(
            words(&said).contains(answer),
            "{arguments:?}: {}",
            said.words
        );
    }
    let bare = changed(|project| project["walls"] = json!([]));
    let said = bare.run(&["chances", "yard.hodful.json"]);
    assert_eq!(said.code, Some(2), "{}", said.words);
    assert!(words(&said).contains("nothing to draw"), "{}", said.words);
    let broken = changed(|project| project["walls"][0]["thickness"] = json!("0 mm"));
    let said = broken.run(&["chances", "yard.hodful.json"]);
    assert_eq!(said.code, Some(1), "{}", said.words);
    assert!(said.figures.is_empty());
    assert_eq!(site.run(&["chances", "nowhere.hodful.json"]).code, Some(2));
}

#[test]
fn what_the_project_says_stands_before_a_default_and_is_named() {
    let site = changed(|project| {
        project["uncertain"] = json!([
            { "of": "loss", "lowest": "5 %", "likely": "8 %", "highest": "15 %", "source": "our last three houses" },
            { "of": "loss", "name": "body", "spread": "1 %" }
        ]);
    });
    let of = report(&site, "yard.hodful.json", &["--draws", "200"]);
    let inputs = of["inputs"].as_array().unwrap();
    let input = |word: &str| inputs.iter().find(|row| row["input"] == word);
    let every = input("loss of every coat").unwrap();
    assert_eq!(every["is_default"], false);
    assert_eq!(every["source"], "our last three houses");
    assert_eq!(
        input("loss of body").unwrap()["source"],
        "typed by you, no source given"
    );
    assert_eq!(
        input("thickness of every coat from wall to wall").unwrap()["from_wall_to_wall"],
        true
    );
    let table = chances(&site, "yard.hodful.json", &["--draws", "200"]).figures;
    assert!(table.contains("Source: our last three houses"), "{table}");
    assert!(table.contains("Source: a default of ours"), "{table}");
}

#[test]
fn every_table_fits_eighty_columns() {
    for demo in demos() {
        let site = Site::with_demo(&demo);
        for units in ["us", "metric"] {
            let more = ["--draws", "300", "--units", units];
            let said = chances(&site, "demo.hodful.json", &more);
            for line in said.figures.lines() {
                assert!(line.chars().count() <= 80, "{demo}: {line}");
                assert_eq!(line, line.trim_end(), "{demo}");
            }
        }
    }
}

#[test]
fn the_document_is_written_in_every_ending() {
    let site = Site::with_demo("thistlebank-workshop");
    let export = |to: &str, more: &[&str]| {
        let said = site.run(&[&["export", "demo.hodful.json", "--to", to], more].concat());
        assert_eq!(said.code, Some(0), "{to}: {}", said.words);
        said
    };
    let what = ["--what", "chances"];
    for ending in ["md", "html", "pdf", "csv", "xlsx", "json"] {
        export(&format!("sure.{ending}"), &what);
    }
    let text = site.read("sure.md");
    assert!(text.starts_with("# How sure"), "{text}");
    assert!(text.contains("demo.hodful.json"), "the foot names the file");
    assert!(text.contains("Lifting"), "the cautions stand in it");
    // Paper has the words of the command line.
    let table = chances(&site, "demo.hodful.json", &[]).figures;
    for word in [
        "times in 100",
        "4 × tipped load",
        "all else",
        "10,000 times",
    ] {
        assert!(text.contains(word) && table.contains(word), "{word}");
    }
    let printed = chances(&site, "demo.hodful.json", &["--format", "json"]);
    assert_eq!(site.read("sure.json"), printed.figures);
    let drawn = export("sure.svg", &what);
    assert!(drawn.words.matches("wrote").count() > 4, "{}", drawn.words);
    assert!(site.path("sure-cost-how-often-it-is-how-much.svg").exists());
    // Where the project says how far something is off, it goes with all the others; else it does not.
    export("all.md", &[]);
    assert!(site.read("all.md").contains("# How sure"));
    export("all.json", &[]);
    let all: Value = serde_json::from_str(&site.read("all.json")).unwrap();
    assert_eq!(all["chances"]["format"], "hodful-chances");
    let other = Site::with_demo("ferry-loft");
    let said = other.run(&["export", "demo.hodful.json", "--to", "all.md"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(!other.read("all.md").contains("# How sure"));
}
