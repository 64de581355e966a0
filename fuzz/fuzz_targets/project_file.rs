//! Any bytes, read as a project file: they are read or refused in words, never with a panic; what is read
//! is written and read back the same, and checked and evaluated. Not here: the readers of single values.
//!
//! `RUSTC_BOOTSTRAP=1 cargo fuzz run -s none project_file -- -max_total_time=20`

#![no_main]

use hodful_project_file::{read, read_what_can_be, rules, write};
use hodful_takeoff::{Assessed, RuleBook};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static RULES: LazyLock<RuleBook> = LazyLock::new(rules);

fuzz_target!(|bytes: &[u8]| {
    let (partly, problems) = read_what_can_be(bytes);
    assert!(problems.iter().all(|problem| !problem.message.is_empty()));
    match read(bytes) {
        Ok(project) => {
            assert!(problems.is_empty());
            assert_eq!(partly.as_ref(), Some(&project));
        }
        Err(refused) => assert!(!refused.is_empty() && refused == problems),
    }
    // What was left of a broken file is a whole project too.
    if let Some(project) = partly {
        let written = write(&project);
        assert_eq!(read(&written).as_ref(), Ok(&project));
        assert_eq!(write(&project), written);
        if let Err(refused) = Assessed::new(&project, &RULES) {
            assert!(!refused.is_empty());
        }
    }
});
