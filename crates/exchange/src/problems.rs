//! Findings as rows. Not here: finding them.

use hodful_takeoff::{Problem, Severity};
use serde::Serialize;

/// One finding.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ProblemRow {
    /// `refused` or `doubtful`.
    pub severity: &'static str,
    /// Where it is.
    pub place: String,
    /// What is wrong and what to do.
    pub message: String,
    /// The code or handbook behind it.
    pub source: Option<&'static str>,
}

/// All findings of a project.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ProblemsReport {
    /// `hodful-check`.
    pub format: &'static str,
    /// Version of this format.
    pub version: u32,
    /// What the project is called, when it could be read.
    pub project: Option<String>,
    /// Every finding.
    pub problems: Vec<ProblemRow>,
}

/// The report of all findings.
pub fn problems(project: Option<&str>, problems: &[Problem]) -> ProblemsReport {
    ProblemsReport {
        format: "hodful-check",
        version: 1,
        project: project.map(str::to_owned),
        problems: problems.iter().map(row).collect(),
    }
}

pub(crate) fn row(problem: &Problem) -> ProblemRow {
    ProblemRow {
        severity: match problem.severity {
            Severity::Refused => "refused",
            Severity::Doubtful => "doubtful",
        },
        place: problem.place.to_string(),
        message: problem.message.to_string(),
        source: problem.source,
    }
}
