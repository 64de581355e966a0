//! What counts as the same in the entry line, with the reason.

/// Two lengths nearer than this, in millimetres, are one, worked out and written: sums of typed lengths
/// are wrong in the last bits, under a millionth of a millimetre in any building.
pub(super) const SAME_LENGTH: f64 = 1.0e-6;
