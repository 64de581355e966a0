//! The tolerances of this crate, each with its reason. Nothing else here.

/// How far past its room a line of text or a drawing may reach, of that room: the noise of adding widths
/// in a different order. Far under what an eye can see.
pub(crate) const ROOM: f64 = 1e-9;
