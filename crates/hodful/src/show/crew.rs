//! Loads of a batch in what a crew counts, for tables: buckets, shovels, handfuls, cups. Not here:
//! counting, and the words (see `hodful_takeoff::card`).

use hodful_takeoff::card::Load;
use hodful_takeoff::card::said::{self, Quarters};

/// Buckets of a load; binder is not counted so.
pub(crate) fn buckets(load: &Load<'_>) -> Option<String> {
    load.buckets().map(quarters)
}

/// Shovels of a load, of what is shovelled.
pub(crate) fn shovels(load: &Load<'_>) -> Option<String> {
    load.shovels().map(|n| n.to_string())
}

/// What is counted otherwise: handfuls of fibre that were weighed, cups of binder.
pub(crate) fn otherwise(load: &Load<'_>) -> Option<String> {
    let handfuls = load.handfuls.map(|n| plural(n, "handful"));
    handfuls.or_else(|| load.cup_quarters.map(|n| of_quarters(n, "cup")))
}

/// Quarters of a measure with its word: `1 bucket`, `4 1/4 buckets`.
pub(crate) fn of_quarters(of: u64, word: &str) -> String {
    format!("{} {}", quarters(of), said::of_quarters(of, word))
}

/// A count with its word.
pub(crate) fn plural(of: u64, word: &str) -> String {
    format!("{of} {}", said::plural(of, word))
}

/// Quarters of a bucket: `4 1/4`.
pub(crate) fn quarters(quarters: u64) -> String {
    said::quarters(quarters, Quarters::Plain).into()
}
