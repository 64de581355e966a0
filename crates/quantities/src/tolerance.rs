//! The tolerances of this crate, each with its reason. Nothing else here.

/// How far a length that was worked out may be from the one that is written for it, mm: a thousand times
/// what sums of lengths of a building leave, and nothing that a tape could show.
pub const WORKED_OUT: f64 = 1e-6;

/// Relative slack before one more package or batch is counted: far above the rounding of `f64`
/// sums (about 1e-15 a term), far below anything a crew could measure.
pub const COUNT_SLACK: f64 = 1e-9;
