//! A number in a typed value (`12`, `6 1/2`, `6-1/2`, `5½`, `3,81`) and the unit after it (`ft`,
//! `sq ft`, `kg/m3`). Not here: quantities of several parts, and arithmetic.

use super::exact::Exact;
use super::fault::Fault;
use super::lexer::{Token, What};
use super::number::{self, Reading};
use super::table::{Kind, MOST_WORDS, Unit, find};
use core::cmp::Ordering;
use ecow::{EcoString, eco_format};

/// A number as typed.
#[derive(Debug, Clone)]
pub(super) struct Phrase<E> {
    number: E,
    /// What the number is when its comma groups thousands.
    grouped: Option<E>,
    pub(super) form: Form,
    /// The pieces it was read from: the first, and the one after the last.
    span: (usize, usize),
}

/// How a number was typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// Digits alone or with decimals.
    Plain,
    /// A fraction below one alone.
    Fraction,
    /// A fraction of one or more alone.
    Improper,
    /// A whole number and a fraction.
    Mixed,
    /// A whole number and a fraction with a hyphen between: only certain with a unit after it.
    Hyphened,
}

/// A unit, or one unit per another.
#[derive(Debug, Clone, Copy)]
pub(super) struct UnitPhrase {
    pub(super) unit: &'static Unit,
    pub(super) per: Option<&'static Unit>,
}

/// A place in the pieces of a typed value.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cursor<'a> {
    pub(super) tokens: &'a [Token<'a>],
    pub(super) at: usize,
    pub(super) wanted: Kind,
    /// The kind that is read, in words.
    pub(super) what: &'static str,
}

impl<'a> Cursor<'a> {
    /// The piece so many places on.
    pub(super) fn ahead(&self, by: usize) -> Option<Token<'a>> {
        self.tokens.get(self.at.checked_add(by)?).copied()
    }

    pub(super) fn next(&self) -> Option<What<'a>> {
        self.ahead(0).map(|token| token.what)
    }

    pub(super) fn at_number(&self) -> bool {
        matches!(self.next(), Some(What::Number(_) | What::Glyph(..)))
    }

    pub(super) fn at_end(&self) -> bool {
        self.at >= self.tokens.len()
    }

    pub(super) fn skip(&mut self, by: usize) {
        self.at = self.at.saturating_add(by);
    }

    /// The number before a unit.
    ///
    /// # Errors
    /// Its comma can be read in two ways.
    pub(super) fn with_unit<E: Exact>(&self, phrase: &Phrase<E>, unit: &Unit) -> Result<E, Fault> {
        match &phrase.grouped {
            None => Ok(phrase.number.clone()),
            Some(grouped) if unit.thousands => Ok(grouped.clone()),
            Some(_) => Err(self.two_readings(phrase, unit.symbol)),
        }
    }

    /// The number without a unit.
    ///
    /// # Errors
    /// Its comma or its hyphen can be read in two ways.
    pub(super) fn alone<E: Exact>(&self, phrase: Phrase<E>) -> Result<E, Fault> {
        if phrase.grouped.is_some() {
            return Err(self.two_readings(&phrase, ""));
        }
        if phrase.form == Form::Hyphened {
            let shown = self.shown(&phrase);
            return Err(Fault::TwoReadings(
                shown.replace("-", " "),
                shown.replace("-", " less "),
            ));
        }
        Ok(phrase.number)
    }

    fn two_readings<E>(&self, phrase: &Phrase<E>, unit: &str) -> Fault {
        let shown = self.shown(phrase);
        let both = |number: &str| EcoString::from(format!("{number} {unit}").trim_end());
        Fault::TwoReadings(
            both(&shown.replace(",", ".")),
            both(&shown.replace(",", "")),
        )
    }

    /// A number as it stands in a message.
    pub(super) fn shown<E>(&self, phrase: &Phrase<E>) -> EcoString {
        let (from, to) = phrase.span;
        let mut shown = EcoString::new();
        for token in self.tokens.iter().take(to).skip(from) {
            if !shown.is_empty() && (token.blank || matches!(token.what, What::Glyph(..))) {
                shown.push(' ');
            }
            shown.push_str(&token.what.shown());
        }
        shown
    }

    /// Digits alone, so many places on; `tight` when no blank may stand before them.
    fn whole(&self, by: usize, tight: bool) -> Option<&'a str> {
        match self.ahead(by)? {
            Token {
                what: What::Number(raw),
                blank,
            } if !(tight && blank) => raw.bytes().all(|b| b.is_ascii_digit()).then_some(raw),
            _ => None,
        }
    }

    fn is_tight(&self, by: usize, what: What<'_>) -> bool {
        self.ahead(by)
            .is_some_and(|token| token.what == what && !token.blank)
    }

    /// A fraction that starts so many places on, and how many pieces it takes. The slash of a
    /// fraction has no blanks round it; with blanks it divides.
    fn fraction<E: Exact>(&self, by: usize) -> Result<Option<(E, usize)>, Fault> {
        if let Some(What::Glyph(over, under)) = self.ahead(by).map(|token| token.what) {
            let number = E::of_quotient(over.into(), under.into()).ok_or(Fault::TooLarge)?;
            return Ok(Some((number, 1)));
        }
        if !self.is_tight(by.saturating_add(1), What::Slash) {
            return Ok(None);
        }
        let (Some(over), Some(under)) = (
            self.whole(by, false),
            self.whole(by.saturating_add(2), true),
        ) else {
            return Ok(None);
        };
        let (over, under) = (whole_number::<E>(over)?, whole_number::<E>(under)?);
        if under.is_zero() {
            return Err(Fault::ByZero);
        }
        Ok(Some((over.over(&under).ok_or(Fault::TooLarge)?, 3)))
    }

    /// Reads a number. `divided` when a division sign stands before it: a fraction would then be
    /// taken for two divisions.
    ///
    /// # Errors
    /// The digits are no number, a fraction is not below one where it must be, or is divided by.
    pub(super) fn number<E: Exact>(&mut self, divided: bool) -> Result<Phrase<E>, Fault> {
        let from = self.at;
        let phrase = |number, form, to| Phrase {
            number,
            grouped: None,
            form,
            span: (from, to),
        };
        if let Some((number, length)) = self.fraction(0)? {
            if divided && length > 1 {
                return Err(Fault::ByFraction);
            }
            self.skip(length);
            let form = if is_proper(&number)? {
                Form::Fraction
            } else {
                Form::Improper
            };
            return Ok(phrase(number, form, self.at));
        }
        if let Some(whole) = self.whole(0, false) {
            let hyphen =
                self.is_tight(1, What::Hyphen) && self.ahead(2).is_some_and(|token| !token.blank);
            let start = if hyphen { 2 } else { 1 };
            if let Some((part, length)) = self.fraction::<E>(start)? {
                if is_proper(&part)? {
                    self.skip(start.saturating_add(length));
                    let number = whole_number::<E>(whole)?
                        .plus(&part)
                        .ok_or(Fault::TooLarge)?;
                    let form = if hyphen { Form::Hyphened } else { Form::Mixed };
                    return Ok(phrase(number, form, self.at));
                }
                if !hyphen {
                    self.skip(start.saturating_add(length));
                    let part = Phrase {
                        number: part,
                        grouped: None,
                        form: Form::Improper,
                        span: (from.saturating_add(start), self.at),
                    };
                    return Err(Fault::Improper(self.shown(&part)));
                }
            }
        }
        let Some(What::Number(raw)) = self.next() else {
            return Err(Fault::NotOne(self.what));
        };
        self.skip(1);
        let reading = number::read(raw);
        let odd = || Fault::OddNumber(super::fault::shown(raw));
        match reading.ok_or_else(odd)? {
            Reading::One(one) => Ok(phrase(
                one.exact().ok_or(Fault::TooLarge)?,
                Form::Plain,
                self.at,
            )),
            Reading::Two { decimal, grouped } => Ok(Phrase {
                grouped: Some(grouped.exact().ok_or(Fault::TooLarge)?),
                ..phrase(
                    decimal.exact().ok_or(Fault::TooLarge)?,
                    Form::Plain,
                    self.at,
                )
            }),
        }
    }

    /// Reads a unit, or one unit per another; `None` when no word stands here.
    ///
    /// # Errors
    /// The word is no unit.
    pub(super) fn units(&mut self) -> Result<Option<UnitPhrase>, Fault> {
        let Some(What::Word(_)) = self.next() else {
            return Ok(None);
        };
        let unit = self.unit()?;
        let word_follows = matches!(
            self.ahead(1),
            Some(Token {
                what: What::Word(_),
                ..
            })
        );
        let per = match self.next() {
            Some(What::Slash) if word_follows => true,
            Some(What::Word(word)) => word.eq_ignore_ascii_case("per") && word_follows,
            _ => false,
        };
        if !per {
            return Ok(Some(UnitPhrase { unit, per: None }));
        }
        self.skip(1);
        Ok(Some(UnitPhrase {
            unit,
            per: Some(self.unit()?),
        }))
    }

    /// Reads one unit: of the spellings that could stand here, the longest in the table.
    fn unit(&mut self) -> Result<&'static Unit, Fault> {
        let mut found = None;
        let mut spelling = EcoString::new();
        for words in 1..=MOST_WORDS {
            let before = words.saturating_sub(1);
            let Some(What::Word(word)) = self.ahead(before).map(|token| token.what) else {
                break;
            };
            if words > 1 {
                spelling.push(' ');
            }
            spelling.extend(word.chars().flat_map(char::to_lowercase));
            let power = self.power(words);
            if !power.is_some_and(|(_, certain)| certain) {
                found = find(&spelling).map(|unit| (unit, words)).or(found);
            }
            if let Some((power, _)) = power {
                let raised = find(&eco_format!("{spelling}{power}"));
                found = raised.map(|unit| (unit, words.saturating_add(1))).or(found);
            }
        }
        match (found, self.next()) {
            (Some((unit, length)), _) => {
                self.skip(length);
                Ok(unit)
            }
            (None, Some(What::Word(word))) => Err(Fault::unknown(word, self.wanted, self.what)),
            (None, _) => Err(Fault::NotOne(self.what)),
        }
    }

    /// A power after a word, and whether it can be nothing else. A plain 2 or 3 right after the word
    /// may also start the next number (`6ft2in`): it does when a word or a fraction follows at once.
    fn power(&self, by: usize) -> Option<(char, bool)> {
        match self.ahead(by)? {
            Token {
                what: What::Power(power),
                ..
            } => Some((power, true)),
            Token {
                what: What::Number(power @ ("2" | "3")),
                blank: false,
            } => {
                let next = self
                    .ahead(by.saturating_add(1))
                    .filter(|token| !token.blank);
                let starts_a_number =
                    next.is_some_and(|token| matches!(token.what, What::Word(_) | What::Glyph(..)));
                (!starts_a_number).then(|| (if power == "2" { '2' } else { '3' }, false))
            }
            _ => None,
        }
    }
}

fn whole_number<E: Exact>(digits: &str) -> Result<E, Fault> {
    E::of_digits(digits, 0).ok_or(Fault::TooLarge)
}

fn is_proper<E: Exact>(fraction: &E) -> Result<bool, Fault> {
    let order = E::one()
        .and_then(|one| fraction.compare(&one))
        .ok_or(Fault::TooLarge)?;
    Ok(order == Ordering::Less)
}
