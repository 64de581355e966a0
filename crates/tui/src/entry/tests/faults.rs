//! What is said of lines that are not understood.

use super::super::Role;
use super::{empty, fault, one_wall, read};

#[test]
fn every_fault_says_what_to_do() {
    let project = one_wall();
    for (line, message) in [
        ("wi", ""),
        ("w", "'w' could be wall or window; type on"),
        (
            "wall 24' x 9' tick 18",
            "'tick' is not a word of this line; write ",
        ),
        ("wall 24' x 9' sill 3'", "'sill' does not go here; write "),
        ("wall 24' x 9' thick 18 thick 20", "'thick' stands twice"),
        (
            "wall 24' x 9' thick",
            "'thick' waits for a value: thickness without plaster. Write: thick 18\"",
        ),
        (
            "wall 24' x 9oo' thick 18",
            "'oo' is not a word of this line",
        ),
        ("wall 24' 9'", "'24' 9''"),
        ("24' x 9'", "'24'' of what? Say it first, as in: wall 24'"),
        ("wall 24' x 9' 6'", "'9' 6''"),
        ("wall 24' x 9' & 6'", "'&' says nothing here"),
        ("wall -24' x 9'", "'-24'' is less than nothing"),
        ("T9 window 4' x 3' sill 30", "there is no wall 'T9'"),
        ("window 4' x 3'", "how high is the sill? Add: sill 2'8\""),
        ("window 4'", "how high? Add: x 9'"),
        (
            "3 windows 4'x3' sill 30 at 2'",
            "how far from one to the next? Add: every 9'",
        ),
        (
            "window 30' x 3' sill 30",
            "wall A is 24' long, which is too short for it",
        ),
        (
            "window 4'x3' sill 30 at 21' from right",
            "21' from the right end is beyond the left end of wall A",
        ),
        (
            "arched door 8' x 3'",
            "the arch rises more than the 3' of the whole height",
        ),
        (
            "wall 20' with paint",
            "'paint' is no build-up of the project; there is outside bale, ",
        ),
        ("wall 20' inside only outside only", "no side is plastered"),
        (
            "curved 20' sweep 90 radius 10'",
            "a curved wall takes a length or a sweep",
        ),
        ("plan 30' left 20' left 30' high 9'", ""),
        ("plan 30' x 20' thick 16'", ""),
        ("wall id A", "there is a wall A already"),
        (
            "plan L 36' x 24' high 9'",
            "less what at the north-east corner? Add: less 12' x 8'",
        ),
        (
            "plan L 36' x 24' less 12' high 9'",
            "by how much? Add: x 9'",
        ),
    ] {
        let said = fault(&project, line);
        assert!(said.starts_with(message), "{line}: {said}");
        assert!(!said.is_empty(), "{line}");
    }
}

#[test]
fn an_empty_line_is_no_fault() {
    let reading = read(&empty(), "  ");
    assert_eq!((reading.fault, reading.change), (None, None));
    assert!(reading.expects.starts_with("plan, wall, gable"));
}

#[test]
fn a_project_without_coats_says_so() {
    let mut project = empty();
    project.build_ups.clear();
    let said = fault(&project, "wall 24' x 9' thick 18");
    assert_eq!(said, "the project has no build-up of coats; add one first");
}

#[test]
fn the_rest_of_a_line_is_heard_behind_a_fault() {
    let line = "wall 20' tick 18 base 4";
    let reading = read(&one_wall(), line);
    let wrong: Vec<&str> = reading
        .spans
        .iter()
        .filter(|span| span.role == Role::Wrong)
        .map(|span| line.get(span.range.clone()).unwrap())
        .collect();
    assert_eq!(wrong, ["tick", "18"]);
    assert!(reading.said.iter().any(|line| line.contains("from 4\" up")));
    assert_eq!(reading.ready(), None);
}
