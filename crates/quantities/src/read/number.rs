//! One number as typed: digits, a decimal mark, marks between thousands. Not here: units, fractions.
//!
//! Which of point and comma is the decimal mark:
//! - one point is a decimal point (`3.81`, `.5`, `1.234`);
//! - one comma is a decimal comma (`3,81`), unless exactly three digits follow one to three others
//!   that do not start with 0: then it may as well group thousands (`1,234`), and both readings are
//!   kept for the unit to decide between (see [`super::Unit::thousands`]);
//! - several of one kind group thousands (`1,234,567`), and so does a no-break or thin space;
//! - two kinds: the last is the decimal mark, the other groups (`1,240.50`, `1.240,50`).
//!
//! Groups are of three digits throughout; anything else is not a number.

use super::exact::Exact;
use std::borrow::Cow;

/// The spaces that may stand between groups of three digits: no-break, thin, narrow no-break.
pub(super) fn is_group_space(c: char) -> bool {
    matches!(c, '\u{a0}' | '\u{2009}' | '\u{202f}')
}

/// A number as typed: plain decimal digits, and how many of them stand after the point.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Decimals<'a> {
    digits: Cow<'a, str>,
    decimals: u32,
}

/// What typed digits may mean.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Reading<'a> {
    /// One number.
    One(Decimals<'a>),
    /// A comma before three digits: the number with a decimal comma, and with grouped thousands.
    Two {
        decimal: Decimals<'a>,
        grouped: Decimals<'a>,
    },
}

impl<'a> Decimals<'a> {
    fn whole(digits: &'a str) -> Self {
        Self {
            digits: Cow::Borrowed(digits),
            decimals: 0,
        }
    }

    fn new(whole: &str, part: &str) -> Self {
        let decimals = u32::try_from(part.len()).unwrap_or(u32::MAX);
        Self {
            digits: Cow::Owned(format!("{whole}{part}")),
            decimals,
        }
    }

    /// The exact value.
    pub(super) fn exact<E: Exact>(&self) -> Option<E> {
        E::of_digits(&self.digits, self.decimals)
    }

    /// The number in plain digits with a decimal point.
    pub(super) fn plain(&self) -> String {
        let places = usize::try_from(self.decimals).unwrap_or(usize::MAX);
        match self
            .digits
            .len()
            .checked_sub(places)
            .and_then(|n| self.digits.split_at_checked(n))
        {
            Some((whole, part)) if !part.is_empty() => {
                format!("{}.{part}", if whole.is_empty() { "0" } else { whole })
            }
            _ => self.digits.clone().into_owned(),
        }
    }
}

/// What a run of digits and marks means; `None` when it is not a number.
pub(super) fn read(raw: &str) -> Option<Reading<'_>> {
    if !raw.is_empty() && raw.bytes().all(|b| b.is_ascii_digit()) {
        return Some(Reading::One(Decimals::whole(raw)));
    }
    let marks: Vec<char> = raw
        .chars()
        .filter(|c| !c.is_ascii_digit())
        .map(plain_mark)
        .collect();
    let mut groups = raw.split(|c: char| !c.is_ascii_digit());
    let first = groups.next()?;
    let mut rest: Vec<&str> = groups.collect();
    let last_mark = *marks.last()?;
    let one_kind = marks.iter().all(|mark| *mark == last_mark);
    if marks.len() == 1 && last_mark != ' ' {
        let part = rest.pop()?;
        if part.is_empty() {
            return None;
        }
        let decimal = Decimals::new(first, part);
        let may_group = last_mark == ',' && part.len() == 3 && is_first_group(first);
        return Some(if may_group && !first.starts_with('0') {
            Reading::Two {
                decimal,
                grouped: Decimals::new(&format!("{first}{part}"), ""),
            }
        } else {
            Reading::One(decimal)
        });
    }
    let part = if one_kind { "" } else { rest.pop()? };
    let grouping = marks.first()?;
    let grouping_marks = marks.len() - usize::from(!one_kind);
    let sound = is_first_group(first)
        && !first.starts_with('0')
        && rest.iter().all(|group| group.len() == 3)
        && marks
            .iter()
            .take(grouping_marks)
            .all(|mark| mark == grouping)
        && (one_kind || !part.is_empty() && last_mark != ' ' && last_mark != *grouping);
    sound.then(|| Reading::One(Decimals::new(&format!("{first}{}", rest.concat()), part)))
}

/// The digits of a price and how many of them are decimals; `None` when it is not a number. A comma
/// before three digits groups thousands.
pub(super) fn money(raw: &str) -> Option<(String, u32)> {
    let allowed = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',') || is_group_space(c);
    if !raw.chars().all(allowed) {
        return None;
    }
    let decimals = match read(raw)? {
        Reading::One(one) => one,
        Reading::Two { grouped, .. } => grouped,
    };
    Some((decimals.plain(), decimals.decimals))
}

fn plain_mark(mark: char) -> char {
    if is_group_space(mark) { ' ' } else { mark }
}

fn is_first_group(digits: &str) -> bool {
    (1..=3).contains(&digits.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(raw: &str) -> String {
        match read(raw) {
            None => "none".to_owned(),
            Some(Reading::One(one)) => one.plain(),
            Some(Reading::Two { decimal, grouped }) => {
                format!("{} or {}", decimal.plain(), grouped.plain())
            }
        }
    }

    #[test]
    fn points_and_commas() {
        fn check(raw: &str, expected: &str) {
            assert_eq!(shown(raw), expected, "{raw}");
        }
        check("12", "12");
        check("3.81", "3.81");
        check(".5", "0.5");
        check(",5", "0.5");
        check("1.234", "1.234");
        check("3,81", "3.81");
        check("3,8", "3.8");
        check("3,8125", "3.8125");
        check("1,234", "1.234 or 1234");
        check("999,000", "999.000 or 999000");
        check("0,125", "0.125");
        check("1234,567", "1234.567");
        check("1,234,567", "1234567");
        check("1.234.567", "1234567");
        check("1,240.50", "1240.50");
        check("1.240,50", "1240.50");
        check("1\u{a0}234", "1234");
        check("1\u{202f}234,5", "1234.5");
        check("1\u{a0}234.567", "1234.567");
        check("12,345.678", "12345.678");
        for raw in [
            "",
            ".",
            ",",
            "1.",
            "1,",
            "1,,2",
            "1,2,3",
            "1,2345,678",
            "1.2,3.4",
            "1,234.5,6",
            ".5,5",
        ] {
            check(raw, "none");
        }
        check("1234,567.5", "none");
        check("1,23.4", "none");
        check("0,123,456", "none");
    }
}
