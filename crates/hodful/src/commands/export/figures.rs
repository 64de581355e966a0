//! The figures for a program. Not here: documents.

use super::super::cards;
use super::super::chances::{is_said, usual};
use super::{Job, Planned};
use crate::args::What;
use anyhow::{Result, anyhow};
use hodful_exchange as exchange;

/// What is wanted, as JSON.
///
/// # Errors
/// When there is none of it.
pub(super) fn json(job: &Job<'_>) -> Result<Vec<u8>> {
    let Job {
        of,
        what,
        days,
        held,
    } = *job;
    let planned = || Some(exchange::days(of.project, days?.days()?));
    let cards = || cards(of, None).map(|all| exchange::cards(&of.project.name, &all));
    let sure = || {
        let drawn = usual(of).map_err(|why| anyhow!("{why}"))?;
        anyhow::Ok(exchange::chances(of.project, &drawn))
    };
    let is_compared = job.is_compared()?;
    let compared = || held.with(of, exchange::compare);
    let bytes = match what {
        What::Order => exchange::json(&exchange::order(of))?,
        What::Dimensions => exchange::json(&exchange::measure(of))?,
        What::Card => exchange::json(&cards()?)?,
        What::Comparison => exchange::json(&compared()?)?,
        What::Chances => exchange::json(&sure()?)?,
        What::Forecast => {
            let forecast = of.forecast().map_err(|why| anyhow!("{why}"))?;
            exchange::json(&exchange::forecast(of.project, &forecast))?
        }
        What::Plan => match days {
            Some(Planned::Weekend(days)) => exchange::json(&exchange::weekend(of.project, days))?,
            _ => exchange::json(&planned())?,
        },
        What::Summary | What::All => {
            let forecast = (!of.project.done.is_empty()).then(|| of.forecast().ok());
            let forecast = forecast.flatten();
            let all = exchange::AllReport {
                format: "hodful-all",
                version: 1,
                measure: exchange::measure(of),
                order: exchange::order(of),
                cards: cards().ok(),
                comparison: is_compared.then(compared).transpose()?,
                chances: is_said(of).then(|| sure().ok()).flatten(),
                forecast: forecast.map(|found| exchange::forecast(of.project, &found)),
                plan: planned(),
            };
            exchange::json(&all)?
        }
    };
    Ok(bytes)
}
