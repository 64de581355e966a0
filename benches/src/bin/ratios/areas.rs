//! Full evaluation against a polygon library that only takes openings out of walls. Not here: the library's process.
//!
//! Ours: both faces, reveals, edges, growth, three coats, mixes, materials, packages, all cores. Theirs: the net area of the
//! same faces, polygons built beforehand, all cores. The sums of the net areas must agree, so that both did that work.

use crate::limits::{Bound, Limits, say};
use crate::polygons::{Measured, Polygons, Way};
use crate::{MANY, Outcome};
use hodful_benches::taken::processor_time;
use hodful_benches::terrace::{Walls, project};
use hodful_takeoff::evaluate::evaluate_into;
use hodful_takeoff::{Checked, Evaluation, check};
use std::path::Path;
use std::time::{Duration, Instant};

/// Rounds that alternate between the two sides.
const ROUNDS: usize = 3;
/// Evaluations in one round.
const TIMES: u32 = 25;
/// How many times faster.
const FASTER: f64 = 200.0;
/// Chords for arcs, of the area, relative.
const SAME_SUM: f64 = 1e-3;

pub(crate) fn measure(python: &str, folder: &Path, limits: &mut Limits) -> Outcome {
    let mut polygons = Polygons::start(python)?;
    say(&format!(
        "\nfull evaluation against net areas by {}",
        polygons.versions
    ));
    for (walls, words) in [
        (
            Walls::Mixed,
            "rectangles, gables, arches, some overlapping or cut",
        ),
        (Walls::Rectangles, "rectangles alone, whole and apart"),
    ] {
        compare(walls, words, folder, &mut polygons, limits)?;
    }
    Ok(())
}

fn compare(
    walls: Walls,
    words: &str,
    folder: &Path,
    polygons: &mut Polygons,
    limits: &mut Limits,
) -> Outcome {
    let project = project(walls, MANY);
    let [faces, holes, overlapping] = polygons.load(&project, &folder.join("faces.rings"))?;
    say(&format!(
        "  {words}: {faces} faces with {holes} holes each, {overlapping} with holes that overlap"
    ));
    let checked =
        check(&project, &hodful_project_file::rules()).map_err(|_| "the project is refused")?;
    drop(project);
    let mut evaluation = Evaluation::default();
    evaluate_into(&checked, &mut evaluation);
    let threads = rayon::current_num_threads();
    let (mut ours, mut theirs, mut apart) = (Best::default(), Best::default(), Best::default());
    for _ in 0..ROUNDS {
        ours.take(evaluations(&checked, &mut evaluation)?);
        theirs.take(polygons.measure(Way::Union, threads)?);
        ours.take(evaluations(&checked, &mut evaluation)?);
        apart.take(polygons.measure(Way::Apart, threads)?);
    }
    let alone = polygons.measure(Way::Union, 1)?;
    let per_wall = |best: &Best| 1e9 * best.time.as_secs_f64() / MANY as f64;
    say(&format!(
        "    ours       {:>8.1} ns a wall, everything, {threads} threads",
        per_wall(&ours)
    ));
    say(&format!(
        "    theirs     {:>8.0} ns a wall, union and difference, {threads} threads",
        per_wall(&theirs)
    ));
    say(&format!(
        "               {:>8.0} ns a wall, the same on one thread",
        1e9 * alone.time.as_secs_f64() / MANY as f64
    ));
    say(&format!(
        "               {:>8.0} ns a wall, difference alone where holes are apart, {threads} threads",
        per_wall(&apart)
    ));
    let faster = theirs.time.div_duration_f64(ours.time);
    say(&format!(
        "    {faster:.0} times faster; {:.0} times by the time of the processor; {:.0} times with unions left out",
        theirs.work.div_duration_f64(ours.work),
        apart.time.div_duration_f64(ours.time),
    ));
    let area: f64 = evaluation
        .faces
        .iter()
        .flatten()
        .flatten()
        .map(|f| f.measure.outline - f.measure.openings)
        .sum();
    let off = (area / theirs.area - 1.0)
        .abs()
        .max((area / apart.area - 1.0).abs());
    say(&format!(
        "    net areas: {:.3} m² and {:.3} m²",
        area / 1e6,
        theirs.area / 1e6
    ));
    limits.hold(
        format!("net areas differ by, relative ({words})"),
        off,
        Bound::AtMost(SAME_SUM),
    );
    if walls == Walls::Mixed {
        limits.hold(
            "times faster than the polygon library",
            faster,
            Bound::AtLeast(FASTER),
        );
    }
    Ok(())
}

/// The best of several.
#[derive(Debug)]
struct Best {
    time: Duration,
    work: Duration,
    area: f64,
}

impl Default for Best {
    fn default() -> Self {
        Self {
            time: Duration::MAX,
            work: Duration::MAX,
            area: f64::NAN,
        }
    }
}

impl Best {
    fn take(&mut self, measured: Measured) {
        self.time = self.time.min(measured.time);
        self.work = self.work.min(measured.work);
        self.area = measured.area;
    }
}

/// The best time of several evaluations, over memory that is used again, and the mean work of one.
fn evaluations(checked: &Checked, evaluation: &mut Evaluation) -> Outcome<Measured> {
    let mut time = Duration::MAX;
    let before = processor_time()?;
    for _ in 0..TIMES {
        let start = Instant::now();
        evaluate_into(checked, evaluation);
        time = time.min(start.elapsed());
    }
    let work = processor_time()?.saturating_sub(before) / TIMES;
    Ok(Measured {
        time,
        work,
        area: f64::NAN,
    })
}
