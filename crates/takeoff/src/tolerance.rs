//! The tolerances of this crate, each with its reason. Nothing else here.

/// How far a short formula may be from the figure and still be printed as its formula, relative:
/// above the rounding of a dozen operations, below anything a rule could hide.
pub(crate) const FORMULA_HOLDS: f64 = 1e-9;

/// Millimetres under which a reach over an edge is not told: finer than any tape.
pub(crate) const SEEN: f64 = 0.1;

/// Millimetres between reveals, thicknesses and limits that count as the same: sums of typed inches
/// differ in the last bit, and nobody builds to a hundredth.
pub(crate) const SAME_LENGTH: f64 = 0.01;

/// Relative difference between an area and a limit that counts as none: a limit value belongs to the
/// smaller band however it was typed.
pub(crate) const SAME_AREA: f64 = 1e-9;

/// Share of a blend under which a material is none of it: a hundred thousandth, far below a shovel in a
/// truckload.
pub(crate) const NONE_OF_IT: f64 = 1e-5;

/// Difference between shares and limits that counts as none.
pub(crate) const SAME_SHARE: f64 = 1e-9;

/// Share by which coats may fall short of the room on a face and still be held against every face: far
/// above the rounding of one division, so that a face without room is never passed over.
pub(crate) const LOOK_CLOSER: f64 = 1e-9;

/// Share of a limit by which it is worked out wrong at most and still shown as it stands: above the rounding of a few
/// operations, far below a digit that is shown.
pub(crate) const ON_LIMIT: f64 = 1e-9;

/// Share of the range of an input within which a step is found: finer than a dot on any screen, and for a
/// coat of two inches far below a hundredth of a millimetre.
pub(crate) const STEP_WITHIN: f64 = 1e-6;

/// Share of the distance between two marks of an axis within which its end is on a mark: far above the
/// rounding of a division, far below a dot.
pub(crate) const ON_MARK: f64 = 1e-6;
