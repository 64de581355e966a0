//! Hints for a mistyped word, and how a stranger's text is shown in a message.
//!
//! Not here: the messages themselves.

use ecow::EcoString;
use strsim::osa_distance;

/// Characters of a text that a message shows; the rest is cut.
const SHOWN: usize = 60;

/// The known word that was probably meant: at most a third of its letters differ.
pub(crate) fn nearest(word: &str, known: &[&'static str]) -> Option<&'static str> {
    let word = word.to_lowercase();
    known
        .iter()
        .map(|near| (osa_distance(&word, near), *near))
        .filter(|(distance, near)| distance * 3 <= near.chars().count().max(word.chars().count()))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, near)| near)
}

/// A text as a message shows it: cut when it is long, control characters as `?`.
pub(crate) fn shown(text: &str) -> EcoString {
    let mut shown: EcoString = text
        .chars()
        .take(SHOWN)
        .map(|c| if c.is_control() { '?' } else { c })
        .collect();
    if text.chars().nth(SHOWN).is_some() {
        shown.push('…');
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_finds_its_word_and_a_stranger_none() {
        let known = ["height", "length", "ridge_from_left"];
        assert_eq!(nearest("hieght", &known), Some("height"));
        assert_eq!(nearest("Ridge from left", &known), Some("ridge_from_left"));
        assert_eq!(nearest("colour", &known), None);
    }

    #[test]
    fn long_and_wild_text_is_cut() {
        assert_eq!(shown("a\nb"), "a?b");
        assert_eq!(shown(&"x".repeat(61)), format!("{}…", "x".repeat(60)));
        assert_eq!(shown(&"x".repeat(60)), "x".repeat(60));
    }
}
