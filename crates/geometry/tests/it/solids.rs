//! Volumes of layers of plaster against exact solids, and the mitre against the exact corner.
//!
//! The oracle is always the solid itself: what is left of a void when all its plastered surfaces have grown, by integrals of
//! the void's cross-section. Steiner's formula as used leaves out terms of third order, so the difference must fall eightfold when the
//! layer is halved.

use core::f64::consts::{FRAC_PI_2, PI, TAU};

use super::build::*;
use hodful_geometry::*;

/// Depth of the reveal outside in [`spec`].
const DEPTH: f64 = 100.0;

fn wall() -> FaceOutline {
    plain(&rectangle(6000.0, 3000.0))
}

/// Simpson's rule over many steps.
fn integral(from: f64, to: f64, f: impl Fn(f64) -> f64) -> f64 {
    let n = 2000;
    let step = (to - from) / f64::from(n);
    let sum: f64 = (0..=n)
        .map(|i| {
            let weight = if i == 0 || i == n {
                1.0
            } else if i % 2 == 1 {
                4.0
            } else {
                2.0
            };
            weight * f(from + f64::from(i) * step)
        })
        .sum();
    sum * step / 3.0
}

/// Volume of a layer of thickness `t` on a face with one void: `void(z, t)` is the area of the void at height z over the frame
/// when its sides have grown by t.
fn exact_layer(outline: f64, t: f64, void: impl Fn(f64, f64) -> f64) -> f64 {
    let before = outline * DEPTH - integral(0.0, DEPTH, |z| void(z, 0.0));
    let after = outline * (DEPTH + t) - integral(0.0, DEPTH + t, |z| void(z, t));
    after - before
}

/// Checks a measure against a void; `wedge` is Σ tan θ · length of the frame, the plaster's wedge against the frame that the
/// formula leaves out by design.
fn check_void(m: &FaceMeasure, wedge: f64, void: impl Fn(f64, f64) -> f64) {
    let error = |t: f64| {
        let exact = exact_layer(m.outline, t, &void);
        exact - m.layer_volume(0.0, t) - wedge * t * t / 2.0
    };
    let (coarse, fine) = (error(8.0), error(4.0));
    // Third order: its size is a few t³, and it falls eightfold.
    assert!(coarse.abs() < 30.0 * 8.0_f64.powi(3), "{coarse}");
    let ratio = coarse / fine;
    assert!((ratio - 8.0).abs() < 0.4, "{coarse} {fine} {ratio}");
}

#[test]
fn a_square_window_with_square_reveals() {
    let window = opening(square(1000.0, 1200.0), 2000.0, 900.0);
    let m = measure(&wall(), &[window], &[upright(Splay::default(), 0.0)]);
    check_void(&m, 0.0, |_, t| (1000.0 - 2.0 * t) * (1200.0 - 2.0 * t));
    // The term left out is exactly four cubes.
    let exact = exact_layer(m.outline, 10.0, |_, t| {
        (1000.0 - 2.0 * t) * (1200.0 - 2.0 * t)
    });
    let left_out = m.layer_volume(0.0, 10.0) - exact;
    assert!((left_out - 4.0 * 1000.0).abs() < 1e-3, "{left_out}");
}

#[test]
fn a_window_with_no_plastered_sill() {
    let window = opening(square(1000.0, 1200.0), 2000.0, 900.0);
    let reveal = Reveal::new(RevealSpec {
        plastered: Parts {
            jambs: true,
            head: true,
            ..Parts::default()
        },
        ..RevealSpec::default()
    })
    .unwrap();
    let m = measure(&wall(), &[window], &[reveal]);
    check_void(&m, 0.0, |_, t| (1000.0 - 2.0 * t) * (1200.0 - t));
}

#[test]
fn a_window_splayed_three_ways() {
    let splay = Splay {
        jambs: 0.35,
        head: 0.17,
        sill: 0.5,
        ring: 0.0,
    };
    let window = opening(square(1000.0, 1200.0), 2000.0, 900.0);
    let m = measure(&wall(), &[window], &[upright(splay, 0.0)]);
    let side = |z: f64, t: f64, angle: f64| z * angle.tan() - t / angle.cos();
    let wedge = 2.0 * 1200.0 * splay.jambs.tan() + 1000.0 * (splay.head.tan() + splay.sill.tan());
    check_void(&m, wedge, |z, t| {
        (1000.0 + 2.0 * side(z, t, splay.jambs))
            * (1200.0 + side(z, t, splay.head) + side(z, t, splay.sill))
    });
}

#[test]
fn a_round_window_square_and_splayed() {
    for angle in [0.0_f64, 0.4] {
        let window = opening(OpeningShape::Circle { diameter: 800.0 }, 2000.0, 900.0);
        let m = measure(&wall(), &[window], &[ring(angle, 0.0)]);
        check_void(&m, PI * 800.0 * angle.tan(), |z, t| {
            PI * (400.0 + z * angle.tan() - t / angle.cos()).powi(2)
        });
    }
}

/// A void under a concentric arch: half width, radius and sill at one level, springing found where jamb and arc meet.
fn arched_area(half: f64, radius: f64, centre: f64, sill: f64) -> f64 {
    let high = (radius * radius - half * half).max(0.0).sqrt();
    let angle = (half / radius).min(1.0).asin();
    2.0 * half * (centre + high - sill) + radius * radius * angle - half * high
}

#[test]
fn arched_doors_segmental_and_semicircular() {
    for (rise, jambs, head) in [
        (200.0, 0.0_f64, 0.0_f64),
        (200.0, 0.2, 0.3),
        (200.0, 0.3, 0.2),
        (450.0, 0.0, 0.0),
        (450.0, 0.25, 0.25),
        (450.0, 0.0, 0.3),
    ] {
        let shape = OpeningShape::Arched {
            width: 900.0,
            springing: 1500.0,
            head: ArchHead::Segmental { rise },
        };
        let splay = Splay {
            jambs,
            head,
            sill: 0.1,
            ring: 0.0,
        };
        let m = measure(
            &wall(),
            &[opening(shape, 2000.0, 600.0)],
            &[upright(splay, 0.0)],
        );
        let radius = (450.0_f64.powi(2) + rise * rise) / (2.0 * rise);
        let centre = 1500.0 + rise - radius;
        let arc = 2.0 * radius * (450.0 / radius).min(1.0).asin();
        let out = |z: f64, t: f64, angle: f64| z * angle.tan() - t / angle.cos();
        let wedge = 2.0 * 1500.0 * jambs.tan() + arc * head.tan() + 900.0 * 0.1_f64.tan();
        let void = |z: f64, t: f64| {
            arched_area(
                450.0 + out(z, t, jambs),
                radius + out(z, t, head),
                centre,
                -out(z, t, 0.1),
            )
        };
        if rise < 450.0 || jambs.to_bits() == head.to_bits() {
            check_void(&m, wedge, void);
        } else {
            // Where the cone leaves the jamb tangentially the fold starts from nothing, like a square root: the order is 5/2.
            let error = |t: f64| {
                let exact = exact_layer(m.outline, t, void);
                exact - m.layer_volume(0.0, t) - wedge * t * t / 2.0
            };
            assert!(error(8.0).abs() < 3e-4 * m.layer_volume(0.0, 8.0));
            assert!(error(2.0).abs() < 5e-5 * m.layer_volume(0.0, 2.0));
        }
    }
}

/// A many-sided opening moves in by t at every side: the area of the inset polygon is A − P·t + t²·Σ tan(turn/2).
#[test]
fn a_many_sided_window_square_and_splayed() {
    // A star of five points, so that corners turn both ways.
    let corners: Vec<[f64; 2]> = (0..10)
        .map(|i| {
            let reach = if i % 2 == 0 { 500.0 } else { 300.0 };
            let angle = TAU * f64::from(i) / 10.0;
            [500.0 + reach * angle.cos(), 500.0 + reach * angle.sin()]
        })
        .collect();
    let around: Vec<([f64; 2], [f64; 2])> = (0..10)
        .map(|i| (corners[i], corners[(i + 1) % 10]))
        .collect();
    let area: f64 = around
        .iter()
        .map(|(a, b)| (a[0] * b[1] - b[0] * a[1]) / 2.0)
        .sum();
    let perimeter: f64 = around
        .iter()
        .map(|(a, b)| ((b[0] - a[0]).powi(2) + (b[1] - a[1]).powi(2)).sqrt())
        .sum();
    let heading: Vec<f64> = around
        .iter()
        .map(|(a, b)| (b[1] - a[1]).atan2(b[0] - a[0]))
        .collect();
    let turns: f64 = (0..10)
        .map(|i| {
            let turn = heading[(i + 1) % 10] - heading[i];
            let turn = if turn > PI {
                turn - TAU
            } else if turn < -PI {
                turn + TAU
            } else {
                turn
            };
            (turn / 2.0).tan()
        })
        .sum();
    for angle in [0.0_f64, 0.3] {
        let shape = OpeningShape::Polygon {
            corners: corners.clone(),
        };
        let m = measure(
            &wall(),
            &[opening(shape, 2000.0, 900.0)],
            &[ring(angle, 0.0)],
        );
        check_void(&m, perimeter * angle.tan(), |z, t| {
            let inward = t / angle.cos() - z * angle.tan();
            area - perimeter * inward + turns * inward * inward
        });
    }
}

/// Rounded edges of a round window: the edge is measured along the sharp arris. The exact surface is a flat less a circle of 400 + r, a
/// tube r shorter, and the inner quarter of a torus; what is left out is π(π − 3)·r² for the whole ring.
#[test]
fn the_edge_of_a_round_window_is_right_to_the_order_of_the_radius_squared() {
    for radius in [10.0, 20.0, 40.0] {
        let window = opening(OpeningShape::Circle { diameter: 800.0 }, 2000.0, 900.0);
        let m = measure(&wall(), &[window], &[ring(0.0, radius)]);
        let r = radius;
        let flat = m.outline - PI * (400.0 + r).powi(2);
        let tube = 2.0 * PI * 400.0 * (DEPTH - r);
        // ∫ 2π(400 + r − r·cos φ) r dφ.
        let torus = integral(0.0, FRAC_PI_2, |p| TAU * (400.0 + r - r * p.cos()) * r);
        let exact = flat + tube + torus;
        let error = exact - m.true_surface();
        assert!(
            (error - PI * (PI - 3.0) * r * r).abs() < 1e-6,
            "{error} {r}"
        );
    }
}

/// A rounded corner of a square opening: the edges meet at mitres. Exact: the face loses (W + 2r)² − W², the jambs lose r in depth,
/// and each rounded edge is a quarter cylinder that grows from W to W + 2r: ∫ (W + 2r(1 − cos φ)) r dφ.
#[test]
fn a_mitre_leaves_out_pi_minus_three_radius_squared() {
    for r in [5.0, 25.0, 75.0] {
        let w = 1000.0;
        let window = opening(square(w, w), 2000.0, 900.0);
        let m = measure(&wall(), &[window], &[upright(Splay::default(), r)]);
        let flat = m.outline - (w + 2.0 * r).powi(2);
        let jambs = 4.0 * w * (DEPTH - r);
        let edges = 4.0 * integral(0.0, FRAC_PI_2, |p| (w + 2.0 * r * (1.0 - p.cos())) * r);
        let error = flat + jambs + edges - m.true_surface();
        assert!((error - 4.0 * (PI - 3.0) * r * r).abs() < 1e-6, "{error}");
        // Net change along the edge itself, per metre: r·π/2 − 2r, −0.4292 r.
        let sharp = measure(
            &wall(),
            &[opening(square(w, w), 2000.0, 900.0)],
            &[upright(Splay::default(), 0.0)],
        );
        let change = (m.true_surface() - sharp.true_surface()) / (4.0 * w);
        assert!((change + 0.4292 * r).abs() < 1e-4 * r);
    }
}

fn with_end(angle: Angle, turn: f64) -> FaceMeasure {
    let end = FaceEnd::new(EndSpec {
        end: End::Right,
        angle,
        turn,
    })
    .unwrap();
    measure_face(
        &wall(),
        Side::Outside,
        THICKNESS,
        &[],
        &[],
        &[end],
        &mut Silent,
    )
}

/// The corner of a box, 3 m high: two faces of 6 m and 4 m under a layer t come to (6000 + 4000 + t)·t·3000 when it is sharp.
#[test]
fn an_external_corner_sharp_and_rounded() {
    let other = measure(&plain(&rectangle(4000.0, 3000.0)), &[], &[]);
    let sharp = with_end(Angle::External { radius: 0.0 }, FRAC_PI_2);
    let t = 25.0;
    let volume = sharp.layer_volume(0.0, t) + other.layer_volume(0.0, t);
    assert!(close(volume, (6000.0 + 4000.0 + t) * t * 3000.0, 1e-12));
    assert!(close(sharp.edge_length, 3000.0, 1e-12));
    // Rounded by r: flats shorter by r each, and a quarter ring between radii r + a and r + a + t.
    let (r, a) = (100.0, 10.0);
    let rounded = with_end(Angle::External { radius: r }, FRAC_PI_2);
    let volume = rounded.layer_volume(a, t) + other.layer_volume(a, t);
    let ring = PI / 4.0 * ((r + a + t).powi(2) - (r + a).powi(2)) * 3000.0;
    let flats = (6000.0 + 4000.0 - 2.0 * r) * t * 3000.0;
    assert!(close(volume, flats + ring, 1e-12), "{volume}");
}

/// An internal corner: the layer from a to b covers two flats less the square they share, and a cove fills the rest of a quarter.
#[test]
fn an_internal_corner_square_and_coved() {
    let other = measure(&plain(&rectangle(4000.0, 3000.0)), &[], &[]);
    let (a, t) = (10.0, 25.0);
    let square = with_end(Angle::Internal { cove: 0.0 }, FRAC_PI_2);
    let volume = square.layer_volume(a, t) + other.layer_volume(a, t);
    // Both layers meet in the corner: what is left of the room's corner shrinks from (6000 − a)(4000 − a) to the same with a + t.
    let corner = |off: f64| (6000.0 - off) * (4000.0 - off);
    assert!(close(volume, (corner(a) - corner(a + t)) * 3000.0, 1e-12));
    assert!(square.edge_length.abs() < 1e-12);
    let coved = with_end(Angle::Internal { cove: 50.0 }, FRAC_PI_2);
    assert!(close(
        coved.coves,
        (1.0 - PI / 4.0) * 2500.0 * 3000.0,
        1e-12
    ));
    assert!(close(coved.true_surface(), square.true_surface(), 1e-15));
}

/// A tower, in and out: rings between two circles, Pappus.
#[test]
fn a_round_tower_inside_and_outside() {
    let tower = Outline::new(OutlineShape::Curved {
        radius: 2000.0,
        extent: Extent::Sweep(1.5 * PI),
        height: 3000.0,
    })
    .unwrap();
    let (a, t) = (12.0_f64, 20.0);
    for (side, ring) in [
        (
            Side::Outside,
            (2000.0 + a + t).powi(2) - (2000.0 + a).powi(2),
        ),
        (
            Side::Inside,
            (1550.0 - a).powi(2) - (1550.0 - a - t).powi(2),
        ),
    ] {
        let face = tower.face(side, 450.0, &Inset::default()).unwrap();
        let m = measure_face(&face, side, 450.0, &[], &[], &[], &mut Silent);
        assert!(close(
            m.layer_volume(a, t),
            0.75 * PI * ring * 3000.0,
            1e-12
        ));
    }
}

/// An arch that springs from the sill: what is left of the void is the segment of a smaller circle over a higher sill.
#[test]
fn an_arched_window_without_jambs() {
    for (rise, elliptical) in [(200.0_f64, false), (450.0, false), (450.0, true)] {
        let head = if elliptical {
            ArchHead::Elliptical { rise }
        } else {
            ArchHead::Segmental { rise }
        };
        let shape = OpeningShape::Arched {
            width: 900.0,
            springing: 0.0,
            head,
        };
        for jambs in [false, true] {
            let reveal = Reveal::new(RevealSpec {
                plastered: Parts {
                    jambs,
                    head: true,
                    sill: true,
                    ring: false,
                },
                ..RevealSpec::default()
            })
            .unwrap();
            let m = measure(&wall(), &[opening(shape.clone(), 2000.0, 900.0)], &[reveal]);
            let radius = (450.0_f64.powi(2) + rise * rise) / (2.0 * rise);
            check_void(&m, 0.0, |_, t| {
                // The sill lies this far over the centre.
                let (r, low) = (radius - t, radius - rise + t);
                r * r * (low / r).acos() - low * (r * r - low * low).sqrt()
            });
        }
    }
}

/// The edge of a splayed elliptical arch turns by the angle between two normals: that of the face, and that of the surface through two
/// neighbouring ellipses, found by differences.
#[test]
fn the_edge_of_a_splayed_elliptical_arch() {
    let (jambs, head, radius) = (0.15_f64, 0.5_f64, 20.0);
    let shape = OpeningShape::Arched {
        width: 900.0,
        springing: 1000.0,
        head: ArchHead::Elliptical { rise: 250.0 },
    };
    let reveal = Reveal::new(RevealSpec {
        plastered: Parts {
            head: true,
            ..Parts::default()
        },
        splay: Splay {
            jambs,
            head,
            ..Splay::default()
        },
        radius,
        lath: 0.0,
    })
    .unwrap();
    let m = measure(&wall(), &[opening(shape, 2000.0, 600.0)], &[reveal]);
    let place = |angle: f64, depth: f64| {
        [
            (450.0 + depth * jambs.tan()) * angle.cos(),
            (250.0 + depth * head.tan()) * angle.sin(),
            depth,
        ]
    };
    let nudge = 1e-4;
    let (mut strips, mut arcs, mut length) = (0.0, 0.0, 0.0);
    let n = 20_000;
    for i in 0..n {
        let angle = PI * (f64::from(i) + 0.5) / f64::from(n);
        let [back, on] = [place(angle - nudge, DEPTH), place(angle + nudge, DEPTH)];
        let along = [on[0] - back[0], on[1] - back[1]];
        let run = (along[0].powi(2) + along[1].powi(2)).sqrt();
        let [below, rim] = [place(angle, DEPTH - nudge), place(angle, DEPTH)];
        // How far the surface moves out, square to the edge, for every millimetre of depth.
        let out =
            ((rim[1] - below[1]) * along[0] - (rim[0] - below[0]) * along[1]).abs() / run / nudge;
        let turn = FRAC_PI_2 - out.atan();
        let step = run / (2.0 * nudge) * PI / f64::from(n);
        length += step;
        strips += step * radius * (turn / 2.0).tan();
        arcs += step * radius * turn;
    }
    assert!(
        close(m.edge_length, length, 1e-7),
        "{} {length}",
        m.edge_length
    );
    assert!(close(m.strips, strips, 1e-6), "{} {strips}", m.strips);
    assert!(close(m.edges, arcs, 1e-6), "{} {arcs}", m.edges);
}
