//! What must hold of any numbers, the oddest included. Not here: what the figures are.

use hodful_chance::{Observation, Sample, Spread, Stream, learn, rest, shares};
use proptest::prelude::*;

/// Any number at all, with odd ones more often than chance has them.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        any::<f64>(),
        proptest::num::f64::ANY,
        -100.0..100.0,
        Just(0.0),
        Just(-0.0),
        Just(1.0),
        Just(f64::MIN_POSITIVE),
        Just(f64::MAX),
        Just(f64::MIN),
    ]
}

/// Finite numbers of any size.
fn finite_number() -> impl Strategy<Value = f64> {
    any_number().prop_map(|x| if x.is_finite() { x } else { 1.0 })
}

proptest! {
    #[test]
    fn spreads_draw_within_themselves(
        a in any_number(), b in any_number(), c in any_number(), seed in any::<u64>()
    ) {
        let mut stream = Stream::new(seed, 0);
        let spreads = [Spread::fixed(a), Spread::triangular(a, b, c), Spread::normal(a, b)];
        for spread in spreads.into_iter().flatten() {
            prop_assert!(spread.mean().is_finite() && spread.sd() >= 0.0);
            for _ in 0..20 {
                prop_assert!(spread.draw(&mut stream).is_finite());
            }
        }
        let mut sorted = [a, b, c].map(|x| if x.is_finite() { x / 2.0 } else { 1.0 });
        sorted.sort_by(f64::total_cmp);
        let [lowest, likely, highest] = sorted;
        let triangle = Spread::triangular(lowest, likely, highest).unwrap();
        prop_assert!(triangle.mean() >= lowest && triangle.mean() <= highest);
        prop_assert!(triangle.sd() <= highest - lowest);
        for _ in 0..20 {
            let drawn = triangle.draw(&mut stream);
            prop_assert!(drawn >= lowest && drawn <= highest);
        }
    }

    #[test]
    fn quantiles_rise_and_chances_fall(
        values in prop::collection::vec(finite_number(), 1..60),
        mut asked in prop::collection::vec(any_number(), 2..20),
    ) {
        let sample = Sample::from(values.clone()).unwrap();
        let (lowest, highest) = (sample.lowest(), sample.highest());
        prop_assert!(sample.mean() >= lowest && sample.mean() <= highest);
        asked.retain(|x| !x.is_nan());
        asked.extend([0.0, 0.25, 0.5, 0.999, 1.0]);
        asked.sort_by(f64::total_cmp);
        let mut before = (lowest, 1.0, highest);
        for share in asked {
            let at = sample.at(share);
            prop_assert!(at >= before.0 && at <= highest);
            let over = sample.chance_over(share);
            prop_assert!(over <= before.1 && over >= 0.0);
            let least = sample.least_for(share);
            prop_assert!(least <= before.2 && values.contains(&least));
            // A hair over is as much as was asked for.
            prop_assert!(sample.chance_over(least) <= share.max(0.0) + 1e-9);
            prop_assert!(values.iter().all(|v| *v >= least || sample.chance_over(*v) > share));
            before = (at, over, least);
        }
    }

    #[test]
    fn histograms_lose_nothing(
        values in prop::collection::vec(finite_number(), 1..60), bins in 0_usize..2000
    ) {
        let count = values.len();
        let sample = Sample::from(values).unwrap();
        for bins in [bins, sample.bins()] {
            let histogram = sample.histogram(bins);
            prop_assert_eq!(histogram.counts.iter().sum::<usize>(), count);
            prop_assert!(histogram.counts.len() <= bins.max(1));
        }
        prop_assert!((1..=60).contains(&sample.bins()));
    }

    #[test]
    fn odd_samples_are_refused(values in prop::collection::vec(any_number(), 0..10)) {
        let usable = !values.is_empty() && values.iter().all(|v| v.is_finite());
        prop_assert_eq!(Sample::from(values).is_some(), usable);
    }

    #[test]
    fn shares_stay_within_bounds(
        inputs in prop::collection::vec(prop::collection::vec(any_number(), 0..8), 0..5),
        figure in prop::collection::vec(any_number(), 0..8),
    ) {
        let found = shares(&inputs, &figure);
        prop_assert_eq!(found.len(), inputs.len());
        prop_assert!(found.iter().all(|s| (0.0..=1.0).contains(s)));
        prop_assert!((0.0..=1.0).contains(&rest(&found)));
    }

    /// A share is the same in any unit and from any zero, and so is the rest.
    #[test]
    fn shares_know_no_units(
        pairs in prop::collection::vec((-10.0..10.0, -10.0..10.0), 3..30),
        factor in 0.01..1000.0, shift in -100.0..100.0,
    ) {
        let (input, figure): (Vec<f64>, Vec<f64>) = pairs.into_iter().unzip();
        let other: Vec<f64> = input.iter().map(|x| shift - factor * x).collect();
        let found = shares(&[input, other], &figure);
        prop_assert!((found[0] - found[1]).abs() < 1e-6, "{found:?}");
    }

    #[test]
    fn what_is_known_lies_between(
        mean in any_number(), sd in any_number(),
        seen in prop::collection::vec((any_number(), any_number()), 0..6), own in any_number(),
    ) {
        let seen: Vec<Observation> = seen
            .into_iter()
            .map(|(value, sd)| Observation { value, sd })
            .collect();
        let Ok(known) = learn(mean, sd, &seen) else {
            return Ok(());
        };
        let values = || seen.iter().map(|s| s.value).chain([mean]);
        prop_assert!(known.mean >= values().fold(f64::MAX, f64::min));
        prop_assert!(known.mean <= values().fold(f64::MIN, f64::max));
        prop_assert!(known.sd >= 0.0 && known.sd <= sd);
        prop_assert!((0.0..=1.0).contains(&known.weight));
        if let Ok(next) = known.predictive(own) {
            prop_assert!(next.sd() >= known.sd);
        }
    }

    /// Bounded numbers, so that every case is one that is learnt from.
    #[test]
    fn more_seen_is_more_known(
        mean in -10.0..10.0, sd in 0.0..5.0,
        seen in prop::collection::vec((-10.0..10.0, 0.0..5.0), 1..6),
    ) {
        let seen: Vec<Observation> = seen
            .into_iter()
            .map(|(value, sd): (f64, f64)| Observation { value, sd })
            .collect();
        let mut before = learn(mean, sd, &[]).unwrap();
        for upto in 1..=seen.len() {
            let known = learn(mean, sd, &seen[..upto]).unwrap();
            prop_assert!(known.sd <= before.sd && known.weight >= before.weight - 1e-12);
            before = known;
        }
    }
}
