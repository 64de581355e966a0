//! A name that was meant. Not here: where it is looked for.

use super::there_is;
use hodful_takeoff::project::Name;

/// How alike two names must be for the one to be taken for the other (Jaro-Winkler): by trying.
const ALIKE: f64 = 0.7;

/// The name that was meant, or those that there are.
pub(super) fn nearest<'p>(name: &str, names: impl Iterator<Item = &'p Name> + Clone) -> String {
    let alike = names.clone().map(|of| (strsim::jaro_winkler(name, of), of));
    let near = alike.filter(|(alike, _)| *alike > ALIKE);
    if let Some((_, near)) = near.max_by(|(a, _), (b, _)| a.total_cmp(b)) {
        return format!("did you mean '{near}'?");
    }
    // One of its words is short for a long name.
    let is_word = |of: &&Name| of.split(' ').any(|word| word == name);
    let mut by_word = names.clone().filter(is_word);
    match (by_word.next(), by_word.next()) {
        (Some(one), None) => format!("did you mean '{one}'?"),
        _ => there_is(names),
    }
}
