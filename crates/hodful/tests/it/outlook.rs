//! `hodful compare`, `sweep` and `forecast`: what adds up, what is refused, and that the formats agree.

use crate::golden::{YARD, changed, demo_and_later, yard};
use crate::run::{Said, Site, demos};
use serde_json::Value;

fn json(site: &Site, arguments: &[&str]) -> Value {
    let said = site.run(&[arguments, &["--format", "json"]].concat());
    assert_eq!(said.code, Some(0), "{}", said.words);
    serde_json::from_str(&said.figures).unwrap()
}

/// What is said, its words with single blanks between.
fn words(said: &Said) -> String {
    let words: Vec<&str> = said.words.split_whitespace().collect();
    words.join(" ")
}

/// A number of a row whose key begins so and has a unit behind it or not.
fn number(row: &Value, word: &str) -> Option<f64> {
    let row = row.as_object().unwrap();
    let mut found = row.iter().filter(|(key, _)| {
        [
            word,
            &format!("{word}_m2"),
            &format!("{word}_m3"),
            &format!("{word}_kg"),
        ]
        .contains(&key.as_str())
    });
    let (_, value) = found.next().unwrap_or_else(|| panic!("{word} in {row:?}"));
    value.as_f64()
}

/// An option that fits, one that no longer does, one that is refused.
fn with_options() -> Site {
    let project: Value = serde_json::from_str(YARD).unwrap();
    let (build_up, coats) = project["build_ups"]
        .as_object()
        .unwrap()
        .iter()
        .next()
        .unwrap();
    let (build_up, coat) = (
        build_up.clone(),
        coats[0]["coat"].as_str().unwrap().to_owned(),
    );
    changed(|project| {
        let set = |to: &str| {
            serde_json::json!({ "kind": "set", "at": { "coat": coat, "build_up": build_up },
                "field": "thickness", "to": to })
        };
        project["options"] = serde_json::json!({
            "thicker": { "changes": [set("40 mm")] },
            "same": { "changes": [] },
            "gone": { "changes": [{ "kind": "leave out", "at": { "wall": "nowhere" } }] },
            "impossible": { "changes": [{ "kind": "set", "at": { "coat": coat }, "field": "loss",
                "to": "120 %" }] },
        });
    })
}

/// An option may be called as the project is called beside its options: then the option keeps the name, and the
/// project is still the base.
#[test]
fn an_option_of_the_name_of_the_project_is_not_taken_for_it() {
    let site = with_options();
    let text = std::fs::read_to_string(site.path("yard.hodful.json")).unwrap();
    let mut project: Value = serde_json::from_str(&text).unwrap();
    let thicker = project["options"]["thicker"].clone();
    project["options"] = serde_json::json!({ "as it stands": thicker });
    std::fs::write(site.path("yard.hodful.json"), project.to_string()).unwrap();
    let report = json(&site, &["compare", "yard.hodful.json"]);
    assert_eq!(report["base"], "the project as it stands");
    let figures = report["figures"].as_array().unwrap();
    let mixed = figures.iter().find(|row| row["figure"] == "all_mixed");
    let mixed = mixed.unwrap_or_else(|| panic!("{figures:#?}"))["of"].clone();
    assert_eq!(mixed[0]["name"], "the project as it stands");
    assert_eq!(mixed[1]["name"], "as it stands");
    let [plain, thicker] = [0, 1].map(|at| number(&mixed[at], "value").unwrap());
    assert!(thicker > plain, "{mixed}");
    let one = ["compare", "yard.hodful.json", "--base", "as it stands"];
    let turned = json(&site, &one);
    assert_eq!(turned["base"], "as it stands");
}

#[test]
fn causes_add_up_to_the_difference() {
    let site = Site::with_demo("thistlebank-workshop");
    let report = json(&site, &["compare", "demo.hodful.json"]);
    assert_eq!(report["format"], "hodful-comparison");
    assert_eq!(report["base"], "as it stands");
    let causes = report["causes"].as_array().unwrap();
    assert!(causes.len() > 6);
    for row in causes {
        let [from, to, difference] =
            ["from", "to", "difference"].map(|key| number(row, key).unwrap());
        let terms = row["terms"].as_array().unwrap();
        let sum: f64 = terms
            .iter()
            .map(|term| number(term, "amount").unwrap())
            .sum();
        let size = from.abs().max(to.abs()).max(1.0);
        assert!((sum - difference).abs() <= 1e-9 * size, "{row}");
        assert!((to - from - difference).abs() <= 1e-9 * size, "{row}");
    }
    // The base is the order of the project itself.
    let order = json(&site, &["order", "demo.hodful.json"]);
    let cost = report["figures"].as_array().unwrap();
    let cost = cost.iter().find(|row| row["figure"] == "cost").unwrap();
    assert_eq!(cost["of"][0]["value"], order["price"]);
}

#[test]
fn csv_of_a_comparison_has_the_figures_of_json() {
    let site = Site::with_demo("thistlebank-workshop");
    let report = json(&site, &["compare", "demo.hodful.json"]);
    let said = site.run(&["compare", "demo.hodful.json", "--format", "csv"]);
    let mut lines = said.figures.split_terminator("\r\n");
    assert_eq!(
        lines.next(),
        Some("figure,build_up,coat,material,name,unit,value,difference,share,packages")
    );
    let rows = report["figures"].as_array().unwrap().iter();
    let values: Vec<Option<f64>> = rows
        .flat_map(|row| row["of"].as_array().unwrap())
        .map(|of| number(of, "value"))
        .collect();
    // From the right, where no cell has a comma but that of the packages.
    let read: Vec<Option<f64>> = lines
        .map(|line| {
            let cut = line.strip_suffix('"').and_then(|line| line.rfind(",\""));
            let line = cut
                .and_then(|at| line.get(..at))
                .unwrap_or_else(|| line.rsplit_once(',').map_or(line, |(line, _)| line));
            line.rsplit(',').nth(2)?.parse().ok()
        })
        .collect();
    assert_eq!(read, values);
}

#[test]
fn options_that_do_not_fit_are_told_and_the_others_compared() {
    let site = with_options();
    let said = site.run(&["compare", "yard.hodful.json"]);
    assert_eq!(said.code, Some(1), "{}", said.words);
    let told = words(&said);
    for word in [
        "no figures for 'gone'",
        "no longer fits",
        "no figures for 'impossible'",
    ] {
        assert!(told.contains(word), "{word}: {told}");
    }
    assert!(said.figures.contains("thicker") && !said.figures.contains("impossible"));
    // As it stands and the same hold the same figures.
    assert!(
        said.figures
            .contains("Neither cost, batches nor a material differs.")
    );
    let only = site.run(&["compare", "yard.hodful.json", "--only", "thicker"]);
    assert_eq!(only.code, Some(0), "{}", only.words);
    let turned = json(
        &site,
        &[
            "compare",
            "yard.hodful.json",
            "--base",
            "thicker",
            "--only",
            "same",
        ],
    );
    let straight = json(
        &site,
        &[
            "compare",
            "yard.hodful.json",
            "--base",
            "same",
            "--only",
            "thicker",
        ],
    );
    let pick = |report: &Value| -> Vec<Option<f64>> {
        let rows = report["figures"].as_array().unwrap().iter();
        rows.map(|row| number(&row["of"][1], "difference"))
            .collect()
    };
    // Held the other way round, every difference changes its sign.
    for (a, b) in pick(&turned).into_iter().zip(pick(&straight)) {
        assert!(a.zip(b).is_none_or(|(a, b)| a == -b), "{a:?} {b:?}");
    }
    let said = site.run(&["compare", "yard.hodful.json", "--base", "impossible"]);
    assert_eq!(said.code, Some(1));
    assert!(said.figures.is_empty());
}

#[test]
fn wrong_names_are_answered_with_the_nearest() {
    let site = with_options();
    for (arguments, answer) in [
        (
            &["compare", "yard.hodful.json", "--base", "thiker"][..],
            "did you mean 'thicker'?",
        ),
        (
            &["compare", "yard.hodful.json", "--only", "zzzz"],
            "there is gone, impossible, same, thicker",
        ),
        (&["compare", "-", "-"], "standard input holds one project"),
        (&["sweep", "yard.hodful.json"], "say what the field is of"),
        (
            &["sweep", "yard.hodful.json", "--wall", "nowhere"],
            "there is no wall 'nowhere'",
        ),
        (
            &["sweep", "yard.hodful.json", "thicknes", "--coat", "body"],
            "did you mean 'thickness'?",
        ),
        (
            &["sweep", "yard.hodful.json", "--coat", "bodi"],
            "did you mean 'body'?",
        ),
        (
            &[
                "sweep",
                "yard.hodful.json",
                "--coat",
                "body",
                "--of",
                "batchs",
            ],
            "did you mean 'batches'?",
        ),
        (
            &[
                "sweep",
                "yard.hodful.json",
                "--coat",
                "body",
                "--to",
                "soon",
            ],
            "soon",
        ),
        (
            &[
                "sweep",
                "yard.hodful.json",
                "--coat",
                "body",
                "--svg",
                "x.png",
            ],
            "has to end in .svg",
        ),
    ] {
        let said = site.run(arguments);
        assert_eq!(said.code, Some(2), "{arguments:?}: {}", said.words);
        assert!(
            words(&said).contains(answer),
            "{arguments:?}: {}",
            said.words
        );
    }
    let none = yard().run(&["compare", "yard.hodful.json"]);
    assert_eq!(none.code, Some(2));
    assert!(
        none.words.contains("there is no option in the project"),
        "{}",
        none.words
    );
}

#[test]
fn two_projects_tell_which_walls_are_otherwise() {
    let site = demo_and_later("marlpit-barn");
    let report = json(&site, &["compare", "demo.hodful.json", "later.hodful.json"]);
    let project: Value = serde_json::from_str(&site.read("demo.hodful.json")).unwrap();
    let walls = project["walls"].as_array().unwrap();
    let changes = report["walls"].as_array().unwrap();
    assert_eq!(changes.len(), 2, "{changes:?}");
    assert_eq!(changes[0]["wall"], walls[0]["id"]);
    assert_eq!(changes[0]["change"], "changed");
    assert_eq!(changes[1]["wall"], walls.last().unwrap()["id"]);
    assert_eq!(changes[1]["change"], "taken out");
    // Twice as many walls of one kind have twice the surface.
    let [before, now] =
        ["surface_before_m2", "surface_m2"].map(|key| changes[0][key].as_f64().unwrap());
    assert!((now - 2.0 * before).abs() < 1e-9);
    site.write("broken.hodful.json", "{}");
    let said = site.run(&["compare", "demo.hodful.json", "broken.hodful.json"]);
    assert_eq!(said.code, Some(1));
    assert!(
        words(&said).contains("in 'broken.hodful.json'"),
        "{}",
        said.words
    );
    let text = site.read("demo.hodful.json");
    let piped = site.run_with_input(&["compare", "demo.hodful.json", "-"], &text);
    assert_eq!(piped.code, Some(0));
    assert!(
        piped.figures.contains("All walls are the same."),
        "{}",
        piped.figures
    );
}

#[test]
fn a_sweep_goes_through_the_order_as_it_stands() {
    let site = Site::with_demo("thistlebank-workshop");
    let sweep = [
        "sweep",
        "demo.hodful.json",
        "--coat",
        "fill",
        "--to",
        "2in",
        "--points",
        "33",
    ];
    let report = json(&site, &sweep);
    let order = json(&site, &["order", "demo.hodful.json"]);
    assert_eq!(report["format"], "hodful-sweep");
    assert_eq!(report["unit"], "m");
    let curves = report["curves"].as_array().unwrap();
    let cost = curves.iter().find(|row| row["figure"] == "cost").unwrap();
    assert_eq!(cost["present"], order["price"]);
    for curve in curves.iter().filter(|curve| curve["figure"] == "loose") {
        let of = order["materials"].as_array().unwrap();
        let of = of
            .iter()
            .find(|row| row["material"] == curve["material"])
            .unwrap();
        let (now, ordered) = (&curve["present_m3"], &of["loose_m3"]);
        let [now, ordered] = [now, ordered].map(|of| of.as_f64().unwrap());
        assert!((now - ordered).abs() <= 1e-12 * ordered, "{now} {ordered}");
    }
    // 2 in are 50.8 mm by definition; 33 values from nothing are a sixteenth of an inch apart.
    let values = report["values"].as_array().unwrap();
    assert_eq!(values.len(), 33);
    for (at, value) in (0_u8..).zip(values) {
        let expected = f64::from(at) * 0.0254 / 16.0;
        assert!((value.as_f64().unwrap() - expected).abs() < 1e-12);
    }
    // CSV has the same, a column a figure.
    let said = site.run(&[&sweep[..], &["--format", "csv"]].concat());
    let mut lines = said.figures.split_terminator("\r\n");
    let head: Vec<&str> = lines.next().unwrap().split(',').collect();
    assert_eq!(head[0], "thickness_m");
    let at = head.iter().position(|head| *head == "cost").unwrap();
    for (line, value) in lines.zip(cost["figures"].as_array().unwrap()) {
        let cell: Option<f64> = line.split(',').nth(at).unwrap().parse().ok();
        assert_eq!(cell, value.as_f64(), "{line}");
    }
}

#[test]
fn mixed_plaster_is_linear_in_thickness_on_plain_walls() {
    // The walls of the yard have neither openings nor edges: volume is surface times thickness.
    let site = yard();
    let report = json(
        &site,
        &[
            "sweep",
            "yard.hodful.json",
            "--coat",
            "body",
            "--of",
            "mixed",
            "--from",
            "8 mm",
            "--to",
            "40 mm",
            "--points",
            "5",
        ],
    );
    let curves = report["curves"][0]["figures_m3"].as_array().unwrap();
    let values: Vec<f64> = curves.iter().map(|value| value.as_f64().unwrap()).collect();
    for three in values.windows(3) {
        let [a, b, c] = [three[0], three[1], three[2]];
        assert!(b > a && (a + c - 2.0 * b).abs() < 1e-9, "{values:?}");
    }
}

#[test]
fn drawings_of_a_sweep_are_written_once() {
    let site = yard();
    let sweep = [
        "sweep",
        "yard.hodful.json",
        "--coat",
        "body",
        "--svg",
        "curve.svg",
        "--of",
    ];
    let said = site.run(&[&sweep[..], &["batches"]].concat());
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(
        site.read("curve.svg").starts_with("<?xml") || site.read("curve.svg").starts_with("<svg")
    );
    let again = site.run(&[&sweep[..], &["batches"]].concat());
    assert_eq!(again.code, Some(2));
    assert!(words(&again).contains("is left alone"), "{}", again.words);
    let forced = site.run(&[&sweep[..], &["batches", "--of", "mixed", "--force"]].concat());
    assert_eq!(forced.code, Some(0), "{}", forced.words);
    assert!(
        site.path("curve-batches-over-thickness-of-coat-body.svg")
            .exists()
            || forced.words.matches("wrote").count() == 2,
        "{}",
        forced.words
    );
}

#[test]
fn without_records_the_rest_is_the_whole_and_begins_from_what_the_chances_have() {
    for demo in demos() {
        let site = Site::with_demo(&demo);
        let project: Value = serde_json::from_str(&site.read("demo.hodful.json")).unwrap();
        if project["done"].is_array() || project["delivered"].is_array() {
            continue;
        }
        let report = json(&site, &["forecast", "demo.hodful.json"]);
        let order = json(&site, &["order", "demo.hodful.json"]);
        assert_eq!(report["format"], "hodful-forecast");
        let rows = report["materials"].as_array().unwrap();
        for of in order["materials"].as_array().unwrap() {
            let row = rows
                .iter()
                .find(|row| row["material"] == of["material"])
                .unwrap();
            assert_eq!(
                row["worked_out"]["rest"]["loose_m3"], of["loose_m3"],
                "{demo}: {row}"
            );
            assert_eq!(
                row["worked_out"]["rest"]["mass_kg"], of["mass_kg"],
                "{demo}: {row}"
            );
        }
        for (coat, of) in report["coats"]
            .as_array()
            .unwrap()
            .iter()
            .zip(order["coats"].as_array().unwrap())
        {
            assert_eq!(coat["rest_m3"], of["mixed_m3"], "{demo}");
        }
        // All coats of a name: what the one command begins from is the mean of the draws of the other, give or take
        // the bends that a step of one standard deviation leaves out (its square) and the chance of ten thousand.
        let chances = json(&site, &["chances", "demo.hodful.json"]);
        for learned in report["learned"].as_array().unwrap() {
            let figures = chances["figures"].as_array().unwrap().iter();
            let own =
                figures.filter(|row| row["figure"] == "mixed" && row["coat"] == learned["coat"]);
            let (mut worked_out, mut mean) = (0.0, 0.0);
            for row in own {
                worked_out += number(row, "worked_out").unwrap();
                mean += number(row, "mean").unwrap();
            }
            let drawn = mean / worked_out;
            let factor = learned["before"].as_f64().unwrap();
            let spread = learned["spread_together"].as_f64().unwrap();
            let off = spread * spread + 3.0 * spread / 100.0;
            assert!(
                (factor - drawn).abs() < off,
                "{demo}: {learned} and {drawn}"
            );
        }
    }
}

#[test]
fn records_move_the_rest_and_csv_has_the_materials() {
    let site = Site::with_demo("marlpit-barn");
    let report = json(&site, &["forecast", "demo.hodful.json"]);
    let learned = report["learned"].as_array().unwrap();
    let scratch = learned.iter().find(|row| row["coat"] == "scratch").unwrap();
    // 16 batches of 90 L, as recorded.
    assert!((scratch["took_m3"].as_f64().unwrap() - 1.44).abs() < 1e-12);
    let weight = scratch["weight"].as_f64().unwrap();
    assert!(weight > 0.0 && weight < 1.0);
    let said = site.run(&["forecast", "demo.hodful.json", "--format", "csv"]);
    let rows = report["materials"].as_array().unwrap();
    assert_eq!(said.figures.matches("\r\n").count(), rows.len() + 1);
    for row in rows {
        assert!(said.figures.contains(row["material"].as_str().unwrap()));
    }
}

#[test]
fn every_table_fits_eighty_columns() {
    for demo in demos() {
        let site = demo_and_later(&demo);
        let project: Value = serde_json::from_str(&site.read("demo.hodful.json")).unwrap();
        let coats = project["build_ups"]
            .as_object()
            .unwrap()
            .values()
            .next()
            .unwrap();
        let coat = coats[0]["coat"].as_str().unwrap();
        for units in ["us", "metric"] {
            let all: [&[&str]; 4] = [
                &["compare", "demo.hodful.json"],
                &["compare", "demo.hodful.json", "later.hodful.json"],
                &["sweep", "demo.hodful.json", "--coat", coat],
                &["forecast", "demo.hodful.json"],
            ];
            for arguments in all {
                let said = site.run(&[arguments, &["--units", units]].concat());
                if said.code == Some(2) {
                    assert!(
                        said.words.contains("there is no option"),
                        "{demo}: {}",
                        said.words
                    );
                }
                for line in said.figures.lines() {
                    assert!(line.chars().count() <= 80, "{demo} {arguments:?}: {line}");
                    assert_eq!(line, line.trim_end(), "{demo} {arguments:?}");
                }
            }
        }
    }
}

#[test]
fn documents_of_the_outlook_are_written() {
    let site = Site::with_demo("marlpit-barn");
    for (what, title) in [
        ("comparison", "# Comparison"),
        ("forecast", "# Forecast of the rest"),
    ] {
        for ending in ["md", "html", "pdf", "csv", "xlsx", "json"] {
            let to = format!("{what}.{ending}");
            let said = site.run(&["export", "demo.hodful.json", "--to", &to, "--what", what]);
            assert_eq!(said.code, Some(0), "{to}: {}", said.words);
        }
        let text = site.read(&format!("{what}.md"));
        assert!(text.starts_with(title), "{text}");
        assert!(text.contains("demo.hodful.json"), "the foot names the file");
        assert!(text.contains("Lifting"), "the cautions stand in it");
        let printed = if what == "comparison" {
            "compare"
        } else {
            what
        };
        let printed = site.run(&[printed, "demo.hodful.json", "--format", "json"]);
        assert_eq!(site.read(&format!("{what}.json")), printed.figures);
        let drawn = site.run(&[
            "export",
            "demo.hodful.json",
            "--to",
            "x.svg",
            "--what",
            what,
        ]);
        assert_eq!(drawn.code, Some(2));
    }
    let said = site.run(&["export", "demo.hodful.json", "--to", "all.md"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    let all = site.read("all.md");
    assert!(all.contains("# Comparison") && all.contains("# Forecast of the rest"));
    let none = yard().run(&[
        "export",
        "yard.hodful.json",
        "--to",
        "c.md",
        "--what",
        "comparison",
    ]);
    assert_eq!(none.code, Some(2));
    assert!(none.words.contains("there is no option"), "{}", none.words);
}

/// The comparison on paper holds the options against the one that is named, or the project against another file.
#[test]
fn a_comparison_on_paper_holds_against_what_is_named() {
    let site = demo_and_later("thistlebank-workshop");
    let export = |to: &str, more: &[&str]| {
        let arguments = ["export", "demo.hodful.json", "--to", to];
        let what = ["--what", "comparison"];
        site.run(&[&arguments, &what[..], more].concat())
    };
    let project: Value = serde_json::from_str(&site.read("demo.hodful.json")).unwrap();
    let names: Vec<&String> = project["options"].as_object().unwrap().keys().collect();
    let said = export("base.json", &["--base", names[1], "--only", names[0]]);
    assert_eq!(said.code, Some(0), "{said:?}");
    let report: Value = serde_json::from_str(&site.read("base.json")).unwrap();
    let printed = json(
        &site,
        &[
            "compare",
            "demo.hodful.json",
            "--base",
            names[1],
            "--only",
            names[0],
        ],
    );
    assert_eq!(report, printed);
    assert_eq!(report["base"], names[1].as_str());
    // Two projects, and what became of the walls.
    let said = export("two.json", &["--against", "later.hodful.json"]);
    assert_eq!(said.code, Some(0), "{said:?}");
    let report: Value = serde_json::from_str(&site.read("two.json")).unwrap();
    assert_eq!(
        report,
        json(&site, &["compare", "demo.hodful.json", "later.hodful.json"])
    );
    let said = export("two.md", &["--against", "later.hodful.json"]);
    assert_eq!(said.code, Some(0), "{said:?}");
    let text = site.read("two.md");
    let printed = site.run(&["compare", "demo.hodful.json", "later.hodful.json"]);
    let wall = printed
        .figures
        .lines()
        .find(|line| line.starts_with("wall "));
    let wall = wall.unwrap().split(':').next().unwrap().to_owned();
    assert!(text.contains("Walls") && text.contains(&wall), "{text}");
    // What does not go together, and what is not there.
    for (to, more, words) in [
        (
            "a.pdf",
            &["--base", "nothing"][..],
            "there is no option 'nothing'",
        ),
        (
            "b.pdf",
            &["--against", "later.hodful.json", "--base", "x"],
            "cannot be used with",
        ),
    ] {
        let said = export(to, more);
        assert!(
            said.code != Some(0) && self::words(&said).contains(words),
            "{said:?}"
        );
        assert!(!site.path(to).exists());
    }
    let said = site.run(&[
        "export",
        "demo.hodful.json",
        "--to",
        "o.csv",
        "--against",
        "later.hodful.json",
    ]);
    assert!(words(&said).contains("say --what comparison"), "{said:?}");
}
