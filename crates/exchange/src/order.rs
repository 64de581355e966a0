//! Coats and materials of a project. Not here: computing them.

mod deliveries;
mod planned;

use crate::problems::{ProblemRow, row};
use crate::write::plain_text;
use hodful_quantities::Typed;
use hodful_quantities::mix::WATER_DENSITY;
use hodful_quantities::read::Money;
use hodful_quantities::units::{Mass, Volume, cubic_meter, kilogram, square_meter};
use hodful_takeoff::Assessed;
use hodful_takeoff::forecast::said::beside_records;
use hodful_takeoff::project::MaterialKind;
use serde::Serialize;
use std::iter::zip;

pub use deliveries::SupplyReport;
pub use planned::PlannedLine;

/// The order of a project, in the International System.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OrderReport {
    /// `hodful-order`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called.
    pub project: String,
    /// Every coat.
    pub coats: Vec<CoatRow>,
    /// Every material that a coat takes.
    pub materials: Vec<MaterialRow>,
    /// One full batch of every mix that a coat uses; none without a mixer.
    pub batches: Vec<BatchRow>,
    /// Price of all packages that have one, each material by itself and nothing for bringing it.
    pub price: f64,
    /// What to buy from whom; only where the project says who sells or when what is ordered.
    #[serde(flatten)]
    pub supply: Option<SupplyReport>,
    /// That the order knows nothing of what is recorded; only where something is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub beside_records: Option<&'static str>,
    /// What is doubtful.
    pub warnings: Vec<ProblemRow>,
}

/// The figures of a project in one file.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AllReport {
    /// `hodful-all`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// Surfaces.
    pub measure: crate::MeasureReport,
    /// Coats and materials, and what is doubtful.
    pub order: OrderReport,
    /// The cards beside the mixer, when there is one.
    pub cards: Option<crate::CardsReport>,
    /// Options side by side, when there are any.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub comparison: Option<crate::CompareReport>,
    /// What the rest takes, when something is recorded.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub forecast: Option<crate::ForecastReport>,
    /// How sure the figures are, when the project says how far an input may be off.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub chances: Option<crate::ChancesReport>,
    /// The days on site, when the project says when the work begins.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plan: Option<crate::DaysReport>,
}

/// One coat of one build-up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct CoatRow {
    pub build_up: String,
    pub coat: String,
    pub mix: String,
    pub area_m2: f64,
    pub placed_m3: f64,
    pub wet_m3: f64,
    pub mixed_m3: f64,
    pub batches: Option<f64>,
}

/// One full batch of a mix.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BatchRow {
    /// The mix.
    pub mix: String,
    /// Mixed plaster it makes.
    pub mixed_m3: f64,
    /// What goes into the mixer, in the order of loading, water last: damp, past the screen.
    pub materials: Vec<PortionRow>,
}

/// What a batch takes of one material, by measure, by weight and as a crew counts it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct PortionRow {
    pub material: String,
    pub loose_m3: Option<f64>,
    pub mass_kg: Option<f64>,
    pub buckets: Option<f64>,
    pub shovels: Option<u64>,
    pub handfuls: Option<u64>,
    pub cups: Option<f64>,
}

/// One material: needed, in stock, ordered.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MaterialRow {
    /// Its name.
    pub material: String,
    /// Loose, as delivered: damp and before the screen.
    pub loose_m3: Option<f64>,
    /// As delivered, moisture included.
    pub mass_kg: Option<f64>,
    /// In the ground before it is dug, where the swell of the soil is given.
    pub in_ground_m3: Option<f64>,
    /// Rammed, where that is given.
    pub rammed_m3: Option<f64>,
    /// In the yard, by mass.
    pub stock_kg: Option<f64>,
    /// In the yard, loose.
    pub stock_m3: Option<f64>,
    /// The packages to order.
    pub order: Vec<PackageRow>,
    /// What is over, by mass.
    pub spare_kg: Option<f64>,
    /// What is over, loose.
    pub spare_m3: Option<f64>,
}

/// Packages of one kind.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PackageRow {
    /// What it is called.
    pub package: String,
    /// What one holds, as typed.
    pub holds: String,
    /// How many.
    pub count: u64,
    /// Price of all of them.
    pub price: Option<f64>,
}

/// One line of the CSV: a material with one kind of package, or with none.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct OrderLine {
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
}

impl OrderReport {
    /// The lines of the CSV of a project that says neither who sells nor when what is ordered: what goes to
    /// a supplier. For another see [`planned_lines`](Self::planned_lines). Need, stock and spare stand on the first line
    /// of a material only, so that a column can be summed.
    pub fn lines(&self) -> Vec<OrderLine> {
        let mut lines = Vec::new();
        for m in &self.materials {
            let packages: Vec<Option<&PackageRow>> = if m.order.is_empty() {
                vec![None]
            } else {
                m.order.iter().map(Some).collect()
            };
            for (i, package) in packages.into_iter().enumerate() {
                let first = |figure: Option<f64>| figure.filter(|_| i == 0);
                lines.push(OrderLine {
                    material: plain_text(&m.material),
                    loose_m3: first(m.loose_m3),
                    mass_kg: first(m.mass_kg),
                    stock_kg: first(m.stock_kg),
                    stock_m3: first(m.stock_m3),
                    package: package.map_or_else(String::new, |p| plain_text(&p.package)),
                    holds: package.map_or_else(String::new, |p| plain_text(&p.holds)),
                    count: package.map(|p| p.count),
                    price: package.and_then(|p| p.price),
                    spare_kg: first(m.spare_kg),
                    spare_m3: first(m.spare_m3),
                    in_ground_m3: first(m.in_ground_m3),
                    rammed_m3: first(m.rammed_m3),
                });
            }
        }
        lines
    }
}

/// The order of an assessed project.
pub fn order(of: &Assessed<'_>) -> OrderReport {
    let m3 = |volume: Option<Volume>| volume.map(|v| v.get::<cubic_meter>());
    let kg = |mass: Option<Mass>| mass.map(|m| m.get::<kilogram>());
    let coats = of
        .coats()
        .map(|(build_up, coat, figures)| CoatRow {
            build_up: build_up.to_string(),
            coat: coat.coat.to_string(),
            mix: coat.mix.to_string(),
            area_m2: figures.surface.area.get::<square_meter>(),
            placed_m3: figures.volume.placed.get::<cubic_meter>(),
            wet_m3: figures.volume.wet.get::<cubic_meter>(),
            mixed_m3: figures.volume.mixed.get::<cubic_meter>(),
            batches: figures.batches.map(|b| b.exact),
        })
        .collect();
    let materials = zip(&of.project.materials, &of.evaluation.materials)
        .filter(|(_, figures)| !figures.uses.is_empty())
        .map(|((name, material), figures)| {
            let order = figures
                .cover
                .iter()
                .flat_map(|cover| &cover.counts)
                .filter_map(|(offer, count)| {
                    let package = material.packages.get(*offer)?;
                    let each = package.price.as_ref().map(Typed::value);
                    Some(PackageRow {
                        package: package.name.to_string(),
                        holds: package.holds.text().to_owned(),
                        count: *count,
                        price: each.and_then(|p| p.times(*count)).map(money),
                    })
                });
            MaterialRow {
                material: name.to_string(),
                loose_m3: m3(figures.delivered.loose),
                mass_kg: kg(figures.delivered.mass),
                in_ground_m3: m3(figures.heap.map(|heap| heap.in_ground)),
                rammed_m3: m3(figures.heap.map(|heap| heap.rammed)),
                stock_kg: kg(figures.stock.mass),
                stock_m3: m3(figures.stock.loose),
                order: order.collect(),
                spare_kg: kg(figures.spare.mass),
                spare_m3: m3(figures.spare.loose),
            }
        })
        .collect();
    OrderReport {
        format: "hodful-order",
        version: 1,
        project: of.project.name.to_string(),
        coats,
        materials,
        batches: batches(of),
        price: money(of.evaluation.cost),
        supply: deliveries::supply(of),
        beside_records: beside_records(of.project),
        warnings: of.doubts.iter().map(row).collect(),
    }
}

/// One full batch of every mix, as on the card beside the mixer.
fn batches(of: &Assessed<'_>) -> Vec<BatchRow> {
    let water = of.project.materials.iter();
    let water = water.filter(|(_, material)| material.kind == MaterialKind::Water);
    let water = water.map(|(name, _)| name.to_string()).next();
    let each = of.cards().into_iter().map(|card| {
        let mixed_m3 = card.makes.get::<cubic_meter>();
        let row = crate::card::card(&card);
        let loads = row.loads.into_iter().map(|load| PortionRow {
            material: load.material,
            loose_m3: load.loose_m3,
            mass_kg: load.mass_kg,
            buckets: load.buckets,
            shovels: load.shovels,
            handfuls: load.handfuls,
            cups: load.cups,
        });
        let last = row.water.zip(water.clone());
        let last = last.map(|(water, material)| PortionRow {
            material,
            loose_m3: Some(water.to_add_m3),
            mass_kg: Some(water.to_add_m3 * WATER_DENSITY),
            buckets: water.buckets,
            shovels: None,
            handfuls: None,
            cups: None,
        });
        BatchRow {
            mix: row.mix,
            mixed_m3,
            materials: loads.chain(last).collect(),
        }
    });
    each.collect()
}

/// Money as a JSON number: at most four decimals, which an `f64` prints back as they are.
fn money(value: Money) -> f64 {
    value.amount().to_string().parse().unwrap_or_default()
}
