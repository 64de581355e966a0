//! What the README shows is what the program prints. `UPDATE=1 cargo test -p hodful readme` writes it
//! anew.

use crate::run::said;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// What the command line of a block prints, run from the top folder.
fn printed(command: &str) -> String {
    let (command, lines) = match command.split_once(" | head -n ") {
        Some((command, lines)) => (command, lines.parse().unwrap()),
        None => (command, usize::MAX),
    };
    let arguments: Vec<String> = command
        .strip_prefix("hodful ")
        .unwrap()
        .split('\'')
        .enumerate()
        .flat_map(|(i, piece)| match i % 2 {
            0 => piece.split_whitespace().map(str::to_owned).collect(),
            _ => vec![piece.to_owned()],
        })
        .collect();
    let output = Command::new(env!("CARGO_BIN_EXE_hodful"))
        .args(arguments)
        .current_dir(root())
        .output()
        .unwrap();
    let said = said(output);
    let text = said.figures + &said.words;
    text.lines()
        .take(lines)
        .map(|line| format!("{line}\n"))
        .collect()
}

#[test]
fn what_the_readme_shows_is_what_is_printed() {
    let path = root().join("README.md");
    let text = fs::read_to_string(&path).unwrap();
    let mut anew = String::new();
    let mut blocks = 0;
    let mut rest = text.as_str();
    while let Some((before, block)) = rest.split_once("```console\n$ ") {
        let (command, after) = block.split_once('\n').unwrap();
        let (_, after) = after.split_once("```").unwrap();
        anew.push_str(&format!(
            "{before}```console\n$ {command}\n{}```",
            printed(command)
        ));
        rest = after;
        blocks += 1;
    }
    anew.push_str(rest);
    assert!(blocks >= 4, "the README shows the program at work");
    if env::var_os("UPDATE").is_some() {
        fs::write(&path, &anew).unwrap();
    } else {
        assert!(
            text == anew,
            "the README is stale: UPDATE=1 cargo test -p hodful readme"
        );
    }
}

#[test]
fn the_readme_names_a_test_command() {
    let text = fs::read_to_string(root().join("README.md")).unwrap();
    assert!(text.contains("<!-- test command -->\n```sh\ncargo test "));
}

#[test]
fn the_project_in_the_readme_opens_and_is_sound() {
    let text = fs::read_to_string(root().join("README.md")).unwrap();
    let (_, block) = text.split_once("```json\n").unwrap();
    let (project, _) = block.split_once("```").unwrap();
    let said = crate::run::Site::new().run_with_input(&["check", "-"], project);
    assert_eq!(said.code, Some(0), "{said:?}");
    assert!(
        said.figures.contains("nothing refused, nothing doubtful"),
        "{}",
        said.figures
    );
}
