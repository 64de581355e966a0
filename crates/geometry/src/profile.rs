//! A profile: the part of a plane between a level floor and a top line of one or two straight pieces, trimmed by an inset.
//!
//! Rectangle, gable, raked top and the developed face of a wall curved on plan are all profiles. Areas and lengths inside one
//! are closed forms. Polygons are not here.

use crate::outline::Inset;
use crate::tolerance::TOUCH;

/// A place in the plane of a wall: u along it, v up, millimetres.
pub(crate) type Point = [f64; 2];

/// An upright box in the plane of the wall, in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bounds {
    /// Least u.
    pub left: f64,
    /// Greatest u.
    pub right: f64,
    /// Least v.
    pub bottom: f64,
    /// Greatest v.
    pub top: f64,
}

impl Bounds {
    /// Width in millimetres.
    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Height in millimetres.
    pub fn height(&self) -> f64 {
        self.top - self.bottom
    }

    pub(crate) fn shifted(&self, u: f64, v: f64) -> Self {
        Self {
            left: self.left + u,
            right: self.right + u,
            bottom: self.bottom + v,
            top: self.top + v,
        }
    }

    /// Whether the two boxes share more than a line.
    #[expect(
        clippy::needless_bitwise_bool,
        reason = "which of two openings stands left is as good as chance: guessing wrong costs more than all four comparisons"
    )]
    #[inline]
    pub(crate) fn overlaps(&self, other: &Self) -> bool {
        (self.left + TOUCH < other.right)
            & (other.left + TOUCH < self.right)
            & (self.bottom + TOUCH < other.top)
            & (other.bottom + TOUCH < self.top)
    }

    pub(crate) fn joined(&self, other: &Self) -> Self {
        Self {
            left: self.left.min(other.left),
            right: self.right.max(other.right),
            bottom: self.bottom.min(other.bottom),
            top: self.top.max(other.top),
        }
    }

    /// The common part; width or height are negative when there is none.
    pub(crate) fn common(&self, other: &Self) -> Self {
        Self {
            left: self.left.max(other.left),
            right: self.right.min(other.right),
            bottom: self.bottom.max(other.bottom),
            top: self.top.min(other.top),
        }
    }
}

/// A level profile as the bounds to hold a box against, slack included.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fence {
    left: f64,
    right: f64,
    floor: f64,
    top: f64,
}

impl Fence {
    /// See [`crate::FaceOutline`], which has the same question for every shape.
    #[inline]
    pub(crate) fn contains_above_floor(&self, area: &Bounds) -> bool {
        area.left >= self.left
            && area.right <= self.right
            && area.top - TOUCH <= self.top
            && area.top > self.floor
            && area.bottom < area.top
            && area.bottom >= -TOUCH
    }
}

/// The top of a wall before any inset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum TopLine {
    Level(f64),
    /// Two straight pieces that meet at `ridge_at`, which is more than zero; with `ridge_at` at the far end there is but one.
    Sloped {
        left: f64,
        ridge_at: f64,
        ridge: f64,
        right: f64,
    },
}

/// See the module's own words.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Profile {
    pub(crate) length: f64,
    pub(crate) top: TopLine,
    pub(crate) inset: Inset,
}

impl Profile {
    #[inline]
    pub(crate) fn left(&self) -> f64 {
        self.inset.left
    }

    #[inline]
    pub(crate) fn right(&self) -> f64 {
        self.length - self.inset.right
    }

    #[inline]
    pub(crate) fn floor(&self) -> f64 {
        self.inset.bottom
    }

    /// The profile when its top is level.
    #[inline]
    pub(crate) fn fence(&self) -> Option<Fence> {
        let TopLine::Level(height) = self.top else {
            return None;
        };
        Some(Fence {
            left: self.left() - TOUCH,
            right: self.right() + TOUCH,
            floor: self.floor(),
            top: height - self.inset.top,
        })
    }

    /// The same wall with no inset.
    pub(crate) fn untrimmed(&self) -> Self {
        Self {
            inset: Inset::default(),
            ..*self
        }
    }

    /// Height of the lowered top line over `u`, in millimetres.
    pub(crate) fn top_at(&self, u: f64) -> f64 {
        let raw = match self.top {
            TopLine::Level(height) => height,
            TopLine::Sloped {
                left,
                ridge_at,
                ridge,
                right,
            } => {
                if u <= ridge_at || ridge_at >= self.length {
                    left + (ridge - left) * (u / ridge_at)
                } else {
                    right + (ridge - right) * ((self.length - u) / (self.length - ridge_at))
                }
            }
        };
        raw - self.inset.top
    }

    /// Place of the ridge when it lies strictly between `from` and `to`.
    pub(crate) fn ridge_between(&self, from: f64, to: f64) -> Option<f64> {
        match self.top {
            TopLine::Sloped { ridge_at, .. } if ridge_at > from && ridge_at < to => Some(ridge_at),
            _ => None,
        }
    }

    /// Area in mm².
    pub(crate) fn area(&self) -> f64 {
        if let TopLine::Level(height) = self.top {
            let width = (self.right() - self.left()).max(0.0);
            return width * (height - self.inset.top - self.floor()).max(0.0);
        }
        self.box_area(&Bounds {
            left: self.left(),
            right: self.right(),
            bottom: self.floor(),
            top: f64::INFINITY,
        })
    }

    /// Area of the part of a box inside the profile, in mm². Exact for every top line.
    pub(crate) fn box_area(&self, area: &Bounds) -> f64 {
        let from = area.left.max(self.left());
        let to = area.right.min(self.right());
        let low = area.bottom.max(self.floor());
        if to <= from || area.top <= low {
            return 0.0;
        }
        if let TopLine::Level(height) = self.top {
            return (to - from) * (area.top.min(height - self.inset.top) - low).max(0.0);
        }
        let piece = |from: f64, to: f64| {
            let (a, b) = (self.top_at(from) - low, self.top_at(to) - low);
            let above = if area.top.is_finite() {
                let tall = area.top - low;
                positive_part(a - tall, b - tall)
            } else {
                0.0
            };
            (to - from) * (positive_part(a, b) - above)
        };
        match self.ridge_between(from, to) {
            Some(ridge) => piece(from, ridge) + piece(ridge, to),
            None => piece(from, to),
        }
        .max(0.0)
    }

    /// Whether a box lies wholly inside, its sides included.
    #[inline]
    pub(crate) fn contains(&self, area: &Bounds) -> bool {
        if area.left < self.left() - TOUCH
            || area.right > self.right() + TOUCH
            || area.bottom < self.floor() - TOUCH
        {
            return false;
        }
        let top = area.top - TOUCH;
        match self.top {
            TopLine::Level(height) => top <= height - self.inset.top,
            TopLine::Sloped { .. } => {
                top <= self.top_at(area.left)
                    && top <= self.top_at(area.right)
                    && self
                        .ridge_between(area.left, area.right)
                        .is_none_or(|ridge| top <= self.top_at(ridge))
            }
        }
    }

    /// Length of the straight line from `a` to `b` inside the profile, in millimetres; its edges are inside.
    pub(crate) fn inside_length(&self, a: Point, b: Point) -> f64 {
        let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        let length = (dx * dx + dy * dy).sqrt();
        let share = match self.ridge_between(a[0].min(b[0]), a[0].max(b[0])) {
            Some(ridge) => {
                let s = ((ridge - a[0]) / dx).clamp(0.0, 1.0);
                let m = [ridge, a[1] + s * dy];
                s * self.straight_share(a, m) + (1.0 - s) * self.straight_share(m, b)
            }
            None => self.straight_share(a, b),
        };
        share * length
    }

    /// Share of a straight line inside, when it does not pass the ridge: four half planes, one after another.
    fn straight_share(&self, a: Point, b: Point) -> f64 {
        let mut span = (0.0, 1.0);
        trim(&mut span, a[0] - self.left(), b[0] - self.left());
        trim(&mut span, self.right() - a[0], self.right() - b[0]);
        trim(&mut span, a[1] - self.floor(), b[1] - self.floor());
        trim(
            &mut span,
            self.top_at(a[0]) - a[1],
            self.top_at(b[0]) - b[1],
        );
        (span.1 - span.0).max(0.0)
    }

    /// Height of the vertical edge over `u`, in millimetres.
    pub(crate) fn edge_at(&self, u: f64) -> f64 {
        (self.top_at(u) - self.floor()).max(0.0)
    }

    /// The box around the profile.
    pub(crate) fn bounds(&self) -> Bounds {
        let (left, right) = (self.left(), self.right());
        let mut top = self.top_at(left).max(self.top_at(right));
        if let Some(ridge) = self.ridge_between(left, right) {
            top = top.max(self.top_at(ridge));
        }
        Bounds {
            left,
            right,
            bottom: self.floor(),
            top,
        }
    }

    /// The profile as a ring, anticlockwise, with what lies under the floor cut away.
    pub(crate) fn ring(&self) -> Vec<Point> {
        let (left, right, floor) = (self.left(), self.right(), self.floor());
        let mut knots = vec![[right, self.top_at(right)]];
        if let Some(ridge) = self.ridge_between(left, right) {
            knots.push([ridge, self.top_at(ridge)]);
        }
        knots.push([left, self.top_at(left)]);
        let mut ring = vec![[left, floor], [right, floor]];
        let mut last: Option<Point> = None;
        for knot in knots {
            if let Some(before) = last {
                let (p, q) = (before[1] - floor, knot[1] - floor);
                if (p > 0.0) != (q > 0.0) {
                    let s = p / (p - q);
                    ring.push([before[0] + s * (knot[0] - before[0]), floor]);
                }
            }
            ring.push([knot[0], knot[1].max(floor)]);
            last = Some(knot);
        }
        ring
    }
}

/// Mean over a unit length of the positive part of a quantity that runs evenly from `a` to `b`.
fn positive_part(a: f64, b: f64) -> f64 {
    if a >= 0.0 && b >= 0.0 {
        0.5 * (a + b)
    } else if a <= 0.0 && b <= 0.0 {
        0.0
    } else {
        let high = a.max(b);
        high * high / (2.0 * (a - b).abs())
    }
}

/// Trims a span of a line to where a quantity that runs evenly from `a` to `b` is not negative. A line that lies along an
/// edge is kept whole.
fn trim(span: &mut (f64, f64), a: f64, b: f64) {
    if a >= -TOUCH && b >= -TOUCH {
        return;
    }
    if a <= 0.0 && b <= 0.0 {
        *span = (0.0, 0.0);
        return;
    }
    let s = a / (a - b);
    if a < b {
        span.0 = span.0.max(s);
    } else {
        span.1 = span.1.min(s);
    }
}
