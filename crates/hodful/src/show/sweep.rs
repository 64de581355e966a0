//! One field over a range: figures at round values, steps, limits. Not here: computing them.

mod swept;

use swept::with_ends;
pub(crate) use swept::{Swept, changes};

use super::columns::{Column, tables};
use super::paragraph;
use super::table::Table;
use hodful_quantities::print::UnitSystem;
use hodful_quantities::units::{
    Length, Mass, MassDensity, Volume, cubic_foot, inch, kilogram_per_cubic_meter, liter, pound,
    pound_per_cubic_foot, pound_per_cubic_yard,
};
use hodful_takeoff::compare::Line;
use hodful_takeoff::packages::words;
use hodful_takeoff::sweep::{Count, Curve, Limit, Scale, Step, Sweep};

/// The most round values of a table.
const MOST_ROWS: f64 = 17.0;

/// Columns of a figure's name over its values.
const NARROW: usize = 14;

/// Round values within a range, at equal distances: the first, the last, how many. The ends themselves
/// where nothing round lies between.
pub(crate) fn round_values(
    scale: &Scale,
    from: f64,
    to: f64,
    units: UnitSystem,
) -> (f64, f64, usize) {
    let (from, to) = (from.min(to), from.max(to));
    let whole = (from, to, 2);
    let unit = unit(scale, units);
    let is_inches = *scale == Scale::Thickness && units == UnitSystem::Us;
    let Some(step) = steps(is_inches)
        .map(|step| step * unit)
        .find(|step| (to - from) / step <= MOST_ROWS - 1.0)
    else {
        return whole;
    };
    let (first, last) = ((from / step).ceil(), (to / step).floor());
    if !(first.is_finite() && last > first) {
        return whole;
    }
    let mut count = 1;
    while first + f64::from(count) <= last {
        count += 1;
    }
    let count = usize::try_from(count).unwrap_or(2);
    (first * step, last * step, count)
}

/// Distances from fine to coarse: halves of an inch and of those, then feet; or one, two and five of ten.
fn steps(is_inches: bool) -> impl Iterator<Item = f64> {
    let inches = [0.0625, 0.125, 0.25, 0.5, 1.0, 2.0, 6.0, 12.0];
    let feet = (0..10).flat_map(|power| {
        let ten = 12.0 * 10.0_f64.powi(power);
        [2.0, 5.0, 10.0].map(|one| one * ten)
    });
    let inches = inches.into_iter().chain(feet).filter(move |_| is_inches);
    let tens = (-6..12).flat_map(|power| {
        let ten = 10.0_f64.powi(power);
        [1.0, 2.0, 5.0].map(|one| one * ten)
    });
    inches.chain(tens.filter(move |_| !is_inches))
}

/// What a value of one is in base units, as it is shown.
fn unit(scale: &Scale, units: UnitSystem) -> f64 {
    let us = units == UnitSystem::Us;
    match scale {
        Scale::Length | Scale::Thickness if us => Length::new::<inch>(1.0).value,
        Scale::Volume if us => Volume::new::<cubic_foot>(1.0).value,
        Scale::Volume => Volume::new::<liter>(1.0).value,
        Scale::Mass if us => Mass::new::<pound>(1.0).value,
        Scale::Density if us => MassDensity::new::<pound_per_cubic_foot>(1.0).value,
        Scale::Dose if us => MassDensity::new::<pound_per_cubic_yard>(1.0).value,
        Scale::Density | Scale::Dose => MassDensity::new::<kilogram_per_cubic_meter>(1.0).value,
        Scale::Angle => 1.0_f64.to_radians(),
        Scale::Share => 0.01,
        _ => 1.0,
    }
}

/// The figures at round values, and steps and limits of the whole range.
pub(crate) fn sweep(project: &str, swept: &Swept, units: UnitSystem) -> String {
    let of = &swept.whole;
    let round = with_ends(&swept.round, of, units);
    let mut out = paragraph("", project);
    let name = format!("{} of {}", of.label, of.of);
    let range = of.xs.first().zip(of.xs.last());
    let range = range.map_or_else(String::new, |(from, to)| {
        let [from, to] = [from, to].map(|x| of.scale.show(*x, units));
        format!(", from {from} to {to}")
    });
    out.push_str(&paragraph("", &format!("{name}{range}")));
    out.push('\n');
    out.push_str(&figures(&round, units));
    out.push_str(&stands(swept, units));
    let curves = of.curves.iter().chain(&round.curves);
    if curves
        .into_iter()
        .any(|curve| curve.values.iter().any(Option::is_none))
    {
        out.push_str("– stands where the value is refused, or the figure cannot be told.\n");
    }
    for words in &swept.refused {
        out.push_str(&paragraph("", words));
    }
    out.push_str(&steps_of(of, units));
    out.push_str(&limits(of, units));
    out
}

/// Where the project stands, and what is the same at every value.
fn stands(swept: &Swept, units: UnitSystem) -> String {
    let of = &swept.whole;
    let mut out = paragraph(
        "",
        &match of.present {
            Some(x) => format!("As it stands it is {}.", of.scale.show(x, units)),
            None => "As it stands it is not given, or not the same in all.".to_owned(),
        },
    );
    let is_told = |of: &Curve| {
        of.now
            .or(of.values.iter().flatten().copied().next())
            .is_some()
    };
    if !swept.still.is_empty() {
        let still = swept.still.iter();
        let still =
            still.map(|(line, value)| format!("{} {}", line.label(), line.shown(*value, units)));
        let still: Vec<String> = still.collect();
        out.push_str(&paragraph(
            "",
            &format!("Nothing else changes: {}.", still.join("; ")),
        ));
    } else if of.xs.len() > 1
        && of.curves.iter().any(is_told)
        && !of.curves.iter().any(|of| changes(&[of]))
    {
        out.push_str("No figure changes over this range.\n");
    }
    out
}

fn figures(of: &Sweep, units: UnitSystem) -> String {
    // Where the project stands goes between the round values.
    let here = of.present.filter(|x| !of.xs.contains(x));
    let at = here.map(|x| of.xs.iter().filter(|other| **other < x).count());
    let put = |mut cells: Vec<String>, own: String| {
        if let Some(at) = at {
            cells.insert(at.min(cells.len()), own);
        }
        cells
    };
    let is_here = |x: f64| of.present.is_some_and(|here| here.to_bits() == x.to_bits());
    let shown = |x: f64, is_here: bool| {
        let mark = if is_here { "  now" } else { "" };
        format!("{}{mark}", of.scale.show(x, units))
    };
    let xs = of.xs.iter().map(|x| shown(*x, is_here(*x))).collect();
    let xs = put(xs, here.map_or_else(String::new, |x| shown(x, true)));
    let curves = of.curves.iter().map(|curve| {
        let value = |value: &Option<f64>| {
            value.map_or_else(
                || "–".to_owned(),
                |value| {
                    let shown = curve.line.shown(value, units);
                    hodful_documents::digits(&curve.line, &shown).to_owned()
                },
            )
        };
        let cells = curve.values.iter().map(value).collect();
        Column::new(head(curve, units), put(cells, value(&curve.now)))
    });
    let curves: Vec<Column> = curves.collect();
    let label = of.label.to_string();
    tables(&[0], &[Column::new(label, xs)], &curves)
}

/// The name of a figure with its unit.
fn head(of: &Curve, units: UnitSystem) -> String {
    let mut head = textwrap::fill(&of.line.label(), NARROW);
    let unit = hodful_documents::unit_of(&of.line, units);
    if !unit.is_empty() {
        head.push('\n');
        head.push_str(&unit);
    }
    head
}

/// Where other packages or another number of batches are needed, for the figures that are shown.
fn steps_of(of: &Sweep, units: UnitSystem) -> String {
    let shown = |step: &&Step| {
        let mut lines = of.curves.iter();
        lines.any(|curve| of.steps_of(&curve.line).any(|other| other == *step))
    };
    let steps: Vec<&Step> = of.steps.iter().filter(shown).collect();
    let mut out = "\nSTEPS\n".to_owned();
    if steps.is_empty() && of.dense.is_empty() {
        out.push_str("No other count of packages or batches was found anywhere.\n");
        return out;
    }
    if !steps.is_empty() {
        let mut table = Table::new(&[0, 1, 2, 3], ["Over", "Of", "Before", "From there on"]);
        for (at, first, last) in merged(&steps, |at| of.scale.show_below(at, units).to_string()) {
            let (before, after) = (count(&first.before), count(&last.after));
            table.row([at, thing(&first.of), before, after]);
        }
        out.push_str(&table.print());
    }
    let dense: Vec<String> = of.dense.iter().map(thing).collect();
    if !dense.is_empty() {
        let words = format!(
            "Too close together to be told one by one: {}.",
            dense.join(", ")
        );
        out.push_str(&paragraph("", &words));
    }
    out
}

/// Steps of one thing that are shown at one place are one row: the place, the first and the last of them.
fn merged<'s>(
    steps: &[&'s Step],
    shown: impl Fn(f64) -> String,
) -> Vec<(String, &'s Step, &'s Step)> {
    let mut rows: Vec<(String, &Step, &Step)> = Vec::new();
    for step in steps {
        let at = shown(step.at);
        let row = rows
            .iter_mut()
            .find(|(place, first, _)| *place == at && first.of == step.of);
        match row {
            Some((_, _, last)) => *last = step,
            None => rows.push((at, step, step)),
        }
    }
    rows
}

/// What a step is of.
fn thing(of: &Line) -> String {
    match of {
        Line::Packages(material) => material.to_string(),
        other => other.label().to_string(),
    }
}

fn count(of: &Count) -> String {
    if of.packages.is_empty() {
        return of.total.to_string();
    }
    let each = of.packages.iter();
    words(each.map(|(name, count)| (name.as_str(), *count))).into()
}

fn limits(of: &Sweep, units: UnitSystem) -> String {
    if of.limits.is_empty() && of.broken.is_empty() {
        return String::new();
    }
    let mut out = "\nLIMITS\n".to_owned();
    let source = |limit: &Limit| {
        let source = limit.source;
        source.map_or_else(String::new, |source| format!(" [{source}]"))
    };
    for limit in &of.limits {
        let at = limit.shown(&of.scale, units);
        let bound = if limit.at_most { "at most" } else { "at least" };
        let words = format!("{bound} {at}: {}{}", limit.words, source(limit));
        out.push_str(&paragraph("- ", &words));
    }
    for limit in &of.broken {
        let side = if limit.at_most { "over" } else { "under" };
        let words = format!(
            "all of this range is {side}: {}{}",
            limit.words,
            source(limit)
        );
        out.push_str(&paragraph("- ", &words));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::iter::zip;

    #[test]
    fn round_values_are_round_in_the_units_shown() {
        let us = UnitSystem::Us;
        // Two inches in eighths: seventeen values, the ends included.
        let (from, to, count) = round_values(&Scale::Thickness, 0.0, 50.8, us);
        assert_eq!((from, count), (0.0, 17));
        assert!((to - 50.8).abs() < 1e-12);
        // From 3 mm to 47 mm in fives: 5, 10 … 45.
        let (from, to, count) = round_values(&Scale::Thickness, 3.0, 47.0, UnitSystem::Metric);
        assert_eq!((from, to, count), (5.0, 45.0, 9));
        let (from, to, count) = round_values(&Scale::Share, 0.0, 0.3, us);
        assert!(from == 0.0 && (to - 0.3).abs() < 1e-12 && count == 16);
        for (from, to) in [
            (1.0, 1.0),
            (0.0, f64::INFINITY),
            (f64::NAN, 1.0),
            (-1e300, 1e300),
        ] {
            let (_, _, count) = round_values(&Scale::Length, from, to, us);
            assert!((2..=20).contains(&count), "{from} {to}: {count}");
        }
    }

    #[test]
    fn units_are_those_of_the_tables_of_factors() {
        // National Institute of Standards and Technology, SP 811 (2008), app. B.
        let lb_per_ft3 = 0.453_592_37 / 304.8_f64.powi(3);
        for (scale, us) in [
            (Scale::Thickness, 25.4),
            (Scale::Mass, 0.453_592_37),
            (Scale::Volume, 304.8_f64.powi(3)),
            (Scale::Density, lb_per_ft3),
            (Scale::Dose, lb_per_ft3 / 27.0),
        ] {
            assert!(
                (unit(&scale, UnitSystem::Us) / us - 1.0).abs() < 1e-12,
                "{scale:?}"
            );
        }
        let all: Vec<f64> = zip(steps(true), steps(true).skip(1))
            .map(|(a, b)| b - a)
            .collect();
        assert!(all.iter().all(|rise| *rise > 0.0));
    }
}
