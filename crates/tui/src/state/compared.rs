//! Options side by side, worked out once for a state of the project, off the key path. Not here: how it
//! looks, and the figures themselves (see `hodful_takeoff::compare`).

use ecow::{EcoString, eco_format};
use hodful_takeoff::alternative;
use hodful_takeoff::compare::{Causes, Line, One, Pair, Table, table};
use hodful_takeoff::project::Name;
use hodful_takeoff::supply::Supply;
use hodful_takeoff::{Assessed, Project, RuleBook, Severity};
use std::sync::Arc;

/// The project as it stands and its options, side by side.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Compared {
    /// The option that was asked for as the base; the project as it stands when none was.
    pub base: Option<Name>,
    /// The figures: the project first, then those of its options that fit, held against the base. It is the project
    /// where the option that was asked for cannot be had. `None` while the project itself is refused.
    pub table: Option<Table>,
    /// By option, the column that it has in the table, or why it has none.
    pub options: Vec<Result<usize, Vec<EcoString>>>,
    /// By column, what makes the difference to the base.
    pub causes: Vec<Vec<(Line, Causes)>>,
    /// By column, why what to buy from whom could not be planned; nothing where it was, or nobody delivers.
    pub not_planned: Vec<Option<EcoString>>,
}

/// Compares every option with the project, or with one of them. It may take some milliseconds an option, and
/// a tenth of a second where there are several suppliers.
pub fn compare(project: &Project, rules: &RuleBook, base: Option<&Name>) -> Compared {
    let asked = base.cloned();
    let made: Vec<Result<(Name, Project), Vec<EcoString>>> = project
        .options
        .keys()
        .map(|name| match alternative::apply(project, name) {
            Ok(made) => Ok((name.clone(), made)),
            Err(problems) => Err(problems.iter().map(|p| eco_format!("{p}")).collect()),
        })
        .collect();
    let Ok(as_it_is) = Assessed::new(project, rules) else {
        let words = || vec!["the project itself is refused: see the problems".into()];
        return Compared {
            base: asked,
            options: made.iter().map(|_| Err(words())).collect(),
            ..Compared::default()
        };
    };
    let supply = planned(project, &as_it_is);
    let mut assessed = vec![(alternative::as_it_stands(project), as_it_is, supply)];
    let mut options = Vec::new();
    for one in &made {
        options.push(match one {
            Err(words) => Err(words.clone()),
            Ok((name, made)) => match Assessed::new(made, rules) {
                Ok(of) => {
                    let supply = planned(made, &of);
                    let column = assessed.len();
                    assessed.push((name.clone(), of, supply));
                    Ok(column)
                }
                Err(problems) => {
                    let refused = problems.iter();
                    let refused = refused.filter(|p| p.severity == Severity::Refused);
                    Err(refused.map(|p| eco_format!("{p}")).collect())
                }
            },
        });
    }
    let all: Vec<(Name, One<'_>)> = assessed
        .iter()
        .map(|(name, of, supply)| {
            let supply = supply.as_ref().and_then(|supply| supply.as_ref().ok());
            (name.clone(), of.one(supply))
        })
        .collect();
    let column = base.and_then(|name| project.options.get_index_of(name));
    let column = column.and_then(|at| options.get(at)?.as_ref().ok().copied());
    let base_at = column.unwrap_or(0);
    let table = table(base_at, &all);
    let lines = || table.rows.iter().map(|row| &row.line);
    let differences = all.iter().enumerate().map(|(at, (_, one))| {
        let Some((_, base)) = all.get(base_at).filter(|_| at != base_at) else {
            return Vec::new();
        };
        let pair = Pair::new(base, one);
        let told = lines().filter_map(|line| {
            let causes = pair.causes(line)?;
            (causes.difference() != 0.0).then(|| (line.clone(), causes))
        });
        told.collect()
    });
    let not_planned = assessed.iter().map(|(_, _, supply)| {
        let why = supply.as_ref()?.as_ref().err()?;
        Some(why.clone())
    });
    Compared {
        base: asked,
        causes: differences.collect(),
        not_planned: not_planned.collect(),
        options,
        table: Some(table),
    }
}

/// What is bought from whom, where there are suppliers, or why it cannot be told.
type Planned = Option<Result<Supply, EcoString>>;

fn planned(project: &Project, of: &Assessed<'_>) -> Planned {
    (!project.suppliers.is_empty()).then(|| of.supply())
}

/// What was compared, with the project that it is of.
pub(crate) type Kept = Option<(Arc<Project>, Compared)>;
