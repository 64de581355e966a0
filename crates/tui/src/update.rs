//! The one place that changes the state. Total and pure: no clock, file, random number or terminal; what
//! is to be done outside is given back as effects.

mod alter;
mod entry_line;
mod fields;
mod follow;
mod keys;
mod make;
mod mirror;
mod mouse;
mod moves;
mod on_site;
mod outlook;
mod popups;
mod run;
mod saving;
mod why;

use crate::doc::Label;
use crate::effect::Effect;
use crate::message::Message;
use crate::state::State;
use crate::text::clean;
use ecow::EcoString;
use hodful_takeoff::form::Subject;
use hodful_takeoff::{Project, Severity};
use std::sync::Arc;

pub(crate) use keys::is_of_the_line;
pub(crate) use popups::found_commands;

/// An opening that is dragged with the mouse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drag {
    /// The opening.
    pub subject: Subject,
    /// The cell it was taken hold of at: column and row.
    pub at: (u16, u16),
    /// Its distance from the left and its sill then, mm.
    pub begin: [f64; 2],
    /// What a cell to the right and a cell up are, mm: kept, so that nothing jumps when the drawing is
    /// fitted anew.
    pub cell: [f64; 2],
}

/// What follows from a message. Total: any message in any state.
pub fn update(state: &mut State, message: Message) -> Vec<Effect> {
    let before = (Arc::as_ptr(state.project()), state.subject());
    let mut effects = follow(state, message);
    let after = (Arc::as_ptr(state.project()), state.subject());
    if before != after {
        read_anew(state);
    }
    state.replan();
    effects.extend(state.rework());
    effects
}

/// What is being typed means something else when the project is another one, or another thing is chosen.
fn read_anew(state: &mut State) {
    if state.typing().is_some() {
        fields::read(state);
    }
    if state.focus() == crate::state::Focus::Entry {
        state.read_entry();
    }
}

fn follow(state: &mut State, message: Message) -> Vec<Effect> {
    match message {
        Message::Key(event) => keys::key(state, event),
        Message::Paste(text) => paste(state, &text),
        Message::Mouse(event) => mouse::mouse(state, event),
        Message::Resized(columns, rows) => {
            state.size = (columns, rows);
            Vec::new()
        }
        Message::Saved { id, outcome } => saving::saved(state, id, outcome),
        Message::Looked { id, problems } => {
            if id == state.looking {
                state.doc.set_problems(problems);
                state.relocate();
                state.refresh();
            }
            Vec::new()
        }
        Message::Blended { id, blending } => {
            state.blended(id, *blending);
            Vec::new()
        }
        Message::Supplied { id, supply } => {
            state.planned(id, *supply);
            Vec::new()
        }
        Message::Compared { id, compared } => {
            state.came_compared(id, *compared);
            Vec::new()
        }
        Message::Foreseen { id, foreseen } => {
            state.came_foreseen(id, *foreseen);
            Vec::new()
        }
        Message::OnSite { id, on_site } => {
            state.came_on_site(id, *on_site);
            Vec::new()
        }
        Message::JournalFailed(words) => {
            state.complain(ecow::eco_format!(
                "The work cannot be kept safe against a crash: {words}. Save often"
            ));
            Vec::new()
        }
        Message::Copied(Ok(())) => {
            state.say("Sent to the clipboard; some terminals want it allowed first");
            Vec::new()
        }
        Message::Copied(Err(words)) => {
            state.complain(words);
            Vec::new()
        }
        Message::Ending => vec![Effect::Quit {
            keep: state.doc.is_changed() && !state.read_only,
        }],
        Message::Resumed => vec![Effect::Redraw],
    }
}

/// A pasted text goes into a field that is typed, and nowhere else: it must never play as keys.
fn paste(state: &mut State, text: &str) -> Vec<Effect> {
    /// Far more than any field or entry line takes.
    const MOST: usize = 2000;
    let text: String = clean(text).chars().take(MOST).collect();
    if state.popup().is_some() {
        popups::insert(state, &text)
    } else {
        match state.focus() {
            crate::state::Focus::Entry => entry_line::insert(state, &text),
            crate::state::Focus::Fields if state.typing().is_some() => fields::insert(state, &text),
            crate::state::Focus::Fields if !state.is_read_only() && state.subject().is_some() => {
                let _ = fields::begin(state, None);
                fields::anew(state, &text)
            }
            _ => {
                state.complain("A text was pasted, but no field is being typed; nothing was done");
                Vec::new()
            }
        }
    }
}

/// Changes the project. Gives what `f` gave, and what must be done outside.
fn edit<T>(
    state: &mut State,
    label: Label,
    f: impl FnOnce(&mut Project) -> Result<T, EcoString>,
) -> Result<(T, Vec<Effect>), EcoString> {
    if state.read_only {
        return Err("the file is broken, so that it can be looked at only".into());
    }
    let (made, before) = state.doc.edit(label, f)?;
    let effects = before.map_or_else(Vec::new, |before| changed(state, before));
    Ok((made, effects))
}

/// As [`edit`], with a fault said at the foot of the screen.
fn try_edit(
    state: &mut State,
    label: Label,
    f: impl FnOnce(&mut Project) -> Result<(), EcoString>,
) -> Vec<Effect> {
    let done = edit(state, label, f).map(|((), effects)| effects);
    or_complain(state, done)
}

/// Says it when what was just done is refused where it stands.
fn warn(state: &mut State, subject: Subject) {
    if !state.doc.refusals_changed() {
        return;
    }
    let whole = |of: Subject| match of {
        Subject::Opening { wall, .. } | Subject::Pocket { wall, .. } => Subject::Wall(wall),
        Subject::Coat { build_up, .. } => Subject::BuildUp(build_up),
        of => of,
    };
    let here = state.located.subjects.iter().zip(state.doc.problems());
    let found = here
        .filter(|(_, problem)| problem.severity == Severity::Refused)
        .find(|(of, _)| whole(**of) == whole(subject))
        .map(|(_, problem)| ecow::eco_format!("Done, but refused: {problem}"));
    if let Some(words) = found {
        state.complain(words);
    }
}

/// The effects, or words at the foot of the screen.
fn or_complain(state: &mut State, done: Result<Vec<Effect>, EcoString>) -> Vec<Effect> {
    done.unwrap_or_else(|words| {
        state.complain(words);
        Vec::new()
    })
}

/// What follows from a change of the project.
fn changed(state: &mut State, before: Arc<Project>) -> Vec<Effect> {
    let after = Arc::clone(state.project());
    state.relocate_after(&before);
    state.refresh();
    vec![Effect::Record { before, after }, state.look()]
}
