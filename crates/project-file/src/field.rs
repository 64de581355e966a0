//! The traits of everything that can stand in a file, and the one visitor behind them.
//!
//! A [`Field`] answers every kind of JSON value: the kinds it does not want are noted as problems and
//! skipped, so that no value can stop the reading. A [`Member`] is a field as it stands under a key:
//! what it becomes in the project, and what happens when the key is absent. Not here: the fields
//! themselves (see `value` and `group`).

use crate::kind::Kind;
use crate::reading::{Found, Reading};
use crate::writing::Out;
use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use std::fmt;
use std::marker::PhantomData;

/// A value that can stand in a file. Each reader gives `None` when it has noted a problem instead.
pub(crate) trait Field: Sized {
    /// What it is.
    const KIND: Kind;

    /// Reads it from text.
    fn text(reading: &mut Reading, _: &str) -> Option<Self> {
        reading.wrong(Found::Text, &Self::KIND)
    }

    /// Reads it from a whole number that is not negative.
    fn whole(reading: &mut Reading, _: u64) -> Option<Self> {
        reading.wrong(Found::Number, &Self::KIND)
    }

    /// Reads it from any other number.
    fn number(reading: &mut Reading, _: f64) -> Option<Self> {
        reading.wrong(Found::Number, &Self::KIND)
    }

    /// Reads it from true or false.
    fn flag(reading: &mut Reading, _: bool) -> Option<Self> {
        reading.wrong(Found::Flag, &Self::KIND)
    }

    /// Reads it from an object.
    fn object<'de, A: MapAccess<'de>>(
        reading: &mut Reading,
        mut map: A,
    ) -> Result<Option<Self>, A::Error> {
        while map.next_entry::<IgnoredAny, IgnoredAny>()?.is_some() {}
        Ok(reading.wrong(Found::Object, &Self::KIND))
    }

    /// Reads it from a list.
    fn list<'de, A: SeqAccess<'de>>(
        reading: &mut Reading,
        mut list: A,
    ) -> Result<Option<Self>, A::Error> {
        while list.next_element::<IgnoredAny>()?.is_some() {}
        Ok(reading.wrong(Found::List, &Self::KIND))
    }

    /// Reads it, whatever stands there.
    fn take<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error> {
        take_any(reading, from)
    }

    /// What an absent key means; `None` when the key is required.
    fn when_absent() -> Option<Self> {
        None
    }

    /// Whether its key is left out when written.
    fn is_absent(&self) -> bool {
        false
    }

    /// Writes it.
    fn put(&self, out: &mut Out);
}

/// Reads a field from whatever kind of value stands there.
pub(crate) fn take_any<'de, T: Field, D: Deserializer<'de>>(
    reading: &mut Reading,
    from: D,
) -> Result<Option<T>, D::Error> {
    from.deserialize_any(Taking {
        reading,
        field: PhantomData,
    })
}

/// A value under a key, and what it becomes in the project.
pub(crate) trait Member: Sized {
    /// What it is.
    const HOLDS: Kind;
    /// What it becomes: one field, two, or none.
    type Parts;
    /// The same, borrowed.
    type View<'a>: Copy;

    /// Reads it, whatever stands there.
    fn read<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error>;

    /// What an absent key means; `None` when the key is required.
    fn if_absent() -> Option<Self>;

    /// What stands in when the value is refused, so that the rest can still be shown.
    fn stand_in() -> Option<Self> {
        Self::if_absent()
    }

    /// What it becomes.
    fn parts(self) -> Self::Parts;

    /// Whether its key is left out when written.
    fn left_out(view: Self::View<'_>) -> bool;

    /// Writes it.
    fn write(view: Self::View<'_>, out: &mut Out);
}

impl<T: Field + 'static> Member for T {
    const HOLDS: Kind = T::KIND;
    type Parts = T;
    type View<'a> = &'a T;

    fn read<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error> {
        T::take(reading, from)
    }

    fn if_absent() -> Option<Self> {
        T::when_absent()
    }

    fn parts(self) -> T {
        self
    }

    fn left_out(view: &T) -> bool {
        view.is_absent()
    }

    fn write(view: &T, out: &mut Out) {
        view.put(out);
    }
}

/// The visitor of every field.
struct Taking<'r, T> {
    reading: &'r mut Reading,
    field: PhantomData<fn() -> T>,
}

impl<'de, T: Field> Visitor<'de> for Taking<'_, T> {
    type Value = Option<T>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("any value")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Self::Value, E> {
        Ok(T::text(self.reading, text))
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<Self::Value, E> {
        Ok(T::whole(self.reading, number))
    }

    #[allow(
        clippy::cast_precision_loss,
        reason = "only says that a number stands there"
    )]
    fn visit_i64<E: Error>(self, number: i64) -> Result<Self::Value, E> {
        Ok(match u64::try_from(number) {
            Ok(number) => T::whole(self.reading, number),
            Err(_) => T::number(self.reading, number as f64),
        })
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<Self::Value, E> {
        Ok(T::number(self.reading, number))
    }

    fn visit_bool<E: Error>(self, flag: bool) -> Result<Self::Value, E> {
        Ok(T::flag(self.reading, flag))
    }

    fn visit_unit<E: Error>(self) -> Result<Self::Value, E> {
        Ok(self.reading.wrong(Found::Nothing, &T::KIND))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Self::Value, A::Error> {
        T::object(self.reading, map)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, list: A) -> Result<Self::Value, A::Error> {
        T::list(self.reading, list)
    }
}

/// Reads a [`Field`] where serde wants a seed.
pub(crate) struct Seed<'r, T> {
    reading: &'r mut Reading,
    field: PhantomData<fn() -> T>,
}

impl<'r, T> Seed<'r, T> {
    pub(crate) fn new(reading: &'r mut Reading) -> Self {
        Self {
            reading,
            field: PhantomData,
        }
    }
}

impl<'de, T: Field> DeserializeSeed<'de> for Seed<'_, T> {
    type Value = Option<T>;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Self::Value, D::Error> {
        T::take(self.reading, from)
    }
}

/// Reads a [`Member`] where serde wants a seed.
pub(crate) struct MemberSeed<'r, M> {
    reading: &'r mut Reading,
    member: PhantomData<fn() -> M>,
}

impl<'r, M> MemberSeed<'r, M> {
    pub(crate) fn new(reading: &'r mut Reading) -> Self {
        Self {
            reading,
            member: PhantomData,
        }
    }
}

impl<'de, M: Member> DeserializeSeed<'de> for MemberSeed<'_, M> {
    type Value = Option<M>;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Self::Value, D::Error> {
        M::read(self.reading, from)
    }
}

/// Reads a key and looks it up.
pub(crate) struct KeySeed<F>(pub(crate) F);

impl<'de, K, F: FnOnce(&str) -> K> DeserializeSeed<'de> for KeySeed<F> {
    type Value = K;

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<K, D::Error> {
        from.deserialize_str(self)
    }
}

impl<K, F: FnOnce(&str) -> K> Visitor<'_> for KeySeed<F> {
    type Value = K;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a key")
    }

    fn visit_str<E: Error>(self, key: &str) -> Result<K, E> {
        Ok((self.0)(key))
    }
}
