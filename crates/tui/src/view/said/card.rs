//! The card beside the mixer: what one batch takes, counted, in the order in which it goes in. Not here:
//! working it out (see `hodful_takeoff::card`).

use super::{Said, percent, quarters};
use crate::State;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem, fixed};
use hodful_quantities::units::{Volume, gallon, liter};
use hodful_takeoff::card::{Card, CoatBatches, Load, Water};
use hodful_takeoff::project::MaterialKind;

pub(super) fn said(state: &State, at: usize) -> Vec<Said> {
    let Some((name, _)) = state.project().mixes.get_index(at) else {
        return Vec::new();
    };
    let cards = state.doc().bench().cards();
    let Some(card) = cards.iter().find(|card| card.mix == name) else {
        let why = if state.doc().bench().mixer().is_none() {
            "There is no mixer yet: give the plaster that one batch makes, in the stores."
        } else {
            "No coat on a wall is made of it, or something refused keeps it from being told."
        };
        return vec![Said::Head(name.clone()), Said::words(why)];
    };
    full(state, card)
}

fn full(state: &State, card: &Card<'_>) -> Vec<Said> {
    let (units, signs) = (state.units(), state.looks().signs);
    let mut said = vec![
        Said::Head(eco_format!(
            "{}: one batch makes {}",
            card.mix,
            print::volume(card.makes, units)
        )),
        Said::Gap,
    ];
    for load in &card.loads {
        let (digits, measure, more) = counted(load, units, signs);
        said.push(Said::Count {
            digits,
            of: eco_format!("{measure} {}", load.material),
            more,
        });
    }
    if let Some(water) = &card.water {
        let (digits, measure) = at_once(water, units, signs);
        said.push(Said::Count {
            digits,
            of: eco_format!("{measure} water at once").trim_start().into(),
            more: held_back(water, units),
        });
    }
    said.push(Said::Gap);
    said.extend(card.coats.iter().map(|coat| batches(coat, units)));
    said.push(Said::Rest);
    said.push(Said::Gap);
    for coat in &card.coats {
        last(coat, units, signs, &mut said);
    }
    said
}

fn buckets(quarters: u64) -> &'static str {
    if (1..=4).contains(&quarters) {
        "bucket"
    } else {
        "buckets"
    }
}

fn plural(count: u64, word: &str) -> EcoString {
    let s = if count == 1 { "" } else { "s" };
    eco_format!("{word}{s}")
}

/// How a load is counted: the count, its measure, and what else may be said.
fn counted(load: &Load<'_>, units: UnitSystem, signs: bool) -> (EcoString, EcoString, EcoString) {
    let loose = load.quantity.loose.map(|v| print::volume(v, units));
    let mass = load.quantity.mass.map(|m| print::mass(m, units));
    let mut more: Vec<EcoString> = Vec::new();
    let is_binder = load.kind == MaterialKind::Binder;
    let by_bucket = load
        .counted
        .bucket_quarters
        .filter(|of| *of > 0 && !is_binder);
    let cups = load.cup_quarters.filter(|of| *of > 0);
    let shovels = load
        .counted
        .shovels
        .filter(|of| *of > 0 && load.kind.is_mineral());
    let (digits, measure) = if let Some(of) = by_bucket {
        (quarters(of, signs), buckets(of).into())
    } else if let Some(of) = cups {
        let one = (1..=4).contains(&of);
        (
            quarters(of, signs),
            if one { "cup".into() } else { "cups".into() },
        )
    } else if let Some(of) = load.handfuls.filter(|of| *of > 0) {
        (eco_format!("{of}"), plural(of, "handful"))
    } else if let Some(of) = shovels {
        (eco_format!("{of}"), plural(of, "shovel"))
    } else {
        let figure = mass.clone().or_else(|| loose.clone());
        figure.map_or_else(
            || ("?".into(), EcoString::new()),
            |figure| (figure.digits.into(), figure.unit.into()),
        )
    };
    let counts_in = |word: &str| measure.starts_with(word);
    if let Some(of) = shovels.filter(|_| !counts_in("shovel")) {
        more.push(eco_format!("or {of} {}", plural(of, "shovel")));
    }
    if let Some(of) = load.handfuls.filter(|of| *of > 0 && !counts_in("handful")) {
        more.push(eco_format!("or {of} {}", plural(of, "handful")));
    }
    more.extend(loose.map(|figure| eco_format!("{figure}")));
    more.extend(mass.map(|figure| eco_format!("{figure}")));
    (digits, measure, more.join(", ").into())
}

/// Water that goes in at once, and its measure.
fn at_once(water: &Water, units: UnitSystem, signs: bool) -> (EcoString, &'static str) {
    let poured = || (poured(water.to_add - water.held_back, units), "");
    let counted = water.first_counted.bucket_quarters;
    counted.map_or_else(poured, |of| (quarters(of, signs), buckets(of)))
}

/// Water in what it is measured in.
fn poured(of: Volume, units: UnitSystem) -> EcoString {
    let (value, unit) = match units {
        UnitSystem::Us => (of.get::<gallon>(), "gal"),
        UnitSystem::Metric => (of.get::<liter>(), "L"),
    };
    eco_format!("{} {unit}", fixed(value, 1, units.grouping()))
}

fn held_back(water: &Water, units: UnitSystem) -> EcoString {
    let usual = if water.is_said {
        ""
    } else {
        " (the usual fifth)"
    };
    eco_format!(
        "{}; hold back {}{usual} until it has turned",
        poured(water.to_add - water.held_back, units),
        poured(water.held_back, units)
    )
}

/// How many batches a coat takes.
fn batches(coat: &CoatBatches<'_>, units: UnitSystem) -> Said {
    let days = coat.days.map_or_else(EcoString::new, |days| {
        eco_format!(", {days} {}", plural(days, "day"))
    });
    let word = if coat.batches == 1 {
        "batch"
    } else {
        "batches"
    };
    let count = print::count(coat.batches, units);
    Said::Pair(name(coat), eco_format!("{count} {word}{days}"))
}

fn name(coat: &CoatBatches<'_>) -> EcoString {
    eco_format!("{} of {}", coat.coat.coat, coat.build_up)
}

/// What the last batch of a coat takes, when it is not full.
fn last(coat: &CoatBatches<'_>, units: UnitSystem, signs: bool, said: &mut Vec<Said>) {
    if coat.last_loads.is_empty() && coat.last_water.is_none() {
        return;
    }
    let loads = coat.last_loads.iter().map(|load| {
        let (digits, measure, _) = counted(load, units, signs);
        eco_format!("{digits} {measure} {}", load.material)
    });
    let mut each: Vec<EcoString> = loads.collect();
    if let Some(water) = &coat.last_water {
        let (digits, measure) = at_once(water, units, signs);
        let words = eco_format!("{digits} {measure}");
        each.push(eco_format!("{} water", words.trim_end()));
    }
    said.push(Said::Head(eco_format!(
        "the last of {} is {} of one",
        name(coat),
        percent(coat.last)
    )));
    said.push(Said::under(each.join(", ")));
}
