//! `hodful plan`: the days on site. Not here: planning them, their tables, and writing files.

use super::export::{Planned, can_hold_days, export_days, in_units};
use super::{Answer, End, say, shown, with_answer};
use crate::args::{DaysFrom, Format, Input, PlanOf};
use crate::show;
use anyhow::{Context, Result, anyhow, bail};
use hodful_exchange as exchange;
use hodful_takeoff::days::Days;
use hodful_takeoff::project::Name;
use hodful_takeoff::{Assessed, Project};
use hodful_weather::Reading;
use std::path::Path;

/// Prints the days, and writes them to a file.
pub(super) fn plan(of: &PlanOf) -> Result<End> {
    if let Some(path) = &of.to {
        can_hold_days(&of.input.file, path)?;
    }
    let change = |project: &mut Project| {
        if let Some(people) = of.people {
            let work = project.work.get_or_insert_default();
            work.people = Some(people);
            [work.mixing, work.carrying, work.placing, work.finishing] = [None; 4];
        }
        in_units(of.output.units)(project)
    };
    with_answer(&of.input, change, |assessed| {
        let project = assessed.project;
        if let Some(count) = of.weekend {
            return weekend(of, assessed, count);
        }
        let days = find(assessed, &of.input, &of.from)?.map_err(|why| anyhow!("{why}"))?;
        let report = || exchange::days(project, &days);
        let bytes = match of.output.format {
            Format::Table => show::days(project, &days).into_bytes(),
            Format::Json => exchange::json(&report())?,
            Format::Csv => exchange::csv(report().lines())?,
        };
        if let Some(path) = &of.to {
            export_days(
                assessed,
                &of.input,
                &Planned::All(Box::new(Ok(days))),
                path,
                of.force,
            )?;
        }
        Ok(Answer::done(bytes))
    })
}

/// A few days with many hands.
fn weekend(of: &PlanOf, assessed: &Assessed<'_>, count: usize) -> Result<Answer> {
    let project = assessed.project;
    if count == 0 {
        bail!("--weekend 0 is no day at all; give 1 or more");
    }
    let reading = weather(&of.input, &of.from, project)?;
    let weather = reading.as_ref().map(|reading| &reading.weather);
    let begins = of.from.begins.as_ref().map(|day| day.value().date());
    let ahead = assessed.weekend(weather, begins, count);
    let ahead = ahead.map_err(|why| anyhow!("{why}"))?;
    let report = || exchange::weekend(project, &ahead);
    let bytes = match of.output.format {
        Format::Table => show::weekend(project, &ahead).into_bytes(),
        Format::Json => exchange::json(&report())?,
        Format::Csv => exchange::csv(report().plan.lines())?,
    };
    if let Some(path) = &of.to {
        let planned = Planned::Weekend(Box::new(ahead));
        export_days(assessed, &of.input, &planned, path, of.force)?;
    }
    Ok(Answer::done(bytes))
}

/// The days of a project, or why they cannot be planned.
///
/// # Errors
/// When there is no such weather, or it cannot be read, with line and column.
pub(super) fn find(
    of: &Assessed<'_>,
    input: &Input,
    from: &DaysFrom,
) -> Result<Result<Days, Name>> {
    let reading = weather(input, from, of.project)?;
    let weather = reading.as_ref().map(|reading| &reading.weather);
    let begins = from.begins.as_ref().map(|day| day.value().date());
    Ok(of.days(weather, begins))
}

/// The weather that is asked for, or that of the project, which lies beside it. A file that the project names and
/// that is not there is told, and the days are planned without.
fn weather(input: &Input, from: &DaysFrom, project: &Project) -> Result<Option<Reading>> {
    let named = project.work.as_ref().and_then(|work| work.weather.as_ref());
    let beside = || input.file.parent().unwrap_or(Path::new(""));
    let path = match (&from.weather, named) {
        (Some(path), _) => path.clone(),
        (None, Some(name)) => {
            let path = beside().join(name.as_str());
            if !path.exists() {
                say(&format!(
                    "hodful: there is no '{}', which the project names for its weather; the days are told \
                     without it (--weather gives another)",
                    shown(&path)
                ));
                return Ok(None);
            }
            path
        }
        (None, None) => return Ok(None),
    };
    let name = shown(&path);
    let bytes = std::fs::read(&path).with_context(|| format!("'{name}' cannot be read"))?;
    let reading = hodful_weather::read(&bytes, &format!("'{name}'"))?;
    for note in &reading.notes {
        say(&format!("{name}: {note}"));
    }
    Ok(Some(reading))
}
