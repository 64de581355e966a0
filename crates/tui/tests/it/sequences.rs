//! Any sequence of messages: nothing panics, the project stays one that a file can hold, and undo leads
//! back to the start.

use crate::driver::Driver;
use hodful_tui::command::COMMANDS;
use hodful_tui::keymap::chord;
use hodful_tui::{Effect, Message};
use proptest::prelude::*;
use proptest::sample::select;
use ratatui::crossterm::event::{
    KeyCode, KeyEvent, KeyModifiers, MouseButton, MouseEvent, MouseEventKind,
};

/// One message of any kind. Leaving is one of them: the test goes on behind it.
fn message() -> impl Strategy<Value = Message> {
    let keys: Vec<KeyEvent> = COMMANDS
        .iter()
        .flat_map(|command| command.keys)
        .filter_map(|key| chord(key).ok())
        .filter_map(|key| match key.codes {
            crokey::OneToThree::One(code) => Some(KeyEvent::new(code, key.modifiers)),
            _ => None,
        })
        .collect();
    let lines = [
        "plan 20' x 16' high 9' thick 18\"",
        "window 4' x 3' at 6' sill 2'8\"",
        "door 3' x 6'8\" at 1'",
        "12' 6",
        "3/4\"",
        "22 %",
        "x\u{1b}[200~",
        "日本",
        "",
        "9999999999999 km",
        "-3'",
        "scratch",
        "40 mm",
        "2 h",
        "18 C",
        "2026-05-04",
        "8 % to 12 %",
        "2 to 3",
        "2 mm 98 %; 0.06 mm 40 %",
        "2 mm 90 % to 100 %; 0.5 mm 40 % to 60 %",
        "3 m3",
        "55",
    ];
    let letters = prop_oneof![
        any::<char>().prop_map(KeyCode::Char),
        select(vec!['1', '2', '\'', '"', ' ', 'x', 'w', '/']).prop_map(KeyCode::Char),
        Just(KeyCode::Backspace),
    ];
    let mouse = (0..130_u16, 0..45_u16, 0..5).prop_map(|(column, row, kind)| {
        let kind = match kind {
            0 => MouseEventKind::Down(MouseButton::Left),
            1 => MouseEventKind::Drag(MouseButton::Left),
            2 => MouseEventKind::Up(MouseButton::Left),
            3 => MouseEventKind::ScrollUp,
            _ => MouseEventKind::ScrollDown,
        };
        Message::Mouse(MouseEvent {
            kind,
            column,
            row,
            modifiers: KeyModifiers::NONE,
        })
    });
    prop_oneof![
        10 => select(keys).prop_map(Message::Key),
        4 => letters.prop_map(|code| Message::Key(KeyEvent::new(code, KeyModifiers::NONE))),
        2 => select(lines.to_vec()).prop_map(|line| Message::Paste(line.to_owned())),
        1 => mouse,
        1 => (0..200_u16, 0..60_u16).prop_map(|(columns, rows)| Message::Resized(columns, rows)),
        1 => Just(Message::Resumed),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, max_shrink_iters: 300, ..ProptestConfig::default() })]

    #[test]
    fn any_500_messages_keep_the_project_whole_and_undo_leads_back(
        messages in prop::collection::vec(message(), 500),
        demo in select(vec!["thistlebank-workshop", "saltcedar-room", "marlpit-barn"]),
    ) {
        let mut driver = Driver::demo(demo);
        let begin = driver.project().clone();
        for (at, message) in messages.into_iter().enumerate() {
            driver.send(message);
            if at % 50 == 0 {
                driver.cells(80, 24);
            }
        }
        // What is there can be written and read again to the letter.
        let bytes = hodful_project_file::write(driver.project());
        let read = hodful_project_file::read(&bytes).map_err(|problems| TestCaseError::fail(format!("{problems:?}")))?;
        prop_assert_eq!(&read, driver.project());
        // The journal was told of every change: played again it gives the same.
        let mut played = begin.clone();
        for effect in &driver.effects {
            if let Effect::Record { before, after } = effect {
                prop_assert_eq!(&**before, &played);
                played = (**after).clone();
            }
        }
        prop_assert_eq!(&played, driver.project());
        // Back to the start.
        while driver.state.popup().is_some() {
            driver.key("esc");
        }
        driver.key("esc").key("esc").key("1");
        while driver.state.doc().next_undo().is_some() {
            driver.key("u");
        }
        prop_assert_eq!(driver.project(), &begin);
    }
}
