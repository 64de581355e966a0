//! The card beside the mixer: what one batch takes, counted, in the order in which it goes in. Not here:
//! working it out, and the words of a count (see `hodful_takeoff::card`).

use super::{Said, dust, percent, written};
use crate::State;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem};
use hodful_takeoff::card::said::{self as counted, Quarters, plural};
use hodful_takeoff::card::{Card, CoatBatches};

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
    let (units, written) = (state.units(), written(state));
    let mut said = vec![Said::Head(eco_format!(
        "{}: one batch makes {}",
        card.mix,
        print::volume(card.makes, units)
    ))];
    said.extend(dust(state));
    said.push(Said::Gap);
    for load in &card.loads {
        let said_of = load.said(units, written);
        said.push(count(said_of, load.material));
    }
    if let Some(water) = &card.water {
        said.push(count(water.said(units, written), "water at once"));
    }
    said.push(Said::Gap);
    said.extend(card.coats.iter().map(|coat| batches(coat, units)));
    said.push(Said::Rest);
    said.push(Said::Gap);
    for coat in card.coats.iter().filter(|coat| coat.has_part()) {
        last(coat, units, written, &mut said);
    }
    said
}

fn count(of: counted::Said, what: &str) -> Said {
    Said::Count {
        digits: of.count,
        of: eco_format!("{} {what}", of.measure).trim_start().into(),
        more: of.also,
    }
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
fn last(coat: &CoatBatches<'_>, units: UnitSystem, written: Quarters, said: &mut Vec<Said>) {
    let joined = |of: &counted::Said, what: &str| -> EcoString {
        let words = [of.count.as_str(), of.measure.as_str(), what];
        let words = words.into_iter().filter(|word| !word.is_empty());
        words.collect::<Vec<_>>().join(" ").into()
    };
    said.push(Said::Head(eco_format!(
        "the last of {} is {} of one",
        name(coat),
        percent(coat.last)
    )));
    let loads = coat.last_loads.iter();
    let loads = loads.map(|load| joined(&load.said(units, written), load.material));
    said.push(Said::under(loads.collect::<Vec<_>>().join(", ")));
    if let Some(water) = &coat.last_water {
        let of = water.said(units, written);
        said.push(Said::under(format_args!(
            "{}: {}",
            joined(&of, "water at once"),
            of.also
        )));
    }
}
