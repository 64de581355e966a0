//! Published cases: each asks Hodful one number and holds it against the printed answer. Not here:
//! the cases (see `cases/`) and their format.

use crate::places::{files, shown, top};
use crate::{Outcome, trial};
use hodful_quantities::units::{Angle, Area, Length, Mass, MassDensity, Ratio, Volume};
use hodful_quantities::{Measure, Typed};
use hodful_takeoff::figure::{Dimension, Figure};
use hodful_takeoff::problem::Problem;
use hodful_takeoff::{Assessed, Project};
use hodful_tests::case::{Answer, Ask, Case, Group, Inputs, Measured, Question, SegmentFigure};
use hodful_tests::unit::Unit;
use libtest_mimic::Trial;
use std::collections::HashMap;
use std::fs;
use std::sync::Arc;

pub(crate) fn trials(trials: &mut Vec<Trial>) {
    let files = match files(&top().join("tests/cases"), "json") {
        Ok(files) if !files.is_empty() => files,
        other => {
            trials.push(trial("cases::there_are_some", move || {
                Err(format!("{other:?}").into())
            }));
            return;
        }
    };
    let mut seen: HashMap<String, String> = HashMap::new();
    for path in files {
        let name = path
            .file_stem()
            .map(|s| s.to_string_lossy().into_owned())
            .unwrap_or_default();
        let read = fs::read(&path)
            .map_err(|e| e.to_string())
            .and_then(|bytes| Group::read(&bytes).map_err(|e| e.to_string()));
        let group = match read {
            Ok(group) => Arc::new(group),
            Err(why) => {
                let why = format!("{}: {why}", shown(&path));
                trials.push(trial(format!("cases::{name}"), move || Err(why.into())));
                continue;
            }
        };
        for at in 0..group.cases.len() {
            let Some(id) = group.cases.get(at).map(|case| case.id.clone()) else {
                continue;
            };
            let twice = seen.insert(id.clone(), name.clone());
            let group = Arc::clone(&group);
            trials.push(trial(format!("cases::{name}::{id}"), move || match twice {
                Some(other) => Err(format!("the id stands in {other} as well").into()),
                None => group.cases.get(at).map_or(Ok(()), |case| run(&group, case)),
            }));
        }
    }
}

fn run(group: &Group, case: &Case) -> Outcome {
    let (came_out, seen) = match &case.ask {
        Ask::Number {
            question,
            answer,
            unit,
        } => {
            let value = match question {
                Question::Figure { project, figure } => {
                    in_unit(figure_of(group, project, figure)?, *unit)?
                }
                Question::Read { text, measure } => in_unit(read(text, *measure)?, *unit)?,
                Question::Segment {
                    project,
                    inputs,
                    of,
                } => segment(group, project, *inputs, *of, *unit)?,
            };
            let printed = match *answer {
                Answer::Near {
                    expected,
                    tolerance,
                } => format!("{expected} {tolerance:?}"),
                Answer::Between { low, high } => format!("{low} to {high}"),
            };
            (
                answer.agrees(value),
                format!("{value} against {printed} {}", unit.word()),
            )
        }
        Ask::Doubt {
            project: name,
            says,
        } => {
            let project = project(group, name)?;
            let doubts = told(&assessed(&project)?.doubts);
            (
                doubts.contains(says.as_str()),
                format!("doubts [{doubts}] against '{says}'"),
            )
        }
    };
    if came_out == case.reproduce {
        return Ok(());
    }
    let must = if case.reproduce {
        "must come out"
    } else {
        "must not come out"
    };
    Err(format!(
        "{}\n  source: {} ({})\n  {seen}: {must}",
        case.title, case.source, case.how_read
    )
    .into())
}

fn in_unit(figure: Figure, unit: Unit) -> Result<f64, String> {
    let counts = |d| {
        if d == Dimension::Count {
            Dimension::Number
        } else {
            d
        }
    };
    if counts(figure.dimension) == unit.dimension() {
        Ok(figure.value / unit.in_base())
    } else {
        Err(format!(
            "the figure is a {:?}, and {} is not",
            figure.dimension,
            unit.word()
        ))
    }
}

fn told(problems: &[Problem]) -> String {
    problems
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join("; ")
}

fn project(group: &Group, name: &str) -> Result<Project, String> {
    let file = group.projects.get(name).ok_or("no such project")?;
    hodful_project_file::read(file.get().as_bytes()).map_err(|problems| told(&problems))
}

fn assessed(project: &Project) -> Result<Assessed<'_>, String> {
    Assessed::new(project, &hodful_project_file::rules()).map_err(|problems| told(&problems))
}

fn figure_of(group: &Group, name: &str, path: &str) -> Result<Figure, String> {
    let project = project(group, name)?;
    let node = assessed(&project)?
        .explain(path)
        .map_err(|fault| fault.to_string())?;
    Ok(node.figure)
}

fn read(text: &str, measure: Measured) -> Result<Figure, String> {
    fn value<T: Measure>(
        text: &str,
        dimension: Dimension,
        base: fn(T) -> f64,
    ) -> Result<Figure, String> {
        let typed = Typed::<T>::read(text).map_err(|misread| misread.to_string())?;
        Ok(Figure {
            value: base(typed.value()),
            dimension,
        })
    }
    match measure {
        Measured::Length => value(text, Dimension::Length, |v: Length| v.value),
        Measured::Area => value(text, Dimension::Area, |v: Area| v.value),
        Measured::Volume => value(text, Dimension::Volume, |v: Volume| v.value),
        Measured::Mass => value(text, Dimension::Mass, |v: Mass| v.value),
        Measured::Density => value(text, Dimension::Density, |v: MassDensity| v.value),
        Measured::Angle => value(text, Dimension::Angle, |v: Angle| v.value),
        Measured::Ratio => value(text, Dimension::Number, |v: Ratio| v.value),
    }
}

/// A figure of a segment from its area `A` and arc `l` as Hodful measures them.
///
/// From `A = l·r/2 − c·(r − h)/2` follows `r = (2A − c·h)/(l − c)`. Source: International Correspondence
/// Schools, *The Building Trades Pocketbook*, mensuration.
fn segment(
    group: &Group,
    project: &str,
    Inputs { span, rise }: Inputs,
    of: SegmentFigure,
    unit: Unit,
) -> Result<f64, String> {
    let one = unit.in_base();
    let area = figure_of(group, project, "walls.W.inside.openings")?.value / (one * one);
    let arc = figure_of(group, project, "walls.W.inside.edge_length")?.value / one;
    match of {
        SegmentFigure::Radius => Ok((2.0 * area - span * rise) / (arc - span)),
    }
}
