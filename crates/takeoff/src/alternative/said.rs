//! A change in words. Not here: what it makes.

use crate::project::{Alteration, Spot};
use ecow::{EcoString, eco_format};

/// What a change does: `coat fill: thickness + 1/2"`.
pub fn said(change: &Alteration) -> EcoString {
    match change {
        Alteration::Set { at, field, to } => {
            let to = to.as_deref().unwrap_or("not given");
            eco_format!("{}{}: {to}", of(at), field_words(field))
        }
        Alteration::Add { at, field, by } => {
            let sign = if by.trim_start().starts_with(['-', '+']) {
                ""
            } else {
                "+ "
            };
            eco_format!("{}{} {sign}{by}", of(at), field_words(field))
        }
        Alteration::LeaveOut { at } => eco_format!("without {}", spot(at)),
        Alteration::Coat {
            build_up,
            after,
            coat,
        } => {
            let on = after.as_deref().unwrap_or("the background");
            eco_format!(
                "one coat more on {on} of {build_up}: {}, {}",
                coat.coat,
                coat.thickness.text()
            )
        }
        Alteration::Wall { wall } => eco_format!("one wall more: {}", wall.id),
        Alteration::Package { material, package } => {
            eco_format!("{material} also by the {}", package.name)
        }
    }
}

fn field_words(key: &str) -> String {
    key.replace(['_', '.'], " ")
}

/// The things with a comma behind; nothing for the project itself.
fn of(at: &Spot) -> EcoString {
    if *at == Spot::default() {
        EcoString::new()
    } else {
        eco_format!("{}, ", spot(at))
    }
}

/// The things in words: `coat fill of outside bale`.
fn spot(at: &Spot) -> EcoString {
    let parts = [
        ("coat", &at.coat),
        ("opening", &at.opening),
        ("package", &at.package),
        ("build-up", &at.build_up),
        ("wall", &at.wall),
        ("material", &at.material),
        ("background", &at.background),
        ("mix", &at.mix),
        ("supplier", &at.supplier),
    ];
    let mut words = parts.iter().filter_map(|(noun, name)| {
        let name = name.as_ref()?;
        Some(eco_format!("{noun} {name}"))
    });
    let Some(first) = words.next() else {
        return if at.mixer == Some(true) {
            "the mixer".into()
        } else {
            "the project".into()
        };
    };
    match words.next() {
        Some(whole) => eco_format!("{first} of {whole}"),
        None => first,
    }
}
