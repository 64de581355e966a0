//! Values far outside what is usual, which a slip of the pen makes: one table. Not here: limits of
//! codes.

use crate::check::walls::wall_place;
use crate::problem::{Place, Problem};
use crate::project::{DosePer, Project, Side};
use crate::sources::{self, Usual};
use ecow::eco_format;
use hodful_quantities::print::significant;
use hodful_quantities::units::{degree, kilogram_per_cubic_meter, millimeter, percent};

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
    walls(project, found);
}

/// Sizes of walls and openings: those of a building are looked at one by one, so that this is quick.
fn walls(project: &Project, found: &mut Vec<Problem>) {
    for wall in &project.walls {
        let thickness = wall.thickness.value().get::<millimeter>();
        let height = wall
            .shape
            .highest()
            .map_or(0.0, |height| height.get::<millimeter>());
        for (field, value, usual) in [
            ("thickness", thickness, sources::USUAL_WALL),
            ("shape", height, sources::USUAL_HEIGHT),
        ] {
            if value > usual.most {
                let what = if field == "shape" {
                    "the height"
                } else {
                    "the thickness"
                };
                let message = eco_format!(
                    "{what} is unusual: seldom over {} {}; check the figure and its unit",
                    usual.most,
                    usual.unit
                );
                let place = wall_place(wall).field(field);
                found.push(Problem::doubtful(place, message, Some(usual.source)));
            }
        }
        for opening in &wall.openings {
            let place = || wall_place(wall).thing("opening", opening.id.clone());
            let [wide, high] = opening.shape.size().map(|size| size.get::<millimeter>());
            let least = wide.min(high);
            if least > 0.0 && least < sources::LEAST_OPENING {
                let message = eco_format!(
                    "is {} mm wide and {} mm high, smaller than any window: check the unit, a bare number is not metres or feet",
                    significant(wide, 3),
                    significant(high, 3)
                );
                found.push(Problem::doubtful(place(), message, None));
            }
            for side in [Side::Outside, Side::Inside] {
                let splay = opening
                    .reveal(side)
                    .and_then(|reveal| reveal.splay.as_deref());
                let Some(splay) = splay else { continue };
                let usual = sources::USUAL_SPLAY;
                for (part, angle) in [
                    ("splay.jambs", &splay.jambs),
                    ("splay.head", &splay.head),
                    ("splay.sill", &splay.sill),
                    ("splay.ring", &splay.ring),
                ] {
                    let over = angle
                        .as_ref()
                        .filter(|a| a.value().get::<degree>() > usual.most);
                    if let Some(angle) = over {
                        let message = eco_format!(
                            "'{}' is unusual: seldom over {} {}; check the figure",
                            angle.text(),
                            usual.most,
                            usual.unit
                        );
                        let place = place().field(side.word()).field(part);
                        found.push(Problem::doubtful(place, message, Some(usual.source)));
                    }
                }
            }
        }
    }
}
