//! Options or projects side by side. Not here: what they come to (see `hodful_takeoff::compare`), and tables (see
//! `show`).

use super::export::name_of;
use super::names::nearest;
use super::{Answer, End, read, refused, say, shown, units, with_answer};
use crate::args::{Format, Input, Output};
use crate::show;
use anyhow::{Result, anyhow, bail};
use hodful_documents::Beside;
use hodful_exchange as exchange;
use hodful_project_file as file;
use hodful_takeoff::alternative::{apply, as_it_stands};
use hodful_takeoff::project::Name;
use hodful_takeoff::supply::Supply;
use hodful_takeoff::{Assessed, Problem, Project};
use std::iter::zip;
use std::path::Path;

/// Which options are compared.
#[derive(Debug, Clone, Copy, Default)]
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
    two_inputs(input, other)?;
    with_answer(
        input,
        |_| Ok(()),
        |first| {
            let units = units(first, output);
            let table = |of: &Beside<'_>| show::projects(of, units);
            with_second(input, other, |second| {
                let held = Held::Project(second);
                held.with(first, |of| answer(of, output.format, table))?
            })
        },
    )
}

/// A second project, to be held against the first.
#[derive(Debug, Clone, Copy)]
pub(super) struct Second<'a> {
    /// Its figures.
    of: &'a Assessed<'a>,
    /// The file of the first, and its own.
    paths: [&'a Path; 2],
}

/// Sees to it that two projects do not both come by standard input.
///
/// # Errors
/// When they do.
pub(super) fn two_inputs(input: &Input, other: &Path) -> Result<()> {
    if [&*input.file, other] == [Path::new("-"); 2] {
        bail!("standard input holds one project; give the other as a file");
    }
    Ok(())
}

/// Hands a second project on; when it is refused, that is told in place of an answer.
///
/// # Errors
/// When it cannot be read.
pub(super) fn with_second(
    input: &Input,
    other: &Path,
    then: impl FnOnce(Second<'_>) -> Result<Answer>,
) -> Result<Answer> {
    let not_had = |problems: &[Problem]| {
        let end = refused(problems, other);
        let bytes = Vec::new();
        Ok(Answer { bytes, end })
    };
    let project = match read(other)? {
        Ok(project) => project,
        Err(problems) => return not_had(&problems),
    };
    let rules = file::rules();
    let of = match Assessed::new(&project, &rules) {
        Ok(of) => of,
        Err(problems) => return not_had(&problems),
    };
    then(Second {
        of: &of,
        paths: [&input.file, other],
    })
}

/// What a project is compared with.
#[derive(Debug, Clone, Copy)]
pub(super) enum Held<'a> {
    /// Its options.
    Options(Wanted<'a>),
    /// Another project.
    Project(Second<'a>),
}

impl Held<'_> {
    /// Hands what is compared on.
    ///
    /// # Errors
    /// When there is no such option.
    pub(super) fn with<R>(
        &self,
        first: &Assessed<'_>,
        then: impl FnOnce(&Beside<'_>) -> R,
    ) -> Result<R> {
        match self {
            Self::Options(wanted) => with_options(first, wanted, then),
            Self::Project(second) => {
                let mut names = second.paths.map(name_of);
                if names.first() == names.last() {
                    names = second.paths.map(shown);
                }
                let names = names.map(Name::from).to_vec();
                Ok(with_beside(&[first, second.of], names, Vec::new(), then))
            }
        }
    }
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
fn with_options<R>(
    assessed: &Assessed<'_>,
    wanted: &Wanted<'_>,
    then: impl FnOnce(&Beside<'_>) -> R,
) -> Result<R> {
    let project = assessed.project;
    let as_it_stands = as_it_stands(project);
    let known = |name: &str| {
        if name == as_it_stands || project.options.contains_key(name) {
            Ok(Name::from(name))
        } else {
            Err(anyhow!(
                "there is no option '{name}'; {}",
                nearest(name, project.options.keys())
            ))
        }
    };
    let base = wanted
        .base
        .map_or_else(|| Ok(as_it_stands.clone()), known)?;
    let mut names = vec![base.clone()];
    let only = wanted.only.iter().map(|name| known(name));
    let mut others: Vec<Name> = only.collect::<Result<_>>()?;
    if others.is_empty() {
        others.push(as_it_stands.clone());
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
        let applied = if *name == as_it_stands {
            Ok(project.clone())
        } else {
            apply(project, name)
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
