//! Single walls from what was heard. Not here: buildings, openings.

use super::line::{Heard, Value, WallKind};
use super::said;
use super::words::Word;
use super::{Change, Context, known, values};
use ecow::eco_format;
use hodful_quantities::Typed;
use hodful_quantities::units::Length;
use hodful_takeoff::project::{Face, Inset, Side, Wall, WallShape};
use std::sync::Arc;

/// Height and thickness in inches and in millimetres of a wall in a sketch, while none is said.
const SKETCHED_HEIGHT: (u32, u32) = (96, 2400);
const SKETCHED_THICKNESS: (u32, u32) = (12, 300);

/// The wall that was heard.
pub(super) fn make(kind: WallKind, heard: &mut Heard<'_>, context: &Context<'_>) -> Option<Change> {
    let last = context.project.walls.last().map(Arc::as_ref);
    let shape = shape(kind, heard, last)?;
    let thickness = thickness(heard, last)?;
    let [outside, inside] =
        [Side::Outside, Side::Inside].map(|side| face(heard, side, last, &shape));
    let (outside, inside) = (outside.ok()?, inside.ok()?);
    if outside.is_none() && inside.is_none() {
        heard.refuse("no side is plastered; take out one 'only'");
    }
    let id = match heard.name(Word::Id) {
        Some(id) => id.clone(),
        None => known::wall_id(context.project),
    };
    if heard.has(Word::Id) && context.project.walls.iter().any(|wall| wall.id == id) {
        heard.refuse(eco_format!("there is a wall {id} already; give another id"));
    }
    let wall = Wall {
        id,
        name: heard.name(Word::Name).cloned(),
        sheet: None,
        count: heard.count,
        shape,
        thickness,
        outside,
        inside,
        ends: Arc::from([]),
        openings: Vec::new(),
        pockets: Vec::new(),
    };
    said::wall(heard, &wall);
    Some(Change::Walls(vec![wall]))
}

/// The thickness: said, or of the last wall.
pub(super) fn thickness(heard: &mut Heard<'_>, last: Option<&Wall>) -> Option<Typed<Length>> {
    let said = heard.length(Word::Thick).cloned();
    said.or_else(|| last.map(|wall| wall.thickness.clone()))
        .or_else(|| {
            let message = heard.add("how thick?", Word::Thick);
            heard.lacks(message);
            values::of(SKETCHED_THICKNESS.0, SKETCHED_THICKNESS.1, heard.units())
        })
}

/// The height: said, or of the last wall.
pub(super) fn height(heard: &mut Heard<'_>, last: Option<&Wall>) -> Option<Typed<Length>> {
    let said = heard.length(Word::High).cloned();
    said.or_else(|| last.and_then(|wall| height_of(&wall.shape).cloned()))
        .or_else(|| {
            let message = heard.add("how high?", Word::High);
            heard.lacks(message);
            values::of(SKETCHED_HEIGHT.0, SKETCHED_HEIGHT.1, heard.units())
        })
}

fn height_of(shape: &WallShape) -> Option<&Typed<Length>> {
    match shape {
        WallShape::Rectangle { height, .. } | WallShape::Curved { height, .. } => Some(height),
        WallShape::Gable { eaves, .. } => Some(eaves),
        WallShape::Raked { left, .. } => Some(left),
        WallShape::Polygon { .. } => None,
    }
}

fn length_of(shape: &WallShape) -> Option<&Typed<Length>> {
    match shape {
        WallShape::Rectangle { length, .. }
        | WallShape::Gable { length, .. }
        | WallShape::Raked { length, .. } => Some(length),
        WallShape::Curved { length, .. } => length.as_ref(),
        WallShape::Polygon { .. } => None,
    }
}

fn shape(kind: WallKind, heard: &mut Heard<'_>, last: Option<&Wall>) -> Option<WallShape> {
    let sweep = heard.notes.iter().find_map(|note| match &note.value {
        Value::Angle(_, angle) if note.word == Word::Sweep => Some(angle.clone()),
        _ => None,
    });
    if sweep.is_some() && !heard.size.is_empty() {
        heard.refuse("a curved wall takes a length or a sweep, not both; with sweep say: high 9'");
    }
    let length = heard.size.first().cloned();
    let length = length.or_else(|| last.and_then(|wall| length_of(&wall.shape).cloned()));
    if sweep.is_none() && length.is_none() {
        let example = heard.second();
        heard.lacks(eco_format!(
            "how long, and how high? Add: {} x {example}",
            heard.example(Word::Radius)
        ));
    }
    let height = match heard.size.get(1).cloned() {
        Some(height) => height,
        None => height(heard, last)?,
    };
    if kind == WallKind::Curved {
        let as_last = last.and_then(|wall| match &wall.shape {
            WallShape::Curved { radius, .. } => Some(radius.clone()),
            _ => None,
        });
        let Some(radius) = heard.length(Word::Radius).cloned().or(as_last) else {
            let message = heard.add("of what radius?", Word::Radius);
            heard.lacks(message);
            return None;
        };
        let length = length.filter(|_| sweep.is_none());
        if sweep.is_none() && length.is_none() {
            return None;
        }
        return Some(WallShape::Curved {
            radius,
            sweep,
            length,
            height,
        });
    }
    let length = length?;
    Some(match kind {
        WallKind::Gable => {
            let as_last = last.and_then(|wall| match &wall.shape {
                WallShape::Gable { ridge, .. } => Some(ridge.clone()),
                _ => None,
            });
            let ridge = heard.length(Word::Ridge).cloned().or(as_last);
            let ridge = if let Some(ridge) = ridge {
                ridge
            } else {
                let message = heard.add("how high is the ridge?", Word::Ridge);
                heard.lacks(message);
                // A roof of one in two, to draw.
                values::worked_out(
                    values::mm(&height) + values::mm(&length) / 4.0,
                    heard.units(),
                )?
            };
            WallShape::Gable {
                length,
                eaves: height,
                ridge,
                ridge_from_left: heard.length(Word::At).cloned(),
            }
        }
        WallKind::Raked => {
            let as_last = last.and_then(|wall| match &wall.shape {
                WallShape::Raked { right, .. } => Some(right.clone()),
                _ => None,
            });
            let right = heard.length(Word::To).cloned().or(as_last);
            let right = if let Some(right) = right {
                right
            } else {
                let message = heard.add("how high is the right end?", Word::To);
                heard.lacks(message);
                height.clone()
            };
            WallShape::Raked {
                length,
                left: height,
                right,
            }
        }
        WallKind::Level | WallKind::Curved => WallShape::Rectangle { length, height },
    })
}

/// A face with what was said for its side; the rest as the last wall has it there, insets at its ends
/// excepted. `Ok(None)` when the side is not plastered, `Err` when the project cannot have one.
fn face(
    heard: &mut Heard<'_>,
    side: Side,
    last: Option<&Wall>,
    shape: &WallShape,
) -> Result<Option<Face>, ()> {
    let named = heard.notes.iter().any(|note| note.side == Some(side));
    let as_last = last.is_none_or(|wall| wall.face(side).is_some());
    if heard.is_left_out(side) || !(as_last || named) {
        return Ok(None);
    }
    let mut face = plain_face(heard, side)?;
    let before = last
        .and_then(|wall| wall.face(side))
        .and_then(|face| face.inset.as_ref());
    let low = |ceiling: &Typed<Length>| {
        height_of(shape).is_none_or(|height| values::mm(ceiling) <= values::mm(height))
    };
    let inset = Inset {
        left: heard.length_on(Word::Left, side).cloned(),
        right: heard.length_on(Word::Right, side).cloned(),
        top: before.and_then(|inset| inset.top.clone()),
        bottom: heard
            .length_on(Word::Base, side)
            .cloned()
            .or_else(|| before.and_then(|inset| inset.bottom.clone())),
        ceiling: ceiling(heard, side)
            .or_else(|| before.and_then(|inset| inset.ceiling.clone().filter(low))),
    };
    face.inset = match before {
        _ if inset == Inset::default() => None,
        Some(before) if **before == inset => Some(Arc::clone(before)),
        _ => Some(Arc::new(inset)),
    };
    Ok(Some(face))
}

/// The ceiling said for a side. One said for no side is inside: it hangs there.
pub(super) fn ceiling(heard: &Heard<'_>, side: Side) -> Option<Typed<Length>> {
    let note = heard
        .notes
        .iter()
        .rev()
        .find(|note| note.word == Word::Ceiling && note.side.unwrap_or(Side::Inside) == side);
    match note.map(|note| &note.value) {
        Some(Value::Length(ceiling)) => Some(ceiling.clone()),
        _ => None,
    }
}

/// A face without insets, with the background and the build-up that were said for it.
pub(super) fn plain_face(heard: &mut Heard<'_>, side: Side) -> Result<Face, ()> {
    let mut face = known::face(heard.context.project, side).map_err(|lack| heard.refuse(lack))?;
    if let Some(Value::Name(name)) = heard.on(Word::With, side) {
        face.build_up = name.clone();
    }
    if let Some(Value::Name(name)) = heard.on(Word::On, side) {
        face.background = name.clone();
    }
    Ok(face)
}
