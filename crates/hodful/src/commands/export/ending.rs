//! The format of a file by its ending. Not here: what is written in it.

use super::super::shown;
use anyhow::{Result, bail};
use std::path::Path;

/// The formats there are, by the ending of the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ending {
    Csv,
    Html,
    Calendar,
    Json,
    Markdown,
    Pdf,
    Svg,
    Xlsx,
}

impl Ending {
    const ALL: [(&'static str, Self); 8] = [
        ("csv", Self::Csv),
        ("html", Self::Html),
        ("ics", Self::Calendar),
        ("json", Self::Json),
        ("md", Self::Markdown),
        ("pdf", Self::Pdf),
        ("svg", Self::Svg),
        ("xlsx", Self::Xlsx),
    ];

    /// The format of a path.
    pub(super) fn of(path: &Path) -> Result<Self> {
        let ending = path.extension().map(|ending| ending.to_string_lossy());
        let ending = ending.unwrap_or_default();
        let found = Self::ALL
            .into_iter()
            .find(|(word, _)| word.eq_ignore_ascii_case(&ending));
        if let Some((_, found)) = found {
            return Ok(found);
        }
        let known: Vec<String> = Self::ALL
            .iter()
            .map(|(word, _)| format!(".{word}"))
            .collect();
        bail!(
            "'{}' does not say which format is wanted; end it with one of {}",
            shown(path),
            known.join(", ")
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ending_says_the_format_and_nothing_else_does() {
        for (word, ending) in Ending::ALL {
            for path in [format!("a.{word}"), format!("b/a.{}", word.to_uppercase())] {
                assert_eq!(Ending::of(Path::new(&path)).unwrap(), ending, "{path}");
            }
        }
        for path in ["a", "a.doc", "pdf", ".pdf", "a.pdf/"] {
            let told = Ending::of(Path::new(path)).map_err(|wrong| wrong.to_string());
            if path != "a.pdf/" {
                assert!(
                    told.unwrap_err().contains("end it with one of .csv"),
                    "{path}"
                );
            }
        }
    }
}
