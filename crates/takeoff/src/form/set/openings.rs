//! Setting the fields of an opening, its shape, frame and reveals. Not here: walls.

use super::{Done, GONE};
use crate::form::held::{put, read};
use crate::form::rows::is_ringed;
use crate::form::{rename, shape, tables};
use crate::project::{Frame, Opening, Project, Reveal, Side, Splay};
use hodful_quantities::Typed;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::units::Length;
use std::sync::Arc;

pub(super) fn set(
    project: &mut Project,
    (wall, opening): (usize, usize),
    key: &str,
    text: Option<&str>,
) -> Done {
    let frame =
        (key.starts_with("frame.") && text.is_some()).then(|| frame_like(project, wall, opening));
    let parts = parts_like(project, wall, opening, key);
    let units = project.units;
    let wall = Arc::make_mut(project.walls.get_mut(wall).ok_or(GONE)?);
    if key == "id" {
        let others = wall.openings.iter().enumerate();
        let others = others.filter(|(i, _)| *i != opening).map(|(_, o)| &o.id);
        rename::free(text, others, "the wall has an opening")?;
    }
    let opening = wall.openings.get_mut(opening).ok_or(GONE)?;
    of_opening(opening, key, text, units, frame.flatten(), parts)
}

/// The openings an opening takes after: those before it, the nearest first, and then those behind it, the
/// last first. So many openings set one after another cost no more than one look back each.
fn others(project: &Project, wall: usize, opening: usize) -> impl Iterator<Item = &Opening> {
    let (before, behind) = project
        .walls
        .split_at_checked(wall)
        .unwrap_or((&project.walls, &[]));
    let own = behind.first().map_or(&[][..], |wall| &wall.openings);
    let (own_before, own_behind) = own.split_at_checked(opening).unwrap_or((own, &[]));
    let before = before
        .iter()
        .rev()
        .flat_map(|wall| wall.openings.iter().rev());
    let behind = behind.iter().skip(1).rev();
    let behind = behind.flat_map(|wall| wall.openings.iter().rev());
    let own_behind = own_behind.iter().skip(1).rev();
    own_before
        .iter()
        .rev()
        .chain(before)
        .chain(behind)
        .chain(own_behind)
}

/// The frame of the opening it takes after.
fn frame_like(project: &Project, wall: usize, opening: usize) -> Option<Arc<Frame>> {
    others(project, wall, opening).find_map(|opening| opening.frame.clone())
}

/// For a reveal that is yet to be made: its parts as those of the opening it takes after, which has
/// reveals on that side and is as round; or else the usual.
fn parts_like(project: &Project, wall: usize, opening: usize, key: &str) -> Reveal {
    let mut reveal = Reveal {
        plastered: Vec::new(),
        splay: None,
        radius: None,
        lath: None,
    };
    let of = project
        .walls
        .get(wall)
        .and_then(|w| w.openings.get(opening));
    let side = key
        .split_once('.')
        .and_then(|(side, _)| Side::from_word(side));
    let (Some(of), Some(side)) = (of, side) else {
        return reveal;
    };
    if of.reveal(side).is_some() {
        return reveal;
    }
    let ringed = is_ringed(&of.shape);
    let mut like = others(project, wall, opening).filter(|o| is_ringed(&o.shape) == ringed);
    let like = like.find_map(|other| other.reveal(side).map(|r| &r.plastered));
    reveal.plastered = like.cloned().unwrap_or_else(|| shape::usual_parts(ringed));
    reveal
}

fn of_opening(
    opening: &mut Opening,
    key: &str,
    text: Option<&str>,
    units: UnitSystem,
    like: Option<Arc<Frame>>,
    made: Reveal,
) -> Done {
    let (first, rest) = key.split_once('.').unwrap_or((key, ""));
    if let ("shape", Some(kind)) = (key, text) {
        return if tables::opening_shape(&opening.shape).0 == kind {
            Ok(())
        } else {
            shape::opening(opening, kind, units)
        };
    }
    if first == "frame" {
        return frame(&mut opening.frame, rest, text, like);
    }
    if let Some(side) = Side::from_word(first) {
        return reveal(held_reveal(opening, side), rest, text, made);
    }
    for fields in [tables::OPENING, tables::PLACED] {
        if fields.iter().any(|field| field.key == key) {
            return put(fields, opening, key, text);
        }
    }
    let fields = tables::opening_shape(&opening.shape).1;
    put(fields, &mut opening.shape, key, text)
}

/// When one of the two is typed the other is as on the opening it takes after, or nothing. One that is
/// cleared is nothing; when both are and one is cleared again, the frame is taken away.
fn frame(
    held: &mut Option<Arc<Frame>>,
    key: &str,
    text: Option<&str>,
    like: Option<Arc<Frame>>,
) -> Done {
    const NOTHING: &str = "0";
    let mut frame = match (held.as_ref(), like) {
        (Some(frame), _) => (**frame).clone(),
        (None, Some(like)) => (*like).clone(),
        (None, None) => Frame {
            from_outside: read(NOTHING)?,
            depth: read(NOTHING)?,
        },
    };
    let is_nothing = |given: &Typed<Length>| given.value().value == 0.0;
    let empty = is_nothing(&frame.from_outside) && is_nothing(&frame.depth);
    put(tables::FRAME, &mut frame, key, text.or(Some(NOTHING)))?;
    *held = (text.is_some() || !empty).then(|| Arc::new(frame));
    Ok(())
}

pub(super) fn held_reveal(opening: &mut Opening, side: Side) -> &mut Option<Arc<Reveal>> {
    match side {
        Side::Outside => &mut opening.outside,
        Side::Inside => &mut opening.inside,
    }
}

/// Clearing the plastered parts takes the whole reveal away.
fn reveal(held: &mut Option<Arc<Reveal>>, key: &str, text: Option<&str>, made: Reveal) -> Done {
    if key == "plastered" && text.is_none() {
        *held = None;
        return Ok(());
    }
    let mut reveal = match held {
        Some(reveal) => (**reveal).clone(),
        None if text.is_none() => return Ok(()),
        None => made,
    };
    if let Some(key) = key.strip_prefix("splay.") {
        let mut splay = reveal.splay.take().unwrap_or_default();
        put(tables::SPLAY, &mut splay, key, text)?;
        reveal.splay = Some(splay).filter(|splay| **splay != Splay::default());
    } else if tables::REVEAL.iter().any(|field| field.key == key) {
        put(tables::REVEAL, &mut reveal, key, text)?;
    } else {
        put(tables::PLASTERED, &mut reveal, key, text)?;
    }
    let empty = reveal.plastered.is_empty()
        && reveal.splay.is_none()
        && reveal.radius.is_none()
        && reveal.lath.is_none();
    *held = (!empty).then(|| Arc::new(reveal));
    Ok(())
}
