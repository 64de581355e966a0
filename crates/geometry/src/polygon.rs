//! Rings of straight sides: the check of a typed ring, faces that are polygons, lengths inside them, the mitred offset.
//!
//! What needs one ring cut by another is asked of the polygon engine in the clip module; arcs are drawn as chords there too.

use geo::kernels::{Kernel, RobustKernel};
use geo::{Intersects, Line, Orientation, coord};

use crate::clip;
use crate::fault::{Faults, length_fault};
use crate::outline::{End, Inset};
use crate::profile::{Bounds, Point};
use crate::tolerance::{ENGINE_SHARE, MAX_CORNERS, MIN_SIZE, TOUCH};

/// Corner by corner with the next one, the last with the first.
pub(crate) fn sides(ring: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let next = ring.iter().skip(1).chain(ring.first());
    ring.iter().copied().zip(next.copied())
}

/// Area in mm², positive for a ring that goes round anticlockwise.
pub(crate) fn signed_area(ring: &[Point]) -> f64 {
    let Some(&[ox, oy]) = ring.first() else {
        return 0.0;
    };
    // From the first corner, so that a ring far from the origin loses no digits.
    sides(ring)
        .map(|(a, b)| (a[0] - ox) * (b[1] - oy) - (b[0] - ox) * (a[1] - oy))
        .sum::<f64>()
        / 2.0
}

/// The box around some corners; all zero when there are none.
pub(crate) fn bounds_of<'a>(corners: impl IntoIterator<Item = &'a Point>) -> Bounds {
    corners
        .into_iter()
        .map(|&[u, v]| Bounds {
            left: u,
            right: u,
            bottom: v,
            top: v,
        })
        .reduce(|a, b| a.joined(&b))
        .unwrap_or_default()
}

/// Checks a ring as typed and gives it anticlockwise and without repeated corners.
pub(crate) fn checked_ring(corners: Vec<Point>, faults: &mut Faults) -> Vec<Point> {
    const FIELD: &str = "corners";
    if corners.len() > MAX_CORNERS {
        faults.add(FIELD, format!("are more than {MAX_CORNERS}"));
        return corners;
    }
    let mut sound = true;
    for (place, corner) in corners.iter().enumerate() {
        for (value, axis) in corner.iter().zip(["along", "up"]) {
            if let Some(why) = length_fault(*value) {
                faults.add(
                    FIELD,
                    format!("have a corner, number {}, that {why} {axis}", place + 1),
                );
                sound = false;
            }
        }
    }
    if !sound {
        return corners;
    }
    let mut ring: Vec<Point> = Vec::with_capacity(corners.len());
    for corner in corners {
        if ring.last().is_none_or(|last| !same(*last, corner)) {
            ring.push(corner);
        }
    }
    while let [first, .., last] = ring.as_slice()
        && same(*first, *last)
    {
        ring.pop();
    }
    if ring.len() < 3 {
        faults.add(FIELD, "are fewer than three different places");
        return ring;
    }
    let area = signed_area(&ring);
    if let Some((a, b)) = first_crossing(&ring) {
        faults.add(
            FIELD,
            format!(
                "make an outline that crosses itself: side {} meets side {}",
                a + 1,
                b + 1
            ),
        );
    } else if area.abs() < MIN_SIZE * MIN_SIZE {
        faults.add(FIELD, "enclose nothing");
    }
    if area < 0.0 {
        ring.reverse();
    }
    ring
}

fn same(a: Point, b: Point) -> bool {
    (a[0] - b[0]).abs() < TOUCH && (a[1] - b[1]).abs() < TOUCH
}

/// The first two sides that meet elsewhere than at the corner they share, by their numbers.
pub(crate) fn first_crossing(ring: &[Point]) -> Option<(usize, usize)> {
    let lines: Vec<(Line<f64>, Point, Point)> = sides(ring)
        .map(|(a, b)| {
            let line = Line::new(coord! { x: a[0], y: a[1] }, coord! { x: b[0], y: b[1] });
            (line, a, b)
        })
        .collect();
    for (i, (line, a, b)) in lines.iter().enumerate() {
        for (j, (other, c, d)) in lines.iter().enumerate().skip(i + 1) {
            let adjacent = j == i + 1 || (i == 0 && j + 1 == lines.len());
            let meets = if adjacent {
                // The other side runs back over this one.
                let (p, shared, q) = if j == i + 1 { (a, b, d) } else { (b, a, c) };
                let back = (p[0] - shared[0]) * (q[0] - shared[0])
                    + (p[1] - shared[1]) * (q[1] - shared[1])
                    > 0.0;
                back && RobustKernel::orient2d(
                    coord! { x: p[0], y: p[1] },
                    coord! { x: shared[0], y: shared[1] },
                    coord! { x: q[0], y: q[1] },
                ) == Orientation::Collinear
            } else {
                line.intersects(other)
            };
            if meets {
                return Some((i, j));
            }
        }
    }
    None
}

/// The least angle between two sides that follow one another, measured on either side of the corner, in radians.
pub(crate) fn sharpest_corner(ring: &[Point]) -> f64 {
    let back = ring.last().into_iter().chain(ring);
    let next = ring.iter().skip(1).chain(ring.first());
    ring.iter()
        .zip(back)
        .zip(next)
        .map(|((here, back), next)| {
            let p = [back[0] - here[0], back[1] - here[1]];
            let q = [next[0] - here[0], next[1] - here[1]];
            libm::atan2((p[0] * q[1] - p[1] * q[0]).abs(), p[0] * q[0] + p[1] * q[1])
        })
        .fold(f64::INFINITY, f64::min)
}

/// A ring with every side moved out by `out` millimetres and the corners mitred, side by side with the ring given.
/// `None` when a side vanishes or turns round on the way.
pub(crate) fn offset_ring(ring: &[Point], out: f64) -> Option<Vec<Point>> {
    let normals: Vec<Point> = sides(ring).map(|(a, b)| outward(a, b)).collect();
    let before = normals.last().into_iter().chain(&normals);
    let mut moved = Vec::with_capacity(ring.len());
    for ((corner, n), m) in ring.iter().zip(&normals).zip(before) {
        let along = 1.0 + n[0] * m[0] + n[1] * m[1];
        if along <= 0.0 {
            return None;
        }
        moved.push([
            corner[0] + out * (n[0] + m[0]) / along,
            corner[1] + out * (n[1] + m[1]) / along,
        ]);
    }
    let keeps = sides(ring).zip(sides(&moved)).all(|((a, b), (c, d))| {
        (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) > 0.0
    });
    keeps.then_some(moved)
}

/// Unit normal of a side that points out of an anticlockwise ring.
pub(crate) fn outward(a: Point, b: Point) -> Point {
    let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    let length = (dx * dx + dy * dy).sqrt();
    [dy / length, -dx / length]
}

/// A face whose outline is a polygon: the ring before any inset, and the pieces an inset leaves of it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PolygonFace {
    outline: Vec<Point>,
    pieces: Vec<Vec<Point>>,
    bounds: Bounds,
    area: f64,
    /// How far from its true place a corner or a side may lie, in millimetres.
    slack: f64,
}

impl PolygonFace {
    pub(crate) fn new(outline: &[Point], inset: &Inset) -> Self {
        let whole = bounds_of(outline);
        let trimmed = Bounds {
            left: whole.left + inset.left,
            right: whole.right - inset.right,
            bottom: whole.bottom + inset.bottom,
            top: whole.top - inset.top,
        };
        if trimmed == whole {
            return Self::of(outline, vec![outline.to_vec()], TOUCH);
        }
        let pieces = clip::trimmed_ring(outline, inset.top, &trimmed);
        let slack = TOUCH.max(whole.width().max(whole.height()) * ENGINE_SHARE);
        Self::of(outline, pieces, slack)
    }

    fn of(outline: &[Point], pieces: Vec<Vec<Point>>, slack: f64) -> Self {
        Self {
            outline: outline.to_vec(),
            bounds: bounds_of(pieces.iter().flatten()),
            area: pieces.iter().map(|ring| signed_area(ring)).sum(),
            pieces,
            slack,
        }
    }

    pub(crate) fn untrimmed(&self) -> Self {
        Self::of(&self.outline, vec![self.outline.clone()], TOUCH)
    }

    pub(crate) fn area(&self) -> f64 {
        self.area
    }

    pub(crate) fn bounds(&self) -> Bounds {
        self.bounds
    }

    pub(crate) fn rings(&self) -> &[Vec<Point>] {
        &self.pieces
    }

    pub(crate) fn end_height(&self, end: End) -> f64 {
        let at = match end {
            End::Left => self.bounds.left,
            End::Right => self.bounds.right,
        };
        let on_end = |corner: Point| (corner[0] - at).abs() <= self.slack;
        self.all_sides()
            .filter(|(a, b)| on_end(*a) && on_end(*b))
            .map(|(a, b)| (b[1] - a[1]).abs())
            .sum()
    }

    fn all_sides(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.pieces.iter().flat_map(|ring| sides(ring))
    }

    /// Whether a box lies wholly inside: a piece has no holes, so it does when its four sides do.
    pub(crate) fn contains(&self, area: &Bounds) -> bool {
        let slack = self.slack;
        if area.left < self.bounds.left - slack
            || area.right > self.bounds.right + slack
            || area.bottom < self.bounds.bottom - slack
            || area.top > self.bounds.top + slack
        {
            return false;
        }
        let ring = [
            [area.left, area.bottom],
            [area.right, area.bottom],
            [area.right, area.top],
            [area.left, area.top],
        ];
        sides(&ring).all(|(a, b)| {
            let length = (b[0] - a[0]).abs() + (b[1] - a[1]).abs();
            self.inside_length(a, b) >= length - 4.0 * slack
        })
    }

    /// Length of a straight line inside, in millimetres; the sides of the polygon are inside.
    pub(crate) fn inside_length(&self, a: Point, b: Point) -> f64 {
        let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        let length = (dx * dx + dy * dy).sqrt();
        if length <= 0.0 {
            return 0.0;
        }
        let mut cuts = vec![0.0, 1.0];
        for (p, q) in self.all_sides() {
            // Distances of the side's ends from the line, and of the line's ends from the side.
            let across = |c: Point| (dx * (c[1] - a[1]) - dy * (c[0] - a[0])) / length;
            let (fp, fq) = (across(p), across(q));
            for (corner, f) in [(p, fp), (q, fq)] {
                if f.abs() <= self.slack {
                    cuts.push(
                        (dx * (corner[0] - a[0]) + dy * (corner[1] - a[1])) / (length * length),
                    );
                }
            }
            if (fp > 0.0) != (fq > 0.0) {
                let s = fp / (fp - fq);
                let at = [p[0] + s * (q[0] - p[0]), p[1] + s * (q[1] - p[1])];
                cuts.push((dx * (at[0] - a[0]) + dy * (at[1] - a[1])) / (length * length));
            }
        }
        cuts.retain(|s| (0.0..=1.0).contains(s));
        cuts.sort_by(f64::total_cmp);
        let mut inside = 0.0;
        for (from, to) in cuts.iter().zip(cuts.iter().skip(1)) {
            let mid = (from + to) / 2.0;
            if to > from && self.covers([a[0] + mid * dx, a[1] + mid * dy]) {
                inside += to - from;
            }
        }
        inside * length
    }

    /// Whether a place is inside or on a side.
    pub(crate) fn covers(&self, place: Point) -> bool {
        let mut inside = false;
        for (a, b) in self.all_sides() {
            if distance(place, a, b) <= self.slack {
                return true;
            }
            if (a[1] > place[1]) != (b[1] > place[1])
                && place[0] < a[0] + (place[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
            {
                inside = !inside;
            }
        }
        inside
    }
}

/// Distance of a place from a side, in millimetres.
fn distance(place: Point, a: Point, b: Point) -> f64 {
    let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    let square = dx * dx + dy * dy;
    let s = if square > 0.0 {
        (((place[0] - a[0]) * dx + (place[1] - a[1]) * dy) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    let [ex, ey] = [place[0] - a[0] - s * dx, place[1] - a[1] - s * dy];
    (ex * ex + ey * ey).sqrt()
}
