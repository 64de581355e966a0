//! What is said of how sure the figures are, and of what the work has taught. Not here: working it out (see
//! `hodful_takeoff::chances` and `hodful_takeoff::forecast`).

use super::Said;
use crate::State;
use crate::command::Id;
use crate::state::Foreseen;
use ecow::{EcoString, eco_format};
use hodful_takeoff::chances::said::{LEGEND, TOLD, enough};
use hodful_takeoff::chances::told::{
    AS_WORKED_OUT, CAUSES, FALLS_SHORT, FIGURES, HOW_OFTEN, INPUTS, ORDERS,
};
use hodful_takeoff::chances::{Chances, FigureChances};
use hodful_takeoff::compare::Line;
use hodful_takeoff::drawing::Bars;

pub(super) fn said(state: &State) -> Vec<Said> {
    let mut said = Vec::new();
    let Some((_, foreseen)) = state.foreseen() else {
        said.push(Said::words("It is being worked out."));
        return said;
    };
    if !state.is_foreseen() {
        said.push(Said::Bad(
            "This is of before the last change; it is being worked out anew.".into(),
        ));
    }
    // Records first: they say what really was.
    let has_records = !state.project().done.is_empty() || !state.project().delivered.is_empty();
    if has_records {
        learned(state, foreseen, &mut said);
    }
    match &foreseen.chances {
        Err(words) => said.push(Said::Bad(eco_format!("How sure it is: {words}."))),
        Ok(chances) => {
            orders(state, chances, &mut said);
            figures(state, chances, &mut said);
            matters(state, chances, &mut said);
            inputs(state, chances, &mut said);
        }
    }
    if !has_records {
        learned(state, foreseen, &mut said);
    }
    said
}

/// How often each order falls short, and what to order instead.
fn orders(state: &State, chances: &Chances, said: &mut Vec<Said>) {
    let told = chances.told_orders(state.project());
    if told.is_empty() {
        return;
    }
    let rows = told
        .into_iter()
        .map(|of| vec![of.material, of.as_worked_out, of.falls_short, of.instead]);
    said.push(Said::Gap);
    said.push(Said::Head(ORDERS.into()));
    said.push(Said::Columns {
        head: vec![
            EcoString::new(),
            AS_WORKED_OUT.into(),
            FALLS_SHORT.into(),
            enough(chances.accepted),
        ],
        rows: rows.collect(),
        first: vec![2, 3],
    });
    let asked = chances.asked_said(state.units());
    said.extend(asked.into_iter().map(Said::Words));
}

fn figures(state: &State, chances: &Chances, said: &mut Vec<Said>) {
    let units = state.units();
    let told = chances.told_briefly();
    let rows = told.iter().map(|of| {
        let mut cells = vec![of.line.label(), of.line.shown(of.base, units).into()];
        let at = TOLD.iter().map(|(share, _)| of.enough(*share));
        cells.extend(at.map(|value| EcoString::from(of.line.shown(value, units))));
        cells
    });
    let mut head: Vec<EcoString> = vec![EcoString::new(), AS_WORKED_OUT.into()];
    head.extend(TOLD.iter().map(|(_, name)| EcoString::from(*name)));
    said.push(Said::Gap);
    said.push(Said::Head(FIGURES.into()));
    said.push(Said::Columns {
        head,
        rows: rows.collect(),
        // Where there is little room: what is enough 8 and 9 times out of ten.
        first: vec![4, 5, 1],
    });
    said.push(Said::words(LEGEND));
    if let Some(of) = told
        .iter()
        .find(|of| of.line == Line::Cost)
        .or(told.first())
    {
        histogram(state, of, said);
    }
}

/// Bars of how often a figure comes out where.
fn histogram(state: &State, of: &FigureChances, said: &mut Vec<Said>) {
    const BARS: usize = 9;
    const LONGEST: usize = 28;
    let bars = Bars::of(of, BARS);
    let most = bars.highest();
    if most == 0 || bars.counts().len() < 2 {
        return;
    }
    let units = state.units();
    let sign = if state.looks().signs { "▪" } else { "#" };
    said.push(Said::Gap);
    said.push(Said::Head(eco_format!("{}: {HOW_OFTEN}", of.line.label())));
    for ((from, to), count) in bars.spans() {
        let long = count * LONGEST / most;
        let (from, to) = (of.line.shown(from, units), of.line.shown(to, units));
        let words = if from == to {
            EcoString::from(from)
        } else {
            eco_format!("{from} to {to}")
        };
        said.push(Said::Pair(words, sign.repeat(long).into()));
    }
}

/// Which input matters most.
fn matters(state: &State, chances: &Chances, said: &mut Vec<Said>) {
    let cost = chances.figure(&Line::Cost);
    let Some(of) = cost.or_else(|| chances.figure(&Line::AllMixed)) else {
        return;
    };
    let causes = of.causes(&chances.inputs, state.units());
    if causes.is_empty() {
        return;
    }
    said.push(Said::Gap);
    said.push(Said::Head(eco_format!("{CAUSES} for {}", of.line.label())));
    said.extend(causes.into_iter().map(Said::Under));
}

/// What was taken to be off by how much, and who says so.
fn inputs(state: &State, chances: &Chances, said: &mut Vec<Said>) {
    said.push(Said::Gap);
    said.push(Said::Head(INPUTS.into()));
    let key = state.keymap().first(Id::Add);
    said.push(Said::words(format_args!(
        "{key} adds what you have measured; it stands before a default of ours."
    )));
    said.extend(chances.inputs.iter().map(|input| Said::Under(input.said())));
    said.extend(chances.notes(state.units()).into_iter().map(Said::Words));
}

/// What the records say of the rest.
fn learned(state: &State, foreseen: &Foreseen, said: &mut Vec<Said>) {
    let project = state.project();
    let key = |id| state.keymap().first(id);
    said.push(Said::Gap);
    said.push(Said::Head("What the work has taught".into()));
    if project.done.is_empty() && project.delivered.is_empty() {
        said.push(Said::Words(eco_format!(
            "Nothing is recorded yet. {} adds what a coat took on a wall (batches or buckets), {} what came: the rest is then forecast from both.",
            key(Id::Record),
            key(Id::Came)
        )));
        return;
    }
    match &foreseen.forecast {
        Err(words) => said.push(Said::Bad(eco_format!("It cannot be forecast: {words}."))),
        Ok(forecast) => {
            let lines = forecast.said(project, state.units());
            said.extend(lines.into_iter().map(Said::Words));
        }
    }
}
