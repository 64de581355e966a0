//! The tolerances of this crate, each with its reason. Nothing else here, and none of blending.

/// How far shares that somebody typed may sum to beside the whole. Analyses are printed in whole or half
/// percents, and their sums come to 99 or 101 (common practice, no source); the last digits let 0.99 itself in.
pub(crate) const ENTERED_SUM: f64 = 0.010_1;

/// Within this, two shares of the whole are one: far above the rounding of a few `f64` sums (1e-15), far below
/// what any test of a soil can show.
pub(crate) const SAME_SHARE: f64 = 1e-9;

/// Relative difference within which two diameters are one point of a curve: sieves stand a tenth apart at least.
pub(crate) const SAME_DIAMETER: f64 = 1e-9;

/// Steps of the whole in which shares are held against the lines of the texture triangle: 1e-6 % each, so that
/// 0.04, 0.69 and 0.27 are on the line at 27 % clay that they are written on.
pub(crate) const TEXTURE_STEPS: f64 = 1e8;

/// How far the three shares given to the triangle may sum to beside the whole: they are worked out, not typed.
pub(crate) const TRIANGLE_SUM: f64 = 1e-6;

/// Width, as a share of the side of the texture triangle, up to which a soil only touches a class: a hundred of
/// the steps above.
pub(crate) const TOUCH: f64 = 1e-6;

/// Reynolds number above which Stokes' law is not used here. Texts give 0.2 to 1 (from memory: Das,
/// *Geotechnical Engineering*, takes it up to 1); at 1 the law is some 10 % too fast.
pub(crate) const REYNOLDS: f64 = 1.0;

/// Reading error of a mark on a jar, mm (common practice, no source).
pub(crate) const MARK_MM: f64 = 1.0;

/// Relative difference from which a mark on a jar is said to part at another diameter: a tenth of the diameter is
/// a fifth of the time, and less than the spread of methods in laboratories (common practice, no source).
pub(crate) const RIGHT_CUT: f64 = 0.1;
