//! The drawn values of one figure and what is read off them. Not here: how they are drawn.

use crate::moments::{mean, number, squares};
use crate::tolerance::{CHANCE_SLACK, MOST_BINS, MOST_USUAL_BINS};

/// The drawn values of one figure, one at least, all finite, in rising order.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    values: Vec<f64>,
    mean: f64,
    sd: f64,
}

/// How many values fall where. The bins are equally wide and lie one beside the other.
#[derive(Debug, Clone, PartialEq)]
pub struct Histogram {
    /// Where the first bin begins: the lowest value.
    pub lowest: f64,
    /// The width of a bin; 0 when all values are equal.
    pub width: f64,
    /// Values in each bin. One on the line between two belongs to the upper, the highest of all to the last.
    pub counts: Vec<usize>,
}

impl Sample {
    /// Values in any order. None when there is no value, or one that is not finite.
    pub fn from(mut values: Vec<f64>) -> Option<Self> {
        if values.is_empty() || values.iter().any(|v| !v.is_finite()) {
            return None;
        }
        values.sort_unstable_by(f64::total_cmp);
        let mean = mean(&values);
        let freedom = number(values.len()) - 1.0;
        let sd = if freedom > 0.0 {
            (squares(&values, mean) / freedom).sqrt()
        } else {
            0.0
        };
        Some(Self { values, mean, sd })
    }

    /// The values in rising order.
    pub fn values(&self) -> &[f64] {
        &self.values
    }

    /// How many values there are.
    pub fn count(&self) -> usize {
        self.values.len()
    }

    /// The lowest value.
    pub fn lowest(&self) -> f64 {
        self.value(0)
    }

    /// The highest value.
    pub fn highest(&self) -> f64 {
        self.value(self.last())
    }

    /// The arithmetic mean.
    pub fn mean(&self) -> f64 {
        self.mean
    }

    /// The standard deviation with `n − 1`. One value alone says nothing of it: 0.
    pub fn sd(&self) -> f64 {
        self.sd
    }

    /// The standard error of the mean, `sd / √n`.
    pub fn standard_error(&self) -> f64 {
        self.sd / number(self.count()).sqrt()
    }

    /// The value below which a share of the values lies: the quantile, type 7 of Hyndman and Fan, Sample
    /// Quantiles in Statistical Packages, The American Statistician 50 (1996), by which numpy goes when nothing
    /// is said. A share below 0 is 0, above 1 it is 1; NaN gives NaN.
    pub fn at(&self, share: f64) -> f64 {
        if share.is_nan() {
            return f64::NAN;
        }
        let place = number(self.last()) * share.clamp(0.0, 1.0);
        let below = place.floor();
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole, and between 0 and the count"
        )]
        let index = below as usize;
        let (lower, upper) = (self.value(index), self.value(index + 1));
        let part = place - below;
        if part > 0.0 {
            (lower + (upper - lower) * part).min(upper)
        } else {
            lower
        }
    }

    /// The share of the values that are greater than `x`: the chance that the figure is more. NaN gives NaN.
    pub fn chance_over(&self, x: f64) -> f64 {
        if x.is_nan() {
            return f64::NAN;
        }
        let over = self.count() - self.values.partition_point(|v| *v <= x);
        number(over) / number(self.count())
    }

    /// The smallest of the values that the figure exceeds with no more than this chance, a hair of rounding
    /// forgiven: with that much ordered, it is short at most so often. Always one of the values, so that of whole
    /// things it is whole: type 1 of Hyndman and Fan (as for [`Sample::at`]). A chance below 0 is 0; NaN gives NaN.
    ///
    /// ```
    /// let batches = hodful_chance::Sample::from(vec![3.0, 3.0, 4.0, 6.0]).ok_or("a number is missing")?;
    /// assert_eq!(batches.least_for(0.25), 4.0);
    /// assert_eq!(batches.least_for(0.1), 6.0);
    /// # Ok::<(), &str>(())
    /// ```
    pub fn least_for(&self, chance_short: f64) -> f64 {
        if chance_short.is_nan() {
            return f64::NAN;
        }
        let chance = chance_short.max(0.0) + CHANCE_SLACK;
        let index = self
            .values
            .partition_point(|v| self.chance_over(*v) > chance);
        self.value(index)
    }

    /// A number of bins that suits the values, 60 at most: by the rule of Freedman and Diaconis (1981), bins of
    /// `2 · (Q3 − Q1) / ∛n`; where half of the values are one and the same, by that of Sturges (1926),
    /// `log2 n + 1` bins (both from memory; tested against numpy).
    pub fn bins(&self) -> usize {
        let range = self.highest() - self.lowest();
        if range <= 0.0 || !range.is_finite() {
            return 1;
        }
        let count = number(self.count());
        let width = 2.0 * (self.at(0.75) - self.at(0.25)) / libm::cbrt(count);
        let bins = if width > 0.0 {
            range / width
        } else {
            libm::log2(count) + 1.0
        };
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole, and between 1 and the most"
        )]
        let bins = bins.ceil().clamp(1.0, number(MOST_USUAL_BINS)) as usize;
        bins
    }

    /// The values counted in so many bins, 1 at least and 1000 at most; [`Sample::bins`] gives a number that
    /// suits. Equal values are in one bin, and so are values farther apart than `f64` can say.
    pub fn histogram(&self, bins: usize) -> Histogram {
        let (lowest, highest) = (self.lowest(), self.highest());
        let bins = if lowest < highest && (highest - lowest).is_finite() {
            bins.clamp(1, MOST_BINS)
        } else {
            1
        };
        let width = (highest - lowest) / number(bins);
        let mut counts = Vec::with_capacity(bins);
        let mut so_far = 0;
        for bin in 1..bins {
            let edge = lowest + number(bin) * width;
            let below = self.values.partition_point(|v| *v < edge).max(so_far);
            counts.push(below - so_far);
            so_far = below;
        }
        counts.push(self.count() - so_far);
        Histogram {
            lowest,
            width,
            counts,
        }
    }

    fn last(&self) -> usize {
        self.count().saturating_sub(1)
    }

    /// The value at a place; the highest beyond the last.
    fn value(&self, at: usize) -> f64 {
        let found = self.values.get(at).or(self.values.last());
        found.copied().unwrap_or_default()
    }
}
