//! How a drawing is fitted into an area: its scale, its cells, and the margins for figures and words.
//!
//! Not here: what is written into the margins.

use super::{Marker, Sketch};
use hodful_takeoff::drawing::{DimensionLine, Edge, Stand};
use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

/// A margin asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Margin {
    /// A row of figures outside an edge.
    Figures(Edge, u8),
    /// A line of words over the drawing.
    Caption,
    /// A column of labels right of the drawing.
    Labels,
}

/// Least of an area, in percent, that margins leave to the drawing, across and up.
const LEFT_TO_DRAWING: u16 = 40;

/// Least cells of a drawing that margins leave, across and up.
const LEAST: [u16; 2] = [6, 3];

/// Weight of the caption among the figures.
const CAPTION: u8 = 86;

/// Weight of the column of labels.
const LABELS: u8 = 95;

/// Where a drawing goes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fit {
    /// The area given.
    pub(super) area: Rect,
    /// The cells of the drawing itself.
    pub(super) canvas: Rect,
    /// Rows of figures that have room, from the drawing outwards, with the width of their text.
    pub(super) rows: [Vec<(u8, u16)>; 4],
    /// Whether there is a line for the caption.
    pub(super) caption: bool,
    /// Width of the column of labels; none when there is no room.
    pub(super) labels: u16,
    marker: Marker,
    /// The lower left of the drawing, mm.
    origin: [f64; 2],
    /// Millimetres a dot, across and up.
    per_dot: [f64; 2],
}

impl Fit {
    /// Fits the drawing; `None` when there is nothing to be drawn or no cell for it.
    pub(super) fn new(sketch: &Sketch<'_>, area: Rect) -> Option<Self> {
        let [left, bottom, right, top] = sketch.drawing.bounds?;
        let size = [right - left, top - bottom];
        if area.is_empty() || !size.iter().all(|s| s.is_finite() && *s >= 0.0) {
            return None;
        }
        let mut fit = Self {
            area,
            canvas: area,
            rows: [const { Vec::new() }; 4],
            caption: false,
            labels: 0,
            marker: sketch.marker,
            origin: [left, bottom],
            per_dot: [1.0, 1.0],
        };
        fit.take_margins(sketch);
        fit.scale(size);
        Some(fit)
    }

    /// Margins as long as enough is left, those that matter most first.
    fn take_margins(&mut self, sketch: &Sketch<'_>) {
        let mut wanted: Vec<(u8, Margin, u16)> = Vec::new();
        let mut want = |weight: u8, margin: Margin, wide: u16| match wanted
            .iter_mut()
            .find(|(_, other, _)| *other == margin)
        {
            Some((known, _, width)) => {
                *known = (*known).max(weight);
                *width = (*width).max(wide);
            }
            None => wanted.push((weight, margin, wide)),
        };
        for dimension in shown(sketch) {
            let margin = Margin::Figures(dimension.edge, dimension.row);
            let wide = if dimension.edge.is_level() {
                0
            } else {
                width(&dimension.text)
            };
            want(weight_of(sketch, dimension), margin, wide);
        }
        if !sketch.drawing.captions.is_empty() {
            want(CAPTION, Margin::Caption, 0);
        }
        let beside = |label: &&hodful_takeoff::drawing::Label| label.stand == Stand::Beside;
        for label in sketch.drawing.labels.iter().filter(beside) {
            want(LABELS, Margin::Labels, width(&label.text).saturating_add(1));
        }
        wanted.sort_by_key(|(weight, ..)| core::cmp::Reverse(*weight));
        let mut left = [self.area.width, self.area.height];
        let share = |whole: u16| u16::try_from(u32::from(whole) * u32::from(LEFT_TO_DRAWING) / 100);
        let least = [
            share(self.area.width).unwrap_or_default().max(LEAST[0]),
            share(self.area.height).unwrap_or_default().max(LEAST[1]),
        ];
        for (_, margin, wide) in wanted {
            let (axis, cells) = match margin {
                Margin::Figures(edge, _) if edge.is_level() => (1, 1),
                Margin::Caption => (1, 1),
                // The line of the figures stands between their text and the drawing.
                Margin::Figures(..) => (0, wide.saturating_add(1)),
                Margin::Labels => (0, wide.saturating_add(LEADER)),
            };
            let (Some(left), Some(least)) = (left.get_mut(axis), least.get(axis)) else {
                continue;
            };
            let Some(rest) = left.checked_sub(cells).filter(|rest| rest >= least) else {
                continue;
            };
            *left = rest;
            match margin {
                Margin::Figures(edge, row) => self.row_list(edge).push((row, wide)),
                Margin::Caption => self.caption = true,
                Margin::Labels => self.labels = wide,
            }
        }
        for rows in &mut self.rows {
            rows.sort_unstable();
        }
    }

    fn row_list(&mut self, edge: Edge) -> &mut Vec<(u8, u16)> {
        let [below, above, left, right] = &mut self.rows;
        match edge {
            Edge::Below => below,
            Edge::Above => above,
            Edge::Left => left,
            Edge::Right => right,
        }
    }

    /// Rows of figures outside an edge, from the drawing outwards, with the width of their text.
    pub(super) fn rows_of(&self, edge: Edge) -> &[(u8, u16)] {
        let [below, above, left, right] = &self.rows;
        match edge {
            Edge::Below => below,
            Edge::Above => above,
            Edge::Left => left,
            Edge::Right => right,
        }
    }

    /// Cells outside an edge.
    fn margin(&self, edge: Edge) -> u16 {
        let rows = self.rows_of(edge).iter();
        let cells: u16 = if edge.is_level() {
            rows.map(|_| 1).sum()
        } else {
            rows.map(|(_, wide)| wide + 1).sum()
        };
        match edge {
            Edge::Above if self.caption => cells + 1,
            Edge::Right if self.labels > 0 => cells + self.labels + LEADER,
            _ => cells,
        }
    }

    /// The scale at which the drawing fills what the margins leave, and where it stands then.
    fn scale(&mut self, size: [f64; 2]) {
        let dots = self.marker.dots();
        let aspect = self.marker.aspect();
        let [left, right] = [Edge::Left, Edge::Right].map(|edge| self.margin(edge));
        let [above, below] = [Edge::Above, Edge::Below].map(|edge| self.margin(edge));
        let room = [
            self.area.width.saturating_sub(left + right).max(1),
            self.area.height.saturating_sub(above + below).max(1),
        ];
        let spare = |axis: usize| {
            let cells = room.get(axis).copied().unwrap_or(1);
            f64::from(cells) * f64::from(dots.get(axis).copied().unwrap_or(1)) - 1.0
        };
        let [wide, high] = size;
        let across = wide / spare(0).max(1.0);
        let up = high / (spare(1).max(1.0) * aspect);
        let scale = across.max(up);
        let scale = if scale > 0.0 { scale } else { 1.0 };
        self.per_dot = [scale, scale * aspect];
        let cells = |mm: f64, per_dot: f64, dots: u16, room: u16| {
            let used = ((mm / per_dot).round() + 1.0) / f64::from(dots);
            whole(used.ceil()).clamp(1, room)
        };
        let [per_u, per_v] = self.per_dot;
        let [room_u, room_v] = room;
        let (w, h) = (
            cells(wide, per_u, dots[0], room_u),
            cells(high, per_v, dots[1], room_v),
        );
        let spare = [
            self.area.width.saturating_sub(left + w + right),
            self.area.height.saturating_sub(above + h + below),
        ];
        self.canvas = Rect::new(
            self.area.x + spare[0] / 2 + left.min(self.area.width.saturating_sub(w)),
            self.area.y + spare[1] / 2 + above.min(self.area.height.saturating_sub(h)),
            w,
            h,
        )
        .intersection(self.area);
    }

    /// Dots of a cell, across and up.
    pub(super) fn cell_dots(&self) -> [u16; 2] {
        self.marker.dots()
    }

    /// A place in mm as dots from the lower left of the canvas, not rounded.
    pub(super) fn dot(&self, [u, v]: [f64; 2]) -> [f64; 2] {
        let [per_u, per_v] = self.per_dot;
        [(u - self.origin[0]) / per_u, (v - self.origin[1]) / per_v]
    }

    /// The column and row of a place, which may lie outside the canvas.
    pub(super) fn cell(&self, place: [f64; 2]) -> [i32; 2] {
        let [x, y] = self.dot(place);
        let [across, up] = self.marker.dots().map(i32::from);
        let (x, y) = (nearest(x), nearest(y));
        [
            i32::from(self.canvas.x) + x.div_euclid(across),
            i32::from(self.canvas.bottom()) - 1 - y.div_euclid(up),
        ]
    }

    /// The place in mm of the middle of a cell.
    pub(super) fn place(&self, column: u16, row: u16) -> [f64; 2] {
        let [across, up] = self.marker.dots().map(f64::from);
        let cells = [
            f64::from(column) - f64::from(self.canvas.x),
            f64::from(self.canvas.bottom()) - 1.0 - f64::from(row),
        ];
        let [per_u, per_v] = self.per_dot;
        [
            self.origin[0] + (cells[0] * across + (across - 1.0) / 2.0) * per_u,
            self.origin[1] + (cells[1] * up + (up - 1.0) / 2.0) * per_v,
        ]
    }
}

/// Cells between the drawing and the labels beside it.
pub(super) const LEADER: u16 = 2;

/// The figures that are to be shown.
pub(super) fn shown<'a>(sketch: &Sketch<'a>) -> impl Iterator<Item = &'a DimensionLine> {
    let chosen = sketch.chosen;
    sketch
        .drawing
        .dimensions
        .iter()
        .filter(move |dimension| !dimension.only_chosen || dimension.of == chosen)
}

/// How much a figure matters now.
pub(super) fn weight_of(sketch: &Sketch<'_>, dimension: &DimensionLine) -> u8 {
    if sketch.chosen.is_some() && dimension.of == sketch.chosen {
        dimension.weight.saturating_add(20)
    } else {
        dimension.weight
    }
}

/// Columns that a text takes.
pub(super) fn width(text: &str) -> u16 {
    u16::try_from(text.width()).unwrap_or(u16::MAX)
}

/// A number of cells from a number that is one.
fn whole(number: f64) -> u16 {
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a cast to an integer stays within its range"
    )]
    let cells = number as u16;
    cells
}

/// The nearest whole number, within what any screen has.
pub(super) fn nearest(number: f64) -> i32 {
    #[allow(clippy::cast_possible_truncation, reason = "clamped to what both have")]
    let whole = number.round().clamp(-1.0e6, 1.0e6) as i32;
    whole
}
