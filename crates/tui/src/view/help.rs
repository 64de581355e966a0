//! The text of the help: keys that work here, then everywhere, how things are typed, the grammar of the
//! entry line. Made from the tables, so that it cannot go stale.

use crate::State;
use crate::command::{COMMANDS, Layer, layers_under};
use crate::entry::GRAMMAR;
use crate::state::Popup;
use crate::text::contains;
use ecow::{EcoString, eco_format};

/// A line of the help.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum HelpLine {
    /// A heading.
    Heading(EcoString),
    /// A key or an example, and what it does.
    Pair(EcoString, EcoString),
}

/// How values are typed: examples and what they are.
const VALUES: [(&str, &str); 9] = [
    (
        "12' 6 1/2\"",
        "feet, inches and fractions; 12'6 and 12-6.5 are the same kind",
    ),
    ("3.81 m  381 cm", "metric, with point or comma"),
    (
        "27",
        "a bare number is inches, or millimetres in a metric project",
    ),
    ("2*4' + 6\"", "arithmetic with + - * / and brackets"),
    ("1 1/2 yd3  50 lb", "volumes and masses with their unit"),
    ("22 %  1/4", "shares"),
    ("20°  20 deg", "angles"),
    (
        "(empty)",
        "a field that may be empty takes what stands in brackets there",
    ),
    (
        "letters",
        "words and names are completed while only one is meant",
    ),
];

/// The lines of the help that a search leaves.
pub(crate) fn help_lines(state: &State) -> Vec<HelpLine> {
    let Some(Popup::Help { query, .. }) = state.popups.last() else {
        return Vec::new();
    };
    let query = query.value();
    // The layers under the help itself.
    let here = {
        let mut of = layers_under(state).to_vec();
        of.extend(Layer::ALL);
        of
    };
    let mut lines = Vec::new();
    let mut seen: Vec<Layer> = Vec::new();
    for layer in here {
        if seen.contains(&layer) {
            continue;
        }
        seen.push(layer);
        let pairs = COMMANDS
            .iter()
            .filter(|command| command.layer == layer)
            .map(|command| {
                let mut doc = EcoString::from(command.doc);
                if let Err(why) = (command.enabled)(state) {
                    doc.push_str(&eco_format!(" (not now: {why})"));
                }
                (state.keymap().shown(command.id), doc)
            });
        add(&mut lines, layer.heading(), pairs, query);
    }
    let words = |pairs: &[(&str, &str)]| -> Vec<(EcoString, EcoString)> {
        pairs
            .iter()
            .map(|(a, b)| (EcoString::from(*a), EcoString::from(*b)))
            .collect()
    };
    add(&mut lines, "The entry line", words(GRAMMAR), query);
    add(&mut lines, "How values are typed", words(&VALUES), query);
    if lines.is_empty() {
        lines.push(HelpLine::Heading(eco_format!(
            "Nothing here has '{query}' in it"
        )));
    }
    lines
}

fn add(
    lines: &mut Vec<HelpLine>,
    heading: &str,
    pairs: impl IntoIterator<Item = (EcoString, EcoString)>,
    query: &str,
) {
    let found = |(key, doc): &(EcoString, EcoString)| {
        query
            .split_whitespace()
            .all(|word| contains(key, word) || contains(doc, word))
    };
    let pairs: Vec<_> = pairs.into_iter().filter(found).collect();
    if !pairs.is_empty() {
        lines.push(HelpLine::Heading(heading.into()));
        lines.extend(pairs.into_iter().map(|(key, doc)| HelpLine::Pair(key, doc)));
    }
}
