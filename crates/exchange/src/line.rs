//! Lines of a comparison as keys: what each is called, and its values in the International System. Not
//! here: the values.

use hodful_takeoff::Dimension;
use hodful_takeoff::compare::Line;
use serde::Serialize;

/// Which figure, by words and names.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[allow(
    missing_docs,
    reason = "the keys of the format, described with the command"
)]
pub struct LineRow {
    pub figure: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub build_up: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub coat: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub material: Option<String>,
}

/// A line by words and names.
pub(crate) fn line(of: &Line) -> LineRow {
    let figure = match of {
        Line::Surface => "surface",
        Line::Payment => "payment",
        Line::Placed { .. } => "placed",
        Line::Mixed { .. } => "mixed",
        Line::AllPlaced => "all_placed",
        Line::AllMixed => "all_mixed",
        Line::Loose(_) => "loose",
        Line::Mass(_) => "mass",
        Line::Packages(_) => "packages",
        Line::Batches => "batches",
        Line::Trips => "trips",
        Line::Cost => "cost",
        Line::Bought => "cost_with_deliveries",
    };
    let (build_up, coat) = match of {
        Line::Placed { build_up, coat } | Line::Mixed { build_up, coat } => {
            (Some(build_up.to_string()), Some(coat.to_string()))
        }
        _ => (None, None),
    };
    let material = match of {
        Line::Loose(name) | Line::Mass(name) | Line::Packages(name) => Some(name.to_string()),
        _ => None,
    };
    LineRow {
        figure,
        build_up,
        coat,
        material,
    }
}

/// The unit of a line; nothing for counts and money.
pub(crate) fn unit(of: &Line) -> &'static str {
    match of.dimension() {
        Dimension::Area => "m2",
        Dimension::Volume => "m3",
        Dimension::Mass => "kg",
        _ => "",
    }
}

/// A value of a line out of base units.
pub(crate) fn si(of: &Line, value: f64) -> f64 {
    match of.dimension() {
        Dimension::Area => value / 1e6,
        Dimension::Volume => value / 1e9,
        _ => value,
    }
}

/// A key with the unit of a line behind it: `value_m3`.
pub(crate) fn key(word: &str, of: &Line) -> String {
    match unit(of) {
        "" => word.to_owned(),
        unit => format!("{word}_{unit}"),
    }
}
