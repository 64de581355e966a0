//! The ends of a face: the angles it makes with the next wall.
//!
//! Edges between a face and a reveal belong to the reveal.

use crate::fault::{Fault, Faults, number_fault};
use crate::outline::End;
use crate::tolerance::MAX_TURN;

/// The angle at the end of a face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Angle {
    /// The surface turns away from the viewer. Entered on one of the two walls only: that face carries the rounded edge, and
    /// both strips the edge takes are taken from it.
    External {
        /// Radius of the background's edge in millimetres; zero is a sharp arris.
        radius: f64,
    },
    /// The surface turns towards the viewer. Entered on one of the two walls only.
    Internal {
        /// Radius of the finished cove in millimetres; zero is a square angle.
        cove: f64,
    },
}

/// An end of a face as typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EndSpec {
    /// Which end.
    pub end: End,
    /// What angle is there.
    pub angle: Angle,
    /// How far the surface turns, in radians: a quarter turn at a square corner.
    pub turn: f64,
}

/// A checked end of a face, its trigonometry done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceEnd {
    spec: EndSpec,
    half_tan: f64,
}

impl FaceEnd {
    /// Checks an end.
    ///
    /// # Errors
    /// Every fault: a radius (`"radius"`, of a cove as well) that is not finite, negative or over 10 km; a turn that is not
    /// finite, negative, zero, or over 170° (`"turn"`).
    pub fn new(spec: EndSpec) -> Result<Self, Vec<Fault>> {
        let mut faults = Faults::default();
        let (Angle::External { radius } | Angle::Internal { cove: radius }) = spec.angle;
        faults.length("radius", radius);
        if let Some(why) = number_fault(spec.turn) {
            faults.add("turn", why);
        } else if spec.turn <= 0.0 {
            faults.add("turn", "is zero");
        } else if spec.turn > MAX_TURN {
            faults.add("turn", "is over 170°");
        }
        faults.or(Self {
            spec,
            half_tan: libm::tan(spec.turn / 2.0),
        })
    }

    /// The end as it was typed.
    pub fn spec(&self) -> &EndSpec {
        &self.spec
    }

    pub(crate) fn half_tan(&self) -> f64 {
        self.half_tan
    }
}
