//! Loads of a batch in what a crew counts: buckets, shovels, handfuls, cups. Not here: counting.

use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Volume, gallon, liter};
use hodful_takeoff::card::{CoatBatches, Load};
use hodful_takeoff::project::MaterialKind;

/// A last batch of more than this of a full one is a full one: nobody counts half a hundredth.
const AS_GOOD_AS_FULL: f64 = 0.995;

/// Whether the last batch of a coat is a smaller one.
pub(crate) fn has_part(coat: &CoatBatches<'_>) -> bool {
    !coat.last_loads.is_empty() && coat.last < AS_GOOD_AS_FULL
}

/// Buckets of a load; binder is not counted so.
pub(crate) fn buckets(load: &Load<'_>) -> Option<String> {
    let counted = load.counted.bucket_quarters;
    counted
        .filter(|_| load.kind != MaterialKind::Binder)
        .map(quarters)
}

/// Shovels of a load, of what is shovelled.
pub(crate) fn shovels(load: &Load<'_>) -> Option<String> {
    let counted = load.counted.shovels.filter(|_| load.kind.is_mineral());
    counted.map(|n| n.to_string())
}

/// What is counted otherwise: handfuls of fibre that were weighed, cups of binder.
pub(crate) fn otherwise(load: &Load<'_>) -> Option<String> {
    let handfuls = load.handfuls.map(|n| plural(n, "handful"));
    handfuls.or_else(|| load.cup_quarters.map(|n| of_quarters(n, "cup")))
}

/// Quarters of a measure with its word: `1 bucket`, `4 1/4 buckets`.
pub(crate) fn of_quarters(of: u64, word: &str) -> String {
    let many = if of > 4 || of == 0 { "s" } else { "" };
    format!("{} {word}{many}", quarters(of))
}

/// A count with its word.
pub(crate) fn plural(of: u64, word: &str) -> String {
    format!("{of} {word}{}", if of == 1 { "" } else { "s" })
}

/// Quarters of a bucket: `4 1/4`.
pub(crate) fn quarters(quarters: u64) -> String {
    let part = ["", "1/4", "1/2", "3/4"].get(usize::try_from(quarters % 4).unwrap_or(0));
    match (quarters / 4, part.copied().unwrap_or_default()) {
        (0, "") => "0".to_owned(),
        (whole, "") => whole.to_string(),
        (0, part) => part.to_owned(),
        (whole, part) => format!("{whole} {part}"),
    }
}

/// Water of a batch, to a tenth.
pub(crate) fn water(volume: Volume, units: UnitSystem) -> String {
    let (value, unit) = match units {
        UnitSystem::Us => (volume.get::<gallon>(), "gal"),
        UnitSystem::Metric => (volume.get::<liter>(), "L"),
    };
    format!("{} {unit}", print::fixed(value, 1, units.grouping()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quarters_read_as_they_are_said() {
        for (of, said) in [
            (0, "0 buckets"),
            (1, "1/4 bucket"),
            (4, "1 bucket"),
            (5, "1 1/4 buckets"),
            (8, "2 buckets"),
        ] {
            assert_eq!(of_quarters(of, "bucket"), said);
        }
    }
}
