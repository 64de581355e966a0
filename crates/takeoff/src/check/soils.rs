//! Soils and what was tried with them: what is refused, and what stands for a value that was tested. Not
//! here: what the tests come to (see `crate::soil`).

use super::values::Values;
use crate::problem::Place;
use crate::project::{Material, ScreenTest};
use crate::soil;
use ecow::eco_format;
use hodful_quantities::Fraction;
use hodful_quantities::read::Amount;
use hodful_quantities::units::{Ratio, ratio};
use hodful_soils::bulking::of_jar;
use hodful_soils::heap::HeapFactors;

/// The bulking by the jar.
pub(super) fn bulking(material: &Material, place: &Place, values: &mut Values) -> Option<Ratio> {
    let test = material.bulking_test.as_ref()?;
    of_jar(test.damp.value(), test.flooded.value())
        .map_err(|wrong| values.refuse(place.field("bulking_test"), eco_format!("{wrong}")))
        .ok()
}

/// What a trial of the screen held back, of what was thrown at it; `None` for two measures or nothing.
pub(crate) fn held_back(test: &ScreenTest) -> Option<Fraction> {
    let share = match (test.raw.value(), test.held.value()) {
        (Amount::Volume(raw), Amount::Volume(held)) => held / raw,
        (Amount::Mass(raw), Amount::Mass(held)) => held / raw,
        _ => return None,
    };
    Fraction::new(share).ok()
}

/// The reject by the trial.
pub(super) fn reject(material: &Material, place: &Place, values: &mut Values) -> Option<Fraction> {
    let test = material.screen_test.as_ref()?;
    let place = place.field("screen_test");
    if let Some(mesh) = &test.mesh {
        values.above_nothing(&place, "mesh", mesh);
    }
    let held = held_back(test);
    if held.is_none() {
        values.refuse(
            place,
            eco_format!(
                "'{}' thrown and '{}' held back do not make a share; give both as volumes or both as masses, and less held back than thrown",
                test.raw.text(),
                test.held.text()
            ),
        );
    }
    held
}

/// Volumes in the ground, dug and rammed; `None` without the swell, which all of them follow from.
pub(super) fn heap(material: &Material, place: &Place, values: &mut Values) -> Option<HeapFactors> {
    let swell = values.optional(place, "swell", material.swell.as_ref());
    let shrink = values.fraction(place, "shrink", material.shrink.as_ref(), Fraction::ZERO);
    HeapFactors::new(swell?.get::<ratio>(), shrink.get())
        .map_err(|wrong| values.refuse(place.field("swell"), eco_format!("{wrong}")))
        .ok()
}

/// Clay in a material as it goes into a mix: as typed, else from the test of its grains, else as usual.
/// Every test of the soil that cannot be is refused, also one that another stands before.
pub(super) fn clay(material: &Material, place: &Place, values: &mut Values) -> Option<Ratio> {
    let mut tested = None;
    if let Some(of) = material.soil.as_deref() {
        let place = place.field("soil");
        for way in of.ways() {
            match soil::by(material, of, way) {
                Ok(figures) => tested = tested.or(figures.used.fractions),
                // A jar half measured says nothing yet; it is doubted, and keeps nobody from the order.
                Err(fault) if fault.is_unfinished => {}
                Err(fault) => values.refuse(place.field(way.field()), fault.message),
            }
        }
        for (_, field, suggests) in of.hand.as_ref().map(soil::hand).unwrap_or_default() {
            if let Err(wrong) = suggests {
                values.refuse(place.field("hand").field(field), eco_format!("{wrong}"));
            }
        }
    }
    let typed = material.clay.as_ref().map(hodful_quantities::Typed::value);
    typed
        .or_else(|| tested.map(|of| Ratio::new::<ratio>(of.clay())))
        .or_else(|| material.kind.clay_when_not_given())
}
