//! Values with values inside: lists, named things, the two sides of a wall, corners.
//!
//! Not here: objects with known keys (see `record`).

use crate::field::{Field, KeySeed, Member, Seed};
use crate::kind::Kind;
use crate::reading::{Called, Reading};
use crate::value::Dimension;
use crate::writing::Out;
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_takeoff::project::Named;
use indexmap::map::Entry;
use serde::de::{Deserializer, IgnoredAny, MapAccess, SeqAccess};
use std::sync::Arc;

/// Bytes of a list that may stay unused: giving back less takes time and frees next to nothing.
const SPARE: usize = 64;

impl<T: Field + 'static> Field for Option<T> {
    const KIND: Kind = T::KIND;

    fn take<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error> {
        Ok(Some(T::take(reading, from)?))
    }

    fn when_absent() -> Option<Self> {
        Some(None)
    }

    fn is_absent(&self) -> bool {
        self.is_none()
    }

    fn put(&self, out: &mut Out) {
        if let Some(field) = self {
            field.put(out);
        }
    }
}

impl<T: Field> Field for Box<T> {
    const KIND: Kind = T::KIND;

    fn take<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error> {
        Ok(T::take(reading, from)?.map(Self::new))
    }

    fn put(&self, out: &mut Out) {
        (**self).put(out);
    }
}

impl<T: Field> Field for Arc<T> {
    const KIND: Kind = T::KIND;

    fn take<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error> {
        Ok(T::take(reading, from)?.map(Self::new))
    }

    fn put(&self, out: &mut Out) {
        (**self).put(out);
    }
}

/// As a list of its own.
impl<T: Field + 'static> Field for Arc<[T]> {
    const KIND: Kind = <Vec<T>>::KIND;

    fn list<'de, A: SeqAccess<'de>>(
        reading: &mut Reading,
        list: A,
    ) -> Result<Option<Self>, A::Error> {
        Ok(<Vec<T>>::list(reading, list)?.map(Self::from))
    }

    fn when_absent() -> Option<Self> {
        <Vec<T>>::when_absent().map(Self::from)
    }

    fn is_absent(&self) -> bool {
        self.is_empty()
    }

    fn put(&self, out: &mut Out) {
        put_list(self, out);
    }
}

/// Absent when empty. An item that is refused is left out.
impl<T: Field + 'static> Field for Vec<T> {
    const KIND: Kind = Kind::List(&T::KIND);

    fn list<'de, A: SeqAccess<'de>>(
        reading: &mut Reading,
        mut list: A,
    ) -> Result<Option<Self>, A::Error> {
        let noun = reading.each();
        let mut items = Self::new();
        for number in 1_usize.. {
            if !noun.is_empty() {
                reading.enter(noun, Called::Number(number));
            }
            let next = list.next_element_seed(Seed::<T>::new(reading))?;
            if !noun.is_empty() {
                reading.leave();
            }
            match next {
                Some(item) => items.extend(item),
                None => break,
            }
        }
        // A project keeps what it reads; the room for growth would only be carried along.
        if (items.capacity() - items.len()) * size_of::<T>() > SPARE {
            items.shrink_to_fit();
        }
        Ok(Some(items))
    }

    fn when_absent() -> Option<Self> {
        Some(Self::new())
    }

    fn is_absent(&self) -> bool {
        self.is_empty()
    }

    fn put(&self, out: &mut Out) {
        put_list(self, out);
    }
}

fn put_list<T: Field>(items: &[T], out: &mut Out) {
    out.list(&T::KIND, |out| {
        for item in items {
            out.item(|out| item.put(out));
        }
    });
}

/// Absent when empty. A thing that is refused is left out.
impl<T: Field + 'static> Field for Named<T> {
    const KIND: Kind = Kind::Named(&T::KIND);

    fn object<'de, A: MapAccess<'de>>(
        reading: &mut Reading,
        mut map: A,
    ) -> Result<Option<Self>, A::Error> {
        let noun = reading.each();
        let mut things = Self::new();
        while let Some(name) = map.next_key_seed(KeySeed(|key: &str| EcoString::from(key)))? {
            reading.enter(noun, Called::Name(name.clone()));
            match things.entry(name) {
                Entry::Occupied(_) => {
                    reading.refuse("stands here twice; keep one or rename the other");
                    map.next_value::<IgnoredAny>()?;
                }
                Entry::Vacant(room) => {
                    if let Some(thing) = map.next_value_seed(Seed::<T>::new(reading))? {
                        room.insert(thing);
                    }
                }
            }
            reading.leave();
        }
        things.shrink_to_fit();
        Ok(Some(things))
    }

    fn when_absent() -> Option<Self> {
        Some(Self::new())
    }

    fn is_absent(&self) -> bool {
        self.is_empty()
    }

    fn put(&self, out: &mut Out) {
        out.object(Self::KIND.is_open(), |out| {
            for (name, thing) in self {
                out.key(name, |out| thing.put(out));
            }
        });
    }
}

/// A corner of a polygon.
impl<T: Dimension + 'static> Field for [Typed<T>; 2] {
    const KIND: Kind = Kind::Corner(&<Typed<T> as Field>::KIND);

    fn list<'de, A: SeqAccess<'de>>(
        reading: &mut Reading,
        mut list: A,
    ) -> Result<Option<Self>, A::Error> {
        let mut read = [None, None];
        let mut count = 0_usize;
        for (slot, which) in read.iter_mut().zip(["from the left", "up"]) {
            reading.enter_part(which);
            let next = list.next_element_seed(Seed::<Typed<T>>::new(reading))?;
            reading.leave();
            let Some(value) = next else { break };
            *slot = value;
            count += 1;
        }
        while count >= 2 && list.next_element::<IgnoredAny>()?.is_some() {
            count += 1;
        }
        if count != 2 {
            let values = if count == 1 { "value" } else { "values" };
            reading.refuse(eco_format!("has {count} {values}; {}", Self::KIND.want()));
            return Ok(None);
        }
        let [Some(along), Some(up)] = read else {
            return Ok(None);
        };
        Ok(Some([along, up]))
    }

    fn put(&self, out: &mut Out) {
        let [along, up] = self;
        out.list(&<Typed<T> as Field>::KIND, |out| {
            out.item(|out| along.put(out));
            out.item(|out| up.put(out));
        });
    }
}

/// What stands outside and what stands inside, under one key. In the project they are two fields.
#[derive(Debug)]
pub(crate) struct Sides<T>(Both<T>);

#[derive(Debug)]
struct Both<T> {
    outside: Option<T>,
    inside: Option<T>,
}

const SIDES: &[&str] = &["outside", "inside"];

impl<T: Field + 'static> Field for Both<T> {
    const KIND: Kind = Kind::Sides(&T::KIND);

    fn object<'de, A: MapAccess<'de>>(
        reading: &mut Reading,
        mut map: A,
    ) -> Result<Option<Self>, A::Error> {
        let mut sides = [None, None];
        loop {
            let found = map.next_key_seed(KeySeed(|key: &str| {
                let found = SIDES.iter().position(|side| *side == key);
                if found.is_none() {
                    reading.unknown_key(key, "this group", SIDES);
                }
                found
            }))?;
            let Some(found) = found else { break };
            let slot = found.and_then(|i| sides.get_mut(i).zip(SIDES.get(i)));
            let Some((slot, side)) = slot else {
                map.next_value::<IgnoredAny>()?;
                continue;
            };
            reading.enter_part(side);
            if slot.is_some() {
                reading.refuse("stands here twice; keep one");
                map.next_value::<IgnoredAny>()?;
            } else {
                *slot = Some(map.next_value_seed(Seed::<T>::new(reading))?);
            }
            reading.leave();
        }
        let [outside, inside] = sides.map(Option::flatten);
        Ok(Some(Self { outside, inside }))
    }

    fn put(&self, out: &mut Out) {
        Sides::write((&self.outside, &self.inside), out);
    }
}

impl<T: Field + 'static> Member for Sides<T> {
    const HOLDS: Kind = Both::<T>::KIND;
    type Parts = (Option<T>, Option<T>);
    type View<'a> = (&'a Option<T>, &'a Option<T>);

    fn read<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error> {
        Ok(Both::<T>::take(reading, from)?.map(Self))
    }

    fn if_absent() -> Option<Self> {
        Some(Self(Both {
            outside: None,
            inside: None,
        }))
    }

    fn parts(self) -> Self::Parts {
        (self.0.outside, self.0.inside)
    }

    fn left_out((outside, inside): Self::View<'_>) -> bool {
        outside.is_none() && inside.is_none()
    }

    fn write((outside, inside): Self::View<'_>, out: &mut Out) {
        out.object(false, |out| {
            for (side, value) in SIDES.iter().zip([outside, inside]) {
                if let Some(value) = value {
                    out.key(side, |out| value.put(out));
                }
            }
        });
    }
}
