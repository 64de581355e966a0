//! Plain values: text, dimensions, numbers, words.
//!
//! Not here: lists and groups (see `group`).

use crate::field::{Field, take_any};
use crate::hint;
use crate::kind::{Kind, Measured, quoted};
use crate::reading::Reading;
use crate::writing::Out;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use hodful_quantities::read::{Amount, Day, Level, Money, Number};
use hodful_quantities::units::{
    Angle, Area, Celsius, Length, Mass, MassDensity, Ratio, Time, Volume,
};
use hodful_quantities::{Measure, Typed};
use hodful_takeoff::project::{
    ArchKind, BackgroundKind, BlendAim, BuyingAim, CornerAngle, Cracks, DosePer, End, HeaterFuel,
    MaterialKind, Preparing, Rain, RevealPart, Shine, Side, SizeSystem, Squeeze, UncertainInput,
    Weekday,
};
use serde::Deserialize;
use serde::de::Deserializer;
use serde_json::value::RawValue;

impl Field for EcoString {
    const KIND: Kind = Kind::Text;

    fn text(_: &mut Reading, text: &str) -> Option<Self> {
        Some(text.into())
    }

    fn put(&self, out: &mut Out) {
        out.text(self);
    }
}

impl Field for bool {
    const KIND: Kind = Kind::Flag;

    fn flag(_: &mut Reading, flag: bool) -> Option<Self> {
        Some(flag)
    }

    fn put(&self, out: &mut Out) {
        out.bare(if *self { "true" } else { "false" });
    }
}

impl Field for u32 {
    const KIND: Kind = Kind::Whole;

    fn whole(reading: &mut Reading, number: u64) -> Option<Self> {
        let fits = Self::try_from(number).ok();
        if fits.is_none() {
            reading.refuse(eco_format!("{number} is too many; {} at most", Self::MAX));
        }
        fits
    }

    fn number(reading: &mut Reading, number: f64) -> Option<Self> {
        reading.refuse(eco_format!(
            "{number} is not a whole number; {}",
            Self::KIND.want()
        ));
        None
    }

    fn put(&self, out: &mut Out) {
        out.bare(&eco_format!("{self}"));
    }
}

/// A quantity that can stand in a file as it was typed.
pub(crate) trait Dimension: Measure {
    /// Its definition in the schema.
    const NAME: &'static str;
    /// Whether it may also be a bare number.
    const BARE: bool = false;
}

macro_rules! dimensions {
    ($($type:ty => $name:literal $(bare $bare:literal)?,)+) => {
        $(impl Dimension for $type {
            const NAME: &'static str = $name;
            $(const BARE: bool = $bare;)?
        })+
    };
}

dimensions! {
    Length => "length",
    Area => "area",
    Volume => "volume",
    Mass => "mass",
    MassDensity => "mass_density",
    Time => "time",
    Celsius => "temperature",
    Day => "day",
    Ratio => "ratio",
    Angle => "angle",
    Amount => "amount",
    Level => "level",
    Money => "money",
    Number => "number" bare true,
}

impl<T: Dimension> Field for Typed<T> {
    const KIND: Kind = {
        let measured = Measured {
            name: T::NAME,
            what: T::WHAT,
            spellings: T::SPELLINGS,
        };
        if T::BARE {
            Kind::Number(measured)
        } else {
            Kind::Measure(measured)
        }
    };

    fn text(reading: &mut Reading, text: &str) -> Option<Self> {
        match Self::read(text) {
            Ok(typed) => Some(typed),
            Err(misread) => {
                reading.refuse(eco_format!("{misread}"));
                None
            }
        }
    }

    fn take<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error> {
        if !T::BARE {
            return take_any(reading, from);
        }
        // The raw text keeps the digits of a bare number: 2.50 stays 2.50.
        let raw = <&RawValue>::deserialize(from)?.get();
        if is_bare_number(raw) {
            return Ok(<Self as Field>::text(reading, raw));
        }
        let mut inner = serde_json::Deserializer::from_str(raw);
        Ok(take_any(reading, &mut inner).unwrap_or_else(|_| {
            reading.refuse("has an escape that stands for no character");
            None
        }))
    }

    fn put(&self, out: &mut Out) {
        if T::BARE && is_bare_number(self.text()) {
            out.bare(self.text());
        } else {
            out.text(self.text());
        }
    }
}

/// Whether a text is a number as JSON writes it (RFC 8259, section 6).
fn is_bare_number(text: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let text = text.strip_prefix('-').unwrap_or(text);
    let (mantissa, exponent) = match text.split_once(['e', 'E']) {
        Some((mantissa, exponent)) => (mantissa, Some(exponent)),
        None => (text, None),
    };
    let (whole, fraction) = match mantissa.split_once('.') {
        Some((whole, fraction)) => (whole, Some(fraction)),
        None => (mantissa, None),
    };
    digits(whole)
        && (whole == "0" || !whole.starts_with('0'))
        && fraction.is_none_or(digits)
        && exponent.is_none_or(|e| digits(e.strip_prefix(['+', '-']).unwrap_or(e)))
}

/// A closed set of words.
pub(crate) trait Word: Copy + 'static {
    /// With its article: `a kind of background`.
    const WHAT: &'static str;
    /// Every word.
    const WORDS: &'static [Self];
    /// As it stands in a file.
    fn word(self) -> &'static str;
}

/// The words of a set.
pub(crate) fn words<W: Word>() -> Vec<&'static str> {
    W::WORDS.iter().map(|word| word.word()).collect()
}

/// The value of a word, or a problem with the right words.
pub(crate) fn from_word<W: Word>(reading: &mut Reading, text: &str) -> Option<W> {
    let found = W::WORDS.iter().find(|word| word.word() == text).copied();
    if found.is_none() {
        let all = words::<W>();
        let shown = hint::shown(text);
        let what = W::WHAT;
        let hint = hint::nearest(&shown, &all).map_or_else(
            || eco_format!("write {}", quoted(&all)),
            |near| eco_format!("did you mean '{near}'?"),
        );
        reading.refuse(eco_format!("'{shown}' is not {what}; {hint}"));
    }
    found
}

macro_rules! word_fields {
    ($($type:ty => $what:literal, $all:expr, $word:expr;)+) => {$(
        impl Word for $type {
            const WHAT: &'static str = $what;
            const WORDS: &'static [Self] = $all;

            fn word(self) -> &'static str {
                $word(self)
            }
        }

        impl Field for $type {
            const KIND: Kind = Kind::Word(words::<Self>);

            fn text(reading: &mut Reading, text: &str) -> Option<Self> {
                from_word(reading, text)
            }

            fn put(&self, out: &mut Out) {
                out.text(Word::word(*self));
            }
        }
    )+};
}

pub(crate) use word_fields;

word_fields! {
    BackgroundKind => "a kind of background", Self::ALL, Self::word;
    MaterialKind => "a kind of material", Self::ALL, Self::word;
    DosePer => "a volume that a dose is per", Self::ALL, Self::word;
    Side => "a face", Self::ALL, Self::word;
    Rain => "an exposure to rain", Self::ALL, Self::word;
    End => "an end of a face", Self::ALL, Self::word;
    CornerAngle => "a kind of corner", Self::ALL, Self::word;
    ArchKind => "a kind of arch", Self::ALL, Self::word;
    RevealPart => "a part of a reveal", Self::ALL, Self::word;
    SizeSystem => "a system of particle sizes", Self::ALL, Self::word;
    Squeeze => "what a ball does in the fist", Self::ALL, Self::word;
    Shine => "a face of a cut", Self::ALL, Self::word;
    Cracks => "a kind of crack", Self::ALL, Self::word;
    BlendAim => "an aim of a blend", Self::ALL, Self::word;
    BuyingAim => "an aim of an order", Self::ALL, Self::word;
    UncertainInput => "an input that may be off", Self::ALL, Self::word;
    Weekday => "a day of the week", Self::ALL, Self::word;
    Preparing => "something to prepare", Self::ALL, Self::word;
    HeaterFuel => "a fuel of heaters", Self::ALL, Self::word;
    UnitSystem => "a system of units", &[Self::Us, Self::Metric], units_word;
}

fn units_word(units: UnitSystem) -> &'static str {
    match units {
        UnitSystem::Us => "us",
        UnitSystem::Metric => "metric",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bare_numbers_are_those_of_json() {
        for text in ["0", "7", "-7", "2.50", "0.5", "10", "1e3", "1.5E-2", "6e+1"] {
            assert!(is_bare_number(text), "{text}");
        }
        for text in [
            "", "-", "07", ".5", "5.", "1 1/2", "+1", "1e", "1e+", "1,5", "1.2.3", "NaN", " 7", "٣",
        ] {
            assert!(!is_bare_number(text), "{text}");
        }
    }
}
