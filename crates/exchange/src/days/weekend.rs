//! A few days with many hands, as figures. Not here: planning them, and their words.

use super::{DaysReport, days, time};
use hodful_quantities::units::{cubic_meter, kilogram};
use hodful_takeoff::Project;
use hodful_takeoff::days::WeekendAhead;
use hodful_takeoff::workplan::Crew;
use serde::Serialize;

/// A few days with many hands, in the International System.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct WeekendReport {
    pub surface_m2: f64,
    pub before: Vec<BeforeRow>,
    pub mixes: Vec<MixRow>,
    pub hands: Vec<HandsRow>,
    pub left: Vec<String>,
    pub plan: DaysReport,
}

/// Something to prepare.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct BeforeRow {
    pub what: String,
    pub person_hours: f64,
    pub done_by: String,
}

/// A mix that the days take.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct MixRow {
    pub mix: String,
    pub mixed_m3: f64,
    pub materials: Vec<MixMaterialRow>,
}

/// A material at the mixer, dry and screened.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct MixMaterialRow {
    pub material: String,
    pub loose_m3: Option<f64>,
    pub mass_kg: Option<f64>,
}

/// How people are best shared out for one coat.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct HandsRow {
    pub coat: String,
    pub mixing: usize,
    pub carrying: usize,
    pub placing: usize,
    pub finishing: usize,
    pub m2_per_hour: f64,
    pub held_up_by: &'static str,
}

/// A few days with many hands as figures.
pub fn weekend(project: &Project, of: &WeekendAhead) -> WeekendReport {
    WeekendReport {
        surface_m2: of.m2,
        before: of
            .before
            .iter()
            .map(|ahead| BeforeRow {
                what: ahead.what.to_string(),
                person_hours: ahead.hours,
                done_by: time(ahead.by),
            })
            .collect(),
        mixes: of
            .mixes
            .iter()
            .map(|mix| MixRow {
                mix: mix.mix.to_string(),
                mixed_m3: mix.litres / 1000.0,
                materials: mix
                    .materials
                    .iter()
                    .map(|(name, quantity)| MixMaterialRow {
                        material: name.to_string(),
                        loose_m3: quantity.loose.map(|loose| loose.get::<cubic_meter>()),
                        mass_kg: quantity.mass.map(|mass| mass.get::<kilogram>()),
                    })
                    .collect(),
            })
            .collect(),
        hands: of.hands.iter().filter_map(hands).collect(),
        left: of.left.iter().map(|task| task.said().to_string()).collect(),
        plan: days(project, &of.days),
    }
}

fn hands(of: &hodful_takeoff::days::Hands) -> Option<HandsRow> {
    let Crew::Roles {
        mixing,
        carrying,
        placing,
        finishing,
    } = of.crew
    else {
        return None;
    };
    Some(HandsRow {
        coat: of.coat.to_string(),
        mixing,
        carrying,
        placing,
        finishing,
        m2_per_hour: of.m2_per_hour,
        held_up_by: of.limit.words(),
    })
}
