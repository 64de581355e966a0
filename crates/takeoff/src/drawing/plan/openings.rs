//! Openings on plan: each copy as its stretch of the wall, from the outside face to the inside. Not here:
//! their reveals, which a section shows.

use super::super::{Drawing, Point, Role};
use crate::form::Subject;
use crate::project::Wall;

/// Copies that are drawn; more of them would be a black line.
const MOST_COPIES: u32 = 200;

/// The place some way along a line of straight pieces, and the direction there; `None` beyond its ends.
fn along(stretch: &[Point], way: f64) -> Option<(Point, Point)> {
    let mut left = way;
    for (from, to) in stretch.iter().zip(stretch.iter().skip(1)) {
        let (run, rise) = (to[0] - from[0], to[1] - from[1]);
        let long = libm::hypot(run, rise);
        if long > 0.0 && left >= 0.0 && left <= long {
            let direction = [run / long, rise / long];
            let place = [from[0] + direction[0] * left, from[1] + direction[1] * left];
            return Some((place, direction));
        }
        left -= long;
    }
    None
}

/// Draws the openings of a wall whose outside face is drawn as `stretch`, from left to right. What lies
/// beyond the face is left out.
pub fn openings(drawing: &mut Drawing, wall: &Wall, number: usize, stretch: &[Point]) {
    let thickness = wall.thickness.value().value;
    // Distances in the wall begin at the left end of its outline, the face where its inset ends.
    let inset = wall
        .outside
        .as_ref()
        .and_then(|face| face.inset.as_ref()?.left.as_ref())
        .map_or(0.0, |left| left.value().value);
    for (opening, of) in wall.openings.iter().enumerate() {
        let [wide, _] = of.shape.size();
        let spacing = of
            .spacing
            .as_ref()
            .map_or(0.0, |spacing| spacing.value().value);
        for copy in 0..of.count.unwrap_or(1).min(MOST_COPIES) {
            let left = of.from_left.value().value + f64::from(copy) * spacing - inset;
            let ends = [left, left + wide.value].map(|way| along(stretch, way));
            if let [Some((a, at_a)), Some((b, at_b))] = ends {
                // Seen from outside the inside lies to the left of the way from left to right.
                let inside = |place: Point, at: Point| {
                    [place[0] - at[1] * thickness, place[1] + at[0] * thickness]
                };
                let ring = vec![a, b, inside(b, at_b), inside(a, at_a)];
                let of = Some(Subject::Opening {
                    wall: number,
                    opening,
                });
                drawing.stroke(Role::Frame, ring, true, of);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_lie_along_the_line() {
        let stretch = [[0.0, 0.0], [3.0, 4.0], [3.0, 10.0]];
        let (place, direction) = along(&stretch, 2.5).unwrap();
        let near = |a: f64, b: f64| (a - b).abs() < 1e-12;
        assert!(near(place[0], 1.5) && near(place[1], 2.0));
        assert!(near(direction[0], 0.6) && near(direction[1], 0.8));
        let (place, _) = along(&stretch, 9.0).unwrap();
        assert!(near(place[0], 3.0) && near(place[1], 8.0));
        assert!(along(&stretch, 11.5).is_none());
        assert!(along(&stretch, -0.1).is_none());
        assert!(along(&[], 0.0).is_none());
    }
}
