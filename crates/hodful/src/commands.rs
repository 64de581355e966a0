//! One function a command. Not here: tables (see `show`).

mod chances;
mod compare;
mod days;
mod export;
mod forecast;
mod names;
mod new;
mod soils;
mod sweep;

use crate::args::{Cli, Command, Format, Input, Output};
use crate::show;
use anyhow::{Context, Result, bail};
use clap::CommandFactory;
use hodful_exchange as exchange;
use hodful_project_file as file;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::card::Card;
use hodful_takeoff::project::{BuyingAim, Name};
use hodful_takeoff::{Assessed, Problem, Project, Severity};
use std::io::{Read, Write};
use std::path::Path;
use std::process::ExitCode;

/// How a command ended, when it could be carried out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum End {
    /// Done.
    Done,
    /// The project has problems.
    Problems,
}

impl End {
    pub(crate) fn code(self) -> ExitCode {
        match self {
            Self::Done => ExitCode::SUCCESS,
            Self::Problems => ExitCode::from(1),
        }
    }
}

/// Words go to standard error; when that is closed there is nobody to tell.
pub(crate) fn say(words: &str) {
    let _ = writeln!(std::io::stderr().lock(), "{words}");
}

/// Figures go to standard output.
fn print(bytes: &[u8]) -> Result<()> {
    let mut out = std::io::stdout().lock();
    out.write_all(bytes)?;
    out.flush()?;
    Ok(())
}

/// Carries a command out.
pub(crate) fn run(command: Command) -> Result<End> {
    match command {
        Command::New { list: true, .. } => print(show::demos().as_bytes()).map(|()| End::Done),
        Command::New {
            file, from, force, ..
        } => new::new(file.as_deref(), from.as_deref(), force),
        Command::Measure { input, output } => with_figures(&input, |assessed| {
            let report = || exchange::measure(assessed);
            match output.format {
                Format::Table => Ok(show::measure(assessed, units(assessed, output)).into_bytes()),
                Format::Json => Ok(exchange::json(&report())?),
                Format::Csv => Ok(exchange::csv(report().lines())?),
            }
        }),
        Command::Order {
            input,
            fewest,
            output,
        } => order(&input, fewest, output),
        Command::Card { input, mix, output } => card(&input, mix.as_deref(), output),
        Command::Soils { input, format } => soils::soils(&input, format),
        Command::Settle {
            depth,
            temperature,
            system,
            format,
        } => soils::settle(&depth, &temperature, system.into(), format),
        Command::Blend {
            input,
            name,
            output,
        } => soils::blend(&input, name.as_deref(), output),
        Command::Compare {
            input,
            other,
            base,
            only,
            output,
        } => {
            if let Some(other) = other {
                return compare::projects(&input, &other, output);
            }
            let base = base.as_deref();
            compare::options(&input, &compare::Wanted { base, only: &only }, output)
        }
        Command::Sweep(of) => sweep::sweep(&of),
        Command::Chances(of) => chances::chances(&of),
        Command::Forecast { input, output } => forecast::forecast(&input, output),
        Command::Plan(of) => days::plan(&of),
        Command::Export(of) => export::export(&of),
        Command::Explain {
            input,
            what,
            depth,
            output,
        } => with_figures(&input, |assessed| {
            let Some(what) = &what else {
                return Ok(show::paths(assessed).into_bytes());
            };
            let node = assessed.explain(what)?;
            let report = || exchange::explain(&assessed.project.name, &node, depth);
            match output.format {
                Format::Table => {
                    Ok(show::explain(&node, depth, units(assessed, output)).into_bytes())
                }
                Format::Json => Ok(exchange::json(&report())?),
                Format::Csv => Ok(exchange::csv(report().lines())?),
            }
        }),
        Command::Check { input, format } => check(&input, format),
        Command::Rules => print(show::rules().as_bytes()).map(|()| End::Done),
        Command::Cautions => {
            print(show::cautions(&file::cautions()).as_bytes()).map(|()| End::Done)
        }
        Command::Completions { shell } => {
            let mut bytes = Vec::new();
            clap_complete::generate(shell, &mut Cli::command(), "hodful", &mut bytes);
            print(&bytes).map(|()| End::Done)
        }
        Command::Manual => {
            let mut bytes = Vec::new();
            let mut cli = Cli::command();
            cli.build();
            clap_mangen::Man::new(cli.clone()).render(&mut bytes)?;
            for command in cli.get_subcommands().filter(|c| c.get_name() != "help") {
                let name = format!("hodful {}", command.get_name());
                let title = format!("hodful-{}", command.get_name());
                let man = clap_mangen::Man::new(command.clone().bin_name(name)).title(title);
                man.render(&mut bytes)?;
            }
            print(&bytes).map(|()| End::Done)
        }
    }
}

fn units(assessed: &Assessed<'_>, output: Output) -> UnitSystem {
    output
        .units
        .map_or(assessed.project.units, UnitSystem::from)
}

/// A file as people write it.
fn shown(path: &Path) -> String {
    path.display().to_string()
}

/// Reads a project, or gives everything that is wrong with it.
fn read(path: &Path) -> Result<Result<Project, Vec<Problem>>> {
    let bytes = if path == Path::new("-") {
        let mut bytes = Vec::new();
        std::io::stdin()
            .lock()
            .read_to_end(&mut bytes)
            .context("standard input cannot be read")?;
        bytes
    } else {
        std::fs::read(path).with_context(|| {
            let file = shown(path);
            let hint = if path.exists() {
                ""
            } else {
                "; `hodful new FILE` writes a project to start from"
            };
            format!("'{file}' cannot be read{hint}")
        })?
    };
    Ok(match file::read_what_can_be(&bytes) {
        (Some(project), problems) if problems.is_empty() => Ok(project),
        (partly, problems) => Err(Assessed::with_problems(
            partly.as_ref(),
            &file::rules(),
            problems,
        )),
    })
}

/// Tells what is refused in a file.
fn refused(problems: &[Problem], path: &Path) -> End {
    say(show::problems(problems).trim_end());
    let refused = problems.iter();
    let refused = refused.filter(|problem| problem.severity == Severity::Refused);
    say(&format!(
        "hodful: {} in '{}'; no figures are given until it is mended",
        show::count(refused.count(), "thing is refused", "things are refused"),
        shown(path)
    ));
    End::Problems
}

/// What a command prints, and how it ends.
struct Answer {
    bytes: Vec<u8>,
    end: End,
}

impl Answer {
    /// Done.
    fn done(bytes: Vec<u8>) -> Self {
        let end = End::Done;
        Self { bytes, end }
    }
}

/// Reads and assesses a project, prints what `figures` makes of it, and tells the doubts.
fn with_figures(
    input: &Input,
    figures: impl FnOnce(&Assessed<'_>) -> Result<Vec<u8>>,
) -> Result<End> {
    with_answer(
        input,
        |_| Ok(()),
        |assessed| figures(assessed).map(Answer::done),
    )
}

/// The same, with the project altered before it is assessed, and for what may end otherwise than done.
fn with_answer(
    input: &Input,
    alter: impl FnOnce(&mut Project) -> Result<()>,
    answer: impl FnOnce(&Assessed<'_>) -> Result<Answer>,
) -> Result<End> {
    let rules = file::rules();
    let refused = |problems: &[Problem]| Ok(refused(problems, &input.file));
    let mut project = match read(&input.file)? {
        Ok(project) => project,
        Err(problems) => return refused(&problems),
    };
    alter(&mut project)?;
    let assessed = match Assessed::new(&project, &rules) {
        Ok(assessed) => assessed,
        Err(problems) => return refused(&problems),
    };
    let Answer { bytes, end } = answer(&assessed)?;
    print(&bytes)?;
    if !assessed.doubts.is_empty() {
        say(show::problems(&assessed.doubts).trim_end());
    }
    Ok(end)
}

fn order(input: &Input, fewest: bool, output: Output) -> Result<End> {
    let alter = |project: &mut Project| {
        if !fewest {
            return Ok(());
        }
        if project.suppliers.is_empty() {
            bail!(
                "nobody delivers in this project, so there are no trips to be few of; add a supplier, and name it at the packages it sells"
            );
        }
        let aim = &mut project.buying.get_or_insert_default().aim;
        *aim = Some(BuyingAim::FewestDeliveries);
        Ok(())
    };
    with_answer(input, alter, |assessed| {
        let report = || exchange::order(assessed);
        let bytes = match output.format {
            Format::Table => {
                let cautions = file::cautions();
                show::order(assessed, &cautions, units(assessed, output)).into_bytes()
            }
            Format::Json => exchange::json(&report())?,
            Format::Csv => order_lines(&report())?,
        };
        Ok(Answer::done(bytes))
    })
}

/// The list to be ordered: that of the plan where there is one.
fn order_lines(report: &exchange::OrderReport) -> Result<Vec<u8>> {
    let not_planned = report
        .supply
        .as_ref()
        .and_then(|of| of.not_planned.as_ref());
    if let Some(words) = not_planned {
        say(&format!(
            "hodful: what to buy from whom cannot be planned: {words}; the lines are those of each material by itself"
        ));
    }
    if let Some(words) = report.beside_records {
        say(&format!("hodful: {words}"));
    }
    Ok(match report.planned_lines() {
        Some(lines) => exchange::csv(lines)?,
        None => exchange::csv(report.lines())?,
    })
}

fn card(input: &Input, mix: Option<&str>, output: Output) -> Result<End> {
    with_figures(input, |assessed| {
        let cards = cards(assessed, mix)?;
        let report = || exchange::cards(&assessed.project.name, &cards);
        match output.format {
            Format::Table => {
                let cautions = file::cautions();
                let units = units(assessed, output);
                Ok(show::cards(assessed, &cards, &cautions, units).into_bytes())
            }
            Format::Json => Ok(exchange::json(&report())?),
            Format::Csv => Ok(exchange::csv(report().lines())?),
        }
    })
}

/// The cards of a project, or the one of a mix.
///
/// # Errors
/// When there is none.
fn cards<'p>(of: &Assessed<'p>, mix: Option<&str>) -> Result<Vec<Card<'p>>> {
    let mut cards = of.cards();
    if let Some(mix) = mix
        && !of.project.mixes.contains_key(mix)
    {
        bail!(
            "there is no mix '{mix}'; {}",
            there_is(of.project.mixes.keys())
        );
    }
    if of.checked.mixer().is_none() {
        bail!(
            "there is no mixer in the project, so no batch can be counted; give it a mixer with its working_volume"
        );
    }
    if let Some(mix) = mix {
        cards.retain(|card| card.mix == mix);
    }
    match (cards.is_empty(), mix) {
        (false, _) => Ok(cards),
        (true, Some(mix)) => bail!("no coat on a wall is made of mix '{mix}'"),
        (true, None) => bail!("no coat on a wall is made of a mix, so there is no batch"),
    }
}

/// The names that there are, for somebody who gave another.
fn there_is<'p>(names: impl Iterator<Item = &'p Name>) -> String {
    let names: Vec<&str> = names.map(Name::as_str).collect();
    if names.is_empty() {
        "there is none in the project".to_owned()
    } else {
        format!("there is {}", names.join(", "))
    }
}

fn check(input: &Input, format: Format) -> Result<End> {
    let rules = file::rules();
    let read = read(&input.file)?;
    let name = read.as_ref().ok().map(|project| project.name.to_string());
    let shown = name.clone().unwrap_or_else(|| shown(&input.file));
    let problems = match &read {
        Ok(project) => match Assessed::new(project, &rules) {
            Ok(assessed) => assessed.doubts,
            Err(problems) => problems,
        },
        Err(problems) => problems.clone(),
    };
    let report = exchange::problems(name.as_deref(), &problems);
    print(&match format {
        Format::Table => show::check(&shown, &problems).into_bytes(),
        Format::Json => exchange::json(&report)?,
        Format::Csv => exchange::csv(&report.problems)?,
    })?;
    let refused = problems.iter().any(|p| p.severity == Severity::Refused);
    Ok(if refused { End::Problems } else { End::Done })
}
