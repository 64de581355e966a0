//! Tables and trees for people: at most 80 columns, units in the head, rounded once, here. Not here:
//! computing a figure.

mod blend;
mod card;
mod chances;
mod columns;
mod compare;
pub(crate) mod crew;
mod days;
mod forecast;
mod measure;
mod order;
mod problems;
mod soils;
pub(crate) mod supply;
mod sweep;
mod table;
mod tree;
mod units;

pub(crate) use blend::blends;
pub(crate) use card::cards;
pub(crate) use chances::chances;
pub(crate) use compare::{options, projects};
pub(crate) use days::{days, weekend};
pub(crate) use forecast::forecast;
pub(crate) use measure::measure;
pub(crate) use order::{cautions, order};
pub(crate) use problems::{check, problems};
pub(crate) use soils::{hand, settle, soils};
pub(crate) use sweep::{Swept, changes, round_values, sweep};
pub(crate) use tree::explain;

use hodful_project_file as file;

/// Columns that every output fits.
const WIDTH: usize = 80;

/// Columns for words: fewer on a narrow terminal. Tables keep their columns.
fn width() -> usize {
    textwrap::termwidth().min(WIDTH)
}

/// The demo projects, a line each.
pub(crate) fn demos() -> String {
    let lines: Vec<String> = file::demo_projects()
        .map(|demo| format!("{:<24}{}\n", demo.name, demo.title()))
        .collect();
    lines.concat()
}

/// Every measurement rule with its key, its source and what is said of it.
pub(crate) fn rules() -> String {
    let mut lines = Vec::new();
    for (key, rule) in &file::rules() {
        let mut entry = format!("{key}\n");
        entry += &paragraph("  ", &format!("{}, {}", rule.title, rule.edition));
        entry += &paragraph("  ", &format!("[{}]", rule.source));
        for note in file::rule_notes(key) {
            entry += &paragraph("  ", &note);
        }
        lines.push(entry);
    }
    lines.join("\n")
}

/// The paths of the figures that can be explained.
pub(crate) fn paths(of: &hodful_takeoff::Assessed<'_>) -> String {
    let mut lines = of.paths().join("\n");
    lines.push('\n');
    lines
}

/// A count with its word.
pub(crate) fn count(count: usize, one: &str, more: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { more })
}

/// A paragraph that fits, its first line after `mark`, the others as far in.
fn paragraph(mark: &str, text: &str) -> String {
    let indent = " ".repeat(mark.chars().count());
    let options = textwrap::Options::new(width())
        .initial_indent(mark)
        .subsequent_indent(&indent);
    let mut filled = textwrap::fill(text, options);
    filled.push('\n');
    filled
}
