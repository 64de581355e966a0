//! What is doubtful and still computed, and what only the measuring could refuse: each with its
//! place, and its source where a code or handbook stands behind it. Not here: what stops a project
//! before it is measured (see `check`).

mod soils;
mod unusual;

use crate::alternative::misfits;
use crate::assess::Assessed;
use crate::chances::nonsense;
use crate::check::walls::wall_place;
use crate::checked::{Checked, CheckedWall};
use crate::compare::One;
use crate::evaluate::{Evaluation, FaceFigures, Finding, Found, findings};
use crate::forecast::unusual::doubts as of_records;
use crate::problem::{Place, Problem};
use crate::project::{
    BackgroundKind, Coat, CornerAngle, End, MaterialKind, Name, Project, Rain, Side, Wall, WallEnd,
};
use crate::rule::RuleBook;
use crate::sources;
use crate::tolerance::{SAME_LENGTH, SAME_SHARE, SEEN};
use ecow::{EcoString, eco_format};
use hodful_geometry::{Doubt, Opening, Part, Refusal};
use hodful_quantities::mix::PUBLISHED_YIELD;
use hodful_quantities::print;
use hodful_quantities::units::{Length, percent, ratio};
use std::collections::HashSet;
use std::iter::zip;

/// Everything doubtful in an evaluated project, walls first, and what the measuring refused.
pub fn doubts(project: &Project, checked: &Checked, evaluation: &Evaluation) -> Vec<Problem> {
    let mut found: Vec<Problem> = evaluation
        .findings
        .iter()
        .filter_map(|finding| measured(project, finding))
        .collect();
    if project.walls.is_empty() {
        found.push(Problem::doubtful(
            Place::project().field("walls"),
            "there is no wall yet",
            None,
        ));
    }
    faces(project, checked, &mut found);
    unusual::values(project, &mut found);
    room_for_coats(project, checked, evaluation, &mut found);
    build_ups(project, &mut found);
    mixes(project, checked, &mut found);
    materials(project, checked, evaluation, &mut found);
    soils::tests(project, checked, &mut found);
    soils::looked_for(project, checked, evaluation, &mut found);
    found.extend(nonsense::doubts(project, &checked.site));
    found.extend(misfits(project));
    let one = One {
        project,
        site: &checked.site,
        evaluation,
        supply: None,
    };
    found.extend(of_records(&one, &checked.walls));
    found
}

/// Everything refused and doubtful in a project: what [`crate::Assessed::new`] tells either way.
pub fn all_problems(project: &Project, rules: &RuleBook) -> Vec<Problem> {
    Assessed::new(project, rules).map_or_else(|problems| problems, |of| of.doubts)
}

/// What the measuring finds in the walls that are sound, when others or something else is refused.
pub(crate) fn of_sound_walls(project: &Project, checked: &Checked, sound: &[bool]) -> Vec<Problem> {
    findings(checked, sound)
        .iter()
        .filter_map(|finding| measured(project, finding))
        .collect()
}

/// A finding of the measuring in words.
pub(crate) fn measured(project: &Project, finding: &Finding) -> Option<Problem> {
    let wall = project.walls.get(finding.wall as usize)?;
    let side = finding.side;
    let opening = |index: usize| {
        wall.openings.get(index).map_or_else(
            || wall_place(wall),
            |o| wall_place(wall).thing("opening", o.id.clone()),
        )
    };
    let id = |index: usize| wall.openings.get(index).map_or("", |o| o.id.as_str());
    Some(match &finding.found {
        Found::Doubt(Doubt::Overlap { first, second }) => {
            let message = if first.opening == second.opening {
                eco_format!(
                    "the copies overlap one another on the {} face; the hole is counted once, reveals, edges and the deduction for payment whole: check the spacing",
                    side.word()
                )
            } else {
                eco_format!(
                    "overlaps {} on the {} face; the hole is counted once, reveals, edges and the deduction for payment whole: check where both stand",
                    id(second.opening),
                    side.word()
                )
            };
            Problem::doubtful(opening(first.opening), message, None)
        }
        Found::Doubt(Doubt::CutByOutline { first, copies }) => Problem::doubtful(
            opening(first.opening),
            eco_format!(
                "{}reaches over the edge of the wall on the {} face; only what lies inside is counted: check from_left and sill",
                of_copies(*copies, first.copy),
                side.word()
            ),
            None,
        ),
        Found::Refusal(refusal) => refused(wall, side, refusal, &opening),
        // A doubt added to the geometry later is still told, without words of its own.
        Found::Doubt(other) => Problem::doubtful(
            wall_place(wall).field(side.word()),
            eco_format!("{other:?}"),
            None,
        ),
    })
}

/// `copy 2 ` or `3 copies, from copy 2 on: `; nothing for an only one.
fn of_copies(copies: u32, first: u32) -> EcoString {
    match (copies, first) {
        (1, 0) => EcoString::new(),
        (1, copy) => eco_format!("copy {} ", copy + 1),
        (copies, copy) => eco_format!("{copies} copies, the first of them copy {}: ", copy + 1),
    }
}

fn refused(
    wall: &Wall,
    side: Side,
    refusal: &Refusal,
    opening: &impl Fn(usize) -> Place,
) -> Problem {
    let face = wall_place(wall).field(side.word());
    match refusal {
        Refusal::OutsideWall { first, copies } => Problem::refused(
            opening(first.opening),
            eco_format!(
                "{}has no area inside the {} face of the wall; check from_left, sill and the insets",
                of_copies(*copies, first.copy),
                side.word()
            ),
        ),
        Refusal::StripOverReveal {
            opening: index,
            part,
        } => Problem::refused(
            opening(*index).field(side.word()).field("radius"),
            eco_format!(
                "the rounding takes more of the {} than the reveal is deep; give a smaller radius",
                part_word(*part)
            ),
        ),
        Refusal::StripsOverField {
            opening: Some(index),
        } => Problem::refused(
            opening(*index).field(side.word()).field("radius"),
            "the rounded edges leave nothing of the face; give a smaller radius",
        ),
        Refusal::StripsOverField { opening: None } => Problem::refused(
            face,
            "the rounded corners leave nothing of the face; give smaller radii",
        ),
        Refusal::FrameTooDeep { opening: index } => Problem::refused(
            opening(*index).field("frame"),
            "is deeper than the wall is thick",
        ),
        Refusal::UnsuitedReveal { opening: index } | Refusal::NoSuchReveal { opening: index } => {
            Problem::refused(
                opening(*index).field(side.word()),
                "the reveal does not suit the opening",
            )
        }
        other => Problem::refused(face, eco_format!("cannot be measured: {other:?}")),
    }
}

/// The part of a reveal, as a project file names it.
pub(crate) fn part_word(part: Part) -> &'static str {
    match part {
        Part::Jambs => "jambs",
        Part::Head => "head",
        Part::Sill => "sill",
        Part::Ring => "ring",
    }
}

/// Faces that run on where they should stop, and openings that plaster stops short of.
fn faces(project: &Project, all: &Checked, found: &mut Vec<Problem>) {
    for (wall, checked) in zip(&project.walls, &all.walls.entries) {
        let place = wall_place(wall);
        // A partition is sheltered on both faces, and may end in a corner of its own.
        let outer = wall
            .outside
            .as_ref()
            .is_some_and(|f| f.rain != Some(Rain::Sheltered));
        if let Some(inside) = wall.inside.as_ref().filter(|_| outer) {
            for (end, inset) in [
                (
                    End::Left,
                    inside.inset.as_ref().and_then(|i| i.left.as_ref()),
                ),
                (
                    End::Right,
                    inside.inset.as_ref().and_then(|i| i.right.as_ref()),
                ),
            ] {
                let turns = |e: &WallEnd| {
                    e.end == end && e.face == Side::Outside && e.angle == CornerAngle::External
                };
                if inset.is_none() && wall.ends.iter().any(turns) {
                    found.push(Problem::doubtful(
                        place.field(Side::Inside.word()),
                        eco_format!(
                            "runs to the outside corner at the {0} end; give an inset {0}, usually the thickness of the next wall",
                            end.word()
                        ),
                        None,
                    ));
                }
            }
        }
        for side in [Side::Outside, Side::Inside] {
            found.extend(cut_by_inset(all, wall, checked, side));
        }
    }
}

/// Faces whose internal angles and tight openings leave no room for all coats: the surface would be
/// less than nothing before the last is on.
fn room_for_coats(
    project: &Project,
    checked: &Checked,
    evaluation: &Evaluation,
    found: &mut Vec<Problem>,
) {
    let thickness = checked.site.thicknesses();
    let each = zip(
        &project.walls,
        zip(&checked.walls.entries, &evaluation.faces),
    );
    // What is refused already counts for nothing, so nobody knows what room it has.
    let refused: HashSet<usize> = evaluation
        .findings
        .iter()
        .filter(|finding| matches!(finding.found, Found::Refusal(_)))
        .filter_map(|finding| usize::try_from(finding.wall).ok())
        .collect();
    let each = each.enumerate().filter(|(at, _)| !refused.contains(at));
    for (_, (wall, (checked, figures))) in each {
        for (side, (face, figures)) in
            zip([Side::Outside, Side::Inside], zip(&checked.faces, figures))
        {
            let (Some(face), Some(figures)) = (face, figures) else {
                continue;
            };
            let all = thickness.get(usize::from(face.build_up)).copied().flatten();
            if all.is_some_and(|all| no_room(figures, all)) {
                found.push(no_room_for_coats(wall, side));
            }
        }
    }
}

/// Whether coats of this thickness in all, mm, are more than the face has room for.
pub(crate) fn no_room(figures: &FaceFigures, thickness: f64) -> bool {
    let m = &figures.measure;
    m.true_surface() + m.growth * thickness < 0.0
}

/// The face of a wall has no room for all its coats.
pub(crate) fn no_room_for_coats(wall: &Wall, side: Side) -> Problem {
    Problem::refused(
        wall_place(wall).field(side.word()),
        "the coats are thicker than its internal angles and openings leave room for",
    )
}

/// Openings that reach over where plaster stops at the top or at an end. At the bottom that is as
/// usual as a door.
fn cut_by_inset(all: &Checked, wall: &Wall, checked: &CheckedWall, side: Side) -> Vec<Problem> {
    let inset = wall.face(side).and_then(|face| face.inset.as_deref());
    let face = checked
        .face(side)
        .filter(|face| face.outline.radius().is_none());
    let (Some(inset), Some(face)) = (inset, face) else {
        return Vec::new();
    };
    let bounds = face.outline.bounds();
    let over = |opening: &Opening| {
        let (width, height) = opening.frame_size();
        let last = opening.from_left(opening.count().saturating_sub(1)) + width;
        (inset.top.is_some() && opening.sill() + height > bounds.top + SEEN)
            || (inset.left.is_some() && opening.from_left(0) < bounds.left - SEEN)
            || (inset.right.is_some() && last > bounds.right + SEEN)
    };
    zip(all.walls.with(checked).openings, &wall.openings)
        .filter(|(opening, _)| over(opening))
        .map(|(_, typed)| {
            Problem::doubtful(
                wall_place(wall).thing("opening", typed.id.clone()),
                eco_format!(
                    "reaches over where the {} plaster stops; only what lies inside is counted: check from_left, sill and the inset",
                    side.word()
                ),
                None,
            )
        })
        .collect()
}

fn shown(length: Length, project: &Project) -> String {
    print::thickness(length, project.units).to_string()
}

fn build_ups(project: &Project, found: &mut Vec<Problem>) {
    for (name, coats) in &project.build_ups {
        let place = Place::project().thing("build-up", name.clone());
        let faces = || {
            project.walls.iter().flat_map(|wall| {
                [Side::Outside, Side::Inside]
                    .into_iter()
                    .filter_map(move |side| Some((wall, side, wall.face(side)?)))
            })
        };
        let used = || faces().filter(|(_, _, face)| face.build_up == *name);
        let on_bale = used().any(|(_, _, face)| {
            project
                .backgrounds
                .get(&face.background)
                .is_some_and(|b| b.kind == BackgroundKind::StrawBale)
        });
        if on_bale {
            found.extend(thickness_on_bale(project, coats, &place));
        }
        let in_the_rain: Vec<&Name> = used()
            .filter(|(_, side, face)| {
                let usual = if *side == Side::Outside {
                    Rain::Exposed
                } else {
                    Rain::Sheltered
                };
                face.rain.unwrap_or(usual) == Rain::Exposed
            })
            .map(|(wall, _, _)| &wall.id)
            .collect();
        if !in_the_rain.is_empty() && !weathers(project, coats) {
            found.push(Problem::doubtful(
                place.clone(),
                eco_format!(
                    "clay plaster stands in the rain without a weather finish on {}; give the last coat a weather_finish such as \"lime wash\", or the face \"rain\": \"sheltered\"",
                    some_of("wall", &in_the_rain)
                ),
                Some(sources::WEATHER_FINISH),
            ));
        }
        let mut on_clay = false;
        for coat in coats {
            let place = place.thing("coat", coat.coat.clone());
            let cement = has(project, coat, MaterialKind::Cement);
            if cement && on_clay {
                found.push(Problem::doubtful(
                    place.clone(),
                    "cement plaster goes over clay plaster",
                    Some(sources::CEMENT_OVER_CLAY),
                ));
            }
            on_clay |= is_clay(project, coat);
            let limit = project
                .mixes
                .get(&coat.mix)
                .and_then(|mix| mix.single_pass.as_ref());
            if let Some(limit) = limit
                .filter(|limit| coat.thickness.value().value > limit.value().value + SAME_LENGTH)
            {
                found.push(Problem::doubtful(
                    place.field("thickness"),
                    eco_format!(
                        "'{}' is thicker than one pass of mix '{}' goes ({}); split the coat or change the mix",
                        coat.thickness.text(),
                        coat.mix,
                        limit.text()
                    ),
                    None,
                ));
            }
        }
    }
}

fn thickness_on_bale(project: &Project, coats: &[Coat], place: &Place) -> Option<Problem> {
    let clay: Length = coats
        .iter()
        .filter(|c| is_clay(project, c))
        .map(|c| c.thickness.value())
        .sum();
    let all: Length = coats.iter().map(|c| c.thickness.value()).sum();
    let least = sources::length(sources::LEAST_ON_BALE);
    let most = sources::length(sources::MOST_ON_BALE);
    // Half an inch and half an inch are 25.4 mm: the code's inch and its 25 mm both pass.
    if clay.value > 0.0 && clay.value < least.value - SAME_LENGTH {
        Some(Problem::doubtful(
            place.clone(),
            eco_format!(
                "{} of clay plaster in all is thin on straw bale; the code asks for at least {}",
                shown(clay, project),
                shown(least, project)
            ),
            Some(sources::LEAST_ON_BALE.source),
        ))
    } else if all.value > most.value + SAME_LENGTH {
        Some(Problem::doubtful(
            place.clone(),
            eco_format!(
                "{} of plaster in all is thick on straw bale; the code allows at most {} unless engineered",
                shown(all, project),
                shown(most, project)
            ),
            Some(sources::MOST_ON_BALE.source),
        ))
    } else {
        None
    }
}

/// Whether a coat's mix takes a material of this kind.
fn has(project: &Project, coat: &Coat, kind: MaterialKind) -> bool {
    project.mixes.get(&coat.mix).is_some_and(|mix| {
        mix.parts
            .keys()
            .any(|name| project.materials.get(name).is_some_and(|m| m.kind == kind))
    })
}

/// Clay plaster: bound by neither lime nor cement.
fn is_clay(project: &Project, coat: &Coat) -> bool {
    !has(project, coat, MaterialKind::Lime) && !has(project, coat, MaterialKind::Cement)
}

/// Whether a build-up stands rain: a weather finish on it, or a last coat that is not clay.
fn weathers(project: &Project, coats: &[Coat]) -> bool {
    coats
        .last()
        .is_some_and(|c| c.weather_finish.is_some() || !is_clay(project, c))
}

/// `wall S`, `walls S, E and T`, `walls S, E, T and 4 more`.
fn some_of(kind: &str, names: &[&Name]) -> EcoString {
    const SHOWN: usize = 3;
    let (first, rest) = names.split_at(names.len().min(SHOWN));
    let list = first.iter().map(|n| n.as_str()).collect::<Vec<_>>();
    match (list.as_slice(), rest.len()) {
        ([one], 0) => eco_format!("{kind} {one}"),
        ([head @ .., last], 0) => eco_format!("{kind}s {} and {last}", head.join(", ")),
        (list, more) => eco_format!("{kind}s {} and {more} more", list.join(", ")),
    }
}

fn mixes(project: &Project, checked: &Checked, found: &mut Vec<Problem>) {
    for ((name, mix), checked) in zip(&project.mixes, &checked.site.mixes) {
        let Some(checked) = &checked.made else {
            continue;
        };
        let place = Place::project().thing("mix", name.clone());
        let of_clay = project
            .build_ups
            .values()
            .flatten()
            .any(|c| c.mix == *name && is_clay(project, c));
        if let Some(clay) = checked
            .clay
            .filter(|_| of_clay)
            .map(|clay| clay.get::<percent>())
        {
            let (lean, rich) = (sources::LEAN_MIX, sources::RICH_MIX);
            let word = if clay < lean.value {
                Some(("lean", lean.source))
            } else if clay > rich.value {
                Some(("rich", rich.source))
            } else {
                None
            };
            if let Some((word, source)) = word {
                found.push(Problem::doubtful(
                    place.clone(),
                    eco_format!("the blend is {word}: {clay:.1} % clay by dry mass"),
                    Some(source),
                ));
            }
        }
        let value = checked.yielded.value.get::<ratio>();
        let (low, high) = PUBLISHED_YIELD;
        if let Some(trial) = &mix.trial_batch
            && !(low - SAME_SHARE..=high + SAME_SHARE).contains(&value)
        {
            found.push(Problem::doubtful(
                place.field("trial_batch"),
                eco_format!(
                    "{} loose made {} mixed, a yield of {value:.2}, outside the published {low} to {high}; measure once more",
                    trial.loose.text(),
                    trial.mixed.text()
                ),
                Some(sources::YIELD_SPREAD),
            ));
        }
        if mix.water.is_some() && checked.mix.loose_density().is_none() {
            found.push(Problem::doubtful(
                place.field("water"),
                "cannot be told in weight; give loose_density of every part",
                None,
            ));
        }
        let one = checked.mix.recipe(
            hodful_quantities::units::Volume::new::<hodful_quantities::units::cubic_meter>(1.0),
            checked.yielded.value,
        );
        if let Some(water) = one.water.filter(|w| w.in_materials > w.target) {
            found.push(Problem::doubtful(
                place.field("water"),
                eco_format!(
                    "the materials already hold {:.0} kg of water per m³ mixed, more than the {:.0} kg the mix wants; let them dry or check the moisture",
                    water.in_materials.value,
                    water.target.value
                ),
                None,
            ));
        }
    }
}

fn materials(
    project: &Project,
    checked: &Checked,
    evaluation: &Evaluation,
    found: &mut Vec<Problem>,
) {
    let each = zip(&project.materials, &checked.site.materials).zip(&evaluation.materials);
    for (((name, material), checked), figures) in each {
        if figures.uses.is_empty() || checked.kind == MaterialKind::Water || figures.cover.is_some()
        {
            continue;
        }
        let place = Place::project().thing("material", name.clone());
        let message = if material.packages.is_empty() {
            eco_format!("is used, but no package is given, so nothing is ordered")
        } else {
            eco_format!(
                "is used, but its packages cannot be compared with the need; give its loose_density, and check that the need can be counted"
            )
        };
        found.push(Problem::doubtful(place.field("packages"), message, None));
    }
    if !project
        .materials
        .values()
        .any(|m| m.kind == MaterialKind::Water)
        && project.mixes.values().any(|mix| mix.water.is_some())
    {
        found.push(Problem::doubtful(
            Place::project().field("materials"),
            "mixes take water, but there is no material of kind water, so none is counted",
            None,
        ));
    }
    let used_lath = evaluation.totals.measure.lath > 0.0;
    let lath: Vec<&Name> = project
        .backgrounds
        .iter()
        .filter(|(_, b)| b.kind == BackgroundKind::MetalLath)
        .map(|(name, _)| name)
        .collect();
    if used_lath && lath.is_empty() {
        found.push(Problem::doubtful(
            Place::project().field("backgrounds"),
            "there are strips of lath, but no background of kind metal lath; their key is taken as nothing",
            None,
        ));
    }
    if let [first, _, ..] = lath.as_slice()
        && used_lath
    {
        found.push(Problem::doubtful(
            Place::project().field("backgrounds"),
            eco_format!(
                "more than one background is metal lath; the strips take the key of '{first}'"
            ),
            None,
        ));
    }
}
