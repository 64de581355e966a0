//! Pages painted as a PDF, with the foot on each. Not here: setting them out.

use super::flow::{Type, fitted, points};
use super::page::{Item, POINTS, Page};
use crate::PaperFault;
use crate::letters::{BOLD, Letters, REGULAR, Weight};
use crate::picture::{Dash, Hold, Mark};
use crate::svg::shade;
use hodful_documents::{Document, Foot};
use krilla::color::luma;
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};

const FOOT: Type = Type {
    size: 7.5,
    leading: 9.5,
    weight: Weight::Regular,
};

/// The fonts as the maker of the PDF takes them.
struct Fonts {
    regular: Font,
    bold: Font,
}

impl Fonts {
    fn of(&self, weight: Weight) -> &Font {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }
}

pub(super) fn paint(
    documents: &[Document],
    pages: &[(usize, Page)],
    letters: &Letters,
) -> Result<Vec<u8>, PaperFault> {
    let font = |bytes: &'static [u8]| Font::new(bytes.into(), 0).ok_or(PaperFault::Letters);
    let fonts = Fonts {
        regular: font(REGULAR)?,
        bold: font(BOLD)?,
    };
    let mut file = krilla::Document::new();
    for (number, (document, page)) in pages.iter().enumerate() {
        let size = PageSettings::from_wh(single(page.sheet.wide), single(page.sheet.high));
        let settings = size.ok_or_else(|| PaperFault::Pdf("a page has no size".into()))?;
        let mut sheet = file.start_page_with(settings);
        let mut surface = sheet.surface();
        let mut brush = Brush {
            surface: &mut surface,
            letters,
            fonts: &fonts,
        };
        for item in &page.items {
            brush.item(item);
        }
        if let Some(document) = documents.get(*document) {
            brush.foot(&document.foot, page, [number + 1, pages.len()]);
        }
        surface.finish();
        sheet.finish();
    }
    file.set_outline(outline(pages));
    file.set_metadata(metadata(documents));
    file.finish()
        .map_err(|fault| PaperFault::Pdf(format!("{fault:?}")))
}

fn metadata(documents: &[Document]) -> Metadata {
    let mut titles: Vec<&str> = documents.iter().map(|d| d.title.as_str()).collect();
    titles.dedup();
    let first = documents.first();
    let about = first.map_or("", |document| document.about.as_str());
    let title = match about.trim() {
        "" => titles.join(", "),
        about => format!("{}: {about}", titles.join(", ")),
    };
    let mut metadata = Metadata::new()
        .language("en".into())
        .document_id(title.clone())
        .title(title);
    if let Some(document) = first {
        metadata = metadata.creator(document.foot.version.to_string());
        if let Some(date) = date(&document.foot.date) {
            metadata = metadata.creation_date(date);
        }
    }
    metadata
}

/// A day from `2026-03-02`; `None` when it is not written so.
fn date(text: &str) -> Option<DateTime> {
    let mut parts = text.trim().split('-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    let (year, month, day): (u16, u8, u8) =
        (year.parse().ok()?, month.parse().ok()?, day.parse().ok()?);
    let sound = parts.next().is_none()
        && (1..=9999).contains(&year)
        && (1..=12).contains(&month)
        && (1..=31).contains(&day);
    sound.then(|| DateTime::new(year).month(month).day(day))
}

/// The list of contents: each document, its headings under it.
fn outline(pages: &[(usize, Page)]) -> Outline {
    let mut nodes: Vec<OutlineNode> = Vec::new();
    for (number, (_, page)) in pages.iter().enumerate() {
        for entry in &page.marks {
            let at = Point::from_xy(0.0, single(entry.at - 10.0));
            let node = OutlineNode::new(entry.words.clone(), XyzDestination::new(number, at));
            match nodes.last_mut().filter(|_| !entry.is_title) {
                Some(last) => last.push_child(node),
                None => nodes.push(node),
            }
        }
    }
    let mut outline = Outline::new();
    for node in nodes {
        outline.push_child(node);
    }
    outline
}

/// What paints a page.
struct Brush<'a, 's> {
    surface: &'a mut Surface<'s>,
    letters: &'a Letters,
    fonts: &'a Fonts,
}

impl Brush<'_, '_> {
    fn item(&mut self, item: &Item) {
        match item {
            Item::Text {
                at,
                text,
                size,
                weight,
            } => self.text(*at, text, *size, *weight),
            Item::Rule {
                from,
                to,
                width,
                grey,
            } => self.line(&[*from, *to], false, *width, *grey, &[]),
            Item::Frame { edges, width } => {
                let [left, top, right, bottom] = *edges;
                let ring = [[left, top], [right, top], [right, bottom], [left, bottom]];
                self.line(&ring, true, *width, 0.0, &[]);
            }
            Item::Picture { at, marks } => {
                for mark in marks {
                    self.mark(*at, mark);
                }
            }
        }
    }

    /// A mark of a picture, whose corner is at a place of the page.
    fn mark(&mut self, corner: [f64; 2], mark: &Mark) {
        let place = |at: &[f64; 2]| [corner[0] + points(at[0]), corner[1] + points(at[1])];
        match mark {
            Mark::Line {
                points: line,
                closed,
                width,
                dash,
            } => {
                let line: Vec<[f64; 2]> = line.iter().map(place).collect();
                let dash = match dash {
                    Dash::Whole => Vec::new(),
                    broken => broken.pattern().iter().map(|mm| points(*mm)).collect(),
                };
                self.line(&line, *closed, points(*width), 0.0, &dash);
            }
            Mark::Area { ring, grey } => {
                let ring: Vec<[f64; 2]> = ring.iter().map(place).collect();
                if let Some(path) = path(&ring, true) {
                    self.surface.set_stroke(None);
                    self.surface.set_fill(Some(Fill {
                        rule: FillRule::EvenOdd,
                        ..ink(*grey)
                    }));
                    self.surface.draw_path(&path);
                }
            }
            Mark::Words {
                at,
                text,
                size,
                hold,
                upright,
            } => {
                let size = size * POINTS;
                let wide = self.letters.width(text, Weight::Regular) * size;
                let back = match hold {
                    Hold::Left => 0.0,
                    Hold::Middle => wide / 2.0,
                };
                let [x, y] = place(at);
                if *upright {
                    // A quarter turn to the left: along is up the page.
                    let turn = Transform::from_row(0.0, -1.0, 1.0, 0.0, single(x), single(y));
                    self.surface.push_transform(&turn);
                    self.text([-back, 0.0], text, size, Weight::Regular);
                    self.surface.pop();
                } else {
                    self.text([x - back, y], text, size, Weight::Regular);
                }
            }
        }
    }

    fn text(&mut self, [x, y]: [f64; 2], text: &str, size: f64, weight: Weight) {
        let glyphs: Vec<KrillaGlyph> = self
            .letters
            .glyphs(text, weight)
            .into_iter()
            .map(|glyph| {
                KrillaGlyph::new(
                    GlyphId::new(glyph.id),
                    single(glyph.advance),
                    single(glyph.offset[0]),
                    single(glyph.offset[1]),
                    0.0,
                    glyph.range,
                    None,
                )
            })
            .collect();
        if glyphs.is_empty() {
            return;
        }
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(ink(0.0)));
        let at = Point::from_xy(single(x), single(y));
        let font = self.fonts.of(weight).clone();
        self.surface
            .draw_glyphs(at, &glyphs, font, text, single(size), false);
    }

    fn line(&mut self, line: &[[f64; 2]], closed: bool, width: f64, grey: f64, dash: &[f64]) {
        let Some(path) = path(line, closed) else {
            return;
        };
        self.surface.set_fill(None);
        self.surface.set_stroke(Some(Stroke {
            paint: luma::Color::new(shade(grey)).into(),
            width: single(width),
            line_join: LineJoin::Round,
            dash: (!dash.is_empty()).then(|| StrokeDash {
                array: dash.iter().map(|length| single(*length)).collect(),
                offset: 0.0,
            }),
            ..Stroke::default()
        }));
        self.surface.draw_path(&path);
    }

    /// The foot: where the figures come from and which page it is, over the rule and the units.
    fn foot(&mut self, foot: &Foot, page: &Page, [number, of]: [usize; 2]) {
        let sheet = page.sheet;
        let top = sheet.bottom() + 12.0;
        self.line(
            &[[sheet.left(), top], [sheet.right(), top]],
            false,
            0.4,
            0.0,
            &[],
        );
        let joined = |parts: &[&str]| {
            let parts = parts.iter().map(|part| part.trim());
            let parts: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
            parts.join(" · ")
        };
        let lines = [
            (
                joined(&[&foot.file, &foot.date]),
                format!("page {number} of {of}"),
            ),
            (joined(&[&foot.rule, &foot.units]), foot.version.to_string()),
        ];
        let mut y = top + 10.0;
        for (left, right) in lines {
            let room = sheet.width() * 0.3;
            let right = fitted(&right, FOOT, room, self.letters);
            let wide = self.letters.width(&right, FOOT.weight) * FOOT.size;
            let room = sheet.width() - wide - 12.0;
            let left = fitted(&left, FOOT, room, self.letters);
            self.text([sheet.left(), y], &left, FOOT.size, FOOT.weight);
            self.text([sheet.right() - wide, y], &right, FOOT.size, FOOT.weight);
            y += FOOT.leading;
        }
    }
}

fn ink(grey: f64) -> Fill {
    Fill {
        paint: luma::Color::new(shade(grey)).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }
}

fn path(line: &[[f64; 2]], closed: bool) -> Option<Path> {
    let mut path = PathBuilder::new();
    for (at, [x, y]) in line.iter().enumerate() {
        if at == 0 {
            path.move_to(single(*x), single(*y));
        } else {
            path.line_to(single(*x), single(*y));
        }
    }
    if closed {
        path.close();
    }
    path.finish()
}

/// A length as the maker of the PDF takes it; a page is no wider than it can hold to a thousandth of a
/// point.
#[allow(
    clippy::cast_possible_truncation,
    reason = "from double to single precision"
)]
fn single(length: f64) -> f32 {
    length as f32
}
