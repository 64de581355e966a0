//! The bars and marks of the days, and what each means. Not here: where they stand.

use super::super::{Drawing, Point, Role};
use hodful_air::frost::Verdict;

/// Half of the height of bars: put on, and drying, mm.
const PUT_ON: f64 = 18.0;
const DRYING: f64 = 12.0;

/// Half of the width of the mark of a night, mm.
const NIGHT: f64 = 11.0;

/// Draws a bar or a mark between two places, at a height.
pub(super) type Sample = fn([f64; 2], f64, &mut Drawing);

/// What the bars and marks mean.
pub(super) const SAMPLES: [(&str, Sample); 5] = [
    ("put on the wall", put_on),
    ("dries, likely so long", dries),
    ("may be wet so long", may_dry),
    ("night: may freeze", |[left, right], v, drawing| {
        mark(Verdict::Freezes, [f64::midpoint(left, right), v], drawing);
    }),
    ("night: watch it", |[left, right], v, drawing| {
        mark(Verdict::Watch, [f64::midpoint(left, right), v], drawing);
    }),
];

/// Days on which a coat is put on.
pub(super) fn put_on(between: [f64; 2], middle: f64, drawing: &mut Drawing) {
    let ring = ring(between, middle, PUT_ON);
    drawing.fill(Role::Coat(1), ring.clone(), None);
    drawing.stroke(Role::Outline, ring, true, None);
}

/// Days in which it dries, likely.
pub(super) fn dries(between: [f64; 2], middle: f64, drawing: &mut Drawing) {
    if between[1] > between[0] {
        let ring = ring(between, middle, DRYING);
        drawing.fill(Role::DubbingOut, ring.clone(), None);
        drawing.stroke(Role::Coat(0), ring, true, None);
    }
}

/// Days in which it may still be wet.
pub(super) fn may_dry(between: [f64; 2], middle: f64, drawing: &mut Drawing) {
    if between[1] > between[0] {
        drawing.stroke(Role::Pocket, ring(between, middle, DRYING), true, None);
    }
}

/// A night: a firm cross where it may freeze, a stroke where it is to be watched.
pub(super) fn mark(verdict: Verdict, [u, v]: Point, drawing: &mut Drawing) {
    let stroke = |lean: f64| {
        vec![
            [u - NIGHT, v - lean * PUT_ON],
            [u + NIGHT, v + lean * PUT_ON],
        ]
    };
    let strokes: &[(Role, f64)] = match verdict {
        Verdict::Freezes => &[(Role::Outline, 1.0), (Role::Outline, -1.0)],
        Verdict::Watch | Verdict::Safe => &[(Role::Frame, 1.0)],
    };
    for (role, lean) in strokes {
        drawing.stroke(*role, stroke(*lean), false, None);
    }
}

fn ring([left, right]: [f64; 2], middle: f64, half: f64) -> Vec<Point> {
    let [low, high] = [middle - half, middle + half];
    vec![[left, low], [right, low], [right, high], [left, high]]
}
