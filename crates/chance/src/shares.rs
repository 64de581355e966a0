//! How much of what a figure varies comes from which input. Not here: which inputs there are.

use crate::moments::{mean, squares};

/// The share of the variance of a figure that each input accounts for, from the draws of both: the square of
/// their correlation, in 0 to 1, in the order of the inputs.
///
/// Holds for inputs that are drawn independently: there it is the square of the standardised regression
/// coefficient, and of a linear figure the first-order index `Var(E(figure | input)) / Var(figure)`; of a
/// curved one it is the part of that index that a straight line shows. Source: Saltelli et al., Global
/// Sensitivity Analysis: The Primer (2008), ch. 1 (from memory). From `n` draws an input that does nothing still
/// gets about `1 / n`.
///
/// 0 for an input or a figure that does not vary or holds a value that is not finite, and for an input that
/// has not as many draws as the figure.
pub fn shares(inputs: &[Vec<f64>], figure: &[f64]) -> Vec<f64> {
    let centre = mean(figure);
    let varies = squares(figure, centre);
    let share = |input: &Vec<f64>| {
        if input.len() != figure.len() {
            return 0.0;
        }
        let middle = mean(input);
        let spread = squares(input, middle);
        let both: f64 = input
            .iter()
            .zip(figure)
            .map(|(x, y)| (x - middle) * (y - centre))
            .sum();
        let share = (both / spread) * (both / varies);
        if share.is_finite() {
            share.clamp(0.0, 1.0)
        } else {
            0.0
        }
    };
    inputs.iter().map(share).collect()
}

/// What is left of the variance: what inputs do only together, bends, and chance of the draws. `1 − Σ`, and
/// not below 0. Of no shares it is 1.
pub fn rest(shares: &[f64]) -> f64 {
    (1.0 - shares.iter().sum::<f64>()).max(0.0)
}
