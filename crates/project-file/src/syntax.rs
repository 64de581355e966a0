//! Broken syntax, in words.
//!
//! Not here: files that are whole JSON and say the wrong things.

use ecow::{EcoString, eco_format};

/// What the JSON reader says, and what a person is told. The first that the message begins with.
const WORDS: &[(&str, &str)] = &[
    (
        "EOF while parsing a list",
        "the file ends inside a list; a ] and what follows it are missing",
    ),
    (
        "EOF while parsing an object",
        "the file ends inside a group; a } and what follows it are missing",
    ),
    (
        "EOF while parsing a string",
        "the file ends inside a text; a closing double quote and what follows it are missing",
    ),
    (
        "EOF while parsing a value",
        "the file ends where a value should stand",
    ),
    (
        "expected `:`",
        "a colon should stand between a key and its value",
    ),
    (
        "expected `,` or `]`",
        "a comma or a closing ] should stand here",
    ),
    (
        "expected `,` or `}`",
        "a comma or a closing } should stand here",
    ),
    (
        "expected ident",
        "a word other than true, false or null stands here; put text in double quotes",
    ),
    (
        "expected value",
        "a value should stand here: text in double quotes, a number, a list or a group",
    ),
    ("expected `\"`", "a double quote should stand here"),
    (
        "invalid escape",
        "a backslash stands before a letter it does not go with; write \\\\ for a backslash and \\\" for an inch mark",
    ),
    (
        "invalid number",
        "a number is not complete; put a dimension with its unit in double quotes",
    ),
    ("number out of range", "a number is too large"),
    (
        "invalid unicode code point",
        "the text is not UTF-8 here; save the file as UTF-8",
    ),
    (
        "control character",
        "a text runs over the end of its line, or holds a control character; close it with a double quote, and write \\n for a new line",
    ),
    (
        "key must be a string",
        "a key should stand here, in double quotes",
    ),
    (
        "lone leading surrogate",
        "an escape stands here that is half a character",
    ),
    (
        "trailing comma",
        "a comma stands after the last item; take it out",
    ),
    (
        "trailing characters",
        "something stands after the end of the project; take it out",
    ),
    (
        "unexpected end of hex escape",
        "an escape \\u is not complete",
    ),
    (
        "recursion limit exceeded",
        "groups stand inside groups too deep",
    ),
];

/// The message for broken syntax, with line and column.
pub(crate) fn message(broken: &serde_json::Error) -> EcoString {
    let (line, column) = (broken.line(), broken.column());
    let said = broken.to_string();
    let words = WORDS.iter().find(|(start, _)| said.starts_with(start));
    let words = words.map_or("the text is not JSON", |(_, words)| words);
    if column == 0 && line > 1 {
        return eco_format!("broken at the end of line {}: {words}", line - 1);
    }
    eco_format!("broken at line {line}, column {column}: {words}")
}
