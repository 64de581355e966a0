//! Where everything stands, as a function of the state and the size: for drawing and for the mouse.

use crate::State;
use crate::state::{DayRow, Focus, Screen};
use crate::text::width;
use hodful_takeoff::form::Subject;
use ratatui::layout::Rect;

/// Where everything stands.
#[derive(Debug, Clone, Default)]
pub struct Areas {
    /// The line at the top.
    pub title: Rect,
    /// The list.
    pub list: Option<Rect>,
    /// The drawing.
    pub picture: Option<Rect>,
    /// Figures of what is chosen, beside or under the drawing.
    pub facts: Option<Rect>,
    /// The fields.
    pub fields: Option<Rect>,
    /// The totals.
    pub totals: Rect,
    /// Entry line, words, hints.
    pub foot: Rect,
    /// Lines between the parts.
    pub lines: Vec<Rect>,
}

/// Width from which all three parts stand side by side.
const THREE: u16 = 76;

/// Where everything stands.
pub fn areas(state: &State, area: Rect) -> Areas {
    let row = |y: u16, height: u16| Rect::new(area.x, y, area.width, height).intersection(area);
    let totals = super::totals::rows(state, area.width);
    // What the entry line is understood as takes a few rows more where there are enough.
    let foot = match area.height {
        24.. if state.focus() == Focus::Entry => 5,
        16.. => 3,
        _ => 2,
    };
    let main = area.height.saturating_sub(1 + totals + foot);
    let mut areas = Areas {
        title: row(area.y, 1),
        totals: row(area.y + 1 + main, totals),
        foot: row(area.y + 1 + main + totals, foot),
        ..Areas::default()
    };
    let main = row(area.y + 1, main);
    if main.is_empty() {
        return areas;
    }
    match state.screen() {
        Screen::Plan => areas.picture = Some(main),
        Screen::Problems => areas.list = Some(main),
        _ => parts(state, main, &mut areas),
    }
    areas
}

fn parts(state: &State, main: Rect, areas: &mut Areas) {
    let wide = main.width;
    let of = |x: u16, columns: u16| {
        Rect::new(main.x + x, main.y, columns, main.height).intersection(main)
    };
    let line = |x: u16| of(x, 1);
    let middle;
    let fields = state.focus() == Focus::Fields;
    if state.screen() == Screen::Days && !fields {
        return calendar(state, main, areas);
    }
    // What is bought and the card want the room: their fields come when they are gone to.
    let alone = matches!(
        state.screen(),
        Screen::Order | Screen::Card | Screen::Options | Screen::Chances
    ) && !fields;
    if wide >= THREE && alone {
        let list = if wide >= 100 { 30 } else { 21 };
        areas.list = Some(of(0, list));
        areas.lines.push(line(list));
        middle = of(list + 1, wide - list - 1);
    } else if wide >= THREE {
        let list = if wide >= 100 { 30 } else { 21 };
        let fields = if wide >= 100 { 38 } else { 29 };
        areas.list = Some(of(0, list));
        areas.lines.push(line(list));
        middle = of(list + 1, wide - list - fields - 2);
        areas.lines.push(line(wide - fields - 1));
        areas.fields = Some(of(wide - fields, fields));
    } else {
        // The part that has the keyboard, with the drawing beside it where there is room.
        let own = if fields { 30 } else { wide / 5 * 2 };
        let own = if wide < own + 14 { wide } else { own };
        let part = Some(of(0, own));
        if fields {
            areas.fields = part;
        } else {
            areas.list = part;
        }
        if own == wide {
            return;
        }
        areas.lines.push(line(own));
        middle = of(own + 1, wide - own - 1);
    }
    match state.screen() {
        Screen::Walls => areas.picture = Some(middle),
        Screen::Coats => {
            let facts = (super::facts::rows(state) + 1).min(middle.height.saturating_sub(5));
            let picture = middle.height - facts;
            areas.picture = Some(Rect::new(middle.x, middle.y, middle.width, picture));
            areas.facts = Some(Rect::new(middle.x, middle.y + picture, middle.width, facts));
        }
        Screen::Soils => soils(state, middle, areas),
        Screen::Days => days(state, middle, areas),
        Screen::Stores | Screen::Order | Screen::Card | Screen::Options | Screen::Chances => {
            areas.facts = Some(middle);
        }
        Screen::Plan | Screen::Problems => {}
    }
}

/// Rows from which a list and words stand one above the other in a narrow window.
const BOTH: u16 = 14;

/// The calendar, with bars and words beside it, or words under it, or alone.
fn calendar(state: &State, main: Rect, areas: &mut Areas) {
    let Rect {
        x,
        y,
        width,
        height,
    } = main;
    if width >= THREE {
        let list = if width >= 100 {
            width * 13 / 25
        } else {
            width / 2
        };
        areas.list = Some(Rect::new(x, y, list, height));
        areas.lines.push(Rect::new(x + list, y, 1, height));
        let middle = Rect::new(x + list + 1, y, width - list - 1, height);
        days(state, middle, areas);
    } else if height >= BOTH {
        let list = height / 2;
        areas.list = Some(Rect::new(x, y, width, list));
        areas.facts = Some(Rect::new(x, y + list, width, height - list));
    } else {
        areas.list = Some(main);
    }
}

/// Bars over words; words alone where there is little room and one task is chosen.
fn days(state: &State, middle: Rect, areas: &mut Areas) {
    let (x, y, wide, high) = (middle.x, middle.y, middle.width, middle.height);
    let rows = super::bars::rows(state);
    let bars = match state.day_row() {
        _ if high >= 24 => rows.min(high / 2),
        DayRow::Work | DayRow::Day(_) => rows.min(high * 3 / 5),
        _ => 0,
    };
    if bars < super::bars::LEAST {
        areas.facts = Some(middle);
        return;
    }
    areas.picture = Some(Rect::new(x, y, wide, bars));
    areas.facts = Some(Rect::new(x, y + bars, wide, high - bars));
}

/// Least rows of the triangle of textures and of a grading: in fewer nothing can be told from them.
const LEAST_PICTURE: u16 = 9;

/// Width from which words stand beside the triangle.
const BESIDE: u16 = 84;

/// The triangle or a grading, and the words about it, which come first where there is little room.
fn soils(state: &State, middle: Rect, areas: &mut Areas) {
    let subject = state.subject();
    let is_blend = matches!(subject, Some(Subject::Blend(_)));
    let drawn = match subject {
        Some(Subject::Blend(at)) => state
            .blend(at)
            .is_some_and(|(_, drawing)| drawing.bounds.is_some()),
        of => of.is_some(),
    };
    let (x, y, wide, high) = (middle.x, middle.y, middle.width, middle.height);
    // A cell is twice as high as wide; a grading is twice as wide as high.
    let whole = if is_blend { wide / 4 + 2 } else { wide / 2 + 1 };
    if drawn && wide >= BESIDE && !is_blend {
        let own = wide / 5 * 3;
        areas.picture = Some(Rect::new(x, y, own, high));
        areas.facts = Some(Rect::new(x + own, y, wide - own, high));
        return;
    }
    let said = super::said::rows(state, wide);
    let words = if is_blend {
        said.min(high.saturating_sub(LEAST_PICTURE)).max(high / 3)
    } else {
        high / 3
    };
    let picture = high.saturating_sub(words).min(whole);
    if !drawn || picture < LEAST_PICTURE {
        areas.facts = Some(middle);
        return;
    }
    areas.picture = Some(Rect::new(x, y, wide, picture));
    areas.facts = Some(Rect::new(x, y + picture, wide, high - picture));
}

/// Columns of a text, for layouts.
pub(super) fn columns(text: &str) -> u16 {
    u16::try_from(width(text)).unwrap_or(u16::MAX)
}
