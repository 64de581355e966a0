//! What was used of each material, what lies in the yard, and what is still to order: as forecast, and as
//! it would be had every wall taken what was worked out. Not here: words.

use super::learned::{EIGHT_IN_TEN, of_mean_one};
use super::{CoatAt, CoatForecast};
use crate::chances::belief::Share;
use crate::checked::{CheckedMaterial, CheckedMix};
use crate::compare::One;
use crate::evaluate::{nothing, stock};
use crate::project::Name;
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::{Cover, cover};
use hodful_quantities::units::{Mass, Volume};
use std::iter::zip;

/// What is forecast of one material; quantities are as delivered: damp, before the screen.
#[derive(Debug, Clone, PartialEq)]
pub struct MaterialForecast {
    /// Its name.
    pub material: Name,
    /// What lay in the yard at the start.
    pub stock: Quantity,
    /// What came since.
    pub came: Quantity,
    /// As forecast: the middle.
    pub forecast: Needed,
    /// With as much for the rest as is enough 9 times out of 10; `None` while nothing is recorded, as the draws say it
    /// then.
    pub enough: Option<Needed>,
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
    believed: Option<&[[Share; 2]]>,
) -> (Vec<MaterialForecast>, Vec<Name>) {
    let forecast = |coat: &CoatForecast| Mixed {
        taken: coat.took,
        left: coat.forecast_rest,
    };
    let worked_out = |coat: &CoatForecast| Mixed {
        taken: coat.recorded,
        left: coat.rest,
    };
    let enough = |coat: &CoatForecast| Mixed {
        taken: coat.took,
        left: coat.enough_rest,
    };
    let sums = [
        sums(one, coats, &forecast),
        sums(one, coats, &worked_out),
        sums(one, coats, &enough),
    ];
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
        let stock = stock(material).unwrap_or_else(nothing);
        let there = came.iter().fold(stock, |sum, came| sum.plus(came));
        let [forecast, worked_out, enough] = sums.each_ref().map(|sums| {
            let sums = sums.get(at).copied().unwrap_or_default();
            needed(material, sums, there)
        });
        let believed = believed.and_then(|all| all.get(at));
        let enough = believed.map(|of| of_delivered(material, &forecast, &enough, of));
        let because = because(one, coats, at, &forecast, &worked_out);
        told.push(MaterialForecast {
            material: name.clone(),
            stock,
            came: came.iter().fold(nothing(), |sum, came| sum.plus(came)),
            forecast,
            enough,
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
    let yard = there.less(&used);
    Needed {
        used,
        yard,
        beyond: used.less(&there),
        ..order(material, rest, yard)
    }
}

/// What is to order of a rest.
fn order(material: &CheckedMaterial, rest: Quantity, yard: Quantity) -> Needed {
    let to_order = rest.less(&yard);
    Needed {
        used: nothing(),
        yard,
        beyond: nothing(),
        rest,
        to_order,
        cover: cover(&to_order, &material.offers),
    }
}

/// What is enough of a material, by its coats and by what yield, moisture, bulking and reject may be off: two factors
/// independent of each other, whose logarithms are taken as normal, so that their variances add up. All coats are at
/// their upper end together, since what makes one thicker makes the other so as a rule: rather too much than too little.
fn of_delivered(
    material: &CheckedMaterial,
    middle: &Needed,
    by_coats: &Needed,
    believed: &[Share; 2],
) -> Needed {
    let [loose, mass] = believed.map(|Share { mean, sd }| {
        let (centre, off) = of_mean_one(sd);
        (mean * libm::exp(centre), off)
    });
    let rest = |middle: f64, upper: f64, (factor, off): (f64, f64)| {
        if middle <= 0.0 {
            return middle;
        }
        let by_coats = libm::log(upper / middle) / EIGHT_IN_TEN;
        middle * factor * libm::exp(EIGHT_IN_TEN * libm::hypot(by_coats, off))
    };
    let sides = (middle.rest, by_coats.rest);
    let rest = Quantity {
        loose: sides.0.loose.zip(sides.1.loose).map(|(a, b)| Volume {
            value: rest(a.value, b.value, loose),
            ..Volume::default()
        }),
        mass: sides.0.mass.zip(sides.1.mass).map(|(a, b)| Mass {
            value: rest(a.value, b.value, mass),
            ..Mass::default()
        }),
    };
    Needed {
        used: middle.used,
        beyond: middle.beyond,
        ..order(material, rest, middle.yard)
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
