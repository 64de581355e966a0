//! What a soil is made of: shares of gravel, sand, silt and clay by dry mass, exact or within bounds.
//!
//! Bounds are in [`bounds`]. Not here: how they are found (`grading`, `jar`), and what a soil of such shares is called (`texture`).

use core::fmt;

use crate::sizes::System;
use crate::tolerance::{ENTERED_SUM, SAME_SHARE};
use crate::words::Percent;

pub mod bounds;

pub use bounds::{FineShares, Known, NotKnown, NotShares, Shares};

/// One of the four fractions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// Coarser than sand, however coarse.
    Gravel,
    /// Between silt and gravel.
    Sand,
    /// Between clay and sand.
    Silt,
    /// The finest.
    Clay,
}

impl Part {
    /// From coarse to fine.
    pub const ALL: [Self; 4] = [Self::Gravel, Self::Sand, Self::Silt, Self::Clay];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Gravel => "gravel",
            Self::Sand => "sand",
            Self::Silt => "silt",
            Self::Clay => "clay",
        }
    }
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// Shares of the whole dry mass, each from 0 to 1, that sum to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fractions {
    system: System,
    gravel: f64,
    sand: f64,
    silt: f64,
    clay: f64,
}

/// Sand, silt and clay as shares of what is finer than gravel (under 2 mm; ASTM 4.75 mm), by dry mass. They sum
/// to 1. This is what the texture triangle speaks of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FineEarth {
    /// Share from 0 to 1.
    pub sand: f64,
    /// Share from 0 to 1.
    pub silt: f64,
    /// Share from 0 to 1.
    pub clay: f64,
}

impl Fractions {
    /// Checks shares of the whole dry mass, each from 0 to 1.
    ///
    /// Sums that are off by up to 1 % of the whole, as printed analyses are, are made up to the whole in
    /// proportion.
    ///
    /// # Errors
    /// [`NotFractions`] when a share is not a number from 0 to 1, or they do not sum to 1.
    ///
    /// ```
    /// use hodful_soils::{fractions::Fractions, sizes::System};
    /// let soil = Fractions::new(System::Usda, 0.0, 0.04, 0.69, 0.27)?;
    /// assert_eq!(soil.clay(), 0.27);
    /// let short = Fractions::new(System::Usda, 0.0, 0.04, 0.69, 0.20);
    /// assert_eq!(
    ///     short.unwrap_err().to_string(),
    ///     "gravel, sand, silt and clay come to 93 % together; change them so that they come to 100 %"
    /// );
    /// # Ok::<(), hodful_soils::fractions::NotFractions>(())
    /// ```
    pub fn new(
        system: System,
        gravel: f64,
        sand: f64,
        silt: f64,
        clay: f64,
    ) -> Result<Self, NotFractions> {
        for (part, share) in Part::ALL.into_iter().zip([gravel, sand, silt, clay]) {
            if !(0.0..=1.0).contains(&share) {
                return Err(NotFractions::Share { part, share });
            }
        }
        let sum = gravel + sand + silt + clay;
        if (sum - 1.0).abs() > ENTERED_SUM {
            return Err(NotFractions::Sum { sum });
        }
        // Shares that already sum to the whole stay bit for bit as they were given.
        let whole = if (sum - 1.0).abs() > SAME_SHARE {
            sum
        } else {
            1.0
        };
        Ok(Self {
            system,
            gravel: gravel / whole,
            sand: sand / whole,
            silt: silt / whole,
            clay: clay / whole,
        })
    }

    /// The system of sizes they are meant in.
    pub fn system(&self) -> System {
        self.system
    }

    /// Share of gravel and coarser, of the whole.
    pub fn gravel(&self) -> f64 {
        self.gravel
    }

    /// Share of sand, of the whole.
    pub fn sand(&self) -> f64 {
        self.sand
    }

    /// Share of silt, of the whole.
    pub fn silt(&self) -> f64 {
        self.silt
    }

    /// Share of clay, of the whole.
    pub fn clay(&self) -> f64 {
        self.clay
    }

    /// Share of one part, of the whole.
    pub fn share(&self, part: Part) -> f64 {
        match part {
            Part::Gravel => self.gravel,
            Part::Sand => self.sand,
            Part::Silt => self.silt,
            Part::Clay => self.clay,
        }
    }

    /// Sand, silt and clay of what is finer than gravel; `None` when all is gravel.
    ///
    /// ```
    /// use hodful_soils::{fractions::Fractions, sizes::System};
    /// let soil = Fractions::new(System::Usda, 0.5, 0.2, 0.2, 0.1)?;
    /// assert_eq!(soil.of_fines().map(|fine| fine.sand), Some(0.4));
    /// # Ok::<(), hodful_soils::fractions::NotFractions>(())
    /// ```
    pub fn of_fines(&self) -> Option<FineEarth> {
        let fine = self.sand + self.silt + self.clay;
        (fine > SAME_SHARE).then(|| FineEarth {
            sand: self.sand / fine,
            silt: self.silt / fine,
            clay: self.clay / fine,
        })
    }
}

/// Why shares are not those of a soil.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NotFractions {
    /// Below nothing, above the whole, or no number.
    #[error("{part} of {} is no share; give 0 to 100 %", Percent(*.share))]
    Share {
        /// Which.
        part: Part,
        /// The share as given.
        share: f64,
    },
    /// Together not the whole.
    #[error(
        "gravel, sand, silt and clay come to {} together; change them so that they come to 100 %",
        Percent(*.sum)
    )]
    Sum {
        /// What they come to.
        sum: f64,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_gravel_has_no_fine_earth() {
        let soil = Fractions::new(System::Iso, 1.0, 0.0, 0.0, 0.0).unwrap();
        assert_eq!(soil.of_fines(), None);
        assert_eq!(Shares::from(soil).of_fines(), None);
    }

    #[test]
    fn faults_say_what_to_do() {
        let share = Fractions::new(System::Usda, 0.0, -0.1, 0.6, 0.5).unwrap_err();
        assert_eq!(
            share.to_string(),
            "sand of -10 % is no share; give 0 to 100 %"
        );
    }
}
