//! One field over a range. Not here: the figures (see `hodful_takeoff::sweep`), and tables (see `show`).

use super::export::{drawings, free, guard};
use super::names::nearest;
use super::{Answer, End, say, shown, units, with_answer};
use crate::args::{At, Format, SweepOf};
use crate::show;
use anyhow::{Result, anyhow, bail};
use hodful_documents::Picture;
use hodful_exchange as exchange;
use hodful_project_file as file;
use hodful_takeoff::alternative::things;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::compare::{Line, line_of_material};
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::project::{MaterialKind, Name, Spot};
use hodful_takeoff::sweep::{self, Ask, Scale, Sweep};
use hodful_takeoff::{Assessed, Project, drawing};
use std::path::{Path, PathBuf};
use std::sync::Arc;

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
            let mut whole = run(&ask, &asked)?;
            if of.figures.is_empty() {
                whole.curves.retain(changes);
            }
            if let Some(path) = &of.svg {
                draw(&whole, project, path, of.force)?;
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
                    let lines: Vec<Line> = whole
                        .curves
                        .iter()
                        .map(|curve| curve.line.clone())
                        .collect();
                    let round = run(&ask, &lines)?;
                    show::sweep(&project.name, &round, &whole, shown_units).into_bytes()
                }
                Format::Json => exchange::json(&report())?,
                Format::Csv => exchange::csv(report().lines())?,
            };
            Ok(Answer::done(bytes))
        },
    )
}

/// Whether a figure is not the same everywhere.
fn changes(of: &sweep::Curve) -> bool {
    let mut told = of.values.iter().flatten();
    let first = told.next().map(|value| value.to_bits());
    told.any(|value| Some(value.to_bits()) != first)
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
    let is_meant = |row: &&form::Row| row.key == of.field || row.label == of.field;
    let Some(row) = rows.iter().find(is_meant) else {
        let numbers = rows.iter();
        let numbers = numbers.filter(|row| Scale::of(&row.kind, row.text.as_deref()).is_some());
        let keys: Vec<Name> = numbers.map(|row| row.key.clone()).collect();
        bail!(
            "{} has no field '{}'; {}",
            form::title(project, first),
            of.field,
            nearest(&of.field, keys.iter())
        );
    };
    let worded = |why: Name| anyhow!("{why}");
    let usual = match (&of.at.coat, &of.at.build_up) {
        (Some(coat), None) => Ask::coat(project, coat, &row.key),
        _ => Ask::usual(project, first, &row.key),
    };
    let usual = usual.map_err(worded)?;
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
        points: of.points.unwrap_or(usual.points),
        ..usual
    })
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
        let coats = project.build_ups.values().flatten().map(|coat| &coat.coat);
        let coats: Vec<Name> = coats.cloned().collect();
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
