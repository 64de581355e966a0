//! The walls themselves: outlines, insets, corners. Not here: whether the plan closes.

use super::sides::{Outline, Side, Walk};
use super::{FacePlan, Faults, Measured, Plan, ids, text, tolerance};
use crate::project::{self, CornerAngle, End, Face, Inset, Name, Wall, WallEnd, WallShape};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::units::Length;
use std::iter::zip;
use std::sync::Arc;

/// The sizes of a plan that are not those of its outline, mm; `None` where they cannot be.
#[derive(Debug)]
pub(super) struct Sizes {
    pub(super) thickness: Option<f64>,
    outside: Rounding,
    inside: Rounding,
}

/// Radius of the external corners of a face and of the coves in its internal angles, mm.
#[derive(Debug, Default, Clone, Copy)]
struct Rounding {
    radius: f64,
    cove: f64,
}

/// A face of the plan with what it takes from the plan as a whole.
struct Planned<'a> {
    side: project::Side,
    face: &'a FacePlan,
    base: Option<&'a Typed<Length>>,
    ceiling: Option<&'a Typed<Length>>,
    radius: Option<&'a Typed<Length>>,
}

fn planned(plan: &Plan, side: project::Side) -> Option<Planned<'_>> {
    let (face, base, ceiling, radius) = match side {
        project::Side::Outside => (
            plan.outside.as_ref()?,
            plan.base.as_ref(),
            None,
            plan.radius.as_ref(),
        ),
        project::Side::Inside => (plan.inside.as_ref()?, None, plan.ceiling.as_ref(), None),
    };
    Some(Planned {
        side,
        face,
        base: face.base.as_ref().or(base),
        ceiling,
        radius: face.radius.as_ref().or(radius),
    })
}

/// Height, thickness, and what belongs to the faces.
pub(super) fn sizes(plan: &Plan, faults: &mut Faults) -> Sizes {
    let height = faults.size("height", &plan.height);
    let thickness = faults.size("thickness", &plan.thickness);
    if plan.outside.is_none() && plan.inside.is_none() {
        faults.add("faces: no face is plastered; give outside, inside or both");
    }
    let mut face = |side| {
        planned(plan, side)
            .map(|planned| rounding(&planned, plan, height, faults))
            .unwrap_or_default()
    };
    Sizes {
        thickness,
        outside: face(project::Side::Outside),
        inside: face(project::Side::Inside),
    }
}

fn rounding(
    planned: &Planned<'_>,
    plan: &Plan,
    height: Option<f64>,
    faults: &mut Faults,
) -> Rounding {
    let side = planned.side.word();
    let mut length = |field: &str, typed: Option<&Typed<Length>>| match typed {
        Some(typed) => faults.length(&eco_format!("{side}, {field}"), typed),
        None => Some(0.0),
    };
    let base = length("base", planned.base);
    let top = length("top", planned.face.top.as_ref());
    let radius = length("radius", planned.radius);
    let cove = length("cove", planned.face.cove.as_ref());
    let ceiling = planned
        .ceiling
        .map(|typed| (typed, faults.size("ceiling", typed)));
    let up_to = match ceiling {
        None => height,
        Some((_, ceiling)) => height
            .zip(ceiling)
            .map(|(height, ceiling)| height.min(ceiling)),
    };
    if let (Some(up_to), Some(base), Some(top)) = (up_to, base, top)
        && up_to - base - top < tolerance::LEAST_SIZE
    {
        let mut given: Vec<EcoString> = Vec::new();
        for (field, typed) in [
            ("base", planned.base),
            ("top", planned.face.top.as_ref()),
            ("ceiling", planned.ceiling),
        ] {
            given.extend(typed.map(|typed| eco_format!("{field} '{}'", typed.text())));
        }
        faults.add(eco_format!(
            "{side}: {} leaves nothing of the height '{}'",
            given.join(" with "),
            plan.height.text()
        ));
    }
    Rounding {
        radius: radius.unwrap_or_default(),
        cove: cove.unwrap_or_default(),
    }
}

/// Whether a round has room for its thickness, and sides for the corners at their ends.
pub(super) fn fits(plan: &Plan, outline: &Outline, sizes: &Sizes, faults: &mut Faults) {
    let Some(thickness) = sizes.thickness else {
        return;
    };
    match outline {
        Outline::Round { diameter } => {
            let room = plan.measured == Measured::Inside
                || diameter / 2.0 - thickness >= tolerance::LEAST_SIZE;
            if !room {
                faults.add(eco_format!(
                    "thickness: '{}' leaves nothing of the inside of the round",
                    plan.thickness.text()
                ));
            }
        }
        Outline::Ring(walk) => {
            let outside = walk.outside_lengths(plan.measured, thickness);
            let inside = walk.inside_lengths(plan.measured, thickness);
            let faces = [
                (project::Side::Outside, sizes.outside, outside, 1.0),
                (project::Side::Inside, sizes.inside, inside, -1.0),
            ];
            for (side, rounding, lengths, convex) in faces {
                // What a corner takes of each side: r·tan(φ/2), the tangent of a circle.
                let takes = |tangent: f64| {
                    let external = tangent * convex > 0.0;
                    let radius = if external {
                        rounding.radius
                    } else {
                        rounding.cove
                    };
                    radius * tangent.abs()
                };
                for ((at, length), [left, right]) in zip(zip(&walk.sides, lengths), walk.tangents())
                {
                    let taken = takes(left) + takes(right);
                    if length >= tolerance::LEAST_SIZE && taken > length {
                        faults.add(eco_format!(
                            "{}: {} has {} and its rounded corners take {}; make the radius or the cove smaller",
                            side.word(),
                            at.name,
                            text::shown(length, plan.units),
                            text::shown(taken, plan.units),
                        ));
                    }
                }
            }
        }
    }
}

/// The walls of a plan in which nothing is refused.
pub(super) fn walls(
    plan: &Plan,
    outline: &Outline,
    thickness: f64,
    taken: &[Name],
    faults: &mut Faults,
) -> Vec<Wall> {
    let made = match outline {
        Outline::Round { diameter } => round(plan, *diameter, thickness).map(|wall| vec![wall]),
        Outline::Ring(walk) => straight(plan, walk, thickness),
    };
    match made {
        Ok(mut walls) => {
            let ids = ids::ids(&plan.shape, walls.len(), taken);
            for (wall, id) in walls.iter_mut().zip(ids) {
                wall.id = id;
            }
            walls
        }
        Err(why) => {
            faults.add(why);
            Vec::new()
        }
    }
}

fn round(plan: &Plan, diameter: f64, thickness: f64) -> Result<Wall, EcoString> {
    let more = match plan.measured {
        Measured::Outside => 0.0,
        Measured::Inside => thickness,
    };
    let shape = WallShape::Curved {
        radius: text::length(diameter / 2.0 + more, plan.units)?,
        sweep: Some(Typed::read("360 deg").map_err(|misread| eco_format!("{misread}"))?),
        length: None,
        height: plan.height.clone(),
    };
    Ok(wall(plan, shape, &Ends::default(), [].into()))
}

fn straight(plan: &Plan, walk: &Walk, thickness: f64) -> Result<Vec<Wall>, EcoString> {
    let outside = walk.outside_lengths(plan.measured, thickness);
    zip(zip(&walk.sides, outside), walk.tangents())
        .map(|((side, outside), [left, right])| {
            let ends = Ends {
                left: inset(plan, thickness, left)?,
                right: inset(plan, thickness, right)?,
            };
            let re_entrant = |tangent: f64| thickness * (-tangent).max(0.0);
            let longest = outside + re_entrant(left) + re_entrant(right);
            let as_typed = (longest - side.length).abs() < tolerance::SAME_LENGTH;
            let shape = WallShape::Rectangle {
                length: if as_typed {
                    side.typed.clone()
                } else {
                    text::length(longest, plan.units)?
                },
                height: plan.height.clone(),
            };
            Ok(wall(plan, shape, &ends, corner(plan, side)?))
        })
        .collect()
}

/// The insets at the ends of a wall, each of the one face that has it.
#[derive(Debug, Default)]
struct Ends {
    left: Option<(project::Side, Typed<Length>)>,
    right: Option<(project::Side, Typed<Length>)>,
}

/// The inset at an end, t·tan(φ/2): inside at an ordinary corner, outside at a re-entrant one.
fn inset(
    plan: &Plan,
    thickness: f64,
    tangent: f64,
) -> Result<Option<(project::Side, Typed<Length>)>, EcoString> {
    let side = if tangent > 0.0 {
        project::Side::Inside
    } else if tangent < 0.0 {
        project::Side::Outside
    } else {
        return Ok(None);
    };
    let size = thickness * tangent.abs();
    let text = if size.to_bits() == thickness.to_bits() {
        plan.thickness.clone()
    } else {
        text::length(size, plan.units)?
    };
    Ok(Some((side, text)))
}

fn wall(plan: &Plan, shape: WallShape, ends: &Ends, corners: Arc<[WallEnd]>) -> Wall {
    let face = |side| {
        let planned = planned(plan, side)?;
        let at = |end: &Option<(project::Side, Typed<Length>)>| {
            let (of, inset) = end.as_ref()?;
            (*of == side).then(|| inset.clone())
        };
        let inset = Inset {
            left: at(&ends.left),
            right: at(&ends.right),
            top: planned.face.top.clone(),
            bottom: planned.base.cloned(),
            ceiling: planned.ceiling.cloned(),
        };
        Some(Face {
            background: planned.face.background.clone(),
            build_up: planned.face.build_up.clone(),
            inset: (inset != Inset::default()).then(|| Arc::new(inset)),
            rain: None,
            facing: None,
            shaded: None,
        })
    };
    Wall {
        id: Name::default(),
        name: None,
        sheet: None,
        count: None,
        shape,
        thickness: plan.thickness.clone(),
        outside: face(project::Side::Outside),
        inside: face(project::Side::Inside),
        ends: corners,
        openings: Vec::new(),
        pockets: Vec::new(),
    }
}

/// The corner at the right end of a side, once for each plastered face.
fn corner(plan: &Plan, side: &Side) -> Result<Arc<[WallEnd]>, EcoString> {
    if side.turn.abs() < tolerance::SAME_TURN {
        return Ok([].into());
    }
    let turn = text::turn(side.turn, side.typed_turn.as_ref())?;
    let ends = [
        (project::Side::Outside, side.turn > 0.0),
        (project::Side::Inside, side.turn < 0.0),
    ]
    .into_iter()
    .filter_map(|(face, external)| {
        let planned = planned(plan, face)?;
        let (radius, cove) = if external {
            (planned.radius.cloned(), None)
        } else {
            (None, planned.face.cove.clone())
        };
        Some(WallEnd {
            face,
            end: End::Right,
            angle: if external {
                CornerAngle::External
            } else {
                CornerAngle::Internal
            },
            turn: turn.clone(),
            radius,
            cove,
        })
    });
    Ok(ends.collect())
}
