//! What was worked out for single faces: those of each record, and those that are left. Not here: what
//! follows from it.

use super::CoatAt;
use crate::check::done::Record;
use crate::checked::FindWall;
use crate::compare::One;
use crate::evaluate::ground_of;
use crate::project::{Name, Side};
use hodful_quantities::units::Length;
use hodful_quantities::{CoatVolume, FirstCoat};
use std::collections::{HashMap, HashSet};

/// One coat on one face, all walls of the entry together.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Part<'p> {
    pub(crate) at: CoatAt,
    pub(crate) coat: &'p Name,
    /// Mixed, mm³; `None` where it cannot be told.
    pub(crate) mixed: Option<f64>,
    /// Dry and wet on the wall, mm³; as `mixed`.
    pub(crate) on_wall: Option<[f64; 2]>,
    /// Surface of the face, mm².
    pub(crate) area: f64,
    /// How many such walls there are.
    walls: u32,
}

/// Mixed volumes of single walls: their sum and the sum of their squares.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Spread {
    /// Σ v, mm³.
    pub(super) sum: f64,
    /// Σ v², mm⁶.
    squares: f64,
}

impl Spread {
    /// Adds so many walls that come to `mixed` together.
    fn add(&mut self, mixed: f64, walls: u32) {
        self.sum += mixed;
        self.squares += mixed * mixed / f64::from(walls.max(1));
    }

    /// `Σ v² / (Σ v)²`: what is left of a variance from wall to wall when so many walls are taken together,
    /// 1 for a single one, `1/n` for n that are alike. Nothing when there is no wall.
    ///
    /// Source: variance of a weighted mean of independent values with equal variances, weights `v/Σ v`.
    pub(super) fn left_of_variance(&self) -> f64 {
        let share = self.squares / (self.sum * self.sum);
        if share.is_finite() { share } else { 0.0 }
    }
}

/// A record, with what was worked out for its faces.
#[derive(Debug)]
pub(super) struct Seen<'p> {
    pub(super) record: Record<'p>,
    /// Of its faces.
    pub(super) spread: Spread,
    /// How many walls it is about.
    pub(super) walls: u64,
    /// What of it is in each build-up, mm³.
    pub(super) parts: Vec<(CoatAt, f64)>,
}

impl<'p> Seen<'p> {
    /// A record over faces that can all be told, and come to something; `None` for any other.
    pub(super) fn of(one: &One<'p>, walls: &dyn FindWall, record: Record<'p>) -> Option<Self> {
        let mut seen = Self {
            record,
            spread: Spread::default(),
            walls: 0,
            parts: Vec::new(),
        };
        let mut last = None;
        for (at, side) in &seen.record.faces {
            let mut parts = parts(one, walls, *at, *side);
            let part = parts.find(|part| part.coat == seen.record.coat)?;
            let mixed = part.mixed?;
            seen.spread.add(mixed, part.walls);
            if last != Some(at) {
                seen.walls += u64::from(part.walls);
                last = Some(at);
            }
            match seen.parts.iter_mut().find(|(coat, _)| *coat == part.at) {
                Some((_, sum)) => *sum += mixed,
                None => seen.parts.push((part.at, mixed)),
            }
        }
        let sum = seen.spread.sum;
        (sum.is_finite() && sum > 0.0).then_some(seen)
    }
}

/// What is recorded of each coat: worked out, and taken, mm³.
#[derive(Debug, Default)]
pub(super) struct Done(HashMap<CoatAt, (f64, f64)>);

impl Done {
    /// All records together; what one took is shared out by what was worked out.
    pub(super) fn of(seen: &[Seen<'_>]) -> Self {
        let mut done = HashMap::<CoatAt, (f64, f64)>::new();
        for of in seen {
            for (coat, recorded) in &of.parts {
                let sums = done.entry(*coat).or_default();
                sums.0 += recorded;
                sums.1 += of.record.took.mixed.value * (recorded / of.spread.sum);
            }
        }
        Self(done)
    }

    /// Worked out, and taken, of a coat that is recorded on some face.
    pub(super) fn get(&self, coat: CoatAt) -> Option<(f64, f64)> {
        self.0.get(&coat).copied()
    }
}

/// What is not recorded.
#[derive(Debug)]
pub(super) struct Rest<'p> {
    /// By build-up and coat, mm³.
    pub(super) coats: Vec<Vec<f64>>,
    /// By name of coat.
    by_name: HashMap<&'p Name, Spread>,
}

impl<'p> Rest<'p> {
    /// All faces that no record is about.
    pub(super) fn of(one: &One<'p>, walls: &dyn FindWall, seen: &[Seen<'_>]) -> Self {
        let mut done = HashSet::new();
        for record in seen.iter().map(|seen| &seen.record) {
            let faces = record.faces.iter();
            done.extend(faces.map(|(at, side)| (*at, *side, record.coat)));
        }
        let coats = one.site.build_ups.iter();
        let mut rest = Self {
            coats: coats.map(|coats| vec![0.0; coats.len()]).collect(),
            by_name: HashMap::new(),
        };
        for at in 0..one.project.walls.len() {
            for side in [Side::Outside, Side::Inside] {
                for part in parts(one, walls, at, side) {
                    if !done.is_empty() && done.contains(&(at, side, part.coat)) {
                        continue;
                    }
                    let Some(mixed) = part.mixed else { continue };
                    let (b, c) = part.at;
                    if let Some(sum) = rest.coats.get_mut(b).and_then(|coats| coats.get_mut(c)) {
                        *sum += mixed;
                    }
                    rest.by_name
                        .entry(part.coat)
                        .or_default()
                        .add(mixed, part.walls);
                }
            }
        }
        rest
    }

    /// The mean of some factors, each weighing as much as is left of its coat; `None` when nothing is.
    pub(super) fn weighed(&self, factors: &[(CoatAt, f64)]) -> Option<f64> {
        let left = |(b, c): CoatAt| self.coats.get(b).and_then(|coats| coats.get(c)).copied();
        let (mut sum, mut whole) = (0.0, 0.0);
        for (at, factor) in factors {
            let left = left(*at).unwrap_or_default();
            sum += left * factor;
            whole += left;
        }
        Some(sum / whole).filter(|mean| mean.is_finite())
    }

    /// What is left of a coat, over all build-ups.
    pub(super) fn of_coat(&self, coat: &Name) -> Spread {
        self.by_name.get(coat).copied().unwrap_or_default()
    }
}

/// The coats on one face; none while the face or the wall does not count. As `evaluate::coats` does for
/// all faces of a build-up together: both are linear in what a face brings.
pub(crate) fn parts<'p>(
    one: &One<'p>,
    walls: &dyn FindWall,
    at: usize,
    side: Side,
) -> impl Iterator<Item = Part<'p>> + use<'p> {
    let ground = || {
        let wall = walls.find(at)?;
        let face = wall.entry.face(side)?;
        let [outside, inside] = one.evaluation.faces.get(at)?;
        let figures = match side {
            Side::Outside => outside.as_ref(),
            Side::Inside => inside.as_ref(),
        }?;
        let count = wall.entry.count;
        let ground = ground_of(one.site, face, &figures.measure, f64::from(count));
        Some((usize::from(face.build_up), ground, count))
    };
    let One { project, site, .. } = *one;
    ground().into_iter().flat_map(move |(b, ground, walls)| {
        let names = project.build_ups.get_index(b).map(|(_, coats)| coats);
        let layers = site.build_ups.get(b).into_iter().flatten();
        let mut from = Some(Length::default());
        let mut first = ground.first;
        let coats = std::iter::zip(names.into_iter().flatten(), layers).enumerate();
        coats.map(move |(c, (name, layer))| {
            let volume = layer.coat.as_ref().zip(from).map(|(coat, from)| {
                let placed = ground.surface.layer(from, coat.thickness) + first.total();
                CoatVolume::new(placed, coat.shrinkage, coat.loss)
            });
            let volume = volume.filter(|volume| volume.mixed.value.is_finite());
            from = from.zip(layer.thickness).map(|(from, t)| from + t);
            first = FirstCoat::default();
            Part {
                at: (b, c),
                coat: &name.coat,
                mixed: volume.map(|volume| volume.mixed.value),
                on_wall: volume.map(|volume| [volume.placed.value, volume.wet.value]),
                area: ground.surface.area.value,
                walls,
            }
        })
    })
}
