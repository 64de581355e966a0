//! How a figure came about: a tree from the figure down to what was typed. The numbers are those of
//! the evaluation and of the same functions it calls; only the words and formulas are added here.
//! Not here: printing.
//!
//! A figure is asked for by its path: `order.sand`, `walls.S.outside`,
//! `coats."outside bale".scratch.mixed`. Names with blanks or dots stand in double quotes.

mod coats;
mod faces;
mod materials;
mod mixes;
mod openings;
mod path;

use crate::checked::Checked;
use crate::evaluate::Evaluation;
use crate::figure::{Dimension, Node};
use crate::problem::Place;
use crate::project::Project;
use ecow::{EcoString, eco_format};
use hodful_quantities::Measure;
use hodful_quantities::Typed;

pub use path::{PathFault, quoted};

/// What a figure is explained from.
#[derive(Debug, Clone, Copy)]
pub struct Source<'a> {
    /// The project as typed.
    pub project: &'a Project,
    /// The same, checked.
    pub checked: &'a Checked,
    /// Its figures.
    pub evaluation: &'a Evaluation,
}

/// The tree of a figure.
///
/// # Errors
/// [`PathFault`] when the path names nothing; it says what there is instead.
pub fn explain(source: Source<'_>, path: &str) -> Result<Node, PathFault> {
    let steps = path::steps(path)?;
    let steps: Vec<&str> = steps.iter().map(EcoString::as_str).collect();
    match steps.as_slice() {
        ["walls", wall, side, rest @ ..] => faces::explain(source, wall, side, rest),
        ["totals", rest @ ..] => faces::totals(source, rest),
        ["coats", build_up, coat, rest @ ..] => coats::explain(source, build_up, coat, rest),
        ["batch", build_up, coat, material, rest @ ..] => {
            coats::batch(source, build_up, coat, material, rest)
        }
        ["mixes", mix, rest @ ..] => mixes::explain(source, mix, rest),
        ["order", rest @ ..] => materials::explain(source, rest),
        [first, ..] if path::HEADS.contains(first) => Err(PathFault::Short {
            head: (*first).into(),
        }),
        [first, ..] => Err(PathFault::Head {
            head: (*first).into(),
        }),
        [] => Err(PathFault::Empty),
    }
}

/// A leaf for a value as typed.
fn typed<T: Measure>(
    label: &str,
    dimension: Dimension,
    value: f64,
    typed: &Typed<T>,
    place: &Place,
) -> Node {
    Node::given(label, dimension, value).with_typed(typed.text(), place.clone())
}

/// A count, when it is more than one.
fn times(count: u32, node: Node) -> Node {
    if count == 1 {
        return node;
    }
    let label = eco_format!("{count} × {}", node.label);
    let value = node.figure.value * f64::from(count);
    Node::new(
        label,
        node.figure.dimension,
        value,
        crate::figure::Formula::Of("#0 × #1"),
        vec![
            Node::given("count", Dimension::Count, f64::from(count)),
            node,
        ],
    )
}
