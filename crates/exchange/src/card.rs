//! The cards beside the mixer. Not here: counting.

use crate::write::plain_text;
use hodful_quantities::units::{cubic_meter, kilogram};
use hodful_takeoff::card::{Card, CoatBatches, Load, Water};
use serde::Serialize;

/// The cards of a project.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CardsReport {
    /// `hodful-card`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called.
    pub project: String,
    /// One card a mix.
    pub cards: Vec<CardRow>,
}

/// One card.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CardRow {
    /// The mix.
    pub mix: String,
    /// Mixed plaster that a full batch makes.
    pub makes_m3: f64,
    /// What goes in, in the order of loading.
    pub loads: Vec<LoadRow>,
    /// Water, which goes in last.
    pub water: Option<WaterRow>,
    /// The coats that are made of it.
    pub coats: Vec<CardCoatRow>,
}

/// What goes in of one material: damp, past the screen. What a crew cannot count it in is left out.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct LoadRow {
    pub material: String,
    pub kind: &'static str,
    pub loose_m3: Option<f64>,
    pub mass_kg: Option<f64>,
    pub buckets: Option<f64>,
    pub shovels: Option<u64>,
    pub handfuls: Option<u64>,
    pub cups: Option<f64>,
}

/// Water of a batch.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct WaterRow {
    pub to_add_m3: f64,
    pub at_once_m3: f64,
    pub held_back_m3: f64,
    pub buckets: Option<f64>,
    pub buckets_at_once: Option<f64>,
}

/// The batches of one coat.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct CardCoatRow {
    pub build_up: String,
    pub coat: String,
    pub batches: u64,
    pub days: Option<u64>,
    pub last_share: f64,
    pub last_loads: Vec<LoadRow>,
    pub last_water: Option<WaterRow>,
}

/// One line of the CSV: a material in a full batch, water last.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct CardLine {
    pub mix: String,
    pub material: String,
    pub kind: &'static str,
    pub loose_m3: Option<f64>,
    pub mass_kg: Option<f64>,
    pub buckets: Option<f64>,
    pub shovels: Option<u64>,
    pub handfuls: Option<u64>,
    pub cups: Option<f64>,
}

impl CardsReport {
    /// The lines of the CSV: full batches.
    pub fn lines(&self) -> Vec<CardLine> {
        let lines = self.cards.iter().flat_map(|card| {
            let loads = card.loads.iter().map(|load| CardLine {
                mix: plain_text(&card.mix),
                material: plain_text(&load.material),
                kind: load.kind,
                loose_m3: load.loose_m3,
                mass_kg: load.mass_kg,
                buckets: load.buckets,
                shovels: load.shovels,
                handfuls: load.handfuls,
                cups: load.cups,
            });
            let water = card.water.iter().map(|water| CardLine {
                mix: plain_text(&card.mix),
                material: "water".to_owned(),
                kind: "water",
                loose_m3: Some(water.to_add_m3),
                mass_kg: None,
                buckets: water.buckets,
                shovels: None,
                handfuls: None,
                cups: None,
            });
            loads.chain(water).collect::<Vec<_>>()
        });
        lines.collect()
    }
}

/// Cards of a project by its name.
pub fn cards(project: &str, cards: &[Card<'_>]) -> CardsReport {
    CardsReport {
        format: "hodful-card",
        version: 1,
        project: project.to_owned(),
        cards: cards.iter().map(card).collect(),
    }
}

/// One card.
pub(crate) fn card(of: &Card<'_>) -> CardRow {
    CardRow {
        mix: of.mix.to_string(),
        makes_m3: of.makes.get::<cubic_meter>(),
        loads: of.loads.iter().map(load).collect(),
        water: of.water.as_ref().map(water),
        coats: of.coats.iter().map(coat).collect(),
    }
}

fn coat(of: &CoatBatches<'_>) -> CardCoatRow {
    CardCoatRow {
        build_up: of.build_up.to_string(),
        coat: of.coat.coat.to_string(),
        batches: of.batches,
        days: of.days,
        last_share: of.last,
        last_loads: of.last_loads.iter().map(load).collect(),
        last_water: of.last_water.as_ref().map(water),
    }
}

fn load(of: &Load<'_>) -> LoadRow {
    LoadRow {
        material: of.material.to_string(),
        kind: of.kind.word(),
        loose_m3: of.quantity.loose.map(|v| v.get::<cubic_meter>()),
        mass_kg: of.quantity.mass.map(|m| m.get::<kilogram>()),
        buckets: of.counted.bucket_quarters.map(quarters),
        shovels: of.counted.shovels,
        handfuls: of.handfuls,
        cups: of.cup_quarters.map(quarters),
    }
}

fn water(of: &Water) -> WaterRow {
    WaterRow {
        to_add_m3: of.to_add.get::<cubic_meter>(),
        at_once_m3: (of.to_add - of.held_back).get::<cubic_meter>(),
        held_back_m3: of.held_back.get::<cubic_meter>(),
        buckets: of.counted.bucket_quarters.map(quarters),
        buckets_at_once: of.first_counted.bucket_quarters.map(quarters),
    }
}

#[allow(
    clippy::cast_precision_loss,
    reason = "counts stay below 2^53 (see the batches)"
)]
fn quarters(quarters: u64) -> f64 {
    quarters as f64 / 4.0
}
