//! What `hodful plan` is asked. Not here: what all commands have (see `output`), and doing anything.

use super::output::{Input, Output};
use super::{day, whole};
use clap::{Args, ValueHint};
use hodful_quantities::Typed;
use hodful_quantities::read::Day;
use std::path::PathBuf;

/// What the days on site come from, besides the project.
#[derive(Debug, Clone, Args)]
pub(crate) struct DaysFrom {
    /// The weather, over that of the project
    #[arg(long, value_name = "PATH", value_hint = ValueHint::FilePath)]
    pub(crate) weather: Option<PathBuf>,
    /// The first day that may be worked, over that of the project: 2026-04-13
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub(crate) begins: Option<Typed<Day>>,
}

/// The days on site.
#[derive(Debug, Clone, Args)]
pub(crate) struct PlanOf {
    #[command(flatten)]
    pub(crate) input: Input,
    #[command(flatten)]
    pub(crate) from: DaysFrom,
    /// So many people, who do everything in turn, in place of those of the project
    #[arg(long, value_name = "COUNT", value_parser = whole::<u32>)]
    pub(crate) people: Option<u32>,
    /// Plans so many days with helpers alone, 2 when no number is given: the first of a weekend, or those from --begins
    /// on; what fits, and what must be ready before
    #[arg(long, value_name = "DAYS", num_args = 0..=1, default_missing_value = "2", value_parser = whole::<usize>)]
    pub(crate) weekend: Option<usize>,
    /// Writes it to a file besides: a calendar (.ics), a drawing (.svg), pages (.pdf, .html, .md), or figures (.csv, .json, .xlsx)
    #[arg(long, value_name = "PATH", value_hint = ValueHint::FilePath)]
    pub(crate) to: Option<PathBuf>,
    /// Writes over a file that is there already
    #[arg(long)]
    pub(crate) force: bool,
    #[command(flatten)]
    pub(crate) output: Output,
}
