//! The figures that stay in sight while a project is worked on. Not here: how each came about (see
//! `explain`: each has a path there).

use crate::evaluate::{CoatFigures, Evaluation};
use crate::project::{MaterialKind, Project};
use hodful_quantities::read::Money;
use hodful_quantities::units::{Area, Mass, Volume};
use std::iter::zip;

/// The figures that stay in sight. What cannot be told is absent: a material with no density has no
/// volume, a project with no mixer has no batches, one with no prices has no cost.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Headline {
    /// True surface of all faces.
    pub surface: Area,
    /// Plaster on the walls, all coats.
    pub placed: Option<Volume>,
    /// Mineral materials as delivered: loose, damp, before the screen.
    pub loose: Option<Volume>,
    /// Fibre as delivered.
    pub fibre: Option<Mass>,
    /// Organic binder as delivered.
    pub binder: Option<Mass>,
    /// Loads of the mixer, each coat rounded up.
    pub batches: Option<u64>,
    /// Price of all packages that have one; absent when none has.
    pub cost: Option<Money>,
    /// Materials that are to be bought and have no price.
    pub unpriced: usize,
}

impl Headline {
    /// Of an evaluated project.
    pub fn of(project: &Project, evaluation: &Evaluation) -> Self {
        let used = |of: fn(MaterialKind) -> bool| {
            zip(project.materials.values(), &evaluation.materials)
                .filter(move |(material, figures)| {
                    of(material.kind) && (figures.waits || !figures.uses.is_empty())
                })
                .map(|(_, figures)| figures)
        };
        Self {
            surface: Area {
                value: evaluation.totals.measure.true_surface(),
                ..Area::default()
            },
            placed: coats(evaluation)
                .map(|coat| Some(coat.as_ref()?.volume.placed))
                .sum(),
            loose: used(MaterialKind::is_mineral)
                .map(|figures| figures.delivered.loose)
                .sum(),
            fibre: used(|kind| kind == MaterialKind::Fibre)
                .map(|figures| figures.delivered.mass)
                .sum(),
            binder: used(|kind| kind == MaterialKind::Binder)
                .map(|figures| figures.delivered.mass)
                .sum(),
            batches: batches(evaluation),
            unpriced: zip(project.materials.values(), &evaluation.materials)
                .filter(|(material, figures)| {
                    material.kind != MaterialKind::Water
                        && !figures.uses.is_empty()
                        && figures
                            .cover
                            .as_ref()
                            .is_none_or(|cover| cover.price.is_none())
                })
                .count(),
            cost: cost(evaluation),
        }
    }
}

/// The coats of build-ups that are on some face; one that cannot be told keeps their sums back.
pub(crate) fn coats(evaluation: &Evaluation) -> impl Iterator<Item = &Option<CoatFigures>> {
    zip(&evaluation.grounds, &evaluation.coats)
        .filter(|(ground, _)| ground.surface.area.value > 0.0)
        .flat_map(|(_, coats)| coats)
}

/// [`Headline::batches`].
pub(crate) fn batches(evaluation: &Evaluation) -> Option<u64> {
    coats(evaluation)
        .map(|coat| Some(coat.as_ref()?.batches.as_ref()?.loads))
        .sum()
}

/// [`Headline::cost`].
pub(crate) fn cost(evaluation: &Evaluation) -> Option<Money> {
    let waits = evaluation.materials.iter().any(|figures| figures.waits);
    let mut covers = evaluation.materials.iter().flat_map(|of| &of.cover);
    let priced = covers.any(|cover| cover.price.is_some());
    (priced && !waits).then_some(evaluation.cost)
}
