//! What the walls took so far and what the rest takes. Not here: forecasting, and its sentences.

use super::paragraph;
use super::table::Table;
use super::units::{Column, plaster, unit};
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::Volume;
use hodful_takeoff::Project;
use hodful_takeoff::forecast::said::{counts_for, enough_head};
use hodful_takeoff::forecast::{CoatForecast, Forecast, MaterialForecast};
use hodful_takeoff::project::{MaterialKind, Name};

/// What stands where a figure cannot be told.
const UNKNOWN: &str = "–";

/// The forecast of a project.
pub(crate) fn forecast(project: &Project, of: &Forecast, units: UnitSystem) -> String {
    let mut out = paragraph("", &project.name);
    out.push('\n');
    let learned = of.learned.iter().filter(|one| !one.seen.is_empty());
    for one in learned {
        out.push_str(&paragraph("", &one.said(units)));
    }
    if of.has_records() {
        out.push('\n');
    }
    out.push_str("COATS\n");
    out.push_str(&coats(of, units));
    out.push_str(&paragraph(
        "",
        "Worked out is mixed plaster for all faces, done is what of it was worked out for those recorded, took what they took.",
    ));
    out.push_str("\nMATERIALS\n");
    out.push_str(&materials(of, project, units));
    for one in &of.materials {
        let moved = one.moved(of, project, units);
        let beyond = one.beyond_said(project, units);
        for words in moved.into_iter().chain(beyond) {
            out.push_str(&paragraph("", &words));
        }
    }
    out.push_str("\nWHERE IT COMES FROM\n");
    for note in of.notes(units) {
        out.push_str(&paragraph("", &note));
    }
    out
}

fn coats(of: &Forecast, units: UnitSystem) -> String {
    let cubic = unit(Column::Plaster, units);
    let heads = [
        ("Coat", ""),
        ("Worked out", cubic),
        ("Done", cubic),
        ("Took", cubic),
        ("Rest", "times"),
        ("Records", "weigh"),
        ("The rest", cubic),
        ("Batches", ""),
    ];
    let mut table = Table::new(&[0], heads.map(|(head, unit)| format!("{head}\n{unit}")));
    let share = |value: f64| print::fixed(value, 2, units.grouping());
    for coat in &of.coats {
        table.row([
            format!("{}, {}", coat.build_up, coat.coat),
            plaster(coat.whole, units),
            plaster(coat.recorded, units),
            plaster(coat.took, units),
            share(coat.factor),
            counts_for(coat.weight, units).into(),
            plaster(coat.forecast_rest, units),
            coat.batches
                .map_or_else(|| UNKNOWN.to_owned(), |batches| batches.loads.to_string()),
        ]);
    }
    let sum = |pick: fn(&CoatForecast) -> Volume| plaster(of.coats.iter().map(pick).sum(), units);
    table.totals([
        "All".to_owned(),
        sum(|coat| coat.whole),
        sum(|coat| coat.recorded),
        sum(|coat| coat.took),
        String::new(),
        String::new(),
        sum(|coat| coat.forecast_rest),
        of.batches()
            .map_or_else(|| UNKNOWN.to_owned(), |batches| batches.to_string()),
    ]);
    table.print()
}

fn materials(of: &Forecast, project: &Project, units: UnitSystem) -> String {
    // How sure a whole order is, the chances say; what is enough for a rest stands in the place of what was worked out,
    // which is told below where it is another.
    let last = if of.has_records() {
        let words = enough_head().replace("enough ", "Enough\n");
        words.replace(" times", "")
    } else {
        "As\nworked out".into()
    };
    let heads = [
        "Material",
        "Used",
        "In the yard",
        "The rest takes",
        "Still to order",
        &last,
    ];
    let mut table = Table::new(&[0, 4, 5], heads);
    for one in &of.materials {
        table.row(row(one, project, units));
    }
    table.print()
}

fn row(of: &MaterialForecast, project: &Project, units: UnitSystem) -> [String; 6] {
    let kind = project.materials.get(&of.material).map(|of| of.kind);
    let is_mineral = kind.is_some_and(MaterialKind::is_mineral);
    let amount = |quantity: &Quantity| {
        let heap = quantity.loose.filter(|_| is_mineral);
        let heap = heap.map(|volume| print::bulk_volume(volume, units));
        let shown = heap.or_else(|| quantity.mass.map(|mass| print::mass(mass, units)));
        shown.map_or_else(|| UNKNOWN.to_owned(), |shown| shown.to_string())
    };
    let needed = &of.forecast;
    if kind == Some(MaterialKind::Water) {
        let nothing = String::new;
        return [
            of.material.to_string(),
            amount(&needed.used),
            nothing(),
            amount(&needed.rest),
            nothing(),
            nothing(),
        ];
    }
    let packages =
        |words: Option<Name>| words.map_or_else(|| UNKNOWN.to_owned(), |words| words.to_string());
    [
        of.material.to_string(),
        amount(&needed.used),
        amount(&needed.yard),
        amount(&needed.rest),
        packages(needed.packages(project, &of.material)),
        packages(
            of.enough
                .as_ref()
                .unwrap_or(&of.worked_out)
                .packages(project, &of.material),
        ),
    ]
}
