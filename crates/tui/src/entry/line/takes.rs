//! The value after a word: how far it goes, and what it is. Not here: names.

use super::super::pieces::Kind;
use super::super::words::{Match, Takes, Word, find};
use super::super::{Role, values};
use super::{Heard, Value, takes};
use core::ops::Range;
use ecow::eco_format;
use hodful_quantities::units::{Angle, Length};
use hodful_quantities::{Measure, Typed};
use hodful_takeoff::project::{End, RevealPart};

/// Whether letters after a number are a unit of what is read.
fn is_unit(letters: &str, angle: bool) -> bool {
    let kind = if angle {
        hodful_quantities::read::Kind::Angle
    } else {
        hodful_quantities::read::Kind::Length
    };
    let spellings = hodful_quantities::read::UNITS
        .iter()
        .filter(|unit| unit.kind == kind)
        .flat_map(|unit| unit.spellings);
    spellings
        .into_iter()
        .any(|s| s.eq_ignore_ascii_case(letters))
}

impl Heard<'_> {
    /// Whether a value begins next.
    pub(super) fn at_value(&self) -> bool {
        self.next().is_some_and(|piece| {
            matches!(
                piece.kind,
                Kind::Number | Kind::Open | Kind::Sign | Kind::Mark
            )
        })
    }

    /// Whether the number that is next has a unit, or is not alone: a size, not a number of things.
    pub(super) fn is_measured(&self) -> bool {
        self.pieces
            .get(self.at + 1)
            .is_some_and(|next| match next.kind {
                Kind::Letters => is_unit(self.text(next.range.clone()), false),
                _ => true,
            })
    }

    /// Whether an angle with its unit comes next.
    pub(super) fn at_angle(&self) -> bool {
        let number = self.next().is_some_and(|p| p.kind == Kind::Number);
        number
            && self.pieces.get(self.at + 1).is_some_and(|unit| {
                let text = self.text(unit.range.clone());
                matches!(unit.kind, Kind::Letters | Kind::Mark) && is_unit(text, true)
            })
    }

    /// The pieces of the value that is next: one after its last. `x` ends it outside of brackets.
    fn value_end(&self, angle: bool) -> usize {
        let mut depth = 0_usize;
        let mut at = self.at;
        let mut after = None;
        while let Some(piece) = self.pieces.get(at) {
            let text = self.text(piece.range.clone());
            let taken = match piece.kind {
                Kind::Open => {
                    depth += 1;
                    true
                }
                Kind::Close if depth > 0 => {
                    depth -= 1;
                    true
                }
                Kind::Number => !(angle && depth == 0 && after == Some(Kind::Mark)),
                Kind::Mark | Kind::Sign => true,
                Kind::Times => depth > 0,
                Kind::Letters => {
                    after == Some(Kind::Number) && is_unit(text, angle)
                        || depth > 0 && text.eq_ignore_ascii_case("x")
                }
                Kind::Close | Kind::Other => false,
            };
            if !taken {
                break;
            }
            // A unit in letters ends its number as a mark does.
            after = Some(match piece.kind {
                Kind::Letters => Kind::Mark,
                kind => kind,
            });
            at += 1;
        }
        at
    }

    /// Reads the value that is next. Of one that cannot be read the longest beginning that can be is
    /// given, as the line may still be being typed; the fault is noted.
    fn value<T: Measure>(
        &mut self,
        ask: &str,
        angle: bool,
        read: impl Fn(&str) -> Result<Typed<T>, ecow::EcoString>,
    ) -> Option<Typed<T>> {
        let first = self.at;
        let end = self.value_end(angle);
        let bytes = |heard: &Self, end: usize| -> Option<Range<usize>> {
            let last = heard.pieces.get(end.checked_sub(1)?)?;
            Some(heard.pieces.get(first)?.range.start..last.range.end)
        };
        let range = bytes(self, end).filter(|_| end > first)?;
        self.value_may_stand(ask, range.end);
        let result = read(self.text(range.clone()));
        let value = match result {
            Ok(value) => {
                self.span(range, Role::Value);
                Some(value)
            }
            Err(message) => {
                self.wrong(range.clone(), message);
                self.span(range.clone(), Role::Wrong);
                let is_last = end == self.pieces.len();
                // Three pieces back is past any sign, bracket or mark that waits for what follows.
                (first + 1..end)
                    .rev()
                    .take(if is_last { 3 } else { 0 })
                    .filter_map(|end| bytes(self, end))
                    .find_map(|range| read(self.text(range)).ok())
            }
        };
        self.at = end;
        value
    }

    /// Goes past the value that is next; gives where it is.
    pub(super) fn pass_value(&mut self) -> Range<usize> {
        let start = self.next().map_or(self.line.len(), |p| p.range.start);
        let end = self.value_end(false).max(self.at + 1);
        self.at = end.min(self.pieces.len());
        start..self.before().max(start)
    }

    /// Reads the length that is next.
    pub(super) fn length_next(&mut self, ask: &str) -> Option<Typed<Length>> {
        let units = self.units();
        self.value(ask, false, |text| values::length(text, units))
    }

    /// Reads the angle that is next.
    pub(super) fn angle_next(&mut self, ask: &str) -> Option<Typed<Angle>> {
        let units = self.units();
        self.value(ask, true, |text| values::angle(text, units))
    }

    /// What a word takes, from what is next. `None` when there is none; that is noted.
    pub(super) fn taken(&mut self, word: Word) -> Option<Value> {
        let meaning = word.row().map_or("", |row| row.meaning);
        match takes(word) {
            Takes::Nothing => return Some(Value::Nothing),
            Takes::Length => {
                if self.at_value() {
                    return self.length_next(meaning).map(Value::Length);
                }
            }
            Takes::Angle => {
                if self.at_value() {
                    let angle = self.angle_next(meaning)?;
                    return Some(Value::Angle(None, angle));
                }
            }
            Takes::Splay => {
                let part = self.part_next();
                if self.at_value() {
                    let angle = self.angle_next(meaning)?;
                    return Some(Value::Angle(part, angle));
                }
            }
            Takes::Size => {
                if self.at_value() {
                    return self.pair_next(meaning).map(Value::Size);
                }
            }
            Takes::End => {
                if let Some(end) = self.end_next() {
                    return Some(Value::End(end));
                }
            }
            Takes::Name => {
                if let Some(name) = self.name_next(meaning) {
                    return Some(Value::Name(name));
                }
            }
            Takes::BuildUp => {
                let names = self.context.project.build_ups.keys();
                let what = ("build-up", "a build-up of the project");
                return self.name_among(what, names).map(Value::Name);
            }
            Takes::Background => {
                let names = self.context.project.backgrounds.keys();
                let what = ("background", "a background of the project");
                return self.name_among(what, names).map(Value::Name);
            }
        }
        if matches!(takes(word), Takes::Splay | Takes::End) {
            self.waits = Some(self.before());
        } else {
            self.value_waits(meaning);
        }
        let (at, example) = (self.before(), self.example(word));
        let text = word.text();
        self.wrong(
            at..at,
            eco_format!("'{text}' waits for a value: {meaning}. Write: {text} {example}"),
        );
        None
    }

    /// The part of a reveal that a splay is for.
    fn part_next(&mut self) -> Option<RevealPart> {
        let among = [Word::Jambs, Word::Head, Word::Sill, Word::Ring];
        self.words_may_stand(&among, Some("splay in degrees"));
        match self.word_next(&among)? {
            Word::Jambs => Some(RevealPart::Jambs),
            Word::Head => Some(RevealPart::Head),
            Word::Sill => Some(RevealPart::Sill),
            _ => Some(RevealPart::Ring),
        }
    }

    fn end_next(&mut self) -> Option<End> {
        let among = [Word::Left, Word::Right];
        self.words_may_stand(&among, None);
        match self.word_next(&among)? {
            Word::Left => Some(End::Left),
            _ => Some(End::Right),
        }
    }

    /// Two lengths with `x` between.
    fn pair_next(&mut self, ask: &str) -> Option<[Typed<Length>; 2]> {
        let first = self.length_next(ask)?;
        self.words_may_stand(&[Word::By], None);
        let times = self.next().is_some_and(|p| p.kind == Kind::Times);
        if times {
            let range = self.next().map(|piece| piece.range.clone());
            self.span(range.unwrap_or_default(), Role::Word);
            self.at += 1;
        } else if self.word_next(&[Word::By]).is_none() {
            let at = self.before();
            self.wrong(at..at, eco_format!("by how much? Add: x {}", self.second()));
            return None;
        }
        let second = self.at_value().then(|| self.length_next(ask)).flatten();
        if second.is_none() {
            let at = self.before();
            self.wrong(at..at, eco_format!("by how much? Add: {}", self.second()));
        }
        Some([first, second?])
    }

    /// An example of a second size.
    pub(in super::super) fn second(&self) -> &'static str {
        match self.units() {
            hodful_quantities::print::UnitSystem::Us => "9'",
            hodful_quantities::print::UnitSystem::Metric => "2700",
        }
    }

    /// Takes the next word when it is certainly one of some.
    pub(super) fn word_next(&mut self, among: &[Word]) -> Option<Word> {
        let piece = self
            .next()
            .filter(|p| p.kind == Kind::Letters)?
            .range
            .clone();
        let typed = self.text(piece.clone());
        let Match::One(word) = find(typed, among) else {
            return None;
        };
        if typed.len() < word.text().len() {
            self.shortened = Some(piece.end);
        }
        self.span(piece, Role::Word);
        self.at += 1;
        Some(word)
    }
}
