//! The figures that are always on the screen, with their change since the mark. Not here: computing them.

use super::Pen;
use super::areas::columns;
use crate::State;
use crate::command::Id;
use crate::state::Total;
use ecow::{EcoString, eco_format};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Width from which the totals stand in columns, name over figure over change.
const COLUMNS: u16 = 100;

/// Rows that the totals take.
pub(super) fn rows(state: &State, wide: u16) -> u16 {
    let left_out = u16::from(state.doc().bench().left_out() > 0);
    let rows = if wide >= COLUMNS {
        3
    } else {
        flow(state, wide).last().map_or(0, |item| item.y + 1)
    };
    rows + left_out
}

/// One figure with its place in the flow.
struct Item {
    x: u16,
    y: u16,
    label: &'static str,
    shown: EcoString,
    change: EcoString,
}

/// The most rows of the flow.
const MOST: u16 = 4;

/// The figures one after another, broken into rows: with changes and names whole, or, where there is no
/// room for that, with short names, or without the changes.
fn flow(state: &State, wide: u16) -> Vec<Item> {
    let mut items = Vec::new();
    for (short, changes) in [(false, true), (true, true), (true, false)] {
        items = placed(state, wide, short, changes);
        if items.last().is_none_or(|item| item.y < MOST) {
            break;
        }
    }
    items
}

fn short_label(total: Total) -> &'static str {
    match total {
        Total::Surface => "surf",
        Total::Placed => "placed",
        Total::Loose => "loose",
        Total::Fibre => "fibre",
        Total::Binder => "binder",
        Total::Batches => "batch",
        Total::Cost => "cost",
    }
}

fn placed(state: &State, wide: u16, short: bool, changes: bool) -> Vec<Item> {
    let units = state.units();
    let (now, then) = (state.doc().headline(), state.mark());
    let (mut x, mut y) = (0, 0);
    Total::ALL
        .into_iter()
        .map(|total| {
            let label = if short {
                short_label(total)
            } else {
                total.label()
            };
            let shown = total.shown(now, units);
            let change = if changes {
                total.change(now, then, units)
            } else {
                EcoString::new()
            };
            let gap = u16::from(!change.is_empty());
            let own = columns(label) + 1 + columns(&shown) + gap + columns(&change);
            if x > 0 && x + own > wide {
                x = 0;
                y += 1;
            }
            let item = Item {
                x,
                y,
                label,
                shown,
                change,
            };
            x += own + 2;
            item
        })
        .collect()
}

/// Paints the totals.
pub(super) fn paint(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    if area.is_empty() {
        return;
    }
    let theme = &pen.theme;
    let mut y = area.y;
    let left_out = state.doc().bench().left_out();
    if left_out > 0 {
        let key = state.keymap().first(Id::NextProblem);
        let words = eco_format!(
            "! without {left_out} of {} walls, until what is refused is mended ({key})",
            state.project().walls.len()
        );
        pen.put(buffer, area.x, y, area.width, &words, theme.bad);
        y += 1;
    }
    if area.width >= COLUMNS {
        let units = state.units();
        let (now, then) = (state.doc().headline(), state.mark());
        let wide = area.width / 7;
        for (at, total) in (0..).zip(Total::ALL) {
            let x = area.x + at * wide;
            pen.put(buffer, x, y, wide - 1, total.label(), theme.dim);
            pen.put(
                buffer,
                x,
                y + 1,
                wide - 1,
                &total.shown(now, units),
                theme.heading,
            );
            let change = total.change(now, then, units);
            pen.put(buffer, x, y + 2, wide - 1, &change, theme.change);
        }
        return;
    }
    for item in flow(state, area.width) {
        let y = y + item.y;
        if y >= area.bottom() {
            break;
        }
        let mut x = area.x + item.x;
        let room = |x: u16| area.right().saturating_sub(x);
        x += pen.put(buffer, x, y, room(x), item.label, theme.dim) + 1;
        x += pen.put(buffer, x, y, room(x), &item.shown, theme.heading) + 1;
        pen.put(buffer, x, y, room(x), &item.change, theme.change);
    }
}
