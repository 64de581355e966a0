//! What is said of a soil: its shares within bounds, what it is called, its tests, when to mark the jar, and
//! what the hand suggests. Not here: the figures (see `hodful_takeoff::soil`).

use super::{Said, dust, percent};
use crate::State;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, fixed};
use hodful_soils::fractions::Fractions;
use hodful_takeoff::soil::{self, SoilFigures, Way};

pub(super) fn said(state: &State, at: usize) -> Vec<Said> {
    let project = state.preview();
    let Some((name, material)) = project.materials.get_index(at) else {
        return Vec::new();
    };
    let tests = state.soil_tests(at);
    let soil = material.soil.as_deref();
    let mut said = Vec::new();
    match tests.split_first() {
        None => {
            said.push(Said::Head(eco_format!("{name}: not tested yet")));
            let key = state.keymap().first(crate::command::Id::Add);
            said.push(Said::words(format_args!(
                "{key} takes a jar test: soil shaken up in water and left to settle, its three layers measured. Sieves, a report or the hand go into the fields beside it too."
            )));
        }
        Some(((way, Err(fault)), _)) => {
            said.push(Said::Head(eco_format!("{name}: cannot be told")));
            said.push(Said::Bad(eco_format!("{}: {}", way.words(), fault.message)));
        }
        Some(((way, Ok(figures)), _)) => {
            let by = || eco_format!("by {}", way.words());
            let called = figures
                .class
                .map_or_else(by, |class| eco_format!("{class}"));
            said.push(Said::Head(eco_format!("{name}: {called}")));
            shares(figures, &mut said);
        }
    }
    said.extend(dust(state));
    for (way, test) in tests.iter().skip(1) {
        said.push(match test {
            Ok(figures) => Said::pair(way.words(), {
                let clay = figures.shares.clay();
                eco_format!("clay {}", within(clay.best(), clay.least(), clay.most()))
            }),
            Err(fault) => Said::Bad(eco_format!("{}: {}", way.words(), fault.message)),
        });
    }
    if let Some(marks) = soil.and_then(soil::marks) {
        let sand = print::time(marks.sand);
        let silt = print::time(marks.silt);
        said.push(Said::pair(
            "mark the jar",
            format_args!("top of the sand after {sand}, of the silt after {silt}"),
        ));
    }
    if let Some(hand) = soil.and_then(|soil| soil.hand.as_ref()) {
        said.push(Said::Gap);
        said.push(Said::Head("by hand".into()));
        for (test, _, suggests) in soil::hand(hand) {
            match suggests {
                Ok(of) => {
                    let clay = of.clay.map_or_else(EcoString::new, |(from, to)| {
                        eco_format!("; clay {} to {}", bare(from), percent(to))
                    });
                    said.push(Said::pair(test, format_args!("{}{clay}", of.words)));
                    said.push(Said::words(format_args!("[{}]", of.source)));
                }
                Err(fault) => said.push(Said::Bad(eco_format!("{test}: {fault}"))),
            }
        }
    }
    for (way, test) in tests {
        let jar = test.as_ref().ok().and_then(|figures| figures.jar.as_ref());
        if let (Way::Jar, Some(reading)) = (way, jar) {
            said.push(Said::Gap);
            said.push(Said::Head("of the jar".into()));
            for note in &reading.notes {
                said.push(Said::words(note));
            }
        }
    }
    if let Some(note) = soil.and_then(|soil| soil.note.as_ref()) {
        said.push(Said::Gap);
        said.push(Said::words(note));
    }
    said
}

/// Shares, the clay first, and what else it may be called.
fn shares(figures: &SoilFigures, said: &mut Vec<Said>) {
    let of = &figures.shares;
    let all = [
        ("clay", of.clay()),
        ("silt", of.silt()),
        ("sand", of.sand()),
        ("gravel", of.gravel()),
    ];
    for (name, known) in all {
        let nothing = name == "gravel" && known.most() <= 0.0;
        if !nothing {
            said.push(Said::pair(
                name,
                within(known.best(), known.least(), known.most()),
            ));
        }
    }
    let tested = of.best().map(|best| grains(&best));
    let used = figures.used.fractions.map(|used| grains(&used));
    if let Some(used) = used.filter(|used| tested.as_ref() != Some(used)) {
        said.push(Said::Pair("past the screen".into(), used));
    }
    let others = figures.classes.iter();
    let others = others.filter(|class| Some(**class) != figures.class);
    let others: Vec<&str> = others.map(|class| class.name()).collect();
    if !others.is_empty() {
        let also = if figures.class.is_some() {
            "may be too"
        } else {
            "may be"
        };
        said.push(Said::pair(also, others.join(", ")));
    }
    said.push(Said::pair(
        "known by",
        format_args!("{}, {} sizes", figures.way.words(), of.system()),
    ));
}

/// Shares to a tenth of a percent, the clay first: `clay 26.7 %, silt 40.0 %, sand 33.3 %`.
fn grains(of: &Fractions) -> EcoString {
    let gravel = Some(("gravel", of.gravel())).filter(|(_, share)| *share > 0.0);
    let all = [
        ("clay", of.clay()),
        ("silt", of.silt()),
        ("sand", of.sand()),
    ];
    let each = all.into_iter().chain(gravel).map(|(name, share)| {
        let digits = fixed(share * 100.0, 1, print::Grouping::Space);
        eco_format!("{name} {digits} %")
    });
    each.collect::<Vec<_>>().join(", ").into()
}

/// A share within its bounds: `24 %, 18 to 31 %`.
fn within(best: Option<f64>, least: f64, most: f64) -> EcoString {
    let (least, most) = (bare(least), percent(most));
    match best.map(percent) {
        Some(best) if best == most && eco_format!("{least} %") == most => best,
        Some(best) => eco_format!("{best}, {least} to {most}"),
        None => eco_format!("{least} to {most}"),
    }
}

/// A percentage without its sign, before one that has it.
fn bare(share: f64) -> EcoString {
    percent(share).trim_end_matches(" %").into()
}
