//! Scenes to scale: a face of a wall, a section through it, a build-up, the plan of a building; and four that
//! have no scale of their own, the triangle of textures, the grading of a blend, a figure over a range, and how
//! often a figure comes out where.
//!
//! A [`Drawing`] is plain data in millimetres, made from the project as typed: a wall in which
//! something is refused is drawn as far as its numbers go, and numbers that make no line (nothing,
//! negative, past ten kilometres) make none. Figures are printed in the units asked for; everything
//! else is left to whoever paints it, on a screen or on paper.
//!
//! Not here: painting, colours, cells, and what is refused or doubtful (see [`crate::check()`] and
//! [`crate::doubts()`]).

mod axis;
mod curve;
mod days;
mod face;
mod field;
mod grading;
mod histogram;
mod layers;
mod limits;
mod line;
mod number;
mod opening;
mod outline;
mod plan;
mod section;
mod triangle;

pub use curve::curve;
pub use days::{day_sheets, days};
pub use face::face;
pub use grading::grading;
pub use histogram::{Bars, histogram};
pub use layers::build_up;
pub use plan::{PlanOutline, PlanWall, openings as plan_openings, plan};
pub use section::{Cut, section};
pub use triangle::triangle;

use crate::form::Subject;
use ecow::EcoString;
use limits::MOST;

/// A point of a drawing: to the right and up, mm.
pub type Point = [f64; 2];

/// What is to be drawn, in millimetres, u to the right and v up.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    /// Lines, the least important first.
    pub strokes: Vec<Stroke>,
    /// Areas, the lowest first; lines lie over all of them.
    pub fills: Vec<Fill>,
    /// Dimension figures, which stand outside the bounds.
    pub dimensions: Vec<DimensionLine>,
    /// Words in or beside the drawing.
    pub labels: Vec<Label>,
    /// Words about the drawing as a whole, the most important first.
    pub captions: Vec<EcoString>,
    /// How distances along a face are drawn.
    pub along: Along,
    /// The box to be shown, `[left, bottom, right, top]`; lines may reach past it and are cut there.
    /// `None` when there is nothing to be drawn.
    pub bounds: Option<[f64; 4]>,
}

/// How distances along a face, from its left end seen from outside, are drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Along {
    /// Drawn the other way round between these two, as from inside.
    pub mirrored: Option<[f64; 2]>,
    /// Drawn so many times as long: the inside of a curved wall is shorter than its outside.
    pub scale: f64,
}

impl Default for Along {
    fn default() -> Self {
        Self {
            mirrored: None,
            scale: 1.0,
        }
    }
}

impl Along {
    /// The distance from the left end, seen from outside, of a place in the drawing, mm.
    pub fn from_left(&self, u: f64) -> f64 {
        let u = self.mirrored.map_or(u, |[left, right]| left + right - u);
        u / self.scale
    }
}

/// A line of straight pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// What it is a line of.
    pub role: Role,
    /// Its points, at least two, all finite.
    pub points: Vec<Point>,
    /// Whether the last point is joined to the first.
    pub closed: bool,
    /// What it belongs to.
    pub of: Option<Subject>,
}

/// An area within a ring.
#[derive(Debug, Clone, PartialEq)]
pub struct Fill {
    /// What fills it.
    pub role: Role,
    /// The corners of the ring, at least three, all finite; the last is joined to the first.
    pub ring: Vec<Point>,
    /// What it belongs to.
    pub of: Option<Subject>,
}

/// What a line or an area stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Role {
    /// What the wall is built of.
    Background,
    /// The fill of an uneven background, outside the stated thickness of the coats.
    DubbingOut,
    /// A coat, by its position in the build-up.
    Coat(u8),
    /// The ground or the floor.
    Floor,
    /// A strip of lath along an edge.
    Lath,
    /// A hollow filled on its own.
    Pocket,
    /// Where a rounded edge, a rounded corner or a cove begins on the face.
    Rounded,
    /// A fold of a splayed reveal, from the frame to the face.
    RevealSurface,
    /// The edge of the plastered surface: the outline after insets, or the finished face in a section.
    Plaster,
    /// The outline of the wall.
    Outline,
    /// The edge of an opening in the face: its frame opened out by the splay.
    Hole,
    /// The frame of an opening.
    Frame,
    /// Where a drawing breaks off though the thing goes on.
    Break,
}

/// The edge of a drawing that a dimension figure stands outside of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edge {
    /// Under it; the figure measures along.
    Below,
    /// Over it; the figure measures along.
    Above,
    /// Left of it; the figure measures up.
    Left,
    /// Right of it; the figure measures up.
    Right,
}

impl Edge {
    /// Whether figures there measure along the drawing rather than up.
    pub fn is_level(self) -> bool {
        matches!(self, Self::Below | Self::Above)
    }
}

/// A dimension figure between two places.
#[derive(Debug, Clone, PartialEq)]
pub struct DimensionLine {
    /// What is measured, in words: `length`, `from left`.
    pub name: &'static str,
    /// From here; only u counts for a figure along, only v for one up.
    pub from: Point,
    /// To here.
    pub to: Point,
    /// The edge it stands outside of.
    pub edge: Edge,
    /// How far outside, counted from the drawing; figures of one row form a chain.
    pub row: u8,
    /// The figure, printed.
    pub text: EcoString,
    /// How much it matters, more is more.
    pub weight: u8,
    /// What it belongs to.
    pub of: Option<Subject>,
    /// Whether it is shown only while what it belongs to is chosen.
    pub only_chosen: bool,
}

/// Where a label stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stand {
    /// About its place, within the box `[left, bottom, right, top]` if it has room there.
    In([f64; 4]),
    /// At its place or as near as may be.
    At,
    /// In a column right of the drawing, at the height of its place.
    Beside,
    /// Over its place with no line under it, so that it stands in what holds the place; else not at all.
    Here,
    /// Right of its place, else left of it, over it or under it: the name of a mark.
    Next,
    /// Left of its place, at its height, ending there: the name of a row.
    Before,
}

/// Words at a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// The place.
    pub at: Point,
    /// The words.
    pub text: EcoString,
    /// How they stand to the place.
    pub stand: Stand,
    /// How much they matter, more is more.
    pub weight: u8,
    /// What they name.
    pub of: Option<Subject>,
    /// Whether this is the one place at which `of` is named, so that a mark may stand here.
    pub names: bool,
    /// Whether it is there only to carry a mark.
    pub only_marked: bool,
}

impl Drawing {
    /// A drawing of nothing, with the reason.
    pub fn nothing(reason: impl Into<EcoString>) -> Self {
        Self {
            captions: vec![reason.into()],
            ..Self::default()
        }
    }

    /// Adds a line, unless it has no length or leaves what can be drawn.
    fn stroke(&mut self, role: Role, points: Vec<Point>, closed: bool, of: Option<Subject>) {
        if points.len() > 1 && points.iter().flatten().all(|n| n.abs() <= MOST) {
            self.strokes.push(Stroke {
                role,
                points,
                closed,
                of,
            });
        }
    }

    /// Adds an area, unless it is none or leaves what can be drawn.
    fn fill(&mut self, role: Role, ring: Vec<Point>, of: Option<Subject>) {
        if ring.len() > 2 && ring.iter().flatten().all(|n| n.abs() <= MOST) {
            self.fills.push(Fill { role, ring, of });
        }
    }

    /// Adds words that name nothing that can be chosen.
    fn label(&mut self, at: Point, text: impl Into<EcoString>, weight: u8, stand: Stand) {
        self.labels.push(Label {
            at,
            text: text.into(),
            stand,
            weight,
            of: None,
            names: false,
            only_marked: false,
        });
    }

    /// The box around every line and area.
    fn extent(&self) -> Option<[f64; 4]> {
        let lines = self.strokes.iter().flat_map(|stroke| &stroke.points);
        let areas = self.fills.iter().flat_map(|fill| &fill.ring);
        line::bounds(lines.chain(areas))
    }

    /// The same as seen from the other side: left and right about the middle of `[left, right]`.
    fn mirror(&mut self, [left, right]: [f64; 2]) {
        let over = |u: f64| left + right - u;
        let points = self.strokes.iter_mut().flat_map(|s| &mut s.points);
        let points = points.chain(self.fills.iter_mut().flat_map(|f| &mut f.ring));
        for point in points {
            point[0] = over(point[0]);
        }
        for dimension in &mut self.dimensions {
            dimension.from[0] = over(dimension.from[0]);
            dimension.to[0] = over(dimension.to[0]);
            dimension.edge = match dimension.edge {
                Edge::Left => Edge::Right,
                Edge::Right => Edge::Left,
                level => level,
            };
        }
        for label in &mut self.labels {
            label.at[0] = over(label.at[0]);
            if let Stand::In([l, bottom, r, top]) = label.stand {
                label.stand = Stand::In([over(r), bottom, over(l), top]);
            }
        }
        if let Some([l, bottom, r, top]) = self.bounds {
            self.bounds = Some([over(r), bottom, over(l), top]);
        }
    }
}

/// What is shown of a box that is to be seen together with all else: at most half as much again on
/// each side, so that one slip of the finger does not shrink the rest to a dot.
fn shown(main: [f64; 4], all: [f64; 4]) -> [f64; 4] {
    let reach = (main[2] - main[0]).max(main[3] - main[1]) / 2.0;
    [
        all[0].max(main[0] - reach),
        all[1].max(main[1] - reach),
        all[2].min(main[2] + reach),
        all[3].min(main[3] + reach),
    ]
}

#[cfg(test)]
mod tests;
