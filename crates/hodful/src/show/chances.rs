//! How sure an order is. Not here: drawing the figures, and their sentences.

use super::paragraph;
use super::table::Table;
use hodful_documents::{digits, unit_of};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Project;
use hodful_takeoff::chances::Chances;
use hodful_takeoff::chances::said::{LEGEND, TOLD, enough};
use hodful_takeoff::chances::told::{
    AS_WORKED_OUT, CAUSES, FALLS_SHORT, FIGURES, INPUTS, NOTES, ORDERS, TOGETHER, said_by,
};

/// The chances of a project.
pub(crate) fn chances(project: &Project, of: &Chances, units: UnitSystem) -> String {
    let mut out = paragraph("", &project.name);
    if !of.orders.is_empty() {
        head(ORDERS, &mut out);
        out.push_str(&orders(project, of));
    }
    for words in of.asked_said(units) {
        out.push_str(&paragraph("", &words));
    }
    head(FIGURES, &mut out);
    out.push_str(&figures(of, units));
    out.push_str(&paragraph("", LEGEND));
    head(CAUSES, &mut out);
    for one in of.chief() {
        let causes = one.causes_briefly(&of.inputs, units);
        out.push_str(&paragraph("- ", &format!("{}: {causes}", one.line.label())));
    }
    head(INPUTS, &mut out);
    out.push_str(&paragraph("", TOGETHER));
    for (source, inputs) in of.by_source() {
        out.push_str(&paragraph("", &format!("{}:", said_by(source))));
        for input in inputs {
            let words = format!("{}: {}", input.words, input.spread);
            out.push_str(&paragraph("- ", &words));
        }
    }
    head(NOTES, &mut out);
    for note in of.notes(units) {
        out.push_str(&paragraph("", &note));
    }
    out
}

fn head(words: &str, out: &mut String) {
    out.push('\n');
    out.push_str(&words.to_uppercase());
    out.push('\n');
}

fn orders(project: &Project, of: &Chances) -> String {
    let enough = enough(of.accepted);
    let heads = ["Material", AS_WORKED_OUT, FALLS_SHORT, &enough];
    let mut table = Table::new(&[0, 1, 2, 3], heads);
    for one in of.told_orders(project) {
        table.row([
            one.material.to_string(),
            one.as_worked_out.to_string(),
            one.falls_short.to_string(),
            one.instead.to_string(),
        ]);
    }
    table.print()
}

fn figures(of: &Chances, units: UnitSystem) -> String {
    let broken = AS_WORKED_OUT.replacen(' ', "\n", 1);
    let heads = ["Figure", "Unit", &broken];
    let heads = heads.into_iter().chain(TOLD.iter().map(|(_, name)| *name));
    let mut table = Table::new(&[0, 1], heads);
    for one in of.told() {
        let shown = |value: f64| digits(&one.line, &one.line.shown(value, units)).to_owned();
        let mut cells = vec![
            one.line.label().to_string(),
            unit_of(&one.line, units).to_string(),
            shown(one.base),
        ];
        let told = TOLD.iter().map(|(share, _)| shown(one.enough(*share)));
        cells.extend(told);
        table.row(cells);
    }
    table.print()
}
