//! A new name in options, uncertain inputs and records: what names the old one names the new one. Not
//! here: names in the rest of the project.

use crate::project::{Alteration, Name, Project, Spot, UncertainInput};
use std::collections::HashSet;
use std::mem::take;

/// What has another name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// A background.
    Background,
    /// A build-up.
    BuildUp,
    /// A coat, in every build-up that has it.
    Coat,
    /// A mix.
    Mix,
    /// A material.
    Material,
    /// A supplier.
    Supplier,
    /// A wall.
    Wall,
}

/// Lets every option, uncertain input and record follow a new name.
pub(in crate::form) fn follow(project: &mut Project, kind: Kind, old: &Name, new: &Name) {
    for name in all(project, kind).into_iter().filter(|name| *name == old) {
        name.clone_from(new);
    }
    if kind == Kind::Coat
        && let Some(work) = &mut project.work
        && let Some(at) = work.rates.get_index_of(old)
        && let Some((_, rate)) = work.rates.shift_remove_index(at)
        && !work.rates.contains_key(new)
    {
        work.rates.shift_insert(at, new.clone(), rate);
    }
}

/// The names of a kind that options, uncertain inputs, records and the work on site name.
pub(crate) fn mentioned(project: &Project, kind: Kind) -> HashSet<Name> {
    let mut told = Project {
        walls: Vec::new(),
        ..project.clone()
    };
    let mut names: HashSet<Name> = all(&mut told, kind).into_iter().map(take).collect();
    if kind == Kind::Coat
        && let Some(work) = told.work
    {
        names.extend(work.rates.into_keys());
    }
    names
}

/// Each of those names; not what people do in an hour, which is kept under the names of coats.
fn all(project: &mut Project, kind: Kind) -> Vec<&mut Name> {
    let changes = project.options.values_mut().flat_map(|o| &mut o.changes);
    let mut found: Vec<&mut Name> = changes.flat_map(|change| names(change, kind)).collect();
    for of in &mut project.uncertain {
        let is_such = match of.of {
            UncertainInput::Thickness | UncertainInput::Shrinkage | UncertainInput::Loss => {
                kind == Kind::Coat
            }
            UncertainInput::DubbingOut => kind == Kind::Background,
            UncertainInput::Yield => kind == Kind::Mix,
            UncertainInput::Moisture | UncertainInput::Bulking | UncertainInput::Reject => {
                kind == Kind::Material
            }
        };
        if is_such {
            found.extend(&mut of.name);
        }
    }
    for record in &mut project.done {
        match kind {
            Kind::Coat => found.push(&mut record.coat),
            Kind::BuildUp => found.extend(&mut record.build_up),
            Kind::Wall => found.extend(&mut record.walls),
            _ => {}
        }
    }
    if let Some(work) = &mut project.work {
        for of in &mut work.dried {
            match kind {
                Kind::Coat => found.push(&mut of.coat),
                Kind::Wall => found.push(&mut of.wall),
                _ => {}
            }
        }
        if kind == Kind::Wall {
            found.extend(work.rooms.values_mut().flat_map(|room| &mut room.walls));
        }
    }
    if kind == Kind::Material {
        let delivered = project.delivered.iter_mut();
        found.extend(delivered.map(|delivery| &mut delivery.material));
    }
    found
}

/// The names of a kind in a change.
fn names(change: &mut Alteration, kind: Kind) -> Vec<&mut Name> {
    match change {
        Alteration::Set { at, field, to } => {
            let mut found: Vec<&mut Name> = of_spot(at, kind).iter_mut().collect();
            let is_named = match kind {
                Kind::Mix => *field == "mix",
                Kind::Supplier => *field == "supplier",
                Kind::Background => field.ends_with(".background"),
                Kind::BuildUp => field.ends_with(".build_up"),
                Kind::Material => field.ends_with(".material"),
                Kind::Coat | Kind::Wall => false,
            };
            if is_named {
                found.extend(to.iter_mut());
            }
            found
        }
        Alteration::Add { at, .. } | Alteration::LeaveOut { at } => {
            of_spot(at, kind).iter_mut().collect()
        }
        Alteration::Coat {
            build_up,
            after,
            coat,
        } => match kind {
            Kind::BuildUp => vec![build_up],
            Kind::Coat => after.iter_mut().collect(),
            Kind::Mix => vec![&mut coat.mix],
            _ => Vec::new(),
        },
        Alteration::Package { material, package } => match kind {
            Kind::Material => vec![material],
            Kind::Supplier => package.supplier.iter_mut().collect(),
            _ => Vec::new(),
        },
        // A wall is held by reference, and its names are looked at when it is added.
        Alteration::Wall { .. } => Vec::new(),
    }
}

fn of_spot(at: &mut Spot, kind: Kind) -> &mut Option<Name> {
    match kind {
        Kind::Background => &mut at.background,
        Kind::BuildUp => &mut at.build_up,
        Kind::Coat => &mut at.coat,
        Kind::Mix => &mut at.mix,
        Kind::Material => &mut at.material,
        Kind::Supplier => &mut at.supplier,
        Kind::Wall => &mut at.wall,
    }
}
