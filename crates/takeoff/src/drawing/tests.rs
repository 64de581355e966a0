//! The scenes against published figures, the closed forms of the geometry, and odd numbers.

mod layers;
mod measure;
mod odd;

use super::line;
use super::opening::{Out, Shape};
use super::{Drawing, PlanOutline, PlanWall, Point, Role, face, plan};
use crate::form::Subject;
use crate::project::{
    ArchKind, Background, BackgroundKind, Coat, CornerAngle, End, Face, Frame, Opening,
    OpeningShape, Pocket, Project, Reveal, RevealPart, Side, Splay, Wall, WallEnd, WallShape,
};
use ecow::EcoString;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::{Measure, Typed};
use indexmap::IndexMap;
use std::sync::Arc;

fn typed<T: Measure>(text: &str) -> Typed<T> {
    Typed::read(text).unwrap()
}

fn rectangle(length: &str, height: &str) -> WallShape {
    WallShape::Rectangle {
        length: typed(length),
        height: typed(height),
    }
}

fn wall(shape: WallShape, openings: Vec<Opening>) -> Wall {
    let face = || {
        Some(Face {
            background: "bale".into(),
            build_up: "thick".into(),
            inset: None,
            rain: None,
            facing: None,
            shaded: None,
        })
    };
    Wall {
        id: "S".into(),
        name: None,
        sheet: None,
        count: None,
        shape,
        thickness: typed("450 mm"),
        outside: face(),
        inside: face(),
        ends: Arc::new([]),
        openings,
        pockets: Vec::new(),
    }
}

fn opening(shape: OpeningShape) -> Opening {
    Opening {
        id: "W1".into(),
        kind: None,
        count: None,
        spacing: None,
        shape,
        from_left: typed("1000 mm"),
        sill: typed("800 mm"),
        frame: Some(Arc::new(Frame {
            from_outside: typed("100 mm"),
            depth: typed("50 mm"),
        })),
        outside: None,
        inside: None,
    }
}

fn window() -> Opening {
    opening(OpeningShape::Rectangle {
        width: typed("900 mm"),
        height: typed("1200 mm"),
    })
}

fn reveal(splay: &str, radius: Option<&str>) -> Arc<Reveal> {
    Arc::new(Reveal {
        plastered: vec![RevealPart::Ring],
        splay: Some(Box::new(Splay {
            ring: Some(typed(splay)),
            ..Splay::default()
        })),
        radius: radius.map(typed),
        lath: None,
    })
}

fn coat(name: &str, thickness: &str) -> Coat {
    Coat {
        coat: name.into(),
        thickness: typed(thickness),
        mix: "base".into(),
        shrinkage: None,
        loss: None,
        weather_finish: None,
    }
}

fn project(walls: Vec<Wall>) -> Project {
    let bale = Background {
        kind: BackgroundKind::StrawBale,
        dubbing_out: Some(typed("10 mm")),
    };
    let coats = vec![coat("scratch", "12 mm"), coat("finish", "8 mm")];
    Project {
        name: "Trial".into(),
        units: UnitSystem::Metric,
        measurement_rule: EcoString::new(),
        backgrounds: [("bale".into(), bale)].into_iter().collect(),
        materials: IndexMap::default(),
        mixes: IndexMap::default(),
        build_ups: [("thick".into(), coats)].into_iter().collect(),
        mixer: None,
        blends: IndexMap::default(),
        suppliers: IndexMap::default(),
        buying: None,
        options: crate::project::Named::default(),
        uncertain: Vec::new(),
        done: Vec::new(),
        delivered: Vec::new(),
        work: None,
        walls: walls.into_iter().map(Arc::new).collect(),
        note: None,
    }
}

fn of_role(drawing: &Drawing, role: Role) -> Vec<&[Point]> {
    let strokes = drawing.strokes.iter().filter(|s| s.role == role);
    strokes.map(|stroke| stroke.points.as_slice()).collect()
}

fn box_of(points: &[Point]) -> [f64; 4] {
    line::bounds(points).unwrap()
}

#[track_caller]
fn near(value: f64, expected: f64, slack: f64) {
    assert!((value - expected).abs() <= slack, "{value}, not {expected}");
}

#[track_caller]
fn same(found: [f64; 4], expected: [f64; 4]) {
    for (found, expected) in found.into_iter().zip(expected) {
        near(found, expected, 1e-9);
    }
}

/// International Correspondence Schools, The Building Trades Pocketbook, mensuration: chord 48, rise
/// 18; radius 25 and, exactly, arc 64.3501 and area 636.3764.
#[test]
fn an_arch_is_the_published_segment() {
    let shape = Shape::of(&OpeningShape::Arched {
        width: typed("48 mm"),
        springing: typed("0 mm"),
        rise: Some(typed("18 mm")),
        head: Some(ArchKind::Segmental),
    });
    let ring = shape.unwrap().ring(Out::default());
    near(line::doubled_area(&ring) / 2.0, 636.3764, 0.5);
    let sides = line::sides(&ring).map(|(a, b)| libm::hypot(b[0] - a[0], b[1] - a[1]));
    near(sides.sum::<f64>(), 64.3501 + 48.0, 0.05);
    for [u, v] in &ring {
        near(libm::hypot(u - 24.0, v + 7.0), 25.0, 1e-9);
    }
}

/// Tangent of 20° from a table of four places: 0.3640. Depth outside 100 mm, inside 300 mm.
#[test]
fn a_splay_opens_the_hole() {
    let mut there = window();
    there.outside = Some(reveal("20 deg", None));
    there.inside = Some(reveal("20 deg", None));
    let project = project(vec![wall(rectangle("4 m", "2.5 m"), vec![there])]);
    for (side, out) in [(Side::Outside, 36.40), (Side::Inside, 109.20)] {
        let drawing = face(&project, 0, side);
        let [left, bottom, right, top] = box_of(of_role(&drawing, Role::Hole)[0]);
        near(right - left, 900.0 + 2.0 * out, 0.02);
        near(top - bottom, 1200.0 + 2.0 * out, 0.02);
        let [left, bottom, right, top] = box_of(of_role(&drawing, Role::Frame)[0]);
        near(right - left, 900.0, 1e-9);
        near(top - bottom, 1200.0, 1e-9);
        near(bottom, 800.0, 1e-9);
    }
}

/// From inside, what is 1000 mm from the left end seen from outside is 1000 mm from the right, and the
/// figure still says so.
#[test]
fn the_inside_is_mirrored() {
    let project = project(vec![wall(rectangle("4 m", "2.5 m"), vec![window()])]);
    let inside = face(&project, 0, Side::Inside);
    let [left, _, right, _] = box_of(of_role(&inside, Role::Frame)[0]);
    near(left, 4000.0 - 1000.0 - 900.0, 1e-9);
    near(right, 3000.0, 1e-9);
    assert_eq!(inside.captions, ["seen from inside"]);
    let from_left = inside.dimensions.iter().find(|d| d.name == "from left");
    let from_left = from_left.unwrap();
    assert_eq!(from_left.text, "1.000 m");
    near(from_left.from[0], 4000.0, 1e-9);
    near(from_left.to[0], 3000.0, 1e-9);
    let outside = face(&project, 0, Side::Outside);
    assert!(outside.captions.is_empty());
}

/// A round wall of 2 m radius and 400 mm thick is 2π·1.6 m long inside; an opening keeps its width and
/// its place on the ray from the centre.
#[test]
fn a_curved_wall_is_developed() {
    let mut there = wall(
        WallShape::Curved {
            radius: typed("2 m"),
            sweep: Some(typed("360 deg")),
            length: None,
            height: typed("2.5 m"),
        },
        vec![window()],
    );
    there.thickness = typed("400 mm");
    let project = project(vec![there]);
    let inside = face(&project, 0, Side::Inside);
    let [left, _, right, _] = box_of(of_role(&inside, Role::Outline)[0]);
    near(right - left, core::f64::consts::TAU * 1600.0, 1e-6);
    let [l, _, r, _] = box_of(of_role(&inside, Role::Frame)[0]);
    near(r - l, 900.0, 1e-6);
    near(right - f64::midpoint(l, r), (1000.0 + 450.0) * 0.8, 1e-6);
    assert!(inside.captions.iter().any(|c| c.contains("drawn flat")));
}

#[test]
fn copies_corners_lath_and_pockets_are_drawn() {
    let mut three = window();
    three.count = Some(3);
    three.spacing = Some(typed("1.5 m"));
    three.outside = Some(Arc::new(Reveal {
        plastered: vec![RevealPart::Jambs, RevealPart::Head],
        splay: None,
        radius: Some(typed("25 mm")),
        lath: Some(typed("150 mm")),
    }));
    let mut there = wall(rectangle("8 m", "2.5 m"), vec![three]);
    there.ends = Arc::new([WallEnd {
        face: Side::Outside,
        end: End::Right,
        angle: CornerAngle::External,
        turn: None,
        radius: Some(typed("100 mm")),
        cove: None,
    }]);
    there.pockets = vec![Pocket {
        face: Side::Outside,
        width: typed("300 mm"),
        height: typed("250 mm"),
        depth: typed("50 mm"),
        count: Some(4),
    }];
    let drawing = face(&project(vec![there]), 0, Side::Outside);
    assert_eq!(of_role(&drawing, Role::Frame).len(), 3);
    assert_eq!(of_role(&drawing, Role::Lath).len(), 3);
    let pockets = of_role(&drawing, Role::Pocket);
    assert_eq!(pockets.len(), 4);
    for (one, next) in pockets.iter().zip(pockets.iter().skip(1)) {
        assert!(box_of(one)[2] < box_of(next)[0], "pockets overlap");
    }
    // Jambs and head: from sill to sill round the head, not closed. At a square edge the strip is as wide
    // as the radius.
    let rounded = of_role(&drawing, Role::Rounded);
    same(box_of(rounded[1]), [975.0, 800.0, 1925.0, 2025.0]);
    same(box_of(rounded[0]), [7900.0, 0.0, 7900.0, 2500.0]);
    let names = drawing.labels.iter().filter(|label| label.text == "W1");
    assert_eq!(names.clone().count(), 3);
    assert_eq!(names.filter(|label| label.names).count(), 1);
}

#[test]
fn a_plan_names_its_walls() {
    let ring = |from: f64, to: f64| vec![[from, from], [to, from], [to, to], [from, to]];
    let outline = PlanOutline {
        outer: ring(0.0, 6000.0),
        inner: ring(450.0, 5550.0),
        walls: vec![PlanWall {
            wall: 2,
            id: "S".into(),
            middle: [3000.0, 0.0],
            stretch: vec![[0.0, 0.0], [6000.0, 0.0]],
        }],
    };
    let drawing = plan(&outline, UnitSystem::Metric);
    assert_eq!(drawing.bounds, Some([0.0, 0.0, 6000.0, 6000.0]));
    let band = &drawing.fills[0].ring;
    near(
        line::doubled_area(band) / 2.0,
        6000.0 * 6000.0 - 5100.0 * 5100.0,
        1e-6,
    );
    assert_eq!(drawing.labels[0].of, Some(Subject::Wall(2)));
    assert_eq!(plan(&PlanOutline::default(), UnitSystem::Us).bounds, None);
}
