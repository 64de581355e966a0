//! `hodful [FILE]` where there is no terminal to show it on. Not here: the screen.

use crate::run::{Site, said};
use std::process::Stdio;

const NO_TERMINAL: &str = "hodful: the screen needs a terminal; for figures in a pipe use hodful measure, order, explain\n";

#[test]
fn without_a_terminal_the_way_to_figures_is_told() {
    let site = Site::with_demo("saltcedar-room");
    let before = site.read("demo.hodful.json");
    for arguments in [
        &[][..],
        &["demo.hodful.json"],
        &["nowhere.hodful.json"],
        &["./order"],
    ] {
        let said = site.run(arguments);
        assert_eq!(said.code, Some(2), "{arguments:?}");
        assert_eq!(said.words, NO_TERMINAL, "{arguments:?}");
        assert_eq!(said.figures, "", "{arguments:?}");
    }
    assert_eq!(site.read("demo.hodful.json"), before);
    let names = std::fs::read_dir(site.path(".")).unwrap().count();
    assert_eq!(names, 1, "nothing is left behind");
}

#[test]
fn what_cannot_be_opened_is_told_and_ends_with_2() {
    let site = Site::new();
    for (argument, answer) in [
        (".", "it is a folder; give the name of a file"),
        ("no/barn.json", "there is no such file or folder"),
        ("-", "name a file"),
    ] {
        let said = site.run(&[argument]);
        assert_eq!(said.code, Some(2), "{argument}");
        assert!(said.words.starts_with("hodful: "), "{}", said.words);
        assert!(said.words.contains(answer), "{argument}: {}", said.words);
    }
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read_is_told() {
    use std::os::unix::fs::PermissionsExt;
    let site = Site::with_demo("saltcedar-room");
    let path = site.path("demo.hodful.json");
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o000)).unwrap();
    let said = site.run(&["demo.hodful.json"]);
    assert_eq!(said.code, Some(2));
    // The administrator may read everything, and comes as far as the terminal.
    if std::fs::read(&path).is_err() {
        assert!(
            said.words.contains("it may not be read or written"),
            "{}",
            said.words
        );
    } else {
        assert_eq!(said.words, NO_TERMINAL);
    }
}

#[test]
fn help_and_the_manual_tell_of_the_screen() {
    let site = Site::new();
    let help = site.run(&["--help"]);
    assert_eq!(help.code, Some(0));
    for words in [
        "hodful barn.hodful.json",
        "[FILE]",
        "opens the project on the screen",
        "./order",
    ] {
        assert!(help.figures.contains(words), "{words}: {}", help.figures);
    }
    assert!(help.figures.lines().all(|line| line.chars().count() <= 80));
    let manual = site.run(&["manual"]);
    assert!(manual.figures.contains("FILE"), "{}", manual.figures);
    assert!(manual.figures.contains("hodful barn.hodful.json"));
    let completions = said(
        site.command(&["completions", "zsh"])
            .stdin(Stdio::null())
            .output()
            .unwrap(),
    );
    assert!(
        completions
            .figures
            .contains("::file -- The project file to open on the screen"),
        "{}",
        completions.figures
    );
}
