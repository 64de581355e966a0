//! From one kind of shape to another, keeping what both have. Not here: the fields of the shapes.

use super::held::read;
use super::rows::is_ringed;
use crate::project::{Opening, OpeningShape, Reveal, RevealPart, Splay, WallShape};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::print::{UnitSystem, exact_length};
use hodful_quantities::units::{Length, length_of_mm};
use std::sync::Arc;

type Given = Typed<Length>;
type Corners = Vec<[Given; 2]>;

/// Turns the shape of a wall into another kind. What the new kind needs and the old one has not is
/// filled in: the ridge half the length above the eaves, the radius as the length, equal heights.
pub(super) fn wall(
    shape: &WallShape,
    kind: &str,
    units: UnitSystem,
) -> Result<WallShape, EcoString> {
    let made = |mm: f64| made(mm, units);
    let (length, left, right) = extent(shape, units)?;
    Ok(match kind {
        "rectangle" => WallShape::Rectangle {
            length,
            height: left,
        },
        "gable" => {
            let lower = if mm(&right) < mm(&left) { right } else { left };
            WallShape::Gable {
                ridge: made(mm(&lower) + mm(&length) / 2.0)?,
                eaves: lower,
                length,
                ridge_from_left: None,
            }
        }
        "raked" => WallShape::Raked {
            length,
            left,
            right,
        },
        "curved" => WallShape::Curved {
            radius: length.clone(),
            sweep: None,
            length: Some(length),
            height: left,
        },
        "polygon" => {
            let nothing = nothing()?;
            let mut corners = vec![
                [nothing.clone(), nothing.clone()],
                [length.clone(), nothing.clone()],
                [length.clone(), right],
            ];
            if let WallShape::Gable {
                ridge,
                ridge_from_left,
                ..
            } = shape
            {
                let at = match ridge_from_left {
                    Some(at) => at.clone(),
                    None => made(mm(&length) / 2.0)?,
                };
                corners.push([at, ridge.clone()]);
            }
            corners.push([nothing, left]);
            WallShape::Polygon { corners }
        }
        other => return Err(eco_format!("'{other}' is not a shape of wall")),
    })
}

/// Length and heights at both ends.
fn extent(shape: &WallShape, units: UnitSystem) -> Result<(Given, Given, Given), EcoString> {
    let both = |length: &Given, height: &Given| (length.clone(), height.clone(), height.clone());
    Ok(match shape {
        WallShape::Gable { length, eaves, .. } => both(length, eaves),
        WallShape::Raked {
            length,
            left,
            right,
        } => (length.clone(), left.clone(), right.clone()),
        WallShape::Rectangle { length, height }
        | WallShape::Curved {
            length: Some(length),
            height,
            ..
        } => both(length, height),
        WallShape::Curved {
            radius,
            sweep: Some(sweep),
            height,
            ..
        } => both(&made(mm(radius) * sweep.value().value, units)?, height),
        WallShape::Curved { radius, height, .. } => both(radius, height),
        WallShape::Polygon { corners } => {
            let (width, height) = bounds(corners, units)?;
            both(&width, &height)
        }
    })
}

/// Turns the shape of an opening into another kind, and its reveals with it: a ring for jambs, head
/// and sill, or the other way round.
pub(super) fn opening(
    opening: &mut Opening,
    kind: &str,
    units: UnitSystem,
) -> Result<(), EcoString> {
    let shape = opening_shape(&opening.shape, kind, units)?;
    if is_ringed(&shape) != is_ringed(&opening.shape) {
        let ringed = is_ringed(&shape);
        for reveal in opening.outside.iter_mut().chain(&mut opening.inside) {
            turn_reveal(Arc::make_mut(reveal), ringed);
        }
    }
    opening.shape = shape;
    Ok(())
}

fn opening_shape(
    shape: &OpeningShape,
    kind: &str,
    units: UnitSystem,
) -> Result<OpeningShape, EcoString> {
    let made = |mm: f64| made(mm, units);
    let (width, height) = size(shape, units)?;
    Ok(match kind {
        "rectangle" => OpeningShape::Rectangle { width, height },
        "arched" => {
            // As high in all as before: half a circle where there is room, and a flat arch where not.
            let (half, high) = (mm(&width) / 2.0, mm(&height));
            let rise = (high <= half).then(|| made(high / 2.0)).transpose()?;
            let springing = made(high - rise.as_ref().map_or(half, mm))?;
            OpeningShape::Arched {
                width,
                springing,
                rise,
                head: None,
            }
        }
        "circle" => OpeningShape::Circle {
            diameter: if mm(&height) < mm(&width) {
                height
            } else {
                width
            },
        },
        "polygon" => {
            let nothing = nothing()?;
            let mut corners = vec![
                [nothing.clone(), nothing.clone()],
                [width.clone(), nothing.clone()],
            ];
            if let OpeningShape::Arched { springing, .. } = shape {
                corners.push([width.clone(), springing.clone()]);
                corners.push([made(mm(&width) / 2.0)?, height]);
                corners.push([nothing, springing.clone()]);
            } else {
                corners.push([width, height.clone()]);
                corners.push([nothing, height]);
            }
            OpeningShape::Polygon { corners }
        }
        other => return Err(eco_format!("'{other}' is not a shape of opening")),
    })
}

/// Width and height in all.
fn size(shape: &OpeningShape, units: UnitSystem) -> Result<(Given, Given), EcoString> {
    Ok(match shape {
        OpeningShape::Rectangle { width, height } => (width.clone(), height.clone()),
        OpeningShape::Arched {
            width,
            springing,
            rise,
            ..
        } => {
            let rise = rise.as_ref().map_or(mm(width) / 2.0, mm);
            (width.clone(), made(mm(springing) + rise, units)?)
        }
        OpeningShape::Circle { diameter } => (diameter.clone(), diameter.clone()),
        OpeningShape::Polygon { corners } => bounds(corners, units)?,
    })
}

/// The parts that a reveal has on an opening without corners, or with.
fn turn_reveal(reveal: &mut Reveal, ringed: bool) {
    if !reveal.plastered.is_empty() {
        reveal.plastered = usual_parts(ringed);
    }
    let splay = reveal.splay.take().map(|splay| {
        let Splay {
            jambs,
            head,
            sill,
            ring,
        } = *splay;
        if ringed {
            Splay {
                ring: ring.or(jambs).or(head).or(sill),
                ..Splay::default()
            }
        } else {
            Splay {
                jambs: jambs.or_else(|| ring.clone()),
                head: head.or(ring),
                sill,
                ring: None,
            }
        }
    });
    reveal.splay = splay
        .filter(|splay| *splay != Splay::default())
        .map(Box::new);
}

/// The parts that are plastered when nothing says otherwise; a sill mostly has a board (common
/// practice, no source).
pub(super) fn usual_parts(ringed: bool) -> Vec<RevealPart> {
    if ringed {
        vec![RevealPart::Ring]
    } else {
        vec![RevealPart::Jambs, RevealPart::Head]
    }
}

/// Width and height of the box round corners.
fn bounds(corners: &Corners, units: UnitSystem) -> Result<(Given, Given), EcoString> {
    let span = |of: fn(&[Given; 2]) -> f64| {
        let least = corners.iter().map(of).fold(f64::INFINITY, f64::min);
        let most = corners.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        if least <= most { most - least } else { 0.0 }
    };
    Ok((
        made(span(|[u, _]| mm(u)), units)?,
        made(span(|[_, v]| mm(v)), units)?,
    ))
}

fn mm(given: &Given) -> f64 {
    given.value().value
}

fn nothing() -> Result<Given, EcoString> {
    read("0")
}

/// A length worked out, written so that it reads back the same.
fn made(mm: f64, units: UnitSystem) -> Result<Given, EcoString> {
    read(&exact_length(length_of_mm(mm), units))
}
