//! Shares of the variance, held against the closed form of a linear figure. Not here: bounds of any shares.

use crate::within;
use hodful_chance::{Spread, draws, rest, shares};

const DRAWS: usize = 40_000;

/// Inputs, drawn independently, one list for each.
fn inputs(seed: u64, spreads: &[Spread]) -> Vec<Vec<f64>> {
    let drawn = draws(
        DRAWS,
        seed,
        || (),
        |(), stream, _| spreads.iter().map(|s| s.draw(stream)).collect::<Vec<f64>>(),
    );
    let of = |input: usize| drawn.iter().map(|draw| draw[input]).collect();
    (0..spreads.len()).map(of).collect()
}

/// The share of a linear figure is `a² σ² / Σ a² σ²`, whatever the distributions.
#[test]
fn shares_of_a_linear_figure() {
    let spreads = [
        Spread::normal(10.0, 2.0),
        Spread::triangular(0.0, 1.0, 5.0),
        Spread::normal(-3.0, 0.5),
        Spread::fixed(7.0),
    ]
    .map(Result::unwrap);
    let factors = [1.5, -2.0, 4.0, 100.0];
    let inputs = inputs(21, &spreads);
    let figure: Vec<f64> = (0..DRAWS)
        .map(|at| inputs.iter().zip(factors).map(|(x, a)| a * x[at]).sum())
        .collect();
    let variances: Vec<f64> = spreads
        .iter()
        .zip(factors)
        .map(|(s, a)| (a * s.sd()).powi(2))
        .collect();
    let all: f64 = variances.iter().sum();
    let found = shares(&inputs, &figure);
    for (ours, variance) in found.iter().zip(&variances).take(3) {
        let share = variance / all;
        // The standard error of a correlation is (1 − ρ²) / √n, that of its square 2ρ times as much.
        within(*ours, share, 2.0 * share.sqrt() * (1.0 - share) / 200.0);
    }
    assert_eq!(found[3].to_bits(), 0.0_f64.to_bits());
    let sum: f64 = found.iter().sum();
    assert!((rest(&found) - (1.0 - sum).max(0.0)).abs() < 1e-12);
    assert!(rest(&found) < 0.03);
}

/// `x y` of two centred inputs varies by neither alone: all of it is the rest. `x²` of a centred normal input
/// has no straight line in it either.
#[test]
fn what_no_line_shows_is_the_rest() {
    let spread = Spread::normal(0.0, 1.0).unwrap();
    let inputs = inputs(22, &[spread, spread]);
    let product: Vec<f64> = (0..DRAWS).map(|at| inputs[0][at] * inputs[1][at]).collect();
    let square: Vec<f64> = inputs[0].iter().map(|x| x * x).collect();
    for figure in [product, square] {
        let found = shares(&inputs, &figure);
        assert!(found.iter().all(|s| *s < 0.001), "{found:?}");
        assert!(rest(&found) > 0.998);
    }
}

#[test]
fn what_does_not_vary_has_no_share() {
    let rising = vec![1.0, 2.0, 3.0, 4.0];
    let odd = [
        vec![0.1; 4],
        vec![1.0, 2.0],
        vec![],
        vec![1.0, f64::NAN, 2.0, 3.0],
        vec![1.0, f64::INFINITY, 2.0, 3.0],
    ];
    let zeros = |found: Vec<f64>| found.iter().all(|s| s.to_bits() == 0.0_f64.to_bits());
    assert!(zeros(shares(&odd, &rising)));
    assert!(zeros(shares(std::slice::from_ref(&rising), &[0.1; 4])));
    assert!(zeros(shares(&[vec![]], &[])));
    assert!(shares(&[], &rising).is_empty());
    let whole = shares(
        &[rising.clone(), rising.iter().map(|x| -x).collect()],
        &rising,
    );
    assert!(whole.iter().all(|s| (s - 1.0).abs() < 1e-12));
    assert!((rest(&[]) - 1.0).abs() < 1e-12);
    assert!(rest(&whole).abs() < 1e-12);
}
