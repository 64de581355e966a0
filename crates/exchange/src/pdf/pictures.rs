//! Pictures on pages: as large as a standard scale lets them be, beside one another where they have room.
//! Not here: setting one out.

use super::flow::{Flow, Type, points};
use super::page::{Item, POINTS};
use crate::letters::Weight;
use crate::picture::{Plot, Room, plot};
use crate::tolerance::ROUNDED;
use hodful_documents::{Block, Picture};
use hodful_quantities::print::UnitSystem;

/// Words under a picture.
const CAPTION: Type = Type {
    size: 9.5,
    leading: 12.0,
    weight: Weight::Bold,
};

/// Height of the highest picture, mm: two of them and their words on a page.
const HIGHEST: f64 = 100.0;

/// Between pictures beside and under one another, points.
const BETWEEN: f64 = 18.0;

/// Width for the words under a narrow picture, points.
const LEAST: f64 = 150.0;

/// The least of the width of a page that a picture is given.
const LEAST_SHARE: f64 = 0.2;

/// A picture ready to be placed, points.
struct Ready<'a> {
    plot: Option<Plot>,
    words: Vec<&'a str>,
    wide: f64,
    high: f64,
}

/// The pictures with which blocks begin.
pub(super) fn run(blocks: &[Block]) -> &[Block] {
    let others = blocks
        .iter()
        .position(|block| !matches!(block, Block::Picture(_)));
    blocks
        .get(..others.unwrap_or(blocks.len()))
        .unwrap_or_default()
}

/// Height that a picture takes on a page, points.
pub(super) fn height(flow: &Flow<'_>, picture: &Picture, units: UnitSystem) -> f64 {
    ready(flow, picture, units).high
}

/// Places pictures in rows.
pub(super) fn place(flow: &mut Flow<'_>, run: &[Block], units: UnitSystem) {
    let mut row: Vec<Ready<'_>> = Vec::new();
    for block in run {
        let Block::Picture(picture) = block else {
            continue;
        };
        let next = ready(flow, picture, units);
        let wide: f64 = row.iter().map(|ready| ready.wide + BETWEEN).sum();
        if !row.is_empty() && wide + next.wide > flow.sheet.width() + ROUNDED {
            place_row(flow, std::mem::take(&mut row));
        }
        row.push(next);
    }
    place_row(flow, row);
}

fn ready<'a>(flow: &Flow<'a>, picture: &'a Picture, units: UnitSystem) -> Ready<'a> {
    let letters = flow.letters;
    let wide = flow.sheet.width() * picture.share.clamp(LEAST_SHARE, 1.0);
    let whole = flow.whole() / POINTS - 20.0;
    let room = Room {
        wide: wide / POINTS,
        high: if picture.is_tall {
            whole
        } else {
            HIGHEST.min(whole)
        },
    };
    let plot = plot(picture, units, room, letters);
    let [drawn_wide, drawn_high] = plot
        .as_ref()
        .map_or([0.0; 2], |plot| [points(plot.wide), points(plot.high)]);
    // Two side by side keep to their halves, so that rows of them stand under one another.
    let wide = if picture.share < 1.0 {
        wide
    } else {
        drawn_wide.max(LEAST).min(wide)
    };
    let texts = std::iter::once(&picture.caption).chain(&picture.drawing.captions);
    let words: Vec<&str> = texts
        .flat_map(|text| letters.lines(text, CAPTION.weight, wide / CAPTION.size))
        .collect();
    let high = drawn_high + 6.0 + CAPTION.leading * super::flow::count(words.len());
    Ready {
        plot,
        words,
        wide,
        high,
    }
}

fn place_row(flow: &mut Flow<'_>, row: Vec<Ready<'_>>) {
    let high = row.iter().map(|ready| ready.high).fold(0.0, f64::max);
    if row.is_empty() {
        return;
    }
    if flow.y > flow.sheet.top() {
        flow.y += 8.0;
    }
    flow.make_room(high);
    let top = flow.y;
    let mut left = flow.sheet.left();
    for ready in row {
        flow.y = top;
        if let Some(plot) = ready.plot {
            let drawn = points(plot.high);
            flow.put(Item::Picture {
                at: [left, top],
                marks: plot.marks,
            });
            flow.y += drawn + 6.0;
        }
        for line in ready.words {
            flow.line(left, line, CAPTION);
        }
        left += ready.wide + BETWEEN;
    }
    flow.y = top + high + 10.0;
}
