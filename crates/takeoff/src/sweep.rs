//! One input over a range: what a fill coat of nothing to two inches does to sand, batches and cost, and
//! where a package or a batch more is needed.
//!
//! The field takes one value after another, each as a text that is read back to the same number, and the
//! project is worked out with it. Where a field changes neither walls nor their sums (coats, mixes,
//! materials), only what follows from the sums is worked out anew; for every other field, and where
//! coats leave a face no room, the [work bench](crate::bench) does again what changed. Both come to the
//! same, to the last bit.
//!
//! Not here: how it is drawn (see [`crate::drawing::curve`]), and what to buy from whom, which takes far
//! too long to be planned at every value: figures of a plan are absent.

mod ask;
mod kept;
mod limits;
mod refused;
mod scale;
mod steps;
mod way;

pub use kept::Kept;
pub use refused::why_refused;
pub use scale::Scale;

use crate::bench::Bench;
use crate::compare::Line;
use crate::form::{self, Subject};
use crate::project::Name;
use crate::project::Project;
use crate::tolerance::ON_LIMIT;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use rayon::prelude::*;
use way::{Point, Way};

/// Most values of one range: more than dots across any screen or page.
pub const MOST_POINTS: usize = 2_000;

/// Values worked out by one task when walls stay as they are.
const LIGHT_CHUNK: usize = 16;

/// Least values worked out by one task when walls are done again, because each task lays a bench of its
/// own. No value depends on another, so that tasks may be as long as there are cores for.
const WHOLE_CHUNK: usize = 32;

/// Digits of a value behind those of the range, past which it is rounded, so that its text is short.
const DIGITS: f64 = 8.0;

/// Titles of things that are told one by one.
const MOST_TOLD: usize = 3;

/// Which field goes over which range.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// The things whose field it is; all take the same value.
    pub subjects: Vec<Subject>,
    /// The field, as in [`form::Row`]; one that holds a single number.
    pub key: EcoString,
    /// One end of the range, in base units: mm, mm³, kg, kg/mm³, radians, seconds, a share, a number.
    pub from: f64,
    /// The other end.
    pub to: f64,
    /// How many values, both ends included: two at least, [`MOST_POINTS`] at most.
    pub points: usize,
    /// Share of the range within which a step is found; where values are as near to each other as that already,
    /// nothing is looked for between them.
    pub within: f64,
}

/// What one field does to some figures.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// The field in a word or two: `thickness`.
    pub label: EcoString,
    /// What it is of: `coat fill of inside bale`.
    pub of: EcoString,
    /// How its values are written and shown.
    pub scale: Scale,
    /// The values, in base units, rising, each once.
    pub xs: Vec<f64>,
    /// Where the project stands, in base units; `None` when nothing is given, or not the same in all.
    pub present: Option<f64>,
    /// One a line, in the order asked for.
    pub curves: Vec<Curve>,
    /// Where a package or a batch more is needed, along the range.
    pub steps: Vec<Step>,
    /// Packages or batches whose steps stand too close together to be told one by one.
    pub dense: Vec<Line>,
    /// Limits that cross the range, along it.
    pub limits: Vec<Limit>,
    /// Limits that no value of the range keeps.
    pub broken: Vec<Limit>,
}

/// One figure over the range.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// Which figure.
    pub line: Line,
    /// By value of the field, in base units; `None` where the value is refused, or the figure is not
    /// there.
    pub values: Vec<Option<f64>>,
    /// As the project stands.
    pub now: Option<f64>,
}

/// How many of something, in packages.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Count {
    /// How many in all.
    pub total: u64,
    /// How many of which package; nothing for batches.
    pub packages: Vec<(Name, u64)>,
}

/// A place at which other packages are needed, or another number of batches.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// [`Line::Packages`] or [`Line::Batches`].
    pub of: Line,
    /// The last value known to do with `before`; as much farther as [`Ask::within`] says it no longer does.
    pub at: f64,
    /// What does until there.
    pub before: Count,
    /// What is needed from there on.
    pub after: Count,
}

/// A limit of a field.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Where, in base units of the field.
    pub at: f64,
    /// In a word or two: `most on bale`.
    pub name: EcoString,
    /// At length, with what it holds for.
    pub words: EcoString,
    /// Where it is published; `None` for one that was typed in the project.
    pub source: Option<&'static str>,
    /// Whether what is over it is out of bounds, and not what is under it.
    pub at_most: bool,
}

impl Limit {
    /// Where it stands, in the units of a project: what is shown of it is never out of bounds.
    pub fn shown(&self, scale: &Scale, units: UnitSystem) -> EcoString {
        let hair = self.at.abs() * ON_LIMIT;
        if self.at_most {
            scale.show_below(self.at + hair, units)
        } else {
            scale.show_above(self.at - hair, units)
        }
    }
}

impl Sweep {
    /// The steps that a figure has: of packages for a material, of batches for plaster, of all packages
    /// for cost.
    pub fn steps_of<'s>(&'s self, line: &'s Line) -> impl Iterator<Item = &'s Step> {
        self.steps.iter().filter(|step| steps::has(line, &step.of))
    }

    /// The position of the value nearest to one.
    pub fn nearest(&self, x: f64) -> Option<usize> {
        let off = |value: &f64| (value - x).abs();
        let near = self.xs.iter().enumerate();
        let near = near.min_by(|(_, a), (_, b)| off(a).total_cmp(&off(b)));
        near.map(|(at, _)| at)
    }
}

/// Works some figures out for a field over a range.
///
/// Where the project has something refused already, the rest goes on as on the bench; a figure is absent
/// where a value brings about a refusal that was not there before.
///
/// # Errors
/// In words: the range is no range, there is no such field, or it holds no single number.
pub fn sweep(bench: &Bench, ask: &Ask, lines: &[Line]) -> Result<Sweep, EcoString> {
    let project = bench.project();
    if !(ask.to - ask.from).is_finite() {
        return Err("the range needs two numbers".into());
    }
    let field = Field::find(project, &ask.subjects, &ask.key)?;
    let scale = &field.scale;
    let (from, to) = (ask.from.min(ask.to), ask.from.max(ask.to));
    let points = points(scale, from, to, ask.points);
    let way = Way::new(bench, ask, lines);
    let now = way.now();
    let known = field.present.map(f64::to_bits);
    let chunk = if way.is_short() {
        LIGHT_CHUNK
    } else {
        let each = points.len().div_ceil(rayon::current_num_threads());
        each.max(WHOLE_CHUNK)
    };
    let readings: Vec<_> = points
        .par_chunks(chunk)
        .flat_map_iter(|points| {
            let mut worker = way.worker();
            let each = points.iter().map(|point| {
                if known == Some(point.x.to_bits()) {
                    Some(now.clone())
                } else {
                    worker.read(point.text.as_deref()?)
                }
            });
            each.collect::<Vec<_>>()
        })
        .collect();
    let limits = limits::of(bench, ask, from, to);
    let (steps, dense) = steps::find(&way, ask.within, scale, &points, &readings);
    let curves = lines.iter().enumerate().map(|(at, line)| Curve {
        line: line.clone(),
        values: readings
            .iter()
            .map(|reading| reading.as_ref()?.values.get(at).copied().flatten())
            .collect(),
        now: now.values.get(at).copied().flatten(),
    });
    Ok(Sweep {
        curves: curves.collect(),
        steps,
        dense,
        limits: limits.within,
        broken: limits.broken,
        xs: points.iter().map(|point| point.x).collect(),
        present: field.present,
        label: field.label,
        of: told(project, &ask.subjects),
        scale: field.scale,
    })
}

/// The values, rising, each once, each with the text that is read as it. The ends are as they were asked
/// for, and what lies between is rounded far past what anybody sees.
fn points(scale: &Scale, from: f64, to: f64, count: usize) -> Vec<Point> {
    let last = u32::try_from(count.clamp(2, MOST_POINTS) - 1).unwrap_or(1);
    let decimals = decimals(from, to);
    let each = (0..=last).map(|i| match i {
        0 => scale.point(from),
        i if i == last => scale.point(to),
        i => {
            let x = from + (to - from) * f64::from(i) / f64::from(last);
            scale.rounded(x, decimals)
        }
    });
    let mut points: Vec<Point> = each.collect();
    points.dedup_by(|a, b| a.x <= b.x);
    points
}

/// Decimals to which values of a range are rounded.
fn decimals(from: f64, to: f64) -> usize {
    let places = DIGITS - libm::floor(libm::log10(to - from));
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 0 and 400; of a range of nothing the most"
    )]
    let places = places.clamp(0.0, 400.0) as usize;
    places
}

/// A field that some things have, with what it holds.
struct Field {
    label: EcoString,
    scale: Scale,
    /// The value in all of them.
    present: Option<f64>,
    /// The greatest value in any.
    greatest: Option<f64>,
}

impl Field {
    fn find(project: &Project, subjects: &[Subject], key: &str) -> Result<Self, EcoString> {
        let mut found: Option<Self> = None;
        for subject in subjects {
            let rows = form::rows(project, *subject);
            let Some(row) = rows.into_iter().find(|row| row.key == key) else {
                return Err(eco_format!("there is no field '{key}' here"));
            };
            let Some(scale) = Scale::of(&row.kind, row.text.as_deref()) else {
                let label = row.label;
                return Err(
                    if matches!(row.kind, form::Kind::Amount | form::Kind::Mixed) {
                        eco_format!("give '{label}' an amount first, to say what it is counted in")
                    } else {
                        eco_format!("'{label}' is not a single number")
                    },
                );
            };
            let value = match (&row.text, &row.default) {
                (Some(text), _) => scale.read(text),
                // A default says the value, then where it comes from.
                (None, Some(default)) => match default.split(", ").next() {
                    // No ceiling is not one at the floor.
                    Some("none") => (scale != Scale::Length).then_some(0.0),
                    Some(value) => scale.read(value),
                    None => None,
                },
                (None, None) => None,
            };
            found = Some(match found {
                None => Self {
                    label: row.label,
                    scale,
                    present: value,
                    greatest: value,
                },
                Some(so_far) if so_far.scale != scale => {
                    return Err(eco_format!(
                        "'{}' is not the same kind of number in all",
                        row.label
                    ));
                }
                Some(so_far) => Self {
                    present: so_far
                        .present
                        .filter(|one| value.map(f64::to_bits) == Some(one.to_bits())),
                    greatest: match (so_far.greatest, value) {
                        (Some(one), Some(other)) => Some(one.max(other)),
                        (one, other) => one.or(other),
                    },
                    ..so_far
                },
            });
        }
        found.ok_or_else(|| "there is nothing whose field it could be".into())
    }
}

/// The things in words; coats of one name are told as one.
fn told(project: &Project, subjects: &[Subject]) -> EcoString {
    let coat = |subject: &Subject| match subject {
        Subject::Coat { build_up, coat } => {
            let (_, coats) = project.build_ups.get_index(*build_up)?;
            Some(&coats.get(*coat)?.coat)
        }
        _ => None,
    };
    if let [first, _, ..] = subjects
        && let Some(name) = coat(first)
        && subjects.iter().all(|subject| coat(subject) == Some(name))
    {
        return eco_format!("coat {name} of {} build-ups", subjects.len());
    }
    let titles: Vec<EcoString> = subjects
        .iter()
        .take(MOST_TOLD)
        .map(|subject| form::title(project, *subject))
        .collect();
    match subjects.len().saturating_sub(titles.len()) {
        0 => titles.join(", ").into(),
        more => eco_format!("{} and {more} more", titles.join(", ")),
    }
}

#[cfg(test)]
mod tests;
