//! How sure an order is. Not here: drawing the figures (see `hodful_takeoff::chances`), and tables (see `show`).

use super::names::nearest;
use super::{Answer, End, units, with_answer};
use crate::args::{ChancesOf, Format};
use crate::show;
use anyhow::{Result, anyhow, bail};
use hodful_exchange as exchange;
use hodful_takeoff::chances::{Chances, USUAL_DRAWS, USUAL_SEED};
use hodful_takeoff::compare::Line;
use hodful_takeoff::project::Name;
use hodful_takeoff::{Assessed, Project};

/// Prints how sure the figures of a project are.
pub(super) fn chances(of: &ChancesOf) -> Result<End> {
    with_answer(
        &of.input,
        |_| Ok(()),
        |assessed| {
            let project = assessed.project;
            let asked = asked(project, &of.only)?;
            let (draws, seed) = (of.draws, of.seed);
            let (draws, seed) = (draws.unwrap_or(USUAL_DRAWS), seed.unwrap_or(USUAL_SEED));
            let one = assessed.one(None);
            let drawn = Chances::draw(&one, draws, seed);
            let mut drawn = drawn.map_err(|why| anyhow!("{why}"))?;
            for (word, is_asked) in &asked {
                let is_drawn = drawn.figures.iter().any(|figure| is_asked(&figure.line));
                let is_untold = drawn.untold.iter().any(|(line, _)| is_asked(line));
                if is_untold && !is_drawn {
                    bail!("'{word}' cannot be told: some draws have no value of it");
                }
                if !is_drawn {
                    bail!(
                        "nothing is drawn of '{word}': no coat takes it, or it is water, which nobody orders"
                    );
                }
            }
            drawn.accepted = of.short.unwrap_or(drawn.accepted);
            for (material, amount) in &of.order {
                let asked = drawn.ask(&one, material, amount);
                asked.map_err(|why| anyhow!("{why}"))?;
            }
            if !asked.is_empty() {
                drawn.keep(|line| asked.iter().any(|(_, is_asked)| is_asked(line)));
            }
            let bytes = match of.output.format {
                Format::Table => {
                    show::chances(project, &drawn, units(assessed, of.output)).into_bytes()
                }
                Format::Json => exchange::json(&exchange::chances(project, &drawn))?,
                Format::Csv => exchange::csv(exchange::chances_lines(&drawn))?,
            };
            Ok(Answer::done(bytes))
        },
    )
}

/// The chances of a project where nobody says how many draws and from which seed.
pub(super) fn usual(of: &Assessed<'_>) -> Result<Chances, Name> {
    Chances::draw(&of.one(None), USUAL_DRAWS, USUAL_SEED)
}

/// Whether the project says itself how far something may be off.
pub(super) fn is_said(of: &Assessed<'_>) -> bool {
    !of.project.uncertain.is_empty()
}

/// A word that asks for figures, and whether a figure is one of them.
type Asked<'a> = (&'a str, Box<dyn Fn(&Line) -> bool + 'a>);

/// What is asked for; nothing when all is.
///
/// # Errors
/// When there is no such figure.
fn asked<'a>(project: &'a Project, only: &'a [String]) -> Result<Vec<Asked<'a>>> {
    only.iter().map(|word| one(project, word)).collect()
}

fn one<'a>(project: &'a Project, word: &'a str) -> Result<Asked<'a>> {
    let coats = || project.build_ups.values().flatten().map(|coat| &coat.coat);
    let is_asked: Box<dyn Fn(&Line) -> bool> = match word {
        _ if project.materials.contains_key(word) => Box::new(
            move |line| matches!(line, Line::Loose(name) | Line::Mass(name) | Line::Packages(name) if name == word),
        ),
        _ if coats().any(|coat| coat == word) => Box::new(
            move |line| matches!(line, Line::Mixed { coat, .. } | Line::Placed { coat, .. } if coat == word),
        ),
        "batches" => Box::new(|line| *line == Line::Batches),
        "cost" => Box::new(|line| *line == Line::Cost),
        "mixed" => Box::new(|line| matches!(line, Line::AllMixed | Line::Mixed { .. })),
        "placed" => Box::new(|line| matches!(line, Line::AllPlaced | Line::Placed { .. })),
        _ => {
            let others = ["batches", "cost", "mixed", "placed"].map(Name::from);
            let mut names: Vec<&Name> = others.iter().chain(project.materials.keys()).collect();
            for coat in coats() {
                if !names.contains(&coat) {
                    names.push(coat);
                }
            }
            bail!(
                "there is no figure '{word}'; {}",
                nearest(word, names.into_iter())
            );
        }
    };
    Ok((word, is_asked))
}
