//! Who brings what, when: the planned order as a table and words. Not here: planning it.

use crate::cells::{body, count, figures, money, or_unknown, text, total, words};
use crate::{Block, Cell, Facts, Table};
use ecow::eco_format;
use hodful_takeoff::supply::said::when;

/// The deliveries of a project that says who sells or when what is ordered; else none.
pub fn deliveries(facts: &Facts<'_>) -> Vec<Block> {
    let Some(assessed) = facts.assessed else {
        return Vec::new();
    };
    let (project, units) = (facts.project, facts.units());
    if project.suppliers.is_empty() && project.buying.is_none() {
        return Vec::new();
    }
    let supply = match assessed.supply() {
        Ok(supply) => supply,
        Err(why) => return vec![Block::Words(eco_format!("It cannot be planned: {why}."))],
    };
    let mut rows: Vec<_> = supply
        .plan
        .deliveries
        .iter()
        .map(|delivery| {
            let (goods, charge) = (delivery.goods, delivery.charge);
            let both = goods.and_then(|goods| goods.plus(charge));
            let comes = delivery.supplier.is_some();
            body(vec![
                text(when(project, delivery.phase)),
                text(supply.who(project, delivery)),
                text(supply.packages(project, delivery).join("; ")),
                if comes {
                    count(delivery.trips, units)
                } else {
                    Cell::Empty
                },
                or_unknown(goods, |of| money(of, units)),
                if comes {
                    money(charge, units)
                } else {
                    Cell::Empty
                },
                or_unknown(both, |of| money(of, units)),
            ])
        })
        .collect();
    rows.push(total(vec![
        text("All"),
        Cell::Empty,
        Cell::Empty,
        count(supply.plan.deliveries_count, units),
        Cell::Empty,
        Cell::Empty,
        or_unknown(supply.plan.price, |of| money(of, units)),
    ]));
    let mut blocks = vec![Block::Table(Table {
        columns: vec![
            words("When", 1.6),
            words("From", 1.8),
            words("What", 4.0),
            figures("Trips", "", 0.6),
            figures("Goods", "", 1.0),
            figures("Charge", "", 1.0),
            figures("Price", "", 1.0),
        ],
        rows,
    })];
    blocks.extend(supply.said(project, units).into_iter().map(Block::Words));
    blocks
}
