//! A line cut into letters, numbers, marks and signs, each with its place. Not here: what they mean.

use core::ops::Range;

/// What a piece is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Letters that stand together.
    Letters,
    /// Digits with points and commas, or a fraction in one sign.
    Number,
    /// A foot, inch or degree mark.
    Mark,
    /// A sign of arithmetic that stands inside a value.
    Sign,
    /// The multiplication sign that stands between two sizes.
    Times,
    Open,
    Close,
    Other,
}

/// One piece of a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Piece {
    pub(super) kind: Kind,
    pub(super) range: Range<usize>,
}

/// Whether a character is a quotation mark, which is an inch mark as well.
pub(super) fn is_quote(c: char) -> bool {
    matches!(c, '"' | '\u{201c}' | '\u{201d}' | '\u{2033}')
}

fn kind(c: char) -> Kind {
    match c {
        '0'..='9' | '.' | ',' => Kind::Number,
        '\'' | '\u{2018}' | '\u{2019}' | '\u{2032}' | '°' | 'º' => Kind::Mark,
        '+' | '-' | '*' | '/' | '·' | '÷' | '\u{2010}' | '\u{2011}' | '\u{2013}' | '\u{2212}'
        | '\u{2044}' => Kind::Sign,
        '×' => Kind::Times,
        '(' => Kind::Open,
        ')' => Kind::Close,
        c if is_quote(c) => Kind::Mark,
        c if c.is_alphabetic() => Kind::Letters,
        c if c.is_numeric() => Kind::Number,
        _ => Kind::Other,
    }
}

/// Whether a character may follow in the same piece.
fn goes_on(of: Kind, c: char) -> bool {
    match of {
        Kind::Letters => kind(c) == Kind::Letters,
        Kind::Number => matches!(c, '0'..='9' | '.' | ','),
        _ => false,
    }
}

/// Cuts a line; blanks are left out.
pub(super) fn cut(line: &str) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    for (at, c) in line.char_indices() {
        let end = at + c.len_utf8();
        if let Some(last) = pieces.last_mut()
            && last.range.end == at
            && goes_on(last.kind, c)
        {
            last.range.end = end;
        } else if !c.is_whitespace() {
            pieces.push(Piece {
                kind: kind(c),
                range: at..end,
            });
        }
    }
    pieces
}
