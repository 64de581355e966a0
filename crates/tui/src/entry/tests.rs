//! Tests of the entry line: what is understood, what is not, and how few keys it takes.

mod cursor;
mod faults;
mod grammar;
mod keys;
mod openings;
mod random;
mod walls;

use super::{Context, Reading, understand};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::project::{Opening, Project, Wall};
use std::sync::Arc;

/// The invented workshop, whose backgrounds and build-ups every test takes.
fn workshop() -> Project {
    let demo = hodful_project_file::demo_projects()
        .find(|demo| demo.name == "thistlebank-workshop")
        .unwrap();
    hodful_project_file::read(demo.bytes).unwrap()
}

/// A project with coats to put on and no walls yet.
fn empty() -> Project {
    Project {
        walls: Vec::new(),
        // Its rooms name walls.
        work: None,
        ..workshop()
    }
}

fn metric() -> Project {
    Project {
        units: UnitSystem::Metric,
        ..empty()
    }
}

/// A project with one wall.
fn one_wall() -> Project {
    typed(empty(), &["wall 24' x 9' thick 18\""])
}

fn read(project: &Project, line: &str) -> Reading {
    let context = Context {
        project,
        wall: None,
        opening: None,
    };
    understand(line, line.len(), &context)
}

/// Enters lines one after another; each must be understood.
fn typed(mut project: Project, lines: &[&str]) -> Project {
    for line in lines {
        let reading = read(&project, line);
        assert_eq!(reading.fault, None, "{line}");
        let change = reading.ready().unwrap_or_else(|| panic!("{line}")).clone();
        change.apply(&mut project).unwrap();
    }
    project
}

/// The message of the fault of a line.
fn fault(project: &Project, line: &str) -> String {
    let reading = read(project, line);
    let fault = reading
        .fault
        .unwrap_or_else(|| panic!("understood: {line}"));
    fault.message.to_string()
}

fn last(project: &Project) -> &Arc<Wall> {
    project.walls.last().unwrap()
}

fn opening(project: &Project) -> &Opening {
    let mut openings = project.walls.iter().flat_map(|wall| &wall.openings);
    openings.next_back().unwrap()
}

/// Whether a project passes the checks; what is refused otherwise.
fn refused(project: &Project) -> Vec<String> {
    match hodful_takeoff::check(project, &hodful_project_file::rules()) {
        Ok(_) => Vec::new(),
        Err(problems) => problems.iter().map(ToString::to_string).collect(),
    }
}
