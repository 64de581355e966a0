//! Objects with known keys: one table is the reader, the writer, the schema and the hints.
//!
//! `record!` is for an object whose keys are always the same, `tagged!` for one whose keys depend on
//! its `kind`. Not here: the tables themselves (see `tables`).

use crate::field::{KeySeed, Member};
use crate::kind::{Key, Tagged, Variant, listed};
use crate::reading::{Reading, Slot};
use ecow::eco_format;
use serde::de::MapAccess;

/// Declares an object with known keys.
///
/// ```text
/// /// What it is, for the schema.
/// Opening, "an opening", open; by id {
///     /// What the key says, for the schema.
///     id: Name => id;
///     reveals each "": Sides<Box<Reveal>> => outside, inside;
/// }
/// ```
///
/// The keys stand in the order they are written. Behind `=>` stand the fields of the project that the
/// value becomes. Whether a key is required follows from its type. Behind `each` stands what messages
/// call the things under the key, one by one; empty when their own key says enough. `by` is the key that
/// names the thing in messages; `open` puts it on several lines whatever its length.
macro_rules! record {
    (@open open) => { true };
    (@open) => { false };
    ($(
        $(#[doc = $doc:literal])+
        $type:ident, $what:literal $(, $open:ident)? $(; by $by:ident)? {
            $(
                $(#[doc = $key_doc:literal])+
                $key:ident $(each $($each:literal),+)?: $member:ty $(=> $($part:ident),+)?;
            )+
        }
    )+) => {$(
        const _: () = {
            #[derive(Clone, Copy, PartialEq)]
            #[allow(non_camel_case_types, reason = "named as the keys are")]
            enum Found { $($key,)+ }

            impl $crate::field::Field for $type {
                const KIND: $crate::kind::Kind =
                    $crate::kind::Kind::Record(&$crate::kind::Record {
                        what: $what,
                        doc: concat!($($doc),+),
                        open: record!(@open $($open)?),
                        keys: &[$($crate::record::key::<$member>(
                            stringify!($key),
                            concat!($($key_doc),+),
                        )),+],
                    });

                fn object<'de, A: serde::de::MapAccess<'de>>(
                    reading: &mut $crate::reading::Reading,
                    mut map: A,
                ) -> Result<Option<Self>, A::Error> {
                    use $crate::record::Next;
                    $(let mut $key = $crate::reading::Slot::<$member>::Absent;)+
                    while let Some(found) = $crate::record::next_key(reading, &mut map, $what, |key| {
                        match key {
                            $(stringify!($key) => Ok(Found::$key),)+
                            _ => Err(&[$(stringify!($key)),+]),
                        }
                    })? {
                        match found {
                            $(Next::Known(Found::$key) => reading.member(
                                &mut map,
                                stringify!($key),
                                &[$($($each),+)?],
                                &mut $key,
                            )?,)+
                            Next::Unknown => {
                                map.next_value::<serde::de::IgnoredAny>()?;
                            }
                        }
                        $(if found == Next::Known(Found::$by)
                            && let $crate::reading::Slot::Read(name) = &$by
                        {
                            reading.known_as(name);
                        })?
                    }
                    $(let $key = $crate::record::settle(reading, stringify!($key), $key);)+
                    let ($(Some($key),)+) = ($($key,)+) else { return Ok(None) };
                    $(let record!(@parts $($($part),+)?) = <$member as $crate::field::Member>::parts($key);)+
                    Ok(Some(Self { $($($($part,)+)?)+ }))
                }

                fn put(&self, out: &mut $crate::writing::Out) {
                    out.object(<Self as $crate::field::Field>::KIND.is_open(), |out| {
                        $({
                            let view = record!(@view self $($($part),+)?);
                            if !<$member as $crate::field::Member>::left_out(view) {
                                out.key(stringify!($key), |out| {
                                    <$member as $crate::field::Member>::write(view, out);
                                });
                            }
                        })+
                    });
                }
            }
        };
    )+};
    (@parts $part:ident) => { $part };
    (@parts $($part:ident),*) => { ($($part),*) };
    (@view $self:ident $part:ident) => { &$self.$part };
    (@view $self:ident $($part:ident),*) => { ($(&$self.$part),*) };
}

/// Declares an object whose keys depend on its `kind`, for an enum whose variants hold those keys.
///
/// Any kind may have any of `keys`, which have the same type in all of them; so the `kind` may stand
/// anywhere in the object. `or none` marks a key that is not required.
macro_rules! tagged {
    ($(
        $(#[doc = $doc:literal])+
        $type:ident, $what:literal {
            $($(#[doc = $key_doc:literal])+ $key:ident $(each $($each:literal),+)?: $member:ty;)+
        }
        kinds {$(
            $(#[doc = $variant_doc:literal])+
            $variant:ident = $word:literal { $($has:ident $(or $none:ident)?),+ }
        )+}
    )+) => {$(
        const _: () = {
            #[derive(Clone, Copy, PartialEq)]
            #[allow(non_camel_case_types, reason = "named as the keys are")]
            enum Found { kind, $($key,)+ }

            #[derive(Clone, Copy)]
            enum Kinds { $($variant,)+ }

            impl $crate::value::Word for Kinds {
                const WHAT: &'static str = $what;
                const WORDS: &'static [Self] = &[$(Self::$variant),+];

                fn word(self) -> &'static str {
                    match self { $(Self::$variant => $word,)+ }
                }
            }

            impl $crate::field::Field for Kinds {
                const KIND: $crate::kind::Kind =
                    $crate::kind::Kind::Word($crate::value::words::<Self>);

                fn text(reading: &mut $crate::reading::Reading, text: &str) -> Option<Self> {
                    $crate::value::from_word(reading, text)
                }

                fn put(&self, out: &mut $crate::writing::Out) {
                    out.text($crate::value::Word::word(*self));
                }
            }

            const TABLE: $crate::kind::Tagged = $crate::kind::Tagged {
                what: $what,
                doc: concat!($($doc),+),
                keys: &[$($crate::record::key::<$member>(
                    stringify!($key),
                    concat!($($key_doc),+),
                )),+],
                variants: &[$($crate::kind::Variant {
                    word: $word,
                    doc: concat!($($variant_doc),+),
                    keys: &[$((stringify!($has), tagged!(@required $($none)?))),+],
                }),+],
            };

            impl $crate::field::Field for $type {
                const KIND: $crate::kind::Kind = $crate::kind::Kind::Tagged(&TABLE);

                fn object<'de, A: serde::de::MapAccess<'de>>(
                    reading: &mut $crate::reading::Reading,
                    mut map: A,
                ) -> Result<Option<Self>, A::Error> {
                    use $crate::record::Next;
                    let mut kind = $crate::reading::Slot::<Kinds>::Absent;
                    $(let mut $key = $crate::reading::Slot::<$member>::Absent;)+
                    while let Some(found) = $crate::record::next_key(reading, &mut map, $what, |key| {
                        match key {
                            "kind" => Ok(Found::kind),
                            $(stringify!($key) => Ok(Found::$key),)+
                            _ => Err(&["kind", $(stringify!($key)),+]),
                        }
                    })? {
                        match found {
                            Next::Known(Found::kind) => reading.member(&mut map, "kind", &[], &mut kind)?,
                            $(Next::Known(Found::$key) => reading.member(
                                &mut map,
                                stringify!($key),
                                &[$($($each),+)?],
                                &mut $key,
                            )?,)+
                            Next::Unknown => {
                                map.next_value::<serde::de::IgnoredAny>()?;
                            }
                        }
                    }
                    let Some(kind) = $crate::record::settle(reading, "kind", kind) else {
                        return Ok(None);
                    };
                    let present = [$((stringify!($key), $key.is_present())),+];
                    let word = $crate::value::Word::word(kind);
                    $crate::record::check_keys(reading, &TABLE, word, &present);
                    // The value of a required key, or none at all for the whole.
                    let read = || Some(match kind {
                        $(Kinds::$variant => Self::$variant {
                            $($has: tagged!(@take $has $($none)?),)+
                        },)+
                    });
                    Ok(read())
                }

                fn put(&self, out: &mut $crate::writing::Out) {
                    out.object(false, |out| match self {
                        $(Self::$variant { $($has),+ } => {
                            out.key("kind", |out| out.text($word));
                            $(if tagged!(@required $($none)?) || !$crate::field::Field::is_absent($has) {
                                out.key(stringify!($has), |out| {
                                    $crate::field::Field::put($has, out);
                                });
                            })+
                        })+
                    });
                }
            }
        };
    )+};
    (@required none) => { false };
    (@required) => { true };
    (@take $has:ident none) => { $has.value() };
    (@take $has:ident) => { $has.value()? };
}

pub(crate) use {record, tagged};

/// The row of a key.
pub(crate) const fn key<M: Member>(name: &'static str, doc: &'static str) -> Key {
    Key {
        name,
        doc,
        required: is_required::<M>,
        kind: M::HOLDS,
    }
}

fn is_required<M: Member>() -> bool {
    M::if_absent().is_none()
}

/// A key as it comes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Next<K> {
    /// One that the object has.
    Known(K),
    /// One that it does not have; the problem is noted.
    Unknown,
}

/// Reads the next key; `None` at the end of the object.
pub(crate) fn next_key<'de, A: MapAccess<'de>, K>(
    reading: &mut Reading,
    map: &mut A,
    what: &str,
    find: impl Fn(&str) -> Result<K, &'static [&'static str]>,
) -> Result<Option<Next<K>>, A::Error> {
    map.next_key_seed(KeySeed(|key: &str| match find(key) {
        Ok(key) => Next::Known(key),
        Err(known) => {
            reading.unknown_key(key, what, known);
            Next::Unknown
        }
    }))
}

/// The value of a key at the end of its object: as read, as an absent key means, or a stand-in.
pub(crate) fn settle<M: Member>(reading: &mut Reading, key: &str, slot: Slot<M>) -> Option<M> {
    match slot {
        Slot::Read(value) => Some(value),
        Slot::Refused => M::stand_in(),
        Slot::Absent => M::if_absent().or_else(|| {
            reading.refuse_key(key, eco_format!("is missing; {}", M::HOLDS.want()));
            M::stand_in()
        }),
    }
}

/// Notes the keys that a kind of object wants and has not, and those it has and should not.
pub(crate) fn check_keys(
    reading: &mut Reading,
    table: &Tagged,
    word: &str,
    present: &[(&str, bool)],
) {
    let Some(variant) = table.variants.iter().find(|variant| variant.word == word) else {
        return;
    };
    for (key, is_present) in present {
        let has = variant.keys.iter().find(|(name, _)| name == key);
        match (has, is_present) {
            (None, true) => reading.refuse_key(key, misplaced(variant)),
            (Some((_, true)), false) => {
                let row = table.keys.iter().find(|row| row.name == *key);
                let want = row.map(|row| row.kind.want()).unwrap_or_default();
                reading.refuse_key(key, eco_format!("is missing; {want}"));
            }
            _ => {}
        }
    }
}

fn misplaced(variant: &Variant) -> ecow::EcoString {
    let keys: Vec<_> = variant.keys.iter().map(|(name, _)| *name).collect();
    eco_format!(
        "does not go with kind '{}', which has {}",
        variant.word,
        listed(&keys, "and")
    )
}
