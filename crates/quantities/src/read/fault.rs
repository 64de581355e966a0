//! What can be wrong with a typed value, in words for the person who typed it. Not here: finding it.

use super::table::{Kind, nearest};
use crate::typed::{Measure, Misread};
use ecow::EcoString;

/// The longest text that is read, in characters: far longer than any dimension with its arithmetic.
pub(super) const LONGEST: usize = 200;

/// The most brackets inside one another.
pub(super) const DEEPEST: usize = 20;

/// Why a text is refused. Each reads on after the quoted text: `'27oo' is not a length`.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(super) enum Fault {
    #[error("is not {0}")]
    NotOne(&'static str),
    #[error("is {0}, not {1}")]
    OtherKind(&'static str, &'static str),
    #[error("has the unknown unit '{0}'{1}")]
    UnknownUnit(EcoString, Hint),
    #[error("has no unit")]
    NoUnit,
    #[error("has no unit after {0}")]
    NoUnitAfter(EcoString),
    #[error("has the unit {0} with no number before it")]
    NoNumber(EcoString),
    #[error("has {0} before {1}: the larger unit comes first")]
    Order(&'static str, &'static str),
    #[error("has the unit {0} twice: join two of them with +")]
    Twice(&'static str),
    #[error("has {0} and {1} side by side: join them with +")]
    SideBySide(&'static str, &'static str),
    #[error("has {0} {1} or more after a number in {2}")]
    TooMuch(EcoString, &'static str, &'static str),
    #[error(
        "has a part of one {0} before its {1}: only the last number may have a fraction or decimals"
    )]
    PartBefore(&'static str, &'static str),
    #[error("has two numbers side by side, {0} and {1}")]
    TwoNumbers(EcoString, EcoString),
    #[error("has the number {0}, which has its points or commas in odd places")]
    OddNumber(EcoString),
    #[error(
        "has the fraction {0}, which is one or more: write the whole number apart, as in 6 1/2"
    )]
    Improper(EcoString),
    #[error("can be read as {0} or as {1}")]
    TwoReadings(EcoString, EcoString),
    #[error("divides by a fraction: put the fraction in brackets")]
    ByFraction,
    #[error("divides by zero")]
    ByZero,
    #[error("joins {0} and {1} with + or -")]
    Unlike(&'static str, &'static str),
    #[error("has a bracket that is not closed")]
    Open,
    #[error("has a closing bracket too many")]
    Closed,
    #[error("has more than {DEEPEST} brackets inside one another")]
    TooDeep,
    #[error("is longer than {LONGEST} characters")]
    TooLong,
    #[error("multiplies or divides more units than any quantity has")]
    TooManyUnits,
    #[error("is too large a number")]
    TooLarge,
    #[error("{0}")]
    Says(EcoString),
}

/// The unit that was probably meant, or nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Hint(Option<&'static str>);

impl core::fmt::Display for Hint {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self.0 {
            Some(unit) => write!(f, " (did you mean {unit}?)"),
            None => Ok(()),
        }
    }
}

impl Fault {
    /// An unknown word where a unit should stand: with a hint when a unit is near, and otherwise
    /// the text is simply not of the kind.
    pub(super) fn unknown(word: &str, wanted: Kind, what: &'static str) -> Self {
        match nearest(&word.to_lowercase(), wanted) {
            Some(unit) => Self::UnknownUnit(shown(word), Hint(Some(unit))),
            None => Self::NotOne(what),
        }
    }
}

/// Refuses a text that is too long.
pub(super) fn too_long(text: &str) -> Result<(), Fault> {
    // A character is at least a byte, so that a short text need not be counted.
    if text.len() > LONGEST && text.chars().nth(LONGEST).is_some() {
        Err(Fault::TooLong)
    } else {
        Ok(())
    }
}

/// The refusal of a text as one of a kind.
pub(super) fn misread<T: Measure>(text: &str, fault: &Fault) -> Misread {
    Misread {
        text: shown(text.trim()),
        why: ecow::eco_format!("{fault}"),
        spellings: T::SPELLINGS,
    }
}

/// A text fit for a message: no control characters, and not longer than a line.
pub(super) fn shown(text: &str) -> EcoString {
    const MOST: usize = 60;
    let mut shown: EcoString = text
        .chars()
        .take(MOST)
        .map(|c| if c.is_control() { '\u{fffd}' } else { c })
        .collect();
    if text.chars().nth(MOST).is_some() {
        shown.push('…');
    }
    shown
}
