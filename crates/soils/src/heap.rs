//! Heaps of earth: how soil loosens when dug and packs when rammed, and how much lies in a heap. Not here: the
//! bulking of damp sand.

use core::f64::consts::PI;

use hodful_quantities::units::{Length, Volume, volume_of_mm3};

use crate::words::{Millimetres, Percent};

/// In what state a volume of soil is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum State {
    /// In the ground, undisturbed.
    Bank,
    /// Dug and heaped.
    Loose,
    /// Rammed or rolled.
    Compacted,
}

/// How a soil changes its volume: swell is loose over bank, less 1; shrink is what the bank loses when compacted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeapFactors {
    swell: f64,
    shrink: f64,
}

impl HeapFactors {
    /// Checks factors, as shares of the bank volume: swell from 0 on, shrink from 0 to under 1.
    ///
    /// # Errors
    /// [`HeapFault::Swell`] and [`HeapFault::Shrink`].
    pub fn new(swell: f64, shrink: f64) -> Result<Self, HeapFault> {
        if !(swell.is_finite() && swell >= 0.0) {
            return Err(HeapFault::Swell { swell });
        }
        if !(0.0..1.0).contains(&shrink) {
            return Err(HeapFault::Shrink { shrink });
        }
        Ok(Self { swell, shrink })
    }

    /// Share of the bank volume by which it grows when dug.
    pub fn swell(&self) -> f64 {
        self.swell
    }

    /// Share of the bank volume by which it goes down when compacted.
    pub fn shrink(&self) -> f64 {
        self.shrink
    }

    /// Bank volume in a loose one: `1 / (1 + swell)`, in `(0, 1]`.
    ///
    /// ```
    /// use hodful_soils::heap::HeapFactors;
    /// assert_eq!(HeapFactors::new(0.25, 0.1)?.load_factor(), 0.8);
    /// # Ok::<(), hodful_soils::heap::HeapFault>(())
    /// ```
    pub fn load_factor(&self) -> f64 {
        1.0 / (1.0 + self.swell)
    }

    /// The same soil in another state: `loose = bank·(1 + swell)`, `compacted = bank·(1 − shrink)`.
    pub fn convert(&self, volume: Volume, from: State, to: State) -> Volume {
        let per_bank = |state| match state {
            State::Bank => 1.0,
            State::Loose => 1.0 + self.swell,
            State::Compacted => 1.0 - self.shrink,
        };
        if from == to {
            return volume;
        }
        volume / per_bank(from) * per_bank(to)
    }
}

/// Published factors of a kind of soil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Published {
    /// Its kind.
    pub soil: &'static str,
    /// Loose over bank, less 1.
    pub swell: f64,
    /// The load factor that is printed beside it.
    pub load_factor: Option<f64>,
    /// What the bank loses when compacted, if printed.
    pub shrink: Option<f64>,
    /// Where.
    pub source: &'static str,
}

const HANDBOOK: &str = "handbook table of swell and load factors (as in Merritt, Standard Handbook for Civil Engineers), read in two reprints";
const FIELD_MANUAL: &str = "US Army, FM 5-434 Earthmoving Operations, table 1-1 (from memory)";
const CHURCH: &str = "FHWA 2007 and Church, Excavation Handbook, 1981, as reported by a trade page";

/// Published factors, to offer while nothing is measured.
pub const PUBLISHED: [Published; 8] = [
    published("clay", 0.40, Some(0.72), None, HANDBOOK),
    published("earth or loam", 0.25, Some(0.80), None, HANDBOOK),
    published("sand or gravel", 0.12, Some(0.89), None, HANDBOOK),
    published("hardpan", 0.50, Some(0.67), None, HANDBOOK),
    published("sand", 0.11, Some(0.90), Some(0.05), FIELD_MANUAL),
    published("loam", 0.25, Some(0.80), Some(0.10), FIELD_MANUAL),
    published("clay", 0.43, Some(0.70), Some(0.10), FIELD_MANUAL),
    published("dry clay", 0.50, None, Some(0.10), CHURCH),
];

const fn published(
    soil: &'static str,
    swell: f64,
    load_factor: Option<f64>,
    shrink: Option<f64>,
    source: &'static str,
) -> Published {
    Published {
        soil,
        swell,
        load_factor,
        shrink,
        source,
    }
}

/// Volume of a round heap as a cone, from the width across its foot and its height: `π·w²·h / 12`.
///
/// # Errors
/// [`HeapFault::Measure`] when a measure is not above nothing.
///
/// ```
/// use hodful_soils::heap::cone;
/// use hodful_quantities::units::{cubic_meter, length_of_mm as mm};
/// // 3 m across and 1 m high: π · 9 / 12.
/// assert!((cone(mm(3000.0), mm(1000.0))?.get::<cubic_meter>() - 2.356).abs() < 5e-4);
/// # Ok::<(), hodful_soils::heap::HeapFault>(())
/// ```
pub fn cone(width: Length, height: Length) -> Result<Volume, HeapFault> {
    checked([width, height])?;
    finite(PI * width.value * width.value * height.value / 12.0, height)
}

/// Volume of a long heap with a ridge, from its whole length, the width across its foot and its height: a prism
/// with half a cone at each end, `w·h·(l − w) / 2 + π·w²·h / 12`.
///
/// # Errors
/// [`HeapFault::Measure`] when a measure is not above nothing, [`HeapFault::Short`] when the heap is shorter than
/// it is wide.
pub fn ridge(length: Length, width: Length, height: Length) -> Result<Volume, HeapFault> {
    checked([length, width, height])?;
    // By value: two equal lengths may compare as unequal through their units.
    if length.value < width.value {
        return Err(HeapFault::Short {
            length: length.value,
            width: width.value,
        });
    }
    let prism = width.value * height.value * (length.value - width.value) / 2.0;
    finite(prism + cone(width, height)?.value, length)
}

fn checked<const N: usize>(measures: [Length; N]) -> Result<(), HeapFault> {
    measures
        .into_iter()
        .map(|measure| measure.value)
        .find(|mm| !(mm.is_finite() && *mm > 0.0))
        .map_or(Ok(()), |mm| Err(HeapFault::Measure { mm }))
}

fn finite(mm3: f64, measure: Length) -> Result<Volume, HeapFault> {
    if mm3.is_finite() {
        Ok(volume_of_mm3(mm3))
    } else {
        Err(HeapFault::Measure { mm: measure.value })
    }
}

/// Why a heap cannot be told.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum HeapFault {
    /// A swell that is none.
    #[error("a swell of {} cannot be; give 0 % or more of the volume in the ground", Percent(*.swell))]
    Swell {
        /// As given.
        swell: f64,
    },
    /// A shrinkage that is none.
    #[error("a shrinkage of {} cannot be; give at least 0 % and under 100 % of the volume in the ground", Percent(*.shrink))]
    Shrink {
        /// As given.
        shrink: f64,
    },
    /// A measure that is none.
    #[error("a heap that measures {} cannot be; give a length above 0", Millimetres(*.mm))]
    Measure {
        /// As given, mm.
        mm: f64,
    },
    /// Shorter than wide.
    #[error(
        "a long heap of {} is shorter than its width of {}; give the longer way as its length, or measure it as a round heap",
        Millimetres(*.length), Millimetres(*.width)
    )]
    Short {
        /// As given, mm.
        length: f64,
        /// As given, mm.
        width: f64,
    },
}
