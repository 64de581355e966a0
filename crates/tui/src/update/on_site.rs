//! Making, copying and removing rooms, what is prepared, and records of drying. Not here: their fields (see
//! `hodful_takeoff::form`).

use super::alter::{copy_named, copy_next, make_new, take};
use crate::State;
use crate::effect::Effect;
use ecow::EcoString;
use hodful_quantities::{Measure, Typed};
use hodful_takeoff::form::Subject;
use hodful_takeoff::project::{Dried, Name, Preparation, Preparing, Project, Room, Side, Work};

/// A text that is right by itself.
fn typed<T: Measure>(text: &str) -> Result<Typed<T>, EcoString> {
    Typed::read(text).map_err(|wrong| ecow::eco_format!("{wrong}"))
}

fn work(project: &mut Project) -> &mut Work {
    project.work.get_or_insert_default()
}

/// Adds a room.
pub(super) fn room(state: &mut State) -> Vec<Effect> {
    make_new(
        state,
        "a room added; type the volume of its air".into(),
        |project| {
            let rooms = project.work.as_ref().map(|work| work.rooms.clone());
            let rooms = rooms.unwrap_or_default();
            let is_first = rooms.is_empty();
            let taken = |name: &str| rooms.contains_key(name);
            let name = if taken("room") {
                super::alter::free_name("room", taken)
            } else {
                "room".into()
            };
            // A first room has all walls; a further one the first that stands in none.
            let free = project
                .walls
                .iter()
                .filter(|wall| wall.face(Side::Inside).is_some());
            let in_one = |id: &Name| rooms.values().any(|room| room.walls.contains(id));
            let free = free.map(|wall| wall.id.clone()).find(|id| !in_one(id));
            let walls = if is_first {
                Vec::new()
            } else {
                vec![free.ok_or("every wall stands in a room already")?]
            };
            let room = Room {
                volume: typed("50 m3")?,
                walls,
                temperature: None,
                air_changes: None,
                fan: None,
                heater: None,
                fuel_per_day: None,
                water_per_day: None,
                stay_below: None,
                ceiling_u: None,
            };
            // A room of all walls gives one up: from now on each is named.
            let others: Vec<Name> = project
                .walls
                .iter()
                .filter(|wall| wall.face(Side::Inside).is_some() && !room.walls.contains(&wall.id))
                .map(|wall| wall.id.clone())
                .collect();
            let rooms = &mut work(project).rooms;
            if !is_first && others.is_empty() {
                return Err("there is one inside face, and it stands in a room already".into());
            }
            for (_, of) in rooms.iter_mut().filter(|(_, of)| of.walls.is_empty()) {
                of.walls.clone_from(&others);
            }
            let (at, _) = rooms.insert_full(name, room);
            Ok(Subject::Room(at))
        },
    )
}

/// Adds something to prepare: the first of the usual things that is not there yet.
pub(super) fn prepare(state: &mut State) -> Vec<Effect> {
    make_new(state, "something to prepare added".into(), |project| {
        let prepare = &mut work(project).prepare;
        let is_there = |what: &Preparing| prepare.iter().any(|of| of.what == *what);
        let what = Preparing::ALL.iter().find(|what| !is_there(what));
        prepare.push(Preparation {
            what: what.copied().unwrap_or(Preparing::Heaps),
            hours: typed("8")?,
            then_wait: None,
        });
        Ok(Subject::Preparation(prepare.len() - 1))
    })
}

/// Adds a record of drying: of the chosen coat on its planned day, else of the first coat on a face that has none.
pub(super) fn dried(state: &mut State) -> Vec<Effect> {
    let first_day = state.days().map(|days| days.site.begins);
    let chosen = state.days().and_then(|days| {
        let row = state.day_row();
        let task = days.tasks.get(row.task()?)?;
        let name = (task.wall.clone(), task.side, task.coat.clone());
        Some((name, row.date()?))
    });
    make_new(
        state,
        "a record of drying added; type its days".into(),
        |project| {
            let recorded = project.work.iter().flat_map(|work| &work.dried);
            let recorded: Vec<(Name, Side, Name)> = recorded
                .map(|of| (of.wall.clone(), of.face, of.coat.clone()))
                .collect();
            let faces = project.walls.iter().flat_map(|wall| {
                let sides = [Side::Outside, Side::Inside].into_iter();
                sides.filter_map(|side| Some((wall.id.clone(), side, wall.face(side)?)))
            });
            let mut coats = faces.flat_map(|(wall, side, face)| {
                let coats = project.build_ups.get(&face.build_up).into_iter().flatten();
                coats.map(move |coat| (wall.clone(), side, coat.coat.clone()))
            });
            let chosen = chosen.filter(|(of, _)| !recorded.contains(of));
            let free = match &chosen {
                Some((of, _)) => Some(of.clone()),
                None => coats.find(|coat| !recorded.contains(coat)),
            };
            let (wall, face, coat) = free.ok_or("every coat of every face has its record")?;
            let begins = project.work.as_ref().and_then(|work| work.begins.clone());
            let planned = chosen.map(|(_, day)| day);
            let placed = match (planned, begins, first_day) {
                (Some(day), ..) | (None, None, Some(day)) => typed(&day.to_string())?,
                (None, Some(begins), _) => begins,
                (None, None, None) => return Err("type the first day of the work before".into()),
            };
            let dried = &mut work(project).dried;
            dried.push(Dried {
                wall,
                face,
                coat,
                placed,
                dry: None,
            });
            Ok(Subject::Dried(dried.len() - 1))
        },
    )
}

/// Copies one. A copy of a room has no walls yet, and is refused until it is given some.
pub(super) fn copy(work: &mut Work, subject: Subject) -> Result<Subject, EcoString> {
    match subject {
        Subject::Room(at) => {
            let at = copy_named(&mut work.rooms, at)?;
            if let Some((_, of)) = work.rooms.get_index_mut(at) {
                of.walls.clear();
            }
            Ok(Subject::Room(at))
        }
        Subject::Preparation(at) => copy_next(&mut work.prepare, at).map(Subject::Preparation),
        Subject::Dried(at) => copy_next(&mut work.dried, at).map(Subject::Dried),
        _ => Err("there can be only one of it".into()),
    }
}

/// Removes one; whether it was there.
pub(super) fn remove(work: &mut Work, subject: Subject) -> bool {
    match subject {
        Subject::Room(at) => work.rooms.shift_remove_index(at).is_some(),
        Subject::Preparation(at) => take(&mut work.prepare, at).is_ok(),
        Subject::Dried(at) => take(&mut work.dried, at).is_ok(),
        _ => false,
    }
}
