//! What to buy from whom, as keys of the order. Not here: planning it.

use super::money;
use hodful_quantities::Typed;
use hodful_quantities::mix::Quantity;
use hodful_quantities::units::{cubic_meter, kilogram};
use hodful_takeoff::Assessed;
use hodful_takeoff::project::{BuyingAim, Name, Package};
use hodful_takeoff::supply::{Supply, phase_name};
use serde::Serialize;

/// What to buy from whom, of a project that says who sells or when what is ordered.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct SupplyReport {
    /// Why nothing could be planned; the keys behind it are empty then.
    pub not_planned: Option<String>,
    /// What it is chosen by.
    pub aim: Option<&'static str>,
    /// By phase, then by supplier; what one fetches oneself last.
    pub deliveries: Vec<DeliveryRow>,
    /// Trips of all trucks.
    pub trips: u64,
    /// Goods and charges; nothing when something has no price.
    pub delivered_price: Option<f64>,
    /// Charges, and goods as far as they have a price.
    pub known_price: f64,
    /// The same when each material is bought by itself.
    pub simple_price: Option<f64>,
    /// Trips of that.
    pub simple_trips: u64,
    /// What the plan saves against it.
    pub saved: Option<f64>,
    /// Whether nothing better by the aim can be had.
    pub proven: bool,
    /// What is over of each material when all is used.
    pub delivery_spare: Vec<SpareRow>,
    /// Materials that no package covers.
    pub uncovered: Vec<String>,
    /// What is to be said beside it.
    pub notes: Vec<String>,
}

/// What one supplier brings in one phase.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct DeliveryRow {
    pub phase: String,
    pub date: Option<String>,
    pub supplier: Option<String>,
    pub trips: u64,
    pub packages: Vec<BoughtRow>,
    pub loads: Vec<LoadRow>,
    pub mass_kg: Option<f64>,
    pub volume_m3: Option<f64>,
    pub goods: Option<f64>,
    pub charge: f64,
}

/// Packages of one kind in a delivery.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct BoughtRow {
    pub material: String,
    pub package: String,
    pub holds: String,
    pub count: u64,
    pub price: Option<f64>,
}

/// So many trips that are loaded alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct LoadRow {
    pub times: u64,
    pub packages: Vec<BoughtRow>,
}

/// What is over of a material.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct SpareRow {
    pub material: String,
    pub spare_kg: Option<f64>,
    pub spare_m3: Option<f64>,
}

/// What to buy from whom; `None` for a project that says neither who sells nor when what is ordered.
pub(super) fn supply(of: &Assessed<'_>) -> Option<SupplyReport> {
    let project = of.project;
    if project.suppliers.is_empty() && project.buying.is_none() {
        return None;
    }
    let aim = project.buying.as_ref().and_then(|buying| buying.aim);
    let aim = Some(aim.unwrap_or(BuyingAim::LeastCost).word());
    Some(match of.supply() {
        Err(words) => SupplyReport {
            not_planned: Some(words.to_string()),
            aim,
            ..SupplyReport::default()
        },
        Ok(supply) => SupplyReport {
            aim,
            ..planned(of, &supply)
        },
    })
}

fn planned(of: &Assessed<'_>, supply: &Supply) -> SupplyReport {
    let project = of.project;
    let bought = |offer: usize, count: u64| {
        let (material, package): (&Name, &Package) = supply.package(project, offer)?;
        let each = package.price.as_ref().map(Typed::value);
        Some(BoughtRow {
            material: material.to_string(),
            package: package.name.to_string(),
            holds: package.holds.text().to_owned(),
            count,
            price: each.and_then(|each| each.times(count)).map(money),
        })
    };
    let phases = project.buying.iter().flat_map(|buying| &buying.phases);
    let phases: Vec<_> = phases.collect();
    let deliveries = supply.plan.deliveries.iter().map(|delivery| {
        let lines = delivery.lines.iter();
        let loads = delivery.loads.iter().map(|load| LoadRow {
            times: load.times,
            packages: load
                .lines
                .iter()
                .filter_map(|line| bought(line.offer, line.count))
                .collect(),
        });
        let date = phases.get(delivery.phase).and_then(|of| of.date.as_ref());
        DeliveryRow {
            phase: phase_name(project, delivery.phase).to_owned(),
            date: date.map(|date| date.text().to_owned()),
            supplier: supply.supplier(project, delivery).map(ToString::to_string),
            trips: delivery.trips,
            packages: lines
                .filter_map(|line| bought(line.offer, line.count))
                .collect(),
            loads: loads.collect(),
            mass_kg: delivery.mass.map(|mass| mass.get::<kilogram>()),
            volume_m3: delivery.volume.map(|volume| volume.get::<cubic_meter>()),
            goods: delivery.goods.map(money),
            charge: money(delivery.charge),
        }
    });
    let (plan, simple) = (&supply.plan, &supply.simple);
    // Exact before it becomes a number of JSON.
    let saved = simple.price.zip(plan.price);
    let saved = saved.map(|(simple, plan)| simple.amount() - plan.amount());
    let spare = supply.spare(project).into_iter();
    SupplyReport {
        not_planned: None,
        aim: None,
        deliveries: deliveries.collect(),
        trips: plan.deliveries_count,
        delivered_price: plan.price.map(money),
        known_price: money(plan.known_price),
        simple_price: simple.price.map(money),
        simple_trips: simple.deliveries_count,
        saved: saved.and_then(|saved| saved.to_string().parse().ok()),
        proven: plan.proven,
        delivery_spare: spare.map(|(name, spare)| row(name, &spare)).collect(),
        uncovered: supply
            .uncovered(project)
            .iter()
            .map(ToString::to_string)
            .collect(),
        notes: supply.notes.iter().map(ToString::to_string).collect(),
    }
}

fn row(material: &Name, spare: &Quantity) -> SpareRow {
    SpareRow {
        material: material.to_string(),
        spare_kg: spare.mass.map(|mass| mass.get::<kilogram>()),
        spare_m3: spare.loose.map(|volume| volume.get::<cubic_meter>()),
    }
}
