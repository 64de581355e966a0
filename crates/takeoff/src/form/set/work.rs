//! Setting the fields of the work on site, and the rates of its coats. Not here: what the texts mean (see
//! `understand`), and whether hours and people make sense (see `crate::check`).

use super::{Done, GONE};
use crate::form::held::{Field, no_field, put};
use crate::form::{RATES, Subject, rename, tables};
use crate::project::{Name, Project, Rate, Work};

/// People by what they do, each by itself.
const ROLES: [&str; 4] = ["mixing", "carrying", "placing", "finishing"];

/// Every table of the work.
const TABLES: [&[Field<Work>]; 3] = [tables::WORK, tables::CREW, tables::SKY];

pub(super) fn set(project: &mut Project, key: &str, text: Option<&str>) -> Done {
    if let Some(key) = key.strip_prefix(RATES) {
        let (name, key) = key.rsplit_once('.').ok_or_else(|| no_field(key))?;
        return rate(project, &name.into(), key, text);
    }
    let has = |fields: &&[Field<Work>]| fields.iter().any(|field| field.key == key);
    let fields = TABLES.into_iter().find(has).ok_or_else(|| no_field(key))?;
    let mut work = project.work.clone().unwrap_or_default();
    put(fields, &mut *work, key, text)?;
    // People who do everything, and people by what they do, exclude one another: those typed last stand.
    if text.is_some() && key == "people" {
        [work.mixing, work.carrying, work.placing, work.finishing] = [None; 4];
    } else if text.is_some() && ROLES.contains(&key) {
        work.people = None;
    }
    keep(project, work);
    Ok(())
}

/// Sets a field of a preparation, a room, or a record of drying.
pub(super) fn set_thing(
    project: &mut Project,
    thing: Subject,
    key: &str,
    text: Option<&str>,
) -> Done {
    let work = project.work.as_mut().ok_or(GONE)?;
    match thing {
        Subject::Preparation(i) => {
            let of = work.prepare.get_mut(i).ok_or(GONE)?;
            put(tables::PREPARATION, of, key, text)
        }
        Subject::Room(i) if key == "name" => rename::room(&mut work.rooms, i, text),
        Subject::Room(i) => {
            let (_, of) = work.rooms.get_index_mut(i).ok_or(GONE)?;
            put(tables::ROOM, of, key, text)
        }
        Subject::Dried(i) => put(tables::DRIED, work.dried.get_mut(i).ok_or(GONE)?, key, text),
        _ => Err(no_field(key)),
    }
}

/// Sets what one person does of a coat in an hour, by the name of the coat. A new rate stands where its coat does
/// among the others.
pub(super) fn rate(project: &mut Project, name: &Name, key: &str, text: Option<&str>) -> Done {
    let mut work = project.work.clone().unwrap_or_default();
    let mut rate = work.rates.get(name).cloned().unwrap_or_default();
    put(tables::RATE, &mut rate, key, text)?;
    if rate == Rate::default() {
        work.rates.shift_remove(name);
    } else if let Some(held) = work.rates.get_mut(name) {
        *held = rate;
    } else {
        let coats = project.build_ups.values().flatten();
        let mut later = coats.map(|coat| &coat.coat).skip_while(|of| *of != name);
        let behind = later.find_map(|of| work.rates.get_index_of(of));
        let at = behind.unwrap_or(work.rates.len());
        work.rates.shift_insert(at, name.clone(), rate);
    }
    keep(project, work);
    Ok(())
}

/// Keeps the work, when anything is said of it.
fn keep(project: &mut Project, work: Box<Work>) {
    project.work = (*work != Work::default()).then_some(work);
}
