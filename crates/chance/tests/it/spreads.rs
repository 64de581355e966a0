//! Spreads: what is refused, and the moments of what is drawn. Not here: sums of several.

use crate::{close, sample, within};
use hodful_chance::{ChanceFault, Sample, Spread, Stream};

const DRAWS: usize = 40_000;

/// Mean and standard deviation of a triangle, as printed in any table of distributions.
fn printed(a: f64, b: f64, c: f64) -> (f64, f64) {
    let variance = (a * a + b * b + c * c - a * b - a * c - b * c) / 18.0;
    ((a + b + c) / 3.0, variance.sqrt())
}

/// The chance of a triangle to be at most `x`, as printed there.
fn below(a: f64, b: f64, c: f64, x: f64) -> f64 {
    if x < b {
        (x - a) * (x - a) / ((c - a) * (b - a))
    } else {
        1.0 - (c - x) * (c - x) / ((c - a) * (c - b))
    }
}

#[test]
fn triangles_have_the_printed_moments() {
    let triangles = [
        (8.0, 10.0, 15.0),
        (0.0, 0.0, 1.0),
        (-3.0, 2.0, 2.0),
        (0.9, 1.0, 1.3),
        (20.0, 25.0, 30.0),
    ];
    for (seed, (a, b, c)) in (1..).zip(triangles) {
        let spread = Spread::triangular(a, b, c).unwrap();
        let (mean, sd) = printed(a, b, c);
        close(spread.mean(), mean);
        close(spread.sd(), sd);

        let drawn = sample(DRAWS, seed, |stream| spread.draw(stream));
        assert!(drawn.lowest() >= a && drawn.highest() <= c);
        let root = f64::from(40_000).sqrt();
        within(drawn.mean(), mean, sd / root);
        // The kurtosis of every triangle is 2.4, so the standard error of its sd is sd · √(1.4 / 4n).
        within(drawn.sd(), sd, sd * 0.35_f64.sqrt() / root);
        for part in [0.1, 0.25, 0.5, 0.75, 0.9] {
            let x = a + part * (c - a);
            let chance = 1.0 - below(a, b, c, x);
            let error = (chance * (1.0 - chance)).sqrt() / root;
            within(drawn.chance_over(x), chance, error);
        }
    }
}

/// 1.2815515655446004 and 1.6448536269514722 are `scipy.stats.norm.ppf(0.9)` and of 0.95, scipy 1.17.1.
#[test]
fn a_normal_spread_has_its_moments_and_quantiles() {
    let spread = Spread::normal(12.0, 1.5).unwrap();
    close(spread.mean(), 12.0);
    close(spread.sd(), 1.5);
    let drawn = sample(DRAWS, 7, |stream| spread.draw(stream));
    normal(&drawn, 12.0, 1.5);
    for (share, z, density) in [
        (0.95, 1.644_853_626_951_472_2, 0.103_135_6),
        (0.05, -1.644_853_626_951_472_2, 0.103_135_6),
    ] {
        let error = 1.5 * (0.05_f64 * 0.95).sqrt() / density / 200.0;
        within(drawn.at(share), 12.0 + 1.5 * z, error);
    }
}

/// The moments, tenths and nine tenths of 40 000 draws of a normal figure.
fn normal(drawn: &Sample, mean: f64, sd: f64) {
    let root = f64::from(40_000).sqrt();
    within(drawn.mean(), mean, sd / root);
    within(drawn.sd(), sd, sd / (2.0_f64.sqrt() * root));
    // The standard error of a quantile is √(p (1 − p) / n) / density, at 0.1 with a density of 0.17549833.
    let error = sd * 0.3 / 0.175_498_33 / root;
    within(drawn.at(0.1), mean - 1.281_551_565_544_600_4 * sd, error);
    within(drawn.at(0.9), mean + 1.281_551_565_544_600_4 * sd, error);
}

/// Independent ones add up by the root of the squares.
#[test]
fn a_sum_of_independent_normals() {
    let parts = [(100.0, 3.0), (250.0, 4.0), (-40.0, 12.0)]
        .map(|(mean, sd)| Spread::normal(mean, sd).unwrap());
    let drawn = sample(DRAWS, 8, |stream| {
        parts.iter().map(|s| s.draw(stream)).sum()
    });
    normal(&drawn, 310.0, 13.0);
}

/// Those that are off together add up by their deviations.
#[test]
fn a_sum_of_normals_that_are_off_together() {
    let drawn = sample(DRAWS, 9, |stream| {
        let off = hodful_chance::normal(stream);
        [(100.0, 3.0), (250.0, 4.0), (-40.0, 12.0)]
            .iter()
            .map(|(mean, sd)| mean + sd * off)
            .sum()
    });
    normal(&drawn, 310.0, 19.0);
}

#[test]
fn what_is_known_is_drawn_as_it_is() {
    let spreads = [
        Spread::fixed(0.1),
        Spread::triangular(0.1, 0.1, 0.1),
        Spread::normal(0.1, 0.0),
    ];
    for spread in spreads.map(Result::unwrap) {
        assert!(spread.is_fixed());
        let mut stream = Stream::new(1, 0);
        assert_eq!(spread.draw(&mut stream).to_bits(), 0.1_f64.to_bits());
        assert_eq!(spread.mean().to_bits(), 0.1_f64.to_bits());
        assert_eq!(spread.sd().to_bits(), 0.0_f64.to_bits());
        assert_eq!(stream, Stream::new(1, 0), "nothing was taken");
    }
    assert!(!Spread::triangular(0.1, 0.1, 0.2).unwrap().is_fixed());
    assert!(!Spread::normal(0.1, 0.1).unwrap().is_fixed());
}

#[test]
fn what_is_refused_says_why() {
    for (refused, words) in [
        (Spread::fixed(f64::INFINITY), "'inf' is no number"),
        (Spread::normal(f64::NAN, 1.0), "'NaN' is no number"),
        (Spread::normal(1.0, f64::NAN), "'NaN' is no number"),
        (
            Spread::triangular(1.0, 2.0, f64::INFINITY),
            "'inf' is no number",
        ),
        (
            Spread::normal(1.0, -0.5),
            "the spread -0.5 is below 0; give 0 or more",
        ),
        (
            Spread::triangular(3.0, 2.0, 4.0),
            "the lowest value 3 is above the likeliest 2; put them in order",
        ),
        (
            Spread::triangular(1.0, 5.0, 4.0),
            "the likeliest value 5 is above the highest 4; put them in order",
        ),
    ] {
        let said = refused.unwrap_err().to_string();
        assert!(said.starts_with(words), "{said}");
    }
    let wide = Spread::triangular(f64::MIN, 0.0, f64::MAX);
    assert!(matches!(wide, Err(ChanceFault::TooWide { .. })));
}
