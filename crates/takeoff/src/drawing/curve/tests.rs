//! Axes with round numbers, and the curve where its values are. Not here: the values.

#![allow(clippy::unwrap_used, reason = "a failure is the message")]

use super::*;
use crate::compare::Line;
use crate::sweep::{Count, Limit, Scale};

fn sweep() -> Sweep {
    Sweep {
        label: "thickness".into(),
        of: "coat fill of inside".into(),
        scale: Scale::Thickness,
        xs: vec![0.0, 10.0, 20.0, 30.0, 40.0],
        present: Some(20.0),
        curves: vec![
            Curve {
                line: Line::AllPlaced,
                values: vec![None, Some(1e9), Some(2e9), Some(3e9), Some(4e9)],
                now: Some(2e9),
            },
            Curve {
                line: Line::Batches,
                values: vec![None, Some(1.0), Some(1.0), Some(2.0), Some(2.0)],
                now: Some(1.0),
            },
            Curve {
                line: Line::Cost,
                values: vec![None; 5],
                now: None,
            },
            Curve {
                line: Line::Surface,
                values: vec![None, Some(7e6), None, Some(7e6), Some(7e6)],
                now: None,
            },
        ],
        steps: vec![Step {
            of: Line::Batches,
            at: 25.0,
            before: Count::default(),
            after: Count::default(),
        }],
        dense: Vec::new(),
        limits: vec![Limit {
            at: 35.0,
            name: "most on bale".into(),
            words: "plaster of 50.8 mm in all at most".into(),
            source: Some("a code"),
            at_most: true,
        }],
        broken: vec![Limit {
            at: 45.0,
            name: "least on bale".into(),
            words: "plaster of 45 mm in all at least".into(),
            source: None,
            at_most: false,
        }],
    }
}

fn strokes(drawing: &Drawing, role: Role) -> Vec<&[Point]> {
    let of = drawing.strokes.iter().filter(|stroke| stroke.role == role);
    of.map(|stroke| stroke.points.as_slice()).collect()
}

fn texts(drawing: &Drawing) -> Vec<&str> {
    drawing
        .labels
        .iter()
        .map(|label| label.text.as_str())
        .collect()
}

/// 4 m³ up and 40 mm along are both 2000 by 1000 of the field; the curve is a straight line through them.
#[test]
fn the_curve_is_where_its_values_are() {
    let drawing = curve(&sweep(), 0, "plaster", UnitSystem::Metric);
    let lines = strokes(&drawing, Role::Outline);
    assert_eq!(
        lines,
        [&[
            [500.0, 250.0],
            [1000.0, 500.0],
            [1500.0, 750.0],
            [2000.0, 1000.0]
        ][..]]
    );
    // Where it stands, to the curve; the mark on it; and one more batch at 25 mm.
    let firm = strokes(&drawing, Role::Frame);
    assert!(firm.contains(&&[[1000.0, 0.0], [1000.0, 500.0]][..]));
    assert!(firm.contains(&&[[1250.0, 625.0 - MARK], [1250.0, 625.0 + MARK]][..]));
    assert_eq!(
        strokes(&drawing, Role::Plaster),
        [&[[1750.0, 0.0], [1750.0, 1000.0]][..]]
    );
    let texts = texts(&drawing);
    for words in [
        "0",
        "10",
        "40",
        "1",
        "4",
        "m³",
        "now 20.0 mm",
        "most on bale",
    ] {
        assert!(texts.contains(&words), "{words} in {texts:?}");
    }
    assert_eq!(
        drawing.captions[0],
        "plaster by thickness, coat fill of inside"
    );
    assert_eq!(drawing.captions[1], "up: m³, right: mm");
    assert_eq!(
        drawing.captions[2],
        "dashed at 35.0 mm: plaster of 50.8 mm in all at most; a code"
    );
    assert_eq!(
        drawing.captions[3],
        "all of this range is under: plaster of 45 mm in all at least"
    );
}

#[test]
fn counts_jump_where_the_step_is() {
    let drawing = curve(&sweep(), 1, "batches", UnitSystem::Metric);
    let lines = strokes(&drawing, Role::Outline);
    let [line] = lines.as_slice() else {
        panic!("{lines:?}");
    };
    assert_eq!(line[2..4], [[1250.0, 500.0], [1250.0, 1000.0]]);
    let up: Vec<&str> = drawing
        .labels
        .iter()
        .filter(|label| label.at[0] < 0.0)
        .map(|label| label.text.as_str())
        .collect();
    assert_eq!(up, ["0", "1", "2"]);
}

/// What is refused breaks the curve off, and one value alone is a cross.
#[test]
fn what_is_refused_breaks_the_curve_off() {
    let drawing = curve(&sweep(), 3, "surface", UnitSystem::Metric);
    assert_eq!(strokes(&drawing, Role::Outline).len(), 3);
    let none = curve(&sweep(), 2, "cost", UnitSystem::Metric);
    assert_eq!(none.captions, ["cost cannot be told at any value"]);
    assert!(none.bounds.is_none());
    assert!(curve(&sweep(), 9, "none", UnitSystem::Us).bounds.is_none());
}

fn marks(axis: &Axis) -> Vec<String> {
    axis.marks().map(|(_, words)| words.to_string()).collect()
}

#[test]
fn marks_stand_at_round_numbers() {
    let input =
        |scale: Scale, from, to, units| marks(&Axis::of_input(&scale, from, to, units).unwrap());
    let (us, metric) = (UnitSystem::Us, UnitSystem::Metric);
    assert_eq!(
        input(Scale::Thickness, 0.0, 50.8, us),
        [
            "0\"", "1/4\"", "1/2\"", "3/4\"", "1\"", "1 1/4\"", "1 1/2\"", "1 3/4\"", "2\""
        ]
    );
    assert_eq!(
        input(Scale::Thickness, 0.0, 50.0, metric),
        ["0", "10", "20", "30", "40", "50"]
    );
    assert_eq!(
        input(Scale::Length, 0.0, 12.0 * 304.8, us),
        ["0\"", "5'", "10'"]
    );
    assert_eq!(
        input(Scale::Share, 0.0, 0.3, metric),
        ["0", "5", "10", "15", "20", "25", "30"]
    );
    // 68 to 104 degrees Fahrenheit are 20 to 40 Celsius.
    assert_eq!(
        input(Scale::Temperature, 20.0, 40.0, us),
        ["70", "75", "80", "85", "90", "95", "100"]
    );
    let figure = |dimension, least, most, units| {
        marks(&Axis::of_figure(dimension, least, most, units).unwrap())
    };
    assert_eq!(
        figure(Dimension::Volume, 0.0, 3.1e9, metric),
        ["0", "1", "2", "3", "4"]
    );
    // Much alike: not from nothing.
    assert_eq!(
        figure(Dimension::Money, 4210.0, 4590.0, us),
        ["4,200", "4,300", "4,400", "4,500", "4,600"]
    );
    // A cubic yard is 764 554 857.984 mm³ (see the units).
    assert_eq!(
        figure(Dimension::Volume, 0.0, 2.0 * 764_554_857.984, us),
        ["0.0", "0.5", "1.0", "1.5", "2.0"]
    );
    assert_eq!(figure(Dimension::Count, 1.0, 3.0, us), ["0", "1", "2", "3"]);
    assert_eq!(figure(Dimension::Count, 3.0, 3.0, us), ["0", "1", "2", "3"]);
    assert_eq!(figure(Dimension::Mass, 0.0, 0.0, metric).len(), 6);
}

/// Ends, numbers of marks and places hold for any range that can be asked for.
#[test]
fn axes_of_any_size_stay_within_themselves() {
    let sizes: [f64; 10] = [
        5e-324, 1e-300, 1e-9, 0.3, 1.0, 7.0, 1e5, 1e12, 1e300, 1.7e308,
    ];
    for a in sizes {
        for b in sizes {
            for (from, to) in [(a.min(b), a.max(b)), (-a, b)] {
                for units in [UnitSystem::Us, UnitSystem::Metric] {
                    let input = Axis::of_input(&Scale::Thickness, from, to, units);
                    let figure = Axis::of_figure(Dimension::Mass, from, to, units);
                    for axis in input.iter().chain(&figure) {
                        let marks: Vec<_> = axis.marks().collect();
                        assert!(marks.len() <= 10, "{from} {to}");
                        let within = -1e-6..=1.0 + 1e-6;
                        assert!(
                            marks.iter().all(|(at, _)| within.contains(at)),
                            "{from} {to}"
                        );
                    }
                }
            }
        }
    }
}
