//! What is said of how sure the figures are, and of what the work has taught. Not here: working it out (see
//! `hodful_takeoff::chances` and `hodful_takeoff::forecast`).

use super::Said;
use crate::State;
use crate::command::Id;
use crate::state::Foreseen;
use ecow::eco_format;

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
    learned(state, foreseen, &mut said);
    said
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
