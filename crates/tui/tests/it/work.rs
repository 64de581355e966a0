//! Saving, leaving, taking work back: nothing is lost. The disk is that of the driver.

use crate::driver::{Driver, demo, empty, start};
use hodful_tui::{Effect, Message, Opened, Recovered, Start};
use std::path::PathBuf;

fn quits(driver: &Driver) -> Option<bool> {
    driver.effects.iter().find_map(|effect| match effect {
        Effect::Quit { keep } => Some(*keep),
        _ => None,
    })
}

#[test]
fn a_project_is_clean_only_when_its_own_save_came_back() {
    let mut driver = Driver::demo("thistlebank-workshop");
    assert!(!driver.state.doc().is_changed());
    driver.play("3 +");
    assert!(driver.state.doc().is_changed());
    driver.key("ctrl-s");
    assert!(!driver.state.doc().is_changed());
    let saved = driver.disk.get(&PathBuf::from("barn.hodful.json")).unwrap();
    assert_eq!(&**saved, driver.project());
    driver.key("u");
    assert!(driver.state.doc().is_changed());
    driver.key("r");
    assert!(!driver.state.doc().is_changed());
}

#[test]
fn a_change_during_a_save_stays_unsaved() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("3 +");
    let effects = hodful_tui::update(
        &mut driver.state,
        Message::Key(ratatui::crossterm::event::KeyEvent::new(
            ratatui::crossterm::event::KeyCode::Char('s'),
            ratatui::crossterm::event::KeyModifiers::CONTROL,
        )),
    );
    let Some(Effect::Save { id, .. }) = effects.first() else {
        panic!("nothing is saved");
    };
    driver.key("down").key("+");
    driver.send(Message::Saved {
        id: *id,
        outcome: Ok(()),
    });
    assert!(driver.state.doc().is_changed());
}

#[test]
fn leaving_asks_once_and_only_when_something_is_not_saved() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.key("q");
    assert_eq!(quits(&driver), Some(false));
    for (answer, keep) in [("d", false), ("k", true)] {
        let mut driver = Driver::demo("thistlebank-workshop");
        driver.play("3 + ctrl-q");
        assert_eq!(quits(&driver), None);
        driver.key(answer);
        if !keep {
            // A stray letter only chooses what loses work.
            assert_eq!(quits(&driver), None);
            driver.key("enter");
        }
        assert_eq!(quits(&driver), Some(keep), "{answer}");
    }
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("3 + q s");
    assert_eq!(quits(&driver), Some(false));
    assert_eq!(driver.disk.len(), 1);
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("3 + q c");
    assert_eq!(quits(&driver), None);
}

#[test]
fn a_new_project_is_saved_under_a_name() {
    let mut driver = Driver::unnamed();
    driver
        .line("plan 20' x 16' high 9' thick 18\"")
        .key("esc")
        .key("ctrl-s");
    driver.text("shed").key("enter");
    assert!(driver.disk.contains_key(&PathBuf::from("shed.hodful.json")));
    assert!(!driver.state.doc().is_changed());
    assert!(driver.screen(120, 40).contains("shed.hodful.json"));
}

#[test]
fn a_file_that_somebody_else_changed_is_not_written_over_unasked() {
    let file = PathBuf::from("barn.hodful.json");
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.foreign.push(file.clone());
    driver.play("3 + ctrl-s");
    assert!(driver.disk.is_empty());
    assert!(driver.screen(80, 24).contains("was changed on the disk"));
    driver.key("c");
    assert!(driver.state.doc().is_changed());
    driver.key("ctrl-s").key("w");
    assert!(driver.disk.is_empty());
    driver.key("enter");
    assert!(driver.disk.contains_key(&file));
    assert!(!driver.state.doc().is_changed());
}

#[test]
fn work_of_an_earlier_run_is_offered_and_taken_back() {
    let recovered = || {
        let mut project = demo("thistlebank-workshop");
        project.name = "Recovered".into();
        Recovered {
            project,
            when: "today at 14:32".into(),
            file_changed: false,
        }
    };
    let with = || Start {
        recovered: Some(recovered()),
        ..start(demo("thistlebank-workshop"))
    };
    let mut driver = Driver::new(with());
    driver.key("b");
    assert_eq!(driver.project().name, "Recovered");
    assert!(driver.state.doc().is_changed());
    let kinds: Vec<bool> = driver
        .effects
        .iter()
        .filter_map(|effect| match effect {
            Effect::Record { .. } => Some(true),
            Effect::ForgetFound => Some(false),
            _ => None,
        })
        .collect();
    // First it is safe in the new journal, then the old one goes.
    assert_eq!(kinds, [true, false]);
    let mut driver = Driver::new(with());
    driver.key("d").key("enter");
    assert_ne!(driver.project().name, "Recovered");
    assert!(driver.effects.contains(&Effect::ForgetFound));
    let mut driver = Driver::new(with());
    driver.key("l");
    assert!(!driver.effects.contains(&Effect::ForgetFound));
}

#[test]
fn a_missing_file_is_offered_to_be_created() {
    let mut driver = Driver::new(Start {
        opened: Opened::Missing,
        ..start(empty())
    });
    assert!(
        driver
            .screen(80, 24)
            .contains("There is no file barn.hodful.json yet")
    );
    driver
        .key("b")
        .line("wall 20' x 9' thick 18\"")
        .key("esc")
        .key("ctrl-s");
    assert_eq!(driver.disk.len(), 1);
    let mut driver = Driver::new(Start {
        opened: Opened::Missing,
        ..start(empty())
    });
    driver.key("q").key("enter");
    assert_eq!(quits(&driver), Some(false));
}

#[test]
fn another_file_of_that_name_does_not_become_the_projects_own() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.foreign.push("other.hodful.json".into());
    driver.play("f6 ctrl-u \"other\" enter");
    assert!(
        driver
            .screen(80, 24)
            .contains("There is a file other.hodful.json already")
    );
    driver.key("c").play("3 + ctrl-s");
    assert!(driver.disk.contains_key(&PathBuf::from("barn.hodful.json")));
    assert_eq!(driver.disk.len(), 1);
}

#[test]
fn a_broken_file_is_looked_at_only() {
    let bytes = br#"{ "format": "hodful-project", "version": 1, "name": "Shed", "units": "us",
        "walls": [ { "id": "S", "shape": { "kind": "rectangle", "length": "12'", "height": "9'" },
                     "thickness": "18 im" } ] }"#;
    let (project, problems) = hodful_project_file::read_what_can_be(bytes);
    let mut driver = Driver::new(Start {
        opened: Opened::Broken(problems),
        ..start(project.unwrap())
    });
    assert!(driver.screen(80, 24).contains("18 im"));
    let before = driver.project().clone();
    driver.play("n ctrl-s 1 d a f8 tab \"x\" enter");
    assert_eq!(driver.project(), &before);
    assert!(driver.disk.is_empty());
    driver.play("esc esc q");
    assert_eq!(quits(&driver), Some(false));
}

#[test]
fn a_signal_keeps_what_is_not_saved() {
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.send(Message::Ending);
    assert_eq!(quits(&driver), Some(false));
    let mut driver = Driver::demo("thistlebank-workshop");
    driver.play("3 +");
    driver.send(Message::Ending);
    assert_eq!(quits(&driver), Some(true));
}

#[test]
fn pasted_text_goes_into_fields_only() {
    let mut driver = Driver::demo("thistlebank-workshop");
    let before = driver.project().clone();
    driver.send(Message::Paste("dddd\nq\u{1b}[200~".into()));
    assert_eq!(driver.project(), &before);
    assert!(driver.notice().contains("no field is being typed"));
    driver.key("n");
    driver.send(Message::Paste("window 4' x 3'\n at 6'".into()));
    assert_eq!(driver.state.entry().input.value(), "window 4' x 3'  at 6'");
}
