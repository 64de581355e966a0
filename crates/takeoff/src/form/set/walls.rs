//! Setting the fields of a wall, its shape, faces and corners. Not here: its openings.

use super::openings::held_reveal;
use super::{Done, GONE};
use crate::form::held::{no_field, put};
use crate::form::rows::{BARE, NO_CORNER, PLASTERED, corner};
use crate::form::{rename, shape, tables};
use crate::project::{
    CornerAngle, End, Face, Inset, Name, Project, Side, Wall, WallEnd, WallShape,
};
use ecow::{EcoString, eco_format};
use std::sync::Arc;

pub(super) fn set(project: &mut Project, i: usize, key: &str, text: Option<&str>) -> Done {
    let units = project.units;
    if key == "id" {
        let others = project.walls.iter().enumerate().filter(|(at, _)| *at != i);
        rename::free(
            text,
            others.map(|(_, wall)| &wall.id),
            "the project has a wall",
        )?;
        let old = project.walls.get(i).ok_or(GONE)?.id.clone();
        if let Some(new) = text {
            rename::follow(project, rename::Kind::Wall, &old, &new.into());
        }
    }
    let (first, rest) = key.split_once('.').unwrap_or((key, ""));
    let side = Side::from_word(first);
    let plastered = match side {
        Some(side) if needs_face(rest, text) => face_like(project, i, side),
        _ => Ok(None),
    };
    let wall = Arc::make_mut(project.walls.get_mut(i).ok_or(GONE)?);
    if let Some(side) = side {
        return of_side(wall, side, rest, text, plastered);
    }
    match (key, text) {
        ("shape", Some(kind)) => {
            if tables::wall_shape(&wall.shape).0 != kind {
                wall.shape = shape::wall(&wall.shape, kind, units)?;
            }
            Ok(())
        }
        _ if tables::WALL.iter().any(|field| field.key == key) => {
            put(tables::WALL, wall, key, text)
        }
        _ if tables::BODY.iter().any(|field| field.key == key) => {
            put(tables::BODY, wall, key, text)
        }
        _ => {
            put(
                tables::wall_shape(&wall.shape).1,
                &mut wall.shape,
                key,
                text,
            )?;
            if let WallShape::Curved { sweep, length, .. } = &mut wall.shape {
                match (key, text) {
                    ("sweep", Some(_)) => *length = None,
                    ("length", Some(_)) => *sweep = None,
                    _ => {}
                }
            }
            Ok(())
        }
    }
}

/// Whether a field of a side wants the face to be plastered.
fn needs_face(rest: &str, text: Option<&str>) -> bool {
    match rest {
        "" => text != Some(BARE),
        _ if text == Some(NO_CORNER) => !rest.starts_with("corner."),
        _ => text.is_some(),
    }
}

/// A face for a side that is bare: background and build-up of the nearest wall before, or else behind,
/// whose same side is plastered; else the first of the project. `None` when it is plastered already.
fn face_like(project: &Project, wall: usize, side: Side) -> Result<Option<Face>, EcoString> {
    if project
        .walls
        .get(wall)
        .is_none_or(|w| w.face(side).is_some())
    {
        return Ok(None);
    }
    let (before, behind) = project.walls.split_at_checked(wall).unwrap_or_default();
    let like = before.iter().rev().chain(behind).find_map(|w| w.face(side));
    if let Some(face) = like {
        return Ok(Some(Face {
            background: face.background.clone(),
            build_up: face.build_up.clone(),
            inset: None,
            rain: None,
            facing: None,
            shaded: None,
        }));
    }
    let first = |names: Option<&Name>, what: &str| {
        names
            .cloned()
            .ok_or_else(|| eco_format!("the project has no {what} yet; give one first"))
    };
    Ok(Some(Face {
        background: first(project.backgrounds.keys().next(), "background")?,
        build_up: first(project.build_ups.keys().next(), "build-up")?,
        inset: None,
        rain: None,
        facing: None,
        shaded: None,
    }))
}

fn of_side(
    wall: &mut Wall,
    side: Side,
    key: &str,
    text: Option<&str>,
    plastered: Result<Option<Face>, EcoString>,
) -> Done {
    match (key, text) {
        ("", Some(BARE)) => {
            bare(wall, side);
            return Ok(());
        }
        ("", Some(PLASTERED) | None) => {}
        ("", Some(other)) => {
            return Err(eco_format!("'{other}' is none of {PLASTERED} and {BARE}"));
        }
        _ => {}
    }
    let mut made = plastered?;
    if let Some(corner) = key.strip_prefix("corner.") {
        of_corner(wall, side, corner, text)?;
        if let Some(face) = made {
            *held_face(wall, side) = Some(face);
        }
        return Ok(());
    }
    let held = held_face(wall, side);
    let Some(face) = held.as_mut().or(made.as_mut()) else {
        return if text.is_none() {
            Ok(())
        } else {
            Err(GONE.into())
        };
    };
    match key.strip_prefix("inset.") {
        _ if key.is_empty() => {}
        Some(key) => {
            let inset = Arc::make_mut(face.inset.get_or_insert_default());
            put(tables::INSET, inset, key, text)?;
            if *inset == Inset::default() {
                face.inset = None;
            }
        }
        None if tables::SUN.iter().any(|field| field.key == key) => {
            put(tables::SUN, face, key, text)?;
        }
        None => put(tables::FACE, face, key, text)?,
    }
    if held.is_none() {
        *held = made;
    }
    Ok(())
}

fn held_face(wall: &mut Wall, side: Side) -> &mut Option<Face> {
    match side {
        Side::Outside => &mut wall.outside,
        Side::Inside => &mut wall.inside,
    }
}

/// Takes away a face with its corners and the reveals on its side, which a bare face cannot have.
/// Pockets are things of their own and stay, for the checking to tell.
fn bare(wall: &mut Wall, side: Side) {
    *held_face(wall, side) = None;
    if wall.ends.iter().any(|end| end.face == side) {
        wall.ends = wall
            .ends
            .iter()
            .filter(|e| e.face != side)
            .cloned()
            .collect();
    }
    for opening in &mut wall.openings {
        *held_reveal(opening, side) = None;
    }
}

/// `left`, `left.turn` and so on. A corner that is not there is made: external for a radius, internal
/// for a cove, and else external outside and internal inside.
fn of_corner(wall: &mut Wall, side: Side, key: &str, text: Option<&str>) -> Done {
    let (end, field) = key.split_once('.').unwrap_or((key, ""));
    let end = End::from_word(end).ok_or_else(|| no_field(key))?;
    let is = |corner: &WallEnd| corner.face == side && corner.end == end;
    let there = corner(wall, side, end);
    if field.is_empty() && text.is_none_or(|text| text == NO_CORNER) {
        if there.is_some() {
            wall.ends = wall.ends.iter().filter(|e| !is(e)).cloned().collect();
        }
        return Ok(());
    }
    let mut made = there.cloned().unwrap_or(WallEnd {
        face: side,
        end,
        angle: match (field, side) {
            ("cove", _) => CornerAngle::Internal,
            ("radius", _) | (_, Side::Outside) => CornerAngle::External,
            _ => CornerAngle::Internal,
        },
        turn: None,
        radius: None,
        cove: None,
    });
    if field.is_empty() {
        let word = text.unwrap_or_default();
        let angle = CornerAngle::from_word(word)
            .ok_or_else(|| eco_format!("'{word}' is no kind of corner"))?;
        if angle != made.angle {
            made.angle = angle;
            made.radius = None;
            made.cove = None;
        }
    } else {
        put(tables::CORNER, &mut made, field, text)?;
    }
    let mut ends = wall.ends.to_vec();
    match ends.iter_mut().find(|corner| is(corner)) {
        Some(corner) => *corner = made,
        None => ends.push(made),
    }
    wall.ends = ends.into();
    Ok(())
}
