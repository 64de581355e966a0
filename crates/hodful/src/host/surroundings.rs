//! What the surroundings say: what the terminal can show, where the folders of this user are. Not here:
//! what is done with it.

use anyhow::{Context, Result};
use etcetera::{BaseStrategy, choose_base_strategy};
use std::ffi::OsString;
use std::path::PathBuf;
use std::{fs, io};

/// The folder of this program in the folders of the user.
const OURS: &str = "hodful";

/// What may be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Looks {
    /// Colours.
    pub(super) colour: bool,
    /// Signs outside ASCII.
    pub(super) signs: bool,
    /// Braille patterns, which the fonts of a Linux console have not.
    pub(super) braille: bool,
}

/// What may be shown, by the variables of the environment: no colour with `NO_COLOR` (whatever it says,
/// <https://no-color.org>) or on a dumb terminal; no signs on a dumb terminal or when the locale is not
/// in UTF-8. A locale that is not set is taken for one in UTF-8.
pub(super) fn looks(variable: impl Fn(&str) -> Option<OsString>) -> Looks {
    let set = |name: &str| variable(name).filter(|value| !value.is_empty());
    let dumb = set("TERM").is_some_and(|terminal| terminal == "dumb");
    // The first that is set decides: POSIX.1-2017, Base Definitions, 8.2.
    let locale = ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().find_map(set);
    let utf8 = locale.is_none_or(|locale| {
        let locale = locale.to_string_lossy().to_lowercase();
        locale.contains("utf-8") || locale.contains("utf8")
    });
    Looks {
        colour: !dumb && set("NO_COLOR").is_none(),
        signs: !dumb && utf8,
        braille: set("TERM").is_none_or(|terminal| terminal != "linux"),
    }
}

/// The name and the text of the user's keymap file, when there is one.
///
/// # Errors
/// When it is there and cannot be read.
pub(super) fn keymap() -> Result<Option<(String, String)>> {
    let Ok(folders) = choose_base_strategy() else {
        return Ok(None);
    };
    let path = folders.config_dir().join(OURS).join("keys");
    read_keymap(path)
}

fn read_keymap(path: PathBuf) -> Result<Option<(String, String)>> {
    let name = path.display().to_string();
    match fs::read_to_string(path) {
        Ok(text) => Ok(Some((name, text))),
        Err(none) if none.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(other) => Err(other).with_context(|| {
            format!("the keymap file {name} cannot be read; mend it or move it away")
        }),
    }
}

/// The folder that recovery journals lie in; in words, why there is none.
pub(super) fn recovery_folder() -> Result<PathBuf, String> {
    let folders = choose_base_strategy().map_err(|_| {
        "there is no home folder to keep the recovery journal in; set HOME".to_owned()
    })?;
    // Some systems have no folder for the state of programs.
    let state = folders.state_dir().unwrap_or_else(|| folders.data_dir());
    Ok(state.join(OURS).join("recovery"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(variables: &[(&str, &str)]) -> (bool, bool) {
        let looks = looks(|name| {
            let found = variables.iter().find(|(known, _)| *known == name);
            found.map(|(_, value)| (*value).into())
        });
        (looks.colour, looks.signs)
    }

    #[test]
    fn colour_and_signs_follow_the_environment() {
        for (variables, expected) in [
            (&[][..], (true, true)),
            (&[("TERM", "xterm-256color")], (true, true)),
            (&[("TERM", "dumb")], (false, false)),
            (&[("NO_COLOR", "")], (true, true)),
            (&[("NO_COLOR", "0")], (false, true)),
            (&[("LANG", "de_AT.UTF-8")], (true, true)),
            (&[("LANG", "C.utf8")], (true, true)),
            (&[("LANG", "C")], (true, false)),
            (&[("LANG", "en_US.ISO-8859-1")], (true, false)),
            (&[("LANG", "")], (true, true)),
            (
                &[("LC_ALL", "POSIX"), ("LANG", "en_GB.UTF-8")],
                (true, false),
            ),
            (
                &[("LC_ALL", ""), ("LC_CTYPE", "UTF-8"), ("LANG", "C")],
                (true, true),
            ),
            (&[("LC_CTYPE", "C"), ("LANG", "en_GB.UTF-8")], (true, false)),
        ] {
            assert_eq!(of(variables), expected, "{variables:?}");
        }
    }

    #[test]
    fn a_keymap_file_is_read_or_not_there_or_told() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("keys");
        assert_eq!(read_keymap(path.clone()).unwrap(), None);
        fs::write(&path, "undo = u\n").unwrap();
        let (name, text) = read_keymap(path.clone()).unwrap().unwrap();
        assert!(name.ends_with("keys"));
        assert_eq!(text, "undo = u\n");
        fs::write(&path, b"\xff\xfe").unwrap();
        for path in [path, dir.path().to_owned()] {
            let told = read_keymap(path).unwrap_err().to_string();
            assert!(
                told.ends_with("cannot be read; mend it or move it away"),
                "{told}"
            );
        }
    }
}
