//! The comparison: the options of a project or two projects side by side, and what makes the differences. Not here:
//! computing them, and the words of causes.

use crate::cells::{body, figures, group, number, text, unknown, words};
use crate::words::{cautions, doubts, no_figures};
use crate::{Beside, Block, Cell, Document, Facts, Paper, Table, is_seen};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Dimension;
use hodful_takeoff::alternative::said;
use hodful_takeoff::compare::said::percent_shown;
use hodful_takeoff::compare::{self, Line, walls};
use hodful_takeoff::project::Name;

/// The most columns of figures side by side: more do not fit a page.
const MOST_BESIDE: usize = 4;

/// The comparison: what each option does otherwise, the figures side by side, then for each what differs
/// from the base and what makes the difference.
///
/// Without anything to compare it says so; while something is refused, that stands in place of the figures.
pub fn comparison(facts: &Facts<'_>, of: &Beside<'_>) -> Document {
    laid_out(facts, of, |blocks| blocks.push(options(facts, of)))
}

/// The comparison of a project with another: what became of the walls, the figures side by side, then what differs and
/// what makes the difference.
///
/// While something is refused, that stands in place of the figures.
pub fn comparison_of_projects(facts: &Facts<'_>, of: &Beside<'_>) -> Document {
    laid_out(facts, of, |blocks| {
        let names = of.all.iter();
        blocks.extend(
            names.map(|(name, one)| Block::Words(eco_format!("{name}: {}", one.project.name))),
        );
        blocks.push(Block::Heading("Walls".into()));
        blocks.push(wall_changes(of, facts.units()));
    })
}

fn laid_out(facts: &Facts<'_>, of: &Beside<'_>, begin: impl FnOnce(&mut Vec<Block>)) -> Document {
    let units = facts.units();
    let mut blocks = Vec::new();
    if facts.assessed.is_none() {
        blocks.push(Block::Heading("What is refused".into()));
        blocks.extend(no_figures(facts));
    } else if of.others().is_empty() && of.refused.is_empty() {
        blocks.push(Block::Words(
            "There is nothing to compare: the project has no options.".into(),
        ));
    } else {
        blocks.extend(doubts(facts));
        begin(&mut blocks);
        refused(of, &mut blocks);
        let table = of.table();
        blocks.push(Block::Heading("Side by side".into()));
        beside(&table, units, &mut blocks);
        for (name, why) in &of.not_planned {
            blocks.push(Block::Words(eco_format!(
                "Deliveries of {name} cannot be planned: {why}."
            )));
        }
        for at in 1..table.names.len() {
            differences(of, &table, at, units, &mut blocks);
        }
    }
    blocks.push(cautions(facts));
    Document {
        paper: Paper::Comparison,
        title: "Comparison".into(),
        about: facts.project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units,
    }
}

/// What became of the walls from the first to the second.
fn wall_changes(of: &Beside<'_>, units: UnitSystem) -> Block {
    let changes = match (of.base(), of.others().first()) {
        (Some((_, a)), Some((_, b))) => walls(a, b),
        _ => Vec::new(),
    };
    if changes.is_empty() {
        return Block::Words("All walls are the same.".into());
    }
    let rows = changes.iter().map(|change| {
        let mut lines = change.said(units).into_iter();
        let first = lines.next().unwrap_or_default();
        let rest: Vec<EcoString> = lines.map(|line| line.trim_start().into()).collect();
        body(vec![text(first), text(rest.join("\n"))])
    });
    Block::Table(Table {
        columns: vec![words("Wall", 2.0), words("What is otherwise", 3.5)],
        rows: rows.collect(),
    })
}

/// What each option does otherwise, of those that are compared.
fn options(facts: &Facts<'_>, of: &Beside<'_>) -> Block {
    let columns = vec![words("Option", 1.5), words("What is otherwise", 4.0)];
    let told = |name: &Name| {
        of.all.iter().any(|(one, _)| one == name) || of.refused.iter().any(|(one, _)| one == name)
    };
    let options = facts.project.options.iter();
    let rows = options
        .filter(|(name, _)| told(name))
        .map(|(name, option)| {
            let mut lines: Vec<EcoString> = Vec::new();
            if let Some(from) = &option.of {
                lines.push(eco_format!("starts from {from}"));
            }
            lines.extend(option.changes.iter().map(said));
            lines.extend(option.note.clone());
            body(vec![text(name.clone()), text(lines.join("\n"))])
        });
    Block::Table(Table {
        columns,
        rows: rows.collect(),
    })
}

fn refused(of: &Beside<'_>, blocks: &mut Vec<Block>) {
    for (name, problems) in &of.refused {
        blocks.push(Block::Words(eco_format!(
            "No figures for {name}, which has something that does not fit or is refused:"
        )));
        let lines = problems.iter();
        blocks.extend(lines.map(|problem| Block::Words(eco_format!("{problem}"))));
    }
}

/// All figures, the base and so many others a table.
fn beside(table: &compare::Table, units: UnitSystem, blocks: &mut Vec<Block>) {
    let others: Vec<usize> = (0..table.names.len())
        .filter(|at| *at != table.base)
        .collect();
    let mut parts: Vec<&[usize]> = others.chunks(MOST_BESIDE - 1).collect();
    if parts.is_empty() {
        parts.push(&[]);
    }
    for part in parts {
        let shown: Vec<usize> = [&[table.base], part].concat();
        let mut columns = vec![words("Figure", 2.5), words("Unit", 0.5)];
        let names = shown.iter().filter_map(|at| table.names.get(*at));
        columns.extend(names.map(|name| figures(name, "", 1.2)));
        let rows = table.rows.iter().map(|row| {
            let unit = unit_of(&row.line, units);
            let mut cells = vec![text(row.line.label()), text(unit)];
            cells.extend(shown.iter().map(|at| {
                let value = row.values.get(*at).copied().flatten();
                match (value, row.words.get(*at).cloned().flatten()) {
                    (Some(_), Some(packages)) => text(packages),
                    (Some(value), None) => cell(&row.line, value, units),
                    (None, _) => unknown(),
                }
            }));
            body(cells)
        });
        let rows = rows.collect();
        blocks.push(Block::Table(Table { columns, rows }));
    }
}

/// What differs of one, and what makes it.
fn differences(
    of: &Beside<'_>,
    table: &compare::Table,
    at: usize,
    units: UnitSystem,
    blocks: &mut Vec<Block>,
) {
    let (Some(name), Some(base)) = (table.names.get(at), table.names.get(table.base)) else {
        return;
    };
    blocks.push(Block::Heading(name.clone()));
    let own = of.doubts.iter().filter(|(one, _)| one == name);
    let own = own.flat_map(|(_, problems)| problems);
    blocks.extend(own.map(|problem| Block::Words(eco_format!("{problem}"))));
    let columns = vec![
        words("Figure", 2.5),
        words("Unit", 0.5),
        figures(base, "", 1.2),
        figures(name, "", 1.2),
        figures("Difference", "", 1.0),
        figures("Of the base", "", 0.8),
    ];
    let rows = table.rows.iter().filter_map(|row| {
        if !row.is_alike(table.base, at) {
            // Packages of unlike kinds have no difference: they are shown themselves.
            let packages = |at: usize| {
                let words = row.words.get(at).cloned().flatten();
                words.map_or_else(unknown, text)
            };
            return Some(body(vec![
                text(row.line.label()),
                text(unit_of(&row.line, units)),
                packages(table.base),
                packages(at),
                unknown(),
                unknown(),
            ]));
        }
        let difference = row.difference(table.base, at)?;
        let shown = row.line.difference_shown(difference, units);
        if !is_seen(&shown) {
            return None;
        }
        let value = |at: usize| row.values.get(at).copied().flatten();
        let share = row.share(table.base, at);
        Some(body(vec![
            text(row.line.label()),
            text(unit_of(&row.line, units)),
            cell(&row.line, value(table.base)?, units),
            cell(&row.line, value(at)?, units),
            signed(&row.line, difference, units),
            share.map_or_else(unknown, |share| text(percent_shown(share, units))),
        ]))
    });
    let rows: Vec<_> = rows.collect();
    if rows.is_empty() {
        blocks.push(Block::Words(eco_format!(
            "No figure differs from {base} in the digits that are shown."
        )));
        return;
    }
    blocks.push(Block::Table(Table { columns, rows }));
    let columns = vec![
        words("What makes the difference", 4.0),
        words("Unit", 0.5),
        figures("Amount", "", 1.2),
    ];
    let mut rows = Vec::new();
    for (line, causes) in of.causes(table, at) {
        let all = line.difference_shown(causes.difference(), units);
        if !is_seen(&all) {
            continue;
        }
        let unit = unit_of(&line, units);
        rows.push(group(eco_format!("{}: {all}", line.label()), columns.len()));
        let seen: Vec<&str> = causes.said(&line, units).iter().map(|of| of.0).collect();
        let terms = causes.terms.iter();
        for term in terms.filter(|term| seen.contains(&term.cause.words())) {
            rows.push(body(vec![
                text(term.cause.words()),
                text(unit.clone()),
                signed(&line, term.amount, units),
            ]));
        }
    }
    if !rows.is_empty() {
        blocks.push(Block::Table(Table { columns, rows }));
        blocks.push(Block::Words(
            "The amounts add up to the difference; each is rounded by itself.".into(),
        ));
    }
}

/// The unit in which a line is shown; nothing for counts and money.
pub fn unit_of(line: &Line, units: UnitSystem) -> EcoString {
    if has_unit(line) {
        let shown = line.shown(0.0, units);
        let unit = shown.rsplit_once(' ').map(|(_, unit)| unit);
        unit.unwrap_or_default().into()
    } else {
        EcoString::new()
    }
}

/// A figure of a line as it is shown, without its unit.
pub fn digits<'s>(line: &Line, shown: &'s str) -> &'s str {
    if has_unit(line) {
        shown.rsplit_once(' ').map_or(shown, |(digits, _)| digits)
    } else {
        shown
    }
}

fn has_unit(line: &Line) -> bool {
    matches!(
        line.dimension(),
        Dimension::Area | Dimension::Volume | Dimension::Mass
    )
}

/// A value of a line without its unit.
pub(crate) fn cell(line: &Line, value: f64, units: UnitSystem) -> Cell {
    as_cell(line, value, &line.shown(value, units), units)
}

/// A difference with its sign.
fn signed(line: &Line, value: f64, units: UnitSystem) -> Cell {
    as_cell(line, value, &line.difference_shown(value, units), units)
}

fn as_cell(line: &Line, value: f64, shown: &str, units: UnitSystem) -> Cell {
    let shown = digits(line, shown);
    let decimals = shown.rsplit_once('.').map_or(0, |(_, part)| part.len());
    let decimals = u8::try_from(decimals).unwrap_or(u8::MAX);
    let Cell::Figure { value, .. } = number(in_unit(line, value, units), decimals, units) else {
        return Cell::Empty;
    };
    Cell::Figure {
        shown: shown.into(),
        value,
        decimals,
    }
}

/// A value of a line in the unit in which it is shown.
fn in_unit(line: &Line, value: f64, units: UnitSystem) -> f64 {
    use hodful_quantities::units::{
        Mass, Volume, area_of_mm2, cubic_meter, cubic_yard, kilogram, pound, square_foot,
        square_meter,
    };
    let volume = || Volume {
        value,
        ..Volume::default()
    };
    let mass = || Mass {
        value,
        ..Mass::default()
    };
    match (line.dimension(), units) {
        (Dimension::Area, UnitSystem::Us) => area_of_mm2(value).get::<square_foot>(),
        (Dimension::Area, UnitSystem::Metric) => area_of_mm2(value).get::<square_meter>(),
        (Dimension::Volume, UnitSystem::Us) => volume().get::<cubic_yard>(),
        (Dimension::Volume, UnitSystem::Metric) => volume().get::<cubic_meter>(),
        (Dimension::Mass, UnitSystem::Us) => mass().get::<pound>(),
        (Dimension::Mass, UnitSystem::Metric) => mass().get::<kilogram>(),
        _ => value,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By the definitions of the units: 1 yd = 0.9144 m, 1 ft = 0.3048 m, 1 lb = 0.453 592 37 kg (National
    /// Institute of Standards and Technology, SP 811 (2008), app. B).
    #[test]
    fn values_stand_in_the_unit_they_are_shown_in() {
        let us = UnitSystem::Us;
        for (line, value, expected, shown, unit_shown) in [
            (Line::AllMixed, 914.4_f64.powi(3), 1.0, "1.00", "yd³"),
            (Line::Surface, 304.8_f64.powi(2), 1.0, "1.0", "ft²"),
            (Line::Mass("clay".into()), 0.453_592_37, 1.0, "1.0", "lb"),
            (Line::Cost, 12.5, 12.5, "12.50", ""),
            (Line::Batches, 7.0, 7.0, "7", ""),
        ] {
            let Cell::Figure {
                shown: found,
                value: of,
                ..
            } = cell(&line, value, us)
            else {
                panic!("{line:?}")
            };
            assert!((of - expected).abs() < 1e-12, "{line:?}: {of}");
            assert_eq!(found, shown, "{line:?}");
            assert_eq!(unit_of(&line, us), unit_shown, "{line:?}");
        }
    }
}
