//! What is read off a sample, held against numpy and by hand. Not here: what must hold of any sample.

use crate::{close, sample};
use hodful_chance::{Sample, normal};

fn of(values: &[f64]) -> Sample {
    Sample::from(values.to_vec()).unwrap()
}

/// numpy 2.4.6: `np.quantile(a, shares)`, `np.mean(a)`, `np.std(a, ddof=1)` with the lists as they stand here.
#[test]
fn quantiles_and_moments_are_those_of_numpy() {
    let sample = of(&[3.0, 1.0, 4.0, 1.5, 9.0, 2.0, 6.0]);
    let quantiles = [
        (0.0, 1.0),
        (0.1, 1.3),
        (0.25, 1.75),
        (0.5, 3.0),
        (0.8, 5.600_000_000_000_001),
        (0.9, 7.200_000_000_000_001),
        (1.0, 9.0),
    ];
    for (share, value) in quantiles {
        close(sample.at(share), value);
    }
    close(sample.mean(), 3.785_714_285_714_285_6);
    close(sample.sd(), 2.855_654_374_177_993);
    close(
        sample.standard_error(),
        2.855_654_374_177_993 / 7.0_f64.sqrt(),
    );

    let sample = of(&[12.5, 10.0, 11.0, 14.0]);
    let quantiles = [
        (0.05, 10.15),
        (0.333, 10.999),
        (0.5, 11.75),
        (0.66, 12.47),
        (0.95, 13.775),
    ];
    for (share, value) in quantiles {
        close(sample.at(share), value);
    }
}

/// numpy 2.4.6: `np.histogram(c, 4)`, `np.histogram(c, bins='fd')`, `np.histogram(d, bins='sturges')`.
#[test]
fn histograms_are_those_of_numpy() {
    let c = of(&[1.0, 2.0, 2.0, 3.0, 3.0, 3.0, 4.0, 4.0, 5.0, 9.0]);
    let four = c.histogram(4);
    assert_eq!(four.counts, [3, 5, 1, 1]);
    close(four.lowest, 1.0);
    close(four.width, 2.0);
    assert_eq!(c.histogram(c.bins()).counts, [3, 5, 1, 0, 1]);

    let d = of(&[7.0, 7.0, 7.0, 7.0, 7.0, 7.0, 7.0, 7.0, 7.0, 8.0]);
    assert_eq!(d.histogram(d.bins()).counts, [9, 0, 0, 0, 1]);
}

#[test]
fn equal_values_are_one_bin() {
    for count in [1, 2, 1000] {
        let same = of(&vec![0.1; count]);
        assert_eq!(same.bins(), 1);
        let histogram = same.histogram(20);
        assert_eq!(histogram.counts, [count]);
        assert_eq!(histogram.width.to_bits(), 0.0_f64.to_bits());
        assert_eq!(same.mean().to_bits(), 0.1_f64.to_bits());
        assert_eq!(same.sd().to_bits(), 0.0_f64.to_bits());
        for share in [0.0, 0.3, 1.0] {
            assert_eq!(same.at(share).to_bits(), 0.1_f64.to_bits());
        }
    }
}

/// Ten bags counted by hand: more than 12 in three of ten draws, more than 13 in one.
#[test]
fn chances_are_counted() {
    let bags = of(&[11.0, 12.0, 12.0, 13.0, 12.0, 11.0, 13.0, 12.0, 15.0, 12.0]);
    for (x, chance) in [
        (10.0, 1.0),
        (11.0, 0.8),
        (12.0, 0.3),
        (12.5, 0.3),
        (13.0, 0.1),
        (15.0, 0.0),
        (f64::INFINITY, 0.0),
        (f64::NEG_INFINITY, 1.0),
    ] {
        close(bags.chance_over(x), chance);
    }
    for (chance, least) in [
        (1.0, 11.0),
        (0.8, 11.0),
        (0.79, 12.0),
        (0.3, 12.0),
        (0.29, 13.0),
        (0.1, 13.0),
        (0.09, 15.0),
        (0.0, 15.0),
        (-1.0, 15.0),
        (2.0, 11.0),
    ] {
        close(bags.least_for(chance), least);
    }
}

/// `29 / 100` and the like, which multiplied by 100 are no whole numbers in binary.
#[test]
fn every_hundredth_is_kept_to_the_draw() {
    let sample = of(&(1..=100).map(f64::from).collect::<Vec<_>>());
    for short in 0..100 {
        let least = sample.least_for(f64::from(short) / 100.0);
        close(least, f64::from(100 - short));
        // Asked the other way round, `1 − 0.8` is a hair less than 0.2.
        let enough = f64::from(100 - short) / 100.0;
        close(sample.least_for(1.0 - enough), f64::from(100 - short));
    }
}

#[test]
fn values_at_both_ends_of_all_numbers() {
    let far = of(&[f64::MIN, f64::MIN, f64::MAX]);
    assert_eq!(far.bins(), 1);
    assert_eq!(far.histogram(20).counts, [3]);
    close(far.at(1.0), f64::MAX);
    close(far.least_for(0.5), f64::MIN);
}

#[test]
fn what_is_no_sample() {
    for values in [
        vec![],
        vec![1.0, f64::NAN],
        vec![f64::INFINITY, 1.0],
        vec![f64::NEG_INFINITY],
    ] {
        assert!(Sample::from(values).is_none());
    }
    let sample = of(&[1.0, 2.0]);
    assert!(sample.at(f64::NAN).is_nan());
    assert!(sample.chance_over(f64::NAN).is_nan());
    assert!(sample.least_for(f64::NAN).is_nan());
    close(sample.at(-1.0), 1.0);
    close(sample.at(7.0), 2.0);
}

/// The interquartile range of a normal figure is 1.349 sd, so that the rule gives bins of 2 · 1.349 / ∛n.
#[test]
fn usual_numbers_of_bins_are_few() {
    let drawn = sample(1000, 4, normal);
    let range = drawn.highest() - drawn.lowest();
    let bins = f64::from(u32::try_from(drawn.bins()).unwrap());
    assert!((bins - range / 0.2698).abs() < 4.0, "{bins}");
    assert_eq!(sample(1_000_000, 4, normal).bins(), 60);
    assert_eq!(drawn.histogram(usize::MAX).counts.len(), 1000);
    assert_eq!(drawn.histogram(0).counts, [1000]);
}
