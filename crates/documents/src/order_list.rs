//! The order list: what to order, in which packages. Not here: choosing the packages, and from whom they
//! come.

use crate::cells::{
    UNKNOWN, body, count, figures, heap, mass, money, or_unknown, tap, text, total, unit_of_heap,
    unit_of_mass, unknown, words,
};
use crate::words::{cautions, doubts, no_figures, without_package};
use crate::{Block, Cell, Document, Facts, Paper, Row, Table};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::read::Amount;
use hodful_takeoff::forecast::said::beside_records;
use hodful_takeoff::project::{Material, MaterialKind};
use hodful_takeoff::{Assessed, MaterialFigures};
use std::iter::zip;

/// The order list: each material with what is needed of it, what is in the yard, the packages to order
/// and their price.
///
/// `deliveries` stand behind the materials, under a heading of their own: who brings what, when. With
/// nothing in them the heading is left out; with a table in them the packages are left to them. While something is refused the list says so and holds no
/// figures.
pub fn order_list(facts: &Facts<'_>, deliveries: Vec<Block>) -> Document {
    let mut blocks = Vec::new();
    match facts.assessed {
        Some(assessed) => {
            // Where it is planned who brings what, the packages stand there and nowhere else: two lists
            // of packages would be ordered twice.
            if deliveries
                .iter()
                .any(|block| matches!(block, Block::Table(_)))
            {
                needs(assessed, facts.units(), &mut blocks);
            } else {
                materials(assessed, facts.units(), &mut blocks);
            }
            let begun = beside_records(assessed.project);
            blocks.extend(begun.map(|words| Block::Words(words.into())));
            if !deliveries.is_empty() {
                blocks.push(Block::Heading("Deliveries".into()));
                blocks.extend(deliveries);
            }
            blocks.extend(doubts(facts));
        }
        None => blocks.extend(no_figures(facts)),
    }
    blocks.push(cautions(facts));
    Document {
        paper: Paper::Order,
        title: "Order list".into(),
        about: facts.project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units: facts.units(),
    }
}

/// The materials that a coat takes; says so when there is none.
fn used<'a>(
    of: &'a Assessed<'_>,
    blocks: &mut Vec<Block>,
) -> Vec<((&'a EcoString, &'a Material), &'a MaterialFigures)> {
    let used: Vec<_> = zip(&of.project.materials, &of.evaluation.materials)
        .filter(|(_, figures)| !figures.uses.is_empty())
        .collect();
    if used.is_empty() {
        blocks.push(Block::Words(
            "Nothing to order: no coat of this project takes any material.".into(),
        ));
    }
    used
}

/// What is needed of each material, what is in the yard and what is still to come, without packages.
fn needs(of: &Assessed<'_>, units: UnitSystem, blocks: &mut Vec<Block>) {
    let used = used(of, blocks);
    if used.is_empty() {
        return;
    }
    let (by_heap, by_mass) = (unit_of_heap(units), unit_of_mass(units));
    let rows = used.into_iter().map(|((name, material), figures)| {
        let stock = material.stock.as_ref().map(Typed::text);
        let is_water = material.kind == MaterialKind::Water;
        let to_buy = Some(&figures.to_buy).filter(|_| !is_water);
        body(vec![
            text(name.clone()),
            or_unknown(figures.delivered.loose, |v| heap(v, units)),
            or_unknown(figures.delivered.mass, |m| mass(m, units)),
            text(
                stock
                    .filter(|text| !text.trim().is_empty())
                    .unwrap_or(UNKNOWN),
            ),
            or_unknown(to_buy.and_then(|need| need.loose), |v| heap(v, units)),
            or_unknown(to_buy.and_then(|need| need.mass), |m| mass(m, units)),
        ])
    });
    let rows = rows.collect();
    blocks.push(Block::Heading("Materials".into()));
    blocks.push(Block::Table(Table {
        columns: vec![
            words("Material", 2.6),
            figures("Loose", by_heap, 1.0),
            figures("Weight", by_mass, 1.2),
            words("In the yard", 1.2),
            figures("To come, loose", by_heap, 1.0),
            figures("To come, weight", by_mass, 1.2),
        ],
        rows,
    }));
    blocks.push(Block::Words(
        "Loose and weight are as delivered: damp and loosely tipped, before the screen. To come is what the \
         yard does not hold; the deliveries say in which packages. Water is what is added at the mixer."
            .into(),
    ));
}

fn materials(of: &Assessed<'_>, units: UnitSystem, blocks: &mut Vec<Block>) {
    let used = used(of, blocks);
    if used.is_empty() {
        return;
    }
    let mut rows: Vec<Row> = used
        .iter()
        .flat_map(|((name, material), figures)| rows_of(name, material, figures, units))
        .collect();
    let priced = |f: &MaterialFigures| f.cover.as_ref().is_some_and(|c| c.price.is_some());
    let any = used.iter().any(|(_, figures)| priced(figures));
    rows.push(total(vec![
        text("All"),
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        if any {
            money(of.evaluation.cost, units)
        } else {
            unknown()
        },
        Cell::Empty,
    ]));
    blocks.push(Block::Heading("Materials".into()));
    blocks.push(Block::Table(Table {
        columns: vec![
            words("Material", 2.6),
            figures("Loose", unit_of_heap(units), 1.0),
            figures("Weight", unit_of_mass(units), 1.2),
            words("In the yard", 1.2),
            figures("Order", "", 0.8),
            words("Package", 2.6),
            figures("Each", "", 1.0),
            figures("Price", "", 1.2),
            figures("Spare", "", 1.2),
        ],
        rows,
    }));
    let missing = without_package(of);
    if !missing.is_empty() {
        blocks.push(Block::Words(eco_format!(
            "No package: {}. Give each what it is sold in, or order it by its weight.",
            missing.join(", ")
        )));
    }
    let unpriced: Vec<&str> = used
        .iter()
        .filter(|((_, m), f)| m.kind != MaterialKind::Water && !priced(f))
        .map(|((name, _), _)| name.as_str())
        .collect();
    if any && !unpriced.is_empty() {
        blocks.push(Block::Words(eco_format!(
            "The price is without {}, which have none.",
            unpriced.join(", ")
        )));
    }
    blocks.push(Block::Words(
        "Loose and weight are as delivered: damp and loosely tipped, before the screen. Spare is what is \
         over when all is used. Water is what is added at the mixer."
            .into(),
    ));
}

/// A row for each kind of package; what is needed, in the yard and over stands in the first, so that a
/// column can be summed.
fn rows_of(
    name: &EcoString,
    material: &Material,
    figures: &MaterialFigures,
    units: UnitSystem,
) -> Vec<Row> {
    let stock = material.stock.as_ref().map(Typed::text);
    let stock = stock.filter(|text| !text.trim().is_empty());
    let first = [
        text(name.clone()),
        or_unknown(figures.delivered.loose, |v| heap(v, units)),
        or_unknown(figures.delivered.mass, |m| mass(m, units)),
        text(stock.unwrap_or(UNKNOWN)),
    ];
    let spare = spare(figures, material, units);
    let bought = figures.cover.iter().flat_map(|cover| &cover.counts);
    let mut packages: Vec<[Cell; 4]> = bought
        .filter_map(|(offer, n)| {
            let package = material.packages.get(*offer)?;
            let each = package.price.as_ref().map(Typed::value);
            let price = each.and_then(|each| each.times(*n));
            Some([
                count(*n, units),
                text(eco_format!("{} ({})", package.name, package.holds.text())),
                or_unknown(each, |each| money(each, units)),
                or_unknown(price, |price| money(price, units)),
            ])
        })
        .collect();
    if packages.is_empty() {
        packages.push([
            Cell::Empty,
            text(instead(material, figures, units)),
            Cell::Empty,
            Cell::Empty,
        ]);
    }
    let mut first = Some((first, spare));
    packages
        .into_iter()
        .map(|package| {
            let (need, spare) = first.take().unwrap_or_default();
            body(need.into_iter().chain(package).chain([spare]).collect())
        })
        .collect()
}

/// Why no package is ordered.
fn instead(material: &Material, figures: &MaterialFigures, units: UnitSystem) -> EcoString {
    if material.kind == MaterialKind::Water {
        return tap(figures.delivered.loose.unwrap_or_default(), units);
    }
    if figures.cover.is_none() {
        return if material.packages.is_empty() {
            "no package is given".into()
        } else {
            "no package can be held against the need".into()
        };
    }
    let needed = figures.dry.mass.is_some_and(|m| m.value > 0.0)
        || figures.dry.loose.is_some_and(|v| v.value > 0.0);
    if needed {
        "enough in the yard".into()
    } else {
        "none needed".into()
    }
}

/// What is over, in the measure of the packages that are bought, with its unit.
fn spare(figures: &MaterialFigures, material: &Material, units: UnitSystem) -> Cell {
    let Some(cover) = &figures.cover else {
        return unknown();
    };
    let bought = cover.counts.first();
    let holds = bought
        .and_then(|(offer, _)| material.packages.get(*offer))
        .map(|package| package.holds.value());
    let loose = figures.spare.loose.map(|v| heap(v, units));
    let loose = loose.map(|cell| with_unit(cell, unit_of_heap(units)));
    let mass = figures.spare.mass.map(|m| mass(m, units));
    let mass = mass.map(|cell| with_unit(cell, unit_of_mass(units)));
    let figure = match holds {
        Some(Amount::Mass(_)) => mass,
        Some(_) => loose,
        None => loose.or(mass),
    };
    figure.unwrap_or_else(unknown)
}

/// A figure with its unit behind its digits, for a column in which units differ.
fn with_unit(cell: Cell, unit: &str) -> Cell {
    match cell {
        Cell::Figure {
            shown,
            value,
            decimals,
        } => Cell::Figure {
            shown: eco_format!("{shown} {unit}"),
            value,
            decimals,
        },
        other => other,
    }
}
