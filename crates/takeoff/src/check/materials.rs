//! Materials and the mixer. Not here: mixes.

use super::values::Values;
use crate::checked::{CheckedMaterial, CheckedMixer};
use crate::problem::Place;
use crate::project::{Material, Project};
use ecow::eco_format;
use hodful_quantities::mix::Delivery;
use hodful_quantities::order::{Holds, Offer};
use hodful_quantities::read::Amount;
use hodful_quantities::units::{Ratio, ratio};
use hodful_quantities::{Fraction, Typed};

/// Every material, in the order of the project.
pub(super) fn check(project: &Project, values: &mut Values) -> Vec<CheckedMaterial> {
    project
        .materials
        .iter()
        .map(|(name, material)| {
            let place = Place::project().thing("material", name.clone());
            one(material, &place, values)
        })
        .collect()
}

fn one(material: &Material, place: &Place, values: &mut Values) -> CheckedMaterial {
    let mut share = |field, typed: Option<&Typed<Ratio>>| {
        values.optional(place, field, typed).unwrap_or_default()
    };
    let moisture = share("moisture", material.moisture.as_ref());
    let bulking = share("bulking", material.bulking.as_ref());
    share("clay", material.clay.as_ref());
    share("void_fraction", material.void_fraction.as_ref());
    for (field, typed) in [
        ("clay", &material.clay),
        ("void_fraction", &material.void_fraction),
    ] {
        if let Some(typed) = typed
            && typed.value().get::<ratio>() > 1.0
        {
            values.refuse(
                place.field(field),
                eco_format!("'{}' is over 100 %", typed.text()),
            );
        }
    }
    let reject = values.fraction(place, "reject", material.reject.as_ref(), Fraction::ZERO);
    let loose_density = material
        .loose_density
        .as_ref()
        .map(|typed| values.above_nothing(place, "loose_density", typed));
    if let Some(typed) = &material.particle_density {
        let grains = values.above_nothing(place, "particle_density", typed);
        if loose_density.is_some_and(|loose| loose > grains) && grains.value > 0.0 {
            values.refuse(
                place.field("particle_density"),
                eco_format!(
                    "'{}' is lighter than the loose heap; the grains weigh more",
                    typed.text()
                ),
            );
        }
    }
    let offers = material
        .packages
        .iter()
        .filter_map(|package| {
            let place = place.thing("package", package.name.clone());
            let typed = &package.holds;
            let holds = Holds::from_amount(&typed.value());
            let held = match holds {
                Some(Holds::Volume(volume)) => volume.value,
                Some(Holds::Mass(mass)) => mass.value,
                None => 0.0,
            };
            if !(held.is_finite() && held > 0.0) {
                values.refuse(
                    place.field("holds"),
                    eco_format!("'{}' is not a volume or a mass above nothing", typed.text()),
                );
            }
            let price = package.price.as_ref().map(Typed::value);
            holds.map(|holds| Offer { holds, price })
        })
        .collect();
    let stock = material.stock.as_ref().map(|typed| {
        let amount = typed.value();
        let held = match &amount {
            Amount::Volume(volume) => volume.value,
            Amount::Mass(mass) => mass.value,
            Amount::Packages { count, name } => {
                if !material.packages.iter().any(|p| p.name == *name) {
                    let known: Vec<_> = material.packages.iter().map(|p| &p.name).collect();
                    values.missing(&place.field("stock"), "package", name, known.into_iter());
                }
                *count
            }
        };
        if !(held.is_finite() && held >= 0.0) {
            values.refuse(
                place.field("stock"),
                eco_format!("'{}' is negative", typed.text()),
            );
        }
        amount
    });
    CheckedMaterial {
        kind: material.kind,
        delivery: Delivery {
            moisture,
            bulking,
            reject,
        },
        loose_density,
        packages: material.packages.iter().map(|p| p.name.clone()).collect(),
        offers,
        stock,
    }
}

/// The mixer.
pub(super) fn mixer(project: &Project, values: &mut Values) -> Option<CheckedMixer> {
    let mixer = project.mixer.as_ref()?;
    let place = Place::project().field("mixer");
    let mut measure = |field, typed: Option<&Typed<_>>| {
        typed.map(|typed| values.above_nothing(&place, field, typed))
    };
    let bucket = measure("bucket", mixer.bucket.as_ref());
    let shovel = measure("shovel", mixer.shovel.as_ref());
    let working_volume = measure("working_volume", Some(&mixer.working_volume))?;
    Some(CheckedMixer {
        working_volume,
        bucket,
        shovel,
    })
}
