//! Changes made and found, on a small project. What is kept and taken up: `tests/keeping.rs`.

mod keeping;

use super::*;
use crate::form::tests::project;
use crate::project::{Alternative, Done, Rate, Spot, Uncertain, UncertainInput, Work};
use crate::rule::{Rule, RuleBook};
use hodful_quantities::Typed;

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
    // The bags that lie in the yard are typed in the package still: that is the eighth.
    assert_eq!(changes.len(), 8, "{changes:#?}");
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

fn wall(id: &str) -> Spot {
    Spot {
        wall: Some(id.into()),
        ..Spot::default()
    }
}

fn record(coat: &str, walls: &[&str]) -> Done {
    Done {
        coat: coat.into(),
        build_up: None,
        walls: walls.iter().map(|id| Name::from(*id)).collect(),
        face: None,
        took: Typed::read("200 L").unwrap(),
        date: None,
        note: None,
    }
}

/// Two walls with two coats inside, all of it recorded wall by wall, and everything that can be said of a coat.
fn recorded() -> Project {
    let mut base = project();
    let mut finish = base.build_ups["two coats"][0].clone();
    finish.coat = "finish".into();
    base.build_ups["two coats"].push(finish);
    base.done = vec![
        record("scratch", &["S"]),
        record("scratch", &["N"]),
        record("finish", &["S", "N"]),
    ];
    let said = |of, name: &str| Uncertain {
        spread: Some(Typed::read("10 %").unwrap()),
        ..Uncertain::of(of, Some(name.into()))
    };
    base.uncertain = vec![
        said(UncertainInput::Thickness, "scratch"),
        said(UncertainInput::Thickness, "finish"),
        said(UncertainInput::Loss, "finish"),
        said(UncertainInput::Shrinkage, "finish"),
        said(UncertainInput::Yield, "base"),
    ];
    let mut work = Work::default();
    work.rates.insert("scratch".into(), Rate::default());
    work.rates.insert("finish".into(), Rate::default());
    base.work = Some(Box::new(work));
    base
}

/// The base without something, as an option makes it; nothing in it is refused.
fn without(base: &Project, changes: Vec<Alteration>) -> Project {
    let mut with = base.clone();
    with.options.insert("without".into(), option(changes));
    let made = apply(&with, "without").unwrap();
    let rules: RuleBook = [("net".into(), Rule::default())].into_iter().collect();
    if let Err(problems) = crate::check(&made, &rules) {
        panic!("{problems:#?}");
    }
    made
}

fn why_not(base: &Project, change: Alteration) -> String {
    let mut with = base.clone();
    with.options.insert("without".into(), option(vec![change]));
    let problems = apply(&with, "without").unwrap_err();
    assert_eq!(problems.len(), 1);
    problems[0].to_string()
}

#[test]
fn no_option_has_the_name_of_the_project() {
    let mut base = project();
    assert_eq!(as_it_stands(&base), "as it stands");
    base.options
        .insert("as it stands".into(), option(Vec::new()));
    assert_eq!(as_it_stands(&base), "the project as it stands");
    let name = as_it_stands(&base);
    base.options.insert(name, option(Vec::new()));
    assert!(!base.options.contains_key(&as_it_stands(&base)));
}

#[test]
fn what_is_said_of_a_coat_goes_with_it() {
    let base = recorded();
    let leave = |build_up, coat| Alteration::LeaveOut {
        at: of_coat(build_up, coat),
    };
    let made = without(&base, vec![leave(None, "finish")]);
    assert_eq!(made.done, base.done[..2]);
    let left: Vec<_> = made
        .uncertain
        .iter()
        .map(|of| (of.of, of.name.as_deref()))
        .collect();
    assert_eq!(
        left,
        [
            (UncertainInput::Thickness, Some("scratch")),
            (UncertainInput::Yield, Some("base"))
        ]
    );
    assert_eq!(
        made.work.unwrap().rates.keys().collect::<Vec<_>>(),
        ["scratch"]
    );
    // With another build-up that has the coat, what is said of it stays, and so do the records of the other.
    let mut two = base.clone();
    two.build_ups
        .insert("other".into(), two.build_ups["two coats"].clone());
    let face = std::sync::Arc::make_mut(&mut two.walls[1])
        .inside
        .as_mut()
        .unwrap();
    face.build_up = "other".into();
    let made = without(&two, vec![leave(Some("other"), "scratch")]);
    assert_eq!(made.uncertain, two.uncertain);
    assert_eq!(made.done, [base.done[0].clone(), base.done[2].clone()]);
    // A record of both build-ups cannot be told apart; both left out at once, it goes.
    let words = why_not(&two, leave(Some("other"), "finish"));
    assert!(
        words.starts_with(
            "option without, change 1: no longer fits: record 3 is of that and of more"
        ),
        "{words}"
    );
    let made = without(&two, vec![leave(None, "finish")]);
    assert_eq!(made.done, base.done[..2]);
    // Of no wall by name it is of all.
    two.done = vec![record("finish", &[])];
    assert!(why_not(&two, leave(Some("other"), "finish")).contains("record 1"));
    two.done[0].build_up = Some("other".into());
    assert_eq!(without(&two, vec![leave(Some("other"), "finish")]).done, []);
}

#[test]
fn what_is_recorded_of_a_wall_goes_with_it() {
    let mut base = recorded();
    let leave = |id| Alteration::LeaveOut { at: wall(id) };
    let words = why_not(&base, leave("S"));
    assert!(words.contains("record 3 is of that and of more"), "{words}");
    base.done[2].walls = vec!["N".into()];
    let made = without(&base, vec![leave("S")]);
    assert_eq!(made.done, base.done[1..]);
    assert_eq!(made.uncertain, base.uncertain);
    assert_eq!(made.walls.len(), 1);
}
