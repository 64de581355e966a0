//! Numbers that make no line.

use super::{
    box_of, coat, near, of_role, opening, project, rectangle, reveal, typed, wall, window,
};
use crate::drawing::{Cut, Drawing, Role, build_up, face, section};
use crate::project::{Frame, Inset, OpeningShape, Side, WallShape};
use std::sync::Arc;

/// Numbers that make no line make none: whatever is typed, every point is finite, and what can be drawn
/// of the rest is.
#[test]
fn odd_numbers_draw_what_they_can() {
    let texts = [
        "0 mm",
        "-250 mm",
        "0.001 mm",
        "900 mm",
        "9000000 m",
        "99999999999 m",
    ];
    for a in texts {
        for b in texts {
            for c in texts {
                check_odd(a, b, c);
            }
        }
    }
}

fn check_odd(a: &str, b: &str, c: &str) {
    let shapes = [
        rectangle(a, b),
        WallShape::Gable {
            length: typed(a),
            eaves: typed(b),
            ridge: typed(c),
            ridge_from_left: Some(typed(b)),
        },
        WallShape::Raked {
            length: typed(a),
            left: typed(b),
            right: typed(c),
        },
        WallShape::Polygon {
            corners: vec![
                [typed(a), typed(b)],
                [typed(c), typed(a)],
                [typed(b), typed(c)],
            ],
        },
        WallShape::Curved {
            radius: typed(a),
            sweep: None,
            length: Some(typed(b)),
            height: typed(c),
        },
    ];
    let openings = [
        OpeningShape::Rectangle {
            width: typed(a),
            height: typed(b),
        },
        OpeningShape::Arched {
            width: typed(a),
            springing: typed(b),
            rise: Some(typed(c)),
            head: None,
        },
        OpeningShape::Circle { diameter: typed(c) },
        OpeningShape::Polygon {
            corners: vec![
                [typed(a), typed(b)],
                [typed(c), typed(a)],
                [typed(b), typed(c)],
            ],
        },
    ];
    for shape in shapes {
        let openings = openings.iter().map(|shape| {
            let mut there = opening(shape.clone());
            there.from_left = typed(b);
            there.sill = typed(c);
            there.count = Some(u32::MAX);
            there.spacing = Some(typed(a));
            there.frame = Some(Arc::new(Frame {
                from_outside: typed(b),
                depth: typed(c),
            }));
            there.inside = Some(reveal("89.9 deg", Some(a)));
            there.outside = Some(reveal("-20 deg", Some(b)));
            there
        });
        let mut there = wall(shape, openings.collect());
        there.thickness = typed(c);
        if let Some(face) = &mut there.inside {
            face.inset = Some(Arc::new(Inset {
                left: Some(typed(a)),
                right: Some(typed(b)),
                top: Some(typed(c)),
                bottom: Some(typed(b)),
                ceiling: Some(typed(a)),
            }));
        }
        let mut project = project(vec![there]);
        project
            .build_ups
            .insert("odd".into(), vec![coat("one", a), coat("two", b)]);
        let mut drawings = vec![build_up(&project, 1)];
        for side in [Side::Outside, Side::Inside] {
            drawings.push(face(&project, 0, side));
        }
        for cut in [Cut::Level, Cut::Upright] {
            for number in 0..4 {
                drawings.push(section(&project, 0, Some(number), cut));
            }
        }
        for drawing in &drawings {
            is_sound(drawing, [a, b, c]);
        }
    }
}

fn is_sound(drawing: &Drawing, typed: [&str; 3]) {
    let lines = drawing.strokes.iter().flat_map(|stroke| &stroke.points);
    let areas = drawing.fills.iter().flat_map(|fill| &fill.ring);
    let labels = drawing.labels.iter().map(|label| &label.at);
    let ends = drawing.dimensions.iter().flat_map(|d| [&d.from, &d.to]);
    let mut points = lines.chain(areas).chain(labels).chain(ends);
    assert!(
        points.all(|p| p[0].is_finite() && p[1].is_finite()),
        "{typed:?}"
    );
    if let Some([left, bottom, right, top]) = drawing.bounds {
        assert!(left <= right && bottom <= top, "{typed:?}: {drawing:?}");
    }
    assert!(drawing.strokes.iter().all(|stroke| stroke.points.len() > 1));
}

/// A slip of the finger does not shrink the wall to a dot.
#[test]
fn one_slip_leaves_the_rest_to_be_seen() {
    let mut far = window();
    far.from_left = typed("1000 m");
    let drawing = face(
        &project(vec![wall(rectangle("4 m", "2.5 m"), vec![far])]),
        0,
        Side::Outside,
    );
    let [left, bottom, right, top] = drawing.bounds.unwrap();
    assert!(left <= 0.0 && bottom <= 0.0 && right <= 6000.0 && top <= 4500.0);
    // And the opening is there, beyond.
    near(
        box_of(of_role(&drawing, Role::Frame)[0])[0],
        1_000_000.0,
        1e-6,
    );
}

#[test]
fn a_wall_without_an_outline_says_so() {
    let project = project(vec![wall(rectangle("0 mm", "2.5 m"), Vec::new())]);
    let drawing = face(&project, 0, Side::Outside);
    assert_eq!(drawing.bounds, None);
    assert_eq!(drawing.captions, ["the sizes of the wall make no outline"]);
    assert_eq!(face(&project, 9, Side::Inside), Drawing::default());
}
