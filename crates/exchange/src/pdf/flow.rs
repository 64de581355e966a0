//! Blocks of a document one under another, over as many pages as they take. Not here: tables, pictures
//! and cards in themselves.

use super::page::{Entry, Item, POINTS, Page, Sheet};
use super::{card, pictures, table};
use crate::letters::{Letters, Weight};
use hodful_documents::{Block, Document};

/// A size of letters with the distance from line to line, points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Type {
    pub(super) size: f64,
    pub(super) leading: f64,
    pub(super) weight: Weight,
}

const TITLE: Type = Type {
    size: 22.0,
    leading: 25.0,
    weight: Weight::Bold,
};
const ABOUT: Type = Type {
    size: 12.0,
    leading: 15.0,
    weight: Weight::Regular,
};
const HEADING: Type = Type {
    size: 13.0,
    leading: 16.0,
    weight: Weight::Bold,
};
pub(super) const WORDS: Type = Type {
    size: 9.5,
    leading: 12.5,
    weight: Weight::Regular,
};
/// Cautions: smaller, so that all of them stand together.
const CARE: Type = Type {
    size: 8.5,
    leading: 11.0,
    weight: Weight::Regular,
};
const RUNNING: Type = Type {
    size: 8.0,
    leading: 10.0,
    weight: Weight::Regular,
};

/// A heading over a card is read from as far as the card.
const OVER_CARD: Type = Type {
    size: 26.0,
    leading: 30.0,
    weight: Weight::Bold,
};

/// The most of a page that is left for what stands under a card.
const UNDER_CARD: f64 = 0.35;

/// Longest line of words, points: some eighty letters, past which the eye loses the next line.
const MEASURE: f64 = 400.0;

/// A document being set out.
pub(super) struct Flow<'a> {
    pub(super) sheet: Sheet,
    pub(super) letters: &'a Letters,
    document: &'a Document,
    pages: Vec<Page>,
    page: Page,
    /// How far down the page is filled.
    pub(super) y: f64,
}

impl<'a> Flow<'a> {
    pub(super) fn new(sheet: Sheet, letters: &'a Letters, document: &'a Document) -> Self {
        Self {
            sheet,
            letters,
            document,
            pages: Vec::new(),
            page: Page {
                sheet,
                items: Vec::new(),
                marks: Vec::new(),
            },
            y: sheet.top(),
        }
    }

    /// Sets the whole document out.
    pub(super) fn document(&mut self) {
        let document = self.document;
        let entry = match document.about.trim() {
            "" => document.title.to_string(),
            about => format!("{}, {about}", document.title),
        };
        self.page.marks.push(Entry {
            words: entry,
            at: self.y,
            is_title: true,
        });
        self.lines(&document.title, TITLE, self.sheet.width());
        if !document.about.trim().is_empty() {
            self.lines(&document.about, ABOUT, self.sheet.width());
        }
        self.y += 6.0;
        self.rule(0.8, 0.0);
        self.y += 8.0;
        let mut blocks = document.blocks.as_slice();
        while let Some((block, rest)) = blocks.split_first() {
            let run = pictures::run(blocks);
            if run.is_empty() {
                self.block(block, rest);
                blocks = rest;
            } else {
                pictures::place(self, run, document.units);
                blocks = blocks.get(run.len()..).unwrap_or_default();
            }
        }
    }

    /// The pages, with the running head on all but the first.
    pub(super) fn finish(mut self) -> Vec<Page> {
        self.pages.push(self.page);
        let running = format!("{}, {}", self.document.title, self.document.about);
        for page in self.pages.iter_mut().skip(1) {
            let text = fitted(&running, RUNNING, self.sheet.width(), self.letters);
            page.items.push(Item::Text {
                at: [self.sheet.left(), self.sheet.top() - 14.0],
                text,
                size: RUNNING.size,
                weight: RUNNING.weight,
            });
        }
        self.pages
    }

    fn block(&mut self, block: &Block, rest: &[Block]) {
        match block {
            Block::Heading(words) => self.heading(words, rest.first()),
            Block::Words(words) => {
                self.lines(words, WORDS, self.sheet.width().min(MEASURE));
                self.y += 5.0;
            }
            Block::Table(of) => table::place(self, of),
            Block::Cautions(lines) => self.cautions(lines),
            Block::Card(lines) => {
                let under = self.under_card(rest);
                card::place(self, lines, under);
            }
            Block::NewPage => {
                if self.y > self.sheet.top() {
                    self.new_page();
                }
            }
            // Taken in runs before.
            Block::Picture(_) => {}
        }
    }

    /// Height of what belongs to a card and stands under it: words and small tables.
    fn under_card(&self, rest: &[Block]) -> f64 {
        let of = |block: &Block| match block {
            Block::Words(words) => {
                let wide = self.sheet.width().min(MEASURE);
                let lines = self.letters.lines(words, WORDS.weight, wide / WORDS.size);
                Some(WORDS.leading * count(lines.len()) + 5.0)
            }
            Block::Table(table) => Some(table::beginning(self, table) + 8.0),
            _ => None,
        };
        let high: f64 = rest.iter().map_while(of).sum();
        high.min(self.whole() * UNDER_CARD)
    }

    /// A heading, on the page on which what it stands over begins.
    fn heading(&mut self, words: &str, next: Option<&Block>) {
        let under = match next {
            Some(Block::Picture(picture)) => pictures::height(self, picture, self.document.units),
            Some(Block::Table(table)) => table::beginning(self, table),
            Some(_) => 2.0 * WORDS.leading,
            None => 0.0,
        };
        let wide = self.sheet.width();
        let of = match next {
            Some(Block::Card(_)) => OVER_CARD,
            _ => HEADING,
        };
        let lines = self.letters.lines(words, of.weight, wide / of.size);
        let high = of.leading * count(lines.len());
        if self.y > self.sheet.top() {
            self.y += 12.0;
        }
        self.make_room(high + 4.0 + under);
        self.page.marks.push(Entry {
            words: words.to_owned(),
            at: self.y,
            is_title: false,
        });
        self.lines(words, of, wide);
        self.y += 3.0;
    }

    /// Cautions in a frame, which goes on over the page where it must.
    fn cautions(&mut self, lines: &[impl AsRef<str>]) {
        const PAD: f64 = 8.0;
        const MARK: f64 = 10.0;
        if lines.is_empty() {
            return;
        }
        let left = self.sheet.left() + PAD;
        let wide = self.sheet.width() - 2.0 * PAD - MARK;
        let letters = self.letters;
        self.y += 12.0;
        let broken: Vec<Vec<&str>> = lines
            .iter()
            .map(|words| letters.lines(words.as_ref(), CARE.weight, wide / CARE.size))
            .collect();
        let high: f64 = broken
            .iter()
            .map(|lines| count(lines.len()) * CARE.leading + 1.0)
            .sum();
        let high = high + PAD * 2.0 + HEADING.leading + 2.0;
        // Together on a page, where a page holds them.
        self.make_room(high.min(self.whole()));
        let mut top = self.y;
        self.y += PAD;
        self.line(left, "Take care", HEADING);
        self.y += 2.0;
        for lines in broken {
            for (at, line) in lines.into_iter().enumerate() {
                if self.y + CARE.leading + PAD > self.sheet.bottom() {
                    self.close_frame(top, PAD);
                    self.new_page();
                    top = self.y;
                    self.y += PAD;
                    self.line(left, "Take care, continued", HEADING);
                    self.y += 2.0;
                }
                if at == 0 {
                    self.put(Item::Text {
                        at: [left, self.y + base(CARE)],
                        text: "•".into(),
                        size: CARE.size,
                        weight: CARE.weight,
                    });
                }
                self.line(left + MARK, line, CARE);
            }
            self.y += 1.0;
        }
        self.close_frame(top, PAD);
        self.y += 8.0;
    }

    fn close_frame(&mut self, top: f64, pad: f64) {
        self.y += pad - 3.0;
        let edges = [self.sheet.left(), top, self.sheet.right(), self.y];
        self.put(Item::Frame { edges, width: 1.2 });
    }

    /// Words in lines no wider than `wide`, over the page where they must.
    pub(super) fn lines(&mut self, words: &str, of: Type, wide: f64) {
        let lines = self.letters.lines(words, of.weight, wide / of.size);
        let many = lines.len();
        for (at, line) in lines.into_iter().enumerate() {
            // No first and no last line alone on a page.
            let together = if many > 2 && (at == 0 || at + 2 == many) {
                2.0
            } else {
                1.0
            };
            self.make_room(of.leading * together);
            self.line(self.sheet.left(), line, of);
        }
    }

    /// One line, down which the page then is filled.
    pub(super) fn line(&mut self, left: f64, text: &str, of: Type) {
        self.put(Item::Text {
            at: [left, self.y + base(of)],
            text: text.to_owned(),
            size: of.size,
            weight: of.weight,
        });
        self.y += of.leading;
    }

    /// A line across the page.
    pub(super) fn rule(&mut self, width: f64, grey: f64) {
        self.put(Item::Rule {
            from: [self.sheet.left(), self.y],
            to: [self.sheet.right(), self.y],
            width,
            grey,
        });
    }

    pub(super) fn put(&mut self, item: Item) {
        self.page.items.push(item);
    }

    /// What is left of the page.
    pub(super) fn left_over(&self) -> f64 {
        self.sheet.bottom() - self.y
    }

    /// Height of a page for text.
    pub(super) fn whole(&self) -> f64 {
        self.sheet.bottom() - self.sheet.top()
    }

    /// Begins a page when less is left of this one, unless this one is empty.
    pub(super) fn make_room(&mut self, high: f64) {
        if self.left_over() < high && self.y > self.sheet.top() {
            self.new_page();
        }
    }

    pub(super) fn new_page(&mut self) {
        let empty = Page {
            sheet: self.sheet,
            items: Vec::new(),
            marks: Vec::new(),
        };
        self.pages.push(std::mem::replace(&mut self.page, empty));
        self.y = self.sheet.top();
    }
}

/// From the top of a line to its base: the letters in the middle of the leading.
pub(super) fn base(of: Type) -> f64 {
    f64::midpoint(of.leading, of.size * crate::letters::CAPITAL)
}

/// A count as a number; exact as far as pages go.
pub(super) fn count(of: usize) -> f64 {
    u32::try_from(of).map_or(f64::from(u32::MAX), f64::from)
}

/// A text in one line, cut with an ellipsis where it is too wide.
pub(super) fn fitted(text: &str, of: Type, wide: f64, letters: &Letters) -> String {
    if letters.width(text, of.weight) * of.size <= wide {
        return text.split_whitespace().collect::<Vec<_>>().join(" ");
    }
    let room = wide / of.size - letters.width("…", of.weight);
    let lines = letters.lines(text, of.weight, room.max(1.0));
    format!("{}…", lines.first().copied().unwrap_or_default())
}

/// Millimetres as points.
pub(super) fn points(mm: f64) -> f64 {
    mm * POINTS
}
