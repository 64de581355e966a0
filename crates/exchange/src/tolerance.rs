//! The tolerances of this crate, each with its reason. Nothing else here.

/// How far past its room a line of text or a drawing may reach, of that room: the noise of adding widths
/// in a different order. Far under what an eye can see.
pub(crate) const ROOM: f64 = 1e-9;

/// How far past the bounds of a drawing a point may lie and be in them, mm of the page: less than any line
/// is wide.
pub(crate) const EDGE: f64 = 0.01;

/// By how much the shares of a row of pictures may be more than the width of a page, points: they leave the
/// paper between them out only nearly.
pub(crate) const ROUNDED: f64 = 0.5;

/// Shares of a grading that differ by less are the same: the noise of summing and dividing them. Far under
/// what any test of grains tells apart.
pub(crate) const SAME_SHARE: f64 = 1e-9;
