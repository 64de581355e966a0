//! The drawings of documents as SVG, a file each. Not here: drawing.

use anyhow::{Result, bail};
use hodful_documents::{Block, Document, Picture};
use hodful_exchange as exchange;
use hodful_takeoff::Assessed;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// The longest part of a name that comes from a caption, in letters.
const LONGEST: usize = 60;

/// A file for each drawing: `to` itself for an only one, else names beside it that tell the wall.
///
/// # Errors
/// When there is no drawing, or it cannot be written as SVG.
pub(super) fn files(
    of: &Assessed<'_>,
    documents: &[Document],
    to: &Path,
) -> Result<Vec<(PathBuf, Vec<u8>)>> {
    let blocks = documents.iter().flat_map(|document| &document.blocks);
    let pictures: Vec<&Picture> = blocks
        .filter_map(|block| match block {
            Block::Picture(picture) => Some(picture),
            _ => None,
        })
        .collect();
    let bytes =
        |picture: &Picture| exchange::svg(picture, of.project.units).map(String::into_bytes);
    match pictures.as_slice() {
        [] => bail!("there is nothing to draw: the project has no wall with plaster on it"),
        [one] => Ok(vec![(to.to_owned(), bytes(one)?)]),
        several => {
            let mut taken = BTreeSet::new();
            let mut files = Vec::with_capacity(several.len());
            for picture in several {
                let name = free_name(&name(&picture.caption), &mut taken);
                files.push((beside(to, &name), bytes(picture)?));
            }
            Ok(files)
        }
    }
}

/// The name of a drawing in a file name: the letters and digits of its caption up to what is said behind it.
fn name(caption: &str) -> String {
    let head = caption.split(';').next().unwrap_or_default();
    let mut name = String::new();
    for letter in head.chars() {
        if letter.is_alphanumeric() {
            name.push(letter);
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    let name: String = name.chars().take(LONGEST).collect();
    let name = name.trim_end_matches('-');
    if name.is_empty() {
        "drawing".to_owned()
    } else {
        name.to_lowercase()
    }
}

/// A name that was not given yet: with a number behind it where it was.
fn free_name(name: &str, taken: &mut BTreeSet<String>) -> String {
    let mut free = name.to_owned();
    let mut number = 2_u32;
    while !taken.insert(free.clone()) {
        free = format!("{name}-{number}");
        number += 1;
    }
    free
}

/// `barn.svg` with a name: `barn-wall-s-outside.svg`.
fn beside(to: &Path, name: &str) -> PathBuf {
    let mut stem = to.file_stem().unwrap_or_default().to_owned();
    stem.push(format!("-{name}.svg"));
    to.with_file_name(stem)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_drawings_are_names_of_files() {
        assert_eq!(name("Wall S, outside; scale 1:50"), "wall-s-outside");
        assert_eq!(name("Wall ../../etc, inside"), "wall-etc-inside");
        assert_eq!(name("Wall <b>&\u{1f600}"), "wall-b");
        assert_eq!(name("///"), "drawing");
        assert_eq!(name(&"x".repeat(900)).len(), LONGEST);
        let mut taken = BTreeSet::new();
        let names = ["a", "a", "a-2", "a"].map(|name| free_name(name, &mut taken));
        assert_eq!(names, ["a", "a-2", "a-2-2", "a-3"]);
        let path = beside(Path::new("out/barn.svg"), "wall-s");
        assert_eq!(path, Path::new("out/barn-wall-s.svg"));
    }
}
