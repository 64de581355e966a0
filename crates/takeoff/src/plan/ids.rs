//! Ids for the walls of a building. Not here: ids of single walls.

use super::PlanShape;
use crate::project::Name;
use ecow::eco_format;

/// Ids for `count` walls of a shape, none of them among `taken`: one set, with a number behind each when
/// a smaller one, or none, leaves one of them taken.
pub(super) fn ids(shape: &PlanShape, count: usize, taken: &[Name]) -> Vec<Name> {
    let names: Vec<Name> = match shape {
        PlanShape::Rectangle { .. } => ["S", "E", "N", "W"].map(Name::from).to_vec(),
        PlanShape::Round { .. } => vec!["R".into()],
        PlanShape::Ell { .. } | PlanShape::Ring { .. } => (0..count).map(letters).collect(),
    };
    let set = |round: usize| -> Vec<Name> {
        names
            .iter()
            .map(|name| {
                if round == 0 {
                    name.clone()
                } else {
                    eco_format!("{name}{}", round + 1)
                }
            })
            .collect()
    };
    // Each set that is not free has one of those taken, and no two sets have one in common.
    let free = (0..=taken.len())
        .map(set)
        .find(|names| !names.iter().any(|name| taken.contains(name)));
    free.unwrap_or_else(|| set(taken.len()))
}

/// A, B and so on to Z, then AA, AB.
fn letters(number: usize) -> Name {
    const LETTERS: [char; 26] = [
        'A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'I', 'J', 'K', 'L', 'M', 'N', 'O', 'P', 'Q', 'R',
        'S', 'T', 'U', 'V', 'W', 'X', 'Y', 'Z',
    ];
    let letter = LETTERS.get(number % LETTERS.len()).copied().unwrap_or('A');
    match number / LETTERS.len() {
        0 => eco_format!("{letter}"),
        more => eco_format!("{}{letter}", letters(more - 1)),
    }
}
