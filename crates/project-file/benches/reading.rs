//! How long a large project takes to read and to write, beside the JSON library reading the same bytes
//! into its own tree without understanding them.
//!
//! Run it with `cargo bench -p hodful-project-file`. The project has 100,000 walls, three openings each,
//! and some fifty dimensions a wall in every common spelling. A program reads a project once, into fresh
//! memory: the slowest sample tells of that, the fastest of memory that the run before has left warm.

use divan::counter::BytesCount;
use divan::{AllocProfiler, Bencher};
use std::sync::LazyLock;

#[global_allocator]
static ALLOCATOR: AllocProfiler = AllocProfiler::system();

const WALLS: usize = 100_000;

static FILE: LazyLock<Vec<u8>> = LazyLock::new(|| {
    hodful_project_file::write(&hodful_project_file::read(&large(WALLS)).expect("it is whole"))
});

fn main() {
    divan::main();
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn project(bencher: Bencher<'_, '_>) {
    bencher
        .counter(BytesCount::new(FILE.len()))
        .bench(|| hodful_project_file::read(&FILE).expect("it is whole"));
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn tree_of_the_json_library(bencher: Bencher<'_, '_>) {
    bencher
        .counter(BytesCount::new(FILE.len()))
        .bench(|| serde_json::from_slice::<serde_json::Value>(&FILE).expect("it is JSON"));
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn write(bencher: Bencher<'_, '_>) {
    let project = hodful_project_file::read(&FILE).expect("it is whole");
    bencher
        .counter(BytesCount::new(FILE.len()))
        .bench(|| hodful_project_file::write(&project));
}

/// A project of many walls with dimensions that differ.
fn large(walls: usize) -> Vec<u8> {
    let mut seed = 0x9e37_79b9_u32;
    // A small generator (xorshift; Marsaglia 2003), so that every run has the same file.
    let mut next = |bound: u32| {
        seed ^= seed << 13;
        seed ^= seed >> 17;
        seed ^= seed << 5;
        seed % bound
    };
    let mut length = move |feet: u32| match next(5) {
        0 => format!("{}' {} {}/16\\\"", next(feet), next(12), 2 * next(8) + 1),
        1 => format!("{} in", 1 + next(12 * feet)),
        2 => format!("{}.{:02} m", next(feet), next(100)),
        3 => format!("{}'-{}\\\"", 1 + next(feet), next(12)),
        _ => format!("{} mm", 1 + next(300 * feet)),
    };
    let opening = |i: usize, length: &mut dyn FnMut(u32) -> String| {
        let mut reveal = |parts: &str| {
            format!(
                r#"{{"plastered":[{parts}],"splay":{{"jambs":"20 deg","sill":"10 deg"}},"radius":"{}","lath":"{}"}}"#,
                length(1),
                length(1)
            )
        };
        let (outside, inside) = (
            reveal(r#""jambs","head""#),
            reveal(r#""jambs","head","sill""#),
        );
        format!(
            r#"{{"id":"W{i}","kind":"window","count":2,"spacing":"{}","shape":{{"kind":"rectangle","width":"{}","height":"{}"}},"from_left":"{}","sill":"{}","frame":{{"from_outside":"{}","depth":"{}"}},"reveals":{{"outside":{outside},"inside":{inside}}}}}"#,
            length(9),
            length(4),
            length(5),
            length(30),
            length(3),
            length(1),
            length(1)
        )
    };
    let wall = |i: usize| {
        let openings: Vec<_> = (1..4).map(|i| opening(i, &mut length)).collect();
        format!(
            r#"{{"id":"S{i}","name":"South wall, bay {i}","sheet":"A-201","shape":{{"kind":"rectangle","length":"{}","height":"{}"}},"thickness":"{}","faces":{{"outside":{{"background":"bale","build_up":"outside","inset":{{"bottom":"{}"}}}},"inside":{{"background":"bale","build_up":"inside","inset":{{"left":"{}","right":"{}","top":"{}"}}}}}},"openings":[{}]}}"#,
            length(60),
            length(12),
            length(2),
            length(1),
            length(2),
            length(2),
            length(1),
            openings.join(",")
        )
    };
    let walls: Vec<_> = (0..walls).map(wall).collect();
    format!(
        r#"{{"format":"hodful-project","version":1,"name":"Large","units":"us","walls":[{}]}}"#,
        walls.join(",")
    )
    .into_bytes()
}
