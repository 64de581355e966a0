//! How few keys a building takes, and what keys lead to. Not here: the grammar of the entry line.

use crate::driver::{Driver, demo, start};
use hodful_quantities::Measure;
use hodful_quantities::units::Length;
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::RevealPart;
use hodful_takeoff::{Severity, all_problems};
use hodful_tui::Message;
use ratatui::crossterm::event::{KeyModifiers, MouseButton, MouseEvent, MouseEventKind};

/// The most keys for four walls with both faces, three windows and a door.
const MOST: usize = 120;

#[test]
fn a_building_takes_at_most_120_keys() {
    let mut driver = Driver::unnamed();
    driver
        .line("plan 36'x24' h 9' t 18 r 2")
        .line("S win 4'x3'6 at 6' sill 2'8 splay 20 r 2")
        .line("E win at 8'")
        .line("W win at 10'")
        .line("N door 3' x 6'8 at 9' r 2");
    println!("{} keys", driver.pressed);
    assert!(driver.pressed <= MOST, "{} keys", driver.pressed);

    let project = driver.project();
    assert_eq!(project.walls.len(), 4);
    for wall in &project.walls {
        assert!(
            wall.outside.is_some() && wall.inside.is_some(),
            "{}",
            wall.id
        );
    }
    let openings: Vec<_> = project
        .walls
        .iter()
        .flat_map(|wall| &wall.openings)
        .collect();
    assert_eq!(openings.len(), 4);
    let two = Length::read("2 in").unwrap();
    for opening in &openings {
        let inside = opening.inside.as_ref().unwrap();
        assert!(
            inside.plastered.contains(&RevealPart::Jambs),
            "{}",
            opening.id
        );
        assert!(
            inside.plastered.contains(&RevealPart::Head),
            "{}",
            opening.id
        );
        assert_eq!(
            inside.radius.as_ref().map(|r| r.value().value),
            Some(two.value),
            "{}",
            opening.id
        );
    }
    assert_eq!(
        openings
            .iter()
            .filter(|o| o.kind.as_deref() == Some("window"))
            .count(),
        3
    );
    assert_eq!(
        openings
            .iter()
            .filter(|o| o.kind.as_deref() == Some("door"))
            .count(),
        1
    );
    let refused: Vec<String> = all_problems(project, &hodful_project_file::rules())
        .into_iter()
        .filter(|problem| problem.severity == Severity::Refused)
        .map(|problem| problem.to_string())
        .collect();
    assert_eq!(refused, Vec::<String>::new());
}

#[test]
fn typing_replaces_enter_takes_and_goes_down_tab_goes_on_esc_restores() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.key("tab");
    let rows = driver.state.rows();
    let thickness = rows.iter().position(|row| row.key == "thickness").unwrap();
    go_to(&mut driver, thickness);
    assert_eq!(driver.state.field(), thickness);
    let old = rows[thickness].text.clone();
    driver.text("20").key("esc");
    assert_eq!(driver.state.rows()[thickness].text, old);
    driver.text("2*8\" + 4").key("enter");
    // A number with no unit in a sum has no reading; the field stays open with what was typed.
    let typing = driver.state.typing();
    assert!(
        typing.is_some_and(|typing| typing.understood.is_err()),
        "{}",
        driver.notice()
    );
    assert_eq!(typing.unwrap().input.value(), "2*8\" + 4");
    driver.text("\"").key("enter");
    assert_eq!(
        driver.state.rows()[thickness].text.as_deref(),
        Some("2*8\" + 4\"")
    );
    assert_eq!(driver.state.field(), thickness + 1);
    driver.key("up").text("19").key("tab");
    assert_eq!(driver.state.rows()[thickness].text.as_deref(), Some("19\""));
    assert_eq!(driver.state.field(), thickness + 1);
}

#[test]
fn one_field_changed_on_all_that_is_ticked() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.key("shift-t");
    let walls = driver.project().walls.len();
    assert_eq!(driver.state.walls().ticked.len(), walls);
    driver.key("tab");
    let at = driver
        .state
        .rows()
        .iter()
        .position(|row| row.key == "sheet")
        .unwrap();
    go_to(&mut driver, at);
    driver.text("A-9").key("enter");
    assert!(
        driver
            .project()
            .walls
            .iter()
            .all(|wall| wall.sheet.as_deref() == Some("A-9")),
        "{}",
        driver.notice()
    );
    driver.key("ctrl-u");
    assert!(
        driver
            .project()
            .walls
            .iter()
            .all(|wall| wall.sheet.as_deref() != Some("A-9"))
    );
}

#[test]
fn copy_mirror_repeat_and_remove_come_back_by_undo() {
    let mut driver = Driver::demo("thistlebank-workshop");
    let begin = driver.project().clone();
    driver.key("c");
    assert_eq!(driver.project().walls.len(), begin.walls.len() + 1);
    let surface = driver.state.doc().headline().surface.value;
    driver.key("v");
    // A mirrored wall has the same surface, and the distances from its other end.
    let mirrored = driver.state.doc().headline().surface.value;
    assert!(
        (mirrored / surface - 1.0).abs() < 1e-12,
        "{mirrored} {surface}"
    );
    let from_left = |driver: &Driver| {
        let wall = driver.state.wall().unwrap();
        let of = |at: usize| wall.openings[at].from_left.value().value;
        (of(0), of(1))
    };
    // 40 ft long; three windows of 3 ft every 9 ft from 4 ft on, a door of 3 ft 4 in further right.
    let feet = |feet: f64, inches: f64| (feet * 12.0 + inches) * 25.4;
    let door = begin.walls[0].openings[1].from_left.value().value;
    let expected = (
        feet(40.0, 0.0) - feet(4.0 + 2.0 * 9.0 + 3.0, 0.0),
        feet(40.0, 0.0) - door - feet(3.0, 4.0),
    );
    let (windows, doors) = from_left(&driver);
    assert!((windows - expected.0).abs() < 1e-9, "{windows}");
    assert!((doors - expected.1).abs() < 1e-9, "{doors}");
    driver.key("v");
    let (windows, doors) = from_left(&driver);
    assert!((windows - feet(4.0, 0.0)).abs() < 1e-9, "{windows}");
    assert!((doors - door).abs() < 1e-9, "{doors}");
    driver.key("p").text("3").key("enter");
    assert_eq!(
        driver.state.wall().unwrap().count,
        Some(3),
        "{}",
        driver.notice()
    );
    driver.key("d");
    assert_eq!(driver.project().walls.len(), begin.walls.len());
    while driver.state.doc().next_undo().is_some() {
        driver.key("u");
    }
    assert_eq!(driver.project(), &begin);
    assert!(!driver.state.doc().is_changed());
}

#[test]
fn a_held_key_is_one_step_of_undo() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("3");
    let begin = driver.project().clone();
    for _ in 0..8 {
        driver.key("+");
    }
    assert_ne!(driver.project(), &begin);
    driver.key("u");
    assert_eq!(driver.project(), &begin);
    assert!(
        driver.notice().starts_with("Undone: thickness of"),
        "{}",
        driver.notice()
    );
}

#[test]
fn units_change_what_is_shown_and_nothing_that_was_typed() {
    let mut driver = Driver::demo("thistlebank-workshop");
    let walls = driver.project().walls.clone();
    let before = driver.units();
    driver.key("f8");
    assert_ne!(driver.units(), before);
    assert_eq!(driver.project().walls, walls);
    assert!(driver.screen(120, 40).contains("m²"));
}

#[test]
fn a_figure_leads_to_the_field_it_was_typed_in() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.key("w");
    // Walk to the first leaf that was typed, unfolding on the way.
    for _ in 0..400 {
        let Some(hodful_tui::state::Popup::Why(why)) = driver.state.popup() else {
            break;
        };
        let rows = why.rows();
        let row = &rows[why.row];
        if row.node.typed.is_some() {
            let typed = row.node.typed.clone();
            driver.key("enter");
            assert!(driver.state.popup().is_none());
            let field = driver.state.rows()[driver.state.field()].clone();
            assert_eq!(field.text, typed);
            return;
        }
        if row.node.terms.is_empty() || row.open {
            driver.key("down");
        } else {
            driver.key("right");
        }
    }
    panic!("no typed leaf was met");
}

#[test]
fn a_problem_leads_to_its_field() {
    let mut project = demo("thistlebank-workshop");
    let wall = std::sync::Arc::make_mut(&mut project.walls[0]);
    wall.openings[0].sill = hodful_quantities::Typed::read("100'").unwrap();
    let mut driver = Driver::new(start(project));
    driver.key("5");
    assert!(driver.screen(80, 24).contains('!'));
    driver.key("enter");
    assert_eq!(driver.state.walls().wall, 0);
    assert!(matches!(
        driver.state.subject(),
        Some(Subject::Opening {
            wall: 0,
            opening: 0
        })
    ));
    // The figures go on without that wall, and say so.
    assert!(
        driver.screen(120, 40).contains("without 1 of"),
        "{}",
        driver.screen(120, 40)
    );
}

#[test]
fn a_command_of_the_list_is_done() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.key("f2").text("metric").key("enter");
    assert!(driver.screen(120, 40).contains("m²"));
    driver.key("f2").text("take back last").key("esc");
    assert!(driver.state.popup().is_none());
}

#[test]
fn what_cannot_be_done_says_why() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.key("u");
    assert_eq!(driver.notice(), "there is nothing to undo");
    driver.key("+");
    assert_eq!(driver.notice(), "this is for the coats page");
}

#[test]
fn a_keymap_file_is_used_and_hinted_at() {
    let mut driver = Driver::new(hodful_tui::Start {
        keymap: Some(("keys".into(), "look = z\n".into())),
        ..start(demo("thistlebank-workshop"))
    });
    let before = driver.state.walls().look;
    driver.key("o");
    assert_eq!(driver.state.walls().look, before);
    driver.key("z");
    assert_ne!(driver.state.walls().look, before);
    assert!(driver.screen(120, 40).contains("z: other side"));
}

#[test]
fn a_value_goes_to_the_thing_it_was_typed_for() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.key("f9").key("tab");
    let at = driver
        .state
        .rows()
        .iter()
        .position(|row| row.key == "thickness")
        .unwrap();
    go_to(&mut driver, at);
    driver.text("20");
    let before = driver.project().clone();
    // The wheel chooses another wall: what was typed is left, not written there.
    mouse(&mut driver, MouseEventKind::ScrollDown, (5, 5));
    driver.key("enter");
    assert_eq!(driver.project(), &before);
}

#[test]
fn commands_of_another_part_are_not_done() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver
        .key("tab")
        .text("2")
        .key("f2")
        .text("remove")
        .key("enter");
    assert_eq!(driver.notice(), "it works in the list");
    assert_eq!(driver.project(), &demo("thistlebank-workshop"));
}

#[test]
fn left_and_right_move_in_a_line_that_is_typed() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("f \"ac\" left \"b\"");
    assert_eq!(driver.state.walls().filter, "abc");
    // Closing the box brings back what held before.
    driver.key("esc");
    assert_eq!(driver.state.walls().filter, "");
}

#[test]
fn what_the_filter_hides_is_left_alone() {
    let mut driver = Driver::demo("thistlebank-workshop");
    let before = driver.project().clone();
    driver.play("f \"no such wall\" enter d");
    assert_eq!(driver.project(), &before);
    assert_eq!(driver.notice(), "there is nothing chosen in the list");
    assert!(driver.screen(80, 24).contains("No wall has"));
}

#[test]
fn a_half_typed_line_is_not_lost() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("n \"window 4' x\" down");
    assert_eq!(driver.state.entry().input.value(), "window 4' x");
    driver.key("up");
    assert_eq!(driver.state.entry().input.value(), "window 4' x");
    driver
        .text(" 3' at 1' sill 3'")
        .key("enter")
        .text("do")
        .key("up");
    assert_eq!(
        driver.state.entry().input.value(),
        "window 4' x 3' at 1' sill 3'"
    );
    driver.key("down");
    assert_eq!(driver.state.entry().input.value(), "do");
}

#[test]
fn the_first_problem_comes_first() {
    let mut project = demo("thistlebank-workshop");
    for at in [0, 2] {
        let wall = std::sync::Arc::make_mut(&mut project.walls[at]);
        wall.openings[0].sill = hodful_quantities::Typed::read("100'").unwrap();
    }
    let mut driver = Driver::new(start(project));
    driver.key("g");
    assert_eq!(driver.state.problem_row(), 0);
    driver.key("esc").key("g");
    assert_eq!(driver.state.problem_row(), 1);
}

#[test]
fn adding_where_there_is_one_already_changes_nothing() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("4 end a");
    assert_eq!(driver.project(), &demo("thistlebank-workshop"));
}

#[test]
fn a_renamed_wall_stays_ticked() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("t home tab");
    go_to(&mut driver, 0);
    driver.text("SX").key("enter");
    assert_eq!(driver.project().walls[0].id, "SX");
    let ticked: Vec<_> = driver
        .state
        .walls()
        .ticked
        .iter()
        .map(|(wall, _)| wall.to_string())
        .collect();
    assert_eq!(ticked, ["SX"]);
}

/// Goes to a field by its position.
fn go_to(driver: &mut Driver, at: usize) {
    while driver.state.field() > at {
        driver.key("up");
    }
    while driver.state.field() < at {
        driver.key("down");
    }
}

fn mouse(driver: &mut Driver, kind: MouseEventKind, (column, row): (u16, u16)) {
    driver.send(Message::Mouse(MouseEvent {
        kind,
        column,
        row,
        modifiers: KeyModifiers::NONE,
    }));
}

/// Where some letters stand on the screen, by cells.
fn place(driver: &mut Driver, letters: &str) -> (u16, u16) {
    let screen = driver.screen(120, 40);
    for (row, line) in (0..).zip(screen.lines()) {
        if let Some((before, _)) = line.split_once(letters) {
            return (u16::try_from(before.chars().count()).unwrap(), row);
        }
    }
    panic!("{letters} is not on the screen\n{screen}");
}

/// Where some letters stand in the drawing.
fn drawn(driver: &mut Driver, letters: &str) -> (u16, u16) {
    let screen = driver.screen(120, 40);
    for (row, line) in (0..).zip(screen.lines()) {
        let Some((list, drawing)) = line.split_once('│') else {
            continue;
        };
        if let Some((before, _)) = drawing.split_once(letters) {
            let column = list.chars().count() + 1 + before.chars().count();
            return (u16::try_from(column).unwrap(), row);
        }
    }
    panic!("{letters} is not drawn\n{screen}");
}

#[test]
fn the_mouse_chooses_and_drags_openings() {
    let mut driver = Driver::demo("thistlebank-workshop");
    let click = MouseEventKind::Down(MouseButton::Left);
    let east = place(&mut driver, "E East gable");
    mouse(&mut driver, click, east);
    assert_eq!(driver.state.walls().wall, 0, "the mouse is off by default");
    driver.key("f9");
    mouse(&mut driver, click, east);
    assert_eq!(driver.state.walls().wall, 1);
    driver.key("home");
    for side in ["outside", "inside"] {
        let begin = driver.project().clone();
        let door = drawn(&mut driver, "D1");
        mouse(&mut driver, click, door);
        let chosen = driver.state.subject();
        assert!(
            matches!(
                chosen,
                Some(Subject::Opening {
                    wall: 0,
                    opening: 1
                })
            ),
            "{side}"
        );
        let from_left = |driver: &Driver| {
            driver.project().walls[0].openings[1]
                .from_left
                .value()
                .value
        };
        let before = from_left(&driver);
        for step in 1..=4 {
            mouse(
                &mut driver,
                MouseEventKind::Drag(MouseButton::Left),
                (door.0 - step, door.1),
            );
        }
        mouse(&mut driver, MouseEventKind::Up(MouseButton::Left), door);
        // Left on the screen is to the left from outside, to the right from inside. Four cells of a wall
        // of 40 ft over some forty cells are about four feet, to the inch.
        let moved = (from_left(&driver) - before) / 304.8;
        let left = if side == "outside" { -moved } else { moved };
        assert!(left > 2.0 && left < 6.0, "{side}: {moved}");
        driver.key("u");
        assert_eq!(driver.project(), &begin, "a drag is one step");
        driver.key("home").key("o");
    }
}

#[test]
fn a_figure_of_a_great_many_walls_unfolds_where_it_is_asked() {
    let mut project = demo("thistlebank-workshop");
    let walls = project.walls.clone();
    for copy in 0..60 {
        for wall in &walls {
            let mut wall = wall.as_ref().clone();
            wall.id = format!("{}-{copy}", wall.id).into();
            project.walls.push(std::sync::Arc::new(wall));
        }
    }
    let mut driver = Driver::new(start(project));
    driver.play("shift-w enter down");
    let rows = |driver: &Driver| match driver.state.popup() {
        Some(hodful_tui::state::Popup::Why(why)) => why.rows().len(),
        _ => panic!("no tree is open"),
    };
    let faces = rows(&driver) - 1;
    let figure = |driver: &Driver| match driver.state.popup() {
        Some(hodful_tui::state::Popup::Why(why)) => why.rows()[1].node.figure.value,
        _ => panic!("no tree is open"),
    };
    let before = figure(&driver);
    driver.key("right");
    // The field, the reveals, the rounded edges; and the figure is still the same.
    assert_eq!(rows(&driver), 1 + faces + 3);
    assert!((figure(&driver) - before).abs() <= 1e-9 * before);
    let terms: f64 = match driver.state.popup() {
        Some(hodful_tui::state::Popup::Why(why)) => why.rows()[1]
            .node
            .terms
            .iter()
            .map(|node| node.figure.value)
            .sum(),
        _ => panic!("no tree is open"),
    };
    assert!((terms - before).abs() <= 1e-9 * before, "{terms} {before}");
}

#[test]
fn insides_follow_the_thickness_of_the_walls_they_end_at() {
    let mut driver = Driver::unnamed();
    driver.line("plan 36'x24' h 9' t 18").key("esc");
    let inside = |driver: &Driver| -> Vec<f64> {
        let faces = &driver.state.doc().bench().evaluation().faces;
        let area =
            |face: &[Option<hodful_takeoff::FaceFigures>; 2]| face[1].unwrap().measure.outline;
        // Square feet.
        faces
            .iter()
            .map(|face| (area(face) / 304.8 / 304.8 * 1000.0).round() / 1000.0)
            .collect()
    };
    // 36 ft less two walls of 18 in, 24 ft less two, by 9 ft.
    assert_eq!(inside(&driver), [297.0, 189.0, 297.0, 189.0]);
    let set = |driver: &mut Driver, text: &str| {
        driver.key("tab");
        let at = driver
            .state
            .rows()
            .iter()
            .position(|row| row.key == "thickness")
            .unwrap();
        go_to(driver, at);
        driver.text(text).key("enter").key("esc");
    };
    driver.key("home");
    set(&mut driver, "24");
    // The south wall alone: east and west lose half a foot each.
    assert_eq!(inside(&driver), [297.0, 184.5, 297.0, 184.5]);
    driver.key("home").key("shift-t");
    set(&mut driver, "12");
    assert_eq!(inside(&driver), [306.0, 198.0, 306.0, 198.0]);
    driver.key("u").key("u");
    assert_eq!(inside(&driver), [297.0, 189.0, 297.0, 189.0]);
}

#[test]
fn the_keys_hinted_at_are_those_that_work_there() {
    let mut driver = Driver::demo("thistlebank-workshop");
    let hints = |driver: &mut Driver| driver.screen(120, 40).lines().last().unwrap().to_owned();
    driver.key("down").key("tab");
    let fields = hints(&mut driver);
    for words in [
        "Right next choice",
        "Delete clear",
        "Esc list",
        "Ctrl-u undo",
    ] {
        // Undo is hinted at only once there is something to undo.
        assert_eq!(
            fields.contains(words),
            words != "Ctrl-u undo",
            "{words}: {fields}"
        );
    }
    driver
        .key("esc")
        .key("n")
        .line("window 2' x 2' at 1' sill 3'");
    // In the line Ctrl-u empties it: it must not be offered as undo.
    assert!(
        !hints(&mut driver).contains("Ctrl-u"),
        "{}",
        hints(&mut driver)
    );
}
