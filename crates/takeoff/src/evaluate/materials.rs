//! What every material comes to: needed dry, as delivered, less the stock, in packages. Not here:
//! the coats that need it.

use super::coats::{CoatFigures, Ground};
use crate::checked::{CheckedMaterial, Site};
use crate::project::MaterialKind;
use hodful_quantities::mix::{Quantity, WATER_DENSITY};
use hodful_quantities::order::{Cover, Holds, cover};
use hodful_quantities::read::Amount;
use hodful_quantities::units::{Mass, MassDensity, Volume, kilogram_per_cubic_meter, ratio};
use hodful_soils::heap::State;
use std::iter::zip;

/// What one coat takes of one material, dry and screened.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Use {
    /// Position of the build-up.
    pub build_up: usize,
    /// Position of the coat in it.
    pub coat: usize,
    /// How much.
    pub dry: Quantity,
}

/// Volumes of what is delivered loose.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeapVolumes {
    /// In the ground, before it was dug.
    pub in_ground: Volume,
    /// Rammed.
    pub rammed: Volume,
}

/// One material over the whole project.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MaterialFigures {
    /// The coats that take it.
    pub uses: Vec<Use>,
    /// Dry and screened.
    pub dry: Quantity,
    /// As it must come: damp, before the screen.
    pub delivered: Quantity,
    /// The same in the ground and rammed, where the soil's factors are given.
    pub heap: Option<HeapVolumes>,
    /// What of that is in the yard already.
    pub stock: Quantity,
    /// What is left to buy; never below nothing.
    pub to_buy: Quantity,
    /// The packages that cover it; `None` when none can.
    pub cover: Option<Cover>,
    /// What is over when all is used: packages and stock less the need.
    pub spare: Quantity,
    /// Something refused keeps a figure of it from being told; those figures are absent. Never so in
    /// a project in which nothing is refused.
    pub waits: bool,
}

/// Every material, in the order of the project.
pub(super) fn materials(
    site: &Site,
    grounds: &[Ground],
    coats: &[Vec<Option<CoatFigures>>],
) -> Vec<MaterialFigures> {
    let mut figures = vec![MaterialFigures::default(); site.materials.len()];
    for (b, (layers, (ground, coats))) in zip(&site.build_ups, zip(grounds, coats)).enumerate() {
        for (c, (layer, of)) in zip(layers, coats).enumerate() {
            match (of, layer.mix.and_then(|mix| site.mix(mix))) {
                (Some(of), Some(mix)) => {
                    if of.volume.mixed.value <= 0.0 {
                        continue;
                    }
                    for (material, dry) in mix.takes(&of.recipe, site.water()) {
                        if let Some(figures) = figures.get_mut(material) {
                            figures.uses.push(Use {
                                build_up: b,
                                coat: c,
                                dry,
                            });
                        }
                    }
                }
                _ if *ground == Ground::default() => {}
                _ => waiting(site, layer.mix, &mut figures),
            }
        }
    }
    for (material, figures) in zip(&site.materials, &mut figures) {
        finish(material, figures);
    }
    figures
}

/// Marks what a coat without figures may take: the materials of its mix, and every one when it
/// cannot be told which they are.
fn waiting(site: &Site, mix: Option<usize>, figures: &mut [MaterialFigures]) {
    let names = mix
        .and_then(|at| site.mixes.get(at))
        .and_then(|mix| mix.names.as_ref());
    for (at, figures) in figures.iter_mut().enumerate() {
        figures.waits |= names.is_none_or(|names| names.contains(&at));
    }
}

/// Density of water.
pub(crate) fn water_density() -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(WATER_DENSITY)
}

/// Mass per loose volume of a material as it is delivered.
fn delivered_density(material: &CheckedMaterial) -> Option<MassDensity> {
    let delivery = &material.delivery;
    let dry = match material.kind {
        MaterialKind::Water => Some(water_density()),
        _ => material.loose_density,
    };
    dry.map(|dry| {
        dry * (1.0 + delivery.moisture.get::<ratio>()) / (1.0 + delivery.bulking.get::<ratio>())
    })
}

fn finish(material: &CheckedMaterial, figures: &mut MaterialFigures) {
    if figures.waits {
        return;
    }
    let mut uses = figures.uses.iter().map(|u| u.dry);
    let Some(first) = uses.next() else { return };
    if !material.is_known {
        figures.waits = true;
        return;
    }
    figures.dry = uses.fold(first, |sum, dry| sum.plus(&dry));
    figures.delivered = material.delivery.as_delivered(&figures.dry);
    figures.heap = material
        .heap
        .zip(figures.delivered.loose)
        .map(|(factors, loose)| HeapVolumes {
            in_ground: factors.convert(loose, State::Loose, State::Bank),
            rammed: factors.convert(loose, State::Loose, State::Compacted),
        });
    if !material.is_sold {
        figures.waits = true;
        return;
    }
    figures.stock = stock(material).unwrap_or_else(nothing);
    figures.to_buy = figures.delivered.less(&figures.stock);
    figures.cover = cover(&figures.to_buy, &material.offers);
    let bought = figures
        .cover
        .as_ref()
        .filter(|c| !c.counts.is_empty())
        .map_or(0.0, |c| c.times_need);
    // When packages fall short of a need that they cannot be held against, nothing is over.
    let there = figures.stock.plus(&figures.to_buy.times(bought));
    figures.spare = there.less(&figures.delivered);
}

/// Nothing, by volume and by mass.
pub(crate) fn nothing() -> Quantity {
    Quantity {
        loose: Some(Volume::default()),
        mass: Some(Mass::default()),
    }
}

/// So many times what a package of a material holds, loose and by mass.
pub(crate) fn quantity(material: &CheckedMaterial, holds: &Holds, times: f64) -> Quantity {
    let density = delivered_density(material);
    match holds {
        Holds::Volume(volume) => Quantity::of_volume(*volume * times, density),
        Holds::Mass(mass) => Quantity::of_mass(*mass * times, density),
    }
}

/// What lay in the yard at the start; `None` when no stock is given.
pub(crate) fn stock(material: &CheckedMaterial) -> Option<Quantity> {
    Some(match material.stock.as_ref()? {
        Amount::Volume(volume) => quantity(material, &Holds::Volume(*volume), 1.0),
        Amount::Mass(mass) => quantity(material, &Holds::Mass(*mass), 1.0),
        Amount::Packages { count, name } => {
            let at = material.packages.iter().position(|n| n == name)?;
            quantity(material, &material.offers.get(at)?.holds, *count)
        }
    })
}
