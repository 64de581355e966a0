//! The project that is read and how figures are printed: what most commands have. Not here: what one command has.

use clap::{Args, ValueEnum};
use hodful_quantities::print::UnitSystem;
use hodful_soils::sizes::System;
use std::path::PathBuf;

/// The project to read.
#[derive(Debug, Clone, Args)]
pub(crate) struct Input {
    /// The project file; - reads standard input
    pub(crate) file: PathBuf,
}

/// How to print figures.
#[derive(Debug, Clone, Copy, Args)]
pub(crate) struct Output {
    /// How to print
    #[arg(long, value_enum, default_value_t = Format::Table)]
    pub(crate) format: Format,
    /// Units of the table, over those of the project; JSON and CSV are always metric
    #[arg(long, value_enum)]
    pub(crate) units: Option<Units>,
}

/// How figures are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Format {
    /// For people, at most 80 columns wide
    Table,
    /// JSON, International System, not rounded
    Json,
    /// CSV (RFC 4180), International System, not rounded
    Csv,
}

/// Systems of particle sizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Sizes {
    /// Sand from 0.05 mm
    #[value(name = "USDA")]
    Usda,
    /// Sand from 0.063 mm
    #[value(name = "ISO")]
    Iso,
    /// Sand from 0.075 mm
    #[value(name = "ASTM")]
    Astm,
}

impl From<Sizes> for System {
    fn from(sizes: Sizes) -> Self {
        match sizes {
            Sizes::Usda => Self::Usda,
            Sizes::Iso => Self::Iso,
            Sizes::Astm => Self::Astm,
        }
    }
}

/// Documents that can be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum What {
    /// What to order, and from whom
    Order,
    /// Every wall and opening as typed, drawn, with its surfaces
    Dimensions,
    /// The cards beside the mixer
    Card,
    /// The chief figures, coats, build-ups and what is doubtful
    Summary,
    /// Options side by side, and what makes the differences
    Comparison,
    /// How sure the figures are, and what is enough nine times out of ten
    Chances,
    /// What the rest takes, by what the walls took so far
    Forecast,
    /// Who does what when, and when it is dry
    Plan,
    /// All of these
    All,
}

/// The units of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Units {
    /// Feet, cubic feet and yards, pounds
    Us,
    /// Metres, litres, kilograms
    Metric,
}

impl From<Units> for UnitSystem {
    fn from(units: Units) -> Self {
        match units {
            Units::Us => Self::Us,
            Units::Metric => Self::Metric,
        }
    }
}
