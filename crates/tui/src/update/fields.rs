//! Typing into a field: what is typed is kept, read at each key, and taken or left. Not here: which
//! fields there are.

use super::edit;
use super::keys::put;
use super::moves::Move;
use crate::doc::Label;
use crate::effect::Effect;
use crate::state::{Focus, State, Typing};
use ecow::{EcoString, eco_format};
use hodful_takeoff::Project;
use hodful_takeoff::form::{self, Kind, Row, Subject};
use hodful_takeoff::project::Name;
use std::mem::discriminant;
use std::sync::Arc;
use tui_input::{Input, InputRequest};

/// Begins to type into the chosen field: anew with a letter, or with what stands there.
pub(super) fn begin(state: &mut State, letter: Option<char>) -> Vec<Effect> {
    let Some(row) = state.rows().get(state.field).cloned() else {
        return Vec::new();
    };
    let mut input = match letter {
        Some(_) => Input::default(),
        None => Input::new(row.text.as_deref().unwrap_or_default().to_owned()),
    };
    if let Some(letter) = letter {
        put(&mut input, letter.encode_utf8(&mut [0; 4]));
    }
    state.typing = Some(Typing {
        row,
        input,
        understood: Ok(String::new()),
        preview: None,
    });
    read(state);
    Vec::new()
}

/// A key typed into the field.
pub(super) fn typed(state: &mut State, request: InputRequest) -> Vec<Effect> {
    if let Some(typing) = &mut state.typing {
        typing.input.handle(request);
        read(state);
    }
    Vec::new()
}

/// A text put into the field.
pub(super) fn insert(state: &mut State, text: &str) -> Vec<Effect> {
    if let Some(typing) = &mut state.typing {
        put(&mut typing.input, text);
        read(state);
    }
    Vec::new()
}

/// Reads what is typed: what it means, and the project as it would be.
fn read(state: &mut State) {
    let units = state.units();
    let subject = state.subject();
    let project = Arc::clone(state.project());
    let Some(typing) = &mut state.typing else {
        return;
    };
    let text = typing.input.value().trim().to_owned();
    let row = &typing.row;
    typing.understood = if text.is_empty() && row.optional {
        Ok(match &row.default {
            Some(default) => format!("empty: {default}"),
            None => "empty".to_owned(),
        })
    } else {
        form::understand(&row.kind, &text, units).map(|understood| understood.shown)
    };
    typing.preview = match (&typing.understood, subject) {
        (Ok(_), Some(subject)) => {
            let mut changed = Project::clone(&project);
            let whole = match &row.kind {
                Kind::OneOf(_) if !text.is_empty() => form::understand(&row.kind, &text, units)
                    .map_or_else(|_| text.as_str().into(), |understood| understood.stored),
                _ => EcoString::from(text.as_str()),
            };
            match form::set(&mut changed, subject, &row.key, &whole) {
                Ok(()) => Some(Arc::new(changed)),
                Err(words) => {
                    typing.understood = Err(words);
                    None
                }
            }
        }
        _ => None,
    };
}

/// Takes what is typed and moves on. A fault keeps the field open.
pub(super) fn commit(state: &mut State, then: Move) -> Vec<Effect> {
    let Some(typing) = state.typing.take() else {
        return Vec::new();
    };
    let text = typing.input.value().trim().to_owned();
    match set(state, &typing.row, &text) {
        Ok(effects) => {
            // The rows may be others now: keep to the field.
            let rows = state.rows();
            let field = rows
                .iter()
                .position(|row| row.key == typing.row.key)
                .unwrap_or(state.field);
            state.field = then.from(field, rows.len());
            effects
        }
        Err(words) => {
            state.complain(words.clone());
            state.typing = Some(Typing {
                understood: Err(words),
                preview: None,
                ..typing
            });
            Vec::new()
        }
    }
}

/// Sets a field of what is chosen, and of all that is ticked when it is one of them.
pub(super) fn set(state: &mut State, row: &Row, text: &str) -> Result<Vec<Effect>, EcoString> {
    let Some(subject) = state.subject() else {
        return Ok(Vec::new());
    };
    let all = targets(state, subject, &row.key);
    // A word that was begun is stored whole.
    let whole = match &row.kind {
        Kind::OneOf(_) if !text.is_empty() => {
            form::understand(&row.kind, text, state.units())?.stored
        }
        _ => text.into(),
    };
    let text = whole.as_str();
    let title = form::title(state.project(), subject);
    let words = if all.len() > 1 {
        eco_format!("{} of {} at once", row.label, all.len())
    } else {
        eco_format!("{} of {title}", row.label)
    };
    let label = Label {
        words,
        before: Some(subject),
        after: Some(subject),
        merge: None,
    };
    let many = all.len();
    let ((), effects) = edit(state, label, |project| {
        for subject in &all {
            form::set(project, *subject, &row.key, text).map_err(|words| {
                if many > 1 {
                    eco_format!("{}: {words}", form::title(project, *subject))
                } else {
                    words
                }
            })?;
        }
        Ok(())
    })?;
    if many > 1 {
        state.say(eco_format!("Changed {} on {many} at once", row.label));
    }
    if row.kind == Kind::Id {
        retick(state, subject);
    }
    Ok(effects)
}

/// A thing whose id was changed stays ticked under the new one only when its old one is gone.
fn retick(state: &mut State, _subject: Subject) {
    let project = Arc::clone(state.project());
    state.walls.ticked.retain(|(wall, opening)| {
        project.walls.iter().any(|w| {
            w.id == *wall
                && opening
                    .as_ref()
                    .is_none_or(|o| w.openings.iter().any(|x| x.id == *o))
        })
    });
}

/// What a change of a field is for: what is chosen, and what is ticked when that is too and is of its
/// kind. An id is changed on one thing only.
fn targets(state: &State, subject: Subject, key: &str) -> Vec<Subject> {
    let ticked = ticked(state);
    if key == "id" || !ticked.contains(&subject) {
        return vec![subject];
    }
    ticked
        .into_iter()
        .filter(|other| discriminant(other) == discriminant(&subject))
        .filter(|other| {
            *other == subject
                || form::rows(state.project(), *other)
                    .iter()
                    .any(|row| row.key == key)
        })
        .collect()
}

/// Everything that is ticked, in the order of the project.
pub(super) fn ticked(state: &State) -> Vec<Subject> {
    if state.walls.ticked.is_empty() {
        return Vec::new();
    }
    let is = |wall: &Name, opening: Option<&Name>| {
        state
            .walls
            .ticked
            .contains(&(wall.clone(), opening.cloned()))
    };
    let mut found = Vec::new();
    for (at, wall) in state.project().walls.iter().enumerate() {
        if is(&wall.id, None) {
            found.push(Subject::Wall(at));
        }
        for (opening, of) in wall.openings.iter().enumerate() {
            if is(&wall.id, Some(&of.id)) {
                found.push(Subject::Opening { wall: at, opening });
            }
        }
    }
    found
}

/// Takes the next of the words that may stand in the field.
pub(super) fn next_choice(state: &mut State) -> Vec<Effect> {
    let Some(row) = state.rows().get(state.field).cloned() else {
        return Vec::new();
    };
    let Kind::OneOf(words) = &row.kind else {
        return begin(state, None);
    };
    let at = row
        .text
        .as_ref()
        .and_then(|text| words.iter().position(|word| word == text));
    let next = match at {
        Some(at) if at + 1 < words.len() => words.get(at + 1).cloned(),
        Some(_) if row.optional => None,
        _ => words.first().cloned(),
    };
    match set(state, &row, next.as_deref().unwrap_or_default()) {
        Ok(effects) => effects,
        Err(words) => {
            state.complain(words);
            Vec::new()
        }
    }
}

/// Empties a field that may be empty.
pub(super) fn clear(state: &mut State) -> Vec<Effect> {
    let Some(row) = state.rows().get(state.field).cloned() else {
        return Vec::new();
    };
    if !row.optional {
        state.complain(eco_format!("{} must be given", row.label));
        return Vec::new();
    }
    match set(state, &row, "") {
        Ok(effects) => effects,
        Err(words) => {
            state.complain(words);
            Vec::new()
        }
    }
}

/// Leaves a field as it was.
pub(super) fn restore(state: &mut State) {
    state.typing = None;
    state.focus = Focus::Fields;
}
