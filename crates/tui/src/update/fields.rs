//! Typing into a field: what is typed is kept, read at each key, and taken or left. Not here: which
//! fields there are.

use super::keys::put;
use super::moves::Move;
use super::{edit, follow, or_complain};
use crate::doc::Label;
use crate::effect::Effect;
use crate::state::{Focus, State, Typing};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Project;
use hodful_takeoff::form::{self, Kind, Row, Subject};
use hodful_takeoff::project::Name;
use std::collections::BTreeSet;
use std::mem::discriminant;
use std::sync::Arc;
use tui_input::{Input, InputRequest};

/// Begins to type into the chosen field: anew with a letter, or with what stands there.
pub(super) fn begin(state: &mut State, letter: Option<char>) -> Vec<Effect> {
    let (Some(subject), Some(row)) = (state.subject(), state.rows().get(state.field).cloned())
    else {
        return Vec::new();
    };
    let mut input = match letter {
        Some(_) => Input::default(),
        None => Input::new(row.text.as_deref().unwrap_or_default().to_owned()),
    };
    if let Some(letter) = letter {
        put(&mut input, letter.encode_utf8(&mut [0; 4]));
    }
    state.focus = Focus::Fields;
    state.typing = Some(Typing {
        subject,
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

/// A text put into the field in place of what stands there.
pub(super) fn anew(state: &mut State, text: &str) -> Vec<Effect> {
    if let Some(typing) = &mut state.typing {
        typing.input = Input::default();
    }
    insert(state, text)
}

/// Reads what is typed: what it means, and the project as it would be.
pub(super) fn read(state: &mut State) {
    let units = state.units();
    let project = Arc::clone(state.project());
    let many = state.typing.as_ref().map_or(1, |typing| {
        targets(state, typing.subject, &typing.row.key).len()
    });
    let Some(typing) = &mut state.typing else {
        return;
    };
    let text = typing.input.value().trim().to_owned();
    let row = &typing.row;
    typing.understood = if text.is_empty() && !row.optional {
        Err(eco_format!("{} must be given", row.label))
    } else if text.is_empty() {
        Ok(match &row.default {
            Some(default) => format!("empty: {default}"),
            None => "empty".to_owned(),
        })
    } else {
        form::understand(&row.kind, &text, units).map(|understood| {
            let unit = match units {
                UnitSystem::Us => "inches",
                UnitSystem::Metric => "millimetres",
            };
            if row.kind == Kind::Length && understood.stored != text {
                format!("{}: a bare number is {unit}", understood.shown)
            } else {
                understood.shown
            }
        })
    };
    if let (Ok(shown), true) = (&mut typing.understood, many > 1) {
        *shown = format!("{shown}; on all {many} that are ticked");
    }
    typing.preview = match &typing.understood {
        Ok(_) => {
            let mut changed = Project::clone(&project);
            let whole = match &row.kind {
                Kind::OneOf(_) if !text.is_empty() => form::understand(&row.kind, &text, units)
                    .map_or_else(|_| text.as_str().into(), |understood| understood.stored),
                _ => EcoString::from(text.as_str()),
            };
            match form::set(&mut changed, typing.subject, &row.key, &whole) {
                Ok(()) => Some(Arc::new(changed)),
                Err(words) => {
                    typing.understood = Err(words);
                    None
                }
            }
        }
        Err(_) => None,
    };
}

/// Takes what is typed and moves on. A fault keeps the field open.
pub(super) fn commit(state: &mut State, then: Move) -> Vec<Effect> {
    let Some(typing) = state.typing.take() else {
        return Vec::new();
    };
    let text = typing.input.value().trim().to_owned();
    match set(state, typing.subject, &typing.row, &text) {
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
fn set(
    state: &mut State,
    subject: Subject,
    row: &Row,
    text: &str,
) -> Result<Vec<Effect>, EcoString> {
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
    let ticks = (row.kind == Kind::Id).then(|| renamed(state, subject, text));
    let old = std::mem::take(&mut state.walls.ticked);
    let walls: Vec<usize> = all
        .iter()
        .filter_map(|of| match of {
            Subject::Wall(wall) if row.key == "thickness" => Some(*wall),
            _ => None,
        })
        .collect();
    let neighbours = if walls.is_empty() {
        Vec::new()
    } else {
        follow::neighbours(state.project(), &walls)
    };
    let done = edit(state, label, |project| {
        for subject in &all {
            form::set(project, *subject, &row.key, text).map_err(|words| {
                if many > 1 {
                    eco_format!("{}: {words}", form::title(project, *subject))
                } else {
                    words
                }
            })?;
        }
        Ok(follow::insides(project, &neighbours))
    });
    state.walls.ticked = match (&done, ticks) {
        (Ok(_), Some(ticks)) => ticks,
        _ => old,
    };
    state.untick_gone();
    let (followed, effects) = done?;
    if followed > 0 {
        state.say(eco_format!(
            "Changed {} on {many}; {followed} insides that end there follow",
            row.label
        ));
    } else if many > 1 {
        state.say(eco_format!("Changed {} on {many} at once", row.label));
    } else if row.kind == Kind::Id && !effects.is_empty() {
        state.say(eco_format!(
            "{title} is now {}",
            form::title(state.project(), subject)
        ));
    }
    super::warn(state, subject);
    Ok(effects)
}

/// The ticks as they are when a thing has another id.
fn renamed(state: &State, subject: Subject, id: &str) -> BTreeSet<(Name, Option<Name>)> {
    let project = state.project();
    let of = |wall: usize| project.walls.get(wall).map(|wall| &wall.id);
    let ticked = state.walls.ticked.iter().cloned();
    match subject {
        Subject::Wall(wall) => ticked
            .map(|(own, opening)| match of(wall) {
                Some(old) if *old == own => (id.into(), opening),
                _ => (own, opening),
            })
            .collect(),
        Subject::Opening { wall, opening } => {
            let old = project
                .walls
                .get(wall)
                .and_then(|wall| wall.openings.get(opening));
            ticked
                .map(|(own, of_wall)| match old {
                    Some(old) if of(wall) == Some(&own) && of_wall.as_ref() == Some(&old.id) => {
                        (own, Some(id.into()))
                    }
                    _ => (own, of_wall),
                })
                .collect()
        }
        _ => ticked.collect(),
    }
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
    // What the filter hides is left alone.
    let shown = |at: usize| state.walls.filter.is_empty() || state.walls.shown_at(at).is_some();
    let is = |wall: &Name, opening: Option<&Name>| {
        state
            .walls
            .ticked
            .contains(&(wall.clone(), opening.cloned()))
    };
    let mut found = Vec::new();
    for (at, wall) in state
        .project()
        .walls
        .iter()
        .enumerate()
        .filter(|(at, _)| shown(*at))
    {
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
    let (Some(subject), Some(row)) = (state.subject(), state.rows().get(state.field).cloned())
    else {
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
    let done = set(state, subject, &row, next.as_deref().unwrap_or_default());
    or_complain(state, done)
}

/// Empties a field that may be empty.
pub(super) fn clear(state: &mut State) -> Vec<Effect> {
    let (Some(subject), Some(row)) = (state.subject(), state.rows().get(state.field).cloned())
    else {
        return Vec::new();
    };
    if !row.optional {
        state.complain(eco_format!("{} must be given", row.label));
        return Vec::new();
    }
    let done = set(state, subject, &row, "");
    or_complain(state, done)
}

/// Leaves a field as it was.
pub(super) fn restore(state: &mut State) {
    state.typing = None;
    state.focus = Focus::Fields;
}
