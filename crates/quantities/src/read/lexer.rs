//! A typed value cut into numbers, words and signs. Not here: what they mean together.

use super::fault::{Fault, shown};
use super::number::is_group_space;

/// One piece of a typed value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Token<'a> {
    pub(super) what: What<'a>,
    /// Whether a blank stands before it.
    pub(super) blank: bool,
}

/// What a piece is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum What<'a> {
    /// Digits with points, commas and group spaces.
    Number(&'a str),
    /// A fraction in one sign, as ½.
    Glyph(u8, u8),
    /// Letters, or one of the signs `'`, `"`, `%`, `°`.
    Word(&'a str),
    /// A raised 2 or 3, or `^2`, `^3`.
    Power(char),
    /// A hyphen: a minus, or a join between feet and inches.
    Hyphen,
    /// The minus sign proper, which never joins.
    Minus,
    Plus,
    Times,
    Slash,
    Open,
    Close,
}

/// The fractions that Unicode has signs for (Unicode Standard, chapter 22.3 and the code chart
/// "Number Forms").
const GLYPHS: &[(char, u8, u8)] = &[
    ('½', 1, 2),
    ('⅓', 1, 3),
    ('⅔', 2, 3),
    ('¼', 1, 4),
    ('¾', 3, 4),
    ('⅕', 1, 5),
    ('⅖', 2, 5),
    ('⅗', 3, 5),
    ('⅘', 4, 5),
    ('⅙', 1, 6),
    ('⅚', 5, 6),
    ('⅐', 1, 7),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
    ('⅑', 1, 9),
    ('⅒', 1, 10),
];

/// Foot marks: the plain and typographic apostrophes and the prime.
fn is_foot_mark(c: char) -> bool {
    matches!(c, '\'' | '\u{2018}' | '\u{2019}' | '\u{2032}')
}

/// Inch marks: the plain and typographic quotation marks and the double prime.
fn is_inch_mark(c: char) -> bool {
    matches!(c, '"' | '\u{201c}' | '\u{201d}' | '\u{2033}')
}

/// Cuts a text into pieces.
///
/// `x` standing alone is a multiplication sign, and a point after a word (`sq. ft.`) is dropped.
pub(super) fn cut<'a>(text: &'a str, what: &'static str) -> Result<Vec<Token<'a>>, Fault> {
    let mut tokens = Vec::new();
    let mut rest = text;
    loop {
        let trimmed = rest.trim_start();
        let blank = trimmed.len() < rest.len();
        let Some(first) = trimmed.chars().next() else {
            return Ok(tokens);
        };
        let length = length(trimmed, first);
        let (piece, after) = trimmed.split_at_checked(length).unwrap_or((trimmed, ""));
        rest = after;
        let what = match first {
            '0'..='9' | '.' | ',' => What::Number(piece),
            'x' | 'X' | '×' | '*' | '·' | '⋅' if piece.chars().count() == 1 => What::Times,
            '%' => What::Word("%"),
            '°' | 'º' => What::Word("°"),
            '²' => What::Power('2'),
            '³' => What::Power('3'),
            '^' => match piece.chars().nth(1) {
                Some(power @ ('2' | '3')) => What::Power(power),
                _ => return Err(Fault::NotOne(what)),
            },
            '+' => What::Plus,
            '-' | '\u{2010}' | '\u{2011}' | '\u{2013}' => What::Hyphen,
            '\u{2212}' => What::Minus,
            '/' | '\u{2044}' | '÷' => What::Slash,
            '(' => What::Open,
            ')' => What::Close,
            c if is_inch_mark(c) => What::Word("\""),
            c if is_foot_mark(c) && length > c.len_utf8() => What::Word("\""),
            c if is_foot_mark(c) => What::Word("'"),
            c if c.is_alphabetic() => {
                rest = rest.strip_prefix('.').unwrap_or(rest);
                What::Word(piece)
            }
            c => match GLYPHS.iter().find(|(glyph, ..)| *glyph == c) {
                Some((_, over, under)) => What::Glyph(*over, *under),
                None => return Err(Fault::NotOne(what)),
            },
        };
        tokens.push(Token { what, blank });
    }
}

/// How many bytes the piece at the start of a text takes.
fn length(text: &str, first: char) -> usize {
    match first {
        '0'..='9' | '.' | ',' => number_length(text),
        '^' => text.char_indices().nth(2).map_or(text.len(), |(at, _)| at),
        c if is_foot_mark(c) => {
            let second = text.chars().nth(1).filter(|c| is_foot_mark(*c));
            c.len_utf8() + second.map_or(0, char::len_utf8)
        }
        c if c.is_alphabetic() && c != 'º' => text
            .find(|c: char| !c.is_alphabetic() || c == 'º')
            .unwrap_or(text.len()),
        c => c.len_utf8(),
    }
}

/// Digits, points and commas, and a group space where exactly three digits follow it.
fn number_length(text: &str) -> usize {
    let mut end = 0;
    let mut chars = text.char_indices();
    while let Some((at, c)) = chars.next() {
        let groups = || {
            let mut next = chars.clone().map(|(_, c)| c);
            at > 0
                && (0..3).all(|_| next.next().is_some_and(|c| c.is_ascii_digit()))
                && !next
                    .next()
                    .is_some_and(|c| c.is_ascii_digit() || matches!(c, '/' | '\u{2044}'))
        };
        if !(c.is_ascii_digit() || matches!(c, '.' | ',') || is_group_space(c) && groups()) {
            break;
        }
        end = at + c.len_utf8();
    }
    end
}

impl What<'_> {
    /// The piece as it would be typed, for a message.
    pub(super) fn shown(self) -> ecow::EcoString {
        match self {
            Self::Number(text) | Self::Word(text) => shown(text),
            Self::Glyph(over, under) => ecow::eco_format!("{over}/{under}"),
            Self::Power(power) => ecow::eco_format!("^{power}"),
            Self::Hyphen | Self::Minus => "-".into(),
            Self::Plus => "+".into(),
            Self::Times => "×".into(),
            Self::Slash => "/".into(),
            Self::Open => "(".into(),
            Self::Close => ")".into(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces() {
        use What::{Glyph, Hyphen, Number, Power, Slash, Times, Word};
        fn check(text: &str, expected: &[What<'_>]) {
            let tokens = cut(text, "a length").unwrap();
            let found: Vec<_> = tokens.iter().map(|token| token.what).collect();
            assert_eq!(found, expected, "{text}");
        }
        check(
            "12' 6 1/2\"",
            &[
                Number("12"),
                Word("'"),
                Number("6"),
                Number("1"),
                Slash,
                Number("2"),
                Word("\""),
            ],
        );
        check(
            "12′–6½″",
            &[
                Number("12"),
                Word("'"),
                Hyphen,
                Number("6"),
                Glyph(1, 2),
                Word("\""),
            ],
        );
        check("6''", &[Number("6"), Word("\"")]);
        check("6’’", &[Number("6"), Word("\"")]);
        check("2x4 ft", &[Number("2"), Times, Number("4"), Word("ft")]);
        check("3 sq. ft.", &[Number("3"), Word("sq"), Word("ft")]);
        check("5 m²", &[Number("5"), Word("m"), Power('2')]);
        check("5 m^3", &[Number("5"), Word("m"), Power('3')]);
        check("1\u{a0}234\u{a0}mm", &[Number("1\u{a0}234"), Word("mm")]);
        check(
            "5\u{a0}1/2",
            &[Number("5"), Number("1"), Slash, Number("2")],
        );
        check("20º", &[Number("20"), Word("°")]);
    }

    #[test]
    fn signs_of_no_meaning_are_refused() {
        for text in ["#", "5 m^4", "^", "3 & 4", "\0", "5 ¤"] {
            assert!(cut(text, "a length").is_err(), "{text}");
        }
    }
}
