//! Every scene of every demo project at every size. Not here: what a single drawing shows.

use super::{demos, scenes, screen, sketch};
use crate::sketch::{Marker, Sketch, fit};
use hodful_takeoff::drawing::Drawing;
use hodful_takeoff::form::Subject;
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Rect;
use ratatui::widgets::Widget;

/// At every size every word stands whole, inside the area, on cells of its own, a blank between it and
/// the next; nothing outside the area is touched; and a mark shows wherever there is a cell.
#[test]
fn words_stand_whole_and_apart_at_every_size() {
    const SHARE: usize = 7;
    let markers = [Marker::Braille, Marker::HalfBlock, Marker::Ascii];
    let mut turn = 0_usize;
    for project in demos() {
        for (drawing, of) in scenes(&project) {
            let refused: Vec<Subject> = of.into_iter().collect();
            for wide in 0..=60_u16 {
                for high in 0..=30_u16 {
                    turn += 1;
                    // A seventh of the sizes of each scene, others for the next: together all of them.
                    if !turn.is_multiple_of(SHARE) {
                        continue;
                    }
                    let sketch = Sketch {
                        chosen: of.filter(|_| turn.is_multiple_of(2)),
                        refused: if turn.is_multiple_of(5) {
                            &refused
                        } else {
                            &[]
                        },
                        ..sketch(&drawing, markers[turn % 3])
                    };
                    holds(&sketch, Rect::new(3, 2, wide, high));
                }
            }
        }
    }
}

fn holds(sketch: &Sketch<'_>, area: Rect) {
    let around = Rect::new(0, 0, area.width + 7, area.height + 5);
    let mut buffer = Buffer::filled(around, Cell::new("~"));
    sketch.render(area, &mut buffer);
    for y in 0..around.height {
        for x in 0..around.width {
            if !area.contains((x, y).into()) {
                assert_eq!(buffer[(x, y)].symbol(), "~", "outside at {x} {y} of {area}");
            }
        }
    }
    let Some((_, _, page)) = sketch.composed(area) else {
        return;
    };
    let mut known = vec![0_u8; usize::from(around.width) * usize::from(around.height)];
    let at = |x: u16, y: u16| usize::from(y) * usize::from(around.width) + usize::from(x);
    for (x, y, text, _) in &page.texts {
        let wide = fit::width(text);
        assert!(
            *x >= area.x && x + wide <= area.right() && *y >= area.y && *y < area.bottom(),
            "'{text}' leaves {area}"
        );
        let shown: String = (*x..x + wide).map(|x| buffer[(x, *y)].symbol()).collect();
        assert_eq!(&shown, text, "in {area}");
        for x in *x..x + wide {
            assert_eq!(known[at(x, *y)], 0, "'{text}' on other words in {area}");
        }
        // A mark alone may stand beside a word; words may not touch words.
        if wide > 1 {
            for beside in [x - 1, x + wide] {
                assert_ne!(known[at(beside, *y)], 2, "'{text}' touches words in {area}");
            }
        }
        for x in *x..x + wide {
            known[at(x, *y)] = if wide > 1 { 2 } else { 1 };
        }
        let words = text.trim_end_matches(['!', '?']);
        assert!(
            is_said(sketch.drawing, words),
            "'{text}' is not of the drawing"
        );
    }
    for (x, y, _) in &page.lines {
        assert_eq!(known[at(*x, *y)], 0, "a line on words in {area}");
    }
    if !sketch.refused.is_empty() && names(sketch.drawing, sketch.refused[0]) {
        let all = screen(&buffer).concat();
        assert!(all.contains('!'), "no mark in {area}");
    }
}

fn names(drawing: &Drawing, of: Subject) -> bool {
    let mut labels = drawing.labels.iter();
    labels.any(|label| label.names && label.of == Some(of))
}

/// Whether words are a text of the drawing, whole, or several of its captions.
fn is_said(drawing: &Drawing, words: &str) -> bool {
    let plain = |text: &str| text.replace('°', "d").replace('\u{a0}', " ");
    let figures = drawing.dimensions.iter().map(|figure| &figure.text);
    let labels = drawing.labels.iter().map(|label| &label.text);
    let same = |text: &str| text == words || !text.is_ascii() && plain(text) == words;
    let captions = || {
        words
            .split("; ")
            .all(|part| drawing.captions.iter().any(|c| c == part))
    };
    words.is_empty() || captions() || figures.chain(labels).any(|text| same(text))
}
