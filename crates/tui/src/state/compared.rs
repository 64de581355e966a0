//! Options side by side, worked out once for a state of the project, off the key path. Not here: how it
//! looks, and the figures themselves (see `hodful_takeoff::compare`).

use ecow::EcoString;
use hodful_takeoff::alternative;
use hodful_takeoff::compare::{Causes, Line, Table, causes, lines, table};
use hodful_takeoff::project::Name;
use hodful_takeoff::supply::Supply;
use hodful_takeoff::{Assessed, Project, RuleBook, Severity};
use std::sync::Arc;

/// The project as it stands and its options, side by side.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Compared {
    /// The figures: the project first, then those of its options that fit. `None` while the project itself
    /// is refused.
    pub table: Option<Table>,
    /// By option, the column that it has in the table, or why it has none.
    pub options: Vec<Result<usize, Vec<EcoString>>>,
    /// By column, what makes the difference to the project as it stands.
    pub causes: Vec<Vec<(Line, Causes)>>,
}

/// Compares every option with the project. It may take some milliseconds an option, and
/// a tenth of a second where there are several suppliers.
pub fn compare(project: &Project, rules: &RuleBook) -> Compared {
    let made: Vec<Result<(Name, Project), Vec<EcoString>>> = project
        .options
        .keys()
        .map(|name| match alternative::apply(project, name) {
            Ok(made) => Ok((name.clone(), made)),
            Err(problems) => Err(problems.iter().map(|p| ecow::eco_format!("{p}")).collect()),
        })
        .collect();
    let Ok(base) = Assessed::new(project, rules) else {
        let words = || vec!["the project itself is refused: see the problems".into()];
        return Compared {
            options: made.iter().map(|_| Err(words())).collect(),
            ..Compared::default()
        };
    };
    let base_supply = planned(project, &base);
    let base_one = base.one(base_supply.as_ref());
    let mut assessed = Vec::new();
    let mut options = Vec::new();
    for one in &made {
        options.push(match one {
            Err(words) => Err(words.clone()),
            Ok((name, made)) => match Assessed::new(made, rules) {
                Ok(of) => {
                    let supply = planned(made, &of);
                    assessed.push((name.clone(), of, supply));
                    Ok(assessed.len())
                }
                Err(problems) => {
                    let refused = problems.iter();
                    let refused = refused.filter(|p| p.severity == Severity::Refused);
                    Err(refused.map(|p| ecow::eco_format!("{p}")).collect())
                }
            },
        });
    }
    let mut all = vec![(alternative::as_it_stands(project), base_one)];
    let options_told = assessed.iter();
    all.extend(options_told.map(|(name, of, supply)| (name.clone(), of.one(supply.as_ref()))));
    let differences = all.iter().map(|(_, one)| {
        let mut wanted = lines(&base_one);
        for line in lines(one) {
            if !wanted.contains(&line) {
                wanted.push(line);
            }
        }
        let told = wanted.into_iter().filter_map(|line| {
            let causes = causes(&base_one, one, &line)?;
            (causes.difference() != 0.0).then_some((line, causes))
        });
        told.collect()
    });
    Compared {
        causes: differences.collect(),
        table: Some(table(0, &all)),
        options,
    }
}

/// What is bought from whom, where there are suppliers and it can be told.
fn planned(project: &Project, of: &Assessed<'_>) -> Option<Supply> {
    if project.suppliers.is_empty() {
        return None;
    }
    of.supply().ok()
}

/// What was compared, with the project that it is of.
pub(crate) type Kept = Option<(Arc<Project>, Compared)>;
