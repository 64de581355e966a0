//! What may come at the cursor.

use super::super::{Context, Reading, understand};
use super::{one_wall, read, workshop};

/// A line with the cursor at `|`.
fn at(line: &str) -> Reading {
    let project = one_wall();
    let cursor = line.find('|').unwrap();
    let context = Context {
        project: &project,
        wall: None,
        opening: None,
    };
    understand(&line.replace('|', ""), cursor, &context)
}

fn words(line: &str) -> Vec<(String, String)> {
    let completions = at(line).completions;
    completions
        .iter()
        .map(|c| (c.word.to_string(), c.text.to_string()))
        .collect()
}

fn texts(line: &str) -> Vec<String> {
    words(line).into_iter().map(|(_, text)| text).collect()
}

#[test]
fn a_word_is_completed() {
    assert_eq!(texts("pl|"), ["an"]);
    assert_eq!(texts("wi|"), ["ndow"]);
    assert_eq!(texts("w|"), ["all", "indow"]);
    assert_eq!(texts("WI|"), ["ndow"]);
    assert_eq!(texts("window 4' x 3' s|"), ["ill", "play"]);
    assert_eq!(texts("window 4' x 3' s| at 6'"), ["ill", "play"]);
    assert_eq!(
        texts("window 4' x 3' sill|"),
        [" at"].map(|_| String::new())[..0]
    );
}

#[test]
fn a_word_may_follow_a_value_at_once() {
    let all = words("wall 20' x 9'|");
    assert!(all.contains(&("thick".into(), " thick".into())));
    let all = words("wall 20' x 9' |");
    assert!(all.contains(&("thick".into(), "thick".into())));
    assert!(!all.iter().any(|(word, _)| word == "sill"));
}

#[test]
fn what_was_said_is_not_offered_again() {
    let all = words("wall 20' thick 18 |");
    assert!(!all.iter().any(|(word, _)| word == "thick"));
}

#[test]
fn names_of_build_ups_are_completed() {
    let all = words("wall 20' with |");
    assert_eq!(all[0], ("outside bale".into(), "outside bale".into()));
    assert_eq!(texts("wall 20' with outside b|"), ["ale"]);
    assert_eq!(texts("wall 20' with \"inside c|"), ["ob"]);
    assert_eq!(texts("wall 20' on c|"), ["ob"]);
}

#[test]
fn what_may_come_is_said() {
    assert_eq!(
        at("wall|").expects,
        "the length, high, thick, base, ceiling, left, right, with, on, name, id, inside, outside, or Enter"
    );
    assert!(at("wall |").expects.starts_with("the length, high, thick"));
    assert_eq!(at("wall 20' thick |").expects, "thickness without plaster");
    assert_eq!(at("wall 20' x |").expects, "the height");
    assert!(at("wall 20' x 9' |").expects.starts_with("thick, base"));
    assert!(
        at("wall 20' x 9' thick 18 |")
            .expects
            .ends_with(", or Enter")
    );
    assert_eq!(
        at("plan round |").expects.split(',').next(),
        Some("the outside diameter")
    );
}

/// Each completion gives a line in which the word is understood.
#[test]
fn every_completion_is_understood() {
    let project = workshop();
    for start in [
        "",
        "N ",
        "2 ",
        "plan ",
        "plan 30' ",
        "wall 20' ",
        "N arched ",
        "N window 4'x3' inside ",
        "wall with ",
        "curved ",
    ] {
        for completion in read(&project, start).completions {
            let line = format!("{start}{}", completion.text);
            let reading = read(&project, &line);
            let wrong = reading
                .spans
                .iter()
                .any(|span| span.role == super::super::Role::Wrong);
            assert!(!wrong, "{line}");
        }
    }
}
