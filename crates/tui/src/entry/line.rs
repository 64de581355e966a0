//! A line as it was heard: the thing, its sizes, and the words with their values. Not here: what they
//! come to in a project.

mod listen;
mod names;
mod place;
mod stand;
mod takes;

pub(super) use listen::hear;

use super::pieces::Piece;
use super::words::{Takes, Word};
use super::{Change, Completion, Context, Fault, Reading, Role, Span};
use core::ops::Range;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use hodful_quantities::units::{Angle, Length};
use hodful_quantities::{Typed, print};
use hodful_takeoff::project::{End, RevealPart, Side};

/// What a line is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Thing {
    Plan,
    Wall(WallKind),
    Opening(OpeningKind),
    Pocket,
}

/// The outline of a wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WallKind {
    Level,
    Gable,
    Raked,
    Curved,
}

/// What an opening is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct OpeningKind {
    /// Window, door, or opening; `None` while only its form is said.
    pub(super) noun: Option<Noun>,
    pub(super) form: Form,
}

/// What an opening is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Noun {
    Window,
    Door,
    Opening,
}

/// The form of an opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    Square,
    Arched,
    Round,
}

/// The form of a building on plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum PlanForm {
    /// A rectangle, or a ring once a turn is said.
    Sides,
    Round,
    Ell,
}

/// A turn of a ring and the side after it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Turned {
    pub(super) right: bool,
    /// A right angle when not said.
    pub(super) turn: Option<Typed<Angle>>,
    /// `None` for the turn back into the first side.
    pub(super) length: Option<Typed<Length>>,
}

/// A word with its value.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Note {
    pub(super) word: Word,
    /// The side it is for; `None` when none was said before it.
    pub(super) side: Option<Side>,
    pub(super) value: Value,
}

/// The value of a word.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Value {
    Nothing,
    Length(Typed<Length>),
    Angle(Option<RevealPart>, Typed<Angle>),
    Size([Typed<Length>; 2]),
    End(End),
    Name(EcoString),
}

/// A line as it was heard.
#[derive(Debug)]
pub(super) struct Heard<'a> {
    line: &'a str,
    cursor: usize,
    pub(super) context: Context<'a>,
    pieces: Vec<Piece>,
    /// The piece that is next.
    at: usize,
    /// The side the words are for now.
    pub(super) side: Option<Side>,
    /// Where a shortened word ended.
    shortened: Option<usize>,
    /// Where a value is missing, which must come before any word.
    waits: Option<usize>,
    pub(super) thing: Option<Thing>,
    /// Position of the wall that was named first.
    pub(super) wall: Option<usize>,
    pub(super) count: Option<u32>,
    pub(super) form: PlanForm,
    pub(super) size: Vec<Typed<Length>>,
    pub(super) sides: Vec<Turned>,
    pub(super) notes: Vec<Note>,
    spans: Vec<Span>,
    fault: Option<Fault>,
    said: Vec<EcoString>,
    expects: EcoString,
    completions: Vec<Completion>,
}

impl Heard<'_> {
    /// The units of the project.
    pub(super) fn units(&self) -> UnitSystem {
        self.context.project.units
    }

    /// The length said with a word, for whatever side.
    pub(super) fn length(&self, word: Word) -> Option<&Typed<Length>> {
        self.notes.iter().rev().find_map(|note| match &note.value {
            Value::Length(length) if note.word == word => Some(length),
            _ => None,
        })
    }

    /// The value said with a word for a side: that for the side alone before that for both.
    pub(super) fn on(&self, word: Word, side: Side) -> Option<&Value> {
        let last = |of: Option<Side>| {
            let mut notes = self.notes.iter().rev();
            notes.find(|note| note.word == word && note.side == of)
        };
        last(Some(side)).or_else(|| last(None)).map(|n| &n.value)
    }

    /// The length said with a word for a side.
    pub(super) fn length_on(&self, word: Word, side: Side) -> Option<&Typed<Length>> {
        match self.on(word, side) {
            Some(Value::Length(length)) => Some(length),
            _ => None,
        }
    }

    /// The name said with a word.
    pub(super) fn name(&self, word: Word) -> Option<&EcoString> {
        self.notes.iter().rev().find_map(|note| match &note.value {
            Value::Name(name) if note.word == word => Some(name),
            _ => None,
        })
    }

    /// Whether a word was said.
    pub(super) fn has(&self, word: Word) -> bool {
        self.notes.iter().any(|note| note.word == word)
    }

    /// Whether a side is taken away by `only` after the other.
    pub(super) fn is_left_out(&self, side: Side) -> bool {
        self.notes
            .iter()
            .any(|note| note.word == Word::Only && note.side.is_some_and(|only| only != side))
    }

    /// Notes what is wrong; the first fault stands.
    pub(super) fn wrong(&mut self, range: Range<usize>, message: impl Into<EcoString>) {
        if self.fault.is_none() {
            self.fault = Some(Fault {
                range,
                message: message.into(),
            });
        }
    }

    /// Notes what is missing at the end of the line.
    pub(super) fn lacks(&mut self, message: impl Into<EcoString>) {
        let end = self.line.trim_end().len();
        self.wrong(end..end, message);
    }

    /// Notes what is wrong with the line as a whole.
    pub(super) fn refuse(&mut self, message: impl Into<EcoString>) {
        let end = self.line.trim_end().len();
        let start = self.line.len() - self.line.trim_start().len();
        self.wrong(start.min(end)..end, message);
    }

    /// Says a line of what is understood.
    pub(super) fn say(&mut self, line: impl Into<EcoString>) {
        self.said.push(line.into());
    }

    /// The example of a word's value in the units of the project.
    pub(super) fn example(&self, word: Word) -> &'static str {
        let row = word.row().map(|row| row.example);
        row.map_or("", |[us, metric]| match self.units() {
            UnitSystem::Us => us,
            UnitSystem::Metric => metric,
        })
    }

    /// What to add: `add: high 9'`.
    pub(super) fn add(&self, question: &str, word: Word) -> EcoString {
        eco_format!("{question} Add: {} {}", word.text(), self.example(word))
    }

    /// A length in the units of the project.
    pub(super) fn shown(&self, length: &Typed<Length>) -> String {
        print::length(length.value(), self.units()).to_string()
    }

    /// A thickness in the units of the project.
    pub(super) fn thin(&self, length: &Typed<Length>) -> String {
        print::thickness(length.value(), self.units()).to_string()
    }

    /// What was understood, with the change it comes to.
    pub(super) fn into_reading(mut self, change: Option<Change>) -> Reading {
        self.spans.sort_by_key(|span| span.range.start);
        if change.is_some() && self.fault.is_none() && !self.expects.is_empty() {
            self.expects.push_str(", or Enter");
        }
        Reading {
            spans: self.spans,
            change,
            fault: self.fault,
            said: self.said,
            expects: self.expects,
            completions: self.completions,
        }
    }

    fn text(&self, range: Range<usize>) -> &str {
        self.line.get(range).unwrap_or("")
    }

    fn span(&mut self, range: Range<usize>, role: Role) {
        if !range.is_empty() {
            self.spans.push(Span { range, role });
        }
    }

    fn next(&self) -> Option<&Piece> {
        self.pieces.get(self.at)
    }

    /// Where the piece before the next ended.
    fn before(&self) -> usize {
        let last = self.at.checked_sub(1);
        last.and_then(|at| self.pieces.get(at))
            .map_or(0, |piece| piece.range.end)
    }

    /// Goes on to the first piece that begins at a byte or after it.
    fn go_to(&mut self, byte: usize) {
        while self.next().is_some_and(|piece| piece.range.start < byte) {
            self.at += 1;
        }
    }
}

/// What a word takes.
fn takes(word: Word) -> Takes {
    word.row().map_or(Takes::Nothing, |row| row.takes)
}
