//! The tolerances of blending, each with its reason. Nothing else here.
//!
//! Every row of the programme is written in shares of the blend, so one tolerance means the same in
//! all of them.

/// How far the solver may leave a row or a bound, share of the blend: a milligram in a kilogram would be
/// 1e-6, the rounding of the sums about 1e-15; between them, and no less than the solver takes.
pub(super) const SOLVER: f64 = 1e-9;

/// The same for a second try, when the solver could not hold [`SOLVER`]: still a tenth of [`MET`].
pub(super) const SOLVER_AGAIN: f64 = 1e-7;

/// A requirement counts as met when it is missed by no more, share of the blend: a gram in a tonne,
/// which no scale of a building site shows.
pub(super) const MET: f64 = 1e-6;

/// Coefficients of a row below this are left out of the programme: shares add up to 1, so the row moves
/// by less than a tenth of [`SOLVER`], and the solver wants coefficients of like size.
pub(super) const COEFFICIENT: f64 = 1e-10;

/// A material with a smaller share is left out of the blend: a tenth of a gram in a tonne.
pub(super) const NOTHING: f64 = 1e-7;

/// How much worse an aim may become while ties are broken, as a share of its value: what the solver may be
/// off by itself.
pub(super) const TIE: f64 = 1e-9;

/// Below this share of its largest coefficient the value of an aim counts as this: rows keep to
/// coefficients of like size.
pub(super) const TIE_SMALL: f64 = 1e-4;

/// When a tie is left unbroken because the aim became worse, as a share of its value: well inside the 1e-6
/// that the aim is promised to.
pub(super) const TIE_SHARE: f64 = 1e-7;

/// Slack of an aim whose value is 0, of its largest coefficient: what sums of products leave.
pub(super) const TIE_AT_NOTHING: f64 = 1e-12;

/// The margin has been found when a step would widen it by less, in widths of the range: a thousandth
/// of what is promised.
pub(super) const MARGIN_STEP: f64 = 1e-9;

/// What is given back of the margin before ties are broken, in widths, so that the solver's rounding does not
/// shut out the blend that reached it. Not a share of the margin: the solver's slack does not shrink with it.
pub(super) const MARGIN_BACK: f64 = 1e-8;

/// Least whole of a ratio by which a step of the margin is measured, share of the blend: below it the
/// blend holds so little of both that dividing by it only magnifies rounding.
pub(super) const MARGIN_WHOLE: f64 = 1e-4;

/// A ratio's share of the whole above 1 less this is without end: nothing of the other is left but rounding.
pub(super) const NO_END: f64 = 1e-12;

/// The reach has been found when a step would move it by less, share of the whole.
pub(super) const REACH_STEP: f64 = 1e-13;

/// A smaller share of the wanted amount counts as none of it: homogeneous rows of so little are all
/// within the solver's slack.
pub(super) const LEAST_MADE: f64 = 1e-3;

/// By how much clay, silt, sand and gravel may miss 1 together: four figures rounded to whole
/// percent are off by half a percent each at most.
pub(super) const SUM_OF_GRAINS: f64 = 0.02 + 1e-9;

/// Two sieves are the same when their openings differ by no more, as a share: sizes are written to
/// four figures at most, and converting units leaves about 1e-15.
pub(super) const SAME_SIEVE: f64 = 1e-6;

/// How much of the blend rounded parts may shift from one material to others, share of loose volume: as
/// true as buckets are filled (common practice, no source).
pub(super) const ROUNDED_SHIFT: f64 = 0.05;
