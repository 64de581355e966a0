//! Stopped by a key or a signal and woken again by the shell, as a job of a real shell. Not here: ending.

use crate::terminal::{CTRL_Q, CTRL_Z, Place, Terminal};
use rustix::process::{Pid, Signal, kill_process};

/// Sets a prompt that nothing else shows, and starts the program as a job.
fn as_a_job(place: &Place) -> Terminal {
    let mut command = place.command("/bin/sh", &["-i", "-m"]);
    command.env("PS1", "ready: ");
    let mut shell = Terminal::run(command);
    shell.reads("ready:");
    let hodful = env!("CARGO_BIN_EXE_hodful");
    shell.press(&format!(
        "sh -c 'echo $$ > number; exec \"{hodful}\" room.hodful.json'\r"
    ));
    is_shown(&mut shell);
    shell
}

#[track_caller]
fn is_shown(shell: &mut Terminal) {
    shell.until("the room is shown", |screen| {
        screen.alternate_screen()
            && screen.bracketed_paste()
            && screen.contents().contains(Place::NAME)
    });
}

#[track_caller]
fn the_shell_has_it(shell: &mut Terminal) {
    shell.until("the shell has the terminal", |screen| {
        !screen.alternate_screen()
            && !screen.bracketed_paste()
            && !screen.hide_cursor()
            && screen.contents().trim_end().ends_with("ready:")
    });
}

/// The shell has the terminal, in order, and hears every key.
#[track_caller]
fn the_shell_hears(shell: &mut Terminal, words: &str) {
    the_shell_has_it(shell);
    let (begin, end) = words.split_at(words.len() / 2);
    shell.press(&format!("echo {begin}''{end}\r"));
    shell.reads(words);
}

/// The process of the job.
fn process(place: &Place) -> Pid {
    let number = std::fs::read_to_string(place.path("number")).unwrap();
    Pid::from_raw(number.trim().parse().unwrap()).unwrap()
}

#[track_caller]
fn leave(mut shell: Terminal) {
    shell.press(CTRL_Q);
    the_shell_hears(&mut shell, "left-in-order");
    shell.press("exit\r");
    shell.ended().gave_the_terminal_back();
}

#[test]
fn control_z_stops_it_and_the_shell_brings_it_back() {
    let place = Place::with_room();
    let mut shell = as_a_job(&place);
    for words in ["first-words", "second-words"] {
        shell.press(CTRL_Z);
        the_shell_hears(&mut shell, words);
        shell.press("fg\r");
        is_shown(&mut shell);
    }
    leave(shell);
}

#[test]
fn a_script_that_started_it_stops_with_it() {
    let place = Place::with_room();
    let hodful = env!("CARGO_BIN_EXE_hodful");
    std::fs::write(
        place.path("script"),
        format!("'{hodful}' room.hodful.json\necho script''-ends\n"),
    )
    .unwrap();
    let mut command = place.command("/bin/sh", &["-i", "-m"]);
    command.env("PS1", "ready: ");
    let mut shell = Terminal::run(command);
    shell.reads("ready:");
    shell.press("sh ./script\r");
    is_shown(&mut shell);
    shell.press(CTRL_Z);
    the_shell_hears(&mut shell, "meanwhile");
    shell.press("fg\r");
    is_shown(&mut shell);
    shell.press(CTRL_Q);
    shell.reads("script-ends");
}

#[test]
fn a_signal_stops_it_like_the_key() {
    let place = Place::with_room();
    let mut shell = as_a_job(&place);
    let job = process(&place);
    kill_process(job, Signal::TSTP).unwrap();
    the_shell_hears(&mut shell, "after-the-signal");
    shell.press("fg\r");
    is_shown(&mut shell);
    leave(shell);
}

#[test]
fn stopped_without_being_asked_it_draws_anew_and_still_gives_everything_back() {
    let place = Place::with_room();
    let mut shell = as_a_job(&place);
    let job = process(&place);
    kill_process(job, Signal::STOP).unwrap();
    shell.reads("ready: ");
    // A shell may leave lines and keys as they are, so that only a bare line feed ends a line.
    shell.press("echo un''asked\n");
    shell.reads("unasked");
    shell.press("fg\n");
    shell.until("the words of the shell are gone", |screen| {
        screen.contents().contains(Place::NAME) && !screen.contents().contains("unasked")
    });
    leave(shell);
}

#[test]
fn ended_while_it_is_stopped_it_ends_without_touching_the_terminal() {
    let place = Place::with_room();
    let mut shell = as_a_job(&place);
    shell.press(CTRL_Z);
    the_shell_has_it(&mut shell);
    let job = process(&place);
    kill_process(job, Signal::TERM).unwrap();
    kill_process(job, Signal::CONT).unwrap();
    // The shell tells of it before one of its next prompts.
    while !shell.text().contains("Terminated") {
        shell.press("\r");
        shell.settle();
    }
    the_shell_hears(&mut shell, "still-in-order");
    let text = shell.text();
    assert!(!text.contains(Place::NAME), "{text}");
    shell.press("exit\r");
    shell.ended().gave_the_terminal_back();
}

/// Without a shell nobody would wake it: in a terminal of its own it must not stop.
#[test]
fn it_does_not_stop_where_nobody_could_wake_it() {
    let place = Place::with_room();
    let mut terminal = place.open_room();
    let before = terminal.frames_so_far();
    terminal.press(CTRL_Z);
    terminal.frames(before + 1);
    terminal.signal(Signal::TSTP);
    terminal.frames(before + 2);
    terminal.press(CTRL_Q);
    terminal.ended().gave_the_terminal_back();
}
