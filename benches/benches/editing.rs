//! How long a key takes below the screen, by number of walls: the copy of the project, the change
//! between the two, and the figures on the bench.
//!
//! Run it with `cargo bench -p hodful-benches --bench editing`. Not here: drawing, and opening a project.

use divan::{Bencher, black_box};
use hodful_benches::terrace::{Walls, project};
use hodful_quantities::Typed;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::change::Change;
use hodful_takeoff::doubts::all_problems;
use hodful_takeoff::project::Project;
use std::sync::Arc;

const COUNTS: [usize; 3] = [1_000, 10_000, 100_000];

fn main() {
    divan::main();
}

/// One edit forth and back.
fn forth_and_back(count: usize, edit: impl FnOnce(&mut Project)) -> [Arc<Project>; 2] {
    let before = project(Walls::Mixed, count);
    let mut after = before.clone();
    edit(&mut after);
    [before, after].map(Arc::new)
}

fn one_wall(project: &mut Project) {
    let middle = project.walls.len() / 2;
    let wall = Arc::make_mut(&mut project.walls[middle]);
    wall.thickness = Typed::read("460 mm").expect("it is a length");
}

fn one_coat(project: &mut Project) {
    let (_, coats) = project
        .build_ups
        .get_index_mut(0)
        .expect("there is a build-up");
    coats[0].thickness = Typed::read("14 mm").expect("it is a length");
}

/// The bench takes over one project, then the other.
fn set(bencher: Bencher<'_, '_>, projects: &[Arc<Project>; 2]) {
    let rules = Arc::new(hodful_project_file::rules());
    let mut bench = Bench::new(Arc::clone(&projects[0]), rules);
    let mut turns = projects.iter().cycle().skip(1);
    bencher.bench_local(|| {
        let next = turns.next().expect("they never end");
        bench.set(Arc::clone(black_box(next)));
    });
}

#[divan::bench(args = COUNTS, sample_count = 200, sample_size = 1)]
fn a_wall(bencher: Bencher<'_, '_>, count: usize) {
    set(bencher, &forth_and_back(count, one_wall));
}

#[divan::bench(args = COUNTS, sample_count = 200, sample_size = 1)]
fn a_thickness_of_a_coat(bencher: Bencher<'_, '_>, count: usize) {
    set(bencher, &forth_and_back(count, one_coat));
}

#[divan::bench(args = COUNTS, sample_count = 200, sample_size = 1)]
fn a_depth_of_dubbing_out(bencher: Bencher<'_, '_>, count: usize) {
    let projects = forth_and_back(count, |project| {
        for background in project.backgrounds.values_mut() {
            background.dubbing_out = Some(Typed::read("7 mm").expect("it is a length"));
        }
    });
    set(bencher, &projects);
}

#[divan::bench(args = COUNTS, sample_count = 100, sample_size = 1)]
fn a_wall_put_in_first_and_taken_out(bencher: Bencher<'_, '_>, count: usize) {
    let projects = forth_and_back(count, |project| {
        let mut wall = (*project.walls[0]).clone();
        wall.id = "first".into();
        project.walls.insert(0, Arc::new(wall));
    });
    set(bencher, &projects);
}

#[divan::bench(args = COUNTS, sample_count = 20, sample_size = 1)]
fn all_walls_turned_round(bencher: Bencher<'_, '_>, count: usize) {
    set(
        bencher,
        &forth_and_back(count, |project| project.walls.reverse()),
    );
}

#[divan::bench(args = COUNTS, sample_count = 20, sample_size = 1)]
fn another_rule(bencher: Bencher<'_, '_>, count: usize) {
    let projects = forth_and_back(count, |project| {
        project.measurement_rule = "din-18350".into();
    });
    set(bencher, &projects);
}

#[divan::bench(args = COUNTS, sample_count = 20, sample_size = 1)]
fn backgrounds_in_another_order(bencher: Bencher<'_, '_>, count: usize) {
    let projects = forth_and_back(count, |project| {
        project.backgrounds.reverse();
        project.build_ups.reverse();
    });
    set(bencher, &projects);
}

/// The copy that is edited, and what becomes of it.
#[divan::bench(args = COUNTS, sample_count = 200, sample_size = 1)]
fn copying_a_project(bencher: Bencher<'_, '_>, count: usize) {
    let project = project(Walls::Mixed, count);
    bencher.bench_local(|| drop(black_box(project.clone())));
}

#[divan::bench(args = COUNTS, sample_count = 200, sample_size = 1)]
fn the_change_of_a_wall(bencher: Bencher<'_, '_>, count: usize) {
    let [before, after] = forth_and_back(count, one_wall);
    bencher.bench_local(|| Change::between(&before, &after));
}

/// As a key does it: copy, edit, change, figures; the old project goes.
#[divan::bench(args = COUNTS, sample_count = 200, sample_size = 1)]
fn a_whole_key_in_a_wall(bencher: Bencher<'_, '_>, count: usize) {
    whole_key(bencher, count, |project, text| {
        let middle = project.walls.len() / 2;
        let wall = Arc::make_mut(&mut project.walls[middle]);
        wall.thickness = Typed::read(text).expect("it is a length");
    });
}

#[divan::bench(args = COUNTS, sample_count = 200, sample_size = 1)]
fn a_whole_key_in_a_coat(bencher: Bencher<'_, '_>, count: usize) {
    whole_key(bencher, count, |project, text| {
        let (_, coats) = project
            .build_ups
            .get_index_mut(0)
            .expect("there is a build-up");
        coats[0].thickness = Typed::read(text).expect("it is a length");
    });
}

fn whole_key(bencher: Bencher<'_, '_>, count: usize, edit: impl Fn(&mut Project, &str)) {
    let rules = Arc::new(hodful_project_file::rules());
    let mut bench = Bench::new(Arc::new(project(Walls::Mixed, count)), rules);
    let mut texts = ["460 mm", "470 mm"].into_iter().cycle();
    bencher.bench_local(|| {
        let before = Arc::clone(bench.project());
        let mut project = Project::clone(&before);
        edit(&mut project, texts.next().expect("they never end"));
        let change = Change::between(&before, &project);
        bench.set(Arc::new(project));
        change
    });
}

#[divan::bench(args = COUNTS, sample_count = 10, sample_size = 1)]
fn laying_a_project_on(bencher: Bencher<'_, '_>, count: usize) {
    let project = Arc::new(project(Walls::Mixed, count));
    let rules = Arc::new(hodful_project_file::rules());
    bencher.bench_local(|| Bench::new(Arc::clone(&project), Arc::clone(&rules)));
}

/// What a worker does, off the key.
#[divan::bench(args = COUNTS, sample_count = 10, sample_size = 1)]
fn looking_for_doubts(bencher: Bencher<'_, '_>, count: usize) {
    let project = project(Walls::Mixed, count);
    let rules = hodful_project_file::rules();
    bencher.bench_local(|| all_problems(&project, &rules));
}
