//! The tolerances of this crate, each with its reason. Nothing else here.

/// How far a short formula may be from the figure and still be printed as its formula, relative:
/// above the rounding of a dozen operations, below anything a rule could hide.
pub(crate) const FORMULA_HOLDS: f64 = 1e-9;

/// Millimetres under which a reach over an edge is not told: finer than any tape.
pub(crate) const SEEN: f64 = 0.1;
