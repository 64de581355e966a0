//! What differs between two projects that no change of an option can make, in words. Not here: the changes that can be
//! made (see `between`).

use crate::project::{Coat, Name, Named, Project, Wall};
use ecow::{EcoString, eco_format};
use std::collections::HashMap;
use std::sync::Arc;

/// How many differences are named; of more it is said how many.
const NAMED: usize = 3;

/// What is there in one alone and no option brings or takes; `None` where there is no such thing.
pub(super) fn come_or_gone(old: &Project, new: &Project) -> Option<EcoString> {
    let mut found = Vec::new();
    names("background", &old.backgrounds, &new.backgrounds, &mut found);
    names("material", &old.materials, &new.materials, &mut found);
    names("mix", &old.mixes, &new.mixes, &mut found);
    names("build-up", &old.build_ups, &new.build_ups, &mut found);
    names("blend", &old.blends, &new.blends, &mut found);
    names("supplier", &old.suppliers, &new.suppliers, &mut found);
    if old.mixer.is_none() && new.mixer.is_some() {
        found.push("the mixer is new".into());
    }
    (!found.is_empty()).then(|| first_of(found))
}

fn names<T>(noun: &str, old: &Named<T>, new: &Named<T>, found: &mut Vec<EcoString>) {
    let come = new.keys().filter(|name| !old.contains_key(*name));
    found.extend(come.map(|name| eco_format!("{noun} {name} is new")));
    let gone = old.keys().filter(|name| !new.contains_key(*name));
    found.extend(gone.map(|name| eco_format!("{noun} {name} is gone")));
}

/// What differs still, where everything was made that can be.
pub(super) fn beyond(made: &Project, new: &Project) -> EcoString {
    let mut found = Vec::new();
    walls(made, new, &mut found);
    build_ups(made, new, &mut found);
    named(
        "background",
        &made.backgrounds,
        &new.backgrounds,
        &mut found,
    );
    named("material", &made.materials, &new.materials, &mut found);
    named("mix", &made.mixes, &new.mixes, &mut found);
    named("blend", &made.blends, &new.blends, &mut found);
    named("supplier", &made.suppliers, &new.suppliers, &mut found);
    if made.buying != new.buying {
        found.push("how the order is placed differs".into());
    }
    if found.is_empty() {
        return "something differs that is no field".into();
    }
    first_of(found)
}

/// The first of some differences, and how many there are besides.
fn first_of(mut found: Vec<EcoString>) -> EcoString {
    let more = found.len().saturating_sub(NAMED);
    found.truncate(NAMED);
    let mut words = EcoString::from(found.join(", "));
    if more > 0 {
        words.push_str(&eco_format!(" and {more} more"));
    }
    words
}

/// Entries of the same names.
fn named<T: PartialEq>(noun: &str, made: &Named<T>, new: &Named<T>, found: &mut Vec<EcoString>) {
    let before = found.len();
    let differ = new.iter().filter(|(name, of)| made.get(*name) != Some(*of));
    found.extend(
        differ.map(|(name, _)| eco_format!("{noun} {name} differs in more than its fields")),
    );
    if found.len() == before && !made.keys().eq(new.keys()) {
        found.push(eco_format!("the {noun}s stand in another order"));
    }
}

fn build_ups(made: &Project, new: &Project, found: &mut Vec<EcoString>) {
    let names = |coats: &[Coat]| -> Vec<Name> {
        let mut names: Vec<Name> = coats.iter().map(|coat| coat.coat.clone()).collect();
        names.sort();
        names
    };
    let before = found.len();
    for (name, coats) in &new.build_ups {
        match made.build_ups.get(name) {
            Some(was) if was != coats && names(was) == names(coats) => {
                found.push(eco_format!("the coats of {name} stand in another order"));
            }
            _ => {}
        }
    }
    if found.len() == before {
        named("build-up", &made.build_ups, &new.build_ups, found);
    }
}

fn walls(made: &Project, new: &Project, found: &mut Vec<EcoString>) {
    let before = found.len();
    let by_id: HashMap<&Name, &Arc<Wall>> = made.walls.iter().map(|w| (&w.id, w)).collect();
    let mut is_moved = made.walls.len() != new.walls.len();
    for (is, there) in new.walls.iter().zip(&made.walls) {
        is_moved |= is.id != there.id;
        if Arc::ptr_eq(is, there) {
            continue;
        }
        if let Some(was) = by_id.get(&is.id) {
            found.extend(wall(was, is));
        }
    }
    if found.len() == before && is_moved {
        found.push("the walls stand in another order".into());
    }
}

/// What differs of a wall.
fn wall(was: &Wall, is: &Wall) -> Option<EcoString> {
    if was == is {
        return None;
    }
    let id = &is.id;
    let mut added = is.openings.iter();
    let added = added.find(|one| !was.openings.iter().any(|old| old.id == one.id));
    Some(if let Some(opening) = added {
        eco_format!("opening {} of wall {id} is new", opening.id)
    } else if was.pockets != is.pockets {
        eco_format!("the pockets of wall {id} differ")
    } else if was.ends != is.ends {
        eco_format!("the corners of wall {id} differ")
    } else if !was
        .openings
        .iter()
        .map(|o| &o.id)
        .eq(is.openings.iter().map(|o| &o.id))
    {
        eco_format!("the openings of wall {id} stand in another order")
    } else {
        eco_format!("wall {id} differs in more than its fields")
    })
}
