//! A whole process: from the start of `hodful order` to its end, on every demo project. Not here: what it prints.

use crate::Outcome;
use crate::limits::{Bound, Limits, say};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const RUNS: usize = 20;
/// In milliseconds.
const MOST: f64 = 20.0;

pub(crate) fn measure(hodful: &Path, limits: &mut Limits) -> Outcome {
    say("\nhodful order, whole process");
    let files = hodful_benches::demo_projects()?;
    let mut slowest = Duration::ZERO;
    for file in &files {
        let mut times = (0..RUNS)
            .map(|_| order(hodful, file))
            .collect::<Outcome<Vec<Duration>>>()?;
        times.sort();
        let [best, late] = [times[0], times[RUNS * 9 / 10 - 1]];
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        say(&format!(
            "  {name:<36} best {:>6.2} ms, nine of ten under {:>6.2} ms",
            ms(best),
            ms(late)
        ));
        slowest = slowest.max(best);
    }
    if files.is_empty() {
        return Err("there are no demo projects".into());
    }
    limits.hold(
        "ms for 'hodful order', the slowest demo project",
        ms(slowest),
        Bound::AtMost(MOST),
    );
    Ok(())
}

fn order(hodful: &Path, file: &Path) -> Outcome<Duration> {
    let start = Instant::now();
    let output = Command::new(hodful)
        .arg("order")
        .arg(file)
        .stderr(Stdio::null())
        .output()?;
    let time = start.elapsed();
    if !output.status.success() || output.stdout.is_empty() {
        return Err(format!("hodful order {} failed", file.display()).into());
    }
    Ok(time)
}

fn ms(time: Duration) -> f64 {
    1e3 * time.as_secs_f64()
}
