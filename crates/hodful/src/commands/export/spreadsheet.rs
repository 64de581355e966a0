//! The tables of documents as CSV (RFC 4180), an empty line between two. Not here: what stands in them.

use anyhow::{Result, bail};
use hodful_documents::{Block, Cell, Document, Table};
use hodful_exchange as exchange;

/// The end of a line.
const END: &[u8] = b"\r\n";

/// All tables of some documents, each with its head: figures as plain numbers, not rounded, in the unit that
/// the head names; with their own unit where each has one. A drawing or a paragraph is left out.
///
/// # Errors
/// When there is no table.
pub(super) fn csv(documents: &[Document]) -> Result<Vec<u8>> {
    let blocks = documents.iter().flat_map(|document| &document.blocks);
    let mut bytes = Vec::new();
    for block in blocks {
        let rows = match block {
            Block::Table(table) => rows(table),
            Block::Card(lines) => {
                let head = ["what", "count", "also"].map(str::to_owned).to_vec();
                let lines = lines.iter();
                let lines = lines.map(|line| {
                    [&line.what, &line.count, &line.also]
                        .map(|of| plain(of))
                        .to_vec()
                });
                std::iter::once(head).chain(lines).collect()
            }
            _ => continue,
        };
        if !bytes.is_empty() {
            bytes.extend_from_slice(END);
        }
        bytes.extend(exchange::csv(rows)?);
    }
    if bytes.is_empty() {
        bail!("there is no table in this document; write .md or .pdf");
    }
    Ok(bytes)
}

fn rows(of: &Table) -> Vec<Vec<String>> {
    let head = of.columns.iter().map(|column| {
        let (head, unit) = (&column.head, &column.unit);
        plain(&if unit.is_empty() {
            head.to_string()
        } else {
            format!("{head} ({unit})")
        })
    });
    let rows = of
        .rows
        .iter()
        .map(|row| row.cells.iter().map(cell).collect());
    std::iter::once(head.collect()).chain(rows).collect()
}

fn cell(of: &Cell) -> String {
    match of {
        Cell::Empty => String::new(),
        Cell::Words(words) => plain(words),
        Cell::Figure { shown, value, .. } => {
            if shown.chars().any(char::is_alphabetic) || !value.is_finite() {
                plain(shown)
            } else {
                value.to_string()
            }
        }
    }
}

/// A text in one line that no spreadsheet takes for a formula.
fn plain(text: &str) -> String {
    let line: Vec<&str> = text.lines().collect();
    let line = line.join("; ");
    if line.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{line}")
    } else {
        line
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_becomes_a_formula_and_figures_stay_numbers() {
        assert_eq!(plain("=1+1"), "'=1+1");
        assert_eq!(plain("two\nlines"), "two; lines");
        let figure = |shown: &str| Cell::Figure {
            shown: shown.into(),
            value: 1204.52,
            decimals: 1,
        };
        assert_eq!(cell(&figure("1,204.5")), "1204.52");
        assert_eq!(cell(&figure("1,204.5 lb")), "1,204.5 lb");
    }
}
