//! A project that passed the checks, as numbers: what the evaluation runs over. Small, flat and
//! owned, so that a hundred thousand walls stream through it. Not here: texts, names and places,
//! which stay in the [`crate::project::Project`] under the same positions.

use crate::evaluate::water_density;
use crate::project::{MaterialKind, Name, Project, Side};
use crate::rule::Rule;
use hodful_geometry::{FaceEnd, FaceOutline, Opening, Reveal};
use hodful_quantities::mix::{Delivery, Mix, Quantity, Recipe, Yield};
use hodful_quantities::order::Offer;
use hodful_quantities::units::{Length, Mass, MassDensity, Ratio, Volume};
use hodful_quantities::{Fraction, read::Amount};
use std::fmt;
use std::iter::zip;
use std::ops::Range;

/// A checked project. Made by [`crate::check()`] only.
#[derive(Debug, Clone)]
pub struct Checked {
    pub(crate) site: Site,
    pub(crate) walls: Walls,
}

impl Checked {
    /// The measurement rule of the project.
    pub fn rule(&self) -> &Rule {
        &self.site.rule
    }

    /// The mixer of the project.
    pub fn mixer(&self) -> Option<&CheckedMixer> {
        self.site.mixer.as_ref()
    }

    /// The yield of a mix by its position in the project.
    pub fn yield_of(&self, mix: usize) -> Option<&Yield> {
        Some(&self.site.mix(mix)?.yielded)
    }

    /// What a material is like as delivered, tests before what is typed, by its position.
    pub fn delivery_of(&self, material: usize) -> Option<&Delivery> {
        Some(&self.site.materials.get(material)?.delivery)
    }

    /// Loss of thickness on drying and loss of plaster of a coat, by the positions of its build-up and
    /// itself; a test panel before what is typed.
    pub fn losses_of(&self, build_up: usize, coat: usize) -> Option<(Fraction, Fraction)> {
        let coat = self
            .site
            .build_ups
            .get(build_up)?
            .get(coat)?
            .coat
            .as_ref()?;
        Some((coat.shrinkage, coat.loss))
    }
}

/// Everything but the walls. In a [`Checked`] nothing is missing; while a project is edited, what is
/// refused is `None` here, so that no number stands in for it.
#[derive(Debug, Clone)]
pub(crate) struct Site {
    pub(crate) build_ups: Vec<Vec<Layer>>,
    pub(crate) mixes: Vec<SiteMix>,
    pub(crate) materials: Vec<CheckedMaterial>,
    /// By background.
    pub(crate) dubbing_out: Vec<Option<Length>>,
    /// Backgrounds that are metal lath all over, by position.
    pub(crate) is_lath: Vec<bool>,
    pub(crate) lath_key: Option<Length>,
    pub(crate) mixer: Option<CheckedMixer>,
    /// Who delivers, by position in the project; nothing where something of it is refused.
    pub(crate) suppliers: Vec<Option<hodful_purchase::Supplier>>,
    /// When what is ordered; `None` where something of it is refused.
    pub(crate) phases: Option<Phases>,
    /// No bands stand in for a rule that there is not.
    pub(crate) rule: Rule,
    /// Whether there is such a rule.
    pub(crate) rule_known: bool,
}

impl Site {
    /// What one full batch of a mix takes, as it is measured into the mixer.
    pub(crate) fn batch_of<'p>(
        &self,
        project: &'p Project,
        mix: &str,
    ) -> Vec<(&'p Name, Quantity)> {
        let found = project.mixes.get_index_of(mix);
        let (Some(mixer), Some(mix)) = (&self.mixer, found.and_then(|at| self.mix(at))) else {
            return Vec::new();
        };
        let recipe = mix.mix.recipe(mixer.working_volume, mix.yielded.value);
        mix.takes(&recipe, self.water())
            .into_iter()
            .filter_map(|(at, dry)| {
                let (name, _) = project.materials.get_index(at)?;
                let delivery = &self.materials.get(at)?.delivery;
                Some((name, delivery.at_the_mixer(&dry)))
            })
            .collect()
    }

    /// The position of the material that is water, when there is one.
    pub(crate) fn water(&self) -> Option<usize> {
        self.materials
            .iter()
            .position(|m| m.kind == MaterialKind::Water)
    }

    /// A mix in which nothing is refused.
    pub(crate) fn mix(&self, at: usize) -> Option<&CheckedMix> {
        self.mixes.get(at)?.made.as_ref()
    }

    /// The thickness of all coats of each build-up together, mm; `None` where one is refused.
    pub(crate) fn thicknesses(&self) -> Vec<Option<f64>> {
        let all = |layers: &Vec<Layer>| {
            layers
                .iter()
                .map(|layer| Some(layer.thickness?.value))
                .sum()
        };
        self.build_ups.iter().map(all).collect()
    }
}

/// When what is ordered.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Phases {
    /// Days of the phases, counted from the first that is known; one phase without a day when none is
    /// given.
    pub(crate) days: Vec<hodful_purchase::Phase>,
    /// The phase of each coat, by build-up.
    pub(crate) of_coats: Vec<Vec<usize>>,
}

/// All walls, one after another.
#[derive(Debug, Clone, Default)]
pub(crate) struct Walls {
    pub(crate) entries: Vec<CheckedWall>,
    pub(crate) openings: Vec<Opening>,
    pub(crate) ends: Vec<FaceEnd>,
    pub(crate) reveals: Vec<Reveal>,
}

/// Where a wall is found by its position.
pub(crate) trait FindWall: fmt::Debug + Sync {
    /// The wall, when it can be measured.
    fn find(&self, at: usize) -> Option<OneWall<'_>>;
}

impl FindWall for Walls {
    fn find(&self, at: usize) -> Option<OneWall<'_>> {
        self.entries.get(at).map(|entry| self.with(entry))
    }
}

impl Walls {
    /// An entry of this list, with the lists that it points into.
    pub(crate) fn with<'a>(&'a self, entry: &'a CheckedWall) -> OneWall<'a> {
        OneWall {
            entry,
            openings: slice(&self.openings, &entry.openings),
            ends: &self.ends,
            reveals: &self.reveals,
        }
    }
}

/// One wall with everything that its measuring needs.
#[derive(Debug, Clone, Copy)]
pub(crate) struct OneWall<'a> {
    pub(crate) entry: &'a CheckedWall,
    /// Its own.
    pub(crate) openings: &'a [Opening],
    /// The list that its faces point into.
    pub(crate) ends: &'a [FaceEnd],
    /// The list that its openings point into.
    pub(crate) reveals: &'a [Reveal],
}

impl<'a> OneWall<'a> {
    pub(crate) fn ends_of(&self, face: &CheckedFace) -> &'a [FaceEnd] {
        slice(self.ends, &face.ends)
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

/// One coat of a build-up, as far as it can be told.
#[derive(Debug, Clone)]
pub(crate) struct Layer {
    /// Those over it need this alone.
    pub(crate) thickness: Option<Length>,
    /// The mix it names, when there is such a mix.
    pub(crate) mix: Option<usize>,
    /// The coat, when nothing of it is refused; its mix may be.
    pub(crate) coat: Option<CheckedCoat>,
}

/// One coat.
#[derive(Debug, Clone)]
pub(crate) struct CheckedCoat {
    pub(crate) thickness: Length,
    pub(crate) mix: usize,
    pub(crate) shrinkage: Fraction,
    pub(crate) loss: Fraction,
}

/// One mix, as far as it can be told.
#[derive(Debug, Clone)]
pub(crate) struct SiteMix {
    /// The mix, when neither it nor what it is made of is refused.
    pub(crate) made: Option<CheckedMix>,
    /// The materials it names, water included; `None` when it names one that there is not.
    pub(crate) names: Option<Vec<usize>>,
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
    /// Who sells each package, by position in the project; `None` for what one fetches oneself.
    pub(crate) sold_by: Vec<Option<usize>>,
    /// Room that each package takes on the truck, where it is given.
    pub(crate) room: Vec<Option<Volume>>,
    /// Days that it keeps.
    pub(crate) keeps: Option<f64>,
    /// Volumes in the ground, dug and rammed.
    pub(crate) heap: Option<hodful_soils::heap::HeapFactors>,
    /// What a shovel of it carries, counted by the crew.
    pub(crate) shovel: Option<Volume>,
    /// What a handful of it weighs.
    pub(crate) handful: Option<Mass>,
    /// Clay in it: as typed, or from its grains.
    pub(crate) clay: Option<Ratio>,
    pub(crate) stock: Option<Amount>,
    /// Nothing is refused in what it is made of.
    pub(crate) is_known: bool,
    /// Nothing is refused in how it is sold and what is in the yard.
    pub(crate) is_sold: bool,
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
    /// What the cup for binder holds.
    pub cup: Option<Volume>,
    /// Water that is held back, per water to add.
    pub hold_back: Option<Fraction>,
    /// Batches that the crew makes in a day; above nothing.
    pub batches_per_day: Option<f64>,
}
