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
    let is_free = |place: Length| {
        let (from, to) = (place.value, place.value + wide.value);
        from >= 0.0
            && to <= long.value
            && (0..wall.openings.len()).all(|other| {
                let of = wall
                    .openings
                    .get(other)
                    .map(|of| of.from_left.value().value);
                let range = of.zip(width(wall, other));
                range.is_none_or(|(begin, wide)| to <= begin || from >= begin + wide.value)
            })
    };
    if is_free(right) {
        text(right, units).map(Some)
    } else if is_free(left) {
        text(left, units).map(Some)
    } else {
        gap(wall, wide, long).map_or(Ok(None), |place| text(place, units).map(Some))
    }
}

/// The left edge of the first gap between openings that is wide enough, in its middle.
fn gap(wall: &Wall, wide: Length, long: Length) -> Option<Length> {
    let mut taken: Vec<[f64; 2]> = (0..wall.openings.len())
        .filter_map(|at| {
            let from = wall.openings.get(at)?.from_left.value().value;
            Some([from, from + width(wall, at)?.value])
        })
        .collect();
    taken.sort_by(|a, b| a[0].total_cmp(&b[0]));
    taken.push([long.value; 2]);
    let mut free = 0.0_f64;
    for [from, to] in taken {
        if from - free >= wide.value {
            let value = free + (from - free - wide.value) / 2.0;
            return Some(Length { value, ..wide });
        }
        free = free.max(to);
    }
    None
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
