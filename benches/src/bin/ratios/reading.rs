//! Reading a project file, every dimension understood, against the JSON library reading it into its own tree. Not here:
//! smaller files (see the benches).

use crate::limits::{Bound, Limits, say};
use crate::{MANY, Outcome};
use hodful_benches::terrace::{Walls, file};
use std::hint::black_box;
use std::time::{Duration, Instant};

const ROUNDS: usize = 5;
const MOST: f64 = 1.0;

pub(crate) fn measure(limits: &mut Limits) -> Outcome {
    let bytes = file(Walls::Mixed, MANY);
    let [mut ours, mut theirs] = [Duration::MAX; 2];
    for _ in 0..ROUNDS {
        let start = Instant::now();
        let project = hodful_project_file::read(&bytes).map_err(|_| "the project is refused")?;
        ours = ours.min(start.elapsed());
        drop(black_box(project));
        let start = Instant::now();
        let value: serde_json::Value = serde_json::from_slice(&bytes)?;
        theirs = theirs.min(start.elapsed());
        drop(black_box(value));
    }
    let ratio = ours.div_duration_f64(theirs);
    let ms = |time: Duration| 1e3 * time.as_secs_f64();
    say(&format!(
        "\nreading a file of {:.0} MB: {:.0} ms; the JSON library into its own tree {:.0} ms: {ratio:.2} of its time",
        bytes.len() as f64 / 1e6,
        ms(ours),
        ms(theirs),
    ));
    limits.hold(
        "of the JSON library's time for reading",
        ratio,
        Bound::AtMost(MOST),
    );
    Ok(())
}
