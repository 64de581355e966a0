//! The project file: JSON in which every dimension stands as it was typed.
//!
//! - [`read()`] takes bytes and gives a project or everything that is wrong with it, each with its place;
//!   [`read_what_can_be`] gives both.
//! - [`write()`] gives the bytes back, every text as typed.
//! - [`load`] and [`save`] are the same on disk; a save replaces the file whole or not at all.
//! - [`journal`] keeps what was done since the last save, so that a program that is killed loses nothing.
//! - [`rules`], [`cautions`], [`demo_projects`], [`demo_weather`] and [`starting_project`] are compiled in; [`schema()`] describes the format.
//!
//! Not here: whether a project makes sense (see `hodful_takeoff::check`), and any other file format.

mod assets;
mod disk;
mod field;
mod group;
mod header;
mod hint;
pub mod journal;
mod kind;
mod mark;
mod reading;
mod record;
mod schema;
mod syntax;
mod tables;
mod value;
mod writing;

pub use assets::{
    DemoProject, cautions, demo_projects, demo_weather, empty_project, read_rule, rule_notes,
    rules, starting_project,
};
pub use disk::{LoadError, SaveError, load, save, save_bytes};
pub use schema::schema;

use field::Field;
use hodful_takeoff::problem::Problem;
use hodful_takeoff::project::Project;

/// Reads a project file.
///
/// Reading goes on behind everything that is wrong, so that one run tells it all; only broken JSON
/// syntax stops it. Whether walls, mixes and names fit together is not looked at.
///
/// # Errors
/// Everything that is wrong with the file, in the order of the file; never an empty list.
///
/// ```
/// let file = br#"{ "format": "hodful-project", "version": 1, "name": "Shed", "units": "us",
///     "walls": [ { "id": "S", "shape": { "kind": "rectangle", "length": "12'", "height": 9 },
///                  "thickness": "18 im" } ] }"#;
/// let problems = hodful_project_file::read(file).unwrap_err();
/// let told: Vec<_> = problems.iter().map(ToString::to_string).collect();
/// assert_eq!(told[0], "wall S, shape, height: is a number; write it as text with its unit, like \"27 in\"");
/// assert!(told[1].starts_with("wall S, thickness: '18 im'"));
/// ```
pub fn read(bytes: &[u8]) -> Result<Project, Vec<Problem>> {
    match header::read_project(bytes) {
        (Some(project), problems) if problems.is_empty() => Ok(project),
        (_, problems) => Err(problems),
    }
}

/// Reads as much of a project file as can be read, and everything that is wrong with it.
///
/// What is refused takes with it the smallest thing that cannot be without it: a bad `splay` only
/// itself, a bad `sill` its opening, a bad `id` its wall. A project without a name has an empty one, and
/// without units metric ones. `None` when the syntax is broken or the file is no project.
pub fn read_what_can_be(bytes: &[u8]) -> (Option<Project>, Vec<Problem>) {
    header::read_project(bytes)
}

/// Writes a project file: every text and number as it was typed, keys in the order of the format, two
/// blanks a level, short groups on one line, a newline at the end.
///
/// Keys with nothing to say are left out. `measurement_rule` and `walls` always stand there.
pub fn write(project: &Project) -> Vec<u8> {
    let mut out = writing::Out::default();
    project.put(&mut out);
    out.finish()
}
