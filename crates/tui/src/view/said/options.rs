//! What is said of options: side by side with the project as it stands, and what makes the difference. Not
//! here: comparing them (see `hodful_takeoff::compare`).

use super::Said;
use crate::State;
use crate::command::Id;
use crate::state::Compared;
use ecow::{EcoString, eco_format};
use hodful_takeoff::alternative;
use hodful_takeoff::compare::said::percent_shown;
use hodful_takeoff::compare::{Causes, Line, Row};
use hodful_takeoff::form::Subject;

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
        _ => None,
    };
    side_by_side(state, compared, column, &mut said);
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

/// The table: the project, the chosen option with its difference, then the others as far as there is room.
fn side_by_side(state: &State, compared: &Compared, column: Option<usize>, said: &mut Vec<Said>) {
    let Some(table) = &compared.table else {
        return;
    };
    let units = state.units();
    let name = |at: usize| table.names.get(at).cloned().unwrap_or_default();
    let others = (1..table.names.len()).filter(|at| Some(*at) != column);
    let mut head = vec![EcoString::new(), name(0)];
    if let Some(column) = column {
        head.extend([name(column), "more, or less".into()]);
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
    let differs = |row: &&Row| match column {
        Some(column) => row.values.get(column) != row.values.first(),
        None => row.differs(0),
    };
    let mut rows = Vec::new();
    for row in table.rows.iter().filter(differs) {
        let mut cells = vec![row.line.label(), shown(row, 0)];
        if let Some(column) = column {
            cells.push(shown(row, column));
            let more = row.difference(0, column).map_or_else(EcoString::new, |of| {
                let share = row.share(0, column);
                let share =
                    share.map_or_else(String::new, |of| format!(" ({})", percent_shown(of, units)));
                eco_format!("{}{share}", row.line.difference_shown(of, units))
            });
            cells.push(more);
        }
        cells.extend(others.clone().map(|at| shown(row, at)));
        rows.push(cells);
    }
    if rows.is_empty() {
        said.push(Said::words("No figure differs."));
        return;
    }
    said.push(Said::Columns { head, rows });
    let alike = table.rows.iter().filter(|row| !differs(row));
    let alike: Vec<EcoString> = alike.map(|row| row.line.label()).collect();
    if !alike.is_empty() {
        said.push(Said::words(format_args!("Alike: {}.", alike.join("; "))));
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
