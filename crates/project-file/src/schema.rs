//! The JSON Schema of the project file (draft 2020-12), from the same tables that read and write it.
//!
//! It is a help for editors, looser than the reader: a dimension is any text with a digit in it. Not
//! here: the tables.

use crate::field::Field;
use crate::kind::{Key, Kind, Measured, Record, Tagged};
use crate::writing::Out;
use hodful_takeoff::project::Project;

/// What every dimension has: a digit, or a fraction written as one character.
const HAS_A_NUMBER: &str = "[0-9\u{bc}-\u{be}\u{2150}-\u{215e}]";

/// The JSON Schema of project files.
///
/// ```
/// let schema = hodful_project_file::schema();
/// assert!(schema.contains("https://json-schema.org/draft/2020-12/schema"));
/// assert!(schema.contains("\"from_left\""));
/// ```
pub fn schema() -> String {
    let mut definitions = Vec::new();
    collect(&Project::KIND, &mut definitions);
    let mut out = Out::default();
    out.object(true, |out| {
        text(
            out,
            "$schema",
            "https://json-schema.org/draft/2020-12/schema",
        );
        text(out, "title", "Hodful project");
        if let Kind::Record(record) = Project::KIND {
            keys_of(out, record);
        }
        out.key("$defs", |out| {
            out.object(true, |out| {
                for definition in &definitions {
                    out.key(&name(definition), |out| {
                        out.object(true, |out| define(out, definition));
                    });
                }
            });
        });
    });
    // All that was written is text.
    String::from_utf8(out.finish()).unwrap_or_default()
}

/// The kinds that have a definition of their own, in the order they are first met.
fn collect(kind: &Kind, definitions: &mut Vec<Kind>) {
    match kind {
        Kind::List(item) | Kind::Named(item) | Kind::Sides(item) | Kind::Corner(item) => {
            return collect(item, definitions);
        }
        Kind::Measure(_) | Kind::Number(_) | Kind::Record(_) | Kind::Tagged(_) => {}
        _ => return,
    }
    let is_root = matches!(kind, Kind::Record(record) if record.what == "a project");
    if !is_root {
        if definitions.iter().any(|known| name(known) == name(kind)) {
            return;
        }
        definitions.push(*kind);
    }
    let keys = match kind {
        Kind::Record(record) => record.keys,
        Kind::Tagged(tagged) => tagged.keys,
        _ => &[],
    };
    for key in keys {
        collect(&key.kind, definitions);
    }
}

/// The name of a definition: `shape_of_wall` of `a shape of wall`.
fn name(kind: &Kind) -> String {
    let what = match kind {
        Kind::Measure(measured) | Kind::Number(measured) => return measured.name.to_owned(),
        Kind::Record(record) => record.what,
        Kind::Tagged(tagged) => tagged.what,
        _ => "",
    };
    let bare = what
        .strip_prefix("an ")
        .or_else(|| what.strip_prefix("a "))
        .unwrap_or(what);
    bare.replace(' ', "_")
}

fn define(out: &mut Out, kind: &Kind) {
    match kind {
        Kind::Measure(measured) => {
            text(out, "description", &measured.what.replacen('a', "A", 1));
            dimension(out, measured);
        }
        Kind::Number(measured) => {
            text(out, "description", &measured.what.replacen('a', "A", 1));
            list(out, "anyOf", |out| {
                out.item(|out| out.object(false, |out| text(out, "type", "number")));
                out.item(|out| out.object(false, |out| dimension(out, measured)));
            });
        }
        Kind::Record(record) => keys_of(out, record),
        Kind::Tagged(tagged) => kinds_of(out, tagged),
        _ => {}
    }
}

fn dimension(out: &mut Out, measured: &Measured) {
    text(out, "type", "string");
    text(out, "pattern", HAS_A_NUMBER);
    out.key("examples", |out| {
        out.list(&Kind::Text, |out| {
            for example in measured.examples() {
                out.item(|out| out.text(example));
            }
        });
    });
}

fn keys_of(out: &mut Out, record: &Record) {
    let keys: Vec<_> = record
        .keys
        .iter()
        .map(|key| (key, (key.required)()))
        .collect();
    text(out, "description", record.doc.trim());
    closed(out, &keys, None);
}

fn kinds_of(out: &mut Out, tagged: &Tagged) {
    text(out, "description", tagged.doc.trim());
    list(out, "oneOf", |out| {
        for variant in tagged.variants {
            let row = |name: &str| tagged.keys.iter().find(|key| key.name == name);
            let keys: Vec<_> = variant
                .keys
                .iter()
                .filter_map(|(name, required)| Some((row(name)?, *required)))
                .collect();
            out.item(|out| {
                out.object(true, |out| {
                    text(out, "description", variant.doc.trim());
                    closed(out, &keys, Some(variant.word));
                });
            });
        }
    });
}

/// An object with these keys, and of this kind, and no others.
fn closed(out: &mut Out, keys: &[(&Key, bool)], kind: Option<&str>) {
    text(out, "type", "object");
    let required = keys
        .iter()
        .filter(|(_, required)| *required)
        .map(|(key, _)| key.name);
    let required: Vec<_> = kind.map(|_| "kind").into_iter().chain(required).collect();
    if !required.is_empty() {
        list(out, "required", |out| {
            for name in &required {
                out.item(|out| out.text(name));
            }
        });
    }
    out.key("additionalProperties", |out| out.bare("false"));
    out.key("properties", |out| {
        out.object(true, |out| {
            if let Some(kind) = kind {
                out.key("kind", |out| {
                    out.object(false, |out| text(out, "const", kind));
                });
            }
            for (key, _) in keys {
                out.key(key.name, |out| {
                    out.object(false, |out| {
                        text(out, "description", key.doc.trim());
                        value(out, &key.kind);
                    });
                });
            }
        });
    });
}

/// What stands under a key or in a list.
fn value(out: &mut Out, kind: &Kind) {
    let inner = |out: &mut Out, key: &str, kind: &Kind| {
        out.key(key, |out| out.object(false, |out| value(out, kind)));
    };
    match kind {
        Kind::Text => text(out, "type", "string"),
        Kind::Exactly(exact) => text(out, "const", exact),
        Kind::Version(version) => out.key("const", |out| out.bare(&version.to_string())),
        Kind::Measure(_) | Kind::Number(_) | Kind::Record(_) | Kind::Tagged(_) => {
            text(out, "$ref", &format!("#/$defs/{}", name(kind)));
        }
        Kind::Whole => {
            text(out, "type", "integer");
            out.key("minimum", |out| out.bare("0"));
            out.key("maximum", |out| out.bare(&u32::MAX.to_string()));
        }
        Kind::Flag => text(out, "type", "boolean"),
        Kind::Word(words) => list(out, "enum", |out| {
            for word in words() {
                out.item(|out| out.text(word));
            }
        }),
        Kind::Share(words) => list(out, "anyOf", |out| {
            out.item(|out| out.object(false, |out| value(out, &Kind::Word(*words))));
            out.item(|out| out.object(false, |out| text(out, "type", "number")));
        }),
        Kind::List(item) => {
            text(out, "type", "array");
            inner(out, "items", item);
        }
        Kind::Named(item) => {
            text(out, "type", "object");
            inner(out, "additionalProperties", item);
        }
        Kind::Sides(item) => {
            text(out, "type", "object");
            out.key("additionalProperties", |out| out.bare("false"));
            out.key("properties", |out| {
                out.object(false, |out| {
                    inner(out, "outside", item);
                    inner(out, "inside", item);
                });
            });
        }
        Kind::Corner(item) => {
            text(out, "type", "array");
            inner(out, "items", item);
            out.key("minItems", |out| out.bare("2"));
            out.key("maxItems", |out| out.bare("2"));
        }
    }
}

fn text(out: &mut Out, key: &str, text: &str) {
    out.key(key, |out| out.text(text));
}

fn list(out: &mut Out, key: &str, body: impl Fn(&mut Out)) {
    out.key(key, |out| out.list(&Kind::Text, &body));
}
