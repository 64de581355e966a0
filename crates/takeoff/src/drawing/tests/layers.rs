//! Sections and build-ups: layers to scale.

use super::{box_of, near, of_role, project, rectangle, reveal, wall, window};
use crate::drawing::{Cut, Drawing, Point, Role, build_up, line, section};

/// Where no face is cut by another the finished line lies everywhere as far from the background as the
/// layers are thick: 10 + 12 + 8 mm on the face and 12 + 8 in the reveal.
#[test]
fn plaster_is_to_scale_in_a_section() {
    for radius in [None, Some("40 mm")] {
        let mut there = window();
        there.inside = Some(reveal("25 deg", radius));
        let project = project(vec![wall(rectangle("4 m", "2.5 m"), vec![there])]);
        let drawing = section(&project, 0, Some(0), Cut::Level);
        let lines = of_role(&drawing, Role::Plaster);
        let grounds = of_role(&drawing, Role::Outline);
        // Two faces on each side of the opening.
        assert_eq!((lines.len(), grounds.len()), (4, 2));
        let inside = lines[1];
        near(box_of(inside)[3], 450.0 + 30.0, 1e-9);
        let frame = inside.last().unwrap();
        near(frame[1], 150.0, 1e-9);
        // 20 mm square to a reveal of 25° stand 20/cos 25° = 22.07 mm along the frame (cosine 0.9063).
        near(frame[0], 1000.0 + 22.07, 0.01);
        for place in inside {
            let off = distance(grounds[0], *place);
            assert!((19.99..=30.01).contains(&off) || radius.is_none(), "{off}");
        }
        let coats = drawing
            .fills
            .iter()
            .filter(|fill| fill.role == Role::Coat(1));
        assert_eq!(coats.count(), 4);
        let depths: Vec<&str> = drawing.dimensions.iter().map(|d| d.text.as_str()).collect();
        for depth in ["450.0 mm", "100.0 mm", "50.0 mm", "300.0 mm", "0.900 m"] {
            assert!(depths.contains(&depth), "{depth} in {depths:?}");
        }
        assert!(drawing.labels.iter().any(|label| label.text == "25.0°"));
    }
}

fn distance(line: &[Point], [u, v]: Point) -> f64 {
    let pieces = line.iter().zip(line.iter().skip(1));
    let distances = pieces.map(|(a, b)| {
        let run = [b[0] - a[0], b[1] - a[1]];
        let size = run[0] * run[0] + run[1] * run[1];
        let share = ((u - a[0]) * run[0] + (v - a[1]) * run[1]) / size.max(1e-12);
        let share = share.clamp(0.0, 1.0);
        libm::hypot(a[0] + run[0] * share - u, a[1] + run[1] * share - v)
    });
    distances.fold(f64::INFINITY, f64::min)
}

/// Outside at the bottom of a level section and on the left of an upright one, in their own words.
#[test]
fn a_section_says_which_side_is_which() {
    let project = project(vec![wall(rectangle("4 m", "2.5 m"), vec![window()])]);
    for (cut, axis) in [(Cut::Level, 1), (Cut::Upright, 0)] {
        for opening in [None, Some(0), Some(7)] {
            let drawing = section(&project, 0, opening, cut);
            let at = |text: &str| {
                let label = drawing.labels.iter().find(|label| label.text == text);
                label.unwrap().at[axis]
            };
            assert!(at("outside") < 0.0 && at("inside") > 450.0);
        }
    }
}

/// Bands are as thick as their coats, and the hollows hold the dubbing out in the mean.
#[test]
fn a_build_up_is_to_scale() {
    let project = project(vec![wall(rectangle("4 m", "2.5 m"), Vec::new())]);
    let drawing = build_up(&project, 0);
    let band = |role| drawing.fills.iter().find(|fill| fill.role == role).unwrap();
    for (number, thick) in [(0, 12.0), (1, 8.0)] {
        let [_, bottom, _, top] = box_of(&band(Role::Coat(number)).ring);
        near(top - bottom, thick, 1e-9);
    }
    let hollows = &band(Role::DubbingOut).ring;
    let [left, _, right, _] = box_of(hollows);
    let mean = line::doubled_area(hollows).abs() / 2.0 / (right - left);
    near(mean, 10.0, 0.01);
    let words: Vec<&str> = drawing.labels.iter().map(|l| l.text.as_str()).collect();
    assert_eq!(
        words,
        [
            "bale",
            "dubbing out 10.0 mm",
            "scratch 12.0 mm",
            "finish 8.0 mm"
        ]
    );
    assert_eq!(build_up(&project, 1), Drawing::default());
}
