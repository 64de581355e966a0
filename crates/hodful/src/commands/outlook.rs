//! Options side by side, one field over a range, what the rest takes. Not here: tables (see `show`).

use super::export::{drawings, free, guard, name_of};
use super::{Answer, End, read, refused, say, shown, there_is, units, with_answer};
use crate::args::{At, Format, Input, Output, SweepOf};
use crate::show;
use anyhow::{Result, anyhow, bail};
use hodful_documents::{Beside, Picture};
use hodful_exchange as exchange;
use hodful_project_file as file;
use hodful_takeoff::alternative::{apply, things};
use hodful_takeoff::bench::Bench;
use hodful_takeoff::compare::Line;
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::project::{MaterialKind, Name, Spot};
use hodful_takeoff::supply::Supply;
use hodful_takeoff::sweep::{self, Ask, Scale, Sweep};
use hodful_takeoff::{Assessed, Problem, Project, drawing};
use std::iter::zip;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The name of the project without any option.
const AS_IT_STANDS: &str = "as it stands";

/// How alike two names must be for the one to be taken for the other (Jaro-Winkler): by trying.
const ALIKE: f64 = 0.7;

/// Which options are compared.
#[derive(Debug, Default)]
pub(super) struct Wanted<'a> {
    /// The one that the others are held against; the project as it stands when not given.
    pub(super) base: Option<&'a str>,
    /// Only these; all of them when there is none.
    pub(super) only: &'a [String],
}

/// Prints the options of a project side by side.
pub(super) fn options(input: &Input, wanted: &Wanted<'_>, output: Output) -> Result<End> {
    with_answer(
        input,
        |_| Ok(()),
        |assessed| {
            if assessed.project.options.is_empty() {
                bail!(
                    "there is no option in the project; add one, or give a second file to hold against it"
                );
            }
            let units = units(assessed, output);
            let table = |of: &Beside<'_>| show::options(of, assessed.project, units);
            let beside = |of: &Beside<'_>| answer(of, output.format, table);
            with_options(assessed, wanted, beside)?
        },
    )
}

/// Prints two projects side by side.
pub(super) fn projects(input: &Input, other: &Path, output: Output) -> Result<End> {
    if [&*input.file, other] == [Path::new("-"); 2] {
        bail!("standard input holds one project; give the other as a file");
    }
    with_answer(
        input,
        |_| Ok(()),
        |first| {
            let not_had = |problems: &[Problem]| {
                let end = refused(problems, other);
                let bytes = Vec::new();
                Ok(Answer { bytes, end })
            };
            let project = match read(other)? {
                Ok(project) => project,
                Err(problems) => return not_had(&problems),
            };
            let second = match Assessed::new(&project, &file::rules()) {
                Ok(second) => second,
                Err(problems) => return not_had(&problems),
            };
            let mut names = [&input.file, other].map(name_of);
            if names.first() == names.last() {
                names = [&input.file, other].map(shown);
            }
            let names = names.map(Name::from).to_vec();
            let all = [first, &second];
            let units = units(first, output);
            let table = |of: &Beside<'_>| show::projects(of, units);
            with_beside(&all, names, Vec::new(), |of| {
                answer(of, output.format, table)
            })
        },
    )
}

/// What is compared in one of the formats.
fn answer(
    of: &Beside<'_>,
    format: Format,
    table: impl FnOnce(&Beside<'_>) -> String,
) -> Result<Answer> {
    for (name, problems) in &of.refused {
        say(show::problems(problems).trim_end());
        say(&format!(
            "hodful: no figures for '{name}' until that is mended"
        ));
    }
    for (name, problems) in &of.doubts {
        say(&format!("With '{name}':"));
        say(show::problems(problems).trim_end());
    }
    let end = if of.refused.is_empty() {
        End::Done
    } else {
        End::Problems
    };
    let bytes = match format {
        _ if of.all.is_empty() => Vec::new(),
        Format::Table => table(of).into_bytes(),
        Format::Json => exchange::json(&exchange::compare(of))?,
        Format::Csv => exchange::csv(exchange::compare_lines(of))?,
    };
    Ok(Answer { bytes, end })
}

/// Hands a project with its options side by side on. Nothing is in it but what is refused when the base is.
///
/// # Errors
/// When there is no such option.
pub(super) fn with_options<R>(
    assessed: &Assessed<'_>,
    wanted: &Wanted<'_>,
    then: impl FnOnce(&Beside<'_>) -> R,
) -> Result<R> {
    let project = assessed.project;
    let known = |name: &str| {
        if name == AS_IT_STANDS || project.options.contains_key(name) {
            Ok(Name::from(name))
        } else {
            Err(anyhow!(
                "there is no option '{name}'; {}",
                nearest(name, project.options.keys())
            ))
        }
    };
    let base = wanted.base.map_or(Ok(AS_IT_STANDS.into()), known)?;
    let mut names = vec![base.clone()];
    let only = wanted.only.iter().map(|name| known(name));
    let mut others: Vec<Name> = only.collect::<Result<_>>()?;
    if others.is_empty() {
        others.push(AS_IT_STANDS.into());
        others.extend(project.options.keys().cloned());
    }
    for name in others {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let mut refused: Vec<(Name, Vec<Problem>)> = Vec::new();
    let mut made: Vec<(Name, Project)> = Vec::new();
    for name in &names {
        // An option may be called so; then it is meant.
        let is_option = project.options.contains_key(name);
        let applied = if is_option {
            apply(project, name)
        } else {
            Ok(project.clone())
        };
        match applied {
            Ok(changed) => made.push((name.clone(), changed)),
            Err(problems) => refused.push((name.clone(), problems)),
        }
    }
    let rules = file::rules();
    let mut all: Vec<(Name, Assessed<'_>)> = Vec::new();
    for (name, changed) in &made {
        match Assessed::new(changed, &rules) {
            Ok(of) => all.push((name.clone(), of)),
            Err(problems) => refused.push((name.clone(), problems)),
        }
    }
    if refused.iter().any(|(name, _)| *name == base) {
        all.clear();
    }
    let (names, of): (Vec<Name>, Vec<&Assessed<'_>>) =
        all.iter().map(|(name, of)| (name.clone(), of)).unzip();
    Ok(with_beside(&of, names, refused, then))
}

/// Hands assessed projects side by side on, with their deliveries where somebody delivers.
fn with_beside<R>(
    all: &[&Assessed<'_>],
    names: Vec<Name>,
    refused: Vec<(Name, Vec<Problem>)>,
    then: impl FnOnce(&Beside<'_>) -> R,
) -> R {
    let mut not_planned = Vec::new();
    let mut supplies: Vec<Option<Supply>> = Vec::new();
    for (name, of) in zip(&names, all) {
        let plan = (!of.project.suppliers.is_empty()).then(|| of.supply());
        supplies.push(match plan {
            Some(Ok(supply)) => Some(supply),
            Some(Err(why)) => {
                not_planned.push((name.clone(), why.to_string()));
                None
            }
            None => None,
        });
    }
    let known = all.first().map_or(&[][..], |base| &base.doubts);
    let doubts = zip(&names, all).skip(1).map(|(name, of)| {
        let own = of.doubts.iter().filter(|one| !known.contains(one));
        (name.clone(), own.cloned().collect::<Vec<_>>())
    });
    let doubts = doubts.filter(|(_, own)| !own.is_empty()).collect();
    let ones = zip(all, &supplies).map(|(of, supply)| of.one(supply.as_ref()));
    let ones: Vec<_> = ones.collect();
    then(&Beside {
        all: zip(names, ones).collect(),
        refused,
        doubts,
        not_planned,
    })
}

/// The name that was meant, or those that there are.
pub(super) fn nearest<'p>(name: &str, names: impl Iterator<Item = &'p Name> + Clone) -> String {
    let alike = names.clone().map(|of| (strsim::jaro_winkler(name, of), of));
    let near = alike.filter(|(alike, _)| *alike > ALIKE);
    match near.max_by(|(a, _), (b, _)| a.total_cmp(b)) {
        Some((_, near)) => format!("did you mean '{near}'?"),
        None => there_is(names),
    }
}

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
            let asked = lines(project, &of.figures)?;
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
fn lines(project: &Project, asked: &[String]) -> Result<Vec<Line>> {
    let material = |name: &Name, kind: MaterialKind| {
        if kind.is_mineral() {
            Line::Loose(name.clone())
        } else {
            Line::Mass(name.clone())
        }
    };
    if asked.is_empty() {
        let materials = project.materials.iter();
        let materials = materials.filter(|(_, of)| of.kind != MaterialKind::Water);
        let first = [Line::AllMixed, Line::Batches, Line::Cost];
        let materials = materials.map(|(name, of)| material(name, of.kind));
        return Ok(first.into_iter().chain(materials).collect());
    }
    let line = |word: &String| match (
        word.as_str(),
        project.materials.get_key_value(word.as_str()),
    ) {
        (_, Some((name, of))) => Ok(material(name, of.kind)),
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
        key: usual.key,
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
