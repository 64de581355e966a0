//! The head of a file: which format in which version. Read before anything else, so that each
//! version can have a reader of its own.
//!
//! A new version of the format is a new row of [`VERSIONS`], whose reader turns the older file into
//! the project of today. Not here: those readers.

use crate::field::{Field, KeySeed, Seed};
use crate::hint;
use crate::kind::Kind;
use crate::mark::{IsFormat, VERSION};
use crate::reading::Reading;
use crate::syntax;
use crate::tables::ProjectFormat;
use crate::writing::Out;
use ecow::{EcoString, eco_format};
use hodful_takeoff::problem::{Place, Problem};
use hodful_takeoff::project::{Project, share};
use serde::de::{Deserializer, Error, IgnoredAny, MapAccess, Visitor};
use std::fmt;

/// What a reader gives: as much as could be read, and all that is wrong.
pub(crate) type Read<T> = (Option<T>, Vec<Problem>);

/// Reads a project of one version.
type Reader = fn(&[u8]) -> Read<Project>;

/// The versions that can be read, each with its reader.
const VERSIONS: &[(u64, Reader)] = &[(VERSION, read_as::<Project>)];

/// Reads a project of any known version.
pub(crate) fn read_project(bytes: &[u8]) -> Read<Project> {
    let bytes = without_mark(bytes);
    let head = Head::of(bytes);
    if let Some(format) = head.format.filter(|format| format != ProjectFormat::NAME) {
        let format = hint::shown(&format);
        let message = eco_format!(
            "'{format}' is not a project; write \"{}\"",
            ProjectFormat::NAME
        );
        return refused("format", message);
    }
    // With no version to go by, the reader of today says that it is missing, and all else besides.
    let version = head.version.unwrap_or(VERSION);
    let message = match VERSIONS.iter().find(|(known, _)| *known == version) {
        Some((_, read)) => {
            let (mut project, problems) = read(bytes);
            project.iter_mut().for_each(share);
            return (project, problems);
        }
        None if version > VERSION => {
            eco_format!("{version} is of a later Hodful; this one reads version {VERSION}")
        }
        None => {
            eco_format!("{version} is no version of a project; this Hodful reads version {VERSION}")
        }
    };
    refused("version", message)
}

/// Reads a file as one type, by its table.
pub(crate) fn read_as<T: Field>(bytes: &[u8]) -> Read<T> {
    // Text that is known to be UTF-8 is read faster; else the reader of bytes says where it is not.
    match std::str::from_utf8(bytes) {
        Ok(text) => read_from(serde_json::Deserializer::from_str(text)),
        Err(_) => read_from(serde_json::Deserializer::from_slice(bytes)),
    }
}

fn read_from<'de, T: Field>(
    mut json: serde_json::Deserializer<impl serde_json::de::Read<'de>>,
) -> Read<T> {
    let mut reading = Reading::default();
    let read = T::take(&mut reading, &mut json);
    let read = read.and_then(|value| json.end().map(|()| value));
    let value = read.unwrap_or_else(|broken| {
        reading.refuse(syntax::message(&broken));
        None
    });
    (value, reading.finish())
}

fn refused<T>(key: &str, message: EcoString) -> Read<T> {
    (
        None,
        vec![Problem::refused(Place::project().field(key), message)],
    )
}

/// Some editors put a byte order mark before the text.
fn without_mark(bytes: &[u8]) -> &[u8] {
    bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes)
}

/// Format and version, where they can be read at all.
#[derive(Debug, Default)]
struct Head {
    format: Option<EcoString>,
    version: Option<u64>,
}

impl Head {
    /// Reads no further than it must: mostly two keys.
    fn of(bytes: &[u8]) -> Self {
        let mut head = Self::default();
        // The end is always an error: either enough was read, or the file is broken, which the reader
        // of the version tells with its place.
        let _ = serde_json::Deserializer::from_slice(bytes).deserialize_map(&mut head);
        head
    }
}

impl<'de> Visitor<'de> for &mut Head {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a project")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        // What is wrong here is noted again, with the rest, by the reader of the version.
        let unheard = &mut Reading::default();
        while let Some(key) = map.next_key_seed(KeySeed(|key: &str| EcoString::from(key)))? {
            match key.as_str() {
                "format" => self.format = map.next_value_seed(Seed::new(unheard))?,
                "version" => {
                    let version = map.next_value_seed(Seed::<Any>::new(unheard))?;
                    self.version = version.map(|version| version.0);
                }
                _ => {
                    map.next_value::<IgnoredAny>()?;
                }
            }
            if self.format.is_some() && self.version.is_some() {
                return Err(Error::custom("enough"));
            }
        }
        Ok(())
    }
}

/// Any whole number.
struct Any(u64);

impl Field for Any {
    const KIND: Kind = Kind::Whole;

    fn whole(_: &mut Reading, number: u64) -> Option<Self> {
        Some(Self(number))
    }

    fn put(&self, out: &mut Out) {
        out.bare(&eco_format!("{}", self.0));
    }
}
