//! A figure and how it came about: a value, a formula over its terms, and the terms themselves down
//! to what was typed. Not here: which figures there are (see `explain`) and how they are computed.

mod words;

use crate::problem::Place;
use ecow::EcoString;
use hodful_quantities::print::UnitSystem;

/// What a figure measures. Values are in the millimetre-base system: mm, mm², mm³, kg, kg/mm³, rad.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// Millimetres.
    Length,
    /// Square millimetres.
    Area,
    /// Cubic millimetres.
    Volume,
    /// Kilograms.
    Mass,
    /// Kilograms per cubic millimetre.
    Density,
    /// Radians.
    Angle,
    /// A plain number or share.
    Number,
    /// Whole things.
    Count,
    /// Money, in the project's currency.
    Money,
}

/// Factors to the coherent units a formula is printed in, so that it can be worked on a calculator:
/// feet and pounds, or metres and kilograms.
///
/// Source: National Institute of Standards and Technology, SP 811 (2008), app. B: 1 ft = 0.3048 m and
/// 1 lb = 0.453 592 37 kg exactly.
impl Dimension {
    /// What a value in base units is multiplied by.
    pub fn factor(self, units: UnitSystem) -> f64 {
        let (length, mass) = match units {
            UnitSystem::Us => (304.8, 0.453_592_37),
            UnitSystem::Metric => (1000.0, 1.0),
        };
        match self {
            Self::Length => 1.0 / length,
            Self::Area => 1.0 / (length * length),
            Self::Volume => 1.0 / (length * length * length),
            Self::Mass => 1.0 / mass,
            Self::Density => length * length * length / mass,
            Self::Angle | Self::Number | Self::Count | Self::Money => 1.0,
        }
    }

    /// The coherent unit, as printed behind a number.
    pub fn unit(self, units: UnitSystem) -> &'static str {
        match (self, units) {
            (Self::Length, UnitSystem::Us) => "ft",
            (Self::Area, UnitSystem::Us) => "ft²",
            (Self::Volume, UnitSystem::Us) => "ft³",
            (Self::Mass, UnitSystem::Us) => "lb",
            (Self::Density, UnitSystem::Us) => "lb/ft³",
            (Self::Length, UnitSystem::Metric) => "m",
            (Self::Area, UnitSystem::Metric) => "m²",
            (Self::Volume, UnitSystem::Metric) => "m³",
            (Self::Mass, UnitSystem::Metric) => "kg",
            (Self::Density, UnitSystem::Metric) => "kg/m³",
            (Self::Angle, _) => "°",
            (Self::Number | Self::Count | Self::Money, _) => "",
        }
    }
}

/// One figure: a value in base units and what it measures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// In base units.
    pub value: f64,
    /// What it measures.
    pub dimension: Dimension,
}

/// How a figure follows from the terms below it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Formula {
    /// It is typed, a default, or a constant.
    Given,
    /// All terms added.
    Sum,
    /// A formula over the terms: `#0` stands for the first, `#1` for the second; the signs are
    /// `+ − × ÷ ² ( )`, the functions `tan`, `cos`, `max` and `min`, and `π`.
    Of(&'static str),
    /// The terms went into it by a computation that no short formula says; the label tells which.
    From,
}

/// One node of an explanation.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// What it is called.
    pub label: EcoString,
    /// The figure.
    pub figure: Figure,
    /// How it follows from the terms.
    pub formula: Formula,
    /// The terms.
    pub terms: Vec<Node>,
    /// The text it was typed as.
    pub typed: Option<EcoString>,
    /// Where it was typed.
    pub place: Option<Place>,
    /// The published source of the rule, or why the default is what it is.
    pub source: Option<EcoString>,
    /// The path by which this figure can be asked for alone.
    pub path: Option<EcoString>,
}

impl Node {
    /// A node with a formula.
    pub fn new(
        label: impl Into<EcoString>,
        dimension: Dimension,
        value: f64,
        formula: Formula,
        terms: Vec<Self>,
    ) -> Self {
        Self {
            label: label.into(),
            figure: Figure { value, dimension },
            formula,
            terms,
            typed: None,
            place: None,
            source: None,
            path: None,
        }
    }

    /// A node without terms.
    pub fn given(label: impl Into<EcoString>, dimension: Dimension, value: f64) -> Self {
        Self::new(label, dimension, value, Formula::Given, Vec::new())
    }

    /// The sum of its terms.
    pub fn sum(
        label: impl Into<EcoString>,
        dimension: Dimension,
        value: f64,
        terms: Vec<Self>,
    ) -> Self {
        Self::new(label, dimension, value, Formula::Sum, terms)
    }

    /// With the source of its rule.
    #[must_use]
    pub fn with_source(mut self, source: impl Into<EcoString>) -> Self {
        self.source = Some(source.into());
        self
    }

    /// With what was typed, and where.
    #[must_use]
    pub fn with_typed(mut self, text: impl Into<EcoString>, place: Place) -> Self {
        self.typed = Some(text.into());
        self.place = Some(place);
        self
    }

    /// With the path by which it can be asked for alone.
    #[must_use]
    pub fn with_path(mut self, path: impl Into<EcoString>) -> Self {
        self.path = Some(path.into());
        self
    }

    /// With the place it belongs to.
    #[must_use]
    pub fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }
}
