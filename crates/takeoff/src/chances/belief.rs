//! What is believed of a coat before any of it is on a wall: how many times what is worked out it takes in the mean,
//! and how far that may be off. From the same inputs as the draws, by the same evaluation. Not here: what records
//! make of it (see [`crate::forecast`]).
//!
//! What goes for all walls together: every input at its mean, then each a standard deviation up and down by itself,
//! and the effects added as squares, since inputs are off independently. Source: JCGM 100:2008, 5.1.2, with the
//! steps of 5.1.3, note 2 (from memory).
//!
//! From wall to wall: what of a coat follows its thickness and what is dubbing out, each off by its own share.

use super::faces::{Faces, Grounds};
use super::inputs::{Input, Inputs};
use super::target::Target;
use crate::checked::Site;
use crate::compare::One;
use crate::evaluate::Evaluation;
use crate::project::{Name, UncertainInput};
use ecow::{EcoString, eco_format};
use hodful_quantities::FirstCoat;
use std::iter::zip;

/// Smallest part of the squares by which an input is named: less changes no digit that is shown.
const TOLD: f64 = 0.01;

/// What is believed of the coats of one name, as shares of what is worked out for them as mixed.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Belief {
    /// The coat.
    pub(crate) coat: Name,
    /// What they take in the mean: 1 is what is worked out.
    pub(crate) mean: f64,
    /// How far the mean of all walls may be off, as a standard deviation and a share of `mean`.
    pub(crate) together: f64,
    /// How far a wall may be off from that, likewise.
    pub(crate) wall_to_wall: f64,
    /// Which inputs that comes from, and who says how far each is off.
    pub(crate) source: EcoString,
}

/// Of every coat that some face has and that can be told, in the order of the project.
pub(crate) fn beliefs(one: &One<'_>) -> Vec<Belief> {
    let faces = Faces::of(one);
    let inputs = Inputs::of(one, &faces);
    let grounds = Grounds::new(one, &faces, &inputs);
    let mut names: Vec<&Name> = Vec::new();
    for coat in one.project.build_ups.values().flatten() {
        if !names.contains(&&coat.coat) {
            names.push(&coat.coat);
        }
    }
    let mut site = one.site.clone();
    let mut evaluation = Evaluation::default();
    let mut mixed = |site: &Site| -> Vec<f64> {
        grounds.fill_alike(site, &mut evaluation);
        evaluation.order(site);
        let each = names.iter().map(|name| volume(one, &evaluation, name));
        each.collect()
    };
    let worked_out = mixed(&site);
    for common in &inputs.common {
        common.at(0.0, |target, value| target.set(&mut site, value));
    }
    let mean = mixed(&site);
    // By input, what a standard deviation of it does to each coat.
    let mut effects: Vec<Vec<f64>> = Vec::new();
    for common in &inputs.common {
        if !common.is(changes_coats) {
            effects.push(vec![0.0; names.len()]);
            continue;
        }
        let [up, down] = [1.0, -1.0].map(|sds| {
            common.at(sds, |target, value| target.set(&mut site, value));
            mixed(&site)
        });
        common.at(0.0, |target, value| target.set(&mut site, value));
        effects.push(zip(up, down).map(|(up, down)| (up - down) / 2.0).collect());
    }
    let each = names.iter().enumerate().filter_map(|(at, name)| {
        let of = |all: &[f64]| {
            all.get(at)
                .copied()
                .filter(|of| of.is_finite() && *of > 0.0)
        };
        let (worked_out, mean) = (of(&worked_out)?, of(&mean)?);
        let own = |effects: &Vec<f64>| effects.get(at).copied().unwrap_or_default() / mean;
        let squares: f64 = effects.iter().map(own).map(|effect| effect * effect).sum();
        let walls = wall_to_wall(one, &inputs, &grounds, name);
        let is_told = |of: &Vec<f64>| own(of) * own(of) > squares * TOLD;
        let commons = zip(&inputs.said, &effects).filter(|(_, of)| is_told(of));
        let commons = commons.map(|(input, _)| input);
        Some(Belief {
            coat: (*name).clone(),
            mean: mean / worked_out,
            together: squares.sqrt(),
            wall_to_wall: walls.sd,
            source: source(commons.chain(walls.inputs)),
        })
    });
    each.collect()
}

/// Whether a kind of input changes how much plaster is mixed.
fn changes_coats(of: UncertainInput) -> bool {
    matches!(
        of,
        UncertainInput::Thickness
            | UncertainInput::DubbingOut
            | UncertainInput::Shrinkage
            | UncertainInput::Loss
    )
}

/// All coats of a name as mixed, mm³.
fn volume(one: &One<'_>, evaluation: &Evaluation, name: &Name) -> f64 {
    let coats = zip(one.project.build_ups.values(), &evaluation.coats);
    let own = coats.flat_map(|(names, coats)| {
        let own = zip(names, coats).filter(|(of, _)| of.coat == *name);
        own.filter_map(|(_, coat)| Some(coat.as_ref()?.volume.mixed.value))
    });
    own.sum()
}

/// How far a coat is off from wall to wall.
struct WallToWall<'i> {
    sd: f64,
    inputs: Vec<&'i Input>,
}

/// The mean over the build-ups, each weighing as much as its coat takes.
fn wall_to_wall<'i>(
    one: &One<'_>,
    inputs: &'i Inputs,
    grounds: &Grounds,
    name: &Name,
) -> WallToWall<'i> {
    let (mut off, mut whole) = (0.0, 0.0);
    let mut from: Vec<&Input> = Vec::new();
    let mut add = |input: Option<&'i Input>| {
        if let Some(input) = input
            && !from.contains(&input)
        {
            from.push(input);
        }
    };
    for (b, coats) in one.project.build_ups.values().enumerate() {
        for (c, _) in coats.iter().enumerate().filter(|(_, of)| of.coat == *name) {
            let figures = one.evaluation.coats.get(b).and_then(|of| of.get(c));
            let ground = one.evaluation.grounds.get(b);
            let (Some(Some(figures)), Some(ground)) = (figures, ground) else {
                continue;
            };
            let placed = figures.volume.placed.value;
            let first = if c == 0 {
                ground.first
            } else {
                FirstCoat::default()
            };
            let target = Target {
                of: UncertainInput::Thickness,
                at: (b, c),
            };
            let layer = (placed - first.total().value) / placed * inputs.thickness.sd(target);
            let dubbed = first.dubbing_out.value / placed
                * grounds.dubbing_out_of(b, &inputs.dubbing_out.sds);
            let sd = libm::hypot(layer, dubbed);
            if sd.is_finite() {
                off += sd * figures.volume.mixed.value;
                whole += figures.volume.mixed.value;
            }
            if layer > 0.0 {
                let input = inputs.thickness.input.get(b).copied().flatten();
                add(input.and_then(|at| inputs.thickness.said.get(at)));
            }
            if dubbed > 0.0 {
                for at in grounds.backgrounds_of(b) {
                    let input = inputs.dubbing_out.input.get(at).copied().flatten();
                    add(input.and_then(|at| inputs.dubbing_out.said.get(at)));
                }
            }
        }
    }
    WallToWall {
        sd: if whole > 0.0 { off / whole } else { 0.0 },
        inputs: from,
    }
}

/// `thickness of fill: measured on two sheds; loss of fill: a default of ours`.
fn source<'i>(inputs: impl Iterator<Item = &'i Input>) -> EcoString {
    let mut by_source: Vec<(&EcoString, Vec<&str>)> = Vec::new();
    for input in inputs {
        match by_source.iter_mut().find(|(of, _)| **of == input.source) {
            Some((_, words)) => words.push(&input.words),
            None => by_source.push((&input.source, vec![&input.words])),
        }
    }
    if by_source.is_empty() {
        return "nothing of it may be off".into();
    }
    let each = by_source
        .iter()
        .map(|(source, words)| eco_format!("{}: {source}", words.join(", ")));
    each.collect::<Vec<_>>().join("; ").into()
}
