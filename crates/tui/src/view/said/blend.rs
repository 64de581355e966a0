//! What is said of a blend: its parts, its figures against what is asked, what it costs and what limits it;
//! or why it cannot be had, and the nearest. Not here: finding it (see `hodful_takeoff::blend`).

use super::{Said, dust, percent, written};
use crate::State;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem, fixed, significant};
use hodful_quantities::units::{Mass, Volume, cubic_meter, cubic_yard, kilogram, pound};
use hodful_soils::blend::{Blend, Impossible, Limit, Miss, Requirement};
use hodful_takeoff::blend::Blended;
use hodful_takeoff::card::said as card;
use std::iter::zip;

/// Pounds of a ton and kilograms of a tonne: what is sold by weight is priced by them.
const POUNDS_PER_TON: f64 = 2000.0;
const KILOGRAMS_PER_TONNE: f64 = 1000.0;

pub(super) fn said(state: &State, at: usize) -> Vec<Said> {
    let Some((name, _)) = state.project().blends.get_index(at) else {
        return Vec::new();
    };
    let Some((looked, grading)) = state.blend(at) else {
        return vec![
            Said::Head(name.clone()),
            Said::words("It is being worked out."),
        ];
    };
    let mut said = Vec::new();
    if !state.is_blended(at) {
        said.push(Said::Bad(
            "This is of before the last change; it is being worked out anew.".into(),
        ));
    }
    match looked {
        Err(words) => {
            said.push(Said::Head(eco_format!("{name}: cannot be worked out yet")));
            said.push(Said::Bad(words.clone()));
        }
        Ok(found) => match found.impossible() {
            None => had(state, found, &mut said),
            Some(why) => {
                let words = eco_format!("{name} cannot be had as it is asked.");
                said.push(Said::Bad(words));
                why_not(state, found, why, &mut said);
            }
        },
    }
    if let Ok(found) = looked {
        said.extend(found.notes.iter().cloned().map(Said::Words));
        if grading.bounds.is_none() {
            said.extend(grading.captions.iter().cloned().map(Said::Words));
        }
    }
    said
}

/// A blend that meets what is asked.
fn had(state: &State, found: &Blended, said: &mut Vec<Said>) {
    said.push(Said::words("parts, dry and loose"));
    said.push(Said::Head(parts(state, found)));
    let blend = found.blend();
    // What is counted out is a little off what was found: its figures are those that count.
    let counted = found.shown();
    for figure in &counted.figures {
        let ratio = figure.requirement.is_ratio();
        let value = figure
            .value
            .map_or_else(|| "–".into(), |v| number(v, ratio));
        let asked = asked(figure.least, figure.most, ratio);
        let margin = figure.margin.map_or_else(EcoString::new, |margin| {
            eco_format!(", {}", spare(margin, ratio))
        });
        said.push(Said::Pair(
            found.words(figure.requirement),
            eco_format!("{value} ({asked}){margin}"),
        ));
    }
    said.push(Said::pair("costs", cost(state, found)));
    said.push(Said::pair(
        "bought in",
        format_args!("{} of its weight", percent(counted.bought_share())),
    ));
    let limits: Vec<EcoString> = blend.binding.iter().map(|of| found.limit(*of)).collect();
    if !limits.is_empty() {
        let held = if blend.rounded.is_some() {
            "before the parts were rounded, held by"
        } else {
            "held by"
        };
        said.push(Said::pair(held, limits.join("; ")));
    }
    if blend.rounded.is_none() {
        said.push(Said::words(
            "No small whole parts keep to what is asked; these are as exact as they are.",
        ));
    }
    let key = state.keymap().first(crate::command::Id::MakeMix);
    said.push(Said::words(format_args!(
        "{key} makes it a mix. It is worked out from tests of samples: make a trial batch and a test panel before a wall."
    )));
    said.extend(dust(state));
}

/// Its parts with their names: `2 sharp sand : 1 pit soil`.
fn parts(state: &State, found: &Blended) -> EcoString {
    /// Digits of parts that are not counted out.
    const DIGITS: u32 = 3;
    let written = written(state);
    let counted = found.blend().rounded.as_ref();
    let spelled = |at: usize, part: f64| -> EcoString {
        let quarters = counted.and_then(|rounded| {
            let four = 4 * u64::from(*rounded.steps.get(at)?);
            let one = u64::from(rounded.steps_per_part);
            four.checked_rem(one)
                .filter(|over| *over == 0)
                .and_then(|_| four.checked_div(one))
        });
        quarters.map_or_else(
            || significant(part, DIGITS).into(),
            |of| card::quarters(of, written),
        )
    };
    let each = zip(&found.materials, found.parts()).enumerate();
    let each: Vec<EcoString> = each
        .filter(|(_, (_, part))| *part > 0.0)
        .map(|(at, (name, part))| eco_format!("{} {name}", spelled(at, part)))
        .collect();
    each.join(" : ").into()
}

/// A share in percent to a tenth, or a ratio to a hundredth.
fn number(value: f64, ratio: bool) -> EcoString {
    if !value.is_finite() {
        return "without end".into();
    }
    let grouping = print::Grouping::Space;
    if ratio {
        fixed(value, 2, grouping).into()
    } else {
        eco_format!("{} %", fixed(value * 100.0, 1, grouping))
    }
}

fn asked(least: Option<f64>, most: Option<f64>, ratio: bool) -> EcoString {
    let short = |value: f64| -> EcoString {
        let digits = significant(if ratio { value } else { value * 100.0 }, 3);
        digits.into()
    };
    let unit = if ratio { "" } else { " %" };
    match (least, most) {
        (Some(least), Some(most)) => eco_format!("{} to {}{unit}", short(least), short(most)),
        (Some(least), None) => eco_format!("at least {}{unit}", short(least)),
        (None, Some(most)) => eco_format!("at most {}{unit}", short(most)),
        (None, None) => "not asked".into(),
    }
}

/// How far inside its nearest end a figure is.
fn spare(margin: f64, ratio: bool) -> EcoString {
    let grouping = print::Grouping::Space;
    let (digits, unit) = if ratio {
        (fixed(margin.abs(), 2, grouping), "")
    } else {
        (fixed(margin.abs() * 100.0, 1, grouping), " points")
    };
    if digits.chars().all(|c| matches!(c, '0' | '.')) {
        "at its end".into()
    } else if margin > 0.0 {
        eco_format!("{digits}{unit} to spare")
    } else {
        eco_format!("{digits}{unit} off")
    }
}

/// What a blend costs by volume of its materials, dry and loose, and by weight.
fn cost(state: &State, found: &Blended) -> EcoString {
    let costs = found.cost_per_loose().zip(found.shown().cost);
    let Some((per_cubic_metre, per_kilogram)) = costs else {
        return "not known: something bought has no price".into();
    };
    let units = state.units();
    let money = |value: f64| fixed(value, 2, units.grouping());
    match units {
        UnitSystem::Metric => eco_format!(
            "{} a m³ dry and loose, {} a tonne",
            money(per_cubic_metre),
            money(per_kilogram * KILOGRAMS_PER_TONNE)
        ),
        UnitSystem::Us => {
            let yard = Volume::new::<cubic_yard>(1.0).get::<cubic_meter>();
            let ton = Mass::new::<pound>(POUNDS_PER_TON).get::<kilogram>();
            eco_format!(
                "{} a yd³ dry and loose, {} a ton",
                money(per_cubic_metre * yard),
                money(per_kilogram * ton)
            )
        }
    }
}

/// Why it cannot be had, and the nearest that can.
fn why_not(state: &State, found: &Blended, why: &Impossible, said: &mut Vec<Said>) {
    let units = state.units();
    let limits: Vec<EcoString> = why.conflict.iter().map(|of| found.limit(*of)).collect();
    said.push(Said::words(format_args!(
        "{} {}.",
        if limits.len() == 1 {
            "No blend of these can keep"
        } else {
            "These do not go together:"
        },
        limits.join("; ")
    )));
    if let Some(all) = why.all_there_is {
        said.push(Said::words(format_args!(
            "All there is comes to {} of it, less than is wanted.",
            print::mass(all, units)
        )));
    }
    if let Some(within) = why.within_supplies {
        said.push(Said::words(format_args!(
            "As much as {} of it can be made with what there is.",
            print::mass(within, units)
        )));
    }
    said.push(Said::Gap);
    said.push(Said::Head("how far the materials reach".into()));
    for (reach, figure) in zip(&why.reach, &why.nearest.figures) {
        let ratio = reach.requirement.is_ratio();
        let reached = match (reach.least, reach.most) {
            (Some(least), Some(most)) => {
                eco_format!("{} to {}", number(least, ratio), number(most, ratio))
            }
            _ => "not at all".into(),
        };
        said.push(Said::Pair(
            found.words(reach.requirement),
            eco_format!(
                "{reached}; asked {}",
                asked(figure.least, figure.most, ratio)
            ),
        ));
    }
    said.push(Said::Gap);
    said.push(Said::Head(eco_format!(
        "the nearest, parts dry and loose: {}",
        parts(state, found)
    )));
    for miss in &why.nearest.missing {
        said.push(Said::Bad(missed(found, &why.nearest, miss)));
    }
}

/// By how much a limit is missed, and what the figure comes to.
fn missed(found: &Blended, nearest: &Blend, miss: &Miss) -> EcoString {
    let requirement = match miss.limit {
        Limit::Least(of) | Limit::Most(of) => Some(of),
        Limit::Supply(_) => None,
    };
    let ratio = requirement.is_some_and(Requirement::is_ratio);
    let by = if !miss.by.is_finite() {
        EcoString::new()
    } else if ratio {
        eco_format!(" by {}", number(miss.by, true))
    } else {
        let points = fixed(miss.by * 100.0, 1, print::Grouping::Space);
        eco_format!(" by {points} points")
    };
    let limit = found.limit(miss.limit);
    let Some(requirement) = requirement else {
        return eco_format!("takes more than {limit}{by}");
    };
    let figure = nearest.figures.iter();
    let mut figure = figure.filter(|figure| figure.requirement == requirement);
    let value = figure.next().and_then(|figure| figure.value);
    let value = value.map_or_else(EcoString::new, |value| {
        eco_format!(", being {}", number(value, ratio))
    });
    eco_format!("misses {limit}{by}{value}")
}
