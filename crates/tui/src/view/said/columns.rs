//! Columns of figures under headings, as many as there is room for. Not here: what stands in them.

use super::Line;
use crate::text::{cut, lines, width};
use crate::view::Pen;
use ecow::{EcoString, eco_format};

/// Columns between two columns.
const GAP: usize = 2;

/// The least columns of the names of the rows, and the most.
const NAMES: (usize, usize) = (14, 34);

/// The most columns of a heading: longer ones go on in the next row.
const HEADING: usize = 14;

/// Sets a table in lines of so many columns: names at the left, figures at the right end of their column.
/// Columns that have no room are left out, those that do not come `first` before others, and a line under
/// the table says so.
pub(super) fn set(
    head: &[EcoString],
    rows: &[Vec<EcoString>],
    first: &[usize],
    wide: usize,
    pen: &Pen,
) -> Vec<Line> {
    let cells = |column: usize| rows.iter().filter_map(move |row| row.get(column));
    let widest = |column: usize| cells(column).map(|cell| width(cell)).max().unwrap_or(0);
    let longest_word = |text: &str| text.split(' ').map(width).max().unwrap_or(0);
    let names = widest(0).clamp(NAMES.0, NAMES.1).min(wide * 2 / 5);
    let mut taken = names;
    let mut shown: Vec<(usize, usize)> = Vec::new();
    let others = (1..head.len()).filter(|column| !first.contains(column));
    for column in first.iter().copied().chain(others) {
        let heading = head.get(column).map_or("", |heading| heading);
        let least = width(heading)
            .min(HEADING)
            .min(longest_word(heading).max(8));
        let own = widest(column).max(least);
        if taken + GAP + own > wide && !shown.is_empty() {
            continue;
        }
        let own = own.min(wide.saturating_sub(taken + GAP));
        taken += GAP + own;
        shown.push((column, own));
    }
    shown.sort_unstable();
    let place = |texts: Vec<(usize, usize, EcoString)>, style| -> Line {
        let mut x = names;
        let mut line = Line::new();
        for (_, own, text) in texts {
            x += GAP + own;
            let text: EcoString = cut(&text, own, pen.looks.signs);
            let at = x.saturating_sub(width(&text)) + 1;
            line.push((u16::try_from(at).unwrap_or(u16::MAX), text, style));
        }
        line
    };
    let mut page = Vec::new();
    let headings: Vec<(usize, usize, Vec<EcoString>)> = shown
        .iter()
        .map(|(column, own)| {
            let heading = head.get(*column).cloned().unwrap_or_default();
            (*column, *own, lines(&heading, *own))
        })
        .collect();
    let high = headings.iter().map(|(.., of)| of.len()).max().unwrap_or(0);
    for row in 0..high {
        // A short heading stands at the bottom, by its figures.
        let texts = headings.iter().map(|(column, own, of)| {
            let at = (row + of.len()).checked_sub(high);
            let text = at.and_then(|at| of.get(at)).cloned().unwrap_or_default();
            (*column, *own, text)
        });
        page.push(place(texts.collect(), pen.theme.heading));
    }
    for row in rows {
        let name = row.first().cloned().unwrap_or_default();
        let texts = shown.iter().map(|(column, own)| {
            let text = row.get(*column).cloned().unwrap_or_default();
            (*column, *own, text)
        });
        let mut line = place(texts.collect(), pen.theme.text);
        let name: EcoString = cut(&name, names, pen.looks.signs);
        line.insert(0, (1, name, pen.theme.dim));
        page.push(line);
    }
    let left_out = head.len().saturating_sub(shown.len() + 1);
    if left_out > 0 {
        let words = match left_out {
            1 => "1 more column in a wider window".into(),
            many => eco_format!("{many} more columns in a wider window"),
        };
        let words = lines(&words, wide).into_iter();
        page.extend(words.map(|line| vec![(1, line, pen.theme.dim)]));
    }
    page
}
