//! Blends as tables and words. Not here: finding them.

use super::paragraph;
use super::table::Table;
use hodful_quantities::print::{self, UnitSystem, significant};
use hodful_quantities::units::{Mass, Volume, cubic_meter, cubic_yard, kilogram, pound};
use hodful_soils::blend::{Figure, Impossible, Limit, Outcome, Requirement};
use hodful_takeoff::blend::{AskedBy, Blended};
use hodful_takeoff::project::{BlendAim, Project};
use std::fmt::Display;
use std::iter::zip;

/// Digits of a ratio and of parts.
const DIGITS: u32 = 3;

/// Blends that were looked for, by name, each with its parts or why there are none.
pub(crate) fn blends<E: Display>(
    project: &Project,
    found: &[(&str, Result<Blended, E>)],
    units: UnitSystem,
) -> String {
    let mut out = paragraph("", &project.name);
    for (name, blended) in found {
        out.push('\n');
        match blended {
            Err(words) => {
                out.push_str(&paragraph("", &format!("BLEND {name}: cannot be computed")));
                out.push_str(&paragraph("", &format!("{words}.")));
            }
            Ok(of) => {
                let aim = project.blends.get(*name).and_then(|blend| blend.aim);
                let aim = aim.unwrap_or(BlendAim::LeastCost).word();
                out.push_str(&one(name, of, aim, units));
            }
        }
    }
    out
}

fn one(name: &str, of: &Blended, aim: &str, units: UnitSystem) -> String {
    let mut out;
    match &of.outcome {
        Outcome::Found(blend) => {
            out = paragraph("", &format!("BLEND {name}: {}", ratio_words(of)));
            out.push_str(&parts(of));
            out.push('\n');
            out.push_str(&figures(of));
            out.push_str(&paragraph("", &price(of, units)));
            let limits = blend.binding.iter();
            let limits: Vec<_> = limits.map(|limit| of.limit(*limit)).collect();
            let limits = match (limits.is_empty(), is_rounded(of)) {
                (true, _) => "no limit stands in its way".to_owned(),
                (false, false) => format!("what limits it is {}", limits.join(" and ")),
                (false, true) => format!(
                    "before the parts were rounded, what limited it was {}",
                    limits.join(" and ")
                ),
            };
            out.push_str(&paragraph("", &format!("Chosen by {aim}; {limits}.")));
        }
        Outcome::Impossible(impossible) => {
            out = paragraph("", &format!("BLEND {name}: cannot be had as it is asked"));
            out.push_str(&why_not(of, impossible, units));
            out.push_str("\nThe nearest that can be had:\n");
            out.push_str(&parts(of));
            out.push('\n');
            out.push_str(&figures(of));
            let misses: Vec<String> = impossible
                .nearest
                .missing
                .iter()
                .map(|miss| {
                    let by = by(miss.limit, miss.by);
                    format!("{}{by}", of.limit(miss.limit))
                })
                .collect();
            if !misses.is_empty() {
                out.push_str(&paragraph("", &format!("It misses {}.", misses.join("; "))));
            }
        }
    }
    for note in &of.notes {
        out.push_str(&paragraph("- ", note));
    }
    out
}

/// By how much a limit is missed: points of a share, or a number.
fn by(limit: Limit, by: f64) -> String {
    if !by.is_finite() {
        return String::new();
    }
    let is_ratio = match limit {
        Limit::Least(of) | Limit::Most(of) => of.is_ratio(),
        Limit::Supply(_) => false,
    };
    if is_ratio {
        format!(" (by {})", significant(by, DIGITS))
    } else {
        format!(" (by {} points)", significant(by * 100.0, DIGITS))
    }
}

/// Whether the parts that are shown are others than those that were found, as far as the digits tell.
fn is_rounded(of: &Blended) -> bool {
    let shares = zip(&of.blend().volume_parts, &of.shown().volume_parts);
    let mut apart = shares.map(|(exact, shown)| percent(*exact) != percent(*shown));
    apart.any(|apart| apart)
}

/// `2 sharp sand : 1 pit soil`.
fn ratio_words(of: &Blended) -> String {
    let used = zip(&of.materials, of.parts()).filter(|(_, parts)| *parts > 0.0);
    let used: Vec<String> = used
        .map(|(name, parts)| format!("{} {name}", part(parts)))
        .collect();
    used.join(" : ")
}

/// Parts as they are counted: `2`, `1 1/4`; else to three digits.
fn part(parts: f64) -> String {
    let quarters = parts * 4.0;
    let whole = parts.floor();
    let broken = [(0.0, ""), (1.0, "1/4"), (2.0, "1/2"), (3.0, "3/4")];
    let found = broken
        .iter()
        .find(|(n, _)| quarters.total_cmp(&(whole * 4.0 + n)).is_eq());
    match found {
        Some((_, word)) if !word.is_empty() && whole > 0.0 => format!("{whole} {word}"),
        Some((_, word)) if !word.is_empty() => (*word).to_owned(),
        _ => significant(parts, DIGITS),
    }
}

fn parts(of: &Blended) -> String {
    let blend = of.shown();
    let mut table = Table::new(
        &[0],
        [
            "Material\n",
            "Parts\n",
            "By volume\n%",
            "By mass\n%",
            "Bought in\n%",
        ],
    );
    let shares = zip(&blend.volume_parts, zip(&blend.mass_shares, &blend.bought));
    for (name, (parts, (volume, (mass, bought)))) in zip(&of.materials, zip(of.parts(), shares)) {
        table.row([
            name.to_string(),
            part(parts),
            percent(*volume),
            percent(*mass),
            percent(*bought),
        ]);
    }
    let mut out = table.print();
    let countable = of.blend().rounded.is_some();
    out.push_str(&paragraph(
        "",
        if countable {
            "Parts by loose volume, dry and past the screen; the rest is of the dry mass but where it says volume."
        } else {
            "Parts by loose volume, dry and past the screen; no parts that are easier to count out keep what is asked."
        },
    ));
    out
}

fn percent(share: f64) -> String {
    print::fixed(share * 100.0, 1, print::Grouping::Space)
}

/// A figure: a share in percent, a ratio as a number.
fn value(requirement: Requirement, of: Option<f64>) -> String {
    match of {
        None => "–".to_owned(),
        Some(of) if !of.is_finite() => "no end".to_owned(),
        // Nobody counts buckets finer; what is under it is the solver's rounding.
        Some(of) if requirement.is_ratio() => significant((of * 1e3).round() / 1e3 + 0.0, DIGITS),
        Some(of) => format!("{} %", percent(of)),
    }
}

/// What a figure is called, and for a sieve why it is asked about.
fn called(of: &Blended, requirement: Requirement) -> String {
    let words = of.words(requirement);
    let asked = match requirement {
        Requirement::Passing(sieve) => of.sieves.get(sieve),
        _ => None,
    };
    match asked {
        Some(AskedBy::SinglePass) => format!("{words}, a third of the coat"),
        Some(AskedBy::Curve) => format!("{words}, on the curve"),
        Some(AskedBy::Sieve) | None => words.to_string(),
    }
}

fn figures(of: &Blended) -> String {
    let all = &of.shown().figures;
    if all.is_empty() {
        return "Nothing is asked of it.\n".to_owned();
    }
    let mut table = Table::new(
        &[0],
        ["Figure", "Comes to", "At least", "At most", "Margin"],
    );
    for figure in all {
        let Figure {
            requirement,
            least,
            most,
            margin,
            ..
        } = *figure;
        let shown = |of| value(requirement, of);
        table.row([
            called(of, requirement),
            shown(figure.value),
            shown(least),
            shown(most),
            shown(margin),
        ]);
    }
    table.print()
}

/// What it costs, and what is bought in.
fn price(of: &Blended, units: UnitSystem) -> String {
    let blend = of.shown();
    let bought = format!(
        "{} % of its mass is bought in",
        percent(blend.bought_share())
    );
    let Some((cost, loose)) = blend.cost.zip(of.cost_per_loose()) else {
        return format!("Something that is bought in has no price; {bought}.");
    };
    let (weight, tonne) = match units {
        UnitSystem::Us => ("ton (2,000 lb)", Mass::new::<pound>(2000.0)),
        UnitSystem::Metric => ("tonne", Mass::new::<kilogram>(1000.0)),
    };
    let (room, heap) = match units {
        UnitSystem::Us => ("yd³", Volume::new::<cubic_yard>(1.0)),
        UnitSystem::Metric => ("m³", Volume::new::<cubic_meter>(1.0)),
    };
    let money = |cost: f64| print::fixed(cost, 2, units.grouping());
    format!(
        "Costs {} a {weight} dry, {} a {room} of its materials dry and loose: goods only, by the cheapest package; {bought}.",
        money(cost * tonne.get::<kilogram>()),
        money(loose * heap.get::<cubic_meter>())
    )
}

/// What stands against what, and how far the materials reach.
fn why_not(of: &Blended, impossible: &Impossible, units: UnitSystem) -> String {
    let conflict = impossible.conflict.iter();
    let conflict: Vec<_> = conflict.map(|limit| of.limit(*limit)).collect();
    let mut out = match conflict.as_slice() {
        [] => String::new(),
        [one] => paragraph("", &format!("This cannot be kept: {one}.")),
        several => paragraph(
            "",
            &format!("These cannot all be kept: {}.", several.join("; ")),
        ),
    };
    let mass = |mass: Mass| print::mass(mass, units).to_string();
    if let Some(all) = impossible.all_there_is {
        let words = format!(
            "All there is makes {} of dry blend, less than is wanted.",
            mass(all)
        );
        out.push_str(&paragraph("", &words));
    }
    if let Some(most) = impossible.within_supplies {
        let words = format!("What there is would do for {} of dry blend.", mass(most));
        out.push_str(&paragraph("", &words));
    }
    out.push('\n');
    let mut table = Table::new(
        &[0],
        [
            "Figure",
            "Asked at least",
            "Asked at most",
            "Reaches from",
            "To",
        ],
    );
    for (reach, figure) in zip(&impossible.reach, &impossible.nearest.figures) {
        let shown = |of| value(reach.requirement, of);
        table.row([
            called(of, reach.requirement),
            shown(figure.least),
            shown(figure.most),
            shown(reach.least),
            shown(reach.most),
        ]);
    }
    out.push_str(&table.print());
    out.push_str("How far these materials reach, each figure by itself.\n");
    out
}
