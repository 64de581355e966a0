//! Dots: a grid of them, the dots along a line, and what the canvas of the screen makes of them.
//! Not here: which lines are drawn and how they look.

use super::State;
use super::fit::nearest;
use hodful_takeoff::drawing::Role;
use ratatui::style::Color;
use ratatui::widgets::canvas::{Painter, Shape};

/// One dot: how much it matters (0 for none), in which directions lines run through it, and its look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Dot {
    pub(super) rank: u8,
    pub(super) runs: u8,
    pub(super) look: u8,
}

pub(super) const LEVEL: u8 = 1;
pub(super) const UPRIGHT: u8 = 2;
pub(super) const RISING: u8 = 4;
pub(super) const FALLING: u8 = 8;
/// Part of an area, by the kind of its hatching.
pub(super) const AREA: u8 = 16;
/// Part of a line that is only dotted.
pub(super) const DOTTED: u8 = 32;

/// The dots of a drawing, from the lower left.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Raster {
    wide: usize,
    high: usize,
    dots: Vec<Dot>,
    /// Dots of a cell, across and up.
    cell: [usize; 2],
    /// The dot that matters most in each cell.
    tops: Vec<Dot>,
    /// The looks that dots name.
    pub(super) looks: Vec<(Role, State)>,
}

impl Raster {
    /// An empty grid of so many cells with so many dots each.
    pub(super) fn new([columns, rows]: [u16; 2], dots: [u16; 2]) -> Self {
        let [columns, rows] = [usize::from(columns), usize::from(rows)];
        let cell = dots.map(|dots| usize::from(dots).max(1));
        let [across, up] = cell;
        Self {
            wide: columns * across,
            high: rows * up,
            dots: vec![Dot::default(); columns * across * rows * up],
            cell,
            tops: vec![Dot::default(); columns * rows],
            looks: Vec::new(),
        }
    }

    /// Dots across and up.
    pub(super) fn size(&self) -> [usize; 2] {
        [self.wide, self.high]
    }

    fn dot(&self, x: i32, y: i32) -> Dot {
        let found = place(x, y, self.wide, self.high).and_then(|[x, y]| {
            let dot = self.dots.get(y * self.wide + x)?;
            Some(*dot)
        });
        found.unwrap_or_default()
    }

    /// The dot that matters most in a cell, by column and row from the lower left.
    pub(super) fn top(&self, column: i32, row: i32) -> Dot {
        let [across, up] = self.cell;
        let columns = self.wide / across;
        let found = place(column, row, columns, self.high / up)
            .and_then(|[column, row]| self.tops.get(row * columns + column));
        found.copied().unwrap_or_default()
    }

    pub(super) fn set(&mut self, x: i32, y: i32, dot: Dot) {
        let Some([x, y]) = place(x, y, self.wide, self.high) else {
            return;
        };
        let [across, up] = self.cell;
        let cell = y / up * (self.wide / across) + x / across;
        let Some(known) = self.dots.get_mut(y * self.wide + x) else {
            return;
        };
        if dot.rank >= known.rank {
            let lines = known.runs & !(AREA | DOTTED);
            *known = Dot {
                runs: lines | dot.runs,
                ..dot
            };
        } else if dot.runs & AREA == 0 {
            known.runs |= dot.runs & !DOTTED;
        }
        if let Some(top) = self.tops.get_mut(cell)
            && known.rank >= top.rank
        {
            *top = *known;
        }
    }

    /// The number of a look, entered when it is new.
    pub(super) fn look(&mut self, look: (Role, State)) -> u8 {
        let known = self.looks.iter().position(|other| *other == look);
        let number = known.unwrap_or_else(|| {
            self.looks.push(look);
            self.looks.len() - 1
        });
        u8::try_from(number).unwrap_or(u8::MAX)
    }

    /// Whether a line runs through a dot or beside it.
    pub(super) fn is_crowded(&self, x: i32, y: i32) -> bool {
        (-1..=1).any(|j| {
            (-1..=1).any(|i| {
                let dot = self.dot(x + i, y + j);
                dot.rank > GROUND && dot.runs & AREA == 0
            })
        })
    }

    /// Whether any line runs through a cell, by column and row from the lower left.
    pub(super) fn has_line(&self, column: i32, row: i32) -> bool {
        self.top(column, row).rank > GROUND
    }
}

/// A place of a grid, when it is one.
fn place(x: i32, y: i32, wide: usize, high: usize) -> Option<[usize; 2]> {
    let (x, y) = (usize::try_from(x).ok()?, usize::try_from(y).ok()?);
    (x < wide && y < high).then_some([x, y])
}

/// Rank of an area: under every line.
pub(super) const GROUND: u8 = 1;

/// The dots along a line, each with the way it runs.
pub(super) fn follow(
    points: impl Iterator<Item = [f64; 2]> + Clone,
    closed: bool,
    limits: [usize; 2],
    [on, off]: [u32; 2],
    trail: &mut Vec<(i32, i32, u8)>,
) {
    let first = points.clone().next().filter(|_| closed);
    let mut count = 0_u32;
    let mut before: Option<[f64; 2]> = None;
    for point in points.chain(first) {
        let from = before.replace(point);
        let Some([a, b]) = from.and_then(|from| within(from, point, limits)) else {
            continue;
        };
        let (x, y) = (nearest(a[0]), nearest(a[1]));
        let (dx, dy) = (nearest(b[0]) - x, nearest(b[1]) - y);
        let steps = dx.abs().max(dy.abs());
        let runs = run(b[0] - a[0], b[1] - a[1]);
        let whole = steps.max(1);
        for i in 0..=steps {
            // The nearest whole number to d·i/steps: both are under a million.
            let along = |d: i32| {
                let share = 2 * i64::from(d) * i64::from(i) + i64::from(whole);
                i32::try_from(share.div_euclid(2 * i64::from(whole))).unwrap_or_default()
            };
            if count % (on + off) < on {
                trail.push((x + along(dx), y + along(dy), runs));
            }
            // The last dot of a piece is the first of the next.
            if i < steps {
                count += 1;
            }
        }
    }
}

fn run(dx: f64, dy: f64) -> u8 {
    let (w, h) = (dx.abs(), dy.abs());
    if w > 2.0 * h {
        LEVEL
    } else if h > 2.0 * w {
        UPRIGHT
    } else if (dx > 0.0) == (dy > 0.0) {
        RISING
    } else {
        FALLING
    }
}

/// The part of a line inside the dots, by the method of Liang and Barsky (1984).
fn within(a: [f64; 2], b: [f64; 2], limits: [usize; 2]) -> Option<[[f64; 2]; 2]> {
    let inside = |[x, y]: [f64; 2]| {
        let [wide, high] = limits.map(|limit| u32::try_from(limit).map_or(0.0, f64::from));
        (0.0..=wide - 1.0).contains(&x) && (0.0..=high - 1.0).contains(&y)
    };
    if inside(a) && inside(b) {
        return Some([a, b]);
    }
    let (mut start, mut end) = (0.0_f64, 1.0_f64);
    for ((from, to), limit) in a.into_iter().zip(b).zip(limits) {
        let limit = u32::try_from(limit).map_or(0.0, f64::from);
        let (low, high) = (-0.5, limit - 0.5);
        let run = to - from;
        if run.abs() <= 0.0 {
            if !(low..=high).contains(&from) {
                return None;
            }
            continue;
        }
        let (near, far) = ((low - from) / run, (high - from) / run);
        start = start.max(near.min(far));
        end = end.min(near.max(far));
    }
    if start > end {
        return None;
    }
    let at = |share: f64| [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
    Some([at(start), at(end)])
}

/// The dots as a shape of the canvas.
pub(super) struct Dots<'a>(pub(super) &'a Raster);

impl Shape for Dots<'_> {
    fn draw(&self, painter: &mut Painter<'_, '_>) {
        let Self(raster) = self;
        for (y, row) in raster.dots.chunks(raster.wide.max(1)).enumerate() {
            for (x, dot) in row.iter().enumerate() {
                if dot.rank > 0 {
                    painter.paint(x, raster.high - 1 - y, Color::Reset);
                }
            }
        }
    }
}
