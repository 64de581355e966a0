//! The field of a chart: a box between two axes with marks at round numbers. Not here: what stands in it.

use super::axis::Axis;
use super::{Drawing, Point, Role, Stand};

/// Width and height, mm: any numbers, as a chart has no size of its own.
pub(super) const FIELD: [f64; 2] = [2000.0, 1000.0];

/// Room for the words left of the field and under it, mm.
pub(super) const LEFT: f64 = 260.0;
pub(super) const BELOW: f64 = 170.0;

/// A field.
#[derive(Debug)]
pub(super) struct Field {
    pub(super) across: Axis,
    pub(super) up: Axis,
}

impl Field {
    /// Where two values meet.
    pub(super) fn place(&self, across: f64, up: f64) -> Point {
        [
            FIELD[0] * self.across.share(across),
            FIELD[1] * self.up.share(up),
        ]
    }

    /// The box, with the marks of both axes: lines at those of the one up, and of the one across where `upright`.
    pub(super) fn draw(&self, upright: bool, drawing: &mut Drawing) {
        let [wide, high] = FIELD;
        let corners = vec![[0.0, 0.0], [wide, 0.0], [wide, high], [0.0, high]];
        drawing.stroke(Role::Hole, corners, true, None);
        for (mark, (share, words)) in self.across.marks().enumerate() {
            let u = wide * share;
            if upright && u > 0.0 && u < wide {
                drawing.stroke(Role::Lath, vec![[u, 0.0], [u, high]], false, None);
            }
            drawing.label([u, -BELOW / 2.0], words, weight(mark), Stand::At);
        }
        for (mark, (share, words)) in self.up.marks().enumerate() {
            let v = high * share;
            if v > 0.0 && v < high {
                drawing.stroke(Role::Lath, vec![[0.0, v], [wide, v]], false, None);
            }
            drawing.label([-LEFT / 2.0, v], words, weight(mark), Stand::At);
        }
    }

    /// The box to be shown, with room above and right of the field, mm.
    pub(super) fn bounds(above: f64, right: f64) -> [f64; 4] {
        [-LEFT, -BELOW, FIELD[0] + right, FIELD[1] + above]
    }
}

/// Every other mark may go where there is no room for all.
fn weight(mark: usize) -> u8 {
    if mark.is_multiple_of(2) { 60 } else { 40 }
}
