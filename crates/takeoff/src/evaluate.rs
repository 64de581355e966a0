//! From a checked project to its figures: faces, coats, materials. Pure and total; the walls run on
//! all cores in chunks of a fixed size whose sums are added in order, so that the figures are the
//! same to the last bit on any number of cores. Not here: words (see `doubts` and `explain`).

mod coats;
mod faces;
mod materials;
mod measured;

pub use coats::{CoatFigures, Ground};
pub use faces::{FaceFigures, Finding, Found, Surfaces};
pub use materials::{MaterialFigures, Use};

pub use measured::Counted;

pub(crate) use faces::{findings, ground_of, measure};
pub(crate) use materials::water_density;
pub(crate) use measured::count;

use crate::checked::Checked;
use hodful_quantities::read::Money;
use rayon::prelude::*;

/// Walls evaluated by one task; fixed, so that sums do not depend on the number of cores.
const CHUNK: usize = 1024;

/// Every figure of a project.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Evaluation {
    /// The faces of every wall, outside then inside, for one such wall.
    pub faces: Vec<[Option<FaceFigures>; 2]>,
    /// All faces, counts applied.
    pub totals: FaceFigures,
    /// What the faces of each build-up bring to its coats.
    pub grounds: Vec<Ground>,
    /// Coats, by build-up.
    pub coats: Vec<Vec<CoatFigures>>,
    /// Materials.
    pub materials: Vec<MaterialFigures>,
    /// Price of all packages that have one.
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
    into.faces.resize(checked.walls.len(), [None, None]);
    let sums: Vec<faces::Sums> = into
        .faces
        .par_chunks_mut(CHUNK)
        .zip(checked.walls.par_chunks(CHUNK))
        .enumerate()
        .map(|(chunk, (figures, walls))| faces::chunk(checked, walls, chunk * CHUNK, figures))
        .collect();
    let mut all = faces::Sums::new(checked);
    for sum in sums {
        all.add(sum);
    }
    into.totals = all.totals;
    into.grounds = all.grounds;
    into.findings = all.findings;
    into.coats = coats::coats(checked, &into.grounds);
    into.materials = materials::materials(checked, &into.coats);
    into.cost = into
        .materials
        .iter()
        .filter_map(|m| m.cover.as_ref()?.price)
        .fold(Money::default(), |sum, price| {
            sum.plus(price).unwrap_or(sum)
        });
}
