//! The same area by each of the three ways it can be had, so that tests can hold one against another.
//!
//! Nothing in the program calls these; [`crate::measure_face`] picks the way by itself.

use crate::notes::Silent;
use crate::opening::Opening;
use crate::outline::{FaceOutline, Side};
use crate::reveal::Reveal;

use super::arrange::Site;

/// A way to the area of the holes in a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tier {
    /// Closed forms; holes must be apart, and whole or cut in a way that has one.
    Closed,
    /// Sweep over upright slabs; holes must be rectangles and the face not a polygon.
    Slabs,
    /// The polygon engine; takes everything.
    Polygons,
}

/// Area in mm² of a face less its holes, splay included and before any strip, by one named way; `None` where that way does
/// not lead. Reveals that do not suit count as none.
pub fn net_area_with(
    tier: Tier,
    face: &FaceOutline,
    side: Side,
    thickness: f64,
    openings: &[Opening],
    reveals: &[Reveal],
) -> Option<f64> {
    let here = Site::new(face, side, thickness, reveals);
    let placed = here.place_all(openings, &mut Silent);
    let holes = match tier {
        Tier::Closed => placed
            .iter()
            .map(|p| (p.cut.is_closed() && p.apart).then_some(p.area))
            .sum::<Option<f64>>()?,
        Tier::Slabs => here.slab_area(placed.iter())?,
        Tier::Polygons => here.polygon_area(placed.iter()),
    };
    Some(face.area() - holes)
}
