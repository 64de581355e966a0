//! Lines as they are drawn against the closed forms of the geometry of walls.

use super::{near, typed, wall};
use crate::drawing::line;
use crate::drawing::opening::{Lines, Lining, Shape};
use crate::drawing::outline;
use crate::project::{ArchKind, Inset, OpeningShape, Side, WallShape};
use hodful_geometry as geometry;

/// Area of the hole by the closed forms of the geometry, mm².
fn measured(shape: geometry::OpeningShape, depth: f64, splay: f64) -> f64 {
    let index = geometry::RevealIndex::new(0);
    let reveal = geometry::Reveal::new(geometry::RevealSpec {
        plastered: geometry::Parts {
            ring: true,
            ..geometry::Parts::default()
        },
        splay: geometry::Splay {
            ring: splay,
            ..geometry::Splay::default()
        },
        ..geometry::RevealSpec::default()
    });
    let opening = geometry::Opening::new(geometry::OpeningSpec {
        shape,
        from_left: 3000.0,
        sill: 2000.0,
        from_outside: depth,
        frame_depth: 0.0,
        count: 1,
        spacing: None,
        reveals: [index, None],
    });
    let outline = geometry::Outline::new(geometry::OutlineShape::Rectangle {
        length: 9000.0,
        height: 6000.0,
    });
    let side = geometry::Side::Outside;
    let inset = geometry::Inset::default();
    let face = outline.unwrap().face(side, depth, &inset).unwrap();
    let (openings, reveals) = ([opening.unwrap()], [reveal.unwrap()]);
    let mut silent = geometry::Silent;
    geometry::measure_face(&face, side, depth, &openings, &reveals, &[], &mut silent).openings
}

/// Holes as they are drawn have the area that the closed forms of the geometry give, within what
/// chords for arcs leave out.
#[test]
fn holes_agree_with_the_measure() {
    let corners = [[0.0, 0.0], [900.0, 0.0], [400.0, 700.0]];
    let arched = |rise: &str, head, geometry| {
        let typed = OpeningShape::Arched {
            width: typed("900 mm"),
            springing: typed("1000 mm"),
            rise: Some(typed(rise)),
            head: Some(head),
        };
        let measured = geometry::OpeningShape::Arched {
            width: 900.0,
            springing: 1000.0,
            head: geometry,
        };
        (typed, measured)
    };
    let shapes = [
        (
            OpeningShape::Circle {
                diameter: typed("900 mm"),
            },
            geometry::OpeningShape::Circle { diameter: 900.0 },
        ),
        (
            OpeningShape::Polygon {
                corners: corners
                    .map(|corner| corner.map(|n: f64| typed(&format!("{n} mm"))))
                    .to_vec(),
            },
            geometry::OpeningShape::Polygon {
                corners: corners.to_vec(),
            },
        ),
        (
            OpeningShape::Rectangle {
                width: typed("900 mm"),
                height: typed("1200 mm"),
            },
            geometry::OpeningShape::Rectangle {
                width: 900.0,
                height: 1200.0,
            },
        ),
        arched(
            "200 mm",
            ArchKind::Segmental,
            geometry::ArchHead::Segmental { rise: 200.0 },
        ),
        arched(
            "450 mm",
            ArchKind::Semicircular,
            geometry::ArchHead::Semicircular,
        ),
        arched(
            "300 mm",
            ArchKind::Elliptical,
            geometry::ArchHead::Elliptical { rise: 300.0 },
        ),
    ];
    for (as_typed, in_numbers) in shapes {
        for degrees in [0.0_f64, 12.0, 30.0] {
            let lining = Lining {
                depth: 200.0,
                splay: [degrees.to_radians(); 4],
                plastered: [true; 4],
                ..Lining::default()
            };
            let lines = Lines::of(&Shape::of(&as_typed).unwrap(), &lining);
            assert_eq!(lines.hole.is_some(), degrees > 0.0);
            let hole = lines.hole.unwrap_or(lines.frame);
            let drawn = line::doubled_area(&hole) / 2.0;
            let measured = measured(in_numbers.clone(), 200.0, degrees.to_radians());
            near(drawn / measured, 1.0, 0.001);
        }
    }
}

/// What is left of an outline after its insets has the area that the closed forms give.
#[test]
fn insets_agree_with_the_measure() {
    let shapes = [
        geometry::OutlineShape::Rectangle {
            length: 6000.0,
            height: 3000.0,
        },
        geometry::OutlineShape::Gable {
            length: 6000.0,
            eaves: 2400.0,
            ridge: 4400.0,
            ridge_from_left: 2500.0,
        },
        geometry::OutlineShape::Gable {
            length: 6000.0,
            eaves: 0.0,
            ridge: 4400.0,
            ridge_from_left: 2500.0,
        },
        geometry::OutlineShape::Raked {
            length: 6000.0,
            left: 3000.0,
            right: 1800.0,
        },
    ];
    let mm = |n: f64| typed(&format!("{n} mm"));
    let mut tried = 0;
    for shape in shapes {
        let as_typed = match shape {
            geometry::OutlineShape::Rectangle { length, height } => WallShape::Rectangle {
                length: mm(length),
                height: mm(height),
            },
            geometry::OutlineShape::Raked {
                length,
                left,
                right,
            } => WallShape::Raked {
                length: mm(length),
                left: mm(left),
                right: mm(right),
            },
            geometry::OutlineShape::Gable {
                length,
                eaves,
                ridge,
                ridge_from_left,
            } => WallShape::Gable {
                length: mm(length),
                eaves: mm(eaves),
                ridge: mm(ridge),
                ridge_from_left: Some(mm(ridge_from_left)),
            },
            _ => continue,
        };
        let ring = outline::of_wall(&wall(as_typed, Vec::new()), Side::Inside).unwrap();
        for [left, right, top, bottom] in [
            [0.0, 0.0, 0.0, 0.0],
            [450.0, 300.0, 120.0, 50.0],
            [0.0, 900.0, 1500.0, 700.0],
            [2600.0, 0.0, 0.0, 0.0],
        ] {
            for ceiling in [None, Some(2000.0), Some(3100.0)] {
                let plain = geometry::Inset {
                    left,
                    right,
                    top,
                    bottom,
                };
                let given = Inset {
                    left: Some(mm(left)),
                    right: Some(mm(right)),
                    top: Some(mm(top)),
                    bottom: Some(mm(bottom)),
                    ceiling: ceiling.map(mm),
                };
                let outline = geometry::Outline::new(shape.clone()).unwrap();
                let outline = ceiling.map_or(outline.clone(), |at| outline.under(at).unwrap());
                let measured = outline
                    .face(geometry::Side::Inside, 450.0, &plain)
                    .map_or(0.0, |face| face.area());
                let drawn = line::doubled_area(&outline::inset(&ring.ring, &given)) / 2.0;
                near(drawn, measured, 0.5);
                tried += 1;
            }
        }
    }
    assert_eq!(tried, 48);
}
