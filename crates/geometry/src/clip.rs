//! The one place that asks the polygon engine: rings cut by rings, and arcs drawn as chords for it.
//!
//! The engine's default rule gives the overlap of two rings back as if it were outside both, so every call here names the
//! non-zero rule, and that rule needs every ring to go round the same way, which is seen to here. Its grid is 2⁻³⁰ of the
//! drawing, so each question is first narrowed to the box it is about and stretched to a square.

use core::f64::consts::{FRAC_PI_2, TAU};

use geo::bool_ops::FillRule;
use geo::{Area, BooleanOps, LineString, MultiPolygon, Polygon, coord};

use crate::polygon::{bounds_of, signed_area};
use crate::profile::{Bounds, Point};
use crate::tolerance::{ARC_STEP, MIN_CHORDS, MIN_SIZE};

/// Area in mm² that the union of `holes` and the union of `faces` have in common.
pub(crate) fn common_area(faces: &[Vec<Point>], holes: &[Vec<Point>]) -> f64 {
    let window = bounds_of(holes.iter().flatten()).common(&bounds_of(faces.iter().flatten()));
    if window.width() <= 0.0 || window.height() <= 0.0 {
        return 0.0;
    }
    let face = drawing(faces, &window);
    let hole = drawing(holes, &window);
    let common = face.intersection_with_fill_rule(&hole, FillRule::NonZero);
    common.unsigned_area() * window.width() * window.height()
}

/// What is left of a ring inside a box and under its own top moved down by `lowered` millimetres.
pub(crate) fn trimmed_ring(ring: &[Point], lowered: f64, keep: &Bounds) -> Vec<Vec<Point>> {
    let window = bounds_of(ring).common(keep);
    if window.width() < MIN_SIZE || window.height() < MIN_SIZE {
        return Vec::new();
    }
    let whole = drawing(&[ring.to_vec()], &window);
    let mask = if lowered > 0.0 {
        let moved: Vec<Point> = ring.iter().map(|&[u, v]| [u, v - lowered]).collect();
        drawing(&[moved], &window)
    } else {
        square()
    };
    let left = whole.intersection_with_fill_rule(&mask, FillRule::NonZero);
    left.0
        .iter()
        .map(|polygon| {
            let mut ring: Vec<Point> = polygon
                .exterior()
                .coords()
                .map(|c| {
                    [
                        window.left + c.x * window.width(),
                        window.bottom + c.y * window.height(),
                    ]
                })
                .collect();
            ring.pop();
            ring
        })
        .filter(|ring| ring.len() >= 3)
        .collect()
}

/// A circular or elliptical arc as chords, from angle `from` over `sweep` radians (anticlockwise), both ends included.
///
/// `radii` are the semi-axes along u and v. The ends lie on the arc; the corners between them lie outside it by just so much
/// that the area between the chords and the centre is the arc's own.
pub(crate) fn chords(centre: Point, radii: Point, from: f64, sweep: f64) -> Vec<Point> {
    let count = chord_count(sweep);
    let n = f64::from(count);
    let step = sweep / n;
    // With the ends at radius 1 and the others at x, the chords enclose ½·sin δ·(2x + (n − 2)x²), which must be ½·sweep.
    let x = (((n - 2.0) * sweep / libm::sin(step) + 1.0).sqrt() - 1.0) / (n - 2.0);
    (0..=count)
        .map(|i| {
            let reach = if i == 0 || i == count { 1.0 } else { x };
            let angle = from + f64::from(i) * step;
            [
                centre[0] + radii[0] * reach * libm::cos(angle),
                centre[1] + radii[1] * reach * libm::sin(angle),
            ]
        })
        .collect()
}

/// A whole ellipse as chords, its last corner the first again; the corners lie outside it by just so much that the area is its own,
/// and one lies on each axis, so that a mirrored ellipse is drawn the same.
pub(crate) fn round(centre: Point, radii: Point) -> Vec<Point> {
    let quarter = chord_count(FRAC_PI_2);
    let count = 4 * quarter;
    let step = TAU / f64::from(count);
    let reach = (step / libm::sin(step)).sqrt();
    (0..=count)
        .map(|i| {
            // The sine and cosine of a quarter turn are not quite 0 and 1: each quarter is drawn from its own axis.
            let angle = f64::from(i % quarter) * step;
            let (sine, cosine) = (libm::sin(angle), libm::cos(angle));
            let [x, y] = match (i / quarter) % 4 {
                0 => [cosine, sine],
                1 => [-sine, cosine],
                2 => [-cosine, -sine],
                _ => [sine, -cosine],
            };
            [
                centre[0] + radii[0] * reach * x,
                centre[1] + radii[1] * reach * y,
            ]
        })
        .collect()
}

/// Number of chords an arc is drawn with.
fn chord_count(sweep: f64) -> u32 {
    let wanted = (sweep / ARC_STEP).ceil();
    // A sweep is at most a full turn, so the loop is short; there is no lossy conversion to reason about.
    let mut count = MIN_CHORDS;
    while f64::from(count) < wanted && count < 1024 {
        count += 1;
    }
    count
}

/// Rings narrowed to a box, stretched to the unit square, all anticlockwise.
fn drawing(rings: &[Vec<Point>], window: &Bounds) -> MultiPolygon<f64> {
    rings
        .iter()
        .filter_map(|ring| {
            let mut ring = narrowed(ring, window);
            if ring.len() < 3 {
                return None;
            }
            if signed_area(&ring) < 0.0 {
                ring.reverse();
            }
            let line: LineString<f64> = ring
                .iter()
                .map(|&[u, v]| {
                    coord! {
                        x: (u - window.left) / window.width(),
                        y: (v - window.bottom) / window.height(),
                    }
                })
                .collect();
            Some(Polygon::new(line, Vec::new()))
        })
        .collect()
}

fn square() -> MultiPolygon<f64> {
    let corners = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
    let line: LineString<f64> = corners
        .iter()
        .map(|&[x, y]| coord! { x: x, y: y })
        .collect();
    MultiPolygon::from(Polygon::new(line, Vec::new()))
}

/// A ring cut by the four sides of a box, one after another (Sutherland and Hodgman, Reentrant polygon clipping, 1974). Where a
/// ring falls into pieces they stay joined by sides that lie on the box and enclose nothing.
fn narrowed(ring: &[Point], window: &Bounds) -> Vec<Point> {
    let mut ring = ring.to_vec();
    for (axis, limit, sign) in [
        (0, window.left, 1.0),
        (0, window.right, -1.0),
        (1, window.bottom, 1.0),
        (1, window.top, -1.0),
    ] {
        let inside = |p: &Point| sign * (axis_of(p, axis) - limit);
        let mut kept = Vec::with_capacity(ring.len() + 4);
        let Some(mut before) = ring.last().copied() else {
            return Vec::new();
        };
        for corner in ring {
            let (a, b) = (inside(&before), inside(&corner));
            if (a >= 0.0) != (b >= 0.0) {
                let s = a / (a - b);
                let mut cut = [
                    before[0] + s * (corner[0] - before[0]),
                    before[1] + s * (corner[1] - before[1]),
                ];
                if axis == 0 {
                    cut[0] = limit;
                } else {
                    cut[1] = limit;
                }
                kept.push(cut);
            }
            if b >= 0.0 {
                kept.push(corner);
            }
            before = corner;
        }
        ring = kept;
    }
    ring
}

fn axis_of(point: &Point, axis: usize) -> f64 {
    if axis == 0 { point[0] } else { point[1] }
}
