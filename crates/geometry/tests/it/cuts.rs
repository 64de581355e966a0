//! Openings cut by insets and outlines, overlaps, strips that are too wide: figures worked by hand, and what is said of them.

use core::f64::consts::PI;

use super::build::*;
use hodful_geometry::*;

fn inset_face(inset: Inset) -> FaceOutline {
    rectangle(6000.0, 2700.0)
        .face(Side::Outside, THICKNESS, &inset)
        .unwrap()
}

/// A door's jambs stop where the plaster stops: 2100 − 200 each.
#[test]
fn an_inset_cuts_a_door_and_says_nothing() {
    let face = inset_face(Inset {
        bottom: 200.0,
        ..Inset::default()
    });
    let door = [opening(square(900.0, 2100.0), 1000.0, 0.0)];
    let reveals = [upright(Splay::default(), 20.0)];
    let m = measure(&face, &door, &reveals);
    assert!(close(m.openings, 900.0 * 1900.0, 1e-12));
    let edge = 2.0 * 1900.0 + 900.0;
    assert!(close(m.edge_length, edge, 1e-12));
    assert!(close(m.reveals, edge * (100.0 - 20.0), 1e-12));
    assert!(close(m.strips, edge * 20.0, 1e-12));
    assert!(close(m.edges, edge * 20.0 * PI / 2.0, 1e-12));
    assert!(close(m.lath, edge * 150.0, 1e-12));
    // Two folds at the head; those at the sill are under the floor.
    assert!(close(m.growth, edge * PI / 2.0 - 2.0 * 2.0 * 100.0, 1e-12));
    assert!(close(
        m.field,
        6000.0 * 2500.0 - 900.0 * 1900.0 - edge * 20.0,
        1e-12
    ));
    assert_eq!(remarks(&face, &door, &reveals), Remarks::default());
}

/// The same for an arched door, and the arch is whole.
#[test]
fn an_inset_cuts_an_arched_door_in_closed_form() {
    let face = inset_face(Inset {
        bottom: 200.0,
        ..Inset::default()
    });
    let shape = OpeningShape::Arched {
        width: 900.0,
        springing: 1900.0,
        head: ArchHead::Semicircular,
    };
    let door = [opening(shape, 1000.0, 0.0)];
    let m = measure(&face, &door, &[upright(Splay::default(), 0.0)]);
    let edge = 2.0 * 1700.0 + PI * 450.0;
    assert!(close(
        m.openings,
        900.0 * 1700.0 + PI * 450.0 * 450.0 / 2.0,
        1e-12
    ));
    assert!(close(m.frame_openings, m.openings, 1e-12));
    assert!(close(m.edge_length, edge, 1e-12));
    assert!(close(m.reveals, edge * 100.0, 1e-12));
    assert!(close(m.growth, 2.0 * edge - PI * 100.0, 1e-12));
}

/// The fast way and the thorough way give one answer: a second opening that overlaps nothing but is many-sided forces the latter.
#[test]
fn a_cut_door_measures_the_same_either_way() {
    let face = inset_face(Inset {
        bottom: 200.0,
        top: 30.0,
        ..Inset::default()
    });
    let splay = Splay {
        jambs: 0.2,
        head: 0.3,
        ..Splay::default()
    };
    let reveals = [upright(splay, 15.0), ring(0.1, 15.0)];
    let triangle = OpeningShape::Polygon {
        corners: vec![[0.0, 0.0], [400.0, 0.0], [200.0, 400.0]],
    };
    let other = Opening::new(OpeningSpec {
        reveals: [RevealIndex::new(1), None],
        ..spec(triangle, 4000.0, 1000.0)
    })
    .unwrap();
    for shape in [
        square(900.0, 2100.0),
        OpeningShape::Arched {
            width: 900.0,
            springing: 1500.0,
            head: ArchHead::Segmental { rise: 250.0 },
        },
    ] {
        let door = opening(shape, 1000.0, 0.0);
        let alone = measure(&face, std::slice::from_ref(&door), &reveals);
        let single = measure(&face, std::slice::from_ref(&other), &reveals);
        let both = measure(&face, &[door, other.clone()], &reveals);
        assert!(close(
            alone.openings + single.openings,
            both.openings,
            1e-12
        ));
        assert!(close(alone.reveals + single.reveals, both.reveals, 1e-12));
        assert!(close(
            alone.edge_length + single.edge_length,
            both.edge_length,
            1e-12
        ));
        assert!(close(alone.growth + single.growth, both.growth, 1e-12));
        assert!(close(
            alone.frame_openings + single.frame_openings,
            both.frame_openings,
            1e-12
        ));
    }
}

#[test]
fn the_outline_cuts_and_a_doubt_says_so() {
    let face = inset_face(Inset::default());
    let reveals = [upright(Splay::default(), 0.0)];
    // 300 mm of its 1000 mm stand over the top of the wall.
    let window = [opening(square(800.0, 1000.0), 1000.0, 2000.0)];
    let m = measure(&face, &window, &reveals);
    assert!(close(m.openings, 800.0 * 700.0, 1e-12));
    // The head is outside; jambs of 700 and the sill are inside.
    assert!(close(m.edge_length, 2.0 * 700.0 + 800.0, 1e-12));
    assert_eq!(
        remarks(&face, &window, &reveals).doubts,
        vec![Doubt::CutByOutline {
            first: OpeningCopy {
                opening: 0,
                copy: 0
            },
            copies: 1
        }]
    );
}

#[test]
fn an_opening_under_a_gable_is_cut_only_when_it_pokes_out() {
    let gable = Outline::new(OutlineShape::Gable {
        length: 6000.0,
        eaves: 1000.0,
        ridge: 4000.0,
        ridge_from_left: 3000.0,
    })
    .unwrap();
    let face = plain(&gable);
    // The box of this circle pokes through both slopes, the circle does not: the slope is 45°, and the distance from the
    // centre (3000, 2500) to it is 1500/√2 = 1060.7.
    let reveals = [ring(0.0, 0.0)];
    let inside = [opening(
        OpeningShape::Circle { diameter: 2100.0 },
        1950.0,
        1450.0,
    )];
    assert_eq!(remarks(&face, &inside, &reveals), Remarks::default());
    let m = measure(&face, &inside, &reveals);
    assert!(close(m.openings, PI * 1050.0 * 1050.0, 1e-12));
    assert!(close(m.edge_length, PI * 2100.0, 1e-12));
    // One of 1100 radius is cut twice, each time by a segment of distance 1060.66 from the centre.
    let outside = [opening(
        OpeningShape::Circle { diameter: 2200.0 },
        1900.0,
        1400.0,
    )];
    let (r, near) = (1100.0_f64, 1500.0 / 2.0_f64.sqrt());
    let angle = (near / r).acos();
    let segment = r * r * angle - near * (r * r - near * near).sqrt();
    let m = measure(&face, &outside, &reveals);
    assert!(
        close(m.openings, PI * r * r - 2.0 * segment, 1e-6),
        "{}",
        m.openings
    );
    assert!(close(m.edge_length, 2.0 * r * (PI - 2.0 * angle), 1e-4));
    assert_eq!(remarks(&face, &outside, &reveals).doubts.len(), 1);
}

#[test]
fn copies_outside_are_refused_once_with_their_number() {
    let face = inset_face(Inset::default());
    let row = Opening::new(OpeningSpec {
        count: 6,
        spacing: Some(1500.0),
        ..spec(square(500.0, 500.0), 300.0, 900.0)
    })
    .unwrap();
    // At 300, 1800, 3300, 4800; then 6300 and 7800, outside.
    let said = remarks(&face, &[row], &[upright(Splay::default(), 0.0)]);
    assert!(said.doubts.is_empty());
    let first = OpeningCopy {
        opening: 0,
        copy: 4,
    };
    assert_eq!(
        said.refusals,
        vec![Refusal::OutsideWall { first, copies: 2 }]
    );
    assert_eq!(said.refusals[0].field(), "from_left");
}

/// An inset may hide an opening altogether: nothing is left of it and nothing is said.
#[test]
fn an_opening_behind_the_inset_counts_for_nothing() {
    let face = inset_face(Inset {
        bottom: 500.0,
        ..Inset::default()
    });
    let vent = [opening(square(200.0, 150.0), 1000.0, 200.0)];
    let reveals = [upright(Splay::default(), 0.0)];
    let m = measure(&face, &vent, &reveals);
    assert!(close(m.true_surface(), 6000.0 * 2200.0, 1e-15));
    assert!(m.edge_length.abs() < 1e-12 && m.growth.abs() < 1e-12);
    assert_eq!(remarks(&face, &vent, &reveals), Remarks::default());
}

#[test]
fn overlaps_are_reported_once_for_two_openings() {
    let face = inset_face(Inset::default());
    let reveals = [upright(Splay::default(), 0.0), ring(0.0, 0.0)];
    let a = opening(square(1000.0, 1000.0), 1000.0, 500.0);
    let row = Opening::new(OpeningSpec {
        count: 3,
        spacing: Some(300.0),
        ..spec(square(400.0, 400.0), 1500.0, 600.0)
    })
    .unwrap();
    let m = measure(&face, &[a.clone(), row.clone()], &reveals);
    // The row is one box from 1500 to 2500, 400 high; half of it lies over the first opening.
    assert!(close(m.openings, 1e6 + 500.0 * 400.0, 1e-12));
    // Reveals and edges are measured whole.
    assert!(close(m.edge_length, 4000.0 + 3.0 * 1600.0, 1e-12));
    let place = |opening, copy| OpeningCopy { opening, copy };
    assert_eq!(
        remarks(&face, &[a, row], &reveals).doubts,
        vec![
            Doubt::Overlap {
                first: place(0, 0),
                second: place(1, 0)
            },
            Doubt::Overlap {
                first: place(1, 0),
                second: place(1, 1)
            },
        ]
    );
    // Two circles side by side at a diagonal: their boxes overlap, they do not.
    let round = |u, v| {
        Opening::new(OpeningSpec {
            reveals: [RevealIndex::new(1), None],
            ..spec(OpeningShape::Circle { diameter: 1000.0 }, u, v)
        })
        .unwrap()
    };
    let pair = [round(1000.0, 300.0), round(1750.0, 1050.0)];
    assert_eq!(remarks(&face, &pair, &reveals), Remarks::default());
    assert!(close(
        measure(&face, &pair, &reveals).openings,
        PI / 2.0 * 1e6,
        1e-12
    ));
}

#[test]
fn openings_that_touch_do_not_overlap() {
    let face = inset_face(Inset::default());
    let reveals = [upright(Splay::default(), 0.0)];
    // 0.1 + 0.2 is not 0.3 in the machine's numbers.
    let pair = [
        opening(square(1000.2, 1000.0), 1000.1, 500.0),
        opening(square(1000.0, 1000.0), 2000.3, 500.0),
    ];
    assert_eq!(remarks(&face, &pair, &reveals), Remarks::default());
}

#[test]
fn strips_too_wide_are_refused() {
    let face = inset_face(Inset::default());
    let window = [opening(square(1000.0, 1000.0), 1000.0, 900.0)];
    // 120 mm of strip from 100 mm of reveal.
    let wide = [upright(Splay::default(), 120.0)];
    let said = remarks(&face, &window, &wide);
    assert_eq!(said.refusals.len(), 3);
    assert_eq!(
        said.refusals[0],
        Refusal::StripOverReveal {
            opening: 0,
            part: Part::Jambs
        }
    );
    let faults = window[0].accepts(&wide[0], Side::Outside, THICKNESS);
    assert_eq!(faults.len(), 1);
    assert_eq!(faults[0].field, "radius");
    assert!(measure(&face, &window, &wide).reveals.abs() < 1e-9);
    // A pier too narrow for its strips: two windows leave 30 mm between them and fill the wall.
    let narrow = rectangle(2030.0, 1000.0);
    let pair = [
        opening(square(1000.0, 1000.0), 0.0, 0.0),
        opening(square(1000.0, 1000.0), 1030.0, 0.0),
    ];
    let said = remarks(&plain(&narrow), &pair, &[upright(Splay::default(), 50.0)]);
    assert_eq!(
        said.refusals,
        vec![Refusal::StripsOverField { opening: Some(0) }]
    );
    assert_eq!(said.refusals[0].field(), "radius");
}

#[test]
fn reveals_that_do_not_suit_are_refused_and_the_frame_still_counts() {
    let face = inset_face(Inset::default());
    let round = [opening(
        OpeningShape::Circle { diameter: 600.0 },
        1000.0,
        900.0,
    )];
    let said = remarks(&face, &round, &[upright(Splay::default(), 0.0)]);
    assert_eq!(said.refusals, vec![Refusal::UnsuitedReveal { opening: 0 }]);
    let m = measure(&face, &round, &[upright(Splay::default(), 0.0)]);
    assert!(close(m.openings, PI * 300.0 * 300.0, 1e-12));
    assert!(m.reveals.abs() < 1e-12);
    let said = remarks(&face, &round, &[]);
    assert_eq!(said.refusals, vec![Refusal::NoSuchReveal { opening: 0 }]);
    let deep = rectangle(6000.0, 2700.0)
        .face(Side::Inside, 150.0, &Inset::default())
        .unwrap();
    let mut said = Remarks::default();
    measure_face(
        &deep,
        Side::Inside,
        150.0,
        &round,
        &[ring(0.0, 0.0)],
        &[],
        &mut said,
    );
    assert_eq!(said.refusals, vec![Refusal::FrameTooDeep { opening: 0 }]);
}

/// Inside a round tower the middle of an opening keeps its angle: the middle at 3000 of 6000 outside is the middle inside.
#[test]
fn openings_keep_their_angle_inside_a_curved_wall() {
    let tower = Outline::new(OutlineShape::Curved {
        radius: 3000.0,
        extent: Extent::Length(6000.0),
        height: 2500.0,
    })
    .unwrap();
    let face = tower.face(Side::Inside, 450.0, &Inset::default()).unwrap();
    // Developed inside: 6000·2550/3000 = 5100. A frame 5100 wide around the middle fills it exactly.
    assert!(close(face.developed_length(), 5100.0, 1e-12));
    let band = OpeningSpec {
        reveals: [None, None],
        ..spec(square(5100.0, 500.0), 450.0, 1000.0)
    };
    let mut said = Remarks::default();
    let band = [Opening::new(band).unwrap()];
    let m = measure_face(&face, Side::Inside, 450.0, &band, &[], &[], &mut said);
    assert!(close(m.openings, 5100.0 * 500.0, 1e-12));
    assert_eq!(said, Remarks::default());
    assert!(close(m.growth, -m.field / 2550.0, 1e-12));
    assert!(close(
        frame_area_on_face(&face, Side::Inside, 450.0, &band[0], 0),
        5100.0 * 500.0,
        1e-12
    ));
}

/// The south wall of the demo building, outside, worked by hand in inches: 36' by 9', 8 in left bare at the base, three windows of
/// 3' by 4' and a segmental door of 3' with springing at 6' 8" and 18 in of rise (a half circle), 3 in of reveal, 1 in radius.
#[test]
fn a_whole_face_worked_by_hand() {
    const INCH: f64 = 25.4;
    let feet = |f: f64| f * 12.0 * INCH;
    let wall = rectangle(feet(36.0), feet(9.0));
    let inset = Inset {
        bottom: 8.0 * INCH,
        ..Inset::default()
    };
    let face = wall.face(Side::Outside, 18.0 * INCH, &inset).unwrap();
    let common = |shape, from_left, sill| OpeningSpec {
        from_outside: 3.0 * INCH,
        frame_depth: 4.5 * INCH,
        ..spec(shape, from_left, sill)
    };
    let windows = OpeningSpec {
        count: 3,
        spacing: Some(feet(9.0)),
        ..common(
            square(feet(3.0), feet(4.0)),
            feet(5.0),
            feet(2.0) + 8.0 * INCH,
        )
    };
    let door = OpeningShape::Arched {
        width: feet(3.0),
        springing: 80.0 * INCH,
        head: ArchHead::Segmental { rise: 18.0 * INCH },
    };
    let openings = [
        Opening::new(windows).unwrap(),
        Opening::new(common(door, feet(31.0), 0.0)).unwrap(),
    ];
    let reveal = Reveal::new(RevealSpec {
        plastered: Parts {
            jambs: true,
            head: true,
            ..Parts::default()
        },
        splay: Splay::default(),
        radius: INCH,
        lath: 6.0 * INCH,
    })
    .unwrap();
    let end = FaceEnd::new(EndSpec {
        end: End::Right,
        angle: Angle::External { radius: 4.0 * INCH },
        turn: PI / 2.0,
    })
    .unwrap();
    let mut said = Remarks::default();
    let m = measure_face(
        &face,
        Side::Outside,
        18.0 * INCH,
        &openings,
        &[reveal],
        &[end],
        &mut said,
    );
    assert_eq!(said, Remarks::default());
    let inch2 = INCH * INCH;
    // 432 × 100; three times 36 × 48; 36 × (80 − 8) and half a circle of 18.
    let outline = 432.0 * 100.0;
    let holes = 3.0 * 36.0 * 48.0 + 36.0 * 72.0 + PI * 18.0 * 18.0 / 2.0;
    // Edges: three times 2·48 + 36; 2·72 and the half circle; the corner 100.
    let edge = 3.0 * 132.0 + 144.0 + 18.0 * PI;
    let strips = edge * 1.0 + 2.0 * 4.0 * 100.0;
    let reveals = edge * (3.0 - 1.0);
    let arcs = edge * PI / 2.0 + 4.0 * PI / 2.0 * 100.0;
    assert!(close(m.outline, outline * inch2, 1e-12));
    assert!(close(m.openings, holes * inch2, 1e-12));
    assert!(close(m.strips, strips * inch2, 1e-12));
    assert!(close(m.field, (outline - holes - strips) * inch2, 1e-12));
    assert!(close(m.reveals, reveals * inch2, 1e-12));
    assert!(close(m.edges, arcs * inch2, 1e-12));
    assert!(close(m.edge_length, (edge + 100.0) * INCH, 1e-12));
    assert!(close(m.lath, edge * 6.0 * inch2, 1e-12));
    // Turns of the edges and the corner; two folds of 3 in at each window head; the half circle's own turn.
    let growth = (edge + 100.0) * PI / 2.0 - 3.0 * 2.0 * 2.0 * 3.0 - PI * 3.0;
    assert!(close(m.growth, growth * INCH, 1e-12));
}

/// A head splayed more than its jambs lifts the springing of the hole over that of the frame; a floor between the two cuts the arch
/// of the frame and only the jambs of the hole.
#[test]
fn a_floor_between_two_springings() {
    let shape = OpeningShape::Arched {
        width: 800.0,
        springing: 500.0,
        head: ArchHead::Semicircular,
    };
    let splay = Splay {
        head: 0.5,
        ..Splay::default()
    };
    let door = [opening(shape, 1000.0, 0.0)];
    let reveals = [upright(splay, 0.0)];
    // The hole: radius 400 + 100·tan 0.5 about the same centre, jambs at 400, springing where they meet.
    let radius = 400.0 + 100.0 * 0.5_f64.tan();
    let lift = (radius * radius - 400.0 * 400.0).sqrt();
    assert!(lift > 200.0);
    let face = inset_face(Inset {
        bottom: 600.0,
        ..Inset::default()
    });
    let m = measure(&face, &door, &reveals);
    // Of the frame's half circle, what lies more than 100 over its springing.
    let (r, low) = (400.0_f64, 100.0_f64);
    let cap = r * r * (low / r).acos() - low * (r * r - low * low).sqrt();
    assert!(
        close(m.frame_openings, cap, 1e-6),
        "{} {cap}",
        m.frame_openings
    );
    let angle = (400.0 / radius).asin();
    let hole = 800.0 * (lift - 100.0) + radius * radius * angle - 400.0 * lift;
    assert!(close(m.openings, hole, 1e-9), "{} {hole}", m.openings);
}

/// The sharp tip of a many-sided hole pokes out of the wall by less than its area shows: nothing is doubtful, and its lines are
/// still cut as they are in the parts of a wall that is split.
#[test]
fn a_tip_that_pokes_out_a_little() {
    let tip = OpeningShape::Polygon {
        corners: vec![[0.0, 0.0], [400.0, 0.0], [200.0, 1000.2]],
    };
    let window = [opening(tip, 1000.0, 1700.0)];
    let reveals = [ring(0.0, 0.0)];
    let face = inset_face(Inset::default());
    assert_eq!(remarks(&face, &window, &reveals), Remarks::default());
    let m = measure(&face, &window, &reveals);
    let side = (200.0_f64.powi(2) + 1000.2_f64.powi(2)).sqrt();
    let inside = 400.0 + 2.0 * side * 1000.0 / 1000.2;
    assert!(
        close(m.edge_length, inside, 1e-9),
        "{} {inside}",
        m.edge_length
    );
}

/// `ring` on an upright opening stands for jambs, head and sill, and its splay for each of them that has none of its own.
#[test]
fn a_ring_stands_for_all_parts() {
    let face = inset_face(Inset::default());
    let window = [opening(square(1000.0, 1200.0), 2000.0, 900.0)];
    let all = Reveal::new(RevealSpec {
        plastered: Parts {
            ring: true,
            ..Parts::default()
        },
        splay: Splay {
            jambs: 0.4,
            ring: 0.2,
            ..Splay::default()
        },
        radius: 10.0,
        lath: 150.0,
    })
    .unwrap();
    let each = upright(
        Splay {
            jambs: 0.4,
            head: 0.2,
            sill: 0.2,
            ring: 0.0,
        },
        10.0,
    );
    assert_eq!(
        measure(&face, &window, &[all]),
        measure(&face, &window, &[each])
    );
    assert!(window[0].accepts(&all, Side::Outside, THICKNESS).is_empty());
}

/// A frame flush with the face has no reveal, no edge and nothing to round.
#[test]
fn a_flush_frame_has_no_edge() {
    let face = inset_face(Inset::default());
    let flush = Opening::new(OpeningSpec {
        from_outside: 0.0,
        ..spec(square(1000.0, 1200.0), 2000.0, 900.0)
    })
    .unwrap();
    let m = measure(
        &face,
        std::slice::from_ref(&flush),
        &[upright(Splay::default(), 0.0)],
    );
    assert!(close(
        m.true_surface(),
        6000.0 * 2700.0 - 1000.0 * 1200.0,
        1e-15
    ));
    assert!(m.edge_length.abs() < 1e-12 && m.growth.abs() < 1e-12 && m.lath.abs() < 1e-12);
    let rounded = upright(Splay::default(), 5.0);
    let faults = flush.accepts(&rounded, Side::Outside, THICKNESS);
    assert_eq!(faults.len(), 1);
    assert_eq!(faults[0].field, "radius");
    assert_eq!(remarks(&face, &[flush], &[rounded]).refusals.len(), 3);
}

/// Only plastered parts need room for their strips: at 60° a strip is tan 15° of the radius, square it is the radius.
#[test]
fn a_bare_part_needs_no_room_for_a_strip() {
    let reveal = Reveal::new(RevealSpec {
        plastered: Parts {
            head: true,
            ..Parts::default()
        },
        splay: Splay {
            head: PI / 3.0,
            ..Splay::default()
        },
        radius: 120.0,
        lath: 0.0,
    })
    .unwrap();
    let window = opening(square(1000.0, 1200.0), 2000.0, 300.0);
    assert!(window.accepts(&reveal, Side::Outside, THICKNESS).is_empty());
    let face = inset_face(Inset::default());
    let m = measure(&face, &[window], &[reveal]);
    assert!(close(m.strips, 1000.0 * 120.0 * (PI / 12.0).tan(), 1e-12));
}

/// A sill that slopes down past the base of the wall is doubtful, inset or not.
#[test]
fn a_sill_splayed_under_the_base_is_doubtful() {
    let splay = Splay {
        sill: 0.5,
        ..Splay::default()
    };
    let door = [opening(square(900.0, 2000.0), 1000.0, 0.0)];
    for bottom in [0.0, 200.0] {
        let face = inset_face(Inset {
            bottom,
            ..Inset::default()
        });
        let said = remarks(&face, &door, &[upright(splay, 0.0)]);
        assert_eq!(said.doubts.len(), 1, "{bottom}");
    }
}

/// An opening that ends where the wall ends keeps its folds there, also when the wall cuts it elsewhere.
#[test]
fn folds_on_the_edge_of_a_face_count() {
    let face = inset_face(Inset::default());
    for from_left in [0.0, 5100.0] {
        // Through the top: two jambs of 700 and a sill, two folds at the sill.
        let window = [opening(square(900.0, 1000.0), from_left, 2000.0)];
        let m = measure(&face, &window, &[upright(Splay::default(), 0.0)]);
        let edge = 2.0 * 700.0 + 900.0;
        assert!(close(m.edge_length, edge, 1e-12));
        assert!(close(m.growth, 2.0 * edge - 2.0 * 2.0 * 100.0, 1e-12));
    }
}
