//! Short ways to build walls, openings and reveals, and strategies that draw them.
//!
//! No test stands here.

use hodful_geometry::*;
use proptest::prelude::*;

/// Thickness of every wall drawn, in millimetres.
pub(crate) const THICKNESS: f64 = 450.0;

pub(crate) fn rectangle(length: f64, height: f64) -> Outline {
    Outline::new(OutlineShape::Rectangle { length, height }).unwrap()
}

pub(crate) fn plain(outline: &Outline) -> FaceOutline {
    outline
        .face(Side::Outside, THICKNESS, &Inset::default())
        .unwrap()
}

/// An opening with 100 mm of reveal outside and 250 mm inside, reveal number 0 on both sides.
pub(crate) fn opening(shape: OpeningShape, from_left: f64, sill: f64) -> Opening {
    Opening::new(spec(shape, from_left, sill)).unwrap()
}

pub(crate) fn spec(shape: OpeningShape, from_left: f64, sill: f64) -> OpeningSpec {
    OpeningSpec {
        shape,
        from_left,
        sill,
        from_outside: 100.0,
        frame_depth: 100.0,
        count: 1,
        spacing: None,
        reveals: [RevealIndex::new(0), RevealIndex::new(0)],
    }
}

pub(crate) fn square(width: f64, height: f64) -> OpeningShape {
    OpeningShape::Rectangle { width, height }
}

pub(crate) fn upright(splay: Splay, radius: f64) -> Reveal {
    Reveal::new(RevealSpec {
        plastered: Parts {
            jambs: true,
            head: true,
            sill: true,
            ring: false,
        },
        splay,
        radius,
        lath: 150.0,
    })
    .unwrap()
}

pub(crate) fn ring(splay: f64, radius: f64) -> Reveal {
    Reveal::new(RevealSpec {
        plastered: Parts {
            ring: true,
            ..Parts::default()
        },
        splay: Splay {
            ring: splay,
            ..Splay::default()
        },
        radius,
        lath: 150.0,
    })
    .unwrap()
}

pub(crate) fn measure(face: &FaceOutline, openings: &[Opening], reveals: &[Reveal]) -> FaceMeasure {
    measure_face(
        face,
        Side::Outside,
        THICKNESS,
        openings,
        reveals,
        &[],
        &mut Silent,
    )
}

/// What is said while a face is measured.
pub(crate) fn remarks(face: &FaceOutline, openings: &[Opening], reveals: &[Reveal]) -> Remarks {
    let mut remarks = Remarks::default();
    measure_face(
        face,
        Side::Outside,
        THICKNESS,
        openings,
        reveals,
        &[],
        &mut remarks,
    );
    remarks
}

pub(crate) fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs()).max(1.0)
}

/// All figures of a measure, by name.
pub(crate) fn figures(m: &FaceMeasure) -> [(&'static str, f64); 11] {
    [
        ("outline", m.outline),
        ("openings", m.openings),
        ("overlap", m.overlap),
        ("frame_openings", m.frame_openings),
        ("strips", m.strips),
        ("field", m.field),
        ("reveals", m.reveals),
        ("edges", m.edges),
        ("edge_length", m.edge_length),
        ("lath", m.lath),
        ("growth", m.growth),
    ]
}

/// Holds two measures against each other; the slack is relative to the face's area, or its square root for lengths.
pub(crate) fn assert_alike(a: &FaceMeasure, b: &FaceMeasure, relative: f64) {
    for ((name, x), (_, y)) in figures(a).into_iter().zip(figures(b)) {
        let scale = match name {
            "edge_length" | "growth" => a.outline.sqrt() * 10.0,
            _ => a.outline,
        };
        assert!(
            (x - y).abs() <= relative * scale,
            "{name}: {x} and {y} differ by {}",
            x - y
        );
    }
}

/// A shape of a wall about 4 to 12 m long and 2 to 6 m high.
pub(crate) fn outline_shape() -> impl Strategy<Value = OutlineShape> {
    let length = 4000.0..12_000.0_f64;
    prop_oneof![
        (length.clone(), 2000.0..6000.0)
            .prop_map(|(length, height)| OutlineShape::Rectangle { length, height }),
        (length.clone(), 0.0..4000.0, 0.0..3000.0, 0.0..=1.0).prop_map(
            |(length, eaves, more, at)| OutlineShape::Gable {
                length,
                eaves,
                ridge: eaves + more + 10.0,
                ridge_from_left: at * length,
            }
        ),
        (length.clone(), 0.0..5000.0, 100.0..5000.0).prop_map(|(length, left, right)| {
            OutlineShape::Raked {
                length,
                left,
                right,
            }
        }),
        (2000.0..5000.0, 0.5..6.2, 2000.0..4000.0).prop_map(|(radius, sweep, height)| {
            OutlineShape::Curved {
                radius,
                extent: Extent::Sweep(sweep),
                height,
            }
        }),
        (length, 2000.0..4000.0, 0.2..0.8, 0.2..0.9).prop_map(|(l, h, s, t)| {
            // A wall with a step in its top and a low part at one end.
            OutlineShape::Polygon {
                corners: vec![
                    [0.0, 0.0],
                    [l, 0.0],
                    [l, h * t],
                    [l * s, h * t],
                    [l * s, h],
                    [0.0, h],
                ],
            }
        }),
    ]
}

/// A shape of an opening that fits a box of that size with room to spare, and whether its reveal is a ring.
pub(crate) fn opening_shape(
    width: f64,
    height: f64,
) -> impl Strategy<Value = (OpeningShape, bool)> {
    let part = 0.3..0.7_f64;
    prop_oneof![
        (part.clone(), part.clone()).prop_map(move |(w, h)| (square(w * width, h * height), false)),
        (part.clone(), 0.0..0.4_f64, 0.05..1.0_f64).prop_map(move |(w, s, r)| {
            let width = (w * width).min(height * 0.6);
            let head = ArchHead::Segmental {
                rise: r * width / 2.0,
            };
            let springing = s * height;
            (
                OpeningShape::Arched {
                    width,
                    springing,
                    head,
                },
                false,
            )
        }),
        (part.clone(), 0.0..0.4_f64).prop_map(move |(w, s)| {
            let width = (w * width).min(height * 0.6);
            (
                OpeningShape::Arched {
                    width,
                    springing: s * height,
                    head: ArchHead::Semicircular,
                },
                false,
            )
        }),
        (part.clone(), 0.0..0.3_f64, 0.05..0.4_f64).prop_map(move |(w, s, r)| {
            (
                OpeningShape::Arched {
                    width: w * width,
                    springing: s * height,
                    head: ArchHead::Elliptical { rise: r * height },
                },
                false,
            )
        }),
        part.clone().prop_map(move |d| {
            (
                OpeningShape::Circle {
                    diameter: d * width.min(height),
                },
                true,
            )
        }),
        (part.clone(), part, 0.2..0.8_f64).prop_map(move |(w, h, t)| {
            let (w, h) = (w * width, h * height);
            // Five corners, one of them re-entrant.
            (
                OpeningShape::Polygon {
                    corners: vec![
                        [0.0, 0.0],
                        [w, 0.0],
                        [w, h],
                        [w * 0.5, h * t],
                        [0.0, h * 0.9],
                    ],
                },
                true,
            )
        }),
    ]
}

/// Reveals 0 (upright parts) and 1 (ring) with splays that suit every opening drawn here.
pub(crate) fn two_reveals() -> impl Strategy<Value = Vec<Reveal>> {
    (0.0..0.3_f64, 0.0..0.3_f64, 0.0..0.3_f64, prop::bool::ANY).prop_map(
        |(jambs, more, sill, rounded)| {
            let radius = if rounded { 15.0 } else { 0.0 };
            let splay = Splay {
                jambs,
                head: jambs + more,
                sill,
                ring: 0.0,
            };
            vec![upright(splay, radius), ring(sill, radius)]
        },
    )
}

/// An opening anywhere in reach of a wall, apart from nothing.
pub(crate) fn scattered() -> impl Strategy<Value = Opening> {
    (
        opening_shape(2500.0, 2500.0),
        0.0..9000.0_f64,
        0.0..3500.0_f64,
    )
        .prop_map(|((shape, ringed), from_left, sill)| {
            let reveal = RevealIndex::new(usize::from(ringed));
            Opening::new(OpeningSpec {
                reveals: [reveal, reveal],
                ..spec(shape, from_left, sill)
            })
            .unwrap()
        })
}

/// Openings in a row of cells of 1.2 by 1.6 m: inside every wall drawn whose cells fit, and apart.
pub(crate) fn in_cells() -> impl Strategy<Value = Vec<Opening>> {
    cells().prop_map(|specs| {
        specs
            .into_iter()
            .map(|s| Opening::new(s).unwrap())
            .collect()
    })
}

/// The same, as typed.
pub(crate) fn cells() -> impl Strategy<Value = Vec<OpeningSpec>> {
    let cell = (
        opening_shape(1000.0, 1200.0),
        100.0..150.0_f64,
        100.0..150.0_f64,
    );
    prop::collection::vec(cell, 1..4).prop_map(|cells| {
        cells
            .into_iter()
            .enumerate()
            .map(|(i, ((shape, ringed), u, v))| {
                let reveal = RevealIndex::new(usize::from(ringed));
                let left = 1200.0 * f64::from(u32::try_from(i).unwrap());
                OpeningSpec {
                    reveals: [reveal, reveal],
                    ..spec(shape, left + u, v)
                }
            })
            .collect()
    })
}
