//! Where things stand in the repository. Not here: what is in them.

use std::fs;
use std::path::{Path, PathBuf};

/// The top folder of the repository.
pub(crate) fn top() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_path_buf()
}

/// Every file under a folder with this ending, in the order of their paths.
pub(crate) fn files(under: &Path, ending: &str) -> Result<Vec<PathBuf>, String> {
    let mut found = Vec::new();
    let mut folders = vec![under.to_path_buf()];
    while let Some(folder) = folders.pop() {
        let entries = fs::read_dir(&folder).map_err(|e| format!("{}: {e}", folder.display()))?;
        for entry in entries {
            let path = entry
                .map_err(|e| format!("{}: {e}", folder.display()))?
                .path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == ending) {
                found.push(path);
            }
        }
    }
    found.sort();
    Ok(found)
}

/// A path as it stands in the repository, for messages.
pub(crate) fn shown(path: &Path) -> String {
    path.strip_prefix(top())
        .unwrap_or(path)
        .display()
        .to_string()
}

/// The text of a file.
pub(crate) fn text(path: &Path) -> Result<String, String> {
    fs::read_to_string(path).map_err(|e| format!("{}: {e}", shown(path)))
}
