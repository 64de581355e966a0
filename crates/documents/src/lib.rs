//! What is handed over, as documents: headings, words, tables, pictures, cautions and a foot, with no
//! format.
//!
//! - [`order_list`]: what to order, in which packages;
//! - [`deliveries`]: who brings it, when, as a part of that list;
//! - [`batch_cards`]: what goes into the mixer;
//! - [`dimension_sheet`]: every wall and opening as it was typed, drawn, and its surfaces;
//! - [`summary`]: the figures on a page or two, the coats, what is refused and what is doubtful;
//! - [`comparison`]: options side by side, and what makes the differences;
//! - [`forecast`]: what the walls took so far, and what the rest takes;
//! - [`chances`]: how sure the figures are, and what is ordered so as not to be short;
//! - [`work_plan`]: the days on site.
//!
//! Each is made from [`Facts`]. A document has no rounding left to do: every figure stands in it as it is
//! shown, beside its value in the same unit. Not here: formats (see the exchange crate) and computing a
//! figure.

mod batch_card;
mod beside;
mod cells;
mod chances;
mod comparison;
mod deliveries;
mod dimension_sheet;
mod facts;
mod forecast;
mod order_list;
mod pictures;
mod summary;
mod tolerance;
mod words;
mod work_plan;

pub use batch_card::batch_cards;
pub use beside::{Beside, is_seen};
pub use chances::chances;
pub use comparison::{comparison, comparison_of_projects, digits, unit_of};
pub use deliveries::deliveries;
pub use dimension_sheet::dimension_sheet;
pub use facts::Facts;
pub use forecast::forecast;
pub use order_list::order_list;
pub use pictures::elevation;
pub use summary::summary;
pub use words::without_package;
pub use work_plan::{days, weekend, weekend_plan, work_plan};

use ecow::EcoString;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Rule;
use hodful_takeoff::drawing::Drawing;

/// A document that is handed over.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Which it is.
    pub paper: Paper,
    /// What it is called: `Order list`.
    pub title: EcoString,
    /// What it is about: the name of the project, and what else stands in one line.
    pub about: EcoString,
    /// What it says, in order.
    pub blocks: Vec<Block>,
    /// What stands at the foot of each page.
    pub foot: Foot,
    /// The units it speaks in; they decide the size of the paper and the scales of drawings.
    pub units: UnitSystem,
}

/// The documents there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Paper {
    /// What to order, from whom, in which packages.
    Order,
    /// Every wall and opening with what was typed and where it came from.
    Dimensions,
    /// What goes into the mixer, to be read from two metres.
    BatchCard,
    /// Surfaces, volumes and what is doubtful, on a page or two.
    Summary,
    /// Options side by side.
    Comparison,
    /// What the rest takes, by what the walls took so far.
    Forecast,
    /// How sure the figures are.
    Chances,
    /// The days on site.
    WorkPlan,
}

/// One piece of a document.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A heading within the document.
    Heading(EcoString),
    /// A paragraph.
    Words(EcoString),
    /// A table.
    Table(Table),
    /// A drawing to scale.
    Picture(Picture),
    /// Cautions for the work, each a line with its source.
    Cautions(Vec<EcoString>),
    /// Lines in letters that are read from two metres.
    Card(Vec<CardLine>),
    /// What follows begins a new page where there are pages.
    NewPage,
}

/// A table. Each row has a cell for each column.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<Row>,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// What stands over it.
    pub head: EcoString,
    /// The unit of its figures: `ft²`; empty when there is none or each cell has its own.
    pub unit: EcoString,
    /// Whether its cells stand against the right edge, as figures do.
    pub right: bool,
    /// How much of the width it wants against the others.
    pub width: f64,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its cells.
    pub cells: Vec<Cell>,
    /// How it stands to the others.
    pub kind: RowKind,
}

/// How a row stands to the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowKind {
    /// One of many.
    Body,
    /// Names what follows it; its first cell goes across.
    Group,
    /// A sum of those over it.
    Total,
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Cell {
    /// Nothing.
    #[default]
    Empty,
    /// Words; a line break in them is one where lines can be broken.
    Words(EcoString),
    /// A figure, with its unit when the column has none.
    Figure {
        /// As it is shown: `1,204.5`.
        shown: EcoString,
        /// Not rounded, in the unit in which it is shown.
        value: f64,
        /// Decimals shown.
        decimals: u8,
    },
}

impl Cell {
    /// What is shown in it; nothing in an empty one.
    pub fn shown(&self) -> &str {
        match self {
            Self::Empty => "",
            Self::Words(words) => words,
            Self::Figure { shown, .. } => shown,
        }
    }
}

/// A drawing with what stands under it.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// The drawing, in millimetres.
    pub drawing: Drawing,
    /// What it is: `Wall S, outside`.
    pub caption: EcoString,
    /// Whether lengths in it mean lengths, so that it is drawn to a scale and says which. Not so for a
    /// chart.
    pub to_scale: bool,
    /// The most of the width of a page that it may take, 0 to 1; two of less than half stand side by side.
    pub share: f64,
    /// Whether it may take the whole height of a page, where others leave room for a second.
    pub is_tall: bool,
}

/// A line that is read from two metres.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardLine {
    /// What goes in: `yard sand`.
    pub what: EcoString,
    /// How many, large: `7 1/4 buckets`.
    pub count: EcoString,
    /// The same otherwise, small: `36 L, 55 kg`.
    pub also: EcoString,
}

/// What stands at the foot of each page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Foot {
    /// The file the figures come from.
    pub file: EcoString,
    /// The day it was made, as year-month-day.
    pub date: EcoString,
    /// The measurement rule.
    pub rule: EcoString,
    /// The units.
    pub units: EcoString,
    /// Name and version of the program.
    pub version: EcoString,
}

impl Foot {
    /// The foot of a document whose figures come from `file`, made on `date` (year-month-day) by the
    /// program `version`, with the measurement rule of the project and its units in words.
    pub fn new(
        file: impl Into<EcoString>,
        date: impl Into<EcoString>,
        version: impl Into<EcoString>,
        rule: Option<&Rule>,
        units: UnitSystem,
    ) -> Self {
        let rule = rule.map(|rule| ecow::eco_format!("measured for payment: {}", rule.title));
        Self {
            file: file.into(),
            date: date.into(),
            rule: rule.unwrap_or_default(),
            units: match units {
                UnitSystem::Us => "feet, inches, cubic yards, pounds".into(),
                UnitSystem::Metric => "metres, litres, kilograms".into(),
            },
            version: version.into(),
        }
    }
}
