//! Words of a drawing on a page of cells: names, captions, marks; and the page itself.
//!
//! No cell is written twice: words ask whether there is room before they stand anywhere, and what has
//! none is left out. A mark is the exception that always finds its place, for it is one cell wide.
//! Not here: lines of the drawing.

use super::fit::{Fit, LEADER, width};
use super::raster::Raster;
use super::{Mark, Marker, Sketch, State};
use hodful_takeoff::drawing::{Label, Stand};
use hodful_takeoff::form::Subject;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use std::borrow::Cow;

/// The ways a line leaves a cell.
pub(super) const UP: u8 = 1;
pub(super) const DOWN: u8 = 2;
pub(super) const LEFT: u8 = 4;
pub(super) const RIGHT: u8 = 8;
const TEXT: u8 = 16;

/// What is to be written on the area, cell by cell.
#[derive(Debug)]
pub(super) struct Page {
    area: Rect,
    canvas: Rect,
    marker: Marker,
    taken: Vec<u8>,
    pub(super) texts: Vec<(u16, u16, String, Style)>,
    pub(super) lines: Vec<(u16, u16, Style)>,
}

impl Page {
    pub(super) fn new(area: Rect, fit: &Fit, marker: Marker) -> Self {
        Self {
            area,
            canvas: fit.canvas,
            marker,
            taken: vec![0; usize::from(area.width) * usize::from(area.height)],
            texts: Vec::new(),
            lines: Vec::new(),
        }
    }

    fn index(&self, x: i32, y: i32) -> Option<usize> {
        let x = u16::try_from(x).ok()?.checked_sub(self.area.x)?;
        let y = u16::try_from(y).ok()?.checked_sub(self.area.y)?;
        (x < self.area.width && y < self.area.height)
            .then(|| usize::from(y) * usize::from(self.area.width) + usize::from(x))
    }

    /// What is in a cell; `None` outside the area.
    fn cell(&self, x: i32, y: i32) -> Option<u8> {
        self.taken.get(self.index(x, y)?).copied()
    }

    /// Whether something is written in a cell.
    pub(super) fn is_taken(&self, x: i32, y: i32) -> bool {
        self.cell(x, y).is_some_and(|cell| cell > 0)
    }

    /// Whether so many cells in a row are there and have nothing written in them.
    pub(super) fn is_free(&self, x: i32, y: i32, wide: i32) -> bool {
        (x..x + wide).all(|x| self.cell(x, y) == Some(0))
    }

    /// The same, with a blank on either side to whatever is written beside.
    pub(super) fn has_room(&self, x: i32, y: i32, wide: i32) -> bool {
        self.is_free(x, y, wide) && !self.is_taken(x - 1, y) && !self.is_taken(x + wide, y)
    }

    /// Whether a line may run along a row from one cell to another: over nothing but other ends of lines
    /// at its own ends.
    pub(super) fn is_open(&self, first: i32, last: i32, row: i32, ways: [u8; 3]) -> bool {
        (first..=last).all(|x| self.lets(x, row, x == first, x == last, ways))
    }

    /// The same up a column.
    pub(super) fn is_open_up(&self, column: i32, first: i32, last: i32, ways: [u8; 3]) -> bool {
        (first..=last).all(|y| self.lets(column, y, y == first, y == last, ways))
    }

    fn lets(&self, x: i32, y: i32, first: bool, last: bool, [start, _, end]: [u8; 3]) -> bool {
        match self.cell(x, y) {
            None => false,
            Some(0) => true,
            // An end may stand on the other end of a neighbour.
            Some(known) if first && last => known == start || known == end,
            Some(known) => (first && known == end) || (last && known == start),
        }
    }

    pub(super) fn line(&mut self, x: i32, y: i32, ways: u8, style: Style) {
        let cell = self.index(x, y).and_then(|i| self.taken.get_mut(i));
        if let (Some(cell), Ok(x), Ok(y)) = (cell, u16::try_from(x), u16::try_from(y)) {
            *cell |= ways;
            self.lines.push((x, y, style));
        }
    }

    pub(super) fn text(&mut self, x: i32, y: i32, text: &str, style: Style) {
        let text = match self.marker {
            Marker::Ascii => plain(text).into_owned(),
            _ => text.to_owned(),
        };
        for at in x..x + i32::from(width(&text)) {
            if let Some(cell) = self.index(at, y).and_then(|i| self.taken.get_mut(i)) {
                *cell = TEXT;
            }
        }
        if let (Ok(x), Ok(y)) = (u16::try_from(x), u16::try_from(y)) {
            self.texts.push((x, y, text, style));
        }
    }

    /// Writes the page.
    pub(super) fn write(&self, buffer: &mut Buffer) {
        for (x, y, style) in &self.lines {
            let ways = self.cell(i32::from(*x), i32::from(*y)).unwrap_or_default();
            if ways & TEXT == 0
                && let Some(cell) = buffer.cell_mut((*x, *y))
            {
                cell.set_symbol(sign(ways, self.marker)).set_style(*style);
            }
        }
        for (x, y, text, style) in &self.texts {
            let room = usize::from(self.area.right().saturating_sub(*x));
            buffer.set_stringn(*x, *y, text, room, *style);
        }
    }
}

/// The sign for a line that leaves a cell in some ways.
fn sign(ways: u8, marker: Marker) -> &'static str {
    if marker == Marker::Ascii {
        return match ways {
            w if w == LEFT | RIGHT => "-",
            w if w == UP | DOWN => "|",
            w if w & (UP | DOWN) == UP | DOWN => "|",
            _ => "-",
        };
    }
    match ways {
        w if w == LEFT | RIGHT => "─",
        w if w == UP | DOWN => "│",
        w if w == UP | DOWN | RIGHT => "├",
        w if w == UP | DOWN | LEFT => "┤",
        w if w == LEFT | RIGHT | DOWN => "┬",
        w if w == LEFT | RIGHT | UP => "┴",
        _ => "┼",
    }
}

/// A text in signs that every terminal has, as far as figures go.
fn plain(text: &str) -> Cow<'_, str> {
    if text.is_ascii() {
        return Cow::Borrowed(text);
    }
    let sign = |letter| match letter {
        '°' => 'd',
        '²' => '2',
        '³' => '3',
        '\u{a0}' => ' ',
        letter => letter,
    };
    Cow::Owned(text.chars().map(sign).collect())
}

/// How much may lie under words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Over {
    /// Nothing but hatching.
    NoLine,
    /// Lines.
    Lines,
}

/// Puts captions, names and marks on the page, those that matter most first.
pub(super) fn place(sketch: &Sketch<'_>, fit: &Fit, raster: &Raster, page: &mut Page) {
    if fit.caption {
        caption(sketch, fit, page);
    }
    let mut labels: Vec<(&Label, State)> = sketch
        .drawing
        .labels
        .iter()
        .map(|label| (label, sketch.state(label.of)))
        .collect();
    labels.sort_by_key(|(label, state)| {
        let marked = state.mark > Mark::Sound && label.names;
        core::cmp::Reverse((marked || state.chosen, label.weight))
    });
    if fit.labels > 0 {
        beside(sketch, fit, &labels, page);
    }
    let in_column = |label: &Label| label.stand == Stand::Beside && fit.labels > 0;
    let mut told: Vec<Subject> = Vec::new();
    for (label, state) in &labels {
        let marked = label.names && state.mark > Mark::Sound;
        if in_column(label) || (label.only_marked && !marked) {
            continue;
        }
        let words = Words::of(sketch, label, *state);
        let first = label.of.is_none_or(|of| !told.contains(&of));
        let firm = label.weight >= FIRM || label.stand == Stand::Next;
        let must = (state.chosen || marked || firm) && first;
        let mut place = spot(fit, raster, page, label, &words, Over::NoLine);
        if place.is_none() && must {
            place = spot(fit, raster, page, label, &words, Over::Lines);
        }
        match place {
            Some([x, y]) => page.text(x, y, &words.text, words.style),
            None if marked => mark(fit, page, label, &words),
            None => continue,
        }
        told.extend(label.of);
    }
}

/// Weight from which a label may stand on lines when there is no other way.
const FIRM: u8 = 70;

/// The words of a label with their mark.
struct Words {
    text: String,
    sign: &'static str,
    style: Style,
}

impl Words {
    fn of(sketch: &Sketch<'_>, label: &Label, state: State) -> Self {
        let styles = sketch.styles;
        let sign = if label.names { state.mark.sign() } else { "" };
        let mut style = styles.label;
        match state.mark {
            Mark::Sound => {}
            Mark::Doubtful => style = style.patch(styles.doubtful),
            Mark::Refused => style = style.patch(styles.refused),
        }
        if state.chosen && label.names {
            style = style.patch(styles.chosen_label);
        }
        Self {
            text: format!("{}{sign}", label.text),
            sign,
            style,
        }
    }
}

/// Where a label may stand in the canvas.
fn spot(
    fit: &Fit,
    raster: &Raster,
    page: &Page,
    label: &Label,
    words: &Words,
    over: Over,
) -> Option<[i32; 2]> {
    let wide = i32::from(width(&words.text));
    let canvas = fit.canvas;
    let (left, right) = (i32::from(canvas.x), i32::from(canvas.right()));
    let (top, bottom) = (i32::from(canvas.y), i32::from(canvas.bottom()));
    if wide == 0 || wide > right - left {
        return None;
    }
    let suits = |&[x, y]: &[i32; 2]| {
        x >= left
            && x + wide <= right
            && y >= top
            && y < bottom
            && page.has_room(x, y, wide)
            && (over == Over::Lines || (x..x + wide).all(|x| !has_line(fit, raster, x, y)))
    };
    let middle = fit.cell(label.at);
    let centred = |x: i32| x - (wide - 1) / 2;
    let clamped = |x: i32| x.clamp(left, right - wide);
    match label.stand {
        Stand::In([from, under, to, over]) => {
            let ([from, under], [to, over]) = (fit.cell([from, under]), fit.cell([to, over]));
            let x = centred(from + (to - from) / 2);
            let high = under - over;
            let within = (0..=high / 2).flat_map(|i| [[x, middle[1] + i], [x, middle[1] - i]]);
            let around = [
                [x, over - 1],
                [x, under + 1],
                [to + 2, middle[1]],
                [from - 1 - wide, middle[1]],
            ];
            within.chain(around).find(suits)
        }
        Stand::Here => {
            let [x, y] = middle;
            let half = (wide - 1) / 2;
            let shifts = (0..=half).flat_map(|by| [by, -by]);
            shifts.map(|by| [x - half + by, y]).find(suits)
        }
        Stand::Next => {
            let [x, y] = middle;
            [
                [x + 2, y],
                [x - 1 - wide, y],
                [centred(x), y - 1],
                [centred(x), y + 1],
            ]
            .into_iter()
            .find(suits)
        }
        Stand::Before => {
            let [x, y] = middle;
            Some([(x - 1 - wide).max(left), y]).filter(suits)
        }
        // In its own row or not at all: a row off it would name the layer over or under it.
        Stand::Beside => {
            let x = clamped(centred(middle[0]));
            let y = middle[1].clamp(top, bottom - 1);
            let near = [0, 1, -1, 2, -2, 3, -3];
            near.into_iter()
                .map(|along| [clamped(x + along), y])
                .find(suits)
        }
        Stand::At => {
            let x = clamped(centred(middle[0]));
            let y = middle[1].clamp(top, bottom - 1);
            let near = [0, 1, -1, 2, -2, 3, -3];
            near.into_iter()
                .flat_map(|down| near.into_iter().map(move |along| (down, along)))
                .filter(|(down, along): &(i32, i32)| down.abs() + along.abs() <= 4)
                .map(|(down, along)| [clamped(x + along), y + down])
                .find(suits)
        }
    }
}

fn has_line(fit: &Fit, raster: &Raster, x: i32, y: i32) -> bool {
    let canvas = fit.canvas;
    raster.has_line(x - i32::from(canvas.x), i32::from(canvas.bottom()) - 1 - y)
}

/// A mark alone, at the place of a label or as near as there is a cell.
fn mark(fit: &Fit, page: &mut Page, label: &Label, words: &Words) {
    let canvas = fit.canvas;
    let [x, y] = fit.cell(label.at);
    let (left, right) = (i32::from(canvas.x), i32::from(canvas.right()) - 1);
    let (top, bottom) = (i32::from(canvas.y), i32::from(canvas.bottom()) - 1);
    let (x, y) = (x.clamp(left, right), y.clamp(top, bottom));
    let reach = (right - left).max(bottom - top);
    for distance in 0..=reach {
        for dy in -distance..=distance {
            for dx in -distance..=distance {
                let here = [x + dx, y + dy];
                let inside = (left..=right).contains(&here[0]) && (top..=bottom).contains(&here[1]);
                let ring = dx.abs() == distance || dy.abs() == distance;
                if ring && inside && !page.is_taken(here[0], here[1]) {
                    page.text(here[0], here[1], words.sign, words.style);
                    return;
                }
            }
        }
    }
}

/// The labels of the column right of the drawing, in the order of their places.
fn beside(sketch: &Sketch<'_>, fit: &Fit, labels: &[(&Label, State)], page: &mut Page) {
    let rows = usize::from(fit.area.height);
    // They come with those that matter most first; the rest has no row.
    let mut column: Vec<(i32, &Label, State)> = labels
        .iter()
        .filter(|(label, _)| label.stand == Stand::Beside)
        .take(rows)
        .map(|(label, state)| (fit.cell(label.at)[1], *label, *state))
        .collect();
    column.sort_by(|(a, one, _), (b, other, _)| {
        a.cmp(b).then_with(|| other.at[1].total_cmp(&one.at[1]))
    });
    let (top, bottom) = (i32::from(fit.area.y), i32::from(fit.area.bottom()));
    let top =
        top + i32::from(fit.caption && bottom - top > i32::try_from(column.len()).unwrap_or(0));
    let mut places: Vec<i32> = Vec::with_capacity(column.len());
    for (wanted, ..) in &column {
        let next = places.last().map_or(top, |last| last + 1);
        places.push((*wanted).max(next));
    }
    let mut limit = bottom - 1;
    for place in places.iter_mut().rev() {
        *place = (*place).min(limit);
        limit = *place - 1;
    }
    let x = i32::from(fit.canvas.right());
    for ((wanted, label, state), row) in column.into_iter().zip(places) {
        let words = Words::of(sketch, label, state);
        if page.is_free(x + i32::from(LEADER), row, i32::from(width(&words.text))) {
            if row == wanted && !page.is_taken(x, row) {
                page.line(x, row, LEFT | RIGHT, sketch.styles.figure);
            }
            page.text(x + i32::from(LEADER), row, &words.text, words.style);
        }
    }
}

/// The captions that fit on their line, in its middle.
fn caption(sketch: &Sketch<'_>, fit: &Fit, page: &mut Page) {
    let room = fit.area.width;
    let mut line = String::new();
    for words in &sketch.drawing.captions {
        let longer = if line.is_empty() {
            words.to_string()
        } else {
            format!("{line}; {words}")
        };
        if width(&longer) > room {
            break;
        }
        line = longer;
    }
    let above = fit.rows_of(hodful_takeoff::drawing::Edge::Above).len();
    let above = i32::try_from(above).unwrap_or_default();
    let y = (i32::from(page.canvas.y) - 1 - above).max(i32::from(fit.area.y));
    let x = fit.area.x + (room - width(&line)) / 2;
    page.text(i32::from(x), y, &line, sketch.styles.caption);
}

/// The captions of a drawing of nothing, each on a line, in the middle of the area.
pub(super) fn alone(sketch: &Sketch<'_>, area: Rect, buffer: &mut Buffer) {
    let captions = &sketch.drawing.captions;
    let lines = u16::try_from(captions.len()).unwrap_or(u16::MAX);
    let top = area.y + area.height.saturating_sub(lines) / 2;
    for (y, words) in (top..area.bottom()).zip(captions) {
        let wide = width(words);
        if wide <= area.width {
            let x = area.x + (area.width - wide) / 2;
            buffer.set_stringn(x, y, words, usize::from(wide), sketch.styles.caption);
        }
    }
}
