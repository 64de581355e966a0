//! Saves projects, and keeps the recovery journal of what is not saved yet. Not here: how either is
//! written.

use hodful_project_file::journal::{Fingerprint, Found, Journal, Origin};
use hodful_project_file::{SaveError, save_bytes, write};
use hodful_takeoff::Project;
use hodful_tui::{Keeper, SaveFault, WeatherReader};
use std::path::{Path, PathBuf};
use std::{fs, io};

/// A file and what it held when it was last read or saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Known {
    /// Its full path.
    pub(super) path: PathBuf,
    /// What it held; `None` when it was not there.
    pub(super) disk: Option<Fingerprint>,
}

/// The keeper of one running project.
#[derive(Debug)]
pub(super) struct DiskKeeper {
    /// Where journals lie, or in words why there is no such place.
    folder: Result<PathBuf, String>,
    /// The file of the project, when it has one.
    file: Option<Known>,
    /// The journal, from the first change after a save on.
    journal: Option<Journal>,
    /// Whether another journal must take its place at the next change: it belongs to what was on the
    /// disk before.
    anew: bool,
    /// What the journal should have taken and did not.
    behind: Option<Behind>,
    /// The journal that was found at the start.
    found: Option<Found>,
    /// Whether the one that was found is to go once ours has its work.
    forget: bool,
    /// The last fault that was told; it is not told twice.
    told: Option<String>,
}

/// A change that is not in the journal.
#[derive(Debug)]
struct Behind {
    before: Project,
    after: Project,
}

impl DiskKeeper {
    /// The keeper of a project: where journals lie, its file, and the journal found at the start.
    pub(super) fn new(
        folder: Result<PathBuf, String>,
        file: Option<Known>,
        found: Option<Found>,
    ) -> Self {
        Self {
            folder,
            file,
            journal: None,
            anew: false,
            behind: None,
            found,
            forget: false,
            told: None,
        }
    }

    /// Brings the journal from one state of the project to another.
    fn write(&mut self, before: &Project, after: &Project) -> Result<(), String> {
        if let Some(journal) = &mut self.journal
            && !self.anew
            && journal.is_sound()
            && !journal.is_long()
        {
            return journal
                .record(before, after)
                .map_err(|fault| fault.to_string());
        }
        let folder = self.folder.as_ref().map_err(Clone::clone)?;
        let path = self.file.as_ref().map(|file| file.path.as_path());
        let origin = Origin::new(path, self.file.as_ref().and_then(|file| file.disk));
        let begun = Journal::begin(folder, path, &origin, after);
        let begun = begun.map_err(|fault| fault.to_string())?;
        // The old one went on being the journal until the new one was whole.
        if let Some(old) = self.journal.replace(begun) {
            old.remove();
        }
        self.anew = false;
        Ok(())
    }

    /// Throws the journal away: there is nothing to keep that is not saved, or it is not wanted.
    fn clear(&mut self) {
        if let Some(journal) = self.journal.take() {
            journal.remove();
        }
        self.behind = None;
        self.told = None;
        self.anew = false;
        self.forget_now();
    }

    fn forget_now(&mut self) {
        if std::mem::take(&mut self.forget)
            && let Some(found) = self.found.take()
        {
            found.remove();
        }
    }

    /// Whether a file is as it was last read or saved. One that vanished is: there is nothing to lose.
    fn is_as_known(&self, path: &Path) -> Result<bool, String> {
        let known = self.file.as_ref().filter(|file| file.path == full(path));
        match fs::read(path) {
            Ok(bytes) => Ok(known.and_then(|file| file.disk) == Some(Fingerprint::of(&bytes))),
            Err(none) if none.kind() == io::ErrorKind::NotFound => Ok(true),
            // Saving says it in better words.
            Err(_) if !path.is_file() => Ok(true),
            Err(cause) => Err(format!(
                "cannot save {}: whether somebody changed it meanwhile cannot be seen ({cause})",
                path.display()
            )),
        }
    }
}

impl Keeper for DiskKeeper {
    fn save(&mut self, path: &Path, project: &Project, over: bool) -> Result<(), SaveFault> {
        if !over && !self.is_as_known(path).map_err(SaveFault::Failed)? {
            return Err(SaveFault::ChangedOnDisk);
        }
        let bytes = write(project);
        let saved = save_bytes(path, &bytes);
        if matches!(saved, Ok(()) | Err(SaveError::Unconfirmed { .. })) {
            self.file = Some(Known {
                // Only now, when it is there, is it known where its links lead.
                path: full(path),
                disk: Some(Fingerprint::of(&bytes)),
            });
            self.anew = true;
        }
        saved.map_err(|fault| SaveFault::Failed(fault.to_string()))?;
        self.clear();
        Ok(())
    }

    fn record(&mut self, before: &Project, after: &Project) -> Result<(), String> {
        // What is behind comes along, in one with this.
        let behind = self.behind.take().map(|behind| behind.before);
        match self.write(behind.as_ref().unwrap_or(before), after) {
            Ok(()) => {
                self.told = None;
                self.forget_now();
                Ok(())
            }
            Err(fault) => {
                self.behind = Some(Behind {
                    before: behind.unwrap_or_else(|| before.clone()),
                    after: after.clone(),
                });
                if self.told.as_ref() == Some(&fault) {
                    return Ok(());
                }
                self.told = Some(fault.clone());
                Err(fault)
            }
        }
    }

    fn forget_found(&mut self) {
        self.forget = true;
        // As long as ours does not have its work, it is the only one that has.
        if self.behind.is_none() {
            self.forget_now();
        }
    }

    fn weather(&self) -> WeatherReader {
        Box::new(super::weather::beside)
    }

    fn finish(&mut self, keep: bool) {
        if !keep {
            self.clear();
            return;
        }
        if let Some(behind) = self.behind.take() {
            // There is nobody left to tell; what was found stays in its place.
            if self.write(&behind.before, &behind.after).is_ok() {
                self.forget_now();
            }
        }
        if let Some(journal) = &self.journal {
            // The program ends in any case, and without a loss of power it is kept.
            let _ = journal.make_sure();
        }
    }
}

/// The full path of a file, with links followed as far as there is something there.
pub(super) fn full(path: &Path) -> PathBuf {
    if let Ok(full) = fs::canonicalize(path) {
        return full;
    }
    let absolute = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    match (
        absolute.parent().map(fs::canonicalize),
        absolute.file_name(),
    ) {
        (Some(Ok(folder)), Some(name)) => folder.join(name),
        _ => absolute,
    }
}

#[cfg(test)]
mod tests;
