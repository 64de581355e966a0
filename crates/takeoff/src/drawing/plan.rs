//! The plan of a building: its outside and inside lines, with each wall's id. Not here: how the walls
//! make a ring (see [`crate::plan`]).

mod openings;

pub use openings::openings;

use super::number::length;
use super::{DimensionLine, Drawing, Edge, Label, Point, Role, Stand, line};
use crate::form::Subject;
use ecow::EcoString;
use hodful_quantities::print::UnitSystem;

/// A building on plan, as it is to be drawn. Millimetres.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlanOutline {
    /// Corners of the outside of the walls.
    pub outer: Vec<Point>,
    /// Corners of the inside of the walls; may be empty.
    pub inner: Vec<Point>,
    /// The walls.
    pub walls: Vec<PlanWall>,
}

/// A wall on plan.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanWall {
    /// Its position in the project.
    pub wall: usize,
    /// Its id.
    pub id: EcoString,
    /// The middle of its outside, mm.
    pub middle: Point,
    /// Its stretch of the outside line, two points or more; may be empty. mm.
    pub stretch: Vec<Point>,
}

/// The plan of a building from its lines: walls with their ids, overall length and width.
///
/// What is not finite or past drawing is left out.
pub fn plan(outline: &PlanOutline, units: UnitSystem) -> Drawing {
    let mut drawing = Drawing::default();
    let mut band = outline.outer.clone();
    if let (Some(&first), Some(&inner)) = (outline.outer.first(), outline.inner.first()) {
        // One ring for the band between the two: out, across, back along the inside, across.
        band.push(first);
        band.push(inner);
        band.extend(outline.inner.iter().skip(1).rev());
        band.push(inner);
        drawing.fill(Role::Background, band, None);
    }
    drawing.stroke(Role::Plaster, outline.inner.clone(), true, None);
    drawing.stroke(Role::Outline, outline.outer.clone(), true, None);
    for wall in &outline.walls {
        let of = Some(Subject::Wall(wall.wall));
        drawing.stroke(Role::Outline, wall.stretch.clone(), false, of);
        if wall.middle.iter().all(|n| n.is_finite()) {
            drawing.labels.push(Label {
                at: wall.middle,
                text: wall.id.clone(),
                stand: Stand::At,
                weight: 70,
                of,
                names: true,
                only_marked: false,
            });
        }
    }
    drawing.bounds = drawing.extent();
    if let Some([left, bottom, right, top]) = drawing.bounds {
        let mut figure = |name, to: Point, edge, mm: f64| {
            drawing.dimensions.push(DimensionLine {
                name,
                from: [left, bottom],
                to,
                edge,
                row: 0,
                text: length(mm, units),
                weight: 80,
                of: None,
                only_chosen: false,
            });
        };
        figure("length", [right, bottom], Edge::Below, right - left);
        figure("width", [left, top], Edge::Left, top - bottom);
    }
    for wall in &outline.walls {
        let of = Some(Subject::Wall(wall.wall));
        side_figure(&mut drawing, wall, of, units);
    }
    drawing
}

/// The length of a wall, shown while it is chosen.
fn side_figure(drawing: &mut Drawing, wall: &PlanWall, of: Option<Subject>, units: UnitSystem) {
    let Some(bounds) = line::bounds(&wall.stretch) else {
        return;
    };
    let pairs = wall.stretch.iter().zip(wall.stretch.iter().skip(1));
    let run: f64 = pairs
        .map(|(a, b)| libm::hypot(b[0] - a[0], b[1] - a[1]))
        .sum();
    let [left, bottom, right, top] = bounds;
    let edge = if right - left >= top - bottom {
        Edge::Above
    } else {
        Edge::Right
    };
    if run > 0.0 && run.is_finite() {
        drawing.dimensions.push(DimensionLine {
            name: "side",
            from: [left, bottom],
            to: [right, top],
            edge,
            row: 0,
            text: length(run, units),
            weight: 90,
            of,
            only_chosen: true,
        });
    }
}
