//! A material of the project as one that may go into a blend: dry, screened, with what a kilogram costs.
//! Not here: what is asked of the blend.

use crate::checked::{CheckedMaterial, Site};
use crate::project::{Material, MaterialKind, Project};
use crate::soil::{self, SoilFigures};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::mix::USUAL_PARTICLE_DENSITY;
use hodful_quantities::order::Holds;
use hodful_quantities::read::{Amount, Money};
use hodful_quantities::units::{
    Length, Mass, MassDensity, kilogram, kilogram_per_cubic_meter, ratio,
};
use hodful_soils::blend::{Candidate, Grains, Target};
use std::iter::zip;

/// A material as a candidate.
pub(super) fn of(
    project: &Project,
    site: &Site,
    name: &str,
    target: &Target,
    notes: &mut Vec<EcoString>,
) -> Result<Candidate, EcoString> {
    let (at, _, material) = project
        .materials
        .get_full(name)
        .ok_or_else(|| eco_format!("there is no material '{name}'"))?;
    let checked = site.materials.get(at).filter(|m| m.is_known && m.is_sold);
    let checked = checked.ok_or_else(|| eco_format!("{name}: something of it is refused"))?;
    let loose_density = checked.loose_density.ok_or_else(|| {
        eco_format!("{name}: its loose_density is not known; weigh a bucket of it")
    })?;
    let usual = MassDensity::new::<kilogram_per_cubic_meter>(USUAL_PARTICLE_DENSITY);
    let figures = soil::figures(material).and_then(Result::ok);
    let dry = |holds: &Holds, times: f64| dry_mass(checked, loose_density, holds, times);
    let price = zip(&material.packages, &checked.offers).filter_map(|(_, offer)| {
        let mass = dry(&offer.holds, 1.0).get::<kilogram>();
        Some(money(offer.price?) / mass)
    });
    let grains = grains(material, checked, figures.as_ref(), target);
    if figures.is_none() && grains.is_some() && material.kind == MaterialKind::Sand {
        notes.push(eco_format!(
            "{name}: taken as sand grains but for its clay (common practice, no source); sieve it to know"
        ));
    }
    Ok(Candidate {
        loose_density,
        grain_density: material
            .particle_density
            .as_ref()
            .map_or(usual, Typed::value),
        grains,
        passing: passing(material, figures.as_ref(), target),
        is_sand: material.kind == MaterialKind::Sand,
        price: price.reduce(f64::min),
        in_yard: in_yard(checked, &dry),
        can_buy: !material.packages.is_empty(),
    })
}

/// Money as a plain number, for the programme alone; what is shown is counted exactly.
fn money(of: Money) -> f64 {
    of.amount().to_string().parse().unwrap_or_default()
}

/// What some packages hold, dry and past the screen: the inverse of what must be delivered.
fn dry_mass(of: &CheckedMaterial, density: MassDensity, holds: &Holds, times: f64) -> Mass {
    let delivery = &of.delivery;
    let kept = delivery.reject.left() * delivery.keeping_loss.left() * times;
    match holds {
        Holds::Volume(volume) => {
            *volume * density * (kept / (1.0 + delivery.bulking.get::<ratio>()))
        }
        Holds::Mass(mass) => *mass * (kept / (1.0 + delivery.moisture.get::<ratio>())),
    }
}

fn in_yard(of: &CheckedMaterial, dry: &dyn Fn(&Holds, f64) -> Mass) -> Mass {
    match &of.stock {
        None => Mass::default(),
        Some(Amount::Volume(volume)) => dry(&Holds::Volume(*volume), 1.0),
        Some(Amount::Mass(mass)) => dry(&Holds::Mass(*mass), 1.0),
        Some(Amount::Packages { count, name }) => {
            let named = of.packages.iter().position(|package| package == name);
            let offer = named.and_then(|at| of.offers.get(at));
            offer.map_or_else(Mass::default, |offer| dry(&offer.holds, *count))
        }
    }
}

/// Its grains. Clay that was typed stands before that of a test; where only clay is known and nothing
/// else is asked for, the rest is of no account.
fn grains(
    material: &Material,
    checked: &CheckedMaterial,
    figures: Option<&SoilFigures>,
    target: &Target,
) -> Option<Grains> {
    let typed = material
        .clay
        .as_ref()
        .map(|clay| clay.value().get::<ratio>());
    if let Some(tested) = figures.and_then(|of| of.used.fractions) {
        let clay = typed.unwrap_or(tested.clay());
        let rest = 1.0 - tested.clay();
        let by = if rest > 0.0 { (1.0 - clay) / rest } else { 0.0 };
        return Some(Grains {
            clay,
            silt: tested.silt() * by,
            sand: if rest > 0.0 {
                tested.sand() * by
            } else {
                1.0 - clay
            },
            gravel: tested.gravel() * by,
        });
    }
    let clay = checked.clay?.get::<ratio>();
    let grains = |silt: f64, sand: f64| Grains {
        clay,
        silt,
        sand,
        gravel: 0.0,
    };
    let only_clay = target.silt.is_none() && target.sand_to_clay.is_none();
    match material.kind {
        MaterialKind::Sand => Some(grains(0.0, 1.0 - clay)),
        _ if clay >= 1.0 || only_clay => Some(grains(1.0 - clay, 0.0)),
        _ => None,
    }
}

/// What passes the sieves that are asked about, where it is known.
fn passing(
    material: &Material,
    figures: Option<&SoilFigures>,
    target: &Target,
) -> Vec<(Length, f64)> {
    let grading = figures.and_then(|of| of.used.grading.as_ref());
    let mesh = material.screen_test.as_ref().and_then(|t| t.mesh.as_ref());
    let mesh = mesh.map(|mesh| mesh.value().value);
    let passing = |size: Length| {
        // All that goes into a mix has been through the mesh.
        if mesh.is_some_and(|mesh| size.value >= mesh) {
            return Some(1.0);
        }
        grading?.passing(size)
    };
    let sizes = target.sieves.iter().map(|(size, _)| *size);
    sizes
        .filter_map(|size| Some((size, passing(size)?)))
        .collect()
}
