//! Who brings what, when: the planned order as a table and words. Not here: planning it.

use crate::cells::{body, count, figures, group, money, or_unknown, text, total, words};
use crate::{Block, Cell, Facts, Row, Table};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Project;
use hodful_takeoff::card::said::plural;
use hodful_takeoff::supply::Supply;
use hodful_takeoff::supply::said::when;

/// The deliveries of a project that says who sells or when what is ordered, for the order list; none for
/// another, or while something is refused.
pub fn deliveries(facts: &Facts<'_>) -> Vec<Block> {
    let project = facts.project;
    let Some(assessed) = facts.assessed else {
        return Vec::new();
    };
    if project.suppliers.is_empty() && project.buying.is_none() {
        return Vec::new();
    }
    match assessed.supply() {
        Err(why) => vec![Block::Words(eco_format!(
            "What to buy from whom cannot be planned: {why}."
        ))],
        Ok(supply) => {
            let units = facts.units();
            let mut blocks = vec![Block::Table(table(project, &supply, units))];
            let said = supply.said(project, units).into_iter();
            blocks.extend(said.map(Block::Words));
            blocks
        }
    }
}

fn table(project: &Project, supply: &Supply, units: UnitSystem) -> Table {
    let trips = |n: u64| text(plural(n, "trip"));
    let columns = vec![
        words("Material", 2.2),
        figures("Order", "", 0.8),
        words("Package", 2.6),
        figures("Price", "", 1.2),
    ];
    let mut rows: Vec<Row> = Vec::new();
    for delivery in &supply.plan.deliveries {
        let (when, who) = (when(project, delivery.phase), supply.who(project, delivery));
        let name: EcoString = if when.is_empty() {
            who
        } else {
            eco_format!("{when}: {who}")
        };
        rows.push(group(name, columns.len()));
        for line in &delivery.lines {
            let Some((material, package)) = supply.package(project, line.offer) else {
                continue;
            };
            let each = package.price.as_ref().map(Typed::value);
            let price = each.and_then(|each| each.times(line.count));
            rows.push(body(vec![
                text(material.clone()),
                count(line.count, units),
                text(eco_format!("{} ({})", package.name, package.holds.text())),
                or_unknown(price, |price| money(price, units)),
            ]));
        }
        if delivery.supplier.is_some() {
            rows.push(body(vec![
                text("delivery"),
                count(delivery.trips, units),
                trips(delivery.trips),
                money(delivery.charge, units),
            ]));
        }
    }
    let all = supply.plan.deliveries_count;
    rows.push(total(vec![
        text("All"),
        if all > 0 {
            count(all, units)
        } else {
            Cell::Empty
        },
        if all > 0 { trips(all) } else { Cell::Empty },
        or_unknown(supply.plan.price, |price| money(price, units)),
    ]));
    Table { columns, rows }
}
