//! Words that stand in more than one document: cautions, problems, what keeps figures back. Not here:
//! cells.

use crate::cells::{body, text, words};
use crate::{Block, Facts, Table};
use ecow::{EcoString, eco_format};
use hodful_takeoff::project::MaterialKind;
use hodful_takeoff::{Assessed, Problem, Severity};
use std::iter::zip;

/// A count with its word: `1 wall`, `3 walls`.
pub(crate) fn count(count: usize, one: &str, more: &str) -> EcoString {
    eco_format!("{count} {}", if count == 1 { one } else { more })
}

/// The cautions that the work calls for; all of them while that cannot be told.
pub(crate) fn cautions(facts: &Facts<'_>) -> Block {
    let called = |when| facts.assessed.is_none_or(|of| of.calls_for(when));
    let lines = facts.cautions.iter().filter(|c| called(c.applies));
    Block::Cautions(
        lines
            .map(|c| eco_format!("{}: {}", c.title, c.brief))
            .collect(),
    )
}

/// The materials that have to be bought and have no package to be bought in, in the order of the project.
///
/// Water is none of them, nor what the yard covers.
pub fn without_package<'p>(of: &Assessed<'p>) -> Vec<&'p str> {
    let all = zip(&of.project.materials, &of.evaluation.materials);
    let missing = all.filter(|((_, material), figures)| {
        let is_needed = !figures.uses.is_empty() && figures.cover.is_none();
        is_needed && material.kind != MaterialKind::Water && material.packages.is_empty()
    });
    missing.map(|((name, _), _)| name.as_str()).collect()
}

/// Where figures would stand: that there are none while something is refused.
pub(crate) fn no_figures(facts: &Facts<'_>) -> Vec<Block> {
    let refused = count(facts.refused(), "thing is refused", "things are refused");
    let mut blocks = vec![Block::Words(eco_format!(
        "{refused} in this project; no figures are given until it is mended."
    ))];
    blocks.extend(problems(facts));
    blocks
}

/// Everything refused and doubtful with its source, those refused first; in a word when there is nothing.
pub(crate) fn problems(facts: &Facts<'_>) -> Vec<Block> {
    if facts.problems.is_empty() {
        return vec![Block::Words("Nothing refused, nothing doubtful.".into())];
    }
    let of = |severity| {
        let is = move |problem: &&Problem| problem.severity == severity;
        facts.problems.iter().filter(is)
    };
    let all = of(Severity::Refused).chain(of(Severity::Doubtful));
    // A source stands behind some; where there is none at all, the column says nothing.
    let sourced = facts
        .problems
        .iter()
        .any(|problem| problem.source.is_some());
    let rows = all.map(|problem| {
        let word = match problem.severity {
            Severity::Refused => "refused",
            Severity::Doubtful => "doubtful",
        };
        let mut cells = vec![
            text(word),
            text(eco_format!("{}", problem.place)),
            text(problem.message.clone()),
        ];
        if sourced {
            cells.push(text(problem.source.unwrap_or_default()));
        }
        body(cells)
    });
    let mut columns = vec![
        words("Finding", 1.0),
        words("Where", 2.5),
        words("What is wrong, and what to do", 5.0),
    ];
    if sourced {
        columns.push(words("Source", 3.0));
    }
    vec![Block::Table(Table {
        columns,
        rows: rows.collect(),
    })]
}

/// That something is doubtful, when something is, and where it is told.
pub(crate) fn doubts(facts: &Facts<'_>) -> Option<Block> {
    let doubtful = facts.doubtful();
    (doubtful > 0).then(|| {
        let things = count(doubtful, "thing is doubtful", "things are doubtful");
        Block::Words(eco_format!(
            "{things} in this project and computed all the same; the summary says what."
        ))
    })
}
