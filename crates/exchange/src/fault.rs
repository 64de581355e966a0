//! Why a document could not be written. Not here: reports (see `write`).

/// Why a document could not be written.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PaperFault {
    /// The fonts built into the program.
    #[error("the letters built into the program cannot be read; install the program again")]
    Letters,
    /// The maker of the PDF.
    #[error("the document could not be written as PDF: {0}")]
    Pdf(String),
    /// The maker of the workbook.
    #[error("the workbook could not be written: {0}")]
    Workbook(String),
}
