//! A thing left out of a project, with what is said and recorded of it. Not here: which thing.
//!
//! What is recorded of a coat or a wall that is left out goes with it. Where a record is of that and of more, nobody
//! can tell what of it the rest took: then it says so, and nothing is left out. What was counted in a thing that is left
//! out stays, as the volume or the mass that it was (see `counted`).

use super::counted;
use crate::check::uncertain::thing;
use crate::form::{self, Subject};
use crate::project::{Done, Name, Project, Side, Uncertain};
use ecow::{EcoString, eco_format};
use std::sync::Arc;

/// Leaves things out.
///
/// # Errors
/// In words: that one is not there, that such a thing cannot be left out, or which record is of it and of more.
pub(super) fn leave_out(project: &mut Project, all: &[Subject]) -> Result<(), EcoString> {
    forget(project, |face| {
        all.contains(&Subject::Wall(face.wall)) || all.contains(&face.coat)
    })?;
    // From the last, so that positions hold.
    let mut ends = all.iter().rev();
    ends.try_for_each(|what| one(project, *what))
}

fn one(project: &mut Project, what: Subject) -> Result<(), EcoString> {
    let gone = || EcoString::from("it is not there");
    match what {
        Subject::Coat { build_up, coat } => {
            let (_, coats) = project.build_ups.get_index_mut(build_up).ok_or_else(gone)?;
            if coat >= coats.len() {
                return Err(gone());
            }
            let name = coats.remove(coat).coat;
            coat_is_gone(project, &name);
        }
        Subject::Package { material, package } => {
            let (_, of) = project.materials.get_index(material).ok_or_else(gone)?;
            if package >= of.packages.len() {
                return Err(gone());
            }
            counted::in_the_package(project, material, package);
            if let Some((_, of)) = project.materials.get_index_mut(material) {
                of.packages.remove(package);
            }
        }
        Subject::Wall(at) => {
            if at >= project.walls.len() {
                return Err(gone());
            }
            let id = project.walls.remove(at).id.clone();
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
            let wall = Arc::make_mut(wall);
            if opening >= wall.openings.len() {
                return Err(gone());
            }
            wall.openings.remove(opening);
        }
        Subject::Mixer => {
            counted::of_the_mixer(project);
            project.mixer = None;
        }
        _ => {
            return Err(eco_format!(
                "{} cannot be left out; coats, packages, walls, openings and the mixer can",
                form::title(project, what)
            ));
        }
    }
    Ok(())
}

/// What is said of a coat goes once no build-up has it, or the option would be refused for it.
fn coat_is_gone(project: &mut Project, name: &Name) {
    if project
        .build_ups
        .values()
        .flatten()
        .any(|c| c.coat == *name)
    {
        return;
    }
    for phase in project.buying.iter_mut().flat_map(|b| &mut b.phases) {
        phase.coats.retain(|coat| coat != name);
    }
    let is_of_it = |of: &Uncertain| thing(of.of) == "coat" && of.name.as_ref() == Some(name);
    project.uncertain.retain(|of| !is_of_it(of));
    // One of no wall that is there.
    project.done.retain(|of| of.coat != *name);
    if let Some(work) = &mut project.work {
        work.rates.shift_remove(name);
        work.dried.retain(|of| of.coat != *name);
    }
}

/// A coat on a face that a record is about.
struct Face {
    wall: usize,
    coat: Subject,
}

/// Takes out the records of nothing but what goes.
fn forget(project: &mut Project, goes: impl Fn(&Face) -> bool) -> Result<(), EcoString> {
    let mut kept = Vec::with_capacity(project.done.len());
    for (at, of) in project.done.iter().enumerate() {
        let faces = faces(project, of);
        let gone = faces.iter().filter(|face| goes(face)).count();
        if gone == 0 {
            kept.push(of.clone());
        } else if gone < faces.len() {
            return Err(eco_format!(
                "record {} is of that and of more, and what the rest of it took cannot be told; make a record of each",
                at.saturating_add(1)
            ));
        }
    }
    project.done = kept;
    Ok(())
}

/// The faces that a record is about.
fn faces(project: &Project, of: &Done) -> Vec<Face> {
    let walls = project.walls.iter().enumerate();
    let meant = walls.filter(|(_, wall)| of.walls.is_empty() || of.walls.contains(&wall.id));
    let faces = meant.flat_map(|(at, wall)| {
        let sides = [Side::Outside, Side::Inside].into_iter();
        let sides = sides.filter(|side| of.face.is_none_or(|face| face == *side));
        sides.filter_map(move |side| Some((at, &wall.face(side)?.build_up)))
    });
    let faces = faces.filter_map(|(wall, name)| {
        if of.build_up.as_ref().is_some_and(|named| named != name) {
            return None;
        }
        let (build_up, _, coats) = project.build_ups.get_full(name)?;
        let coat = coats.iter().position(|coat| coat.coat == of.coat)?;
        let coat = Subject::Coat { build_up, coat };
        Some(Face { wall, coat })
    });
    faces.collect()
}
