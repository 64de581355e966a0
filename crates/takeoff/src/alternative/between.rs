//! The changes that make one project of another, field by field: what keeps what was tried as an option.
//! Not here: making them, and telling what no change can make (see `beyond`).

use super::beyond::{beyond, come_or_gone};
use super::make;
use super::things::{ById, spot, things};
use crate::form::{self, Subject};
use crate::project::{Alteration, Name, Named, Project, Wall};
use ecow::{EcoString, eco_format};
use std::sync::Arc;

/// The changes that make `new` of `old`: fields set; coats, packages and walls added or left out; openings and the
/// mixer left out.
///
/// Applied to `old` they give a project with the same figures as `new`.
///
/// # Errors
/// In words, what differs that no change of an option can make: mixes, materials or build-ups that are
/// new or gone, the order of coats, corners, pockets, openings that are new, and the like.
pub fn between(old: &Project, new: &Project) -> Result<Vec<Alteration>, EcoString> {
    let cannot = |why: EcoString| {
        eco_format!(
            "{why}; an option changes fields, adds coats, packages and walls, and leaves out these, openings and the mixer"
        )
    };
    if let Some(why) = come_or_gone(old, new) {
        return Err(cannot(why));
    }
    let mut changes = Vec::new();
    let mut made = old.clone();
    parts(&mut made, new, &mut changes)?;
    let (mut of_made, mut of_new) = (ById::default(), ById::default());
    for thing in subjects(&made) {
        let there = spot(&made, thing).and_then(|at| things(new, &at).ok());
        if let Some(there) = there.and_then(|found| found.first().copied()) {
            fields(&mut made, new, [thing, there], &mut of_made, &mut changes)?;
        }
    }
    for wall in 0..made.walls.len() {
        let Some((was, at, is)) = differing(&made, new, wall, &mut of_new) else {
            continue;
        };
        let both = [Subject::Wall(wall), Subject::Wall(at)];
        fields(&mut made, new, both, &mut of_made, &mut changes)?;
        for (opening, of) in was.openings.iter().enumerate() {
            let Some(there) = is.openings.iter().position(|one| one.id == of.id) else {
                continue;
            };
            let both = [(wall, opening), (at, there)];
            let both = both.map(|(wall, opening)| Subject::Opening { wall, opening });
            fields(&mut made, new, both, &mut of_made, &mut changes)?;
        }
    }
    let strip = |project: &Project| Project {
        options: Named::default(),
        uncertain: Vec::new(),
        done: Vec::new(),
        delivered: Vec::new(),
        work: None,
        note: None,
        name: Name::default(),
        units: hodful_quantities::print::UnitSystem::Metric,
        ..project.clone()
    };
    if crate::change::Change::between(&strip(&made), &strip(new)).is_nothing() {
        return Ok(changes);
    }
    Err(cannot(beyond(&made, new)))
}

/// A wall that is another one than before, and where it stands now; `None` where it is the same, or gone.
fn differing<'p>(
    made: &Project,
    new: &'p Project,
    at: usize,
    of_new: &mut ById,
) -> Option<(Arc<Wall>, usize, &'p Arc<Wall>)> {
    let was = made.walls.get(at)?;
    // Most walls are where they were, and what they were.
    let (there, is) = match new.walls.get(at) {
        Some(is) if Arc::ptr_eq(was, is) => return None,
        Some(is) if was.id == is.id => (at, is),
        _ => {
            let there = *of_new.of(new, &was.id).first()?;
            (there, new.walls.get(there)?)
        }
    };
    (!Arc::ptr_eq(was, is)).then(|| (Arc::clone(was), there, is))
}

/// Takes out what is gone, and puts in what is new.
fn parts(
    made: &mut Project,
    new: &Project,
    changes: &mut Vec<Alteration>,
) -> Result<(), EcoString> {
    let gone = gone(made, new);
    let left_out = gone.iter().filter_map(|thing| spot(made, *thing));
    let left_out = left_out.map(|at| Alteration::LeaveOut { at });
    let mut more: Vec<Alteration> = left_out.collect();
    for (name, coats) in &new.build_ups {
        let Some(there) = made.build_ups.get(name) else {
            continue;
        };
        let mut after = None;
        for coat in coats {
            if !there.iter().any(|one| one.coat == coat.coat) {
                more.push(Alteration::Coat {
                    build_up: name.clone(),
                    after: after.clone(),
                    coat: coat.clone(),
                });
            }
            after = Some(coat.coat.clone());
        }
    }
    for (name, of) in &new.materials {
        let Some(there) = made.materials.get(name) else {
            continue;
        };
        for package in &of.packages {
            if !there.packages.iter().any(|one| one.name == package.name) {
                more.push(Alteration::Package {
                    material: name.clone(),
                    package: package.clone(),
                });
            }
        }
    }
    let mut of_made = ById::default();
    for (at, wall) in new.walls.iter().enumerate() {
        let was = made.walls.get(at);
        let is_there = was.is_some_and(|was| Arc::ptr_eq(was, wall) || was.id == wall.id);
        if !is_there && of_made.of(made, &wall.id).is_empty() {
            more.push(Alteration::Wall {
                wall: Arc::clone(wall),
            });
        }
    }
    let mut by_id = ById::default();
    for change in more {
        make(made, &change, &mut by_id)?;
        changes.push(change);
    }
    Ok(())
}

/// What is not there any more.
fn gone(made: &Project, new: &Project) -> Vec<Subject> {
    let mut gone = Vec::new();
    for (b, (name, coats)) in made.build_ups.iter().enumerate() {
        let there = new.build_ups.get(name);
        for (c, coat) in coats.iter().enumerate() {
            if there.is_some_and(|there| !there.iter().any(|one| one.coat == coat.coat)) {
                gone.push(Subject::Coat {
                    build_up: b,
                    coat: c,
                });
            }
        }
    }
    for (m, (name, of)) in made.materials.iter().enumerate() {
        let there = new.materials.get(name);
        for (p, package) in of.packages.iter().enumerate() {
            if there.is_some_and(|t| !t.packages.iter().any(|one| one.name == package.name)) {
                gone.push(Subject::Package {
                    material: m,
                    package: p,
                });
            }
        }
    }
    let mut of_new = ById::default();
    for (w, wall) in made.walls.iter().enumerate() {
        if let Some((was, _, is)) = differing(made, new, w, &mut of_new) {
            for (o, opening) in was.openings.iter().enumerate() {
                if !is.openings.iter().any(|one| one.id == opening.id) {
                    gone.push(Subject::Opening {
                        wall: w,
                        opening: o,
                    });
                }
            }
            continue;
        }
        let there = new.walls.get(w);
        let is_same = there.is_some_and(|there| Arc::ptr_eq(there, wall));
        if !is_same && of_new.of(new, &wall.id).is_empty() {
            gone.push(Subject::Wall(w));
        }
    }
    if made.mixer.is_some() && new.mixer.is_none() {
        gone.push(Subject::Mixer);
    }
    gone
}

/// Every thing whose fields an option can change, besides walls and what is in them.
fn subjects(project: &Project) -> Vec<Subject> {
    let mut all = vec![Subject::Project];
    if project.mixer.is_some() {
        all.push(Subject::Mixer);
    }
    all.extend((0..project.backgrounds.len()).map(Subject::Background));
    for (build_up, coats) in project.build_ups.values().enumerate() {
        all.extend((0..coats.len()).map(|coat| Subject::Coat { build_up, coat }));
    }
    all.extend((0..project.mixes.len()).map(Subject::Mix));
    for (material, of) in project.materials.values().enumerate() {
        all.push(Subject::Material(material));
        let packages = 0..of.packages.len();
        all.extend(packages.map(|package| Subject::Package { material, package }));
    }
    all.extend((0..project.suppliers.len()).map(Subject::Supplier));
    all
}

/// Sets the fields that differ of a thing, given as it stands in either.
fn fields(
    made: &mut Project,
    new: &Project,
    [thing, there]: [Subject; 2],
    by_id: &mut ById,
    changes: &mut Vec<Alteration>,
) -> Result<(), EcoString> {
    let Some(at) = spot(made, thing) else {
        return Ok(());
    };
    let mut now = form::rows(made, thing);
    for row in form::rows(new, there) {
        // What the project is called, and in which units it is shown, is no way of working.
        if thing == Subject::Project && row.key != "measurement_rule" {
            continue;
        }
        // Rates belong to the work on site, which no option changes.
        if row.key.starts_with(form::RATE) {
            continue;
        }
        let own = now.iter().find(|one| one.key == row.key);
        if own.and_then(|one| one.text.as_ref()) == row.text.as_ref() {
            continue;
        }
        let change = Alteration::Set {
            at: at.clone(),
            field: row.key.clone(),
            to: row.text.clone(),
        };
        make(made, &change, by_id)
            .map_err(|why| eco_format!("{} of {}: {why}", row.label, form::title(made, thing)))?;
        changes.push(change);
        // One field may change another.
        now = form::rows(made, thing);
    }
    Ok(())
}
