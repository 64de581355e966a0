//! Names, projects and drawings that nobody should write and somebody does: nothing may break. Not here:
//! how it looks.

use crate::project::{demo, documents, pictures};
use hodful_documents::{
    Block, CardLine, Cell, Column, Document, Foot, Paper, Picture, Row, RowKind, Table,
};
use hodful_exchange as exchange;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Project;
use hodful_takeoff::drawing::{DimensionLine, Drawing, Edge, Fill, Label, Role, Stand, Stroke};
use hodful_takeoff::form::{self, Subject};
use std::sync::Arc;

/// Names that mean something to some format, or have no look, or no end.
fn names() -> Vec<String> {
    let mut names: Vec<String> = [
        "<b>bold</b>",
        "a | b",
        "=1+1",
        "& &amp; \" '",
        "]]> <!-- -->",
        "👩‍🔧🪣 mixer",
        "שלום עולם",
        "مرحبا",
        "e\u{301}\u{300}\u{302} combining",
        "two\nlines\tand a tab",
        "\u{0}\u{1b}[31m\u{7f}",
        "\u{202e}backwards\u{202c}",
        "# no heading",
        "1. no list",
        "- no list",
        "`code` *star* _under_ ~~struck~~",
        "](http://example.invalid)",
        "\u{fffe}\u{ffff}\u{feff}",
        "日本語 한국어 ไทย",
        "½ ⅜ ² ³ ′ ″ × ≥ – μ Ł ř",
    ]
    .map(str::to_owned)
    .to_vec();
    names.push("x".repeat(300));
    names.push("word ".repeat(60));
    names
}

fn every_format(documents: &[Document]) {
    let page = exchange::html(documents).unwrap();
    parse(&page);
    assert!(exchange::pdf(documents).unwrap().starts_with(b"%PDF-"));
    for document in documents {
        let _ = exchange::markdown(document);
        for picture in pictures(document) {
            parse(&exchange::svg(picture, document.units).unwrap());
        }
    }
}

fn parse(file: &str) {
    let options = roxmltree::ParsingOptions {
        allow_dtd: true,
        ..roxmltree::ParsingOptions::default()
    };
    if let Err(fault) = roxmltree::Document::parse_with_options(file, options) {
        panic!("{fault}");
    }
}

/// The workshop with one name everywhere a name can be.
fn renamed(name: &str) -> Project {
    let mut project = demo("thistlebank-workshop");
    project.name = name.into();
    project.note = Some(name.into());
    for (number, wall) in project.walls.iter_mut().enumerate() {
        let wall = Arc::make_mut(wall);
        wall.id = format!("{name}{number}").into();
        wall.name = Some(name.into());
        wall.sheet = Some(name.into());
        for (number, opening) in wall.openings.iter_mut().enumerate() {
            opening.id = format!("{name}{number}").into();
            opening.kind = Some(name.into());
        }
    }
    for at in 0..project.materials.len() {
        // A name that the form refuses stays what it was.
        let _ = form::set(
            &mut project,
            Subject::Material(at),
            "name",
            &format!("{name}{at}"),
        );
    }
    for at in 0..project.build_ups.len() {
        let _ = form::set(
            &mut project,
            Subject::BuildUp(at),
            "name",
            &format!("{name}{at}"),
        );
    }
    project
}

#[test]
fn no_name_breaks_a_document() {
    for name in names() {
        every_format(&documents(&renamed(&name)));
    }
}

#[test]
fn what_means_something_is_escaped_and_not_lost() {
    let documents = documents(&renamed("<b>a | b</b> & c"));
    let page = exchange::html(&documents).unwrap();
    assert!(!page.contains("<b>a"), "taken for an element");
    assert!(page.contains("&lt;b&gt;a | b&lt;/b&gt; &amp; c"));
    for document in &documents {
        let text = exchange::markdown(document);
        assert!(text.contains("\\<b\\>a \\| b\\</b\\> \\& c"), "{text}");
    }
}

#[test]
fn projects_with_nothing_or_with_something_refused_have_documents() {
    for units in [UnitSystem::Us, UnitSystem::Metric] {
        let mut project = hodful_project_file::empty_project();
        project.units = units;
        every_format(&documents(&project));
        project.name = "".into();
        every_format(&documents(&project));
    }
    let mut project = demo("ferry-loft");
    form::set(&mut project, Subject::Wall(0), "length", "0 m").unwrap();
    let documents = documents(&project);
    every_format(&documents);
    for document in &documents {
        let text = exchange::markdown(document);
        assert!(
            text.contains("no figures are given until it is mended"),
            "{text}"
        );
        assert!(text.contains("refused"), "{text}");
        assert!(!text.contains("**All**"), "{text}");
    }
}

fn document(blocks: Vec<Block>) -> Document {
    Document {
        paper: Paper::Summary,
        title: "Odd".into(),
        about: "".into(),
        blocks,
        foot: Foot {
            file: "".into(),
            date: "no day".into(),
            rule: "r".repeat(400).into(),
            units: "".into(),
            version: "v".repeat(400).into(),
        },
        units: UnitSystem::Us,
    }
}

fn column(head: &str, right: bool, width: f64) -> Column {
    Column {
        head: head.into(),
        unit: "".into(),
        right,
        width,
    }
}

#[test]
fn odd_tables_are_set() {
    let tables = [
        (0, 3, 1),
        (1, 0, 1),
        (3, 2, 400),
        (40, 3, 12),
        (2, 300, 10),
        (5, 2, 9000),
    ];
    for (columns, rows, long) in tables {
        let kinds = [RowKind::Body, RowKind::Group, RowKind::Total];
        let rows = (0..rows).map(|at: usize| Row {
            // Too few and too many cells as well.
            cells: (0..columns + at % 3)
                .map(|_| Cell::Words("long words ".repeat(long / 10 + 1).into()))
                .collect(),
            kind: *kinds.get(at % 3).unwrap(),
        });
        let table = Table {
            columns: (0..columns)
                .map(|at| {
                    column(
                        "Head of it",
                        at % 2 == 1,
                        if at % 3 == 0 { f64::NAN } else { -1.0 },
                    )
                })
                .collect(),
            rows: rows.collect(),
        };
        every_format(&[document(vec![
            Block::Heading("Table".into()),
            Block::Table(table),
        ])]);
    }
}

#[test]
fn odd_cards_are_set() {
    for (many, long) in [(0, 1), (1, 1), (3, 20), (60, 10), (2, 600)] {
        let line = CardLine {
            what: "sand ".repeat(long).into(),
            count: "7".repeat(long).into(),
            also: "".into(),
        };
        let card: Vec<CardLine> = vec![line; many];
        every_format(&[document(vec![
            Block::NewPage,
            Block::Card(card),
            Block::NewPage,
        ])]);
    }
}

/// A drawing with a line, an area, dimensions on all sides and names of every kind.
fn drawing(bounds: [f64; 4], word: &str) -> Drawing {
    let [left, bottom, right, top] = bounds;
    let corners = vec![[left, bottom], [right, bottom], [right, top], [left, top]];
    let middle = [f64::midpoint(left, right), f64::midpoint(bottom, top)];
    let label = |stand| Label {
        at: middle,
        text: word.into(),
        stand,
        weight: 1,
        of: None,
        names: true,
        only_marked: false,
    };
    let edges = [Edge::Below, Edge::Above, Edge::Left, Edge::Right];
    Drawing {
        strokes: vec![Stroke {
            role: Role::Outline,
            points: corners.clone(),
            closed: true,
            of: None,
        }],
        fills: vec![
            Fill {
                role: Role::Background,
                ring: corners,
                of: None,
            },
            Fill {
                role: Role::Coat(200),
                ring: vec![[left - 1e6, bottom], [right + 1e6, bottom], middle],
                of: None,
            },
        ],
        dimensions: edges
            .into_iter()
            .flat_map(|edge| {
                [0, 3, 255].map(|row| DimensionLine {
                    name: "size",
                    from: [left, bottom],
                    to: [right, top],
                    edge,
                    row,
                    text: word.into(),
                    weight: 1,
                    of: None,
                    only_chosen: false,
                })
            })
            .collect(),
        labels: vec![
            label(Stand::At),
            label(Stand::In([left, bottom, right, top])),
            label(Stand::Beside),
            label(Stand::Beside),
        ],
        captions: vec![word.into()],
        bounds: Some(bounds),
        ..Drawing::default()
    }
}

#[test]
fn odd_drawings_are_set() {
    let bounds = [
        [0.0, 0.0, 1000.0, 2000.0],
        [0.0, 0.0, 0.0, 0.0],
        [0.0, 0.0, 1e7, 1.0],
        [5.0, 5.0, 5.0, 1e7],
        [-1e-9, 0.0, 1e-9, 1e-9],
        [3.0, 3.0, 1.0, 1.0],
        [f64::NAN, 0.0, 1.0, 1.0],
        [f64::NEG_INFINITY, 0.0, f64::INFINITY, 1.0],
    ];
    for bounds in bounds {
        for word in ["W1", "=<&|", &"x".repeat(300), "\u{202e}שלום"] {
            for (to_scale, share) in [(true, 1.0), (false, f64::NAN), (true, -3.0)] {
                let picture = Picture {
                    drawing: drawing(bounds, word),
                    caption: word.into(),
                    to_scale,
                    share,
                    is_tall: false,
                };
                for units in [UnitSystem::Us, UnitSystem::Metric] {
                    parse(&exchange::svg(&picture, units).unwrap());
                }
                let blocks = vec![Block::Heading("Drawn".into()), Block::Picture(picture)];
                every_format(&[document(blocks)]);
            }
        }
    }
}
