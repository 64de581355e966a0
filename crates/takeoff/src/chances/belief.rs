//! What is believed before any coat is on a wall: how many times what is worked out it takes in the mean, how far that
//! may be off, and the same of what a material is delivered in for what is mixed. From the same inputs as the draws, by
//! the same evaluation. Not here: what records make of it (see [`crate::forecast`]).
//!
//! What goes for all walls together: every input at its mean, then each a standard deviation up and down by itself,
//! and the effects added as squares, since inputs are off independently. Source: JCGM 100:2008, 5.1.2, with the
//! steps of 5.1.3, note 2 (from memory).
//!
//! From wall to wall: what of a coat follows the thickness of its face and what is dubbing out, each off by its own
//! share, which is the one that the draws have.

use super::faces::{Faces, Grounds};
use super::inputs::{Input, Inputs};
use crate::checked::Site;
use crate::compare::One;
use crate::evaluate::{Evaluation, MaterialFigures};
use crate::project::{Name, UncertainInput};
use ecow::{EcoString, eco_format};
use hodful_quantities::FirstCoat;
use hodful_quantities::mix::Quantity;
use std::iter::zip;

/// Smallest part of the squares by which an input is named: less changes no digit that is shown.
const TOLD: f64 = 0.01;

/// What is believed of a project.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Beliefs {
    /// Of every name of coat that some face has and that can be told, in the order of the project.
    pub(crate) coats: Vec<Belief>,
    /// By material, loose and by mass: what must come for what is mixed, by yield, moisture, bulking and reject.
    pub(crate) delivered: Vec<[Share; 2]>,
}

/// A share of what is worked out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Share {
    /// In the mean: 1 is what is worked out.
    pub(crate) mean: f64,
    /// How far that may be off, as a standard deviation and a share of `mean`.
    pub(crate) sd: f64,
}

/// What is believed of the coats of one name, as shares of what is worked out for them as mixed.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Belief {
    /// The coat.
    pub(crate) coat: Name,
    /// What they take in the mean, all together: 1 is what is worked out.
    pub(crate) mean: f64,
    /// The same of each by itself, with the positions of its build-up and in it: one may have hollows under it and
    /// another none.
    pub(crate) means: Vec<((usize, usize), f64)>,
    /// How far the mean of all walls may be off, as a standard deviation and a share of `mean`.
    pub(crate) together: f64,
    /// How far a wall may be off from that, likewise.
    pub(crate) wall_to_wall: f64,
    /// Which inputs that comes from, and who says how far each is off.
    pub(crate) source: EcoString,
}

/// What the coats come to as mixed, mm³, and the materials loose and by mass as delivered.
#[derive(Debug)]
struct State {
    mixed: Vec<f64>,
    delivered: Vec<[f64; 2]>,
}

/// What becomes of a project by its inputs.
#[derive(Debug)]
struct States<'i> {
    /// As it is written.
    worked_out: State,
    /// With yield, moisture, bulking and reject at their means.
    delivered: State,
    /// With all inputs at their means.
    mean: State,
    /// By input, half of what two standard deviations of it do; with the input where it changes what is mixed.
    effects: Vec<(Option<&'i Input>, State)>,
}

/// Where a coat stands, and its name.
type Coat<'p> = ((usize, usize), &'p Name);

/// Of a project.
pub(crate) fn beliefs(one: &One<'_>) -> Beliefs {
    let faces = Faces::of(one);
    let inputs = Inputs::of(one, &faces);
    let grounds = Grounds::new(one, &faces, &inputs);
    let mut coats: Vec<Coat<'_>> = Vec::new();
    for (b, names) in one.project.build_ups.values().enumerate() {
        coats.extend(names.iter().enumerate().map(|(c, of)| ((b, c), &of.coat)));
    }
    let states = States::of(one, &inputs, &grounds, &coats);
    let mut names: Vec<&Name> = Vec::new();
    for (_, name) in &coats {
        if !names.contains(name) {
            names.push(name);
        }
    }
    let each = names.into_iter().filter_map(|name| {
        let walls = wall_to_wall(one, &inputs, &grounds, name);
        states.of_coat(&coats, name, walls)
    });
    let materials = 0..states.worked_out.delivered.len();
    Beliefs {
        coats: each.collect(),
        delivered: materials
            .map(|at| [states.of_material(at, 0), states.of_material(at, 1)])
            .collect(),
    }
}

impl<'i> States<'i> {
    fn of(one: &One<'_>, inputs: &'i Inputs, grounds: &Grounds, coats: &[Coat<'_>]) -> Self {
        let mut site = one.site.clone();
        let mut evaluation = Evaluation::default();
        let mut state = |site: &Site| {
            grounds.fill_alike(site, &mut evaluation);
            evaluation.order(site);
            State {
                mixed: coats
                    .iter()
                    .map(|(at, _)| mixed(&evaluation, *at))
                    .collect(),
                delivered: evaluation.materials.iter().map(delivered).collect(),
            }
        };
        let to_mean = |site: &mut Site, of_coats: bool| {
            let own = inputs.common.iter();
            for common in own.filter(|of| of.is(changes_coats) == of_coats) {
                common.at(0.0, |target, value| target.set(site, value));
            }
        };
        let worked_out = state(&site);
        to_mean(&mut site, false);
        let of_delivered = state(&site);
        to_mean(&mut site, true);
        let mean = state(&site);
        let effects = zip(&inputs.common, &inputs.said).map(|(common, said)| {
            let [up, down] = [1.0, -1.0].map(|sds| {
                common.at(sds, |target, value| target.set(&mut site, value));
                state(&site)
            });
            common.at(0.0, |target, value| target.set(&mut site, value));
            let said = common.is(changes_coats).then_some(said);
            (said, up.less(&down))
        });
        Self {
            effects: effects.collect(),
            worked_out,
            delivered: of_delivered,
            mean,
        }
    }

    /// Of the coats of one name; `None` where they come to nothing.
    fn of_coat(&self, coats: &[Coat<'_>], name: &Name, walls: WallToWall<'_>) -> Option<Belief> {
        let own = |of: &State| -> f64 {
            let own = zip(coats, &of.mixed).filter(|((_, other), _)| *other == name);
            own.map(|(_, mixed)| mixed).sum()
        };
        let is_something = |of: &f64| of.is_finite() && *of > 0.0;
        let worked_out = Some(own(&self.worked_out)).filter(is_something)?;
        let mean = Some(own(&self.mean)).filter(is_something)?;
        let shares = self.effects.iter();
        let shares = shares.filter_map(|(said, effect)| Some(((*said)?, own(effect) / mean)));
        let shares: Vec<(&Input, f64)> = shares.collect();
        let squares: f64 = shares.iter().map(|(_, share)| share * share).sum();
        let commons = shares
            .iter()
            .filter(|(_, share)| share * share > squares * TOLD);
        let commons = commons.map(|(input, _)| *input);
        let each = zip(coats, zip(&self.worked_out.mixed, &self.mean.mixed));
        let each = each.filter(|((_, other), (was, _))| *other == name && is_something(was));
        Some(Belief {
            coat: name.clone(),
            mean: mean / worked_out,
            means: each
                .map(|((at, _), (was, mean))| (*at, mean / was))
                .collect(),
            together: squares.sqrt(),
            wall_to_wall: walls.sd,
            source: source(commons.chain(walls.inputs)),
        })
    }

    /// Of a material, loose or by mass.
    fn of_material(&self, material: usize, side: usize) -> Share {
        let of = |state: &State| {
            let sides = state.delivered.get(material);
            sides
                .and_then(|of| of.get(side).copied())
                .unwrap_or_default()
        };
        let others = self.effects.iter().filter(|(said, _)| said.is_none());
        let shares = others.map(|(_, effect)| of(effect) / of(&self.mean));
        let sd = shares.fold(0.0, |sum, share| sum + share * share).sqrt();
        let mean = of(&self.delivered) / of(&self.worked_out);
        if mean.is_finite() && sd.is_finite() {
            Share { mean, sd }
        } else {
            Share { mean: 1.0, sd: 0.0 }
        }
    }
}

impl State {
    /// Half of the difference.
    fn less(&self, other: &Self) -> Self {
        let half = |(up, down): (&f64, &f64)| (up - down) / 2.0;
        let both = |(up, down): (&[f64; 2], &[f64; 2])| {
            [half((&up[0], &down[0])), half((&up[1], &down[1]))]
        };
        Self {
            mixed: zip(&self.mixed, &other.mixed).map(half).collect(),
            delivered: zip(&self.delivered, &other.delivered).map(both).collect(),
        }
    }
}

/// A coat as mixed, mm³.
fn mixed(evaluation: &Evaluation, (b, c): (usize, usize)) -> f64 {
    let coat = evaluation.coats.get(b).and_then(|coats| coats.get(c));
    let coat = coat.and_then(Option::as_ref);
    coat.map_or(0.0, |coat| coat.volume.mixed.value)
}

/// A material as delivered, mm³ and kg.
fn delivered(of: &MaterialFigures) -> [f64; 2] {
    let Quantity { loose, mass } = of.delivered;
    [
        loose.map_or(0.0, |of| of.value),
        mass.map_or(0.0, |of| of.value),
    ]
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
            // All coats of a face have one factor.
            let sd = inputs.thickness.sds.get(b).copied().unwrap_or_default();
            let layer = (placed - first.total().value) / placed * sd;
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
