//! The outline of a wall and of its plastered face, as rings. Not here: openings.
//!
//! The same rules as the geometry of walls (a ceiling cuts level, the top inset goes straight down, the
//! others cut upright and level), without its refusals.

use super::Point;
use super::line::{self, Axis};
use super::number::{mm, or_nothing, size};
use crate::project::{Inset, Side, Wall, WallShape};

/// The outline of a wall on one of its faces.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Outline {
    /// Corners, anticlockwise.
    pub(super) ring: Vec<Point>,
    /// What a millimetre along the outside face measures on this one.
    pub(super) scale: f64,
}

/// The outline of a wall; `None` when its numbers make none.
pub(super) fn of_wall(wall: &Wall, side: Side) -> Option<Outline> {
    let mut scale = 1.0;
    let ring = match &wall.shape {
        WallShape::Rectangle { length, height } => level(size(length)?, size(height)?),
        WallShape::Gable {
            length,
            eaves,
            ridge,
            ridge_from_left,
        } => {
            let (length, eaves) = (size(length)?, mm(eaves)?);
            let at = match ridge_from_left {
                Some(at) => mm(at)?,
                None => length / 2.0,
            };
            let ridge = [at, mm(ridge)?];
            vec![
                [0.0, 0.0],
                [length, 0.0],
                [length, eaves],
                ridge,
                [0.0, eaves],
            ]
        }
        WallShape::Raked {
            length,
            left,
            right,
        } => {
            let (length, left, right) = (size(length)?, mm(left)?, mm(right)?);
            vec![[0.0, 0.0], [length, 0.0], [length, right], [0.0, left]]
        }
        WallShape::Polygon { corners } => points(corners)?,
        WallShape::Curved { height, .. } => {
            let (radius, length) = curve(wall)?;
            let thickness = or_nothing(Some(&wall.thickness));
            if side == Side::Inside && thickness < radius {
                scale = (radius - thickness) / radius;
            }
            level(length * scale, size(height)?)
        }
    };
    let ring = line::tidy(ring);
    (line::doubled_area(&ring) > 0.0).then_some(Outline { ring, scale })
}

/// Radius to the outside face and developed length of a wall curved on plan, mm.
pub(super) fn curve(wall: &Wall) -> Option<(f64, f64)> {
    let WallShape::Curved {
        radius,
        sweep,
        length,
        ..
    } = &wall.shape
    else {
        return None;
    };
    let radius = size(radius)?;
    let length = match (sweep, length) {
        (Some(sweep), None) => radius * sweep.value().value,
        (_, Some(length)) => size(length)?,
        (None, None) => return None,
    };
    (length > 0.0 && length.is_finite()).then_some((radius, length))
}

/// A ring trimmed by the insets of a face; empty when they leave nothing.
pub(super) fn inset(ring: &[Point], inset: &Inset) -> Vec<Point> {
    let Some([left, bottom, right, _]) = line::bounds(ring) else {
        return Vec::new();
    };
    let mut ring = match inset.ceiling.as_ref().and_then(size) {
        Some(ceiling) => line::cut(ring, Axis::Up, ceiling, false),
        None => ring.to_vec(),
    };
    let down = or_nothing(inset.top.as_ref());
    if down > 0.0 {
        // Straight down by so much is along the normal by so much of it as the normal points up.
        ring = line::moved(&ring, |normal| -down * normal[1].max(0.0));
    }
    for (axis, limit, above) in [
        (Axis::Up, bottom + or_nothing(inset.bottom.as_ref()), true),
        (Axis::Along, left + or_nothing(inset.left.as_ref()), true),
        (Axis::Along, right - or_nothing(inset.right.as_ref()), false),
    ] {
        ring = line::cut(&ring, axis, limit, above);
    }
    ring
}

/// Corners of a polygon as points; `None` when one cannot be drawn.
pub(super) fn points(
    corners: &[[hodful_quantities::Typed<hodful_quantities::units::Length>; 2]],
) -> Option<Vec<Point>> {
    corners
        .iter()
        .map(|[u, v]| Some([mm(u)?, mm(v)?]))
        .collect()
}

fn level(length: f64, height: f64) -> Vec<Point> {
    vec![[0.0, 0.0], [length, 0.0], [length, height], [0.0, height]]
}
