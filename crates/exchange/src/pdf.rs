//! Documents as PDF: set in type on Letter or A4, text that can be selected and searched, drawings as lines
//! to a stated scale. Not here: what stands in a document.
//!
//! First everything is set out on pages as plain data, then the pages are painted, when it is known how
//! many there are. The same documents give the same bytes.

mod card;
mod flow;
mod page;
mod paint;
mod pictures;
mod table;

#[cfg(test)]
mod tests;

use crate::PaperFault;
use crate::letters::Letters;
use flow::Flow;
use hodful_documents::Document;
use page::{Page, Sheet};

/// Documents as one PDF file, each from a page of its own, pages numbered through.
///
/// Paper is Letter for a document that speaks in feet, else A4. The date of the file is that of the foot,
/// when that is written year-month-day; the clock is not asked. Letters that the fonts do not have (they
/// have Latin, Greek and Cyrillic) stand as a box, and are still there when the text is copied. Text is
/// set from left to right.
///
/// # Errors
/// [`PaperFault::Letters`] when the fonts that are built in cannot be read, [`PaperFault::Pdf`] when the
/// file could not be put together, with the reason.
pub fn pdf(documents: &[Document]) -> Result<Vec<u8>, PaperFault> {
    let letters = Letters::new().ok_or(PaperFault::Letters)?;
    let pages: Vec<(usize, Page)> = documents
        .iter()
        .enumerate()
        .flat_map(|(number, document)| {
            let pages = set_out(document, &letters).into_iter();
            pages.map(move |page| (number, page))
        })
        .collect();
    paint::paint(documents, &pages, &letters)
}

/// A document on pages.
fn set_out(document: &Document, letters: &Letters) -> Vec<Page> {
    let mut flow = Flow::new(Sheet::of(document.units), letters, document);
    flow.document();
    flow.finish()
}
