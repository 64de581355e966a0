//! Values far outside what is usual, which a slip of the pen makes: one table. Not here: limits of
//! codes.

use crate::problem::{Place, Problem};
use crate::project::{DosePer, Project};
use crate::sources::{self, Usual};
use ecow::eco_format;
use hodful_quantities::units::{kilogram_per_cubic_meter, millimeter, percent};

/// Adds a doubt for every value over what is usual.
pub(super) fn values(project: &Project, found: &mut Vec<Problem>) {
    let mut look = |place: Place, text: &str, value: f64, usual: Usual| {
        if value > usual.most {
            let message = eco_format!(
                "'{text}' is unusual: seldom over {} {}; check the figure and its unit",
                usual.most,
                usual.unit
            );
            found.push(Problem::doubtful(place, message, Some(usual.source)));
        }
    };
    let top = Place::project();
    for (name, background) in &project.backgrounds {
        if let Some(t) = &background.dubbing_out {
            let place = top.thing("background", name.clone()).field("dubbing_out");
            look(
                place,
                t.text(),
                t.value().get::<millimeter>(),
                sources::USUAL_DUBBING_OUT,
            );
        }
    }
    for (name, material) in &project.materials {
        if let Some(t) = &material.bulking {
            let place = top.thing("material", name.clone()).field("bulking");
            look(
                place,
                t.text(),
                t.value().get::<percent>(),
                sources::USUAL_BULKING,
            );
        }
    }
    for (name, mix) in &project.mixes {
        let place = top.thing("mix", name.clone());
        if let Some(t) = &mix.water {
            look(
                place.field("water"),
                t.text(),
                t.value().get::<percent>(),
                sources::USUAL_WATER,
            );
        }
        if let Some(fibre) = &mix.fibre
            && let Some(t) = fibre
                .dose
                .as_ref()
                .filter(|_| fibre.per != Some(DosePer::Loose))
        {
            let value = t.value().get::<kilogram_per_cubic_meter>();
            look(
                place.field("fibre").field("dose"),
                t.text(),
                value,
                sources::USUAL_FIBRE,
            );
        }
    }
    for (name, coats) in &project.build_ups {
        for coat in coats {
            let place = top
                .thing("build-up", name.clone())
                .thing("coat", coat.coat.clone());
            if let Some(t) = &coat.loss {
                look(
                    place.field("loss"),
                    t.text(),
                    t.value().get::<percent>(),
                    sources::USUAL_LOSS,
                );
            }
            if let Some(t) = &coat.shrinkage {
                let value = t.value().get::<percent>();
                look(
                    place.field("shrinkage"),
                    t.text(),
                    value,
                    sources::GREATEST_SHRINKAGE,
                );
            }
        }
    }
}
