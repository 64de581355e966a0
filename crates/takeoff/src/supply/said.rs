//! A plan of what to buy, in words that stand the same on paper, on the screen and on the command line.
//! Not here: planning it.

use super::{Supply, phase_name};
use crate::card::said::plural;
use crate::project::{BuyingAim, Project};
use ecow::{EcoString, eco_format};
use hodful_purchase::Delivery;
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::Money;
use hodful_quantities::units::Mass;
use std::cmp::Ordering;

/// Who brings what one fetches oneself.
pub const ONESELF: &str = "fetched oneself";

/// When a phase is ordered: `body coats, 2026-05-04`; nothing when all is ordered at once.
pub fn when(project: &Project, phase: usize) -> EcoString {
    let name = phase_name(project, phase);
    let buying = project.buying.as_ref();
    let phase = buying.and_then(|buying| buying.phases.get(phase));
    match phase.and_then(|phase| phase.date.as_ref()) {
        Some(date) => eco_format!("{name}, {}", date.text()),
        None => name.into(),
    }
}

impl Supply {
    /// Who brings a delivery, in words.
    pub fn who(&self, project: &Project, delivery: &Delivery) -> EcoString {
        self.supplier(project, delivery)
            .map_or_else(|| ONESELF.into(), Clone::clone)
    }

    /// What a delivery brings, a line each: `2 × bulk bag (0.8 m3) of sharp sand`.
    pub fn packages(&self, project: &Project, delivery: &Delivery) -> Vec<EcoString> {
        let lines = delivery.lines.iter().filter_map(|line| {
            let (material, package) = self.package(project, line.offer)?;
            let (n, holds) = (line.count, package.holds.text());
            Some(eco_format!(
                "{n} × {} ({holds}) of {material}",
                package.name
            ))
        });
        lines.collect()
    }

    /// The price beside that of each material by itself.
    pub fn price_said(&self, units: UnitSystem) -> EcoString {
        let (plan, simple) = (&self.plan, &self.simple);
        let money = |of: Money| print::money(of, units);
        let trips = |n: u64| eco_format!("{n} {}", plural(n, "trip"));
        let (Some(price), Some(each)) = (plan.price, simple.price) else {
            return eco_format!(
                "Something on the list has no price: {} for charges and what is priced, in {}; each material by itself {} in {}.",
                money(plan.known_price),
                trips(plan.deliveries_count),
                money(simple.known_price),
                trips(simple.deliveries_count),
            );
        };
        let apart = |more: Money, less: Money| {
            let by = Money::new(more.amount() - less.amount()).unwrap_or_default();
            print::money(by, units)
        };
        let against = match price.cmp(&each) {
            Ordering::Less => eco_format!("{} saved", apart(each, price)),
            Ordering::Equal => "the same".into(),
            Ordering::Greater => eco_format!("{} more", apart(price, each)),
        };
        eco_format!(
            "Together {} in {}; each material by itself {} in {}: {against}.",
            money(price),
            trips(plan.deliveries_count),
            money(each),
            trips(simple.deliveries_count),
        )
    }

    /// Whether there may be a better list.
    pub fn proven_said(&self, project: &Project) -> &'static str {
        let aim = project.buying.as_ref().and_then(|buying| buying.aim);
        match (self.plan.proven, aim.unwrap_or(BuyingAim::LeastCost)) {
            (true, BuyingAim::LeastCost) => {
                "Nothing cheaper can be had from these packages: everything was tried."
            }
            (true, BuyingAim::FewestDeliveries) => {
                "Fewer trips cannot be had, nor as few for less: everything was tried."
            }
            (false, _) => "There may be a better list: not everything could be tried.",
        }
    }

    /// What is said under the deliveries: the price beside the simple way, whether there is better, what is
    /// over, what no package covers, and notes.
    pub fn said(&self, project: &Project, units: UnitSystem) -> Vec<EcoString> {
        let mut lines = vec![self.price_said(units), self.proven_said(project).into()];
        let own = self.plan.deliveries.iter().filter(|d| d.supplier.is_none());
        let own: Vec<_> = own.map(|delivery| delivery.mass).collect();
        if !own.is_empty() {
            let all: Option<Mass> = own.into_iter().sum();
            lines.push(all.map_or_else(
                || "What is fetched oneself costs no trip here; count your own.".into(),
                |mass| {
                    eco_format!(
                        "What is fetched oneself weighs {} in all, and costs no trip here; count your own.",
                        print::mass(mass, units)
                    )
                },
            ));
        }
        let spare = self.spare(project);
        let over: Vec<EcoString> = spare
            .iter()
            .filter_map(|(name, spare)| Some(eco_format!("{name} {}", over(spare, units)?)))
            .collect();
        if !over.is_empty() {
            lines.push(eco_format!("Over when all is used: {}.", over.join("; ")));
        }
        let uncovered = self.uncovered(project);
        if !uncovered.is_empty() {
            let names: Vec<&str> = uncovered.iter().map(|name| name.as_str()).collect();
            lines.push(eco_format!("No package covers: {}.", names.join(", ")));
        }
        lines.extend(self.notes.iter().cloned());
        lines
    }
}

/// What is over of a material; `None` when nothing is.
fn over(spare: &Quantity, units: UnitSystem) -> Option<EcoString> {
    let loose = spare.loose.filter(|v| v.value > 0.0);
    let mass = spare.mass.filter(|m| m.value > 0.0);
    let loose = loose.map(|v| eco_format!("{}", print::bulk_volume(v, units)));
    let mass = mass.map(|m| eco_format!("{}", print::mass(m, units)));
    match (loose, mass) {
        (Some(loose), Some(mass)) => Some(eco_format!("{loose} ({mass})")),
        (one, other) => one.or(other),
    }
}
