//! What belongs together in two projects. Not here: what is worked out of it.
//!
//! Coats are the same by the names of their build-up and of themselves, materials by name. What is on one
//! side only takes what it needs of the chain from that side: a coat that is not there takes nothing; a
//! build-up that is not there has no surface.

use super::{Both, Chain, Coat, Material, PerUnit, UNIT, volume};
use crate::checked::{CheckedCoat, CheckedMaterial, CheckedMix};
use crate::compare::One;
use crate::compare::line::whole;
use crate::evaluate::{CoatFigures, Ground, MaterialFigures, water_density};
use crate::project::Name;
use hodful_quantities::Fraction;
use hodful_quantities::mix::{Delivery, Quantity, WaterNeed};
use hodful_quantities::order::{self, Holds, Offer};
use hodful_quantities::units::{Length, Mass, Ratio};
use std::iter::zip;

pub(super) fn align(both: [&One<'_>; 2]) -> Chain {
    let mut names: Vec<Name> = Vec::new();
    for name in both.iter().flat_map(|one| one.project.materials.keys()) {
        if !names.contains(name) {
            names.push(name.clone());
        }
    }
    let dubbed = dubbed(both);
    let mut coats: Vec<Coat> = Vec::new();
    let build_ups = both.iter().flat_map(|one| &one.project.build_ups);
    for (build_up, layers) in build_ups {
        for layer in layers {
            let key = (build_up.clone(), layer.coat.clone());
            if !coats.iter().any(|coat| coat.name == key) {
                coats.extend(coat(both, &names, &dubbed, key));
            }
        }
    }
    let working = both.map(|one| one.site.mixer.map(|mixer| mixer.working_volume.value));
    Chain {
        // In the order of the names, so that what a coat takes is found by position.
        materials: names.iter().map(|name| material(both, name)).collect(),
        coats,
        working: Both::mend(working),
    }
}

/// A coat as one side has it.
struct OneCoat<'p> {
    figures: &'p CoatFigures,
    checked: &'p CheckedCoat,
    mix: &'p CheckedMix,
    is_first: bool,
}

/// What a side has of a coat.
enum Seen<'p> {
    /// It.
    Here(OneCoat<'p>),
    /// Nothing of it, though its build-up is there.
    LeftOut,
    /// Not even its build-up, or that on no face while the coat cannot be told.
    NoSurface,
    /// It is on some face and cannot be told.
    Untold,
}

impl<'p> Seen<'p> {
    fn of(one: &'p One<'_>, (build_up, name): &(Name, Name)) -> Self {
        let Some((b, _, coats)) = one.project.build_ups.get_full(build_up) else {
            return Self::NoSurface;
        };
        let Some(c) = coats.iter().position(|of| of.coat == *name) else {
            return Self::LeftOut;
        };
        let coat = || {
            let checked = one.site.build_ups.get(b)?.get(c)?.coat.as_ref()?;
            Some(OneCoat {
                figures: one.evaluation.coats.get(b)?.get(c)?.as_ref()?,
                checked,
                mix: one.site.mix(checked.mix)?,
                is_first: c == 0,
            })
        };
        match coat() {
            Some(coat) => Self::Here(coat),
            None if one.evaluation.grounds.get(b) == Some(&Ground::default()) => Self::NoSurface,
            None => Self::Untold,
        }
    }

    fn here(&self) -> Option<&OneCoat<'p>> {
        match self {
            Self::Here(coat) => Some(coat),
            _ => None,
        }
    }
}

/// A coat on both sides; `None` when it cannot be told on either.
fn coat(
    both: [&One<'_>; 2],
    names: &[Name],
    dubbed: &[[Vec<f64>; 2]; 2],
    key: (Name, Name),
) -> Option<Coat> {
    let seen = both.map(|one| Seen::of(one, &key));
    if seen.iter().any(|of| matches!(of, Seen::Untold)) {
        return None;
    }
    let here = seen.each_ref().map(Seen::here);
    let get = |f: &dyn Fn(&OneCoat<'_>) -> f64| Both::mend(here.map(|of| of.map(f)));
    let share = |f: &dyn Fn(&OneCoat<'_>) -> Fraction| Both::mend(here.map(|of| of.map(f)));
    // Without its build-up there is no surface; without the coat alone, that of the other side does as
    // well, since nothing is taken from it.
    let surface = |f: &dyn Fn(&OneCoat<'_>) -> f64| {
        Both::mend(seen.each_ref().map(|of| match of {
            Seen::Here(coat) => Some(f(coat)),
            Seen::NoSurface => Some(0.0),
            Seen::LeftOut | Seen::Untold => None,
        }))
    };
    let ground = both.map(|one| {
        let at = one.project.build_ups.get_index_of(&key.0)?;
        Some((at, one.evaluation.grounds.get(at)?))
    });
    let yielded = Both::mend(here.map(|of| of.map(|of| of.mix.yielded.value)))?;
    let takes = |mix: usize, yielded: Ratio, damp: usize| {
        // From the other side where this one has no such coat.
        let own = here.get(mix).copied().flatten().map(|of| (mix, of));
        let (side, of) = own.or_else(|| {
            let other = 1_usize.saturating_sub(mix);
            Some((other, here.get(other).copied().flatten()?))
        })?;
        Some(taken(
            both.get(side)?,
            of.mix,
            names,
            yielded,
            both.get(damp)?,
        ))
    };
    let [first, second] = yielded.0;
    let damp = |mix, yielded| Some(Both([takes(mix, yielded, 0)?, takes(mix, yielded, 1)?]));
    let mixed = |mix| Some(Both([damp(mix, first)?, damp(mix, second)?]));
    let takes = Both([mixed(0)?, mixed(1)?]);
    let of_mix = |at: &Both<Both<Vec<Option<Quantity>>>>| {
        let all = at.0.iter().flat_map(|of| of.0.iter().flatten());
        all.copied().collect::<Vec<_>>()
    };
    Some(Coat {
        area: surface(&|of| of.figures.surface.area.value)?,
        growth: surface(&|of| of.figures.surface.growth.value)?,
        is_there: Both(seen.each_ref().map(|of| !matches!(of, Seen::LeftOut))),
        is_first: Both::mend(here.map(|of| of.map(|of| of.is_first)))?,
        coves: Both(ground.map(|of| of.map_or(0.0, |(_, of)| of.first.coves.value))),
        dubbing: carried(ground, dubbed),
        from: get(&|of| of.figures.from.value)?,
        thickness: get(&|of| of.figures.thickness.value)?,
        shrinkage: share(&|of| of.checked.shrinkage)?,
        loss: share(&|of| of.checked.loss)?,
        yielded,
        mixes_differ: of_mix(&takes.0[0]) != of_mix(&takes.0[1]),
        takes,
        name: key,
    })
}

/// What the first coat of a build-up carries besides coves, by side of the surface, then of the depths:
/// dubbing out and lath by the depths of that side, pockets as that side has them.
fn carried(ground: [Option<(usize, &Ground)>; 2], dubbed: &[[Vec<f64>; 2]; 2]) -> Both<Both<f64>> {
    let used = ground.map(|of| of.filter(|(_, of)| of.surface.area.value > 0.0));
    let pockets = Both::mend(used.map(|of| of.map(|(_, of)| of.first.pockets.value)));
    let row = |(used, dubbed): (Option<(usize, &Ground)>, &[Vec<f64>; 2])| {
        let (Some((at, _)), Some(pockets)) = (used, pockets) else {
            return Both([0.0; 2]);
        };
        let [by_first, by_second] = dubbed.each_ref().map(|of| of.get(at).copied());
        Both([
            by_first.unwrap_or_default() + pockets.0[0],
            by_second.unwrap_or_default() + pockets.0[1],
        ])
    };
    let ([a, b], [of_a, of_b]) = (used, dubbed);
    Both([row((a, of_a)), row((b, of_b))])
}

/// Dubbing out and key of lath of every build-up, by side of the surface, then of the depths, mm³.
fn dubbed(both: [&One<'_>; 2]) -> [[Vec<f64>; 2]; 2] {
    let own = |one: &One<'_>| -> Vec<f64> {
        let firsts = one.evaluation.grounds.iter().map(|ground| ground.first);
        firsts
            .map(|of| of.dubbing_out.value + of.lath_key.value)
            .collect()
    };
    let [a, b] = both;
    let with = |surface: &One<'_>, depths: &One<'_>| {
        let (as_is, other) = (Depths::of(surface, surface), Depths::of(surface, depths));
        if as_is == other {
            own(surface)
        } else {
            dubbed_with(surface, &other)
        }
    };
    [[own(a), with(a, b)], [with(b, a), own(b)]]
}

/// What backgrounds are dubbed out to, mm.
#[derive(PartialEq)]
struct Depths {
    /// Of each background, and whether it is lath all over.
    backgrounds: Vec<(Option<f64>, bool)>,
    lath_key: Option<f64>,
}

impl Depths {
    /// For the backgrounds of a project, as another has them where that has one of the name.
    fn of(surface: &One<'_>, depths: &One<'_>) -> Self {
        let value = |depth: Option<Length>| depth.map(|depth| depth.value);
        let names = surface.project.backgrounds.keys().enumerate();
        let backgrounds = names.map(|(own, name)| {
            let other = depths.project.backgrounds.get_index_of(name);
            let (one, at) = other.map_or((surface, own), |at| (depths, at));
            let depth = one.site.dubbing_out.get(at).copied().flatten();
            (value(depth), one.site.is_lath.get(at) == Some(&true))
        });
        Self {
            backgrounds: backgrounds.collect(),
            lath_key: value(depths.site.lath_key),
        }
    }
}

/// The faces of a project dubbed out to other depths, summed by build-up, as the evaluation does it.
fn dubbed_with(one: &One<'_>, depths: &Depths) -> Vec<f64> {
    let value = |depth: Option<f64>| depth.unwrap_or(f64::NAN);
    let mut sums = vec![0.0; one.project.build_ups.len()];
    for (wall, faces) in zip(&one.project.walls, &one.evaluation.faces) {
        let times = f64::from(wall.count.unwrap_or(1));
        for (face, figures) in zip([&wall.outside, &wall.inside], faces) {
            let (Some(face), Some(figures)) = (face, figures) else {
                continue;
            };
            let background = one.project.backgrounds.get_index_of(&face.background);
            let build_up = one.project.build_ups.get_index_of(&face.build_up);
            let depth = background.and_then(|at| depths.backgrounds.get(at));
            let sum = build_up.and_then(|at| sums.get_mut(at));
            let (Some((depth, is_lath)), Some(sum)) = (depth, sum) else {
                continue;
            };
            *sum += times * figures.measure.field * value(*depth);
            if !is_lath && figures.measure.lath > 0.0 {
                *sum += times * figures.measure.lath * value(depths.lath_key);
            }
        }
    }
    sums
}

/// What [`UNIT`] of a mixed plaster takes of each material, dry; the water that the materials bring is
/// as another project has it.
fn taken(
    one: &One<'_>,
    mix: &CheckedMix,
    names: &[Name],
    yielded: Ratio,
    damp: &One<'_>,
) -> Vec<Option<Quantity>> {
    let recipe = mix.mix.recipe(volume(UNIT), yielded);
    let mut taken = vec![None; names.len()];
    let mut take = |at: usize, dry: Quantity| {
        let name = one.project.materials.get_index(at).map(|(name, _)| name);
        let place = names.iter().position(|other| Some(other) == name);
        if let Some(sum) = place.and_then(|at| taken.get_mut(at)) {
            *sum = Some(match *sum {
                None => dry,
                Some(of) => Quantity::plus(&dry, &of),
            });
        }
    };
    let mut held = Mass::default();
    for (at, dry) in mix.takes(&recipe, None) {
        if let Some(mass) = dry.mass {
            held += mass * moisture(one, at, damp);
        }
        take(at, dry);
    }
    if let Some((at, water)) = one.site.water().zip(recipe.water) {
        let need = WaterNeed {
            in_materials: held,
            ..water
        };
        take(at, Quantity::of_mass(need.to_add(), Some(water_density())));
    }
    taken
}

/// Moisture of a material of one project as another has it, or as its own has when that has none.
fn moisture(one: &One<'_>, at: usize, damp: &One<'_>) -> Ratio {
    let name = one.project.materials.get_index(at).map(|(name, _)| name);
    let there = name.and_then(|name| damp.project.materials.get_index_of(name));
    let there = there.and_then(|at| damp.site.materials.get(at));
    let of = there.or_else(|| one.site.materials.get(at));
    of.map_or_else(Ratio::default, |of| of.delivery.moisture)
}

/// A material on both sides. What no coat takes is not bought: what lies of it in the yard and what it
/// would cost are of no matter there.
fn material(both: [&One<'_>; 2], name: &Name) -> Material {
    let seen = both.map(|one| {
        let at = one.project.materials.get_index_of(name)?;
        Some((
            one.site.materials.get(at)?,
            one.evaluation.materials.get(at)?,
        ))
    });
    let delivery = seen.map(|of| of.map(|(material, _)| material.delivery));
    let delivery = Both::mend(delivery).unwrap_or(Both([Delivery::default(); 2]));
    let used = seen.map(|of| of.filter(|(_, figures)| !figures.uses.is_empty()));
    let stock = Both::mend(used.map(|of| of.map(|(_, figures)| figures.stock)));
    let offers = |f: fn(&CheckedMaterial, &MaterialFigures) -> Option<PerUnit>| {
        let offers = used.map(|of| of.map(|(material, figures)| f(material, figures)));
        Both::mend(offers).unwrap_or(Both([None; 2]))
    };
    Material {
        name: name.clone(),
        moisture: delivery.map(|of| of.moisture),
        bulking: delivery.map(|of| of.bulking),
        reject: delivery.map(|of| of.reject),
        keeping_loss: delivery.map(|of| of.keeping_loss),
        stock: stock.unwrap_or(Both([Quantity::default(); 2])),
        price: offers(price),
        package: offers(package),
    }
}

/// What a unit of a need comes to in the packages that were chosen for it: so much for each by the first, spread over
/// all that they hold together. Of a need that lies in the yard whole, in those that would have been chosen without it.
fn each(
    of: &CheckedMaterial,
    figures: &MaterialFigures,
    one: impl Fn(&Offer) -> Option<f64>,
) -> Option<PerUnit> {
    let chosen = figures.cover.as_ref().filter(|of| !of.counts.is_empty());
    let unstocked = || order::cover(&figures.delivered, &of.offers);
    let (need, chosen) = match chosen {
        Some(chosen) => (figures.to_buy, chosen.clone()),
        None => (figures.delivered, unstocked()?),
    };
    let rows = chosen.counts.iter();
    let rows: Vec<(&Offer, f64)> = rows
        .map(|(at, count)| Some((of.offers.get(*at)?, whole(*count))))
        .collect::<Option<_>>()?;
    let (first, _) = rows.first()?;
    let (unit, holds) = match first.holds {
        Holds::Volume(holds) => (PerUnit::Volume as fn(f64) -> PerUnit, holds.value),
        Holds::Mass(holds) => (PerUnit::Mass as fn(f64) -> PerUnit, holds.value),
    };
    let each = if let [(only, _)] = rows.as_slice() {
        // Of one kind the count does not matter, to the last bit.
        one(only)? / holds
    } else {
        let all: Option<f64> = rows.iter().map(|(of, count)| Some(one(of)? * count)).sum();
        let need = unit(1.0).of(&need)?;
        all? / (need * chosen.times_need)
    };
    each.is_finite().then(|| unit(each))
}

/// Price of a unit.
fn price(of: &CheckedMaterial, figures: &MaterialFigures) -> Option<PerUnit> {
    each(of, figures, |offer| Some(offer.price?.to_f64()))
}

/// Packages of a unit.
fn package(of: &CheckedMaterial, figures: &MaterialFigures) -> Option<PerUnit> {
    each(of, figures, |_| Some(1.0))
}
