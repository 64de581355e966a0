//! A table of texts: columns aligned, a line under the head and over the totals, within the width.
//! Not here: what stands in it.

use super::WIDTH;
use comfy_table::{Cell, CellAlignment, ColumnConstraint, ContentArrangement, Row, Table as Grid};

/// A table being built.
#[derive(Debug)]
pub(super) struct Table {
    head: Vec<String>,
    texts: Vec<usize>,
    rows: Vec<Vec<String>>,
    totals: Option<Vec<String>>,
}

impl Table {
    /// A table whose columns `texts` are text, set left, and the others figures, set right.
    pub(super) fn new(texts: &[usize], head: impl IntoIterator<Item = impl Into<String>>) -> Self {
        let head = head.into_iter().map(Into::into).collect();
        Self {
            head,
            texts: texts.to_vec(),
            rows: Vec::new(),
            totals: None,
        }
    }

    /// Adds a row.
    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        self.rows.push(cells.into_iter().collect());
    }

    /// Sets the line under the rows.
    pub(super) fn totals(&mut self, cells: impl IntoIterator<Item = String>) {
        self.totals = Some(cells.into_iter().collect());
    }

    /// The table as text, with a final newline.
    pub(super) fn print(&self) -> String {
        let mut grid = Grid::new();
        grid.load_style(comfy_table::presets::NOTHING)
            .set_content_arrangement(ContentArrangement::Dynamic)
            .set_width(u16::try_from(WIDTH).unwrap_or(u16::MAX));
        let all = std::iter::once(&self.head)
            .chain(&self.rows)
            .chain(&self.totals);
        for cells in all {
            grid.add_row(Row::from(cells.iter().enumerate().map(|(i, text)| {
                let alignment = if self.texts.contains(&i) {
                    CellAlignment::Left
                } else {
                    CellAlignment::Right
                };
                Cell::new(text).set_alignment(alignment)
            })));
        }
        for (i, column) in grid.column_iter_mut().enumerate() {
            // Two blanks between columns, none at the left edge; a figure is never broken.
            if !self.texts.contains(&i) {
                column.set_constraint(ColumnConstraint::ContentWidth);
            }
            column.set_padding((u16::from(i > 0), 1));
        }
        let lines: Vec<String> = grid
            .lines()
            .map(|line| line.trim_end().to_owned())
            .collect();
        let head = self
            .head
            .iter()
            .map(|h| h.lines().count())
            .max()
            .unwrap_or(1);
        let widest = lines
            .iter()
            .map(|line| line.chars().count())
            .max()
            .unwrap_or(0);
        let rule = "─".repeat(widest);
        let mut out = String::new();
        let last = lines
            .len()
            .saturating_sub(usize::from(self.totals.is_some()));
        for (i, line) in lines.iter().enumerate() {
            if i == head || (self.totals.is_some() && i == last) {
                out.push_str(&rule);
                out.push('\n');
            }
            out.push_str(line);
            out.push('\n');
        }
        out
    }
}
