//! What `hodful chances` is asked. Not here: what all commands have (see `output`), and doing anything.

use super::output::{Input, Output};
use super::whole;
use clap::Args;

/// How sure which figures are.
#[derive(Debug, Clone, Args)]
pub(crate) struct ChancesOf {
    #[command(flatten)]
    pub(crate) input: Input,
    /// How many draws, a million at most; 10000 when not given
    #[arg(long, value_name = "COUNT", value_parser = whole::<usize>, allow_hyphen_values = true)]
    pub(crate) draws: Option<usize>,
    /// A whole number from which the draws come; 1 when not given
    #[arg(long, value_name = "NUMBER", value_parser = whole::<u64>, allow_hyphen_values = true)]
    pub(crate) seed: Option<u64>,
    /// A figure: batches, cost, mixed, placed, the name of a material or of a coat; can be given several
    /// times
    #[arg(long, value_name = "FIGURE")]
    pub(crate) only: Vec<String>,
    #[command(flatten)]
    pub(crate) output: Output,
}
