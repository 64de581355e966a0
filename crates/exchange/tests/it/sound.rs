//! What every format owes its readers: well-formed files, every figure in them, nothing from elsewhere.
//! Read back with an XML reader that is not ours. Not here: PDF, which is read back in the cross-check.

use crate::project::{demo, documents, pictures};
use hodful_documents::{Block, Document};
use hodful_exchange as exchange;

/// Every text that stands in a document.
fn texts(document: &Document) -> Vec<String> {
    let mut texts = vec![document.title.to_string(), document.about.to_string()];
    for block in &document.blocks {
        match block {
            Block::Heading(words) | Block::Words(words) => texts.push(words.to_string()),
            Block::Table(table) => {
                texts.extend(table.columns.iter().map(|c| c.head.to_string()));
                let cells = table.rows.iter().flat_map(|row| &row.cells);
                let lines = cells.flat_map(|cell| cell.shown().lines());
                texts.extend(lines.map(str::to_owned));
            }
            Block::Picture(picture) => texts.push(picture.caption.to_string()),
            Block::Cautions(lines) => texts.extend(lines.iter().map(ToString::to_string)),
            Block::Card(_) | Block::NewPage => {}
        }
    }
    texts.retain(|text| !text.trim().is_empty());
    texts
}

/// All text of a file of XML, blanks as one.
fn read(file: &str) -> String {
    let options = roxmltree::ParsingOptions {
        allow_dtd: true,
        ..roxmltree::ParsingOptions::default()
    };
    let tree = roxmltree::Document::parse_with_options(file, options)
        .unwrap_or_else(|fault| panic!("{fault}"));
    let text = tree.descendants().filter(roxmltree::Node::is_text);
    let text: Vec<&str> = text.filter_map(|node| node.text()).collect();
    plain(&text.join(" "))
}

fn plain(text: &str) -> String {
    text.split(' ')
        .flat_map(str::split_ascii_whitespace)
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn html_is_well_formed_and_says_everything() {
    for demo_project in hodful_project_file::demo_projects() {
        let documents = documents(&demo(demo_project.name));
        let page = exchange::html(&documents).unwrap();
        let read = read(&page);
        for text in documents.iter().flat_map(texts) {
            assert!(read.contains(&plain(&text)), "{text} is not in the page");
        }
        for bad in ["<script", "href", "src=", "url(", "@import", "javascript"] {
            assert!(!page.contains(bad), "{bad} is in the page");
        }
    }
}

#[test]
fn every_picture_is_well_formed_and_has_all_its_names() {
    for demo_project in hodful_project_file::demo_projects() {
        for document in documents(&demo(demo_project.name)) {
            for picture in pictures(&document) {
                let made = exchange::svg(picture, document.units).unwrap();
                let read = read(&made);
                let named = picture.drawing.labels.iter();
                for label in named.filter(|label| !label.only_marked && label.weight >= 70) {
                    assert!(
                        read.contains(label.text.as_str()),
                        "{} in {read}",
                        label.text
                    );
                }
                let has_scale = read.contains("Scale ") || read.contains("ull size");
                assert_eq!(has_scale, picture.to_scale, "{read}");
            }
        }
    }
}

#[test]
fn tables_of_markdown_have_their_columns_in_every_row() {
    for demo_project in hodful_project_file::demo_projects() {
        for document in documents(&demo(demo_project.name)) {
            let made = exchange::markdown(&document);
            let mut columns = None;
            for line in made.lines() {
                if !line.starts_with('|') {
                    columns = None;
                    continue;
                }
                let bars = line.replace("\\|", "").matches('|').count();
                assert_eq!(*columns.get_or_insert(bars), bars, "{line}");
            }
        }
    }
}

#[test]
fn a_pdf_is_the_same_every_time() {
    let documents = documents(&demo("thistlebank-workshop"));
    let first = exchange::pdf(&documents).unwrap();
    assert!(first.starts_with(b"%PDF-"));
    assert!(first == exchange::pdf(&documents).unwrap());
}
