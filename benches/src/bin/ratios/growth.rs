//! Ten times the walls, not much more than ten times the time. Not here: how long that is (see `areas`).
//!
//! The small project is evaluated ten times in a row for each time that the large one is: spans of one length meet other work
//! on the machine alike, where the best of short ones would mostly miss it.

use crate::MANY;
use crate::limits::{Bound, Limits, say};
use hodful_benches::terrace::{Walls, project};
use hodful_takeoff::evaluate::{evaluate, evaluate_into};
use hodful_takeoff::{Evaluation, check};
use std::hint::black_box;
use std::time::{Duration, Instant};

const ROUNDS: usize = 60;
/// How many times the walls.
const TIMES: usize = 10;
/// A tenth more than ten.
const MOST: f64 = 11.0;

pub(crate) fn measure(limits: &mut Limits) {
    let checked = [MANY / TIMES, MANY].map(|count| {
        check(&project(Walls::Mixed, count), &hodful_project_file::rules())
            .expect("nothing is refused")
    });
    let mut memory = [Evaluation::default(), Evaluation::default()];
    let [mut again, mut fresh] = [[Duration::MAX; 2]; 2];
    for _ in 0..ROUNDS {
        for (i, times) in [TIMES, 1].into_iter().enumerate() {
            let (checked, memory) = (&checked[i], &mut memory[i]);
            again[i] = again[i].min(mean(times, || evaluate_into(checked, memory)));
            fresh[i] = fresh[i].min(mean(times, || drop(black_box(evaluate(checked)))));
        }
    }
    say("\nevaluation by number of walls");
    for (words, [few, many]) in [("memory used again", again), ("fresh memory", fresh)] {
        let ratio = many.div_duration_f64(few);
        say(&format!(
            "  {words:<18} {few:>9.2?} for {}, {many:>9.2?} for {MANY}: {ratio:.2} times",
            MANY / TIMES
        ));
        limits.hold(
            format!("times the time for ten times the walls ({words})"),
            ratio,
            Bound::AtMost(MOST),
        );
    }
}

/// The time of one of several in a row.
fn mean(times: usize, mut work: impl FnMut()) -> Duration {
    let start = Instant::now();
    for _ in 0..times {
        work();
    }
    start.elapsed().div_f64(times as f64)
}
