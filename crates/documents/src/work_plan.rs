//! The days on site: who does what when, when it is dry, which nights may freeze it, and where all of it comes from.
//! Not here: planning, and its sentences (see `hodful_takeoff::days`).

mod on_site;
mod weekend;

pub use weekend::weekend;

use crate::cells::{area, body, figures, number, or_unknown, text, unit_of_area, words};
use crate::words::{doubts, no_figures};
use crate::{Block, Document, Facts, Paper, Picture, Table};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::days::{ByRule, DayTask, Days, HASTE_BY, LearnedDrying, WeekendAhead, said};
use hodful_takeoff::{Caution, drawing};
use std::iter::zip;

/// The work plan: its end, the days as a table and as bars, what holds it up, when each coat is dry, nights and
/// hours to be on guard in, and where all of it comes from.
///
/// While something is refused, that stands in place of the days; so does the reason when nothing can be planned.
pub fn work_plan(facts: &Facts<'_>, of: &Result<Days, EcoString>) -> Document {
    let told = of.as_ref();
    let told = told.map(|of| days(of, facts.cautions, facts.units()));
    paper(facts, "Work plan", told)
}

fn paper(facts: &Facts<'_>, title: &str, told: Result<Vec<Block>, &EcoString>) -> Document {
    let mut blocks = Vec::new();
    match told {
        _ if facts.assessed.is_none() => {
            blocks.push(Block::Heading("What is refused".into()));
            blocks.extend(no_figures(facts));
        }
        Err(why) => blocks.push(Block::Words(eco_format!("It cannot be planned: {why}."))),
        Ok(told) => {
            blocks.extend(doubts(facts));
            blocks.extend(told);
        }
    }
    Document {
        paper: Paper::WorkPlan,
        title: title.into(),
        about: facts.project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units: facts.units(),
    }
}

/// The plan of a few days with many hands.
pub fn weekend_plan(facts: &Facts<'_>, of: &WeekendAhead) -> Document {
    let told = weekend(of, facts.cautions, facts.units());
    paper(facts, "Days with helpers", Ok(told))
}

/// What is told of days, in order, for papers and for tables on a screen: the one place that says which.
///
/// Cautions are those of `all` that a task calls for.
pub fn days(of: &Days, all: &[Caution], units: UnitSystem) -> Vec<Block> {
    let mut blocks = Vec::new();
    let words = |each: Vec<EcoString>| each.into_iter().map(Block::Words);
    blocks.extend(of.end().map(Block::Words));
    blocks.extend(words(of.left_out()));
    if !of.plan.days.is_empty() {
        blocks.push(Block::Heading("Days".into()));
        blocks.push(Block::Table(by_day(of, units)));
    }
    blocks.extend(words(of.notices(units)));
    blocks.extend(pictures(of));
    for (heading, told) in [
        ("What holds the work up", of.limits()),
        ("What holds the end", held(of)),
    ] {
        if !told.is_empty() {
            blocks.push(Block::Heading(heading.into()));
            blocks.extend(words(told));
        }
    }
    if !of.tasks.is_empty() {
        blocks.push(Block::Heading("Drying".into()));
        blocks.push(Block::Table(drying(of)));
        blocks.push(Block::Words(ESTIMATES.into()));
    }
    blocks.extend(words(by_rule(of)));
    blocks.extend(words(of.learned.iter().map(LearnedDrying::said).collect()));
    blocks.extend(on_site::on_wall(of));
    blocks.extend(on_site::workable(of, units));
    blocks.extend(on_site::rooms(of, units));
    if of.weather.is_some() {
        blocks.push(Block::Heading("Nights at risk of frost".into()));
        blocks.push(nights(of, units));
        blocks.extend(of.listed_until().map(Block::Words));
        blocks.push(Block::Heading("Rain on wet coats".into()));
        blocks.extend(rain(of, units));
        blocks.push(Block::Heading("Drying too fast".into()));
        blocks.extend(hasty(of, units));
    }
    blocks.push(Block::Heading("Where it comes from".into()));
    let weather = of.weather.as_ref();
    let told = |weather| Block::Words(eco_format!("Weather: {weather}. {}", said::STANDARD_TIME));
    blocks.extend(weather.map(told));
    blocks.extend(words(of.notes.clone()));
    blocks.extend(words(of.cares()));
    blocks.push(cautions(of, all));
    blocks
}

/// What stands under the dates of drying.
const ESTIMATES: &str = "Dry not before the first day, likely on the second, to reckon with on the third: estimates. Look and feel before the next coat.";

/// The caution that stands over all others, by its key.
const LOCAL_CODES: &str = "codes-first";

fn by_day(of: &Days, units: UnitSystem) -> Table {
    let columns = vec![
        words("Day", 1.3),
        words("What", 2.4),
        words("Hours", 1.1),
        figures("Hands", "", 0.6),
        figures("Surface", unit_of_area(units), 0.8),
        figures("Batches", "", 0.8),
    ];
    let batch = of.site.mixing.map(|mixing| mixing.litres_per_batch);
    let mut rows = Vec::new();
    for day in &of.plan.days {
        let mut name = said::day(day.date);
        for &task in &day.tasks {
            let is_coat = task < of.tasks.len();
            let parts = of.stretches(task).into_iter();
            for part in parts.filter(|part| part.begin.date() == day.date) {
                rows.push(body(vec![
                    text(std::mem::take(&mut name)),
                    text(of.name(task)),
                    text(eco_format!(
                        "{}–{}",
                        said::clock(part.begin),
                        said::clock(part.end)
                    )),
                    people(part.hands, units),
                    or_unknown(is_coat.then_some(part.m2 * 1e6), |of| area(of, units)),
                    or_unknown(batch.filter(|_| is_coat), |batch| {
                        number(part.litres / batch, 1, units)
                    }),
                ]));
            }
        }
    }
    Table { columns, rows }
}

fn people(hands: usize, units: UnitSystem) -> crate::Cell {
    crate::cells::count(u64::try_from(hands).unwrap_or(u64::MAX), units)
}

/// The days as bars, as many drawings as there are pages of them.
fn pictures(of: &Days) -> Vec<Block> {
    let sheets = drawing::day_sheets(of);
    let all = sheets.len();
    let each = zip(1.., sheets).map(|(number, drawing)| {
        Block::Picture(Picture {
            drawing,
            caption: if all > 1 {
                eco_format!("The days as bars, {number} of {all}")
            } else {
                "The days as bars".into()
            },
            to_scale: false,
            share: 1.0,
            is_tall: true,
        })
    });
    each.collect()
}

/// Most steps that are told of what holds the end: ours.
const MOST_HELD: usize = 20;

/// What holds the end: the last steps, which are nearest to it.
fn held(of: &Days) -> Vec<EcoString> {
    let mut steps = of.held();
    let left_off = steps.len().saturating_sub(MOST_HELD);
    if left_off > 0 {
        let words =
            eco_format!("after {left_off} steps that are left off here and stand in the JSON:");
        steps.splice(..left_off, [words]);
    }
    steps
}

fn drying(of: &Days) -> Table {
    let columns = vec![
        words("Coat", 2.4),
        words("On the wall", 1.3),
        figures("Not before", "", 0.9),
        figures("Likely", "", 0.9),
        figures("To reckon with", "", 1.1),
    ];
    let planned = zip(&of.tasks, &of.plan.tasks)
        .filter_map(|(task, planned)| Some((task, planned.as_ref()?, task.drying?)));
    let rows = planned.map(|(task, planned, drying)| {
        let [fast, likely, mut slow] = drying.said(planned.end.date());
        if drying.by_rule.is_some() {
            slow.push('*');
        }
        let [fast, likely, slow] = [fast, likely, slow].map(text);
        let on_the_wall = text(said::day(planned.end.date()));
        body(vec![text(task.said()), on_the_wall, fast, likely, slow])
    });
    Table {
        columns,
        rows: rows.collect(),
    }
}

fn nights(of: &Days, units: UnitSystem) -> Block {
    let all = of.nights();
    if all.is_empty() {
        return Block::Words(of.no_frost());
    }
    let columns = vec![
        words("Evening", 1.2),
        words("Risk", 2.0),
        words("Wet then", 3.0),
    ];
    let rows = all.into_iter().map(|night| {
        body(vec![
            text(said::day(night.worst.night.evening)),
            text(night.said(units)),
            text(night.wet().join("\n")),
        ])
    });
    Block::Table(Table {
        columns,
        rows: rows.collect(),
    })
}

fn rain(of: &Days, units: UnitSystem) -> Vec<Block> {
    let all = of.rain();
    if all.is_empty() {
        return vec![Block::Words(of.no_rain())];
    }
    let columns = vec![
        words("Day", 1.2),
        words("Rain", 1.2),
        words("Wet and open then", 3.4),
    ];
    let rows = all.into_iter().map(|rain| {
        body(vec![
            text(said::day(rain.most.date)),
            text(rain.said(units)),
            text(rain.wet().join("\n")),
        ])
    });
    let rows = rows.collect();
    vec![
        Block::Table(Table { columns, rows }),
        Block::Words(said::RAIN.into()),
    ]
}

/// Why a rule of thumb stands in where it does, each reason once, with the mark that it has in the table.
fn by_rule(of: &Days) -> Vec<EcoString> {
    let mut told: Vec<ByRule> = Vec::new();
    let planned = of.tasks.iter().filter_map(|task| task.drying?.by_rule);
    for why in planned {
        if !told.contains(&why) {
            told.push(why);
        }
    }
    told.iter()
        .map(|why| eco_format!("* {}", why.said()))
        .collect()
}

fn hasty(of: &Days, units: UnitSystem) -> Vec<Block> {
    let told = |task: &DayTask| {
        let name = task.said();
        let each = task.hasty.iter();
        let each =
            each.map(move |hasty| Block::Words(eco_format!("{name}: {}", hasty.said(units))));
        each.collect::<Vec<_>>()
    };
    let blocks: Vec<Block> = of.tasks.iter().flat_map(told).collect();
    if blocks.is_empty() {
        return vec![Block::Words(of.no_haste())];
    }
    let by = Block::Words(HASTE_BY.into());
    blocks.into_iter().chain([by]).collect()
}

/// The cautions that the tasks call for, the heart of each with its source, and for what it is told.
fn cautions(of: &Days, all: &[Caution]) -> Block {
    let called = of.cautioned();
    let lines = all.iter().filter_map(|caution| {
        let told = called.get(&*caution.key).map(|told| of.told_for(told));
        let told = match told {
            Some(told) => eco_format!(" For {told}."),
            None if caution.key == LOCAL_CODES => EcoString::new(),
            None => return None,
        };
        Some(eco_format!("{}: {}{told}", caution.title, caution.brief))
    });
    Block::Cautions(lines.collect())
}
