//! The drawings of documents as SVG, a file each. Not here: drawing.

use crate::args::What;
use anyhow::{Result, bail};
use hodful_documents::{Block, Document, Picture};
use hodful_exchange as exchange;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::drawing::{self, Cut, Drawing};
use hodful_takeoff::{Assessed, Project};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// The longest part of a name that comes from a caption, in letters.
const LONGEST: usize = 60;

/// A file for each drawing: those of the documents; with the dimensions a level and an upright section of
/// each opening; with everything the triangle of textures, where grains are known. An only one is `to`
/// itself, else names beside it tell the wall.
///
/// # Errors
/// When there is no drawing, or it cannot be written as SVG.
pub(super) fn files(
    of: &Assessed<'_>,
    documents: &[Document],
    what: What,
    to: &Path,
) -> Result<Vec<(PathBuf, Vec<u8>)>> {
    let blocks = documents.iter().flat_map(|document| &document.blocks);
    let mut pictures: Vec<Picture> = blocks
        .filter_map(|block| match block {
            Block::Picture(picture) => Some(picture.clone()),
            _ => None,
        })
        .collect();
    if matches!(what, What::Dimensions | What::All) {
        pictures.extend(sections(of.project));
    }
    let mut soils = of.project.materials.values();
    if what == What::All && soils.any(|material| material.soil.is_some()) {
        let drawing = drawing::triangle(of.project, None);
        pictures.push(picture(drawing, "Triangle of textures".to_owned(), false));
    }
    of_pictures(&pictures, to, of.project.units)
}

/// A file for each picture: an only one is `to` itself, else names beside it tell what they show.
///
/// # Errors
/// When there is none, or it cannot be written as SVG.
pub(in crate::commands) fn of_pictures(
    pictures: &[Picture],
    to: &Path,
    units: UnitSystem,
) -> Result<Vec<(PathBuf, Vec<u8>)>> {
    let bytes = |picture: &Picture| exchange::svg(picture, units).map(String::into_bytes);
    match pictures {
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

/// A level and an upright section through every opening.
fn sections(project: &Project) -> Vec<Picture> {
    let walls = project.walls.iter().enumerate();
    let sections = walls.flat_map(|(at, wall)| {
        let openings = wall.openings.iter().enumerate();
        openings.flat_map(move |(index, opening)| {
            [(Cut::Level, "level"), (Cut::Upright, "upright")].map(|(cut, word)| {
                let drawing = drawing::section(project, at, Some(index), cut);
                let caption = format!("Wall {}, opening {}, {word} section", wall.id, opening.id);
                picture(drawing, caption, true)
            })
        })
    });
    sections.collect()
}

/// A drawing as a picture; what is said beside it stands in its caption.
fn picture(mut drawing: Drawing, mut caption: String, to_scale: bool) -> Picture {
    for words in drawing.captions.drain(..) {
        caption.push_str("; ");
        caption.push_str(&words);
    }
    Picture {
        drawing,
        caption: caption.into(),
        to_scale,
        share: 1.0,
        is_tall: false,
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
