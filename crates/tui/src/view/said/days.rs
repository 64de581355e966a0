//! What is said of the days: of the work as a whole, of a day, of a coat on a face. Not here: planning them, and the
//! sentences that papers have too (see `hodful_takeoff::days::said`).

mod helpers;
mod on_site;

use super::Said;
use crate::State;
use crate::command::Id;
use crate::state::{DayRow, OnSite, freezes};
use ecow::{EcoString, eco_format};
use hodful_quantities::print;
use hodful_quantities::units::{Area, length_of_mm, square_meter};
use hodful_takeoff::air::Origin;
use hodful_takeoff::days::{DayTask, Days, HASTE_BY, Until, said as words};
use jiff::civil::{Date, DateTime};
use std::iter::zip;

pub(super) fn said(state: &State) -> Vec<Said> {
    let mut said = Vec::new();
    let begins = state.project().work.as_ref();
    let has_begin = begins.is_some_and(|work| work.begins.is_some());
    let Some(on_site) = state.on_site() else {
        said.push(Said::words("The days are being planned."));
        return said;
    };
    if !state.is_on_site() {
        said.push(Said::Bad(
            "This is of before the last change; it is being worked out anew.".into(),
        ));
    }
    if let Some(fault) = &on_site.fault {
        match state.day_row() {
            DayRow::Work => {
                said.push(Said::Bad(fault.clone()));
                said.push(Said::words(
                    "Until it can be read, drying is told by rules of thumb, and nothing of frost.",
                ));
                said.push(Said::Gap);
            }
            _ => said.push(Said::words(
                "The weather that is named cannot be read: see the first row.",
            )),
        }
    }
    match &on_site.days {
        Err(_) if !has_begin => no_begin(state, &mut said),
        Err(why) => not_planned(state, why, &mut said),
        Ok(days) => match state.day_row() {
            DayRow::Work => work(state, on_site, days, &mut said),
            DayRow::Day(date) => day(state, days, date, &mut said),
            DayRow::Task(at, _) | DayRow::Unplanned(at) if at < days.tasks.len() => {
                task(state, days, at, &mut said);
            }
            DayRow::Task(at, _) | DayRow::Unplanned(at) => prepared(state, days, at, &mut said),
            DayRow::Room(at) => on_site::room(state, days, at, &mut said),
            DayRow::Preparation(at) => prepared(state, days, days.tasks.len() + at, &mut said),
            DayRow::Helpers => helpers::weekend(state, on_site, &mut said),
            DayRow::Dried(_) => on_site::learned(days, &mut said),
        },
    }
    // Without a plan there is nothing else that would tell of it.
    if on_site.days.is_err() {
        weather(state, on_site, None, &mut said);
    }
    said
}

/// What to type where the first day is missing.
fn no_begin(state: &State, said: &mut Vec<Said>) {
    let key = |id| state.keymap().first(id);
    said.push(Said::Head("The work has no first day yet".into()));
    said.push(Said::Words(eco_format!(
        "Press {} and type the day at 'begins', such as 2026-04-13. The plan follows from it. Hours, people and the minutes of a batch stand below it; what is not typed is taken as usual, and told.",
        key(Id::NextPart)
    )));
    said.push(Said::Words(eco_format!(
        "What one person places in an hour stands with each coat ({}, below its thickness), where a wall looks to with its outside face ({}).",
        key(Id::Coats),
        key(Id::Walls)
    )));
}

fn not_planned(state: &State, why: &EcoString, said: &mut Vec<Said>) {
    said.push(Said::Bad(eco_format!("The days cannot be planned: {why}.")));
    let problems = state.doc().problems();
    if problems
        .iter()
        .any(|of| of.severity == hodful_takeoff::Severity::Refused)
    {
        said.push(Said::Words(eco_format!(
            "{} goes to what is refused.",
            state.keymap().first(Id::NextProblem)
        )));
    }
}

/// The work as a whole.
fn work(state: &State, on_site: &OnSite, days: &Days, said: &mut Vec<Said>) {
    let units = state.units();
    said.extend(days.end().map(Said::Words));
    said.extend(days.left_out().into_iter().map(Said::Bad));
    said.extend(days.notices(units).into_iter().map(Said::Words));
    said.push(Said::Gap);
    said.push(Said::Head("Weather".into()));
    weather(state, on_site, Some(days), said);
    said.push(Said::Gap);
    said.push(Said::Head("What holds the work up".into()));
    said.extend(days.limits().into_iter().map(Said::Under));
    said.push(Said::Gap);
    said.push(Said::Head("Nights that may freeze a wet coat".into()));
    nights(days, units, said);
    said.push(Said::Gap);
    on_site::on_wall(days, units, said);
    said.push(Said::Head("What holds the end".into()));
    said.extend(days.held().into_iter().map(Said::Under));
    said.push(Said::Gap);
    said.push(Said::Head("What was taken for what is not said".into()));
    let notes = days.notes.iter().cloned().chain(days.cares());
    said.extend(notes.map(Said::Words));
    let of = days.cautioned();
    cautions(state, |key| of.contains_key(key), said);
}

/// The nights in which a coat may freeze, with what is wet then.
fn nights(days: &Days, units: print::UnitSystem, said: &mut Vec<Said>) {
    if days.weather.is_none() {
        said.push(Said::words("Without weather nothing is told of frost."));
        return;
    }
    let all = days.nights();
    if all.is_empty() {
        said.push(Said::Words(days.no_frost()));
    }
    for night in all {
        let evening = words::day(night.worst.night.evening);
        said.push(Said::Words(eco_format!("{evening}, {}", night.said(units))));
        said.extend(night.wet().into_iter().map(Said::Under));
    }
    said.extend(days.listed_until().map(Said::Words));
}

/// Where the weather is from, or what to do where none is named.
fn weather(state: &State, on_site: &OnSite, days: Option<&Days>, said: &mut Vec<Said>) {
    let named = state.project().work.as_ref();
    let named = named.and_then(|work| work.weather.as_ref());
    match days.and_then(|days| days.weather.as_ref()) {
        Some(told) => said.push(Said::words(format_args!(
            "{told}. {}",
            words::STANDARD_TIME
        ))),
        None if named.is_none() => {
            said.push(Said::Words(eco_format!(
                "No weather is named. Put a file of weather beside the project, press {} on the first row of the list, and type its name at 'weather file': then drying is told by it, and which nights may freeze.",
                state.keymap().first(Id::NextPart)
            )));
        }
        None if on_site.fault.is_some() => said.push(Said::words("It cannot be read.")),
        None if days.is_some() => said.push(Said::words(
            "It says nothing of these days: see what was taken for what is not said.",
        )),
        // Nothing is planned, of which it could say something.
        None => {}
    }
    said.extend(on_site.notes.iter().cloned().map(Said::Words));
}

/// A day: who is there, what is mixed, what its night brings.
fn day(state: &State, days: &Days, date: Date, said: &mut Vec<Said>) {
    said.push(Said::Head(words::day(date)));
    let units = state.units();
    let own = days.plan.days.iter().find(|day| day.date == date);
    match own {
        Some(own) => {
            let hours = |hours: f64| print::fixed(hours, 1, units.grouping());
            said.push(Said::pair(
                "at work",
                format_args!("{} hours of people", hours(own.worked)),
            ));
            if own.idle > 0.0 {
                said.push(Said::pair(
                    "free",
                    format_args!("{} hours", hours(own.idle)),
                ));
            }
            for mix in &own.mixes {
                let Some(coat) = days.site.coats.get(mix.coat) else {
                    continue;
                };
                let batches = match mix.batches {
                    0 => EcoString::new(),
                    1 => ", 1 batch".into(),
                    many => eco_format!(", {many} batches"),
                };
                let mixed = hodful_quantities::units::Volume::new::<hodful_quantities::units::liter>(
                    mix.litres,
                );
                said.push(Said::pair(
                    &coat.name,
                    format_args!("{} mixed{batches}", print::volume(mixed, units)),
                ));
            }
        }
        None => said.push(Said::words("Nobody works at the coats on this day.")),
    }
    let nights = days.nights();
    let night = nights
        .iter()
        .find(|night| night.worst.night.evening == date);
    if let Some(night) = night {
        said.push(Said::Gap);
        said.push(Said::Head("Its night".into()));
        said.push(Said::Words(night.said(units)));
        said.extend(night.wet().into_iter().map(Said::Under));
    }
    if let Some(rain) = days.rain().into_iter().find(|rain| rain.most.date == date) {
        said.push(Said::Gap);
        said.push(Said::Head("Rain on wet coats".into()));
        said.push(Said::Words(rain.said(units)));
        said.extend(rain.wet().into_iter().map(Said::Under));
        said.push(Said::words(words::RAIN));
    }
    let fast = |of: &DayTask| -> Vec<Said> {
        let own = of.hasty.iter().filter(|hasty| hasty.from.date() == date);
        let each =
            own.map(|hasty| Said::Under(eco_format!("{}: {}", of.said(), hasty.said(units))));
        each.collect()
    };
    let fast: Vec<Said> = days.tasks.iter().flat_map(fast).collect();
    if !fast.is_empty() {
        said.push(Said::Gap);
        said.push(Said::Head("Dries too fast".into()));
        said.extend(fast);
    }
    let tasks = own.map_or(&[][..], |day| &day.tasks);
    let called = |key: &str| tasks.iter().any(|task| calls(days, *task, key));
    cautions(state, called, said);
}

/// Whether something that is done, by its position, calls for a caution.
fn calls(days: &Days, task: usize, key: &str) -> bool {
    match days.tasks.get(task) {
        Some(of) => of.cautions.contains(&key),
        None => days.cautions_of_prepared(task).contains(&key),
    }
}

/// Something that is prepared.
fn prepared(state: &State, days: &Days, at: usize, said: &mut Vec<Said>) {
    said.push(Said::Head(days.name(at)));
    for stretch in days.stretches(at) {
        said.push(Said::pair("done", stretch.said()));
    }
    said.push(Said::words(
        "It comes before the first coat of every face that has none yet.",
    ));
    cautions(state, |key| calls(days, at, key), said);
}

/// A coat on a face.
fn task(state: &State, days: &Days, at: usize, said: &mut Vec<Said>) {
    let (Some(of), units) = (days.tasks.get(at), state.units()) else {
        return;
    };
    said.push(Said::Head(of.said()));
    for (unplanned, words) in zip(&days.plan.unplanned, days.left_out()) {
        if unplanned.task == at {
            said.push(Said::Bad(words));
        }
    }
    for stretch in days.stretches(at) {
        let area = print::area(Area::new::<square_meter>(stretch.m2), units);
        let hands = match stretch.hands {
            1 => EcoString::from("1 person"),
            hands => eco_format!("{hands} people"),
        };
        said.push(Said::pair(
            "put on",
            format_args!("{}: {area}, {hands}", stretch.said()),
        ));
    }
    let thickness = print::thickness(length_of_mm(of.thickness_mm), units);
    said.push(Said::pair(
        "mean thickness",
        format_args!("{thickness}, of {}", of.mix),
    ));
    let planned = days.plan.tasks.get(at).and_then(Option::as_ref);
    if let Some(planned) = planned {
        said.push(Said::pair("pace", planned.limit.words()));
    }
    if let Some(open) = of.open {
        said.push(Said::pair("stays workable", open.said(units)));
    }
    if let Some(room) = &of.room {
        said.push(Said::pair("dries into", room));
    }
    let notices = days.notices_of(at, units);
    said.extend(notices.into_iter().map(Said::Words));
    for (link, words) in zip(&days.plan.chain, days.held()) {
        if link.task == at {
            said.push(Said::Words(eco_format!("It holds the end: {words}.")));
        }
    }
    dry(days, at, of, said);
    frost_and_haste(state, days, at, of, said);
    cautions(state, |key| of.cautions.contains(&key), said);
}

/// When a coat is dry: three days, never one.
fn dry(days: &Days, at: usize, of: &DayTask, said: &mut Vec<Said>) {
    let Some(drying) = of.drying else { return };
    said.push(Said::Gap);
    said.push(Said::Head("Dry".into()));
    for (name, until) in [
        ("not before", drying.fast),
        ("likely", drying.likely),
        ("to reckon with", drying.slow),
    ] {
        let words = until.map_or_else(|| "cannot be told".into(), |of| told(&of));
        said.push(Said::Pair(name.into(), words));
    }
    said.extend(drying.by_rule.map(|why| Said::words(why.said())));
    let next = days.tasks.get(at + 1);
    let next = next.filter(|next| (&next.wall, next.side) == (&of.wall, of.side));
    let begin = days.plan.tasks.get(at + 1).and_then(Option::as_ref);
    if let (Some(next), Some(begin)) = (next, begin) {
        said.push(Said::pair(
            "then",
            format_args!("{} on {}", next.coat, moment(begin.begin)),
        ));
    }
    said.push(Said::words(
        "Estimates: look at it and feel it before the next coat.",
    ));
}

fn told(until: &Until) -> EcoString {
    let by = match until.from {
        Origin::Model => "",
        Origin::RuleOfThumb => ", by rule of thumb",
    };
    eco_format!("{}{by}", words::day(until.at.date()))
}

fn moment(at: DateTime) -> EcoString {
    eco_format!("{} at {}", words::day(at.date()), words::clock(at))
}

/// Nights that may freeze it, and hours in which it dries too fast to be worked.
fn frost_and_haste(state: &State, days: &Days, at: usize, of: &DayTask, said: &mut Vec<Said>) {
    if of.side == hodful_takeoff::Side::Inside && of.nights.is_empty() {
        return;
    }
    said.push(Said::Gap);
    said.push(Said::Head("Frost".into()));
    if days.weather.is_none() {
        said.push(Said::words("Without weather nothing is told of frost."));
        return;
    }
    let planned = days.plan.tasks.get(at).and_then(Option::as_ref);
    if let Some(planned) = planned.filter(|_| of.nights.is_empty()) {
        said.push(Said::Words(days.no_frost_until_dry(planned.begin)));
    }
    for night in &of.nights {
        let wet = if night.likely_wet {
            "likely still wet"
        } else {
            "wet if it dries slowly"
        };
        let said_of = eco_format!(
            "{}, {}: {}; {wet}",
            words::day(night.night.evening),
            night.verdict(),
            night.said(state.units())
        );
        said.push(if freezes(night) {
            Said::Bad(said_of)
        } else {
            Said::Under(said_of)
        });
    }
    let rain: Vec<_> = days
        .rain()
        .into_iter()
        .filter(|rain| rain.likely.contains(&of) || rain.slow.contains(&of))
        .collect();
    if !rain.is_empty() {
        said.push(Said::Gap);
        said.push(Said::Head("Rain on it while wet".into()));
        for rain in rain {
            let day = words::day(rain.most.date);
            said.push(Said::Pair(day, rain.said(state.units())));
        }
        said.push(Said::words(words::RAIN));
    }
    if !of.hasty.is_empty() {
        said.push(Said::Gap);
        said.push(Said::Head("Dries too fast".into()));
        let hasty = of.hasty.iter();
        said.extend(hasty.map(|hasty| Said::Under(hasty.said(state.units()))));
        said.push(Said::words(HASTE_BY));
    }
}

/// The cautions that are called for, the heart of each.
fn cautions(state: &State, called: impl Fn(&str) -> bool, said: &mut Vec<Said>) {
    let of: Vec<Said> = state
        .cautions
        .iter()
        .filter(|caution| called(&caution.key))
        .map(|caution| Said::Under(eco_format!("{}: {}", caution.title, caution.brief)))
        .collect();
    if !of.is_empty() {
        said.push(Said::Gap);
        said.push(Said::Head("Take care".into()));
        said.extend(of);
    }
}
