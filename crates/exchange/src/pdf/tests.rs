//! Documents set out on pages: nothing outside the margins, nothing lost, heads again, cards in large
//! letters. Not here: the bytes of a file.

use super::page::{Item, Page};
use super::set_out;
use crate::letters::{Letters, Weight};
use hodful_documents::{
    Block, CardLine, Cell, Column, Document, Facts, Foot, Paper, Row, RowKind, Table,
    dimension_sheet, order_list, summary, work_plan,
};
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::Assessed;

fn letters() -> Letters {
    Letters::new().unwrap()
}

fn document(blocks: Vec<Block>) -> Document {
    Document {
        paper: Paper::Summary,
        title: "Title".into(),
        about: "About".into(),
        blocks,
        foot: Foot::new("file", "2026-03-02", "version", None, UnitSystem::Metric),
        units: UnitSystem::Metric,
    }
}

fn texts(page: &Page) -> impl Iterator<Item = ([f64; 2], &str, f64, Weight)> {
    page.items.iter().filter_map(|item| match item {
        Item::Text {
            at,
            text,
            size,
            weight,
        } => Some((*at, text.as_str(), *size, *weight)),
        _ => None,
    })
}

/// Everything of every page stands within its margins.
fn within_margins(pages: &[Page], letters: &Letters) {
    for page in pages {
        let sheet = page.sheet;
        for (at, text, size, weight) in texts(page) {
            let right = at[0] + letters.width(text, weight) * size;
            assert!(at[0] >= sheet.left() - 0.01, "{text}");
            assert!(right <= sheet.right() + 0.01, "{text} ends at {right}");
            assert!(at[1] <= sheet.bottom() + 0.01, "{text} stands at {at:?}");
        }
    }
}

/// All words in their order, without blanks.
fn words(pages: &[Page]) -> String {
    let texts = pages.iter().flat_map(texts);
    texts
        .flat_map(|(_, text, _, _)| text.split_whitespace())
        .collect()
}

#[test]
fn demo_projects_stay_within_the_margins() {
    let letters = letters();
    let rules = hodful_project_file::rules();
    let cautions = hodful_project_file::cautions();
    for demo in hodful_project_file::demo_projects() {
        let project = hodful_project_file::read(demo.bytes).unwrap();
        let assessed = Assessed::new(&project, &rules);
        let foot = Foot::new("file", "2026-03-02", "version", None, project.units);
        let facts = Facts::new(&project, &assessed, &cautions, foot);
        let begins = Some(jiff::civil::date(2026, 4, 13));
        let days = assessed.as_ref().unwrap().days(None, begins);
        for document in [
            summary(&facts),
            order_list(&facts, Vec::new()),
            dimension_sheet(&facts),
            work_plan(&facts, &days),
        ] {
            let pages = set_out(&document, &letters);
            within_margins(&pages, &letters);
            let all = words(&pages);
            for block in &document.blocks {
                let Block::Table(table) = block else { continue };
                for cell in table.rows.iter().flat_map(|row| &row.cells) {
                    // A cell of one line is there whole.
                    let cell: String = cell.shown().split_whitespace().collect();
                    if cell.chars().count() < 8 {
                        assert!(all.contains(&cell), "{cell}");
                    }
                }
            }
        }
    }
}

fn table(rows: usize, cell: &str) -> Table {
    let column = |head: &str, right| Column {
        head: head.into(),
        unit: "".into(),
        right,
        width: 1.0,
    };
    let row = |at: usize| Row {
        cells: vec![
            Cell::Words(format!("n{at} {cell}").into()),
            Cell::Words(format!("{at}.0").into()),
        ],
        kind: if at == 0 {
            RowKind::Group
        } else if at + 1 == rows {
            RowKind::Total
        } else {
            RowKind::Body
        },
    };
    Table {
        columns: vec![column("Thing", false), column("Figure", true)],
        rows: (0..rows).map(row).collect(),
    }
}

#[test]
fn a_long_table_has_its_head_on_every_page_and_every_row_once() {
    let letters = letters();
    let pages = set_out(&document(vec![Block::Table(table(300, ""))]), &letters);
    assert!(pages.len() > 3, "{}", pages.len());
    within_margins(&pages, &letters);
    for page in &pages {
        let heads = texts(page).filter(|(_, text, _, _)| *text == "Thing");
        assert_eq!(heads.count(), 1);
    }
    for at in 1..300 {
        let name = format!("n{at}");
        let times = pages.iter().flat_map(texts);
        assert_eq!(
            times.filter(|(_, text, _, _)| *text == name).count(),
            1,
            "{name}"
        );
    }
    // The sum is not alone on the last page.
    let last = pages.last().unwrap();
    assert!(texts(last).any(|(_, text, _, _)| text == "n298"));
    // What the rows belong to stands again over them.
    assert!(texts(last).any(|(_, text, _, _)| text == "n0"));
}

#[test]
fn figures_end_at_one_edge() {
    let letters = letters();
    let pages = set_out(&document(vec![Block::Table(table(20, ""))]), &letters);
    let figures = pages.iter().flat_map(texts);
    let ends: Vec<f64> = figures
        .filter(|(_, text, _, _)| text.ends_with(".0"))
        .map(|(at, text, size, weight)| at[0] + letters.width(text, weight) * size)
        .collect();
    // A name goes across and leaves its figure out.
    assert_eq!(ends.len(), 19);
    for end in &ends {
        assert!((end - ends.first().unwrap()).abs() < 0.001, "{ends:?}");
    }
}

#[test]
fn a_row_higher_than_a_page_goes_on_over_it() {
    let letters = letters();
    let long = "word ".repeat(9000);
    let made = table(3, &long);
    let pages = set_out(&document(vec![Block::Table(made)]), &letters);
    within_margins(&pages, &letters);
    let many = words(&pages).matches("word").count();
    assert_eq!(many, 3 * 9000);
}

fn card(lines: usize) -> Vec<Page> {
    let line = CardLine {
        what: "yard sand".into(),
        count: "7 1/4 buckets".into(),
        also: "36 L, 55 kg".into(),
    };
    set_out(&document(vec![Block::Card(vec![line; lines])]), &letters())
}

/// From two metres: 28 points and more for every count, on one page for as many lines as a mix has.
#[test]
fn a_card_is_in_large_letters_on_one_page() {
    for lines in 1..=9 {
        let pages = card(lines);
        assert_eq!(pages.len(), 1, "{lines} lines");
        let counts = pages.iter().flat_map(texts);
        let counts: Vec<f64> = counts
            .filter(|(_, text, _, _)| text.contains("buckets"))
            .map(|(_, _, size, _)| size)
            .collect();
        assert_eq!(counts.len(), lines);
        assert!(counts.iter().all(|size| *size >= 28.0), "{counts:?}");
        within_margins(&pages, &letters());
    }
    assert!(card(40).len() > 1);
}

#[test]
fn what_belongs_to_a_card_stands_on_its_page() {
    let line = CardLine {
        what: "yard sand".into(),
        count: "7 1/4 buckets".into(),
        also: "36 L, 55 kg".into(),
    };
    let blocks = vec![
        Block::Heading("base: one full batch".into()),
        Block::Card(vec![line; 5]),
        Block::Table(table(5, "coat")),
        Block::Words("Hold back a part of the water.".into()),
    ];
    let pages = set_out(&document(blocks), &letters());
    assert_eq!(pages.len(), 1);
    within_margins(&pages, &letters());
}
