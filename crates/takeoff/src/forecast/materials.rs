//! What was used of each material, what lies in the yard, and what is still to order: as forecast, and as
//! it would be had every wall taken what was worked out. Not here: words.

use super::{CoatAt, CoatForecast};
use crate::check::done::quantity;
use crate::checked::{CheckedMaterial, CheckedMix};
use crate::compare::One;
use crate::project::Name;
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::{Cover, Holds, cover};
use hodful_quantities::read::Amount;
use hodful_quantities::units::{Mass, Volume};
use std::iter::zip;
use std::ops::Sub;

/// What is forecast of one material; quantities are as delivered: damp, before the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct MaterialForecast {
    /// Its name.
    pub material: Name,
    /// What lay in the yard at the start.
    pub stock: Quantity,
    /// What came since.
    pub came: Quantity,
    /// As forecast.
    pub forecast: Needed,
    /// As it would be had every wall taken what was worked out; the plain order when nothing is recorded.
    pub worked_out: Needed,
    /// Name of the coat that does most to the difference of both, when they differ.
    pub because: Option<Name>,
}

/// One way to reckon a material.
#[derive(Debug, Clone, PartialEq)]
pub struct Needed {
    /// Used so far.
    pub used: Quantity,
    /// In the yard now; never below nothing.
    pub yard: Quantity,
    /// Used beyond what lay there and came: something is not recorded.
    pub beyond: Quantity,
    /// Needed for the rest.
    pub rest: Quantity,
    /// Still to order: what is needed for the rest less what is in the yard.
    pub to_order: Quantity,
    /// The packages that cover it; `None` when none can.
    pub cover: Option<Cover>,
}

/// Mixed volumes of one coat: taken, and left.
#[derive(Debug, Clone, Copy)]
struct Mixed {
    taken: Volume,
    left: Volume,
}

/// What the coats take of one material, dry and screened.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    taken: Option<Quantity>,
    left: Option<Quantity>,
}

/// Every material that some coat takes or that came, and those that cannot be told.
pub(super) fn all(
    one: &One<'_>,
    coats: &[(CoatAt, CoatForecast)],
    deliveries: &[Option<(usize, Quantity)>],
) -> (Vec<MaterialForecast>, Vec<Name>) {
    let forecast = |coat: &CoatForecast| Mixed {
        taken: coat.took,
        left: coat.forecast_rest,
    };
    let worked_out = |coat: &CoatForecast| Mixed {
        taken: coat.recorded,
        left: coat.rest,
    };
    let sums = [sums(one, coats, &forecast), sums(one, coats, &worked_out)];
    let mut told = Vec::new();
    let mut waiting = Vec::new();
    let figures = &one.evaluation.materials;
    let materials = zip(one.project.materials.keys(), &one.site.materials);
    for (at, ((name, material), figures)) in zip(materials, figures).enumerate() {
        let came: Vec<&Quantity> = deliveries
            .iter()
            .flatten()
            .filter_map(|(of, came)| (*of == at).then_some(came))
            .collect();
        if figures.waits {
            waiting.push(name.clone());
            continue;
        }
        if figures.uses.is_empty() && came.is_empty() {
            continue;
        }
        let nothing = nothing();
        let stock = stock(material).unwrap_or(nothing);
        let there = came.iter().fold(stock, |sum, came| sum.plus(came));
        let [forecast, worked_out] = sums.each_ref().map(|sums| {
            let sums = sums.get(at).copied().unwrap_or_default();
            needed(material, sums, there)
        });
        let because = because(one, coats, at, &forecast, &worked_out);
        told.push(MaterialForecast {
            material: name.clone(),
            stock,
            came: came.iter().fold(nothing, |sum, came| sum.plus(came)),
            forecast,
            worked_out,
            because,
        });
    }
    (told, waiting)
}

/// What all coats take of each material by its position.
fn sums(
    one: &One<'_>,
    coats: &[(CoatAt, CoatForecast)],
    mixed: &dyn Fn(&CoatForecast) -> Mixed,
) -> Vec<Sums> {
    let mut sums = vec![Sums::default(); one.site.materials.len()];
    for (at, coat) in coats {
        let Some(mix) = mix_of(one, *at) else {
            continue;
        };
        let mixed = mixed(coat);
        for (is_left, mixed) in [(false, mixed.taken), (true, mixed.left)] {
            for (material, dry) in takes(one, mix, mixed) {
                let Some(sums) = sums.get_mut(material) else {
                    continue;
                };
                let sum = if is_left {
                    &mut sums.left
                } else {
                    &mut sums.taken
                };
                *sum = Some(sum.map_or(dry, |sum| sum.plus(&dry)));
            }
        }
    }
    sums
}

/// What a volume of mixed plaster takes of each material, dry and screened.
fn takes(one: &One<'_>, mix: &CheckedMix, mixed: Volume) -> Vec<(usize, Quantity)> {
    let recipe = mix.mix.recipe(mixed, mix.yielded.value);
    mix.takes(&recipe, one.site.water())
}

fn mix_of<'p>(one: &One<'p>, (b, c): CoatAt) -> Option<&'p CheckedMix> {
    one.site.mix(one.site.build_ups.get(b)?.get(c)?.mix?)
}

/// From what is taken and left to what is to order, as the evaluation does with the whole.
fn needed(material: &CheckedMaterial, sums: Sums, there: Quantity) -> Needed {
    let as_delivered = |dry: Option<Quantity>| {
        dry.map_or_else(nothing, |dry| material.delivery.as_delivered(&dry))
    };
    let used = as_delivered(sums.taken);
    let rest = as_delivered(sums.left);
    let both = |a: &Quantity, b: &Quantity| Quantity {
        loose: less(a.loose, b.loose),
        mass: less(a.mass, b.mass),
    };
    let yard = both(&there, &used);
    let to_order = both(&rest, &yard);
    Needed {
        used,
        yard,
        beyond: both(&used, &there),
        rest,
        to_order,
        cover: cover(&to_order, &material.offers),
    }
}

/// The coat that does most to a difference of what is to order, in the direction of it.
fn because(
    one: &One<'_>,
    coats: &[(CoatAt, CoatForecast)],
    material: usize,
    forecast: &Needed,
    worked_out: &Needed,
) -> Option<Name> {
    let size = |of: &Quantity| match (of.loose, of.mass) {
        (Some(loose), _) => loose.value,
        (None, Some(mass)) => mass.value,
        (None, None) => 0.0,
    };
    let more = size(&forecast.to_order) - size(&worked_out.to_order);
    let mut by_name: Vec<(&Name, f64)> = Vec::new();
    for (at, coat) in coats {
        let Some(mix) = mix_of(one, *at) else {
            continue;
        };
        let taken = |mixed: Volume| -> f64 {
            let takes = takes(one, mix, mixed);
            let own = takes.iter().filter(|(of, _)| *of == material);
            own.map(|(_, dry)| size(dry)).sum()
        };
        let by = taken(coat.forecast_whole) - taken(coat.recorded + coat.rest);
        match by_name.iter_mut().find(|(name, _)| **name == coat.coat) {
            Some((_, sum)) => *sum += by,
            None => by_name.push((&coat.coat, by)),
        }
    }
    // In the direction of the difference; nothing where there is none.
    let along = |by: f64| if more > 0.0 { by } else { -by };
    by_name
        .into_iter()
        .filter(|(_, by)| more != 0.0 && along(*by) > 0.0)
        .max_by(|(_, a), (_, b)| along(*a).total_cmp(&along(*b)))
        .map(|(coat, _)| coat.clone())
}

/// What lay in the yard at the start; nothing when no stock is given.
fn stock(material: &CheckedMaterial) -> Option<Quantity> {
    Some(match material.stock.as_ref()? {
        Amount::Volume(volume) => quantity(material, &Holds::Volume(*volume), 1.0),
        Amount::Mass(mass) => quantity(material, &Holds::Mass(*mass), 1.0),
        Amount::Packages { count, name } => {
            let at = material.packages.iter().position(|n| n == name)?;
            quantity(material, &material.offers.get(at)?.holds, *count)
        }
    })
}

/// Nothing, by volume and by mass.
fn nothing() -> Quantity {
    Quantity {
        loose: Some(Volume::default()),
        mass: Some(Mass::default()),
    }
}

/// One less the other; nothing when the other is as much.
fn less<T>(one: Option<T>, other: Option<T>) -> Option<T>
where
    T: Copy + Default + PartialOrd + Sub<Output = T>,
{
    one.zip(other).map(|(one, other)| {
        if one > other {
            one - other
        } else {
            T::default()
        }
    })
}
