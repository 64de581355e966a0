//! The twelve texture classes of the United States Department of Agriculture, and their triangle.
//!
//! Here: what a soil is called, and what it may be called when its shares are uncertain. Corners, neighbours and
//! places in the triangle are in [`triangle`]. Not here: how shares are found, and any drawing.

use core::fmt;

use crate::fractions::{FineEarth, Fractions, Shares};
use crate::sizes::System;
use crate::tolerance::{TEXTURE_STEPS, TRIANGLE_SUM};

pub mod triangle;

pub use triangle::{classes_between, middle, neighbours, outline, to_triangle};

/// A texture class.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs, reason = "each is its own name")]
pub enum Class {
    Sand,
    LoamySand,
    SandyLoam,
    Loam,
    SiltLoam,
    Silt,
    SandyClayLoam,
    ClayLoam,
    SiltyClayLoam,
    SandyClay,
    SiltyClay,
    Clay,
}

impl Class {
    /// All twelve, from sand to clay.
    pub const ALL: [Self; 12] = [
        Self::Sand,
        Self::LoamySand,
        Self::SandyLoam,
        Self::Loam,
        Self::SiltLoam,
        Self::Silt,
        Self::SandyClayLoam,
        Self::ClayLoam,
        Self::SiltyClayLoam,
        Self::SandyClay,
        Self::SiltyClay,
        Self::Clay,
    ];

    /// Its published name, small letters.
    pub fn name(self) -> &'static str {
        match self {
            Self::Sand => "sand",
            Self::LoamySand => "loamy sand",
            Self::SandyLoam => "sandy loam",
            Self::Loam => "loam",
            Self::SiltLoam => "silt loam",
            Self::Silt => "silt",
            Self::SandyClayLoam => "sandy clay loam",
            Self::ClayLoam => "clay loam",
            Self::SiltyClayLoam => "silty clay loam",
            Self::SandyClay => "sandy clay",
            Self::SiltyClay => "silty clay",
            Self::Clay => "clay",
        }
    }
}

impl fmt::Display for Class {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// The class of a soil, from shares of sand, silt and clay by dry mass of what is under 2 mm, each from 0 to 1.
///
/// Shares are rounded to 1e-6 % first, so that a soil written on a line is on that line. `None` when a share is
/// not a number from 0 to 1 or they do not sum to 1 (within 0.0001 %). The shares must be of USDA sizes.
///
/// Source: *Soil Survey Manual*, USDA Handbook 18, ch. 3, the definitions of the twelve classes (read in public
/// programs that cite them).
///
/// ```
/// use hodful_soils::texture::{Class, classify};
/// assert_eq!(classify(0.04, 0.69, 0.27), Some(Class::SiltyClayLoam));
/// assert_eq!(classify(0.5, 0.5, 0.5), None);
/// ```
pub fn classify(sand: f64, silt: f64, clay: f64) -> Option<Class> {
    let shares = [sand, silt, clay];
    let sum: f64 = shares.iter().sum();
    if !shares.iter().all(|share| (0.0..=1.0).contains(share)) || (sum - 1.0).abs() > TRIANGLE_SUM {
        return None;
    }
    // Whole numbers from here on, so every comparison is exact. Sand is what the others leave, so that the
    // three are the whole.
    let silt = (silt * TEXTURE_STEPS).round();
    let clay = (clay * TEXTURE_STEPS).round();
    let sand = (TEXTURE_STEPS - silt - clay).max(0.0);
    Class::ALL
        .into_iter()
        .find(|class| holds(*class, sand, silt, clay))
}

/// Whether the rule of a class holds; all three in steps.
fn holds(class: Class, sand: f64, silt: f64, clay: f64) -> bool {
    let percent = |value: f64| value * (TEXTURE_STEPS / 100.0);
    let from_to =
        |value: f64, least: f64, under: f64| (percent(least)..percent(under)).contains(&value);
    // Doubled, to stay whole.
    let sandy = 2.0 * silt + 3.0 * clay < percent(30.0);
    let loamy = silt + 2.0 * clay < percent(30.0);
    match class {
        Class::Sand => sandy,
        Class::LoamySand => !sandy && loamy,
        Class::SandyLoam => {
            !loamy
                && (from_to(clay, 7.0, 20.0) && sand > percent(52.0)
                    || clay < percent(7.0) && silt < percent(50.0))
        }
        Class::Loam => {
            from_to(clay, 7.0, 27.0) && from_to(silt, 28.0, 50.0) && sand <= percent(52.0)
        }
        Class::SiltLoam => {
            silt >= percent(50.0) && from_to(clay, 12.0, 27.0)
                || from_to(silt, 50.0, 80.0) && clay < percent(12.0)
        }
        Class::Silt => silt >= percent(80.0) && clay < percent(12.0),
        Class::SandyClayLoam => {
            from_to(clay, 20.0, 35.0) && silt < percent(28.0) && sand > percent(45.0)
        }
        Class::ClayLoam => {
            from_to(clay, 27.0, 40.0) && sand > percent(20.0) && sand <= percent(45.0)
        }
        Class::SiltyClayLoam => from_to(clay, 27.0, 40.0) && sand <= percent(20.0),
        Class::SandyClay => clay >= percent(35.0) && sand > percent(45.0),
        Class::SiltyClay => clay >= percent(40.0) && silt >= percent(40.0),
        Class::Clay => clay >= percent(40.0) && sand <= percent(45.0) && silt < percent(40.0),
    }
}

/// The class of a soil.
///
/// # Errors
/// [`NoClass`] when its shares are not of USDA sizes, or all of it is gravel.
pub fn class_of(soil: &Fractions) -> Result<Class, NoClass> {
    usda(soil.system())?;
    let FineEarth { sand, silt, clay } = soil.of_fines().ok_or(NoClass::AllGravel)?;
    classify(sand, silt, clay).ok_or(NoClass::AllGravel)
}

/// Every class that a soil of uncertain shares may be in, in the order of [`Class::ALL`].
///
/// # Errors
/// [`NoClass`] when the shares are not of USDA sizes, or all of it can only be gravel.
///
/// ```
/// use hodful_soils::{fractions::{Known, Shares}, sizes::System, texture::{Class, classes_within}};
/// let share = |least, most| Known::new(None, least, most).unwrap();
/// // No gravel, 60 to 70 % sand, 15 to 25 % clay.
/// let soil = Shares::new(
///     System::Usda, share(0.0, 0.0), share(0.6, 0.7), share(0.0, 1.0), share(0.15, 0.25),
/// ).unwrap();
/// assert_eq!(classes_within(&soil), Ok(vec![Class::SandyLoam, Class::SandyClayLoam]));
/// ```
pub fn classes_within(soil: &Shares) -> Result<Vec<Class>, NoClass> {
    usda(soil.system())?;
    let mut corners = soil.fine_corners();
    if corners.is_empty() {
        return Err(NoClass::AllGravel);
    }
    corners.extend(soil.best().and_then(|best| best.of_fines()));
    Ok(classes_between(&corners))
}

fn usda(system: System) -> Result<(), NoClass> {
    match system {
        System::Usda => Ok(()),
        other => Err(NoClass::System(other)),
    }
}

/// Why a soil has no texture class.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoClass {
    /// Shares of other sizes.
    #[error(
        "the shares are of {0} sizes, and the texture classes are for USDA sizes (silt up to 0.05 mm); give shares of USDA sizes or a grading curve"
    )]
    System(System),
    /// Nothing under 2 mm.
    #[error("the soil is all gravel; the texture classes are for what is under 2 mm")]
    AllGravel,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every point of the half-percent grid: 20 301 of them, 101 · 201.
    #[test]
    fn just_one_rule_holds_everywhere() {
        let half_percent = TEXTURE_STEPS / 200.0;
        let mut points = 0;
        for silt in 0..=200 {
            for clay in 0..=(200 - silt) {
                let [sand, silt, clay] =
                    [200 - silt - clay, silt, clay].map(|halves| f64::from(halves) * half_percent);
                let hold = Class::ALL
                    .into_iter()
                    .filter(|class| holds(*class, sand, silt, clay))
                    .count();
                assert_eq!(hold, 1, "{sand} {silt} {clay}");
                points += 1;
            }
        }
        assert_eq!(points, 20_301);
    }
}
