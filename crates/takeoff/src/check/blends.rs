//! Blends: what is refused in what is asked. Not here: finding one (see `crate::blend`), and what is
//! missing for it, which is told where it is looked for.

use super::values::Values;
use crate::problem::Place;
use crate::project::{MaterialKind, NumberBetween, Project, ShareBetween};
use ecow::eco_format;
use hodful_quantities::units::ratio;

/// Looks every blend over.
pub(super) fn check(project: &Project, values: &mut Values) {
    for (name, blend) in &project.blends {
        let place = Place::project().thing("blend", name.clone());
        values.name(&place, "name", name);
        for (material, between) in &blend.materials {
            let place = place.field("materials").thing("material", material.clone());
            match project.materials.get(material) {
                None => values.missing(&place, "material", material, project.materials.keys()),
                Some(of) if matches!(of.kind, MaterialKind::Lime | MaterialKind::Cement) => values
                    .refuse(
                        place.clone(),
                        eco_format!(
                            "'{material}' is {}, which binds and is no grain to make a blend of; add it to the mix by its parts",
                            of.kind.word()
                        ),
                    ),
                Some(of) if !of.kind.is_mineral() => values.refuse(
                    place.clone(),
                    eco_format!(
                        "'{material}' is {}; a blend is of what is measured loose",
                        of.kind.word()
                    ),
                ),
                Some(_) => {}
            }
            share(&place, Some(between), values);
        }
        share(&place.field("clay"), blend.clay.as_ref(), values);
        share(&place.field("silt"), blend.silt.as_ref(), values);
        number(
            &place.field("sand_to_clay"),
            blend.sand_to_clay.as_ref(),
            values,
        );
        number(
            &place.field("sand_to_rest"),
            blend.sand_to_rest.as_ref(),
            values,
        );
        for sieve in &blend.sieves {
            let place = place.field("sieves");
            values.above_nothing(&place, "size", &sieve.size);
            let between = ShareBetween {
                least: sieve.least.clone(),
                most: sieve.most.clone(),
            };
            share(&place, Some(&between), values);
        }
        if let Some(curve) = &blend.curve {
            let place = place.field("curve");
            values.above_nothing(&place, "largest", &curve.largest);
            if let Some(power) = &curve.power {
                values.above_nothing(&place, "power", power);
            }
            values.optional(&place, "within", curve.within.as_ref());
        }
        if let Some(coat) = &blend.single_pass {
            values.above_nothing(&place, "single_pass", coat);
        }
        if let Some(amount) = &blend.amount {
            values.above_nothing(&place, "amount", amount);
        }
    }
}

fn share(place: &Place, between: Option<&ShareBetween>, values: &mut Values) {
    let Some(ShareBetween { least, most }) = between else {
        return;
    };
    for (field, typed) in [("least", least), ("most", most)] {
        let share = values.optional(place, field, typed.as_ref());
        if let (Some(typed), Some(share)) = (typed, share)
            && share.get::<ratio>() > 1.0
        {
            values.refuse(
                place.field(field),
                eco_format!("'{}' is over 100 %", typed.text()),
            );
        }
    }
    if let (Some(least), Some(most)) = (least, most)
        && least.value().value > most.value().value
    {
        crossed(place, least.text(), most.text(), values);
    }
}

fn number(place: &Place, between: Option<&NumberBetween>, values: &mut Values) {
    let Some(NumberBetween { least, most }) = between else {
        return;
    };
    values.optional(place, "least", least.as_ref());
    values.optional(place, "most", most.as_ref());
    if let (Some(least), Some(most)) = (least, most)
        && least.value() > most.value()
    {
        crossed(place, least.text(), most.text(), values);
    }
}

fn crossed(place: &Place, least: &str, most: &str, values: &mut Values) {
    values.refuse(
        place.clone(),
        eco_format!("'{least}' at least is more than '{most}' at most"),
    );
}
