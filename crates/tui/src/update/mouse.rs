//! The mouse, when it is listened to: a click chooses, a drag moves an opening, the wheel goes up and
//! down. Where things stand is told by the same function that drawing uses.

use super::moves::{self, Move};
use super::{Drag, edit};
use crate::doc::Label;
use crate::effect::Effect;
use crate::sketch::{Sketch, pick};
use crate::state::{Focus, Look, Screen, State};
use crate::theme::{marker, sketch_styles};
use crate::view::{areas, list_top, picture};
use ecow::eco_format;
use hodful_quantities::print::{UnitSystem, exact_length};
use hodful_quantities::units::length_of_mm;
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::project::Side;
use ratatui::crossterm::event::{MouseButton, MouseEvent, MouseEventKind};
use ratatui::layout::{Position, Rect};

/// How near a click must be to a line, in cells.
const REACH: f64 = 1.0;

/// What follows from the mouse.
pub(super) fn mouse(state: &mut State, event: MouseEvent) -> Vec<Effect> {
    if !state.mouse {
        return Vec::new();
    }
    let at = Position::new(event.column, event.row);
    match event.kind {
        MouseEventKind::ScrollUp => moves::rows(state, Move::Up),
        MouseEventKind::ScrollDown => moves::rows(state, Move::Down),
        MouseEventKind::Down(MouseButton::Left) if state.popup().is_none() => click(state, at),
        MouseEventKind::Drag(MouseButton::Left) => return drag(state, at),
        MouseEventKind::Up(_) => {
            state.drag = None;
            state.doc.end_run();
        }
        _ => {}
    }
    Vec::new()
}

fn click(state: &mut State, at: Position) {
    let (columns, rows) = state.size;
    let areas = areas(state, Rect::new(0, 0, columns, rows));
    if let Some(list) = areas.list.filter(|list| list.contains(at)) {
        state.typing = None;
        state.focus = Focus::List;
        if state.screen != Screen::Problems && at.y > list.y {
            let len = state.list_len();
            let first = list_top(
                state.list_row(),
                len,
                usize::from(list.height.saturating_sub(1)),
            );
            let row = first + usize::from(at.y - list.y - 1);
            if row < len {
                moves::choose_row(state, row);
            }
        }
    } else if areas.picture.is_some_and(|area| area.contains(at)) {
        let Some((place, reach)) = place(state, at) else {
            return;
        };
        let (drawing, _) = picture(state);
        if let Some(subject) = pick(&drawing, place, reach) {
            state.focus = Focus::List;
            moves::choose(state, subject);
            state.drag = hold(state, subject, place);
        }
    } else if areas.fields.is_some_and(|area| area.contains(at)) && state.subject().is_some() {
        state.focus = Focus::Fields;
    } else if areas.foot.contains(at) && at.y == areas.foot.y && areas.foot.height > 2 {
        super::entry_line::open(state);
    }
}

/// The place in the drawing under a cell, and how far a cell reaches there, mm.
fn place(state: &State, at: Position) -> Option<([f64; 2], f64)> {
    let (columns, rows) = state.size;
    let area = areas(state, Rect::new(0, 0, columns, rows)).picture?;
    let (drawing, chosen) = picture(state);
    let sketch = Sketch {
        drawing: &drawing,
        chosen,
        refused: &[],
        doubtful: &[],
        styles: &sketch_styles(state.looks()),
        marker: marker(state.looks()),
    };
    // The drawing stands under its title, as it is painted.
    let own = if area.height > 4 && state.screen == Screen::Walls {
        Rect::new(area.x, area.y + 1, area.width, area.height - 1)
    } else {
        area
    };
    let here = sketch.at(own, at.x, at.y)?;
    let beside = sketch.at(own, if at.x > own.x { at.x - 1 } else { at.x + 1 }, at.y)?;
    Some((here, (here[0] - beside[0]).abs() * REACH))
}

/// Takes hold of an opening on a face.
fn hold(state: &State, subject: Subject, place: [f64; 2]) -> Option<Drag> {
    let Subject::Opening { wall, opening } = subject else {
        return None;
    };
    if !matches!(state.walls.look, Look::Face(_)) || state.read_only {
        return None;
    }
    let of = state.project().walls.get(wall)?.openings.get(opening)?;
    let from_left = along(state, wall, place[0])? - of.from_left.value().value;
    Some(Drag {
        subject,
        hold: [from_left, place[1] - of.sill.value().value],
    })
}

/// A place along the drawing as a distance from the left end seen from outside, mm.
fn along(state: &State, wall: usize, u: f64) -> Option<f64> {
    if state.walls.look != Look::Face(Side::Inside) {
        return Some(u);
    }
    // From inside the wall is drawn the other way round, about its own middle.
    let drawing = hodful_takeoff::drawing::face(state.project(), wall, Side::Outside);
    let [left, _, right, _] = drawing.bounds?;
    Some(left + right - u)
}

/// Steps in which an opening moves with the mouse: an inch, ten millimetres.
fn snapped(mm: f64, units: UnitSystem) -> f64 {
    let step = match units {
        UnitSystem::Us => 25.4,
        UnitSystem::Metric => 10.0,
    };
    ((mm / step).round() * step).max(0.0)
}

fn drag(state: &mut State, at: Position) -> Vec<Effect> {
    let Some(Drag { subject, hold }) = state.drag else {
        return Vec::new();
    };
    let Subject::Opening { wall, .. } = subject else {
        return Vec::new();
    };
    let Some((place, _)) = place(state, at) else {
        return Vec::new();
    };
    let Some(u) = along(state, wall, place[0]) else {
        return Vec::new();
    };
    let units = state.units();
    let text = |mm: f64| exact_length(length_of_mm(snapped(mm, units)), units);
    let (from_left, sill) = (text(u - hold[0]), text(place[1] - hold[1]));
    let words = eco_format!("{} moved", form::title(state.project(), subject));
    let label = Label {
        words: words.clone(),
        before: Some(subject),
        after: Some(subject),
        merge: Some(words),
    };
    let done = edit(state, label, |project| {
        form::set(project, subject, "from_left", &from_left)?;
        form::set(project, subject, "sill", &sill)
    });
    match done {
        Ok(((), effects)) => {
            state.say(eco_format!("{from_left} from the left, sill {sill}"));
            effects
        }
        Err(words) => {
            state.complain(words);
            Vec::new()
        }
    }
}
