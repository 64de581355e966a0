//! What is said beside the lists of soils, of the order, of the card, of the days: lines of words and figures that
//! can be gone through when there are more than fit. Not here: what is said of each (see below it), and the
//! figures of coats and stores (see `facts`).

mod blend;
mod card;
mod chances;
mod columns;
mod days;
mod options;
mod order;
mod soil;

use super::{Pen, areas};
use crate::State;
use crate::command::Id;
use crate::state::Screen;
use crate::text::{lines, width};
use ecow::{EcoString, eco_format};
use hodful_takeoff::card::said::Quarters;
use hodful_takeoff::form::Subject;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// One thing that is said.
#[derive(Debug, Clone, PartialEq)]
enum Said {
    /// A heading.
    Head(EcoString),
    /// A figure with its name.
    Pair(EcoString, EcoString),
    /// Words, and a figure at the right end.
    Ends(EcoString, EcoString),
    /// A count in large letters where there is room for them, what it is of, and more about it.
    Count {
        digits: EcoString,
        of: EcoString,
        more: EcoString,
    },
    /// Words.
    Words(EcoString),
    /// Columns under a heading each, the first of names; as many as there is room for.
    Columns {
        head: Vec<EcoString>,
        rows: Vec<Vec<EcoString>>,
        /// Columns that come before others where there is little room.
        first: Vec<usize>,
    },
    /// Words that belong to what stands over them.
    Under(EcoString),
    /// Words of something that is wrong.
    Bad(EcoString),
    /// From here on it may have to be gone through: what is above is what large letters must leave room for.
    Rest,
    /// Nothing, to set off what follows.
    Gap,
}

impl Said {
    fn pair(name: &str, figure: impl std::fmt::Display) -> Self {
        Self::Pair(name.into(), eco_format!("{figure}"))
    }

    fn words(words: impl std::fmt::Display) -> Self {
        Self::Words(eco_format!("{words}"))
    }

    fn under(words: impl std::fmt::Display) -> Self {
        Self::Under(eco_format!("{words}"))
    }
}

/// What is said of the page and what is chosen on it.
fn said(state: &State) -> Vec<Said> {
    match (state.screen(), state.subject()) {
        (Screen::Soils, Some(Subject::Material(at))) => soil::said(state, at),
        (Screen::Soils, Some(Subject::Blend(at))) => blend::said(state, at),
        (Screen::Soils, _) => vec![Said::words(
            "No sand, soil or clay yet. Copy a material in the stores and change its kind.",
        )],
        (Screen::Order, subject) => order::said(state, subject),
        (Screen::Options, subject) => options::said(state, subject),
        (Screen::Chances, _) => chances::said(state),
        (Screen::Days, _) => days::said(state),
        (Screen::Card, Some(Subject::Mix(at))) => card::said(state, at),
        (Screen::Card, _) => vec![Said::words(
            "No mix yet. Make one of a blend on the soils page.",
        )],
        _ => Vec::new(),
    }
}

/// How many lines are said, and how many are seen at a time; nothing where they have no room.
pub(crate) fn said_size(state: &State) -> Option<(usize, usize)> {
    let (columns, rows) = state.size();
    let areas = areas(state, Rect::new(0, 0, columns, rows));
    let area = areas.facts?;
    let pen = Pen::new(state);
    let lines = page(state, &pen, area).len();
    Some((lines, seen(lines, area.height)))
}

/// What is said, a paragraph each, for a box.
pub(crate) fn said_plainly(state: &State) -> Vec<EcoString> {
    let each = said(state).into_iter().filter_map(|one| {
        Some(match one {
            Said::Head(words) | Said::Words(words) | Said::Bad(words) => words,
            Said::Under(words) => eco_format!("  {words}"),
            Said::Pair(name, figure) => eco_format!("{name}: {figure}"),
            Said::Ends(left, right) => eco_format!("{left} {right}"),
            Said::Count { digits, of, more } => eco_format!("{digits} {of}, {more}"),
            Said::Columns { head, rows, .. } => {
                let rows = rows.iter().map(|row| row.join("  "));
                let all: Vec<String> = std::iter::once(head.join("  ")).chain(rows).collect();
                all.join("\n").into()
            }
            Said::Rest => return None,
            Said::Gap => EcoString::new(),
        })
    });
    each.collect()
}

/// How many of some lines are seen in so many rows: the last row says that there are more.
fn seen(lines: usize, high: u16) -> usize {
    let high = usize::from(high);
    if lines > high && high > 2 {
        high - 1
    } else {
        high
    }
}

/// Rows that all of it takes in some columns.
pub(super) fn rows(state: &State, columns: u16) -> u16 {
    let pen = Pen::new(state);
    let all = set(&said(state), columns, &pen, false);
    u16::try_from(all.len()).unwrap_or(u16::MAX)
}

/// Paints what is said, from the line that was gone to.
pub(super) fn paint(state: &State, pen: &Pen, area: Rect, buffer: &mut Buffer) {
    let page = page(state, pen, area);
    let high = seen(page.len(), area.height);
    let top = state.yard.said_top.min(page.len().saturating_sub(high));
    for (y, line) in (area.y..).zip(page.iter().skip(top).take(high)) {
        for (x, text, style) in line {
            let room = area.width.saturating_sub(*x);
            pen.put(buffer, area.x + x, y, room, text, *style);
        }
    }
    let after = page.len().saturating_sub(top + high);
    let key = |id| state.keymap().first(id);
    let words = match (top > 0, after > 0) {
        (false, false) => return,
        (false, true) => eco_format!(" {}: {after} more lines", key(Id::WordsDown)),
        (true, true) => eco_format!(
            " {}: {after} more lines, {}: back",
            key(Id::WordsDown),
            key(Id::WordsUp)
        ),
        (true, false) => eco_format!(" {}: back", key(Id::WordsUp)),
    };
    if area.height > 2 {
        pen.put_right(buffer, area, area.bottom() - 1, &words, pen.theme.key);
    }
}

/// Pieces of a line: the column they begin in, the words, how they look.
type Line = Vec<(u16, EcoString, Style)>;

/// The lines in an area, with large counts if what stands before the rest fits then.
fn page(state: &State, pen: &Pen, area: Rect) -> Vec<Line> {
    let said = said(state);
    let chief = said.split(|one| *one == Said::Rest).next();
    let chief = chief.filter(|chief| chief.len() < said.len());
    let large = chief
        .is_some_and(|chief| set(chief, area.width, pen, true).len() < usize::from(area.height));
    set(&said, area.width, pen, large)
}

/// Columns over which the eye still finds from words to their figure.
const READABLE: u16 = 64;

fn columns(text: &str) -> u16 {
    u16::try_from(width(text)).unwrap_or(u16::MAX)
}

/// Sets what is said in lines of some columns.
fn set(said: &[Said], columns_all: u16, pen: &Pen, large: bool) -> Vec<Line> {
    let theme = &pen.theme;
    let wide = usize::from(columns_all.saturating_sub(2));
    // Names that would take too much stand over their figures.
    let names = said.iter().filter_map(|one| match one {
        Said::Pair(name, _) => Some(width(name) + 2),
        _ => None,
    });
    let names = names.filter(|columns| *columns <= wide * 2 / 5);
    let name_wide = names.max().unwrap_or(0);
    let mut page: Vec<Line> = Vec::new();
    for one in said {
        match one {
            Said::Rest => {}
            Said::Gap if page.is_empty() => {}
            Said::Gap => page.push(Vec::new()),
            Said::Head(words) => page.extend(broken(words, wide, 1, theme.heading)),
            Said::Words(words) => page.extend(broken(words, wide, 1, theme.dim)),
            Said::Under(words) => {
                page.extend(broken(words, wide.saturating_sub(2), 3, theme.text));
            }
            Said::Columns { head, rows, first } => {
                page.extend(columns::set(head, rows, first, wide, pen));
            }
            Said::Bad(words) => page.extend(broken(words, wide, 1, theme.bad)),
            Said::Pair(name, figure) => {
                let fits = width(name) + 2 <= name_wide;
                let (own_wide, at) = if fits {
                    (name_wide, u16::try_from(name_wide).unwrap_or(0) + 1)
                } else {
                    (2, 3)
                };
                let mut own = broken(figure, wide.saturating_sub(own_wide), at, theme.text);
                match own.first_mut() {
                    Some(first) if fits => first.insert(0, (1, name.clone(), theme.dim)),
                    _ => page.extend(broken(name, wide, 1, theme.dim)),
                }
                page.extend(own);
            }
            Said::Ends(left, right) => {
                // No further off than the eye goes along a line.
                let end = columns_all.min(READABLE);
                let at = end.saturating_sub(columns(right) + 1);
                let fits = width(left) + width(right) + 4 <= usize::from(end);
                let mut own = broken(left, wide, 1, theme.text);
                match own.last_mut() {
                    Some(last) if fits => last.push((at, right.clone(), theme.text)),
                    _ => own.push(vec![(at, right.clone(), theme.text)]),
                }
                page.extend(own);
            }
            Said::Count { digits, of, more } if large => {
                page.extend(counted(digits, of, more, pen));
            }
            Said::Count { digits, of, more } => {
                let words = eco_format!("{digits} {of}");
                let fits = width(&words) + width(more) + 2 <= wide;
                let mut own = broken(&words, wide, 1, theme.heading);
                let at = columns_all.saturating_sub(columns(more) + 1);
                match own.last_mut() {
                    Some(last) if fits => last.push((at, more.clone(), theme.dim)),
                    _ => own.extend(broken(more, wide.saturating_sub(2), 3, theme.dim)),
                }
                page.extend(own);
            }
        }
    }
    page
}

fn broken(words: &str, wide: usize, at: u16, style: Style) -> Vec<Line> {
    let each = lines(words, wide).into_iter();
    each.map(|line| vec![(at, line, style)]).collect()
}

/// A count in letters of three rows, that can be read across a yard.
fn counted(digits: &str, of: &EcoString, more: &EcoString, pen: &Pen) -> Vec<Line> {
    let mut rows = [const { EcoString::new() }; 3];
    for letter in digits.chars() {
        for (row, part) in rows.iter_mut().zip(large(letter)) {
            row.push_str(&part);
            row.push(' ');
        }
    }
    let at = 2 + columns(&rows[1]) + 1;
    let theme = &pen.theme;
    let [top, middle, bottom] = rows;
    vec![
        vec![(2, top, theme.heading)],
        vec![(2, middle, theme.heading), (at, of.clone(), theme.heading)],
        vec![(2, bottom, theme.heading), (at, more.clone(), theme.dim)],
        Vec::new(),
    ]
}

/// A letter in three rows: figures of strokes, all else as it is on the middle one.
fn large(letter: char) -> [EcoString; 3] {
    let figures = [
        " _ | ||_|",
        "     |  |",
        " _  _||_ ",
        " _  _| _|",
        "   |_|  |",
        " _ |_  _|",
        " _ |_ |_|",
        " _   |  |",
        " _ |_||_|",
        " _ |_| _|",
    ];
    let figure = letter.to_digit(10).and_then(|of| usize::try_from(of).ok());
    let Some(strokes) = figure.and_then(|of| figures.get(of)) else {
        let own = eco_format!("{letter}");
        let gap: EcoString = own.chars().map(|_| ' ').collect();
        return if matches!(letter, '.' | ',') {
            [gap.clone(), gap, own]
        } else {
            [gap.clone(), own, gap]
        };
    };
    let row = |from: usize| strokes.chars().skip(from * 3).take(3).collect();
    [row(0), row(1), row(2)]
}

/// How quarters are written: `5¾`, or `5 3/4` where only ASCII may.
fn written(state: &State) -> Quarters {
    if state.looks().signs {
        Quarters::Signs
    } else {
        Quarters::Plain
    }
}

/// The caution for dust, where the project's cautions have one; all of it is shown by its key.
fn dust(state: &State) -> Option<Said> {
    let caution = state.cautions.iter().find(|of| of.key == "dust")?;
    let key = state.keymap().first(Id::Cautions);
    Some(Said::words(format_args!(
        "{}: damp it before screening and dry mixing; wear a fitted respirator ({key})",
        caution.title
    )))
}

/// A share of the whole in percent, to the nearest whole one; to a tenth under one percent.
fn percent(share: f64) -> EcoString {
    let places = u32::from(share > 0.0 && share < 0.01);
    let digits = hodful_quantities::print::fixed(
        share * 100.0,
        places,
        hodful_quantities::print::Grouping::Space,
    );
    eco_format!("{digits} %")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn large_figures_are_the_strokes_of_a_counter() {
        let rows = large('4');
        assert_eq!(rows, ["   ", "|_|", "  |"].map(EcoString::from));
        let rows = large('½');
        assert_eq!(rows, [" ", "½", " "].map(EcoString::from));
        for figure in '0'..='9' {
            assert!(large(figure).iter().all(|row| width(row) == 3), "{figure}");
        }
    }
}
