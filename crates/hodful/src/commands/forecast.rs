//! What the rest takes, by what the walls took so far. Not here: forecasting (see `hodful_takeoff::forecast`), and
//! tables (see `show`).

use super::{Answer, End, units, with_answer};
use crate::args::{Format, Input, Output};
use crate::show;
use anyhow::{Result, anyhow};
use hodful_exchange as exchange;

/// Prints what the rest takes.
pub(super) fn forecast(input: &Input, output: Output) -> Result<End> {
    with_answer(
        input,
        |_| Ok(()),
        |assessed| {
            let forecast = assessed.forecast().map_err(|why| anyhow!("{why}"))?;
            let project = assessed.project;
            let report = || exchange::forecast(project, &forecast);
            let bytes = match output.format {
                Format::Table => {
                    show::forecast(project, &forecast, units(assessed, output)).into_bytes()
                }
                Format::Json => exchange::json(&report())?,
                Format::Csv => exchange::csv(report().lines())?,
            };
            Ok(Answer::done(bytes))
        },
    )
}
