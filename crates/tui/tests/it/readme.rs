//! What the front page says of the screen is what there is.

use hodful_tui::command::{COMMANDS, Id};
use hodful_tui::entry::GRAMMAR;
use hodful_tui::keymap::Keymap;
use std::path::Path;

fn readme() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../README.md");
    std::fs::read_to_string(path).unwrap()
}

#[test]
fn the_grammar_stands_there_line_by_line() {
    let readme = readme();
    for (line, meaning) in GRAMMAR {
        let row = format!("| `{line}` | {meaning} |");
        assert!(readme.contains(&row), "the README lacks\n{row}");
    }
    assert_eq!(GRAMMAR.len(), 10);
}

#[test]
fn the_keys_it_names_are_those_of_the_table() {
    let readme = readme();
    let keymap = Keymap::default();
    for (key, id) in [
        ("m", Id::SetMark),
        ("B", Id::Base),
        ("n", Id::Enter),
        ("t", Id::Tick),
        ("o", Id::Look),
        ("w", Id::Why),
        ("W", Id::WhyAny),
        ("u", Id::Undo),
        ("r", Id::Redo),
        ("x", Id::CopyFigures),
        ("F1", Id::Help),
        ("F2", Id::Commands),
        ("F9", Id::Mouse),
        ("q", Id::Quit),
        ("+", Id::Thicker),
        ("-", Id::Thinner),
    ] {
        assert!(
            readme.contains(&format!("`{key}`")),
            "the README does not name {key}"
        );
        let shown = keymap.shown(id);
        assert!(
            shown.split(", ").any(|own| own == key),
            "{} has the keys {shown}, not {key}",
            COMMANDS[id as usize].name
        );
    }
}
