//! How sure an order is: how often each falls short, how much a figure may be, what matters most, and what was
//! taken to be off. Not here: drawing the figures, and their sentences.

use crate::cells::{body, figures, group, text, words};
use crate::comparison::{cell, unit_of};
use crate::words::{cautions, doubts, no_figures};
use crate::{Block, Document, Facts, Paper, Picture, Table};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::chances::said::{LEGEND, TOLD, enough};
use hodful_takeoff::chances::told::{
    AS_WORKED_OUT, CAUSES, FALLS_SHORT, FIGURES, HOW_OFTEN, INPUTS, NOTES, ORDERS, TOGETHER,
    said_by,
};
use hodful_takeoff::chances::{Chances, FigureChances};
use hodful_takeoff::{Project, drawing};

/// Of the width of a page that a histogram takes: two stand side by side.
const HALF: f64 = 0.48;

/// How sure the figures are: every order beside the one that is short no more often than one time in ten, every
/// figure with what is enough so many times out of ten, the chief ones drawn, and what they vary by.
///
/// While something is refused, that stands in place of the figures; so does the reason when nothing can be drawn.
pub fn chances(facts: &Facts<'_>, of: &Result<Chances, EcoString>) -> Document {
    let units = facts.units();
    let project = facts.project;
    let mut blocks = Vec::new();
    match of {
        _ if facts.assessed.is_none() => {
            blocks.push(Block::Heading("What is refused".into()));
            blocks.extend(no_figures(facts));
        }
        Err(why) => blocks.push(Block::Words(eco_format!("How sure it is: {why}."))),
        Ok(of) => {
            blocks.extend(doubts(facts));
            if !of.orders.is_empty() {
                blocks.push(Block::Heading(ORDERS.into()));
                blocks.push(Block::Table(orders(of, project)));
            }
            blocks.extend(of.asked_said(units).into_iter().map(Block::Words));
            blocks.push(Block::Heading(FIGURES.into()));
            blocks.push(Block::Table(table(of, units)));
            blocks.push(Block::Words(LEGEND.into()));
            blocks.extend(pictures(of, units));
            blocks.push(Block::Heading(CAUSES.into()));
            blocks.push(Block::Table(causes(of, units)));
            blocks.push(Block::Heading(INPUTS.into()));
            blocks.push(Block::Words(TOGETHER.into()));
            blocks.push(Block::Table(inputs(of)));
            blocks.push(Block::Heading(NOTES.into()));
            blocks.extend(of.notes(units).into_iter().map(Block::Words));
        }
    }
    blocks.push(cautions(facts));
    Document {
        paper: Paper::Chances,
        title: "How sure".into(),
        about: project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units,
    }
}

fn orders(of: &Chances, project: &Project) -> Table {
    let columns = vec![
        words("Material", 1.2),
        words(AS_WORKED_OUT, 1.4),
        words(FALLS_SHORT, 1.2),
        words(&enough(of.accepted), 1.4),
    ];
    let rows = of.told_orders(project).into_iter().map(|one| {
        body(vec![
            text(one.material),
            text(one.as_worked_out),
            text(one.falls_short),
            text(one.instead),
        ])
    });
    Table {
        columns,
        rows: rows.collect(),
    }
}

fn table(of: &Chances, units: UnitSystem) -> Table {
    let mut columns = vec![
        words("Figure", 2.6),
        words("Unit", 0.6),
        figures(AS_WORKED_OUT, "", 1.0),
    ];
    columns.extend(TOLD.iter().map(|(_, name)| figures(name, "", 1.0)));
    let rows = of.told().into_iter().map(|of| {
        let mut cells = vec![
            text(of.line.label()),
            text(unit_of(&of.line, units)),
            cell(&of.line, of.base, units),
        ];
        let told = TOLD.iter().map(|(share, _)| of.enough(*share));
        cells.extend(told.map(|value| cell(&of.line, value, units)));
        body(cells)
    });
    Table {
        columns,
        rows: rows.collect(),
    }
}

/// How often the chief figures come out where; none of one that does not vary.
fn pictures(of: &Chances, units: UnitSystem) -> Vec<Block> {
    let each = of.chief().into_iter();
    each.filter_map(|of: &FigureChances| {
        let mut drawing = drawing::histogram(of, units);
        drawing.bounds?;
        let mut caption = eco_format!("{}: {HOW_OFTEN}", of.line.label());
        for words in drawing.captions.drain(..) {
            caption.push_str("; ");
            caption.push_str(&words);
        }
        Some(Block::Picture(Picture {
            drawing,
            caption,
            to_scale: false,
            share: HALF,
            is_tall: false,
        }))
    })
    .collect()
}

fn causes(of: &Chances, units: UnitSystem) -> Table {
    let columns = vec![words("Figure", 1.0), words("varies by", 3.0)];
    let rows = of.chief().into_iter().map(|one| {
        body(vec![
            text(one.line.label()),
            text(one.causes_briefly(&of.inputs, units)),
        ])
    });
    Table {
        columns,
        rows: rows.collect(),
    }
}

fn inputs(of: &Chances) -> Table {
    let columns = vec![words("Input", 1.0), words("How far", 1.5)];
    let mut rows = Vec::new();
    for (source, inputs) in of.by_source() {
        rows.push(group(said_by(source), columns.len()));
        rows.extend(
            inputs
                .into_iter()
                .map(|input| body(vec![text(input.words.clone()), text(input.spread.clone())])),
        );
    }
    Table { columns, rows }
}
