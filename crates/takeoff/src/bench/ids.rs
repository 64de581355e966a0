//! The ids of the walls: how often each stands, and which stand twice. Not here: ids of openings,
//! which are looked at with their wall.

use crate::check::walls::twice;
use crate::problem::Problem;
use crate::project::{Name, Wall};
use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;

/// The ids of all walls.
#[derive(Debug, Default)]
pub(super) struct Ids {
    counts: HashMap<Name, usize>,
    /// Ids that stand more than once.
    repeated: usize,
    /// By position of the wall that repeats an id.
    pub(super) problems: BTreeMap<usize, Problem>,
}

impl Ids {
    /// A wall is there.
    pub(super) fn add(&mut self, wall: &Wall) {
        let count = self.counts.entry(wall.id.clone()).or_default();
        *count += 1;
        self.repeated += usize::from(*count == 2);
    }

    /// A wall is there no longer.
    pub(super) fn remove(&mut self, wall: &Wall) {
        let Some(count) = self.counts.get_mut(&wall.id) else {
            return;
        };
        *count -= 1;
        self.repeated -= usize::from(*count == 1);
        if *count == 0 {
            self.counts.remove(&wall.id);
        }
    }

    /// Tells anew which walls repeat an id. Looks at every wall only when one does.
    pub(super) fn tell(&mut self, walls: &[Arc<Wall>]) {
        self.problems.clear();
        if self.repeated == 0 {
            return;
        }
        let mut seen = HashMap::with_capacity(walls.len());
        for (at, wall) in walls.iter().enumerate() {
            if let Some(before) = seen.insert(wall.id.as_str(), at) {
                self.problems.insert(at, twice(wall, before));
            }
        }
    }
}
