//! From names to the things of a project that they mean. Not here: their fields.

use crate::form::Subject;
use crate::project::{Name, Named, Project, Spot};
use ecow::{EcoString, eco_format};
use std::collections::HashMap;

/// Positions of walls by their ids, worked out when first asked for: a thousand changes of a thousand walls look at
/// each wall once.
#[derive(Debug, Default)]
pub(super) struct ById(Option<HashMap<Name, Vec<usize>>>);

impl ById {
    /// Where the walls of an id stand.
    pub(super) fn of(&mut self, project: &Project, id: &Name) -> &[usize] {
        let known = self.0.get_or_insert_with(|| {
            let mut known: HashMap<Name, Vec<usize>> = HashMap::new();
            for (at, wall) in project.walls.iter().enumerate() {
                known.entry(wall.id.clone()).or_default().push(at);
            }
            known
        });
        known.get(id).map_or(&[], Vec::as_slice)
    }

    /// Lets go what is known: walls have come, gone or been given other ids.
    pub(super) fn forget(&mut self) {
        self.0 = None;
    }
}

/// The things that a spot means, at least one.
///
/// # Errors
/// In words, what is not there.
pub fn things(project: &Project, at: &Spot) -> Result<Vec<Subject>, EcoString> {
    let named = |id: &Name| {
        let walls = project.walls.iter().enumerate();
        let of_it = walls.filter(|(_, wall)| wall.id == *id);
        of_it.map(|(at, _)| at).collect()
    };
    found(project, at, named)
}

/// As [`things`], with walls that are looked up.
///
/// # Errors
/// Those of [`things`].
pub(super) fn looked_up(
    project: &Project,
    at: &Spot,
    by_id: &mut ById,
) -> Result<Vec<Subject>, EcoString> {
    found(project, at, |id| by_id.of(project, id).to_vec())
}

fn found(
    project: &Project,
    at: &Spot,
    named_walls: impl FnOnce(&Name) -> Vec<usize>,
) -> Result<Vec<Subject>, EcoString> {
    let Spot {
        background,
        build_up,
        coat,
        mix,
        material,
        package,
        supplier,
        wall,
        opening,
        mixer,
    } = at;
    let kinds = [
        background.is_some(),
        build_up.is_some() || coat.is_some(),
        mix.is_some(),
        material.is_some() || package.is_some(),
        supplier.is_some(),
        wall.is_some() || opening.is_some(),
        *mixer == Some(true),
    ];
    if kinds.iter().filter(|given| **given).count() > 1 {
        return Err("names things of several kinds; name one".into());
    }
    if let Some(name) = background {
        return named("background", &project.backgrounds, name)
            .map(|i| vec![Subject::Background(i)]);
    }
    if let Some(name) = mix {
        return named("mix", &project.mixes, name).map(|i| vec![Subject::Mix(i)]);
    }
    if let Some(name) = supplier {
        return named("supplier", &project.suppliers, name).map(|i| vec![Subject::Supplier(i)]);
    }
    if *mixer == Some(true) {
        return if project.mixer.is_some() {
            Ok(vec![Subject::Mixer])
        } else {
            Err("there is no mixer".into())
        };
    }
    if build_up.is_some() || coat.is_some() {
        return coats(project, build_up.as_ref(), coat.as_ref());
    }
    if material.is_some() || package.is_some() {
        let name = material.as_ref().ok_or("a package needs its material")?;
        let material = named("material", &project.materials, name)?;
        let Some(package) = package else {
            return Ok(vec![Subject::Material(material)]);
        };
        let packages = project.materials.get_index(material);
        let packages = packages.map(|(_, of)| of.packages.as_slice());
        let found = packages.unwrap_or_default().iter();
        let found = found.clone().position(|one| one.name == *package);
        let package = found.ok_or_else(|| eco_format!("{name} is not sold by the '{package}'"))?;
        return Ok(vec![Subject::Package { material, package }]);
    }
    if wall.is_some() || opening.is_some() {
        let among = match wall {
            Some(id) => named_walls(id),
            None => (0..project.walls.len()).collect(),
        };
        return walls(project, &among, wall.as_ref(), opening.as_ref());
    }
    Ok(vec![Subject::Project])
}

fn named<T>(what: &str, among: &Named<T>, name: &Name) -> Result<usize, EcoString> {
    among
        .get_index_of(name)
        .ok_or_else(|| eco_format!("there is no {what} '{name}'"))
}

fn coats(
    project: &Project,
    build_up: Option<&Name>,
    coat: Option<&Name>,
) -> Result<Vec<Subject>, EcoString> {
    if let Some(name) = build_up {
        let at = named("build-up", &project.build_ups, name)?;
        if coat.is_none() {
            return Ok(vec![Subject::BuildUp(at)]);
        }
    }
    let Some(coat) = coat else {
        return Err("names nothing".into());
    };
    let each = project.build_ups.iter().enumerate();
    let each = each.filter(|(_, (name, _))| build_up.is_none_or(|wanted| wanted == *name));
    let found: Vec<Subject> = each
        .flat_map(|(build_up, (_, coats))| {
            let coats = coats.iter().enumerate();
            let coats = coats.filter(|(_, one)| one.coat == *coat);
            coats.map(move |(coat, _)| Subject::Coat { build_up, coat })
        })
        .collect();
    match (found.is_empty(), build_up) {
        (false, _) => Ok(found),
        (true, Some(build_up)) => Err(eco_format!("{build_up} has no coat '{coat}'")),
        (true, None) => Err(eco_format!("no build-up has a coat '{coat}'")),
    }
}

fn walls(
    project: &Project,
    among: &[usize],
    wall: Option<&Name>,
    opening: Option<&Name>,
) -> Result<Vec<Subject>, EcoString> {
    let each = among.iter();
    let each = each.filter_map(|at| Some((*at, project.walls.get(*at)?)));
    let found: Vec<Subject> = each
        .flat_map(|(at, one)| match opening {
            None => vec![Subject::Wall(at)],
            Some(id) => {
                let openings = one.openings.iter().enumerate();
                let openings = openings.filter(|(_, one)| one.id == *id);
                let of = |(opening, _)| Subject::Opening { wall: at, opening };
                openings.map(of).collect()
            }
        })
        .collect();
    if !found.is_empty() {
        return Ok(found);
    }
    Err(match (wall, opening) {
        (Some(wall), None) => eco_format!("there is no wall '{wall}'"),
        (Some(wall), Some(opening)) => eco_format!("wall {wall} has no opening '{opening}'"),
        (None, opening) => eco_format!("no wall has an opening '{}'", opening.map_or("", |o| o)),
    })
}

/// The spot of a thing, by its names.
pub(super) fn spot(project: &Project, thing: Subject) -> Option<Spot> {
    let wall = |i: usize| Some(project.walls.get(i)?.id.clone());
    let empty = Spot::default();
    Some(match thing {
        Subject::Project => empty,
        Subject::Mixer => Spot {
            mixer: Some(true),
            ..empty
        },
        Subject::Background(i) => Spot {
            background: Some(project.backgrounds.get_index(i)?.0.clone()),
            ..empty
        },
        Subject::BuildUp(i) => Spot {
            build_up: Some(project.build_ups.get_index(i)?.0.clone()),
            ..empty
        },
        Subject::Coat { build_up, coat } => {
            let (name, coats) = project.build_ups.get_index(build_up)?;
            Spot {
                build_up: Some(name.clone()),
                coat: Some(coats.get(coat)?.coat.clone()),
                ..empty
            }
        }
        Subject::Mix(i) => Spot {
            mix: Some(project.mixes.get_index(i)?.0.clone()),
            ..empty
        },
        Subject::Material(i) => Spot {
            material: Some(project.materials.get_index(i)?.0.clone()),
            ..empty
        },
        Subject::Package { material, package } => {
            let (name, of) = project.materials.get_index(material)?;
            Spot {
                material: Some(name.clone()),
                package: Some(of.packages.get(package)?.name.clone()),
                ..empty
            }
        }
        Subject::Supplier(i) => Spot {
            supplier: Some(project.suppliers.get_index(i)?.0.clone()),
            ..empty
        },
        Subject::Wall(i) => Spot {
            wall: Some(wall(i)?),
            ..empty
        },
        Subject::Opening { wall: i, opening } => Spot {
            wall: Some(wall(i)?),
            opening: Some(project.walls.get(i)?.openings.get(opening)?.id.clone()),
            ..empty
        },
        _ => return None,
    })
}
