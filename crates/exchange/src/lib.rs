//! Outside formats, one module each: figures or documents in, bytes out. Not here: computing a figure,
//! what stands in a document, and files.
//!
//! JSON carries the International System with the unit in each key's name, and numbers that are not
//! rounded. CSV is RFC 4180 with the same keys in its head.

mod blends;
mod card;
mod chances;
mod compare;
mod days;
mod explain;
mod fault;
mod forecast;
mod html;
mod letters;
mod line;
mod markdown;
mod measure;
mod order;
mod pdf;
mod picture;
mod problems;
mod soils;
mod svg;
mod sweep;
mod tolerance;
mod write;
mod xlsx;
mod xml;

pub mod icalendar;

pub use blends::{BlendRow, BlendsReport, ImpossibleRow, MissRow, ReachRow, blend, blend_fault};
pub use card::{CardsReport, cards};
pub use chances::{ChancesLine, ChancesReport, chances, chances_lines};
pub use compare::{CompareLine, CompareReport, compare, compare_lines};
pub use days::{DaysReport, WeekendReport, days, days_calendar, weekend, weekend_calendar};
pub use explain::{ExplainReport, FigureLine, FigureNode, explain};
pub use fault::PaperFault;
pub use forecast::{ForecastReport, forecast};
pub use html::html;
pub use markdown::markdown;
pub use measure::{MeasureReport, measure};
pub use order::{AllReport, OrderReport, PlannedLine, SupplyReport, order};
pub use pdf::pdf;
pub use problems::{ProblemRow, ProblemsReport, problems};
pub use soils::{GrainsRow, HandRow, KnownRow, SettleReport, SoilRow, SoilsReport, settle, soils};
pub use svg::svg;
pub use sweep::{SweepReport, sweep};
pub use write::{WriteFault, csv, json};
pub use xlsx::xlsx;
