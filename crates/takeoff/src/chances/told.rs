//! What is told of chances and in which order, so that screen, paper and command line show the same. Not here:
//! sentences (see `said`), and the figures.

use super::said::chance;
use super::{Chances, FigureChances, Input};
use crate::compare::Line;
use crate::packages::covering;
use crate::project::{Name, Project};
use ecow::{EcoString, eco_format};
use hodful_quantities::order::Cover;

/// Over the orders: how often each falls short, and what to order instead.
pub const ORDERS: &str = "Is the order enough?";

/// Over the figures.
pub const FIGURES: &str = "How much it may be";

/// Over what each figure varies by.
pub const CAUSES: &str = "What matters most";

/// Over the inputs.
pub const INPUTS: &str = "How far each input may be off";

/// Over the notes.
pub const NOTES: &str = "Where it comes from";

/// Over a figure or an order with nothing being off.
pub const AS_WORKED_OUT: &str = "as worked out";

/// Over how often that is.
pub const FALLS_SHORT: &str = "falls short";

/// Over a histogram, behind the figure.
pub const HOW_OFTEN: &str = "how often it is how much";

/// What holds of the inputs.
pub const TOGETHER: &str =
    "One value goes for all walls together, but for what is off from wall to wall.";

/// What stands where something cannot be told.
const UNKNOWN: &str = "–";

/// What is told of one order, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToldOrder {
    /// The material.
    pub material: Name,
    /// The packages as they are worked out: `3 × tipped load`.
    pub as_worked_out: EcoString,
    /// How often they fall short: `80 times in 100`.
    pub falls_short: EcoString,
    /// The packages that fall short no more often than is accepted.
    pub instead: EcoString,
}

/// Over the inputs of one source: `Source: our last three houses`.
pub fn said_by(source: &str) -> EcoString {
    eco_format!("Source: {source}")
}

/// The place of a figure among the others: money first, then what is ordered, then what is mixed.
fn place(line: &Line) -> u8 {
    match line {
        Line::Cost => 0,
        Line::Batches => 1,
        Line::Loose(_) | Line::Mass(_) | Line::Packages(_) => 2,
        Line::AllMixed => 3,
        Line::AllPlaced => 4,
        _ => 5,
    }
}

impl Chances {
    /// Every figure but what another stands for: plaster on the walls stands behind the same as mixed.
    pub fn told(&self) -> Vec<&FigureChances> {
        self.in_order(|line| match line {
            Line::Placed { build_up, coat } => self
                .figure(&Line::Mixed {
                    build_up: build_up.clone(),
                    coat: coat.clone(),
                })
                .is_none(),
            Line::AllPlaced => self.figure(&Line::AllMixed).is_none(),
            _ => true,
        })
    }

    /// The same where there is little room: each material in one measure and without its packages.
    pub fn told_briefly(&self) -> Vec<&FigureChances> {
        self.in_order(|line| match line {
            Line::Loose(_) | Line::AllMixed | Line::Batches | Line::Cost | Line::Mixed { .. } => {
                true
            }
            Line::Mass(name) => self.figure(&Line::Loose(name.clone())).is_none(),
            _ => false,
        })
    }

    /// The figures that somebody decides by: cost, batches, what each order goes by, and all plaster mixed; all
    /// that there are when none of them is there.
    pub fn chief(&self) -> Vec<&FigureChances> {
        let needs = self.orders.iter().map(|order| &*order.material);
        let needs: Vec<&Line> = needs
            .filter_map(|name| Some(&self.need_of(name)?.line))
            .collect();
        let chief = self.in_order(|line| {
            matches!(line, Line::Cost | Line::Batches | Line::AllMixed) || needs.contains(&line)
        });
        if chief.is_empty() { self.told() } else { chief }
    }

    fn in_order(&self, is_told: impl Fn(&Line) -> bool) -> Vec<&FigureChances> {
        let told = self.figures.iter().filter(|of| is_told(&of.line));
        let mut told: Vec<&FigureChances> = told.collect();
        told.sort_by_key(|of| place(&of.line));
        told
    }

    /// Every order in words, beside the one that falls short no more often than is accepted.
    pub fn told_orders(&self, project: &Project) -> Vec<ToldOrder> {
        let each = self.orders.iter().map(|order| {
            let name = &order.material;
            let words = |cover: Option<&Cover>| {
                cover.map_or_else(|| UNKNOWN.into(), |cover| covering(project, name, cover))
            };
            let instead = self.order_for(name, self.accepted);
            ToldOrder {
                material: name.clone(),
                as_worked_out: words(order.cover.as_ref()),
                falls_short: order.short.map_or_else(|| UNKNOWN.into(), chance),
                instead: words(instead.and_then(|(_, cover)| cover).as_ref()),
            }
        });
        each.collect()
    }

    /// The inputs by who says how far they may be off, what the project says first.
    pub fn by_source(&self) -> Vec<(&EcoString, Vec<&Input>)> {
        let mut all: Vec<(&EcoString, Vec<&Input>)> = Vec::new();
        let (defaults, own): (Vec<&Input>, Vec<&Input>) =
            self.inputs.iter().partition(|input| input.is_default);
        for input in own.into_iter().chain(defaults) {
            match all.iter_mut().find(|(source, _)| **source == input.source) {
                Some((_, inputs)) => inputs.push(input),
                None => all.push((&input.source, vec![input])),
            }
        }
        all
    }

    /// Keeps the figures that are asked for and those of materials whose order is, and the orders of the materials
    /// among them.
    pub fn keep(&mut self, is_asked: impl Fn(&Line) -> bool) {
        let asked: Vec<Name> = self.asked.iter().map(|of| of.material.clone()).collect();
        let is_ordered = |line: &Line| matches!(line, Line::Loose(name) | Line::Mass(name) | Line::Packages(name) if asked.contains(name));
        self.figures
            .retain(|of| is_asked(&of.line) || is_ordered(&of.line));
        self.untold.retain(|(line, _)| is_asked(line));
        let lines: Vec<&Line> = self.figures.iter().map(|of| &of.line).collect();
        self.orders.retain(|order| {
            let name = || order.material.clone();
            lines.contains(&&Line::Loose(name())) || lines.contains(&&Line::Mass(name()))
        });
    }
}
