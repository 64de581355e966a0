//! What to buy from whom, as a table and words. Not here: planning it.

use super::crew::plural;
use super::paragraph;
use super::table::Table;
use hodful_quantities::Typed;
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::Money;
use hodful_takeoff::Assessed;
use hodful_takeoff::project::BuyingAim;
use hodful_takeoff::supply::{Supply, phase_name};

/// Who brings what one fetches oneself.
pub(crate) const ONESELF: &str = "fetched oneself";

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
            for line in lines(of, &supply, units) {
                out.push_str(&paragraph("", &line));
            }
            for note in &supply.notes {
                out.push_str(&paragraph("- ", note));
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
        let packages = delivery.lines.iter().filter_map(|line| {
            let (material, package) = supply.package(of.project, line.offer)?;
            let (n, holds) = (line.count, package.holds.text());
            Some(format!("{n} × {} ({holds}) of {material}", package.name))
        });
        let packages: Vec<String> = packages.collect();
        let who = supply.supplier(of.project, delivery);
        let who = who.map_or(ONESELF, |name| name.as_str());
        let when = when(of, delivery.phase);
        let name = if when.is_empty() {
            who.to_owned()
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

/// `body coats, 2026-05-04`; nothing when all is ordered at once.
pub(crate) fn when(of: &Assessed<'_>, phase: usize) -> String {
    let name = phase_name(of.project, phase);
    let buying = of.project.buying.as_ref();
    let phase = buying.and_then(|buying| buying.phases.get(phase));
    match phase.and_then(|phase| phase.date.as_ref()) {
        Some(date) => format!("{name}, {}", date.text()),
        None => name.to_owned(),
    }
}

/// What is said under the deliveries: the price beside the simple way, whether there is better, what is over.
pub(crate) fn lines(of: &Assessed<'_>, supply: &Supply, units: UnitSystem) -> Vec<String> {
    let project = of.project;
    let (plan, simple) = (&supply.plan, &supply.simple);
    let money = |of: Money| print::money(of, units).to_string();
    let trips = |n: u64| plural(n, "trip");
    let mut lines = Vec::new();
    lines.push(match (plan.price, simple.price) {
        (Some(price), Some(each)) => {
            let saved = Money::new(each.amount() - price.amount());
            let saved = saved.filter(|saved| !saved.amount().is_zero());
            let saved = saved.map_or_else(
                || "the same".to_owned(),
                |saved| {
                    let is_more = saved.amount().is_sign_negative();
                    let by = Money::new(saved.amount().abs()).unwrap_or(saved);
                    format!("{} {}", money(by), if is_more { "more" } else { "saved" })
                },
            );
            format!(
                "Together {} in {}; each material by itself {} in {}: {saved}.",
                money(price),
                trips(plan.deliveries_count),
                money(each),
                trips(simple.deliveries_count),
            )
        }
        _ => format!(
            "Something on the list has no price: {} for charges and what is priced, in {}; each material by itself {} in {}.",
            money(plan.known_price),
            trips(plan.deliveries_count),
            money(simple.known_price),
            trips(simple.deliveries_count),
        ),
    });
    let aim = project.buying.as_ref().and_then(|buying| buying.aim);
    let aim = aim.unwrap_or(BuyingAim::LeastCost);
    lines.push(match (plan.proven, aim) {
        (true, BuyingAim::LeastCost) => {
            "Nothing cheaper can be had from these packages: everything was tried.".to_owned()
        }
        (true, BuyingAim::FewestDeliveries) => {
            "Fewer trips cannot be had, nor as few for less: everything was tried.".to_owned()
        }
        (false, _) => "There may be a better list: not everything could be tried.".to_owned(),
    });
    let spare = supply.spare(project);
    let over: Vec<String> = spare
        .iter()
        .filter_map(|(name, spare)| Some(format!("{name} {}", over(spare, units)?)))
        .collect();
    if !over.is_empty() {
        lines.push(format!("Over when all is used: {}.", over.join("; ")));
    }
    let uncovered = supply.uncovered(project);
    if !uncovered.is_empty() {
        let names: Vec<&str> = uncovered.iter().map(|name| name.as_str()).collect();
        lines.push(format!("No package covers: {}.", names.join(", ")));
    }
    lines
}

/// What is over of a material; `None` when nothing is.
fn over(spare: &Quantity, units: UnitSystem) -> Option<String> {
    let loose = spare.loose.filter(|v| v.value > 0.0);
    let mass = spare.mass.filter(|m| m.value > 0.0);
    let loose = loose.map(|v| print::bulk_volume(v, units).to_string());
    let mass = mass.map(|m| print::mass(m, units).to_string());
    match (loose, mass) {
        (Some(loose), Some(mass)) => Some(format!("{loose} ({mass})")),
        (one, other) => one.or(other),
    }
}

/// A price as typed, when there is one.
pub(crate) fn price_of(of: Option<&Typed<Money>>, count: u64) -> Option<Money> {
    of.map(Typed::value).and_then(|each| each.times(count))
}
