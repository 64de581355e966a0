//! A page and what stands on it, in points from its upper left corner. Not here: what goes where.

use crate::letters::Weight;
use crate::picture::Mark;
use hodful_quantities::print::UnitSystem;

/// Points in a millimetre: 72 in an inch.
pub(super) const POINTS: f64 = 72.0 / 25.4;

/// A sheet of paper with its margins, points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Sheet {
    pub(super) wide: f64,
    pub(super) high: f64,
}

impl Sheet {
    /// Letter (8 1/2 by 11 in) for feet and inches, A4 (ISO 216, 210 by 297 mm) for metres.
    pub(super) fn of(units: UnitSystem) -> Self {
        match units {
            UnitSystem::Us => Self {
                wide: 612.0,
                high: 792.0,
            },
            UnitSystem::Metric => Self {
                wide: 210.0 * POINTS,
                high: 297.0 * POINTS,
            },
        }
    }

    /// The left and the right edge of what is printed: 18 mm, room for the holes of a binder.
    pub(super) fn left(self) -> f64 {
        let _ = self;
        18.0 * POINTS
    }

    pub(super) fn right(self) -> f64 {
        self.wide - 18.0 * POINTS
    }

    pub(super) fn width(self) -> f64 {
        self.right() - self.left()
    }

    /// Where the text begins and ends; the foot stands below.
    pub(super) fn top(self) -> f64 {
        let _ = self;
        18.0 * POINTS
    }

    pub(super) fn bottom(self) -> f64 {
        self.high - 22.0 * POINTS
    }
}

/// A page set out.
#[derive(Debug, Clone)]
pub(super) struct Page {
    pub(super) sheet: Sheet,
    pub(super) items: Vec<Item>,
    /// What the reader's list of contents leads to.
    pub(super) marks: Vec<Entry>,
}

/// A heading that can be gone to.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Entry {
    pub(super) words: String,
    /// Points from the top.
    pub(super) at: f64,
    /// Whether it is the title of a document.
    pub(super) is_title: bool,
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Item {
    /// Words in one line, their left end on the base line.
    Text {
        at: [f64; 2],
        text: String,
        size: f64,
        weight: Weight,
    },
    /// A straight line.
    Rule {
        from: [f64; 2],
        to: [f64; 2],
        width: f64,
        /// From 0, black, to 1, white.
        grey: f64,
    },
    /// A frame.
    Frame {
        /// Left, top, right, bottom.
        edges: [f64; 4],
        width: f64,
    },
    /// A picture set out, in millimetres, its upper left corner here.
    Picture { at: [f64; 2], marks: Vec<Mark> },
}
