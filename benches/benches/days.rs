//! How long the days on site take: what a year of weather does to outside faces, and a whole plan.
//!
//! Run it with `cargo bench -p hodful-benches --bench days`. The limit that must hold is in `benches/ratios`.

use divan::counter::ItemsCount;
use divan::{AllocProfiler, Bencher};
use hodful_air::outside::Sky;
use hodful_benches::season::{hours, place, project, stands, weather};
use hodful_takeoff::Assessed;

#[global_allocator]
static ALLOCATOR: AllocProfiler = AllocProfiler::system();

fn main() {
    divan::main();
}

/// What all faces share of an hour.
#[divan::bench(sample_count = 20, sample_size = 1)]
fn skies_of_a_year(bencher: Bencher<'_, '_>) {
    let (place, hours) = (place().expect("a place"), hours());
    let sky = |hour| Sky::of(&place, hour).expect("air");
    bencher
        .counter(ItemsCount::new(hours.len()))
        .bench_local(|| hours.iter().map(sky).collect::<Vec<_>>());
}

/// What each face gives off in each hour while it is wet.
#[divan::bench(args = [1, 4, 40], sample_count = 20, sample_size = 1)]
fn faces_over_a_year(bencher: Bencher<'_, '_>, count: u32) {
    let (place, stands) = (place().expect("a place"), stands(count));
    let skies: Vec<Sky> = hours()
        .iter()
        .map(|hour| Sky::of(&place, hour).expect("air"))
        .collect();
    bencher
        .counter(ItemsCount::new(skies.len() * stands.len()))
        .bench_local(|| {
            let each = stands.iter();
            each.map(|stand| {
                skies
                    .iter()
                    .map(|sky| sky.wet_face(stand).kg_m2_h)
                    .sum::<f64>()
            })
            .sum::<f64>()
        });
}

/// A whole plan, from the project to the days.
#[divan::bench(args = [4, 40], sample_count = 10, sample_size = 1)]
fn planning(bencher: Bencher<'_, '_>, walls: u32) {
    let (project, weather) = (project(walls), weather());
    let rules = hodful_project_file::rules();
    let assessed = Assessed::new(&project, &rules).expect("nothing is refused");
    bencher
        .counter(ItemsCount::new(walls))
        .bench_local(|| assessed.days(Some(&weather), None).expect("planned"));
}
