//! Rows and reports turned into bytes. Not here: what is in them.

use serde::Serialize;

/// Why a report could not be written.
#[derive(Debug, thiserror::Error)]
pub enum WriteFault {
    /// JSON.
    #[error("the figures could not be written as JSON: {0}")]
    Json(#[from] serde_json::Error),
    /// CSV.
    #[error("the figures could not be written as CSV: {0}")]
    Csv(#[from] csv::Error),
    /// The writer could not give its bytes back.
    #[error("the figures could not be written: {0}")]
    Flush(String),
}

/// A report as indented JSON with a final newline.
///
/// # Errors
/// [`WriteFault`] when a figure cannot stand in JSON; finite figures always can.
pub fn json(report: &impl Serialize) -> Result<Vec<u8>, WriteFault> {
    let mut bytes = serde_json::to_vec_pretty(report)?;
    bytes.push(b'\n');
    Ok(bytes)
}

/// Rows as CSV with a head (RFC 4180: lines end in CR LF).
///
/// A text that a spreadsheet would take for a formula gets an apostrophe before it.
///
/// # Errors
/// [`WriteFault`] when a row cannot stand in CSV.
pub fn csv<R: Serialize>(rows: impl IntoIterator<Item = R>) -> Result<Vec<u8>, WriteFault> {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    for row in rows {
        writer.serialize(row)?;
    }
    writer
        .into_inner()
        .map_err(|fault| WriteFault::Flush(fault.to_string()))
}

/// A text that no spreadsheet takes for a formula.
pub(crate) fn plain_text(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}
