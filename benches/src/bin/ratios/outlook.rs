//! A sweep, chances, and what makes a difference, of a thousand walls, each held to its limit. Not here: whether
//! they are right.

use crate::Outcome;
use crate::limits::{Bound, Limits, best, say};
use hodful_benches::terrace::{Walls, project};
use hodful_project_file as file;
use hodful_takeoff::bench::Bench;
use hodful_takeoff::chances::{Chances, USUAL_DRAWS, USUAL_SEED};
use hodful_takeoff::compare::{Line, causes};
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::sweep::{Ask, sweep};
use std::hint::black_box;
use std::sync::Arc;

const WALLS: usize = 1_000;

/// In milliseconds: two hundred points, ten thousand draws, the causes of a cost.
const SWEEP: f64 = 20.0;
const DRAWS: f64 = 100.0;
const CAUSES: f64 = 10.0;

const POINTS: usize = 200;

pub(crate) fn measure(limits: &mut Limits) -> Outcome {
    say("\nsweep, chances, causes");
    let rules = Arc::new(file::rules());
    let base = project(Walls::Mixed, WALLS);
    let coat = Subject::Coat {
        build_up: 0,
        coat: 1,
    };
    let mut other = base.clone();
    form::set(&mut other, coat, "thickness", "1 1/8 in").map_err(|words| words.to_string())?;
    let bench = Bench::new(Arc::new(base), Arc::clone(&rules));
    let other = Bench::new(Arc::new(other), rules);

    let ask = Ask::usual(bench.project(), coat, "thickness").map_err(|words| words.to_string())?;
    let ask = Ask {
        points: POINTS,
        ..ask
    };
    let time = best(|| {
        let swept = sweep(&bench, &ask, &[Line::Cost]).map_err(|words| words.to_string())?;
        black_box(swept);
        Ok(())
    })?;
    let what = format!("ms for {POINTS} points of a thickness, {WALLS} walls, steps found");
    limits.hold(what, time, Bound::AtMost(SWEEP));

    let time = best(|| {
        let drawn = Chances::draw(&bench.one(None), USUAL_DRAWS, USUAL_SEED);
        black_box(drawn.map_err(|words| words.to_string())?);
        Ok(())
    })?;
    let what = format!("ms for {USUAL_DRAWS} draws of {WALLS} walls, wall by wall, every figure");
    limits.hold(what, time, Bound::AtMost(DRAWS));

    let time = best(|| {
        let found = causes(&bench.one(None), &other.one(None), &Line::Cost);
        black_box(found.ok_or("it cannot be told")?);
        Ok(())
    })?;
    limits.hold("ms for the causes of a cost", time, Bound::AtMost(CAUSES));
    Ok(())
}
