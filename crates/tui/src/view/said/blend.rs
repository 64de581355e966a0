//! What is said of a blend: its parts, its figures against what is asked, what it costs and what limits it;
//! or why it cannot be had, and the nearest. Not here: finding it (see `hodful_takeoff::blend`).

use super::{Said, percent};
use crate::State;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem, fixed, significant};
use hodful_quantities::units::{Mass, Volume};
use hodful_quantities::units::{
    cubic_meter, cubic_yard, kilogram, kilogram_per_cubic_meter, pound,
};
use hodful_takeoff::blend::Blended;
use hodful_takeoff::drawing::impossible;
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
        Ok(found) if impossible(found).is_none() => had(state, found, &mut said),
        Ok(found) => {
            let words = eco_format!("{name} cannot be had as it is asked.");
            said.push(Said::Bad(words));
            why_not(state, found, &mut said);
        }
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
    said.push(Said::Head(parts(state, found)));
    let blend = found.blend();
    // What is counted out is a little off what was found: its figures are those that count.
    let counted = match &blend.rounded {
        Some(rounded) => &*rounded.blend,
        None => blend,
    };
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
    said.push(Said::pair("costs", cost(state, found, counted.cost)));
    said.push(Said::pair(
        "bought in",
        format_args!("{} of its weight", percent(counted.bought_share())),
    ));
    let limits: Vec<EcoString> = blend.binding.iter().map(|of| found.limit(*of)).collect();
    if !limits.is_empty() {
        said.push(Said::pair("held by", limits.join("; ")));
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
}

/// Its parts with their names: `sharp sand 2 : pit soil 1`.
fn parts(state: &State, found: &Blended) -> EcoString {
    /// Quarters of a part that are written as such.
    const QUARTERS: f64 = 4.0;
    let signs = state.looks().signs;
    let spelled = |part: f64| {
        let quarters = part * QUARTERS;
        let whole = quarters.round();
        if found.blend().rounded.is_some()
            && (quarters - whole).abs() < f64::EPSILON * whole.max(1.0)
        {
            #[allow(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "parts that are counted out are small whole quarters"
            )]
            super::quarters(whole as u64, signs)
        } else {
            significant(part, 3).into()
        }
    };
    let each = zip(&found.materials, found.parts()).filter(|(_, part)| *part > 0.0);
    let each: Vec<EcoString> = each
        .map(|(name, part)| eco_format!("{} {name}", spelled(part)))
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

/// What a blend costs by volume of its loose parts, and by weight.
fn cost(state: &State, found: &Blended, per_kilogram: Option<f64>) -> EcoString {
    let Some(per_kilogram) = per_kilogram else {
        return "not known: something bought has no price".into();
    };
    let units = state.units();
    let blend = found.blend();
    let density: f64 = zip(&found.candidates, &blend.volume_parts)
        .map(|(of, part)| of.loose_density.get::<kilogram_per_cubic_meter>() * part)
        .sum();
    let money = |value: f64| fixed(value, 2, units.grouping());
    match units {
        UnitSystem::Metric => eco_format!(
            "{} a m³ of loose parts, {} a tonne",
            money(per_kilogram * density),
            money(per_kilogram * KILOGRAMS_PER_TONNE)
        ),
        UnitSystem::Us => {
            let yard = Volume::new::<cubic_yard>(1.0).get::<cubic_meter>();
            let ton = Mass::new::<pound>(POUNDS_PER_TON).get::<kilogram>();
            eco_format!(
                "{} a yd³ of loose parts, {} a ton",
                money(per_kilogram * density * yard),
                money(per_kilogram * ton)
            )
        }
    }
}

/// Why it cannot be had, and the nearest that can.
fn why_not(state: &State, found: &Blended, said: &mut Vec<Said>) {
    let Some(why) = impossible(found) else {
        return;
    };
    let units = state.units();
    let limits: Vec<EcoString> = why.conflict.iter().map(|of| found.limit(*of)).collect();
    said.push(Said::words(format_args!(
        "{} {}.",
        if limits.len() == 1 {
            "No blend of these can keep the"
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
        "the nearest: {}",
        parts(state, found)
    )));
    for miss in &why.nearest.missing {
        let requirement = why.nearest.figures.iter().find(|figure| {
            let words = found.words(figure.requirement);
            found.limit(miss.limit).ends_with(words.as_str())
        });
        let ratio = requirement.is_some_and(|figure| figure.requirement.is_ratio());
        let value = requirement.and_then(|figure| figure.value);
        let value = value.map_or_else(EcoString::new, |v| {
            eco_format!(", being {}", number(v, ratio))
        });
        let by = if ratio {
            number(miss.by, true)
        } else {
            eco_format!(
                "{} points",
                fixed(miss.by * 100.0, 1, print::Grouping::Space)
            )
        };
        said.push(Said::Bad(eco_format!(
            "misses the {} by {by}{value}",
            found.limit(miss.limit)
        )));
    }
}
