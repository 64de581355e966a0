//! Documents as one HTML page: everything in the file, no script, nothing from elsewhere. Read on screen
//! light or dark, printed black on white with heads of tables on every page. Not here: what stands in a
//! document, and pictures (see `svg`).
//!
//! The page is well-formed XML too, so that any reader of XML takes it.

use crate::letters::Letters;
use crate::{PaperFault, svg, xml};
use hodful_documents::{Block, CardLine, Column, Document, Picture, RowKind, Table};
use hodful_quantities::print::UnitSystem;
use std::fmt::Write;

/// Documents as one HTML page, one after another, each with its foot; on paper each begins a page.
///
/// Any text is taken: what means something in HTML is escaped. Paper is Letter where the first document
/// speaks in feet, else A4; a browser may be told otherwise.
///
/// # Errors
/// [`PaperFault::Letters`] when the fonts that are built in, by which drawings are set out, cannot be
/// read.
pub fn html(documents: &[Document]) -> Result<String, PaperFault> {
    let letters = Letters::new().ok_or(PaperFault::Letters)?;
    let titles: Vec<String> = documents
        .iter()
        .map(|document| format!("{}, {}", document.title, document.about))
        .collect();
    let size = match documents.first().map(|document| document.units) {
        Some(UnitSystem::Us) => "letter",
        _ => "A4",
    };
    let mut out = String::from("<!DOCTYPE html>\n");
    out.push_str("<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n");
    out.push_str("<meta charset=\"utf-8\"/>\n");
    out.push_str("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    element(&mut out, "title", &titles.join("; "));
    out.push_str("<style>\n");
    out.push_str(STYLE);
    page_boxes(&mut out, size, documents.first());
    out.push_str("</style>\n</head>\n<body>\n");
    for document in documents {
        article(&mut out, document, &letters);
    }
    out.push_str("</body>\n</html>\n");
    Ok(out)
}

/// The look of a page. Screens first, then paper.
const STYLE: &str = r"
:root { color-scheme: light dark; --paper: #fff; --ink: #1c1a17; --soft: #5c564d; --line: #b9b2a6; --band: #f3f0ea; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #1b1a18; --ink: #ece8e1; --soft: #b0a99d; --line: #57524a; --band: #26241f; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1rem/1.45 'Source Sans 3', 'Source Sans Pro', 'Noto Sans', 'Helvetica Neue', Arial, sans-serif; }
article { max-width: 62rem; margin: 0 auto; padding: 2rem 1.25rem 3rem; }
h1 { font-size: 1.9rem; line-height: 1.15; margin: 0; }
.about { font-size: 1.15rem; margin: .2rem 0 1.4rem; color: var(--soft); overflow-wrap: anywhere; }
h2 { font-size: 1.25rem; line-height: 1.2; margin: 2rem 0 .6rem; overflow-wrap: anywhere; }
p { margin: .6rem 0; max-width: 46rem; overflow-wrap: anywhere; }
.table { overflow-x: auto; margin: .8rem 0; }
table { border-collapse: collapse; width: 100%; font-size: .92rem; line-height: 1.3; }
th, td { text-align: left; vertical-align: top; padding: .28rem .5rem .28rem 0; }
th:last-child, td:last-child { padding-right: 0; }
td { overflow-wrap: anywhere; border-top: 1px solid var(--line); }
th { vertical-align: bottom; border-bottom: 2px solid var(--ink); font-weight: 600; }
th .unit { display: block; font-weight: 400; color: var(--soft); }
.right { text-align: right; font-variant-numeric: tabular-nums lining-nums; white-space: nowrap; }
.right + td:not(.right), .right + th:not(.right) { padding-left: 1rem; }
tbody tr:first-child td { border-top: 0; }
tr.group td { font-weight: 700; background: var(--band); padding-left: .4rem; }
tr.total td { font-weight: 700; border-top: 2px solid var(--ink); }
figure { margin: 1.2rem 0; }
figure svg { display: block; max-width: 100%; height: auto; background: #fff; outline: .6rem solid #fff; margin: .6rem; }
figure.half { display: inline-block; width: 48%; margin-right: 1%; vertical-align: top; }
figcaption { font-weight: 600; margin-top: .5rem; overflow-wrap: anywhere; }
.care { border: 2px solid var(--ink); padding: .7rem 1rem; margin: 1.8rem 0; }
.care h2 { margin: 0 0 .4rem; }
.care ul { margin: 0; padding-left: 1.1rem; }
.care li { margin: .2rem 0; overflow-wrap: anywhere; }
.card { border-top: 3px solid var(--ink); margin: 1rem 0; }
.card div { display: grid; grid-template-columns: minmax(8rem, 2fr) 3fr; gap: 0 1.2rem; align-items: baseline; border-bottom: 1px solid var(--line); padding: .5rem 0; overflow-wrap: anywhere; }
.card b { font-size: 3rem; line-height: 1.1; }
.card span { font-size: 2rem; line-height: 1.15; }
.card small { grid-column: 2; font-size: 1.2rem; color: var(--soft); }
footer { border-top: 1px solid var(--line); margin-top: 2rem; padding-top: .5rem; font-size: .82rem; color: var(--soft); overflow-wrap: anywhere; }
@media print {
  :root { color-scheme: only light; --paper: #fff; --ink: #000; --soft: #000; --line: #999; --band: #fff; }
  body { font-size: 10pt; }
  article { max-width: none; padding: 0; }
  article + article { break-before: page; }
  .page { break-before: page; }
  h1, h2, figcaption { break-after: avoid; }
  thead { display: table-header-group; }
  tr, figure, .care, .card div { break-inside: avoid; }
  tr.group { break-after: avoid; }
  tr.total { break-before: avoid; }
  .table { overflow: visible; }
  .care { font-size: 8.5pt; }
  table { font-size: 8.5pt; }
  figure svg { outline: 0; margin: 0; }
  .card b { font-size: 40pt; }
  .card span { font-size: 28pt; }
  .card small { font-size: 16pt; }
}
";

/// The size of the paper, and what browsers that know page margins (CSS Paged Media) print in them: the
/// file and the day, the page and how many there are. The rest of the foot ends each document.
fn page_boxes(out: &mut String, size: &str, first: Option<&Document>) {
    let from = first.map_or_else(String::new, |document| {
        let foot = &document.foot;
        format!("{} · {}", foot.file, foot.date)
    });
    push(
        out,
        format_args!(
            "@page {{ size: {size}; margin: 16mm 18mm 18mm; font: 7.5pt 'Source Sans 3', 'Noto Sans', \
             sans-serif; @bottom-left {{ content: \"{}\"; }} @bottom-right {{ content: \"page \" \
             counter(page) \" of \" counter(pages); }} }}\n",
            style_text(&from)
        ),
    );
}

/// A text within quotes of a style: all but letters, digits and blanks as numbers (CSS Syntax, 4.3.7), so
/// that nothing in it means anything to HTML or XML either.
fn style_text(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars().filter(|letter| !letter.is_control()) {
        if letter.is_ascii_alphanumeric() || letter == ' ' {
            out.push(letter);
        } else {
            push(&mut out, format_args!("\\{:06x}", u32::from(letter)));
        }
    }
    out
}

fn article(out: &mut String, document: &Document, letters: &Letters) {
    out.push_str("<article>\n<header>\n");
    element(out, "h1", &document.title);
    push(
        out,
        format_args!("<p class=\"about\">{}</p>\n", xml::text(&document.about)),
    );
    out.push_str("</header>\n");
    for block in &document.blocks {
        match block {
            Block::Heading(words) => element(out, "h2", words),
            Block::Words(words) => element(out, "p", words),
            Block::Table(of) => table(out, of),
            Block::Picture(of) => picture(out, of, document.units, letters),
            Block::Cautions(lines) => cautions(out, lines),
            Block::Card(lines) => card(out, lines),
            Block::NewPage => out.push_str("<div class=\"page\"></div>\n"),
        }
    }
    foot(out, document);
    out.push_str("</article>\n");
}

fn element(out: &mut String, name: &str, words: &str) {
    push(out, format_args!("<{name}>{}</{name}>\n", xml::text(words)));
}

fn table(out: &mut String, of: &Table) {
    if of.columns.is_empty() {
        return;
    }
    out.push_str("<div class=\"table\"><table>\n<thead><tr>");
    for column in &of.columns {
        let unit = match column.unit.as_str() {
            "" => String::new(),
            unit => format!(" <span class=\"unit\">{}</span>", xml::text(unit)),
        };
        push(
            out,
            format_args!(
                "<th scope=\"col\"{}>{}{unit}</th>",
                side(column),
                xml::text(&column.head)
            ),
        );
    }
    out.push_str("</tr></thead>\n<tbody>\n");
    for row in &of.rows {
        match row.kind {
            RowKind::Body => out.push_str("<tr>"),
            RowKind::Group => {
                let name = row.cells.first().map_or("", |cell| cell.shown());
                push(
                    out,
                    format_args!(
                        "<tr class=\"group\"><td colspan=\"{}\">{}</td></tr>\n",
                        of.columns.len(),
                        xml::text(name)
                    ),
                );
                continue;
            }
            RowKind::Total => out.push_str("<tr class=\"total\">"),
        }
        for (at, column) in of.columns.iter().enumerate() {
            let shown = row.cells.get(at).map_or("", |cell| cell.shown());
            let lines: Vec<_> = shown.lines().map(xml::text).collect();
            push(
                out,
                format_args!("<td{}>{}</td>", side(column), lines.join("<br/>")),
            );
        }
        out.push_str("</tr>\n");
    }
    out.push_str("</tbody>\n</table></div>\n");
}

fn side(column: &Column) -> &'static str {
    if column.right { " class=\"right\"" } else { "" }
}

fn picture(out: &mut String, of: &Picture, units: UnitSystem, letters: &Letters) {
    // On a telephone too: two narrow drawings stay side by side, and shrink.
    let half = if of.share < 0.5 {
        " class=\"half\""
    } else {
        ""
    };
    push(out, format_args!("<figure{half}>\n"));
    if let Some(drawing) = svg::element(of, units, letters) {
        out.push_str(&drawing);
    }
    element(out, "figcaption", &of.caption);
    for words in &of.drawing.captions {
        element(out, "p", words);
    }
    out.push_str("</figure>\n");
}

fn cautions(out: &mut String, lines: &[impl AsRef<str>]) {
    if lines.is_empty() {
        return;
    }
    out.push_str("<section class=\"care\">\n<h2>Take care</h2>\n<ul>\n");
    for line in lines {
        element(out, "li", line.as_ref());
    }
    out.push_str("</ul>\n</section>\n");
}

fn card(out: &mut String, lines: &[CardLine]) {
    if lines.is_empty() {
        return;
    }
    out.push_str("<section class=\"card\">\n");
    for line in lines {
        push(
            out,
            format_args!(
                "<div><b>{}</b> <span>{}</span> <small>{}</small></div>\n",
                xml::text(&line.count),
                xml::text(&line.what),
                xml::text(&line.also)
            ),
        );
    }
    out.push_str("</section>\n");
}

fn foot(out: &mut String, document: &Document) {
    let foot = &document.foot;
    let parts = [
        &foot.file,
        &foot.date,
        &foot.rule,
        &foot.units,
        &foot.version,
    ];
    let parts = parts.iter().filter(|part| !part.trim().is_empty());
    let parts: Vec<_> = parts.map(|part| xml::text(part)).collect();
    push(
        out,
        format_args!("<footer>{}</footer>\n", parts.join(" · ")),
    );
}

fn push(out: &mut String, what: std::fmt::Arguments<'_>) {
    let _ = out.write_fmt(what);
}
