//! The forecast: what the walls took so far, what the rest takes, what is still to order. Not here:
//! forecasting, and its sentences.

use crate::cells::{
    body, count, figures, heap, mass, number, or_unknown, plaster, text, total, unit_of_heap,
    unit_of_mass, unit_of_plaster, unknown, words,
};
use crate::words::{cautions, doubts, no_figures};
use crate::{Block, Cell, Document, Facts, Paper, Row, Table};
use ecow::{EcoString, eco_format};
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Project;
use hodful_takeoff::forecast::said::{counts_for, enough_head};
use hodful_takeoff::forecast::{Forecast, MaterialForecast};
use hodful_takeoff::project::MaterialKind;

/// The forecast: what was learned of each coat, what is done and left of it, and what is still to order
/// beside what that would be without the records.
///
/// While something is refused, that stands in place of the figures.
pub fn forecast(facts: &Facts<'_>, of: &Result<Forecast, EcoString>) -> Document {
    let units = facts.units();
    let project = facts.project;
    let mut blocks = Vec::new();
    match of {
        _ if facts.assessed.is_none() => {
            blocks.push(Block::Heading("What is refused".into()));
            blocks.extend(no_figures(facts));
        }
        Err(why) => blocks.push(Block::Words(eco_format!("It cannot be forecast: {why}."))),
        Ok(of) => {
            blocks.extend(doubts(facts));
            let learned = of.learned.iter().filter(|one| !one.seen.is_empty());
            blocks.extend(learned.map(|one| Block::Words(one.said(units))));
            blocks.push(Block::Heading("Coats".into()));
            blocks.push(Block::Table(coats(of, units)));
            blocks.push(Block::Heading("Materials".into()));
            blocks.push(Block::Table(materials(of, project, units)));
            for one in &of.materials {
                let said = [
                    one.moved(of, project, units),
                    one.beyond_said(project, units),
                ];
                blocks.extend(said.into_iter().flatten().map(Block::Words));
            }
            blocks.push(Block::Heading("Where it comes from".into()));
            blocks.extend(of.notes(units).into_iter().map(Block::Words));
        }
    }
    blocks.push(cautions(facts));
    Document {
        paper: Paper::Forecast,
        title: "Forecast of the rest".into(),
        about: project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units,
    }
}

fn coats(of: &Forecast, units: UnitSystem) -> Table {
    let cubic = unit_of_plaster(units);
    let columns = vec![
        words("Coat", 2.5),
        figures("Worked out", cubic, 1.0),
        figures("Of that done", cubic, 1.0),
        figures("Took", cubic, 1.0),
        figures("Rest times", "", 0.7),
        figures("Records weigh", "", 0.7),
        figures("The rest", cubic, 1.0),
        figures("Batches", "", 0.8),
    ];
    let rows = of.coats.iter().map(|coat| {
        body(vec![
            text(eco_format!("{}, {}", coat.build_up, coat.coat)),
            plaster(coat.whole, units),
            plaster(coat.recorded, units),
            plaster(coat.took, units),
            number(coat.factor, 2, units),
            text(counts_for(coat.weight, units)),
            plaster(coat.forecast_rest, units),
            or_unknown(coat.batches, |batches| count(batches.loads, units)),
        ])
    });
    let mut rows: Vec<Row> = rows.collect();
    rows.push(total(vec![
        text("All"),
        plaster(of.coats.iter().map(|coat| coat.whole).sum(), units),
        plaster(of.coats.iter().map(|coat| coat.recorded).sum(), units),
        plaster(of.coats.iter().map(|coat| coat.took).sum(), units),
        Cell::Empty,
        Cell::Empty,
        plaster(of.coats.iter().map(|coat| coat.forecast_rest).sum(), units),
        or_unknown(of.batches(), |batches| count(batches, units)),
    ]));
    Table { columns, rows }
}

fn materials(of: &Forecast, project: &Project, units: UnitSystem) -> Table {
    // How sure a whole order is, the chances say; what is enough for a rest stands in the place of what was worked out,
    // which is told below where it is another.
    let last = if of.has_records() {
        enough_head().replace("enough", "Enough")
    } else {
        "As worked out".into()
    };
    let columns = vec![
        words("Material", 1.6),
        words("Unit", 0.6),
        figures("Used", "", 0.9),
        figures("In the yard", "", 0.9),
        figures("The rest takes", "", 0.9),
        figures("To order", "", 0.9),
        words("In packages", 1.6),
        words(&last, 1.6),
    ];
    let rows = of.materials.iter().map(|one| row(one, project, units));
    let rows = rows.collect();
    Table { columns, rows }
}

fn row(of: &MaterialForecast, project: &Project, units: UnitSystem) -> Row {
    let kind = project.materials.get(&of.material).map(|of| of.kind);
    let is_heaped = of.forecast.rest.loose.is_some() && kind.is_some_and(MaterialKind::is_mineral);
    let unit = if is_heaped {
        unit_of_heap(units)
    } else {
        unit_of_mass(units)
    };
    let cell = |quantity: &Quantity| {
        if is_heaped {
            or_unknown(quantity.loose, |volume| heap(volume, units))
        } else {
            or_unknown(quantity.mass, |of| mass(of, units))
        }
    };
    let needed = &of.forecast;
    let is_water = kind == Some(MaterialKind::Water);
    let packages = |words: Option<EcoString>| match words {
        _ if is_water => Cell::Empty,
        Some(words) => text(words),
        None => unknown(),
    };
    let bought = |quantity: &Quantity| {
        if is_water {
            Cell::Empty
        } else {
            cell(quantity)
        }
    };
    body(vec![
        text(of.material.clone()),
        text(unit),
        cell(&needed.used),
        bought(&needed.yard),
        cell(&needed.rest),
        bought(&needed.to_order),
        packages(needed.packages(project, &of.material)),
        packages(
            of.enough
                .as_ref()
                .unwrap_or(&of.worked_out)
                .packages(project, &of.material),
        ),
    ])
}
