//! What `hodful chances` is asked. Not here: what all commands have (see `output`), and doing anything.

use super::output::{Input, Output};
use super::whole;
use clap::Args;
use hodful_quantities::read::Amount;
use hodful_quantities::units::{Ratio, ratio};
use hodful_quantities::{Measure, Typed};

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
    /// An order to hold against what may be needed: a material, = and packages, a volume or a mass, what
    /// came of it included and what lay in the yard not; can be given several times
    #[arg(long, value_name = "MATERIAL=AMOUNT", value_parser = order)]
    pub(crate) order: Vec<(String, Typed<Amount>)>,
    /// How often an order may fall short: 5%, 0.05 or 1/20; 10% when not given
    #[arg(long, value_name = "SHARE", value_parser = short, allow_hyphen_values = true)]
    pub(crate) short: Option<f64>,
    #[command(flatten)]
    pub(crate) output: Output,
}

/// How seldom and how often an order may be let fall short: less than draws can tell, and hardly an order any more.
const SHORT: std::ops::RangeInclusive<f64> = 0.0001..=0.99;

fn short(text: &str) -> Result<f64, String> {
    let share = Ratio::read(text).map_err(|wrong| wrong.to_string())?;
    let share = share.get::<ratio>();
    if SHORT.contains(&share) {
        Ok(share)
    } else {
        Err("give a share from 0.01 % to 99 %".into())
    }
}

fn order(text: &str) -> Result<(String, Typed<Amount>), String> {
    // A name may have a sign of equality in it, an amount has none.
    let (material, amount) = text
        .rsplit_once('=')
        .ok_or("give a material, = and an amount: 'sand=4 tipped load'")?;
    let amount = Typed::read(amount.trim()).map_err(|wrong| wrong.to_string())?;
    Ok((material.trim().into(), amount))
}
