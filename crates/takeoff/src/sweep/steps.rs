//! Where other packages are needed, or another number of batches: found between neighbouring values by
//! halving. Not here: the values.

use super::way::{Counted, Point, Reading, Thing, Way, Worker};
use super::{Count, Scale, Step};
use crate::compare::Line;
use crate::project::Project;
use rayon::prelude::*;
use std::iter::zip;

/// Most steps of one thing that are told: more could not be told apart on a screen.
const MOST_STEPS: usize = 100;

/// Most that a count may change from one value to the next and still be told step by step.
const MOST_AT_ONCE: u64 = 3;

/// Most values looked at between two neighbours: enough to tell a handful of steps.
const MOST_LOOKS: usize = 200;

/// Stretches between values that are looked into by one task.
const CHUNK: usize = 8;

/// Whether a figure moves with the packages or batches that a line counts.
pub(super) fn has(figure: &Line, counted: &Line) -> bool {
    match (figure, counted) {
        (Line::Cost, Line::Packages(_))
        | (
            Line::Batches
            | Line::Placed { .. }
            | Line::Mixed { .. }
            | Line::AllPlaced
            | Line::AllMixed,
            Line::Batches,
        ) => true,
        (Line::Loose(name) | Line::Mass(name) | Line::Packages(name), Line::Packages(material)) => {
            name == material
        }
        _ => false,
    }
}

/// The steps along the range, each within a share of it, and what has too many to be told.
pub(super) fn find(
    way: &Way<'_>,
    within: f64,
    scale: &Scale,
    points: &[Point],
    readings: &[Option<Reading>],
) -> (Vec<Step>, Vec<Line>) {
    let project = way.project();
    let told: Vec<bool> = (0..way.things.len())
        .map(|thing| can_be_told(readings, thing))
        .collect();
    let dense = zip(&way.things, &told).filter(|(_, told)| !**told);
    let dense = dense
        .filter_map(|(thing, _)| thing.line(project))
        .collect::<Vec<_>>();
    let (Some(first), Some(last)) = (points.first(), points.last()) else {
        return (Vec::new(), dense);
    };
    let within = (last.x - first.x) * within;
    let decimals = super::decimals(first.x, last.x);
    let ends = zip(points, readings).map(|(point, reading)| Some((point.x, reading.as_ref()?)));
    let stretches: Vec<_> = zip(ends.clone(), ends.skip(1))
        .filter_map(|(from, to)| Some((from?, to?)))
        .filter(|((_, from), (_, to))| differs(&told, from, to))
        .collect();
    let steps = stretches
        .par_chunks(CHUNK)
        .flat_map_iter(|stretches| {
            let mut search = Search {
                worker: way.worker(),
                scale,
                told: &told,
                within,
                decimals,
                looks: 0,
                found: Vec::new(),
            };
            for (from, to) in stretches {
                search.looks = 0;
                search.between((from.0, from.1.clone()), (to.0, to.1.clone()));
            }
            search.found
        })
        .filter_map(|found| step(project, &way.things, found))
        .collect();
    (steps, dense)
}

/// Whether the steps of a thing are few enough.
fn can_be_told(readings: &[Option<Reading>], thing: usize) -> bool {
    let count = |reading: &Option<Reading>| reading.as_ref()?.counts.get(thing)?.clone();
    let total = |counts: &[(usize, u64)]| {
        let each = counts.iter().map(|(_, count)| *count);
        each.fold(0, u64::saturating_add)
    };
    let mut steps = 0;
    for (from, to) in zip(readings, readings.iter().skip(1)) {
        let (Some(from), Some(to)) = (count(from), count(to)) else {
            continue;
        };
        if from == to {
            continue;
        }
        let by = total(&from).abs_diff(total(&to));
        // Smaller packages make way for a larger one by many at once.
        let same_kind = from.len() == 1
            && to.len() == 1
            && from.first().map(|(at, _)| at) == to.first().map(|(at, _)| at);
        if same_kind && by > MOST_AT_ONCE {
            return false;
        }
        steps += 1;
    }
    steps <= MOST_STEPS
}

/// Whether some count that is told is another.
fn differs(told: &[bool], from: &Reading, to: &Reading) -> bool {
    zip(told, zip(&from.counts, &to.counts)).any(|(told, counts)| *told && is_step(counts))
}

fn is_step(counts: (&Counted, &Counted)) -> bool {
    matches!(counts, (Some(from), Some(to)) if from != to)
}

/// A step as it was found: the thing, the last value before it, and the counts on either side.
type Found = (usize, f64, Vec<(usize, u64)>, Vec<(usize, u64)>);

struct Search<'a> {
    worker: Worker<'a>,
    scale: &'a Scale,
    told: &'a [bool],
    /// How near a step is to be found.
    within: f64,
    decimals: usize,
    looks: usize,
    found: Vec<Found>,
}

impl Search<'_> {
    /// Looks between two values, from the lower up. Each half is looked into only where its ends differ,
    /// and each look halves, so that it ends.
    fn between(&mut self, from: (f64, Reading), to: (f64, Reading)) {
        let mut open = vec![(from, to)];
        while let Some((from, to)) = open.pop() {
            if !differs(self.told, &from.1, &to.1) {
                continue;
            }
            match self.middle(from.0, to.0) {
                Some((x, Some(middle))) => {
                    open.push(((x, middle.clone()), to));
                    open.push((from, (x, middle)));
                }
                // What is refused in between has no count.
                Some((_, None)) => {}
                None => self.take(&from, &to),
            }
        }
    }

    /// A value in the middle with what it comes to; `None` when the two are near enough.
    fn middle(&mut self, from: f64, to: f64) -> Option<(f64, Option<Reading>)> {
        if to - from <= self.within || self.looks >= MOST_LOOKS {
            return None;
        }
        self.looks += 1;
        let Point { x, text } = self.scale.rounded(f64::midpoint(from, to), self.decimals);
        let text = text.filter(|_| x > from && x < to)?;
        Some((x, self.worker.read(&text)))
    }

    fn take(&mut self, from: &(f64, Reading), to: &(f64, Reading)) {
        let counts = zip(&from.1.counts, &to.1.counts);
        for (thing, (told, counts)) in zip(self.told, counts).enumerate() {
            if *told
                && is_step(counts)
                && let (Some(before), Some(after)) = counts
            {
                self.found
                    .push((thing, from.0, before.clone(), after.clone()));
            }
        }
    }
}

fn step(project: &Project, things: &[Thing], found: Found) -> Option<Step> {
    let (thing, at, before, after) = found;
    let thing = things.get(thing)?;
    let told = |counts: Vec<(usize, u64)>| Count {
        total: counts
            .iter()
            .fold(0, |sum, (_, count)| sum.saturating_add(*count)),
        packages: match thing {
            Thing::Batches => Vec::new(),
            Thing::Packages(material) => {
                let material = project.materials.get_index(*material);
                let packages = material.map(|(_, material)| &material.packages);
                let name = |at: usize| Some(packages?.get(at)?.name.clone());
                counts
                    .iter()
                    .filter_map(|(at, count)| Some((name(*at)?, *count)))
                    .collect()
            }
        },
    };
    Some(Step {
        of: thing.line(project)?,
        at,
        before: told(before),
        after: told(after),
    })
}
