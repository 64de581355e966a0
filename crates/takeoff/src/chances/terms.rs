//! Sums over many faces, each with a factor that is drawn. Not here: which faces, and what becomes of the sums.

use hodful_chance::{Stream, normals};
use std::iter::zip;

/// Faces that are added side by side, so that no sum waits for the one before.
const LANES: usize = 4;

/// Blocks that are gone through for draw after draw: with their drawn values they stay in the nearest memory.
const TOGETHER: usize = 32;

/// Some faces in a sum: what one standard deviation of the factor of each adds.
#[derive(Debug, Clone, Copy)]
struct Block {
    first: [f64; LANES],
    growth: [f64; LANES],
    growth_squared: [f64; LANES],
    /// Where the factor comes to nothing.
    least: [f64; LANES],
}

impl Block {
    /// Of no face.
    const EMPTY: Self = Self {
        first: [0.0; LANES],
        growth: [0.0; LANES],
        growth_squared: [0.0; LANES],
        least: [f64::NEG_INFINITY; LANES],
    };
}

/// All faces in a sum.
#[derive(Debug, Default)]
pub(super) struct Terms {
    blocks: Vec<Block>,
    count: usize,
}

/// What a draw adds.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Added {
    /// By the factors.
    pub(super) first: f64,
    /// By their squares.
    pub(super) growth: f64,
    /// Some factor had to be brought back to nothing.
    pub(super) clamped: bool,
}

impl Terms {
    /// `count` more faces that are alike: what one adds by its factor, and by the square of it; how far the factor
    /// is off, as a share above 0.
    pub(super) fn push(&mut self, first: f64, growth: f64, count: f64, sd: f64) {
        let lane = self.count % LANES;
        if lane == 0 {
            self.blocks.push(Block::EMPTY);
        }
        self.count += 1;
        if let Some(block) = self.blocks.last_mut() {
            let root = count.sqrt();
            block.first[lane] = first * root * sd;
            block.growth[lane] = 2.0 * growth * root * sd;
            block.growth_squared[lane] = growth * sd * sd;
            block.least[lane] = -root / sd;
        }
    }

    /// Draws each face for each of the sums, which begin at nothing.
    pub(super) fn draw(&self, stream: &mut Stream, sums: &mut [Added]) {
        let mut drawn = [[0.0; LANES]; TOGETHER];
        for blocks in self.blocks.chunks(TOGETHER) {
            let Some(drawn) = drawn.get_mut(..blocks.len()) else {
                continue;
            };
            for sum in &mut *sums {
                normals(stream, drawn.as_flattened_mut());
                let added = add(blocks, drawn);
                sum.first += added.first;
                sum.growth += added.growth;
                sum.clamped |= added.clamped;
            }
        }
    }
}

/// As `f64::min`, of numbers: one instruction, where that one minds what is not a number.
fn lesser(a: f64, b: f64) -> f64 {
    if a < b { a } else { b }
}

fn add(blocks: &[Block], drawn: &[[f64; LANES]]) -> Added {
    let (mut first, mut growth) = ([0.0; LANES], [0.0; LANES]);
    let mut under = [0.0_f64; LANES];
    for (block, drawn) in zip(blocks, drawn) {
        for lane in 0..LANES {
            let (drawn, least) = (drawn[lane], block.least[lane]);
            under[lane] = lesser(under[lane], drawn - least);
            let z = if drawn > least { drawn } else { least };
            first[lane] += block.first[lane] * z;
            growth[lane] += z * (block.growth[lane] + block.growth_squared[lane] * z);
        }
    }
    Added {
        first: first.iter().sum(),
        growth: growth.iter().sum(),
        clamped: under.iter().any(|under| *under < 0.0),
    }
}
