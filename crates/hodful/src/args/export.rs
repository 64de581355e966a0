//! What `hodful export` is asked. Not here: what all commands have (see `output`), and doing anything.

use super::output::{Input, Units, What};
use super::plan::DaysFrom;
use clap::{Args, ValueHint};
use std::path::PathBuf;

/// What the comparison holds against what.
#[derive(Debug, Clone, Default, Args)]
pub(crate) struct HeldAgainst {
    /// The option that the others of the comparison are held against
    #[arg(long, value_name = "NAME", conflicts_with = "against")]
    pub(crate) base: Option<String>,
    /// Only this option in the comparison; can be given several times
    #[arg(long, value_name = "NAME", conflicts_with = "against")]
    pub(crate) only: Vec<String>,
    /// A second project file, compared with the first instead of the options; - reads standard input
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub(crate) against: Option<PathBuf>,
}

impl HeldAgainst {
    /// Whether anything of it is said.
    pub(crate) fn is_given(&self) -> bool {
        self.base.is_some() || !self.only.is_empty() || self.against.is_some()
    }
}

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
    #[command(flatten)]
    pub(crate) held: HeldAgainst,
    /// Units of the documents, over those of the project; JSON is always metric
    #[arg(long, value_enum)]
    pub(crate) units: Option<Units>,
    /// Writes over a file that is there already
    #[arg(long)]
    pub(crate) force: bool,
}
