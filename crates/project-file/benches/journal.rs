//! How long the journal takes among many walls: begun with the whole project, and one wall changed.
//!
//! Run it with `cargo bench -p hodful-project-file --bench journal`. Not here: the disk making sure,
//! which nobody waits for.

use divan::Bencher;
use hodful_project_file::journal::{Journal, Origin, read};
use hodful_project_file::{demo_projects, starting_project};
use hodful_quantities::Typed;
use hodful_takeoff::Project;
use std::fs;
use std::sync::{Arc, LazyLock};

const WALLS: usize = 10_000;

/// The walls of the demo projects, over and over, each with a name of its own.
static PROJECT: LazyLock<Project> = LazyLock::new(|| {
    let mut project = starting_project();
    let demos = demo_projects().map(|demo| hodful_project_file::read(demo.bytes).expect("whole"));
    let walls: Vec<_> = demos.flat_map(|demo| demo.walls).collect();
    project.walls = walls.iter().cycle().take(WALLS).cloned().collect();
    for (i, wall) in project.walls.iter_mut().enumerate() {
        Arc::make_mut(wall).id = format!("S{i}").into();
    }
    project
});

fn main() {
    divan::main();
}

#[divan::bench]
fn begin(bencher: Bencher<'_, '_>) {
    let folder = tempfile::tempdir().expect("a folder");
    bencher.bench_local(|| {
        let journal = Journal::begin(folder.path(), None, &Origin::default(), &PROJECT);
        journal.expect("begun").remove();
    });
}

#[divan::bench(sample_count = 1000)]
fn one_wall(bencher: Bencher<'_, '_>) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut journal =
        Journal::begin(folder.path(), None, &Origin::default(), &PROJECT).expect("begun");
    let mut last = PROJECT.clone();
    let mut step = 0;
    bencher
        .with_inputs(|| {
            step += 1;
            let mut next = last.clone();
            let thickness = Typed::read(format!("{step} mm")).expect("a length");
            Arc::make_mut(&mut next.walls[(step * 7919) % WALLS]).thickness = thickness;
            (std::mem::replace(&mut last, next.clone()), next)
        })
        .bench_local_values(|(before, after)| {
            journal.record(&before, &after).expect("written");
            (before, after)
        });
}

#[divan::bench(sample_count = 20)]
fn read_back(bencher: Bencher<'_, '_>) {
    let folder = tempfile::tempdir().expect("a folder");
    let journal = Journal::begin(folder.path(), None, &Origin::default(), &PROJECT).expect("begun");
    drop(journal);
    let file = fs::read_dir(folder.path())
        .expect("a folder")
        .next()
        .expect("a file");
    let bytes = fs::read(file.expect("a file").path()).expect("bytes");
    bencher.bench(|| read(&bytes).expect("whole"));
}
