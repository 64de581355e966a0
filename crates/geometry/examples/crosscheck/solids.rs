//! Named solids whose plaster layers have a volume that can be built as a mesh.
//!
//! Each is a list of faces; what the solid looks like between them is known to the script that builds the mesh.

use crate::wall::Wall;
use core::f64::consts::{FRAC_PI_2, FRAC_PI_3, PI, TAU};
use hodful_geometry::{
    Angle, ArchHead, End, EndSpec, Extent, Inset, OpeningShape, OpeningSpec, OutlineShape, Parts,
    RevealIndex, RevealSpec, Side, Splay,
};

/// A solid, the faces that bound it, and the layers asked for as offset and thickness in millimetres.
#[derive(Debug)]
pub(crate) struct Solid {
    pub(crate) name: &'static str,
    pub(crate) walls: Vec<Wall>,
    pub(crate) layers: Vec<[f64; 2]>,
}

const DEGREE: f64 = PI / 180.0;

/// Every solid.
pub(crate) fn all() -> Vec<Solid> {
    let mut solids = corners();
    solids.extend(towers());
    solids.extend(windows());
    solids.extend(doors());
    solids
}

fn solid(name: &'static str, walls: Vec<Wall>) -> Solid {
    Solid {
        name,
        walls,
        layers: vec![[0.0, 12.0], [12.0, 20.0], [32.0, 4.0]],
    }
}

fn plain(shape: OutlineShape) -> Wall {
    Wall {
        shape,
        thickness: 450.0,
        side: Side::Outside,
        inset: Inset::default(),
        openings: Vec::new(),
        reveals: Vec::new(),
        ends: Vec::new(),
    }
}

fn rectangle(length: f64, height: f64) -> Wall {
    plain(OutlineShape::Rectangle { length, height })
}

/// Two faces of 4 m and 3 m, 2.5 m high, that meet at an angle entered on the first.
fn corner(name: &'static str, angle: Angle, turn: f64) -> Solid {
    let mut first = rectangle(4000.0, 2500.0);
    first.ends.push(EndSpec {
        end: End::Right,
        angle,
        turn,
    });
    solid(name, vec![first, rectangle(3000.0, 2500.0)])
}

fn corners() -> Vec<Solid> {
    let external = |radius| Angle::External { radius };
    let internal = |cove| Angle::Internal { cove };
    vec![
        corner("external corner, sharp", external(0.0), FRAC_PI_2),
        corner("external corner, rounded", external(100.0), FRAC_PI_2),
        corner(
            "external corner, 70 degrees, sharp",
            external(0.0),
            70.0 * DEGREE,
        ),
        corner(
            "external corner, 120 degrees, rounded",
            external(60.0),
            120.0 * DEGREE,
        ),
        corner("internal angle, square", internal(0.0), FRAC_PI_2),
        corner("internal angle, coved", internal(50.0), FRAC_PI_2),
        corner(
            "internal angle, 60 degrees, coved",
            internal(80.0),
            FRAC_PI_3,
        ),
    ]
}

fn towers() -> Vec<Solid> {
    let curved = |sweep| {
        plain(OutlineShape::Curved {
            radius: 2000.0,
            extent: Extent::Sweep(sweep),
            height: 2500.0,
        })
    };
    let inside = |wall: Wall| Wall {
        side: Side::Inside,
        ..wall
    };
    vec![
        solid("round tower, outside", vec![curved(TAU)]),
        solid("round tower, inside", vec![inside(curved(TAU))]),
        solid("quarter of a tower, outside", vec![curved(FRAC_PI_2)]),
    ]
}

const ALL_ROUND: Parts = Parts {
    jambs: true,
    head: true,
    sill: true,
    ring: false,
};

fn square_reveal(plastered: Parts, radius: f64) -> RevealSpec {
    RevealSpec {
        plastered,
        splay: Splay::default(),
        radius,
        lath: 0.0,
    }
}

/// One opening in a wall of 3 by 2.5 m and 450 mm, its frame 80 mm deep and 120 mm behind the outside.
fn pierced(shape: OpeningShape, sill: f64, reveal: RevealSpec, side: Side) -> Wall {
    let first = RevealIndex::new(0);
    Wall {
        side,
        openings: vec![OpeningSpec {
            shape,
            from_left: 900.0,
            sill,
            from_outside: 120.0,
            frame_depth: 80.0,
            count: 1,
            spacing: None,
            reveals: [first, first],
        }],
        reveals: vec![reveal],
        ..rectangle(3000.0, 2500.0)
    }
}

fn windows() -> Vec<Solid> {
    let square = || OpeningShape::Rectangle {
        width: 1000.0,
        height: 1000.0,
    };
    let tall = || OpeningShape::Rectangle {
        width: 900.0,
        height: 1200.0,
    };
    let out = |shape, reveal| vec![pierced(shape, 700.0, reveal, Side::Outside)];
    let splayed = |plastered, jambs, head, sill| RevealSpec {
        splay: Splay {
            jambs,
            head,
            sill,
            ring: 0.0,
        },
        ..square_reveal(plastered, 0.0)
    };
    let jambs_alone = Parts {
        jambs: true,
        ..Parts::default()
    };
    let ring = |angle| RevealSpec {
        splay: Splay {
            ring: angle,
            ..Splay::default()
        },
        ..square_reveal(
            Parts {
                ring: true,
                ..Parts::default()
            },
            0.0,
        )
    };
    let star = OpeningShape::Polygon {
        corners: vec![
            [0.0, 200.0],
            [500.0, 0.0],
            [1000.0, 200.0],
            [650.0, 500.0],
            [1000.0, 900.0],
            [100.0, 900.0],
        ],
    };
    vec![
        solid(
            "square window, both sides",
            [Side::Outside, Side::Inside]
                .map(|side| pierced(square(), 700.0, square_reveal(ALL_ROUND, 0.0), side))
                .into(),
        ),
        solid(
            "window, rounded edges",
            out(tall(), square_reveal(ALL_ROUND, 40.0)),
        ),
        solid(
            "window, jambs splayed to 70 degrees",
            out(tall(), splayed(jambs_alone, 20.0 * DEGREE, 0.0, 0.0)),
        ),
        solid(
            "window, splayed three ways",
            out(
                tall(),
                splayed(ALL_ROUND, 20.0 * DEGREE, 10.0 * DEGREE, 30.0 * DEGREE),
            ),
        ),
        solid(
            "round window, square reveal",
            out(OpeningShape::Circle { diameter: 800.0 }, ring(0.0)),
        ),
        solid(
            "round window, splayed",
            out(
                OpeningShape::Circle { diameter: 800.0 },
                ring(25.0 * DEGREE),
            ),
        ),
        solid("window of six corners", out(star, ring(0.0))),
    ]
}

fn doors() -> Vec<Solid> {
    let arched = |head| OpeningShape::Arched {
        width: 900.0,
        springing: 1400.0,
        head,
    };
    let no_sill = Parts {
        sill: false,
        ..ALL_ROUND
    };
    let out = |head| {
        vec![pierced(
            arched(head),
            0.0,
            square_reveal(no_sill, 0.0),
            Side::Outside,
        )]
    };
    vec![
        solid("arched door, semicircular", out(ArchHead::Semicircular)),
        solid(
            "arched door, segmental",
            out(ArchHead::Segmental { rise: 200.0 }),
        ),
    ]
}
