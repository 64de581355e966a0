//! Coats of every build-up: volumes, recipes, batches. Not here: surfaces, and what is ordered.

use crate::checked::{CheckedCoat, CheckedMix, Site};
use hodful_quantities::mix::Recipe;
use hodful_quantities::units::{Length, Volume};
use hodful_quantities::{Batches, CoatVolume, FirstCoat, Surface};
use std::iter::zip;

/// What all faces of one build-up bring to its coats, walls counted.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ground {
    /// True surface and its growth with the offset.
    pub surface: Surface,
    /// What only the first coat carries.
    pub first: FirstCoat,
}

impl Ground {
    pub(super) fn add(&mut self, other: &Self) {
        self.surface.area += other.surface.area;
        self.surface.growth += other.surface.growth;
        self.first.dubbing_out += other.first.dubbing_out;
        self.first.lath_key += other.first.lath_key;
        self.first.pockets += other.first.pockets;
        self.first.coves += other.first.coves;
    }
}

/// One coat of one build-up over all its faces.
#[derive(Debug, Clone, PartialEq)]
pub struct CoatFigures {
    /// The surface it goes over.
    pub surface: Surface,
    /// Where the layer starts above the background.
    pub from: Length,
    /// Its finished thickness.
    pub thickness: Length,
    /// The layer alone.
    pub layer: Volume,
    /// What it carries besides, when it is the first.
    pub first: FirstCoat,
    /// Placed, wet and mixed.
    pub volume: CoatVolume,
    /// What the mixed volume takes, dry and screened.
    pub recipe: Recipe,
    /// Loads of the mixer, when there is one.
    pub batches: Option<Batches>,
    /// What one full load takes, dry and screened.
    pub batch: Option<Recipe>,
}

/// Every coat of every build-up, in the order of the project. `None` where a value of the coat, its
/// mix, the thickness of a coat under it or what the first coat carries cannot be told.
pub(super) fn coats(site: &Site, grounds: &[Ground]) -> Vec<Vec<Option<CoatFigures>>> {
    zip(&site.build_ups, grounds)
        .map(|(layers, ground)| {
            let mut from = Some(Length::default());
            let mut first = ground.first;
            layers
                .iter()
                .map(|layer| {
                    let figures = layer.coat.as_ref().zip(from).and_then(|(coat, from)| {
                        let mix = site.mix(coat.mix)?;
                        let told = !first.total().value.is_nan();
                        told.then(|| one(site, coat, mix, ground.surface, from, first))
                    });
                    from = from
                        .zip(layer.thickness)
                        .map(|(from, thickness)| from + thickness);
                    first = FirstCoat::default();
                    figures
                })
                .collect()
        })
        .collect()
}

/// The coat of one ground that starts `from` above the background.
pub(crate) fn one(
    site: &Site,
    coat: &CheckedCoat,
    mix: &CheckedMix,
    surface: Surface,
    from: Length,
    first: FirstCoat,
) -> CoatFigures {
    let layer = surface.layer(from, coat.thickness);
    let volume = CoatVolume::new(layer + first.total(), coat.shrinkage, coat.loss);
    let value = mix.yielded.value;
    let working = site.mixer.map(|mixer| mixer.working_volume);
    CoatFigures {
        surface,
        from,
        thickness: coat.thickness,
        layer,
        first,
        volume,
        recipe: mix.mix.recipe(volume.mixed, value),
        batches: working.and_then(|working| Batches::new(volume.mixed, working)),
        batch: working.map(|working| mix.mix.recipe(working, value)),
    }
}
