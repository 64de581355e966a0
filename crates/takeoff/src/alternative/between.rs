//! The changes that make one project of another, field by field: what keeps what was tried as an option.
//! Not here: making them.

use super::things::spot;
use crate::form::{self, Subject};
use crate::project::{Alteration, Name, Named, Project};
use ecow::{EcoString, eco_format};
use std::sync::Arc;

/// The changes that make `new` of `old`: fields set, coats, packages and walls added or left out.
///
/// Applied to `old` they give a project with the same figures as `new`.
///
/// # Errors
/// In words, what differs that no change of an option can make: mixes, materials or build-ups that are
/// new or gone, the order of coats, corners, pockets, and the like.
pub fn between(old: &Project, new: &Project) -> Result<Vec<Alteration>, EcoString> {
    let mut changes = Vec::new();
    let mut made = old.clone();
    parts(&mut made, new, &mut changes)?;
    for thing in subjects(&made) {
        fields(&mut made, new, thing, &mut changes)?;
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
        Ok(changes)
    } else {
        Err("something differs that no change of an option can make: only fields, and coats, packages and walls that are added or left out".into())
    }
}

/// Takes out what is gone, and puts in what is new.
fn parts(
    made: &mut Project,
    new: &Project,
    changes: &mut Vec<Alteration>,
) -> Result<(), EcoString> {
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
    for (w, wall) in made.walls.iter().enumerate() {
        if !new.walls.iter().any(|one| one.id == wall.id) {
            gone.push(Subject::Wall(w));
        }
    }
    if made.mixer.is_some() && new.mixer.is_none() {
        gone.push(Subject::Mixer);
    }
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
    for wall in &new.walls {
        if !made.walls.iter().any(|one| one.id == wall.id) {
            more.push(Alteration::Wall {
                wall: Arc::clone(wall),
            });
        }
    }
    for change in more {
        super::make(made, &change)?;
        changes.push(change);
    }
    Ok(())
}

/// Every thing whose fields an option can change.
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
    for (wall, of) in project.walls.iter().enumerate() {
        all.push(Subject::Wall(wall));
        let openings = 0..of.openings.len();
        all.extend(openings.map(|opening| Subject::Opening { wall, opening }));
    }
    all
}

/// Sets the fields of a thing that differ.
fn fields(
    made: &mut Project,
    new: &Project,
    thing: Subject,
    changes: &mut Vec<Alteration>,
) -> Result<(), EcoString> {
    if let Subject::Wall(at) | Subject::Opening { wall: at, .. } = thing
        && let (Some(a), Some(b)) = (
            made.walls.get(at),
            made.walls
                .get(at)
                .and_then(|wall| new.walls.iter().find(|one| one.id == wall.id)),
        )
        && Arc::ptr_eq(a, b)
    {
        return Ok(());
    }
    let Some(at) = spot(made, thing) else {
        return Ok(());
    };
    let Some(there) = super::things(new, &at)
        .ok()
        .and_then(|t| t.first().copied())
    else {
        return Ok(());
    };
    for row in form::rows(new, there) {
        // What the project is called, and in which units it is shown, is no way of working.
        if thing == Subject::Project && row.key != "measurement_rule" {
            continue;
        }
        // Rates belong to the work on site, which no option changes.
        if row.key.starts_with(form::RATE) {
            continue;
        }
        let now = form::rows(made, thing);
        let now = now.iter().find(|one| one.key == row.key);
        if now.and_then(|one| one.text.as_ref()) == row.text.as_ref() {
            continue;
        }
        let change = Alteration::Set {
            at: at.clone(),
            field: row.key.clone(),
            to: row.text.clone(),
        };
        super::make(made, &change)
            .map_err(|why| eco_format!("{} of {}: {why}", row.label, form::title(made, thing)))?;
        changes.push(change);
    }
    Ok(())
}
