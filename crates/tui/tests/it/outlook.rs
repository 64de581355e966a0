//! What keys lead to on the pages of options and of chances. Not here: how they look.

use crate::driver::Driver;
use hodful_takeoff::alternative;
use hodful_takeoff::drawing::Role;
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::{Alteration, UncertainInput};
use hodful_tui::state::Screen;

const WORKSHOP: &str = "thistlebank-workshop";
const BARN: &str = "marlpit-barn";

fn mm(driver: &Driver, build_up: usize, coat: usize) -> f64 {
    let (_, coats) = driver.project().build_ups.get_index(build_up).unwrap();
    coats[coat].thickness.value().value
}

/// Mark, try, keep: the project is as it was, the option has what was tried, and undo takes both back.
#[test]
fn what_was_tried_is_kept_as_an_option() {
    let mut driver = Driver::demo(WORKSHOP);
    let begin = driver.project().clone();
    let was = mm(&driver, 0, 1);
    driver.play("3 down + +");
    assert!((mm(&driver, 0, 1) - was - 6.35).abs() < 1e-9);
    driver.play("9 a");
    assert_eq!(driver.state.screen(), Screen::Options);
    assert!((mm(&driver, 0, 1) - was).abs() < 1e-9);
    let project = driver.project();
    assert_eq!(project.options.len(), begin.options.len() + 1);
    let (name, of) = project.options.last().unwrap();
    assert!(matches!(of.changes.as_slice(), [Alteration::Set { .. }]));
    let made = alternative::apply(project, name).unwrap();
    assert!((made.build_ups[0][1].thickness.value().value - was - 6.35).abs() < 1e-9);
    let at = project.options.len() - 1;
    assert_eq!(driver.state.subject(), Some(Subject::Alternative(at)));
    // Taken up, the project has it, and the option is gone.
    driver.play("y");
    assert!((mm(&driver, 0, 1) - was - 6.35).abs() < 1e-9);
    assert_eq!(driver.project().options.len(), begin.options.len());
    driver.play("u u u u");
    assert!(driver.project() == &begin);
}

#[test]
fn without_a_change_since_the_mark_there_is_nothing_to_keep() {
    let mut driver = Driver::demo(WORKSHOP);
    let begin = driver.project().clone();
    driver.play("9 a");
    let notice = driver.state.notice().unwrap();
    assert!(notice.bad && notice.words.contains("Nothing was changed since the mark"));
    assert!(driver.project() == &begin);
    // What no option can hold is said, and stays.
    driver.play("4 down d 9 a");
    let notice = driver.state.notice().unwrap();
    assert!(notice.bad, "{notice:?}");
}

/// A name given since the mark stays where it is named, and nothing is kept: the project is what it was.
#[test]
fn a_new_name_since_the_mark_is_not_kept() {
    let mut driver = Driver::demo(BARN);
    let recorded = driver.project().done[0].coat.clone();
    let coats = driver.project().build_ups.values().flatten();
    let count = coats.filter(|coat| coat.coat == recorded).count();
    assert!(count > 0);
    driver.play("m 3");
    let coat = |driver: &Driver| match driver.state.subject() {
        Some(Subject::Coat { build_up, coat }) => {
            driver.project().build_ups[build_up][coat].coat.clone()
        }
        _ => "".into(),
    };
    // Every coat of the name is given another, so that the record follows.
    for _ in 0..count {
        driver.key("home");
        while coat(&driver) != recorded {
            driver.key("down");
        }
        driver.play("tab pageup");
        driver.text("key coat");
        driver.play("enter esc");
    }
    assert_eq!(driver.project().done[0].coat, "key coat");
    let before = driver.project().clone();
    driver.play("9 a");
    let notice = driver.state.notice().unwrap();
    assert!(
        notice.bad && notice.words.contains("gave way to key coat"),
        "{notice:?}"
    );
    assert!(driver.project() == &before);
}

/// An option with one that it starts from: both go, and what started from the first starts from the project.
#[test]
fn an_option_is_taken_up_with_those_that_it_starts_from() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("9 down");
    let names: Vec<_> = driver.project().options.keys().cloned().collect();
    let first = names[0].clone();
    driver.play("c tab");
    while driver.state.rows()[driver.state.field()].key != "of" {
        driver.key("down");
    }
    driver.text(&first);
    driver.play("enter esc");
    let at = match driver.state.subject() {
        Some(Subject::Alternative(at)) => at,
        other => panic!("{other:?}"),
    };
    let (name, of) = driver.project().options.get_index(at).unwrap();
    let (name, from) = (name.clone(), of.of.clone());
    assert_eq!(from, Some(first.clone()));
    let made = alternative::apply(driver.project(), &name).unwrap();
    driver.play("y");
    let project = driver.project();
    assert!(!project.options.contains_key(&name) && !project.options.contains_key(&first));
    assert_eq!(project.build_ups, made.build_ups);
    let notice = driver.state.notice().unwrap();
    assert!(
        notice.words.contains(&format!("and so has gone {first}")),
        "{notice:?}"
    );
}

/// The chosen option is the base, its name over the first column; again, the project is.
#[test]
fn an_option_can_be_the_base() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.screen(120, 40);
    driver.play("9 down");
    let name = driver.project().options.get_index(0).unwrap().0.clone();
    let base = |driver: &mut Driver| {
        driver.screen(120, 40);
        let (_, compared) = driver.state.compared().unwrap();
        let table = compared.table.as_ref().unwrap();
        table.names[table.base].clone()
    };
    assert_ne!(base(&mut driver), name);
    driver.play("shift-b");
    assert_eq!(base(&mut driver), name);
    let screen = driver.screen(160, 50);
    assert!(screen.contains("All is held against"), "{screen}");
    // The project is held against it, with what makes the difference.
    let (_, compared) = driver.state.compared().unwrap();
    assert!(compared.causes[1].is_empty() && !compared.causes[0].is_empty());
    driver.play("shift-b");
    assert_ne!(base(&mut driver), name);
    driver.play("shift-b home shift-b");
    assert_ne!(base(&mut driver), name);
}

#[test]
fn options_are_named_copied_moved_and_removed() {
    let mut driver = Driver::demo(WORKSHOP);
    let begin = driver.project().clone();
    driver.play("9 down");
    assert_eq!(driver.state.subject(), Some(Subject::Alternative(0)));
    driver.key("tab");
    driver.text("thick fill");
    driver.key("enter");
    assert_eq!(
        driver.project().options.get_index(0).unwrap().0,
        "thick fill"
    );
    driver.play("tab c");
    assert_eq!(driver.project().options.len(), begin.options.len() + 1);
    driver.play("d");
    assert_eq!(driver.project().options.len(), begin.options.len());
    driver.play("home down shift-down");
    assert_eq!(
        driver.project().options.get_index(1).unwrap().0,
        "thick fill"
    );
    for _ in 0..4 {
        driver.key("u");
    }
    assert!(driver.project() == &begin);
    // A change of an option is typed in the units of its field.
    driver.play("home down down tab");
    driver.text("3/4");
    driver.key("enter");
    let (_, of) = driver.project().options.get_index(0).unwrap();
    assert!(matches!(&of.changes[0], Alteration::Add { by, .. } if by == "3/4\""));
}

#[test]
fn records_and_uncertain_inputs_are_added() {
    let mut driver = Driver::demo(BARN);
    let begin = driver.project().clone();
    driver.play("0");
    assert_eq!(driver.state.screen(), Screen::Chances);
    driver.key("e");
    let done = driver.project().done.last().unwrap();
    assert_eq!(
        (done.coat.as_str(), done.walls[0].as_str()),
        ("scratch", "E")
    );
    // It counts for nothing until it is typed what it took, and says so.
    let told = |driver: &Driver| {
        let mut problems = driver.state.doc().problems().iter();
        problems.any(|problem| problem.message.contains("is nothing yet"))
    };
    assert!(told(&driver));
    // Every wall has it now.
    driver.key("e");
    assert!(driver.state.notice().unwrap().bad);
    driver.play("h home a");
    assert_eq!(driver.project().delivered.len(), begin.delivered.len() + 1);
    assert_eq!(driver.project().done.len(), begin.done.len() + 1);
    driver.play("u u");
    assert!(driver.project() == &begin);

    let mut driver = Driver::demo(WORKSHOP);
    driver.play("0 a");
    let last = driver.project().uncertain.last().unwrap();
    assert_eq!(
        (last.of, last.name.as_deref()),
        (UncertainInput::Thickness, Some("scratch"))
    );
}

/// The question that a project is opened for most: six keys from opening it, and two where it was asked
/// before and is kept as an option.
#[test]
fn half_an_inch_more_fill_takes_six_keys() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.screen(80, 24);
    let pressed = driver.pressed;
    driver.play("3 down + + + +");
    assert!(driver.pressed - pressed <= 6);
    assert!((mm(&driver, 0, 1) - 1.125 * 25.4).abs() < 1e-9);
    let screen = driver.screen(120, 40);
    let totals = screen.lines().find(|line| line.contains("placed"));
    assert!(totals.is_some(), "{screen}");
    assert!(
        screen.contains("batches") && screen.contains('+'),
        "{screen}"
    );

    let mut driver = Driver::demo(WORKSHOP);
    driver.screen(120, 40);
    driver.play("9 down");
    let screen = driver.screen(120, 40);
    assert!(screen.contains("What makes the difference"), "{screen}");
}

/// The curve stands where it is while the mark of what the coat has moves along it; where the coat comes near its end the
/// range is twice as long, and the same thickness has the same curve whichever way it came.
#[test]
fn the_range_of_a_curve_stays_while_the_coat_is_well_within() {
    let outline = |driver: &Driver| {
        let drawing = driver.state.curve_drawing().unwrap();
        let strokes = drawing.strokes.iter();
        let outlines = strokes.filter(|stroke| stroke.role == Role::Outline);
        outlines
            .map(|stroke| stroke.points.clone())
            .collect::<Vec<_>>()
    };
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("3 down k");
    let (before, fill) = (outline(&driver), mm(&driver, 0, 1));
    assert!(fill < 1.5 * 25.4);
    while mm(&driver, 0, 1) < 1.7 * 25.4 {
        driver.play("+");
        assert!(outline(&driver) == before);
    }
    driver.play("+");
    let wider = outline(&driver);
    assert!(wider != before);
    driver.play("+ + +");
    assert!(outline(&driver) == wider);
    while mm(&driver, 0, 1) > fill + 1.0 {
        driver.play("-");
    }
    assert!(outline(&driver) == before);
}

/// The curve stands at what the coat has, and moves with it.
#[test]
fn the_curve_moves_while_the_key_is_held() {
    let mut driver = Driver::demo(WORKSHOP);
    driver.play("3 down");
    assert!(driver.state.curve_drawing().is_none());
    driver.play("k");
    let before = driver.state.curve_drawing().unwrap().clone();
    driver.play("+");
    assert!(driver.state.curve_drawing().unwrap() != &before);
    // It is of the chosen coat, and round again the layers are back.
    driver.play("-");
    assert!(driver.state.curve_drawing().unwrap() == &before);
    for _ in 0..=driver.project().materials.len() + 1 {
        driver.key("k");
    }
    assert!(driver.state.curve_drawing().is_none());
}
