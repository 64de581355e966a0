//! The ten lines of the help.

use super::super::GRAMMAR;
use super::{one_wall, read, refused, typed};

#[test]
fn the_help_is_ten_lines() {
    assert_eq!(GRAMMAR.len(), 10);
}

#[test]
fn every_example_is_understood_and_passes_the_checks() {
    for (example, _) in GRAMMAR {
        let project = one_wall();
        let reading = read(&project, example);
        assert_eq!(reading.fault, None, "{example}");
        let project = typed(project, &[example]);
        assert_eq!(refused(&project), Vec::<String>::new(), "{example}");
    }
}

/// Examples inside the meanings: whole lines, and words that go on behind the example of their row.
#[test]
fn every_further_example_is_understood() {
    let mut count = 0;
    for (example, meaning) in GRAMMAR {
        for further in meaning.split('`').skip(1).step_by(2) {
            let whole = ["plan", "raked", "curved", "round"];
            if whole.iter().any(|word| further.starts_with(word)) {
                count += 1;
                typed(one_wall(), &[further]);
            } else if further.contains("45°") {
                count += 1;
                let turned = "plan 30' left 45° 20' left 90° 20' left 45° high 9' thick 18\"";
                assert!(!super::fault(&one_wall(), turned).contains("word"));
            } else {
                let known = super::super::words::known(further.trim_end_matches(" ..."));
                let named = further == "S window ..." && example.starts_with("window");
                assert!(known.is_some() || named, "{further}");
            }
        }
    }
    assert_eq!(count, 6);
}
