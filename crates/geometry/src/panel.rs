//! The upright panels a straight-topped face falls into, for showing how its area comes about. Not here: the area itself.

use crate::outline::{FaceOutline, Form};

/// A part of a face between two uprights, under one straight piece of the top line. Lengths in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Panel {
    /// Along the face.
    pub width: f64,
    /// Height at its left.
    pub left: f64,
    /// Height at its right.
    pub right: f64,
}

impl Panel {
    /// Area in mm²: a trapezoid.
    pub fn area(&self) -> f64 {
        self.width * (self.left + self.right) / 2.0
    }
}

impl FaceOutline {
    /// The panels from left to right, insets taken off; none for a polygon.
    ///
    /// Heights are never below zero: where an inset from the base eats an end of a sloping face away, panels do not add up to
    /// the area, which is cut exactly where top and base meet.
    ///
    /// # Examples
    /// ```
    /// use hodful_geometry::{Inset, Outline, OutlineShape, Side};
    /// let gable = Outline::new(OutlineShape::Gable {
    ///     length: 6000.0, eaves: 2400.0, ridge: 4200.0, ridge_from_left: 2000.0,
    /// }).unwrap();
    /// let face = gable.face(Side::Outside, 400.0, &Inset::default()).unwrap();
    /// let panels = face.panels();
    /// assert_eq!(panels.len(), 2);
    /// assert_eq!(panels[0].area() + panels[1].area(), face.area());
    /// ```
    pub fn panels(&self) -> Vec<Panel> {
        let Form::Profile { profile, .. } = self.form() else {
            return Vec::new();
        };
        let (left, right) = (profile.left(), profile.right());
        let height = |u: f64| (profile.top_at(u) - profile.floor()).max(0.0);
        let panel = |from: f64, to: f64| Panel {
            width: to - from,
            left: height(from),
            right: height(to),
        };
        match profile.ridge_between(left, right) {
            Some(ridge) => vec![panel(left, ridge), panel(ridge, right)],
            None => vec![panel(left, right)],
        }
    }
}
