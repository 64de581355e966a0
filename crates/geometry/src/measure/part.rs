//! The figures of one part of one reveal.
//!
//! How long its lines are is decided by the opening it belongs to.

use crate::reveal::{Bevel, Part};
use crate::tolerance::TOUCH;

/// One plastered part of a reveal. Areas in mm², lengths in millimetres, angles in radians.
///
/// `reveal_area` is (frame line + face line)/2 · slant, plus for an arch what its curve brings; the strip is not yet taken off.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PartMeasure {
    /// Which part.
    pub part: Part,
    /// How many lines it has: two for the jambs, one else.
    pub lines: u8,
    /// Length of its lines on the frame, inside the face.
    pub frame_line: f64,
    /// Length of its lines on the face, inside it: its edge, along the sharp arris.
    pub face_line: f64,
    /// Width along the slant from frame to face.
    pub slant: f64,
    /// How far it turns out of square.
    pub splay: f64,
    /// How far the surface turns at its edge; the mean for a splayed elliptical arch.
    pub turn: f64,
    /// Area from frame line to face line.
    pub reveal_area: f64,
    /// Width of the strip a rounded edge takes from the reveal and again from the face.
    pub strip: f64,
    /// Area of one such strip.
    pub strip_area: f64,
    /// Surface of the rounded edge.
    pub arc_area: f64,
    /// Surface its edge gains per millimetre of offset.
    pub edge_growth: f64,
    /// Surface lost per millimetre of offset inside the reveal: folds where parts meet, and the turning of a curved part. Folds
    /// between jambs and head are with the head, between jambs and sill with the sill.
    pub inside_growth: f64,
}

impl PartMeasure {
    /// A part from the length of its lines inside the face, its depth, what it has more than the trapezoid between its lines,
    /// and what it loses inside.
    #[inline]
    pub(crate) fn new(part: Part, bevel: &Bevel, depth: f64, lines: Lines) -> Self {
        let slant = depth * bevel.secant;
        let Lines {
            count,
            frame,
            face,
            extra,
            inside_growth,
        } = lines;
        // Without depth there is no reveal and no edge to it.
        let edge = if depth > 0.0 { face } else { 0.0 };
        Self {
            part,
            lines: count,
            frame_line: frame,
            face_line: edge,
            slant,
            splay: bevel.splay,
            turn: bevel.turn,
            reveal_area: (0.5 * (frame + face) * slant + extra).max(0.0),
            strip: bevel.strip,
            strip_area: bevel.strip * edge,
            arc_area: bevel.arc * edge,
            edge_growth: bevel.growth * edge,
            inside_growth,
        }
    }

    /// What is left of the reveal after its strip, in mm².
    pub fn net_reveal_area(&self) -> f64 {
        (self.reveal_area - self.strip_area).max(0.0)
    }

    /// Whether its strip is wider than the part, or comes to more than it.
    #[expect(
        clippy::needless_bitwise_bool,
        reason = "whether an edge is rounded is as good as chance: guessing wrong costs more than all comparisons"
    )]
    #[inline]
    pub(crate) fn is_overdrawn(&self) -> bool {
        (self.strip > 0.0)
            & ((self.strip > self.slant + TOUCH)
                | (self.strip_area > self.reveal_area + TOUCH * self.face_line))
    }
}

/// The lines of a part inside the face.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Lines {
    pub(crate) count: u8,
    pub(crate) frame: f64,
    pub(crate) face: f64,
    pub(crate) extra: f64,
    pub(crate) inside_growth: f64,
}
