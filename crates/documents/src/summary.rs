//! The summary: the chief figures, the coats, the build-ups, what is refused and doubtful, on a page or
//! two. Not here: computing any of it.

use crate::cells::{
    area, body, count, figures, group, heap, mass, money, number, or_unknown, plaster, text, total,
    unit_of_area, unit_of_heap, unit_of_mass, unit_of_plaster, unknown, words,
};
use crate::pictures::build_up;
use crate::words::{cautions, no_figures, problems};
use crate::{Block, Cell, Document, Facts, Paper, Row, Table};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::{Assessed, Headline};

/// The summary: name and note, the chief figures, a table of the coats, a section through each build-up
/// that is used, what is refused and doubtful with its source, and the cautions.
///
/// While something is refused, that stands in place of the figures.
pub fn summary(facts: &Facts<'_>) -> Document {
    let project = facts.project;
    let units = facts.units();
    let mut blocks = Vec::new();
    if let Some(note) = project.note.as_ref().filter(|note| !note.trim().is_empty()) {
        blocks.push(Block::Words(note.clone()));
    }
    if let Some(assessed) = facts.assessed {
        blocks.push(headline(assessed, units));
        blocks.push(Block::Heading("Coats".into()));
        coats(assessed, units, &mut blocks);
        let pictures = used(assessed).into_iter();
        let pictures = pictures.filter_map(|at| build_up(project, at));
        let mut pictures = pictures.map(Block::Picture).peekable();
        if pictures.peek().is_some() {
            blocks.push(Block::Heading("Build-ups".into()));
        }
        blocks.extend(pictures);
        blocks.push(Block::Heading("What is doubtful".into()));
        blocks.extend(problems(facts));
    } else {
        blocks.push(Block::Heading("What is refused".into()));
        blocks.extend(no_figures(facts));
    }
    blocks.push(cautions(facts));
    Document {
        paper: Paper::Summary,
        title: "Summary".into(),
        about: project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units,
    }
}

/// The build-ups that a face uses.
fn used(of: &Assessed<'_>) -> Vec<usize> {
    let grounds = of.evaluation.grounds.iter().enumerate();
    grounds
        .filter(|(_, ground)| ground.surface.area.value > 0.0)
        .map(|(at, _)| at)
        .collect()
}

/// The figures that stay in sight while a project is worked on.
fn headline(of: &Assessed<'_>, units: UnitSystem) -> Block {
    let head = Headline::of(of.project, &of.evaluation);
    let line = |what: &str, cell: Cell, unit: &str, means: &str| {
        body(vec![text(what), cell, text(unit), text(means)])
    };
    let mut rows = vec![line(
        "Surface",
        area(head.surface.value, units),
        unit_of_area(units),
        "to be plastered: fields, reveals and edges of all faces",
    )];
    let rule = &of.checked.rule().title;
    rows.push(line(
        "Measured",
        area(of.evaluation.totals.measured, units),
        unit_of_area(units),
        &eco_format!("for payment only, by this rule: {rule}"),
    ));
    rows.push(line(
        "Plaster",
        or_unknown(head.placed, |v| plaster(v, units)),
        unit_of_plaster(units),
        "dry, on the walls, all coats",
    ));
    rows.push(line(
        "Mineral materials",
        or_unknown(head.loose, |v| heap(v, units)),
        unit_of_heap(units),
        "loose, as delivered: damp, before the screen",
    ));
    rows.push(line(
        "Fibre",
        or_unknown(head.fibre, |m| mass(m, units)),
        unit_of_mass(units),
        "as delivered",
    ));
    rows.push(line(
        "Organic binder",
        or_unknown(head.binder, |m| mass(m, units)),
        unit_of_mass(units),
        "as delivered",
    ));
    rows.push(line(
        "Batches",
        or_unknown(head.batches, |n| count(n, units)),
        "",
        "loads of the mixer, each coat rounded up",
    ));
    let alone = if of.project.suppliers.is_empty() {
        ""
    } else {
        ", each material by itself, without deliveries"
    };
    let unpriced = match head.unpriced {
        0 => eco_format!("of all packages{alone}"),
        1 => eco_format!("of all packages that have a price{alone}; 1 material has none"),
        n => eco_format!("of all packages that have a price{alone}; {n} materials have none"),
    };
    rows.push(line(
        "Price",
        or_unknown(head.cost, |price| money(price, units)),
        "",
        &unpriced,
    ));
    Block::Table(Table {
        columns: vec![
            words("Figure", 1.5),
            figures("Value", "", 1.0),
            words("Unit", 0.5),
            words("What it is", 5.0),
        ],
        rows,
    })
}

fn coats(of: &Assessed<'_>, units: UnitSystem, blocks: &mut Vec<Block>) {
    let mixer = of.checked.mixer();
    let cubic = unit_of_plaster(units);
    let columns = vec![
        words("Coat", 2.0),
        words("Mix", 1.5),
        figures("Thickness", "", 1.0),
        figures("Surface", unit_of_area(units), 1.0),
        figures("Placed", cubic, 1.0),
        figures("Wet", cubic, 1.0),
        figures("Mixed", cubic, 1.0),
        figures("Batches", "", 0.9),
        figures("Last batch", "%", 0.9),
    ];
    let mut rows: Vec<Row> = Vec::new();
    let mut under: Option<&EcoString> = None;
    for (build_up, coat, figures) in of.coats() {
        if under != Some(build_up) {
            rows.push(group(build_up.clone(), columns.len()));
            under = Some(build_up);
        }
        let volume = &figures.volume;
        let last = figures.batches.map(|batches| batches.last);
        rows.push(body(vec![
            text(coat.coat.clone()),
            text(coat.mix.clone()),
            text(coat.thickness.text()),
            area(figures.surface.area.value, units),
            plaster(volume.placed, units),
            plaster(volume.wet, units),
            plaster(volume.mixed, units),
            or_unknown(figures.batches, |b| count(b.loads, units)),
            or_unknown(last, |share| number(share * 100.0, 0, units)),
        ]));
    }
    if rows.is_empty() {
        blocks.push(Block::Words(
            "No face of this project has a coat on it.".into(),
        ));
        return;
    }
    let sum = |pick: fn(&hodful_quantities::CoatVolume) -> hodful_quantities::units::Volume| {
        plaster(of.coats().map(|(_, _, f)| pick(&f.volume)).sum(), units)
    };
    let loads = of.coats().filter_map(|(_, _, f)| f.batches);
    let loads = loads.map(|batches| batches.loads).sum();
    rows.push(total(vec![
        text("All"),
        Cell::Empty,
        Cell::Empty,
        Cell::Empty,
        sum(|v| v.placed),
        sum(|v| v.wet),
        sum(|v| v.mixed),
        if mixer.is_some() {
            count(loads, units)
        } else {
            unknown()
        },
        Cell::Empty,
    ]));
    blocks.push(Block::Table(Table { columns, rows }));
    let mut words = EcoString::from(
        "Thickness is finished and dry, as typed. Placed is dry on the wall, wet is as it goes on, mixed \
         is with what is lost.",
    );
    let size = of.project.mixer.as_ref().map(|m| &m.working_volume);
    if let Some(size) = size.map(Typed::text) {
        words.push_str(&eco_format!(
            " A full batch makes {size} of mixed plaster; the last batch of a coat may be a part of one."
        ));
    }
    blocks.push(Block::Words(words));
}
