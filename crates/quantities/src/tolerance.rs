//! The tolerances of this crate, each with its reason. Nothing else here.

/// Relative slack before one more package or batch is counted: far above the rounding of `f64`
/// sums (about 1e-15 a term), far below anything a crew could measure.
pub const COUNT_SLACK: f64 = 1e-9;
