//! Draws: the same on any number of threads, each chunk with its own stream and state. Not here: what is drawn.

use crate::within;
use hodful_chance::{CHUNK, Sample, Spread, Stream, draws, normal};
use rayon::ThreadPoolBuilder;

/// A figure that takes a varying number of words from its stream.
fn figure(stream: &mut Stream) -> f64 {
    let thickness = Spread::triangular(10.0, 12.0, 18.0).unwrap();
    thickness.draw(stream) * (1.0 + 0.05 * normal(stream))
}

#[test]
fn the_same_bits_on_any_number_of_threads() {
    let of = |threads: usize, count: usize, seed: u64| -> Vec<u64> {
        let pool = ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap();
        let drawn = pool.install(|| draws(count, seed, || (), |(), stream, _| figure(stream)));
        drawn.iter().map(|x| x.to_bits()).collect()
    };
    for count in [0, 1, 99, 100, 101, 1234] {
        let alone = of(1, count, 5);
        assert_eq!(alone.len(), count);
        for threads in [2, 3, 7] {
            assert_eq!(of(threads, count, 5), alone, "{threads} threads");
        }
        assert!(of(1, 1234, 5).starts_with(&alone), "more begin as fewer");
    }
    assert_ne!(of(1, 100, 5), of(1, 100, 6));
}

/// One after the other, by hand: stream `k` for chunk `k`, and a scratch state that goes with the chunk.
#[test]
fn each_chunk_has_its_stream_and_its_state() {
    let count = 3 * CHUNK + 20;
    let drawn = draws(
        count,
        11,
        || 0,
        |done, stream, at| {
            *done += 1;
            (at, *done, normal(stream).to_bits())
        },
    );
    let mut expected = Vec::new();
    for (chunk, first) in (0..).zip((0..count).step_by(CHUNK)) {
        let mut stream = Stream::new(11, chunk);
        for at in first..count.min(first + CHUNK) {
            expected.push((at, at - first + 1, normal(&mut stream).to_bits()));
        }
    }
    assert_eq!(drawn, expected);
}

/// Streams beside each other are no more alike than chance has it: the firsts of streams and of neighbouring
/// seeds, and the correlation of one stream with the next.
#[test]
fn neighbours_are_independent() {
    let count = 10_000;
    let root = f64::from(10_000).sqrt();
    let firsts: Vec<[f64; 2]> = (0..count)
        .map(|k| {
            [
                normal(&mut Stream::new(3, k)),
                normal(&mut Stream::new(k, 3)),
            ]
        })
        .collect();
    for which in [0, 1] {
        let values: Vec<f64> = firsts.iter().map(|f| f[which]).collect();
        let lag: f64 = values.windows(2).map(|w| w[0] * w[1]).sum();
        within(lag / root, 0.0, 1.0);
        let drawn = Sample::from(values).unwrap();
        within(drawn.mean(), 0.0, 1.0 / root);
        within(drawn.sd(), 1.0, 1.0 / (root * 2.0_f64.sqrt()));
    }
    let [mut one, mut next] = [Stream::new(3, 0), Stream::new(3, 1)];
    let both: f64 = (0..count)
        .map(|_| normal(&mut one) * normal(&mut next))
        .sum();
    within(both / root, 0.0, 1.0);
}
