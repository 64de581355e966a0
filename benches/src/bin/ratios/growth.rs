//! Ten times the walls, not much more than ten times the time. Not here: how long that is (see `areas`).

use crate::MANY;
use crate::limits::{Bound, Limits, say};
use hodful_benches::terrace::{Walls, project};
use hodful_takeoff::evaluate::{evaluate, evaluate_into};
use hodful_takeoff::{Evaluation, check};
use std::hint::black_box;
use std::time::{Duration, Instant};

/// Rounds before the ratios are looked at, and how often more follow while one is over its limit: the best of few rounds is
/// that of the other work on the machine.
const ROUNDS: usize = 40;
const AGAIN: usize = 10;
/// A tenth more than ten.
const MOST: f64 = 11.0;

pub(crate) fn measure(limits: &mut Limits) {
    let checked = [MANY / 10, MANY].map(|count| {
        check(&project(Walls::Mixed, count), &hodful_project_file::rules())
            .expect("nothing is refused")
    });
    let mut memory = [Evaluation::default(), Evaluation::default()];
    let [mut again, mut fresh] = [[Duration::MAX; 2]; 2];
    let over = |[few, many]: [Duration; 2]| many.div_duration_f64(few) > MOST;
    for round in 0..ROUNDS * AGAIN {
        if round >= ROUNDS && !over(again) && !over(fresh) {
            break;
        }
        for i in 0..2 {
            again[i] = again[i].min(time(|| evaluate_into(&checked[i], &mut memory[i])));
            fresh[i] = fresh[i].min(time(|| drop(black_box(evaluate(&checked[i])))));
        }
    }
    say("\nevaluation by number of walls");
    for (words, [few, many]) in [("memory used again", again), ("fresh memory", fresh)] {
        let ratio = many.div_duration_f64(few);
        say(&format!(
            "  {words:<18} {few:>9.2?} for {}, {many:>9.2?} for {MANY}: {ratio:.2} times",
            MANY / 10
        ));
        limits.hold(
            format!("times the time for ten times the walls ({words})"),
            ratio,
            Bound::AtMost(MOST),
        );
    }
}

fn time(work: impl FnOnce()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}
