//! An explanation as a tree. Numbers stand in coherent units (feet and pounds, metres and kilograms),
//! so that each formula can be worked on a calculator. Not here: how the figure came about.

use super::width;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Node;
use std::collections::HashSet;

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
        let mut line = format!("{}: {}", node.label, node.figure.words(self.units));
        if let Some(formula) = node.formula_words(self.units) {
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
