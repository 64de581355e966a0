//! What each command does, and how it ends.

use crate::run::{Site, demos, said};
use std::process::Stdio;

#[test]
fn a_new_project_opens_at_once() {
    assert!(demos().len() >= 4);
    for demo in demos() {
        let site = Site::with_demo(&demo);
        for command in ["measure", "order", "check"] {
            let said = site.run(&[command, "demo.hodful.json"]);
            assert_eq!(said.code, Some(0), "{demo} {command}: {}", said.words);
            assert!(!said.figures.is_empty(), "{demo} {command}");
        }
    }
}

#[test]
fn a_file_that_is_there_is_left_alone() {
    let site = Site::new();
    site.write("barn.json", "mine");
    let said = site.run(&["new", "barn.json"]);
    assert_eq!(said.code, Some(2));
    assert!(
        said.words
            .contains("'barn.json' is there already and is left alone"),
        "{}",
        said.words
    );
    assert_eq!(site.read("barn.json"), "mine");
}

/// The weather that a demo names lies beside the new project, so that its days are planned in it at once.
#[test]
fn a_new_project_has_its_weather_beside_it() {
    let site = Site::new();
    std::fs::create_dir(site.path("barn")).unwrap();
    let said = site.run(&["new", "barn/barn.hodful.json"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(
        said.words.contains("hollowmere.epw', its weather\nwrote '"),
        "{}",
        said.words
    );
    assert!(site.read("barn/hollowmere.epw") == crate::golden::WEATHER);
    let said = site.run(&["plan", "barn/barn.hodful.json"]);
    assert!(
        said.figures.contains("Weather: Hollowmere"),
        "{}",
        said.figures
    );
    // The same weather may be there; another is left alone, and the project is written all the same.
    let said = site.run(&["new", "barn/second.hodful.json"]);
    assert_eq!(
        said.words.matches("hollowmere.epw").count(),
        0,
        "{}",
        said.words
    );
    site.write("barn/hollowmere.epw", "mine");
    let said = site.run(&["new", "barn/third.hodful.json"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(
        said.words
            .contains("hollowmere.epw' is there already and is left alone; --force writes over it"),
        "{}",
        said.words
    );
    assert_eq!(site.read("barn/hollowmere.epw"), "mine");
    let said = site.run(&["new", "barn/fourth.hodful.json", "--force"]);
    assert_eq!(said.code, Some(0), "{}", said.words);
    assert!(site.read("barn/hollowmere.epw") == crate::golden::WEATHER);
    // A project is never written over.
    let said = site.run(&["new", "barn/fourth.hodful.json", "--force"]);
    assert_eq!(said.code, Some(2));
    // A demo without weather brings none.
    let other = Site::with_demo("saltcedar-room");
    assert_eq!(std::fs::read_dir(other.path(".")).unwrap().count(), 1);
}

#[test]
fn an_unknown_demo_is_answered_with_those_there_are() {
    let said = Site::new().run(&["new", "barn.json", "--from", "castle"]);
    assert_eq!(said.code, Some(2));
    for demo in demos() {
        assert!(said.words.contains(&demo), "{}", said.words);
    }
}

#[test]
fn a_missing_file_is_told_and_ends_with_2() {
    let said = Site::new().run(&["order", "nowhere.json"]);
    assert_eq!(said.code, Some(2));
    assert!(said.figures.is_empty());
    assert!(
        said.words.contains("'nowhere.json' cannot be read"),
        "{}",
        said.words
    );
}

#[test]
fn everything_wrong_is_told_at_once_and_ends_with_1() {
    let site = Site::with_demo("saltcedar-room");
    let text = site.read("demo.hodful.json");
    let broken =
        text.replacen("\"length\":", "\"lenght\":", 1)
            .replacen("\"sill\": \"", "\"sill\": \"x", 1);
    assert_ne!(text, broken);
    site.write("demo.hodful.json", &broken);
    for command in ["measure", "order", "check"] {
        let said = site.run(&[command, "demo.hodful.json"]);
        assert_eq!(said.code, Some(1), "{command}");
        let told = said.figures + &said.words;
        assert!(told.contains("did you mean 'length'"), "{command}: {told}");
        assert!(told.contains("is not a length"), "{command}: {told}");
    }
}

#[test]
fn a_name_that_is_not_there_is_refused_with_the_nearest() {
    let site = Site::with_demo("saltcedar-room");
    let text = site.read("demo.hodful.json");
    let broken = text.replace("\"mix\": \"finish\"", "\"mix\": \"finsh\"");
    assert_ne!(text, broken);
    site.write("demo.hodful.json", &broken);
    let said = site.run(&["check", "demo.hodful.json"]);
    assert_eq!(said.code, Some(1));
    let told = said
        .figures
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(
        told.contains("there is no mix 'finsh'; did you mean 'finish'?"),
        "{told}"
    );
}

#[test]
fn broken_syntax_says_where() {
    let site = Site::new();
    site.write(
        "x.json",
        "{ \"format\": \"hodful-project\",\n  \"version\": 1,, }",
    );
    let said = site.run(&["check", "x.json"]);
    assert_eq!(said.code, Some(1));
    assert!(said.figures.contains("line 2"), "{}", said.figures);
}

#[test]
fn a_project_comes_from_standard_input_too() {
    let site = Site::with_demo("ferry-loft");
    let text = site.read("demo.hodful.json");
    let piped = site.run_with_input(&["order", "-"], &text);
    let named = site.run(&["order", "demo.hodful.json"]);
    assert_eq!(piped.code, Some(0));
    assert_eq!(piped.figures, named.figures);
}

#[test]
fn a_closed_pipe_ends_quietly() {
    let site = Site::with_demo("quillmere-school");
    let plain = ["measure", "order", "card", "soils", "chances", "forecast"];
    let plain = plain.map(|command| vec![command, "demo.hodful.json"]);
    let others = [
        vec!["compare", "demo.hodful.json", "demo.hodful.json"],
        vec!["sweep", "demo.hodful.json", "--coat", "finish"],
    ];
    for arguments in plain.into_iter().chain(others) {
        let command = arguments[0];
        let mut child = site
            .command(&arguments)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let said = said(child.wait_with_output().unwrap());
        assert_eq!(said.code, Some(0), "{command}: {}", said.words);
        assert!(!said.words.contains("panicked"), "{}", said.words);
    }
}

#[test]
fn an_unknown_figure_is_answered_with_what_there_is() {
    let site = Site::with_demo("saltcedar-room");
    for (path, answer) in [
        ("order.gold", "plaster sand"),
        ("walls.nowhere.inside", "there is no wall 'nowhere'"),
        (
            "surfaces",
            "begin with one of walls, totals, coats, batch, mixes, order",
        ),
        ("coats.room", "wants more"),
        ("order.\"sand", "a quotation mark is not closed"),
        ("", "no figure is named"),
    ] {
        let said = site.run(&["explain", "demo.hodful.json", path]);
        assert_eq!(said.code, Some(2), "{path}");
        assert!(said.words.contains(answer), "{path}: {}", said.words);
    }
}

#[test]
fn completions_and_the_manual_come_from_the_same_definitions() {
    let site = Site::new();
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let said = site.run(&["completions", shell]);
        assert_eq!(said.code, Some(0));
        for command in [
            "new", "measure", "order", "card", "soils", "settle", "blend", "compare", "sweep",
            "chances", "forecast", "export", "explain", "check", "cautions",
        ] {
            assert!(said.figures.contains(command), "{shell} {command}");
        }
    }
    let manual = site.run(&["manual"]);
    assert_eq!(manual.code, Some(0));
    assert!(manual.figures.contains(".TH hodful 1"));
    assert!(manual.figures.contains("Exit code 0"));
    for command in [
        "measure", "order", "card", "soils", "settle", "blend", "compare", "sweep", "chances",
        "forecast", "export", "explain", "check",
    ] {
        assert!(manual.figures.contains(command), "{command}");
    }
}

#[test]
fn misuse_ends_with_2() {
    let site = Site::new();
    for arguments in [
        &["dig"][..],
        &[],
        &["order"],
        &["order", "x", "--format", "pdf"],
    ] {
        assert_eq!(site.run(arguments).code, Some(2), "{arguments:?}");
    }
}
