//! Widths of text on a terminal: every text is measured, cut and set here. Not here: what is said.

use ecow::EcoString;
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// Columns a text takes.
pub fn width(text: &str) -> usize {
    text.width()
}

/// A text cut to some columns, with `…` where it was cut (`~` without signs outside ASCII).
pub fn cut(text: &str, columns: usize, signs: bool) -> EcoString {
    if width(text) <= columns {
        return text.into();
    }
    let end = if signs { "…" } else { "~" };
    let room = columns.saturating_sub(1);
    let mut out = EcoString::new();
    let mut taken = 0;
    for letter in text.graphemes(true) {
        let wide = width(letter);
        if taken + wide > room {
            break;
        }
        taken += wide;
        out.push_str(letter);
    }
    if columns > 0 {
        out.push_str(end);
    }
    out
}

/// A text set left in some columns: cut, or filled with blanks.
pub fn left(text: &str, columns: usize, signs: bool) -> EcoString {
    let mut out = cut(text, columns, signs);
    for _ in width(&out)..columns {
        out.push(' ');
    }
    out
}

/// A text set right in some columns.
pub fn right(text: &str, columns: usize, signs: bool) -> EcoString {
    let text = cut(text, columns, signs);
    let mut out: EcoString = (width(&text)..columns).map(|_| ' ').collect();
    out.push_str(&text);
    out
}

/// Whether a text has some letters in it, large or small.
pub fn contains(text: &str, letters: &str) -> bool {
    text.to_lowercase().contains(&letters.to_lowercase())
}

/// A text broken into lines of some columns, between words where it can.
pub fn lines(text: &str, columns: usize) -> Vec<EcoString> {
    let mut out = Vec::new();
    for paragraph in text.split('\n') {
        let mut line = EcoString::new();
        for word in paragraph.split(' ') {
            let gap = usize::from(!line.is_empty());
            if width(&line) + gap + width(word) <= columns {
                if gap == 1 {
                    line.push(' ');
                }
                line.push_str(word);
                continue;
            }
            if !line.is_empty() {
                out.push(std::mem::take(&mut line));
            }
            for letter in word.graphemes(true) {
                if width(&line) + width(letter) > columns && !line.is_empty() {
                    out.push(std::mem::take(&mut line));
                }
                line.push_str(letter);
            }
        }
        out.push(line);
    }
    out
}

/// A text with the signs of figures and of the screen as ASCII has them, column for column.
pub fn ascii(text: &str) -> String {
    text.chars()
        .map(|letter| match letter {
            '−' | '–' | '·' => '-',
            // In names of sources.
            'å' => 'a',
            '×' => 'x',
            '÷' => '/',
            '²' => '2',
            '³' => '3',
            '°' => 'o',
            '…' => '~',
            '\u{a0}' | '\u{202f}' => ' ',
            letter => letter,
        })
        .collect()
}

/// What may be typed into a field: no control characters; line breaks become blanks.
pub fn clean(text: &str) -> String {
    text.chars()
        .map(|letter| {
            if matches!(letter, '\n' | '\r' | '\t') {
                ' '
            } else {
                letter
            }
        })
        .filter(|letter| !letter.is_control())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_are_cut_by_columns() {
        assert_eq!(cut("straw bale", 10, true), "straw bale");
        assert_eq!(cut("straw bale", 6, true), "straw…");
        assert_eq!(cut("straw bale", 6, false), "straw~");
        assert_eq!(cut("日本語の壁", 6, true), "日本…");
        assert_eq!(cut("e\u{301}e\u{301}e\u{301}", 2, true), "e\u{301}…");
        assert_eq!(cut("wall", 0, true), "");
        assert_eq!(left("wall", 6, true), "wall  ");
        assert_eq!(right("12", 4, true), "  12");
    }

    #[test]
    fn lines_break_between_words() {
        assert_eq!(lines("one two three", 7), ["one two", "three"]);
        assert_eq!(lines("abcdefgh", 3), ["abc", "def", "gh"]);
        assert_eq!(lines("", 3), [""]);
        assert_eq!(lines("a", 0), ["a"]);
    }

    #[test]
    fn pasted_text_has_no_control_characters() {
        assert_eq!(clean("12'\n6\u{1b}[A"), "12' 6[A");
    }
}
