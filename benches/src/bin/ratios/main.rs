//! The limits of speed and memory, measured in one run; the exit code is 1 when one is missed by half.
//!
//! Run it by `benches/ratios PYTHON`, which builds what it needs. Times are the best of several rounds that alternate
//! between the sides, so that other work on the machine slows both. Not here: the projects (see the library) and anything
//! that only informs (see the benches).

#![allow(
    clippy::cast_precision_loss,
    reason = "counts of walls and bytes stay far below 2^53"
)]

mod areas;
mod days;
mod growth;
mod limits;
mod memory;
mod outlook;
mod polygons;
mod reading;
mod soils;
mod start;

use limits::Limits;
use std::error::Error;
use std::path::Path;
use std::process::ExitCode;

/// Walls of the large project.
const MANY: usize = 100_000;

/// What stops a run, as opposed to a limit that is missed.
type Outcome<T = ()> = Result<T, Box<dyn Error>>;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let outcome = match arguments.as_slice() {
        ["memory", from @ ..] => memory::child(from).map(|()| ExitCode::SUCCESS),
        [python, hodful] => run(python, Path::new(hodful)),
        _ => Err("usage: ratios PYTHON HODFUL, in the top folder of the repository".into()),
    };
    outcome.unwrap_or_else(|fault| {
        limits::say(&format!("ratios: {fault}"));
        ExitCode::from(2)
    })
}

fn run(python: &str, hodful: &Path) -> Outcome<ExitCode> {
    let folder = std::env::temp_dir().join(format!("hodful-ratios-{}", std::process::id()));
    std::fs::create_dir(&folder)?;
    let measured = measure(python, hodful, &folder);
    std::fs::remove_dir_all(&folder)?;
    let limits = measured?;
    Ok(if limits.none_missed_by_far() {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}

fn measure(python: &str, hodful: &Path, folder: &Path) -> Outcome<Limits> {
    let mut limits = Limits::default();
    limits::say(&format!(
        "{} cores; {MANY} walls with three openings, both faces plastered",
        rayon::current_num_threads()
    ));
    areas::measure(python, folder, &mut limits)?;
    growth::measure(&mut limits);
    memory::measure(folder, &mut limits)?;
    reading::measure(&mut limits)?;
    start::measure(hodful, &mut limits)?;
    soils::measure(&mut limits)?;
    outlook::measure(&mut limits)?;
    days::measure(&mut limits)?;
    limits.report();
    Ok(limits)
}
