//! One function a command. Not here: tables (see `show`).

use crate::args::{Cli, Command, Format, Input, Output};
use crate::show;
use anyhow::{Context, Result, bail};
use clap::CommandFactory;
use hodful_exchange as exchange;
use hodful_project_file as file;
use hodful_quantities::print::UnitSystem;
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
        Command::New { file, from, .. } => new(file.as_deref(), from.as_deref()),
        Command::Measure { input, output } => with_figures(&input, |assessed| {
            let report = || exchange::measure(assessed);
            match output.format {
                Format::Table => Ok(show::measure(assessed, units(assessed, output)).into_bytes()),
                Format::Json => Ok(exchange::json(&report())?),
                Format::Csv => Ok(exchange::csv(report().lines())?),
            }
        }),
        Command::Order { input, output } => with_figures(&input, |assessed| {
            let report = || exchange::order(assessed);
            match output.format {
                Format::Table => {
                    let cautions = file::cautions();
                    Ok(show::order(assessed, &cautions, units(assessed, output)).into_bytes())
                }
                Format::Json => Ok(exchange::json(&report())?),
                Format::Csv => Ok(exchange::csv(report().lines())?),
            }
        }),
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

/// Reads and assesses a project, prints what `figures` makes of it, and tells the doubts.
fn with_figures(
    input: &Input,
    figures: impl FnOnce(&Assessed<'_>) -> Result<Vec<u8>>,
) -> Result<End> {
    let rules = file::rules();
    let refused = |problems: &[Problem]| {
        say(show::problems(problems).trim_end());
        say(&format!(
            "hodful: {} in '{}'; no figures are given until it is mended",
            show::count(
                problems
                    .iter()
                    .filter(|p| p.severity == Severity::Refused)
                    .count(),
                "thing is refused",
                "things are refused"
            ),
            shown(&input.file)
        ));
        Ok(End::Problems)
    };
    let project = match read(&input.file)? {
        Ok(project) => project,
        Err(problems) => return refused(&problems),
    };
    let assessed = match Assessed::new(&project, &rules) {
        Ok(assessed) => assessed,
        Err(problems) => return refused(&problems),
    };
    print(&figures(&assessed)?)?;
    if !assessed.doubts.is_empty() {
        say(show::problems(&assessed.doubts).trim_end());
    }
    Ok(End::Done)
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

/// The demo project that shows most of what a project can have.
const FIRST_DEMO: &str = "thistlebank-workshop";

fn new(path: Option<&Path>, from: Option<&str>) -> Result<End> {
    let demos: Vec<_> = file::demo_projects().collect();
    let Some(path) = path else {
        bail!("give the file to write")
    };
    let name = from.unwrap_or(FIRST_DEMO);
    let demo = demos.iter().find(|demo| demo.name == name);
    let Some(demo) = demo else {
        let names: Vec<&str> = demos.iter().map(|demo| demo.name).collect();
        bail!(
            "there is no demo project '{}'; there is {}",
            name,
            names.join(", ")
        );
    };
    let mut created = std::fs::OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(path)
        .with_context(|| {
            let why = if path.exists() {
                "is there already and is left alone"
            } else {
                "cannot be written"
            };
            format!("'{}' {why}", shown(path))
        })?;
    created.write_all(demo.bytes)?;
    created.sync_all()?;
    say(&format!(
        "wrote '{}' from the demo {}; next: hodful order {}",
        shown(path),
        demo.name,
        shown(path)
    ));
    Ok(End::Done)
}
