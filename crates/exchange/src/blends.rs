//! Blends that were looked for. Not here: finding them.

use crate::write::plain_text;
use hodful_takeoff::blend::Blended;
use serde::Serialize;
use std::iter::zip;

/// Blends of a project.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BlendsReport {
    /// `hodful-blend`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called.
    pub project: String,
    /// Every blend that was asked for.
    pub blends: Vec<BlendRow>,
}

/// One blend.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct BlendRow {
    /// Its name.
    pub blend: String,
    /// Whether it can be had; nothing when it cannot be computed.
    pub possible: Option<bool>,
    /// Why it cannot be computed.
    pub fault: Option<String>,
    /// What goes in; of the nearest when it cannot be had.
    pub materials: Vec<BlendPartRow>,
    /// Whether the parts are such as can be counted out in buckets.
    pub countable: bool,
    /// What is asked, and what the parts come to.
    pub figures: Vec<BlendFigureRow>,
    /// Money per kilogram of dry blend: goods only, by the cheapest package.
    pub cost_per_kg: Option<f64>,
    /// The same for a cubic metre of its materials, dry and loose.
    pub cost_per_loose_m3: Option<f64>,
    /// What is bought in, share of dry mass.
    pub bought_share: f64,
    /// What keeps it from being better by its aim, before its parts are rounded to such as can be counted.
    pub limited_by: Vec<String>,
    /// Why it cannot be had.
    pub impossible: Option<ImpossibleRow>,
    /// What is to be said beside it.
    pub notes: Vec<String>,
}

/// A material in a blend.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct BlendPartRow {
    pub material: String,
    pub parts: f64,
    pub volume_share: f64,
    pub mass_share: f64,
    pub bought_share: f64,
}

/// A figure of a blend: a share from 0 to 1 or a ratio; a value or margin without end is left out.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct BlendFigureRow {
    pub figure: String,
    pub value: Option<f64>,
    pub least: Option<f64>,
    pub most: Option<f64>,
    pub margin: Option<f64>,
}

/// Why a blend cannot be had.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct ImpossibleRow {
    /// Limits that cannot all be kept.
    pub conflict: Vec<String>,
    /// How far the materials reach, each figure by itself.
    pub reach: Vec<ReachRow>,
    /// What the nearest blend misses.
    pub misses: Vec<MissRow>,
    /// All dry blend that there is, when that is less than what is wanted.
    pub all_there_is_kg: Option<f64>,
    /// The most dry blend that would keep every limit.
    pub within_supplies_kg: Option<f64>,
}

/// How far the materials reach.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct ReachRow {
    pub figure: String,
    pub least: Option<f64>,
    pub most: Option<f64>,
}

/// By how much a limit is missed, in the unit of its figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct MissRow {
    pub limit: String,
    pub by: Option<f64>,
}

/// One line of the CSV: a part or a figure of a blend.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct BlendLine {
    pub blend: String,
    pub possible: Option<bool>,
    pub row: &'static str,
    pub name: String,
    pub value: Option<f64>,
    pub least: Option<f64>,
    pub most: Option<f64>,
    pub margin: Option<f64>,
}

impl BlendsReport {
    /// A report of blends.
    pub fn new(project: &str, blends: Vec<BlendRow>) -> Self {
        Self {
            format: "hodful-blend",
            version: 1,
            project: project.to_owned(),
            blends,
        }
    }

    /// The lines of the CSV: `part` with the parts of a material, `figure` with what they come to, `note` for
    /// what is to be said beside it, `fault` for a blend that cannot be computed.
    pub fn lines(&self) -> Vec<BlendLine> {
        let lines = self.blends.iter().flat_map(|blend| {
            let line = |row, name: &str, value| BlendLine {
                blend: plain_text(&blend.blend),
                possible: blend.possible,
                row,
                name: plain_text(name),
                value,
                least: None,
                most: None,
                margin: None,
            };
            let fault = blend.fault.iter().map(|fault| line("fault", fault, None));
            let parts = blend.materials.iter();
            let parts = parts.map(|of| line("part", &of.material, Some(of.parts)));
            let figures = blend.figures.iter().map(|of| BlendLine {
                least: of.least,
                most: of.most,
                margin: of.margin,
                ..line("figure", &of.figure, of.value)
            });
            let notes = blend.notes.iter().map(|note| line("note", note, None));
            let all = fault.chain(parts).chain(figures).chain(notes);
            let all: Vec<BlendLine> = all.collect();
            all
        });
        lines.collect()
    }
}

/// A blend that was found, or with `impossible` the nearest to one that cannot be had.
pub fn blend(name: &str, of: &Blended, impossible: Option<ImpossibleRow>) -> BlendRow {
    let exact = of.blend();
    // What is counted out is what the figures are of.
    let shown = of.shown();
    let shares = zip(&shown.volume_parts, zip(&shown.mass_shares, &shown.bought));
    let materials = zip(&of.materials, zip(of.parts(), shares));
    let materials = materials.map(|(name, (parts, (volume, (mass, bought))))| BlendPartRow {
        material: name.to_string(),
        parts,
        volume_share: *volume,
        mass_share: *mass,
        bought_share: *bought,
    });
    let figures = shown.figures.iter().map(|figure| BlendFigureRow {
        figure: of.words(figure.requirement).to_string(),
        value: finite(figure.value),
        least: figure.least,
        most: figure.most,
        margin: finite(figure.margin),
    });
    BlendRow {
        blend: name.to_owned(),
        possible: Some(impossible.is_none()),
        fault: None,
        materials: materials.collect(),
        countable: exact.rounded.is_some(),
        figures: figures.collect(),
        cost_per_kg: shown.cost,
        cost_per_loose_m3: of.cost_per_loose(),
        bought_share: shown.bought_share(),
        limited_by: exact
            .binding
            .iter()
            .map(|limit| of.limit(*limit).to_string())
            .collect(),
        impossible,
        notes: of.notes.iter().map(ToString::to_string).collect(),
    }
}

/// A blend that cannot be computed, and why.
pub fn blend_fault(name: &str, fault: &str) -> BlendRow {
    BlendRow {
        blend: name.to_owned(),
        fault: Some(fault.to_owned()),
        ..BlendRow::default()
    }
}

/// A figure that has an end, as JSON and CSV can hold it.
fn finite(of: Option<f64>) -> Option<f64> {
    of.filter(|value| value.is_finite())
}
