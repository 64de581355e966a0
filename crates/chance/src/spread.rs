//! How far one input may be off: not at all, between a lowest and a highest, or about a mean. Not here: what
//! comes of many draws.

use crate::fault::{ChanceFault, deviation, finite};
use rand::{Rng, RngExt};
use rand_distr::StandardNormal;

/// How far one input may be off. One that exists can be drawn from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread(Kind);

#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Fixed(f64),
    /// Rises from the lowest to the likeliest, which is the share `peak` of the width away, and falls from there.
    Triangular {
        lowest: f64,
        highest: f64,
        width: f64,
        peak: f64,
    },
    Normal {
        mean: f64,
        sd: f64,
    },
}

impl Spread {
    /// A value that is known.
    ///
    /// # Errors
    ///
    /// When the value is not finite.
    pub fn fixed(value: f64) -> Result<Self, ChanceFault> {
        Ok(Self(Kind::Fixed(finite(value)?)))
    }

    /// The triangular distribution: nothing below the lowest or above the highest, most often the likeliest.
    /// Three equal values are a fixed one.
    ///
    /// # Errors
    ///
    /// When a value is not finite, when they are out of order, or when the width is not finite.
    pub fn triangular(lowest: f64, likely: f64, highest: f64) -> Result<Self, ChanceFault> {
        for value in [lowest, likely, highest] {
            finite(value)?;
        }
        if lowest > likely {
            return Err(ChanceFault::LowestAboveLikely { lowest, likely });
        }
        if likely > highest {
            return Err(ChanceFault::LikelyAboveHighest { likely, highest });
        }
        let width = highest - lowest;
        if !width.is_finite() {
            return Err(ChanceFault::TooWide { lowest, highest });
        }
        Ok(Self(if width > 0.0 {
            Kind::Triangular {
                lowest,
                highest,
                width,
                peak: (likely - lowest) / width,
            }
        } else {
            Kind::Fixed(likely)
        }))
    }

    /// The normal distribution. A standard deviation of 0 is a fixed value.
    ///
    /// # Errors
    ///
    /// When a value is not finite, or the standard deviation below 0.
    pub fn normal(mean: f64, sd: f64) -> Result<Self, ChanceFault> {
        let (mean, sd) = (finite(mean)?, deviation(sd)?);
        Ok(Self(if sd > 0.0 {
            Kind::Normal { mean, sd }
        } else {
            Kind::Fixed(mean)
        }))
    }

    /// The mean of the distribution. Source for the triangle: `(a + b + c) / 3`, e.g. Evans, Hastings and
    /// Peacock, Statistical Distributions, "Triangular distribution" (from memory).
    pub fn mean(&self) -> f64 {
        match self.0 {
            Kind::Fixed(value) => value,
            Kind::Triangular {
                lowest,
                highest,
                width,
                peak,
            } => (lowest + width * ((1.0 + peak) / 3.0)).min(highest),
            Kind::Normal { mean, .. } => mean,
        }
    }

    /// The standard deviation of the distribution. Source for the triangle: the variance is
    /// `(a² + b² + c² − ab − ac − bc) / 18` (as above), with the width before the root.
    pub fn sd(&self) -> f64 {
        match self.0 {
            Kind::Fixed(_) => 0.0,
            Kind::Triangular { width, peak, .. } => {
                width * ((1.0 - peak * (1.0 - peak)) / 18.0).sqrt()
            }
            Kind::Normal { sd, .. } => sd,
        }
    }

    /// From where to where it is within so many standard deviations of the mean; never past the lowest and the
    /// highest where there are such.
    ///
    /// ```
    /// let thickness = hodful_chance::Spread::normal(12.0, 1.5)?;
    /// assert_eq!(thickness.within(2.0), (9.0, 15.0));
    /// let thickness = hodful_chance::Spread::triangular(10.0, 12.0, 15.0)?;
    /// assert_eq!(thickness.within(9.0), (10.0, 15.0));
    /// # Ok::<(), hodful_chance::ChanceFault>(())
    /// ```
    pub fn within(&self, sds: f64) -> (f64, f64) {
        let off = sds * self.sd();
        let (low, high) = (self.mean() - off, self.mean() + off);
        match self.0 {
            Kind::Triangular {
                lowest, highest, ..
            } => (low.max(lowest), high.min(highest)),
            _ => (low, high),
        }
    }

    /// Whether every draw is the same.
    pub fn is_fixed(&self) -> bool {
        matches!(self.0, Kind::Fixed(_))
    }

    /// One value, always finite. A fixed one takes nothing from the random numbers, a triangular one takes one
    /// number, a normal one mostly one, sometimes more.
    ///
    /// The triangle is drawn by the inverse of its distribution function (closed form; e.g. Devroye,
    /// Non-Uniform Random Variate Generation, 1986, from memory).
    #[inline]
    pub fn draw(&self, rng: &mut impl Rng) -> f64 {
        match self.0 {
            Kind::Fixed(value) => value,
            Kind::Triangular {
                lowest,
                highest,
                width,
                peak,
            } => {
                let share: f64 = rng.random();
                if share < peak {
                    (lowest + width * (share * peak).sqrt()).min(highest)
                } else {
                    (highest - width * ((1.0 - share) * (1.0 - peak)).sqrt()).max(lowest)
                }
            }
            Kind::Normal { mean, sd } => {
                let standard: f64 = rng.sample(StandardNormal);
                (mean + sd * standard).clamp(f64::MIN, f64::MAX)
            }
        }
    }
}
