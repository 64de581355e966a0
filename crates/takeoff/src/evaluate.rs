//! From a checked project to its figures: faces, coats, materials. Pure and total; the walls run on
//! all cores in chunks of a fixed size whose sums are added in order, so that the figures are the
//! same to the last bit on any number of cores. Not here: words (see `doubts` and `explain`).

mod coats;
mod faces;
mod materials;
mod measured;

pub use coats::{CoatFigures, Ground};
pub use faces::{FaceFigures, Finding, Found, Surfaces};
pub use materials::{HeapVolumes, MaterialFigures, Use};

pub use measured::Counted;

pub(crate) use faces::{Sums, findings, ground_of, measure, measure_wall};
pub(crate) use materials::{nothing, quantity, stock, water_density};
pub(crate) use measured::count;

use crate::checked::{Checked, Site};
use hodful_quantities::read::Money;
use rayon::prelude::*;

/// Walls evaluated by one task; fixed, so that sums do not depend on the number of cores.
pub(crate) const CHUNK: usize = 1024;

/// Every figure of a project.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Evaluation {
    /// The faces of every wall, outside then inside, for one such wall.
    pub faces: Vec<[Option<FaceFigures>; 2]>,
    /// All faces, counts applied.
    pub totals: FaceFigures,
    /// What the faces of each build-up bring to its coats.
    pub grounds: Vec<Ground>,
    /// Coats, by build-up; `None` where something refused keeps one from being told.
    pub coats: Vec<Vec<Option<CoatFigures>>>,
    /// Materials.
    pub materials: Vec<MaterialFigures>,
    /// Price of all packages that have one. Not the whole cost while a material
    /// [waits](MaterialFigures::waits).
    pub cost: Money,
    /// What the measuring found.
    pub findings: Vec<Finding>,
}

/// Evaluates a checked project.
pub fn evaluate(checked: &Checked) -> Evaluation {
    let mut evaluation = Evaluation::default();
    evaluate_into(checked, &mut evaluation);
    evaluation
}

/// As [`evaluate`], over an evaluation whose memory is used again: what a front end does at every
/// key.
pub fn evaluate_into(checked: &Checked, into: &mut Evaluation) {
    let Checked { site, walls } = checked;
    into.faces.resize(walls.entries.len(), [None, None]);
    let sums: Vec<Sums> = into
        .faces
        .par_chunks_mut(CHUNK)
        .zip(walls.entries.par_chunks(CHUNK))
        .enumerate()
        .map(|(chunk, (figures, walls))| faces::chunk(checked, walls, chunk * CHUNK, figures))
        .collect();
    into.sum_up(site, &sums);
}

impl Evaluation {
    /// Everything that follows from the sums of the chunks.
    pub(crate) fn sum_up<'a>(&mut self, site: &Site, sums: impl IntoIterator<Item = &'a Sums>) {
        let mut all = Sums::new(site);
        for sum in sums {
            all.add(sum);
        }
        self.totals = all.totals;
        self.grounds = all.grounds;
        self.findings = all.findings;
        self.order(site);
    }

    /// Everything that follows from the grounds: coats, materials, cost.
    pub(crate) fn order(&mut self, site: &Site) {
        self.coats = coats::coats(site, &self.grounds);
        self.materials = materials::materials(site, &self.grounds, &self.coats);
        self.cost = self
            .materials
            .iter()
            .filter_map(|m| m.cover.as_ref()?.price)
            .fold(Money::default(), |sum, price| {
                sum.plus(price).unwrap_or(sum)
            });
    }
}
