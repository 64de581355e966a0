//! The tolerances and bounds of plans, each with its reason. Nothing else here.

use core::f64::consts::PI;

/// Longest size accepted, in millimetres: 10 km, as the geometry of walls has it.
pub(super) const LONGEST: f64 = 1e7;

/// Least size of a side, of a height, of a thickness and of what is left of a face, in millimetres: a
/// line on a plan is not finer.
pub(super) const LEAST_SIZE: f64 = 1.0;

/// Most sides of a ring: the check for crossings looks at every pair, at every key.
pub(super) const MOST_SIDES: usize = 200;

/// Largest turn in radians: 170 degrees, as the geometry of corners has it. The inside length goes
/// without bound towards 180.
pub(super) const MOST_TURN: f64 = 170.0 * PI / 180.0;

/// Difference in radians between turns that are the same: a turn typed in degrees is rounded once on its
/// way here, and a sum of two hundred of them a little more.
pub(super) const SAME_TURN: f64 = 1e-9;

/// How far, in radians, the turns of a ring may be from once round: half a degree. Turns are typed to a
/// tenth or to a whole degree (seven of 51.4 make 359.8), and no corner is left out for so little.
pub(super) const ONCE_ROUND: f64 = 0.5 * PI / 180.0;

/// Gap in millimetres within which a ring closes: a quarter of an inch. Sizes typed to a sixteenth or to
/// a millimetre add up to less; a slip of half an inch is seen.
pub(super) const CLOSES: f64 = 6.35;

/// What a ring with turns other than quarters may miss besides, of its length: an angle typed to a
/// tenth of a degree moves the far end by up to 0.9 thousandths of the distance.
pub(super) const SKEW: f64 = 1e-3;

/// Gap in millimetres within which walls are drawn as a ring: an inch, as walls are taped one by one.
pub(super) const DRAWN: f64 = 25.4;

/// Distance in millimetres between points that are one point when drawn.
pub(super) const SAME_POINT: f64 = 1e-3;

/// Difference in millimetres between a worked-out length and the 64th of an inch it is written as: above
/// the rounding of a few sums, far below a tape.
pub(super) const SAME_LENGTH: f64 = 1e-6;

/// Step in radians of an arc drawn as chords: 3 degrees, off the arc by a third of a thousandth of its
/// radius.
pub(super) const ARC_STEP: f64 = 3.0 * PI / 180.0;
