//! Runs the binary in a fresh folder.

use std::fs;
use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

/// A folder to run in.
pub(crate) struct Site {
    folder: TempDir,
}

/// What a run said.
#[derive(Debug)]
pub(crate) struct Said {
    pub(crate) code: Option<i32>,
    pub(crate) figures: String,
    pub(crate) words: String,
}

impl Site {
    pub(crate) fn new() -> Self {
        Self {
            folder: TempDir::new().unwrap(),
        }
    }

    /// A folder with a demo project in `demo.hodful.json`.
    pub(crate) fn with_demo(name: &str) -> Self {
        let site = Self::new();
        let said = site.run(&["new", "demo.hodful.json", "--from", name]);
        assert_eq!(said.code, Some(0), "{said:?}");
        site
    }

    pub(crate) fn path(&self, file: &str) -> PathBuf {
        self.folder.path().join(file)
    }

    pub(crate) fn write(&self, file: &str, text: &str) {
        fs::write(self.path(file), text).unwrap();
    }

    pub(crate) fn read(&self, file: &str) -> String {
        fs::read_to_string(self.path(file)).unwrap()
    }

    pub(crate) fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_hodful"));
        command
            .args(arguments)
            .current_dir(self.folder.path())
            .env_clear();
        command
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Said {
        said(
            self.command(arguments)
                .stdin(Stdio::null())
                .output()
                .unwrap(),
        )
    }

    pub(crate) fn run_with_input(&self, arguments: &[&str], input: &str) -> Said {
        let mut child = self
            .command(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        child
            .stdin
            .take()
            .unwrap()
            .write_all(input.as_bytes())
            .unwrap();
        said(child.wait_with_output().unwrap())
    }
}

pub(crate) fn said(output: Output) -> Said {
    Said {
        code: output.status.code(),
        figures: String::from_utf8(output.stdout).unwrap(),
        words: String::from_utf8(output.stderr).unwrap(),
    }
}

/// The names of the demo projects, as the program lists them.
pub(crate) fn demos() -> Vec<String> {
    let said = Site::new().run(&["new", "--list"]);
    said.figures
        .lines()
        .filter_map(|line| line.split_whitespace().next().map(str::to_owned))
        .collect()
}
