//! What is said of the order: who brings what and when, what it comes to beside the simple way, and what is
//! to be known with it. Not here: planning it (see `hodful_takeoff::supply`).

use super::Said;
use crate::State;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::Money;
use hodful_takeoff::Project;
use hodful_takeoff::card::said::plural;
use hodful_takeoff::forecast::said::beside_records;
use hodful_takeoff::form::Subject;
use hodful_takeoff::supply::Supply;
use hodful_takeoff::supply::said::when;
use std::iter::zip;

pub(super) fn said(state: &State, subject: Option<Subject>) -> Vec<Said> {
    let mut said = Vec::new();
    match (state.supply(), state.is_planned()) {
        (None, _) => said.push(Said::words("What to buy from whom is being worked out.")),
        (Some(_), false) => said.push(Said::Bad(
            "This is of before the last change; it is being worked out anew.".into(),
        )),
        (Some(_), true) => {}
    }
    said.extend(beside_records(state.project()).map(Said::words));
    match state.supply() {
        None => {}
        Some((_, Err(words))) => {
            said.push(Said::Bad(eco_format!("It cannot be planned: {words}.")));
        }
        Some((project, Ok(supply))) => plan(project, supply, subject, &mut said),
    }
    said
}

fn plan(project: &Project, supply: &Supply, subject: Option<Subject>, said: &mut Vec<Said>) {
    let units = project.units;
    let chosen = match subject {
        Some(Subject::Material(at)) => project.materials.get_index(at).map(|(name, _)| name),
        _ => None,
    };
    if supply.plan.deliveries.is_empty() {
        said.push(Said::words(
            "Nothing is to be bought: no coat takes what has a package, or all of it lies in the yard.",
        ));
    }
    let uncovered = supply.uncovered(project);
    if !uncovered.is_empty() {
        let names: Vec<&str> = uncovered.iter().map(|name| name.as_str()).collect();
        said.push(Said::Bad(eco_format!(
            "Not in this order, for no package covers it: {}.",
            names.join(", ")
        )));
    }
    let mut phase = None;
    for delivery in &supply.plan.deliveries {
        if phase != Some(delivery.phase) {
            phase = Some(delivery.phase);
            let when = when(project, delivery.phase);
            said.push(Said::Gap);
            said.push(Said::Head(if when.is_empty() {
                "all at once".into()
            } else {
                when
            }));
        }
        let who = supply.who(project, delivery);
        let from = match delivery.supplier {
            Some(_) => eco_format!("{who}, {}", trips(delivery.trips)),
            None => who,
        };
        let all = delivery.goods.and_then(|goods| goods.plus(delivery.charge));
        said.push(Said::Ends(from, money(all, units)));
        let lines = delivery.lines.iter();
        let materials = lines.filter_map(|line| supply.package(project, line.offer));
        for ((name, _), words) in zip(materials, supply.packages(project, delivery)) {
            let sign = if chosen == Some(name) { "> " } else { "" };
            said.push(Said::under(format_args!("{sign}{words}")));
        }
        if delivery.charge != Money::ZERO {
            said.push(Said::under(format_args!(
                "goods {}, delivery {}",
                money(delivery.goods, units),
                print::money(delivery.charge, units)
            )));
        }
    }
    if supply.plan.deliveries.is_empty() {
        said.extend(supply.notes.iter().cloned().map(Said::Words));
        return;
    }
    said.push(Said::Gap);
    said.push(Said::Ends(
        eco_format!("all of it, {}", trips(supply.plan.deliveries_count)),
        money(supply.plan.price, units),
    ));
    said.push(Said::Gap);
    said.extend(supply.said(project, units).into_iter().map(Said::Words));
}

fn trips(count: u64) -> EcoString {
    eco_format!("{count} {}", plural(count, "trip"))
}

fn money(of: Option<Money>, units: UnitSystem) -> EcoString {
    of.map_or_else(
        || "no price".into(),
        |of| print::money(of, units).to_string().into(),
    )
}
