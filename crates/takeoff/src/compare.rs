//! Projects side by side: what each comes to, and what makes the difference. Not here: how options are
//! made (see `crate::alternative`), and formats.

mod causes;
mod chain;
mod line;
pub mod said;
mod table;
#[cfg(test)]
mod tests;
mod walls;

pub use causes::{Cause, Causes, Pair, Term, causes};
pub use line::Line;
pub use table::{Row, Table, line_of_material, lines, table};
pub use walls::{FieldChange, WallChange, walls};

use crate::checked::Site;
use crate::evaluate::Evaluation;
use crate::project::Project;
use crate::supply::Supply;

/// One of those that are compared.
#[derive(Debug, Clone, Copy)]
pub struct One<'p> {
    /// As typed.
    pub project: &'p Project,
    pub(crate) site: &'p Site,
    /// Its figures.
    pub evaluation: &'p Evaluation,
    /// What to buy from whom, when that was planned.
    pub supply: Option<&'p Supply>,
}
