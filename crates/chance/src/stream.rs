//! Random numbers from a seed, and draws that are the same on any number of cores. Not here: what is drawn.

use crate::tolerance::CHUNK;
use core::convert::Infallible;
use rand::{Rng, RngExt, TryRng};
use rand_distr::StandardNormal;
use rand_pcg::Pcg64Mcg;
use rayon::iter::{IntoParallelIterator, ParallelIterator};

/// One stream of random numbers. It depends on a seed and a number and on nothing else.
///
/// The generator is PCG XSL RR 128/64 (MCG), the `pcg64_fast` of O'Neill, PCG: A Family of Simple Fast
/// Space-Efficient Statistically Good Algorithms for Random Number Generation (2014). It is named, so that the
/// numbers of a seed stay the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stream(Pcg64Mcg);

impl Stream {
    /// Stream `number` of a seed. Its 128 bits of state are two words of `SplitMix64` begun at the seed, counted
    /// from 0: word `2 · number` is the upper half, the next one the lower (whose last bit the generator sets).
    ///
    /// `SplitMix64`: Steele, Lea and Flood, Fast Splittable Pseudorandom Number Generators (2014), with the
    /// constants of Vigna's public-domain `splitmix64.c` (from memory; tested on published words).
    pub fn new(seed: u64, number: u64) -> Self {
        let first = number.wrapping_mul(2);
        let (upper, lower) = (word(seed, first), word(seed, first.wrapping_add(1)));
        Self(Pcg64Mcg::new((u128::from(upper) << 64) | u128::from(lower)))
    }
}

impl TryRng for Stream {
    type Error = Infallible;

    #[inline]
    fn try_next_u32(&mut self) -> Result<u32, Infallible> {
        Ok(self.0.next_u32())
    }

    #[inline]
    fn try_next_u64(&mut self) -> Result<u64, Infallible> {
        Ok(self.0.next_u64())
    }

    #[inline]
    fn try_fill_bytes(&mut self, bytes: &mut [u8]) -> Result<(), Infallible> {
        self.0.fill_bytes(bytes);
        Ok(())
    }
}

/// Word `at`, counted from 0, of `SplitMix64` begun at a seed.
fn word(seed: u64, at: u64) -> u64 {
    let steps = at.wrapping_add(1);
    let mut z = seed.wrapping_add(steps.wrapping_mul(0x9e37_79b9_7f4a_7c15));
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A value of the standard normal distribution: mean 0, standard deviation 1.
///
/// By the ziggurat of Marsaglia and Tsang (2000). One in some thousands lies in the tail and goes through the
/// logarithm of the system: its last bit may be another one on another system.
#[inline]
pub fn normal(stream: &mut Stream) -> f64 {
    stream.sample(StandardNormal)
}

/// What `one` makes of each of `count` draws, in order.
///
/// Draws go in chunks of [`CHUNK`]. Chunk `k` has stream `k` of the seed for itself and a scratch state that
/// `begin` makes, and its draws follow each other; `one` is given the state, the stream and the number of the
/// draw, counted from 0. The chunks run on the pool of threads that is at hand. A chunk is never parted, so the
/// results are the same to the last bit on any number of threads, as long as `one` takes what is random from
/// the stream alone. More draws of a seed begin with the same results as fewer.
pub fn draws<S, T: Send>(
    count: usize,
    seed: u64,
    begin: impl Fn() -> S + Sync,
    one: impl Fn(&mut S, &mut Stream, usize) -> T + Sync,
) -> Vec<T> {
    let chunk = |number: usize| {
        let first = number * CHUNK;
        let mut stream = Stream::new(seed, number as u64);
        let mut state = begin();
        (first..count.min(first.saturating_add(CHUNK)))
            .map(|at| one(&mut state, &mut stream, at))
            .collect::<Vec<T>>()
    };
    let chunks: Vec<Vec<T>> = (0..count.div_ceil(CHUNK))
        .into_par_iter()
        .map(chunk)
        .collect();
    chunks.into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first five outputs for the seed 1234567, as published with many ports of `splitmix64.c` (from memory).
    #[test]
    fn words_are_those_published() {
        let words: Vec<u64> = (0..5).map(|at| word(1_234_567, at)).collect();
        let published = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        assert_eq!(words, published);
    }

    /// `pcg64_fast` begun at 42: the output of the demo program of the C++ reference implementation.
    #[test]
    fn the_generator_is_the_named_one() {
        let mut stream = Stream(Pcg64Mcg::new(42));
        let numbers: Vec<u64> = (0..6).map(|_| stream.next_u64()).collect();
        let published = [
            0x63b4_a3a8_13ce_700a,
            0x3829_5420_0617_ab24,
            0xa7fd_85ae_3fe9_50ce,
            0xd715_286a_a288_7737,
            0x60c9_2fee_2e59_f32c,
            0x84c4_e96b_eff3_0017,
        ];
        assert_eq!(numbers, published);
    }

    #[test]
    fn a_stream_begins_at_its_two_words() {
        let [upper, lower] =
            [9_817_491_932_198_370_423, 4_593_380_528_125_082_431_u64].map(u128::from);
        let state = (upper << 64) | lower;
        assert_eq!(Stream::new(1_234_567, 1), Stream(Pcg64Mcg::new(state)));
    }
}
