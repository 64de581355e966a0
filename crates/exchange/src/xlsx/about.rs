//! Sheets of words and of documents: where the figures come from, how the workbook is read, cautions. Not
//! here: formulas.

use super::book::Book;
use crate::fault::PaperFault;
use hodful_documents::{Block, Cell, Document, Facts, Paper, RowKind};

/// The sheet that says where the figures come from.
pub(super) fn sheet(book: &mut Book, facts: &Facts<'_>) -> Result<(), PaperFault> {
    let us = book.units.us_paper();
    let mut sheet = book.sheet("About")?;
    let foot = &facts.foot;
    let lines = [
        ("Project", facts.project.name.as_str()),
        ("File", foot.file.as_str()),
        ("Day", foot.date.as_str()),
        ("Rule of measurement", foot.rule.as_str()),
        ("Units", foot.units.as_str()),
        ("Made by", foot.version.as_str()),
    ];
    let mut row = 0;
    for (head, words) in lines {
        sheet.bold(row, 0, head)?;
        sheet.text(row, 1, words)?;
        row += 1;
    }
    row += 1;
    let read = [
        "Numbers in blue are those of the project: changed here, all that follows from them changes. The project file stays as it is.",
        "Surfaces and growth (surface gained per thickness, at edges and corners) are measured by the program; the layer of a coat is t × (A + K × (2a + t) / 2), Steiner's formula for parallel surfaces, with thickness t, start a, surface A and growth K.",
        "Of two kinds of package the program chose how many of the first; the last one covers the rest by its formula.",
        "The sheets of documents (Order list with the planned deliveries, Dimension sheet, Batch card, Comparison, Forecast, How sure, Work plan) are as the program made them: they do not follow a change.",
    ];
    for words in read {
        sheet.paragraph(row, 1, words)?;
        row += 1;
    }
    for problem in facts.problems {
        sheet.paragraph(row, 1, &problem.to_string())?;
        row += 1;
    }
    sheet.end("About", us)
}

/// A document as a sheet of plain cells.
pub(super) fn document(book: &mut Book, document: &Document) -> Result<(), PaperFault> {
    let us = book.units.us_paper();
    let mut sheet = book.sheet(match document.paper {
        Paper::Order => "Order list",
        Paper::Dimensions => "Dimension sheet",
        Paper::BatchCard => "Batch card",
        Paper::Summary => "Summary",
        Paper::Comparison => "Comparison",
        Paper::Forecast => "Forecast",
        Paper::Chances => "How sure",
        Paper::WorkPlan => "Work plan",
    })?;
    sheet.bold(0, 0, &document.title)?;
    sheet.text(1, 0, &document.about)?;
    let mut row = 3;
    for block in &document.blocks {
        match block {
            Block::Heading(words) => {
                row += 1;
                sheet.bold(row, 0, words)?;
            }
            Block::Words(words) => sheet.text(row, 0, words)?,
            Block::Cautions(lines) => {
                for line in lines {
                    sheet.text(row, 0, line)?;
                    row += 1;
                }
            }
            Block::Card(lines) => {
                for line in lines {
                    sheet.text(row, 0, &line.what)?;
                    sheet.text(row, 1, &line.count)?;
                    sheet.text(row, 2, &line.also)?;
                    row += 1;
                }
            }
            Block::Table(table) => {
                for (column, of) in (0_u16..).zip(&table.columns) {
                    let head = if of.unit.is_empty() {
                        of.head.to_string()
                    } else {
                        format!("{} {}", of.head, of.unit)
                    };
                    sheet.bold(row, column, &head)?;
                }
                row += 1;
                for of in &table.rows {
                    for (column, cell) in (0_u16..).zip(&of.cells) {
                        match cell {
                            Cell::Empty => {}
                            Cell::Words(words) if of.kind == RowKind::Body => {
                                sheet.text(row, column, words)?;
                            }
                            Cell::Words(words) => sheet.bold(row, column, words)?,
                            Cell::Figure {
                                value, decimals, ..
                            } => sheet.number(row, column, *value, *decimals)?,
                        }
                    }
                    row += 1;
                }
            }
            Block::Picture(_) | Block::NewPage => {}
        }
        row += 1;
    }
    sheet.end(&document.title, us)
}
