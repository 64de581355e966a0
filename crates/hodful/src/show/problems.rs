//! Findings, a paragraph each. Not here: finding them.

use super::{count, paragraph};
use hodful_takeoff::{Problem, Severity};

/// Findings, those refused first.
pub(crate) fn problems(problems: &[Problem]) -> String {
    let of = |severity| problems.iter().filter(move |p| p.severity == severity);
    of(Severity::Refused)
        .chain(of(Severity::Doubtful))
        .map(|problem| {
            let mark = match problem.severity {
                Severity::Refused => "refused   ",
                Severity::Doubtful => "doubtful  ",
            };
            let source = problem
                .source
                .map(|s| format!(" [{s}]"))
                .unwrap_or_default();
            paragraph(mark, &format!("{problem}{source}"))
        })
        .collect()
}

/// Findings with their count, under the name of the project or its file.
pub(crate) fn check(name: &str, found: &[Problem]) -> String {
    let refused = found
        .iter()
        .filter(|p| p.severity == Severity::Refused)
        .count();
    let doubtful = found.len() - refused;
    let summary = match (refused, doubtful) {
        (0, 0) => paragraph("", &format!("{name}: nothing refused, nothing doubtful")),
        (refused, doubtful) => {
            let refused = match refused {
                0 => "nothing refused".to_owned(),
                n => count(n, "thing refused", "things refused"),
            };
            let doubtful = match doubtful {
                0 => "nothing doubtful".to_owned(),
                n => count(n, "thing doubtful", "things doubtful"),
            };
            format!(
                "{name}: {refused}, {doubtful}
"
            )
        }
    };
    problems(found) + &summary
}
