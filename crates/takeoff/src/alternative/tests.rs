//! Changes made and found, on a small project.

use super::*;
use crate::form::tests::project;
use crate::project::{Alternative, Spot};

fn option(changes: Vec<Alteration>) -> Alternative {
    Alternative {
        changes,
        ..Alternative::default()
    }
}

fn of_coat(build_up: Option<&str>, coat: &str) -> Spot {
    Spot {
        build_up: build_up.map(Name::from),
        coat: Some(coat.into()),
        ..Spot::default()
    }
}

const SCRATCH: Subject = Subject::Coat {
    build_up: 0,
    coat: 0,
};

fn thickness(project: &Project) -> f64 {
    project.build_ups["two coats"][0].thickness.value().value
}

fn set(at: Spot, field: &str, to: &str) -> Alteration {
    Alteration::Set {
        at,
        field: field.into(),
        to: Some(to.into()),
    }
}

fn add(at: Spot, field: &str, by: &str) -> Alteration {
    Alteration::Add {
        at,
        field: field.into(),
        by: by.into(),
    }
}

#[test]
fn a_change_follows_the_project() {
    let mut base = project();
    let more = add(of_coat(None, "scratch"), "thickness", "1/2 in");
    let less = add(of_coat(Some("two coats"), "scratch"), "thickness", "-4 mm");
    base.options.insert("more".into(), option(vec![more]));
    base.options.insert("less".into(), option(vec![less]));
    let mm = |project: &Project| thickness(project);
    assert!((mm(&apply(&base, "more").unwrap()) - 24.7).abs() < 1e-12);
    assert!((mm(&apply(&base, "less").unwrap()) - 8.0).abs() < 1e-12);
    form::set(&mut base, SCRATCH, "thickness", "20 mm").unwrap();
    assert!((mm(&apply(&base, "more").unwrap()) - 32.7).abs() < 1e-12);
    // The walls are those of the project.
    let of = apply(&base, "more").unwrap();
    assert!(std::sync::Arc::ptr_eq(&of.walls[0], &base.walls[0]));
}

#[test]
fn an_option_of_an_option_has_both() {
    let mut base = project();
    let thicker = set(of_coat(None, "scratch"), "thickness", "20 mm");
    base.options.insert("thick".into(), option(vec![thicker]));
    let more = Alternative {
        of: Some("thick".into()),
        ..option(vec![add(of_coat(None, "scratch"), "thickness", "5 mm")])
    };
    base.options.insert("thicker still".into(), more);
    let of = apply(&base, "thicker still").unwrap();
    assert!((thickness(&of) - 25.0).abs() < 1e-12);
    // Another name of the first is the name that the second starts from.
    form::set(&mut base, Subject::Alternative(0), "name", "first").unwrap();
    assert_eq!(base.options["thicker still"].of.as_deref(), Some("first"));
    assert!(apply(&base, "thicker still").is_ok());
}

#[test]
fn what_starts_from_itself_or_from_nothing_is_refused() {
    let mut base = project();
    let of = |name: &str| Alternative {
        of: Some(name.into()),
        ..Alternative::default()
    };
    base.options.insert("a".into(), of("b"));
    base.options.insert("b".into(), of("a"));
    base.options.insert("c".into(), of("d"));
    assert!(
        apply(&base, "a").unwrap_err()[0]
            .message
            .contains("starts from itself")
    );
    assert!(
        apply(&base, "c").unwrap_err()[0]
            .message
            .contains("no option 'd'")
    );
    assert!(
        apply(&base, "d").unwrap_err()[0]
            .message
            .contains("no option of that name")
    );
}

#[test]
fn a_change_that_no_longer_fits_says_so_and_the_rest_is_tried() {
    let mut base = project();
    let changes = vec![
        add(of_coat(None, "fill"), "thickness", "5 mm"),
        set(of_coat(None, "scratch"), "thickness", "20 mm"),
        set(of_coat(None, "scratch"), "thicknes", "20 mm"),
        set(of_coat(None, "scratch"), "mix", "lime"),
        set(of_coat(None, "scratch"), "thickness", "much"),
        add(of_coat(None, "scratch"), "loss", "5 %"),
    ];
    base.options.insert("wrong".into(), option(changes));
    let found = apply(&base, "wrong").unwrap_err();
    let words: Vec<String> = found.iter().map(ToString::to_string).collect();
    let has = |number: u8, part: &str| {
        let place = format!("option wrong, change {number}: no longer fits: ");
        words
            .iter()
            .any(|w| w.starts_with(&place) && w.contains(part))
    };
    assert_eq!(found.len(), 5, "{words:#?}");
    assert!(has(1, "no build-up has a coat 'fill'"), "{words:#?}");
    assert!(has(3, "thicknes"), "{words:#?}");
    assert!(has(4, "lime"), "{words:#?}");
    assert!(has(5, "much"), "{words:#?}");
    assert!(has(6, "not given"), "{words:#?}");
    // They keep nothing from being computed.
    assert_eq!(misfits(&base).len(), 5);
    let doubtful = |p: &Problem| p.severity == crate::problem::Severity::Doubtful;
    assert!(misfits(&base).iter().all(doubtful));
}

#[test]
fn new_names_are_followed() {
    let mut base = project();
    let spot = |wall: &str| Spot {
        wall: Some(wall.into()),
        ..Spot::default()
    };
    let changes = vec![
        set(of_coat(Some("two coats"), "scratch"), "mix", "base"),
        Alteration::LeaveOut { at: spot("N") },
    ];
    base.options.insert("all".into(), option(changes));
    form::set(&mut base, Subject::BuildUp(0), "name", "one coat").unwrap();
    form::set(&mut base, SCRATCH, "coat", "first").unwrap();
    form::set(&mut base, Subject::Mix(0), "name", "plain").unwrap();
    form::set(&mut base, Subject::Wall(1), "id", "north").unwrap();
    assert_eq!(misfits(&base), []);
    assert_eq!(apply(&base, "all").unwrap().walls.len(), 1);
}

#[test]
fn what_was_tried_becomes_changes() {
    let base = project();
    let mut tried = base.clone();
    form::set(&mut tried, SCRATCH, "thickness", "20 mm").unwrap();
    form::set(&mut tried, Subject::Material(0), "moisture", "4 %").unwrap();
    form::set(&mut tried, Subject::Wall(0), "length", "7 m").unwrap();
    form::set(
        &mut tried,
        Subject::Opening {
            wall: 1,
            opening: 0,
        },
        "sill",
        "1 m",
    )
    .unwrap();
    form::set(&mut tried, Subject::Project, "measurement_rule", "gross").unwrap();
    let coats = tried.build_ups.get_mut("two coats").unwrap();
    let mut finish = coats[0].clone();
    finish.coat = "finish".into();
    coats.push(finish);
    tried.materials["sand"].packages.remove(0);
    let changes = between(&base, &tried).unwrap();
    assert_eq!(changes.len(), 7, "{changes:#?}");
    let mut with = base.clone();
    with.options.insert("tried".into(), option(changes));
    let made = apply(&with, "tried").unwrap();
    let made = Project {
        options: tried.options.clone(),
        ..made
    };
    assert!(crate::change::Change::between(&made, &tried).is_nothing());
    // What no change can make is said.
    let mut other = base.clone();
    other.mixes.shift_remove("base");
    assert!(between(&base, &other).is_err());
    assert_eq!(between(&base, &base), Ok(Vec::new()));
}
