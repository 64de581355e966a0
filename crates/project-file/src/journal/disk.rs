//! Journals on disk: begun whole under a lock, written to, found again. Not here: their lines.

use super::lines::same;
use super::{Kept, Origin, Scribe, read, text_of};
use crate::disk::{confirm, words};
use hodful_takeoff::Project;
use std::fs::{self, DirBuilder, File, TryLockError};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, SystemTime};
use tempfile::Builder;
use xxhash_rust::xxh3::xxh3_64;

/// What the name of a journal ends with.
const ENDING: &str = ".journal";

/// What the name of a journal that is being begun begins and ends with.
const PART: (&str, &str) = (".begun-", ".part");

/// Journals of one project that can lie in the folder at the same time. Each is of a running program, or
/// of one that was killed and whose work nobody has asked for since.
const MOST: u32 = 10_000;

/// Longest piece of the name of the project file in the name of a journal, in characters.
const SHOWN: usize = 60;

/// A journal shorter than this is never long, in bytes; nor one less than so many times as long as it was
/// begun with. Reading it back stays quick: common practice, no source.
const LONG: (u64, u64) = (16 << 20, 4);

/// How long what was written may wait until the disk is asked to make sure of it. A program that is
/// killed loses nothing by it; a loss of power loses as much.
const WAIT: Duration = Duration::from_secs(1);

/// Age of a half-begun journal that nobody will finish.
const STALE: Duration = Duration::from_hours(1);

/// Why a journal was not written.
#[derive(Debug, thiserror::Error)]
#[error("the recovery journal cannot be written in {}: {}", folder.display(), words(cause))]
pub struct JournalError {
    /// The folder journals lie in.
    pub folder: PathBuf,
    /// What the system said.
    pub cause: io::Error,
}

/// The journal of a running program. The file is locked while this lives, which tells it from the journal
/// of a program that was killed; and it stays when this is dropped.
#[derive(Debug)]
pub struct Journal {
    file: File,
    path: PathBuf,
    scribe: Scribe,
    /// Bytes of the lines it was begun with, and of all whole lines.
    begun: u64,
    length: u64,
    /// Whether the file holds whole lines and nothing else.
    whole: bool,
    /// Whether the disk will be asked soon.
    asked: Arc<AtomicBool>,
}

impl Journal {
    /// Begins a journal with a whole project, in a folder that is made when it is not there. File and
    /// folder are for their owner alone. Under its name the file is there whole or not at all.
    ///
    /// # Errors
    /// When the folder cannot be made or the file not written; nothing is left lying about.
    pub fn begin(
        folder: &Path,
        path: Option<&Path>,
        origin: &Origin,
        project: &Project,
    ) -> Result<Self, JournalError> {
        let failed = |cause| JournalError {
            folder: folder.to_owned(),
            cause,
        };
        make(folder).map_err(failed)?;
        let (scribe, bytes) = Scribe::begin(origin, project);
        // A file for the owner alone, removed when dropped, on whatever way out.
        let mut part = Builder::new()
            .prefix(PART.0)
            .suffix(PART.1)
            .tempfile_in(folder)
            .map_err(failed)?;
        // Before it has its name: nobody ever finds it there without its lock. Where the file system has
        // no locks, the journal of a running program is taken for that of a killed one, which is better
        // than none.
        let _ = part.as_file().try_lock();
        part.write_all(&bytes).map_err(failed)?;
        let mut number = 1;
        let (file, path) = loop {
            let named = folder.join(format!("{}{number}{ENDING}", stem(path)));
            match part.persist_noclobber(&named) {
                Ok(file) => break (file, named),
                Err(there) if there.error.kind() == io::ErrorKind::AlreadyExists => {
                    if number == MOST {
                        return Err(failed(there.error));
                    }
                    part = there.file;
                    number += 1;
                }
                Err(other) => return Err(failed(other.error)),
            }
        };
        let journal = Self {
            file,
            path,
            scribe,
            begun: bytes.len() as u64,
            length: bytes.len() as u64,
            whole: true,
            asked: Arc::default(),
        };
        journal.make_sure_soon();
        Ok(journal)
    }

    /// Adds what changed. `before` must be the project as the journal has it last. Nothing is written
    /// when nothing changed.
    ///
    /// # Errors
    /// When the disk takes it not or in part. The journal is as it was: the same can be tried again, as
    /// long as [`is_sound`](Self::is_sound).
    pub fn record(&mut self, before: &Project, after: &Project) -> Result<(), JournalError> {
        let Some((next, line)) = self.scribe.change(before, after) else {
            return Ok(());
        };
        if let Err(cause) = self.file.write_all(&line) {
            // Lines behind half a line would not be read.
            self.whole = self.file.set_len(self.length).is_ok()
                && self.file.seek(SeekFrom::Start(self.length)).is_ok();
            return Err(self.failed(cause));
        }
        self.scribe = next;
        self.length += line.len() as u64;
        self.make_sure_soon();
        Ok(())
    }

    /// Whether it can be written on: it holds whole lines, and nobody removed the file. If not, another
    /// must be begun.
    pub fn is_sound(&self) -> bool {
        self.whole && self.is_there()
    }

    /// Whether its changes have become so many that it should be begun anew.
    pub fn is_long(&self) -> bool {
        let (least, times) = LONG;
        self.length > least.max(self.begun.saturating_mul(times))
    }

    #[cfg(unix)]
    fn is_there(&self) -> bool {
        use std::os::unix::fs::MetadataExt;
        self.file.metadata().is_ok_and(|file| file.nlink() > 0)
    }

    /// Elsewhere a file that is open cannot be removed by others.
    #[cfg(not(unix))]
    fn is_there(&self) -> bool {
        self.path.exists()
    }

    /// Makes sure that what was written outlasts a loss of power, and waits for it.
    ///
    /// # Errors
    /// When the disk does not confirm it.
    pub fn make_sure(&self) -> Result<(), JournalError> {
        self.file
            .sync_all()
            .and_then(|()| confirm(self.folder()))
            .map_err(|cause| self.failed(cause))
    }

    /// Removes the file: its work is saved, or is not wanted.
    pub fn remove(self) {
        // When somebody removed it, its name may be that of the one begun after it.
        if self.is_there() {
            // What cannot be removed is found at the next start, and compared with the saved project then.
            let _ = fs::remove_file(&self.path);
        }
    }

    /// Asks the disk in a while to make sure of what was written, once for all that is written until
    /// then, on a thread of its own: the disk may take its time.
    fn make_sure_soon(&self) {
        if self.asked.swap(true, Ordering::AcqRel) {
            return;
        }
        let asked = Arc::clone(&self.asked);
        let (file, folder) = (self.file.try_clone(), self.folder().to_owned());
        let waiter = thread::Builder::new()
            .name("journal".to_owned())
            .spawn(move || {
                thread::sleep(WAIT);
                // Before the disk is asked: what is written while it answers is asked for again.
                asked.store(false, Ordering::Release);
                // Only a loss of power would show that it failed.
                let _ = file.and_then(|file| file.sync_data());
                let _ = confirm(&folder);
            });
        if waiter.is_err() {
            self.asked.store(false, Ordering::Release);
        }
    }

    fn folder(&self) -> &Path {
        self.path.parent().unwrap_or(Path::new("."))
    }

    fn failed(&self, cause: io::Error) -> JournalError {
        JournalError {
            folder: self.folder().to_owned(),
            cause,
        }
    }
}

impl Drop for Journal {
    fn drop(&mut self) {
        // The lock would stay with the thread that waits for the disk.
        let _ = self.file.unlock();
    }
}

/// The journal of a program that was killed, locked as long as this lives so that no other takes it too.
#[derive(Debug)]
pub struct Found {
    /// What it keeps.
    pub kept: Kept,
    /// When it was last written to.
    pub changed: SystemTime,
    path: PathBuf,
    /// Holds the lock.
    _file: File,
}

impl Found {
    /// Removes the file: its work was taken over, or is not wanted.
    pub fn remove(self) {
        let _ = fs::remove_file(&self.path);
    }
}

/// Finds the work of a program that was killed: the latest journal of a file by its full path, or of a
/// project without one.
///
/// Journals of running programs are passed over, and so are those that cannot be read, which are left
/// alone. One that keeps nothing, or nothing but `known` (the project as it is saved), is removed. When
/// the folder is not there or cannot be read, nothing is found.
pub fn find(folder: &Path, path: Option<&Path>, known: Option<&Project>) -> Option<Found> {
    let stem = stem(path);
    let mut journals: Vec<(SystemTime, PathBuf)> = Vec::new();
    for entry in fs::read_dir(folder).ok()?.flatten() {
        let (name, at) = (entry.file_name(), entry.path());
        let Some(name) = name.to_str() else { continue };
        let Ok(changed) = entry.metadata().and_then(|file| file.modified()) else {
            continue;
        };
        if name.starts_with(PART.0) && name.ends_with(PART.1) {
            remove_stale(&at, changed);
        } else if name.starts_with(&stem) && name.ends_with(ENDING) {
            journals.push((changed, at));
        }
    }
    journals.sort_unstable();
    let mut latest_first = journals.into_iter().rev();
    latest_first.find_map(|(changed, at)| open(at, changed, path, known))
}

/// Opens a journal when it is nobody's and keeps something of a file.
fn open(
    at: PathBuf,
    changed: SystemTime,
    path: Option<&Path>,
    known: Option<&Project>,
) -> Option<Found> {
    // Some systems lock only what may be written to.
    let mut file = File::options().read(true).write(true).open(&at).ok()?;
    if matches!(file.try_lock(), Err(TryLockError::WouldBlock)) {
        return None;
    }
    let mut bytes = Vec::new();
    file.read_to_end(&mut bytes).ok()?;
    let kept = read(&bytes);
    let is_known = |kept: &Kept| known.is_some_and(|known| same(&kept.project, known));
    if bytes.is_empty() || kept.as_ref().is_some_and(is_known) {
        let _ = fs::remove_file(&at);
        return None;
    }
    let kept = kept.filter(|kept| kept.origin.path == path.map(text_of))?;
    Some(Found {
        kept,
        changed,
        path: at,
        _file: file,
    })
}

/// Removes a journal that was being begun when its program was killed. What it was begun with is the
/// change that was being made.
fn remove_stale(at: &Path, changed: SystemTime) {
    let age = SystemTime::now().duration_since(changed);
    if age.is_ok_and(|age| age > STALE) {
        let _ = fs::remove_file(at);
    }
}

/// What the names of the journals of a file begin with; no other file's do.
fn stem(path: Option<&Path>) -> String {
    let Some(path) = path else {
        return "unnamed~".to_owned();
    };
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '.' | '-' | '_');
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let name: String = name
        .chars()
        .take(SHOWN)
        .map(|c| if plain(c) { c } else { '_' })
        .collect();
    let sum = xxh3_64(text_of(path).as_bytes());
    format!("{name}~{sum:016x}~")
}

/// Makes the folder, for its owner alone.
fn make(folder: &Path) -> io::Result<()> {
    let mut builder = DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt;
        builder.mode(0o700);
    }
    builder.create(folder)
}

#[cfg(test)]
mod tests;
