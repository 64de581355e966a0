//! Commands of the pages of options and of chances: what was tried is kept as an option, an option is taken
//! up, uncertain inputs and records are added. Not here: copying, moving and removing them (see `alter`).

use super::alter::make_new;
use crate::command::Id;
use crate::effect::Effect;
use crate::state::State;
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::read::Amount;
use hodful_takeoff::alternative;
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::project::{Delivered, Done, Name, Project, Uncertain, UncertainInput};
use std::sync::Arc;

/// Keeps what was changed since the mark as an option; the project is then as it was at the mark.
pub(super) fn keep(state: &mut State) -> Vec<Effect> {
    let mark = Arc::clone(&state.mark_project);
    let rules = Arc::clone(state.doc.bench().rules());
    let name = form::new_id(state.project(), "option");
    let kept = match alternative::kept(&mark, state.project(), &name, &rules) {
        Ok(Some(kept)) => kept,
        Ok(None) => {
            let key = |id| state.keymap.first(id);
            let (set, add) = (key(Id::SetMark), key(Id::Add));
            state.complain(eco_format!(
                "Nothing was changed since the mark. Press {set}, try something on the other pages, then come back and press {add}: what was tried becomes an option"
            ));
            return Vec::new();
        }
        Err(why) => {
            state.complain(eco_format!("It cannot be kept as an option: {why}"));
            return Vec::new();
        }
    };
    let changes = kept.options.get(&name).map(|of| of.changes.as_slice());
    let said = match changes.unwrap_or_default() {
        [only] => alternative::said(only),
        all => eco_format!("{} changes", all.len()),
    };
    let effects = make_new(state, "kept as an option".into(), |project| {
        let at = kept.options.len().saturating_sub(1);
        *project = kept;
        Ok(Subject::Alternative(at))
    });
    if !effects.is_empty() {
        let undo = state.keymap.first(Id::Undo);
        state.say(eco_format!(
            "Kept as an option: {said}. The project is as it was at the mark; give the option a name. {undo} takes it back"
        ));
    }
    effects
}

/// Holds the others against the chosen option, or against the project as it stands.
pub(super) fn base(state: &mut State) {
    let chosen = match state.subject() {
        Some(
            Subject::Alternative(at)
            | Subject::Alteration {
                alternative: at, ..
            },
        ) => state.project().options.get_index(at),
        _ => None,
    };
    let chosen = chosen.map(|(name, _)| name.clone());
    let base = chosen.filter(|name| state.yard.base.as_ref() != Some(name));
    let name = base.clone();
    let name = name.unwrap_or_else(|| alternative::as_it_stands(state.project()));
    state.yard.base = base;
    state.say(eco_format!("All the others are held against {name}"));
}

/// Makes the changes of the chosen option in the project itself.
pub(super) fn take_up(state: &mut State) -> Vec<Effect> {
    let Some(
        Subject::Alternative(at)
        | Subject::Alteration {
            alternative: at, ..
        },
    ) = state.subject()
    else {
        return Vec::new();
    };
    let Some((name, _)) = state.project().options.get_index(at) else {
        return Vec::new();
    };
    let name = name.clone();
    let made = match alternative::taken_up(state.project(), &name) {
        Ok(made) => made,
        Err(problems) => {
            let first = problems.first().map(ToString::to_string);
            state.complain(first.unwrap_or_default());
            return Vec::new();
        }
    };
    let words = eco_format!("option {name} taken up");
    let effects = make_new(state, words, |project| {
        *project = made.project;
        Ok(Subject::Project)
    });
    if !effects.is_empty() {
        let undo = state.keymap.first(Id::Undo);
        let also = match made.with.as_slice() {
            [] => EcoString::new(),
            with => eco_format!(
                ", and so has gone {}, from which it started",
                with.join(", ")
            ),
        };
        let onward = match made.onward.as_slice() {
            [] => EcoString::new(),
            [one] => eco_format!(". Option {one} starts from the project now"),
            all => eco_format!(". Options {} start from the project now", all.join(", ")),
        };
        state.say(eco_format!(
            "The project is now as option {name} had it{also}{onward}; {undo} takes it back"
        ));
    }
    effects
}

/// The first coat of the project.
fn first_coat(project: &Project) -> Result<Name, EcoString> {
    let mut coats = project.build_ups.values().flatten();
    let first = coats.next().ok_or("there is no coat yet")?;
    Ok(first.coat.clone())
}

/// A text that is right by itself.
fn amount(text: &str) -> Result<Typed<Amount>, EcoString> {
    Typed::read(text).map_err(|wrong| eco_format!("{wrong}"))
}

/// Adds an uncertain input: the thickness of a coat that has none yet.
pub(super) fn uncertain(state: &mut State) -> Vec<Effect> {
    make_new(state, "an uncertain input added".into(), |project| {
        let taken = |name: &Name| {
            let thickness = |of: &&Uncertain| of.of == UncertainInput::Thickness;
            let mut own = project.uncertain.iter().filter(thickness);
            own.any(|of| of.name.as_ref() == Some(name))
        };
        let mut coats = project.build_ups.values().flatten().map(|coat| &coat.coat);
        let free = coats.find(|name| !taken(name)).cloned();
        let Some(name) = free else {
            return Err("every coat has its thickness here; copy one and change it".into());
        };
        // Nothing is filled in: what is not typed stays a default of ours, and is told as one.
        let empty = Uncertain::of(UncertainInput::Thickness, Some(name));
        project.uncertain.push(empty);
        Ok(Subject::Uncertain(project.uncertain.len() - 1))
    })
}

/// Adds a record of a coat.
pub(super) fn record(state: &mut State) -> Vec<Effect> {
    make_new(state, "a record added".into(), |project| {
        // The next wall on which the coat of the last record is not recorded.
        let last = project.done.last();
        let coat = match last {
            Some(last) => last.coat.clone(),
            None => first_coat(project)?,
        };
        let is_done = |wall: &Name| {
            let mut own = project.done.iter().filter(|done| done.coat == coat);
            own.any(|done| done.walls.is_empty() || done.walls.contains(wall))
        };
        let mut walls = project.walls.iter().map(|wall| &wall.id);
        let wall = walls.find(|wall| !is_done(wall)).cloned();
        let Some(wall) = wall else {
            return Err(eco_format!(
                "coat {coat} is recorded on every wall; copy a record and change it"
            ));
        };
        project.done.push(Done {
            build_up: last.and_then(|last| last.build_up.clone()),
            coat,
            walls: vec![wall],
            face: last.and_then(|last| last.face),
            // Nothing that would count: what it took must be typed.
            took: amount("0 batches")?,
            date: None,
            note: None,
        });
        Ok(Subject::Done(project.done.len() - 1))
    })
}

/// Adds a record of material that came.
pub(super) fn delivery(state: &mut State) -> Vec<Effect> {
    make_new(state, "a delivery added".into(), |project| {
        let mut sold = project.materials.iter();
        let sold = sold.find_map(|(name, of)| Some((name, of.packages.first()?)));
        let (material, package) = sold.ok_or("no material has a package yet")?;
        project.delivered.push(Delivered {
            amount: amount(&eco_format!("0 {}", package.name))?,
            material: material.clone(),
            date: None,
            note: None,
        });
        Ok(Subject::Delivered(project.delivered.len() - 1))
    })
}
