//! How sure an order is: the figures of a project drawn many times, every input as far off as it may be. What is
//! enough so many times out of ten, how often an order is short, and which input matters most.
//!
//! A draw is one way in which things may turn out: one value of each input, and one factor of each face. The
//! figures of a draw are those of the evaluation over it, packages and price included.
//!
//! - [`Chances::draw`]: all of it, from a seed; the same to the last bit on any number of cores;
//! - [`FigureChances`]: the drawn values of one figure and what they come from;
//! - [`Chances::order_for`], [`Chances::short`], [`Chances::ask`]: what to order, and how often a given order is short;
//! - [`said`]: the same in sentences;
//! - [`told`]: which of it is told, in which order.
//!
//! Water is left out: nobody orders it, and what the materials bring of it is not drawn with their moisture.
//!
//! Not here: what the project says of its inputs (see [`crate::project::Uncertain`]), and what is learned from
//! records (see [`crate::forecast`]).

mod asked;
pub(crate) mod belief;
mod defaults;
mod draw;
mod faces;
mod inputs;
pub(crate) mod nonsense;
mod orders;
pub mod said;
mod target;
mod terms;
#[cfg(test)]
mod tests;
pub mod told;

pub use asked::Asked;
pub use inputs::Input;
pub use orders::Ordered;

pub(crate) use target::Target;

use crate::compare::{Line, One, lines};
use crate::project::{MaterialKind, Name};
use crate::sources;
use draw::Drawing;
use ecow::{EcoString, eco_format};
use hodful_chance::Sample;
use rayon::prelude::*;
use std::iter::zip;

/// Draws that are enough for whole percents: a chance of one in ten is told to 0.3 % (one standard error,
/// `√(p·(1 − p)/n)`).
pub const USUAL_DRAWS: usize = 10_000;

/// Most draws that are made, whoever asks: a chance of one in ten is told to 0.03 % by then. Of a project with many
/// figures fewer are made, so that they stay within [`sources::MOST_MEMORY`].
pub const MOST_DRAWS: usize = 1_000_000;

/// The seed when nobody gives one: it is of no account which, and the same project tells the same.
pub const USUAL_SEED: u64 = 1;

/// The figures of a project as they may turn out.
#[derive(Debug, Clone, PartialEq)]
pub struct Chances {
    /// How many draws.
    pub draws: usize,
    /// From which seed.
    pub seed: u64,
    /// Everything that may be off.
    pub inputs: Vec<Input>,
    /// Every figure, in the order of a comparison.
    pub figures: Vec<FigureChances>,
    /// Figures that cannot be told because they have no value in some draws, with how many those are.
    pub untold: Vec<(Line, usize)>,
    /// Draws in which something had to be brought back to what can be: a loss to 0, a thickness to nothing.
    pub clamped: usize,
    /// Materials that are ordered, in the order of the project.
    pub orders: Vec<Ordered>,
    /// How often an order may be short: [`said::USUAL_SHORT`] until another share is accepted.
    pub accepted: f64,
    /// Orders that were asked for, each with how often it is short.
    pub asked: Vec<Asked>,
}

/// One figure as it may turn out.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureChances {
    /// Which figure.
    pub line: Line,
    /// As it is worked out, nothing being off; in base units.
    pub base: f64,
    /// As drawn, in base units.
    pub sample: Sample,
    /// By input, in the order of [`Chances::inputs`]: the share of its variance that comes from there.
    pub shares: Vec<f64>,
}

impl FigureChances {
    /// The inputs by how much of the variance comes from them, the most first: position and share.
    pub fn ranked(&self) -> Vec<(usize, f64)> {
        let mut all: Vec<(usize, f64)> = self.shares.iter().copied().enumerate().collect();
        all.sort_by(|(_, a), (_, b)| b.total_cmp(a));
        all
    }

    /// The share of its variance that comes from no input by itself: from inputs together, from rounding up, and
    /// from the chance of the draws; 0 to 1.
    pub fn left(&self) -> f64 {
        hodful_chance::rest(&self.shares)
    }

    /// What is enough so often: 0.8 for eight times out of ten. Always a value that was drawn, so that of whole
    /// things it is whole (see [`Sample::least_for`]).
    pub fn enough(&self, often: f64) -> f64 {
        self.sample.least_for(1.0 - often)
    }
}

impl Chances {
    /// Draws a project so many times from a seed.
    ///
    /// # Errors
    /// In words: that no draw is asked for, or more than can be kept, or that no figure can be told.
    pub fn draw(one: &One<'_>, draws: usize, seed: u64) -> Result<Self, EcoString> {
        if draws == 0 {
            return Err("no draw is asked for; give 1 or more".into());
        }
        if draws > MOST_DRAWS {
            return Err("too many draws are asked for; a million is the most".into());
        }
        let told: Vec<(Line, f64)> = lines(one)
            .into_iter()
            .filter(|line| is_drawn(one, line))
            .filter_map(|line| line.value(one).map(|base| (line, base)))
            .collect();
        let is_there = one.evaluation.grounds.iter();
        if !is_there.clone().any(|of| of.surface.area.value > 0.0) || told.is_empty() {
            return Err("there is nothing to draw: no face has a coat that can be told".into());
        }
        let drawing = Drawing::new(one, told.iter().map(|(line, _)| line.clone()).collect());
        let most = sources::MOST_MEMORY.value / drawing.bytes();
        if draws > most {
            return Err(eco_format!(
                "too many draws are asked for: with the {} figures and {} inputs of this project {most} take all the memory that draws may have; give fewer",
                told.len(),
                drawing.inputs.said.len()
            ));
        }
        let drawn = drawing.run(draws, seed);
        let inputs = hodful_chance::Inputs::of(&drawn.inputs);
        let all: Vec<Result<FigureChances, (Line, usize)>> = told
            .into_par_iter()
            .zip(drawn.figures)
            .map(|((line, base), values)| {
                let shares = inputs.shares(&values);
                let untold = values.iter().filter(|value| !value.is_finite()).count();
                match Sample::from(values) {
                    Some(sample) => Ok(FigureChances {
                        line,
                        base,
                        sample,
                        shares,
                    }),
                    None => Err((line, untold)),
                }
            })
            .collect();
        let (mut figures, mut untold) = (Vec::new(), Vec::new());
        for one in all {
            match one {
                Ok(figure) => figures.push(figure),
                Err(line) => untold.push(line),
            }
        }
        let orders = zip(drawing.orders, drawn.short);
        let orders = orders.map(|(order, short)| order.with(short, draws));
        Ok(Self {
            draws,
            seed,
            inputs: drawing.inputs.said,
            figures,
            untold,
            clamped: drawn.clamped,
            orders: orders.collect(),
            accepted: said::USUAL_SHORT,
            asked: Vec::new(),
        })
    }

    /// The chances of a figure.
    pub fn figure(&self, line: &Line) -> Option<&FigureChances> {
        self.figures.iter().find(|of| of.line == *line)
    }

    /// The order of a material.
    pub fn order(&self, material: &str) -> Option<&Ordered> {
        self.orders.iter().find(|of| of.material == material)
    }
}

/// Whether a line is drawn: not what no input moves, nor what is planned, nor water, nor a count of packages of several
/// kinds, which says nothing: what to order of them stands with the order.
fn is_drawn(one: &One<'_>, line: &Line) -> bool {
    let is_water = |name: &Name| {
        let material = one.project.materials.get(name);
        material.is_some_and(|of| of.kind == MaterialKind::Water)
    };
    match line {
        Line::Surface | Line::Payment | Line::Trips | Line::Bought => false,
        Line::Loose(name) | Line::Mass(name) => !is_water(name),
        Line::Packages(name) => {
            let material = one.project.materials.get(name);
            material.is_some_and(|of| of.packages.len() == 1) && !is_water(name)
        }
        _ => true,
    }
}
