//! Trees of the totals of coats and materials: the figures that stay in sight. Not here: the totals of
//! surfaces (see `faces`).

use super::path::{PathFault, quoted};
use super::{Source, explain as at, waits};
use crate::figure::{Dimension, Node};
use crate::headline::Headline;
use crate::project::MaterialKind;
use ecow::{EcoString, eco_format};
use std::iter::zip;

/// The totals there are.
pub(super) const FIGURES: [&str; 5] = ["placed", "loose", "fibre", "binder", "batches"];

/// The tree of one of [`FIGURES`].
#[allow(
    clippy::cast_precision_loss,
    reason = "nobody mixes 2^53 batches; a figure is a number like any other"
)]
pub(super) fn explain(source: Source<'_>, figure: &str) -> Result<Node, PathFault> {
    let head = Headline::of(source.project, source.evaluation);
    let (label, dimension, value, paths) = match figure {
        "placed" => (
            "plaster on the walls, all coats",
            Dimension::Volume,
            head.placed.map(|v| v.value),
            coats(source, "placed"),
        ),
        "batches" => (
            "loads of the mixer, each coat rounded up",
            Dimension::Count,
            head.batches.map(|n| n as f64),
            coats(source, "batches"),
        ),
        "loose" => (
            "mineral materials as delivered, loose",
            Dimension::Volume,
            head.loose.map(|v| v.value),
            materials(source, "loose", MaterialKind::is_mineral),
        ),
        "fibre" => (
            "fibre as delivered",
            Dimension::Mass,
            head.fibre.map(|m| m.value),
            materials(source, "mass", |kind| kind == MaterialKind::Fibre),
        ),
        _ => (
            "binder as delivered",
            Dimension::Mass,
            head.binder.map(|m| m.value),
            materials(source, "mass", |kind| kind == MaterialKind::Binder),
        ),
    };
    let terms: Vec<Node> = paths
        .iter()
        .map(|path| at(source, path))
        .collect::<Result<_, _>>()?;
    let path = eco_format!("totals.{figure}");
    // Every term is there, and still no sum: something refused keeps it back.
    let value = value.ok_or_else(|| waits(path.clone()))?;
    Ok(Node::sum(source.sum_of(label.into()), dimension, value, terms).with_path(path))
}

/// The paths of a figure of every coat that is on some face.
fn coats(source: Source<'_>, figure: &str) -> Vec<EcoString> {
    zip(&source.project.build_ups, &source.evaluation.grounds)
        .filter(|(_, ground)| ground.surface.area.value > 0.0)
        .flat_map(|((name, coats), _)| {
            coats.iter().map(move |coat| {
                eco_format!("coats.{}.{}.{figure}", quoted(name), quoted(&coat.coat))
            })
        })
        .collect()
}

/// The paths of a figure of every material of some kinds that a coat takes.
fn materials(
    source: Source<'_>,
    figure: &str,
    of: impl Fn(MaterialKind) -> bool,
) -> Vec<EcoString> {
    zip(&source.project.materials, &source.evaluation.materials)
        .filter(|((_, material), figures)| of(material.kind) && !figures.uses.is_empty())
        .map(|((name, _), _)| eco_format!("order.{}.{figure}", quoted(name)))
        .collect()
}
