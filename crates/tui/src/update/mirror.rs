//! Walls and openings turned left to right. Not here: undo.

use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::print::{UnitSystem, worked_out_length};
use hodful_quantities::units::Length;
use hodful_takeoff::project::{End, OpeningShape, Wall, WallShape};
use std::mem::swap;
use std::sync::Arc;

/// A length as it would be typed, to the last bit.
fn text(of: Length, units: UnitSystem) -> Result<Typed<Length>, EcoString> {
    Typed::read(worked_out_length(of, units)).map_err(|wrong| ecow::eco_format!("{wrong}"))
}

/// The width of an opening with all its copies.
fn width(wall: &Wall, at: usize) -> Option<Length> {
    let opening = wall.openings.get(at)?;
    let [one, _] = opening.shape.size();
    let more = f64::from(opening.count.unwrap_or(1).saturating_sub(1));
    let spacing = opening
        .spacing
        .as_ref()
        .map_or(0.0, |spacing| spacing.value().value);
    Some(Length {
        value: one.value + more * spacing,
        ..one
    })
}

/// Where a copy of an opening has room: half its width right of it, else left of it. `None` where there is
/// none: the copy then lies over it.
pub(super) fn beside(
    wall: &Wall,
    at: usize,
    units: UnitSystem,
) -> Result<Option<Typed<Length>>, EcoString> {
    let (Some(long), Some(wide), Some(opening)) =
        (wall.shape.length(), width(wall, at), wall.openings.get(at))
    else {
        return Ok(None);
    };
    let step = wide * 1.5;
    let from_left = opening.from_left.value();
    let right = from_left + step;
    let left = from_left - step;
    if (right + wide).value <= long.value {
        text(right, units).map(Some)
    } else if left.value >= 0.0 {
        text(left, units).map(Some)
    } else {
        Ok(None)
    }
}

/// Turns one opening left to right in its wall.
pub(super) fn mirrored_opening(
    wall: &mut Wall,
    at: usize,
    units: UnitSystem,
) -> Result<(), EcoString> {
    let long = wall.shape.length().ok_or("the wall has no length yet")?;
    let wide = width(wall, at).ok_or("the opening has no width yet")?;
    let Some(opening) = wall.openings.get_mut(at) else {
        return Ok(());
    };
    opening.from_left = text(long - opening.from_left.value() - wide, units)?;
    if let OpeningShape::Polygon { corners } = &mut opening.shape {
        turn_corners(corners, units)?;
    }
    Ok(())
}

/// Corners turned left to right between zero and the furthest.
fn turn_corners(corners: &mut [[Typed<Length>; 2]], units: UnitSystem) -> Result<(), EcoString> {
    let furthest = corners
        .iter()
        .map(|[along, _]| along.value())
        .max_by(|a, b| a.value.total_cmp(&b.value));
    if let Some(furthest) = furthest {
        for [along, _] in &mut *corners {
            *along = text(furthest - along.value(), units)?;
        }
        corners.reverse();
    }
    Ok(())
}

/// Turns a wall left to right with everything in it.
pub(super) fn mirrored_wall(wall: &mut Wall, units: UnitSystem) -> Result<(), EcoString> {
    for at in 0..wall.openings.len() {
        mirrored_opening(wall, at, units)?;
    }
    let long = wall.shape.length().ok_or("the wall has no length yet")?;
    match &mut wall.shape {
        WallShape::Raked { left, right, .. } => swap(left, right),
        WallShape::Gable {
            ridge_from_left: Some(ridge),
            ..
        } => *ridge = text(long - ridge.value(), units)?,
        WallShape::Polygon { corners } => turn_corners(corners, units)?,
        WallShape::Gable { .. } | WallShape::Rectangle { .. } | WallShape::Curved { .. } => {}
    }
    let mut ends = wall.ends.to_vec();
    for end in &mut ends {
        end.end = match end.end {
            End::Left => End::Right,
            End::Right => End::Left,
        };
    }
    wall.ends = ends.into();
    for face in wall.outside.iter_mut().chain(&mut wall.inside) {
        if let Some(inset) = &mut face.inset {
            let inset = Arc::make_mut(inset);
            swap(&mut inset.left, &mut inset.right);
        }
    }
    Ok(())
}
