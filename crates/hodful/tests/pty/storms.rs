//! Much at once: sizes, pastes, keys. Not here: how fast (see `benches/latency`).

use crate::terminal::{CTRL_L, CTRL_Q, Place};

#[test]
fn after_two_hundred_sizes_the_screen_is_as_if_drawn_anew() {
    const SIZES: u16 = 200;
    let place = Place::with_room();
    let mut terminal = place.open_room();
    terminal.settle();
    let before = terminal.frames_so_far();
    for step in 0..SIZES {
        terminal.resize(30 + step * 7 % 171, 8 + step * 5 % 53);
    }
    terminal.resize(120, 31);
    terminal.settle();
    let drawn = terminal.frames_so_far() - before;
    assert!(
        (1..=usize::from(SIZES) + 1).contains(&drawn),
        "{drawn} frames"
    );
    let text = terminal.text();
    assert!(text.contains(Place::NAME), "{text}");
    let before = terminal.frames_so_far();
    terminal.press(CTRL_L);
    terminal.frames(before + 1);
    assert_eq!(terminal.text(), text);
    terminal.press(CTRL_Q);
    terminal.ended().gave_the_terminal_back();
}

#[test]
fn a_paste_of_a_megabyte_ends_well() {
    let place = Place::with_room();
    let mut terminal = place.open_room();
    let text = "north 4.2m window 900 x 1200\r".repeat(1_000_000 / 29);
    terminal.press(&format!("\x1b[200~{text}\x1b[201~"));
    terminal.settle();
    terminal.reads(Place::NAME);
    let before = terminal.frames_so_far();
    terminal.press(CTRL_L);
    terminal.frames(before + 1);
    terminal.press(CTRL_Q);
    let ended = terminal.ended();
    assert!(ended.status.success(), "{:?}", ended.status);
    ended.gave_the_terminal_back();
}

/// More keys than fit into any buffer on their way, as when a book lies on the keyboard.
#[test]
fn keys_faster_than_frames_are_all_heard() {
    const KEYS: usize = 20_000;
    let place = Place::with_room();
    let mut terminal = place.open_room();
    let before = terminal.frames_so_far();
    terminal.press(&"\x1b[B\x1b[A".repeat(KEYS / 2));
    terminal.press(CTRL_Q);
    let ended = terminal.ended();
    assert!(ended.status.success(), "{:?}", ended.status);
    ended.gave_the_terminal_back();
    let drawn = ended.frames() - before;
    assert!(
        drawn < KEYS,
        "frames are drawn for many keys at once: {drawn}"
    );
}
