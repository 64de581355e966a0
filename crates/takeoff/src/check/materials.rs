//! Materials and the mixer. Not here: mixes.

use super::values::Values;
use crate::checked::{CheckedMaterial, CheckedMixer};
use crate::problem::Place;
use crate::project::{Material, Project};
use ecow::eco_format;
use hodful_quantities::mix::{Delivery, USUAL_PARTICLE_DENSITY};
use hodful_quantities::order::{Holds, Offer};
use hodful_quantities::read::Amount;
use hodful_quantities::units::{MassDensity, Ratio, kilogram_per_cubic_meter, ratio};
use hodful_quantities::{Fraction, Typed};

/// Every material, in the order of the project.
pub(super) fn check(project: &Project, values: &mut Values) -> Vec<CheckedMaterial> {
    project
        .materials
        .iter()
        .map(|(name, material)| {
            let place = Place::project().thing("material", name.clone());
            values.name(&place, "name", name);
            one(project, material, &place, values)
        })
        .collect()
}

fn one(
    project: &Project,
    material: &Material,
    place: &Place,
    values: &mut Values,
) -> CheckedMaterial {
    let before = values.count_of_problems();
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
    let typed = values.fraction(place, "reject", material.reject.as_ref(), Fraction::ZERO);
    let reject = super::soils::reject(material, place, values).unwrap_or(typed);
    let keeping_loss = material.keeping_loss.as_ref();
    let keeping_loss = values.fraction(place, "keeping_loss", keeping_loss, Fraction::ZERO);
    let bulking = super::soils::bulking(material, place, values).unwrap_or(bulking);
    let heap = super::soils::heap(material, place, values);
    let loose_density = densities(material, place, values);
    let is_known = values.count_of_problems() == before;
    // What is said of its grains decides no amount.
    let clay = super::soils::clay(material, place, values);
    let before = values.count_of_problems();
    let bucket = project
        .mixer
        .as_ref()
        .and_then(|mixer| mixer.bucket.as_ref());
    let shovel = material.shovels_per_bucket.as_ref().and_then(|typed| {
        let count = values
            .above_nothing(place, "shovels_per_bucket", typed)
            .get();
        bucket.filter(|_| count > 0.0).map(|b| b.value() / count)
    });
    let handful = material
        .handful
        .as_ref()
        .map(|typed| values.above_nothing(place, "handful", typed));
    let keeps = material.keeps.as_ref().map(|typed| {
        use hodful_quantities::units::day;
        values.above_nothing(place, "keeps", typed).get::<day>()
    });
    let (sold_by, room) = super::supply::packages(project, material, place, values);
    let offers = offers(material, place, values);
    let stock = material
        .stock
        .as_ref()
        .map(|typed| stock(material, typed, place, values));
    CheckedMaterial {
        kind: material.kind,
        delivery: Delivery {
            moisture,
            bulking,
            reject,
            keeping_loss,
        },
        loose_density,
        packages: material.packages.iter().map(|p| p.name.clone()).collect(),
        offers,
        sold_by,
        room,
        keeps,
        heap,
        shovel,
        handful: handful.filter(|mass| mass.value > 0.0),
        clay,
        stock,
        is_known,
        is_sold: values.count_of_problems() == before,
    }
}

/// The loose density, held against that of the grains.
fn densities(material: &Material, place: &Place, values: &mut Values) -> Option<MassDensity> {
    let loose_density = material
        .loose_density
        .as_ref()
        .map(|typed| values.above_nothing(place, "loose_density", typed));
    let grains = material
        .particle_density
        .as_ref()
        .map(|typed| values.above_nothing(place, "particle_density", typed));
    let usual = MassDensity::new::<kilogram_per_cubic_meter>(USUAL_PARTICLE_DENSITY);
    if let (Some(typed), Some(loose)) = (&material.loose_density, loose_density)
        && loose > grains.unwrap_or(usual)
    {
        let of = material.particle_density.as_ref();
        values.refuse(
            place.field("loose_density"),
            eco_format!(
                "'{}' is heavier than solid grains ({}); check the unit",
                typed.text(),
                of.map_or_else(
                    || "2650 kg/m3 when not given".into(),
                    |t| t.text().to_owned()
                )
            ),
        );
    }
    loose_density
}

/// What is on offer, each package once.
fn offers(material: &Material, place: &Place, values: &mut Values) -> Vec<Offer> {
    for (i, package) in material.packages.iter().enumerate() {
        if material
            .packages
            .iter()
            .take(i)
            .any(|other| other.name == package.name)
        {
            values.refuse(
                place.thing("package", package.name.clone()),
                "stands twice; give each package a name of its own",
            );
        }
    }
    material
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
                    eco_format!(
                        "'{}' is not a volume or a mass of more than 0",
                        typed.text()
                    ),
                );
            }
            let price = package.price.as_ref().map(Typed::value);
            holds.map(|holds| Offer { holds, price })
        })
        .collect()
}

/// What is in the yard, with the package named as it is offered.
fn stock(material: &Material, typed: &Typed<Amount>, place: &Place, values: &mut Values) -> Amount {
    let mut amount = typed.value();
    let held = match &mut amount {
        Amount::Volume(volume) => volume.value,
        Amount::Mass(mass) => mass.value,
        Amount::Packages { count, name } => {
            let packages = material.packages.iter().map(|p| &p.name);
            match packages.clone().find(|package| is_of(name, package)) {
                Some(package) => *name = package.clone(),
                None => values.missing(&place.field("stock"), "package", name, packages),
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
}

/// The mixer, when what it holds can be told.
pub(super) fn mixer(project: &Project, values: &mut Values) -> Option<CheckedMixer> {
    let mixer = project.mixer.as_ref()?;
    let place = Place::project().field("mixer");
    let mut measure = |field, typed: Option<&Typed<_>>| {
        let before = values.count_of_problems();
        let value = values.above_nothing(&place, field, typed?);
        (values.count_of_problems() == before).then_some(value)
    };
    let bucket = measure("bucket", mixer.bucket.as_ref());
    let shovel = measure("shovel", mixer.shovel.as_ref());
    let cup = measure("cup", mixer.cup.as_ref());
    let working_volume = measure("working_volume", Some(&mixer.working_volume))?;
    let hold_back = mixer
        .hold_back
        .as_ref()
        .map(|typed| values.fraction(&place, "hold_back", Some(typed), Fraction::ZERO));
    let batches_per_day = mixer
        .batches_per_day
        .as_ref()
        .map(|typed| values.above_nothing(&place, "batches_per_day", typed).get());
    Some(CheckedMixer {
        working_volume,
        bucket,
        shovel,
        cup,
        hold_back,
        batches_per_day: batches_per_day.filter(|count| *count > 0.0),
    })
}

/// Whether a word names a package, one or several: `bale`, `bales`, `box`, `boxes`.
fn is_of(word: &str, package: &str) -> bool {
    word.strip_prefix(package)
        .is_some_and(|rest| matches!(rest, "" | "s" | "es"))
}
