//! The limits of this crate, each with its reason. Nothing else here.

/// When a temperature that is looked for is found, K. Each step of the search squares what is left, so that
/// after a step this small the rest is out of sight.
pub(crate) const FOUND_K: f64 = 1e-6;

/// When the temperature of a wet face is found, K. Each step leaves less than a thousandth of the cube of what was left,
/// so that after a step this small the rest is below 0.000001 K.
pub(crate) const NEAR_K: f64 = 0.1;

/// Most steps of a search. It takes three to six; the rest is for what nobody types.
pub(crate) const MOST_STEPS: usize = 60;

/// Most of the pressure that vapour at a face may reach, as a share: beyond it the water all but boils and the
/// formulas for damp air say nothing.
pub(crate) const MOST_VAPOUR: f64 = 0.9;

/// Below this `x`, `(1 − exp(−x)) / x` is worked out by the first terms of its series: dividing would lose figures,
/// and what the series leaves out is far below a millionth of a millionth.
pub(crate) const SMALL_EXPONENT: f64 = 1e-4;

/// Steps of halving in a search between two ends: from 100 K to less than a millionth.
pub(crate) const HALVINGS: usize = 40;

/// The spread of squares below which the values of records count as all the same, as a share of their squares.
pub(crate) const SAME_VALUES: f64 = 1e-12;
