//! An arc of a circle or an ellipse in the plane of the wall: its places, its length, where a line crosses it.
//!
//! What it bounds is not known here.

use core::f64::consts::{FRAC_PI_2, TAU};

use super::quadrature::gauss;
use crate::profile::Point;

/// An arc with its axes along u and v, anticlockwise. Angles are eccentric, in radians.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Curve {
    pub(crate) centre: Point,
    /// Semi-axes along u and v, in millimetres.
    pub(crate) radii: Point,
    pub(crate) from: f64,
    /// At most a full turn.
    pub(crate) sweep: f64,
}

impl Curve {
    /// The place at an angle.
    pub(crate) fn at(&self, angle: f64) -> Point {
        [
            self.centre[0] + self.radii[0] * libm::cos(angle),
            self.centre[1] + self.radii[1] * libm::sin(angle),
        ]
    }

    /// Length in millimetres between two angles no more than a quarter of a turn apart: sixteen-point Gauss quadrature, exact for a
    /// circle.
    pub(crate) fn length(&self, from: f64, to: f64) -> f64 {
        let speed = |angle: f64| {
            let x = self.radii[0] * libm::sin(angle);
            let y = self.radii[1] * libm::cos(angle);
            (x * x + y * y).sqrt()
        };
        let width = to - from;
        width
            * gauss()
                .map(|(at, w)| w * speed(from + at * width))
                .sum::<f64>()
    }

    /// Its ends and the quarters of the turn between them.
    pub(crate) fn quarters(&self) -> impl Iterator<Item = f64> {
        let end = self.from + self.sweep;
        (-4..=8)
            .map(|n| f64::from(n) * FRAC_PI_2)
            .filter(move |angle| *angle > self.from && *angle < end)
            .chain([self.from, end])
    }

    /// The angles on it where it crosses the line through two places; none where they are one place.
    #[expect(
        clippy::many_single_char_names,
        reason = "the letters are the formula's own"
    )]
    pub(crate) fn crossings(&self, a: Point, b: Point) -> impl Iterator<Item = f64> {
        let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        // On the line: p·cos t + q·sin t = r.
        let (p, q) = (-dy * self.radii[0], dx * self.radii[1]);
        let r = dy * (self.centre[0] - a[0]) - dx * (self.centre[1] - a[1]);
        let reach = (p * p + q * q).sqrt();
        let (middle, half) = if reach > 0.0 && r.abs() <= reach {
            (libm::atan2(q, p), Some(libm::acos(r / reach)))
        } else {
            (0.0, None)
        };
        let (from, end) = (self.from, self.from + self.sweep);
        half.into_iter()
            .flat_map(move |half| [middle - half, middle + half])
            .flat_map(|angle| [angle - TAU, angle, angle + TAU])
            .filter(move |angle| *angle > from && *angle < end)
    }
}
