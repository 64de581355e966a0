//! What the README shows is what the program prints. `UPDATE=1 cargo test -p hodful readme` writes it
//! anew.

use crate::run::{Site, said};
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

/// The commands of what if and how sure, run on demos under the names that the README gives them. Fewer draws do.
#[test]
fn what_the_readme_tells_to_run_runs() {
    let text = fs::read_to_string(root().join("README.md")).unwrap();
    let (_, section) = text.split_once("\n## What if, and how sure\n").unwrap();
    let (_, block) = section.split_once("```sh\n").unwrap();
    let (block, _) = block.split_once("```").unwrap();
    let site = Site::with_demo("thistlebank-workshop");
    let demo = site.read("demo.hodful.json");
    for name in ["barn", "barn-march", "barn-april"] {
        site.write(&format!("{name}.hodful.json"), &demo);
    }
    let mut count = 0;
    for line in block.lines() {
        let (command, _) = line.split_once('#').unwrap_or((line, ""));
        let command = command.replace("100000", "200");
        let words = shell_words::split(&command).unwrap();
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        let (program, arguments) = words.split_first().unwrap();
        assert_eq!(*program, "hodful");
        let said = site.run(arguments);
        assert_eq!(said.code, Some(0), "{line}: {}", said.words);
        count += 1;
    }
    assert!(count >= 8);
    // What they are said to write is there: papers, and a drawing of each figure.
    for paper in ["options.pdf", "april.pdf", "sure.pdf"] {
        assert!(site.path(paper).exists(), "{paper}");
    }
    let drawings = fs::read_dir(site.path(".")).unwrap();
    let drawings = drawings.filter(|of| {
        let name = of.as_ref().unwrap().file_name();
        let name = name.to_string_lossy().into_owned();
        name.starts_with("fill")
            && Path::new(&name)
                .extension()
                .is_some_and(|ending| ending == "svg")
    });
    assert!(drawings.count() > 2);
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
    let said = Site::new().run_with_input(&["check", "-"], project);
    assert_eq!(said.code, Some(0), "{said:?}");
    assert!(
        said.figures.contains("nothing refused, nothing doubtful"),
        "{}",
        said.figures
    );
}
