//! From a project as typed to a checked one: everything that is refused, all at once, each with its
//! place. Not here: what is only doubtful, and what only the measuring can refuse (an opening with no
//! area inside the wall): see `doubts`.

mod blends;
pub(crate) mod done;
mod materials;
mod mixes;
pub(crate) mod reading;
mod soils;
mod supply;
pub(crate) mod uncertain;
pub(crate) mod values;
pub(crate) mod walls;
pub(crate) mod work;

pub(crate) use mixes::measured_shrinkage;
pub(crate) use soils::held_back;

use crate::checked::{Checked, Site};
use crate::problem::{Place, Problem};
use crate::project::{BackgroundKind, Name, Named, Project};
use crate::rule::RuleBook;
use hodful_quantities::units::Length;
use values::Values;

/// Checks a project against itself and the rules it may name.
///
/// Gives the checked project when nothing is refused, and every refusal otherwise; never only the
/// first.
///
/// # Errors
/// At least one [`Problem`] of severity refused.
pub fn check(project: &Project, rules: &RuleBook) -> Result<Checked, Vec<Problem>> {
    let looked = look(project, rules);
    if looked.problems.is_empty() {
        Ok(looked.checked)
    } else {
        Err(looked.problems)
    }
}

/// A project looked over: whole when there is no problem, and otherwise good for its sound walls only.
#[derive(Debug)]
pub(crate) struct Looked {
    pub(crate) checked: Checked,
    /// Walls in which nothing is refused, by position.
    pub(crate) sound: Vec<bool>,
    pub(crate) problems: Vec<Problem>,
}

/// Looks a project over.
pub(crate) fn look(project: &Project, rules: &RuleBook) -> Looked {
    let mut values = Values::default();
    let site = site(project, rules, &mut values);
    let walls::Found { walls, sound } = walls::check(project, &mut values);
    done::check(project, &site, &mut values);
    work::check_walls(project, &mut values);
    Looked {
        checked: Checked { site, walls },
        sound,
        problems: values.into_problems(),
    }
}

/// Looks over everything but the walls.
pub(crate) fn site(project: &Project, rules: &RuleBook, values: &mut Values) -> Site {
    let rule = rules.get(&project.measurement_rule).cloned();
    if rule.is_none() {
        let place = Place::project().field("measurement_rule");
        values.missing(
            &place,
            "measurement rule",
            &project.measurement_rule,
            rules.keys(),
        );
    }
    let materials = materials::check(project, values);
    let mixes = mixes::check(project, &materials, values);
    let build_ups = mixes::build_ups(project, values);
    let dubbing_out: Vec<Option<Length>> = project
        .backgrounds
        .iter()
        .map(|(name, background)| {
            let place = Place::project().thing("background", name.clone());
            values.name(&place, "name", name);
            match &background.dubbing_out {
                Some(typed) => values.sound(&place, "dubbing_out", typed),
                None => Some(Length::default()),
            }
        })
        .collect();
    let lath_key = project
        .backgrounds
        .values()
        .zip(&dubbing_out)
        .find(|(background, _)| background.kind == BackgroundKind::MetalLath)
        .map_or_else(|| Some(Length::default()), |(_, key)| *key);
    let mixer = materials::mixer(project, values);
    blends::check(project, values);
    let suppliers = supply::suppliers(project, values);
    let phases = supply::phases(project, values);
    let site = Site {
        build_ups,
        mixes,
        materials,
        dubbing_out,
        is_lath: project
            .backgrounds
            .values()
            .map(|b| b.kind == BackgroundKind::MetalLath)
            .collect(),
        lath_key,
        mixer,
        suppliers,
        phases,
        rule_known: rule.is_some(),
        rule: rule.unwrap_or_default(),
    };
    uncertain::check(project, &site, values);
    work::check(project, values);
    site
}

/// The name nearest to one that is not there, when one is near enough to be meant; else the only one of whose words it
/// is one.
pub(crate) fn nearest<'a>(name: &str, known: impl Iterator<Item = &'a Name>) -> Option<&'a Name> {
    let known: Vec<&Name> = known.collect();
    let near = known
        .iter()
        .map(|k| (strsim::damerau_levenshtein(name, k), k))
        .min_by_key(|(distance, _)| *distance)
        .filter(|(distance, k)| *distance <= 1 + k.chars().count() / 3);
    if let Some((_, near)) = near {
        return Some(near);
    }
    let mut by_word = known
        .iter()
        .filter(|known| known.split(' ').any(|word| word == name));
    let only = by_word.next();
    only.filter(|_| by_word.next().is_none()).copied()
}

/// The position of a name, or a problem at the place that names it.
pub(crate) fn position<T>(
    values: &mut Values,
    place: &Place,
    kind: &'static str,
    name: &Name,
    among: &Named<T>,
) -> Option<usize> {
    let found = among.get_index_of(name);
    if found.is_none() {
        values.missing(place, kind, name, among.keys());
    }
    found
}
