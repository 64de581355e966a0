//! What is said of the order: who brings what and when, what it comes to beside the simple way, and what is
//! to be known with it. Not here: planning it (see `hodful_takeoff::supply`).

use super::Said;
use crate::State;
use ecow::{EcoString, eco_format};
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::Money;
use hodful_takeoff::Project;
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::BuyingAim;
use hodful_takeoff::supply::{Supply, phase_name};

pub(super) fn said(state: &State, subject: Option<Subject>) -> Vec<Said> {
    let mut said = Vec::new();
    match (state.supply(), state.is_planned()) {
        (None, _) => said.push(Said::words("What to buy from whom is being worked out.")),
        (Some(_), false) => said.push(Said::Bad(
            "This is of before the last change; it is being worked out anew.".into(),
        )),
        (Some(_), true) => {}
    }
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
    let mut phase = None;
    for delivery in &supply.plan.deliveries {
        if phase != Some(delivery.phase) {
            phase = Some(delivery.phase);
            said.push(Said::Gap);
            said.push(Said::Head(when(project, delivery.phase)));
        }
        let from = match supply.supplier(project, delivery) {
            Some(name) => eco_format!("{name}, {}", trips(delivery.trips)),
            None => "fetched oneself".into(),
        };
        let all = delivery.goods.and_then(|goods| goods.plus(delivery.charge));
        said.push(Said::Ends(from, money(all, units)));
        for line in &delivery.lines {
            if let Some((name, package)) = supply.package(project, line.offer) {
                let sign = if chosen == Some(name) { "> " } else { "" };
                let count = print::count(line.count, units);
                said.push(Said::under(format_args!(
                    "{sign}{count} x {} of {name}",
                    package.name
                )));
            }
        }
        if delivery.charge != Money::ZERO {
            said.push(Said::under(format_args!(
                "goods {}, delivery {}",
                money(delivery.goods, units),
                print::money(delivery.charge, units)
            )));
        }
    }
    totals(project, supply, said);
    for name in supply.uncovered(project) {
        said.push(Said::Bad(eco_format!(
            "{name}: no package of it can be counted."
        )));
    }
    let spare = supply.spare(project);
    let spare: Vec<_> = spare
        .into_iter()
        .filter(|(_, of)| {
            let mass = of.mass.is_some_and(|mass| mass.value > 0.0);
            mass || of.loose.is_some_and(|loose| loose.value > 0.0)
        })
        .collect();
    if !spare.is_empty() {
        said.push(Said::Gap);
        said.push(Said::Head("left when all is used".into()));
        for (name, of) in spare {
            said.push(Said::Pair(name.clone(), quantity(&of, units)));
        }
    }
    if !supply.notes.is_empty() {
        said.push(Said::Gap);
        said.extend(supply.notes.iter().cloned().map(Said::Words));
    }
}

/// The price of all of it beside the simple way, and whether there is a better one.
fn totals(project: &Project, supply: &Supply, said: &mut Vec<Said>) {
    let units = project.units;
    let (plan, simple) = (&supply.plan, &supply.simple);
    if plan.deliveries.is_empty() {
        return;
    }
    said.push(Said::Gap);
    said.push(Said::Ends(
        eco_format!("all of it, {}", trips(plan.deliveries_count)),
        money(plan.price, units),
    ));
    said.push(Said::Ends(
        eco_format!("each by itself, {}", trips(simple.deliveries_count)),
        money(simple.price, units),
    ));
    let saved = plan.price.zip(simple.price);
    let saved = saved.and_then(|(plan, simple)| Money::new(simple.amount() - plan.amount()));
    if let Some(saved) = saved.filter(|saved| *saved != Money::ZERO) {
        said.push(Said::Ends("saved".into(), money(Some(saved), units)));
    }
    if plan.price.is_none() {
        said.push(Said::words(format_args!(
            "What has a price comes to {}.",
            print::money(plan.known_price, units)
        )));
    }
    let fewest =
        project.buying.as_ref().and_then(|buying| buying.aim) == Some(BuyingAim::FewestDeliveries);
    said.push(Said::words(match (plan.proven, fewest) {
        (true, false) => "No order costs less, by these packages and charges.",
        (true, true) => "No order takes fewer trips, and of those none costs less.",
        (false, _) => "There may be a better order: not all of them were tried.",
    }));
}

fn when(project: &Project, phase: usize) -> EcoString {
    let name = phase_name(project, phase);
    let of = project
        .buying
        .as_ref()
        .and_then(|buying| buying.phases.get(phase));
    let day = of.and_then(|phase| phase.date.as_ref());
    match (name, day) {
        ("", _) => "all at once".into(),
        (name, Some(day)) => eco_format!("{name}, {}", day.text()),
        (name, None) => name.into(),
    }
}

fn trips(count: u64) -> EcoString {
    match count {
        0 => "no trip".into(),
        1 => "1 trip".into(),
        count => eco_format!("{count} trips"),
    }
}

fn money(of: Option<Money>, units: UnitSystem) -> EcoString {
    of.map_or_else(
        || "no price".into(),
        |of| print::money(of, units).to_string().into(),
    )
}

fn quantity(of: &Quantity, units: UnitSystem) -> EcoString {
    let loose = of.loose.map(|v| print::bulk_volume(v, units).to_string());
    let mass = of.mass.map(|m| print::mass(m, units).to_string());
    let both: Vec<String> = loose.into_iter().chain(mass).collect();
    both.join(", ").into()
}
