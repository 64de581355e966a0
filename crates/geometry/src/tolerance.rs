//! Every tolerance and every bound of the crate, each with its reason.
//!
//! Nothing else belongs here, and no other file may compare against a bare small number.

use core::f64::consts::PI;

/// Longest length accepted, in millimetres: 10 km. No wall is longer, and the square of it is far from overflow.
pub(crate) const MAX_LENGTH: f64 = 1.0e7;

/// Smallest size of anything that must have a size, in millimetres: a thousandth of a millimetre. Far under what can be
/// built or drawn, far over rounding, and large enough that no quotient of two accepted lengths overflows.
pub(crate) const MIN_SIZE: f64 = 1.0e-3;

/// Two lines nearer than this, in millimetres, touch. Positions summed from typed lengths are wrong in the last bits:
/// under 2 nm on a wall of [`MAX_LENGTH`], so a thousandth of a micrometre and its next power of a thousand are safe.
pub(crate) const TOUCH: f64 = 1.0e-6;

/// Splay at or over which a reveal is refused: 80°. The tangent grows without bound towards 90°.
pub(crate) const MAX_SPLAY: f64 = 80.0 * PI / 180.0;

/// Largest turn of the end of a face: 170°. At 180° the strip taken by a rounded edge is without bound.
pub(crate) const MAX_TURN: f64 = 170.0 * PI / 180.0;

/// Slack on a full turn, in radians: a sweep typed in degrees is rounded once on its way here.
pub(crate) const TURN_SLACK: f64 = 1.0e-9;

/// Most copies of one opening. A count above it is a slip of the finger, and would only cost time.
pub(crate) const MAX_COPIES: u32 = 10_000;

/// Most corners of a polygon: the check for crossing sides looks at every pair of them.
pub(crate) const MAX_CORNERS: usize = 1_000;

/// Sharpest corner of an opening, in radians: 1°. The fold of the plaster at a corner grows without bound below it.
pub(crate) const MIN_CORNER: f64 = PI / 180.0;

/// Step of an arc drawn as chords, in radians. The sliver between one chord of the equal-area polygon and the arc is
/// r²·δ³/12, here 4.0e-8 r², one hundred-millionth of the full circle; a cut across an arc is wrong by one such sliver, a cut
/// along it by several.
pub(crate) const ARC_STEP: f64 = 1.0 / 128.0;

/// Fewest chords of an arc, however short its sweep.
pub(crate) const MIN_CHORDS: u32 = 8;

/// Share of an opening's own hole under which what is left of it is nothing, and over one less which it is whole.
/// The polygon engine works on a grid of 2⁻³⁰ of the drawing; its areas are right to about 1e-8.
pub(crate) const SAME_AREA: f64 = 1.0e-7;

/// Corners that come back from the polygon engine are moved by up to this share of the drawing's extent (the grid is 2⁻³⁰
/// of it; corners are snapped more than once).
pub(crate) const ENGINE_SHARE: f64 = 8.0e-9;

/// Relative difference under which two radii or ratios are the same number, rounded along two ways.
pub(crate) const SAME_RATIO: f64 = 1.0e-12;

/// Relative change between two steps of a quadrature at which it has settled.
pub(crate) const SETTLED: f64 = 1.0e-11;

/// Half angle, in radians, under which the area of a segment comes from its series: above it the difference of sector and
/// triangle keeps 13 digits, below it the series of seven terms does.
pub(crate) const SMALL_ANGLE: f64 = 0.2;
