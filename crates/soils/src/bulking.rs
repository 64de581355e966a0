//! How much more room damp sand takes than dry, and the test with a jar that tells it. Not here: orders of damp
//! sand, which take the figure.

use hodful_quantities::units::{Length, Ratio, ratio_of};

use crate::words::Millimetres;

/// Bulking from a jar filled with loose damp sand and then flooded and rodded: `X / Y − 1`.
///
/// Flooded sand takes the room of dry sand. Heights or readings of one scale; the result is volume per dry volume,
/// 0 for sand that does not rise.
///
/// Source: Central Public Works Department (India), *Specifications*, appendix D.
///
/// # Errors
/// [`BulkingFault`] when a height is not above nothing, or the flooded sand stands higher.
///
/// ```
/// use hodful_soils::bulking::of_jar;
/// use hodful_quantities::units::{length_of_mm as mm, percent};
/// // The source's own example.
/// assert!((of_jar(mm(200.0), mm(160.0))?.get::<percent>() - 25.0).abs() < 1e-9);
/// assert!(of_jar(mm(160.0), mm(200.0)).is_err());
/// # Ok::<(), hodful_soils::bulking::BulkingFault>(())
/// ```
pub fn of_jar(damp: Length, flooded: Length) -> Result<Ratio, BulkingFault> {
    for height in [damp, flooded] {
        if !(height.value.is_finite() && height.value > 0.0) {
            return Err(BulkingFault::Height { mm: height.value });
        }
    }
    // By value: two equal lengths may compare as unequal through their units.
    if flooded.value > damp.value {
        return Err(BulkingFault::Rises {
            damp: damp.value,
            flooded: flooded.value,
        });
    }
    let bulking = damp.value / flooded.value - 1.0;
    if bulking.is_finite() {
        Ok(ratio_of(bulking))
    } else {
        Err(BulkingFault::Height { mm: flooded.value })
    }
}

/// Bulking from the voids, as shares of volume, of the same sand dry and damp: the grains stay, so that
/// `(1 − dry) / (1 − damp) − 1`. `None` when one is not from 0 to under 1.
pub fn of_voids(dry: f64, damp: f64) -> Option<Ratio> {
    let voids = 0.0..1.0;
    (voids.contains(&dry) && voids.contains(&damp))
        .then(|| (1.0 - dry) / (1.0 - damp) - 1.0)
        .filter(|bulking| bulking.is_finite())
        .map(ratio_of)
}

/// A published figure of bulking.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Published {
    /// What sand.
    pub sand: &'static str,
    /// Water, mass per dry mass.
    pub moisture: f64,
    /// Room it takes more, volume per dry volume.
    pub bulking: f64,
    /// Where.
    pub source: &'static str,
}

const CPWD: &str =
    "Central Public Works Department (India), Specifications, as reported by a trade page";
const CPWD_MEMORY: &str =
    "Central Public Works Department (India), Specifications, table (from memory)";
const PCA: &str = "Portland Cement Association, Design and Control of Concrete Mixtures, peak of the curve (from memory)";

/// Published figures, to offer while nothing is measured. Fine sand bulks more; flooded sand not at all.
pub const PUBLISHED: [Published; 9] = [
    published("sand", 0.02, 0.15, CPWD),
    published("sand", 0.03, 0.20, CPWD_MEMORY),
    published("sand", 0.04, 0.25, CPWD_MEMORY),
    published("sand", 0.05, 0.30, CPWD),
    published(
        "fine sand",
        0.02,
        0.20,
        "Baker, A Treatise on Masonry Construction, 1909 (nearly 20 %)",
    ),
    published(
        "stone screenings",
        0.037,
        0.389,
        "Sabin, Cement and Concrete, art. 262",
    ),
    published("coarse sand", 0.05, 0.18, PCA),
    published("medium sand", 0.06, 0.29, PCA),
    published("fine sand", 0.08, 0.38, PCA),
];

const fn published(
    sand: &'static str,
    moisture: f64,
    bulking: f64,
    source: &'static str,
) -> Published {
    Published {
        sand,
        moisture,
        bulking,
        source,
    }
}

/// Why bulking cannot be told.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum BulkingFault {
    /// A height that is none.
    #[error("sand {} high cannot be; measure the height of the sand in the jar", Millimetres(*.mm))]
    Height {
        /// As given, mm.
        mm: f64,
    },
    /// Flooding made it higher.
    #[error(
        "flooded sand of {} stands higher than the damp sand of {}; give the damp height first, and rod the sand after flooding",
        Millimetres(*.flooded), Millimetres(*.damp)
    )]
    Rises {
        /// Before, mm.
        damp: f64,
        /// After, mm.
        flooded: f64,
    },
}
