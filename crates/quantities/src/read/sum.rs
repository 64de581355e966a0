//! Quantities of one or more parts (`12' 6 1/2"`, `1 m 20 cm`) and arithmetic with them. Not here:
//! single numbers and units, and what each kind of value accepts. The grammar is told in [`super`].

use super::exact::{Big, Dimension, Exact, Small, Value, factor};
use super::fault::{DEEPEST, Fault, too_long};
use super::lexer::{Token, What, cut};
use super::phrase::{Cursor, Form, Phrase, UnitPhrase};
use super::table::{Kind, Unit, find};
use core::cmp::Ordering;
use core::marker::PhantomData;
use ecow::eco_format;

/// A value that was read, in base units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Found {
    /// The nearest `f64`.
    pub(super) value: f64,
    pub(super) dimension: Dimension,
    /// Whether no unit was typed at all.
    pub(super) bare: bool,
    /// Whether it is 0 exactly.
    pub(super) nothing: bool,
}

/// Reads a value of whatever dimension. `wanted` is the kind that is hoped for and `what` names it;
/// they steer messages and the reading of `12-6`.
pub(super) fn evaluate(text: &str, wanted: Kind, what: &'static str) -> Result<Found, Fault> {
    too_long(text)?;
    let tokens = cut(text, what)?;
    match evaluate_in::<Small>(&tokens, wanted, what) {
        // Too large, or only too large for small numbers.
        Err(Fault::TooLarge) => evaluate_in::<Big>(&tokens, wanted, what),
        result => result,
    }
}

/// Reads a value of one kind, in its base unit. A zero needs no unit.
pub(super) fn read(text: &str, kind: Kind, what: &'static str) -> Result<f64, Fault> {
    of_kind(evaluate(text, kind, what)?, kind, what)
}

/// The value that was read, when it is of a kind.
pub(super) fn of_kind(found: Found, kind: Kind, what: &'static str) -> Result<f64, Fault> {
    if found.bare && kind != Kind::Ratio && !found.nothing {
        return Err(Fault::NoUnit);
    }
    if !found.bare && found.dimension != Dimension::of(kind) {
        return Err(match found.dimension.what() {
            Some(other) => Fault::OtherKind(other, what),
            None => Fault::NotOne(what),
        });
    }
    Ok(found.value)
}

/// Reads a value with one kind of exact numbers.
pub(super) fn evaluate_in<E: Exact>(
    tokens: &[Token<'_>],
    wanted: Kind,
    what: &'static str,
) -> Result<Found, Fault> {
    let cursor = Cursor {
        tokens,
        at: 0,
        wanted,
        what,
    };
    let value = Reader::<E> {
        cursor,
        depth: 0,
        numbers: PhantomData,
    }
    .whole()?;
    let Value {
        number,
        dimension,
        bare,
    } = value;
    let rounded = number.rounded().ok_or(Fault::TooLarge)?;
    Ok(Found {
        value: rounded,
        dimension,
        bare,
        nothing: number.is_zero(),
    })
}

struct Reader<'a, E> {
    cursor: Cursor<'a>,
    depth: usize,
    numbers: PhantomData<E>,
}

/// One part of a quantity.
struct Part<E> {
    unit: &'static Unit,
    number: E,
    typed: Phrase<E>,
}

impl<E: Exact> Reader<'_, E> {
    fn whole(&mut self) -> Result<Value<E>, Fault> {
        if self.cursor.wanted == Kind::Length
            && let Some(length) = self.feet_hyphen_inches()?
        {
            return Ok(length);
        }
        let value = self.sum()?;
        match self.cursor.next() {
            None => Ok(value),
            Some(What::Close) => Err(Fault::Closed),
            Some(other) => Err(self.unexpected(other)),
        }
    }

    fn unexpected(&self, what: What<'_>) -> Fault {
        match what {
            What::Word(word) => Fault::unknown(word, self.cursor.wanted, self.cursor.what),
            _ => Fault::NotOne(self.cursor.what),
        }
    }

    fn sum(&mut self) -> Result<Value<E>, Fault> {
        let mut sum = self.product()?;
        loop {
            let sign = self.cursor.next();
            if !matches!(sign, Some(What::Plus | What::Hyphen | What::Minus)) {
                return Ok(sum);
            }
            self.cursor.skip(1);
            let next = self.product()?;
            sum = sum.plus(&if sign == Some(What::Plus) {
                next
            } else {
                next.negated()?
            })?;
        }
    }

    fn product(&mut self) -> Result<Value<E>, Fault> {
        let mut product = self.factor(false)?;
        loop {
            match self.cursor.next() {
                Some(What::Times) => {
                    self.cursor.skip(1);
                    product = product.times(&self.factor(false)?)?;
                }
                Some(What::Slash) => {
                    self.cursor.skip(1);
                    product = product.over(&self.factor(true)?)?;
                }
                _ => return Ok(product),
            }
        }
    }

    fn factor(&mut self, divided: bool) -> Result<Value<E>, Fault> {
        let mut negative = false;
        while let Some(sign @ (What::Plus | What::Hyphen | What::Minus)) = self.cursor.next() {
            negative ^= sign != What::Plus;
            self.cursor.skip(1);
        }
        let value = match self.cursor.next() {
            Some(What::Open) => self.bracket()?,
            Some(What::Word(word)) => {
                return Err(match self.cursor.units() {
                    Ok(_) => Fault::NoNumber(super::fault::shown(word)),
                    Err(_) => Fault::NotOne(self.cursor.what),
                });
            }
            Some(_) => self.quantity(divided)?,
            None => return Err(Fault::NotOne(self.cursor.what)),
        };
        if negative { value.negated() } else { Ok(value) }
    }

    fn bracket(&mut self) -> Result<Value<E>, Fault> {
        self.depth = self.depth.saturating_add(1);
        if self.depth > DEEPEST {
            return Err(Fault::TooDeep);
        }
        self.cursor.skip(1);
        let value = self.sum()?;
        self.depth = self.depth.saturating_sub(1);
        match self.cursor.next() {
            Some(What::Close) => self.cursor.skip(1),
            None => return Err(Fault::Open),
            Some(other) => return Err(self.unexpected(other)),
        }
        Ok(value)
    }

    /// A quantity of one or more parts, or a plain number.
    fn quantity(&mut self, divided: bool) -> Result<Value<E>, Fault> {
        let start = self.cursor.at;
        let first: Phrase<E> = self.cursor.number(divided)?;
        let Some(UnitPhrase { unit, per }) = self.cursor.units()? else {
            if self.cursor.at_number() {
                let second = self.cursor.next().map(What::shown).unwrap_or_default();
                return Err(Fault::TwoNumbers(self.cursor.shown(&first), second));
            }
            return self.cursor.alone(first).map(Value::bare);
        };
        let number = self.cursor.with_unit(&first, unit)?;
        let mut value = Value::of(&number, unit)?;
        if let Some(per) = per {
            let one = E::one().ok_or(Fault::TooLarge)?;
            return value.over(&Value::of(&one, per)?);
        }
        let mut last = Part {
            unit,
            number,
            typed: first,
        };
        while let Some(part) = self.further_part(&last, start == 0)? {
            value = value.plus(&Value::of(&part.number, part.unit)?)?;
            last = part;
        }
        Ok(value)
    }

    /// The next part of a quantity, if there is one; `opening` when the quantity starts the text.
    fn further_part(&mut self, last: &Part<E>, opening: bool) -> Result<Option<Part<E>>, Fault> {
        let after_feet = last.unit.symbol == "ft";
        let back = self.cursor;
        let hyphen = self
            .cursor
            .ahead(0)
            .filter(|t| t.what == What::Hyphen && after_feet);
        if hyphen.is_some() {
            self.cursor.skip(1);
        }
        if !self.cursor.at_number() {
            self.cursor = back;
            return Ok(None);
        }
        let phrase: Phrase<E> = self.cursor.number(false)?;
        let typed = self.cursor.units()?;
        if let Some(hyphen) = hyphen {
            let multiplied = matches!(self.cursor.next(), Some(What::Times | What::Slash));
            let inches = typed.map_or(!multiplied, is_inches);
            let whole_text = opening && self.cursor.at_end();
            if hyphen.blank && inches && whole_text && self.is_under_a_foot(&phrase)? {
                return Err(self.two_readings(&last.typed, &phrase));
            }
            if hyphen.blank || !inches {
                self.cursor = back;
                return Ok(None);
            }
        }
        let unit = match typed {
            Some(UnitPhrase { unit, per: Some(_) }) => {
                return Err(Fault::SideBySide(last.unit.symbol, unit.symbol));
            }
            Some(UnitPhrase { unit, per: None }) => unit,
            None if phrase.form == Form::Improper => {
                return Err(Fault::Improper(self.cursor.shown(&phrase)));
            }
            None => find("in")
                .filter(|_| after_feet)
                .ok_or_else(|| Fault::NoUnitAfter(self.cursor.shown(&phrase)))?,
        };
        let number = self.cursor.with_unit(&phrase, unit)?;
        follows(last.unit, &last.number, unit, &number)?;
        Ok(Some(Part {
            unit,
            number,
            typed: phrase,
        }))
    }

    fn is_under_a_foot(&self, inches: &Phrase<E>) -> Result<bool, Fault> {
        let Some(inch) = find("in") else {
            return Ok(false);
        };
        let twelve = E::of_quotient(12, 1).ok_or(Fault::TooLarge)?;
        // A comma with two readings is refused when its turn comes.
        let Ok(inches) = self.cursor.with_unit(inches, inch) else {
            return Ok(false);
        };
        Ok(inches.compare(&twelve).ok_or(Fault::TooLarge)? == Ordering::Less)
    }

    /// The refusal of feet, a hyphen with a blank before it, and inches, as a whole text.
    fn two_readings(&self, feet: &Phrase<E>, inches: &Phrase<E>) -> Fault {
        let (feet, inches) = (self.cursor.shown(feet), self.cursor.shown(inches));
        Fault::TwoReadings(
            eco_format!("{feet}'-{inches}\""),
            eco_format!("({feet}') - {inches}\""),
        )
    }

    /// `12-6.5` and `12-6 1/2"`, when that is the whole text: feet and inches with the foot mark
    /// left out. `12-1/2"` is twelve and a half inches, and `12-1/2` either.
    fn feet_hyphen_inches(&mut self) -> Result<Option<Value<E>>, Fault> {
        let start = self.cursor;
        let shape = (start.next(), start.ahead(1), start.ahead(2));
        let (Some(What::Number(feet)), Some(hyphen), Some(second)) = shape else {
            return Ok(None);
        };
        let digits = feet.bytes().all(|b| b.is_ascii_digit());
        if !digits || hyphen.what != What::Hyphen || hyphen.blank || second.blank {
            return Ok(None);
        }
        self.cursor.skip(2);
        let read = self.cursor.number::<E>(false);
        let unit = self.cursor.units();
        let whole_text = self.cursor.at_end();
        self.cursor = start;
        let (Ok(inches), Ok(unit)) = (read, unit) else {
            return Ok(None);
        };
        if !whole_text || !unit.is_none_or(is_inches) || inches.form == Form::Improper {
            return Ok(None);
        }
        if inches.form == Form::Fraction {
            let part = self.cursor.shown(&inches);
            return match unit {
                Some(_) => Ok(None),
                None => Err(Fault::TwoReadings(
                    eco_format!("{feet} {part} in"),
                    eco_format!("{feet} ft {part} in"),
                )),
            };
        }
        let (Some(foot), Some(inch)) = (find("ft"), find("in")) else {
            return Ok(None);
        };
        let feet = E::of_digits(feet, 0).ok_or(Fault::TooLarge)?;
        let inches = self.cursor.with_unit(&inches, inch)?;
        let value = Value::of(&feet, foot)?.plus(&Value::of(&inches, inch)?)?;
        follows(foot, &feet, inch, &inches)?;
        Ok(Some(value))
    }
}

fn is_inches(typed: UnitPhrase) -> bool {
    typed.per.is_none() && typed.unit.symbol == "in"
}

/// Refuses a part that cannot follow another in one quantity.
fn follows<E: Exact>(
    before: &Unit,
    number_before: &E,
    unit: &Unit,
    number: &E,
) -> Result<(), Fault> {
    if before.kind != unit.kind || before.system.is_none() || before.system != unit.system {
        return Err(Fault::SideBySide(before.symbol, unit.symbol));
    }
    let most: E = factor::<E>(before)?
        .over(&factor(unit)?)
        .ok_or(Fault::TooLarge)?;
    match E::one()
        .and_then(|one| most.compare(&one))
        .ok_or(Fault::TooLarge)?
    {
        Ordering::Equal => return Err(Fault::Twice(unit.symbol)),
        Ordering::Less => return Err(Fault::Order(before.symbol, unit.symbol)),
        Ordering::Greater => {}
    }
    if !number_before.is_whole().ok_or(Fault::TooLarge)? {
        return Err(Fault::PartBefore(before.symbol, unit.symbol));
    }
    if number.compare(&most).ok_or(Fault::TooLarge)? != Ordering::Less {
        let most = most.rounded().ok_or(Fault::TooLarge)?;
        return Err(Fault::TooMuch(
            eco_format!("{most}"),
            unit.symbol,
            before.symbol,
        ));
    }
    Ok(())
}
