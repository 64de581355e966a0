//! What documents are made from. Not here: making them.

use crate::Foot;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::{Assessed, Caution, Problem, Project, Severity};

/// What documents are made from: a project, its figures when nothing is refused, and what stands beside
/// them.
///
/// ```
/// use hodful_documents::{Facts, Foot, order_list};
/// use hodful_takeoff::{Assessed, Project};
/// # fn show(project: &Project) {
/// let rules = hodful_project_file::rules();
/// let cautions = hodful_project_file::cautions();
/// let assessed = Assessed::new(project, &rules);
/// let rule = rules.get(&project.measurement_rule);
/// let foot = Foot::new("shed.json", "2026-03-01", "Hodful 0.1.0", rule, project.units);
/// let facts = Facts::new(project, &assessed, &cautions, foot);
/// let order = order_list(&facts, Vec::new());
/// # }
/// ```
#[derive(Debug, Clone)]
pub struct Facts<'a> {
    /// As typed.
    pub project: &'a Project,
    /// Its figures; `None` while something is refused: then a document says so in their place.
    pub assessed: Option<&'a Assessed<'a>>,
    /// What is refused and what is doubtful.
    pub problems: &'a [Problem],
    /// Every caution; those that the work calls for are printed.
    pub cautions: &'a [Caution],
    /// What stands at the foot of each page.
    pub foot: Foot,
}

impl<'a> Facts<'a> {
    /// From a project and what came of assessing it.
    pub fn new(
        project: &'a Project,
        assessed: &'a Result<Assessed<'a>, Vec<Problem>>,
        cautions: &'a [Caution],
        foot: Foot,
    ) -> Self {
        let (assessed, problems) = match assessed {
            Ok(assessed) => (Some(assessed), assessed.doubts.as_slice()),
            Err(problems) => (None, problems.as_slice()),
        };
        Self {
            project,
            assessed,
            problems,
            cautions,
            foot,
        }
    }

    /// The units of the project, which its documents speak in.
    pub fn units(&self) -> UnitSystem {
        self.project.units
    }

    /// How many things are refused.
    pub(crate) fn refused(&self) -> usize {
        let is = |problem: &&Problem| problem.severity == Severity::Refused;
        self.problems.iter().filter(is).count()
    }

    /// How many things are doubtful.
    pub(crate) fn doubtful(&self) -> usize {
        self.problems.len() - self.refused()
    }
}
