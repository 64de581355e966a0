//! Lines in letters that are read from two metres, as large as the page lets them be. Not here: what the
//! lines say.

use super::flow::{Flow, Type, base, count};
use crate::letters::Weight;
use hodful_documents::CardLine;

/// Largest and least size of a count, points. At 28 points a digit is some 6.5 mm high: from two metres
/// the eye sees it under 11 minutes of arc, twice what a sharp eye needs (5 minutes a letter; Snellen,
/// from memory).
const SIZES: [f64; 2] = [60.0, 28.0];

/// Steps in which the size is tried smaller, points.
const STEP: f64 = 1.0;

/// How large the other words are, of the count.
const WHAT: f64 = 0.75;
const ALSO: f64 = 0.45;

/// Space over and under a line, of the count.
const SPACE: f64 = 0.22;

/// Space after a card, points.
const AFTER: f64 = 12.0;

/// Between the counts and what is counted, points.
const BETWEEN: f64 = 16.0;

/// The three sizes of a card.
struct Sizes {
    count: Type,
    what: Type,
    also: Type,
}

impl Sizes {
    fn new(size: f64) -> Self {
        let of = |size: f64, weight| Type {
            size,
            leading: size * 1.15,
            weight,
        };
        Self {
            count: of(size, Weight::Bold),
            what: of(size * WHAT, Weight::Regular),
            also: of(size * ALSO, Weight::Regular),
        }
    }
}

/// A line broken into what fits its two columns.
struct Broken<'a> {
    count: Vec<&'a str>,
    what: Vec<&'a str>,
    also: Vec<&'a str>,
    high: f64,
}

/// Places a card on what is left of the page, the letters as large as lets all of it stay there; on more
/// pages when even the least size is too large. `under` is left for what stands under it, when the letters
/// stay large enough, points.
pub(super) fn place(flow: &mut Flow<'_>, lines: &[CardLine], under: f64) {
    if lines.is_empty() {
        return;
    }
    let [largest, least] = SIZES;
    let after = AFTER + under;
    let mut size = largest;
    let (sizes, column, broken) = loop {
        let sizes = Sizes::new(size);
        let (column, broken) = breaking(flow, lines, &sizes);
        let high: f64 = broken.iter().map(|line| line.high).sum();
        let whole = broken.iter().all(|line| line.count.len() == 1);
        if (high + after <= flow.left_over() && whole) || size - STEP < least {
            break (sizes, column, broken);
        }
        size -= STEP;
    };
    let space = sizes.count.size * SPACE;
    for (number, line) in broken.into_iter().enumerate() {
        flow.make_room(line.high);
        let top = flow.y;
        if number > 0 {
            flow.rule(1.0, 0.0);
        }
        flow.y += space;
        let first = flow.y;
        for words in line.count {
            flow.line(flow.sheet.left(), words, sizes.count);
        }
        let counted = flow.y;
        // Both stand on the base line of the count.
        flow.y = first + base(sizes.count) - base(sizes.what);
        let left = flow.sheet.left() + column + BETWEEN;
        for words in line.what {
            flow.line(left, words, sizes.what);
        }
        for words in line.also {
            flow.line(left, words, sizes.also);
        }
        flow.y = flow.y.max(counted).max(top + line.high);
    }
    flow.rule(1.0, 0.0);
    flow.y += AFTER;
}

/// The lines at one size, and the width of the column of counts.
fn breaking<'l>(flow: &Flow<'_>, lines: &'l [CardLine], sizes: &Sizes) -> (f64, Vec<Broken<'l>>) {
    let wide = flow.sheet.width();
    let letters = flow.letters;
    let counts = lines
        .iter()
        .map(|line| letters.width(&line.count, sizes.count.weight) * sizes.count.size);
    let column = counts.fold(0.0, f64::max).min(wide * 0.55);
    let rest = (wide - column - BETWEEN).max(sizes.what.size * 2.0);
    let space = sizes.count.size * SPACE;
    let broken = lines.iter().map(|line| {
        let of = |text: &'l str, of: Type, room: f64| -> Vec<&'l str> {
            if text.trim().is_empty() {
                Vec::new()
            } else {
                letters.lines(text, of.weight, room / of.size)
            }
        };
        let count_lines = of(&line.count, sizes.count, column);
        let what = of(&line.what, sizes.what, rest);
        let also = of(&line.also, sizes.also, rest);
        let left = count(count_lines.len()) * sizes.count.leading;
        let right = base(sizes.count) - base(sizes.what)
            + count(what.len()) * sizes.what.leading
            + count(also.len()) * sizes.also.leading;
        Broken {
            count: count_lines,
            what,
            also,
            high: left.max(right) + 2.0 * space,
        }
    });
    (column, broken.collect())
}
