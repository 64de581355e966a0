//! How sure the figures are and what the records of the work say, worked out once for a state of the
//! project, off the key path. Not here: how it looks, and the figures themselves (see
//! `hodful_takeoff::chances` and `hodful_takeoff::forecast`).

use ecow::EcoString;
use hodful_takeoff::chances::{Chances, USUAL_DRAWS, USUAL_SEED};
use hodful_takeoff::forecast::Forecast;
use hodful_takeoff::{Assessed, Project, RuleBook};
use std::sync::Arc;

/// What is foreseen of a project.
#[derive(Debug, Clone, PartialEq)]
pub struct Foreseen {
    /// How sure the figures are.
    pub chances: Result<Chances, EcoString>,
    /// What the records say of the rest.
    pub forecast: Result<Forecast, EcoString>,
}

/// Looks ahead. It may take some tenths of a second for a large project.
pub fn foresee(project: &Project, rules: &RuleBook) -> Foreseen {
    let Ok(of) = Assessed::new(project, rules) else {
        let words = EcoString::from("something of the project is refused: see the problems");
        return Foreseen {
            chances: Err(words.clone()),
            forecast: Err(words),
        };
    };
    Foreseen {
        chances: Chances::draw(&of.one(None), USUAL_DRAWS, USUAL_SEED),
        forecast: of.forecast(),
    }
}

/// What was foreseen, with the project that it is of.
pub(crate) type Kept = Option<(Arc<Project>, Foreseen)>;
