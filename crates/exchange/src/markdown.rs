//! Documents as Markdown: headings, paragraphs, tables. Not here: what stands in them.
//!
//! The text is read the same by any reader of `CommonMark` with tables (the pipe tables of GitHub Flavored
//! Markdown, section 4.10), and stays legible as it is. Pictures cannot be told in it; each is named with
//! the words under it.

use hodful_documents::{Block, CardLine, Document, RowKind, Table};
use std::fmt::Write;

/// A document as Markdown, with a final newline.
///
/// Letters that would mean something to a reader of Markdown are escaped, line breaks within a text become
/// blanks. Any text is taken; nothing in a document can break a table.
///
/// ```
/// use hodful_documents::{Block, Document, Foot, Paper};
/// use hodful_exchange::markdown;
/// use hodful_quantities::print::UnitSystem;
/// let document = Document {
///     paper: Paper::Summary,
///     title: "Summary".into(),
///     about: "Shed *two*".into(),
///     blocks: vec![Block::Words("a | b".into())],
///     foot: Foot::new("shed.json", "2026-03-01", "Hodful", None, UnitSystem::Us),
///     units: UnitSystem::Us,
/// };
/// let text = markdown(&document);
/// assert!(text.starts_with("# Summary\n\n**Shed \\*two\\***\n\na \\| b\n"));
/// ```
pub fn markdown(document: &Document) -> String {
    let mut out = String::new();
    paragraph(&mut out, &format!("# {}", inline(&document.title)));
    if !document.about.trim().is_empty() {
        paragraph(&mut out, &format!("**{}**", inline(&document.about)));
    }
    for block in &document.blocks {
        match block {
            Block::Heading(words) => paragraph(&mut out, &format!("## {}", inline(words))),
            Block::Words(words) => paragraph(&mut out, &inline(words)),
            Block::Table(of) => table(&mut out, of),
            Block::Picture(picture) => {
                let words = format!("*Drawing, left out here: {}.*", inline(&picture.caption));
                paragraph(&mut out, &words);
            }
            Block::Cautions(lines) => cautions(&mut out, lines),
            Block::Card(lines) => card(&mut out, lines),
            Block::NewPage => paragraph(&mut out, "---"),
        }
    }
    foot(&mut out, document);
    out
}

/// A paragraph after an empty line.
fn paragraph(out: &mut String, words: &str) {
    if !out.is_empty() {
        out.push('\n');
    }
    out.push_str(words);
    out.push('\n');
}

fn cautions(out: &mut String, lines: &[impl AsRef<str>]) {
    if lines.is_empty() {
        return;
    }
    paragraph(out, "## Take care\n");
    for line in lines {
        push(out, format_args!("- {}\n", inline(line.as_ref())));
    }
}

fn card(out: &mut String, lines: &[CardLine]) {
    if lines.is_empty() {
        return;
    }
    out.push('\n');
    for line in lines {
        let also = inline(&line.also);
        let also = if also.is_empty() {
            also
        } else {
            format!(" ({also})")
        };
        push(
            out,
            format_args!(
                "- **{}** {}{also}\n",
                inline(&line.count),
                inline(&line.what)
            ),
        );
    }
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
    let parts: Vec<String> = parts.map(|part| inline(part)).collect();
    if !parts.is_empty() {
        paragraph(out, "---");
        paragraph(out, &parts.join(" · "));
    }
}

/// A table with its columns padded, so that it is legible as text too.
fn table(out: &mut String, of: &Table) {
    if of.columns.is_empty() {
        return;
    }
    let heads = of.columns.iter().map(|column| {
        let head = inline(&column.head);
        match column.unit.as_str() {
            "" => head,
            unit => format!("{head} {}", inline(unit)),
        }
    });
    let mut rows: Vec<Vec<String>> = vec![heads.collect()];
    for row in &of.rows {
        let cells = row.cells.iter().map(|cell| {
            // There are no lines within a cell.
            let lines: Vec<String> = cell.shown().lines().map(inline).collect();
            lines.join("; ")
        });
        let mut cells: Vec<String> = cells.collect();
        // A row has a cell for each column, and no more.
        cells.resize(of.columns.len(), String::new());
        if row.kind != RowKind::Body {
            for cell in cells.iter_mut().filter(|cell| !cell.is_empty()) {
                *cell = format!("**{cell}**");
            }
        }
        rows.push(cells);
    }
    let widths: Vec<usize> = (0..of.columns.len())
        .map(|at| {
            let cells = rows.iter().filter_map(|row| row.get(at));
            let widest = cells.map(|cell| cell.chars().count()).max();
            // A wide column of words is not padded: its rows would only grow longer.
            widest.unwrap_or_default().clamp(3, MOST_PADDED)
        })
        .collect();
    out.push('\n');
    for (number, row) in rows.iter().enumerate() {
        for ((cell, width), column) in row.iter().zip(&widths).zip(&of.columns) {
            let blanks = " ".repeat(width.saturating_sub(cell.chars().count()));
            if column.right {
                push(out, format_args!("| {blanks}{cell} "));
            } else {
                push(out, format_args!("| {cell}{blanks} "));
            }
        }
        out.push_str("|\n");
        if number == 0 {
            for (width, column) in widths.iter().zip(&of.columns) {
                let dashes = "-".repeat(width.saturating_sub(1));
                if column.right {
                    push(out, format_args!("| {dashes}: "));
                } else {
                    push(out, format_args!("| {dashes}- "));
                }
            }
            out.push_str("|\n");
        }
    }
}

/// Letters to which a column is padded at most.
const MOST_PADDED: usize = 40;

/// Writes into a text, which cannot fail.
fn push(out: &mut String, what: std::fmt::Arguments<'_>) {
    let _ = out.write_fmt(what);
}

/// A text as one line in which no letter means anything to a reader of Markdown. The signs are those
/// that `CommonMark` (0.31, 2.4) lets be escaped and that mean something within a line, and the pipe; a
/// sign that means something only where a line begins is escaped there.
fn inline(text: &str) -> String {
    let mut out = String::new();
    for word in text.split_whitespace() {
        if !out.is_empty() {
            out.push(' ');
        }
        for letter in word.chars().filter(|letter| !letter.is_control()) {
            let means = matches!(
                letter,
                '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '~' | '&' | '#'
            );
            let begins = out.is_empty() && matches!(letter, '-' | '+' | '=');
            if means || begins {
                out.push('\\');
            }
            out.push(letter);
        }
    }
    // A number with a point begins a list.
    let digits = out.bytes().take_while(u8::is_ascii_digit).count();
    if digits > 0
        && out
            .get(digits..)
            .is_some_and(|rest| rest.starts_with(". ") || rest.starts_with(") "))
    {
        out.insert(digits, '\\');
    }
    out
}
