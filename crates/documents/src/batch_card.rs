//! The card beside the mixer: a page for each mix, in letters that are read from two metres. Not here:
//! counting.

use crate::cells::{body, count, figures, text, unknown, words};
use crate::words::{cautions, no_figures};
use crate::{Block, CardLine, Cell, Document, Facts, Paper, Table};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem};
use hodful_takeoff::card::said::{Quarters, Said};
use hodful_takeoff::card::{Card, CoatBatches, Load, Water};

/// The batch card: what goes into the mixer in the order of loading, how many batches each coat takes,
/// and what the last, smaller one takes. A page for each mix.
pub fn batch_card(facts: &Facts<'_>) -> Document {
    let units = facts.units();
    let mut blocks = Vec::new();
    match facts.assessed {
        Some(assessed) => {
            let cards = assessed.cards();
            if cards.is_empty() {
                blocks.push(Block::Words(
                    "There is nothing to mix: give the project a mixer, and a face with coats."
                        .into(),
                ));
            }
            for (at, card) in cards.iter().enumerate() {
                if at > 0 {
                    blocks.push(Block::NewPage);
                }
                one(card, units, &mut blocks);
            }
        }
        None => blocks.extend(no_figures(facts)),
    }
    blocks.push(cautions(facts));
    Document {
        paper: Paper::BatchCard,
        title: "Batch card".into(),
        about: facts.project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units,
    }
}

fn one(card: &Card<'_>, units: UnitSystem, blocks: &mut Vec<Block>) {
    blocks.push(Block::Heading(eco_format!(
        "{}: one full batch makes {}",
        card.mix,
        print::volume(card.makes, units)
    )));
    let mut lines: Vec<CardLine> = card
        .loads
        .iter()
        .map(|load| line(load.material.clone(), load.said(units, Quarters::Signs)))
        .collect();
    if let Some(water) = &card.water {
        lines.push(line(
            "water at once".into(),
            water.said(units, Quarters::Signs),
        ));
    }
    blocks.push(Block::Card(lines));
    blocks.push(Block::Table(Table {
        columns: vec![
            words("Coat", 2.0),
            figures("Batches", "", 0.8),
            figures("Days", "", 0.7),
            words("The last batch", 4.5),
        ],
        rows: card
            .coats
            .iter()
            .map(|coat| body(batches(coat, units)))
            .collect(),
    }));
}

fn line(what: EcoString, said: Said) -> CardLine {
    CardLine {
        what,
        count: eco_format!("{} {}", said.count, said.measure).trim().into(),
        also: said.also,
    }
}

fn batches(of: &CoatBatches<'_>, units: UnitSystem) -> Vec<Cell> {
    let last = if of.has_part() {
        let share = print::fixed(of.last * 100.0, 0, units.grouping());
        let taken = taken(&of.last_loads, of.last_water.as_ref(), units);
        eco_format!("{share} % of a full one: {taken}")
    } else {
        "full".into()
    };
    vec![
        text(eco_format!("{}, {}", of.build_up, of.coat.coat)),
        count(of.batches, units),
        of.days.map_or_else(unknown, |days| count(days, units)),
        text(last),
    ]
}

fn taken(loads: &[Load<'_>], water: Option<&Water>, units: UnitSystem) -> String {
    let said = |said: Said, of: &str| format!("{} {} {of}", said.count, said.measure);
    let mut each: Vec<String> = loads
        .iter()
        .map(|load| said(load.said(units, Quarters::Signs), load.material))
        .collect();
    each.extend(water.map(|water| said(water.said(units, Quarters::Signs), "water at once")));
    each.join(", ")
}
