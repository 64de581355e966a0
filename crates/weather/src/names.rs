//! Names of columns: what they hold, and in which unit. Not here: the table itself (see `table`).

use crate::Kind;
use crate::unit::{Unit, unit};

/// The words that stand for a kind in the name of a column, one after the other. The first that is found counts.
const NAMES: &[(&[&str], Kind)] = &[
    (&["dew", "point"], Kind::DewPoint),
    (&["dewpoint"], Kind::DewPoint),
    (&["temperature"], Kind::Temperature),
    (&["temp"], Kind::Temperature),
    (&["dry", "bulb"], Kind::Temperature),
    (&["humidity"], Kind::Humidity),
    (&["rh"], Kind::Humidity),
    (&["pressure"], Kind::Pressure),
    (&["wind"], Kind::Wind),
    (&["beam"], Kind::Beam),
    (&["dni"], Kind::Beam),
    (&["diffuse"], Kind::Diffuse),
    (&["dhi"], Kind::Diffuse),
    (&["global"], Kind::Sun),
    (&["ghi"], Kind::Sun),
    (&["sun"], Kind::Sun),
    (&["radiation"], Kind::Sun),
    (&["cloud"], Kind::Cloud),
    (&["rain"], Kind::Rain),
    (&["precipitation"], Kind::Rain),
];

/// Words by which a column is something else: a wind that is a direction, a temperature of the ground, sun through a
/// level plane that does not say that it is all of it.
const OTHERWISE: &[&str] = &[
    "direction",
    "gust",
    "gusts",
    "soil",
    "ground",
    "water",
    "wet",
    "skin",
    "indoor",
    "inside",
    "apparent",
    "feels",
    "min",
    "max",
    "sea",
    "msl",
    "chance",
    "probability",
    "direct",
    "net",
    "longwave",
    "infrared",
    "thermal",
    "tilted",
    "terrestrial",
    "uv",
    "sunrise",
    "sunset",
];

/// Words of a column of times.
const TIMES: &[&str] = &["time", "datetime", "timestamp", "date", "hour"];

/// The words of a name, in small letters.
pub(super) fn words(name: &str) -> Vec<String> {
    name.to_lowercase()
        .split(|c: char| c.is_whitespace() || "_()[],:".contains(c))
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}

/// Whether a name is that of a column of times.
pub(super) fn is_time(words: &[String]) -> bool {
    !has(words, OTHERWISE) && has(words, TIMES) && kind(words).is_none()
}

fn has(words: &[String], any: &[&str]) -> bool {
    words.iter().any(|word| any.contains(&word.as_str()))
}

/// What a column holds by its name.
pub(super) fn kind(words: &[String]) -> Option<Kind> {
    if has(words, OTHERWISE) {
        return None;
    }
    NAMES
        .iter()
        .find(|(name, _)| words.windows(name.len()).any(|some| some == *name))
        .map(|(_, kind)| *kind)
}

/// The unit in the words of a name: the last that is one. An `in` counts as inches only when nothing else does.
pub(super) fn written(kind: Kind, words: &[String]) -> Option<Unit> {
    let last = |inches: bool| {
        let some = words.iter().rev().filter(|word| (*word == "in") == inches);
        some.into_iter().find_map(|word| unit(kind, word))
    };
    last(false).or_else(|| last(true))
}
