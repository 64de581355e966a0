//! What the rest of the work takes, learned from what the walls took so far, and what is still to order.
//!
//! A record says what a coat took on some faces. What had been worked out for those faces stands beside
//! it, and the ratio of both tells how far the rest is likely to be off: a little after one small record,
//! almost as much as was seen after many large ones. What is on the wall is not forecast again, and what
//! came and was used is counted. What was thought before is what the draws have of the coat (see
//! [`crate::chances`]).
//!
//! - [`Learned`]: by name of coat, what the records say together;
//! - [`CoatForecast`]: by build-up and coat, what is done and what is left;
//! - [`MaterialForecast`]: by material, what was used, what lies in the yard, what is still to order, beside
//!   what that would be had every wall taken what was worked out.
//!
//! Without a record the rest is the whole, times the middle of what was thought before. Where that is nothing else than
//! what is worked out, the order is the plain one, to the last bit. How sure that order is, the draws say; once work is
//! recorded, of which they know nothing, what is enough for the rest 9 times out of 10 stands beside the middle.
//!
//! What is recorded is read with the mixer, the coats and the mixes that the project has now.
//!
//! Not here: the checking of records (see `check::done`) and the surfaces of faces (see
//! [`crate::evaluate()`]).

mod faces;
mod learned;
mod materials;
pub mod said;
#[cfg(test)]
mod tests;
pub(crate) mod unusual;

pub(crate) use faces::parts;
pub use learned::{Before, Learned, Observation};
pub use materials::{MaterialForecast, Needed};

use crate::chances::belief::{Beliefs, beliefs};
use crate::check::done::{deliveries, records};
use crate::check::values::Values;
use crate::checked::FindWall;
use crate::compare::One;
use crate::project::Name;
use ecow::EcoString;
use faces::Seen;
use hodful_quantities::Batches;
use hodful_quantities::units::Volume;
use std::collections::HashSet;
use std::iter::zip;

/// What the rest of a project takes.
#[derive(Debug, Clone, PartialEq)]
pub struct Forecast {
    /// By name of coat, in the order of the project: what was learned.
    pub learned: Vec<Learned>,
    /// By build-up and coat, those that are on some face and can be told.
    pub coats: Vec<CoatForecast>,
    /// Materials that some coat takes or that came, in the order of the project.
    pub materials: Vec<MaterialForecast>,
    /// Materials that cannot be told while something is refused.
    pub waiting: Vec<Name>,
    /// Numbers of the records that count for nothing: something in them, in their walls or in their coat
    /// is refused, or nothing was worked out for them.
    pub records_left_out: Vec<usize>,
    /// Numbers of the deliveries that count for nothing, because something in them is refused.
    pub deliveries_left_out: Vec<usize>,
}

/// What is left of one coat of one build-up. Volumes are of mixed plaster.
#[derive(Debug, Clone, PartialEq)]
pub struct CoatForecast {
    /// Name of the build-up.
    pub build_up: Name,
    /// Name of the coat.
    pub coat: Name,
    /// Worked out for all faces.
    pub whole: Volume,
    /// Worked out for the faces that are recorded.
    pub recorded: Volume,
    /// What those took; a record over several build-ups is shared out by what was worked out for each.
    pub took: Volume,
    /// Worked out for the rest.
    pub rest: Volume,
    /// What the rest is forecast at: this many times what was worked out.
    pub factor: f64,
    /// How far the records decide that factor, and not what was thought before: from 0 to 1.
    pub weight: f64,
    /// Forecast for the rest: the middle.
    pub forecast_rest: Volume,
    /// What is enough for the rest 9 times out of 10.
    pub enough_rest: Volume,
    /// What was taken, and what is forecast for the rest.
    pub forecast_whole: Volume,
    /// Loads of the mixer for the rest, as forecast; `None` without a mixer.
    pub batches: Option<Batches>,
    /// Loads of the mixer for the rest, as worked out.
    pub batches_worked_out: Option<Batches>,
}

/// One coat of one build-up, as positions.
pub(crate) type CoatAt = (usize, usize);

impl Forecast {
    /// Of a project whose walls are found there.
    ///
    /// # Errors
    /// In words: that there is no coat to forecast.
    pub(crate) fn of(one: &One<'_>, walls: &dyn FindWall) -> Result<Self, EcoString> {
        // What is refused is told by the check; here it counts for nothing.
        let mut values = Values::default();
        let mixer = one.site.mixer.as_ref();
        let records = records(one.project, mixer, &mut values);
        let deliveries = deliveries(one.project, one.site, &mut values);
        let records_count = records.len();
        let seen: Vec<Seen<'_>> = records
            .into_iter()
            .flatten()
            .filter_map(|record| Seen::of(one, walls, record))
            .collect();
        let done = faces::Done::of(&seen);
        let rest = faces::Rest::of(one, walls, &seen);
        let Beliefs {
            coats: believed,
            delivered,
        } = beliefs(one);
        let learned = learned::all(believed, &seen, &rest);
        let coats = coats(one, &learned, &done, &rest);
        if coats.is_empty() {
            return Err("there is nothing to forecast: no face has a coat that can be told".into());
        }
        let parts: Vec<CoatForecast> = coats.iter().map(|(_, coat)| coat.clone()).collect();
        let delivered = (!seen.is_empty()).then_some(delivered.as_slice());
        let (materials, waiting) = materials::all(one, &coats, &deliveries, delivered);
        let counts: HashSet<usize> = seen.iter().map(|seen| seen.record.number).collect();
        Ok(Self {
            learned,
            coats: parts,
            materials,
            waiting,
            records_left_out: (1..=records_count)
                .filter(|n| !counts.contains(n))
                .collect(),
            deliveries_left_out: zip(1.., &deliveries)
                .filter_map(|(number, came)| came.is_none().then_some(number))
                .collect(),
        })
    }

    /// What was learned of a coat.
    pub fn learned(&self, coat: &str) -> Option<&Learned> {
        self.learned.iter().find(|learned| learned.coat == coat)
    }

    /// Whether some record counts.
    pub fn has_records(&self) -> bool {
        self.learned.iter().any(|learned| !learned.seen.is_empty())
    }

    /// Loads of the mixer for the rest of all coats; `None` without a mixer.
    pub fn batches(&self) -> Option<u64> {
        let each = self.coats.iter().map(|coat| Some(coat.batches?.loads));
        each.sum()
    }
}

/// Every coat that is on some face and can be told.
fn coats(
    one: &One<'_>,
    learned: &[Learned],
    done: &faces::Done,
    rest: &faces::Rest<'_>,
) -> Vec<(CoatAt, CoatForecast)> {
    let working = one.site.mixer.map(|mixer| mixer.working_volume);
    let batches = |mixed| Batches::new(mixed, working?);
    let volume = |mm3: f64| Volume {
        value: mm3,
        ..Volume::default()
    };
    let mut coats = Vec::new();
    let figures = &one.evaluation.coats;
    for (b, ((build_up, names), figures)) in zip(&one.project.build_ups, figures).enumerate() {
        for (c, (coat, figures)) in zip(names, figures).enumerate() {
            let Some(figures) = figures.as_ref().filter(|f| f.volume.mixed.value > 0.0) else {
                continue;
            };
            let learned = learned.iter().find(|learned| learned.coat == coat.coat);
            let told = learned.and_then(|learned| Some((learned, learned.factor_of((b, c))?)));
            let Some((learned, factor)) = told else {
                continue;
            };
            let whole = figures.volume.mixed;
            // Where nothing is recorded, the rest is the whole to the last bit.
            let (recorded, took, left) = match done.get((b, c)) {
                Some((recorded, took)) => {
                    let left = rest.coats.get(b).and_then(|coats| coats.get(c));
                    (recorded, took, volume(left.copied().unwrap_or_default()))
                }
                None => (0.0, 0.0, whole),
            };
            let forecast_rest = left * factor;
            let one = CoatForecast {
                build_up: build_up.clone(),
                coat: coat.coat.clone(),
                whole,
                recorded: volume(recorded),
                took: volume(took),
                rest: left,
                factor,
                weight: learned.weight,
                forecast_rest,
                enough_rest: forecast_rest * learned.enough(),
                forecast_whole: volume(took) + forecast_rest,
                batches: batches(forecast_rest),
                batches_worked_out: batches(left),
            };
            coats.push(((b, c), one));
        }
    }
    coats
}
