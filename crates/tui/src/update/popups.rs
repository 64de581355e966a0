//! Boxes over the screen: opening them, typing into them, taking what is chosen. Not here: the trees of
//! figures (see `why`).

use super::keys::put;
use super::run::{label, run};
use super::{edit, saving, try_edit, why};
use crate::command::{COMMANDS, Command, Id};
use crate::effect::Effect;
use crate::keymap::typed as letter_of;
use crate::state::{Answer, Part, Popup, Prompt, PromptFor, State, Total};
use crate::text::contains;
use crokey::KeyCombination;
use ecow::{EcoString, eco_format};
use hodful_takeoff::Project;
use hodful_takeoff::form::{self, Subject};
use std::path::Path;
use tui_input::{Input, InputRequest};

/// Opens the help.
pub(super) fn help(state: &mut State) {
    state.popups.push(Popup::Help {
        query: Input::default(),
        top: 0,
    });
}

/// Opens the list of commands.
pub(super) fn commands(state: &mut State) {
    state.popups.push(Popup::Commands {
        query: Input::default(),
        row: 0,
    });
}

/// Shows the cautions.
pub(super) fn cautions(state: &mut State) {
    let mut lines: Vec<EcoString> = Vec::new();
    for caution in &state.cautions {
        lines.push(eco_format!("{}. {}", caution.title, caution.text));
        lines.push(eco_format!("[{}]", caution.source));
        lines.push(EcoString::new());
    }
    lines.push("Local codes and licensed practice come before anything said here.".into());
    state.popups.push(Popup::text("Take care", lines));
}

/// Asks for the letters of the filter.
pub(super) fn filter(state: &mut State) {
    let text = state.walls.filter.to_string();
    prompt(state, PromptFor::Filter, text);
}

/// Asks how often a wall or opening is repeated.
pub(super) fn repeat(state: &mut State) {
    let count = |count: Option<u32>| count.map(|n| n.to_string()).unwrap_or_default();
    let Some(wall) = state.wall() else { return };
    let (what, text) = match state.walls.part {
        Part::Wall => (PromptFor::WallCount, count(wall.count)),
        Part::Pocket(at) => (
            PromptFor::PocketCount,
            count(wall.pockets.get(at).and_then(|pocket| pocket.count)),
        ),
        Part::Opening(at) => {
            let opening = wall.openings.get(at);
            let text = opening.and_then(|of| {
                Some(format!(
                    "{} every {}",
                    of.count?,
                    of.spacing.as_ref()?.text()
                ))
            });
            (PromptFor::OpeningCount, text.unwrap_or_default())
        }
    };
    prompt(state, what, text);
}

fn prompt(state: &mut State, what: PromptFor, text: String) {
    state.popups.push(Popup::Prompt(Prompt {
        what,
        before: text.as_str().into(),
        input: Input::new(text),
        fault: None,
    }));
}

/// Closes the box on top; a filter is then as it was before.
pub(super) fn close(state: &mut State) {
    if let Some(Popup::Prompt(prompt)) = state.popups.pop()
        && prompt.what == PromptFor::Filter
    {
        state.walls.filter = prompt.before;
        state.refresh();
    }
}

/// A key that a question takes for itself: the letter of an answer.
pub(super) fn own_key(state: &mut State, key: KeyCombination) -> Option<Vec<Effect>> {
    let Some(Popup::Ask(question)) = state.popups.last() else {
        return None;
    };
    let letter = letter_of(key)?.to_lowercase().next()?;
    let (row, answer) = question
        .answers
        .iter()
        .enumerate()
        .find(|(_, (own, _, _))| *own == letter)
        .map(|(row, (_, _, answer))| (row, answer.clone()))?;
    if answer.destroys() {
        // A stray letter must not lose work: it only chooses.
        if let Some(Popup::Ask(question)) = state.popups.last_mut() {
            question.row = row;
        }
        state.say("Enter does it");
        return Some(Vec::new());
    }
    Some(answered(state, answer))
}

/// A key typed into the box.
pub(super) fn typed(state: &mut State, request: InputRequest) -> Vec<Effect> {
    if let Some(input) = state.popups.last_mut().and_then(Popup::input_mut) {
        input.handle(request);
    }
    settle(state)
}

/// A text put into the box.
pub(super) fn insert(state: &mut State, text: &str) -> Vec<Effect> {
    if let Some(input) = state.popups.last_mut().and_then(Popup::input_mut) {
        put(input, text);
    }
    settle(state)
}

/// After something was typed: from the top again; the filter works at once.
fn settle(state: &mut State) -> Vec<Effect> {
    let mut filter = None;
    match state.popups.last_mut() {
        Some(Popup::Help { top, .. }) => *top = 0,
        Some(Popup::Commands { row, .. }) => *row = 0,
        Some(Popup::Prompt(prompt)) => {
            prompt.fault = None;
            if prompt.what == PromptFor::Filter {
                filter = Some(EcoString::from(prompt.input.value().trim()));
            }
        }
        _ => {}
    }
    if let Some(filter) = filter {
        state.walls.filter = filter;
        state.refresh();
    }
    Vec::new()
}

/// The commands that a search finds, in the order of the table.
pub(crate) fn found_commands(state: &State) -> Vec<&'static Command> {
    let Some(Popup::Commands { query, .. }) = state.popups.last() else {
        return Vec::new();
    };
    matching(query.value())
        .filter(|command| {
            !matches!(
                command.id,
                Id::Commands | Id::Accept | Id::Close | Id::Unfold | Id::Fold
            )
        })
        .collect()
}

/// The commands with every word of a search in their words.
pub(crate) fn matching(query: &str) -> impl Iterator<Item = &'static Command> {
    COMMANDS.iter().filter(move |command| {
        query
            .split_whitespace()
            .all(|word| contains(command.name, word) || contains(command.doc, word))
    })
}

/// Takes what is chosen in the box.
pub(super) fn accept(state: &mut State) -> Vec<Effect> {
    match state.popups.last() {
        Some(Popup::Commands { row, .. }) => {
            let found = found_commands(state).get(*row).copied();
            state.popups.pop();
            match found.map(|command| (command.id, crate::command::available(state, command))) {
                Some((id, Ok(()))) => run(state, id),
                Some((_, Err(why))) => {
                    state.complain(why);
                    Vec::new()
                }
                None => Vec::new(),
            }
        }
        Some(Popup::Totals { row }) => {
            let total = Total::ALL.get(*row).copied();
            state.popups.pop();
            if let Some(total) = total {
                why::open(state, total.path());
            }
            Vec::new()
        }
        Some(Popup::Why(_)) => why::accept(state),
        Some(Popup::Ask(question)) => {
            let answer = question
                .answers
                .get(question.row)
                .map(|(_, _, answer)| answer.clone());
            answer.map_or_else(Vec::new, |answer| answered(state, answer))
        }
        Some(Popup::Prompt(prompt)) => {
            let (what, text) = (prompt.what, prompt.input.value().trim().to_owned());
            prompted(state, what, &text)
        }
        Some(Popup::Help { .. } | Popup::Text { .. }) => {
            state.popups.pop();
            Vec::new()
        }
        None => Vec::new(),
    }
}

fn answered(state: &mut State, answer: Answer) -> Vec<Effect> {
    state.popups.pop();
    match answer {
        Answer::Nothing => Vec::new(),
        Answer::Quit(drop) => vec![Effect::Quit { keep: !drop }],
        Answer::SaveAndQuit => saving::save(state, true),
        Answer::SaveOver(path, quit) => saving::save_to(state, path, true, quit),
        Answer::SaveAs(quit) => {
            saving::ask_for_file(state, quit);
            Vec::new()
        }
        Answer::TakeBack(project) => {
            let label = label(state, "work of the earlier run brought back");
            let mut effects = try_edit(state, label, |now| {
                *now = Project::clone(&project);
                Ok(())
            });
            state.focus = crate::state::Focus::List;
            state.say("The work is back; it is not saved yet");
            // Only what is safe here may go there.
            if **state.project() == *project {
                effects.push(Effect::ForgetFound);
            }
            effects
        }
        Answer::DropFound => vec![Effect::ForgetFound],
    }
}

fn prompted(state: &mut State, what: PromptFor, text: &str) -> Vec<Effect> {
    let done: Result<Vec<Effect>, EcoString> = match what {
        PromptFor::File { quit } => match saving::typed_file(text) {
            Some(_) if state.saving.is_some() => {
                Err("it is being saved already; wait a moment".into())
            }
            Some(path) => {
                state.popups.pop();
                let mut effects = named_by(state, &path);
                effects.extend(saving::save_to(state, path, false, quit));
                return effects;
            }
            None => Err("write the name of a file".into()),
        },
        PromptFor::Filter => Ok(Vec::new()),
        PromptFor::WallCount | PromptFor::PocketCount => set(state, &[("count", text)]),
        PromptFor::OpeningCount => {
            let (count, spacing) = text
                .split_once("every")
                .map_or((text, ""), |(count, spacing)| {
                    (count.trim(), spacing.trim())
                });
            set(state, &[("count", count), ("spacing", spacing)])
        }
    };
    match done {
        Ok(effects) => {
            state
                .popups
                .retain(|popup| !matches!(popup, Popup::Prompt(_)));
            effects
        }
        Err(words) => {
            if let Some(Popup::Prompt(prompt)) = state.popups.last_mut() {
                prompt.fault = Some(words);
            }
            Vec::new()
        }
    }
}

/// A new project that was never given a name has that of its first file.
fn named_by(state: &mut State, path: &Path) -> Vec<Effect> {
    let stem = path
        .file_name()
        .map(|name| name.to_string_lossy().into_owned());
    let stem = stem
        .as_deref()
        .and_then(|name| name.split('.').next())
        .unwrap_or_default();
    if state.path.is_some() || stem.is_empty() || state.project().name != state.first_name {
        return Vec::new();
    }
    let label = label(state, eco_format!("project named {stem}"));
    try_edit(state, label, |project| {
        project.name = stem.into();
        Ok(())
    })
}

/// Sets fields of what is chosen, all in one step.
fn set(state: &mut State, fields: &[(&str, &str)]) -> Result<Vec<Effect>, EcoString> {
    let Some(subject) = state.subject() else {
        return Ok(Vec::new());
    };
    let label = label(
        state,
        eco_format!("{} repeated", form::title(state.project(), subject)),
    );
    let set = |project: &mut Project, subject: Subject| {
        fields
            .iter()
            .try_for_each(|(key, text)| form::set(project, subject, key, text))
    };
    edit(state, label, |project| set(project, subject)).map(|((), effects)| effects)
}
