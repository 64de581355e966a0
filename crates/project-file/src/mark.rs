//! Keys that are not simply a field of the project: format and version, and those with a stand-in.
//!
//! Not here: what an unknown version means (see `header`).

use crate::field::{Field, Member};
use crate::hint;
use crate::kind::Kind;
use crate::reading::Reading;
use crate::writing::Out;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use serde::de::Deserializer;
use std::marker::PhantomData;

/// The version of all formats that is written.
pub(crate) const VERSION: u64 = 1;

/// A format by name.
pub(crate) trait IsFormat {
    /// The text under `format`.
    const NAME: &'static str;
    /// What such a file is, with its article.
    const WHAT: &'static str;
}

/// The text under `format`. Nothing in the project: the format is that of the file.
#[derive(Debug)]
pub(crate) struct Format<F>(PhantomData<F>);

/// The number under `version`. Nothing in the project, as with [`Format`].
#[derive(Debug)]
pub(crate) struct Version;

struct FormatName<F>(PhantomData<F>);

impl<F: IsFormat> Field for FormatName<F> {
    const KIND: Kind = Kind::Exactly(F::NAME);

    fn text(reading: &mut Reading, text: &str) -> Option<Self> {
        if text == F::NAME {
            return Some(Self(PhantomData));
        }
        reading.refuse(eco_format!(
            "'{}' is not {}; {}",
            hint::shown(text),
            F::WHAT,
            Self::KIND.want()
        ));
        None
    }

    fn put(&self, out: &mut Out) {
        out.text(F::NAME);
    }
}

struct VersionNumber;

impl Field for VersionNumber {
    const KIND: Kind = Kind::Version(VERSION);

    fn whole(reading: &mut Reading, number: u64) -> Option<Self> {
        if number == VERSION {
            return Some(Self);
        }
        reading.refuse(eco_format!(
            "{number} is not a version that can be read; {}",
            Self::KIND.want()
        ));
        None
    }

    fn put(&self, out: &mut Out) {
        out.bare(&eco_format!("{VERSION}"));
    }
}

impl<F: IsFormat + 'static> Member for Format<F> {
    const HOLDS: Kind = FormatName::<F>::KIND;
    type Parts = ();
    type View<'a> = ();

    fn read<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error> {
        Ok(FormatName::<F>::take(reading, from)?.map(|_| Self(PhantomData)))
    }

    fn if_absent() -> Option<Self> {
        None
    }

    fn stand_in() -> Option<Self> {
        Some(Self(PhantomData))
    }

    fn parts(self) {}

    fn left_out((): ()) -> bool {
        false
    }

    fn write((): (), out: &mut Out) {
        FormatName::<F>(PhantomData).put(out);
    }
}

impl Member for Version {
    const HOLDS: Kind = VersionNumber::KIND;
    type Parts = ();
    type View<'a> = ();

    fn read<'de, D: Deserializer<'de>>(
        reading: &mut Reading,
        from: D,
    ) -> Result<Option<Self>, D::Error> {
        Ok(VersionNumber::take(reading, from)?.map(|_| Self))
    }

    fn if_absent() -> Option<Self> {
        None
    }

    fn stand_in() -> Option<Self> {
        Some(Self)
    }

    fn parts(self) {}

    fn left_out((): ()) -> bool {
        false
    }

    fn write((): (), out: &mut Out) {
        VersionNumber.put(out);
    }
}

/// A member that is always written, and has its own answers when it is absent or refused.
macro_rules! members {
    ($(
        $(#[$doc:meta])*
        $name:ident $(<$t:ident>)? ($inner:ty), absent: $absent:expr, stand_in: $stand_in:expr;
    )+) => {$(
        $(#[$doc])*
        #[derive(Debug)]
        pub(crate) struct $name$(<$t>)?($inner);

        impl$(<$t: Field + 'static>)? Member for $name$(<$t>)? {
            const HOLDS: Kind = <$inner as Field>::KIND;
            type Parts = $inner;
            type View<'a> = &'a $inner;

            fn read<'de, D: Deserializer<'de>>(
                reading: &mut Reading,
                from: D,
            ) -> Result<Option<Self>, D::Error> {
                Ok(<$inner as Field>::take(reading, from)?.map(Self))
            }

            fn if_absent() -> Option<Self> {
                $absent.map(Self)
            }

            fn stand_in() -> Option<Self> {
                $stand_in.map(Self)
            }

            fn parts(self) -> $inner {
                self.0
            }

            fn left_out(_: &$inner) -> bool {
                false
            }

            fn write(view: &$inner, out: &mut Out) {
                view.put(out);
            }
        }
    )+};
}

members! {
    /// The title: required; a broken file is shown without one.
    Title(EcoString), absent: None, stand_in: Some(EcoString::new());
    /// The units: required; a broken file is shown in metric ones.
    Units(UnitSystem), absent: None, stand_in: Some(UnitSystem::Metric);
    /// The measurement rule: net when absent. It is written out, so that the file says what holds.
    RuleKey(EcoString),
        absent: Some(EcoString::inline("net")), stand_in: Some(EcoString::inline("net"));
    /// Written even when empty.
    Always<T>(T), absent: T::when_absent(), stand_in: T::when_absent();
}
