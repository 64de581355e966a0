//! Acceptance tests: published cases, demo projects, the data that is compiled in, the direction of
//! the crates, tidiness. Each case is a test with its own name. Not here: tests of one crate alone.

mod arrows;
mod cases;
mod data;
mod demos;
mod places;
mod tidy;

use libtest_mimic::{Arguments, Failed, Trial};
use std::process::ExitCode;

/// What a test gives back.
type Outcome = Result<(), Failed>;

fn main() -> ExitCode {
    let arguments = Arguments::from_args();
    let mut trials = Vec::new();
    cases::trials(&mut trials);
    demos::trials(&mut trials);
    data::trials(&mut trials);
    arrows::trials(&mut trials);
    tidy::trials(&mut trials);
    libtest_mimic::run(&arguments, trials).exit_code()
}

/// Fails with everything that was found, a line each.
fn nothing_in(found: &[String]) -> Outcome {
    if found.is_empty() {
        Ok(())
    } else {
        Err(found.join("\n").into())
    }
}

/// A test by name.
fn trial(name: impl Into<String>, run: impl FnOnce() -> Outcome + Send + 'static) -> Trial {
    Trial::test(name, run)
}
