//! What to buy from whom, as blocks of the order list. Not here: planning it.

use crate::show::supply::{ONESELF, lines, price_of, when};
use hodful_documents::{Block, Cell, Column, Row, RowKind, Table};
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::Money;
use hodful_takeoff::Assessed;
use hodful_takeoff::supply::Supply;

/// The deliveries of a project that says who sells or when what is ordered; nothing for another.
pub(super) fn blocks(of: &Assessed<'_>) -> Vec<Block> {
    let project = of.project;
    if project.suppliers.is_empty() && project.buying.is_none() {
        return Vec::new();
    }
    match of.supply() {
        Err(words) => vec![Block::Words(
            format!("What to buy from whom cannot be planned: {words}.").into(),
        )],
        Ok(supply) => {
            let mut blocks = vec![Block::Table(table(of, &supply, project.units))];
            let said = lines(of, &supply, project.units).into_iter();
            blocks.extend(said.map(|line| Block::Words(line.into())));
            let notes = supply.notes.iter();
            blocks.extend(notes.map(|note| Block::Words(note.clone())));
            blocks
        }
    }
}

fn table(of: &Assessed<'_>, supply: &Supply, units: UnitSystem) -> Table {
    let mut rows = Vec::new();
    for delivery in &supply.plan.deliveries {
        let who = supply.supplier(of.project, delivery);
        let who = who.map_or(ONESELF, |name| name.as_str());
        let when = when(of, delivery.phase);
        let name = if when.is_empty() {
            who.to_owned()
        } else {
            format!("{when}: {who}")
        };
        rows.push(Row {
            cells: vec![words(name), Cell::Empty, Cell::Empty, Cell::Empty],
            kind: RowKind::Group,
        });
        for line in &delivery.lines {
            let Some((material, package)) = supply.package(of.project, line.offer) else {
                continue;
            };
            let price = price_of(package.price.as_ref(), line.count);
            rows.push(Row {
                cells: vec![
                    words(material.to_string()),
                    count(line.count, units),
                    words(format!("{} ({})", package.name, package.holds.text())),
                    money(price, units),
                ],
                kind: RowKind::Body,
            });
        }
        if delivery.supplier.is_some() {
            rows.push(Row {
                cells: vec![
                    words("delivery"),
                    count(delivery.trips, units),
                    words(if delivery.trips == 1 { "trip" } else { "trips" }),
                    money(Some(delivery.charge), units),
                ],
                kind: RowKind::Body,
            });
        }
    }
    rows.push(Row {
        cells: vec![
            words("All"),
            count(supply.plan.deliveries_count, units),
            words(if supply.plan.deliveries_count == 1 {
                "trip"
            } else {
                "trips"
            }),
            money(supply.plan.price, units),
        ],
        kind: RowKind::Total,
    });
    let column = |head: &str, width, right| Column {
        head: head.into(),
        unit: "".into(),
        right,
        width,
    };
    Table {
        columns: vec![
            column("Material", 2.6, false),
            column("Order", 0.8, true),
            column("Package", 2.6, false),
            column("Price", 1.2, true),
        ],
        rows,
    }
}

fn words(text: impl Into<String>) -> Cell {
    Cell::Words(text.into().into())
}

#[allow(
    clippy::cast_precision_loss,
    reason = "counts stay below 2^53 (see the orders)"
)]
fn count(of: u64, units: UnitSystem) -> Cell {
    Cell::Figure {
        shown: print::count(of, units).digits.into(),
        value: of as f64,
        decimals: 0,
    }
}

fn money(of: Option<Money>, units: UnitSystem) -> Cell {
    let Some(price) = of else {
        return words("–");
    };
    let shown = print::money(price, units).digits;
    let decimals = shown.rsplit_once('.').map_or(0, |(_, part)| part.len());
    Cell::Figure {
        value: price.amount().to_string().parse().unwrap_or(f64::NAN),
        decimals: u8::try_from(decimals).unwrap_or(u8::MAX),
        shown: shown.into(),
    }
}
