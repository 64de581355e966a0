//! Options: the project with the changes of one made, and the changes that make one project of another.
//! Not here: how options compare (see `crate::compare`).

mod between;
mod beyond;
mod counted;
mod keep;
mod leave_out;
mod said;
#[cfg(test)]
mod tests;
mod things;

pub use between::between;
pub use keep::{TakenUp, kept, taken_up};
pub use said::said;
pub use things::things;

use crate::form::{self, Subject};
use crate::problem::{Place, Problem};
use crate::project::{Alteration, Alternative, Name, Project};
use ecow::{EcoString, eco_format};
use leave_out::leave_out;
use things::{ById, looked_up};

/// What the project without any option is called beside its options: `as it stands`. Where an option has that name,
/// the option keeps it, and the project has another that no option has.
pub fn as_it_stands(project: &Project) -> Name {
    let mut name = Name::from("as it stands");
    while project.options.contains_key(&name) {
        name = eco_format!("the project {name}");
    }
    name
}

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
    let mut changed = project.clone();
    let mut fitting: Vec<&Alteration> = Vec::new();
    let mut problems = Vec::new();
    let mut by_id = ById::default();
    for (name, of) in chain(project, name)?.into_iter().rev() {
        for (at, change) in of.changes.iter().enumerate() {
            let Err(why) = make(&mut changed, change, &mut by_id) else {
                fitting.push(change);
                continue;
            };
            let number = eco_format!("{}", at.saturating_add(1));
            let place = place(name).thing("change", number);
            let message = eco_format!("no longer fits: {why}");
            problems.push(Problem::refused(place, message));
            // It may have made a part of it: once more, with those that fit.
            changed = project.clone();
            by_id.forget();
            for change in &fitting {
                // Each was made before from the same.
                let _ = make(&mut changed, change, &mut by_id);
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

/// An option, with those that it starts from behind it.
fn chain<'p>(
    project: &'p Project,
    name: &str,
) -> Result<Vec<(&'p Name, &'p Alternative)>, Vec<Problem>> {
    let mut chain: Vec<(&Name, &Alternative)> = Vec::new();
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
    Ok(chain)
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

/// Makes one change. When it fails, a part of it may be made.
fn make(project: &mut Project, change: &Alteration, by_id: &mut ById) -> Result<(), EcoString> {
    match change {
        Alteration::Set { at, field, to } => {
            for thing in looked_up(project, at, by_id)? {
                form::set(project, thing, field, to.as_deref().unwrap_or_default())?;
            }
            if field == "id" {
                by_id.forget();
            }
        }
        Alteration::Add { at, field, by } => {
            for thing in looked_up(project, at, by_id)? {
                more(project, thing, field, by)?;
            }
        }
        Alteration::LeaveOut { at } => {
            let found = things(project, at)?;
            leave_out(project, &found)?;
            by_id.forget();
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
            by_id.forget();
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
