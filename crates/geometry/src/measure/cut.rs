//! What of an opening's lines is inside the face: all of them, those above a floor, or those the face leaves.
//!
//! Lengths and shares only; which lines an opening has is not known here.

use crate::hole::Hole;
use crate::outline::FaceOutline;
use crate::polygon::sides;
use crate::profile::{Bounds, Point};
use crate::tolerance::TOUCH;

/// What of an opening's lines is inside the face. Places are given from the lower left of the frame's box.
pub(super) trait Cut {
    /// Of an upright line.
    fn up(&self, u: f64, from: f64, to: f64) -> f64;
    /// Of a level line.
    fn across(&self, v: f64, from: f64, to: f64) -> f64;
    /// Of any straight line.
    fn straight(&self, a: Point, b: Point) -> f64;
    /// The share of a hole's arch or circle.
    fn curve_share(&self, hole: &Hole<'_>) -> f64;
    /// The share of a fold from the frame to the face.
    fn fold_share(&self, frame: Point, face: Point) -> f64;
}

/// Nothing cuts it.
pub(super) struct Whole;

impl Cut for Whole {
    #[inline]
    fn up(&self, _u: f64, from: f64, to: f64) -> f64 {
        to - from
    }

    #[inline]
    fn across(&self, _v: f64, from: f64, to: f64) -> f64 {
        to - from
    }

    fn straight(&self, a: Point, b: Point) -> f64 {
        length(a, b)
    }

    #[inline]
    fn curve_share(&self, _hole: &Hole<'_>) -> f64 {
        1.0
    }

    #[inline]
    fn fold_share(&self, _frame: Point, _face: Point) -> f64 {
        1.0
    }
}

/// At most the floor cuts it: this far above the lower left of the frame, or nothing does when that is far below.
pub(super) struct Floor(pub(super) f64);

impl Floor {
    /// Whether it cuts nothing of a hole and the frame in it.
    #[inline]
    pub(super) fn is_under(&self, hole: &Bounds) -> bool {
        self.0 <= hole.bottom
    }

    #[inline]
    fn reaches(&self, v: f64) -> bool {
        v >= self.0 - TOUCH
    }
}

impl Cut for Floor {
    #[inline]
    fn up(&self, _u: f64, from: f64, to: f64) -> f64 {
        (to - from.max(self.0)).max(0.0)
    }

    #[inline]
    fn across(&self, v: f64, from: f64, to: f64) -> f64 {
        if self.reaches(v) {
            (to - from).max(0.0)
        } else {
            0.0
        }
    }

    fn straight(&self, a: Point, b: Point) -> f64 {
        let whole = length(a, b);
        let (low, high) = (a[1].min(b[1]), a[1].max(b[1]));
        if self.reaches(low) {
            whole
        } else if high <= self.0 {
            0.0
        } else {
            whole * ((high - self.0) / (high - low))
        }
    }

    /// The floor is not above the springing of an arch, nor does it cut a circle.
    #[inline]
    fn curve_share(&self, _hole: &Hole<'_>) -> f64 {
        1.0
    }

    #[inline]
    fn fold_share(&self, frame: Point, face: Point) -> f64 {
        let (low, high) = (frame[1].min(face[1]), frame[1].max(face[1]));
        if self.reaches(low) {
            1.0
        } else if high <= self.0 {
            0.0
        } else {
            (high - self.0) / (high - low)
        }
    }
}

/// The face cuts it; the frame's lower left is at `at`.
pub(super) struct CutBy<'a> {
    pub(super) face: &'a FaceOutline,
    pub(super) at: Point,
}

impl CutBy<'_> {
    fn place(&self, p: Point) -> Point {
        [p[0] + self.at[0], p[1] + self.at[1]]
    }
}

impl Cut for CutBy<'_> {
    fn up(&self, u: f64, from: f64, to: f64) -> f64 {
        if to > from {
            self.straight([u, from], [u, to])
        } else {
            0.0
        }
    }

    fn across(&self, v: f64, from: f64, to: f64) -> f64 {
        if to > from {
            self.straight([from, v], [to, v])
        } else {
            0.0
        }
    }

    fn straight(&self, a: Point, b: Point) -> f64 {
        self.face.inside_length(self.place(a), self.place(b))
    }

    /// By the angles where the curve crosses the sides of the face: between two of them it is inside or it is not.
    fn curve_share(&self, hole: &Hole<'_>) -> f64 {
        let Some(curve) = hole.curve(self.at[0], self.at[1]) else {
            return 0.0;
        };
        let mut cuts: Vec<f64> = curve.quarters().collect();
        for ring in self.face.rings() {
            for (a, b) in sides(&ring) {
                cuts.extend(curve.crossings(a, b));
            }
        }
        cuts.sort_by(f64::total_cmp);
        let (mut inside, mut whole) = (0.0, 0.0);
        for (from, to) in cuts.iter().zip(cuts.iter().skip(1)) {
            let length = curve.length(*from, *to);
            whole += length;
            if self.face.covers(curve.at(f64::midpoint(*from, *to))) {
                inside += length;
            }
        }
        if whole > 0.0 {
            (inside / whole).min(1.0)
        } else {
            0.0
        }
    }

    fn fold_share(&self, frame: Point, face: Point) -> f64 {
        // A square fold is one place on the face: a line too short to matter stands for it.
        let face = if length(frame, face) < TOUCH {
            [frame[0] + TOUCH / 2.0, frame[1]]
        } else {
            face
        };
        let whole = length(self.place(frame), self.place(face));
        (self.straight(frame, face) / whole).min(1.0)
    }
}

/// Length of a straight line in millimetres.
pub(super) fn length(a: Point, b: Point) -> f64 {
    let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    (dx * dx + dy * dy).sqrt()
}
