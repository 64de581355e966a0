//! Openings and pockets.

use super::super::{Context, understand};
use super::{empty, fault, last, metric, one_wall, opening, read, refused, typed, workshop};
use hodful_takeoff::project::{ArchKind, OpeningShape, Project, RevealPart, Side};

const WINDOW: &str = "window 4' x 3' at 6' sill 2'8";

fn reveal(project: &Project, side: Side) -> &hodful_takeoff::project::Reveal {
    opening(project).reveal(side).unwrap()
}

#[test]
fn the_first_window_is_told_where_its_frame_is_supposed() {
    let project = one_wall();
    let reading = read(&project, WINDOW);
    let said: Vec<&str> = reading.said.iter().map(ecow::EcoString::as_str).collect();
    assert_eq!(
        said,
        [
            "window W1 in wall A: 4' wide, 3' high, 6' from the left, sill 2' 8\"",
            "frame 3\" from the outside face, 3\" deep; in the outer third, as no frame was given yet",
            "outside: jambs, head",
            "inside: jambs, head, sill",
        ]
    );
    let project = typed(project, &[WINDOW]);
    assert_eq!(refused(&project), Vec::<String>::new());
    let OpeningShape::Rectangle { width, height } = &opening(&project).shape else {
        panic!()
    };
    assert_eq!((width.text(), height.text()), ("4'", "3'"));
    assert_eq!(opening(&project).sill.text(), "2'8");
}

#[test]
fn a_door_stands_on_the_ground_without_a_sill() {
    let project = typed(one_wall(), &["door 3' x 6'8 at 4'"]);
    assert_eq!(opening(&project).sill.text(), "0\"");
    for side in [Side::Outside, Side::Inside] {
        assert_eq!(
            reveal(&project, side).plastered,
            [RevealPart::Jambs, RevealPart::Head]
        );
    }
    assert_eq!(opening(&project).id, "D1");
    assert_eq!(refused(&project), Vec::<String>::new());
}

#[test]
fn words_are_for_both_sides_until_one_is_said() {
    let line = "window 4'x3' sill 32 rounded 1 inside splay 20 splay sill 10 rounded 3 lath 6 outside bare";
    let project = typed(one_wall(), &[line]);
    assert_eq!(opening(&project).outside, None);
    let inside = reveal(&project, Side::Inside);
    let splay = inside.splay.as_ref().unwrap();
    assert_eq!(splay.jambs.as_ref().unwrap().text(), "20 deg");
    assert_eq!(splay.sill.as_ref().unwrap().text(), "10 deg");
    assert_eq!(splay.head, None);
    assert_eq!(inside.radius.as_ref().unwrap().text(), "3\"");
    assert_eq!(inside.lath.as_ref().unwrap().text(), "6\"");
    let project = typed(
        one_wall(),
        &["window 4'x3' sill 32 rounded 1 inside rounded 3"],
    );
    assert_eq!(
        reveal(&project, Side::Outside)
            .radius
            .as_ref()
            .unwrap()
            .text(),
        "1\""
    );
    assert_eq!(
        reveal(&project, Side::Inside)
            .radius
            .as_ref()
            .unwrap()
            .text(),
        "3\""
    );
    assert_eq!(refused(&project), Vec::<String>::new());
}

#[test]
fn what_is_left_out_is_as_in_the_last_of_the_kind() {
    let first = "window 4'x3' at 2' sill 32 frame 4 deep 3 inside splay 15 rounded 2 lath 6";
    let project = typed(one_wall(), &[first, "door 3'x6'8 at 10'", "window at 18'"]);
    let openings = &last(&project).openings;
    let [one, door, two] = openings.as_slice() else {
        panic!()
    };
    assert_eq!((&one.shape, &one.sill), (&two.shape, &two.sill));
    assert_eq!((&one.frame, &one.inside), (&two.frame, &two.inside));
    assert_eq!(two.id, "W2");
    // A first door has the frame and the edges of the window, not its splay and sill.
    assert_eq!(door.frame, one.frame);
    let inside = door.inside.as_ref().unwrap();
    assert_eq!(inside.radius.as_ref().unwrap().text(), "2\"");
    assert_eq!((inside.splay.as_ref(), door.sill.text()), (None, "0\""));
    assert_eq!(refused(&project), Vec::<String>::new());
    let said = read(&project, "window at 12'").said;
    assert_eq!(said.last().unwrap(), "as in W2: size, sill, reveals");
}

#[test]
fn the_chosen_opening_is_what_a_new_one_is_like() {
    let project = typed(
        one_wall(),
        &["window 4'x3' at 2' sill 32", "window 2'x2' at 18' sill 5'"],
    );
    let like = |opening| {
        let context = Context {
            project: &project,
            wall: Some(0),
            opening,
        };
        understand("window at 10'", 13, &context)
            .said
            .first()
            .unwrap()
            .to_string()
    };
    assert!(like(Some(0)).contains("4' wide, 3' high"));
    assert!(like(Some(1)).contains("2' wide, 2' high"));
    assert!(like(None).contains("2' wide, 2' high"));
}

#[test]
fn places() {
    let at = |line: &str| {
        let project = typed(one_wall(), &[line]);
        assert_eq!(refused(&project), Vec::<String>::new(), "{line}");
        let opening = opening(&project);
        let spacing = opening.spacing.as_ref().map(|s| s.text().to_owned());
        (opening.from_left.text().to_owned(), spacing, opening.count)
    };
    // A wall of 24 ft.
    assert_eq!(at("door 3'x6'8"), ("10' 6\"".into(), None, None));
    assert_eq!(
        at("door 3'x6'8 at 2' from right"),
        ("19'".into(), None, None)
    );
    assert_eq!(at("door 3'x6'8 at 2' from left"), ("2'".into(), None, None));
    // Three of 4 ft leave 12 ft, which is four gaps of 3 ft.
    let spread = ("3'".into(), Some("7'".into()), Some(3));
    assert_eq!(at("3 windows 4'x3' sill 30"), spread);
    // 2 x 9 ft and 4 ft are 22 ft, which leaves 1 ft at either end.
    let every = ("1'".into(), Some("9'".into()), Some(3));
    assert_eq!(at("3 of window 4'x3' sill 30 every 9'"), every);
}

#[test]
fn arches_are_as_high_as_said_to_the_crown() {
    let project = typed(one_wall(), &["arched door 3' x 7' rise 1'"]);
    let OpeningShape::Arched {
        springing,
        rise,
        head,
        ..
    } = &opening(&project).shape
    else {
        panic!()
    };
    assert_eq!(
        (springing.text(), rise.as_ref().unwrap().text()),
        ("6'", "1'")
    );
    assert_eq!(*head, Some(ArchKind::Segmental));
    assert_eq!(opening(&project).kind.as_deref(), Some("arched door"));
    assert_eq!(refused(&project), Vec::<String>::new());
    let project = typed(one_wall(), &["arched window 4' x 5' sill 3' splay 10"]);
    let OpeningShape::Arched {
        springing,
        rise: None,
        head,
        ..
    } = &opening(&project).shape
    else {
        panic!()
    };
    assert_eq!(
        (springing.text(), *head),
        ("3'", Some(ArchKind::Semicircular))
    );
    assert_eq!(refused(&project), Vec::<String>::new());
    let project = typed(
        one_wall(),
        &["arched 4' springing 4' rise 1' elliptical sill 0"],
    );
    let OpeningShape::Arched { head, .. } = &opening(&project).shape else {
        panic!()
    };
    assert_eq!(*head, Some(ArchKind::Elliptical));
    assert_eq!(refused(&project), Vec::<String>::new());
}

#[test]
fn round_windows_have_a_ring() {
    let project = typed(
        one_wall(),
        &[
            "window 4'x3' at 2' sill 32 splay 10 rounded 1",
            "round window 2' at 10' sill 5' splay 20",
        ],
    );
    for side in [Side::Outside, Side::Inside] {
        let reveal = reveal(&project, side);
        assert_eq!(reveal.plastered, [RevealPart::Ring]);
        let splay = reveal.splay.as_ref().unwrap();
        assert_eq!(
            (splay.jambs.as_ref(), splay.ring.as_ref().unwrap().text()),
            (None, "20 deg")
        );
    }
    assert_eq!(refused(&project), Vec::<String>::new());
}

#[test]
fn a_passage_has_no_frame_to_stand_before() {
    let project = typed(one_wall(), &["opening 6' x 7'"]);
    let frame = opening(&project).frame.as_ref().unwrap();
    assert_eq!(frame.from_outside.text(), "0\"");
    assert_eq!(frame.depth.text(), "0\"");
    assert_eq!(refused(&project), Vec::<String>::new());
}

#[test]
fn a_side_without_plaster_has_no_reveals() {
    let project = typed(empty(), &["wall 24' x 9' thick 14 inside only", WINDOW]);
    assert_eq!(opening(&project).outside, None);
    assert!(opening(&project).inside.is_some());
    assert_eq!(refused(&project), Vec::<String>::new());
}

/// A frame supposed in a wall of any usual thickness leaves room for usual edges.
#[test]
fn supposed_frames_pass_the_checks() {
    for thickness in [6, 8, 10, 14, 18, 24, 36] {
        let wall = format!("wall 24' x 9' thick {thickness}");
        let project = typed(
            empty(),
            &[&wall, "window 4'x3' sill 32 rounded 1 inside splay 15"],
        );
        assert_eq!(refused(&project), Vec::<String>::new(), "{thickness}");
        let mm = format!("wall 7200 x 2700 thick {}", thickness * 25);
        let project = typed(metric(), &[&mm, "window 1200x900 sill 800 rounded 25"]);
        assert_eq!(refused(&project), Vec::<String>::new(), "{thickness}");
    }
}

#[test]
fn the_wall_is_named_chosen_or_the_only_one() {
    let project = workshop();
    let wall = |line: &str, chosen| {
        let context = Context {
            project: &project,
            wall: chosen,
            opening: None,
        };
        let reading = understand(line, line.len(), &context);
        match reading.change {
            Some(super::super::Change::Opening { wall, .. }) => Ok(wall),
            _ => Err(reading.fault.unwrap().message.to_string()),
        }
    };
    assert_eq!(wall(WINDOW, Some(2)), Ok(2));
    assert_eq!(wall(&format!("N {WINDOW}"), Some(0)), Ok(2));
    assert_eq!(wall(&format!("n {WINDOW}"), None), Ok(2));
    // W is a wall here, and the beginning of two words besides.
    assert_eq!(wall("W wi 4'x3' sill 30", None), Ok(3));
    assert_eq!(wall("S 2 windows 3'x4' sill 30", None), Ok(0));
    let lost = wall(WINDOW, None).unwrap_err();
    assert_eq!(
        lost,
        "in which wall? Choose one, or name it first, as in: S window"
    );
    assert!(fault(&empty(), WINDOW).starts_with("there is no wall yet"));
}

#[test]
fn pockets() {
    let project = typed(one_wall(), &["3 pockets 12 x 10 deep 2 outside"]);
    let pocket = &last(&project).pockets[0];
    assert_eq!((pocket.face, pocket.count), (Side::Outside, Some(3)));
    assert_eq!(
        (
            pocket.width.text(),
            pocket.height.text(),
            pocket.depth.text()
        ),
        ("12\"", "10\"", "2\"")
    );
    let project = typed(project, &["pocket 8 x 8"]);
    let pocket = &last(&project).pockets[1];
    assert_eq!(
        (pocket.face, pocket.depth.text(), pocket.count),
        (Side::Outside, "2\"", None)
    );
    assert_eq!(refused(&project), Vec::<String>::new());
}
