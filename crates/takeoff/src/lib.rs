//! A project as an estimator thinks of it, checked, evaluated to figures, and explained.
//!
//! - [`project`]: walls, faces, openings, coats, mixes, materials, as typed;
//! - [`check()`]: everything refused, all at once, each with its place;
//! - [`evaluate()`]: surfaces, coats, materials, the order;
//! - [`doubts()`]: what is doubtful, with its source;
//! - [`explain()`]: any figure as a tree down to what was typed;
//! - [`Assessed`]: all of these in one call.
//!
//! Not here: files, formats, terminals. Nothing here touches anything outside, and nothing panics.

pub mod alternative;
mod assess;
pub mod bench;
pub mod blend;
pub mod card;
mod caution;
pub mod chances;
pub mod change;
pub mod check;
mod checked;
pub mod compare;
pub mod days;
pub mod doubts;
pub mod drawing;
pub mod evaluate;
pub mod explain;
mod fields;
pub mod figure;
pub mod forecast;
pub mod form;
pub mod headline;
pub mod packages;
pub mod plan;
pub mod problem;
pub mod project;
pub mod rule;
pub mod soil;
pub mod sources;
pub mod supply;
pub mod sweep;
mod tolerance;

/// What of the air and the weather the days are told in.
pub mod air {
    pub use hodful_air::Weather;
    pub use hodful_air::drying::Origin;
    pub use hodful_air::frost::Verdict;
}

/// What of a plan the days are told in.
pub mod workplan {
    pub use hodful_workplan::{Crew, Notice};
}

pub use assess::Assessed;
pub use caution::{Caution, When};
pub use check::check;
pub use checked::{Checked, CheckedMixer};
pub use doubts::{all_problems, doubts};
pub use evaluate::{CoatFigures, Evaluation, FaceFigures, MaterialFigures, evaluate};
pub use explain::{PathFault, explain};
pub use figure::{Dimension, Figure, Formula, Node};
pub use headline::Headline;
pub use problem::{Place, Problem, Severity};
pub use project::{Project, Side};
pub use rule::{Band, Deduct, Rule, RuleBook};
