//! Tidiness of the sources: what a reader relies on in every file. Not here: formatting and lints.

use crate::places::{files, shown, text, top};
use crate::{Outcome, nothing_in, trial};
use libtest_mimic::Trial;
use std::path::{Path, PathBuf};

/// Longest file that is let pass.
const MOST_LINES: usize = 800;

pub(crate) fn trials(trials: &mut Vec<Trial>) {
    trials.push(trial(
        "tidy::every_file_says_what_belongs_in_it",
        every_file_opens_with_words,
    ));
    trials.push(trial("tidy::no_file_is_too_long", no_file_is_too_long));
    trials.push(trial(
        "tidy::tolerances_have_a_name",
        tolerances_have_a_name,
    ));
}

fn sources() -> Result<Vec<PathBuf>, String> {
    let mut found = Vec::new();
    for folder in ["crates", "tests", "benches"] {
        let folder = top().join(folder);
        if folder.is_dir() {
            found.extend(files(&folder, "rs")?);
        }
    }
    if found.is_empty() {
        Err("no sources were found".into())
    } else {
        Ok(found)
    }
}

fn every_file_opens_with_words() -> Outcome {
    let mut found = Vec::new();
    for path in sources()? {
        let first = text(&path)?.lines().next().unwrap_or_default().to_owned();
        if first
            .strip_prefix("//! ")
            .is_none_or(|words| words.trim().is_empty())
        {
            found.push(format!(
                "{}: does not open with //! and words",
                shown(&path)
            ));
        }
    }
    nothing_in(&found)
}

fn no_file_is_too_long() -> Outcome {
    let mut found = Vec::new();
    for path in sources()? {
        let lines = text(&path)?.lines().count();
        if lines > MOST_LINES {
            found.push(format!(
                "{}: {lines} lines, more than {MOST_LINES}",
                shown(&path)
            ));
        }
    }
    nothing_in(&found)
}

fn tolerances_have_a_name() -> Outcome {
    let crates = top().join("crates");
    let mut found = Vec::new();
    for path in sources()?
        .into_iter()
        .filter(|p| p.starts_with(&crates) && holds_code(p))
    {
        for (number, line) in bare_epsilons(&text(&path)?) {
            found.push(format!("{}:{number}: {line}", shown(&path)));
        }
    }
    nothing_in(&found)
}

/// Program code: in `src`, neither the module of tolerances nor a file of tests.
fn holds_code(path: &Path) -> bool {
    let is = |name: &str| path.components().any(|c| c.as_os_str() == name);
    is("src") && !is("tests") && !is("tests.rs") && !is("tolerance.rs") && !is("tolerance")
}

/// Lines with a number such as `1e-9`, outside comments, texts of tests and tests themselves.
fn bare_epsilons(source: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let mut in_tests = false;
    let mut marked = false;
    for (number, line) in (1..).zip(source.lines()) {
        let code = line.split("//").next().unwrap_or_default();
        if in_tests {
            in_tests = line != "}";
            continue;
        }
        if code.trim() == "#[cfg(test)]" {
            marked = true;
        } else if marked
            && ["mod ", "use ", "fn "]
                .iter()
                .any(|word| code.starts_with(word))
        {
            // Attributes of several lines may stand between.
            marked = false;
            in_tests = code.starts_with("mod ") && code.trim_end().ends_with('{');
        }
        let small = code.match_indices("e-").any(|(at, _)| {
            let (before, after) = (code.get(..at), code.get(at + 2..));
            before.is_some_and(|b| b.ends_with(|c: char| c.is_ascii_digit()) && is_number(b))
                && after.is_some_and(|a| a.starts_with(|c: char| c.is_ascii_digit()))
        });
        if small && !in_tests {
            found.push((number, line.trim().to_owned()));
        }
    }
    found
}

/// Whether a text ends in a number of its own, not in a name with digits.
fn is_number(text: &str) -> bool {
    let start = text.trim_end_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | '_'));
    !start.ends_with(|c: char| c.is_alphanumeric() || c == '_')
}
