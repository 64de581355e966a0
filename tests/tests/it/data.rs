//! The data that is compiled in: measurement rules and cautions, each with its source. Not here:
//! their format, and what the rules do with a wall (see the cases).

use crate::places::{files, shown, text, top};
use crate::{Outcome, nothing_in, trial};
use libtest_mimic::Trial;
use serde::Deserialize;

/// The rules a project may count on.
const RULES: [&str; 8] = [
    "net",
    "is-1200-12",
    "din-18350",
    "onorm-b-2210",
    "voids-0.5-m2",
    "half-openings",
    "seven-square-yards",
    "one-square-metre-half",
];

/// What any file of this data has; the rest is for its own reader.
#[derive(Deserialize)]
struct Sourced {
    key: String,
    title: String,
    source: String,
    #[serde(default)]
    edition: Option<String>,
    #[serde(default)]
    notes: Vec<String>,
}

#[derive(Deserialize)]
struct Cautions {
    cautions: Vec<Sourced>,
}

pub(crate) fn trials(trials: &mut Vec<Trial>) {
    trials.push(trial(
        "data::every_rule_tells_its_source_and_how_it_was_read",
        rules_are_sourced,
    ));
    trials.push(trial(
        "data::every_rule_is_compiled_in",
        rules_are_compiled_in,
    ));
    trials.push(trial(
        "data::every_caution_tells_its_source",
        cautions_are_sourced,
    ));
    trials.push(trial("data::local_codes_come_last", local_codes_come_last));
}

fn unsaid(of: &Sourced, place: &str) -> Vec<String> {
    [
        ("key", &of.key),
        ("title", &of.title),
        ("source", &of.source),
    ]
    .into_iter()
    .filter(|(_, words)| words.trim().is_empty())
    .map(|(field, _)| format!("{place}: says no {field}"))
    .collect()
}

fn rules_are_sourced() -> Outcome {
    let mut found = Vec::new();
    for path in files(&top().join("assets/rules"), "json")? {
        let place = shown(&path);
        let rule: Sourced =
            serde_json::from_str(&text(&path)?).map_err(|e| format!("{place}: {e}"))?;
        found.extend(unsaid(&rule, &place));
        if path
            .file_stem()
            .is_none_or(|stem| stem != rule.key.as_str())
        {
            found.push(format!("{place}: its key is {}", rule.key));
        }
        if rule.edition.as_ref().is_none_or(|e| e.trim().is_empty()) {
            found.push(format!("{place}: says no edition"));
        }
        for (word, what) in [
            ("How it was read", "how it was read"),
            ("Left out", "what it leaves out"),
        ] {
            if !rule.notes.iter().any(|note| note.starts_with(word)) {
                found.push(format!("{place}: no note says {what}"));
            }
        }
    }
    nothing_in(&found)
}

fn rules_are_compiled_in() -> Outcome {
    let book = hodful_project_file::rules();
    let mut found: Vec<String> = RULES
        .iter()
        .filter(|key| !book.contains_key(**key))
        .map(|key| format!("there is no rule {key}"))
        .collect();
    for (key, rule) in &book {
        let limits: Vec<_> = rule.bands.iter().flatten().map(|band| band.up_to).collect();
        let (last, rest) = match limits.split_last() {
            Some((last, rest)) => (*last, rest),
            None if rule.bands.is_none() => continue,
            None => {
                found.push(format!("{key}: has no bands"));
                continue;
            }
        };
        if last.is_some() || rest.iter().any(Option::is_none) {
            found.push(format!(
                "{key}: the last band, and it alone, is without a limit"
            ));
        }
        if !rest.iter().flatten().is_sorted_by(|a, b| a < b) {
            found.push(format!("{key}: the bands do not rise"));
        }
    }
    nothing_in(&found)
}

fn cautions() -> Result<Vec<Sourced>, String> {
    let path = top().join("assets/cautions.json");
    let file: Cautions =
        serde_json::from_str(&text(&path)?).map_err(|e| format!("{}: {e}", shown(&path)))?;
    if file.cautions.is_empty() {
        Err("there are no cautions".into())
    } else {
        Ok(file.cautions)
    }
}

fn cautions_are_sourced() -> Outcome {
    let on_disk = cautions()?;
    let mut found: Vec<String> = on_disk.iter().flat_map(|c| unsaid(c, &c.key)).collect();
    let compiled: Vec<_> = hodful_project_file::cautions()
        .iter()
        .map(|c| c.key.to_string())
        .collect();
    let keys: Vec<_> = on_disk.iter().map(|c| c.key.clone()).collect();
    if compiled != keys {
        found.push(format!("compiled in are {compiled:?}, on disk {keys:?}"));
    }
    nothing_in(&found)
}

/// The last word of the cautions is that local codes and licensed practice come first.
fn local_codes_come_last() -> Outcome {
    match cautions()?.last() {
        Some(last) if last.key == "codes-first" => Ok(()),
        other => Err(format!("the last caution is {:?}", other.map(|c| &c.key)).into()),
    }
}
