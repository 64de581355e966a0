//! Plans by hand: what is refused and how, ids, texts, rings from walls. Random plans are held against a
//! reference library and against the figures of whole projects elsewhere.

use super::{FacePlan, Measured, Plan, PlanShape, PlanSide, corners, of_walls, rings, walls};
use crate::project::{CornerAngle, End, Name, Side, Wall, WallEnd, WallShape};
use ecow::EcoString;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::units::Length;
use hodful_quantities::{Measure, Typed};
use std::sync::Arc;

fn typed<T: Measure>(text: &str) -> Typed<T> {
    Typed::read(text).unwrap()
}

fn plan(shape: PlanShape, units: UnitSystem) -> Plan {
    let (height, thickness) = match units {
        UnitSystem::Us => ("9'", "18 in"),
        UnitSystem::Metric => ("3 m", "450 mm"),
    };
    let mut plan = Plan::new(shape, typed(height), typed(thickness), units);
    plan.outside = Some(FacePlan::new("bale", "outside bale"));
    plan.inside = Some(FacePlan::new("bale", "inside bale"));
    plan
}

fn rectangle(length: &str, width: &str) -> PlanShape {
    PlanShape::Rectangle {
        length: typed(length),
        width: typed(width),
    }
}

fn ring(sides: &[(&str, Option<&str>)]) -> PlanShape {
    PlanShape::Ring {
        sides: sides
            .iter()
            .map(|(length, turn)| PlanSide {
                length: typed(length),
                turn: turn.map(|turn| super::read_turn(turn).unwrap()),
            })
            .collect(),
    }
}

fn length(wall: &Wall) -> &str {
    match &wall.shape {
        WallShape::Rectangle { length, .. } => length.text(),
        other => panic!("{other:?}"),
    }
}

fn insets(wall: &Wall, side: Side) -> [&str; 2] {
    let inset = wall.face(side).and_then(|face| face.inset.as_deref());
    let text = |typed: Option<&Typed<Length>>| -> String {
        typed.map_or_else(String::new, |typed| typed.text().to_owned())
    };
    let at = |end: Option<&Typed<Length>>| -> &'static str { text(end).leak() };
    [
        at(inset.and_then(|inset| inset.left.as_ref())),
        at(inset.and_then(|inset| inset.right.as_ref())),
    ]
}

fn faults(plan: &Plan) -> Vec<EcoString> {
    walls(plan, &[]).unwrap_err()
}

fn shared(plan: &Plan) -> Vec<Arc<Wall>> {
    walls(plan, &[])
        .unwrap()
        .into_iter()
        .map(Arc::new)
        .collect()
}

#[test]
fn a_rectangle_keeps_every_text_and_enters_each_corner_once() {
    let mut plan = plan(rectangle("36' 0\"", "2 * 12'"), UnitSystem::Us);
    plan.base = Some(typed("8 in"));
    plan.ceiling = Some(typed("8' 6\""));
    plan.radius = Some(typed("4 in"));
    plan.inside.as_mut().unwrap().cove = Some(typed("1 1/2 in"));
    let walls = walls(&plan, &[]).unwrap();
    let ids: Vec<&str> = walls.iter().map(|wall| wall.id.as_str()).collect();
    assert_eq!(ids, ["S", "E", "N", "W"]);
    let lengths: Vec<&str> = walls.iter().map(length).collect();
    assert_eq!(lengths, ["36' 0\"", "2 * 12'", "36' 0\"", "2 * 12'"]);
    for wall in &walls {
        assert_eq!(insets(wall, Side::Outside), ["", ""]);
        assert_eq!(insets(wall, Side::Inside), ["18 in", "18 in"]);
        let inset = |side| wall.face(side).unwrap().inset.clone().unwrap();
        assert_eq!(inset(Side::Outside).bottom, Some(typed("8 in")));
        assert_eq!(inset(Side::Outside).ceiling, None);
        assert_eq!(inset(Side::Inside).ceiling, Some(typed("8' 6\"")));
        assert_eq!(inset(Side::Inside).bottom, None);
        let expected = [
            WallEnd {
                face: Side::Outside,
                end: End::Right,
                angle: CornerAngle::External,
                turn: None,
                radius: Some(typed("4 in")),
                cove: None,
            },
            WallEnd {
                face: Side::Inside,
                end: End::Right,
                angle: CornerAngle::Internal,
                turn: None,
                radius: None,
                cove: Some(typed("1 1/2 in")),
            },
        ];
        assert_eq!(*wall.ends, expected);
    }
}

/// The walls at the re-entrant corner of an L reach to its inside corner, and their outside faces stop
/// a thickness short of it.
#[test]
fn an_l_is_longer_inside_at_its_re_entrant_corner() {
    let shape = PlanShape::Ell {
        length: typed("36'"),
        width: typed("24'"),
        cut_length: typed("12'"),
        cut_width: typed("10' 6\""),
    };
    let walls = walls(&plan(shape, UnitSystem::Us), &[]).unwrap();
    let lengths: Vec<&str> = walls.iter().map(length).collect();
    // 24' less 10' 6", 12' and 1' 6", 10' 6" and 1' 6", 36' less 12'.
    assert_eq!(lengths, ["36'", "13' 6\"", "13' 6\"", "12'", "24'", "24'"]);
    assert_eq!(insets(&walls[2], Side::Outside), ["", "18 in"]);
    assert_eq!(insets(&walls[2], Side::Inside), ["18 in", ""]);
    assert_eq!(insets(&walls[3], Side::Outside), ["18 in", ""]);
    assert_eq!(insets(&walls[3], Side::Inside), ["", "18 in"]);
    let angles = |at: usize| {
        let ends = walls[at].ends.iter();
        ends.map(|end| (end.face, end.angle)).collect::<Vec<_>>()
    };
    assert_eq!(
        angles(2),
        [
            (Side::Outside, CornerAngle::Internal),
            (Side::Inside, CornerAngle::External)
        ]
    );
    assert_eq!(
        angles(3),
        [
            (Side::Outside, CornerAngle::External),
            (Side::Inside, CornerAngle::Internal)
        ]
    );
}

#[test]
fn a_round_is_one_wall_and_inside_sizes_grow_outwards() {
    let shape = PlanShape::Round {
        diameter: typed("13'"),
    };
    let mut round = plan(shape, UnitSystem::Us);
    let radius = |plan: &Plan| match &walls(plan, &[]).unwrap()[..] {
        [
            Wall {
                shape: WallShape::Curved { radius, sweep, .. },
                ends,
                ..
            },
        ] => {
            assert_eq!(sweep.as_ref().map(Typed::text), Some("360 deg"));
            assert!(ends.is_empty());
            radius.text().to_owned()
        }
        other => panic!("{other:?}"),
    };
    assert_eq!(radius(&round), "6' 6\"");
    round.measured = Measured::Inside;
    assert_eq!(radius(&round), "8'");
    let mut inside = plan(rectangle("5.10 m", "3.30 m"), UnitSystem::Metric);
    inside.measured = Measured::Inside;
    let walls = walls(&inside, &[]).unwrap();
    assert_eq!(
        walls.iter().map(length).collect::<Vec<_>>(),
        ["6000 mm", "4200 mm", "6000 mm", "4200 mm"]
    );
}

#[test]
fn turns_that_are_no_quarters_are_written_as_people_would() {
    // A square with its corners cut off: 45 degrees eight times. 450 mm × tan 22.5° = 186.396 mm.
    let eight = ring(&[("2 m", Some("45")); 8]);
    for wall in walls(&plan(eight.clone(), UnitSystem::Metric), &[]).unwrap() {
        assert_eq!(insets(&wall, Side::Inside), ["186.4 mm", "186.4 mm"]);
        assert_eq!(wall.ends[0].turn, Some(typed("45 deg")));
    }
    // 18 in × tan 22.5° = 7.4558 in.
    let wall = &walls(&plan(eight, UnitSystem::Us), &[]).unwrap()[0];
    assert_eq!(insets(wall, Side::Inside), ["7.456\"", "7.456\""]);
    // The text of a right turn loses its sign only.
    let cut = ring(&[
        ("6 m", None),
        ("4 m", None),
        ("2 m", Some("right 90.0 deg")),
        ("1 m", None),
        ("4 m", None),
        ("5 m", None),
    ]);
    let made = walls(&plan(cut, UnitSystem::Metric), &[]).unwrap();
    assert_eq!(made[2].ends[0].turn, Some(typed("90.0 deg")));
    assert_eq!(made[1].ends[0].turn, None);
    let ids: Vec<&str> = made.iter().map(|wall| wall.id.as_str()).collect();
    assert_eq!(ids, ["A", "B", "C", "D", "E", "F"]);
}

#[test]
fn a_straight_run_in_two_walls_has_no_corner_between() {
    let shape = ring(&[
        ("4 m", Some("0 deg")),
        ("2 m", None),
        ("5 m", None),
        ("6 m", None),
        ("5 m", None),
    ]);
    let made = walls(&plan(shape, UnitSystem::Metric), &[]).unwrap();
    assert!(made[0].ends.is_empty());
    assert_eq!(insets(&made[0], Side::Inside), ["450 mm", ""]);
    assert_eq!(insets(&made[1], Side::Inside), ["", "450 mm"]);
}

#[test]
fn ids_that_are_taken_are_left_alone() {
    let plan = plan(rectangle("6 m", "4 m"), UnitSystem::Metric);
    let taken: Vec<Name> = ["W", "E2", "Q"].map(Name::from).to_vec();
    let ids: Vec<Name> = walls(&plan, &taken)
        .unwrap()
        .into_iter()
        .map(|wall| wall.id)
        .collect();
    assert_eq!(ids, ["S3", "E3", "N3", "W3"]);
    let many = super::ids::ids(&ring(&[]), 54, &[]);
    assert_eq!(
        (many[25].as_str(), many[26].as_str(), many[53].as_str()),
        ("Z", "AA", "BB")
    );
}

#[test]
fn a_ring_that_does_not_close_says_by_how_much_and_what_would() {
    let shape = ring(&[("36'", None), ("24'", None), ("34'", None), ("24'", None)]);
    assert_eq!(
        faults(&plan(shape.clone(), UnitSystem::Us)),
        [
            "sides: the ring ends 2' from where it began; side 1 of 34' instead of '36'', or side 3 of 36' instead of '34'' would close it"
        ]
    );
    // Its loose end is drawn.
    assert_eq!(corners(&plan(shape, UnitSystem::Us)).len(), 5);
    let shape = ring(&[("6 m", None), ("4 m", None), ("5 m", None), ("3.5 m", None)]);
    assert_eq!(
        faults(&plan(shape, UnitSystem::Metric)),
        [
            "sides: the ring ends 1.118 m from where it began; no side would close it alone; side 3 of 6.000 m and side 4 of 4.000 m would"
        ]
    );
    // Half an inch is seen, an eighth is let pass.
    let off = |width| ring(&[("36'", None), ("24'", None), ("36'", None), (width, None)]);
    assert_eq!(faults(&plan(off("24' 1/2\""), UnitSystem::Us)).len(), 1);
    assert!(walls(&plan(off("24' 1/8\""), UnitSystem::Us), &[]).is_ok());
}

#[test]
fn turns_that_do_not_go_once_round_are_refused() {
    let told = |sides: &[(&str, Option<&str>)]| faults(&plan(ring(sides), UnitSystem::Metric));
    let right = [("4 m", Some("right")); 4];
    assert_eq!(
        told(&right),
        [
            "turns: they go round to the right; walk with the building on the left, or swap left and right"
        ]
    );
    assert_eq!(
        told(&[("4 m", Some("left")); 3]),
        [
            "turns: they add up to 270.0° to the left, and once round is 360.0° to the left; 90.0° to the left missing"
        ]
    );
    // The last turn is what is left when it is not given: 120 degrees of a triangle.
    let triangle = [
        ("4 m", Some("120")),
        ("4 m", Some("120 deg")),
        ("4 m", None),
    ];
    let made = walls(&plan(ring(&triangle), UnitSystem::Metric), &[]).unwrap();
    assert_eq!(made[2].ends[0].turn, Some(typed("120 deg")));
}

#[test]
fn what_crosses_or_is_too_thick_or_too_round_is_refused() {
    // A notch deeper than the building.
    let crossing = ring(&[
        ("6 m", None),
        ("4 m", None),
        ("2 m", None),
        ("5 m", Some("right")),
        ("2 m", Some("right")),
        ("5 m", None),
        ("2 m", None),
        ("4 m", None),
    ]);
    assert_eq!(
        faults(&plan(crossing, UnitSystem::Metric)),
        ["sides: their corners make an outline that crosses itself: side 1 meets side 4"]
    );
    let thin = plan(rectangle("6 m", "0.80 m"), UnitSystem::Metric);
    assert_eq!(
        faults(&thin),
        ["thickness: '450 mm' leaves nothing of the inside of width '0.80 m'"]
    );
    let mut rounded = plan(rectangle("6 m", "3 m"), UnitSystem::Metric);
    rounded.radius = Some(typed("2 m"));
    assert_eq!(
        faults(&rounded),
        [
            "outside: width has 3.000 m and its rounded corners take 4.000 m; make the radius or the cove smaller"
        ]
    );
}

/// Two rooms with a neck of 60 cm between them: every inside face has a length, but with walls of 40 cm
/// they run into each other.
#[test]
fn walls_that_run_into_each_other_are_refused() {
    let half = [
        ("4 m", None),
        ("3 m", None),
        ("1.7 m", Some("right")),
        ("1 m", Some("right")),
        ("1.7 m", None),
        ("3 m", None),
    ];
    let mut plan = plan(ring(&[half, half].concat()), UnitSystem::Metric);
    plan.thickness = typed("400 mm");
    assert_eq!(
        faults(&plan),
        [
            "thickness: '400 mm' is too much for this plan; on the inside the corners make an outline that crosses itself: side 3 meets side 10"
        ]
    );
    plan.thickness = typed("250 mm");
    assert_eq!(walls(&plan, &[]).map(|walls| walls.len()), Ok(12));
}

#[test]
fn every_fault_is_told_at_once() {
    let mut plan = plan(rectangle("-6 m", "0"), UnitSystem::Metric);
    plan.height = typed("0 m");
    plan.base = Some(typed("-1 m"));
    plan.inside = None;
    assert_eq!(
        faults(&plan),
        [
            "height: '0 m' must be at least a millimetre",
            "outside, base: '-1 m' is negative",
            "length: '-6 m' is negative",
            "width: '0' must be at least a millimetre",
        ]
    );
    plan.outside = None;
    assert!(
        faults(&plan).contains(&"faces: no face is plastered; give outside, inside or both".into())
    );
}

#[test]
fn insets_that_leave_nothing_are_refused() {
    let mut plan = plan(rectangle("6 m", "4 m"), UnitSystem::Metric);
    plan.ceiling = Some(typed("2.40 m"));
    plan.inside.as_mut().unwrap().base = Some(typed("2.50 m"));
    assert_eq!(
        faults(&plan),
        ["inside: base '2.50 m' with ceiling '2.40 m' leaves nothing of the height '3 m'"]
    );
}

#[test]
fn walls_of_a_plan_are_a_ring_again() {
    let shape = PlanShape::Ell {
        length: typed("12 m"),
        width: typed("8 m"),
        cut_length: typed("4 m"),
        cut_width: typed("3 m"),
    };
    let plan = plan(shape, UnitSystem::Metric);
    let ring = of_walls(&shared(&plan)).unwrap();
    let near = |ours: &[[f64; 2]], theirs: &[[f64; 2]]| {
        assert_eq!(ours.len(), theirs.len());
        for (a, b) in ours.iter().zip(theirs) {
            assert!(
                (a[0] - b[0]).abs() < 1e-6 && (a[1] - b[1]).abs() < 1e-6,
                "{ours:?}"
            );
        }
    };
    let outside = [
        [0., 0.],
        [12e3, 0.],
        [12e3, 5e3],
        [8e3, 5e3],
        [8e3, 8e3],
        [0., 8e3],
    ];
    let inside = [
        [450., 450.],
        [11_550., 450.],
        [11_550., 4550.],
        [7550., 4550.],
        [7550., 7550.],
        [450., 7550.],
    ];
    near(&ring.outside, &outside);
    near(&ring.inside, &inside);
    near(&corners(&plan), &outside);
    // With the inside alone plastered as well.
    let mut alone = plan;
    alone.outside = None;
    near(&of_walls(&shared(&alone)).unwrap().inside, &inside);
}

#[test]
fn buildings_are_found_among_other_walls() {
    let first = shared(&plan(rectangle("6 m", "4 m"), UnitSystem::Metric));
    let round = PlanShape::Round {
        diameter: typed("4 m"),
    };
    let round = shared(&plan(round, UnitSystem::Metric));
    let mut twice = (*first[0]).clone();
    twice.count = Some(2);
    let twice = Arc::new(twice);
    let mut all = vec![Arc::clone(&twice)];
    all.extend(first.iter().cloned());
    all.extend([Arc::clone(&first[0]), twice]);
    all.extend(round);
    let found = rings(&all);
    let at: Vec<Vec<usize>> = found
        .iter()
        .map(|ring| ring.walls.iter().map(|wall| wall.wall).collect())
        .collect();
    assert_eq!(at, [vec![1, 2, 3, 4], vec![7]]);
    assert_eq!(of_walls(&all), None);
    assert_eq!(of_walls(&[]), None);
    // Half-way through a wall of 450 mm, at its middle.
    let [x, y] = found[0].walls[0].middle;
    assert!((x - 3000.0).abs() < 1e-6 && (y - 225.0).abs() < 1e-6);
}

/// Two half rounds with straight walls between: 2 m of radius, 3 m long.
#[test]
fn curved_and_straight_walls_make_a_ring() {
    let template = shared(&plan(rectangle("3 m", "3 m"), UnitSystem::Metric));
    let curved = |id: &str| {
        let mut wall = (*template[0]).clone();
        wall.id = id.into();
        wall.ends = [].into();
        wall.shape = WallShape::Curved {
            radius: typed("2 m"),
            sweep: Some(typed("180 deg")),
            length: None,
            height: typed("3 m"),
        };
        Arc::new(wall)
    };
    let straight = |id: &str| {
        let mut wall = (*template[0]).clone();
        wall.id = id.into();
        wall.ends = [].into();
        wall.outside.as_mut().unwrap().inset = None;
        wall.inside.as_mut().unwrap().inset = None;
        Arc::new(wall)
    };
    let ring = of_walls(&[straight("A"), curved("B"), straight("C"), curved("D")]).unwrap();
    assert!(ring.gap < 1e-6);
    let top = |points: &[[f64; 2]]| points.iter().map(|p| p[1]).fold(0.0, f64::max);
    let right = |points: &[[f64; 2]]| points.iter().map(|p| p[0]).fold(0.0, f64::max);
    assert!((top(&ring.outside) - 4000.0).abs() < 1e-6);
    assert!((right(&ring.outside) - 5000.0).abs() < 1e-6);
    assert!((top(&ring.inside) - 3550.0).abs() < 1e-6);
    assert!((right(&ring.inside) - 4550.0).abs() < 1e-6);
    let two = of_walls(&[curved("A"), curved("B")]).unwrap();
    assert!((top(&two.outside) - 4000.0).abs() < 1e-6);
}

#[test]
fn turns_are_read_as_they_are_said() {
    for (said, degrees) in [
        ("left", 90.0),
        (" Right ", -90.0),
        ("left 45", 45.0),
        ("45° right", -45.0),
        ("right 30 deg + 1 deg", -31.0),
        ("30", 30.0),
        ("-30 deg", -30.0),
        ("0", 0.0),
        ("right 0", 0.0),
    ] {
        let turn = super::read_turn(said).unwrap();
        assert!(
            (turn.value().value.to_degrees() - degrees).abs() < 1e-9,
            "{said}"
        );
    }
    for said in ["", "wrong", "left -45", "right 5 m", "left right"] {
        assert!(super::read_turn(said).is_err(), "{said}");
    }
}
