//! How much of what a figure varies comes from which input. Not here: which inputs there are.

use crate::moments::{mean, squares};
use std::iter::zip;

/// Values that are multiplied side by side, so that no sum waits for the one before.
const LANES: usize = 4;

/// The draws of the inputs, made ready to be held against one figure after another.
#[derive(Debug, Clone, PartialEq)]
pub struct Inputs {
    all: Vec<Deviations>,
}

/// How far each draw is from their mean.
#[derive(Debug, Clone, PartialEq)]
struct Deviations {
    each: Vec<f64>,
    squares: f64,
}

impl Deviations {
    fn of(values: &[f64]) -> Self {
        let middle = mean(values);
        Self {
            each: values.iter().map(|value| value - middle).collect(),
            squares: squares(values, middle),
        }
    }

    /// The square of the correlation; 0 where there is none to tell.
    fn correlation_squared(&self, other: &Self) -> f64 {
        if self.each.len() != other.each.len() {
            return 0.0;
        }
        let both = product(&self.each, &other.each);
        let share = (both / self.squares) * (both / other.squares);
        if share.is_finite() {
            share.clamp(0.0, 1.0)
        } else {
            0.0
        }
    }
}

/// The sum of the products.
fn product(one: &[f64], other: &[f64]) -> f64 {
    let (ones, last) = one.as_chunks::<LANES>();
    let (others, other_last) = other.as_chunks::<LANES>();
    let mut sums = [0.0; LANES];
    for (one, other) in zip(ones, others) {
        for lane in 0..LANES {
            sums[lane] += one[lane] * other[lane];
        }
    }
    let last: f64 = zip(last, other_last).map(|(x, y)| x * y).sum();
    sums.iter().sum::<f64>() + last
}

impl Inputs {
    /// Of the draws of each input.
    pub fn of(inputs: &[Vec<f64>]) -> Self {
        Self {
            all: inputs.iter().map(|draws| Deviations::of(draws)).collect(),
        }
    }

    /// The share of the variance of a figure that each input accounts for, from the draws of both: the square of
    /// their correlation, in 0 to 1, in the order of the inputs.
    ///
    /// Holds for inputs that are drawn independently: there it is the square of the standardised regression
    /// coefficient, and of a linear figure the first-order index `Var(E(figure | input)) / Var(figure)`; of a
    /// curved one it is the part of that index that a straight line shows. Source: Saltelli et al., Global
    /// Sensitivity Analysis: The Primer (2008), ch. 1 (from memory). From `n` draws an input that does nothing
    /// still gets about `1 / n`.
    ///
    /// 0 for an input or a figure that does not vary or holds a value that is not finite, and for an input that
    /// has not as many draws as the figure.
    pub fn shares(&self, figure: &[f64]) -> Vec<f64> {
        let figure = Deviations::of(figure);
        let each = self.all.iter();
        each.map(|input| input.correlation_squared(&figure))
            .collect()
    }
}

/// [`Inputs::shares`] of one figure.
pub fn shares(inputs: &[Vec<f64>], figure: &[f64]) -> Vec<f64> {
    Inputs::of(inputs).shares(figure)
}

/// What is left of the variance: what inputs do only together, bends, and chance of the draws. `1 − Σ`, and
/// not below 0. Of no shares it is 1.
pub fn rest(shares: &[f64]) -> f64 {
    (1.0 - shares.iter().sum::<f64>()).max(0.0)
}
