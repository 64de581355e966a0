//! Random faces from a seeded generator: every outline, every opening, splays, insets, repeats, overlaps and cuts.
//!
//! The number of a face decides what it must show: outline, side, kinds of opening, and whether its openings are whole or cut,
//! apart or overlapping. Everything else is drawn, and drawn again until the face shows it and nothing on it is refused.

use crate::wall::{Measured, Wall};
use core::f64::consts::{PI, TAU};
use hodful_geometry::{
    Angle, ArchHead, Bounds, End, EndSpec, Extent, Inset, OpeningShape, OpeningSpec, OutlineShape,
    Parts, RevealIndex, RevealSpec, Side, Splay,
};
use rand::seq::IndexedRandom;
use rand::{Rng, RngExt};

/// Tries for one opening before the face is begun anew.
const TRIES: u32 = 40;

/// What the openings of a face must be and do.
#[derive(Clone, Copy, Debug)]
struct Manner {
    cut: bool,
    overlapping: bool,
    kinds: &'static [Kind],
}

#[derive(Clone, Copy, Debug)]
enum Kind {
    Rectangle,
    Segmental,
    Semicircular,
    Elliptical,
    Circle,
    Polygon,
}

const EVERY_KIND: &[Kind] = &[
    Kind::Rectangle,
    Kind::Segmental,
    Kind::Semicircular,
    Kind::Elliptical,
    Kind::Circle,
    Kind::Polygon,
];

/// Face number `number` of a run. The same generator in the same state gives the same face.
pub(crate) fn face(number: u32, random: &mut impl Rng) -> Wall {
    let manner = Manner {
        cut: number & 1 == 1,
        overlapping: number & 2 == 2,
        kinds: match number / 48 % 4 {
            0 => &[Kind::Rectangle],
            1 => &[Kind::Rectangle, Kind::Polygon],
            _ => EVERY_KIND,
        },
    };
    let side = if number & 4 == 4 {
        Side::Inside
    } else {
        Side::Outside
    };
    loop {
        if let Some(wall) = attempt(number / 8, side, manner, random) {
            return wall;
        }
    }
}

fn attempt(shape: u32, side: Side, manner: Manner, random: &mut impl Rng) -> Option<Wall> {
    let mut wall = Wall {
        shape: outline(shape, random),
        thickness: random.random_range(250.0..600.0),
        side,
        inset: inset(manner, random),
        openings: Vec::new(),
        reveals: Vec::new(),
        ends: Vec::new(),
    };
    let bounds = wall.outline().ok()?.bounds();
    if bounds.width() < 1500.0 || bounds.height() < 1000.0 {
        return None;
    }
    for _ in 0..random.random_range(0..3) {
        wall.ends.push(end(random));
    }
    let least = if manner.overlapping { 2 } else { 1 };
    let wanted = random.random_range(least..6);
    for place in 0..wanted {
        let kind = *manner.kinds.choose(random)?;
        add_opening(&mut wall, kind, place, &bounds, manner, random);
    }
    let measured = wall.measure().ok()?;
    shows(&wall, &measured, manner).then_some(wall)
}

/// Adds one opening that keeps to the manner, when a few tries find one.
fn add_opening(
    wall: &mut Wall,
    kind: Kind,
    place: usize,
    bounds: &Bounds,
    manner: Manner,
    random: &mut impl Rng,
) {
    for _ in 0..TRIES {
        let mut next = wall.clone();
        let index = RevealIndex::new(next.reveals.len());
        let ringed = matches!(kind, Kind::Circle | Kind::Polygon);
        let mut spec = opening(kind, bounds, wall, random);
        if random.random_bool(0.9) {
            let door = spec.sill <= 0.0;
            let reveal = reveal(ringed, door, random);
            next.reveals.push(reveal);
            spec.reveals = [index, index];
        }
        if manner.overlapping && place > 0 && random.random_bool(0.7) {
            lay_over(&mut spec, wall, random);
        }
        next.openings.push(spec);
        let Ok(measured) = next.measure() else {
            continue;
        };
        let heard = &measured.heard;
        let whole = heard.openings.iter().all(|(_, m)| m.whole);
        if heard.refusals == 0
            && (manner.cut || whole)
            && (manner.overlapping || heard.overlaps == 0)
        {
            *wall = next;
            return;
        }
    }
}

/// Whether a face shows what it must.
fn shows(wall: &Wall, measured: &Measured, manner: Manner) -> bool {
    let Measured { total, heard } = measured;
    let net = total.outline - total.openings;
    let overlapping = heard.overlaps > 0 && total.overlap > 0.005 * net;
    let cut = heard.openings.iter().any(|(_, m)| !m.whole);
    // Slivers are no test of a relative difference.
    let solid = heard.openings.iter().all(|(_, m)| {
        m.whole || m.hole_area <= 0.0 || m.hole_area > 0.02 * m.hole_width * m.hole_height
    });
    let some = net > 0.05 * total.outline && total.field > 0.0;
    !wall.openings.is_empty()
        && heard.refusals == 0
        && overlapping == manner.overlapping
        && cut == manner.cut
        && solid
        && some
}

fn outline(kind: u32, random: &mut impl Rng) -> OutlineShape {
    let length = random.random_range(3000.0..12_000.0);
    let height = random.random_range(2000.0..5000.0);
    match kind % 6 {
        0 => OutlineShape::Rectangle { length, height },
        1 => OutlineShape::Gable {
            length,
            eaves: random.random_range(0.0..0.7) * height,
            ridge: height,
            ridge_from_left: random.random_range(0.0..1.0) * length,
        },
        2 => {
            let low = random.random_range(0.0..1.0) * height;
            let (left, right) = if random.random_bool(0.5) {
                (low, height)
            } else {
                (height, low)
            };
            OutlineShape::Raked {
                length,
                left,
                right,
            }
        }
        3 => OutlineShape::Polygon {
            corners: around(
                random.random_range(4..10),
                length / 2.0,
                height / 2.0,
                random,
            ),
        },
        4 => {
            // A wall with a step in its top.
            let step = random.random_range(0.25..0.75) * length;
            let low = random.random_range(0.4..0.9) * height;
            OutlineShape::Polygon {
                corners: vec![
                    [0.0, 0.0],
                    [length, 0.0],
                    [length, low],
                    [step, low],
                    [step, height],
                    [0.0, height],
                ],
            }
        }
        _ => {
            let radius = random.random_range(1500.0..6000.0);
            let sweep = random.random_range(0.8..TAU);
            let extent = if random.random_bool(0.5) {
                Extent::Sweep(sweep)
            } else {
                Extent::Length(sweep * radius)
            };
            OutlineShape::Curved {
                radius,
                extent,
                height,
            }
        }
    }
}

/// Corners one after another around a middle, in a box of twice the two reaches: never crossing, often hollow.
fn around(count: u32, across: f64, up: f64, random: &mut impl Rng) -> Vec<[f64; 2]> {
    let step = TAU / f64::from(count);
    let turned = random.random_range(0.0..step);
    (0..count)
        .map(|i| {
            let angle = turned + step * (f64::from(i) + random.random_range(-0.3..0.3));
            let reach = random.random_range(0.55..1.0);
            [
                across * (1.0 + reach * libm::cos(angle)),
                up * (1.0 + reach * libm::sin(angle)),
            ]
        })
        .collect()
}

fn inset(manner: Manner, random: &mut impl Rng) -> Inset {
    let mut side = |chance: f64, most: f64| {
        if random.random_bool(chance) {
            random.random_range(0.0..most)
        } else {
            0.0
        }
    };
    let often = if manner.cut { 0.7 } else { 0.3 };
    Inset {
        left: side(often, 600.0),
        right: side(often, 600.0),
        top: side(0.4, 300.0),
        bottom: side(often, 500.0),
    }
}

fn end(random: &mut impl Rng) -> EndSpec {
    let radius = if random.random_bool(0.5) {
        random.random_range(10.0..120.0)
    } else {
        0.0
    };
    EndSpec {
        end: if random.random_bool(0.5) {
            End::Left
        } else {
            End::Right
        },
        angle: if random.random_bool(0.5) {
            Angle::External { radius }
        } else {
            Angle::Internal { cove: radius }
        },
        turn: random.random_range(0.3..2.4),
    }
}

fn opening(kind: Kind, bounds: &Bounds, wall: &Wall, random: &mut impl Rng) -> OpeningSpec {
    let width = random.random_range(0.08..0.4) * bounds.width();
    let height = random.random_range(0.15..0.7) * bounds.height();
    let springing = if random.random_bool(0.1) {
        0.0
    } else {
        random.random_range(0.1..0.7) * height
    };
    let arched = |head| OpeningShape::Arched {
        width,
        springing,
        head,
    };
    let shape = match kind {
        Kind::Rectangle => OpeningShape::Rectangle { width, height },
        Kind::Segmental => arched(ArchHead::Segmental {
            rise: random.random_range(0.1..1.0) * width / 2.0,
        }),
        Kind::Semicircular => arched(ArchHead::Semicircular),
        Kind::Elliptical => arched(ArchHead::Elliptical {
            rise: random.random_range(0.1..0.8) * height,
        }),
        Kind::Circle => OpeningShape::Circle {
            diameter: width.min(height),
        },
        Kind::Polygon => OpeningShape::Polygon {
            corners: around(random.random_range(3..8), width / 2.0, height / 2.0, random),
        },
    };
    let count = if random.random_bool(0.25) {
        random.random_range(2..5)
    } else {
        1
    };
    let from_left = bounds.left + random.random_range(-0.3..1.0) * bounds.width();
    let sill = bounds.bottom + random.random_range(-0.3..0.9) * bounds.height();
    // Along the outside face, where the inside of a curved wall is shorter.
    let stretch = match wall.shape {
        OutlineShape::Curved { radius, .. } if wall.side == Side::Inside => {
            radius / (radius - wall.thickness)
        }
        _ => 1.0,
    };
    OpeningSpec {
        shape,
        from_left: from_left.max(0.0) * stretch,
        sill: if random.random_bool(0.2) {
            0.0
        } else {
            sill.max(0.0)
        },
        from_outside: random.random_range(20.0..0.4 * wall.thickness),
        frame_depth: random.random_range(40.0..0.4 * wall.thickness),
        count,
        spacing: (count > 1).then(|| random.random_range(0.4..2.5) * width),
        reveals: [None, None],
    }
}

/// Moves an opening so that its lower left lies in or near the last one.
fn lay_over(spec: &mut OpeningSpec, wall: &Wall, random: &mut impl Rng) {
    if let Some(last) = wall.openings.last() {
        let near = random.random_range(-600.0..600.0);
        spec.from_left = (last.from_left + near).max(0.0);
        spec.sill = (last.sill + random.random_range(-600.0..600.0)).max(0.0);
    }
}

fn reveal(ringed: bool, door: bool, random: &mut impl Rng) -> RevealSpec {
    let steep = if random.random_bool(0.1) { 1.2 } else { 0.6 };
    let mut angle = || {
        if random.random_bool(0.5) {
            random.random_range(0.0..steep)
        } else {
            0.0
        }
    };
    let (jambs, more, sill) = (angle(), angle(), angle());
    let splay = if ringed {
        Splay {
            ring: jambs,
            ..Splay::default()
        }
    } else {
        Splay {
            jambs,
            head: f64::min(jambs + more, 75.0 * PI / 180.0),
            sill: if door { 0.0 } else { sill },
            ring: 0.0,
        }
    };
    let mut on = |chance: f64| random.random_bool(chance);
    let plastered = if ringed {
        Parts {
            ring: on(0.95),
            ..Parts::default()
        }
    } else {
        Parts {
            jambs: on(0.9),
            head: on(0.85),
            sill: !door && on(0.6),
            ring: false,
        }
    };
    let radius = if random.random_bool(0.4) {
        random.random_range(3.0..40.0)
    } else {
        0.0
    };
    let lath = if random.random_bool(0.3) { 150.0 } else { 0.0 };
    RevealSpec {
        plastered,
        splay,
        radius,
        lath,
    }
}
