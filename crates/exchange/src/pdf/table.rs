//! Tables over pages: columns as wide as what stands in them, figures against the right edge, the head
//! again on every page. Not here: what stands in the cells.

use super::flow::{Flow, Type, base, count};
use super::page::Item;
use crate::letters::{Letters, Weight};
use hodful_documents::{Row, RowKind, Table};

/// Sizes of letters that are tried until all columns fit, points.
const SIZES: [f64; 5] = [8.5, 8.0, 7.5, 7.0, 6.5];

/// Between columns, points; more where words follow figures, whose edges would meet.
const GAP: f64 = 9.0;
const GAP_AFTER_FIGURES: f64 = 15.0;

/// A table no higher than this share of a page is not broken.
const WHOLE: f64 = 0.4;

/// Over and under the lines of a row, points.
const PAD: f64 = 2.2;

/// The most room that a single word makes for itself, of the width of the table; a longer one is broken.
const WORD: f64 = 0.22;

/// Grey of the lines between rows: seen, and less than the lines of head and total.
const BETWEEN: f64 = 0.65;

/// A table being placed.
struct Sheet<'t> {
    table: &'t Table,
    letters: Type,
    /// Left edge and width of each column.
    columns: Vec<[f64; 2]>,
    head: Vec<Vec<(&'t str, Weight)>>,
}

/// The space on a page with which a table may begin: all of a small one, else the head and some rows.
pub(super) fn beginning(flow: &Flow<'_>, table: &Table) -> f64 {
    if table.columns.is_empty() || table.rows.len() > MOST_WHOLE {
        return LEAST;
    }
    let sheet = Sheet::new(flow, table);
    let rows = table.rows.iter();
    let rows = rows.map(|row| sheet.height(&sheet.row_lines(row, flow.letters)));
    let high = sheet.head_height() + rows.sum::<f64>();
    if high <= flow.whole() * WHOLE {
        high
    } else {
        LEAST
    }
}

/// Rows of a table that is surely broken: so many lines are more than the share of a page.
const MOST_WHOLE: usize = 60;

/// Head and some rows, points.
const LEAST: f64 = 60.0;

pub(super) fn place(flow: &mut Flow<'_>, table: &Table) {
    if table.columns.is_empty() {
        return;
    }
    flow.make_room(beginning(flow, table));
    let sheet = Sheet::new(flow, table);
    let rows: Vec<Vec<Vec<&str>>> = table
        .rows
        .iter()
        .map(|row| sheet.row_lines(row, flow.letters))
        .collect();
    let high: Vec<f64> = rows.iter().map(|lines| sheet.height(lines)).collect();
    let head = sheet.head_height();
    let needs = |at: usize| -> f64 {
        let own = high.get(at).copied().unwrap_or_default();
        let next = high.get(at + 1).copied().unwrap_or_default();
        let kind = |at: usize| table.rows.get(at).map(|row| row.kind);
        // A name stays with what it names, a sum with the last of what it sums, the last row not alone.
        let last = at + 2 == table.rows.len();
        if last || kind(at) == Some(RowKind::Group) || kind(at + 1) == Some(RowKind::Total) {
            own + next
        } else {
            own
        }
    };
    let whole = flow.whole() - head;
    flow.make_room(head + needs(0).min(whole));
    sheet.put_head(flow);
    let mut group: Option<&Vec<Vec<&str>>> = None;
    for (at, (row, lines)) in table.rows.iter().zip(&rows).enumerate() {
        if row.kind == RowKind::Group {
            group = Some(lines);
        }
        if needs(at) > flow.left_over() && needs(at) <= whole {
            flow.new_page();
            sheet.put_head(flow);
            // What the rows belong to stands again over them.
            if let Some(lines) = group.filter(|_| row.kind == RowKind::Body) {
                sheet.put_row(flow, RowKind::Group, lines);
            }
        }
        sheet.put_row(flow, row.kind, lines);
    }
    flow.y += 8.0;
}

impl<'t> Sheet<'t> {
    fn new(flow: &Flow<'_>, table: &'t Table) -> Self {
        let (size, widths) = widths(table, flow.sheet.width(), flow.letters);
        let mut left = flow.sheet.left();
        let columns = widths.into_iter().zip(gaps(table)).map(|(wide, gap)| {
            let column = [left, wide];
            left += wide + gap;
            column
        });
        let mut sheet = Self {
            table,
            letters: Type {
                size,
                leading: size * 1.27,
                weight: Weight::Regular,
            },
            columns: columns.collect(),
            head: Vec::new(),
        };
        sheet.head = sheet.head_lines(flow.letters);
        sheet
    }

    fn is_right(&self, at: usize) -> bool {
        self.table
            .columns
            .get(at)
            .is_some_and(|column| column.right)
    }

    fn head_lines(&self, letters: &Letters) -> Vec<Vec<(&'t str, Weight)>> {
        let size = self.letters.size;
        self.table
            .columns
            .iter()
            .zip(&self.columns)
            .map(|(column, [_, wide])| {
                let mut lines: Vec<(&str, Weight)> = Vec::new();
                for (text, weight) in [
                    (column.head.as_str(), Weight::Bold),
                    (column.unit.as_str(), Weight::Regular),
                ] {
                    if !text.trim().is_empty() {
                        let broken = letters.lines(text, weight, wide / size);
                        lines.extend(broken.into_iter().map(|line| (line, weight)));
                    }
                }
                lines
            })
            .collect()
    }

    fn head_height(&self) -> f64 {
        let most = self.head.iter().map(Vec::len).max().unwrap_or_default();
        count(most) * self.letters.leading + 2.0 * PAD
    }

    /// The head, its last lines on one line, and the line under it.
    fn put_head(&self, flow: &mut Flow<'_>) {
        let high = self.head_height();
        let bottom = flow.y + high;
        for (at, lines) in self.head.iter().enumerate() {
            let mut y = bottom - PAD - count(lines.len()) * self.letters.leading;
            for (text, weight) in lines {
                self.text(flow, at, y, text, *weight);
                y += self.letters.leading;
            }
        }
        flow.y = bottom;
        flow.rule(0.8, 0.0);
    }

    fn row_lines(&self, row: &'t Row, letters: &Letters) -> Vec<Vec<&'t str>> {
        let weight = weight(row.kind);
        let size = self.letters.size;
        if row.kind == RowKind::Group {
            let name = row.cells.first().map_or("", |cell| cell.shown());
            return vec![letters.lines(name, weight, self.across() / size)];
        }
        self.columns
            .iter()
            .enumerate()
            .map(|(at, [_, wide])| {
                let shown = row.cells.get(at).map_or("", |cell| cell.shown());
                letters.lines(shown, weight, wide / size)
            })
            .collect()
    }

    /// The width of all columns.
    fn across(&self) -> f64 {
        let left = self.columns.first().map_or(0.0, |[left, _]| *left);
        let right = self.columns.last().map_or(0.0, |[left, wide]| left + wide);
        right - left
    }

    fn height(&self, lines: &[Vec<&str>]) -> f64 {
        let most = lines.iter().map(Vec::len).max().unwrap_or_default();
        count(most.max(1)) * self.letters.leading + 2.0 * PAD
    }

    /// A row, its lines on the next page where they have no room; only one that is higher than a page
    /// comes here without room.
    fn put_row(&self, flow: &mut Flow<'_>, kind: RowKind, lines: &[Vec<&str>]) {
        if kind == RowKind::Total {
            flow.rule(0.8, 0.0);
        }
        let most = lines.iter().map(Vec::len).max().unwrap_or_default();
        flow.y += PAD;
        for number in 0..most {
            if flow.left_over() < self.letters.leading {
                flow.new_page();
                self.put_head(flow);
                flow.y += PAD;
            }
            for (at, lines) in lines.iter().enumerate() {
                if let Some(text) = lines.get(number).filter(|text| !text.is_empty()) {
                    self.text(flow, at, flow.y, text, weight(kind));
                }
            }
            flow.y += self.letters.leading;
        }
        flow.y += PAD;
        flow.rule(0.25, BETWEEN);
    }

    fn text(&self, flow: &mut Flow<'_>, at: usize, y: f64, text: &str, weight: Weight) {
        let size = self.letters.size;
        let [left, wide] = self.columns.get(at).copied().unwrap_or_default();
        let x = if self.is_right(at) {
            left + wide - flow.letters.width(text, weight) * size
        } else {
            left
        };
        flow.put(Item::Text {
            at: [x, y + base(self.letters)],
            text: text.to_owned(),
            size,
            weight,
        });
    }
}

fn weight(kind: RowKind) -> Weight {
    match kind {
        RowKind::Body => Weight::Regular,
        RowKind::Group | RowKind::Total => Weight::Bold,
    }
}

/// The space behind each column; none behind the last.
fn gaps(table: &Table) -> impl Iterator<Item = f64> {
    let next = table.columns.iter().skip(1).map(Some).chain([None]);
    table
        .columns
        .iter()
        .zip(next)
        .map(|(column, next)| match next {
            None => 0.0,
            Some(next) if column.right && !next.right => GAP_AFTER_FIGURES,
            Some(_) => GAP,
        })
}

/// Least and most width of a column, in the size of its letters.
fn needs(table: &Table, letters: &Letters) -> Vec<[f64; 2]> {
    let mut needs: Vec<[f64; 2]> = table
        .columns
        .iter()
        .map(|column| {
            let head = letters.widest_word(&column.head, Weight::Bold);
            let unit = letters.width(&column.unit, Weight::Regular);
            let whole = letters.width(&column.head, Weight::Bold);
            [
                head.max(unit),
                if column.right { head } else { whole }.max(unit),
            ]
        })
        .collect();
    for row in table.rows.iter().filter(|row| row.kind != RowKind::Group) {
        let weight = weight(row.kind);
        for ((cell, need), column) in row.cells.iter().zip(&mut needs).zip(&table.columns) {
            let widest =
                |width: &dyn Fn(&str) -> f64| cell.shown().lines().map(width).fold(0.0, f64::max);
            let most = widest(&|line| letters.width(line, weight));
            let least = if column.right {
                most
            } else {
                widest(&|line| letters.widest_word(line, weight))
            };
            *need = [need[0].max(least), need[1].max(most)];
        }
    }
    needs
}

/// The size of the letters and the widths of the columns, together as wide as the table.
fn widths(table: &Table, wide: f64, letters: &Letters) -> (f64, Vec<f64>) {
    let room = (wide - gaps(table).sum::<f64>()).max(1.0);
    let needs = needs(table, letters);
    let mut found = None;
    for size in SIZES {
        let needs: Vec<[f64; 2]> = needs
            .iter()
            .map(|[least, most]| [(least * size).min(room * WORD), most * size])
            .collect();
        let least: f64 = needs.iter().map(|[least, _]| least).sum();
        found = Some((size, needs));
        if least <= room {
            break;
        }
    }
    let (size, needs) = found.unwrap_or_default();
    let least: f64 = needs.iter().map(|[least, _]| least).sum();
    let most: f64 = needs.iter().map(|[_, most]| most).sum();
    let widths: Vec<f64> = if most <= room {
        stretched(table, &needs, room - most)
    } else if least <= room {
        let share = (room - least) / (most - least);
        let of = |[least, most]: &[f64; 2]| least + (most - least).max(0.0) * share;
        needs.iter().map(of).collect()
    } else {
        // Even the least is too wide: all give way alike, and words are broken.
        let share = room / least;
        needs.iter().map(|[least, _]| least * share).collect()
    };
    (size, widths)
}

/// Columns with room to spare: the last one takes it when it holds words, else all do, as the table
/// wants them.
fn stretched(table: &Table, needs: &[[f64; 2]], spare: f64) -> Vec<f64> {
    let words_last = table.columns.last().is_some_and(|column| !column.right);
    let wants: f64 = table
        .columns
        .iter()
        .map(|column| column.width.max(0.0))
        .sum();
    needs
        .iter()
        .zip(&table.columns)
        .enumerate()
        .map(|(at, ([_, most], column))| {
            if words_last {
                let is_last = at + 1 == needs.len();
                most + if is_last { spare } else { 0.0 }
            } else if wants > 0.0 {
                most + spare * column.width.max(0.0) / wants
            } else {
                *most
            }
        })
        .collect()
}
