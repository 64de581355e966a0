//! Saving and leaving. Not here: the disk.

use crate::effect::{Effect, SaveFault};
use crate::state::{Popup, Prompt, PromptFor, Question, Saving, State};
use ecow::eco_format;
use hodful_takeoff::Severity;
use std::path::PathBuf;
use std::sync::Arc;
use tui_input::Input;

/// The ending of a project file that is typed without one.
const ENDING: &str = ".hodful.json";

/// Saves to the file of the project, or asks for one; `quit` leaves when it is done.
pub(super) fn save(state: &mut State, quit: bool) -> Vec<Effect> {
    if let Some(path) = state.path.clone() {
        save_to(state, path, false, quit)
    } else {
        ask_for_file(state, quit);
        Vec::new()
    }
}

/// Saves to a file.
pub(super) fn save_to(state: &mut State, path: PathBuf, over: bool, quit: bool) -> Vec<Effect> {
    if state.saving.is_some() {
        state.complain("It is being saved already");
        return Vec::new();
    }
    let id = state.request();
    let number = state.doc.number();
    state.saving = Some(Saving {
        id,
        number,
        path: path.clone(),
        quit,
    });
    let project = Arc::clone(state.project());
    vec![Effect::Save {
        id,
        path,
        project,
        over,
    }]
}

/// Asks for the file to save to.
pub(super) fn ask_for_file(state: &mut State, quit: bool) {
    let file = state
        .path
        .as_deref()
        .map(|path| path.display().to_string())
        .unwrap_or_default();
    state.popups.push(Popup::Prompt(Prompt {
        what: PromptFor::File { quit },
        before: file.as_str().into(),
        input: Input::new(file),
        fault: None,
    }));
}

/// The file that was typed.
pub(super) fn typed_file(text: &str) -> Option<PathBuf> {
    let text = text.trim();
    if text.is_empty() {
        return None;
    }
    let path = PathBuf::from(text);
    path.file_name()?;
    let ends = path
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("json"));
    Some(if ends {
        path
    } else {
        PathBuf::from(format!("{text}{ENDING}"))
    })
}

/// What follows from a save that is done.
pub(super) fn saved(state: &mut State, id: u64, outcome: Result<(), SaveFault>) -> Vec<Effect> {
    let Some(saving) = state.saving.take_if(|saving| saving.id == id) else {
        return Vec::new();
    };
    let file = crate::state::shown_path(&saving.path);
    match outcome {
        Ok(()) => {
            state.doc.set_saved(saving.number);
            state.path = Some(saving.path);
            let refused = state
                .doc
                .problems()
                .iter()
                .filter(|problem| problem.severity == Severity::Refused)
                .count();
            if refused == 0 {
                state.say(eco_format!("Saved to {file}"));
            } else {
                state.complain(eco_format!(
                    "Saved to {file}; {refused} refused in it, so that no order can be printed yet"
                ));
            }
            if saving.quit {
                return quit(state);
            }
        }
        Err(SaveFault::ChangedOnDisk) => {
            let own = state.path.as_ref() == Some(&saving.path);
            let question = Question::changed(&file, own, saving.path, saving.quit);
            state.popups.push(Popup::Ask(question));
        }
        Err(SaveFault::Failed(words)) => state.complain(words),
    }
    Vec::new()
}

/// Leaves, or asks first when there is work that is not saved.
pub(super) fn quit(state: &mut State) -> Vec<Effect> {
    if !state.doc.is_changed() || state.read_only {
        return vec![Effect::Quit { keep: false }];
    }
    let file = state.path.is_some().then(|| state.file_name());
    state.popups.clear();
    state
        .popups
        .push(Popup::Ask(Question::quit(file.as_deref())));
    Vec::new()
}
