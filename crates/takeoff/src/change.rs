//! What an edit did to a project: what was taken out, what stands there instead, and nothing of what
//! stayed. A change can be applied, turned round and kept; undo keeps thousands.
//!
//! Walls are held by reference on both sides, so that a change to one wall of a large project is as
//! small as that wall. Of everything else only the entry that changed is held: one material, one mix.
//! Not here: what the edit was called, and where it is written down.

use crate::project::{
    Alternative, Background, Blend, Buying, Coat, Delivered, Done, Material, Mix, Mixer, Name,
    Named, Project, Supplier, Uncertain, Wall, Work,
};
use hodful_quantities::print::UnitSystem;
use std::sync::Arc;

/// The difference between two projects.
///
/// ```
/// use hodful_takeoff::change::Change;
/// # fn of(old: &hodful_takeoff::Project, new: &hodful_takeoff::Project) {
/// let change = Change::between(old, new);
/// let mut project = old.clone();
/// change.apply(&mut project);
/// assert_eq!(&project, new);
/// change.inverse().apply(&mut project);
/// assert_eq!(&project, old);
/// # }
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Change {
    /// Stretches of walls. When there is more than one, each puts in as many walls as it takes out, so
    /// that every position is the same before and after.
    pub walls: Vec<Splice<Arc<Wall>>>,
    /// Everything else, when any of it differs.
    pub rest: Option<Box<Rest>>,
}

/// A stretch of a list that gives way to another.
#[derive(Debug, Clone, PartialEq)]
pub struct Splice<T> {
    /// Position of the first entry of the stretch.
    pub at: usize,
    /// What stood there.
    pub removed: Vec<T>,
    /// What stands there now.
    pub added: Vec<T>,
}

/// A value that gives way to another.
#[derive(Debug, Clone, PartialEq)]
pub struct Swap<T> {
    /// The value that was.
    pub before: T,
    /// The value that is.
    pub after: T,
}

/// Entries with a name that give way to others.
pub type NamedSplices<T> = Vec<Splice<(Name, T)>>;

/// What changed besides the walls. The order of entries with a name counts.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rest {
    /// What the project is called.
    pub name: Option<Swap<Name>>,
    /// The units its figures are shown in.
    pub units: Option<Swap<UnitSystem>>,
    /// Key of the measurement rule.
    pub measurement_rule: Option<Swap<Name>>,
    /// Backgrounds.
    pub backgrounds: NamedSplices<Background>,
    /// Materials.
    pub materials: NamedSplices<Material>,
    /// Mixes.
    pub mixes: NamedSplices<Mix>,
    /// Build-ups.
    pub build_ups: NamedSplices<Vec<Coat>>,
    /// The mixer.
    pub mixer: Option<Swap<Option<Mixer>>>,
    /// Blends.
    pub blends: NamedSplices<Blend>,
    /// Suppliers.
    pub suppliers: NamedSplices<Supplier>,
    /// How the order is placed.
    pub buying: Option<Swap<Option<Buying>>>,
    /// Options.
    pub options: NamedSplices<Alternative>,
    /// How far inputs may be off.
    pub uncertain: Option<Swap<Vec<Uncertain>>>,
    /// Coats that were put on.
    pub done: Option<Swap<Vec<Done>>>,
    /// Materials that came.
    pub delivered: Option<Swap<Vec<Delivered>>>,
    /// Who works when.
    pub work: Option<Swap<Option<Box<Work>>>>,
    /// Free text of the estimator.
    pub note: Option<Swap<Option<Name>>>,
}

impl Change {
    /// What makes `new` of `old`.
    pub fn between(old: &Project, new: &Project) -> Self {
        let same = |a: &Arc<Wall>, b: &Arc<Wall>| Arc::ptr_eq(a, b) || a == b;
        let walls = runs(
            old.walls.len(),
            new.walls.len(),
            |o, n| matches!((old.walls.get(o), new.walls.get(n)), (Some(a), Some(b)) if same(a, b)),
        );
        let part = |walls: &[Arc<Wall>], at: usize, count: usize| {
            walls.iter().skip(at).take(count).map(Arc::clone).collect()
        };
        Self {
            walls: walls
                .into_iter()
                .map(|run| Splice {
                    at: run.at,
                    removed: part(&old.walls, run.at, run.old),
                    added: part(&new.walls, run.at, run.new),
                })
                .collect(),
            rest: Rest::between(old, new),
        }
    }

    /// Whether both projects are the same.
    pub fn is_nothing(&self) -> bool {
        self.walls.is_empty() && self.rest.is_none()
    }

    /// Makes the new project of the old one. Applied to any other project it changes what it finds at
    /// its positions, and nothing past the end.
    pub fn apply(&self, project: &mut Project) {
        for splice in &self.walls {
            splice.apply(&mut project.walls);
        }
        if let Some(rest) = &self.rest {
            rest.apply(project);
        }
    }

    /// The change that makes the old project of the new one.
    #[must_use]
    pub fn inverse(&self) -> Self {
        Self {
            walls: turned(&self.walls),
            rest: self.rest.as_ref().map(|rest| Box::new(rest.inverse())),
        }
    }
}

impl<T: Clone> Splice<T> {
    fn apply(&self, list: &mut Vec<T>) {
        let start = self.at.min(list.len());
        let end = start.saturating_add(self.removed.len()).min(list.len());
        list.splice(start..end, self.added.iter().cloned());
    }
}

fn turned<T: Clone>(splices: &[Splice<T>]) -> Vec<Splice<T>> {
    splices
        .iter()
        .map(|splice| Splice {
            at: splice.at,
            removed: splice.added.clone(),
            added: splice.removed.clone(),
        })
        .collect()
}

impl<T: Clone + PartialEq> Swap<T> {
    fn between(before: &T, after: &T) -> Option<Self> {
        (before != after).then(|| Self {
            before: before.clone(),
            after: after.clone(),
        })
    }

    fn inverse(&self) -> Self {
        Self {
            before: self.after.clone(),
            after: self.before.clone(),
        }
    }

    /// Puts the new value, when there is one, in the place of the old.
    fn apply(swap: Option<&Self>, value: &mut T) {
        if let Some(swap) = swap {
            value.clone_from(&swap.after);
        }
    }
}

impl Rest {
    /// What differs besides the walls, when anything does.
    pub(crate) fn between(old: &Project, new: &Project) -> Option<Box<Self>> {
        let rest = Self {
            name: Swap::between(&old.name, &new.name),
            units: Swap::between(&old.units, &new.units),
            measurement_rule: Swap::between(&old.measurement_rule, &new.measurement_rule),
            backgrounds: entries(&old.backgrounds, &new.backgrounds, PartialEq::eq),
            materials: entries(&old.materials, &new.materials, PartialEq::eq),
            mixes: entries(&old.mixes, &new.mixes, same_mix),
            build_ups: entries(&old.build_ups, &new.build_ups, PartialEq::eq),
            mixer: Swap::between(&old.mixer, &new.mixer),
            blends: entries(&old.blends, &new.blends, same_blend),
            suppliers: entries(&old.suppliers, &new.suppliers, PartialEq::eq),
            buying: Swap::between(&old.buying, &new.buying),
            options: entries(&old.options, &new.options, PartialEq::eq),
            uncertain: Swap::between(&old.uncertain, &new.uncertain),
            done: Swap::between(&old.done, &new.done),
            delivered: Swap::between(&old.delivered, &new.delivered),
            work: swapped_work(old, new),
            note: Swap::between(&old.note, &new.note),
        };
        (rest != Self::default()).then(|| Box::new(rest))
    }

    fn apply(&self, project: &mut Project) {
        Swap::apply(self.name.as_ref(), &mut project.name);
        Swap::apply(self.units.as_ref(), &mut project.units);
        let rule = &mut project.measurement_rule;
        Swap::apply(self.measurement_rule.as_ref(), rule);
        apply_named(&self.backgrounds, &mut project.backgrounds);
        apply_named(&self.materials, &mut project.materials);
        apply_named(&self.mixes, &mut project.mixes);
        apply_named(&self.build_ups, &mut project.build_ups);
        Swap::apply(self.mixer.as_ref(), &mut project.mixer);
        apply_named(&self.blends, &mut project.blends);
        apply_named(&self.suppliers, &mut project.suppliers);
        Swap::apply(self.buying.as_ref(), &mut project.buying);
        apply_named(&self.options, &mut project.options);
        Swap::apply(self.uncertain.as_ref(), &mut project.uncertain);
        Swap::apply(self.done.as_ref(), &mut project.done);
        Swap::apply(self.delivered.as_ref(), &mut project.delivered);
        Swap::apply(self.work.as_ref(), &mut project.work);
        Swap::apply(self.note.as_ref(), &mut project.note);
    }

    fn inverse(&self) -> Self {
        Self {
            name: self.name.as_ref().map(Swap::inverse),
            units: self.units.as_ref().map(Swap::inverse),
            measurement_rule: self.measurement_rule.as_ref().map(Swap::inverse),
            backgrounds: turned(&self.backgrounds),
            materials: turned(&self.materials),
            mixes: turned(&self.mixes),
            build_ups: turned(&self.build_ups),
            mixer: self.mixer.as_ref().map(Swap::inverse),
            blends: turned(&self.blends),
            suppliers: turned(&self.suppliers),
            buying: self.buying.as_ref().map(Swap::inverse),
            options: turned(&self.options),
            uncertain: self.uncertain.as_ref().map(Swap::inverse),
            done: self.done.as_ref().map(Swap::inverse),
            delivered: self.delivered.as_ref().map(Swap::inverse),
            work: self.work.as_ref().map(Swap::inverse),
            note: self.note.as_ref().map(Swap::inverse),
        }
    }
}

/// Equal, parts in the same order: maps with other orders are equal in themselves.
fn same_mix(a: &Mix, b: &Mix) -> bool {
    a == b && a.parts.keys().eq(b.parts.keys())
}

/// What differs in the work, the order of its rates too.
fn swapped_work(old: &Project, new: &Project) -> Option<Swap<Option<Box<Work>>>> {
    let order = |project: &Project| -> Vec<Name> {
        let rates = project.work.iter().flat_map(|work| work.rates.keys());
        rates.cloned().collect()
    };
    (old.work != new.work || order(old) != order(new)).then(|| Swap {
        before: old.work.clone(),
        after: new.work.clone(),
    })
}

/// Equal, materials in the same order.
fn same_blend(a: &Blend, b: &Blend) -> bool {
    a == b && a.materials.keys().eq(b.materials.keys())
}

fn entries<T: Clone>(
    old: &Named<T>,
    new: &Named<T>,
    same: impl Fn(&T, &T) -> bool,
) -> NamedSplices<T> {
    let found = runs(old.len(), new.len(), |o, n| {
        matches!(
            (old.get_index(o), new.get_index(n)),
            (Some((a, one)), Some((b, other))) if a == b && same(one, other)
        )
    });
    let part = |all: &Named<T>, at: usize, count: usize| {
        let entries = all.iter().skip(at).take(count);
        entries.map(|(n, t)| (n.clone(), t.clone())).collect()
    };
    found
        .into_iter()
        .map(|run| Splice {
            at: run.at,
            removed: part(old, run.at, run.old),
            added: part(new, run.at, run.new),
        })
        .collect()
}

fn apply_named<T: Clone>(splices: &NamedSplices<T>, all: &mut Named<T>) {
    if splices.is_empty() {
        return;
    }
    let mut entries: Vec<(Name, T)> = std::mem::take(all).into_iter().collect();
    for splice in splices {
        splice.apply(&mut entries);
    }
    *all = entries.into_iter().collect();
}

/// A stretch that differs: where it begins, and how long it is in both lists.
struct Run {
    at: usize,
    old: usize,
    new: usize,
}

/// The stretches in which two lists differ: one between what they begin and end with alike, and when
/// that is as long in both, only those parts of it that differ position by position.
fn runs(old: usize, new: usize, same: impl Fn(usize, usize) -> bool) -> Vec<Run> {
    let shorter = old.min(new);
    let front = (0..shorter).take_while(|i| same(*i, *i)).count();
    let back = (0..shorter - front)
        .take_while(|i| same(old - 1 - i, new - 1 - i))
        .count();
    let (old_part, new_part) = (old - front - back, new - front - back);
    if old_part != new_part {
        return vec![Run {
            at: front,
            old: old_part,
            new: new_part,
        }];
    }
    let mut found: Vec<Run> = Vec::new();
    for at in (front..front + old_part).filter(|i| !same(*i, *i)) {
        match found.last_mut().filter(|run| run.at + run.old == at) {
            Some(run) => {
                run.old += 1;
                run.new += 1;
            }
            None => found.push(Run { at, old: 1, new: 1 }),
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_are_as_short_as_they_can_be() {
        let found = |old: &str, new: &str| -> Vec<(usize, usize, usize)> {
            let (old, new) = (old.as_bytes(), new.as_bytes());
            runs(old.len(), new.len(), |o, n| old[o] == new[n])
                .into_iter()
                .map(|run| (run.at, run.old, run.new))
                .collect()
        };
        assert_eq!(found("abc", "abc"), []);
        assert_eq!(found("", ""), []);
        assert_eq!(found("", "ab"), [(0, 0, 2)]);
        assert_eq!(found("abc", "axc"), [(1, 1, 1)]);
        assert_eq!(
            found("abcdefg", "xbcDEfG"),
            [(0, 1, 1), (3, 2, 2), (6, 1, 1)]
        );
        assert_eq!(found("abc", "abxyc"), [(2, 0, 2)]);
        assert_eq!(found("aaa", "aa"), [(2, 1, 0)]);
        assert_eq!(found("abcd", "ad"), [(1, 2, 0)]);
    }
}
