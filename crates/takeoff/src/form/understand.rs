//! Typed texts: what they mean for a kind of field, and with which unit they are stored. Not here: the
//! grammar of lengths and the like (see `hodful_quantities::read`), and what holds the text.

use super::{Kind, Understood, ranges};
use crate::check::done::mixed_examples;
use crate::check::work;
use ecow::{EcoString, eco_format};
use hodful_quantities::Measure;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::{Amount, Day, Level, Money, Number};
use hodful_quantities::units::{
    Angle, Area, Celsius, Length, Mass, MassDensity, Ratio, Time, Volume, cubic_yard, ratio_of,
};
use std::fmt::Display;

/// Digits of a plain number that are shown.
const DIGITS: u32 = 12;

/// Words of a choice that a message lists; a project can have thousands.
const MOST_LISTED: usize = 8;

/// Reads a text for a kind of field.
pub(super) fn understand(
    kind: &Kind,
    text: &str,
    units: UnitSystem,
) -> Result<Understood, EcoString> {
    match kind {
        Kind::Length => {
            measured::<Length, _>(text, length_unit(units), |v| print::length(v, units))
        }
        Kind::Area => {
            let unit = match units {
                UnitSystem::Us => (" ft2", "1 ft2"),
                UnitSystem::Metric => (" m2", "1 m2"),
            };
            measured::<Area, _>(text, Some(unit), |v| print::area(v, units))
        }
        Kind::Thickness => {
            measured::<Length, _>(text, length_unit(units), |v| print::thickness(v, units))
        }
        Kind::Angle => measured::<Angle, _>(text, Some(DEGREES), |v| print::angle(v, units)),
        Kind::Share => measured::<Ratio, _>(text, Some(PERCENT), |v| print::percentage(v, units)),
        Kind::Density => measured::<MassDensity, _>(text, None, |v| print::density(v, units)),
        Kind::Dose => measured::<MassDensity, _>(text, None, |v| print::dose(v, units)),
        Kind::Volume => measured::<Volume, _>(text, None, |v| volume(v, units)),
        Kind::Amount => measured::<Amount, _>(text, None, |v| amount(&v, units)),
        Kind::Mixed => mixed(text, units),
        Kind::Level => measured::<Level, _>(text, None, |v| match v {
            Level::Length(length) => print::thickness(length, units).to_string(),
            Level::Share(share) => print::percentage(ratio_of(share), units).to_string(),
        }),
        Kind::Mass => measured::<Mass, _>(text, None, |v| print::mass(v, units)),
        Kind::Time => measured::<Time, _>(text, None, print::time),
        Kind::Temperature => {
            let scale = match units {
                UnitSystem::Us => (" F", "1 F"),
                UnitSystem::Metric => (" C", "1 C"),
            };
            measured::<Celsius, _>(text, Some(scale), |v| print::temperature(v, units))
        }
        Kind::Day => measured::<Day, _>(text, None, |v| v),
        Kind::Days => days(text),
        Kind::Facing => facing(text),
        Kind::ShareRange => ranges::share(text, units),
        Kind::NumberRange => ranges::number(text),
        Kind::Sieves => ranges::sieves(text, units),
        Kind::SieveRanges => ranges::sieve_ranges(text, units),
        Kind::Money => measured::<Money, _>(text, None, |v| print::money(v, units)),
        Kind::Number => measured::<Number, _>(text, None, |v| print::significant(v.get(), DIGITS)),
        Kind::Count => {
            let count: u32 = text.trim().parse().map_err(|_| not_a_count(text))?;
            Ok(Understood {
                stored: eco_format!("{count}"),
                shown: format!("= {}", print::count(u64::from(count), units)),
            })
        }
        Kind::Text => Ok(plain(text.trim())),
        Kind::Id => name(text),
        Kind::OneOf(words) => one_of(words, text).map(|word| plain(&word)),
        Kind::SomeOf(words) => some_of(words, text).map(|some| plain(&some.join(", "))),
        Kind::Corners => corners(text, length_unit(units)).map(|corners| Understood {
            stored: corners
                .iter()
                .map(|[u, v]| format!("{u}, {v}"))
                .collect::<Vec<_>>()
                .join("; ")
                .into(),
            shown: format!("= {} corners", corners.len()),
        }),
    }
}

/// A unit for a bare number: as it is written behind digits, and how one of it is written.
pub(super) type BareUnit = (&'static str, &'static str);

const DEGREES: BareUnit = (" deg", "1 deg");
pub(super) const PERCENT: BareUnit = (" %", "1 %");

#[allow(
    clippy::unnecessary_wraps,
    reason = "kinds of field without a unit for bare numbers pass none"
)]
pub(super) fn length_unit(units: UnitSystem) -> Option<BareUnit> {
    Some(match units {
        UnitSystem::Us => ("\"", "1\""),
        UnitSystem::Metric => (" mm", "1 mm"),
    })
}

/// Plaster as mixed: an amount that is no mass.
fn mixed(text: &str, units: UnitSystem) -> Result<Understood, EcoString> {
    let wrong = |why: &str| eco_format!("'{}' {why}; write {}", text.trim(), mixed_examples(units));
    match Amount::read(text) {
        Ok(Amount::Mass(_)) => Err(wrong("is a mass")),
        Err(misread) => Err(wrong(&misread.why)),
        Ok(of) => Ok(Understood {
            stored: text.into(),
            shown: format!("= {}", amount(&of, units)),
        }),
    }
}

fn plain(text: &str) -> Understood {
    Understood {
        stored: text.into(),
        shown: text.to_owned(),
    }
}

/// Days of the calendar, with commas or blanks between them.
fn days(text: &str) -> Result<Understood, EcoString> {
    let days = listed_days(text);
    let days = days.map(|day| with_unit::<Day>(day, None).map(|(text, _)| text));
    let days: Vec<EcoString> = days.collect::<Result<_, EcoString>>()?;
    Ok(Understood {
        stored: days.join(", ").into(),
        shown: match days.len() {
            1 => "= 1 day".to_owned(),
            count => format!("= {count} days"),
        },
    })
}

/// The days of a list, each as typed.
pub(super) fn listed_days(text: &str) -> impl Iterator<Item = &str> {
    let between = |c: char| c.is_whitespace() || matches!(c, ',' | ';');
    text.split(between).filter(|day| !day.is_empty())
}

/// A direction of the compass, kept as typed.
fn facing(text: &str) -> Result<Understood, EcoString> {
    let text = text.trim();
    let degrees = work::facing(text).ok_or_else(|| eco_format!("'{text}' {}", work::NO_FACING))?;
    let degrees = print::significant(degrees.rem_euclid(360.0), DIGITS);
    Ok(Understood {
        stored: text.into(),
        shown: format!("= {degrees}° from north by east"),
    })
}

/// A name that people can read and type.
fn name(text: &str) -> Result<Understood, EcoString> {
    let text = text.trim();
    if text.is_empty() {
        return Err("is empty; give it a name".into());
    }
    if text.chars().any(char::is_control) {
        return Err(eco_format!(
            "'{}' has a character that cannot be seen",
            text.escape_debug()
        ));
    }
    Ok(plain(text))
}

fn measured<T: Measure, S: Display>(
    text: &str,
    unit: Option<BareUnit>,
    shown: impl Fn(T) -> S,
) -> Result<Understood, EcoString> {
    let (stored, value) = with_unit::<T>(text, unit)?;
    Ok(Understood {
        stored,
        shown: format!("= {}", shown(value)),
    })
}

/// The text as it is stored, with a unit when it was a bare number that cannot stand alone.
pub(super) fn with_unit<T: Measure>(
    text: &str,
    unit: Option<BareUnit>,
) -> Result<(EcoString, T), EcoString> {
    let wrong = match T::read(text) {
        Ok(value) => return Ok((text.into(), value)),
        Err(wrong) => eco_format!("{wrong}"),
    };
    let Some((behind, one)) = unit.filter(|_| Number::read(text).is_ok()) else {
        return Err(wrong);
    };
    let bare = text.trim();
    let behind = eco_format!("{bare}{behind}");
    // A sum takes no unit behind it: `2*400 + 30` is stored as `(2*400 + 30) * 1 mm`.
    let times = eco_format!("({bare}) * {one}");
    let same = |text: &EcoString| T::read(text).ok().map(|value| (text.clone(), value));
    let stored = if bare.contains(SIGNS) {
        same(&times)
    } else {
        same(&behind).or_else(|| same(&times))
    };
    stored.ok_or(wrong)
}

/// Signs of arithmetic. A hyphen or a slash may as well stand in a fraction: `6-1/2`.
const SIGNS: &[char] = &['+', '*', '×', '·', '÷', '(', '\u{2212}'];

fn volume(value: Volume, units: UnitSystem) -> print::Figure {
    if value.get::<cubic_yard>() >= 1.0 {
        print::bulk_volume(value, units)
    } else {
        print::volume(value, units)
    }
}

fn amount(value: &Amount, units: UnitSystem) -> String {
    match value {
        Amount::Volume(value) => volume(*value, units).to_string(),
        Amount::Mass(value) => print::mass(*value, units).to_string(),
        Amount::Packages { count, name } => {
            format!("{} × {name}", print::significant(*count, DIGITS))
        }
    }
}

/// What is said of a text that is not a whole number.
pub(super) fn not_a_count(text: &str) -> EcoString {
    eco_format!("'{text}' is not a whole number; write 1, 2 or 12")
}

/// The word a text means: the word itself, or the only one that begins so; capitals do not matter.
pub(super) fn one_of(words: &[EcoString], text: &str) -> Result<EcoString, EcoString> {
    let text = text.trim();
    if let Some(word) = words.iter().find(|word| *word == text) {
        return Ok(word.clone());
    }
    let small = text.to_lowercase();
    let is = |word: &&EcoString| word.to_lowercase() == small;
    let begins = |word: &&EcoString| !small.is_empty() && word.to_lowercase().starts_with(&small);
    let same: Vec<_> = words.iter().filter(is).collect();
    let close = if same.is_empty() {
        words.iter().filter(begins).collect()
    } else {
        same
    };
    match close.as_slice() {
        [word] => Ok((*word).clone()),
        [] if words.is_empty() => Err(eco_format!("'{text}' is not there; the project has none")),
        [] => Err(eco_format!("'{text}' is none of {}", listed(words, "and"))),
        several => {
            let several: Vec<EcoString> = several.iter().map(|w| (*w).clone()).collect();
            Err(eco_format!("'{text}' can be {}", listed(&several, "or")))
        }
    }
}

/// The words a text means, with commas, blanks, `+` or `and` between them; each once.
pub(super) fn some_of(words: &[EcoString], text: &str) -> Result<Vec<EcoString>, EcoString> {
    let between = |c: char| c.is_whitespace() || matches!(c, ',' | ';' | '+' | '&');
    let mut some: Vec<EcoString> = Vec::new();
    for part in text.split(between).filter(|p| !matches!(*p, "" | "and")) {
        let word = one_of(words, part)?;
        if !some.contains(&word) {
            some.push(word);
        }
    }
    Ok(some)
}

fn listed(words: &[EcoString], and: &str) -> EcoString {
    if words.len() > MOST_LISTED {
        let first: Vec<&str> = words
            .iter()
            .take(MOST_LISTED)
            .map(EcoString::as_str)
            .collect();
        let more = words.len() - MOST_LISTED;
        return eco_format!("{} {and} {more} more", first.join(", "));
    }
    match words.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, others)) => eco_format!("{} {and} {last}", others.join(", ")),
        None => EcoString::new(),
    }
}

/// Corners as `x, y; x, y`, each text as it is stored. With a unit, bare numbers take it.
pub(super) fn corners(
    text: &str,
    unit: Option<BareUnit>,
) -> Result<Vec<[EcoString; 2]>, EcoString> {
    text.split(';')
        .filter(|corner| !corner.trim().is_empty())
        .map(|text| corner(text.trim(), unit))
        .collect()
}

/// One corner. A decimal comma may stand in it as well, so every comma is tried.
fn corner(text: &str, unit: Option<BareUnit>) -> Result<[EcoString; 2], EcoString> {
    let stored = |part: &str| with_unit::<Length>(part.trim(), unit).map(|(text, _)| text);
    let pairs = || {
        text.match_indices(',').filter_map(|(at, _)| {
            let (u, rest) = text.split_at_checked(at)?;
            Some((u, rest.strip_prefix(',')?))
        })
    };
    let read = |(u, v): (&str, &str)| Some([stored(u).ok()?, stored(v).ok()?]);
    let blank_behind = |(_, v): &(&str, &str)| v.starts_with(char::is_whitespace);
    let mut all = pairs().filter_map(read);
    match (all.next(), all.next()) {
        (Some(corner), None) => Ok(corner),
        (Some(_), Some(_)) => {
            let mut spaced = pairs().filter(blank_behind).filter_map(read);
            match (spaced.next(), spaced.next()) {
                (Some(corner), None) => Ok(corner),
                _ => Err(eco_format!(
                    "'{text}' can be read in two ways; write a comma and a blank between the two lengths"
                )),
            }
        }
        (None, _) => match pairs().next() {
            Some((u, v)) => Err(stored(u).and(stored(v)).err().unwrap_or_default()),
            None => Err(eco_format!(
                "'{text}' is not a corner; write how far from the left and how far up, such as 3 m, 2.4 m"
            )),
        },
    }
}
