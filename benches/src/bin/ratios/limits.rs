//! What must hold, what was found, and how what is short is measured. Not here: what is measured.

use crate::Outcome;
use std::io::Write;
use std::time::Instant;

/// How often what is short is measured.
const RUNS: usize = 20;

/// How a figure is held to its limit.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Bound {
    AtLeast(f64),
    AtMost(f64),
}

#[derive(Debug)]
struct Limit {
    what: String,
    found: f64,
    bound: Bound,
}

impl Limit {
    /// Not met by a figure that is not a number.
    fn met(&self) -> bool {
        self.met_within(0.0)
    }

    /// Met, or short of it by no more than this share.
    fn met_within(&self, short: f64) -> bool {
        match self.bound {
            Bound::AtLeast(least) => self.found >= least * (1.0 - short),
            Bound::AtMost(most) => self.found <= most * (1.0 + short),
        }
    }
}

/// How far a figure may fall short and still be told as near: what other work on a machine costs.
const NEAR: f64 = 0.10;

/// How far a figure may fall short before the run fails: no other work explains that much.
const FAR: f64 = 0.5;

/// The limits of one run.
#[derive(Debug, Default)]
pub(crate) struct Limits(Vec<Limit>);

impl Limits {
    pub(crate) fn hold(&mut self, what: impl Into<String>, found: f64, bound: Bound) {
        self.0.push(Limit {
            what: what.into(),
            found,
            bound,
        });
    }

    /// Whether there were limits and none of them was missed by far.
    pub(crate) fn none_missed_by_far(&self) -> bool {
        !self.0.is_empty() && self.0.iter().all(|limit| limit.met_within(FAR))
    }

    pub(crate) fn report(&self) {
        say("\nlimits");
        for limit in &self.0 {
            let (words, value) = match limit.bound {
                Bound::AtLeast(value) => ("at least", value),
                Bound::AtMost(value) => ("at most", value),
            };
            let met = match (limit.met(), limit.met_within(NEAR)) {
                (true, _) => "met   ",
                (false, true) => "NEAR  ",
                (false, false) => "MISSED",
            };
            say(&format!(
                "  {met} {:>10.4} {words} {value:<8} {}",
                limit.found, limit.what
            ));
        }
    }
}

/// The best of several runs, in milliseconds.
pub(crate) fn best(mut run: impl FnMut() -> Outcome) -> Outcome<f64> {
    let mut best = f64::INFINITY;
    for _ in 0..RUNS {
        let start = Instant::now();
        run()?;
        best = best.min(start.elapsed().as_secs_f64() * 1e3);
    }
    Ok(best)
}

/// Says a line at once; a reader that went away is no fault of the figures.
pub(crate) fn say(line: &str) {
    let mut out = std::io::stdout().lock();
    let _ = writeln!(out, "{line}").and_then(|()| out.flush());
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_can_be_missed() {
        let met = |found, bound| {
            let mut limits = Limits::default();
            limits.hold("a figure", found, bound);
            (limits.0.iter().all(Limit::met), limits.none_missed_by_far())
        };
        assert_eq!(met(200.0, Bound::AtLeast(200.0)), (true, true));
        assert_eq!(met(199.9, Bound::AtLeast(200.0)), (false, true));
        assert_eq!(met(90.0, Bound::AtLeast(200.0)), (false, false));
        assert_eq!(met(11.0, Bound::AtMost(11.0)), (true, true));
        assert_eq!(met(11.1, Bound::AtMost(11.0)), (false, true));
        assert_eq!(met(17.0, Bound::AtMost(11.0)), (false, false));
        assert_eq!(met(f64::NAN, Bound::AtMost(11.0)), (false, false));
        assert_eq!(met(f64::NAN, Bound::AtLeast(0.0)), (false, false));
        assert!(!Limits::default().none_missed_by_far());
    }
}
