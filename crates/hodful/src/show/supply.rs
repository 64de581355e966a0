//! What to buy from whom, as a table and words. Not here: planning it.

use super::paragraph;
use super::table::Table;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::Money;
use hodful_takeoff::Assessed;
use hodful_takeoff::supply::Supply;
use hodful_takeoff::supply::said::when;

/// What to buy from whom; nothing for a project that says neither who sells nor when what is ordered.
pub(super) fn supply(of: &Assessed<'_>, units: UnitSystem) -> String {
    let project = of.project;
    if project.suppliers.is_empty() && project.buying.is_none() {
        return String::new();
    }
    let mut out = "\nWHAT TO BUY FROM WHOM\n".to_owned();
    match of.supply() {
        Err(words) => {
            let words = format!("It cannot be planned: {words}.");
            out.push_str(&paragraph("", &words));
        }
        Ok(supply) => {
            if !supply.plan.deliveries.is_empty() {
                out.push_str(&paragraph(
                    "",
                    "Order by this list: the packages above are those of each material by itself, to compare.",
                ));
            }
            out.push_str(&deliveries(of, &supply, units));
            for line in supply.said(project, units) {
                out.push_str(&paragraph("", &line));
            }
        }
    }
    out
}

fn deliveries(of: &Assessed<'_>, supply: &Supply, units: UnitSystem) -> String {
    let plan = &supply.plan;
    if plan.deliveries.is_empty() {
        return "Nothing has to be bought.\n".to_owned();
    }
    let money = |of: Money| print::money(of, units).to_string();
    let known = |of: Option<Money>| of.map_or_else(|| "–".to_owned(), money);
    let mut table = Table::new(
        &[0, 1],
        ["Delivery", "Packages", "Trips", "Goods", "Charge", "Total"],
    );
    for delivery in &plan.deliveries {
        let packages = supply.packages(of.project, delivery);
        let who = supply.who(of.project, delivery);
        let when = when(of.project, delivery.phase);
        let name = if when.is_empty() {
            who.to_string()
        } else {
            format!("{when}:\n{who}")
        };
        let total = delivery.goods.and_then(|goods| goods.plus(delivery.charge));
        table.row([
            name,
            packages.join("\n"),
            if delivery.supplier.is_some() {
                delivery.trips.to_string()
            } else {
                "–".to_owned()
            },
            known(delivery.goods),
            if delivery.supplier.is_some() {
                money(delivery.charge)
            } else {
                "–".to_owned()
            },
            known(total),
        ]);
    }
    table.totals([
        "All".to_owned(),
        String::new(),
        plan.deliveries_count.to_string(),
        String::new(),
        String::new(),
        known(plan.price),
    ]);
    table.print()
}
