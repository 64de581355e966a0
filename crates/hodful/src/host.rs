//! `hodful [FILE]`: reads the project, finds unsaved work of an earlier run, and hands both to the front
//! end. Not here: the front end itself, and how a journal is written.

mod keeper;
mod surroundings;
mod weather;
mod when;

use crate::commands::End;
use anyhow::{Context, Result, bail};
use hodful_project_file as file;
use hodful_project_file::LoadError;
use hodful_project_file::journal::{Fingerprint, Found, find};
use hodful_takeoff::{Assessed, Project};
use hodful_tui::{Opened, Recovered, Start};
use keeper::{DiskKeeper, Known, full};
use std::fs;
use std::io::{self, IsTerminal};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Opens a project on the screen, or a new one, until it is left.
///
/// # Errors
/// When the file or the keymap file is there and cannot be read, when input or output is no terminal,
/// and when the terminal fails.
pub(crate) fn open(path: Option<&Path>) -> Result<End> {
    let path = path.map(meant);
    let path = path.as_deref();
    let read = read(path)?;
    if !(io::stdin().is_terminal() && io::stdout().is_terminal()) {
        bail!(
            "the screen needs a terminal; for figures in a pipe use hodful measure, order, explain"
        );
    }
    let keymap = surroundings::keymap()?;
    let folder = surroundings::recovery_folder();
    let found = folder
        .as_deref()
        .ok()
        .and_then(|folder| find_work(folder, &read));
    let recovered = found.as_ref().map(|found| Recovered {
        project: found.kept.project.clone(),
        when: when::changed(found.changed),
        file_changed: found.kept.origin.disk() != read.known.as_ref().and_then(|known| known.disk),
    });
    let looks = surroundings::looks(|name| std::env::var_os(name));
    let start = Start {
        path: path.map(Path::to_owned),
        project: read.project,
        opened: read.opened,
        recovered,
        rules: Arc::new(file::rules()),
        cautions: file::cautions(),
        keymap,
        colour: looks.colour,
        signs: looks.signs,
        braille: looks.braille,
    };
    let keeper = DiskKeeper::new(folder, read.known, found);
    hodful_tui::shell::run(start, Box::new(keeper)).context("the screen cannot be shown")?;
    Ok(End::Done)
}

/// The ending that the screen gives a project file named without one.
const ENDING: &str = ".hodful.json";

/// The file that is meant: where none of that name is there, the one with our ending behind it that is.
fn meant(path: &Path) -> PathBuf {
    let mut with = path.as_os_str().to_owned();
    with.push(ENDING);
    let with = PathBuf::from(with);
    if !path.exists() && with.is_file() {
        with
    } else {
        path.to_owned()
    }
}

/// A project as it was come by.
#[derive(Debug)]
struct Read {
    project: Project,
    opened: Opened,
    /// The file and what it held, when one was named.
    known: Option<Known>,
}

/// Reads the project in a file as far as it can be read, or begins one.
fn read(path: Option<&Path>) -> Result<Read> {
    let Some(path) = path else {
        return Ok(Read {
            project: file::starting_project(),
            opened: Opened::Unnamed,
            known: None,
        });
    };
    if path == Path::new("-") {
        bail!("the screen cannot open standard input: your keys come from there; name a file");
    }
    let bytes = bytes_of(path).map_err(|cause| LoadError::File {
        path: path.to_owned(),
        cause,
    })?;
    let known = Known {
        path: full(path),
        disk: bytes.as_deref().map(Fingerprint::of),
    };
    let (project, opened) = match &bytes {
        None => (file::starting_project(), Opened::Missing),
        Some(bytes) => match file::read_what_can_be(bytes) {
            (Some(project), problems) if problems.is_empty() => (project, Opened::Whole),
            (partly, problems) => {
                let problems = Assessed::with_problems(partly.as_ref(), &file::rules(), problems);
                let project = partly.unwrap_or_else(file::empty_project);
                (project, Opened::Broken(problems))
            }
        },
    };
    Ok(Read {
        project,
        opened,
        known: Some(known),
    })
}

/// The bytes of a file; `None` when it is not there and could be.
fn bytes_of(path: &Path) -> io::Result<Option<Vec<u8>>> {
    match fs::metadata(path) {
        Ok(found) if found.is_dir() => Err(io::ErrorKind::IsADirectory.into()),
        Ok(found) if !found.is_file() => {
            Err(io::Error::other("it is a device or a pipe, not a file"))
        }
        Ok(_) => fs::read(path).map(Some),
        Err(none) if none.kind() == io::ErrorKind::NotFound => {
            let folder = path
                .parent()
                .filter(|folder| !folder.as_os_str().is_empty());
            match folder {
                Some(folder) if !folder.is_dir() => Err(none),
                _ => Ok(None),
            }
        }
        Err(other) => Err(other),
    }
}

/// The latest work on a project that was never saved. None for a broken file, which can be looked at
/// only: the work waits until the file is mended.
fn find_work(folder: &Path, read: &Read) -> Option<Found> {
    if matches!(read.opened, Opened::Broken(_)) {
        return None;
    }
    let path = read.known.as_ref().map(|known| known.path.as_path());
    find(folder, path, Some(&read.project))
}

#[cfg(test)]
mod tests;
