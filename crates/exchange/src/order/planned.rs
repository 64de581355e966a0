//! The lines of the CSV where what to buy is planned: the list that is ordered. Not here: planning it.

use super::deliveries::{BoughtRow, DeliveryRow, SupplyReport};
use super::{OrderLine, OrderReport};
use crate::write::plain_text;
use serde::Serialize;
use std::collections::HashSet;

/// One line of the CSV: packages of one kind in a delivery, or a material of which none is bought.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct PlannedLine {
    pub material: String,
    pub loose_m3: Option<f64>,
    pub mass_kg: Option<f64>,
    pub stock_kg: Option<f64>,
    pub stock_m3: Option<f64>,
    pub package: String,
    pub holds: String,
    pub count: Option<u64>,
    pub price: Option<f64>,
    pub spare_kg: Option<f64>,
    pub spare_m3: Option<f64>,
    pub in_ground_m3: Option<f64>,
    pub rammed_m3: Option<f64>,
    pub phase: String,
    pub date: String,
    pub supplier: String,
    pub trips: Option<u64>,
    pub charge: Option<f64>,
}

impl OrderReport {
    /// The lines of the CSV of a project that says who sells or when what is ordered: the packages of the
    /// plan by delivery, then the materials of which none is bought. `None` for another project.
    ///
    /// Need, stock and spare stand on the first line of a material only, trips and charge on the first line
    /// of a delivery, so that a column can be summed. Where nothing could be planned the lines are those of
    /// each material by itself, with no phase, supplier or trips.
    pub fn planned_lines(&self) -> Option<Vec<PlannedLine>> {
        let supply = self.supply.as_ref()?;
        if supply.not_planned.is_some() {
            return Some(self.lines().into_iter().map(alone).collect());
        }
        let mut told = HashSet::new();
        let mut lines = Vec::new();
        for delivery in &supply.deliveries {
            for (at, bought) in delivery.packages.iter().enumerate() {
                let is_first = told.insert(bought.material.as_str());
                let need = self.need(supply, &bought.material, is_first);
                lines.push(line(delivery, bought, at == 0, need));
            }
        }
        for material in &self.materials {
            if told.insert(&material.material) {
                lines.push(alone(self.need(supply, &material.material, true)));
            }
        }
        Some(lines)
    }

    /// A line of a material without packages: its need, stock and spare where they are told.
    fn need(&self, supply: &SupplyReport, name: &str, is_told: bool) -> OrderLine {
        let of = self.materials.iter().find(|of| of.material == name);
        let of = of.filter(|_| is_told);
        let mut spare = supply.delivery_spare.iter();
        let spare = spare.find(|of| of.material == name).filter(|_| is_told);
        OrderLine {
            material: plain_text(name),
            loose_m3: of.and_then(|of| of.loose_m3),
            mass_kg: of.and_then(|of| of.mass_kg),
            stock_kg: of.and_then(|of| of.stock_kg),
            stock_m3: of.and_then(|of| of.stock_m3),
            package: String::new(),
            holds: String::new(),
            count: None,
            price: None,
            spare_kg: spare.map_or_else(|| of.and_then(|of| of.spare_kg), |of| of.spare_kg),
            spare_m3: spare.map_or_else(|| of.and_then(|of| of.spare_m3), |of| of.spare_m3),
            in_ground_m3: of.and_then(|of| of.in_ground_m3),
            rammed_m3: of.and_then(|of| of.rammed_m3),
        }
    }
}

/// A line of a delivery.
fn line(of: &DeliveryRow, bought: &BoughtRow, is_first: bool, need: OrderLine) -> PlannedLine {
    let has_trips = is_first && of.supplier.is_some();
    PlannedLine {
        package: plain_text(&bought.package),
        holds: plain_text(&bought.holds),
        count: Some(bought.count),
        price: bought.price,
        phase: plain_text(&of.phase),
        date: plain_text(of.date.as_deref().unwrap_or_default()),
        supplier: plain_text(of.supplier.as_deref().unwrap_or_default()),
        trips: has_trips.then_some(of.trips),
        charge: has_trips.then_some(of.charge),
        ..alone(need)
    }
}

/// A line that no delivery has.
fn alone(of: OrderLine) -> PlannedLine {
    PlannedLine {
        material: of.material,
        loose_m3: of.loose_m3,
        mass_kg: of.mass_kg,
        stock_kg: of.stock_kg,
        stock_m3: of.stock_m3,
        package: of.package,
        holds: of.holds,
        count: of.count,
        price: of.price,
        spare_kg: of.spare_kg,
        spare_m3: of.spare_m3,
        in_ground_m3: of.in_ground_m3,
        rammed_m3: of.rammed_m3,
        phase: String::new(),
        date: String::new(),
        supplier: String::new(),
        trips: None,
        charge: None,
    }
}
