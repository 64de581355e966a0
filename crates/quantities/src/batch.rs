//! Batches for a mixer, and a batch in what a crew counts. Not here: the recipe of a mix.

use crate::order::{MOST_COUNTED, round_up};
use crate::units::Volume;

/// Batches of one coat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Batches {
    /// Mixed volume over the working volume.
    pub exact: f64,
    /// Times the mixer is loaded, the last perhaps not full.
    pub loads: u64,
    /// The last load, as a share of a full one; 1 when it is full, 0 when there is none.
    pub last: f64,
}

impl Batches {
    /// Batches that make `mixed` in a mixer whose working volume is `working`.
    ///
    /// The working volume is what one batch makes, not the volume of the drum. Gives `None` when
    /// either is not finite, `working` is not above nothing, or there are too many to count.
    ///
    /// ```
    /// use hodful_quantities::{Batches, units::{Volume, cubic_foot}};
    /// let feet = Volume::new::<cubic_foot>;
    /// let batches = Batches::new(feet(9.0), feet(3.6)).unwrap();
    /// assert_eq!(batches.loads, 3);
    /// assert!((batches.last - 0.5).abs() < 1e-9);
    /// ```
    pub fn new(mixed: Volume, working: Volume) -> Option<Self> {
        if !(mixed.value.is_finite() && mixed.value >= 0.0 && working.value > 0.0) {
            return None;
        }
        let exact = mixed.value / working.value;
        let loads = round_up(exact)?;
        #[allow(clippy::cast_precision_loss, reason = "round_up stays below 2^53")]
        let last = if loads == 0 {
            0.0
        } else {
            (exact - (loads - 1) as f64).clamp(0.0, 1.0)
        };
        Some(Self { exact, loads, last })
    }
}

/// A loose volume in buckets, to the nearest quarter, and in shovels, to the nearest whole one.
///
/// Nearest; a tie goes up. Common practice, no source: a crew fills a bucket to a quarter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counted {
    /// Quarters of a bucket, when the bucket is known.
    pub bucket_quarters: Option<u64>,
    /// Shovels, when the shovel is known.
    pub shovels: Option<u64>,
}

impl Counted {
    /// Counts a loose volume.
    pub fn new(loose: Volume, bucket: Option<Volume>, shovel: Option<Volume>) -> Self {
        let nearest = |exact: f64| {
            let whole = (exact + 0.5).floor();
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a whole number in a range f64 holds exactly"
            )]
            (0.0..MOST_COUNTED).contains(&whole).then_some(whole as u64)
        };
        Self {
            bucket_quarters: bucket.and_then(|b| nearest(loose.value / b.value * 4.0)),
            shovels: shovel.and_then(|s| nearest(loose.value / s.value)),
        }
    }
}
