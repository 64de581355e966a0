//! A pocket calculator for the formulas of explanations: `+ − × ÷ ( )`, `tan`, `cos`, `max`, `π`, `°`.
//! It knows nothing of plaster; it is how a reader would check a printed line.

use std::iter::Peekable;
use std::str::Chars;

/// Works a formula; `terms` stand for `#0`, `#1` and so on. `None` when it is not one.
pub(crate) fn work(formula: &str, terms: &[f64]) -> Option<f64> {
    let mut reader = Reader {
        chars: formula.chars().peekable(),
        terms,
    };
    let value = reader.sum()?;
    reader.blanks();
    reader.chars.next().is_none().then_some(value)
}

struct Reader<'a> {
    chars: Peekable<Chars<'a>>,
    terms: &'a [f64],
}

impl Reader<'_> {
    fn blanks(&mut self) {
        while self.chars.next_if(|c| c.is_whitespace()).is_some() {}
    }

    fn takes(&mut self, sign: char) -> bool {
        self.blanks();
        self.chars.next_if_eq(&sign).is_some()
    }

    fn sum(&mut self) -> Option<f64> {
        let mut value = self.product()?;
        loop {
            if self.takes('+') {
                value += self.product()?;
            } else if self.takes('−') {
                value -= self.product()?;
            } else {
                return Some(value);
            }
        }
    }

    fn product(&mut self) -> Option<f64> {
        let mut value = self.factor()?;
        loop {
            if self.takes('×') {
                value *= self.factor()?;
            } else if self.takes('÷') {
                value /= self.factor()?;
            } else {
                return Some(value);
            }
        }
    }

    fn factor(&mut self) -> Option<f64> {
        if self.takes('−') {
            return Some(-self.factor()?);
        }
        if self.takes('(') {
            let value = self.sum()?;
            return self.takes(')').then_some(value);
        }
        if self.takes('π') {
            return Some(std::f64::consts::PI);
        }
        if self.takes('#') {
            let index: usize = self.word(|c| c.is_ascii_digit()).parse().ok()?;
            return self.terms.get(index).copied();
        }
        let digits = self.word(|c| c.is_ascii_digit() || c == '.');
        if !digits.is_empty() {
            let value: f64 = digits.parse().ok()?;
            return Some(if self.takes('°') {
                value.to_radians()
            } else {
                value
            });
        }
        let name = self.word(char::is_alphabetic);
        if !self.takes('(') {
            return None;
        }
        let first = self.sum()?;
        let second = if self.takes(',') {
            Some(self.sum()?)
        } else {
            None
        };
        if !self.takes(')') {
            return None;
        }
        match (name.as_str(), second) {
            ("tan", None) => Some(libm::tan(first)),
            ("cos", None) => Some(libm::cos(first)),
            ("max", Some(second)) => Some(first.max(second)),
            _ => None,
        }
    }

    fn word(&mut self, of: impl Fn(char) -> bool) -> String {
        let mut word = String::new();
        while let Some(c) = self.chars.next_if(|c| of(*c)) {
            word.push(c);
        }
        word
    }
}

#[test]
fn it_calculates() {
    let check = |formula, terms: &[f64], expected: f64| {
        let worked = work(formula, terms);
        assert!(
            worked.is_some_and(|w| (w - expected).abs() < 1e-12),
            "{formula}: {worked:?}"
        );
    };
    check("#0 − #1 − #2", &[10.0, 2.0, 3.0], 5.0);
    check("#0 ÷ (1 − #1) × (1 + #2)", &[9.0, 0.1, 0.25], 12.5);
    check("(#0 + #1) ÷ 2 × #2 − #3", &[1.0, 3.0, 2.0, 0.5], 3.5);
    check(
        "#0 × π ÷ 180°",
        &[90.0_f64.to_radians()],
        90.0_f64.to_radians(),
    );
    check("−2 × #0 × tan(#1 ÷ 2)", &[1.0, 90.0_f64.to_radians()], -2.0);
    check("max(#0 − #1, 0)", &[1.0, 3.0], 0.0);
    assert_eq!(work("2 +", &[]), None);
    assert_eq!(work("#7", &[]), None);
    assert_eq!(work("1 2", &[]), None);
}
