//! Learning a mean, held against a worked textbook exercise and identities. Not here: the densities integrated
//! numerically, which the cross-check does.

use crate::close;
use hodful_chance::{Observation, learn};

fn seen(values: &[(f64, f64)]) -> Vec<Observation> {
    let one = |&(value, sd): &(f64, f64)| Observation { value, sd };
    values.iter().map(one).collect()
}

/// Gelman et al., Bayesian Data Analysis, exercise 2.8 with the authors' solution (from memory): prior 180 give
/// or take 40, `n` observations of mean 150 with a deviation of 20 each. For 10 of them 150.7 and 6.25, the
/// next one 20.95; for 100 of them 150.07 and 1.998, the next one 20.10.
#[test]
fn a_worked_exercise() {
    for (n, mean, sd, next) in [(10, 150.7, 6.25, 20.95), (100, 150.07, 1.998, 20.10)] {
        let known = learn(180.0, 40.0, &seen(&vec![(150.0, 20.0); n])).unwrap();
        assert!((known.mean - mean).abs() <= 0.05, "{known:?}");
        assert!((known.sd - sd).abs() <= 0.005, "{known:?}");
        let predictive = known.predictive(20.0).unwrap();
        assert!((predictive.sd() - next).abs() <= 0.005, "{predictive:?}");
        close(predictive.mean(), known.mean);
    }
}

/// One observation as far off as the prior meets it half way, with a deviation of `1 / √2`.
#[test]
fn equals_meet_half_way() {
    let known = learn(10.0, 2.0, &seen(&[(14.0, 2.0)])).unwrap();
    close(known.mean, 12.0);
    close(known.sd, 2.0_f64.sqrt());
    close(known.weight, 0.5);
}

/// One after the other, in any order, or their mean at once: the same.
#[test]
fn the_order_does_not_matter() {
    let all = seen(&[(22.0, 3.0), (25.0, 1.0), (19.5, 2.0)]);
    let at_once = learn(20.0, 4.0, &all).unwrap();
    let mut known = learn(20.0, 4.0, &[]).unwrap();
    for one in all.iter().rev() {
        known = learn(known.mean, known.sd, &[*one]).unwrap();
    }
    close(known.mean, at_once.mean);
    close(known.sd, at_once.sd);
    // Precisions: 1/16 of the prior, 1/9 + 1 + 1/4 of what was seen.
    let of_seen = 1.0 / 9.0 + 1.0 + 0.25;
    close(at_once.weight, of_seen / (of_seen + 0.0625));
}

#[test]
fn what_is_exact_outweighs() {
    for (prior, observed, mean, sd, weight) in [
        ((20.0, 0.0), vec![], 20.0, 0.0, 0.0),
        ((20.0, 3.0), vec![], 20.0, 3.0, 0.0),
        ((20.0, 0.0), vec![(25.0, 1.0)], 20.0, 0.0, 0.0),
        ((20.0, 3.0), vec![(25.0, 0.0)], 25.0, 0.0, 1.0),
        ((20.0, 3.0), vec![(25.0, 0.0), (40.0, 2.0)], 25.0, 0.0, 1.0),
        ((20.0, 0.0), vec![(20.0, 0.0)], 20.0, 0.0, 1.0),
        ((20.0, 0.0), vec![(25.0, 0.0), (26.0, 0.0)], 25.5, 0.0, 1.0),
    ] {
        let known = learn(prior.0, prior.1, &seen(&observed)).unwrap();
        close(known.mean, mean);
        close(known.sd, sd);
        close(known.weight, weight);
    }
}

/// Deviations whose squares are out of the reach of `f64`: 3, 4 and their √(1 / (1/9 + 1/16)) = 2.4, scaled.
#[test]
fn very_small_and_very_large_deviations() {
    for scale in [1e-200, 1e200] {
        let known = learn(1.0, 3.0 * scale, &seen(&[(2.0, 4.0 * scale)])).unwrap();
        close(known.sd / scale, 2.4);
        close(known.weight, 9.0 / 25.0);
        close(known.mean, 1.36);
    }
}

#[test]
fn what_is_refused() {
    for (mean, sd, observed) in [
        (f64::NAN, 1.0, (1.0, 1.0)),
        (1.0, -1.0, (1.0, 1.0)),
        (1.0, f64::INFINITY, (1.0, 1.0)),
        (1.0, 1.0, (f64::INFINITY, 1.0)),
        (1.0, 1.0, (1.0, -1.0)),
        (1.0, 1.0, (1.0, f64::NAN)),
    ] {
        assert!(learn(mean, sd, &seen(&[observed])).is_err());
    }
    let known = learn(1.0, 1.0, &[]).unwrap();
    assert!(known.predictive(-1.0).is_err());
    assert!(known.predictive(f64::NAN).is_err());
}
