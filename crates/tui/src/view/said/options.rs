//! What is said of options: side by side with the base, and what makes the difference. Not
//! here: comparing them (see `hodful_takeoff::compare`).

use super::Said;
use crate::State;
use crate::command::Id;
use crate::state::Compared;
use ecow::{EcoString, eco_format};
use hodful_takeoff::compare::said::percent_shown;
use hodful_takeoff::compare::{Causes, Line, Row, Table};
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::MaterialKind;
use hodful_takeoff::{Dimension, alternative};

pub(super) fn said(state: &State, subject: Option<Subject>) -> Vec<Said> {
    let project = state.project();
    let key = |id| state.keymap().first(id);
    let mut said = Vec::new();
    if project.options.is_empty() {
        said.push(Said::words(format_args!(
            "No option yet. Press {} to set the mark, change what you want to try on the other pages, then come back here and press {}: what was tried becomes an option, and the project is as it was.",
            key(Id::SetMark),
            key(Id::Add)
        )));
        return said;
    }
    let Some((of, compared)) = state.compared() else {
        said.push(Said::words("The options are being compared."));
        return said;
    };
    if !state.is_compared() {
        said.push(Said::Bad(
            "This is of before the last change; it is being compared anew.".into(),
        ));
    }
    let chosen = match subject {
        Some(
            Subject::Alternative(at)
            | Subject::Alteration {
                alternative: at, ..
            },
        ) => Some(at),
        _ => None,
    };
    let column = match chosen.map(|at| compared.options.get(at)) {
        Some(Some(Ok(column))) => Some(*column),
        Some(Some(Err(words))) => {
            said.push(Said::Bad("This option cannot be had:".into()));
            said.extend(words.iter().cloned().map(Said::Under));
            return said;
        }
        // The project is one like the others where another is the base.
        _ => compared.table.as_ref().filter(|of| of.base != 0).map(|_| 0),
    };
    base(state, compared, &mut said);
    side_by_side(state, compared, column, &mut said);
    not_planned(compared, column, &mut said);
    if let Some(column) = column {
        why(state, compared, column, &mut said);
        if let Some((name, option)) = chosen.and_then(|at| of.options.get_index(at)) {
            said.push(Said::Gap);
            said.push(Said::Head(eco_format!("{name}: what is otherwise")));
            if let Some(from) = &option.of {
                said.push(Said::under(format_args!("all of {from}, and")));
            }
            let changes = option.changes.iter().map(alternative::said);
            said.extend(changes.map(Said::Under));
            said.extend(option.note.iter().cloned().map(Said::Words));
        }
    }
    let faulty = compared.options.iter().filter(|of| of.is_err()).count();
    if faulty > 0 {
        said.push(Said::Gap);
        let words = if faulty == 1 {
            "option does"
        } else {
            "options do"
        };
        said.push(Said::Bad(eco_format!(
            "{faulty} {words} not fit any more, or is refused: choose it to see why."
        )));
    }
    said
}

/// Differences of less than this share of an area, a volume or a mass are told as none. Common practice, no source.
/// What is counted or paid is told however small.
const ALIKE: f64 = 0.005;

/// Where there is no difference, or none that can be told.
const UNTOLD: &str = "–";

/// The lines in the order of what is decided by: money, work, what is ordered, plaster, surfaces. Nothing
/// twice: minerals loose, all else by mass, and no water.
fn rows<'t>(table: &'t Table, water: Option<&EcoString>) -> Vec<&'t Row> {
    let loose = |name: &EcoString| {
        let line = Line::Loose(name.clone());
        table.rows.iter().any(|row| row.line == line)
    };
    let told = |row: &&Row| match &row.line {
        Line::Mass(name) => !loose(name) && Some(name) != water,
        _ => true,
    };
    let mut rows: Vec<&Row> = table.rows.iter().filter(told).collect();
    rows.sort_by_key(|row| match row.line {
        Line::Cost => 0,
        Line::Bought => 1,
        Line::Trips => 2,
        Line::Batches => 3,
        Line::Packages(_) => 4,
        Line::Loose(_) | Line::Mass(_) => 5,
        Line::AllPlaced | Line::AllMixed => 6,
        Line::Placed { .. } | Line::Mixed { .. } => 7,
        Line::Surface | Line::Payment => 8,
    });
    rows
}

/// What all is held against, where that is not the project as it stands.
fn base(state: &State, compared: &Compared, said: &mut Vec<Said>) {
    let (Some(asked), Some(table)) = (&compared.base, &compared.table) else {
        return;
    };
    let key = state.keymap().first(Id::Base);
    let name = table.names.get(table.base).cloned().unwrap_or_default();
    if table.base == 0 {
        said.push(Said::Bad(eco_format!(
            "All is held against {name}, since option {asked} cannot be had."
        )));
    } else {
        said.push(Said::words(format_args!(
            "All is held against option {name}; {key} on the project holds it against that again."
        )));
    }
}

/// Why deliveries could not be planned, of those that are looked at: the chosen one and the base, or all of them.
fn not_planned(compared: &Compared, column: Option<usize>, said: &mut Vec<Said>) {
    let Some(table) = &compared.table else {
        return;
    };
    let each = table.names.iter().zip(&compared.not_planned).enumerate();
    for (at, (name, why)) in each {
        let is_looked_at = column.is_none_or(|column| at == column || at == table.base);
        if let Some(why) = why.as_ref().filter(|_| is_looked_at) {
            said.push(Said::Bad(eco_format!(
                "Deliveries of {name} cannot be planned: {why}."
            )));
        }
    }
}

/// The table: the base, the chosen option with its difference, then the others as far as there is room.
fn side_by_side(state: &State, compared: &Compared, column: Option<usize>, said: &mut Vec<Said>) {
    let Some(table) = &compared.table else {
        return;
    };
    let units = state.units();
    let project = state.project();
    let water = project.materials.iter();
    let water = water.filter(|(_, of)| of.kind == MaterialKind::Water);
    let water = water.map(|(name, _)| name).next();
    let rows = rows(table, water);
    let name = |at: usize| table.names.get(at).cloned().unwrap_or_default();
    let base = table.base;
    let column = column.filter(|column| *column != base);
    let others = (0..table.names.len()).filter(|at| Some(*at) != column && *at != base);
    let held = if base == 0 {
        name(base)
    } else {
        eco_format!("{} (base)", name(base))
    };
    let mut head = vec![EcoString::new(), held];
    // The difference is what a small window shows first.
    let mut first = Vec::new();
    if let Some(column) = column {
        head.extend([name(column), "more or less".into(), EcoString::new()]);
        first.extend([3, 2, 4, 1]);
    }
    head.extend(others.clone().map(name));
    let shown = |row: &Row, at: usize| -> EcoString {
        if let Some(Some(words)) = row.words.get(at) {
            return words.as_str().into();
        }
        row.values
            .get(at)
            .copied()
            .flatten()
            .map_or_else(|| "–".into(), |value| row.line.shown(value, units).into())
    };
    let alike = |row: &Row, at: usize| {
        let is_counted = matches!(row.line.dimension(), Dimension::Count | Dimension::Money);
        row.is_alike(base, at)
            && (row.values.get(at) == row.values.get(base)
                || (!is_counted && row.share(base, at).is_some_and(|share| share.abs() < ALIKE)))
    };
    let differs = |row: &&&Row| match column {
        Some(column) => !alike(row, column),
        None => (0..table.names.len()).any(|at| !alike(row, at)),
    };
    let mut cells_of_rows = Vec::new();
    for row in rows.iter().filter(differs) {
        let mut cells = vec![row.line.label(), shown(row, base)];
        if let Some(column) = column {
            let more = row.difference(base, column);
            let share = row.share(base, column);
            cells.extend([
                shown(row, column),
                more.map_or_else(
                    || UNTOLD.into(),
                    |of| row.line.difference_shown(of, units).into(),
                ),
                share.map_or_else(|| UNTOLD.into(), |of| percent_shown(of, units).into()),
            ]);
        }
        cells.extend(others.clone().map(|at| shown(row, at)));
        cells_of_rows.push(cells);
    }
    if cells_of_rows.is_empty() {
        said.push(Said::words("No figure differs by half a percent or more."));
        return;
    }
    said.push(Said::Columns {
        head,
        rows: cells_of_rows,
        first,
    });
    let same = rows.iter().filter(|row| !differs(row));
    let same: Vec<EcoString> = same.map(|row| row.line.label()).collect();
    if !same.is_empty() {
        let name = |at: usize| table.names.get(at).map_or("", |name| name.as_str());
        let of = column.map_or_else(EcoString::new, |column| {
            eco_format!(" in {} and {}", name(base), name(column))
        });
        said.push(Said::words(format_args!(
            "Alike{of}, to half a percent: {}.",
            same.join("; ")
        )));
    }
}

/// Whether a cause is told of a line here: the money, the work, and each material once.
fn is_told(line: &Line, all: &[(Line, Causes)]) -> bool {
    match line {
        Line::Cost | Line::Batches | Line::AllMixed | Line::Loose(_) => true,
        Line::Mass(name) => !all
            .iter()
            .any(|(other, _)| *other == Line::Loose(name.clone())),
        _ => false,
    }
}

fn why(state: &State, compared: &Compared, column: usize, said: &mut Vec<Said>) {
    let Some(all) = compared.causes.get(column).filter(|all| !all.is_empty()) else {
        return;
    };
    let units = state.units();
    said.push(Said::Gap);
    said.push(Said::Head("What makes the difference".into()));
    // The money first: that is what is decided by.
    let mut told: Vec<&(Line, Causes)> =
        all.iter().filter(|(line, _)| is_told(line, all)).collect();
    told.sort_by_key(|(line, _)| match line {
        Line::Cost => 0,
        Line::Batches => 1,
        Line::AllMixed => 2,
        _ => 3,
    });
    for (line, causes) in told {
        said.push(Said::Ends(
            line.label(),
            line.difference_shown(causes.difference(), units).into(),
        ));
        for (words, of) in causes.said(line, units) {
            said.push(Said::under(format_args!("{of}  {words}")));
        }
    }
}
