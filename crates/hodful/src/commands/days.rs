//! `hodful plan`: the days on site. Not here: planning them, and their table.

use super::export::{drawings, free, guard};
use super::{Answer, End, say, shown, units, with_answer};
use crate::args::{Format, PlanOf};
use crate::show;
use anyhow::{Context, Result, anyhow, bail};
use hodful_documents::Picture;
use hodful_exchange as exchange;
use hodful_exchange::weather::Reading;
use hodful_project_file as file;
use hodful_takeoff::days::Days;
use hodful_takeoff::{Project, drawing};
use std::ffi::OsStr;
use std::path::Path;

/// Prints the days, and writes a calendar or a drawing of them.
pub(super) fn plan(of: &PlanOf) -> Result<End> {
    if let Some(path) = &of.to {
        ending(path)?;
        guard(&of.input.file, path)?;
    }
    with_answer(
        &of.input,
        |_| Ok(()),
        |assessed| {
            let project = assessed.project;
            let reading = weather(of, project)?;
            let weather = reading.as_ref().map(|reading| &reading.weather);
            let begins = of.begins.as_ref().map(|day| day.value().date());
            let days = assessed
                .days(weather, begins)
                .map_err(|why| anyhow!("{why}"))?;
            if let Some(path) = &of.to {
                write(project, &days, path, of.force)?;
            }
            let report = || exchange::days(project, &days);
            let bytes = match of.output.format {
                Format::Table => {
                    show::days(project, &days, units(assessed, of.output)).into_bytes()
                }
                Format::Json => exchange::json(&report())?,
                Format::Csv => exchange::csv(report().lines())?,
            };
            Ok(Answer::done(bytes))
        },
    )
}

/// The weather that is asked for, or that of the project, which lies beside it. A file that the project names and
/// that is not there is told, and the days are planned without.
///
/// # Errors
/// When there is no such file, or it cannot be read, with line and column.
fn weather(of: &PlanOf, project: &Project) -> Result<Option<Reading>> {
    let named = project.work.as_ref().and_then(|work| work.weather.as_ref());
    let beside = || of.input.file.parent().unwrap_or(Path::new(""));
    let path = match (&of.weather, named) {
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
    let reading = exchange::weather::read(&bytes, &format!("'{name}'"))?;
    for note in &reading.notes {
        say(&format!("{name}: {note}"));
    }
    Ok(Some(reading))
}

/// The ending of a path, when something can be written with it.
fn ending(path: &Path) -> Result<&'static str> {
    let ending = path.extension().map(OsStr::to_ascii_lowercase);
    let known = ["ics", "svg"].into_iter();
    let mut known = known.filter(|known| ending.as_deref() == Some(OsStr::new(known)));
    match known.next() {
        Some(known) => Ok(known),
        None => bail!("'{}' has to end in .ics or .svg", shown(path)),
    }
}

fn write(project: &Project, days: &Days, to: &Path, force: bool) -> Result<()> {
    let files = if ending(to)? == "ics" {
        let text = exchange::days_calendar(days, jiff::Timestamp::now());
        vec![(to.to_owned(), text.into_bytes())]
    } else {
        let picture = Picture {
            drawing: drawing::days(days),
            caption: format!("{}: the days on site", project.name).into(),
            to_scale: false,
            share: 1.0,
        };
        drawings::of_pictures(&[picture], to, project.units)?
    };
    for (path, _) in &files {
        free(path, force)?;
    }
    for (path, bytes) in &files {
        file::save_bytes(path, bytes)?;
        say(&format!("wrote '{}'", shown(path)));
    }
    Ok(())
}
