//! A project that passed the checks, as numbers: what the evaluation runs over. Small, flat and
//! owned, so that a hundred thousand walls stream through it. Not here: texts, names and places,
//! which stay in the [`crate::project::Project`] under the same positions.

use crate::evaluate::water_density;
use crate::project::{MaterialKind, Name, Side};
use crate::rule::Rule;
use hodful_geometry::{FaceEnd, FaceOutline, Opening, Reveal};
use hodful_quantities::mix::{Delivery, Mix, Quantity, Recipe, Yield};
use hodful_quantities::order::Offer;
use hodful_quantities::units::{Length, MassDensity, Ratio, Volume};
use hodful_quantities::{Fraction, read::Amount};
use std::iter::zip;
use std::ops::Range;

/// A checked project. Made by [`crate::check()`] only.
#[derive(Debug, Clone)]
pub struct Checked {
    pub(crate) walls: Vec<CheckedWall>,
    pub(crate) openings: Vec<Opening>,
    pub(crate) reveals: Vec<Reveal>,
    pub(crate) ends: Vec<FaceEnd>,
    pub(crate) build_ups: Vec<Vec<CheckedCoat>>,
    pub(crate) mixes: Vec<CheckedMix>,
    pub(crate) materials: Vec<CheckedMaterial>,
    pub(crate) dubbing_out: Vec<Length>,
    /// Backgrounds that are metal lath all over, by position.
    pub(crate) is_lath: Vec<bool>,
    pub(crate) lath_key: Length,
    pub(crate) mixer: Option<CheckedMixer>,
    pub(crate) rule: Rule,
}

impl Checked {
    /// The measurement rule of the project.
    pub fn rule(&self) -> &Rule {
        &self.rule
    }

    /// The mixer of the project.
    pub fn mixer(&self) -> Option<&CheckedMixer> {
        self.mixer.as_ref()
    }

    /// The position of the material that is water, when there is one.
    pub(crate) fn water(&self) -> Option<usize> {
        self.materials
            .iter()
            .position(|m| m.kind == MaterialKind::Water)
    }

    pub(crate) fn openings_of(&self, wall: &CheckedWall) -> &[Opening] {
        slice(&self.openings, &wall.openings)
    }

    pub(crate) fn ends_of(&self, face: &CheckedFace) -> &[FaceEnd] {
        slice(&self.ends, &face.ends)
    }
}

/// A part of a list by a range that was made with the list.
fn slice<'a, T>(list: &'a [T], range: &Range<u32>) -> &'a [T] {
    list.get(range.start as usize..range.end as usize)
        .unwrap_or_default()
}

/// One wall entry.
#[derive(Debug, Clone)]
pub(crate) struct CheckedWall {
    pub(crate) count: u32,
    pub(crate) openings: Range<u32>,
    pub(crate) thickness: f64,
    pub(crate) faces: [Option<CheckedFace>; 2],
}

impl CheckedWall {
    pub(crate) fn face(&self, side: Side) -> Option<&CheckedFace> {
        let [outside, inside] = &self.faces;
        match side {
            Side::Outside => outside.as_ref(),
            Side::Inside => inside.as_ref(),
        }
    }
}

/// One plastered face.
#[derive(Debug, Clone)]
pub(crate) struct CheckedFace {
    pub(crate) outline: FaceOutline,
    pub(crate) ends: Range<u32>,
    pub(crate) build_up: u16,
    pub(crate) background: u16,
    /// Volume of the pockets, mm³.
    pub(crate) pockets: f64,
}

/// One coat.
#[derive(Debug, Clone)]
pub(crate) struct CheckedCoat {
    pub(crate) thickness: Length,
    pub(crate) mix: usize,
    pub(crate) shrinkage: Fraction,
    pub(crate) loss: Fraction,
}

/// One mix with the materials it takes, by their position in the project.
#[derive(Debug, Clone)]
pub(crate) struct CheckedMix {
    pub(crate) mix: Mix,
    pub(crate) yielded: Yield,
    pub(crate) minerals: Vec<usize>,
    pub(crate) additives: Vec<usize>,
    pub(crate) clay: Option<Ratio>,
}

impl CheckedMix {
    /// What a recipe of this mix takes of each material by its position, dry and screened; water last,
    /// when there is a material for it.
    pub(crate) fn takes(&self, recipe: &Recipe, water: Option<usize>) -> Vec<(usize, Quantity)> {
        let minerals = zip(&self.minerals, &recipe.minerals);
        let additives = zip(&self.additives, &recipe.additives);
        let water = water.zip(recipe.water).map(|(material, water)| {
            (
                material,
                Quantity::of_mass(water.to_add(), Some(water_density())),
            )
        });
        minerals
            .chain(additives)
            .map(|(material, quantity)| (*material, *quantity))
            .chain(water)
            .collect()
    }
}

/// One material.
#[derive(Debug, Clone)]
pub(crate) struct CheckedMaterial {
    pub(crate) kind: MaterialKind,
    pub(crate) delivery: Delivery,
    pub(crate) loose_density: Option<MassDensity>,
    pub(crate) packages: Vec<Name>,
    pub(crate) offers: Vec<Offer>,
    pub(crate) stock: Option<Amount>,
}

/// The mixer.
#[derive(Debug, Clone, Copy)]
pub struct CheckedMixer {
    /// Mixed plaster one batch makes; above nothing.
    pub working_volume: Volume,
    /// What a bucket holds.
    pub bucket: Option<Volume>,
    /// What a shovel carries.
    pub shovel: Option<Volume>,
}
