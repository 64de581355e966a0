//! Commands that change the project as a whole thing at a time: thickness steps, adding, copying,
//! moving, removing, mirroring. Not here: single fields (see `fields`).

use super::mirror::{beside, mirrored_opening, mirrored_wall};
use super::moves::choose;
use super::run::label;
use super::{edit, fields, make, on_site, outlook, try_edit};
use crate::doc::Label;
use crate::effect::Effect;
use crate::state::{Screen, Sort, State};
use crate::tolerance::ON_A_STEP;
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Length, inch, millimeter};
use hodful_takeoff::Project;
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::project::{Coat, Name, Named};
use std::sync::Arc;

/// Steps in which coats are thought of: an eighth of an inch, two millimetres (common practice, no
/// source).
const EIGHTHS_PER_INCH: f64 = 8.0;
const METRIC_STEP: f64 = 2.0;

/// The highest number tried at the end of a name.
const MOST_ALIKE: u32 = 1_000_000;

/// Makes the chosen coat one step thicker or thinner: to the next step, so that an odd thickness comes
/// onto the steps.
pub(super) fn thickness(state: &mut State, thicker: bool) -> Vec<Effect> {
    let Some((build_up, coat)) = state.coat() else {
        return Vec::new();
    };
    let project = state.project();
    let Some((name, coats)) = project.build_ups.get_index(build_up) else {
        return Vec::new();
    };
    let Some(of) = coats.get(coat) else {
        return Vec::new();
    };
    let units = project.units;
    let Some(text) = stepped(of.thickness.value(), units, thicker) else {
        state.complain("It cannot be thinner than one step; remove the coat instead");
        return Vec::new();
    };
    let words = eco_format!("thickness of {} in {name}", of.coat);
    let label = Label {
        merge: Some(eco_format!("{words} {thicker}")),
        ..label(state, words)
    };
    try_edit(state, label, |project| {
        form::set(
            project,
            Subject::Coat { build_up, coat },
            "thickness",
            &text,
        )
    })
}

/// The next step from a thickness, as it would be typed; `None` below the first step.
fn stepped(thickness: Length, units: UnitSystem, thicker: bool) -> Option<EcoString> {
    let steps = match units {
        UnitSystem::Us => thickness.get::<inch>() * EIGHTHS_PER_INCH,
        UnitSystem::Metric => thickness.get::<millimeter>() / METRIC_STEP,
    };
    let next = if thicker {
        (steps + ON_A_STEP).floor() + 1.0
    } else {
        (steps - ON_A_STEP).ceil() - 1.0
    };
    if next < 1.0 {
        return None;
    }
    Some(match units {
        UnitSystem::Us => print::inches(Length::new::<inch>(next / EIGHTHS_PER_INCH)).into(),
        UnitSystem::Metric => eco_format!("{} mm", next * METRIC_STEP),
    })
}

/// A name like another that is not taken: `scratch 2`.
pub(super) fn free_name(like: &str, taken: impl Fn(&str) -> bool) -> Name {
    let base = like
        .trim_end_matches(|c: char| c.is_ascii_digit())
        .trim_end();
    let base = if base.is_empty() { like } else { base };
    (2..=MOST_ALIKE)
        .map(|number| eco_format!("{base} {number}"))
        .find(|name| !taken(name))
        .unwrap_or_else(|| base.into())
}

/// Adds one after the chosen.
pub(super) fn add(state: &mut State) -> Vec<Effect> {
    if state.screen == Screen::Walls {
        super::entry_line::open(state);
        return Vec::new();
    }
    match state.subject() {
        _ if state.screen == Screen::Options => outlook::keep(state),
        Some(Subject::Preparation(_)) => on_site::prepare(state),
        Some(Subject::Dried(_)) => on_site::dried(state),
        _ if state.screen == Screen::Days => on_site::room(state),
        Some(Subject::Done(_)) => outlook::record(state),
        Some(Subject::Delivered(_)) => outlook::delivery(state),
        _ if state.screen == Screen::Chances => outlook::uncertain(state),
        Some(Subject::Panel { .. }) => make::panel(state),
        Some(Subject::Blend(_)) => make::blend(state),
        Some(Subject::Supplier(_)) => make::supplier(state),
        Some(Subject::Phase(_) | Subject::Buying) => make::phase(state),
        Some(Subject::Material(at)) if state.screen == Screen::Soils => make::test(state, at),
        // Who sells it is what the order wants to know of a material.
        Some(Subject::Material(_)) if state.screen == Screen::Order => make::supplier(state),
        None if state.screen == Screen::Soils => make::blend(state),
        Some(Subject::BuildUp(build_up)) => {
            let last = state
                .project()
                .build_ups
                .get_index(build_up)
                .map_or(0, |(_, coats)| coats.len());
            add_coat(state, build_up, last)
        }
        Some(Subject::Coat { build_up, coat }) => add_coat(state, build_up, coat + 1),
        Some(Subject::Material(material) | Subject::Package { material, .. }) => {
            add_package(state, material)
        }
        Some(Subject::Background(_) | Subject::Mix(_)) => copy(state),
        Some(Subject::Mixer) if state.project().mixer.is_some() => {
            state.focus = crate::state::Focus::Fields;
            Vec::new()
        }
        Some(Subject::Mixer) => {
            let label = label(state, "mixer");
            let text = match state.units() {
                UnitSystem::Us => "3 ft3",
                UnitSystem::Metric => "90 L",
            };
            try_edit(state, label, |project| {
                form::set(project, Subject::Mixer, "working_volume", text)
            })
        }
        _ => {
            state.complain("Choose a background, mix or material to add another like it");
            Vec::new()
        }
    }
}

/// Does a change that makes a new thing, and chooses it.
pub(super) fn make_new(
    state: &mut State,
    words: EcoString,
    f: impl FnOnce(&mut Project) -> Result<Subject, EcoString>,
) -> Vec<Effect> {
    let label = label(state, words);
    match edit(state, label, f) {
        Ok((subject, effects)) => {
            if !effects.is_empty() {
                state.doc.set_after(subject);
            }
            choose(state, subject);
            state.refresh();
            effects
        }
        Err(words) => {
            state.complain(words);
            Vec::new()
        }
    }
}

pub(super) const GONE: &str = "what was chosen is not there any more";

fn add_coat(state: &mut State, build_up: usize, at: usize) -> Vec<Effect> {
    let first_mix = state.project().mixes.keys().next().cloned();
    make_new(state, "a coat added".into(), |project| {
        let (_, coats) = project.build_ups.get_index_mut(build_up).ok_or(GONE)?;
        let like = at
            .checked_sub(1)
            .and_then(|before| coats.get(before))
            .cloned();
        let new = match like {
            Some(like) => Coat {
                coat: free_name(&like.coat, |name| {
                    coats.iter().any(|coat| coat.coat == name)
                }),
                ..like
            },
            None => Coat {
                coat: "scratch".into(),
                thickness: Typed::read("3/8 in").map_err(|wrong| eco_format!("{wrong}"))?,
                mix: first_mix.ok_or("there is no mix yet to make a coat of")?,
                shrinkage: None,
                loss: None,
                weather_finish: None,
            },
        };
        coats.insert(at.min(coats.len()), new);
        Ok(Subject::Coat {
            build_up,
            coat: at.min(coats.len() - 1),
        })
    })
}

fn add_package(state: &mut State, material: usize) -> Vec<Effect> {
    let holds = match state.units() {
        UnitSystem::Us => "50 lb",
        UnitSystem::Metric => "25 kg",
    };
    make_new(state, "a package added".into(), |project| {
        let (_, of) = project.materials.get_index_mut(material).ok_or(GONE)?;
        let name = if of.packages.iter().any(|package| package.name == "bag") {
            free_name("bag", |name| {
                of.packages.iter().any(|package| package.name == name)
            })
        } else {
            "bag".into()
        };
        let holds = Typed::read(holds).map_err(|wrong| eco_format!("{wrong}"))?;
        of.packages
            .push(hodful_takeoff::project::Package::of(name, holds));
        Ok(Subject::Package {
            material,
            package: of.packages.len() - 1,
        })
    })
}

/// Puts a copy of a named thing after it, under a free name. Gives its position.
pub(super) fn copy_named<T: Clone>(named: &mut Named<T>, at: usize) -> Result<usize, EcoString> {
    let (name, of) = named.get_index(at).ok_or(GONE)?;
    let (name, of) = (free_name(name, |name| named.contains_key(name)), of.clone());
    named.shift_insert((at + 1).min(named.len()), name, of);
    Ok(at + 1)
}

/// Copies an entry of a list behind itself; where the copy stands.
pub(super) fn copy_next<T: Clone>(list: &mut Vec<T>, at: usize) -> Result<usize, EcoString> {
    let of = list.get(at).ok_or(GONE)?.clone();
    list.insert(at + 1, of);
    Ok(at + 1)
}

/// Copies what is chosen.
#[allow(clippy::too_many_lines, reason = "one arm a kind of thing")]
pub(super) fn copy(state: &mut State) -> Vec<Effect> {
    let Some(subject) = state.subject() else {
        return Vec::new();
    };
    let words = eco_format!("{} copied", form::title(state.project(), subject));
    let units = state.units();
    make_new(state, words, |project| match subject {
        Subject::Wall(at) => {
            let mut wall = project.walls.get(at).ok_or(GONE)?.as_ref().clone();
            wall.id = form::new_id(project, &wall.id);
            project.walls.insert(at + 1, Arc::new(wall));
            Ok(Subject::Wall(at + 1))
        }
        Subject::Opening { wall, opening } => {
            let of = project.walls.get_mut(wall).map(Arc::make_mut).ok_or(GONE)?;
            let mut new = of.openings.get(opening).ok_or(GONE)?.clone();
            new.id = next_id(&new.id, |id| {
                of.openings.iter().any(|opening| opening.id == id)
            });
            if let Some(from_left) = beside(of, opening, units)? {
                new.from_left = from_left;
            }
            of.openings.insert(opening + 1, new);
            Ok(Subject::Opening {
                wall,
                opening: opening + 1,
            })
        }
        Subject::Pocket { wall, pocket } => {
            let of = project.walls.get_mut(wall).map(Arc::make_mut).ok_or(GONE)?;
            let new = of.pockets.get(pocket).ok_or(GONE)?.clone();
            of.pockets.insert(pocket + 1, new);
            Ok(Subject::Pocket {
                wall,
                pocket: pocket + 1,
            })
        }
        Subject::BuildUp(at) => copy_named(&mut project.build_ups, at).map(Subject::BuildUp),
        Subject::Coat { build_up, coat } => {
            let (_, coats) = project.build_ups.get_index_mut(build_up).ok_or(GONE)?;
            let mut new = coats.get(coat).ok_or(GONE)?.clone();
            new.coat = free_name(&new.coat, |name| coats.iter().any(|coat| coat.coat == name));
            coats.insert(coat + 1, new);
            Ok(Subject::Coat {
                build_up,
                coat: coat + 1,
            })
        }
        Subject::Background(at) => {
            copy_named(&mut project.backgrounds, at).map(Subject::Background)
        }
        Subject::Mix(at) => copy_named(&mut project.mixes, at).map(Subject::Mix),
        Subject::Material(at) => {
            let at = copy_named(&mut project.materials, at)?;
            // Another heap is not that heap: what was tested of the one and lies in the yard of it says
            // nothing of the other.
            if let Some((_, new)) = project.materials.get_index_mut(at) {
                new.soil = None;
                new.bulking_test = None;
                new.screen_test = None;
                new.stock = None;
            }
            Ok(Subject::Material(at))
        }
        Subject::Package { material, package } => {
            let (_, of) = project.materials.get_index_mut(material).ok_or(GONE)?;
            let mut new = of.packages.get(package).ok_or(GONE)?.clone();
            new.name = free_name(&new.name, |name| {
                of.packages.iter().any(|package| package.name == name)
            });
            of.packages.insert(package + 1, new);
            Ok(Subject::Package {
                material,
                package: package + 1,
            })
        }
        Subject::Panel { mix, panel } => {
            let (_, of) = project.mixes.get_index_mut(mix).ok_or(GONE)?;
            let new = of.test_panels.get(panel).ok_or(GONE)?.clone();
            of.test_panels.insert(panel + 1, new);
            Ok(Subject::Panel {
                mix,
                panel: panel + 1,
            })
        }
        Subject::Blend(at) => copy_named(&mut project.blends, at).map(Subject::Blend),
        Subject::Supplier(at) => copy_named(&mut project.suppliers, at).map(Subject::Supplier),
        Subject::Phase(at) => {
            let phases = phases(project).ok_or(GONE)?;
            let mut new = phases.get(at).ok_or(GONE)?.clone();
            new.name = free_name(&new.name, |name| phases.iter().any(|p| p.name == name));
            phases.insert(at + 1, new);
            Ok(Subject::Phase(at + 1))
        }
        Subject::Alternative(at) => copy_named(&mut project.options, at).map(Subject::Alternative),
        Subject::Alteration {
            alternative,
            change,
        } => {
            let (_, of) = project.options.get_index_mut(alternative).ok_or(GONE)?;
            copy_next(&mut of.changes, change).map(|change| Subject::Alteration {
                alternative,
                change,
            })
        }
        Subject::Uncertain(at) => copy_next(&mut project.uncertain, at).map(Subject::Uncertain),
        Subject::Done(at) => copy_next(&mut project.done, at).map(Subject::Done),
        Subject::Delivered(at) => copy_next(&mut project.delivered, at).map(Subject::Delivered),
        Subject::Preparation(_) | Subject::Room(_) | Subject::Dried(_) => {
            let work = project.work.as_deref_mut().ok_or(GONE)?;
            on_site::copy(work, subject)
        }
        Subject::Project | Subject::Mixer | Subject::Buying | Subject::Work => {
            Err("there can be only one of it".into())
        }
    })
}

/// The phases of the order, when it has any.
fn phases(project: &mut Project) -> Option<&mut Vec<hodful_takeoff::project::Phase>> {
    project.buying.as_mut().map(|buying| &mut buying.phases)
}

/// The next free id like another: `W1`, `W2`.
fn next_id(like: &str, taken: impl Fn(&str) -> bool) -> Name {
    let base = like.trim_end_matches(|c: char| c.is_ascii_digit());
    let own = like
        .get(base.len()..)
        .and_then(|digits| digits.parse().ok())
        .unwrap_or(1_u32);
    (own.saturating_add(1)..=MOST_ALIKE)
        .map(|number| eco_format!("{base}{number}"))
        .find(|id| !taken(id))
        .unwrap_or_else(|| like.into())
}

/// Turns the chosen wall or opening left to right.
pub(super) fn mirror(state: &mut State) -> Vec<Effect> {
    let Some(subject) = state.subject() else {
        return Vec::new();
    };
    let words = eco_format!("{} mirrored", form::title(state.project(), subject));
    let label = label(state, words);
    let units = state.units();
    try_edit(state, label, |project| match subject {
        Subject::Wall(at) => {
            let wall = project.walls.get_mut(at).map(Arc::make_mut).ok_or(GONE)?;
            mirrored_wall(wall, units)
        }
        Subject::Opening { wall, opening } => {
            let wall = project.walls.get_mut(wall).map(Arc::make_mut).ok_or(GONE)?;
            mirrored_opening(wall, opening, units)
        }
        _ => Err("a wall or an opening can be mirrored".into()),
    })
}

/// Who names a thing, so that it cannot be removed; nobody gives an empty text.
fn users(project: &Project, subject: Subject) -> EcoString {
    let faces = |of: &dyn Fn(&hodful_takeoff::project::Face) -> bool| -> Vec<EcoString> {
        project
            .walls
            .iter()
            .filter(|wall| wall.outside.iter().chain(&wall.inside).any(of))
            .map(|wall| eco_format!("wall {}", wall.id))
            .collect()
    };
    let mut users = match subject {
        Subject::Background(at) => project
            .backgrounds
            .get_index(at)
            .map_or_else(Vec::new, |(name, _)| {
                faces(&|face| face.background == *name)
            }),
        Subject::BuildUp(at) => project
            .build_ups
            .get_index(at)
            .map_or_else(Vec::new, |(name, _)| faces(&|face| face.build_up == *name)),
        Subject::Mix(at) => project
            .mixes
            .get_index(at)
            .map_or_else(Vec::new, |(name, _)| {
                let coats = project
                    .build_ups
                    .iter()
                    .flat_map(|(of, coats)| coats.iter().map(move |coat| (of, coat)));
                coats
                    .filter(|(_, coat)| coat.mix == *name)
                    .map(|(of, coat)| eco_format!("coat {} of {of}", coat.coat))
                    .collect()
            }),
        Subject::Material(at) => {
            project
                .materials
                .get_index(at)
                .map_or_else(Vec::new, |(name, _)| {
                    let dose = |dose: &Option<hodful_takeoff::project::Dose>| {
                        dose.as_ref().is_some_and(|dose| dose.material == *name)
                    };
                    project
                        .mixes
                        .iter()
                        .filter(|(_, mix)| {
                            mix.parts.contains_key(name) || dose(&mix.fibre) || dose(&mix.binder)
                        })
                        .map(|(mix, _)| eco_format!("mix {mix}"))
                        .collect()
                })
        }
        _ => Vec::new(),
    };
    let more = users.len().saturating_sub(3);
    users.truncate(3);
    let mut words: EcoString = users.join(", ").into();
    if more > 0 {
        words.push_str(&eco_format!(" and {more} more"));
    }
    words
}

/// Takes an item out of a list.
pub(super) fn take<T>(list: &mut Vec<T>, at: usize) -> Result<(), EcoString> {
    if at < list.len() {
        list.remove(at);
        Ok(())
    } else {
        Err(GONE.into())
    }
}

/// Lets go what one person does of a coat in an hour, when there is no coat of that name any more.
fn forget_rate(project: &mut Project, name: &Name) {
    let mut coats = project.build_ups.values().flatten();
    if coats.any(|coat| coat.coat == *name) {
        return;
    }
    if let Some(work) = &mut project.work {
        work.rates.shift_remove(name);
    }
}

fn remove_one(project: &mut Project, subject: Subject) -> Result<(), EcoString> {
    let users = users(project, subject);
    if !users.is_empty() {
        return Err(eco_format!(
            "{} is used by {users}",
            form::title(project, subject)
        ));
    }
    let gone = |taken: bool| {
        if taken {
            Ok(())
        } else {
            Err(EcoString::from(GONE))
        }
    };
    match subject {
        Subject::Wall(at) => take(&mut project.walls, at),
        Subject::Opening { wall, opening } => {
            let wall = project.walls.get_mut(wall).map(Arc::make_mut).ok_or(GONE)?;
            take(&mut wall.openings, opening)
        }
        Subject::Pocket { wall, pocket } => {
            let wall = project.walls.get_mut(wall).map(Arc::make_mut).ok_or(GONE)?;
            take(&mut wall.pockets, pocket)
        }
        Subject::BuildUp(at) => {
            let (_, coats) = project.build_ups.shift_remove_index(at).ok_or(GONE)?;
            for of in coats {
                forget_rate(project, &of.coat);
            }
            Ok(())
        }
        Subject::Coat { build_up, coat } => {
            let (_, coats) = project.build_ups.get_index_mut(build_up).ok_or(GONE)?;
            let name = coats.get(coat).ok_or(GONE)?.coat.clone();
            take(coats, coat)?;
            forget_rate(project, &name);
            Ok(())
        }
        Subject::Background(at) => gone(project.backgrounds.shift_remove_index(at).is_some()),
        Subject::Mix(at) => gone(project.mixes.shift_remove_index(at).is_some()),
        Subject::Material(at) => gone(project.materials.shift_remove_index(at).is_some()),
        Subject::Package { material, package } => {
            let (_, of) = project.materials.get_index_mut(material).ok_or(GONE)?;
            take(&mut of.packages, package)
        }
        Subject::Panel { mix, panel } => {
            let (_, of) = project.mixes.get_index_mut(mix).ok_or(GONE)?;
            take(&mut of.test_panels, panel)
        }
        Subject::Blend(at) => gone(project.blends.shift_remove_index(at).is_some()),
        Subject::Supplier(at) => gone(project.suppliers.shift_remove_index(at).is_some()),
        Subject::Phase(at) => take(phases(project).ok_or(GONE)?, at),
        Subject::Alternative(at) => gone(project.options.shift_remove_index(at).is_some()),
        Subject::Alteration {
            alternative,
            change,
        } => {
            let (_, of) = project.options.get_index_mut(alternative).ok_or(GONE)?;
            take(&mut of.changes, change)
        }
        Subject::Uncertain(at) => take(&mut project.uncertain, at),
        Subject::Done(at) => take(&mut project.done, at),
        Subject::Delivered(at) => take(&mut project.delivered, at),
        Subject::Buying => {
            project.buying = None;
            Ok(())
        }
        Subject::Mixer => {
            project.mixer = None;
            Ok(())
        }
        Subject::Preparation(_) | Subject::Room(_) | Subject::Dried(_) => {
            let work = project.work.as_deref_mut().ok_or(GONE)?;
            gone(on_site::remove(work, subject))
        }
        Subject::Work => {
            project.work = None;
            Ok(())
        }
        Subject::Project => Err("the project itself stays".into()),
    }
}

/// Removes what is chosen or, when it is ticked, all that is ticked.
pub(super) fn remove(state: &mut State) -> Vec<Effect> {
    let Some(subject) = state.subject() else {
        return Vec::new();
    };
    let ticked = fields::ticked(state);
    let all = if state.screen == Screen::Walls && ticked.contains(&subject) {
        ticked
    } else {
        vec![subject]
    };
    let words = if all.len() > 1 {
        eco_format!("{} things removed", all.len())
    } else {
        eco_format!("{} removed", form::title(state.project(), subject))
    };
    let label = label(state, words.clone());
    let done = edit(state, label, |project| {
        // From the last to the first, so that positions before stay right; a wall goes after what is in it.
        all.iter().rev().try_for_each(|subject| match subject {
            Subject::Opening { wall, .. } if all.contains(&Subject::Wall(*wall)) => Ok(()),
            subject => remove_one(project, *subject),
        })
    });
    match done {
        Ok(((), effects)) => {
            if effects.is_empty() {
                return effects;
            }
            let undo = state.keymap.first(crate::command::Id::Undo);
            state.say(eco_format!("{words}; {undo} brings it back"));
            effects
        }
        Err(words) => {
            state.complain(words);
            Vec::new()
        }
    }
}

/// Moves what is chosen one place in its list.
#[allow(clippy::too_many_lines, reason = "one arm a kind of thing")]
pub(super) fn shift(state: &mut State, earlier: bool) -> Vec<Effect> {
    let Some(subject) = state.subject() else {
        return Vec::new();
    };
    if matches!(subject, Subject::Wall(_))
        && (state.walls.sort != Sort::Entered || !state.walls.filter.is_empty())
    {
        state.complain("Walls can be moved when all of them are shown, as entered");
        return Vec::new();
    }
    let words = eco_format!("{} moved", form::title(state.project(), subject));
    make_new(state, words, |project| {
        let other = |at: usize, len: usize| {
            let to = if earlier {
                at.checked_sub(1)
            } else {
                Some(at + 1)
            };
            to.filter(|to| *to < len && at < len)
                .ok_or_else(|| EcoString::from("it stands at the end of its list"))
        };
        macro_rules! swap {
            ($list:expr, $at:expr, $made:expr) => {{
                let to = other($at, $list.len())?;
                $list.swap($at, to);
                Ok($made(to))
            }};
            (names $list:expr, $at:expr, $made:expr) => {{
                let to = other($at, $list.len())?;
                $list.swap_indices($at, to);
                Ok($made(to))
            }};
        }
        match subject {
            Subject::Wall(at) => swap!(project.walls, at, Subject::Wall),
            Subject::Opening { wall, opening } => {
                let of = project.walls.get_mut(wall).map(Arc::make_mut).ok_or(GONE)?;
                swap!(of.openings, opening, |opening| Subject::Opening {
                    wall,
                    opening
                })
            }
            Subject::Pocket { wall, pocket } => {
                let of = project.walls.get_mut(wall).map(Arc::make_mut).ok_or(GONE)?;
                swap!(of.pockets, pocket, |pocket| Subject::Pocket {
                    wall,
                    pocket
                })
            }
            Subject::Coat { build_up, coat } => {
                let (_, coats) = project.build_ups.get_index_mut(build_up).ok_or(GONE)?;
                swap!(coats, coat, |coat| Subject::Coat { build_up, coat })
            }
            Subject::Package { material, package } => {
                let (_, of) = project.materials.get_index_mut(material).ok_or(GONE)?;
                swap!(of.packages, package, |package| Subject::Package {
                    material,
                    package
                })
            }
            Subject::BuildUp(at) => swap!(names project.build_ups, at, Subject::BuildUp),
            Subject::Background(at) => swap!(names project.backgrounds, at, Subject::Background),
            Subject::Mix(at) => swap!(names project.mixes, at, Subject::Mix),
            Subject::Material(at) => swap!(names project.materials, at, Subject::Material),
            Subject::Panel { mix, panel } => {
                let (_, of) = project.mixes.get_index_mut(mix).ok_or(GONE)?;
                swap!(of.test_panels, panel, |panel| Subject::Panel { mix, panel })
            }
            Subject::Blend(at) => swap!(names project.blends, at, Subject::Blend),
            Subject::Supplier(at) => swap!(names project.suppliers, at, Subject::Supplier),
            Subject::Phase(at) => swap!(phases(project).ok_or(GONE)?, at, Subject::Phase),
            Subject::Alternative(at) => swap!(names project.options, at, Subject::Alternative),
            Subject::Alteration {
                alternative,
                change,
            } => {
                let (_, of) = project.options.get_index_mut(alternative).ok_or(GONE)?;
                swap!(of.changes, change, |change| Subject::Alteration {
                    alternative,
                    change
                })
            }
            Subject::Uncertain(at) => swap!(project.uncertain, at, Subject::Uncertain),
            Subject::Done(at) => swap!(project.done, at, Subject::Done),
            Subject::Delivered(at) => swap!(project.delivered, at, Subject::Delivered),
            Subject::Preparation(at) => {
                let work = project.work.as_deref_mut().ok_or(GONE)?;
                swap!(work.prepare, at, Subject::Preparation)
            }
            Subject::Room(at) => {
                let work = project.work.as_deref_mut().ok_or(GONE)?;
                swap!(names work.rooms, at, Subject::Room)
            }
            Subject::Dried(at) => {
                let work = project.work.as_deref_mut().ok_or(GONE)?;
                swap!(work.dried, at, Subject::Dried)
            }
            Subject::Project | Subject::Mixer | Subject::Buying | Subject::Work => {
                Err("there is only one of it".into())
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use hodful_quantities::Measure;

    fn check(from: &str, units: UnitSystem, thicker: &str, thinner: Option<&str>) {
        let of = Length::read(from).unwrap();
        assert_eq!(stepped(of, units, true).as_deref(), Some(thicker), "{from}");
        assert_eq!(stepped(of, units, false).as_deref(), thinner, "{from}");
    }

    #[test]
    fn coats_go_by_steps_of_the_trade() {
        check("3/4 in", UnitSystem::Us, "7/8\"", Some("5/8\""));
        check("1 in", UnitSystem::Us, "1 1/8\"", Some("7/8\""));
        check("0.8 in", UnitSystem::Us, "7/8\"", Some("3/4\""));
        check("1/8 in", UnitSystem::Us, "1/4\"", None);
        check("20 mm", UnitSystem::Metric, "22 mm", Some("18 mm"));
        check("15 mm", UnitSystem::Metric, "16 mm", Some("14 mm"));
        check("2 mm", UnitSystem::Metric, "4 mm", None);
        check("3 in", UnitSystem::Metric, "78 mm", Some("76 mm"));
    }

    #[test]
    fn names_and_ids_go_on_from_the_last() {
        assert_eq!(free_name("fill", |_| false), "fill 2");
        assert_eq!(free_name("fill 2", |name| name == "fill 2"), "fill 3");
        assert_eq!(next_id("W1", |id| id == "W1"), "W2");
        assert_eq!(next_id("W7", |id| id == "W8"), "W9");
        assert_eq!(next_id("door", |_| false), "door2");
    }
}
