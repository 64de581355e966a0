//! The text typed in a field, by the field's name: for messages. One table a shape. Not here: what
//! the texts mean.

use crate::project::{Inset, Opening, OpeningShape, Reveal, WallEnd, WallShape};
use hodful_quantities::Typed;

/// Finds the text of a field in a table of fields.
fn text<'a>(field: &str, table: &[(&str, Option<&'a str>)]) -> Option<&'a str> {
    table
        .iter()
        .find(|(name, _)| *name == field)
        .and_then(|(_, text)| *text)
}

macro_rules! texts {
    ($field:expr; $($name:literal => $typed:expr),* $(,)?) => {
        text($field, &[$(($name, $typed)),*]).map(str::to_owned)
    };
}

/// A field of a wall's shape.
pub(crate) fn wall_shape(shape: &WallShape, field: &str) -> Option<String> {
    match shape {
        WallShape::Rectangle { length, height } => texts! { field;
        "length" => Some(length.text()), "height" => Some(height.text()) },
        WallShape::Gable {
            length,
            eaves,
            ridge,
            ridge_from_left,
        } => texts! { field;
        "length" => Some(length.text()), "eaves" => Some(eaves.text()),
        "ridge" => Some(ridge.text()),
        "ridge_from_left" => ridge_from_left.as_ref().map(Typed::text) },
        WallShape::Raked {
            length,
            left,
            right,
        } => texts! { field;
        "length" => Some(length.text()), "left" => Some(left.text()),
        "right" => Some(right.text()) },
        WallShape::Polygon { .. } => None,
        WallShape::Curved {
            radius,
            sweep,
            length,
            height,
        } => texts! { field;
        "radius" => Some(radius.text()), "height" => Some(height.text()),
        "sweep" => sweep.as_ref().map(Typed::text),
        "length" => length.as_ref().map(Typed::text) },
    }
}

/// A field of an inset.
pub(crate) fn inset(inset: &Inset, field: &str) -> Option<String> {
    texts! { field;
    "inset.left" => inset.left.as_ref().map(Typed::text),
    "inset.right" => inset.right.as_ref().map(Typed::text),
    "inset.top" => inset.top.as_ref().map(Typed::text),
    "inset.bottom" => inset.bottom.as_ref().map(Typed::text),
    "inset.ceiling" => inset.ceiling.as_ref().map(Typed::text) }
}

/// A field of a corner.
pub(crate) fn corner(end: &WallEnd, field: &str) -> Option<String> {
    texts! { field;
    "turn" => end.turn.as_ref().map(Typed::text),
    "radius" => end.radius.as_ref().map(Typed::text),
    "cove" => end.cove.as_ref().map(Typed::text) }
}

/// A field of an opening, its shape and its frame.
pub(crate) fn opening(opening: &Opening, field: &str) -> Option<String> {
    let own = texts! { field;
    "from_left" => Some(opening.from_left.text()),
    "sill" => Some(opening.sill.text()),
    "spacing" => opening.spacing.as_ref().map(Typed::text),
    "frame.from_outside" => opening.frame.as_ref().map(|f| f.from_outside.text()),
    "frame.depth" => opening.frame.as_ref().map(|f| f.depth.text()) };
    own.or_else(|| match &opening.shape {
        OpeningShape::Rectangle { width, height } => texts! { field;
        "width" => Some(width.text()), "height" => Some(height.text()) },
        OpeningShape::Arched {
            width,
            springing,
            rise,
            ..
        } => texts! { field;
        "width" => Some(width.text()), "springing" => Some(springing.text()),
        "rise" => rise.as_ref().map(Typed::text) },
        OpeningShape::Circle { diameter } => texts! { field;
        "diameter" => Some(diameter.text()) },
        OpeningShape::Polygon { .. } => None,
    })
}

/// A field of a reveal.
pub(crate) fn reveal(reveal: &Reveal, field: &str) -> Option<String> {
    let splay = reveal.splay.as_deref();
    texts! { field;
    "radius" => reveal.radius.as_ref().map(Typed::text),
    "lath" => reveal.lath.as_ref().map(Typed::text),
    "splay.jambs" => splay.and_then(|s| s.jambs.as_ref()).map(Typed::text),
    "splay.head" => splay.and_then(|s| s.head.as_ref()).map(Typed::text),
    "splay.sill" => splay.and_then(|s| s.sill.as_ref()).map(Typed::text),
    "splay.ring" => splay.and_then(|s| s.ring.as_ref()).map(Typed::text) }
}
