//! `hodful export`: what is written, what is refused, and that nothing is written over.

use crate::golden::{changed, yard};
use crate::run::Site;
use std::fs;

fn export(site: &Site, to: &str, more: &[&str]) -> crate::run::Said {
    let arguments = [&["export", "yard.hodful.json", "--to", to], more].concat();
    site.run(&arguments)
}

fn names(site: &Site) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(site.path("."))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn every_ending_writes_its_format() {
    let site = yard();
    // What each format begins with, by its standard: RFC 8259, ISO 32000, PKWARE's zip, CommonMark, HTML.
    for (to, begins) in [
        ("all.json", &b"{"[..]),
        ("all.pdf", b"%PDF-"),
        ("all.xlsx", b"PK\x03\x04"),
        ("all.md", b"# "),
        ("all.html", b"<!DOCTYPE html>"),
        ("order.csv", b"Material,"),
    ] {
        let said = export(&site, to, &[]);
        assert_eq!(said.code, Some(0), "{to}: {}", said.words);
        assert!(
            said.words.starts_with(&format!("wrote '{to}'\n")),
            "{}",
            said.words
        );
        assert!(said.figures.is_empty(), "{to}");
        let bytes = fs::read(site.path(to)).unwrap();
        assert!(
            bytes
                .to_ascii_lowercase()
                .starts_with(&begins.to_ascii_lowercase()),
            "{to}: {:?}",
            bytes.get(..40)
        );
    }
}

#[test]
fn each_document_is_written_alone() {
    let site = yard();
    for (what, title) in [
        ("order", "# Order list"),
        ("dimensions", "# Dimension sheet"),
        ("summary", "# Summary"),
        ("card", "# Mix body"),
    ] {
        let to = format!("{what}.md");
        let said = export(&site, &to, &["--what", what]);
        assert_eq!(said.code, Some(0), "{what}: {}", said.words);
        let text = site.read(&to);
        assert!(text.starts_with(title), "{what}: {text}");
        assert!(text.contains("yard.hodful.json"), "the foot names the file");
        assert!(text.contains("Hodful "), "the foot names the program");
        let csv = format!("{what}.csv");
        let said = export(&site, &csv, &["--what", what]);
        assert_eq!(said.code, Some(0), "{what}: {}", said.words);
        assert!(site.read(&csv).contains("\r\n"));
    }
    let order = site.read("order.md");
    assert!(
        order.contains("## Deliveries") && order.contains("Osier Bridge"),
        "{order}"
    );
    let all =
        ["order", "dimensions", "summary", "card"].map(|what| site.read(&format!("{what}.md")));
    export(&site, "all.md", &[]);
    let whole = site.read("all.md");
    assert!(whole.len() > all.iter().map(String::len).sum::<usize>());
}

#[test]
fn figures_of_a_spreadsheet_are_those_of_the_json() {
    let site = yard();
    export(&site, "measure.json", &["--what", "dimensions"]);
    let printed = site.run(&["measure", "yard.hodful.json", "--format", "json"]);
    assert_eq!(site.read("measure.json"), printed.figures);
    export(&site, "order.json", &["--what", "order"]);
    let printed = site.run(&["order", "yard.hodful.json", "--format", "json"]);
    assert_eq!(site.read("order.json"), printed.figures);
    // 12 m by 3 m on both sides and 8 m by 3 m on one: 36, 36 and 24 m², the walls as typed.
    export(&site, "dimensions.csv", &["--what", "dimensions"]);
    let csv = site.read("dimensions.csv");
    for area in ["36", "24", "96"] {
        let is_cell = |cell: &str| cell == area;
        assert!(csv.split(['\r', '\n', ',']).any(is_cell), "{area}: {csv}");
    }
}

#[test]
fn units_are_those_asked_for() {
    let site = yard();
    export(&site, "metric.md", &["--what", "summary"]);
    export(&site, "us.md", &["--what", "summary", "--units", "us"]);
    assert!(site.read("metric.md").contains("m²") && !site.read("metric.md").contains("ft²"));
    assert!(site.read("us.md").contains("ft²"));
}

#[test]
fn drawings_go_beside_the_path_a_file_each() {
    let site = yard();
    let said = export(&site, "yard.svg", &["--what", "dimensions"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    for name in [
        "yard-wall-s-outside.svg",
        "yard-wall-s-inside.svg",
        "yard-wall-n-inside.svg",
    ] {
        assert!(
            said.words.contains(&format!("wrote '{name}'")),
            "{}",
            said.words
        );
        assert!(site.read(name).contains("<svg"), "{name}");
    }
    assert!(!site.path("yard.svg").exists());
    // With everything the build-up and the soils are drawn too, and each opening is cut twice.
    let window = changed(|p| {
        p["walls"][0]["openings"] = serde_json::json!([{ "id": "W1",
            "shape": { "kind": "rectangle", "width": "1 m", "height": "1 m" },
            "from_left": "2 m", "sill": "1 m",
            "frame": { "from_outside": "80 mm", "depth": "100 mm" } }]);
    });
    let said = export(&window, "yard.svg", &[]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    for name in [
        "build-up-wall",
        "wall-s-opening-w1-level-section",
        "wall-s-opening-w1-upright-section",
        "triangle-of-textures",
    ] {
        assert!(
            window.read(&format!("yard-{name}.svg")).contains("<svg"),
            "{name}"
        );
    }
    // One drawing takes the path itself.
    let one = changed(|p| {
        p["walls"] = serde_json::json!([p["walls"][1]]);
    });
    let said = export(&one, "yard.svg", &["--what", "dimensions"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(one.read("yard.svg").contains("<svg"));
}

#[test]
fn nothing_is_written_over_without_force() {
    let site = yard();
    site.write("order.md", "mine");
    let said = export(&site, "order.md", &[]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words
            .contains("'order.md' is there already and is left alone; --force writes over it"),
        "{}",
        said.words
    );
    assert_eq!(site.read("order.md"), "mine");
    let said = export(&site, "order.md", &["--force"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(site.read("order.md").starts_with("# "));
    // One of several that is there keeps all from being written.
    let site = yard();
    site.write("yard-wall-n-inside.svg", "mine");
    let said = export(&site, "yard.svg", &["--what", "dimensions"]);
    assert_eq!(said.code, Some(2));
    assert_eq!(site.read("yard-wall-n-inside.svg"), "mine");
    assert_eq!(names(&site), ["yard-wall-n-inside.svg", "yard.hodful.json"]);
}

#[test]
fn a_project_is_never_written_over() {
    let site = yard();
    let before = site.read("yard.hodful.json");
    site.write("plain.json", &before);
    for (from, to) in [
        ("yard.hodful.json", "yard.hodful.json"),
        ("plain.json", "plain.json"),
        ("plain.json", "./plain.json"),
        ("plain.json", "other.hodful.json"),
    ] {
        let said = site.run(&["export", from, "--to", to, "--force"]);
        assert_eq!(said.code, Some(2), "{from} {to}");
        assert!(
            said.words.contains("not written over projects"),
            "{}",
            said.words
        );
    }
    assert_eq!(site.read("yard.hodful.json"), before);
    assert_eq!(site.read("plain.json"), before);
    assert!(!site.path("other.hodful.json").exists());
}

#[test]
fn what_cannot_be_written_is_told_and_nothing_is_left() {
    let site = yard();
    for (to, more, answer) in [
        ("yard.doc", &[][..], "end it with one of .csv, .html, .ics"),
        ("yard", &[], "does not say which format"),
        ("all.csv", &["--what", "all"], "CSV holds one document"),
        ("card.svg", &["--what", "card"], "SVG holds drawings"),
        (
            "sum.json",
            &["--what", "summary"],
            "a summary is for people",
        ),
        ("no/such/yard.md", &[], "no such file or folder"),
    ] {
        let said = export(&site, to, more);
        assert_eq!(said.code, Some(2), "{to}: {}", said.words);
        assert!(said.words.contains(answer), "{to}: {}", said.words);
    }
    assert_eq!(names(&site), ["yard.hodful.json"]);
    let no_mixer = changed(|p| {
        p.as_object_mut().unwrap().remove("mixer");
    });
    let said = export(&no_mixer, "card.pdf", &["--what", "card"]);
    assert_eq!(said.code, Some(2));
    assert!(said.words.contains("no mixer"), "{}", said.words);
    // Its other documents are there all the same.
    assert_eq!(export(&no_mixer, "all.md", &[]).code, Some(0));
}

#[test]
fn a_refused_project_is_not_written() {
    let site = changed(|p| p["walls"][0]["thickness"] = serde_json::json!("thick"));
    let said = export(&site, "yard.pdf", &[]);
    assert_eq!(said.code, Some(1));
    assert_eq!(names(&site), ["yard.hodful.json"]);
}

#[test]
fn no_name_becomes_a_formula_or_a_path() {
    let site = changed(|p| {
        let text = p.to_string().replace("sharp sand", "=1+1");
        *p = serde_json::from_str(&text).unwrap();
        p["walls"][0]["id"] = serde_json::json!("../up");
    });
    let said = export(&site, "order.csv", &[]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(site.read("order.csv").contains("\r\n'=1+1,"));
    let said = export(&site, "a.svg", &["--what", "dimensions"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(
        site.path("a-wall-up-outside.svg").exists(),
        "{:?}",
        names(&site)
    );
}
