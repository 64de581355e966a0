//! What the commands print of a small yard and of demo projects, as kept in `tests/golden`. `UPDATE=1 cargo test -p hodful golden`
//! writes it anew. Not here: whether the figures are right, which other tests hold against other sources.

use crate::run::Site;
use std::path::{Path, PathBuf};
use std::{env, fs};

/// The project, an invention: two walls, two suppliers, two phases, three blends.
pub(crate) const YARD: &str = include_str!("../golden/yard.hodful.json");

/// Invented weather, March to May.
pub(crate) const WEATHER: &str = include_str!("../../../../demo-projects/hollowmere.epw");

/// A folder with that project.
pub(crate) fn yard() -> Site {
    let site = Site::new();
    site.write("yard.hodful.json", YARD);
    site
}

/// The same after a change to its JSON.
pub(crate) fn changed(change: impl FnOnce(&mut serde_json::Value)) -> Site {
    let mut project = serde_json::from_str(YARD).unwrap();
    change(&mut project);
    let site = Site::new();
    site.write("yard.hodful.json", &project.to_string());
    site
}

/// What each command must print, by the name of the file.
const PRINTED: [(&str, &[&str]); 9] = [
    ("soils", &["soils", "yard.hodful.json"]),
    ("settle", &["settle", "--depth", "150mm"]),
    (
        "settle-iso",
        &[
            "settle",
            "--depth",
            "6 in",
            "--temperature",
            "50F",
            "--system",
            "iso",
        ],
    ),
    ("blend", &["blend", "yard.hodful.json"]),
    ("card", &["card", "yard.hodful.json"]),
    (
        "card-us",
        &["card", "yard.hodful.json", "top", "--units", "us"],
    ),
    ("order", &["order", "yard.hodful.json"]),
    ("order-us", &["order", "yard.hodful.json", "--units", "us"]),
    ("order-fewest", &["order", "yard.hodful.json", "--fewest"]),
];

/// The same of demo projects: the name of the file, the demo, the arguments behind its file.
const OF_DEMOS: [(&str, &str, &[&str]); 7] = [
    ("compare", "thistlebank-workshop", &["compare"]),
    (
        "compare-two",
        "marlpit-barn",
        &["compare", "later.hodful.json"],
    ),
    (
        "sweep",
        "thistlebank-workshop",
        &["sweep", "--coat", "fill", "--of", "batches", "--of", "cost"],
    ),
    ("chances", "thistlebank-workshop", &["chances"]),
    (
        "chances-only",
        "marlpit-barn",
        &[
            "chances", "--draws", "2000", "--seed", "7", "--only", "cost", "--only", "scratch",
        ],
    ),
    ("forecast", "marlpit-barn", &["forecast"]),
    (
        "plan",
        "thistlebank-workshop",
        &["plan", "--weather", "hollowmere.epw"],
    ),
];

fn golden(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/golden/{name}.txt"))
}

/// A demo with a later state of it beside: a wall longer, one gone, a coat thicker.
pub(crate) fn demo_and_later(name: &str) -> Site {
    let site = Site::with_demo(name);
    site.write("hollowmere.epw", WEATHER);
    let mut later: serde_json::Value =
        serde_json::from_str(&site.read("demo.hodful.json")).unwrap();
    let walls = later["walls"].as_array_mut().unwrap();
    walls.pop();
    walls[0]["count"] = 2.into();
    let build_ups = later["build_ups"].as_object_mut().unwrap();
    let (_, coats) = build_ups.iter_mut().next().unwrap();
    coats[0]["thickness"] = "20 mm".into();
    // Records, options and rooms name walls and coats that are otherwise now.
    for key in ["options", "done", "delivered", "work"] {
        later.as_object_mut().unwrap().remove(key);
    }
    site.write("later.hodful.json", &later.to_string());
    site
}

/// Holds what is printed against the file, or writes it.
fn hold(name: &str, said: &crate::run::Said, stale: &mut Vec<String>) {
    assert_ne!(said.code, Some(2), "{name}: {}", said.words);
    // The cautions are kept elsewhere.
    let figures = said.figures.split("TAKE CARE").next().unwrap();
    for line in figures.lines() {
        assert!(line.chars().count() <= 80, "{name}: {line}");
        assert_eq!(line, line.trim_end(), "{name}");
    }
    let path = golden(name);
    if env::var_os("UPDATE").is_some() {
        fs::write(&path, figures).unwrap();
    } else if fs::read_to_string(&path).unwrap_or_default() != figures {
        stale.push(format!("{name}\n{figures}"));
    }
}

#[test]
fn what_is_printed_is_what_is_kept() {
    let site = yard();
    let mut stale = Vec::new();
    for (name, arguments) in PRINTED {
        hold(name, &site.run(arguments), &mut stale);
    }
    for (name, demo, arguments) in OF_DEMOS {
        let site = demo_and_later(demo);
        let (command, more) = arguments.split_first().unwrap();
        let arguments = [&[*command, "demo.hodful.json"], more].concat();
        hold(name, &site.run(&arguments), &mut stale);
    }
    assert!(
        stale.is_empty(),
        "UPDATE=1 cargo test -p hodful golden writes these anew:\n{}",
        stale.join("\n")
    );
}
