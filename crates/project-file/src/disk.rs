//! Projects on disk. A save replaces the file whole or not at all: whenever it is interrupted, a whole
//! project is on the disk, the old one or the new.
//!
//! What was written goes to a new file in the same folder, is made sure of (`fsync`), takes the place
//! of the old file in one step (`rename`), and the folder is made sure of. Not here: what is written.

use hodful_takeoff::problem::Problem;
use hodful_takeoff::project::Project;
use std::fs::{self, File, Permissions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tempfile::Builder;

/// Links followed from one to the next before they are taken for a circle; as many as Linux follows.
const MOST_LINKS: usize = 40;

/// Why a project could not be opened.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum LoadError {
    /// The file could not be read.
    #[error("cannot open {}: {}", path.display(), words(cause))]
    File {
        /// The file.
        path: PathBuf,
        /// What the system said.
        cause: io::Error,
    },
    /// The file was read, and something in it is wrong.
    #[error("{} is not a whole project: {}", path.display(), count(problems))]
    Problems {
        /// The file.
        path: PathBuf,
        /// Everything that is wrong, in the order of the file.
        problems: Vec<Problem>,
    },
}

/// Why a project could not be saved.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SaveError {
    /// Nothing was changed on the disk: what was there is whole.
    #[error("cannot save {}: {}; what was there before is unchanged", path.display(), words(cause))]
    Unchanged {
        /// The file.
        path: PathBuf,
        /// What the system said.
        cause: io::Error,
    },
    /// The new file is in place, but the disk did not confirm that it would survive a loss of power.
    #[error("saved {}, but the disk did not confirm it: {}; save again", path.display(), words(cause))]
    Unconfirmed {
        /// The file.
        path: PathBuf,
        /// What the system said.
        cause: io::Error,
    },
}

/// Reads the project in a file.
///
/// # Errors
/// [`LoadError::File`] when the file cannot be read, [`LoadError::Problems`] as [`crate::read()`].
pub fn load(path: &Path) -> Result<Project, LoadError> {
    let bytes = fs::read(path).map_err(|cause| LoadError::File {
        path: path.to_owned(),
        cause,
    })?;
    crate::read(&bytes).map_err(|problems| LoadError::Problems {
        path: path.to_owned(),
        problems,
    })
}

/// Saves a project to a file, whole or not at all.
///
/// The file keeps its permissions; a new one gets the usual ones. A symbolic link stays a link: what it
/// points at is replaced. Another name of the same file (a hard link) keeps the old project.
///
/// # Errors
/// [`SaveError::Unchanged`] when the folder is not there, or is full, or may not be written to, when the
/// file is write-protected or is a folder: what was there stays, and nothing is left lying about.
/// [`SaveError::Unconfirmed`] when only the last confirmation failed.
pub fn save(path: &Path, project: &Project) -> Result<(), SaveError> {
    save_bytes(path, &crate::write(project))
}

/// Saves any bytes to a file in the way of [`save`].
///
/// # Errors
/// As [`save`].
pub fn save_bytes(path: &Path, bytes: &[u8]) -> Result<(), SaveError> {
    replace(path, |file| file.write_all(bytes))
}

/// Replaces a file with what `write` writes.
fn replace(
    path: &Path,
    write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> Result<(), SaveError> {
    let unchanged = |cause| SaveError::Unchanged {
        path: path.to_owned(),
        cause,
    };
    let target = followed(path).map_err(unchanged)?;
    let folder = folder_of(&target);
    put_in_place(&target, folder, write).map_err(unchanged)?;
    confirm(folder).map_err(|cause| SaveError::Unconfirmed {
        path: path.to_owned(),
        cause,
    })
}

fn put_in_place(
    target: &Path,
    folder: &Path,
    write: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> io::Result<()> {
    let kept = permissions_of(target)?;
    let mut builder = Builder::new();
    builder.prefix(".hodful-").suffix(".part");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        // Like any new file: what the umask leaves. Else it would be for the owner alone.
        builder.permissions(Permissions::from_mode(0o666));
    }
    // Removed when dropped, on whatever way out.
    let mut part = builder.tempfile_in(folder)?;
    write(part.as_file_mut())?;
    if let Some(kept) = kept {
        part.as_file().set_permissions(kept)?;
    }
    part.as_file().sync_all()?;
    part.persist(target)?;
    Ok(())
}

/// The permissions of the file to be replaced, when there is one and it may be replaced.
fn permissions_of(target: &Path) -> io::Result<Option<Permissions>> {
    let found = match fs::metadata(target) {
        Ok(found) => found,
        Err(none) if none.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(other) => return Err(other),
    };
    if found.is_dir() {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    if !found.is_file() {
        return Err(io::Error::other("it is a device or a pipe, not a file"));
    }
    if found.permissions().readonly() {
        // A rename would go through all the same.
        return Err(io::Error::other("the file is write-protected"));
    }
    Ok(Some(found.permissions()))
}

/// Where a path leads when it is a symbolic link, even to a file that is not there yet.
fn followed(path: &Path) -> io::Result<PathBuf> {
    let mut path = path.to_owned();
    for _ in 0..MOST_LINKS {
        match fs::read_link(&path) {
            // A relative link counts from the folder it lies in; joining an absolute one replaces it.
            Ok(next) => path = folder_of(&path).join(next),
            Err(_) => return Ok(path),
        }
    }
    Err(io::Error::other("its links lead in a circle"))
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// Makes sure that the new name of the file is on the disk.
#[cfg(unix)]
pub(crate) fn confirm(folder: &Path) -> io::Result<()> {
    match File::open(folder)?.sync_all() {
        // Some network and memory file systems cannot do it for a folder.
        Err(cause) if cause.kind() == io::ErrorKind::InvalidInput => Ok(()),
        other => other,
    }
}

/// Folders cannot be opened for this elsewhere; the system keeps its own journal of names.
#[cfg(not(unix))]
pub(crate) fn confirm(_: &Path) -> io::Result<()> {
    Ok(())
}

/// What the system said, in words.
pub(crate) fn words(cause: &io::Error) -> String {
    use io::ErrorKind as Kind;
    match cause.kind() {
        Kind::NotFound => "there is no such file or folder".to_owned(),
        Kind::PermissionDenied => {
            "it may not be read or written; ask who owns the folder".to_owned()
        }
        Kind::StorageFull | Kind::QuotaExceeded => "the disk is full; make room".to_owned(),
        Kind::ReadOnlyFilesystem => "the disk may only be read; save elsewhere".to_owned(),
        Kind::IsADirectory => "it is a folder; give the name of a file".to_owned(),
        Kind::NotADirectory => "what should be its folder is a file".to_owned(),
        Kind::FileTooLarge => "the file would be too large for this disk".to_owned(),
        _ => cause.to_string(),
    }
}

fn count(problems: &[Problem]) -> String {
    match problems {
        [] => "nothing is wrong".to_owned(),
        [one] => one.to_string(),
        [first, rest @ ..] => format!("{first}; and {} more", rest.len()),
    }
}

#[cfg(test)]
mod tests;
