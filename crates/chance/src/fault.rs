//! Why numbers are no spread, in words. Not here: where it is found.

/// Why numbers are no spread.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ChanceFault {
    /// A value that is no number.
    #[error("'{value}' is no number that can be worked with; give another")]
    NotFinite {
        /// The value.
        value: f64,
    },
    /// A lowest value above the likeliest.
    #[error("the lowest value {lowest} is above the likeliest {likely}; put them in order")]
    LowestAboveLikely {
        /// The lowest.
        lowest: f64,
        /// The likeliest.
        likely: f64,
    },
    /// A likeliest value above the highest.
    #[error("the likeliest value {likely} is above the highest {highest}; put them in order")]
    LikelyAboveHighest {
        /// The likeliest.
        likely: f64,
        /// The highest.
        highest: f64,
    },
    /// A lowest and a highest value with more between them than can be reckoned with.
    #[error("from {lowest} to {highest} is too far to be worked with; correct one of them")]
    TooWide {
        /// The lowest.
        lowest: f64,
        /// The highest.
        highest: f64,
    },
    /// A standard deviation below 0.
    #[error("the spread {sd} is below 0; give 0 or more")]
    NegativeSd {
        /// The standard deviation.
        sd: f64,
    },
}

/// The value, when it is finite.
///
/// # Errors
///
/// [`ChanceFault::NotFinite`].
pub(crate) fn finite(value: f64) -> Result<f64, ChanceFault> {
    if value.is_finite() {
        Ok(value)
    } else {
        Err(ChanceFault::NotFinite { value })
    }
}

/// The value, when it is finite and 0 or more.
///
/// # Errors
///
/// [`ChanceFault::NotFinite`] and [`ChanceFault::NegativeSd`].
pub(crate) fn deviation(sd: f64) -> Result<f64, ChanceFault> {
    if finite(sd)? < 0.0 {
        Err(ChanceFault::NegativeSd { sd })
    } else {
        Ok(sd)
    }
}
