//! A new name in options, uncertain inputs and records: what names the old one names the new one. Not
//! here: names in the rest of the project.

use crate::project::{Alteration, Name, Project, Spot, UncertainInput};

/// What has another name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::form) enum Kind {
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
    let renamed = |name: &mut Name| {
        if name == old {
            name.clone_from(new);
        }
    };
    for change in project.options.values_mut().flat_map(|o| &mut o.changes) {
        for name in names(change, kind) {
            renamed(name);
        }
    }
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
            of.name.iter_mut().for_each(renamed);
        }
    }
    for record in &mut project.done {
        match kind {
            Kind::Coat => renamed(&mut record.coat),
            Kind::BuildUp => record.build_up.iter_mut().for_each(renamed),
            Kind::Wall => record.walls.iter_mut().for_each(renamed),
            _ => {}
        }
    }
    if let Some(work) = &mut project.work {
        for of in &mut work.dried {
            match kind {
                Kind::Coat => renamed(&mut of.coat),
                Kind::Wall => renamed(&mut of.wall),
                _ => {}
            }
        }
        if kind == Kind::Wall {
            let walls = work.rooms.values_mut().flat_map(|room| &mut room.walls);
            walls.for_each(renamed);
        }
    }
    if kind == Kind::Coat
        && let Some(work) = &mut project.work
        && let Some(at) = work.rates.get_index_of(old)
        && let Some((_, rate)) = work.rates.shift_remove_index(at)
        && !work.rates.contains_key(new)
    {
        work.rates.shift_insert(at, new.clone(), rate);
    }
    if kind == Kind::Material {
        for delivery in &mut project.delivered {
            renamed(&mut delivery.material);
        }
    }
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
