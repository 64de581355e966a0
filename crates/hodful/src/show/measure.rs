//! The surfaces of every face as a table. Not here: measuring.

use super::table::Table;
use super::units::{Column, area, run, unit};
use super::{count, paragraph};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::{Assessed, FaceFigures};

/// The surfaces of an assessed project.
pub(crate) fn measure(of: &Assessed<'_>, units: UnitSystem) -> String {
    let rule = of.checked.rule();
    let heads = [
        "Face", "×", "Outline", "Openings", "Field", "Reveals", "Edges", "Surface", "Measured",
    ];
    let square = unit(Column::Area, units);
    let mut table = Table::new(
        &[0],
        heads
            .iter()
            .enumerate()
            .map(|(i, head)| format!("{head}\n{}", if i > 1 { square } else { "" })),
    );
    let figures = |figures: &FaceFigures| {
        let m = &figures.measure;
        [
            m.outline,
            m.openings,
            m.field,
            m.reveals,
            m.edges,
            m.true_surface(),
            figures.measured,
        ]
        .map(|value| area(value, units).digits)
    };
    for (wall, side, times, face) in of.faces() {
        let name = format!("{} {}", wall.id, side.word());
        table.row([name, times.to_string()].into_iter().chain(figures(face)));
    }
    let totals = &of.evaluation.totals;
    table.totals(
        ["All".to_owned(), String::new()]
            .into_iter()
            .chain(figures(totals)),
    );
    let walls = of
        .project
        .walls
        .iter()
        .map(|w| w.count.unwrap_or(1) as usize)
        .sum();
    let mut out = paragraph(
        "",
        &format!("{}: {}", of.project.name, count(walls, "wall", "walls")),
    );
    out.push('\n');
    out.push_str(&table.print());
    out.push('\n');
    let mut say = |text: String| out.push_str(&paragraph("", &text));
    say("A line is one face; × is how many such walls there are, and All counts them.".to_owned());
    say(format!(
        "Surface = field + reveals + edges drives the material. Edges run {}; strips of lath cover {}.",
        run(totals.measure.edge_length, units),
        area(totals.measure.lath, units)
    ));
    say(format!(
        "Measured is for payment only, by this rule: {}.",
        rule.title
    ));
    if totals.measured_run > 0.0 {
        say(format!(
            "Besides, that rule measures {} of narrow reveals by length.",
            run(totals.measured_run, units)
        ));
    }
    out
}
