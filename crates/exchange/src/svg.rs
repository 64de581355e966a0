//! A picture as SVG (Scalable Vector Graphics 1.1), in millimetres of paper: lines as wide as they are
//! drawn, greys and hatching that hold in black and white, dimensions, names, a title, a scale bar. Not
//! here: setting it out.

use crate::letters::{Letters, Weight};
use crate::picture::{Dash, Hold, LETTERS, Mark, Plot, Room, plot};
use crate::{PaperFault, xml};
use hodful_documents::Picture;
use hodful_quantities::print::UnitSystem;
use std::fmt::Write;

/// The largest picture, mm: the width within the margins of a page, and what leaves room for words on it.
pub(crate) const ROOM: Room = Room {
    wide: 174.0,
    high: 110.0,
};

/// Height of a picture that may take a whole page, mm: what Letter leaves within the margins for it and its words.
const TALL: f64 = 220.0;

fn room(picture: &Picture) -> Room {
    let high = if picture.is_tall { TALL } else { ROOM.high };
    Room { high, ..ROOM }
}

/// Paper left free round a drawing that stands alone, mm.
const MARGIN: f64 = 6.0;

/// Size of the letters of the title, mm.
const TITLE: f64 = 4.2;

/// What letters are asked for; the widths are those of the first.
const FAMILY: &str =
    "'Source Sans 3','Source Sans Pro','Noto Sans','Helvetica Neue',Arial,sans-serif";

/// A picture as an SVG file of its own, with its caption as title, at the largest standard scale at which
/// it is no more than 174 mm wide and 110 mm high, or 220 mm where it may be tall. Printed at its own size it is to scale.
///
/// A picture of nothing gives its caption and the words of the drawing alone.
///
/// # Errors
/// [`PaperFault::Letters`] when the fonts that are built in cannot be read.
pub fn svg(picture: &Picture, units: UnitSystem) -> Result<String, PaperFault> {
    let letters = Letters::new().ok_or(PaperFault::Letters)?;
    let plot = plot(picture, units, room(picture), &letters);
    let wide = plot.as_ref().map_or(ROOM.wide / 2.0, |plot| plot.wide);
    let title = picture.caption.as_str();
    let mut lines: Vec<(String, Weight, f64)> = letters
        .lines(title, Weight::Bold, wide.max(60.0) / TITLE)
        .into_iter()
        .map(|line| (line.to_owned(), Weight::Bold, TITLE))
        .collect();
    for words in &picture.drawing.captions {
        let words = letters.lines(words, Weight::Regular, wide.max(60.0) / LETTERS);
        lines.extend(
            words
                .into_iter()
                .map(|line| (line.to_owned(), Weight::Regular, LETTERS)),
        );
    }
    let wide = wide.max(60.0) + 2.0 * MARGIN;
    let head: f64 = lines.iter().map(|(_, _, size)| size * 1.35).sum();
    let high = plot.as_ref().map_or(0.0, |plot| plot.high + MARGIN) + head + 2.0 * MARGIN;
    let mut out = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    open(&mut out, wide, high, title);
    push(
        &mut out,
        format_args!(
            "<rect width=\"{}\" height=\"{}\" fill=\"#fff\"/>\n",
            mm(wide),
            mm(high)
        ),
    );
    let mut base = MARGIN;
    for (line, weight, size) in &lines {
        base += size * 1.1;
        let bold = match weight {
            Weight::Bold => " font-weight=\"bold\"",
            Weight::Regular => "",
        };
        push(
            &mut out,
            format_args!(
                "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{bold}>{}</text>\n",
                mm(MARGIN),
                mm(base),
                mm(*size),
                xml::text(line)
            ),
        );
        base += size * 0.25;
    }
    if let Some(plot) = &plot {
        push(
            &mut out,
            format_args!(
                "<g transform=\"translate({} {})\">\n",
                mm(MARGIN),
                mm(2.0 * MARGIN + head)
            ),
        );
        marks(&mut out, plot);
        out.push_str("</g>\n");
    }
    out.push_str("</svg>\n");
    Ok(out)
}

/// A picture as an `svg` element to stand in a page, without title; nothing when there is nothing drawn.
pub(crate) fn element(picture: &Picture, units: UnitSystem, letters: &Letters) -> Option<String> {
    let room = Room {
        wide: ROOM.wide * picture.share.clamp(0.0, 1.0),
        ..room(picture)
    };
    let plot = plot(picture, units, room, letters)?;
    let mut out = String::new();
    open(&mut out, plot.wide, plot.high, &picture.caption);
    marks(&mut out, &plot);
    out.push_str("</svg>\n");
    Some(out)
}

fn open(out: &mut String, wide: f64, high: f64, title: &str) {
    let (wide, high) = (mm(wide), mm(high));
    let title = xml::text(title);
    push(
        out,
        format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}mm\" height=\"{high}mm\" \
             viewBox=\"0 0 {wide} {high}\" role=\"img\" font-family=\"{FAMILY}\" fill=\"#000\" \
             stroke-linejoin=\"round\">\n<title>{title}</title>\n"
        ),
    );
}

fn marks(out: &mut String, plot: &Plot) {
    for mark in &plot.marks {
        match mark {
            Mark::Line {
                points,
                closed,
                width,
                dash,
            } => {
                let dash = dashes(*dash);
                let path = path(points, *closed);
                push(
                    out,
                    format_args!(
                        "<path d=\"{path}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{}\"{dash}/>\n",
                        mm(*width)
                    ),
                );
            }
            Mark::Area { ring, grey } => {
                let path = path(ring, true);
                let grey = shade(*grey);
                push(
                    out,
                    format_args!(
                        "<path d=\"{path}\" fill=\"#{grey:02x}{grey:02x}{grey:02x}\" fill-rule=\"evenodd\"/>\n"
                    ),
                );
            }
            Mark::Words {
                at: [x, y],
                text,
                size,
                hold,
                upright,
            } => {
                let anchor = match hold {
                    Hold::Left => "",
                    Hold::Middle => " text-anchor=\"middle\"",
                };
                let (x, y, size) = (mm(*x), mm(*y), mm(*size));
                let turn = if *upright {
                    format!(" transform=\"rotate(-90 {x} {y})\"")
                } else {
                    String::new()
                };
                let text = xml::text(text);
                push(
                    out,
                    format_args!(
                        "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\"{anchor}{turn}>{text}</text>\n"
                    ),
                );
            }
        }
    }
}

/// A grey as one of its three equal parts.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held between 0 and 255"
)]
pub(crate) fn shade(grey: f64) -> u8 {
    (grey * 255.0).round().clamp(0.0, 255.0) as u8
}

fn dashes(dash: Dash) -> String {
    let lengths: Vec<String> = dash.pattern().iter().map(|length| mm(*length)).collect();
    if lengths.is_empty() {
        String::new()
    } else {
        format!(" stroke-dasharray=\"{}\"", lengths.join(" "))
    }
}

fn path(points: &[[f64; 2]], closed: bool) -> String {
    let mut out = String::new();
    for (at, [x, y]) in points.iter().enumerate() {
        let letter = if at == 0 { "M" } else { "L" };
        push(&mut out, format_args!("{letter}{} {}", mm(*x), mm(*y)));
    }
    if closed {
        out.push('Z');
    }
    out
}

/// Millimetres to a hundredth, without zeros at the end: half of the finest line.
fn mm(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    match text {
        "-0" | "" => "0".to_owned(),
        text => text.to_owned(),
    }
}

fn push(out: &mut String, what: std::fmt::Arguments<'_>) {
    let _ = out.write_fmt(what);
}
