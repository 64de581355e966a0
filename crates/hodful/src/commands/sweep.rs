//! One field over a range. Not here: the figures (see `hodful_takeoff::sweep`), and tables (see `show`).

use super::export::{drawings, free, guard};
use super::names::nearest;
use super::{Answer, End, say, shown, units, with_answer};
use crate::args::{At, Format, SweepOf};
use crate::show::{self, changes};
use anyhow::{Result, anyhow, bail};
use hodful_documents::Picture;
use hodful_exchange as exchange;
use hodful_project_file as file;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::alternative::things;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::compare::{Line, line_of_material};
use hodful_takeoff::form::{self, Row, Subject};
use hodful_takeoff::project::{MaterialKind, Name, Spot};
use hodful_takeoff::sweep::{self, Ask, MOST_POINTS, Scale, Sweep};
use hodful_takeoff::{Assessed, Project, drawing};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Stretches of refused values that are told one by one.
const MOST_RUNS: usize = 3;

/// Prints what a field does to the figures over a range.
pub(super) fn sweep(of: &SweepOf) -> Result<End> {
    if let Some(path) = &of.svg {
        let ending = path.extension().map(std::ffi::OsStr::to_ascii_lowercase);
        if ending.is_none_or(|ending| ending != "svg") {
            bail!("'{}' has to end in .svg", shown(path));
        }
        guard(&of.input.file, path)?;
    }
    with_answer(
        &of.input,
        |_| Ok(()),
        |assessed| {
            let project = assessed.project;
            let shown_units = units(assessed, of.output);
            let ask = ask(project, of)?;
            let bench = Bench::new(Arc::new(project.clone()), Arc::new(file::rules()));
            let asked = lines(assessed, &of.figures)?;
            let run = |ask: &Ask, lines: &[Line]| {
                sweep::sweep(&bench, ask, lines).map_err(|why| anyhow!("{why}"))
            };
            let whole = run(&ask, &asked)?;
            if let Some(path) = &of.svg {
                let mut drawn = whole.clone();
                drawn
                    .curves
                    .retain(|curve| !of.figures.is_empty() || changes(&[curve]));
                draw(&drawn, project, path, of.force)?;
            }
            let refused = refused(&bench, &ask, &whole, shown_units);
            if of.output.format != Format::Table {
                for words in &refused {
                    say(&format!("hodful: {words}"));
                }
            }
            let report = || exchange::sweep(&project.name, &whole);
            let bytes = match of.output.format {
                Format::Table => {
                    let (from, to, points) =
                        show::round_values(&whole.scale, ask.from, ask.to, shown_units);
                    let ask = Ask {
                        from,
                        to,
                        points,
                        ..ask
                    };
                    let round = run(&ask, &asked)?;
                    let swept = show::Swept::new(round, whole, refused, of.figures.is_empty());
                    show::sweep(&project.name, &swept, shown_units).into_bytes()
                }
                Format::Json => exchange::json(&report())?,
                Format::Csv => exchange::csv(report().lines())?,
            };
            Ok(Answer::done(bytes))
        },
    )
}

/// Where no figure is told because the values are refused, and why.
fn refused(bench: &Bench, ask: &Ask, of: &Sweep, units: UnitSystem) -> Vec<String> {
    let is_told = |at: usize| {
        of.curves
            .iter()
            .any(|curve| curve.values.get(at).is_some_and(Option::is_some))
    };
    let told: Vec<(f64, bool)> = of
        .xs
        .iter()
        .enumerate()
        .map(|(at, x)| (*x, is_told(at)))
        .collect();
    let runs = told.chunk_by(|(_, a), (_, b)| a == b);
    let runs = runs.filter(|run| run.iter().all(|(_, is_told)| !is_told));
    let words = runs.take(MOST_RUNS).filter_map(|run| {
        let ((first, _), (last, _)) = run.first().zip(run.last())?;
        let why = sweep::why_refused(bench, ask, *first)?;
        let [from, to] = [first, last].map(|x| of.scale.show(*x, units));
        Some(if run.len() == of.xs.len() {
            format!("Every value of this range is refused. At {from}: {why}.")
        } else if from == to {
            format!("At {from} it is refused: {why}.")
        } else {
            format!("From {from} to {to} it is refused. At {from}: {why}.")
        })
    });
    words.collect()
}

/// The figures that are asked for: batches, cost, plaster mixed and every material when none is.
///
/// # Errors
/// When there is no such figure.
fn lines(assessed: &Assessed<'_>, asked: &[String]) -> Result<Vec<Line>> {
    let project = assessed.project;
    let material = |name: &str| line_of_material(project, &assessed.evaluation, name);
    if asked.is_empty() {
        let materials = project.materials.iter();
        let materials = materials.filter(|(_, of)| of.kind != MaterialKind::Water);
        let first = [Line::AllMixed, Line::Batches, Line::Cost];
        let materials = materials.filter_map(|(name, _)| material(name));
        return Ok(first.into_iter().chain(materials).collect());
    }
    let line = |word: &String| match (word.as_str(), material(word)) {
        (_, Some(line)) => Ok(line),
        ("batches", _) => Ok(Line::Batches),
        ("cost", _) => Ok(Line::Cost),
        ("placed", _) => Ok(Line::AllPlaced),
        ("mixed", _) => Ok(Line::AllMixed),
        _ => {
            let others = ["batches", "cost", "placed", "mixed"].map(Name::from);
            let names = others.iter().chain(project.materials.keys());
            Err(anyhow!(
                "there is no figure '{word}'; {}",
                nearest(word, names)
            ))
        }
    };
    asked.iter().map(line).collect()
}

/// Which field of which things goes over which range.
fn ask(project: &Project, of: &SweepOf) -> Result<Ask> {
    let subjects = subjects(project, &of.at)?;
    let first = subjects.first().copied().unwrap_or(Subject::Project);
    let rows = form::rows(project, first);
    let Some(row) = meant(&rows, &of.field, &form::title(project, first))? else {
        let numbers = rows.iter().filter(|row| is_number(row));
        let keys: Vec<Name> = numbers.map(|row| row.key.clone()).collect();
        let of_package = match (&of.at.material, &of.at.package) {
            (Some(_), None) => of_package(project, first, &of.field),
            _ => None,
        };
        bail!(
            "{} has no field '{}'; {}",
            form::title(project, first),
            of.field,
            of_package.unwrap_or_else(|| nearest(&of.field, keys.iter()))
        );
    };
    let worded = |why: Name| anyhow!("{why}");
    let usual = match (&of.at.coat, &of.at.build_up) {
        (Some(coat), None) => Ask::coat(project, coat, &row.key),
        _ => Ask::usual(project, first, &row.key),
    };
    let usual = usual.map_err(worded)?;
    let points = of.points.unwrap_or(usual.points);
    if !(2..=MOST_POINTS).contains(&points) {
        bail!("a range is of 2 to {MOST_POINTS} values, not of {points}: mend --points");
    }
    let value = |text: &Option<String>, or: f64| {
        let Some(text) = text else { return Ok(or) };
        let read = form::understand(&row.kind, text, project.units).map_err(worded)?;
        let scale = Scale::of(&row.kind, row.text.as_deref());
        let value = scale.and_then(|scale| scale.read(&read.stored));
        value.ok_or_else(|| anyhow!("'{text}' is not counted as '{}' is", row.label))
    };
    Ok(Ask {
        subjects,
        from: value(&of.from, usual.from)?,
        to: value(&of.to, usual.to)?,
        points,
        ..usual
    })
}

/// That the field is one of the packages of a material, if it is.
fn of_package(project: &Project, of: Subject, field: &str) -> Option<String> {
    let Subject::Material(material) = of else {
        return None;
    };
    let (_, goods) = project.materials.get_index(material)?;
    let package = Subject::Package {
        material,
        package: 0,
    };
    let rows = form::rows(project, package);
    rows.iter().find(|row| row.key == field)?;
    let names: Vec<&str> = goods.packages.iter().map(|of| of.name.as_str()).collect();
    (!names.is_empty()).then(|| {
        let names = names.join(", ");
        format!("each of its packages has one; name it by --package: there is {names}")
    })
}

fn is_number(row: &Row) -> bool {
    Scale::of(&row.kind, row.text.as_deref()).is_some()
}

/// The field that is meant: that of the key, else the one whose label or whose key has this word at an end.
///
/// # Errors
/// When it may be more than one.
fn meant<'r>(rows: &'r [Row], field: &str, of: &str) -> Result<Option<&'r Row>> {
    if let Some(row) = rows.iter().find(|row| row.key == field) {
        return Ok(Some(row));
    }
    let may_be = |row: &&Row| {
        let mut pieces = row.key.split('.');
        let (first, last) = (pieces.next(), pieces.next_back());
        row.label == field || [first, last].contains(&Some(field))
    };
    let all: Vec<&Row> = rows.iter().filter(may_be).collect();
    let numbers: Vec<&Row> = all.iter().copied().filter(|row| is_number(row)).collect();
    let found = if numbers.is_empty() { all } else { numbers };
    if let [_, _, ..] = found.as_slice() {
        let keys: Vec<String> = found.iter().map(|row| format!("'{}'", row.key)).collect();
        bail!(
            "'{field}' may be more than one field of {of}; say which: {}",
            keys.join(", ")
        );
    }
    Ok(found.first().copied())
}

/// The things that are meant.
///
/// # Errors
/// When none is named, or it is not there: then with the nearest name.
fn subjects(project: &Project, at: &At) -> Result<Vec<Subject>> {
    let name = |of: &Option<String>| of.as_deref().map(Name::from);
    let spot = Spot {
        background: name(&at.background),
        build_up: name(&at.build_up),
        coat: name(&at.coat),
        mix: name(&at.mix),
        material: name(&at.material),
        package: name(&at.package),
        supplier: None,
        wall: name(&at.wall),
        opening: name(&at.opening),
        mixer: at.mixer.then_some(true),
    };
    if spot == Spot::default() {
        bail!(
            "say what the field is of: --coat, --background, --mix, --material, --wall, --opening or --mixer"
        );
    }
    things(project, &spot).map_err(|why| {
        let mut coats: Vec<Name> = Vec::new();
        for coat in project.build_ups.values().flatten() {
            if !coats.contains(&coat.coat) {
                coats.push(coat.coat.clone());
            }
        }
        let walls: Vec<Name> = project.walls.iter().map(|wall| wall.id.clone()).collect();
        let has = |given: &Option<String>, names: &[Name]| {
            let given = given.as_deref()?;
            (!names.iter().any(|name| name == given)).then(|| nearest(given, names.iter()))
        };
        let keys = |names: Vec<&Name>| names.into_iter().cloned().collect::<Vec<_>>();
        let hint = has(&at.build_up, &keys(project.build_ups.keys().collect()))
            .or_else(|| has(&at.coat, &coats))
            .or_else(|| has(&at.background, &keys(project.backgrounds.keys().collect())))
            .or_else(|| has(&at.mix, &keys(project.mixes.keys().collect())))
            .or_else(|| has(&at.material, &keys(project.materials.keys().collect())))
            .or_else(|| has(&at.wall, &walls));
        match hint {
            Some(hint) => anyhow!("{why}; {hint}"),
            None => anyhow!("{why}"),
        }
    })
}

/// Draws each curve to a file.
fn draw(of: &Sweep, project: &Project, to: &Path, force: bool) -> Result<()> {
    let pictures = of.curves.iter().enumerate().map(|(at, curve)| {
        let name = curve.line.label();
        let mut drawing = drawing::curve(of, at, &name, project.units);
        let mut caption = format!("{name} over {} of {}", of.label, of.of);
        for words in drawing.captions.drain(..) {
            caption.push_str("; ");
            caption.push_str(&words);
        }
        Picture {
            drawing,
            caption: caption.into(),
            to_scale: false,
            share: 1.0,
            is_tall: false,
        }
    });
    let pictures: Vec<Picture> = pictures.collect();
    if pictures.is_empty() {
        bail!("there is nothing to draw: no figure changes over the range");
    }
    let files: Vec<(PathBuf, Vec<u8>)> = drawings::of_pictures(&pictures, to, project.units)?;
    for (path, _) in &files {
        free(path, force)?;
    }
    for (path, bytes) in &files {
        file::save_bytes(path, bytes)?;
        say(&format!("wrote '{}'", shown(path)));
    }
    Ok(())
}
