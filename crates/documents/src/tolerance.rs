//! The tolerances of this crate, each with its reason. Nothing else here.

/// Edges of frames that lie this near to each other count as one place in a chain of dimensions, mm: half
/// of what a tape shows, so that no figure of nothing is printed.
pub(crate) const SAME_PLACE: f64 = 0.5;
