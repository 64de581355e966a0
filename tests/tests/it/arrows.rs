//! Which crate may know which. Not here: why (see the developers' page).

use crate::places::top;
use crate::{Outcome, nothing_in, trial};
use libtest_mimic::Trial;
use serde::Deserialize;
use std::process::Command;

/// Each crate of the workspace and those of the workspace it may know. One that is not listed fails.
const INSIDE: &[(&str, &[&str])] = &[
    ("hodful-geometry", &[]),
    ("hodful-quantities", &[]),
    ("hodful-soils", &["hodful-quantities"]),
    ("hodful-purchase", &["hodful-quantities"]),
    ("hodful-chance", &[]),
    ("hodful-air", &[]),
    ("hodful-workplan", &[]),
    (
        "hodful-takeoff",
        &[
            "hodful-geometry",
            "hodful-quantities",
            "hodful-soils",
            "hodful-purchase",
            "hodful-chance",
            "hodful-air",
            "hodful-workplan",
        ],
    ),
    ("hodful-documents", &["hodful-takeoff", "hodful-quantities"]),
    (
        "hodful-project-file",
        &["hodful-takeoff", "hodful-quantities"],
    ),
    (
        "hodful-exchange",
        &["hodful-documents", "hodful-takeoff", "hodful-quantities"],
    ),
    ("hodful-weather", &["hodful-air"]),
    (
        "hodful-tui",
        &["hodful-takeoff", "hodful-quantities", "hodful-soils"],
    ),
    (
        "hodful",
        &[
            "hodful-geometry",
            "hodful-quantities",
            "hodful-soils",
            "hodful-takeoff",
            "hodful-project-file",
            "hodful-documents",
            "hodful-exchange",
            "hodful-weather",
            "hodful-tui",
        ],
    ),
    (
        "hodful-benches",
        &[
            "hodful-air",
            "hodful-quantities",
            "hodful-soils",
            "hodful-purchase",
            "hodful-takeoff",
            "hodful-project-file",
            "hodful-documents",
            "hodful-exchange",
        ],
    ),
    (
        "hodful-tests",
        &["hodful-quantities", "hodful-takeoff", "hodful-project-file"],
    ),
];

/// What a crate may know besides in its tests: screens and papers are tried on the demo projects.
const FOR_TESTS: &[(&str, &[&str])] = &[
    (
        "hodful-tui",
        &["hodful-project-file", "hodful-exchange", "hodful-weather"],
    ),
    ("hodful-documents", &["hodful-project-file"]),
    (
        "hodful-exchange",
        &["hodful-project-file", "hodful-weather"],
    ),
    ("hodful-tests", &["hodful-air", "hodful-workplan"]),
];

/// Libraries that only some crates may know, outside their tests.
const OUTSIDE: &[(&str, &[&str])] = &[
    (
        "serde",
        &["hodful-project-file", "hodful-exchange", "hodful-tests"],
    ),
    (
        "serde_json",
        &[
            "hodful-project-file",
            "hodful-exchange",
            "hodful-benches",
            "hodful-tests",
        ],
    ),
    ("csv", &["hodful-exchange", "hodful-weather"]),
    ("krilla", &["hodful-exchange"]),
    ("rust_xlsxwriter", &["hodful-exchange"]),
    ("ironcalc", &[]),
    ("anyhow", &["hodful"]),
    ("clap", &["hodful"]),
    ("clap_complete", &["hodful"]),
    ("clap_mangen", &["hodful"]),
    ("geo", &["hodful-geometry"]),
    ("microlp", &["hodful-soils", "hodful-purchase"]),
    ("rand", &["hodful-chance", "hodful-benches"]),
    ("rand_distr", &["hodful-chance"]),
    ("rand_pcg", &["hodful-chance", "hodful-benches"]),
    ("ratatui", &["hodful-tui"]),
    ("tui-input", &["hodful-tui"]),
    // The one that the drawing library brings is used, so that there are not two of them with states of their own.
    ("crossterm", &[]),
];

#[derive(Deserialize)]
struct Metadata {
    packages: Vec<Package>,
}

#[derive(Deserialize)]
struct Package {
    name: String,
    dependencies: Vec<Dependency>,
}

#[derive(Deserialize)]
struct Dependency {
    name: String,
    kind: Option<String>,
}

pub(crate) fn trials(trials: &mut Vec<Trial>) {
    trials.push(trial("arrows::crates_know_only_those_below", || {
        nothing_in(&wrong_arrows(&packages()?))
    }));
    trials.push(trial(
        "arrows::a_wrong_arrow_is_seen",
        a_wrong_arrow_is_seen,
    ));
}

fn packages() -> Result<Vec<Package>, String> {
    let output = Command::new(env!("CARGO"))
        .args([
            "metadata",
            "--format-version",
            "1",
            "--no-deps",
            "--offline",
        ])
        .current_dir(top())
        .output()
        .map_err(|e| format!("cargo metadata: {e}"))?;
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).into_owned());
    }
    let metadata: Metadata =
        serde_json::from_slice(&output.stdout).map_err(|e| format!("cargo metadata: {e}"))?;
    Ok(metadata.packages)
}

fn row(table: &[(&str, &'static [&'static str])], name: &str) -> Option<&'static [&'static str]> {
    table
        .iter()
        .find(|(key, _)| *key == name)
        .map(|(_, row)| *row)
}

fn wrong_arrows(packages: &[Package]) -> Vec<String> {
    let mut found = Vec::new();
    for Package { name, dependencies } in packages {
        let Some(may_know) = row(INSIDE, name) else {
            found.push(format!(
                "{name} is not in the table; say which crates it may know"
            ));
            continue;
        };
        for dependency in dependencies {
            let to = dependency.name.as_str();
            let inside = packages.iter().any(|p| p.name == to) || row(INSIDE, to).is_some();
            let for_tests = dependency.kind.as_deref() == Some("dev");
            let wrong = if inside {
                let for_tests_only =
                    for_tests && row(FOR_TESTS, name).is_some_and(|may| may.contains(&to));
                !may_know.contains(&to) && !for_tests_only
            } else {
                !for_tests && row(OUTSIDE, to).is_some_and(|who| !who.contains(&name.as_str()))
            };
            if wrong {
                found.push(format!("{name} may not know {to}"));
            }
        }
    }
    found
}

/// The table refuses what it should: an arrow upwards, a library in the wrong place, a new crate.
fn a_wrong_arrow_is_seen() -> Outcome {
    let package = |name: &str, to: &str, kind: Option<&str>| Package {
        name: name.into(),
        dependencies: vec![Dependency {
            name: to.into(),
            kind: kind.map(Into::into),
        }],
    };
    let found = wrong_arrows(&[
        package("hodful-geometry", "hodful-takeoff", None),
        package("hodful-quantities", "serde_json", None),
        package("hodful-quantities", "serde_json", Some("dev")),
        package("hodful-takeoff", "hodful-project-file", Some("dev")),
        package("hodful-takeoff", "hodful-geometry", None),
        package("hodful-attic", "libm", None),
    ]);
    let expected = [
        "hodful-geometry may not know hodful-takeoff",
        "hodful-quantities may not know serde_json",
        "hodful-takeoff may not know hodful-project-file",
        "hodful-attic is not in the table; say which crates it may know",
    ];
    if found == expected {
        Ok(())
    } else {
        Err(format!("found {found:?}").into())
    }
}
