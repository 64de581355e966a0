//! Whole files: what was typed comes back as typed, and reading what was written changes nothing.

use crate::LARKFIELD;
use crate::any::project;
use hodful_project_file::{demo_projects, read, write};
use hodful_takeoff::project::Project;
use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::Value;

fn text(project: &Project) -> String {
    String::from_utf8(write(project)).unwrap()
}

/// A JSON text without the blanks and line ends between its parts: the texts in it stay as they are.
fn without_layout(json: &str) -> String {
    let (mut in_text, mut escaped) = (false, false);
    json.chars()
        .filter(|&c| {
            let starts_or_ends = c == '"' && !escaped;
            escaped = in_text && c == '\\' && !escaped;
            in_text ^= starts_or_ends;
            in_text || !c.is_whitespace()
        })
        .collect()
}

#[test]
fn the_example_comes_back_with_every_value_and_in_its_order() {
    let project = read(LARKFIELD.as_bytes()).unwrap();
    let written = text(&project);
    assert_eq!(without_layout(&written), without_layout(LARKFIELD));
    assert_eq!(read(written.as_bytes()).unwrap(), project);
}

#[test]
fn the_demo_projects_come_back_with_every_value() {
    for demo in demo_projects() {
        let written = write(&read(demo.bytes).unwrap());
        let value = |bytes: &[u8]| serde_json::from_slice::<Value>(bytes).unwrap();
        assert_eq!(value(&written), value(demo.bytes), "{}", demo.name);
    }
}

#[test]
fn lines_are_laid_out_for_people() {
    let written = text(&read(LARKFIELD.as_bytes()).unwrap());
    assert!(written.ends_with("  ]\n}\n"));
    for line in [
        "  \"mixer\": { \"working_volume\": \"3.5 ft3\" },",
        "      \"packages\": [ { \"name\": \"bag\", \"holds\": \"50 lb\", \"price\": \"14.50\" } ]",
        "      \"parts\": { \"yard sand\": 7, \"milled clay\": 3 },",
        "      { \"coat\": \"scratch\", \"thickness\": \"1/2 in\", \"mix\": \"base\", \"shrinkage\": \"2 %\", \"loss\": \"10 %\" },",
        "          \"id\": \"W1\",",
        "            \"outside\": { \"plastered\": [\"jambs\", \"head\"], \"radius\": \"1 in\", \"lath\": \"6 in\" },",
    ] {
        assert!(
            written.lines().any(|l| l == line),
            "{line}\nis not in\n{written}"
        );
    }
    assert!(
        written
            .lines()
            .all(|line| line.len() <= 110 && line.trim_end() == line)
    );
}

#[test]
fn digits_blanks_and_escapes_come_back_as_typed() {
    let file = crate::small_with(
        r#"{ "sand": 7 }"#,
        r#"{ "sand": 2.50, "a\"b\u0009c": "1 1/2", "0": 7.0 }"#,
    )
    .replace(r#""18 in""#, r#""  18 in ""#)
    .replace(r#""Shed""#, r#""Sh\u00e9d \\ \n \u0001 é""#);
    let written = text(&read(file.as_bytes()).unwrap());
    for part in [
        r#"{ "sand": 2.50, "a\"b\tc": "1 1/2", "0": 7.0 }"#,
        r#""  18 in ""#,
        r#""Shéd \\ \n \u0001 é""#,
    ] {
        assert!(written.contains(part), "{part}\nis not in\n{written}");
    }
}

#[test]
fn what_is_absent_stays_absent() {
    let file = r#"{"format":"hodful-project","version":1,"name":"","units":"metric"}"#;
    let project = read(file.as_bytes()).unwrap();
    assert_eq!(project.measurement_rule, "net");
    assert_eq!(
        text(&project),
        "{\n  \"format\": \"hodful-project\",\n  \"version\": 1,\n  \"name\": \"\",\n  \"units\": \"metric\",\n  \"measurement_rule\": \"net\",\n  \"walls\": []\n}\n"
    );
}

#[test]
fn the_kind_may_stand_anywhere() {
    let file = crate::small_with(
        r#"{ "kind": "rectangle", "length": "36'", "height": "9'" }"#,
        r#"{ "height": "9'", "length": "36'", "kind": "rectangle" }"#,
    );
    assert_eq!(
        read(file.as_bytes()).unwrap(),
        read(crate::SMALL.as_bytes()).unwrap()
    );
}

proptest! {
    #[test]
    fn what_is_written_is_read_as_it_was(project in project()) {
        let written = write(&project);
        let back = read(&written);
        prop_assert_eq!(back.as_ref(), Ok(&project), "{}", String::from_utf8_lossy(&written));
        let order = |project: &Project| project.materials.keys().cloned().collect::<Vec<_>>();
        prop_assert_eq!(back.map(|back| order(&back)), Ok(order(&project)));
    }

    #[test]
    fn any_project_is_assessed_or_refused(project in project()) {
        let rules = hodful_project_file::rules();
        if let Err(refused) = hodful_takeoff::Assessed::new(&project, &rules) {
            prop_assert!(!refused.is_empty());
        }
    }

    #[test]
    fn any_bytes_are_read_or_refused(bytes in vec(any::<u8>(), 0..200)) {
        if let Err(problems) = read(&bytes) {
            prop_assert!(!problems.is_empty());
        }
    }

    /// A whole file with a piece cut out or put in.
    #[test]
    fn a_damaged_file_is_read_or_refused(at in 0..LARKFIELD.len(), cut in 0..40_usize, put in "[\"{}\\[\\],:0-9a-z\\\\' ]{0,6}") {
        let end = (at + cut).min(LARKFIELD.len());
        let mut bytes = LARKFIELD.as_bytes().to_vec();
        bytes.splice(at..end, put.bytes());
        match read(&bytes) {
            Ok(project) => prop_assert_eq!(read(&write(&project)), Ok(project)),
            Err(problems) => prop_assert!(!problems.is_empty()),
        }
    }
}
