//! Figures that rules of measurement ask for: the size of an opening's frame on the face, and the width of its reveal.
//!
//! The rules themselves are not known here.

use crate::hole::Hole;
use crate::opening::Opening;
use crate::outline::{FaceOutline, Side};
use crate::reveal::Reveal;

use super::arrange::Site;
use super::place::area_inside;

/// Area in mm² of one copy (counted from zero) of an opening's frame inside the face, splay left aside.
///
/// `side` and `thickness` (millimetres) are those the face was made for; they matter on a wall curved on plan. In closed form
/// where the frame is wholly inside, and otherwise as exact as [`crate::measure_face`]. A copy that is not there gives zero.
pub fn frame_area_on_face(
    face: &FaceOutline,
    side: Side,
    thickness: f64,
    opening: &Opening,
    copy: u32,
) -> f64 {
    if copy >= opening.count() {
        return 0.0;
    }
    let at = [
        Site::new(face, side, thickness, &[]).left_of(opening, copy),
        opening.sill(),
    ];
    area_inside(face, &Hole::of_frame(opening), at).area
}

/// Width in millimetres of an opening's reveal on one side, from frame to face along the slant of the jambs (of the ring, on a round
/// or many-sided opening): depth/cos θ. Plastered or not; without a reveal its depth. Zero when the frame does not fit a wall
/// of that thickness.
///
/// # Examples
/// ```
/// # use hodful_geometry::*;
/// let window = Opening::new(OpeningSpec {
///     shape: OpeningShape::Rectangle { width: 900.0, height: 900.0 }, from_left: 0.0, sill: 900.0,
///     from_outside: 75.0, frame_depth: 125.0, count: 1, spacing: None, reveals: [None, None],
/// }).unwrap();
/// assert_eq!(reveal_width(&window, None, Side::Outside, 450.0), 75.0);
/// assert_eq!(reveal_width(&window, None, Side::Inside, 450.0), 250.0);
/// ```
pub fn reveal_width(opening: &Opening, reveal: Option<&Reveal>, side: Side, thickness: f64) -> f64 {
    let depth = opening.depth(side, thickness).max(0.0);
    let part = |reveal: &Reveal| {
        if opening.is_ringed() {
            reveal.ring().secant
        } else {
            reveal.jambs().secant
        }
    };
    depth * reveal.map_or(1.0, part)
}
