//! A project from nothing to its order, by keys alone. Not here: whether the figures are right.

use crate::terminal::{CTRL_Q, CTRL_S, Place, Terminal};

const ENTER: &str = "\r";
const ESC: &str = "\x1b";

/// The totals at the foot of the screen: each label with the value below it.
fn totals(text: &str) -> Vec<(String, String)> {
    let cells = |line: &str| -> Vec<String> {
        line.split("  ")
            .map(str::trim)
            .filter(|cell| !cell.is_empty())
            .map(str::to_owned)
            .collect()
    };
    let mut lines = text
        .lines()
        .skip_while(|line| !line.starts_with("surface "));
    let labels = cells(lines.next().unwrap_or_default());
    let values = cells(lines.next().unwrap_or_default());
    std::iter::zip(labels, values).collect()
}

#[track_caller]
fn type_line(terminal: &mut Terminal, line: &str) {
    terminal.press(line);
    terminal.reads(line);
    terminal.press(ENTER);
    terminal.until("the line is taken", |screen| {
        !screen.contents().contains(line)
    });
}

#[test]
fn a_project_is_built_by_keys_alone_and_the_order_says_what_the_screen_said() {
    let place = Place::new();
    let mut terminal = place.hodful(&["barn.hodful.json"]);
    terminal.resize(120, 40);
    terminal.reads("begin it");
    terminal.press("b");
    terminal.until("the question is answered", |screen| {
        !screen.contents().contains("begin it")
    });
    type_line(&mut terminal, "plan 36' x 24' high 9' thick 18\"");
    terminal.reads("4 walls");
    type_line(&mut terminal, "window 4' x 3' sill 2'8\"");
    type_line(&mut terminal, "door 3' x 6'8\" at 2'");
    terminal.press(ESC);
    // Told apart from a key with Alt by the time that passes.
    terminal.reads("n: type a plan");
    terminal.press(CTRL_S);
    terminal.reads("Saved to barn.hodful.json");
    let text = terminal.text();
    let totals = totals(&text);
    let total = |label: &str| -> &str {
        totals
            .iter()
            .find(|(known, _)| known == label)
            .map_or_else(|| panic!("no {label} in\n{text}"), |(_, value)| value)
    };
    terminal.press(CTRL_Q);
    let ended = terminal.ended();
    assert!(ended.status.success(), "{:?}", ended.status);
    ended.gave_the_terminal_back();

    let said = |arguments: &[&str]| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_hodful"))
            .args(arguments)
            .current_dir(place.path("."))
            .output()
            .unwrap();
        assert!(output.status.success(), "{output:?}");
        String::from_utf8(output.stdout).unwrap()
    };
    let order = said(&["order", "barn.hodful.json"]);
    let measure = said(&["measure", "barn.hodful.json"]);
    // The last line of a table that begins with a word.
    let line = |table: &str, word: &str| -> Vec<String> {
        let line = table
            .lines()
            .find(|line| line.split_whitespace().next() == Some(word))
            .unwrap_or_else(|| panic!("no {word} in\n{table}"));
        line.split_whitespace().map(str::to_owned).collect()
    };
    let all = line(&order, "All");
    assert_eq!(
        all.last().map(String::as_str),
        Some(total("batches")),
        "{order}"
    );
    let surface = total("surface").strip_suffix(" ft²").unwrap();
    assert_ne!(surface, "0.0");
    assert!(
        line(&measure, "All").iter().any(|cell| cell == surface),
        "{surface}\n{measure}"
    );
    let straw = total("fibre").strip_suffix(" lb").unwrap();
    assert_ne!(straw, "0.0");
    assert!(
        order
            .lines()
            .any(|line| line.starts_with("chopped straw") && line.contains(straw)),
        "{straw}\n{order}"
    );
}

/// `Saltcedar ro` is `U2FsdGNlZGFyIHJv` in base64 (RFC 4648), and more follows.
#[test]
fn the_totals_go_to_the_clipboard_of_the_terminal() {
    let place = Place::with_room();
    let mut terminal = place.open_room();
    terminal.press("x");
    terminal.reads("Sent to the clipboard");
    assert!(terminal.sent().contains("\x1b]52;c;U2FsdGNlZGFyIHJv"));
    terminal.press(CTRL_Q);
    assert!(terminal.ended().status.success());
}
