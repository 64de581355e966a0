//! Options or projects side by side, and what makes the differences. Not here: computing them.

use super::columns::{Column, tables};
use super::paragraph;
use super::table::Table;
use hodful_documents::{Beside, digits, is_seen, unit_of};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Project;
use hodful_takeoff::alternative::said;
use hodful_takeoff::compare::said::percent_shown;
use hodful_takeoff::compare::{self, Row, walls};
use hodful_takeoff::project::Name;

/// Columns of a name over its figures, and of packages in words.
const NARROW: usize = 15;

/// What stands where a figure cannot be told.
const UNKNOWN: &str = "–";

/// The options of a project side by side.
pub(crate) fn options(of: &Beside<'_>, project: &Project, units: UnitSystem) -> String {
    let mut out = paragraph("", &project.name);
    out.push_str("\nOPTIONS\n");
    let compared = |name: &Name| of.all.iter().any(|(one, _)| one == name);
    for (name, option) in project.options.iter().filter(|(name, _)| compared(name)) {
        let from = option.of.iter().map(|from| format!("as {from}, and"));
        let changes = option.changes.iter().map(|change| said(change).to_string());
        let changes: Vec<String> = changes.collect();
        let changes = match changes.as_slice() {
            [] => "nothing is otherwise".to_owned(),
            some => some.join("; "),
        };
        let words: Vec<String> = from.chain([changes]).collect();
        out.push_str(&paragraph("- ", &format!("{name}: {}", words.join(" "))));
    }
    figures(of, units, &mut out);
    out
}

/// Two projects side by side.
pub(crate) fn projects(of: &Beside<'_>, units: UnitSystem) -> String {
    let mut out = String::new();
    for (name, one) in &of.all {
        out.push_str(&paragraph("", &format!("{name}: {}", one.project.name)));
    }
    out.push_str("\nWALLS\n");
    let changes = of.all.first().zip(of.all.get(1));
    let changes = changes.map_or_else(Vec::new, |((_, a), (_, b))| walls(a, b));
    if changes.is_empty() {
        out.push_str("All walls are the same.\n");
    }
    for change in &changes {
        for line in change.said(units) {
            let words = line.trim_start();
            let mark = " ".repeat(line.chars().count() - words.chars().count());
            out.push_str(&paragraph(&mark, words));
        }
    }
    figures(of, units, &mut out);
    out
}

fn figures(of: &Beside<'_>, units: UnitSystem, out: &mut String) {
    let table = of.table();
    let Some(base) = table.names.get(table.base) else {
        return;
    };
    out.push_str("\nSIDE BY SIDE\n");
    out.push_str(&side_by_side(&table, units));
    let words = format!("Under a figure stands how much more it is than {base}, and in percent.");
    out.push_str(&paragraph("", &words));
    for (name, why) in &of.not_planned {
        let words = format!("Deliveries of {name} cannot be planned: {why}.");
        out.push_str(&paragraph("", &words));
    }
    out.push_str("\nWHAT MAKES THE DIFFERENCE\n");
    for at in 1..table.names.len() {
        out.push_str(&causes(of, &table, at, units));
    }
}

/// All figures, as many columns as fit, the base at the left of each table.
fn side_by_side(table: &compare::Table, units: UnitSystem) -> String {
    let labels = table.rows.iter().map(|row| row.line.label().to_string());
    let shown_units = table
        .rows
        .iter()
        .map(|row| unit_of(&row.line, units).to_string());
    let columns = table.names.iter().enumerate().map(|(at, name)| {
        let cells = table
            .rows
            .iter()
            .map(|row| cell(row, table.base, at, units));
        Column::new(textwrap::fill(name, NARROW), cells.collect())
    });
    let columns: Vec<Column> = columns.collect();
    let mut first = vec![
        Column::new("Figure", labels.collect()),
        Column::new("Unit", shown_units.collect()),
    ];
    let mut others = columns;
    if table.base < others.len() {
        first.push(others.remove(table.base));
    }
    tables(&[0, 1], &first, &others)
}

/// A figure with its difference under it.
fn cell(row: &Row, base: usize, at: usize, units: UnitSystem) -> String {
    let Some(value) = row.values.get(at).copied().flatten() else {
        return UNKNOWN.to_owned();
    };
    let words = row.words.get(at).cloned().flatten();
    let mut cell = words.map_or_else(
        || digits(&row.line, &row.line.shown(value, units)).to_owned(),
        |words| textwrap::fill(&words, NARROW),
    );
    if !row.is_alike(base, at) {
        // Packages of unlike kinds have no difference.
        cell.push('\n');
        cell.push_str(UNKNOWN);
        return cell;
    }
    let difference = row.difference(base, at).filter(|_| at != base);
    let Some(difference) = difference else {
        return cell;
    };
    let shown = row.line.difference_shown(difference, units);
    if is_seen(&shown) {
        cell.push('\n');
        cell.push_str(digits(&row.line, &shown));
        if let Some(share) = row.share(base, at) {
            cell.push(' ');
            cell.push_str(&percent_shown(share, units));
        }
    }
    cell
}

/// What makes the differences of one.
fn causes(of: &Beside<'_>, table: &compare::Table, at: usize, units: UnitSystem) -> String {
    let name = table.names.get(at).map_or("", Name::as_str);
    let mut grid = Table::new(&[0, 1], ["Figure", "Because of", "Amount"]);
    let mut any = false;
    for (line, causes) in of.causes(table, at) {
        let all = line.difference_shown(causes.difference(), units);
        if !is_seen(&all) {
            continue;
        }
        any = true;
        grid.row([line.label().to_string(), "in all".to_owned(), all]);
        for (cause, amount) in causes.said(&line, units) {
            grid.row([String::new(), format!("  {cause}"), amount]);
        }
    }
    let mut out = paragraph("", name);
    if any {
        out.push_str(&grid.print());
    } else {
        out.push_str("Neither cost, batches nor a material differs.\n");
    }
    out.push('\n');
    out
}
