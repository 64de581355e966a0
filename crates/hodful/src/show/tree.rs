//! An explanation as a tree. Numbers stand in coherent units (feet and pounds, metres and kilograms),
//! so that each formula can be worked on a calculator. Not here: how the figure came about.

use super::width;
use hodful_quantities::print::{UnitSystem, significant};
use hodful_takeoff::{Dimension, Figure, Formula, Node};
use std::collections::HashSet;

/// Digits of a number in a formula: enough for a calculator to come back to the figure.
const DIGITS: u32 = 6;

/// Terms a sum still writes out.
const WRITTEN_OUT: usize = 6;

/// The tree of a figure, `depth` levels of it when given.
pub(crate) fn explain(node: &Node, depth: Option<usize>, units: UnitSystem) -> String {
    let mut tree = Tree {
        units,
        out: String::new(),
        seen: HashSet::new(),
        told: HashSet::new(),
    };
    tree.node(node, "", "", depth);
    tree.out
}

struct Tree {
    units: UnitSystem,
    out: String,
    /// Paths of the figures printed with their terms already.
    seen: HashSet<String>,
    /// Paths of the figures whose source is told.
    told: HashSet<String>,
}

impl Tree {
    fn node(&mut self, node: &Node, first: &str, rest: &str, depth: Option<usize>) {
        let again = node
            .path
            .as_ref()
            .is_some_and(|path| self.seen.contains(path.as_str()));
        let cut = depth == Some(0) || again;
        let mut line = format!("{}: {}", node.label, with_unit(node.figure, self.units));
        if let Some(formula) = formula(node, self.units) {
            line.extend([" = ", &formula]);
        }
        if let Some(typed) = &node.typed {
            line.extend([", typed ", typed]);
            if let Some(place) = &node.place {
                line.extend([" at ", &place.to_string()]);
            }
        }
        if again && !node.terms.is_empty() {
            line.push_str(" (its terms stand above)");
        }
        self.paragraph(&line, first, rest);
        let told = node
            .path
            .as_ref()
            .is_some_and(|path| !self.told.insert(path.to_string()));
        if let Some(source) = node.source.as_ref().filter(|_| !told) {
            let bar = if cut || node.terms.is_empty() {
                " "
            } else {
                "│"
            };
            let indent = format!("{rest}{bar}   ");
            self.paragraph(&format!("[{source}]"), &indent, &indent);
        }
        if cut {
            return;
        }
        if let Some(path) = &node.path {
            self.seen.insert(path.to_string());
        }
        let last = node.terms.len().saturating_sub(1);
        for (i, term) in node.terms.iter().enumerate() {
            let (branch, bar) = if i == last {
                ("└─ ", "   ")
            } else {
                ("├─ ", "│  ")
            };
            self.node(
                term,
                &format!("{rest}{branch}"),
                &format!("{rest}{bar}"),
                depth.map(|d| d - 1),
            );
        }
    }

    fn paragraph(&mut self, text: &str, first: &str, rest: &str) {
        let hanging = format!("{rest}    ");
        // A deep branch still gets room for words.
        let width = width().max(rest.chars().count() + width() / 2);
        let options = textwrap::Options::new(width)
            .initial_indent(first)
            .subsequent_indent(&hanging);
        self.out.push_str(&textwrap::fill(text, options));
        self.out.push('\n');
    }
}

fn with_unit(figure: Figure, units: UnitSystem) -> String {
    let number = coherent(figure, units);
    let unit = figure.dimension.unit(units);
    match figure.dimension {
        Dimension::Angle => format!("{number}{unit}"),
        _ if unit.is_empty() => number,
        _ => format!("{number} {unit}"),
    }
}

/// The formula with the numbers of its terms; `None` for what is given.
fn formula(node: &Node, units: UnitSystem) -> Option<String> {
    let term = |index: usize| node.terms.get(index).map(|t| with_unit(t.figure, units));
    match node.formula {
        Formula::Given | Formula::Of("#0") => None,
        Formula::From => (!node.terms.is_empty()).then(|| "worked out from".to_owned()),
        Formula::Sum if node.terms.is_empty() => None,
        Formula::Sum if node.terms.len() > WRITTEN_OUT => {
            Some(format!("sum of {} terms", node.terms.len()))
        }
        Formula::Sum if node.terms.len() == 1 => None,
        Formula::Sum => {
            let mut out = String::new();
            for (i, term) in node.terms.iter().enumerate() {
                let Figure { value, dimension } = term.figure;
                let sign = match (i, value < 0.0) {
                    (0, false) => "",
                    (0, true) => "−",
                    (_, false) => " + ",
                    (_, true) => " − ",
                };
                let value = value.abs();
                out.extend([sign, &with_unit(Figure { value, dimension }, units)]);
            }
            Some(out)
        }
        Formula::Of(template) => {
            let mut out = String::new();
            let mut pieces = template.split('#');
            out.push_str(pieces.next().unwrap_or_default());
            for piece in pieces {
                let digits = piece.chars().take_while(char::is_ascii_digit).count();
                let (index, rest) = piece.split_at_checked(digits).unwrap_or((piece, ""));
                out.push_str(&index.parse().ok().and_then(term).unwrap_or_default());
                out.push_str(rest);
            }
            Some(out)
        }
    }
}

/// The number of a figure in its coherent unit.
fn coherent(figure: Figure, units: UnitSystem) -> String {
    let value = match figure.dimension {
        Dimension::Angle => figure.value.to_degrees(),
        dimension => figure.value * dimension.factor(units),
    };
    significant(value, DIGITS)
}
