//! What the walls took so far and what the rest takes. Not here: forecasting.

use crate::write::plain_text;
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::Cover;
use hodful_quantities::read::Money;
use hodful_quantities::units::{Volume, cubic_meter, kilogram};
use hodful_takeoff::Project;
use hodful_takeoff::forecast::{CoatForecast, Forecast, Learned, MaterialForecast, Needed};
use serde::Serialize;

/// A forecast, in the International System.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ForecastReport {
    /// `hodful-forecast`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called.
    pub project: String,
    /// What was learned, by name of coat.
    pub learned: Vec<LearnedRow>,
    /// What is done and left of each coat.
    pub coats: Vec<ForecastCoatRow>,
    /// Loads of the mixer for the rest.
    pub batches: Option<u64>,
    /// What was used of each material and what is still to order.
    pub materials: Vec<ForecastMaterialRow>,
    /// Materials that cannot be told while something is refused.
    pub waiting: Vec<String>,
    /// Numbers of records that count for nothing, from 1.
    pub records_left_out: Vec<usize>,
    /// Numbers of deliveries that count for nothing, from 1.
    pub deliveries_left_out: Vec<usize>,
}

/// What was learned of the coats of one name.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct LearnedRow {
    pub coat: String,
    pub records: usize,
    pub walls: u64,
    pub recorded_m3: f64,
    pub took_m3: f64,
    pub ratio: Option<f64>,
    pub factor: f64,
    pub weight: f64,
    pub lowest_of_eight_in_ten: f64,
    pub highest_of_eight_in_ten: f64,
    pub log_mean: f64,
    pub log_sd: f64,
    pub before: f64,
    pub spread_together: f64,
    pub spread_wall_to_wall: f64,
    pub spread_source: String,
}

/// One coat of one build-up, mixed plaster.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct ForecastCoatRow {
    pub build_up: String,
    pub coat: String,
    pub whole_m3: f64,
    pub recorded_m3: f64,
    pub took_m3: f64,
    pub rest_m3: f64,
    pub factor: f64,
    pub weight: f64,
    pub forecast_rest_m3: f64,
    pub enough_rest_m3: f64,
    pub forecast_whole_m3: f64,
    pub batches: Option<u64>,
    pub batches_worked_out: Option<u64>,
}

/// One material, as delivered.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ForecastMaterialRow {
    /// Its name.
    pub material: String,
    /// In the yard at the start.
    pub stock: AmountRow,
    /// What came since.
    pub came: AmountRow,
    /// As forecast.
    pub forecast: NeededRow,
    /// With as much for the rest as is enough 9 times out of 10; nothing without records.
    pub enough: Option<NeededRow>,
    /// As it would be had every wall taken what was worked out.
    pub worked_out: NeededRow,
    /// The coat that does most to the difference of both.
    pub because: Option<String>,
}

/// One way to reckon a material.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct NeededRow {
    pub used: AmountRow,
    pub yard: AmountRow,
    pub used_beyond: AmountRow,
    pub rest: AmountRow,
    pub to_order: AmountRow,
    pub order: Option<Vec<PackageRow>>,
    pub price: Option<f64>,
}

/// An amount, loose and by mass, as far as each can be told.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct AmountRow {
    pub loose_m3: Option<f64>,
    pub mass_kg: Option<f64>,
}

/// So many of a package.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct PackageRow {
    pub package: String,
    pub count: u64,
}

/// One line of the CSV: a material.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct ForecastLine {
    pub material: String,
    pub used_m3: Option<f64>,
    pub used_kg: Option<f64>,
    pub yard_m3: Option<f64>,
    pub yard_kg: Option<f64>,
    pub rest_m3: Option<f64>,
    pub rest_kg: Option<f64>,
    pub to_order_m3: Option<f64>,
    pub to_order_kg: Option<f64>,
    pub order: String,
    pub order_enough: String,
    pub order_without_records: String,
}

impl ForecastReport {
    /// The lines of the CSV: what is still to order.
    pub fn lines(&self) -> Vec<ForecastLine> {
        let order = |of: &NeededRow| {
            let packages = of.order.iter().flatten();
            let each: Vec<String> = packages
                .map(|of| format!("{} × {}", of.count, of.package))
                .collect();
            plain_text(&each.join(" + "))
        };
        let line = |of: &ForecastMaterialRow| {
            let needed = &of.forecast;
            ForecastLine {
                material: plain_text(&of.material),
                used_m3: needed.used.loose_m3,
                used_kg: needed.used.mass_kg,
                yard_m3: needed.yard.loose_m3,
                yard_kg: needed.yard.mass_kg,
                rest_m3: needed.rest.loose_m3,
                rest_kg: needed.rest.mass_kg,
                to_order_m3: needed.to_order.loose_m3,
                to_order_kg: needed.to_order.mass_kg,
                order: order(needed),
                order_enough: of.enough.as_ref().map_or_else(String::new, &order),
                order_without_records: order(&of.worked_out),
            }
        };
        self.materials.iter().map(line).collect()
    }
}

/// The forecast of a project as a report.
pub fn forecast(project: &Project, of: &Forecast) -> ForecastReport {
    ForecastReport {
        format: "hodful-forecast",
        version: 1,
        project: project.name.to_string(),
        learned: of.learned.iter().map(learned).collect(),
        coats: of.coats.iter().map(coat).collect(),
        batches: of.batches(),
        materials: of
            .materials
            .iter()
            .map(|of| material(project, of))
            .collect(),
        waiting: of.waiting.iter().map(ToString::to_string).collect(),
        records_left_out: of.records_left_out.clone(),
        deliveries_left_out: of.deliveries_left_out.clone(),
    }
}

fn m3(of: Volume) -> f64 {
    of.get::<cubic_meter>()
}

fn learned(of: &Learned) -> LearnedRow {
    LearnedRow {
        coat: of.coat.to_string(),
        records: of.seen.len(),
        walls: of.walls,
        recorded_m3: m3(of.recorded),
        took_m3: m3(of.took),
        ratio: of.ratio(),
        factor: of.factor,
        weight: of.weight,
        lowest_of_eight_in_ten: of.between.0,
        highest_of_eight_in_ten: of.between.1,
        log_mean: of.mean,
        log_sd: of.sd,
        before: of.before.mean,
        spread_together: of.before.together,
        spread_wall_to_wall: of.before.wall_to_wall,
        spread_source: of.before.source.to_string(),
    }
}

fn coat(of: &CoatForecast) -> ForecastCoatRow {
    ForecastCoatRow {
        build_up: of.build_up.to_string(),
        coat: of.coat.to_string(),
        whole_m3: m3(of.whole),
        recorded_m3: m3(of.recorded),
        took_m3: m3(of.took),
        rest_m3: m3(of.rest),
        factor: of.factor,
        weight: of.weight,
        forecast_rest_m3: m3(of.forecast_rest),
        enough_rest_m3: m3(of.enough_rest),
        forecast_whole_m3: m3(of.forecast_whole),
        batches: of.batches.map(|batches| batches.loads),
        batches_worked_out: of.batches_worked_out.map(|batches| batches.loads),
    }
}

fn material(project: &Project, of: &MaterialForecast) -> ForecastMaterialRow {
    let row = |needed: &Needed| NeededRow {
        used: amount(&needed.used),
        yard: amount(&needed.yard),
        used_beyond: amount(&needed.beyond),
        rest: amount(&needed.rest),
        to_order: amount(&needed.to_order),
        order: package_rows(project, &of.material, needed.cover.as_ref()),
        price: needed
            .cover
            .as_ref()
            .and_then(|cover| cover.price)
            .map(Money::to_f64),
    };
    ForecastMaterialRow {
        material: of.material.to_string(),
        stock: amount(&of.stock),
        came: amount(&of.came),
        forecast: row(&of.forecast),
        enough: of.enough.as_ref().map(row),
        worked_out: row(&of.worked_out),
        because: of.because.as_ref().map(ToString::to_string),
    }
}

/// The packages of a material that cover a need; nothing when none can.
pub(crate) fn package_rows(
    project: &Project,
    material: &str,
    cover: Option<&Cover>,
) -> Option<Vec<PackageRow>> {
    let packages = project.materials.get(material);
    let packages = packages.map_or(&[][..], |material| &material.packages);
    let counts = cover?.counts.iter();
    counts
        .map(|(at, count)| {
            Some(PackageRow {
                package: packages.get(*at)?.name.to_string(),
                count: *count,
            })
        })
        .collect()
}

/// An amount out of base units.
pub(crate) fn amount(of: &Quantity) -> AmountRow {
    AmountRow {
        loose_m3: of.loose.map(m3),
        mass_kg: of.mass.map(|mass| mass.get::<kilogram>()),
    }
}
