//! How figures came about, as trees that are walked. Not here: the figures.

use super::moves;
use crate::effect::Effect;
use crate::state::{Look, Popup, Screen, State, Why};
use ecow::{EcoString, eco_format};
use hodful_takeoff::Side;
use hodful_takeoff::explain::quoted;
use hodful_takeoff::form::{self, Subject};

/// Opens the tree of the figure of what is chosen; without one, the list of totals.
pub(super) fn of_chosen(state: &mut State) {
    if state.screen == Screen::Soils {
        state.say(
            "What a soil or a blend comes to is all said beside it; it has no steps to unfold",
        );
        return;
    }
    match state.subject().and_then(|subject| path(state, subject)) {
        Some(path) => open(state, &path),
        None => state.popups.push(Popup::Totals { row: 0 }),
    }
}

/// The path of the figure of a thing.
fn path(state: &State, subject: Subject) -> Option<EcoString> {
    let project = state.project();
    match subject {
        Subject::Wall(wall) | Subject::Opening { wall, .. } | Subject::Pocket { wall, .. } => {
            let wall = project.walls.get(wall)?;
            let looked = match state.walls.look {
                Look::Face(side) => side,
                Look::Level | Look::Upright => Side::Outside,
            };
            let other = match looked {
                Side::Outside => Side::Inside,
                Side::Inside => Side::Outside,
            };
            let side = if wall.face(looked).is_some() {
                looked
            } else {
                other
            };
            Some(eco_format!("walls.{}.{}", quoted(&wall.id), side.word()))
        }
        Subject::BuildUp(build_up) => {
            let (name, coats) = project.build_ups.get_index(build_up)?;
            let coat = coats.first()?;
            Some(eco_format!("coats.{}.{}", quoted(name), quoted(&coat.coat)))
        }
        Subject::Coat { build_up, coat } => {
            let (name, coats) = project.build_ups.get_index(build_up)?;
            let coat = coats.get(coat)?;
            Some(eco_format!("coats.{}.{}", quoted(name), quoted(&coat.coat)))
        }
        Subject::Mix(mix) | Subject::Panel { mix, .. } => {
            let (name, _) = project.mixes.get_index(mix)?;
            Some(eco_format!("mixes.{}.yield", quoted(name)))
        }
        Subject::Material(material) | Subject::Package { material, .. } => {
            let (name, _) = project.materials.get_index(material)?;
            Some(eco_format!("order.{}", quoted(name)))
        }
        Subject::Project
        | Subject::Mixer
        | Subject::Background(_)
        | Subject::Blend(_)
        | Subject::Supplier(_)
        | Subject::Buying
        | Subject::Phase(_)
        | Subject::Alternative(_)
        | Subject::Alteration { .. }
        | Subject::Uncertain(_)
        | Subject::Done(_)
        | Subject::Delivered(_)
        | Subject::Work
        | Subject::Preparation(_)
        | Subject::Room(_)
        | Subject::Dried(_) => None,
    }
}

/// Opens the tree of a figure.
pub(super) fn open(state: &mut State, path: &str) {
    match state.doc.bench().explain(path) {
        Ok(node) => state.popups.push(Popup::Why(Why::new(node))),
        Err(fault) => state.complain(eco_format!("{fault}")),
    }
}

/// Shows what the chosen figure is made of.
pub(super) fn unfold(state: &mut State) {
    let more = match state.popups.last() {
        Some(Popup::Why(why)) => why
            .rows()
            .get(why.row)
            .and_then(|row| Some((row.way.clone(), row.more()?.clone()))),
        _ => None,
    };
    if let Some((way, path)) = more
        && let Ok(node) = state.doc.bench().explain(&path)
        && let Some(Popup::Why(why)) = state.popups.last_mut()
    {
        why.put(&way, node);
    }
    with(state, |why, way, has_terms| {
        if has_terms {
            why.open.insert(way);
        }
    });
}

/// Hides what the chosen figure is made of; when nothing is shown, goes to the figure it belongs to.
pub(super) fn fold(state: &mut State) {
    with(state, |why, mut way, _| {
        if why.open.remove(&way) || way.pop().is_none() {
            return;
        }
        if let Some(row) = why.rows().iter().position(|row| row.way == way) {
            why.row = row;
        }
    });
}

fn with(state: &mut State, f: impl FnOnce(&mut Why, Vec<usize>, bool)) {
    if let Some(Popup::Why(why)) = state.popups.last_mut() {
        let chosen = why
            .rows()
            .get(why.row)
            .map(|row| (row.way.clone(), !row.node.terms.is_empty()));
        if let Some((way, has_terms)) = chosen {
            f(why, way, has_terms);
        }
    }
}

/// Goes to the field that the chosen figure was typed in; a figure that was not typed is unfolded.
pub(super) fn accept(state: &mut State) -> Vec<Effect> {
    let Some(Popup::Why(why)) = state.popups.last() else {
        return Vec::new();
    };
    let rows = why.rows();
    let Some(row) = rows.get(why.row) else {
        return Vec::new();
    };
    if !row.node.terms.is_empty() || row.more().is_some() {
        if row.open {
            fold(state);
        } else {
            unfold(state);
        }
        return Vec::new();
    }
    let found = row
        .node
        .place
        .as_ref()
        .and_then(|place| form::find(state.project(), place));
    match found {
        Some((subject, key)) => moves::go(state, subject, key.as_deref()),
        None => state.say("This was not typed anywhere: it is a constant or a default"),
    }
    Vec::new()
}
