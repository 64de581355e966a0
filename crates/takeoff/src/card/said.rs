//! What a crew counts, in its words: `7 1/4 buckets`, `12 handfuls`, `1/2 cup`. Not here: counting.

use super::{CoatBatches, Load, Water};
use crate::project::MaterialKind;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem, fixed};
use hodful_quantities::units::{Volume, gallon, liter};

/// A last batch of more than this of a full one is a full one: nobody counts half a hundredth.
const AS_GOOD_AS_FULL: f64 = 0.995;

/// Quarters of a whole one.
const QUARTERS: u64 = 4;

/// How quarters are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quarters {
    /// `4 1/4`, which any printer and terminal has.
    Plain,
    /// `4¼`.
    Signs,
}

/// A count in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// How many: `7 1/4`.
    pub count: EcoString,
    /// Of what: `buckets`.
    pub measure: EcoString,
    /// The same counted otherwise, with volume and weight: `or 37 shovels, 82 L, 102.7 kg`.
    pub also: EcoString,
}

/// Quarters of something: `4 1/4`.
pub fn quarters(of: u64, written: Quarters) -> EcoString {
    let parts = match written {
        Quarters::Plain => ["", "1/4", "1/2", "3/4"],
        Quarters::Signs => ["", "¼", "½", "¾"],
    };
    let part = usize::try_from(of % 4).ok().and_then(|at| parts.get(at));
    let between = match written {
        Quarters::Plain => " ",
        Quarters::Signs => "",
    };
    match (of / 4, part.copied().unwrap_or_default()) {
        (0, "") => "0".into(),
        (whole, "") => eco_format!("{whole}"),
        (0, part) => part.into(),
        (whole, part) => eco_format!("{whole}{between}{part}"),
    }
}

/// The word for a number of quarters of something: `bucket` up to one, then `buckets`.
pub fn of_quarters(of: u64, word: &str) -> EcoString {
    let s = if (1..=4).contains(&of) { "" } else { "s" };
    eco_format!("{word}{s}")
}

/// The word for a count: `1 shovel`, `2 shovels`.
pub fn plural(of: u64, word: &str) -> EcoString {
    let s = if of == 1 { "" } else { "s" };
    eco_format!("{word}{s}")
}

/// Water in what it is measured in, to a tenth of a gallon or litre.
pub fn poured(of: Volume, units: UnitSystem) -> EcoString {
    let (value, unit) = match units {
        UnitSystem::Us => (of.get::<gallon>(), "gal"),
        UnitSystem::Metric => (of.get::<liter>(), "L"),
    };
    eco_format!("{} {unit}", fixed(value, 1, units.grouping()))
}

impl Load<'_> {
    /// Buckets of it, as quarters; less than a quarter is not counted so, nor binder under a bucket.
    pub fn buckets(&self) -> Option<u64> {
        let least = match self.kind {
            MaterialKind::Binder => QUARTERS,
            _ => 1,
        };
        self.counted.bucket_quarters.filter(|of| *of >= least)
    }

    /// Shovels of it, when it is shovelled.
    pub fn shovels(&self) -> Option<u64> {
        let counted = self.counted.shovels.filter(|of| *of > 0);
        counted.filter(|_| self.kind.is_mineral())
    }

    /// How it is counted: by the bucket, the cup, the handful or the shovel, whichever comes first, else
    /// by weight.
    pub fn said(&self, units: UnitSystem, written: Quarters) -> Said {
        let loose = self.quantity.loose.map(|v| print::volume(v, units));
        let mass = self.quantity.mass.map(|m| print::mass(m, units));
        let cups = self.cup_quarters.filter(|of| *of > 0);
        let handfuls = self.handfuls.filter(|of| *of > 0);
        let shovels = self.shovels();
        let mut also: Vec<EcoString> = Vec::new();
        let (count, measure) = if let Some(of) = self.buckets() {
            (quarters(of, written), of_quarters(of, "bucket"))
        } else if let Some(of) = cups {
            (quarters(of, written), of_quarters(of, "cup"))
        } else if let Some(of) = handfuls {
            (eco_format!("{of}"), plural(of, "handful"))
        } else if let Some(of) = shovels {
            (eco_format!("{of}"), plural(of, "shovel"))
        } else {
            let figure = mass.clone().or_else(|| loose.clone());
            figure.map_or_else(
                || ("?".into(), EcoString::new()),
                |figure| (figure.digits.into(), figure.unit.into()),
            )
        };
        for (of, word) in [(shovels, "shovel"), (handfuls, "handful")] {
            if let Some(of) = of.filter(|_| !measure.starts_with(word)) {
                also.push(eco_format!("or {of} {}", plural(of, word)));
            }
        }
        also.extend(loose.map(|figure| eco_format!("{figure}")));
        also.extend(mass.map(|figure| eco_format!("{figure}")));
        Said {
            count,
            measure,
            also: also.join(", ").into(),
        }
    }
}

impl Water {
    /// What goes in at once.
    pub fn at_once(&self) -> Volume {
        self.to_add - self.held_back
    }

    /// What goes in at once, and what is held back.
    pub fn said(&self, units: UnitSystem, written: Quarters) -> Said {
        let (count, measure) = match self.first_counted.bucket_quarters.filter(|of| *of > 0) {
            Some(of) => (quarters(of, written), of_quarters(of, "bucket")),
            None => (poured(self.at_once(), units), EcoString::new()),
        };
        let usual = if self.is_said {
            ""
        } else {
            " (the usual fifth)"
        };
        Said {
            count,
            measure,
            also: eco_format!(
                "{}; hold back {}{usual} until it has turned",
                poured(self.at_once(), units),
                poured(self.held_back, units)
            ),
        }
    }
}

impl CoatBatches<'_> {
    /// Whether the last batch is a smaller one.
    pub fn has_part(&self) -> bool {
        !self.last_loads.is_empty() && self.last < AS_GOOD_AS_FULL
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quarters_read_as_they_are_said() {
        for (of, plain, signs, word) in [
            (0, "0", "0", "buckets"),
            (1, "1/4", "¼", "bucket"),
            (4, "1", "1", "bucket"),
            (5, "1 1/4", "1¼", "buckets"),
            (8, "2", "2", "buckets"),
        ] {
            assert_eq!(quarters(of, Quarters::Plain), plain);
            assert_eq!(quarters(of, Quarters::Signs), signs);
            assert_eq!(of_quarters(of, "bucket"), word);
        }
    }
}
