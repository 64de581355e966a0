//! The memory of a process that holds a project with its texts, the checked project and the evaluation.
//!
//! A process of its own holds them, so that nothing else counts. It makes the project in memory, allocating nothing else;
//! another reads the same project from its file, which must be in memory whole while it is read. Not here: the projects.

use crate::limits::{Bound, Limits, say};
use crate::{MANY, Outcome};
use hodful_benches::taken::{peak, resident};
use hodful_benches::terrace::{Walls, file, project};
use hodful_takeoff::project::{Face, Inset, Opening, Reveal, Splay, Wall, WallEnd};
use hodful_takeoff::{FaceFigures, check, evaluate};
use std::hint::black_box;
use std::path::Path;
use std::process::Command;

/// Bytes a wall of a process that holds the project with its texts, checked and evaluated.
const MOST: f64 = 2_000.0;

pub(crate) fn measure(folder: &Path, limits: &mut Limits) -> Outcome {
    say(
        "\nmemory, bytes a wall: project with its texts, checked project, evaluation, peak of the process",
    );
    let made = run(&["memory"])?;
    say(&format!("  made in memory   {}", words(&made)));
    let path = folder.join("terrace.hodful.json");
    std::fs::write(&path, file(Walls::Mixed, MANY))?;
    let length = std::fs::metadata(&path)?.len();
    let name = path
        .to_str()
        .ok_or("the folder for passing files has no plain name")?;
    let read = run(&["memory", name])?;
    say(&format!(
        "  read from a file {}, of which the file {}",
        words(&read),
        length / MANY as u64
    ));
    say(&format!(
        "  sizes: wall {} (face {}, inset {}, end {}), opening {} (reveal {}, splay {}), two faces evaluated {}",
        size_of::<Wall>(),
        size_of::<Face>(),
        size_of::<Inset>(),
        size_of::<WallEnd>(),
        size_of::<Opening>(),
        size_of::<Reveal>(),
        size_of::<Splay>(),
        size_of::<[Option<FaceFigures>; 2]>(),
    ));
    std::fs::remove_file(path)?;
    limits.hold(
        "bytes a wall at the peak, the project with its texts included",
        made[3] as f64,
        Bound::AtMost(MOST),
    );
    Ok(())
}

fn words(figures: &[u64; 4]) -> String {
    figures.map(|f| format!("{f:>6}")).join("")
}

fn run(arguments: &[&str]) -> Outcome<[u64; 4]> {
    let output = Command::new(std::env::current_exe()?)
        .args(arguments)
        .output()?;
    let text = String::from_utf8_lossy(&output.stdout);
    let figures: Vec<u64> = text
        .split_whitespace()
        .filter_map(|word| word.parse().ok())
        .collect();
    figures
        .try_into()
        .map_err(|_| format!("the child process said '{}'", text.trim()).into())
}

/// The child process: says what it holds, step by step, in bytes a wall.
pub(crate) fn child(from: &[&str]) -> Outcome {
    let before = resident()?;
    let project = match from {
        [] => project(Walls::Mixed, MANY),
        [file, ..] => hodful_project_file::load(Path::new(file))?,
    };
    let held = resident()?;
    let checked =
        check(&project, &hodful_project_file::rules()).map_err(|_| "the project is refused")?;
    let with_checked = resident()?;
    let evaluation = evaluate(&checked);
    let with_all = resident()?;
    let figures = [
        held.saturating_sub(before),
        with_checked.saturating_sub(held),
        with_all.saturating_sub(with_checked),
        peak()?,
    ];
    let a_wall = figures.map(|bytes| (bytes / MANY as u64).to_string());
    say(&a_wall.join(" "));
    black_box((&project, &checked, &evaluation));
    Ok(())
}
