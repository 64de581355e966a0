//! Coats and materials of a project. Not here: computing them.

use crate::problems::{ProblemRow, row};
use crate::write::plain_text;
use hodful_quantities::Typed;
use hodful_quantities::read::Money;
use hodful_quantities::units::{Mass, Volume, cubic_meter, kilogram, square_meter};
use hodful_takeoff::Assessed;
use serde::Serialize;
use std::iter::zip;

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
    /// Price of all packages that have one.
    pub price: f64,
    /// What is doubtful.
    pub warnings: Vec<ProblemRow>,
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
    /// What goes into the mixer: damp, past the screen.
    pub materials: Vec<PortionRow>,
}

/// What a batch takes of one material.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct PortionRow {
    pub material: String,
    pub loose_m3: Option<f64>,
    pub mass_kg: Option<f64>,
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
}

impl OrderReport {
    /// The lines of the CSV: what goes to a supplier. Need, stock and spare stand on the first line
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
                stock_kg: kg(figures.stock.mass),
                stock_m3: m3(figures.stock.loose),
                order: order.collect(),
                spare_kg: kg(figures.spare.mass),
                spare_m3: m3(figures.spare.loose),
            }
        })
        .collect();
    let mut batches: Vec<BatchRow> = Vec::new();
    for (_, coat, _) in of.coats() {
        let Some(mixer) = of.checked.mixer() else {
            break;
        };
        if batches.iter().any(|batch| batch.mix == coat.mix) {
            continue;
        }
        let portions = of
            .batch_of(&coat.mix)
            .into_iter()
            .map(|(name, quantity)| PortionRow {
                material: name.to_string(),
                loose_m3: m3(quantity.loose),
                mass_kg: kg(quantity.mass),
            });
        batches.push(BatchRow {
            mix: coat.mix.to_string(),
            mixed_m3: mixer.working_volume.get::<cubic_meter>(),
            materials: portions.collect(),
        });
    }
    OrderReport {
        format: "hodful-order",
        version: 1,
        project: of.project.name.to_string(),
        coats,
        materials,
        batches,
        price: money(of.evaluation.cost),
        warnings: of.doubts.iter().map(row).collect(),
    }
}

/// Money as a JSON number: at most four decimals, which an `f64` prints back as they are.
fn money(value: Money) -> f64 {
    value.amount().to_string().parse().unwrap_or_default()
}
