//! A workbook whose figures are worked out by its own formulas: surfaces, coats, what each coat takes, and
//! the order. What is typed in the project stands in it as a number that can be changed.
//!
//! Every formula carries the figure of the program as its result, so that it stands there also where
//! nothing is worked out anew. Text is written as text: no name can become a formula. Not here: computing
//! a figure, and documents.

mod about;
mod book;
mod coats;
mod order;
mod surfaces;
mod takes;
mod units;

use crate::fault::PaperFault;
use book::Book;
use hodful_documents::{Document, Facts};

/// The workbook of a project, with other documents as plain sheets behind it.
///
/// While something is refused there are no figures, and the first sheet says what is refused.
///
/// # Errors
/// [`PaperFault::Workbook`] when a sheet is larger than a workbook can hold.
pub fn xlsx(facts: &Facts<'_>, documents: &[Document]) -> Result<Vec<u8>, PaperFault> {
    let mut book = Book::new(facts.project.units);
    if let Some(assessed) = facts.assessed {
        let grounds = surfaces::sheet(&mut book, assessed)?;
        let coats = coats::sheet(&mut book, assessed, &grounds)?;
        let takes = takes::sheet(&mut book, assessed, &coats)?;
        order::sheet(&mut book, assessed, &takes)?;
    }
    for document in documents {
        about::document(&mut book, document)?;
    }
    about::sheet(&mut book, facts)?;
    book.bytes()
}
