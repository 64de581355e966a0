//! The tree of a figure. Not here: how the figure came about.

use crate::write::plain_text;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::{Dimension, Formula, Node};
use serde::Serialize;
use std::collections::HashSet;

/// A figure and its terms, in the International System.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ExplainReport {
    /// `hodful-explain`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called.
    pub project: String,
    /// The figure.
    pub figure: FigureNode,
}

/// One figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FigureNode {
    /// What it is called.
    pub label: String,
    /// Its value.
    pub value: f64,
    /// Unit of the value; empty for plain numbers.
    pub unit: &'static str,
    /// Formula over the terms, `#0` the first; `sum` when all are added.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub formula: Option<&'static str>,
    /// The text it was typed as.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub typed: Option<String>,
    /// Where it was typed, or what it belongs to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// Published source of a rule or default.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
    /// The path by which it can be asked for alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub path: Option<String>,
    /// The terms; left out where the same path stands before, with its terms.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub terms: Vec<Self>,
}

/// One line of the CSV.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "the keys of the format, as in the JSON")]
pub struct FigureLine {
    pub level: usize,
    pub label: String,
    pub value: f64,
    pub unit: &'static str,
    pub formula: Option<&'static str>,
    pub typed: String,
    pub place: String,
    pub source: String,
}

impl ExplainReport {
    /// The lines of the CSV, the tree from the top down.
    pub fn lines(&self) -> Vec<FigureLine> {
        let mut lines = Vec::new();
        push(&self.figure, 0, &mut lines);
        lines
    }
}

fn push(node: &FigureNode, level: usize, lines: &mut Vec<FigureLine>) {
    let text = |text: &Option<String>| text.as_deref().map(plain_text).unwrap_or_default();
    lines.push(FigureLine {
        level,
        label: plain_text(&node.label),
        value: node.value,
        unit: node.unit,
        formula: node.formula,
        typed: text(&node.typed),
        place: text(&node.place),
        source: text(&node.source),
    });
    for term in &node.terms {
        push(term, level + 1, lines);
    }
}

/// The tree of a figure, `depth` levels of it when given.
pub fn explain(project: &str, node: &Node, depth: Option<usize>) -> ExplainReport {
    ExplainReport {
        format: "hodful-explain",
        version: 1,
        project: project.to_owned(),
        figure: figure(node, depth, &mut HashSet::new()),
    }
}

/// Name of the unit a figure leaves in: that of the International System.
fn unit(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Length => "m",
        Dimension::Area => "m2",
        Dimension::Volume => "m3",
        Dimension::Mass => "kg",
        Dimension::Density => "kg/m3",
        Dimension::Angle => "rad",
        Dimension::Number | Dimension::Count | Dimension::Money => "",
    }
}

fn figure<'n>(node: &'n Node, depth: Option<usize>, seen: &mut HashSet<&'n str>) -> FigureNode {
    let dimension = node.figure.dimension;
    let text = |text: &Option<_>| text.as_ref().map(ToString::to_string);
    let again = node.path.as_ref().is_some_and(|path| !seen.insert(path));
    let terms = match depth {
        Some(0) => Vec::new(),
        _ if again => Vec::new(),
        depth => {
            let below = depth.map(|d| d - 1);
            node.terms
                .iter()
                .map(|term| figure(term, below, seen))
                .collect()
        }
    };
    FigureNode {
        label: node.label.to_string(),
        value: node.figure.value * dimension.factor(UnitSystem::Metric),
        unit: unit(dimension),
        formula: match node.formula {
            Formula::Given | Formula::From => None,
            Formula::Sum => Some("sum"),
            Formula::Of(formula) => Some(formula),
        },
        typed: text(&node.typed),
        place: node.place.as_ref().map(ToString::to_string),
        source: text(&node.source),
        path: text(&node.path),
        terms,
    }
}
