//! The card beside the mixer: a document for each mix, in letters that are read from two metres. Not here:
//! counting.

use crate::cells::{body, count, figures, text, unknown, words};
use crate::words::cautions;
use crate::{Block, CardLine, Document, Facts, Paper, Table};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem};
use hodful_takeoff::card::said::{Quarters, Said, poured};
use hodful_takeoff::card::{Card, CoatBatches, Load};

/// The card of each mix: what a full batch takes in the order of loading, in large letters; then the
/// batches of each coat, and what the last, smaller one takes. None without a mixer, or while something
/// is refused.
pub fn batch_cards(facts: &Facts<'_>) -> Vec<Document> {
    let cards = facts.assessed.map(hodful_takeoff::Assessed::cards);
    let cards = cards.unwrap_or_default();
    cards.iter().map(|card| one(facts, card)).collect()
}

fn one(facts: &Facts<'_>, card: &Card<'_>) -> Document {
    let units = facts.units();
    let makes = print::volume(card.makes, units);
    let mut lines: Vec<CardLine> = card.loads.iter().map(|load| line(load, units)).collect();
    if let Some(water) = &card.water {
        let Said { count, measure, .. } = water.said(units, Quarters::Signs);
        lines.push(CardLine {
            what: "water, at once".into(),
            count: joined(&count, &measure),
            also: poured(water.at_once(), units),
        });
        lines.push(CardLine {
            what: "water, held back".into(),
            count: poured(water.held_back, units),
            also: "add what the mix wants when it has turned".into(),
        });
    }
    let mut blocks = vec![
        Block::Words(eco_format!(
            "One full batch makes {makes}. Into the mixer in this order:"
        )),
        Block::Card(lines),
        Block::Heading("Batches".into()),
        Block::Table(batches(&card.coats, units)),
    ];
    for coat in card.coats.iter().filter(|coat| coat.has_part()) {
        blocks.push(Block::Heading(eco_format!(
            "Last batch of {}, {}: {}",
            coat.build_up,
            coat.coat.coat,
            share(coat, units)
        )));
        blocks.push(Block::Table(last(coat, units)));
    }
    blocks.push(cautions(facts));
    Document {
        paper: Paper::BatchCard,
        title: eco_format!("Mix {}", card.mix),
        about: facts.project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units,
    }
}

fn joined(count: &str, measure: &str) -> EcoString {
    eco_format!("{count} {measure}").trim().into()
}

/// A load as it is read from afar: what is counted first, the rest behind it.
fn line(load: &Load<'_>, units: UnitSystem) -> CardLine {
    let said = load.said(units, Quarters::Signs);
    CardLine {
        what: load.material.clone(),
        count: joined(&said.count, &said.measure),
        also: said.also,
    }
}

fn share(coat: &CoatBatches<'_>, units: UnitSystem) -> EcoString {
    let share = print::fixed(coat.last * 100.0, 0, units.grouping());
    eco_format!("{share} % of a full one")
}

fn batches(coats: &[CoatBatches<'_>], units: UnitSystem) -> Table {
    let rows = coats.iter().map(|of| {
        let last = if of.has_part() {
            share(of, units)
        } else {
            "full".into()
        };
        body(vec![
            text(eco_format!("{}, {}", of.build_up, of.coat.coat)),
            count(of.batches, units),
            text(last),
            of.days.map_or_else(unknown, |days| count(days, units)),
        ])
    });
    Table {
        columns: vec![
            words("Coat", 3.0),
            figures("Batches", "", 1.0),
            words("The last", 2.0),
            figures("Days", "", 1.0),
        ],
        rows: rows.collect(),
    }
}

fn last(of: &CoatBatches<'_>, units: UnitSystem) -> Table {
    let loads = of.last_loads.iter().map(|load| line(load, units));
    let water = of.last_water.as_ref().map(|water| {
        let said = water.said(units, Quarters::Signs);
        CardLine {
            what: "water, at once".into(),
            count: joined(&said.count, &said.measure),
            also: said.also,
        }
    });
    let rows = loads
        .chain(water)
        .map(|line| body(vec![text(line.what), text(line.count), text(line.also)]));
    Table {
        columns: vec![
            words("Material", 2.0),
            words("Count", 2.0),
            words("Also", 3.0),
        ],
        rows: rows.collect(),
    }
}
