//! Counts as numbers, means, and sums of squares about them. Not here: what they mean.

#[allow(clippy::cast_precision_loss, reason = "counts stay below 2^53")]
pub(crate) fn number(count: usize) -> f64 {
    count as f64
}

/// The mean, within the lowest and the highest value, so that equal values have themselves for a mean; 0 of none.
pub(crate) fn mean(values: &[f64]) -> f64 {
    let Some(&first) = values.first() else {
        return 0.0;
    };
    let (mut sum, mut lowest, mut highest) = (0.0, first, first);
    for &value in values {
        sum += value;
        lowest = lowest.min(value);
        highest = highest.max(value);
    }
    (sum / number(values.len())).max(lowest).min(highest)
}

/// The sum of the squares about a mean.
pub(crate) fn squares(values: &[f64], mean: f64) -> f64 {
    values.iter().map(|v| (v - mean) * (v - mean)).sum()
}
