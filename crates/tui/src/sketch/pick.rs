//! What stands at a place of a drawing: the mouse asks. Not here: cells.

use hodful_takeoff::drawing::{Drawing, Role};
use hodful_takeoff::form::Subject;

/// What stands at a place of a drawing, mm; lines are found within a reach, mm.
///
/// The smallest thing that holds the place comes first, then the nearest line of a thing within
/// reach, then what the whole is drawn of. `None` where there is nothing, or for a place that is not
/// finite.
///
/// ```
/// use hodful_takeoff::drawing::Drawing;
/// use hodful_tui::sketch::pick;
/// assert_eq!(pick(&Drawing::default(), [0.0, 0.0], 50.0), None);
/// ```
pub fn pick(drawing: &Drawing, place: [f64; 2], reach: f64) -> Option<Subject> {
    let rings = || {
        let closed = drawing.strokes.iter().filter(|stroke| stroke.closed);
        let closed = closed.map(|stroke| (stroke.role, stroke.of, &stroke.points));
        let fills = drawing.fills.iter();
        closed.chain(fills.map(|fill| (fill.role, fill.of, &fill.ring)))
    };
    let smallest = |whole: bool| {
        rings()
            .filter(|(role, ..)| is_whole(*role) == whole)
            .filter_map(|(_, of, ring)| holds(ring, place).then(|| Some((of?, area(ring))))?)
            .min_by(|(_, a), (_, b)| a.total_cmp(b))
            .map(|(of, _)| of)
    };
    let nearest = |whole: bool| {
        drawing
            .strokes
            .iter()
            .filter(|stroke| is_whole(stroke.role) == whole)
            .filter_map(|stroke| {
                let distance = distance(&stroke.points, stroke.closed, place)?;
                (distance <= reach).then_some((stroke.of?, distance))
            })
            .min_by(|(_, a), (_, b)| a.total_cmp(b))
            .map(|(of, _)| of)
    };
    smallest(false)
        .or_else(|| nearest(false))
        .or_else(|| smallest(true))
        .or_else(|| nearest(true))
}

/// Whether a line is one of the thing that the whole drawing is of.
fn is_whole(role: Role) -> bool {
    matches!(
        role,
        Role::Outline | Role::Plaster | Role::Background | Role::Break
    )
}

/// Whether a ring holds a place.
fn holds(ring: &[[f64; 2]], [u, v]: [f64; 2]) -> bool {
    let sides = ring.iter().zip(ring.iter().cycle().skip(1));
    let crossed = sides.filter(|(a, b)| {
        (a[1] <= v) != (b[1] <= v) && a[0] + (b[0] - a[0]) * (v - a[1]) / (b[1] - a[1]) > u
    });
    crossed.count() % 2 == 1
}

/// Area of a ring.
fn area(ring: &[[f64; 2]]) -> f64 {
    let sides = ring.iter().zip(ring.iter().cycle().skip(1));
    let doubled: f64 = sides.map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum();
    doubled.abs() / 2.0
}

/// Distance of a place from a line.
fn distance(points: &[[f64; 2]], closed: bool, [u, v]: [f64; 2]) -> Option<f64> {
    let last = points.first().filter(|_| closed);
    points
        .iter()
        .zip(points.iter().skip(1).chain(last))
        .map(|(a, b)| {
            let run = [b[0] - a[0], b[1] - a[1]];
            let size = run[0] * run[0] + run[1] * run[1];
            let along = (u - a[0]) * run[0] + (v - a[1]) * run[1];
            let share = if size > 0.0 {
                (along / size).clamp(0.0, 1.0)
            } else {
                0.0
            };
            let [du, dv] = [a[0] + run[0] * share - u, a[1] + run[1] * share - v];
            (du * du + dv * dv).sqrt()
        })
        .filter(|distance| distance.is_finite())
        .min_by(f64::total_cmp)
}
