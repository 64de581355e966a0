//! Changes of options that do not fit are told with their place, and keep nothing from being computed. Not
//! here: making and finding changes (tested beside them).

use crate::fields::lead;
use hodful_project_file as file;
use hodful_takeoff::{Assessed, Severity};
use serde_json::{Value, json};

/// The workshop with other options is told this, and only as doubtful.
fn told(options: &Value, words: &str) {
    let demo = file::demo_projects().find(|demo| demo.name == "thistlebank-workshop");
    let mut project: Value = serde_json::from_slice(demo.unwrap().bytes).unwrap();
    project["options"] = options.clone();
    let bytes = serde_json::to_vec(&project).unwrap();
    let project = file::read(&bytes).unwrap();
    let of = Assessed::new(&project, &file::rules()).unwrap();
    let found = of.doubts.iter().find(|p| p.to_string().starts_with(words));
    let found = found.unwrap_or_else(|| panic!("{words}: {:#?}", of.doubts));
    assert_eq!(found.severity, Severity::Doubtful);
    lead(&project, &found.place);
}

#[test]
fn an_option_that_no_longer_fits_says_so() {
    let add = |at: Value| json!({ "kind": "add", "at": at, "field": "thickness", "by": "5 mm" });
    let option = |change: Value| json!({ "thicker": { "changes": [change] } });
    told(
        &option(add(json!({ "coat": "third" }))),
        "option thicker, change 1: no longer fits: no build-up has a coat 'third'",
    );
    told(
        &option(add(json!({ "coat": "scratch", "mix": "base" }))),
        "option thicker, change 1: no longer fits: names things of several kinds",
    );
    told(
        &option(json!({ "kind": "leave out", "at": { "mix": "base" } })),
        "option thicker, change 1: no longer fits: mix base cannot be left out",
    );
    told(
        &json!({ "a": { "of": "b" }, "b": { "of": "a" } }),
        "option a, of: 'a' starts from itself in the end",
    );
}
