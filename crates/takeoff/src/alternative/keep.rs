//! What was tried kept as an option, with the project back as it was; and an option taken up in the project itself.
//! Not here: which changes make one project of another (see `between`).

use super::{apply, between, chain, misfits};
use crate::form::{Renamed, mentioned};
use crate::problem::{Problem, Severity};
use crate::project::{Alternative, Name, Project};
use crate::rule::RuleBook;
use ecow::{EcoString, eco_format};
use std::collections::HashSet;
use std::sync::Arc;

/// The project as it was at a mark, with the changes made since as an option of it, the last one. Options, spreads,
/// records, work on site and texts stay as they are now; a coat that comes back has the rate again that it had at the
/// mark. `None` when there was no change since.
///
/// # Errors
/// In words, why it cannot be: a coat or a wall has another name since the mark and what was said of it followed the
/// name; what differs that no option can make; or what stays would be refused, or an option would not fit, with the project as it was at the mark.
pub fn kept(
    mark: &Project,
    now: &Project,
    name: &Name,
    rules: &RuleBook,
) -> Result<Option<Project>, EcoString> {
    if let Some(words) = renamed(mark, now) {
        return Err(words);
    }
    let changes = between(mark, now)?;
    if changes.is_empty() {
        return Ok(None);
    }
    let mut back = Project {
        name: now.name.clone(),
        units: now.units,
        options: now.options.clone(),
        uncertain: now.uncertain.clone(),
        done: now.done.clone(),
        delivered: now.delivered.clone(),
        work: now.work.clone(),
        note: now.note.clone(),
        ..mark.clone()
    };
    bring_rates(&mut back, mark, now);
    let refused = |project: &Project| -> Vec<Problem> {
        let found = crate::check(project, rules).err().unwrap_or_default();
        let refused = found.into_iter();
        refused
            .filter(|p| p.severity == Severity::Refused)
            .collect()
    };
    let is_new = |found: Vec<Problem>, before: &dyn Fn() -> Vec<Problem>| {
        if found.is_empty() {
            return None;
        }
        let before = before();
        found.into_iter().find(|problem| !before.contains(problem))
    };
    // What the mark was refused for is no fault of keeping.
    if let Some(problem) = is_new(refused(&back), &|| refused(mark)) {
        return Err(eco_format!(
            "as it was at the mark, the project would be refused for what was added since: {problem}"
        ));
    }
    if let Some(problem) = is_new(misfits(&back), &|| misfits(now)) {
        return Err(eco_format!(
            "with the project as it was at the mark, another option would not fit: {problem}"
        ));
    }
    let option = Alternative {
        changes,
        ..Alternative::default()
    };
    back.options.insert(name.clone(), option);
    match apply(&back, name).err().as_deref() {
        Some([problem, ..]) => Err(eco_format!("{}", problem.message)),
        _ => Ok(Some(back)),
    }
}

/// Gives coats that come back what one person does of them in an hour, as it was: it was let go with the last of them.
fn bring_rates(back: &mut Project, mark: &Project, now: &Project) {
    let (Some(work), Some(was)) = (&mut back.work, &mark.work) else {
        return;
    };
    let left: HashSet<&Name> = coats(now).collect();
    for (at, (name, rate)) in was.rates.iter().enumerate() {
        if !left.contains(name) && !work.rates.contains_key(name) {
            let at = at.min(work.rates.len());
            work.rates.shift_insert(at, name.clone(), rate.clone());
        }
    }
}

fn coats(project: &Project) -> impl Iterator<Item = &Name> {
    project.build_ups.values().flatten().map(|coat| &coat.coat)
}

/// A coat or a wall that seems to have another name since the mark, which is named now: what named the old one followed.
/// Whatever else has another name, no change of an option can make.
fn renamed(mark: &Project, now: &Project) -> Option<EcoString> {
    let said = |what: EcoString, new: &Name| {
        eco_format!(
            "since the mark {what} gave way to {new}, and records, rooms, spreads or options name {new}, which was not there then; give names first, set the mark, and try after that"
        )
    };
    let gives_way = |was: &[&Name], is: &[&Name]| {
        let (old, new): (HashSet<&Name>, HashSet<&Name>) =
            (was.iter().copied().collect(), is.iter().copied().collect());
        let gone = was.iter().find(|name| !new.contains(**name)).copied();
        let come = is.iter().copied().filter(|name| !old.contains(*name));
        gone.map(|gone| (gone.clone(), come.cloned().collect::<Vec<Name>>()))
    };
    let told = mentioned(now, Renamed::Coat);
    for (build_up, coats) in &mark.build_ups {
        let Some(there) = now.build_ups.get(build_up) else {
            continue;
        };
        let was: Vec<&Name> = coats.iter().map(|coat| &coat.coat).collect();
        let is: Vec<&Name> = there.iter().map(|coat| &coat.coat).collect();
        if let Some((gone, come)) = gives_way(&was, &is)
            && let Some(new) = come.iter().find(|name| told.contains(*name))
        {
            return Some(said(eco_format!("coat {gone} of {build_up}"), new));
        }
    }
    let is_same = |(a, b): (&Arc<_>, &Arc<_>)| Arc::ptr_eq(a, b);
    if mark.walls.len() == now.walls.len() && mark.walls.iter().zip(&now.walls).all(is_same) {
        return None;
    }
    let was: Vec<&Name> = mark.walls.iter().map(|wall| &wall.id).collect();
    let is: Vec<&Name> = now.walls.iter().map(|wall| &wall.id).collect();
    let (gone, come) = gives_way(&was, &is)?;
    let told = mentioned(now, Renamed::Wall);
    let new = come.iter().find(|name| told.contains(*name))?;
    Some(said(eco_format!("wall {gone}"), new))
}

/// An option taken up.
#[derive(Debug, Clone, PartialEq)]
pub struct TakenUp {
    /// The project with what the option changes made in it, and without that option and those it starts from.
    pub project: Project,
    /// Those that it starts from, the nearest first: they went into the project as well.
    pub with: Vec<Name>,
    /// Other options that started from one of these: they start from the project now.
    pub onward: Vec<Name>,
}

/// Makes the changes of an option in the project itself. The option goes, and so do those that it starts from: left
/// there, each would add once more what it adds.
///
/// # Errors
/// Those of [`apply`].
pub fn taken_up(project: &Project, name: &str) -> Result<TakenUp, Vec<Problem>> {
    let names: Vec<Name> = chain(project, name)?
        .into_iter()
        .map(|(name, _)| name.clone())
        .collect();
    let mut made = apply(project, name)?;
    made.options.clone_from(&project.options);
    made.options.retain(|name, _| !names.contains(name));
    let mut onward = Vec::new();
    for (name, of) in &mut made.options {
        if of.of.as_ref().is_some_and(|from| names.contains(from)) {
            of.of = None;
            onward.push(name.clone());
        }
    }
    Ok(TakenUp {
        project: made,
        with: names.into_iter().skip(1).collect(),
        onward,
    })
}
