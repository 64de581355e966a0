//! Tables of so many columns that they are cut into several, one under the other. Not here: what stands
//! in them.

use super::WIDTH;
use super::table::Table;

/// A column with what stands over it.
#[derive(Debug, Clone)]
pub(super) struct Column {
    head: String,
    cells: Vec<String>,
}

/// The narrowest that a column of text is made, where its words can be broken.
const NARROWEST: usize = 18;

/// Blanks beside a column.
const BESIDE: usize = 2;

impl Column {
    pub(super) fn new(head: impl Into<String>, cells: Vec<String>) -> Self {
        let head = head.into();
        Self { head, cells }
    }

    /// Its widest line, with the blanks beside it.
    fn width(&self) -> usize {
        let texts = std::iter::once(&self.head).chain(&self.cells);
        let lines = texts.flat_map(|text| text.lines());
        let widest = lines.map(|line| line.chars().count()).max();
        widest.unwrap_or_default() + BESIDE
    }
}

/// Tables one under the other: each begins with the columns `first`, of which those at `texts` are text,
/// and has as many others as fit.
pub(super) fn tables(texts: &'static [usize], first: &[Column], others: &[Column]) -> String {
    let widths = first.iter().enumerate().map(|(at, column)| {
        let width = column.width();
        if texts.contains(&at) {
            width.min(NARROWEST + BESIDE)
        } else {
            width
        }
    });
    let taken: usize = widths.sum();
    let mut parts: Vec<Vec<&Column>> = Vec::new();
    let mut room = 0;
    for column in others {
        let width = column.width();
        match parts.last_mut() {
            Some(part) if width <= room => {
                room -= width;
                part.push(column);
            }
            _ => {
                room = WIDTH.saturating_sub(taken + width);
                parts.push(vec![column]);
            }
        }
    }
    if parts.is_empty() {
        parts.push(Vec::new());
    }
    let printed = parts.iter().map(|part| {
        let columns: Vec<&Column> = first.iter().chain(part.iter().copied()).collect();
        let mut table = Table::new(texts, columns.iter().map(|column| column.head.clone()));
        let rows = columns.iter().map(|column| column.cells.len()).max();
        for row in 0..rows.unwrap_or_default() {
            let cells = columns.iter().map(|column| column.cells.get(row).cloned());
            table.row(cells.map(Option::unwrap_or_default));
        }
        table.print()
    });
    printed.collect::<Vec<_>>().join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_fit_stands_in_the_next_table() {
        let column = |head: &str, cell: &str| Column::new(head, vec![cell.to_owned()]);
        let first = [column("Figure", "plaster mixed"), column("Unit", "yd³")];
        let others: Vec<Column> = (0..9)
            .map(|i| column(&format!("option {i}"), "1,234.56\n+12.34 +5.0 %"))
            .collect();
        let printed = tables(&[0, 1], &first, &others);
        assert!(printed.lines().all(|line| line.chars().count() <= WIDTH));
        for i in 0..9 {
            assert!(printed.contains(&format!("option {i}")));
        }
        let tables_count = printed.matches("plaster mixed").count();
        assert_eq!(tables_count, 3, "{printed}");
    }
}
