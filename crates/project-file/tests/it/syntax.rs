//! Broken syntax: line, column, the place in the project, and what to do.

use crate::told;

#[test]
fn broken_syntax_is_told_with_its_line_and_place() {
    let head =
        "{\n\"format\": \"hodful-project\", \"version\": 1, \"name\": \"Shed\", \"units\": \"us\"";
    let rows = [
        (
            "",
            "project: broken at line 2, column 71: the file ends inside a group; a } and what follows it are missing",
        ),
        (
            ",",
            "project: broken at line 2, column 72: the file ends where a value should stand",
        ),
        (
            " \"walls\": []}",
            "project: broken at line 2, column 73: a comma or a closing } should stand here",
        ),
        (
            ",}",
            "project: broken at line 2, column 73: a comma stands after the last item; take it out",
        ),
        (
            "} }",
            "project: broken at line 2, column 74: something stands after the end of the project; take it out",
        ),
        (
            ", walls: []}",
            "project: broken at line 2, column 74: a key should stand here, in double quotes",
        ),
        (
            ",\n\"note\" \"x\"}",
            "note: broken at line 3, column 8: a colon should stand between a key and its value",
        ),
        (
            ",\n\"note\": plaster}",
            "note: broken at line 3, column 9: a value should stand here: text in double quotes, a number, a list or a group",
        ),
        (
            ",\n\"note\": \"2\"x}",
            "project: broken at line 3, column 12: a comma or a closing } should stand here",
        ),
        (
            ",\n\"walls\": [ {\"id\": \"S\",\n\"thickness\": \"18 in\" in\" } ] }",
            "wall S: broken at line 4, column 22: a comma or a closing } should stand here",
        ),
        (
            ",\n\"walls\": [ {\"id\": \"S\", \"openings\": [ {\"id\": \"W1\",\n\"sill\": \"2' 8\\'\" } ] } ] }",
            "wall S, opening W1, sill: broken at line 4, column 15: a backslash stands before a letter it does not go with; write \\\\ for a backslash and \\\" for an inch mark",
        ),
        (
            ",\n\"note\": \"two\nlines\"}",
            "note: broken at the end of line 3: a text runs over the end of its line, or holds a control character; close it with a double quote, and write \\n for a new line",
        ),
        (
            ",\n\"note\": \"half \\ud800 \"}",
            "note: broken at line 3, column 21: an escape \\u is not complete",
        ),
        (
            ",\n\"walls\": [ {\"count\": 1e999 } ] }",
            "wall number 1, count: broken at line 3, column 26: a number is too large",
        ),
    ];
    for (tail, expected) in rows {
        let told = told(&format!("{head}{tail}"));
        assert_eq!(told, [expected], "{tail}");
    }
}

#[test]
fn an_empty_file_and_one_of_another_kind() {
    assert_eq!(
        told(""),
        ["project: broken at line 1, column 0: the file ends where a value should stand"]
    );
    assert_eq!(
        told("<project/>"),
        [
            "project: broken at line 1, column 1: a value should stand here: text in double quotes, a number, a list or a group"
        ]
    );
    let problems = hodful_project_file::read(b"{\"name\": \"\xff\"}").unwrap_err();
    assert_eq!(
        problems.iter().map(ToString::to_string).collect::<Vec<_>>(),
        ["name: broken at line 1, column 11: the text is not UTF-8 here; save the file as UTF-8"]
    );
}

#[test]
fn what_was_wrong_before_the_break_is_told_too() {
    let told = told("{ \"name\": 7, \"units\": \"feet\",\n \"walls\": [ }");
    assert_eq!(told.len(), 3, "{told:?}");
    assert!(
        told[2].starts_with("wall number 1: broken at line 2, column 13: "),
        "{told:?}"
    );
}

#[test]
fn groups_too_deep_are_refused_and_not_followed() {
    let deep = "[".repeat(100_000);
    assert_eq!(told(&deep).len(), 1);
    let deep = format!("{{\"walls\": {deep}");
    assert_eq!(told(&deep).len(), 1);
}

#[test]
fn a_byte_order_mark_is_passed_over() {
    assert_eq!(told(&format!("\u{feff}{}", crate::SMALL)), [""; 0]);
}
