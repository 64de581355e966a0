//! What the coats of the work have together: nights in which several may freeze, days on which it rains on several,
//! and cautions with what calls for them. Not here: what each coat has by itself (see `nights`), and the words (see `said`).

use super::nights::is_worse;
use super::{DayTask, Days, NightAhead, RainAhead};
use crate::project::Side;
use ecow::{EcoString, eco_format};
use hodful_workplan::{Preparing, Work};
use std::collections::BTreeMap;

/// A night that speaks for frost, with all coats that are wet in it.
#[derive(Debug, Clone, PartialEq)]
pub struct NightOnSite<'d> {
    /// The night as it is for the coat that has the worst of it: others are dry before it is over.
    pub worst: &'d NightAhead,
    /// Coats that are likely wet then.
    pub likely: Vec<&'d DayTask>,
    /// Coats that are wet then if they dry slowly.
    pub slow: Vec<&'d DayTask>,
}

/// A day on which it rains on wet coats.
#[derive(Debug, Clone, PartialEq)]
pub struct RainOnSite<'d> {
    /// The rain on the coat that has the most of it: others are put on later or are dry before it is over.
    pub most: &'d RainAhead,
    /// Coats that are likely wet then.
    pub likely: Vec<&'d DayTask>,
    /// Coats that are wet then if they dry slowly.
    pub slow: Vec<&'d DayTask>,
}

/// What a caution is told for.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Cautioned<'d> {
    /// Coats on faces.
    pub coats: Vec<&'d DayTask>,
    /// What is prepared.
    pub prepared: Vec<EcoString>,
}

/// What is prepared, and the keys of its cautions: straw is trimmed, an old background is scraped.
const PREPARED: [(Preparing, &[&str]); 6] = [
    (Preparing::Heaps, &["lifting"]),
    (Preparing::Soaking, &["lifting", "slip"]),
    (Preparing::Screening, &["dust", "lifting"]),
    (Preparing::Tests, &[]),
    (Preparing::Masking, &["power"]),
    (
        Preparing::Background,
        &["dust", "straw-fire", "old-walls", "scaffold"],
    ),
];

impl Days {
    /// Every coat that is told of: planned ones, then those on the walls already.
    pub fn coats(&self) -> impl Iterator<Item = &DayTask> {
        let on_wall = self.on_wall.iter().map(|of| &of.task);
        self.tasks.iter().chain(on_wall)
    }

    /// Every night that speaks for frost while a coat is wet, from the first on.
    pub fn nights(&self) -> Vec<NightOnSite<'_>> {
        let mut all: BTreeMap<_, NightOnSite<'_>> = BTreeMap::new();
        for task in self.coats() {
            for night in &task.nights {
                let entry = all.entry(night.night.evening);
                let entry = entry.or_insert_with(|| NightOnSite {
                    worst: night,
                    likely: Vec::new(),
                    slow: Vec::new(),
                });
                if is_worse(&night.night, &entry.worst.night) {
                    entry.worst = night;
                }
                if night.likely_wet {
                    entry.likely.push(task);
                } else {
                    entry.slow.push(task);
                }
            }
        }
        all.into_values().collect()
    }

    /// Every day on which it rains on a wet coat, from the first on.
    pub fn rain(&self) -> Vec<RainOnSite<'_>> {
        let mut all: BTreeMap<_, RainOnSite<'_>> = BTreeMap::new();
        for task in self.coats() {
            for rain in &task.rain {
                let entry = all.entry(rain.date).or_insert_with(|| RainOnSite {
                    most: rain,
                    likely: Vec::new(),
                    slow: Vec::new(),
                });
                if rain.mm > entry.most.mm {
                    entry.most = rain;
                }
                if rain.likely_wet {
                    entry.likely.push(task);
                } else {
                    entry.slow.push(task);
                }
            }
        }
        all.into_values().collect()
    }

    /// Keys of the cautions that something prepared calls for, by its position in the plan.
    pub fn cautions_of_prepared(&self, task: usize) -> Vec<&'static str> {
        let work = self.site.tasks.get(task).map(|task| &task.work);
        let Some(Work::Prepare { what, .. }) = work else {
            return Vec::new();
        };
        let own = PREPARED.iter().filter(|(of, _)| of == what);
        let keys = own.flat_map(|(_, keys)| keys.iter().copied());
        let is_called = |key: &&str| match *key {
            "straw-fire" => self.coats().any(|of| of.on_straw),
            "scaffold" => self.coats().any(|of| of.is_high),
            _ => true,
        };
        keys.filter(is_called).collect()
    }

    /// Each caution that is called for, by its key, with what calls for it.
    pub fn cautioned(&self) -> BTreeMap<&'static str, Cautioned<'_>> {
        let mut all: BTreeMap<_, Cautioned<'_>> = BTreeMap::new();
        for task in self.coats() {
            for key in &task.cautions {
                all.entry(*key).or_default().coats.push(task);
            }
        }
        for at in self.tasks.len()..self.site.tasks.len() {
            for key in self.cautions_of_prepared(at) {
                all.entry(key).or_default().prepared.push(self.name(at));
            }
        }
        all
    }
}

/// Coats on faces in few words, each with its side and walls: `scratch outside on S, E; fill inside on N`.
pub fn coats_on_walls(tasks: &[&DayTask]) -> EcoString {
    let mut coats: Vec<((&str, Side), Vec<&str>)> = Vec::new();
    for task in tasks {
        let key = (task.coat.as_str(), task.side);
        match coats.iter_mut().find(|(of, _)| *of == key) {
            Some((_, walls)) => walls.push(&task.wall),
            None => coats.push((key, vec![&task.wall])),
        }
    }
    let each = coats
        .into_iter()
        .map(|((coat, side), walls)| eco_format!("{coat} {} on {}", side.word(), walls.join(", ")));
    each.collect::<Vec<_>>().join("; ").into()
}
