//! Many normal values at once: what a sum over all faces of a building wants. Not here: single ones (see
//! `stream`), and what is done with them.

#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "bits of a word are taken off, edges are told in single precision, and counts are small"
)]

use crate::stream::Stream;
use rand::Rng;
use std::f64::consts::{FRAC_1_SQRT_2, TAU};
use std::sync::LazyLock;

/// Cells of a table, all of one probability.
const CELLS: usize = 1 << CELL_BITS;
const CELL_BITS: u32 = 10;
/// Values from one word of the stream.
const TOGETHER: usize = 3;
/// Random bits of one value: the sign, the cell, and where in the cell.
const BITS: u32 = 21;
const WITHIN_BITS: u32 = BITS - 1 - CELL_BITS;
const STEPS_WITHIN: u32 = 1 << WITHIN_BITS;
/// Cells from this one on are told more finely: there the bell falls too fast within a cell.
const LAST: usize = CELLS - 8;

/// Steps of Newton's method to an edge, from the edge before: the farthest wants six.
const NEWTON: usize = 10;

/// A cell: where it begins, in standard deviations above the mean, and what one of the [`STEPS_WITHIN`] adds.
#[derive(Debug, Clone, Copy)]
struct Cell {
    begins: f32,
    step: f32,
}

/// The upper half of the distribution, and its last cells once more in as many.
#[derive(Debug)]
struct Table {
    half: [Cell; CELLS],
    end: [Cell; CELLS],
    /// Where the last cells of the end begin.
    edge: f64,
}

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    let beyond = (CELLS - LAST) as f64 / CELLS as f64;
    let end = edges(0.5 * beyond);
    Table {
        half: cells(&edges(0.5)),
        edge: end.get(LAST).copied().unwrap_or_default(),
        end: cells(&end),
    }
});

/// Where the cells of a share of the distribution begin, the share that lies highest. The last has no end.
fn edges(share: f64) -> [f64; CELLS] {
    let mut edge = 0.0;
    let mut above = share;
    [(); CELLS].map(|()| {
        for _ in 0..NEWTON {
            edge += (0.5 * libm::erfc(edge * FRAC_1_SQRT_2) - above) / density(edge);
        }
        above -= share / CELLS as f64;
        edge
    })
}

fn density(z: f64) -> f64 {
    libm::exp(-0.5 * z * z) / TAU.sqrt()
}

fn cells(edges: &[f64; CELLS]) -> [Cell; CELLS] {
    let mut ends = edges.iter().skip(1);
    edges.map(|begins| {
        let step = (ends.next().unwrap_or(&begins) - begins) / f64::from(STEPS_WITHIN);
        Cell {
            begins: begins as f32,
            step: step as f32,
        }
    })
}

/// Fills a list with values of the standard normal distribution, several times as fast as one by one.
///
/// By inverting the distribution function in cells of equal probability, straight within a cell: 2,048 over
/// all, each end of eight again in 1,024, and of those the last eight by the tail method of Marsaglia, Generating a
/// Variable from the Tail of the Normal Distribution, Technometrics 6 (1964), from memory. The distribution
/// function is off by less than one in a hundred thousand anywhere.
///
/// Three values take one word of the stream; those far out take more.
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
    let table = &*TABLE;
    // Those far out have a stream of their own, so that the words follow each other without waiting.
    let mut far = Stream::new(stream.next_u64(), 0);
    let mut words = stream.clone();
    let (threes, last) = into.as_chunks_mut::<TOGETHER>();
    for [first, second, third] in threes {
        let word = words.next_u64();
        *first = value(table, word as u32, &mut far);
        *second = value(table, (word >> BITS) as u32, &mut far);
        *third = value(table, (word >> (2 * BITS)) as u32, &mut far);
    }
    for one in last {
        *one = value(table, words.next_u64() as u32, &mut far);
    }
    *stream = words;
}

/// The value of the lowest bits of a word.
#[inline]
fn value(table: &Table, bits: u32, stream: &mut Stream) -> f64 {
    let at = (bits >> WITHIN_BITS) as usize % CELLS;
    let size = if at < LAST {
        table.half[at].value(bits)
    } else {
        table.far(stream)
    };
    let sign = u64::from(bits >> (BITS - 1)) << 63;
    f64::from_bits(size.to_bits() ^ sign)
}

impl Cell {
    /// In the middle of the step that the lowest bits name.
    #[inline]
    fn value(self, bits: u32) -> f64 {
        let within = f64::from(bits % STEPS_WITHIN) + 0.5;
        f64::from(self.begins) + f64::from(self.step) * within
    }
}

impl Table {
    /// A value of the last cells.
    #[cold]
    fn far(&self, stream: &mut Stream) -> f64 {
        let bits = stream.next_u64() as u32;
        let at = (bits >> WITHIN_BITS) as usize % CELLS;
        if at < LAST {
            self.end[at].value(bits)
        } else {
            tail(self.edge, stream)
        }
    }
}

/// A value beyond an edge, by an exponential one that is taken or not.
#[cold]
fn tail(edge: f64, stream: &mut Stream) -> f64 {
    loop {
        let beyond = -libm::log(above_nothing(stream)) / edge;
        if -2.0 * libm::log(above_nothing(stream)) > beyond * beyond {
            return edge + beyond;
        }
    }
}

/// Even in `(0, 1)`.
fn above_nothing(stream: &mut Stream) -> f64 {
    const STEPS: f64 = (1_u64 << 52) as f64;
    ((stream.next_u64() >> 12) as f64 + 0.5) / STEPS
}

#[cfg(test)]
mod tests {
    use super::*;

    fn above(z: f64) -> f64 {
        0.5 * libm::erfc(z * FRAC_1_SQRT_2)
    }

    /// Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.5 (from memory): what lies above.
    #[test]
    fn edges_are_those_of_the_table() {
        let edges = edges(0.5);
        for (above, z) in [
            (0.25, 0.674_489_75),
            (0.125, 1.150_349_38),
            (0.062_5, 1.534_120_54),
        ] {
            let at = CELLS as f64 * (1.0 - 2.0 * above);
            let off = (edges[at as usize] - z).abs();
            assert!(off < 1e-8, "{above}: off by {off}");
        }
    }

    /// By how much the share above is off at most, of the cells that lie in the highest of that share.
    fn off(cells: &[Cell], share: f64) -> f64 {
        let one = share / CELLS as f64;
        let each = cells.iter().take(LAST).zip(0_u32..);
        let all = each.flat_map(|(cell, at)| {
            (0..STEPS_WITHIN).step_by(64).map(move |step| {
                let within = (f64::from(step) + 0.5) / f64::from(STEPS_WITHIN);
                let told = share - (f64::from(at) + within) * one;
                (above(cell.value(step)) - told).abs()
            })
        });
        all.fold(0.0, f64::max)
    }

    #[test]
    fn the_distribution_is_off_by_less_than_one_in_a_hundred_thousand() {
        let beyond = 0.5 * (CELLS - LAST) as f64 / CELLS as f64;
        let (half, end) = (off(&TABLE.half, 0.5), off(&TABLE.end, beyond));
        assert!(half < 1e-5 && end < 1e-5, "{half}, {end}");
        assert!(half > 1e-6, "as far off as its cells are wide: {half}");
    }

    /// Shares beyond whole standard deviations, of twenty million.
    #[test]
    fn tails_are_as_heavy_as_they_should_be() {
        let mut drawn = vec![0.0; 1_000_001];
        let mut beyond = [[0_u32; 2]; 4];
        let mut stream = Stream::new(5, 0);
        for _ in 0..20 {
            normals(&mut stream, &mut drawn);
            for z in &drawn {
                for (at, counts) in beyond.iter_mut().enumerate() {
                    counts[0] += u32::from(*z > at as f64 + 1.0);
                    counts[1] += u32::from(*z < -(at as f64) - 1.0);
                }
            }
        }
        let all = 20.0 * drawn.len() as f64;
        for (at, counts) in beyond.iter().enumerate() {
            let share = above(at as f64 + 1.0);
            let allowed = 3.5 * (all * share).sqrt();
            for count in counts {
                let off = (f64::from(*count) - all * share).abs();
                assert!(off < allowed, "{at}: {count} of {}", all * share);
            }
        }
    }
}
