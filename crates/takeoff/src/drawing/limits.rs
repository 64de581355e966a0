//! The limits of a drawing, each with its reason: how finely curves are drawn and how much is drawn at
//! all. Figures do not depend on them. Nothing else here.

/// Largest number that is drawn, mm: ten kilometres, the most the checks accept.
pub(super) const MOST: f64 = 1.0e7;

/// Pieces of an arch: with 48 of them the chords of a semicircle of 2 m lie within a millimetre.
pub(super) const ARCH_PIECES: u32 = 48;

/// Pieces of a circle, as fine as those of an arch.
pub(super) const CIRCLE_PIECES: u32 = 96;

/// Pieces of a rounded edge in a section.
pub(super) const EDGE_PIECES: u32 = 12;

/// Most copies drawn of one opening, and of one pocket: more than any row that can be told apart.
pub(super) const MOST_COPIES: u32 = 250;

/// Steepest splay drawn, in radians: 80°, from which on a reveal is refused.
pub(super) const MOST_SPLAY: f64 = 80.0 * core::f64::consts::PI / 180.0;

/// Greatest turn drawn at the end of a face, in radians: 170°, beyond which it is refused.
pub(super) const MOST_TURN: f64 = 170.0 * core::f64::consts::PI / 180.0;

/// Sine of the turn under which two lines are taken as one that goes on straight: their crossing would
/// lie anywhere.
pub(super) const STRAIGHT: f64 = 0.01;
