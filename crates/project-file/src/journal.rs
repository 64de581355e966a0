//! The recovery journal: what was done since the last save, so that a program that is killed, or a
//! machine that stops, loses next to nothing.
//!
//! One file for one running project, a record a line:
//!
//! ```text
//! 5d1c6a0e1f2b3c4d {"format": "hodful-journal", "version": 1, "path": "/home/…", "disk": "2841 93f0…"}
//! 0b7e… {"format": "hodful-project", "version": 1, "name": …}      the whole project
//! 77a2… {"walls": [{"at": 3, "removed": 1, "added": [{ "id": "S", … }]}], "count": 40}    a change
//! ```
//!
//! A line begins with a sum (XXH3, 64 bits) of itself and of every line before it. A line that was not
//! written to its end, or not as it was meant, shows by its sum: it is left out with all that follow, and
//! what stands before it is the project as it was last.
//!
//! The bytes are here; [`Journal`] and [`find`] are the same on disk. Not here: the folder journals lie
//! in, and when one is begun or thrown away.

mod disk;
mod lines;

pub use disk::{Found, Journal, JournalError, find};
pub use lines::{Kept, Scribe, read};

use ecow::{EcoString, eco_format};
use std::path::Path;
use xxhash_rust::xxh3::xxh3_64;

/// What a file holds, without holding it: two with the same fingerprint hold the same bytes.
///
/// The bytes decide, not the time: a file that was only touched is the same file. The sum is XXH3 with
/// 64 bits; it tells files apart that differ by chance, not by malice.
///
/// ```
/// use hodful_project_file::journal::Fingerprint;
/// let before = Fingerprint::of(b"one wall");
/// assert_eq!(before, Fingerprint::of(b"one wall"));
/// assert_ne!(before, Fingerprint::of(b"two walls"));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fingerprint {
    length: u64,
    sum: u64,
}

impl Fingerprint {
    /// The fingerprint of the bytes of a file.
    pub fn of(bytes: &[u8]) -> Self {
        Self {
            // Memory that holds the bytes has a length of at most 64 bits on every system there is.
            length: bytes.len() as u64,
            sum: xxh3_64(bytes),
        }
    }

    /// As it stands in a journal.
    fn text(self) -> EcoString {
        eco_format!("{} {:016x}", self.length, self.sum)
    }

    fn from_text(text: &str) -> Option<Self> {
        let (length, sum) = text.split_once(' ')?;
        Some(Self {
            length: length.parse().ok()?,
            sum: u64::from_str_radix(sum, 16).ok()?,
        })
    }
}

/// What a journal belongs to: a file, and what the file held when the work began.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Origin {
    /// The full path of the file, as text; `None` for a project without a file.
    path: Option<EcoString>,
    /// What the file held; `None` when it was not there.
    disk: Option<Fingerprint>,
}

impl Origin {
    /// A file by its full path (`None`: a project that has no file yet) and what it holds (`None`: it is
    /// not there).
    pub fn new(path: Option<&Path>, disk: Option<Fingerprint>) -> Self {
        Self {
            path: path.map(text_of),
            disk,
        }
    }

    /// What the file held when the work began; `None` when it was not there.
    pub fn disk(&self) -> Option<Fingerprint> {
        self.disk
    }
}

/// A path as text, another text for every path: what is not UTF-8 stands as `%` and two digits a byte.
fn text_of(path: &Path) -> EcoString {
    let mut text = EcoString::new();
    for chunk in path.as_os_str().as_encoded_bytes().utf8_chunks() {
        for c in chunk.valid().chars() {
            match c {
                '%' => text.push_str("%25"),
                other => text.push(other),
            }
        }
        for byte in chunk.invalid() {
            text.push_str(&eco_format!("%{byte:02x}"));
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fingerprint_comes_back_from_its_text() {
        for bytes in [&b""[..], b"x", &[0; 1000]] {
            let print = Fingerprint::of(bytes);
            assert_eq!(Fingerprint::from_text(&print.text()), Some(print));
        }
        for text in ["", "7", "7 ", " 7", "7 x", "-1 0", "7 00112233445566778899"] {
            assert_eq!(Fingerprint::from_text(text), None, "{text}");
        }
    }

    #[test]
    fn every_path_has_a_text_of_its_own() {
        assert_eq!(text_of(Path::new("/a b/é%")), "/a b/é%25");
        #[cfg(unix)]
        {
            use std::os::unix::ffi::OsStrExt;
            let odd = std::ffi::OsStr::from_bytes(b"/\xff\xfe%ff");
            assert_eq!(text_of(Path::new(odd)), "/%ff%fe%25ff");
        }
    }
}
