//! Grading curves: what share of a soil passes each sieve. What it says of clay, silt, sand and gravel is
//! in [`fractions`]. Not here: jars and blends.

use hodful_quantities::units::{Length, length_of_mm};

use crate::tolerance::SAME_DIAMETER;
use crate::words::{Millimetres, Percent};

pub mod fractions;

pub use fractions::{Border, CurveFractions, Missing};

/// One point of a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Opening of the sieve, or diameter by settling.
    pub diameter: Length,
    /// Share of the dry mass that is finer, from 0 to 1.
    pub passing: f64,
}

/// A passing curve: at least one point, diameters rising and above nothing, shares not falling.
#[derive(Debug, Clone, PartialEq)]
pub struct Grading {
    points: Vec<Point>,
}

impl Grading {
    /// Checks points of (diameter, share passing by dry mass from 0 to 1), in any order.
    ///
    /// # Errors
    /// [`NotAGrading`] when there are none, a diameter is not above nothing or stands twice, a share is not
    /// from 0 to 1, or a coarser sieve passes less than a finer one.
    ///
    /// ```
    /// use hodful_soils::grading::Grading;
    /// use hodful_quantities::units::length_of_mm as mm;
    /// let curve = Grading::new([(mm(4.0), 1.0), (mm(0.25), 0.4)])?;
    /// // Half way between 0.25 and 4 on a scale of logarithms is 1 mm.
    /// assert!((curve.passing(mm(1.0)).unwrap() - 0.7).abs() < 1e-12);
    /// assert_eq!(curve.passing(mm(8.0)), Some(1.0));
    /// assert_eq!(curve.passing(mm(0.1)), None);
    /// # Ok::<(), hodful_soils::grading::NotAGrading>(())
    /// ```
    pub fn new(points: impl IntoIterator<Item = (Length, f64)>) -> Result<Self, NotAGrading> {
        let mut points: Vec<Point> = points
            .into_iter()
            .map(|(diameter, passing)| Point { diameter, passing })
            .collect();
        for point in &points {
            let at = point.diameter.value;
            if !(at.is_finite() && at > 0.0) {
                return Err(NotAGrading::Diameter { mm: at });
            }
            if !(0.0..=1.0).contains(&point.passing) {
                return Err(NotAGrading::Passing {
                    mm: at,
                    passing: point.passing,
                });
            }
        }
        points.sort_by(|a, b| a.diameter.value.total_cmp(&b.diameter.value));
        for (finer, coarser) in points.iter().zip(points.iter().skip(1)) {
            let mm = coarser.diameter.value;
            if mm - finer.diameter.value <= mm * SAME_DIAMETER {
                return Err(NotAGrading::Twice { mm });
            }
            if coarser.passing < finer.passing {
                return Err(NotAGrading::Falls {
                    finer: *finer,
                    coarser: *coarser,
                });
            }
        }
        if points.is_empty() {
            return Err(NotAGrading::Empty);
        }
        Ok(Self { points })
    }

    /// The points, from fine to coarse.
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// Share finer than a diameter, by straight lines over the logarithm of diameter.
    ///
    /// Finer than the finest point: 0 when that point passes nothing, else unknown. Coarser than the coarsest:
    /// 1 when that point passes all, else unknown. `None` for a diameter that is not above nothing.
    pub fn passing(&self, diameter: Length) -> Option<f64> {
        let (least, most) = self.passing_within(diameter)?;
        (most <= least).then_some(least)
    }

    /// Bounds of the share finer than a diameter: equal where the curve tells it, else all that the curve
    /// leaves open. `None` for a diameter that is not above nothing.
    pub fn passing_within(&self, diameter: Length) -> Option<(f64, f64)> {
        let d = diameter.value;
        if !(d.is_finite() && d > 0.0) {
            return None;
        }
        let finer = self
            .points
            .iter()
            .rfind(|point| point.diameter.value <= d * (1.0 + SAME_DIAMETER));
        let coarser = self
            .points
            .iter()
            .find(|point| point.diameter.value >= d * (1.0 - SAME_DIAMETER));
        Some(match (finer, coarser) {
            (Some(finer), Some(coarser)) => {
                let passing = between(finer, coarser, d);
                (passing, passing)
            }
            (Some(finer), None) => (finer.passing, 1.0),
            (None, Some(coarser)) => (0.0, coarser.passing),
            (None, None) => (0.0, 1.0),
        })
    }

    /// The smallest diameter that a share passes, by the same straight lines: `diameter_at(0.6)` is D60. `None`
    /// where the curve does not reach.
    pub fn diameter_at(&self, share: f64) -> Option<Length> {
        let at = self
            .points
            .iter()
            .position(|point| point.passing >= share)?;
        let coarser = self.points.get(at)?;
        if coarser.passing <= share {
            return Some(coarser.diameter);
        }
        let finer = self.points.get(at.checked_sub(1)?)?;
        let t = (share - finer.passing) / (coarser.passing - finer.passing);
        let ratio = coarser.diameter.value / finer.diameter.value;
        (t.is_finite()).then(|| length_of_mm(finer.diameter.value * libm::pow(ratio, t)))
    }

    /// Coefficient of uniformity, D60 / D10. `None` where the curve does not reach.
    ///
    /// Source: Das, *Principles of Geotechnical Engineering*, particle-size distribution curve.
    pub fn uniformity(&self) -> Option<f64> {
        Some(self.diameter_at(0.6)?.value / self.diameter_at(0.1)?.value)
    }

    /// Coefficient of curvature, D30² / (D60 · D10). `None` where the curve does not reach.
    ///
    /// Source: as [`Self::uniformity`].
    pub fn curvature(&self) -> Option<f64> {
        let (d10, d30, d60) = (
            self.diameter_at(0.1)?.value,
            self.diameter_at(0.3)?.value,
            self.diameter_at(0.6)?.value,
        );
        Some((d30 / d60) * (d30 / d10))
    }
}

/// On the line between two points, which may be one and the same.
fn between(finer: &Point, coarser: &Point, d: f64) -> f64 {
    let span = libm::log(coarser.diameter.value / finer.diameter.value);
    if span <= SAME_DIAMETER {
        return finer.passing;
    }
    let t = libm::log(d / finer.diameter.value) / span;
    (finer.passing + t * (coarser.passing - finer.passing)).clamp(finer.passing, coarser.passing)
}

/// Why points are no curve.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NotAGrading {
    /// No points.
    #[error("the curve has no points; give at least one sieve and what passes it")]
    Empty,
    /// A diameter that is none.
    #[error("a sieve of {} cannot be; give an opening above 0", Millimetres(*.mm))]
    Diameter {
        /// As given, mm.
        mm: f64,
    },
    /// A share that is none.
    #[error("{} passing at {} is no share; give 0 to 100 %", Percent(*.passing), Millimetres(*.mm))]
    Passing {
        /// Its sieve, mm.
        mm: f64,
        /// The share as given.
        passing: f64,
    },
    /// One sieve twice.
    #[error("the sieve of {} stands twice; leave one out", Millimetres(*.mm))]
    Twice {
        /// The sieve, mm.
        mm: f64,
    },
    /// A coarser sieve that passes less.
    #[error(
        "{} passes {} but the finer {} passes {}; a coarser sieve cannot pass less (were the shares held back given instead?)",
        Millimetres(.coarser.diameter.value), Percent(.coarser.passing),
        Millimetres(.finer.diameter.value), Percent(.finer.passing)
    )]
    Falls {
        /// The finer of the two.
        finer: Point,
        /// The coarser of the two.
        coarser: Point,
    },
}

/// Share that passes a diameter on the curve of densest packing `P = (d / D)^n`, from 0 to 1.
///
/// 1 at and above the largest grain; `None` when a diameter or the exponent is not above nothing. Sources: Fuller
/// and Thompson, *The laws of proportioning concrete*, 1907 (n = 0.5); Talbot and Richart, *The strength of
/// concrete*, 1923 (any n).
///
/// ```
/// use hodful_soils::grading::talbot;
/// use hodful_quantities::units::length_of_mm as mm;
/// assert_eq!(talbot(mm(1.0), mm(4.0), 0.5), Some(0.5));
/// assert_eq!(talbot(mm(8.0), mm(4.0), 0.5), Some(1.0));
/// assert_eq!(talbot(mm(1.0), mm(4.0), 0.0), None);
/// ```
pub fn talbot(diameter: Length, largest: Length, exponent: f64) -> Option<f64> {
    let above = |value: f64| value.is_finite() && value > 0.0;
    if !(above(diameter.value) && above(largest.value) && above(exponent)) {
        return None;
    }
    // By value: two equal lengths may compare as unequal through their units.
    if diameter.value >= largest.value {
        return Some(1.0);
    }
    Some(libm::pow(diameter.value / largest.value, exponent))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(points: &[(f64, f64)]) -> String {
        let points = points
            .iter()
            .map(|(mm, passing)| (length_of_mm(*mm), *passing));
        Grading::new(points).unwrap_err().to_string()
    }

    #[test]
    fn faults_name_the_sieve() {
        assert_eq!(
            refused(&[(2.0, 0.4), (0.5, 0.9)]),
            "2 mm passes 40 % but the finer 0.5 mm passes 90 %; a coarser sieve cannot pass less (were the shares held \
             back given instead?)"
        );
        assert_eq!(
            refused(&[(2.0, 0.4), (2.0, 0.4)]),
            "the sieve of 2 mm stands twice; leave one out"
        );
        assert_eq!(
            refused(&[(0.0, 0.4)]),
            "a sieve of 0 mm cannot be; give an opening above 0"
        );
        assert_eq!(
            refused(&[(2.0, 40.0)]),
            "4000 % passing at 2 mm is no share; give 0 to 100 %"
        );
        assert_eq!(
            refused(&[]),
            "the curve has no points; give at least one sieve and what passes it"
        );
    }

    #[test]
    fn flat_stretches_give_their_finest_diameter() {
        let points = [(0.1, 0.0), (0.2, 0.5), (0.8, 0.5), (4.0, 1.0)];
        let curve = Grading::new(points.map(|(mm, passing)| (length_of_mm(mm), passing))).unwrap();
        let at = |share| curve.diameter_at(share).map(|d| d.value.to_bits());
        assert_eq!(at(0.5), Some(0.2_f64.to_bits()));
        assert_eq!(at(1.0), Some(4.0_f64.to_bits()));
        assert_eq!(at(f64::NAN), None);
        assert_eq!(curve.passing(length_of_mm(0.05)), Some(0.0));
    }
}
