//! Ranges to begin with. Not here: limits, which are of the trade.
//!
//! Where nothing published says how far a value goes, the range is from nothing to twice what the
//! project has; where it has nothing, to what is handy: common practice, no source.

use super::{Ask, Field, Scale};
use crate::form::Subject;
use crate::project::Project;
use crate::sources;
use crate::tolerance::STEP_WITHIN;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;

/// Values of a range, both ends included: two hundred stretches, so that an inch is cut evenly.
const POINTS: usize = 201;

/// Most of a share that must leave something over.
const MOST_SHARE: f64 = 0.95;

/// Percent in a whole.
const PERCENT: f64 = 100.0;

/// An inch, mm.
const INCH: f64 = 25.4;

/// Cubic millimetres in a cubic metre: kilograms per cubic metre over it are the base unit.
const CUBIC_METRE: f64 = 1e9;

impl Ask {
    /// A field of one thing over a sensible range: a coat from nothing to two inches (50 mm) or twice
    /// what it has, whichever is more; a share to what is usual or twice what it has; all else from
    /// nothing to twice what it has.
    ///
    /// # Errors
    /// In words: there is no such field, or it holds no single number.
    pub fn usual(project: &Project, subject: Subject, key: &str) -> Result<Self, EcoString> {
        of(project, vec![subject], key)
    }

    /// The same of every coat of a name, in all build-ups together.
    ///
    /// # Errors
    /// As [`Self::usual`], and when no coat is called so.
    pub fn coat(project: &Project, name: &str, key: &str) -> Result<Self, EcoString> {
        let coats = project.build_ups.values().enumerate();
        let coats = coats.flat_map(|(build_up, coats)| {
            let named = coats.iter().enumerate().filter(|(_, c)| c.coat == name);
            named.map(move |(coat, _)| Subject::Coat { build_up, coat })
        });
        let subjects: Vec<Subject> = coats.collect();
        if subjects.is_empty() {
            return Err(eco_format!("there is no coat '{name}'"));
        }
        of(project, subjects, key)
    }
}

fn of(project: &Project, subjects: Vec<Subject>, key: &str) -> Result<Ask, EcoString> {
    let field = Field::find(project, &subjects, key)?;
    let has = field.greatest.filter(|value| *value > 0.0);
    let twice = has.map(|value| 2.0 * value).filter(|to| to.is_finite());
    let us = project.units == UnitSystem::Us;
    let or = |handy: f64| twice.unwrap_or(handy);
    let (from, to) = match &field.scale {
        Scale::Thickness => {
            let least = if us { 2.0 * INCH } else { 50.0 };
            (0.0, or(least).max(least))
        }
        Scale::Length => (0.0, or(if us { 36.0 * INCH } else { 1000.0 })),
        Scale::Share => {
            let usual = usual_share(key) / PERCENT;
            let to = or(usual).max(usual);
            let is_part = has.is_none_or(|value| value < MOST_SHARE);
            (0.0, if is_part { to.min(MOST_SHARE) } else { to })
        }
        Scale::Angle => (0.0, or(sources::USUAL_SPLAY.most.to_radians())),
        Scale::Density => (0.0, or(2000.0 / CUBIC_METRE)),
        Scale::Dose => (0.0, or(sources::USUAL_FIBRE.most / CUBIC_METRE)),
        Scale::Volume => (0.0, or(CUBIC_METRE)),
        Scale::Mass => (0.0, or(50.0)),
        Scale::Time => (0.0, or(86_400.0)),
        Scale::Temperature => (0.0, or(40.0)),
        Scale::Money => (0.0, or(100.0)),
        Scale::Number | Scale::Packages(_) => (0.0, or(10.0)),
        Scale::Count => (1.0, or(10.0).max(10.0)),
    };
    Ok(Ask {
        subjects,
        key: key.into(),
        from,
        to,
        points: POINTS,
        within: STEP_WITHIN,
    })
}

/// How far a share usually goes, %.
fn usual_share(key: &str) -> f64 {
    match key {
        "shrinkage" => sources::GREATEST_SHRINKAGE.most,
        "loss" => sources::USUAL_LOSS.most,
        "water" => sources::USUAL_WATER.most,
        "bulking" => sources::USUAL_BULKING.most,
        _ => 20.0,
    }
}
