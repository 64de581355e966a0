//! How long a project file takes to read, beside the JSON library reading the same bytes into its own tree without
//! understanding them.
//!
//! Run it with `cargo bench -p hodful-benches --bench reading`.

use divan::counter::BytesCount;
use divan::{AllocProfiler, Bencher};
use hodful_benches::terrace::{Walls, file};

#[global_allocator]
static ALLOCATOR: AllocProfiler = AllocProfiler::system();

const COUNTS: [usize; 3] = [1_000, 10_000, 100_000];

fn main() {
    divan::main();
}

#[divan::bench(args = COUNTS, sample_count = 5, sample_size = 1)]
fn project(bencher: Bencher<'_, '_>, count: usize) {
    let file = file(Walls::Mixed, count);
    bencher
        .counter(BytesCount::of_slice(&file))
        .bench_local(|| hodful_project_file::read(&file).expect("it is whole"));
}

#[divan::bench(args = COUNTS, sample_count = 5, sample_size = 1)]
fn tree_of_the_json_library(bencher: Bencher<'_, '_>, count: usize) {
    let file = file(Walls::Mixed, count);
    bencher
        .counter(BytesCount::of_slice(&file))
        .bench_local(|| serde_json::from_slice::<serde_json::Value>(&file).expect("it is JSON"));
}

#[divan::bench(args = COUNTS, sample_count = 5, sample_size = 1)]
fn writing(bencher: Bencher<'_, '_>, count: usize) {
    let project = hodful_benches::terrace::project(Walls::Mixed, count);
    bencher.bench_local(|| hodful_project_file::write(&project));
}
