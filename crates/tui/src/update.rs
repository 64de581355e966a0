//! The one place that changes the state.

use crate::{Effect, Message, State};
use ratatui::crossterm::event::KeyCode;

/// What follows from a message. Total: any message in any state.
pub fn update(_state: &mut State, message: Message) -> Vec<Effect> {
    match message {
        Message::Key(key) if key.code == KeyCode::Char('q') => vec![Effect::Quit { keep: false }],
        Message::Ending => vec![Effect::Quit { keep: true }],
        _ => Vec::new(),
    }
}
