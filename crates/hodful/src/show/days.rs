//! The days on site: who does what when, when it is dry, what may freeze. Not here: planning, and its sentences.

use super::paragraph;
use super::table::Table;
use super::units::{Column, area, unit};
use hodful_project_file as file;
use hodful_quantities::print::{self, UnitSystem};
use hodful_takeoff::Project;
use hodful_takeoff::days::{Days, said};
use std::collections::BTreeMap;

/// What stands where a figure cannot be told.
const UNKNOWN: &str = "–";

/// The days of a project.
pub(crate) fn days(project: &Project, of: &Days, units: UnitSystem) -> String {
    let mut out = paragraph("", &project.name);
    out.push('\n');
    for words in of.end().into_iter().chain(of.left_out()) {
        out.push_str(&paragraph("", &words));
    }
    out.push_str("\nDAYS\n");
    out.push_str(&by_day(of, units));
    for words in of.notices() {
        out.push_str(&paragraph("", &words));
    }
    out.push_str("\nWHAT HOLDS THE WORK UP\n");
    for words in limits(of) {
        out.push_str(&paragraph("  ", &words));
    }
    out.push_str("\nWHAT HOLDS THE END\n");
    for words in of.held() {
        out.push_str(&paragraph("  ", &words));
    }
    out.push_str("\nDRYING\n");
    out.push_str(&drying(of));
    out.push_str(&paragraph(
        "",
        "Dry not before the first day, likely on the second, to reckon with on the third: estimates. Look and feel before the next coat.",
    ));
    if of.weather.is_some() {
        out.push_str("\nNIGHTS\n");
        out.push_str(&nights(of, units));
        out.push_str("\nDRYING TOO FAST\n");
        out.push_str(&hasty(of));
    }
    out.push_str("\nWHERE IT COMES FROM\n");
    if let Some(weather) = &of.weather {
        out.push_str(&paragraph("", &format!("Weather: {weather}.")));
    }
    for words in of.notes.iter().cloned().chain(of.cares()) {
        out.push_str(&paragraph("", &words));
    }
    out.push_str("\nTAKE CARE\n");
    out.push_str(&cautions(of));
    out
}

fn by_day(of: &Days, units: UnitSystem) -> String {
    let square = unit(Column::Area, units);
    let heads = [
        ("Day", ""),
        ("What", ""),
        ("Hours", ""),
        ("Hands", ""),
        ("Surface", square),
        ("Batches", ""),
    ];
    let mut table = Table::new(
        &[0, 1, 2],
        heads.map(|(head, unit)| format!("{head}\n{unit}")),
    );
    let batch = of.site.mixing.map(|mixing| mixing.litres_per_batch);
    for day in &of.plan.days {
        let mut name = said::day(day.date).to_string();
        for &task in &day.tasks {
            let Some(own) = of.tasks.get(task) else {
                continue;
            };
            for part in of.stretches(task) {
                if part.begin.date() != day.date {
                    continue;
                }
                table.row([
                    std::mem::take(&mut name),
                    own.said().to_string(),
                    format!("{}–{}", said::clock(part.begin), said::clock(part.end)),
                    part.hands.to_string(),
                    area(part.m2 * 1e6, units).digits,
                    batch.map_or_else(
                        || UNKNOWN.to_owned(),
                        |batch| print::fixed(part.litres / batch, 1, units.grouping()),
                    ),
                ]);
            }
        }
    }
    table.print()
}

/// What holds tasks up, and how many.
fn limits(of: &Days) -> Vec<String> {
    let mut count: BTreeMap<&str, usize> = BTreeMap::new();
    for planned in of.plan.tasks.iter().flatten() {
        *count.entry(planned.limit.words()).or_default() += 1;
    }
    let all = of.plan.tasks.len();
    let each = count.into_iter();
    each.map(|(words, tasks)| format!("{words}: {tasks} of {all} coats on faces"))
        .collect()
}

fn drying(of: &Days) -> String {
    let mut table = Table::new(
        &[0, 1],
        [
            "Coat",
            "On the wall",
            "Not before",
            "Likely",
            "To reckon with",
        ],
    );
    for (task, planned) in std::iter::zip(&of.tasks, &of.plan.tasks) {
        let (Some(planned), Some(drying)) = (planned, task.drying) else {
            continue;
        };
        let [fast, likely, slow] = drying.said().map(|words| words.to_string());
        table.row([
            task.said().to_string(),
            said::day(planned.end.date()).to_string(),
            fast,
            likely,
            slow,
        ]);
    }
    table.print()
}

fn nights(of: &Days, units: UnitSystem) -> String {
    let mut all: BTreeMap<_, (Vec<String>, Vec<String>, _)> = BTreeMap::new();
    for task in &of.tasks {
        for night in &task.nights {
            let entry = all
                .entry(night.night.evening)
                .or_insert_with(|| (Vec::new(), Vec::new(), night));
            let names = if night.likely_wet {
                &mut entry.0
            } else {
                &mut entry.1
            };
            names.push(task.said().to_string());
        }
    }
    if all.is_empty() {
        return paragraph(
            "",
            "No night is at risk of frost while a coat outside is wet.",
        );
    }
    let mut out = String::new();
    for (evening, (wet, slow, night)) in all {
        out.push_str(&paragraph(
            "",
            &format!("{}: {}", said::day(evening), night.verdict()),
        ));
        out.push_str(&paragraph("    ", &night.said(units)));
        if !wet.is_empty() {
            out.push_str(&paragraph(
                "    ",
                &format!("still wet: {}", wet.join("; ")),
            ));
        }
        if !slow.is_empty() {
            let words = format!("wet if it dries slowly: {}", slow.join("; "));
            out.push_str(&paragraph("    ", &words));
        }
    }
    out
}

fn hasty(of: &Days) -> String {
    let mut out = String::new();
    for task in &of.tasks {
        for hasty in &task.hasty {
            let words = format!("{}: {}", task.said(), hasty.said());
            out.push_str(&paragraph("  ", &words));
        }
    }
    if out.is_empty() {
        out = paragraph(
            "",
            "No hour dries a fresh coat outside too fast to be worked.",
        );
    }
    out
}

/// The cautions that the tasks call for, the heart of each.
fn cautions(of: &Days) -> String {
    let mut out = String::new();
    let all = file::cautions();
    let called = |key: &str| of.tasks.iter().any(|task| task.cautions.contains(&key));
    for caution in all.iter().filter(|caution| called(&caution.key)) {
        let words = format!("{}: {}", caution.title, caution.brief);
        out.push_str(&paragraph("", &words));
    }
    out
}
