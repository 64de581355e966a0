//! Many normal values at once: what a sum over all faces of a building wants. Not here: single ones (see
//! `stream`), and what is done with them.

use crate::stream::Stream;
use rand::Rng;
use std::f64::consts::{FRAC_1_SQRT_2, TAU};
use std::sync::LazyLock;

/// The distribution in parts of equal probability: so many that no share which ten thousand draws can tell is
/// touched, so few that all their means stay in the nearest memory.
const PARTS: u16 = 1 << BITS;
const BITS: usize = 12;
/// Values from one word of the stream.
const TOGETHER: usize = 64 / BITS;

/// Steps of Newton's method to an edge, from the edge before: the farthest wants six.
const NEWTON: usize = 10;

/// The mean of each part, from the lowest, all a hair farther out, so that the variance is 1.
static MEANS: LazyLock<[f32; PARTS as usize]> = LazyLock::new(|| {
    let means = means();
    let variance = means.iter().map(|mean| mean * mean).sum::<f64>() / f64::from(PARTS);
    #[allow(
        clippy::cast_possible_truncation,
        reason = "single precision is finer than the parts by far"
    )]
    means.map(|mean| (mean / variance.sqrt()) as f32)
});

/// The mean of a normal value between two edges is the fall of the density from one to the other, by the
/// probability between them.
fn means() -> [f64; PARTS as usize] {
    let mut part = 0_u16;
    let (mut edge, mut density_there) = (0.0, 0.0);
    [(); PARTS as usize].map(|()| {
        let before = density_there;
        part += 1;
        let below = f64::from(part) / f64::from(PARTS);
        if part == PARTS {
            density_there = 0.0;
        } else {
            edge = edge_above(below, if part == 1 { -3.0 } else { edge });
            density_there = density(edge);
        }
        (before - density_there) * f64::from(PARTS)
    })
}

/// The value that such a share lies below, looked for from another one.
fn edge_above(below: f64, from: f64) -> f64 {
    (0..NEWTON).fold(from, |edge, _| {
        edge + (below - 0.5 * libm::erfc(-edge * FRAC_1_SQRT_2)) / density(edge)
    })
}

fn density(z: f64) -> f64 {
    libm::exp(-0.5 * z * z) / TAU.sqrt()
}

/// Fills a list with values of the standard normal distribution, several times as fast as one by one.
///
/// Each value is the mean of one of 4,096 parts of equal probability, stretched by some hundredths of a percent
/// so that the variance is 1. A share of the distribution is off by 1 in 8,192 at most, where one of ten
/// thousand draws is off by 1 in 200; nothing lies beyond 3.7 standard deviations. Meant for sums: one value by
/// itself is [`normal`](crate::normal).
///
/// Five values take one word of the stream.
///
/// # Examples
/// ```
/// use hodful_chance::{Sample, Stream, normals};
///
/// let mut drawn = vec![0.0; 100_000];
/// normals(&mut Stream::new(1, 0), &mut drawn);
/// let drawn = Sample::from(drawn).ok_or("a draw is no number")?;
/// // One in ten lies above 1.2816.
/// assert!((drawn.at(0.9) - 1.2816).abs() < 0.02);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn normals(stream: &mut Stream, into: &mut [f64]) {
    let means = &*MEANS;
    let mut words = stream.clone();
    let (whole, last) = into.as_chunks_mut::<TOGETHER>();
    #[allow(
        clippy::cast_possible_truncation,
        reason = "a number below the count of the parts"
    )]
    let mut fill = |values: &mut [f64]| {
        let mut word = words.next_u64();
        for value in values {
            *value = f64::from(means[(word % u64::from(PARTS)) as usize]);
            word >>= BITS;
        }
    };
    for five in whole {
        fill(five);
    }
    if !last.is_empty() {
        fill(last);
    }
    *stream = words;
}

#[cfg(test)]
mod tests {
    use super::*;

    fn below(z: f64) -> f64 {
        0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
    }

    /// Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.5 (from memory): what lies above.
    #[test]
    fn edges_are_those_of_the_table() {
        for (above, z) in [
            (0.25, 0.674_489_75),
            (0.1, 1.281_551_57),
            (0.01, 2.326_347_87),
            (0.001, 3.090_232_31),
        ] {
            let off = (edge_above(1.0 - above, 0.5) - z).abs();
            assert!(off < 1e-8, "{above}: off by {off}");
        }
    }

    /// The mean is 0, the variance 1, the fourth moment 3 (closed forms).
    #[test]
    fn moments_are_those_of_the_distribution() {
        let moment = |power: i32| {
            let all = MEANS.iter().map(|mean| f64::from(*mean).powi(power));
            all.sum::<f64>() / f64::from(PARTS)
        };
        assert!(moment(1).abs() < 1e-7, "{}", moment(1));
        assert!((moment(2) - 1.0).abs() < 1e-7, "{}", moment(2));
        assert!(moment(3).abs() < 1e-6, "{}", moment(3));
        assert!((moment(4) - 3.0).abs() < 0.01, "{}", moment(4));
    }

    #[test]
    fn each_value_lies_in_its_part() {
        for (mean, part) in MEANS.iter().zip(0_u16..) {
            let share = below(f64::from(*mean)) * f64::from(PARTS);
            let within = f64::from(part)..f64::from(part) + 1.0;
            assert!(within.contains(&share), "{part}: {share}");
        }
    }

    /// Every part as often as the other, from the fields of a word: 2^22 values, chi-squared with 4,095 degrees
    /// of freedom, which is 4,095 with a standard deviation of 90.5.
    #[test]
    fn parts_are_drawn_equally_often() {
        let mut drawn = vec![0.0; 1 << 22];
        normals(&mut Stream::new(5, 0), &mut drawn);
        let mut counts = vec![0_u32; MEANS.len()];
        for z in drawn {
            counts[MEANS.partition_point(|mean| f64::from(*mean) < z)] += 1;
        }
        let expected = 1024.0;
        let squared = |count: &u32| (f64::from(*count) - expected).powi(2) / expected;
        let sum: f64 = counts.iter().map(squared).sum();
        assert!((sum - 4095.0).abs() < 3.0 * 90.5, "{sum}");
    }
}
