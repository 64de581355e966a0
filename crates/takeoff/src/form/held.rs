//! A field as a value that holds a typed text, and a table of such fields. Not here: the tables.

use super::{Kind, understand};
use crate::project::{
    ArchKind, BackgroundKind, BlendAim, BuyingAim, CornerAngle, Cracks, DosePer, End, HeaterFuel,
    MaterialKind, Preparing, Project, Rain, RevealPart, Shine, Side, SizeSystem, Squeeze,
    UncertainInput, Weekday,
};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use hodful_quantities::read::Day;
use hodful_quantities::units::Length;
use hodful_quantities::{Measure, Typed};

/// A value that is known by the text it was typed as.
pub(super) trait Held {
    /// The text, when it is given.
    fn text(&self) -> Option<EcoString>;

    /// Takes another text, or none. On an error the value is as it was.
    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString>;

    /// Whether it may be left empty.
    fn is_optional(&self) -> bool {
        false
    }
}

/// What is said where a text must stand.
pub(super) const NEEDED: &str = "is needed; it can be changed, but not left empty";

/// Reads a measured value.
pub(super) fn read<T: Measure>(text: &str) -> Result<Typed<T>, EcoString> {
    Typed::read(text).map_err(|wrong| eco_format!("{wrong}"))
}

impl<T: Measure> Held for Typed<T> {
    fn text(&self) -> Option<EcoString> {
        Some(Typed::text(self).into())
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        *self = read(text.ok_or(NEEDED)?)?;
        Ok(())
    }
}

impl Held for EcoString {
    fn text(&self) -> Option<EcoString> {
        Some(self.clone())
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        *self = text.ok_or(NEEDED)?.into();
        Ok(())
    }
}

/// Makes values that may be absent, from their texts.
macro_rules! held_option {
    ($([$($t:ident)?] $held:ty: |$text:ident| $read:expr;)+) => {$(
        impl $(<$t: Measure>)? Held for Option<$held> {
            fn text(&self) -> Option<EcoString> {
                self.as_ref().and_then(Held::text)
            }

            fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
                *self = match text {
                    Some($text) => Some($read?),
                    None => None,
                };
                Ok(())
            }

            fn is_optional(&self) -> bool {
                true
            }
        }
    )+};
}

held_option! {
    [T] Typed<T>: |text| read(text);
    [] EcoString: |text| Ok::<_, EcoString>(text.into());
    [] u32: |text| text.trim().parse().map_err(|_| understand::not_a_count(text));
    [] ArchKind: |text| from_word(text);
    [] DosePer: |text| from_word(text);
    [] Rain: |text| from_word(text);
    [] Side: |text| from_word(text);
    [] SizeSystem: |text| from_word(text);
    [] Squeeze: |text| from_word(text);
    [] Shine: |text| from_word(text);
    [] Cracks: |text| from_word(text);
    [] BlendAim: |text| from_word(text);
    [] BuyingAim: |text| from_word(text);
    [] HeaterFuel: |text| from_word(text);
}

impl Held for u32 {
    fn text(&self) -> Option<EcoString> {
        Some(eco_format!("{self}"))
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        let text = text.ok_or(NEEDED)?;
        *self = text
            .trim()
            .parse()
            .map_err(|_| understand::not_a_count(text))?;
        Ok(())
    }
}

/// One of a few words.
pub(super) trait Word: Copy + 'static {
    /// Every one.
    const ALL: &'static [Self];

    /// The word for it.
    fn word(self) -> &'static str;
}

fn from_word<W: Word>(text: &str) -> Result<W, EcoString> {
    let word = understand::one_of(&words::<W>(), text)?;
    let same = |w: &W| w.word() == word;
    W::ALL.iter().copied().find(same).ok_or(NEEDED.into())
}

/// All the words.
pub(super) fn words<W: Word>() -> Vec<EcoString> {
    W::ALL.iter().map(|w| w.word().into()).collect()
}

/// One of the words, as a kind of field.
pub(super) fn one_word<W: Word>(_: &Project) -> Kind {
    Kind::OneOf(words::<W>())
}

macro_rules! word {
    ($($word:ident)+) => {$(
        impl Word for $word {
            const ALL: &'static [Self] = Self::ALL;

            fn word(self) -> &'static str {
                Self::word(self)
            }
        }

        impl Held for $word {
            fn text(&self) -> Option<EcoString> {
                Some(Self::word(*self).into())
            }

            fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
                *self = from_word(text.ok_or(NEEDED)?)?;
                Ok(())
            }
        }
    )+};
}

word!(ArchKind BackgroundKind CornerAngle DosePer End MaterialKind Rain RevealPart Side);
word!(SizeSystem Squeeze Shine Cracks BlendAim BuyingAim UncertainInput Weekday);
word!(HeaterFuel Preparing);

/// Whether something is so.
const YES: &str = "yes";
const NO: &str = "no";

/// Yes or no, as a kind of field.
pub(super) fn yes_or_no(_: &Project) -> Kind {
    Kind::OneOf(vec![YES.into(), NO.into()])
}

impl Held for Option<bool> {
    fn text(&self) -> Option<EcoString> {
        self.map(|is_so| if is_so { YES } else { NO }.into())
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        *self = match text {
            Some(text) => Some(understand::one_of(&[YES.into(), NO.into()], text)? == YES),
            None => None,
        };
        Ok(())
    }

    fn is_optional(&self) -> bool {
        true
    }
}

impl Word for UnitSystem {
    const ALL: &'static [Self] = &[Self::Us, Self::Metric];

    fn word(self) -> &'static str {
        match self {
            Self::Us => "us",
            Self::Metric => "metric",
        }
    }
}

impl Held for UnitSystem {
    fn text(&self) -> Option<EcoString> {
        Some(self.word().into())
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        *self = from_word(text.ok_or(NEEDED)?)?;
        Ok(())
    }
}

/// Some of the words, as a kind of field.
pub(super) fn some_words<W: Word>(_: &Project) -> Kind {
    Kind::SomeOf(words::<W>())
}

macro_rules! held_words {
    ($($(#[$doc:meta])* $word:ident;)+) => {$(
        $(#[$doc])*
        impl Held for Vec<$word> {
            fn text(&self) -> Option<EcoString> {
                let words: Vec<&str> = self.iter().map(|one| one.word()).collect();
                (!words.is_empty()).then(|| words.join(", ").into())
            }

            fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
                let words = understand::some_of(&words::<$word>(), text.unwrap_or_default())?;
                *self = words.iter().filter_map(|w| $word::from_word(w)).collect();
                Ok(())
            }

            fn is_optional(&self) -> bool {
                true
            }
        }
    )+};
}

held_words! {
    /// Parts of a reveal.
    RevealPart;
    /// Days of the week.
    Weekday;
}

/// Days of the calendar, with commas between them.
impl Held for Vec<Typed<Day>> {
    fn text(&self) -> Option<EcoString> {
        let days: Vec<&str> = self.iter().map(Typed::text).collect();
        (!days.is_empty()).then(|| days.join(", ").into())
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        let days = understand::listed_days(text.unwrap_or_default()).map(read);
        *self = days.collect::<Result<_, EcoString>>()?;
        Ok(())
    }

    fn is_optional(&self) -> bool {
        true
    }
}

/// Names, with commas between them.
impl Held for Vec<EcoString> {
    fn text(&self) -> Option<EcoString> {
        (!self.is_empty()).then(|| self.join(", ").into())
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        let names = text.unwrap_or_default().split(',');
        let names = names.map(str::trim).filter(|name| !name.is_empty());
        *self = names.map(EcoString::from).collect();
        Ok(())
    }

    fn is_optional(&self) -> bool {
        true
    }
}

/// Corners of a polygon.
impl Held for Vec<[Typed<Length>; 2]> {
    fn text(&self) -> Option<EcoString> {
        let corners: Vec<String> = self
            .iter()
            .map(|[u, v]| format!("{}, {}", u.text(), v.text()))
            .collect();
        (!corners.is_empty()).then(|| corners.join("; ").into())
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        let corners = understand::corners(text.ok_or(NEEDED)?, None)?;
        *self = corners
            .iter()
            .map(|[u, v]| Ok([read(u)?, read(v)?]))
            .collect::<Result<_, EcoString>>()?;
        Ok(())
    }
}

/// A field of a record.
pub(crate) struct Field<T: 'static> {
    pub(super) key: &'static str,
    pub(super) label: &'static str,
    /// The same at length, for the foot of the screen.
    pub(super) doc: &'static str,
    pub(super) kind: fn(&Project) -> Kind,
    /// What holds when it is not given; empty when nothing does.
    pub(super) default: &'static str,
    pub(super) text: fn(&T) -> Option<EcoString>,
    pub(super) put: fn(&mut T, Option<&str>) -> Result<(), EcoString>,
    pub(super) is_optional: fn(&T) -> bool,
}

/// The text of a field of a record, by its key.
pub(crate) fn text<T>(fields: &[Field<T>], of: &T, key: &str) -> Option<EcoString> {
    let field = fields.iter().find(|field| field.key == key)?;
    (field.text)(of)
}

/// Puts a text into a field of a record, by its key.
pub(super) fn put<T>(
    fields: &[Field<T>],
    of: &mut T,
    key: &str,
    text: Option<&str>,
) -> Result<(), EcoString> {
    match fields.iter().find(|field| field.key == key) {
        Some(field) => (field.put)(of, text),
        None => Err(no_field(key)),
    }
}

/// What is said of a key that is not there.
pub(super) fn no_field(key: &str) -> EcoString {
    eco_format!("there is no field '{key}' here")
}
