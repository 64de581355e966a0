//! The entry line: read at each key, shown as it would be, taken by Enter. Not here: its grammar.

use super::edit;
use super::keys::put;
use super::moves::choose;
use crate::doc::Label;
use crate::effect::Effect;
use crate::entry::{Context, Role, understand};
use crate::state::{Focus, Part, Screen, State};
use hodful_takeoff::Project;
use std::sync::Arc;
use tui_input::{Input, InputRequest};

impl State {
    /// Reads the entry line anew.
    pub(crate) fn read_entry(&mut self) {
        let project = Arc::clone(self.project());
        let context = Context {
            project: &project,
            wall: self.wall().is_some().then_some(self.walls.wall),
            opening: match self.walls.part {
                Part::Opening(opening) => Some(opening),
                Part::Wall | Part::Pocket(_) => None,
            },
        };
        let line = self.entry.input.value();
        let cursor = byte_of(line, self.entry.input.cursor());
        let reading = understand(line, cursor, &context);
        // Nothing is drawn for a line with a word in it that means nothing.
        let wrong = reading.spans.iter().any(|span| span.role == Role::Wrong);
        let change = reading.change.as_ref().filter(|_| !wrong);
        self.entry.preview = change.and_then(|change| {
            let mut changed = Project::clone(&project);
            let subject = change.apply(&mut changed)?;
            Some((Arc::new(changed), subject))
        });
        self.entry.reading = Some(reading);
    }
}

/// The byte at which a letter begins.
fn byte_of(line: &str, letter: usize) -> usize {
    line.char_indices()
        .nth(letter)
        .map_or(line.len(), |(at, _)| at)
}

/// Opens the line.
pub(super) fn open(state: &mut State) {
    if !matches!(state.screen, Screen::Walls | Screen::Plan) {
        state.screen = Screen::Walls;
    }
    state.typing = None;
    state.focus = Focus::Entry;
    state.entry.at = None;
    state.read_entry();
}

/// Leaves the line. What is typed can be brought back with the lines before.
pub(super) fn leave(state: &mut State) {
    state.focus = Focus::List;
    state.entry.preview = None;
    let line = state.entry.input.value().trim().to_owned();
    if !line.is_empty() {
        state.entry.lines.push(line);
        state.entry.input = Input::default();
    }
}

/// A key typed into the line.
pub(super) fn typed(state: &mut State, request: InputRequest) -> Vec<Effect> {
    state.entry.input.handle(request);
    state.read_entry();
    Vec::new()
}

/// A text put into the line.
pub(super) fn insert(state: &mut State, text: &str) -> Vec<Effect> {
    put(&mut state.entry.input, text);
    state.read_entry();
    Vec::new()
}

/// Completes the word at the cursor.
pub(super) fn complete(state: &mut State) -> Vec<Effect> {
    let rest = state
        .entry
        .reading
        .as_ref()
        .and_then(|reading| reading.completions.first())
        .map(|completion| completion.text.to_string());
    match rest {
        Some(rest) => insert(state, &rest),
        None => Vec::new(),
    }
}

/// Takes what the line says into the project.
pub(super) fn done(state: &mut State) -> Vec<Effect> {
    let line = state.entry.input.value().trim().to_owned();
    if line.is_empty() {
        leave(state);
        return Vec::new();
    }
    state.read_entry();
    let Some(reading) = state.entry.reading.take() else {
        return Vec::new();
    };
    let ready = reading.ready().cloned();
    let fault = reading.fault.clone();
    state.entry.reading = Some(reading);
    let Some(change) = ready else {
        state.complain(fault.map_or_else(
            || "The line says no wall and no opening yet".into(),
            |fault| fault.message,
        ));
        return Vec::new();
    };
    let label = Label {
        words: change.label(state.project()),
        before: state.subject(),
        ..Label::default()
    };
    let apply = |project: &mut Project| {
        change
            .apply(project)
            .ok_or_else(|| "the wall is not there any more".into())
    };
    match edit(state, label, apply) {
        Ok((subject, effects)) => {
            let words = (!effects.is_empty())
                .then(|| state.doc.set_after(subject))
                .flatten();
            choose(state, subject);
            state.refresh();
            if state.entry.lines.last() != Some(&line) {
                state.entry.lines.push(line);
            }
            state.entry.input = Input::default();
            state.entry.at = None;
            state.focus = Focus::Entry;
            state.read_entry();
            if let Some(words) = words {
                state.say(ecow::eco_format!("Done: {words}"));
            }
            super::warn(state, subject);
            effects
        }
        Err(words) => {
            state.complain(words);
            Vec::new()
        }
    }
}

/// Brings back a line that was taken before; `back` for the one before, else the one after, and behind the
/// last what was being typed.
pub(super) fn again(state: &mut State, back: bool) {
    let entry = &mut state.entry;
    let last = entry.lines.len().checked_sub(1);
    let at = match (entry.at, back, last) {
        (_, _, None) | (None, false, _) => return,
        (None, true, last) => {
            entry.draft = entry.input.value().to_owned();
            last
        }
        (Some(at), true, _) => Some(at.saturating_sub(1)),
        (Some(at), false, Some(last)) => (at < last).then_some(at + 1),
    };
    entry.at = at;
    let line = at
        .and_then(|at| entry.lines.get(at))
        .unwrap_or(&entry.draft);
    entry.input = Input::new(line.clone());
    state.read_entry();
}
