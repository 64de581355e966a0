//! The days on site, as a text. Not here: what is told of them (see the documents), planning, and its sentences.

use super::paragraph;
use super::table::Table;
use hodful_documents::{Block, Table as Paper, days as told};
use hodful_project_file as file;
use hodful_takeoff::Project;
use hodful_takeoff::days::{Days, WeekendAhead};

/// The days of a project.
pub(crate) fn days(project: &Project, of: &Days) -> String {
    blocks(project, told(of, &file::cautions(), project.units))
}

/// A few days with many hands.
pub(crate) fn weekend(project: &Project, of: &WeekendAhead) -> String {
    let told = hodful_documents::weekend(of, &file::cautions(), project.units);
    blocks(project, told)
}

fn blocks(project: &Project, of: Vec<Block>) -> String {
    let mut out = paragraph("", &project.name);
    out.push('\n');
    for block in of {
        match block {
            Block::Heading(words) => head(&words, &mut out),
            Block::Words(words) => out.push_str(&paragraph("", &words)),
            Block::Table(of) => out.push_str(&table(&of)),
            Block::Cautions(lines) => {
                head("Take care", &mut out);
                for words in lines {
                    out.push_str(&paragraph("", &words));
                }
            }
            // A text has neither bars nor pages, and no work plan has a card.
            Block::Picture(_) | Block::Card(_) | Block::NewPage => {}
        }
    }
    out
}

fn head(words: &str, out: &mut String) {
    out.push('\n');
    out.push_str(&words.to_uppercase());
    out.push('\n');
}

fn table(of: &Paper) -> String {
    let columns = of.columns.iter().enumerate();
    let texts = columns.filter(|(_, column)| !column.right);
    let texts: Vec<usize> = texts.map(|(at, _)| at).collect();
    let heads = of.columns.iter().map(|column| match &*column.unit {
        "" => column.head.to_string(),
        unit => format!("{}\n{unit}", column.head),
    });
    let mut table = Table::new(&texts, heads);
    for row in &of.rows {
        table.row(row.cells.iter().map(|cell| cell.shown().to_owned()));
    }
    table.print()
}
