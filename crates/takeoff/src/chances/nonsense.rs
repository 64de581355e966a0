//! What a project says of an input and what cannot be: a thickness below nothing, a loss of all there is. Not here:
//! what is no spread at all, which is refused (see `crate::check`).
//!
//! A draw brings such a value back to what can be. Ours do so now and then, one wall in two thousand, and nothing is
//! said of it; what is typed is told when it happens more often than 1 time in 100, by the value that comes of it.

use super::inputs::points;
use super::target::Target;
use crate::check::uncertain::{self, Entry, entries, place};
use crate::check::values::Values;
use crate::checked::Site;
use crate::problem::Problem;
use crate::project::{Project, Uncertain};
use crate::sources::{MOST_OF_A_SHARE, ONE_IN_100};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::Level;
use hodful_quantities::units::{length_of_mm, ratio_of};

/// Every entry that says what cannot be, with the place of what is too far.
pub(crate) fn doubts(project: &Project, site: &Site) -> Vec<Problem> {
    let all = entries(project, site, &mut Values::default());
    let told = all.iter().flatten().flat_map(|entry| {
        let place = place(entry.number, entry.typed);
        let together = together(entry, site, project.units);
        let together = together.map(|words| (field(entry.typed), words));
        let walls = wall_to_wall(entry).map(|words| ("wall_to_wall", words));
        let found = together.into_iter().chain(walls);
        found.map(move |(field, words)| {
            let source = Some(ONE_IN_100.source);
            Problem::doubtful(place.clone().field(field), words, source)
        })
    });
    told.collect()
}

/// The field by which an entry reaches far.
fn field(of: &Uncertain) -> &'static str {
    if of.spread.is_some() {
        "spread"
    } else {
        "highest"
    }
}

/// What cannot be of what goes for all walls together: `'60 %' is too far: 1 time in 100 thickness of scratch would
/// be 4.7 mm under nothing or more; …`.
pub(super) fn together(entry: &Entry<'_>, site: &Site, units: UnitSystem) -> Option<EcoString> {
    let typed = entry.typed;
    let text = typed.spread.as_ref().or(typed.highest.as_ref())?.text();
    entry.together.iter().find_map(|(target, spread)| {
        let (low, high) = spread.within(ONE_IN_100.value);
        let (least, most) = target.bounds(target.value(site)?);
        let shown = |value: f64| shown(*target, value, units);
        if typed.spread.is_none() {
            // Three points are never under nothing, or they were refused.
            let (_, highest) = spread.within(f64::MAX);
            return (highest > most).then(|| {
                let most = shown(MOST_OF_A_SHARE.value);
                eco_format!("'{text}' is too far: {most} is the most that is drawn; give less")
            });
        }
        let would_be = if low < least {
            let under = if least > 0.0 { "" } else { " under nothing" };
            eco_format!("{}{under} or more", shown(low.abs()))
        } else if high > most {
            eco_format!("{} or more", shown(high))
        } else {
            return None;
        };
        let what = match &typed.name {
            Some(name) => eco_format!("{} of {name}", typed.of.word()),
            None => typed.of.word().into(),
        };
        let form = match typed.spread.as_ref()?.value() {
            Level::Share(share) if !uncertain::is_length(typed.of) => {
                eco_format!(", {} and not a share of it,", points(share))
            }
            _ => EcoString::new(),
        };
        Some(eco_format!(
            "'{text}'{form} is too far: 1 time in 100 {what} would be {would_be}; give less, or lowest, likely and highest"
        ))
    })
}

/// What cannot be of what differs from wall to wall.
pub(super) fn wall_to_wall(entry: &Entry<'_>) -> Option<EcoString> {
    let typed = entry.typed.wall_to_wall.as_ref()?;
    let most = 1.0 / ONE_IN_100.value;
    let is_too_far = entry.wall_to_wall.iter().any(|(_, sd)| *sd > most);
    is_too_far.then(|| {
        let least = print::percentage(ratio_of(most), UnitSystem::Metric);
        eco_format!(
            "'{}' is too far: more than 1 wall in 100 would have less than no {}; give {least} or less",
            typed.text(),
            entry.typed.of.word()
        )
    })
}

fn shown(of: Target, value: f64, units: UnitSystem) -> EcoString {
    if uncertain::is_length(of.of) {
        eco_format!("{}", print::thickness(length_of_mm(value), units))
    } else {
        eco_format!("{}", print::percentage(ratio_of(value), units))
    }
}
