//! How long checking, evaluating and explaining take, by number of walls.
//!
//! Run it with `cargo bench -p hodful-benches --bench figures`. The limits that must hold are in `benches/ratios`.

use divan::counter::ItemsCount;
use divan::{AllocProfiler, Bencher};
use hodful_benches::terrace::{Walls, project};
use hodful_quantities::Measure;
use hodful_quantities::units::Length;
use hodful_takeoff::evaluate::{evaluate, evaluate_into};
use hodful_takeoff::{Assessed, Checked, Evaluation, check};

#[global_allocator]
static ALLOCATOR: AllocProfiler = AllocProfiler::system();

const COUNTS: [usize; 3] = [1_000, 10_000, 100_000];

fn main() {
    divan::main();
}

fn checked(count: usize) -> Checked {
    check(&project(Walls::Mixed, count), &hodful_project_file::rules()).expect("nothing is refused")
}

#[divan::bench(args = COUNTS, sample_count = 10, sample_size = 1)]
fn checking(bencher: Bencher<'_, '_>, count: usize) {
    let project = project(Walls::Mixed, count);
    let rules = hodful_project_file::rules();
    bencher
        .counter(ItemsCount::new(count))
        .bench_local(|| check(&project, &rules).expect("nothing is refused"));
}

#[divan::bench(args = COUNTS, sample_count = 50, sample_size = 1)]
fn evaluating(bencher: Bencher<'_, '_>, count: usize) {
    let checked = checked(count);
    bencher
        .counter(ItemsCount::new(count))
        .bench_local(|| evaluate(&checked));
}

/// As a front end does at every key: over the memory of the evaluation before.
#[divan::bench(args = COUNTS, sample_count = 50, sample_size = 1)]
fn evaluating_again(bencher: Bencher<'_, '_>, count: usize) {
    let checked = checked(count);
    let mut evaluation = Evaluation::default();
    evaluate_into(&checked, &mut evaluation);
    bencher
        .counter(ItemsCount::new(count))
        .bench_local(|| evaluate_into(&checked, &mut evaluation));
}

/// One figure of many, down to what was typed.
#[divan::bench(args = ["walls.W1.outside", "order.\"yard sand\"", "coats.\"outside bale\".fill.mixed"])]
fn explaining(bencher: Bencher<'_, '_>, path: &str) {
    let project = project(Walls::Mixed, 1_000);
    let assessed =
        Assessed::new(&project, &hodful_project_file::rules()).expect("nothing is refused");
    bencher.bench_local(|| assessed.explain(path).expect("the path names a figure"));
}

#[divan::bench(args = ["12' 6 1/2\"", "3.81 m", "685 mm", "150 1/2 in", "2*4' + 6\""])]
fn reading_a_dimension(text: &str) -> Length {
    Length::read(divan::black_box(text)).expect("it is a length")
}
