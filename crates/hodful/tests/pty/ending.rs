//! However the program ends, the terminal is given back as it was. Not here: what is kept (see `recovery`).

use crate::terminal::{CTRL_Q, Place, Terminal};
use hodful_takeoff::Project;
use hodful_tui::shell::{Guard, run};
use hodful_tui::{Keeper, Opened, SaveFault, Start, WeatherReader};
use rustix::process::Signal;
use std::path::Path;
use std::sync::Arc;
use vt100::MouseProtocolMode;

const F9: &str = "\x1b[20~";

#[test]
fn it_opens_and_is_left_with_the_terminal_as_it_was() {
    let place = Place::with_room();
    let mut terminal = place.open_room();
    terminal.until("pastes are told apart from keys", |screen| {
        screen.bracketed_paste()
    });
    terminal.press(CTRL_Q);
    let ended = terminal.ended();
    assert!(ended.status.success(), "{:?}", ended.status);
    ended.gave_the_terminal_back();
    assert_eq!(ended.text().trim(), "", "nothing is left on the screen");
}

#[test]
fn the_mouse_is_given_back_too() {
    let place = Place::with_room();
    let mut terminal = place.open_room();
    terminal.press(F9);
    terminal.until("it listens to the mouse", |screen| {
        screen.mouse_protocol_mode() != MouseProtocolMode::None
    });
    terminal.press(CTRL_Q);
    terminal.ended().gave_the_terminal_back();
}

#[test]
fn a_signal_ends_it_with_the_terminal_as_it_was() {
    for (signal, words) in [
        (Signal::TERM, "Terminated"),
        (Signal::HUP, "Hangup"),
        (Signal::INT, "Interrupt"),
    ] {
        let place = Place::with_room();
        let terminal = place.open_room();
        terminal.signal(signal);
        let ended = terminal.ended();
        ended.gave_the_terminal_back();
        // Whoever started it sees what it died of.
        let died_of = ended.status.signal().unwrap_or_default();
        assert!(died_of.starts_with(words), "{signal:?}: {:?}", ended.status);
    }
}

#[test]
fn it_ends_when_its_terminal_goes_away() {
    let place = Place::with_room();
    let status = place.open_room().close();
    assert!(!status.success(), "{status:?}");
}

#[test]
fn no_colour_leaves_no_colour_and_keeps_the_rest() {
    let place = Place::with_room();
    let mut command = place.command(env!("CARGO_BIN_EXE_hodful"), &["room.hodful.json"]);
    command.env("NO_COLOR", "1");
    let mut terminal = Terminal::run(command);
    terminal.reads(Place::NAME);
    terminal.press(CTRL_Q);
    let sent = terminal.ended().gave_the_terminal_back().sent.clone();
    for colour in ["\x1b[3", "\x1b[4"] {
        // 39 and 49 are the terminal's own colours; 4 alone underlines.
        let coloured = sent.match_indices(colour).any(|(at, _)| {
            let rest = sent.get(at + colour.len()..).unwrap_or_default();
            rest.starts_with(|next: char| next.is_ascii_digit() && next != '9')
        });
        assert!(!coloured, "{colour:?}: {sent:?}");
    }
}

/// Set for a test that runs itself in a terminal: what it is there.
const PART: &str = "HODFUL_TEST_PART";

/// This test program in a terminal, with one test and a part to play there.
fn play(place: &Place, test: &str, part: &str) -> Terminal {
    let this = std::env::current_exe().unwrap();
    let mut command = place.command(this, &[test, "--exact", "--nocapture", "--test-threads=1"]);
    command.env(PART, part);
    Terminal::run(command)
}

#[test]
fn a_panic_gives_the_terminal_back_and_can_be_read() {
    if std::env::var_os(PART).is_some() {
        let _guard = Guard::enter().unwrap();
        panic!("a coat fell off");
    }
    let place = Place::new();
    let test = "ending::a_panic_gives_the_terminal_back_and_can_be_read";
    let ended = play(&place, test, "panics").ended();
    ended.gave_the_terminal_back();
    assert!(ended.text().contains("a coat fell off"), "{}", ended.text());
    assert_eq!(ended.status.exit_code(), 101);
}

/// A keeper that panics on its own thread, whatever it is asked for.
struct Falling;

impl Keeper for Falling {
    fn save(&mut self, _: &Path, _: &Project, _: bool) -> Result<(), SaveFault> {
        panic!("the keeper fell off")
    }

    fn record(&mut self, _: &Project, _: &Project) -> Result<(), String> {
        panic!("the keeper fell off")
    }

    fn forget_found(&mut self) {
        panic!("the keeper fell off")
    }

    fn weather(&self) -> WeatherReader {
        Box::new(|_, _| panic!("the reader fell off"))
    }

    fn finish(&mut self, _: bool) {
        panic!("the keeper fell off")
    }
}

#[test]
fn a_panic_on_a_thread_ends_the_program_in_order() {
    if std::env::var_os(PART).is_some() {
        let mut project = hodful_project_file::starting_project();
        project.name = Place::NAME.into();
        let start = Start {
            path: None,
            project,
            opened: Opened::Unnamed,
            recovered: None,
            rules: Arc::new(hodful_project_file::rules()),
            cautions: hodful_project_file::cautions(),
            keymap: None,
            colour: true,
            signs: true,
            braille: true,
        };
        run(start, Box::new(Falling)).unwrap();
        return;
    }
    let place = Place::new();
    let test = "ending::a_panic_on_a_thread_ends_the_program_in_order";
    let mut terminal = play(&place, test, "panics");
    terminal.reads(Place::NAME);
    terminal.press(CTRL_Q);
    let ended = terminal.ended();
    ended.gave_the_terminal_back();
    assert!(
        ended.text().contains("the keeper fell off"),
        "{}",
        ended.text()
    );
    assert_eq!(ended.status.exit_code(), 101);
}
