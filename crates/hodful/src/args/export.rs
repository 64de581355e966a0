//! What `hodful export` is asked. Not here: what all commands have (see `output`), and doing anything.

use super::output::{Input, Units, What};
use super::plan::DaysFrom;
use clap::{Args, ValueHint};
use std::path::PathBuf;

/// Documents that are written to a file.
#[derive(Debug, Clone, Args)]
pub(crate) struct ExportOf {
    #[command(flatten)]
    pub(crate) input: Input,
    /// The file to write
    #[arg(long, value_name = "PATH", value_hint = ValueHint::FilePath)]
    pub(crate) to: PathBuf,
    /// What to write
    #[arg(long, value_enum)]
    pub(crate) what: Option<What>,
    #[command(flatten)]
    pub(crate) from: DaysFrom,
    /// Units of the documents, over those of the project; JSON is always metric
    #[arg(long, value_enum)]
    pub(crate) units: Option<Units>,
    /// Writes over a file that is there already
    #[arg(long)]
    pub(crate) force: bool,
}
