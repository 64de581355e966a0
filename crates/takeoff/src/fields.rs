//! The text typed in a field, by the name that a fault of the geometry gives it: for messages. Not here:
//! the fields themselves (see `form`).

use crate::form::held::{Field, text};
use crate::form::tables;
use crate::project::{Inset, Opening, Reveal, WallEnd, WallShape};

fn of<T>(fields: &[Field<T>], of: &T, field: &str) -> Option<String> {
    text(fields, of, field).map(|text| text.to_string())
}

/// A field of a wall's shape. Corners are told without their text, which is long.
pub(crate) fn wall_shape(shape: &WallShape, field: &str) -> Option<String> {
    match shape {
        WallShape::Polygon { .. } => None,
        _ => of(tables::wall_shape(shape).1, shape, field),
    }
}

/// A field of an inset.
pub(crate) fn inset(inset: &Inset, field: &str) -> Option<String> {
    of(tables::INSET, inset, field.strip_prefix("inset.")?)
}

/// A field of a corner.
pub(crate) fn corner(end: &WallEnd, field: &str) -> Option<String> {
    of(tables::CORNER, end, field)
}

/// A field of an opening, its shape and its frame. Corners as of a wall.
pub(crate) fn opening(opening: &Opening, field: &str) -> Option<String> {
    if let Some(field) = field.strip_prefix("frame.") {
        return of(tables::FRAME, opening.frame.as_deref()?, field);
    }
    if field == "corners" {
        return None;
    }
    of(tables::OPENING, opening, field)
        .or_else(|| of(tables::PLACED, opening, field))
        .or_else(|| {
            of(
                tables::opening_shape(&opening.shape).1,
                &opening.shape,
                field,
            )
        })
}

/// A field of a reveal.
pub(crate) fn reveal(reveal: &Reveal, field: &str) -> Option<String> {
    match field.strip_prefix("splay.") {
        Some(field) => of(tables::SPLAY, reveal.splay.as_deref()?, field),
        None => of(tables::REVEAL, reveal, field),
    }
}
