//! Pictures of a project as they are put on paper, where nothing can be chosen: elevations with chains of
//! dimensions, build-ups, the plan. Not here: the lines (see the drawings of the takeoff) and painting.

use crate::Picture;
use crate::tolerance::SAME_PLACE;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::length_of_mm;
use hodful_takeoff::drawing::{
    self, DimensionLine, Drawing, Edge, PlanOutline, PlanWall, Role, Stroke,
};
use hodful_takeoff::form::Subject;
use hodful_takeoff::plan::{self, Ring};
use hodful_takeoff::{Project, Side};

/// Most places in a chain of dimensions: more figures than that would stand on one another on any paper.
const MOST_PLACES: usize = 60;

/// Most walls for which a plan is looked for: finding the ring of a great many takes longer than reading.
const MOST_ON_PLAN: usize = 400;

/// The share of a page of each of two pictures side by side, the paper between them left out.
const HALF: f64 = 0.48;

/// A face of a wall with every dimension that a drawing on paper has: a chain along under it, from frame
/// to frame, a chain up beside it, and the sizes of the wall.
///
/// A wall that is not there gives an empty drawing. Figures that the screen shows for a chosen opening
/// alone are left out; what was typed stands in the table.
pub fn elevation(project: &Project, wall: usize, side: Side) -> Picture {
    let mut drawing = drawing::face(project, wall, side);
    drawing.dimensions.retain(|figure| !figure.only_chosen);
    drawing.labels.retain(|label| !label.only_marked);
    let chains = chains(&drawing, project.units);
    if !chains.is_empty() {
        // The chains stand nearest; what the wall itself has there moves out.
        for figure in &mut drawing.dimensions {
            if matches!(figure.edge, Edge::Below | Edge::Right) {
                figure.row = figure.row.saturating_add(1);
            }
        }
    }
    drawing.dimensions.extend(chains);
    without_units(&mut drawing, project.units);
    let mut caption = project.walls.get(wall).map_or_else(EcoString::new, |wall| {
        eco_format!("Wall {}, {}", wall.id, side.word())
    });
    for words in &drawing.captions {
        caption.push_str("; ");
        caption.push_str(words);
    }
    drawing.captions.clear();
    Picture {
        drawing,
        caption,
        to_scale: true,
        share: 1.0,
        is_tall: false,
    }
}

/// A section through a build-up, or nothing when it has no thickness.
pub(crate) fn build_up(project: &Project, at: usize) -> Option<Picture> {
    let (name, _) = project.build_ups.get_index(at)?;
    let drawing = drawing::build_up(project, at);
    drawing.bounds?;
    Some(Picture {
        drawing,
        caption: eco_format!("Build-up {name}"),
        to_scale: true,
        share: HALF,
        is_tall: false,
    })
}

/// The plan of each ring that the walls make.
pub(crate) fn plans(project: &Project) -> Vec<Picture> {
    if project.walls.len() > MOST_ON_PLAN {
        return Vec::new();
    }
    let rings = plan::rings(&project.walls);
    let share = if rings.len() > 1 { HALF } else { 1.0 };
    rings
        .into_iter()
        .filter_map(|ring| plan_of(project, ring, share))
        .collect()
}

fn plan_of(project: &Project, ring: Ring, share: f64) -> Option<Picture> {
    let walls = ring.walls.into_iter().map(|wall| PlanWall {
        wall: wall.wall,
        id: wall.id,
        middle: wall.middle,
        stretch: wall.outside,
    });
    let outline = PlanOutline {
        outer: ring.outside,
        inner: ring.inside,
        walls: walls.collect(),
    };
    let mut drawing = drawing::plan(&outline, project.units);
    for of in &outline.walls {
        if let Some(wall) = project.walls.get(of.wall) {
            drawing::plan_openings(&mut drawing, wall, of.wall, &of.stretch);
        }
    }
    drawing.bounds?;
    drawing.dimensions.retain(|figure| !figure.only_chosen);
    without_units(&mut drawing, project.units);
    let ids: Vec<&str> = outline.walls.iter().map(|wall| wall.id.as_str()).collect();
    let walls = if ids.len() == 1 { "wall" } else { "walls" };
    Some(Picture {
        drawing,
        caption: eco_format!("Plan of {walls} {}", ids.join(", ")),
        to_scale: true,
        share,
        is_tall: false,
    })
}

/// Takes the unit from the figures of a drawing whose lengths all have the same, which the sheet says once:
/// a short line has no room for it.
fn without_units(drawing: &mut Drawing, units: UnitSystem) {
    let unit = print::length(length_of_mm(0.0), units).unit;
    for figure in &mut drawing.dimensions {
        let digits = figure.text.strip_suffix(unit).map(str::trim_end);
        if let Some(digits) = digits.filter(|_| !unit.is_empty()) {
            figure.text = digits.into();
        }
    }
}

/// The chains of dimensions of a face: from frame to frame along and up, each between the ends of the
/// wall. None where there is no opening.
fn chains(drawing: &Drawing, units: UnitSystem) -> Vec<DimensionLine> {
    let outline = |stroke: &&Stroke| stroke.role == Role::Outline;
    let frame = |stroke: &&Stroke| {
        stroke.role == Role::Frame && matches!(stroke.of, Some(Subject::Opening { .. }))
    };
    let of_wall = bounds(drawing.strokes.iter().filter(outline));
    let Some(wall) = of_wall else {
        return Vec::new();
    };
    let frames: Vec<[f64; 4]> = drawing
        .strokes
        .iter()
        .filter(frame)
        .filter_map(|stroke| bounds(std::iter::once(stroke)))
        .collect();
    let [left, bottom, right, top] = wall;
    let along = places(frames.iter().flat_map(|f| [f[0], f[2]]), [left, right]);
    let up = places(frames.iter().flat_map(|f| [f[1], f[3]]), [bottom, top]);
    let chain = |places: Vec<f64>, edge: Edge| {
        let point = move |at: f64| {
            if edge.is_level() {
                [at, bottom]
            } else {
                [right, at]
            }
        };
        let pairs: Vec<(f64, f64)> = places
            .iter()
            .copied()
            .zip(places.iter().copied().skip(1))
            .collect();
        pairs.into_iter().map(move |(from, to)| DimensionLine {
            name: if edge.is_level() { "along" } else { "up" },
            from: point(from),
            to: point(to),
            edge,
            row: 0,
            text: print::length(length_of_mm(to - from), units).digits.into(),
            weight: 70,
            of: None,
            only_chosen: false,
        })
    };
    chain(along, Edge::Below)
        .chain(chain(up, Edge::Right))
        .collect()
}

/// The places of a chain in order, the ends with them; none without a place between, or with too many.
fn places(edges: impl Iterator<Item = f64>, [first, last]: [f64; 2]) -> Vec<f64> {
    let mut places: Vec<f64> = edges.filter(|at| at.is_finite()).collect();
    if places.is_empty() {
        return places;
    }
    places.extend([first, last]);
    places.sort_by(f64::total_cmp);
    places.dedup_by(|next, before| *next - *before <= SAME_PLACE);
    if places.len() > MOST_PLACES {
        places.clear();
    }
    places
}

/// The box round some lines.
fn bounds<'a>(strokes: impl Iterator<Item = &'a Stroke>) -> Option<[f64; 4]> {
    let points = strokes.flat_map(|stroke| &stroke.points);
    points.fold(None, |bounds: Option<[f64; 4]>, &[u, v]| {
        let [l, b, r, t] = bounds.unwrap_or([u, v, u, v]);
        Some([l.min(u), b.min(v), r.max(u), t.max(v)])
    })
}
