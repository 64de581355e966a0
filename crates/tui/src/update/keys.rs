//! From a key to a command, or to a letter of what is being typed. Not here: what commands do.

use super::{entry_line, fields, popups, run};
use crate::command::{Id, Layer, layers};
use crate::effect::Effect;
use crate::keymap::{pressed, typed};
use crate::state::{Focus, State};
use crokey::{KeyCombination, OneToThree};
use ratatui::crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use tui_input::{Input, InputRequest};

/// What follows from a key.
pub(super) fn key(state: &mut State, event: KeyEvent) -> Vec<Effect> {
    let Some(key) = pressed(event) else {
        return Vec::new();
    };
    state.notice = None;
    state.drag = None;
    let effects = pressed_key(state, key);
    if !matches!(state.last, Some(Id::Thicker | Id::Thinner)) {
        state.doc.end_run();
    }
    effects
}

fn pressed_key(state: &mut State, key: KeyCombination) -> Vec<Effect> {
    state.last = None;
    if let Some(effects) = popups::own_key(state, key) {
        return effects;
    }
    let layers = layers(state);
    let types = takes_text(state);
    let own = layers.split_first().map_or(&[][..], |(_, _)| &layers[..1]);
    if types {
        // The layer that types comes first, then the letters and the keys that move in the line, then
        // what works everywhere.
        // In a box that is typed into, left and right move in its line.
        let whole = |id: &Id| state.popup().is_none() || matches!(id, Id::Accept | Id::Close);
        if let Some(id) = state.keymap.command(key, own).filter(whole) {
            return run::run(state, id);
        }
        if let Some(request) = request(key) {
            return type_in(state, request);
        }
        if let Some(id) = state.keymap.command(key, layers) {
            return run::run(state, id);
        }
        return Vec::new();
    }
    let letter_begins = state.popup().is_none() && state.focus == Focus::Fields && !state.read_only;
    if letter_begins {
        if let Some(id) = state.keymap.command(key, own) {
            return run::run(state, id);
        }
        if let Some(letter) = typed(key).filter(|letter| !letter.is_control()) {
            return fields::begin(state, Some(letter));
        }
    }
    match state.keymap.command(key, layers) {
        Some(id) => run::run(state, id),
        None => Vec::new(),
    }
}

/// Whether letters are typed into something.
fn takes_text(state: &State) -> bool {
    match state.popup() {
        Some(popup) => popup.takes_text(),
        None => matches!(layers(state).first(), Some(Layer::Typing | Layer::Entry)),
    }
}

fn type_in(state: &mut State, request: InputRequest) -> Vec<Effect> {
    if state.popup().is_some() {
        popups::typed(state, request)
    } else if state.focus == Focus::Entry {
        entry_line::typed(state, request)
    } else {
        fields::typed(state, request)
    }
}

/// Whether a key does something to a line that is typed.
pub(crate) fn is_of_the_line(key: KeyCombination) -> bool {
    request(key).is_some()
}

/// What a key does to a line that is typed.
fn request(key: KeyCombination) -> Option<InputRequest> {
    if let Some(letter) = typed(key) {
        return (!letter.is_control()).then_some(InputRequest::InsertChar(letter));
    }
    let OneToThree::One(code) = key.codes else {
        return None;
    };
    let control = key.modifiers == KeyModifiers::CONTROL;
    let plain = key.modifiers == KeyModifiers::NONE;
    match code {
        KeyCode::Backspace if plain => Some(InputRequest::DeletePrevChar),
        KeyCode::Backspace => Some(InputRequest::DeletePrevWord),
        KeyCode::Delete if plain => Some(InputRequest::DeleteNextChar),
        KeyCode::Delete => Some(InputRequest::DeleteNextWord),
        KeyCode::Left if plain => Some(InputRequest::GoToPrevChar),
        KeyCode::Left if control => Some(InputRequest::GoToPrevWord),
        KeyCode::Right if plain => Some(InputRequest::GoToNextChar),
        KeyCode::Right if control => Some(InputRequest::GoToNextWord),
        KeyCode::Home if plain => Some(InputRequest::GoToStart),
        KeyCode::End if plain => Some(InputRequest::GoToEnd),
        KeyCode::Char('a') if control => Some(InputRequest::GoToStart),
        KeyCode::Char('e') if control => Some(InputRequest::GoToEnd),
        KeyCode::Char('w') if control => Some(InputRequest::DeletePrevWord),
        KeyCode::Char('u') if control => Some(InputRequest::DeleteLine),
        KeyCode::Char('k') if control => Some(InputRequest::DeleteTillEnd),
        _ => None,
    }
}

/// Puts a text into a line at its cursor.
pub(super) fn put(input: &mut Input, text: &str) {
    for letter in text.chars() {
        input.handle(InputRequest::InsertChar(letter));
    }
}
