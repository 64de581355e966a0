//! Work that was not saved is there again after any end, and goes away when it is no longer wanted.
//! Not here: the bytes of the journal (see `project-file`).

use crate::terminal::{CTRL_Q, CTRL_S, Place, Terminal};
use rustix::process::Signal;

/// The demo project with its first coat, of 3/8 in, made thicker by one step.
fn with_a_change(place: &Place) -> Terminal {
    let mut terminal = place.open_room();
    terminal.press("3");
    terminal.reads("Build-ups");
    terminal.press("+");
    terminal.until("the coat is thicker", |screen| {
        is_thicker(&screen.contents())
    });
    terminal
}

/// The first `base` in the list at the left is the coat that is changed.
fn is_thicker(text: &str) -> bool {
    text.contains("Build-ups")
        && text
            .lines()
            .find_map(|line| line.trim_start_matches(['>', ' ']).strip_prefix("base "))
            .is_some_and(|rest| rest.trim_start().starts_with("1/2\""))
}

/// Opens it again, takes back what is offered, and finds the change.
fn is_offered_and_taken_back(place: &Place) -> Terminal {
    let mut terminal = place.hodful(&["room.hodful.json"]);
    terminal.reads("Bring it back?");
    terminal.press("b");
    terminal.until("the question is answered", |screen| {
        !screen.contents().contains("Bring it back?")
    });
    terminal.press("3");
    terminal.until("the change is there again", |screen| {
        is_thicker(&screen.contents())
    });
    terminal
}

/// Opens it again, and nothing is asked.
fn nothing_is_offered(place: &Place) {
    let mut terminal = place.open_room();
    terminal.settle();
    let text = terminal.text();
    assert!(!text.contains("Bring it back?"), "{text}");
    terminal.press(CTRL_Q);
    assert!(terminal.ended().status.success());
}

#[test]
fn killed_without_a_word_its_work_is_offered_at_the_next_start() {
    let place = Place::with_room();
    let before = std::fs::read(place.path("room.hodful.json")).unwrap();
    let mut terminal = with_a_change(&place);
    // The journal is written off the path of the keys; this is far longer than it takes.
    terminal.settle();
    terminal.signal(Signal::KILL);
    let ended = terminal.ended();
    assert_eq!(ended.status.signal(), Some("Killed"));
    let after = std::fs::read(place.path("room.hodful.json")).unwrap();
    assert!(before == after, "the file is as it was");

    // Taken back and killed again, it is offered again.
    let mut terminal = is_offered_and_taken_back(&place);
    terminal.settle();
    terminal.signal(Signal::KILL);
    terminal.ended();

    let mut terminal = is_offered_and_taken_back(&place);
    terminal.press(CTRL_S);
    terminal.reads("Saved to");
    terminal.press(CTRL_Q);
    assert!(terminal.ended().status.success());
    nothing_is_offered(&place);
}

#[test]
fn ended_by_a_signal_its_work_is_offered_at_the_next_start() {
    for signal in [Signal::TERM, Signal::HUP] {
        let place = Place::with_room();
        let terminal = with_a_change(&place);
        terminal.signal(signal);
        terminal.ended().gave_the_terminal_back();
        is_offered_and_taken_back(&place);
    }
}

#[test]
fn when_its_terminal_goes_away_its_work_is_offered_at_the_next_start() {
    let place = Place::with_room();
    with_a_change(&place).close();
    is_offered_and_taken_back(&place);
}

#[test]
fn what_is_dropped_on_leaving_is_gone() {
    let place = Place::with_room();
    let mut terminal = with_a_change(&place);
    terminal.press(CTRL_Q);
    terminal.reads("drop the changes and quit");
    terminal.press("d");
    terminal.press("\r");
    let ended = terminal.ended();
    assert!(ended.status.success());
    ended.gave_the_terminal_back();
    nothing_is_offered(&place);
}
