//! The card beside the mixer as a document. Not here: counting, and letters.

use crate::show::crew;
use hodful_documents::{
    Block, CardLine, Cell, Column, Document, Facts, Paper, Row, RowKind, Table,
};
use hodful_quantities::print::{self, UnitSystem};
use hodful_takeoff::card::{Card, CoatBatches, Load};

/// The card of one mix: what a full batch takes in large letters, then the batches, the last ones, the
/// cautions.
pub(super) fn document(facts: &Facts<'_>, of: &Card<'_>) -> Document {
    let units = facts.units();
    let makes = print::volume(of.makes, units);
    let mut lines: Vec<CardLine> = of.loads.iter().map(|load| line(load, units)).collect();
    if let Some(water) = &of.water {
        let first = water.to_add - water.held_back;
        lines.push(CardLine {
            what: "water, at once".into(),
            count: match water.first_counted.bucket_quarters {
                Some(quarters) => crew::of_quarters(quarters, "bucket").into(),
                None => crew::water(first, units).into(),
            },
            also: crew::water(first, units).into(),
        });
        lines.push(CardLine {
            what: "water, held back".into(),
            count: crew::water(water.held_back, units).into(),
            also: "add what the mix wants when it has turned".into(),
        });
    }
    let mut blocks = vec![
        Block::Words(format!("One full batch makes {makes}. Into the mixer in this order:").into()),
        Block::Card(lines),
        Block::Heading("Batches".into()),
        Block::Table(batches(&of.coats)),
    ];
    for coat in of.coats.iter().filter(|coat| crew::has_part(coat)) {
        blocks.push(Block::Heading(
            format!(
                "Last batch of {}, {}: {:.0} % of a full one",
                coat.build_up,
                coat.coat.coat,
                coat.last * 100.0
            )
            .into(),
        ));
        blocks.push(Block::Table(last(coat, units)));
    }
    let assessed = facts.assessed;
    let called = |when| assessed.is_none_or(|of| of.calls_for(when));
    let cautions = facts.cautions.iter().filter(|c| called(c.applies));
    blocks.push(Block::Cautions(
        cautions
            .map(|c| format!("{}: {}", c.title, c.brief).into())
            .collect(),
    ));
    Document {
        paper: Paper::BatchCard,
        title: format!("Mix {}", of.mix).into(),
        about: facts.project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units,
    }
}

/// A load as it is read from afar: what is counted first, measure and weight behind it.
fn line(load: &Load<'_>, units: UnitSystem) -> CardLine {
    let mut counts: Vec<String> = [
        load.counted
            .bucket_quarters
            .filter(|_| crew::buckets(load).is_some())
            .map(|quarters| crew::of_quarters(quarters, "bucket")),
        crew::otherwise(load),
        crew::shovels(load).map(|n| format!("{n} shovels")),
    ]
    .into_iter()
    .flatten()
    .collect();
    counts.extend(
        load.quantity
            .loose
            .map(|v| print::volume(v, units).to_string()),
    );
    counts.extend(
        load.quantity
            .mass
            .map(|m| print::mass(m, units).to_string()),
    );
    let mut counts = counts.into_iter();
    CardLine {
        what: load.material.clone(),
        count: counts.next().unwrap_or_else(|| "–".to_owned()).into(),
        also: counts.collect::<Vec<_>>().join(", ").into(),
    }
}

fn words(text: impl Into<String>) -> Cell {
    Cell::Words(text.into().into())
}

fn column(head: &str, width: f64, right: bool) -> Column {
    Column {
        head: head.into(),
        unit: "".into(),
        right,
        width,
    }
}

fn row(cells: Vec<Cell>) -> Row {
    Row {
        cells,
        kind: RowKind::Body,
    }
}

fn batches(coats: &[CoatBatches<'_>]) -> Table {
    let rows = coats.iter().map(|of| {
        let last = if crew::has_part(of) {
            format!("{:.0} % of a full one", of.last * 100.0)
        } else {
            "full".to_owned()
        };
        row(vec![
            words(format!("{}, {}", of.build_up, of.coat.coat)),
            words(of.batches.to_string()),
            words(last),
            words(of.days.map_or_else(|| "–".to_owned(), |n| n.to_string())),
        ])
    });
    Table {
        columns: vec![
            column("Coat", 3.0, false),
            column("Batches", 1.0, true),
            column("The last", 2.0, false),
            column("Days", 1.0, true),
        ],
        rows: rows.collect(),
    }
}

fn last(of: &CoatBatches<'_>, units: UnitSystem) -> Table {
    let loads = of.last_loads.iter().map(|load| line(load, units));
    let water = of.last_water.as_ref().map(|water| CardLine {
        what: "water".into(),
        count: match water.counted.bucket_quarters {
            Some(quarters) => crew::of_quarters(quarters, "bucket").into(),
            None => crew::water(water.to_add, units).into(),
        },
        also: format!(
            "{} in all, {} of it held back",
            crew::water(water.to_add, units),
            crew::water(water.held_back, units)
        )
        .into(),
    });
    let rows = loads.chain(water).map(|line| {
        row(vec![
            Cell::Words(line.what),
            Cell::Words(line.count),
            Cell::Words(line.also),
        ])
    });
    Table {
        columns: vec![
            column("Material", 2.0, false),
            column("Count", 2.0, false),
            column("Also", 3.0, false),
        ],
        rows: rows.collect(),
    }
}
