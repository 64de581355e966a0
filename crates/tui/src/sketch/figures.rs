//! Dimension figures: a line with an end at either place, and the figure in it or beside it.
//!
//! Every row of figures has a margin of its own, so that they meet nothing but each other; of two that
//! would meet, the less important is left out. Not here: which rows have room.

use super::fit::{self, Fit, width};
use super::words::{DOWN, LEFT, Page, RIGHT, UP};
use super::{Mark, Sketch};
use hodful_takeoff::drawing::{DimensionLine, Edge};
use ratatui::style::Style;

/// Puts every figure that has room on the page, those that matter most first.
pub(super) fn place(sketch: &Sketch<'_>, fit: &Fit, page: &mut Page) {
    let mut figures: Vec<&DimensionLine> = fit::shown(sketch).collect();
    figures.sort_by_key(|figure| core::cmp::Reverse(fit::weight_of(sketch, figure)));
    for figure in &figures {
        let Some(line) = line_of(fit, figure) else {
            continue;
        };
        let chosen = sketch.chosen.is_some() && figure.of == sketch.chosen;
        let mut style = sketch.styles.figure;
        if chosen {
            style = style.patch(sketch.styles.chosen);
        }
        if chosen && sketch.state(figure.of).mark == Mark::Refused {
            style = style.patch(sketch.styles.refused);
        }
        if figure.edge.is_level() {
            let same =
                |other: &&&DimensionLine| (other.edge, other.row) == (figure.edge, figure.row);
            let others: Vec<[i32; 2]> = figures
                .iter()
                .filter(same)
                .map(|other| ends(fit, other))
                .collect();
            along(page, figure, ends(fit, figure), line, &others, style);
        } else {
            up(page, figure, fit, line, style);
        }
    }
}

/// The row or column on which the line of a figure stands, when its row has room.
fn line_of(fit: &Fit, figure: &DimensionLine) -> Option<i32> {
    let rows = fit.rows_of(figure.edge);
    let position = rows.iter().position(|(row, _)| *row == figure.row)?;
    let before = rows.iter().take(position);
    let cells: i32 = if figure.edge.is_level() {
        before.map(|_| 1).sum()
    } else {
        before.map(|(_, wide)| i32::from(*wide) + 1).sum()
    };
    let canvas = fit.canvas;
    Some(match figure.edge {
        Edge::Below => i32::from(canvas.bottom()) + cells,
        Edge::Above => i32::from(canvas.y) - 1 - cells,
        Edge::Left => i32::from(canvas.x) - 1 - cells,
        Edge::Right => {
            let labels = match fit.labels {
                0 => 0,
                wide => i32::from(wide) + i32::from(fit::LEADER),
            };
            i32::from(canvas.right()) + labels + cells
        }
    })
}

/// The two ends of a figure as cells in order, within the canvas.
fn ends(fit: &Fit, figure: &DimensionLine) -> [i32; 2] {
    let [from, to] = [fit.cell(figure.from), fit.cell(figure.to)];
    let canvas = fit.canvas;
    let (a, b, low, high) = if figure.edge.is_level() {
        (from[0], to[0], canvas.x, canvas.right())
    } else {
        (from[1], to[1], canvas.y, canvas.bottom())
    };
    let (low, high) = (i32::from(low), i32::from(high) - 1);
    [a.min(b), a.max(b)].map(|cell| cell.clamp(low, high.max(low)))
}

fn along(
    page: &mut Page,
    figure: &DimensionLine,
    [first, last]: [i32; 2],
    row: i32,
    others: &[[i32; 2]],
    style: Style,
) {
    let wide = i32::from(width(&figure.text));
    let span = last - first + 1;
    if !page.is_open(
        first,
        last,
        row,
        [UP | DOWN | RIGHT, LEFT | RIGHT, UP | DOWN | LEFT],
    ) {
        return;
    }
    let inside = (span >= wide + 2).then(|| first + (span - wide) / 2);
    // Beside it where no other figure of the row would want to be, if there is such a side.
    let mut beside = [last + 2, first - 1 - wide];
    let wanted = |x: i32| {
        let mut others = others.iter().filter(|other| **other != [first, last]);
        others.any(|[from, to]| x <= *to && x + wide > *from)
    };
    beside.sort_by_key(|x| wanted(*x));
    let free = |x: &i32| page.has_room(*x, row, wide);
    let Some(x) = inside.or_else(|| beside.into_iter().find(free)) else {
        return;
    };
    if span == 1 {
        page.line(first, row, UP | DOWN, style);
    } else {
        page.line(first, row, UP | DOWN | RIGHT, style);
        page.line(last, row, UP | DOWN | LEFT, style);
        // A blank on either side of the figure where there is room for it.
        let gap = i32::from(inside.is_some() && span >= wide + 4);
        for cell in first + 1..last {
            let is_text = inside.is_some() && (x - gap..x + wide + gap).contains(&cell);
            if !is_text {
                page.line(cell, row, LEFT | RIGHT, style);
            }
        }
    }
    page.text(x, row, &figure.text, style);
}

fn up(page: &mut Page, figure: &DimensionLine, fit: &Fit, column: i32, style: Style) {
    let [first, last] = ends(fit, figure);
    let wide = i32::from(width(&figure.text));
    let x = match figure.edge {
        Edge::Left => column - wide,
        _ => column + 1,
    };
    if !page.is_open_up(
        column,
        first,
        last,
        [LEFT | RIGHT | DOWN, UP | DOWN, LEFT | RIGHT | UP],
    ) {
        return;
    }
    let middle = first + (last - first) / 2;
    let mut rows: Vec<i32> = (first..=last).collect();
    rows.sort_by_key(|row| (row - middle).abs());
    let row = rows.into_iter().find(|row| page.is_free(x, *row, wide));
    let Some(row) = row else {
        return;
    };
    if first == last {
        page.line(column, first, LEFT | RIGHT, style);
    } else {
        page.line(column, first, LEFT | RIGHT | DOWN, style);
        page.line(column, last, LEFT | RIGHT | UP, style);
        for cell in first + 1..last {
            page.line(column, cell, UP | DOWN, style);
        }
    }
    page.text(x, row, &figure.text, style);
}
