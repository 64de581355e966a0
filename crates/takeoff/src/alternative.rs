//! Options: the project with the changes of one made, and the changes that make one project of another.
//! Not here: how options compare (see `crate::compare`).

mod between;
mod said;
#[cfg(test)]
mod tests;
mod things;

pub use between::between;
pub use said::said;
pub use things::things;

use crate::form::{self, Subject};
use crate::problem::{Place, Problem};
use crate::project::{Alteration, Name, Project, Uncertain, UncertainInput};
use ecow::{EcoString, eco_format};

/// The place of an option.
pub(crate) fn place(name: &Name) -> Place {
    Place::project().thing("option", name.clone())
}

/// The project as it is under an option, without any option of its own. Walls that no change is about are
/// held by the same reference as in the project.
///
/// # Errors
/// Every change that does not fit, with its place: the option that it stands in, which may be one that
/// this one starts from. Changes are tried each after those that fit.
pub fn apply(project: &Project, name: &str) -> Result<Project, Vec<Problem>> {
    let mut chain: Vec<(&Name, &crate::project::Alternative)> = Vec::new();
    let mut next = Some(name);
    while let Some(name) = next {
        let Some((_, found, of)) = project.options.get_full(name) else {
            let (place, message) = match chain.last() {
                Some((from, _)) => (
                    place(from).field("of"),
                    eco_format!("there is no option '{name}'"),
                ),
                None => (
                    place(&name.into()),
                    eco_format!("there is no option of that name"),
                ),
            };
            return Err(vec![Problem::refused(place, message)]);
        };
        if chain.iter().any(|(before, _)| *before == found) {
            let message = eco_format!("'{found}' starts from itself in the end");
            return Err(vec![Problem::refused(place(found).field("of"), message)]);
        }
        chain.push((found, of));
        next = of.of.as_deref();
    }
    let mut changed = project.clone();
    let mut problems = Vec::new();
    for (name, of) in chain.into_iter().rev() {
        for (at, change) in of.changes.iter().enumerate() {
            let before = changed.clone();
            if let Err(why) = make(&mut changed, change) {
                changed = before;
                let number = eco_format!("{}", at.saturating_add(1));
                let place = place(name).thing("change", number);
                let message = eco_format!("no longer fits: {why}");
                problems.push(Problem::refused(place, message));
            }
        }
    }
    // Options of an option are those of the project, and are told there.
    changed.options.clear();
    if problems.is_empty() {
        Ok(changed)
    } else {
        Err(problems)
    }
}

/// Every change of every option that does not fit, each once. They keep nothing from being computed but
/// their own option, so that they are doubtful.
pub fn misfits(project: &Project) -> Vec<Problem> {
    let mut found: Vec<Problem> = Vec::new();
    for name in project.options.keys() {
        for mut problem in apply(project, name).err().into_iter().flatten() {
            problem.severity = crate::problem::Severity::Doubtful;
            if !found.contains(&problem) {
                found.push(problem);
            }
        }
    }
    found
}

/// Makes one change.
fn make(project: &mut Project, change: &Alteration) -> Result<(), EcoString> {
    match change {
        Alteration::Set { at, field, to } => {
            for thing in things(project, at)? {
                form::set(project, thing, field, to.as_deref().unwrap_or_default())?;
            }
        }
        Alteration::Add { at, field, by } => {
            for thing in things(project, at)? {
                more(project, thing, field, by)?;
            }
        }
        Alteration::LeaveOut { at } => {
            let mut found = things(project, at)?;
            // From the last, so that positions hold.
            found.reverse();
            for thing in found {
                leave_out(project, thing)?;
            }
        }
        Alteration::Coat {
            build_up,
            after,
            coat,
        } => {
            let coats = project
                .build_ups
                .get_mut(build_up)
                .ok_or_else(|| eco_format!("there is no build-up '{build_up}'"))?;
            if coats.iter().any(|one| one.coat == coat.coat) {
                return Err(eco_format!("{build_up} has a coat '{}' already", coat.coat));
            }
            let at = match after {
                None => 0,
                Some(after) => coats
                    .iter()
                    .position(|one| one.coat == *after)
                    .map(|at| at + 1)
                    .ok_or_else(|| eco_format!("{build_up} has no coat '{after}'"))?,
            };
            coats.insert(at, coat.clone());
        }
        Alteration::Wall { wall } => {
            if project.walls.iter().any(|one| one.id == wall.id) {
                return Err(eco_format!("there is a wall '{}' already", wall.id));
            }
            project.walls.push(wall.clone());
        }
        Alteration::Package { material, package } => {
            let of = project
                .materials
                .get_mut(material)
                .ok_or_else(|| eco_format!("there is no material '{material}'"))?;
            if of.packages.iter().any(|one| one.name == package.name) {
                return Err(eco_format!(
                    "{material} is sold by the '{}' already",
                    package.name
                ));
            }
            of.packages.push(package.clone());
        }
    }
    Ok(())
}

/// Makes a measured field more, or less: its text becomes a sum.
fn more(project: &mut Project, thing: Subject, field: &str, by: &str) -> Result<(), EcoString> {
    let rows = form::rows(project, thing);
    let Some(row) = rows.into_iter().find(|row| row.key == field) else {
        return Err(eco_format!(
            "{} has no field '{field}'",
            form::title(project, thing)
        ));
    };
    let text = row.text.ok_or_else(|| {
        eco_format!(
            "{} of {} is not given, and so nothing can be added",
            row.label,
            form::title(project, thing)
        )
    })?;
    let by = by.trim();
    let (sign, amount) = match by.strip_prefix(['+', '-']) {
        Some(amount) if by.starts_with('-') => ('-', amount.trim()),
        Some(amount) => ('+', amount.trim()),
        None => ('+', by),
    };
    if amount.starts_with(['+', '-']) {
        return Err(eco_format!("'{by}' has two signs; write +5 mm or -5 mm"));
    }
    let read = form::understand(&row.kind, amount, project.units)?;
    let by = eco_format!("{sign} {}", read.stored);
    form::set(project, thing, field, &eco_format!("{} {by}", text.trim()))
}

fn leave_out(project: &mut Project, thing: Subject) -> Result<(), EcoString> {
    let gone = || EcoString::from("it is not there");
    match thing {
        Subject::Coat { build_up, coat } => {
            let (_, coats) = project.build_ups.get_index_mut(build_up).ok_or_else(gone)?;
            if coat >= coats.len() {
                return Err(gone());
            }
            let name = coats.remove(coat).coat;
            let is_left = project.build_ups.values().flatten().any(|c| c.coat == name);
            for phase in project.buying.iter_mut().flat_map(|b| &mut b.phases) {
                phase.coats.retain(|coat| is_left || *coat != name);
            }
            // What is said of a coat goes with it, or the option would be refused for it.
            if !is_left {
                let is_thickness = |of: &Uncertain| of.of == UncertainInput::Thickness;
                let names = |of: &Uncertain| of.name.as_ref() == Some(&name);
                project
                    .uncertain
                    .retain(|of| !(is_thickness(of) && names(of)));
                project.done.retain(|of| of.coat != name);
                if let Some(work) = &mut project.work {
                    work.dried.retain(|of| of.coat != name);
                }
            }
        }
        Subject::Package { material, package } => {
            let (_, of) = project.materials.get_index_mut(material).ok_or_else(gone)?;
            if package >= of.packages.len() {
                return Err(gone());
            }
            of.packages.remove(package);
        }
        Subject::Wall(wall) => {
            if wall >= project.walls.len() {
                return Err(gone());
            }
            let id = project.walls.remove(wall).id.clone();
            // A record of that wall alone goes with it; one of no wall is of all.
            project.done.retain(|of| of.walls != [id.clone()]);
            for of in &mut project.done {
                of.walls.retain(|wall| *wall != id);
            }
            if let Some(work) = &mut project.work {
                work.dried.retain(|of| of.wall != id);
                // A room of that wall alone goes with it; one of no wall is of all.
                work.rooms.retain(|_, room| room.walls != [id.clone()]);
                for room in work.rooms.values_mut() {
                    room.walls.retain(|wall| *wall != id);
                }
            }
        }
        Subject::Opening { wall, opening } => {
            let wall = project.walls.get_mut(wall).ok_or_else(gone)?;
            let wall = std::sync::Arc::make_mut(wall);
            if opening >= wall.openings.len() {
                return Err(gone());
            }
            wall.openings.remove(opening);
        }
        Subject::Mixer => project.mixer = None,
        _ => {
            return Err(eco_format!(
                "{} cannot be left out; coats, packages, walls, openings and the mixer can",
                form::title(project, thing)
            ));
        }
    }
    Ok(())
}
