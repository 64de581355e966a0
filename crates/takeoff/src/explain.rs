//! How a figure came about: a tree from the figure down to what was typed. The numbers are those of
//! the evaluation and of the same functions it calls; only the words and formulas are added here.
//! Not here: printing.
//!
//! A figure is asked for by its path: `order.sand`, `walls.S.outside`,
//! `coats."outside bale".scratch.mixed`. Names with blanks or dots stand in double quotes.

mod coats;
mod corners;
mod faces;
mod materials;
mod mixes;
mod openings;
mod path;
mod payment;
mod totals;

use crate::checked::{Checked, FindWall, Site};
use crate::evaluate::Evaluation;
use crate::figure::{Dimension, Node};
use crate::problem::Place;
use crate::project::{Project, Side};
use ecow::{EcoString, eco_format};
use hodful_quantities::Measure;
use hodful_quantities::Typed;

pub use path::{PathFault, quoted};

/// What a figure is explained from.
#[derive(Debug, Clone, Copy)]
pub struct Source<'a> {
    /// The project as typed.
    pub project: &'a Project,
    /// Its figures.
    pub evaluation: &'a Evaluation,
    site: &'a Site,
    walls: &'a dyn FindWall,
    /// Walls that count for nothing because something in them is refused.
    left_out: usize,
    /// Sums over all faces give each as its figure and its path alone: trees of a great many walls would
    /// take seconds and gigabytes, and nobody reads them whole.
    brief: bool,
}

impl<'a> Source<'a> {
    /// A project, the same checked, and its figures.
    pub fn new(project: &'a Project, checked: &'a Checked, evaluation: &'a Evaluation) -> Self {
        Self::of_parts(project, &checked.site, &checked.walls, evaluation, 0)
    }

    /// As [`Self::new`], of a project in which something may be refused.
    pub(crate) fn of_parts(
        project: &'a Project,
        site: &'a Site,
        walls: &'a dyn FindWall,
        evaluation: &'a Evaluation,
        left_out: usize,
    ) -> Self {
        Self {
            project,
            evaluation,
            site,
            walls,
            left_out,
            brief: false,
        }
    }

    /// With sums over all faces that give each as its figure and its path alone, when asked for.
    pub(crate) fn briefly(self, brief: bool) -> Self {
        Self { brief, ..self }
    }

    /// Says how many walls a sum leaves out, when it leaves out any.
    fn sum_of(&self, label: EcoString) -> EcoString {
        match self.left_out {
            0 => label,
            1 => eco_format!("{label} (1 wall left out)"),
            walls => eco_format!("{label} ({walls} walls left out)"),
        }
    }
}

/// A figure that something refused keeps from being told.
fn waits(what: impl Into<EcoString>) -> PathFault {
    PathFault::Waits { what: what.into() }
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
        ["totals", figure] if totals::FIGURES.contains(figure) => totals::explain(source, figure),
        ["totals", rest @ ..] => faces::totals(source, rest),
        ["coats", build_up, coat, rest @ ..] => coats::explain(source, build_up, coat, rest),
        ["batch", build_up, coat, material, rest @ ..] => {
            coats::batch(source, build_up, coat, material, rest)
        }
        ["mixes", mix, rest @ ..] => mixes::explain(source, mix, rest),
        ["order", rest @ ..] => materials::explain(source, rest),
        [first, ..] if path::HEADS.contains(first) => Err(short(source, first)),
        [first, ..] => Err(PathFault::Head {
            head: (*first).into(),
        }),
        [] => Err(PathFault::Empty),
    }
}

/// A path that stops at its first step.
fn short(source: Source<'_>, head: &str) -> PathFault {
    let begins = |path: &EcoString| path.split('.').next() == Some(head);
    PathFault::Short {
        head: head.into(),
        there: paths(source).into_iter().filter(begins).collect(),
    }
}

/// The paths of a project's figures: each wall face, coat, mix and material once, in that order. What
/// stands below them is named when a path goes wrong.
pub fn paths(source: Source<'_>) -> Vec<EcoString> {
    let project = source.project;
    let mut paths: Vec<EcoString> = ["order.cost", "totals.true_surface", "totals.measured"]
        .map(EcoString::from)
        .to_vec();
    for (name, figures) in std::iter::zip(project.materials.keys(), &source.evaluation.materials) {
        if !figures.uses.is_empty() {
            paths.push(eco_format!("order.{}", quoted(name)));
        }
    }
    for (name, coats) in &project.build_ups {
        for coat in coats {
            paths.push(eco_format!("coats.{}.{}", quoted(name), quoted(&coat.coat)));
        }
    }
    for (at, (name, mix)) in project.mixes.iter().enumerate() {
        paths.push(eco_format!("mixes.{}.yield", quoted(name)));
        if source.site.mix(at).is_some_and(|mix| mix.clay.is_some()) {
            paths.push(eco_format!("mixes.{}.clay", quoted(name)));
        }
        let coats = project
            .build_ups
            .iter()
            .flat_map(|(b, coats)| coats.iter().map(move |c| (b, c)));
        let first = coats.into_iter().find(|(_, coat)| coat.mix == *name);
        if let Some((build_up, coat)) = first.filter(|_| project.mixer.is_some()) {
            let coat = eco_format!("batch.{}.{}", quoted(build_up), quoted(&coat.coat));
            paths.extend(
                mix.parts
                    .keys()
                    .map(|m| eco_format!("{coat}.{}", quoted(m))),
            );
        }
    }
    for wall in &project.walls {
        for side in [Side::Outside, Side::Inside] {
            if wall.face(side).is_some() {
                paths.push(eco_format!("walls.{}.{}", quoted(&wall.id), side.word()));
            }
        }
    }
    paths
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
