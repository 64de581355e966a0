//! The mouse, when it is listened to: a click chooses, a drag moves an opening, the wheel goes up and
//! down. Where things stand is told by the same function that drawing uses.

use super::moves::{self, Move};
use super::{Drag, edit, or_complain};
use crate::doc::Label;
use crate::effect::Effect;
use crate::sketch::{Sketch, pick};
use crate::state::{Focus, Look, Screen, State};
use crate::theme::{marker, sketch_styles};
use crate::view::{areas, list_rows, list_top, picture, picture_area};
use ecow::eco_format;
use hodful_quantities::print::{UnitSystem, worked_out_length};
use hodful_quantities::units::length_of_mm;
use hodful_takeoff::form::{self, Subject};
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
        MouseEventKind::Drag(MouseButton::Left) if state.popup().is_none() => {
            return drag(state, at);
        }
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
        let rows = list_rows(list);
        if state.screen != Screen::Problems && rows.contains(at) {
            let len = state.list_len();
            let first = list_top(state.list_row(), len, usize::from(rows.height));
            let row = first + usize::from(at.y - rows.y);
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
            state.drag = hold(state, subject, at);
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
    let own = picture_area(state, area);
    let here = sketch.at(own, at.x, at.y)?;
    let beside = sketch.at(own, if at.x > own.x { at.x - 1 } else { at.x + 1 }, at.y)?;
    Some((here, (here[0] - beside[0]).abs() * REACH))
}

/// Takes hold of an opening on a face, as it is drawn once it is chosen.
fn hold(state: &State, subject: Subject, at: Position) -> Option<Drag> {
    let Subject::Opening { wall, opening } = subject else {
        return None;
    };
    if !matches!(state.walls.look, Look::Face(_)) || state.read_only {
        return None;
    }
    let of = state.project().walls.get(wall)?.openings.get(opening)?;
    let along = picture(state).0.along;
    let (here, _) = place(state, at)?;
    let beside = |at: Position, by: i16| Position::new(at.x.saturating_add_signed(by), at.y);
    let (next, step) = match place(state, beside(at, 1)) {
        Some((next, _)) => (next, 1.0),
        None => (place(state, beside(at, -1))?.0, -1.0),
    };
    let level = (along.from_left(next[0]) - along.from_left(here[0])) / step;
    let (above, rise) = match place(state, Position::new(at.x, at.y.saturating_sub(1))) {
        Some((above, _)) if at.y > 0 => (above, 1.0),
        _ => (place(state, Position::new(at.x, at.y + 1))?.0, -1.0),
    };
    Some(Drag {
        subject,
        at: (at.x, at.y),
        begin: [of.from_left.value().value, of.sill.value().value],
        cell: [level, (above[1] - here[1]) / rise],
    })
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
    let Some(drag) = state.drag else {
        return Vec::new();
    };
    let units = state.units();
    let cells = |now: u16, then: u16| f64::from(now) - f64::from(then);
    let moved = [
        cells(at.x, drag.at.0) * drag.cell[0],
        cells(drag.at.1, at.y) * drag.cell[1],
    ];
    let text = |begin: f64, by: f64| {
        let mm = if by == 0.0 {
            begin
        } else {
            snapped(begin + by, units)
        };
        worked_out_length(length_of_mm(mm), units)
    };
    let [from_left, sill] = [0, 1].map(|at| text(drag.begin[at], moved[at]));
    let subject = drag.subject;
    let words = eco_format!("{} moved", form::title(state.project(), subject));
    let label = Label {
        words: words.clone(),
        before: Some(subject),
        after: Some(subject),
        merge: Some(words),
    };
    // What did not move stays as it was typed.
    let done = edit(state, label, |project| {
        if moved[0] != 0.0 {
            form::set(project, subject, "from_left", &from_left)?;
        }
        if moved[1] != 0.0 {
            form::set(project, subject, "sill", &sill)?;
        }
        Ok(())
    });
    let done = done.map(|((), effects)| effects);
    if done.is_ok() {
        state.say(eco_format!("{from_left} from the left, sill {sill}"));
    }
    or_complain(state, done)
}
