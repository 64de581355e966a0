//! How near is near enough. Not here: what is compared.

/// How near a thickness must be to a step of the trade to stand on it, in steps: a thousand times what
/// the reading of a decimal leaves, a thousandth of what a plasterer can see.
pub(crate) const ON_A_STEP: f64 = 1e-6;

/// How near an inset must be to a thickness to be taken for it, mm: insets that are worked out are written to
/// a hundredth.
pub(crate) const SAME_THICKNESS: f64 = 0.02;
