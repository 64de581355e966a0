//! Names: another one for a thing, with all that name it following, and the next free one. Not here:
//! what a name may look like (see `understand`).

mod follow;

pub(super) use follow::follow;
pub(crate) use follow::{Kind, mentioned};

use super::held::{NEEDED, read};
use super::set::GONE;
use crate::project::{Face, Material, Name, Named, Project, Room, Wall};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::read::Amount;
use std::collections::HashSet;
use std::sync::Arc;

type Done = Result<(), EcoString>;

/// Refuses a name that another has.
pub(super) fn free<'a>(
    text: Option<&str>,
    mut others: impl Iterator<Item = &'a Name>,
    who: &str,
) -> Done {
    let name = text.ok_or(NEEDED)?;
    if others.any(|other| other == name) {
        return Err(eco_format!("'{name}' is taken: {who} of that name"));
    }
    Ok(())
}

/// Gives the thing at a position another name in place. The old and the new name; `None` when it has
/// that name already.
fn anew<T>(
    named: &mut Named<T>,
    i: usize,
    text: Option<&str>,
    who: &str,
) -> Result<Option<(Name, Name)>, EcoString> {
    let new = Name::from(text.ok_or(NEEDED)?);
    if named.get_index_of(&new) == Some(i) {
        return Ok(None);
    }
    free(text, named.keys(), who)?;
    if i >= named.len() {
        return Err(GONE.into());
    }
    let old = named.replace_index(i, new.clone()).map_err(|_| GONE)?;
    Ok(Some((old, new)))
}

pub(super) fn background(project: &mut Project, i: usize, text: Option<&str>) -> Done {
    let renamed = anew(
        &mut project.backgrounds,
        i,
        text,
        "the project has a background",
    )?;
    if let Some((old, new)) = renamed {
        follow(project, Kind::Background, &old, &new);
        in_faces(
            project,
            &old,
            &new,
            |face| &mut face.background,
            |face| &face.background,
        );
    }
    Ok(())
}

pub(super) fn build_up(project: &mut Project, i: usize, text: Option<&str>) -> Done {
    let renamed = anew(
        &mut project.build_ups,
        i,
        text,
        "the project has a build-up",
    )?;
    if let Some((old, new)) = renamed {
        follow(project, Kind::BuildUp, &old, &new);
        in_faces(
            project,
            &old,
            &new,
            |face| &mut face.build_up,
            |face| &face.build_up,
        );
    }
    Ok(())
}

/// Only walls that have the name become walls of their own.
fn in_faces(
    project: &mut Project,
    old: &Name,
    new: &Name,
    held: fn(&mut Face) -> &mut Name,
    seen: fn(&Face) -> &Name,
) {
    let has = |wall: &Wall| {
        let mut faces = wall.outside.iter().chain(&wall.inside);
        faces.any(|face| seen(face) == old)
    };
    for wall in project.walls.iter_mut().filter(|wall| has(wall)) {
        let wall = Arc::make_mut(wall);
        for face in wall.outside.iter_mut().chain(&mut wall.inside) {
            let name = held(face);
            if name == old {
                name.clone_from(new);
            }
        }
    }
}

pub(super) fn mix(project: &mut Project, i: usize, text: Option<&str>) -> Done {
    let renamed = anew(&mut project.mixes, i, text, "the project has a mix")?;
    if let Some((old, new)) = renamed {
        follow(project, Kind::Mix, &old, &new);
        for coat in project.build_ups.values_mut().flatten() {
            if coat.mix == old {
                coat.mix.clone_from(&new);
            }
        }
    }
    Ok(())
}

pub(super) fn material(project: &mut Project, i: usize, text: Option<&str>) -> Done {
    let new = text.ok_or(NEEDED)?;
    // A part that names no material would become one with the part that follows.
    let old = project.materials.get_index(i).map(|(name, _)| name.clone());
    let both = |parts: &Named<_>| parts.contains_key(new) && old.as_ref() != Some(&new.into());
    if let Some((mix, _)) = project.mixes.iter().find(|(_, mix)| both(&mix.parts)) {
        return Err(eco_format!(
            "'{new}' is taken: mix {mix} has a part of that name"
        ));
    }
    let both = |of: &Named<_>| of.contains_key(new) && old.as_ref() != Some(&new.into());
    if let Some((blend, _)) = project.blends.iter().find(|(_, b)| both(&b.materials)) {
        return Err(eco_format!(
            "'{new}' is taken: blend {blend} has a material of that name"
        ));
    }
    let renamed = anew(
        &mut project.materials,
        i,
        text,
        "the project has a material",
    )?;
    let Some((old, new)) = renamed else {
        return Ok(());
    };
    follow(project, Kind::Material, &old, &new);
    for blend in project.blends.values_mut() {
        if let Some(at) = blend.materials.get_index_of(&old) {
            blend
                .materials
                .replace_index(at, new.clone())
                .map_err(|_| GONE)?;
        }
    }
    for mix in project.mixes.values_mut() {
        if let Some(at) = mix.parts.get_index_of(&old) {
            mix.parts.replace_index(at, new.clone()).map_err(|_| GONE)?;
        }
        for dose in mix.fibre.iter_mut().chain(&mut mix.binder) {
            if dose.material == old {
                dose.material.clone_from(&new);
            }
        }
    }
    Ok(())
}

/// A coat that was given another name: the phase of the order that names it names the new one, and the
/// old one as long as another build-up has such a coat.
pub(super) fn coat(project: &mut Project, old: &Name, new: &Name) {
    let mut others = project.build_ups.values().flatten();
    let is_left = others.any(|coat| coat.coat == *old);
    if is_left {
        // What is known of the coat is known of both.
        let rates = project.work.as_mut().map(|work| &mut work.rates);
        if let Some(rates) = rates.filter(|rates| !rates.contains_key(new))
            && let Some((at, _, rate)) = rates.get_full(old)
        {
            let rate = rate.clone();
            rates.shift_insert(at + 1, new.clone(), rate);
        }
    } else {
        follow(project, Kind::Coat, old, new);
    }
    let phases = project.buying.iter_mut().flat_map(|b| &mut b.phases);
    let lists: Vec<&mut Vec<Name>> = phases.map(|phase| &mut phase.coats).collect();
    if lists.iter().any(|coats| coats.contains(new)) {
        // The new name has its phase already.
        if !is_left {
            for coats in lists {
                coats.retain(|name| name != old);
            }
        }
        return;
    }
    for coats in lists {
        if let Some(at) = coats.iter().position(|name| name == old) {
            if is_left {
                coats.insert(at + 1, new.clone());
            } else if let Some(name) = coats.get_mut(at) {
                name.clone_from(new);
            }
        }
    }
}

/// A blend; nothing names one.
pub(super) fn blend(project: &mut Project, i: usize, text: Option<&str>) -> Done {
    anew(&mut project.blends, i, text, "the project has a blend").map(|_| ())
}

/// An option; those that start from it follow.
pub(super) fn option(project: &mut Project, i: usize, text: Option<&str>) -> Done {
    let renamed = anew(&mut project.options, i, text, "the project has an option")?;
    if let Some((old, new)) = renamed {
        let from = project.options.values_mut().filter_map(|o| o.of.as_mut());
        for of in from.filter(|of| **of == old) {
            of.clone_from(&new);
        }
    }
    Ok(())
}

/// A supplier; its packages follow.
pub(super) fn room(rooms: &mut Named<Room>, i: usize, text: Option<&str>) -> Done {
    anew(rooms, i, text, "the project has a room").map(|_| ())
}

pub(super) fn supplier(project: &mut Project, i: usize, text: Option<&str>) -> Done {
    let renamed = anew(
        &mut project.suppliers,
        i,
        text,
        "the project has a supplier",
    )?;
    if let Some((old, new)) = renamed {
        follow(project, Kind::Supplier, &old, &new);
        let packages = project.materials.values_mut().flat_map(|m| &mut m.packages);
        for supplier in packages.filter_map(|package| package.supplier.as_mut()) {
            if *supplier == old {
                supplier.clone_from(&new);
            }
        }
    }
    Ok(())
}

/// A stock that is counted in the package follows: `2 bale` becomes `2 bundle`.
pub(super) fn package(material: &mut Material, i: usize, text: Option<&str>) -> Done {
    let new = text.ok_or(NEEDED)?;
    let others = material.packages.iter().enumerate();
    let others = others.filter(|(at, _)| *at != i).map(|(_, p)| &p.name);
    free(text, others, "the material has a package")?;
    let package = material.packages.get_mut(i).ok_or(GONE)?;
    let stock = match &material.stock {
        Some(stock) => recounted(stock, &package.name, new)?,
        None => None,
    };
    package.name = new.into();
    if stock.is_some() {
        material.stock = stock;
    }
    Ok(())
}

/// A stock counted in a package, with the package's new name.
fn recounted(
    stock: &Typed<Amount>,
    old: &Name,
    new: &str,
) -> Result<Option<Typed<Amount>>, EcoString> {
    let Amount::Packages { count, name } = stock.value() else {
        return Ok(None);
    };
    if !is_of(&name, old) {
        return Ok(None);
    }
    let typed = stock.text().trim_end();
    let number = typed.strip_suffix(name.as_str()).unwrap_or_default();
    let text = eco_format!("{number}{new}");
    let wanted = Amount::Packages {
        count,
        name: new.into(),
    };
    read::<Amount>(&text)
        .ok()
        .filter(|stock| stock.value() == wanted)
        .map(Some)
        .ok_or_else(|| {
            eco_format!(
                "'{text}' is not a number of packages, and the stock '{typed}' is counted in them; clear the stock first"
            )
        })
}

/// Whether a word names a package, one or several, as the checking has it.
fn is_of(word: &str, package: &str) -> bool {
    let rest = word.strip_prefix(package);
    rest.is_some_and(|rest| matches!(rest, "" | "s" | "es"))
}

/// The next name like one that is free.
pub(super) fn next(project: &Project, like: &str) -> Name {
    let mut taken: HashSet<&str> = HashSet::new();
    for wall in &project.walls {
        taken.insert(&wall.id);
        taken.extend(wall.openings.iter().map(|opening| opening.id.as_str()));
    }
    taken.extend(project.backgrounds.keys().map(Name::as_str));
    taken.extend(project.materials.keys().map(Name::as_str));
    taken.extend(project.mixes.keys().map(Name::as_str));
    taken.extend(project.build_ups.keys().map(Name::as_str));
    taken.extend(project.blends.keys().map(Name::as_str));
    taken.extend(project.suppliers.keys().map(Name::as_str));
    taken.extend(project.options.keys().map(Name::as_str));
    let like = like.trim();
    if !like.is_empty() && !taken.contains(like) {
        return like.into();
    }
    let stem = like.trim_end_matches(|c: char| c.is_ascii_digit());
    let digits = like.strip_prefix(stem).unwrap_or_default();
    // One more than are taken is enough to find a free one.
    let tries = 1..=taken.len().saturating_add(1);
    let made: Box<dyn Fn(usize) -> EcoString> = match digits.parse::<u32>() {
        Ok(number) => {
            let (width, number) = (digits.len(), u64::from(number));
            Box::new(move |n| eco_format!("{stem}{:0width$}", number.saturating_add(n as u64)))
        }
        // `inside bale` becomes `inside bale 2`, `S` becomes `S2`.
        Err(_) if digits.is_empty() && !stem.contains(char::is_whitespace) => {
            Box::new(|n| eco_format!("{stem}{}", n.saturating_add(1)))
        }
        Err(_) => Box::new(|n| eco_format!("{like} {}", n.saturating_add(1))),
    };
    let free = |name: &EcoString| !taken.contains(name.as_str());
    tries.map(made).find(free).unwrap_or_default()
}
