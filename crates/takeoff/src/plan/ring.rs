//! From walls back to the plan of a building: which of them make a ring, and where their faces stand.
//! Not here: plans as they are typed, and how a plan is painted.

mod carrier;
mod legs;

use super::tolerance;
use crate::project::{Name, Wall};
use carrier::Carrier;
use core::f64::consts::TAU;
use legs::{Base, Leg, Legs};
use std::iter::zip;
use std::sync::Arc;

type Point = [f64; 2];

/// Walls that make a ring on plan. Millimetres; the left end of the first wall's face stands near
/// `[0, 0]`, the wall runs along the first axis, and the building is to its left.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// The walls, in the order they go round.
    pub walls: Vec<RingWall>,
    /// The outside outline, anticlockwise; arcs as chords.
    pub outside: Vec<[f64; 2]>,
    /// The inside outline, anticlockwise; arcs as chords.
    pub inside: Vec<[f64; 2]>,
    /// How far the lengths of the walls are from closing. It is spread over the outlines in proportion
    /// to the way walked.
    pub gap: f64,
}

/// One wall of a [`Ring`].
#[derive(Debug, Clone, PartialEq)]
pub struct RingWall {
    /// Its position in the list that was given.
    pub wall: usize,
    /// Its id.
    pub id: Name,
    /// The outside face from left to right: two points, or more on an arc.
    pub outside: Vec<[f64; 2]>,
    /// The inside face from left to right.
    pub inside: Vec<[f64; 2]>,
    /// The middle of the wall, half-way through its thickness: a place for its id.
    pub middle: [f64; 2],
}

/// The ring that all of these walls make, when they make one. See [`rings`].
pub fn of_walls(walls: &[Arc<Wall>]) -> Option<Ring> {
    let ring = from(&Legs::new(walls), 0)?;
    (ring.walls.len() == walls.len()).then_some(ring)
}

/// Every ring that walls which follow one another in the list make: one building after another, with
/// partitions, towers and the rest left out.
///
/// How the list is read: the right end of each wall, seen from outside, meets the left end of the next,
/// and the last meets the first. The turn between two walls is that of the corners entered at the end of
/// the one or at the beginning of the other, on either face: outside an external corner turns left and an
/// internal one right, inside the other way round. Corners that say different things make no ring. With
/// no corner entered two straight walls turn 90 degrees left, and a curved wall runs straight on. From
/// each wall on, the fewest walls that close are a ring.
///
/// Lengths: first those of the outside faces are tried, then those of the inside ones (in a room that
/// was measured inside, only they close). A ring closes within an inch, and a thousandth of the way round
/// besides where there are turns other than quarters. The other face is drawn at the thickness of each
/// wall. A wall with a count of more than one stands in several places and is in no ring. The length of a
/// polygon is its extent. Where a curved wall meets another at a corner, the other face of the two is
/// drawn with a straight end. Whether an outline crosses itself is not asked.
pub fn rings(walls: &[Arc<Wall>]) -> Vec<Ring> {
    let legs = Legs::new(walls);
    let mut found = Vec::new();
    let mut start = 0;
    while start < walls.len() {
        match from(&legs, start) {
            Some(ring) => {
                start += ring.walls.len();
                found.push(ring);
            }
            None => start += 1,
        }
    }
    found
}

/// The shortest ring that begins at a wall.
fn from(legs: &Legs<'_>, start: usize) -> Option<Ring> {
    let count = legs.closes_from(start)?;
    let run = legs.run(start, count)?;
    [Base::Outside, Base::Inside]
        .into_iter()
        .find_map(|base| drawn(&run, base))
}

/// A circle of corners about the middle of its own lowest point, anticlockwise.
pub(super) fn circle(radius: f64) -> Vec<Point> {
    if !(radius > 0.0 && radius.is_finite()) {
        return Vec::new();
    }
    let mut points = arc([0.0, radius], radius, [0.0, 0.0], TAU);
    points.pop();
    points
}

/// Points along an arc to the left about a centre, ends included; `sweep` radians from `first`.
fn arc(centre: Point, radius: f64, first: Point, sweep: f64) -> Vec<Point> {
    let begin = libm::atan2(first[1] - centre[1], first[0] - centre[0]);
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "at most once round in steps of three degrees"
    )]
    let steps = (sweep / tolerance::ARC_STEP).ceil().clamp(1.0, 240.0) as u32;
    (0..=steps)
        .map(|step| {
            let angle = begin + sweep * f64::from(step) / f64::from(steps);
            [
                centre[0] + radius * libm::cos(angle),
                centre[1] + radius * libm::sin(angle),
            ]
        })
        .collect()
}

/// The ring by the lengths of one of its faces; `None` when they do not close.
fn drawn(run: &[Leg<'_>], base: Base) -> Option<Ring> {
    let (corners, gap) = closed(run, base)?;
    let carriers: Vec<Carrier> = zip(run, pairs(&corners))
        .map(|(leg, (from, to))| Carrier::new(from, to, leg.sweep, leg.radius(base)))
        .collect::<Option<_>>()?;
    let moved: Vec<Carrier> = zip(run, &carriers)
        .map(|(leg, carrier)| carrier.moved_left(base.to_other() * leg.thickness))
        .collect::<Option<_>>()?;
    let count = run.len();
    // The end of each wall's other face and the beginning of the next one's.
    let joints: Vec<(Point, Point)> = zip(run, zip(&moved, moved.iter().cycle().skip(1)))
        .map(|(leg, (this, next))| this.meets(next, leg.turn))
        .collect();
    let mut walls = Vec::with_capacity(count);
    for (at, (leg, (carrier, other))) in zip(run, zip(&carriers, &moved)).enumerate() {
        let (_, begin) = joints.get((at + count - 1) % count)?;
        let (end, _) = joints.get(at)?;
        let own = carrier.points();
        let across = other.points_between(*begin, *end);
        let middle = half_way(middle(&own), middle(&across));
        let (outside, inside) = match base {
            Base::Outside => (own, across),
            Base::Inside => (across, own),
        };
        walls.push(RingWall {
            wall: leg.wall,
            id: leg.id.clone(),
            outside,
            inside,
            middle,
        });
    }
    Some(Ring {
        outside: joined(walls.iter().map(|wall| wall.outside.as_slice())),
        inside: joined(walls.iter().map(|wall| wall.inside.as_slice())),
        walls,
        gap,
    })
}

/// The corner before each wall, and the gap; `None` when it is too wide.
fn closed(run: &[Leg<'_>], base: Base) -> Option<(Vec<Point>, f64)> {
    let mut corners = Vec::with_capacity(run.len());
    let (mut at, mut heading, mut whole) = ([0.0, 0.0], 0.0, 0.0);
    let mut ways = Vec::with_capacity(run.len());
    for leg in run {
        corners.push(at);
        ways.push(whole);
        let (ahead, aside) = leg.chord(base);
        let (sin, cos) = (libm::sin(heading), libm::cos(heading));
        at = [
            at[0] + ahead * cos - aside * sin,
            at[1] + ahead * sin + aside * cos,
        ];
        whole += leg.length(base);
        heading += leg.sweep + leg.turn;
    }
    let gap = libm::hypot(at[0], at[1]);
    let skew = if run.iter().any(Leg::is_skew) {
        tolerance::SKEW * whole
    } else {
        0.0
    };
    let sound = run
        .iter()
        .all(|leg| leg.length(base) >= tolerance::LEAST_SIZE);
    if !sound || gap.is_nan() || gap > tolerance::DRAWN + skew {
        return None;
    }
    for (corner, way) in zip(&mut corners, ways) {
        *corner = [
            corner[0] - at[0] * way / whole,
            corner[1] - at[1] * way / whole,
        ];
    }
    Some((corners, gap))
}

/// Each corner with the next, the last with the first.
fn pairs(corners: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let next = corners.iter().skip(1).chain(corners.first());
    corners.iter().copied().zip(next.copied())
}

/// The faces one after the other as one outline, points that are one kept once.
fn joined<'a>(faces: impl Iterator<Item = &'a [Point]>) -> Vec<Point> {
    let mut outline: Vec<Point> = Vec::new();
    for point in faces.flatten() {
        if outline.last().is_none_or(|last| !same(*last, *point)) {
            outline.push(*point);
        }
    }
    while let [first, .., last] = outline.as_slice()
        && same(*first, *last)
    {
        outline.pop();
    }
    outline
}

fn same(a: Point, b: Point) -> bool {
    libm::hypot(a[0] - b[0], a[1] - b[1]) < tolerance::SAME_POINT
}

fn half_way(a: Point, b: Point) -> Point {
    [f64::midpoint(a[0], b[0]), f64::midpoint(a[1], b[1])]
}

/// The middle of the chords of a face.
fn middle(points: &[Point]) -> Point {
    let from_end = |at: usize| {
        points
            .len()
            .checked_sub(at + 1)
            .and_then(|at| points.get(at))
    };
    let half = points.len().saturating_sub(1) / 2;
    match (points.get(half), from_end(half)) {
        (Some(a), Some(b)) => half_way(*a, *b),
        _ => [0.0, 0.0],
    }
}
