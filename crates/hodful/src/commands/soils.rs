//! Soils, the marks of a jar, and blends. Not here: tables (see `show`).

use super::{Answer, End, print, there_is, units, with_answer, with_figures};
use crate::args::{Format, Input, Output};
use crate::show;
use anyhow::{Result, bail};
use hodful_exchange as exchange;
use hodful_exchange::{BlendsReport, ImpossibleRow, MissRow, ReachRow};
use hodful_quantities::Typed;
use hodful_quantities::units::{Celsius, Length, Mass, Time, hour, kilogram, minute};
use hodful_soils::blend::Impossible;
use hodful_soils::jar;
use hodful_soils::settling::Settling;
use hodful_soils::sizes::System;
use hodful_takeoff::blend::Blended;
use hodful_takeoff::project::Name;

/// Prints what is known of the soils of a project.
pub(super) fn soils(input: &Input, format: Format) -> Result<End> {
    with_figures(input, |assessed| {
        let report = exchange::soils(assessed, show::hand);
        Ok(match format {
            Format::Table => show::soils(&report).into_bytes(),
            Format::Json => exchange::json(&report)?,
            Format::Csv => exchange::csv(report.lines())?,
        })
    })
}

/// Hours at which jars are marked by custom: common practice, no source.
fn usual_marks() -> [Time; 4] {
    [
        Time::new::<minute>(1.0),
        Time::new::<hour>(2.0),
        Time::new::<hour>(6.0),
        Time::new::<hour>(24.0),
    ]
}

/// Prints when to mark a jar, and what marks at the usual hours part.
pub(super) fn settle(
    depth: &Typed<Length>,
    temperature: &Typed<Celsius>,
    system: System,
    format: Format,
) -> Result<End> {
    let (water, celsius) = (depth.value(), temperature.value());
    let right = jar::marks(water, celsius, system)?;
    let settling = Settling::of_soil(celsius)?;
    // A mark too soon for the law of settling has no diameter.
    let marks = usual_marks().map(|after| (after, settling.diameter(water, after).ok()));
    let bytes = match format {
        Format::Table => {
            show::settle([depth.text(), temperature.text()], system, right, &marks).into_bytes()
        }
        Format::Json | Format::Csv => {
            let limits = system.limits();
            let hours = [(limits.silt, right.sand), (limits.clay, right.silt)];
            let report = exchange::settle(water, celsius, system.word(), hours, &marks);
            if format == Format::Json {
                exchange::json(&report)?
            } else {
                exchange::csv(report.lines())?
            }
        }
    };
    print(&bytes).map(|()| End::Done)
}

/// Prints the blends of a project, or one of them.
pub(super) fn blend(input: &Input, name: Option<&str>, output: Output) -> Result<End> {
    with_answer(
        input,
        |_| Ok(()),
        |assessed| {
            let blends = &assessed.project.blends;
            let names: Vec<&str> = match name {
                Some(name) if !blends.contains_key(name) => {
                    bail!("there is no blend '{name}'; {}", there_is(blends.keys()))
                }
                Some(name) => vec![name],
                None if blends.is_empty() => bail!(
                    "there is no blend in the project; give one the materials it may be made of, and what is asked of it"
                ),
                None => blends.keys().map(Name::as_str).collect(),
            };
            let found = names.iter().map(|name| (*name, assessed.blend(name)));
            let found: Vec<_> = found.collect();
            let is_had = |blended: &Blended| blended.impossible().is_none();
            let all_had = found
                .iter()
                .all(|(_, blended)| blended.as_ref().is_ok_and(is_had));
            let report = || {
                let rows = found.iter().map(|(name, blended)| match blended {
                    Ok(of) => exchange::blend(name, of, impossible(of)),
                    Err(words) => exchange::blend_fault(name, words),
                });
                BlendsReport::new(&assessed.project.name, rows.collect())
            };
            let bytes = match output.format {
                Format::Table => {
                    let units = units(assessed, output);
                    show::blends(assessed.project, &found, units).into_bytes()
                }
                Format::Json => exchange::json(&report())?,
                Format::Csv => exchange::csv(report().lines())?,
            };
            let end = if all_had { End::Done } else { End::Problems };
            Ok(Answer { bytes, end })
        },
    )
}

/// Why a blend cannot be had, as a report has it.
fn impossible(of: &Blended) -> Option<ImpossibleRow> {
    let Impossible {
        conflict,
        reach,
        nearest,
        all_there_is,
        within_supplies,
    } = of.impossible()?;
    let finite = |value: Option<f64>| value.filter(|value| value.is_finite());
    let kg = |mass: Option<Mass>| mass.map(|mass| mass.get::<kilogram>());
    Some(ImpossibleRow {
        conflict: conflict
            .iter()
            .map(|limit| of.limit(*limit).to_string())
            .collect(),
        reach: reach
            .iter()
            .map(|reach| ReachRow {
                figure: of.words(reach.requirement).to_string(),
                least: finite(reach.least),
                most: finite(reach.most),
            })
            .collect(),
        misses: nearest
            .missing
            .iter()
            .map(|miss| MissRow {
                limit: of.limit(miss.limit).to_string(),
                by: finite(Some(miss.by)),
            })
            .collect(),
        all_there_is_kg: kg(*all_there_is),
        within_supplies_kg: kg(*within_supplies),
    })
}
