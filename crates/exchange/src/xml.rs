//! Text made fit to stand in XML. Not here: elements.

use std::borrow::Cow;

/// A text as the content of an element or of a quoted attribute: the five signs of markup are escaped, and
/// letters that XML 1.0 (section 2.2) does not know are left out.
pub(crate) fn text(text: &str) -> Cow<'_, str> {
    if text.chars().all(is_plain) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            letter if is_known(letter) => out.push(letter),
            _ => {}
        }
    }
    Cow::Owned(out)
}

fn is_plain(letter: char) -> bool {
    is_known(letter) && !matches!(letter, '&' | '<' | '>' | '"' | '\'')
}

fn is_known(letter: char) -> bool {
    matches!(letter, '\t' | '\n' | '\r' | ' '..='\u{fffd}' | '\u{10000}'..)
}
