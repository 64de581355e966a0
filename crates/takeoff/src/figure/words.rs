//! Figures and formulas in words: numbers in coherent units (feet and pounds, metres and kilograms), so
//! that each formula can be worked on a calculator. Not here: trees of them.

use super::{Dimension, Figure, Formula, Node};
use hodful_quantities::print::{UnitSystem, significant};

/// Digits of a number in a formula: enough for a calculator to come back to the figure.
const DIGITS: u32 = 6;

/// Terms a sum still writes out.
const WRITTEN_OUT: usize = 6;

impl Figure {
    /// The number in its coherent unit, with the unit.
    pub fn words(self, units: UnitSystem) -> String {
        let number = coherent(self, units);
        let unit = self.dimension.unit(units);
        match self.dimension {
            Dimension::Angle => format!("{number}{unit}"),
            _ if unit.is_empty() => number,
            _ => format!("{number} {unit}"),
        }
    }
}

impl Node {
    /// The formula with the numbers of its terms; `None` for what is given.
    pub fn formula_words(&self, units: UnitSystem) -> Option<String> {
        let term = |index: usize| self.terms.get(index).map(|t| t.figure.words(units));
        match self.formula {
            Formula::Given | Formula::Of("#0") => None,
            Formula::From => (!self.terms.is_empty()).then(|| "worked out from".to_owned()),
            Formula::Sum if self.terms.is_empty() => None,
            Formula::Sum if self.terms.len() > WRITTEN_OUT => {
                Some(format!("sum of {} terms", self.terms.len()))
            }
            Formula::Sum if self.terms.len() == 1 => None,
            Formula::Sum => {
                let mut out = String::new();
                for (i, term) in self.terms.iter().enumerate() {
                    let Figure { value, dimension } = term.figure;
                    let sign = match (i, value < 0.0) {
                        (0, false) => "",
                        (0, true) => "−",
                        (_, false) => " + ",
                        (_, true) => " − ",
                    };
                    let value = value.abs();
                    out.extend([sign, &Figure { value, dimension }.words(units)]);
                }
                Some(out)
            }
            Formula::Of(template) => {
                let mut out = String::new();
                let mut pieces = template.split('#');
                out.push_str(pieces.next().unwrap_or_default());
                for piece in pieces {
                    let digits = piece.chars().take_while(char::is_ascii_digit).count();
                    let (index, rest) = piece.split_at_checked(digits).unwrap_or((piece, ""));
                    out.push_str(&index.parse().ok().and_then(term).unwrap_or_default());
                    out.push_str(rest);
                }
                Some(out)
            }
        }
    }
}

/// The number of a figure in its coherent unit.
fn coherent(figure: Figure, units: UnitSystem) -> String {
    let value = match figure.dimension {
        Dimension::Angle => figure.value.to_degrees(),
        dimension => figure.value * dimension.factor(units),
    };
    significant(value, DIGITS)
}
