//! What a grading curve says of the fractions of a system of sizes, and what it leaves open. Not here: the curve.

use core::fmt;

use hodful_quantities::units::Length;

use super::Grading;
use crate::fractions::{Fractions, Known, Shares};
use crate::sizes::System;
use crate::words::{Millimetres, Percent};

impl Grading {
    /// Gravel, sand, silt and clay as far as the curve tells them.
    ///
    /// A curve that ends at a sieve tells silt and clay only together; what is missing is named.
    ///
    /// ```
    /// use hodful_soils::{grading::Grading, sizes::System};
    /// use hodful_quantities::units::length_of_mm as mm;
    /// let sieves = Grading::new([(mm(0.063), 0.3), (mm(2.0), 0.9), (mm(8.0), 1.0)])?;
    /// let found = sieves.fractions(System::Iso);
    /// assert_eq!((found.fines, found.clay), (Some(0.3), None));
    /// assert_eq!(found.missing.len(), 1);
    /// assert_eq!(
    ///     found.missing[0].to_string(),
    ///     "the curve does not say how much is finer than 0.002 mm, only that it is 0 % to 30 %: silt and clay \
    ///      are not told apart; settling (a jar, a hydrometer) can tell them"
    /// );
    /// # Ok::<(), hodful_soils::grading::NotAGrading>(())
    /// ```
    pub fn fractions(&self, system: System) -> CurveFractions {
        let limits = system.limits();
        let bounds = [limits.clay, limits.silt, limits.sand].map(|limit| {
            // The limits of a system are above nothing.
            self.passing_within(limit).unwrap_or((0.0, 1.0))
        });
        let [clay, fines, fine_earth] =
            bounds.map(|(least, most)| (most <= least).then_some(least));
        let borders = [
            Border::SiltAndClay,
            Border::SandAndSilt,
            Border::GravelAndSand,
        ];
        let missing = borders
            .into_iter()
            .zip([limits.clay, limits.silt, limits.sand])
            .zip(bounds)
            .filter(|(_, (least, most))| most > least)
            .map(|((border, diameter), (least, most))| Missing {
                border,
                diameter,
                least,
                most,
            })
            .collect();
        let less = |whole: Option<f64>, part: Option<f64>| Some((whole? - part?).max(0.0));
        CurveFractions {
            system,
            gravel: less(Some(1.0), fine_earth),
            sand: less(fine_earth, fines),
            fines,
            silt: less(fines, clay),
            clay,
            missing,
            bounds,
        }
    }
}

/// What a curve tells of the fractions of the whole; shares from 0 to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct CurveFractions {
    /// The system whose limits were read off.
    pub system: System,
    /// Gravel and coarser.
    pub gravel: Option<f64>,
    /// Sand.
    pub sand: Option<f64>,
    /// Silt and clay together.
    pub fines: Option<f64>,
    /// Silt.
    pub silt: Option<f64>,
    /// Clay.
    pub clay: Option<f64>,
    /// What the curve leaves open, from fine to coarse.
    pub missing: Vec<Missing>,
    /// Bounds of what passes the limits of clay, silt and sand.
    bounds: [(f64, f64); 3],
}

impl CurveFractions {
    /// All four, when the curve tells them all.
    pub fn whole(&self) -> Option<Fractions> {
        Fractions::new(
            self.system,
            self.gravel?,
            self.sand?,
            self.silt?,
            self.clay?,
        )
        .ok()
    }

    /// All four within what the curve leaves open.
    pub fn shares(&self) -> Shares {
        if let Some(whole) = self.whole() {
            return whole.into();
        }
        let [clay, fines, fine_earth] = self.bounds;
        let less = |best, (whole_least, whole_most): (f64, f64), (least, most): (f64, f64)| {
            Known::tidied(best, whole_least - most, whole_most - least)
        };
        let none = (0.0, 0.0);
        let (gravel, sand, silt, clay) = (
            less(self.gravel, (1.0, 1.0), fine_earth),
            less(self.sand, fine_earth, fines),
            less(self.silt, fines, clay),
            less(self.clay, clay, none),
        );
        Shares::new(self.system, gravel, sand, silt, clay)
            .unwrap_or_else(|_| Shares::unknown(self.system))
    }
}

/// Two fractions that meet at a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Border {
    /// At the limit of clay.
    SiltAndClay,
    /// At the limit of silt.
    SandAndSilt,
    /// At the limit of sand.
    GravelAndSand,
}

/// A limit that a curve does not reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Missing {
    /// What it would part.
    pub border: Border,
    /// Where.
    pub diameter: Length,
    /// At least this share is finer.
    pub least: f64,
    /// At most this share is finer.
    pub most: f64,
}

impl fmt::Display for Missing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (two, how) = match self.border {
            Border::SiltAndClay => (
                "silt and clay",
                "settling (a jar, a hydrometer) can tell them",
            ),
            Border::SandAndSilt => (
                "sand and silt",
                "a sieve of that opening, or settling, can tell them",
            ),
            Border::GravelAndSand => ("gravel and sand", "a sieve of that opening can tell them"),
        };
        write!(
            f,
            "the curve does not say how much is finer than {}, only that it is {} to {}: {two} are not told apart; {how}",
            Millimetres(self.diameter.value),
            Percent(self.least),
            Percent(self.most),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fractions::Part;
    use hodful_quantities::units::length_of_mm;

    /// By hand: 30 % to 100 % is not told between 4 mm and all, and 0 to 10 % not below 0.063 mm.
    #[test]
    fn what_the_curve_leaves_open_is_bounded() {
        let curve = Grading::new([(length_of_mm(0.063), 0.1), (length_of_mm(1.0), 0.3)]).unwrap();
        let found = curve.fractions(System::Iso);
        let borders: Vec<Border> = found.missing.iter().map(|missing| missing.border).collect();
        assert_eq!(borders, [Border::SiltAndClay, Border::GravelAndSand]);
        let shares = found.shares();
        let bounds = |part| {
            let known = shares.share(part);
            assert_eq!(known.best(), None);
            [known.least(), known.most()].map(|share| (share * 1e9).round() / 1e9)
        };
        assert_eq!(
            bounds(Part::Clay).map(f64::to_bits),
            [0.0, 0.1].map(f64::to_bits)
        );
        assert_eq!(
            bounds(Part::Silt).map(f64::to_bits),
            [0.0, 0.1].map(f64::to_bits)
        );
        assert_eq!(
            bounds(Part::Sand).map(f64::to_bits),
            [0.2, 0.9].map(f64::to_bits)
        );
        assert_eq!(
            bounds(Part::Gravel).map(f64::to_bits),
            [0.0, 0.7].map(f64::to_bits)
        );
    }
}
