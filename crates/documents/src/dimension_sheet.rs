//! The dimension sheet: every wall and opening as it was typed, with the sheet it was read from, drawn,
//! and then the surfaces of every face. Not here: measuring.

use crate::cells::{area, body, count, figures as column, run, text, total, unit_of_area, words};
use crate::pictures::{elevation, plans};
use crate::words::{count as counted, doubts, no_figures};
use crate::{Block, Cell, Document, Facts, Paper, Row, Table};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::form::{self, Subject};
use hodful_takeoff::project::{Opening, Wall};
use hodful_takeoff::{Assessed, FaceFigures, Side};

/// Most elevations on one sheet; more are left out, and the sheet says so.
const MOST_ELEVATIONS: usize = 400;

/// The dimension sheet: every wall with its faces, corners, openings and pockets as typed, an elevation
/// of each plastered face, and the surfaces with their totals, counts applied.
///
/// What was typed and the elevations are there while something is refused too; in place of the surfaces
/// stands then what is refused.
pub fn dimension_sheet(facts: &Facts<'_>) -> Document {
    let project = facts.project;
    let figures = match facts.units() {
        UnitSystem::Us => "feet and inches",
        UnitSystem::Metric => "metres",
    };
    let mut blocks = vec![Block::Words(eco_format!(
        "Tables have every dimension as it was typed; figures on drawings are in {figures}. Left and right \
         are as seen from outside, for both faces of a wall; sills are above the bottom of the wall."
    ))];
    if project.walls.is_empty() {
        blocks.push(Block::Words("There is no wall in this project.".into()));
    }
    blocks.extend(plans(project).into_iter().map(Block::Picture));
    walls(facts, &mut blocks);
    if !project.walls.is_empty() {
        blocks.push(Block::Heading("Surfaces".into()));
        match facts.assessed {
            Some(assessed) => {
                surfaces(assessed, facts.units(), &mut blocks);
                blocks.extend(doubts(facts));
            }
            None => blocks.extend(no_figures(facts)),
        }
    }
    Document {
        paper: Paper::Dimensions,
        title: "Dimension sheet".into(),
        about: project.name.clone(),
        blocks,
        foot: facts.foot.clone(),
        units: facts.units(),
    }
}

/// Every wall as typed, and its faces drawn.
fn walls(facts: &Facts<'_>, blocks: &mut Vec<Block>) {
    let project = facts.project;
    let mut drawn = 0;
    for (at, wall) in project.walls.iter().enumerate() {
        blocks.push(Block::Heading(heading(wall)));
        let subject = Subject::Wall(at);
        let mut rows = vec![body(vec![text("read from"), text(read_from(wall))])];
        rows.extend(as_typed(facts, subject, &["id", "name", "sheet", "count"]));
        for pocket in 0..wall.pockets.len() {
            let subject = Subject::Pocket { wall: at, pocket };
            let part = eco_format!("pocket {}", pocket + 1);
            rows.push(body(vec![
                text(part),
                text(all_of(&fields(facts, subject, &[]))),
            ]));
        }
        blocks.push(Block::Table(Table {
            columns: vec![words("Wall", 1.0), words("As typed", 4.0)],
            rows,
        }));
        if !wall.openings.is_empty() {
            blocks.push(openings(facts, at, wall));
        }
        let sides = [Side::Outside, Side::Inside];
        let plastered = sides.into_iter().filter(|side| wall.face(*side).is_some());
        for side in plastered {
            drawn += 1;
            if drawn <= MOST_ELEVATIONS {
                let picture = elevation(project, at, side);
                if picture.drawing.bounds.is_some() {
                    blocks.push(Block::Picture(picture));
                }
            }
        }
    }
    if drawn > MOST_ELEVATIONS {
        blocks.push(Block::Words(eco_format!(
            "The first {MOST_ELEVATIONS} of {drawn} elevations are drawn."
        )));
    }
}

/// `Wall S: South wall, 2 of them`.
fn heading(wall: &Wall) -> EcoString {
    let mut heading = eco_format!("Wall {}", wall.id);
    if let Some(name) = filled(wall.name.as_ref()) {
        heading.push_str(": ");
        heading.push_str(name);
    }
    if let Some(times) = wall.count.filter(|times| *times != 1) {
        heading.push_str(&eco_format!(" (× {times})"));
    }
    heading
}

fn read_from(wall: &Wall) -> EcoString {
    match filled(wall.sheet.as_ref()) {
        Some(sheet) => eco_format!("sheet {sheet}"),
        None => "no sheet is named".into(),
    }
}

fn filled(text: Option<&EcoString>) -> Option<&EcoString> {
    text.filter(|text| !text.trim().is_empty())
}

/// One field as typed: its heading, its label, its text.
struct Field {
    group: &'static str,
    label: EcoString,
    text: EcoString,
}

/// The fields of a thing that are given, but for some.
fn fields(facts: &Facts<'_>, of: Subject, without: &[&str]) -> Vec<Field> {
    form::rows(facts.project, of)
        .into_iter()
        .filter(|row| !without.contains(&row.key.as_str()))
        .filter_map(|row| {
            Some(Field {
                group: row.group,
                label: row.label,
                text: row.text.filter(|text| !text.trim().is_empty())?,
            })
        })
        // That a face is plastered is said by what it is plastered with.
        .filter(|field| !(field.label == "face" && field.text == "plastered"))
        .collect()
}

/// `length 24'; height 9'`.
fn all_of(fields: &[Field]) -> EcoString {
    let mut all = EcoString::new();
    for field in fields {
        if !all.is_empty() {
            all.push_str("; ");
        }
        // A part that says what it is needs no label of its own: `shape: gable`, `outside face: bare`.
        if field.label != field.group && field.label != "face" {
            all.push_str(&field.label);
            all.push(' ');
        }
        all.push_str(&field.text);
    }
    all
}

/// The given fields of a thing, a row for each of its headings.
fn as_typed(facts: &Facts<'_>, of: Subject, without: &[&str]) -> Vec<Row> {
    let mut rows: Vec<(&'static str, Vec<Field>)> = Vec::new();
    for field in fields(facts, of, without) {
        match rows.iter_mut().find(|(group, _)| *group == field.group) {
            Some((_, same)) => same.push(field),
            None => rows.push((field.group, vec![field])),
        }
    }
    rows.into_iter()
        // No corner is the usual thing and says nothing.
        .filter(|(_, fields)| !matches!(fields.as_slice(), [only] if only.text == "none"))
        .map(|(group, fields)| {
            let part = if group.is_empty() { "body" } else { group };
            body(vec![text(part), text(all_of(&fields))])
        })
        .collect()
}

/// The openings of a wall: the sizes a drawing gives in columns, the rest in words.
fn openings(facts: &Facts<'_>, wall: usize, of: &Wall) -> Block {
    let rows = of.openings.iter().enumerate().map(|(at, opening)| {
        let subject = Subject::Opening { wall, opening: at };
        let fields = fields(
            facts,
            subject,
            &["id", "kind", "count", "spacing", "from_left", "sill"],
        );
        let (shape, others): (Vec<_>, Vec<_>) =
            fields.into_iter().partition(|field| field.group == "shape");
        let mut rest = EcoString::new();
        for field in others.chunk_by(|a, b| a.group == b.group) {
            if !rest.is_empty() {
                rest.push('\n');
            }
            let group = field.first().map_or("", |first| first.group);
            // The head of the column says the rest.
            let group = group
                .strip_suffix(" in the depth of the wall")
                .unwrap_or(group);
            rest.push_str(&eco_format!("{group}: {}", all_of(field)));
        }
        body(vec![
            text(opening.id.clone()),
            text(filled(opening.kind.as_ref()).cloned().unwrap_or_default()),
            number_of(opening, facts.units()),
            text(all_of(&shape)),
            text(opening.from_left.text()),
            text(opening.sill.text()),
            text(rest),
        ])
    });
    Block::Table(Table {
        columns: vec![
            words("Opening", 0.8),
            words("Kind", 1.0),
            column("×", "", 0.3),
            words("Frame as typed", 1.6),
            column("From left", "", 0.8),
            column("Sill", "", 0.7),
            words("Frame and reveals in the depth of the wall, as typed", 3.4),
        ],
        rows: rows.collect(),
    })
}

fn number_of(opening: &Opening, units: UnitSystem) -> Cell {
    let number = u64::from(opening.count.unwrap_or(1));
    match &opening.spacing {
        Some(spacing) if number > 1 => text(eco_format!("{number}, every {}", spacing.text())),
        _ => count(number, units),
    }
}

/// The surfaces of every face and of all.
fn surfaces(of: &Assessed<'_>, units: UnitSystem, blocks: &mut Vec<Block>) {
    let square = unit_of_area(units);
    let heads = [
        "Outline", "Openings", "Field", "Reveals", "Edges", "Surface", "Measured",
    ];
    let mut columns = vec![words("Face", 2.0), column("×", "", 0.5)];
    columns.extend(heads.map(|head| column(head, square, 1.0)));
    let of_face = |figures: &FaceFigures| {
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
        .map(|value| area(value, units))
    };
    let row = |first: [Cell; 2], figures: &FaceFigures| -> Vec<Cell> {
        first.into_iter().chain(of_face(figures)).collect()
    };
    let mut rows: Vec<Row> = of
        .faces()
        .map(|(wall, side, times, figures)| {
            let name = text(eco_format!("{} {}", wall.id, side.word()));
            body(row([name, count(u64::from(times), units)], figures))
        })
        .collect();
    let totals = &of.evaluation.totals;
    rows.push(total(row([text("All"), Cell::Empty], totals)));
    let walls = of.project.walls.iter();
    let walls = walls.map(|wall| wall.count.unwrap_or(1) as usize).sum();
    blocks.push(Block::Table(Table { columns, rows }));
    let walls = counted(walls, "wall", "walls");
    let mut words = eco_format!(
        "{walls}. A line is one face; × is how many such walls there are, and All counts them. Surface = \
         field + reveals + edges drives the material. Edges run {}; strips of lath cover {}.",
        run(totals.measure.edge_length, units),
        match area(totals.measure.lath, units) {
            Cell::Figure { shown, .. } => eco_format!("{shown} {square}"),
            _ => EcoString::new(),
        }
    );
    let rule = &of.checked.rule().title;
    words.push_str(&eco_format!(
        " Measured is for payment only, by this rule: {rule}."
    ));
    if totals.measured_run > 0.0 {
        words.push_str(&eco_format!(
            " Besides, that rule measures {} of narrow reveals by length.",
            run(totals.measured_run, units)
        ));
    }
    blocks.push(Block::Words(words));
}
