//! Walls and buildings.

use super::super::{Change, Context, understand};
use super::{empty, last, metric, one_wall, read, refused, typed, workshop};
use hodful_quantities::Typed;
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::{CornerAngle, Project, Side, WallShape};
use std::sync::Arc;

fn shape(project: &Project) -> Vec<String> {
    let texts: &[&Typed<_>] = match &last(project).shape {
        WallShape::Rectangle { length, height } => &[length, height],
        WallShape::Gable {
            length,
            eaves,
            ridge,
            ..
        } => &[length, eaves, ridge],
        WallShape::Raked {
            length,
            left,
            right,
        } => &[length, left, right],
        WallShape::Curved {
            radius,
            length: Some(length),
            height,
            ..
        } => &[radius, length, height],
        _ => &[],
    };
    texts.iter().map(|text| text.text().to_owned()).collect()
}

#[test]
fn a_wall_keeps_what_was_typed() {
    let project = typed(empty(), &["wall 2*12' by 9 ft thick 18"]);
    assert_eq!(shape(&project), ["2*12'", "9 ft"]);
    assert_eq!(last(&project).thickness.text(), "18\"");
    assert!(matches!(last(&project).shape, WallShape::Rectangle { .. }));
    assert_eq!(refused(&project), Vec::<String>::new());
}

#[test]
fn bare_numbers_are_millimetres_in_a_metric_project() {
    let project = typed(metric(), &["wall 7200x2700 thick 450"]);
    assert_eq!(shape(&project), ["7200 mm", "2700 mm"]);
    assert_eq!(last(&project).thickness.text(), "450 mm");
}

#[test]
fn blanks_may_be_left_out() {
    let spaced = typed(
        empty(),
        &["wall 24' x 9' thick 18\" base 4\" ceiling 8'6\""],
    );
    let close = typed(empty(), &["wall 24'x9'thick18\"base4\"ceiling8'6\""]);
    assert_eq!(spaced.walls, close.walls);
}

#[test]
fn what_is_left_out_is_as_in_the_last_wall() {
    let first = "wall 24' x 9' thick 18 base 4 ceiling 8'6 inside with inside cob on cob";
    let project = typed(empty(), &[first, "wall 30'"]);
    let [one, two] = project.walls.as_slice() else {
        panic!()
    };
    assert_eq!(shape(&project), ["30'", "9'"]);
    assert_eq!((&two.outside, &two.inside), (&one.outside, &one.inside));
    assert_eq!(two.thickness, one.thickness);
    assert_eq!((one.id.as_str(), two.id.as_str()), ("A", "B"));
    let inside = two.inside.as_ref().unwrap();
    assert_eq!(
        (inside.build_up.as_str(), inside.background.as_str()),
        ("inside cob", "cob")
    );
    // A ceiling hangs inside; a base is on both sides when no side is said.
    assert_eq!(
        inside
            .inset
            .as_ref()
            .unwrap()
            .ceiling
            .as_ref()
            .unwrap()
            .text(),
        "8'6"
    );
    let outside = two.outside.as_ref().unwrap().inset.as_ref().unwrap();
    assert_eq!(
        (
            outside.ceiling.as_ref(),
            outside.bottom.as_ref().unwrap().text()
        ),
        (None, "4\"")
    );
    assert_eq!(refused(&project), Vec::<String>::new());
}

#[test]
fn other_outlines() {
    let gable = typed(one_wall(), &["gable 24' x 9' ridge 14' at 10'"]);
    assert_eq!(shape(&gable), ["24'", "9'", "14'"]);
    let raked = typed(one_wall(), &["raked 24' x 9' to 11'"]);
    assert_eq!(shape(&raked), ["24'", "9'", "11'"]);
    let curved = typed(one_wall(), &["curved 30' x 9' radius 20'"]);
    assert_eq!(shape(&curved), ["20'", "30'", "9'"]);
    let swept = typed(one_wall(), &["curved radius 20' sweep 90"]);
    let WallShape::Curved {
        sweep: Some(sweep),
        length: None,
        ..
    } = &last(&swept).shape
    else {
        panic!()
    };
    assert_eq!(sweep.text(), "90 deg");
    for project in [gable, raked, curved, swept] {
        assert_eq!(refused(&project), Vec::<String>::new());
    }
}

#[test]
fn one_side_only() {
    let project = typed(empty(), &["wall 24' x 9' thick 18 inside only"]);
    assert!(last(&project).outside.is_none() && last(&project).inside.is_some());
    let project = typed(project, &["wall 20'"]);
    assert!(last(&project).outside.is_none() && last(&project).inside.is_some());
    let project = typed(project, &["wall 20' outside base 4"]);
    assert!(last(&project).outside.is_some() && last(&project).inside.is_some());
}

#[test]
fn names_with_blanks_and_ids() {
    let project = typed(one_wall(), &["wall 20' name \"south wall\" id S7 thick 16"]);
    assert_eq!(last(&project).name.as_deref(), Some("south wall"));
    assert_eq!(last(&project).id, "S7");
    assert_eq!(last(&project).thickness.text(), "16\"");
}

#[test]
fn a_round_building_and_an_l() {
    let round = typed(empty(), &["plan round 24' high 9' thick 18"]);
    assert_eq!(round.walls.len(), 1);
    let ell = typed(
        empty(),
        &["plan L 36' x 24' less 12' x 8' high 9' thick 18"],
    );
    assert_eq!(ell.walls.len(), 6);
    let ring = "plan 36' left 16' left 12' right 8' left 24' left 24' high 9' thick 18";
    let ring = typed(empty(), &[ring]);
    assert_eq!(ring.walls.len(), 6);
    for project in [round, ell, ring] {
        assert_eq!(refused(&project), Vec::<String>::new());
    }
}

/// A regular hexagon: six sides, each turned 60 degrees (Euclid, Elements IV 15).
#[test]
fn turns_of_other_angles() {
    let hexagon = "plan 12' left 60° 12' left 60° 12' left 60° 12' left 60° 12' left 60° 12' high 9' thick 18";
    let project = typed(empty(), &[hexagon]);
    assert_eq!(project.walls.len(), 6);
    assert_eq!(refused(&project), Vec::<String>::new());
}

#[test]
fn a_plan_rounds_its_corners_and_coves_its_angles() {
    let line = "plan 36' x 24' high 9' thick 18 rounded 2 inside cove 1 base 6";
    let project = typed(empty(), &[line]);
    for wall in &project.walls {
        for end in wall.ends.iter() {
            match end.angle {
                CornerAngle::External => assert_eq!(end.radius.as_ref().unwrap().text(), "2\""),
                CornerAngle::Internal => assert_eq!(end.cove.as_ref().unwrap().text(), "1\""),
            }
        }
        assert_eq!(wall.ends.len(), 2);
        let inside = wall.face(Side::Inside).unwrap().inset.as_ref().unwrap();
        assert_eq!(inside.bottom.as_ref().unwrap().text(), "6\"");
    }
}

#[test]
fn a_second_building_has_names_of_its_own() {
    let line = "plan 36' x 24' high 9' thick 18";
    let project = typed(empty(), &[line, line, line]);
    let ids: Vec<&str> = project.walls.iter().map(|wall| wall.id.as_str()).collect();
    assert_eq!(
        ids,
        [
            "S", "E", "N", "W", "S2", "E2", "N2", "W2", "S3", "E3", "N3", "W3"
        ]
    );
    assert_eq!(refused(&project), Vec::<String>::new());
}

#[test]
fn inside_sizes() {
    let clear = typed(empty(), &["plan 33' x 21' clear high 9' thick 18"]);
    let WallShape::Rectangle { length, .. } = &clear.walls[0].shape else {
        panic!()
    };
    assert_eq!(length.text(), "36'");
}

#[test]
fn a_change_is_labelled_and_gives_its_subject() {
    let mut project = workshop();
    let before = project.walls.len();
    let change = read(&project, "plan 36' x 24' high 9' thick 18")
        .change
        .unwrap();
    assert_eq!(change.label(&project), "add walls S2, E2, N2, W2");
    assert_eq!(change.apply(&mut project), Some(Subject::Wall(before)));
    assert_eq!(project.walls.len(), before + 4);
    let change = read(&project, "N window").change.unwrap();
    assert_eq!(change.label(&project), "add window W5 to wall N");
    let north = project
        .walls
        .iter()
        .position(|wall| wall.id == "N")
        .unwrap();
    let there = project.walls[north].openings.len();
    let kept = Arc::clone(&project.walls[north]);
    assert_eq!(
        change.apply(&mut project),
        Some(Subject::Opening {
            wall: north,
            opening: there
        })
    );
    assert_eq!(kept.openings.len(), there, "an older copy stays as it was");
    let gone = Change::Opening {
        wall: 99,
        opening: kept.openings[0].clone(),
    };
    assert_eq!(gone.apply(&mut project), None);
}

#[test]
fn what_is_missing_stands_in_a_sketch_only() {
    let project = empty();
    for (line, missing) in [
        ("plan 36' x 24'", "how high? Add: high 9'"),
        ("plan 36' x 24' high 9'", "how thick? Add: thick 18\""),
        ("wall 24'", "how high? Add: high 9'"),
        (
            "gable 24' x 9' thick 18",
            "how high is the ridge? Add: ridge 14'",
        ),
    ] {
        let reading = read(&project, line);
        assert!(matches!(reading.change, Some(Change::Walls(_))), "{line}");
        assert_eq!(reading.ready(), None);
        assert_eq!(reading.fault.unwrap().message, missing);
    }
}

#[test]
fn a_sketch_grows_while_the_line_is_typed() {
    let project = empty();
    let line = "plan 36' x 24' high 9' thick 18\" rounded 2\"";
    let context = Context {
        project: &project,
        wall: None,
        opening: None,
    };
    let sketched = line.find("24'").unwrap() + 3;
    for (end, _) in line.char_indices().skip(sketched) {
        let typed = line.get(..end).unwrap();
        let reading = understand(typed, end, &context);
        assert!(reading.change.is_some(), "{typed}");
    }
}
