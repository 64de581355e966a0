//! Outside formats, one module each: figures in, bytes out. Not here: computing a figure, tables for
//! people, and files.
//!
//! JSON carries the International System with the unit in each key's name, and numbers that are not
//! rounded. CSV is RFC 4180 with the same keys in its head.

mod explain;
mod measure;
mod order;
mod problems;
mod write;

pub use explain::{ExplainReport, FigureLine, FigureNode, explain};
pub use measure::{MeasureReport, measure};
pub use order::{OrderReport, order};
pub use problems::{ProblemRow, ProblemsReport, problems};
pub use write::{WriteFault, csv, json};
