//! Lines and rings: arcs in pieces, moved sides, cuts. Millimetres and radians.
//!
//! Good enough to be looked at; figures come from the geometry of walls and never from here.

use super::Point;
use super::limits::STRAIGHT;

/// The box around points; `None` without any.
pub(super) fn bounds<'a>(points: impl IntoIterator<Item = &'a Point>) -> Option<[f64; 4]> {
    points.into_iter().fold(None, |found, &[u, v]| {
        let [left, bottom, right, top] = found.unwrap_or([u, v, u, v]);
        Some([left.min(u), bottom.min(v), right.max(u), top.max(v)])
    })
}

/// The points of part of an ellipse, both ends included, `from` and `to` as angles from the right.
pub(super) fn arc(
    centre: Point,
    radii: [f64; 2],
    from: f64,
    to: f64,
    pieces: u32,
) -> impl Iterator<Item = Point> {
    (0..=pieces).map(move |i| {
        let angle = from + (to - from) * f64::from(i) / f64::from(pieces.max(1));
        [
            centre[0] + radii[0] * libm::cos(angle),
            centre[1] + radii[1] * libm::sin(angle),
        ]
    })
}

/// Twice the area of a ring, positive when it goes anticlockwise.
pub(super) fn doubled_area(ring: &[Point]) -> f64 {
    sides(ring).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum()
}

/// The sides of a ring, from each corner to the next.
pub(super) fn sides(ring: &[Point]) -> impl Iterator<Item = (Point, Point)> {
    ring.iter()
        .copied()
        .zip(ring.iter().copied().cycle().skip(1))
}

/// The ring anticlockwise, without corners that stand twice in a row; empty when fewer than three
/// are left.
pub(super) fn tidy(mut ring: Vec<Point>) -> Vec<Point> {
    ring.dedup();
    while ring.len() > 1 && ring.first() == ring.last() {
        ring.pop();
    }
    if ring.len() < 3 {
        return Vec::new();
    }
    if doubled_area(&ring) < 0.0 {
        ring.reverse();
    }
    ring
}

/// Unit normal of a side, out of an anticlockwise ring; zero for a side of no length.
fn outward(a: Point, b: Point) -> Point {
    let [du, dv] = [b[0] - a[0], b[1] - a[1]];
    let length = (du * du + dv * dv).sqrt();
    if length > 0.0 {
        [dv / length, -du / length]
    } else {
        [0.0, 0.0]
    }
}

/// A tidy ring with each side moved outwards by what `out` says of its outward normal, mm; corners
/// are where the moved sides cross.
pub(super) fn moved(ring: &[Point], out: impl Fn(Point) -> f64) -> Vec<Point> {
    let normals: Vec<Point> = sides(ring).map(|(a, b)| outward(a, b)).collect();
    let before = normals.last().into_iter().chain(&normals);
    ring.iter()
        .zip(&normals)
        .zip(before)
        .map(|((corner, &n), &m)| {
            let (p, q) = (out(m), out(n));
            let cross = m[0] * n[1] - m[1] * n[0];
            let by = if cross.abs() < STRAIGHT {
                let middle = f64::midpoint(p, q);
                [n[0] * middle, n[1] * middle]
            } else {
                [(p * n[1] - q * m[1]) / cross, (q * m[0] - p * n[0]) / cross]
            };
            [corner[0] + by[0], corner[1] + by[1]]
        })
        .collect()
}

/// The part of a ring on one side of a level or upright line: where `axis` (0 for u, 1 for v) is at
/// least `limit` (`keep_above`) or at most.
pub(super) fn cut(ring: &[Point], axis: Axis, limit: f64, keep_above: bool) -> Vec<Point> {
    let over = |p: &Point| {
        let distance = axis.of(*p) - limit;
        if keep_above { distance } else { -distance }
    };
    let mut kept = Vec::with_capacity(ring.len() + 2);
    for (a, b) in sides(ring) {
        let (from, to) = (over(&a), over(&b));
        if from >= 0.0 {
            kept.push(a);
        }
        if (from > 0.0 && to < 0.0) || (from < 0.0 && to > 0.0) {
            let share = from / (from - to);
            kept.push([a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share]);
        }
    }
    without_spikes(kept)
}

/// The direction a cut looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Axis {
    Along,
    Up,
}

impl Axis {
    pub(super) fn of(self, [u, v]: Point) -> f64 {
        match self {
            Self::Along => u,
            Self::Up => v,
        }
    }
}

/// A ring without the corners at which it turns straight back, which a cut leaves along its line.
fn without_spikes(mut ring: Vec<Point>) -> Vec<Point> {
    loop {
        let count = ring.len();
        if count < 3 {
            return Vec::new();
        }
        let spike = (0..count).find(|&i| {
            let at = |k: usize| ring.get(k % count).copied().unwrap_or_default();
            let (before, here, after) = (at(i + count - 1), at(i), at(i + 1));
            let into = [here[0] - before[0], here[1] - before[1]];
            let away = [after[0] - here[0], after[1] - here[1]];
            let cross = into[0] * away[1] - into[1] * away[0];
            let along = into[0] * away[0] + into[1] * away[1];
            let size =
                (into[0] * into[0] + into[1] * into[1]) * (away[0] * away[0] + away[1] * away[1]);
            size <= 0.0 || (along < 0.0 && cross * cross <= STRAIGHT * STRAIGHT * size)
        });
        let Some(spike) = spike else {
            return ring;
        };
        ring.remove(spike);
    }
}

/// The stretches of an upright line at `u` that lie in a ring, from the lowest up.
pub(super) fn upright_in(ring: &[Point], u: f64) -> Vec<[Point; 2]> {
    let mut heights: Vec<f64> = sides(ring)
        .filter(|(a, b)| (a[0] <= u) != (b[0] <= u))
        .map(|(a, b)| a[1] + (b[1] - a[1]) * (u - a[0]) / (b[0] - a[0]))
        .collect();
    heights.sort_by(f64::total_cmp);
    heights
        .chunks_exact(2)
        .filter_map(|pair| match pair {
            [low, high] => Some([[u, *low], [u, *high]]),
            _ => None,
        })
        .collect()
}
