//! Where the walls of two projects differ. Not here: what is done about it.

use crate::project::Wall;
use std::iter::zip;
use std::sync::Arc;

/// Where two lists of walls differ by reference, between what they begin and end with alike.
pub(super) struct Spread {
    /// How many walls they begin with alike.
    pub(super) front: usize,
    /// Positions in the old list.
    pub(super) left: Vec<usize>,
    /// Positions in the new list.
    pub(super) came: Vec<usize>,
    /// Both lists are as long: walls at other positions are the same in both.
    pub(super) level: bool,
}

impl Spread {
    pub(super) fn between(old: &[Arc<Wall>], new: &[Arc<Wall>]) -> Self {
        let same = |(a, b): &(&Arc<Wall>, &Arc<Wall>)| Arc::ptr_eq(a, b);
        let front = zip(old, new).take_while(same).count();
        let (old_rest, new_rest) = (old.iter().skip(front), new.iter().skip(front));
        let back = zip(old_rest.rev(), new_rest.rev()).take_while(same).count();
        let level = old.len() == new.len();
        let differs = |at: &usize| match (old.get(*at), new.get(*at)) {
            (Some(a), Some(b)) => !(level && Arc::ptr_eq(a, b)),
            _ => true,
        };
        Self {
            front,
            left: (front..old.len() - back).filter(differs).collect(),
            came: (front..new.len() - back).filter(differs).collect(),
            level,
        }
    }
}
