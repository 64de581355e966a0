//! Lines, differences and their causes in words, which stand the same on the screen, on paper and on the
//! command line. Not here: the figures.

use super::{Cause, Causes, Line, Row, WallChange};
use crate::figure::Dimension;
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Area, Mass, Volume};

/// Minus before a figure.
const MINUS: &str = "\u{2212}";

/// Smallest share of a difference that is told as a cause of its own: less than the last digit shown.
const SHOWN: f64 = 0.0005;

impl Line {
    /// What the line is, in a few words.
    pub fn label(&self) -> EcoString {
        match self {
            Self::Surface => "surface".into(),
            Self::Payment => "for payment".into(),
            Self::Placed { build_up, coat } => eco_format!("{coat} of {build_up}, on the wall"),
            Self::Mixed { build_up, coat } => eco_format!("{coat} of {build_up}, mixed"),
            Self::AllPlaced => "plaster on the walls".into(),
            Self::AllMixed => "plaster mixed".into(),
            Self::Loose(name) => eco_format!("{name}, loose"),
            Self::Mass(name) => eco_format!("{name}, mass"),
            Self::Packages(name) => eco_format!("{name}, packages"),
            Self::Batches => "batches".into(),
            Self::Trips => "trips".into(),
            Self::Cost => "cost".into(),
            Self::Bought => "cost with deliveries".into(),
        }
    }

    /// A value of the line as it is shown: `4.21 yd³`; a minus before one below nothing.
    pub fn shown(&self, value: f64, units: UnitSystem) -> String {
        let size = value.abs();
        let words = match self.dimension() {
            Dimension::Area => print::area(
                Area {
                    value: size,
                    ..Area::default()
                },
                units,
            )
            .to_string(),
            Dimension::Volume => print::bulk_volume(
                Volume {
                    value: size,
                    ..Volume::default()
                },
                units,
            )
            .to_string(),
            Dimension::Mass => print::mass(
                Mass {
                    value: size,
                    ..Mass::default()
                },
                units,
            )
            .to_string(),
            Dimension::Money => print::fixed(size, 2, units.grouping()),
            _ => print::fixed(size, 0, units.grouping()),
        };
        signed(value, words)
    }

    /// A difference as it is shown, with its sign: `+0.31 yd³`; a part of a whole one to a tenth.
    pub fn difference_shown(&self, value: f64, units: UnitSystem) -> String {
        let words = if self.dimension() == Dimension::Count && value.fract() != 0.0 {
            signed(value, print::fixed(value.abs(), 1, units.grouping()))
        } else {
            self.shown(value, units)
        };
        if words.starts_with(MINUS) {
            words
        } else {
            format!("+{words}")
        }
    }
}

/// A size with a minus before it where the value is below nothing and more than zeros is shown of it.
fn signed(value: f64, size: String) -> String {
    if value < 0.0 && size.contains(|c: char| ('1'..='9').contains(&c)) {
        format!("{MINUS}{size}")
    } else {
        size
    }
}

impl Row {
    /// How one stands against the base, in a few words: `0.31 yd³ more (+18 %)`, `the same`; `None` where
    /// either cannot be told.
    pub fn said(&self, base: usize, at: usize, units: UnitSystem) -> Option<EcoString> {
        let difference = self.difference(base, at)?;
        let size = self.line.shown(difference.abs(), units);
        if !size.contains(|c: char| ('1'..='9').contains(&c)) {
            return Some("the same".into());
        }
        let words = if difference < 0.0 { "less" } else { "more" };
        let share = self.share(base, at);
        let share = share.map_or_else(String::new, |share| {
            format!(" ({})", percent_shown(share, units))
        });
        Some(eco_format!("{size} {words}{share}"))
    }
}

/// A share with its sign, in whole percent, to a tenth under ten: `+18 %`.
pub fn percent_shown(share: f64, units: UnitSystem) -> String {
    let places = u32::from(share.abs() < 0.1);
    let digits = print::fixed(share.abs() * 100.0, places, units.grouping());
    let words = signed(share, digits);
    let sign = if words.starts_with(MINUS) { "" } else { "+" };
    format!("{sign}{words} %")
}

impl Cause {
    /// What it is, in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Surface => "surface covered",
            Self::Edges => "edges and corners",
            Self::DubbingOut => "dubbing out",
            Self::Coats => "coats added or left out",
            Self::Thickness => "thickness",
            Self::Shrinkage => "shrinkage",
            Self::Loss => "loss",
            Self::Mix => "mix",
            Self::Yield => "yield",
            Self::Damp => "moisture and bulking",
            Self::Screen => "screening, lost lying",
            Self::Stock => "in the yard",
            Self::Covered => "what the yard covers",
            Self::Prices => "packages chosen and their prices",
            Self::Mixer => "size of a batch",
            Self::RoundingUp => "rounding up",
        }
    }
}

impl Causes {
    /// The difference.
    pub fn difference(&self) -> f64 {
        self.to - self.from
    }

    /// The terms that can be seen beside the largest, in words and as shown: `thickness`, `+0.31 yd³`.
    pub fn said(&self, line: &Line, units: UnitSystem) -> Vec<(&'static str, String)> {
        let sizes = self.terms.iter().map(|term| term.amount.abs());
        let largest = sizes.fold(self.difference().abs(), f64::max);
        let seen = self.terms.iter();
        let seen = seen.filter(|term| term.amount.abs() >= largest * SHOWN);
        seen.map(|term| {
            (
                term.cause.words(),
                line.difference_shown(term.amount, units),
            )
        })
        .collect()
    }

    /// The difference and its terms in one sentence: `yard sand, loose: +1.90 yd³ = thickness +1.72 yd³,
    /// edges and corners +0.18 yd³`.
    pub fn sentence(&self, line: &Line, units: UnitSystem) -> EcoString {
        let terms = self.said(line, units).into_iter();
        let terms: Vec<String> = terms.map(|(words, of)| format!("{words} {of}")).collect();
        let all = line.difference_shown(self.difference(), units);
        if terms.is_empty() {
            eco_format!("{}: {all}", line.label())
        } else {
            eco_format!("{}: {all} = {}", line.label(), terms.join(", "))
        }
    }
}

impl WallChange {
    /// What became of the wall, a line each.
    pub fn said(&self, units: UnitSystem) -> Vec<EcoString> {
        let area = |of: &Option<f64>| {
            of.map_or_else(
                || "surface not known".to_owned(),
                |of| Line::Surface.shown(of, units),
            )
        };
        match self {
            Self::Added { id, surface } => vec![eco_format!("wall {id}: new, {}", area(surface))],
            Self::TakenOut { id, surface } => {
                vec![eco_format!("wall {id}: taken out, {}", area(surface))]
            }
            Self::Changed {
                id,
                surfaces: [before, now],
                fields,
            } => {
                let grown = before.zip(*now).map(|(before, now)| now - before);
                let grown = grown.map_or_else(String::new, |grown| {
                    format!(", {}", Line::Surface.difference_shown(grown, units))
                });
                let mut lines = vec![eco_format!("wall {id}: changed{grown}")];
                lines.extend(fields.iter().map(|field| {
                    let part = if field.part.is_empty() {
                        EcoString::new()
                    } else {
                        eco_format!("{}, ", field.part)
                    };
                    if field.label.is_empty() {
                        let words = if field.to.is_some() {
                            "new"
                        } else {
                            "taken out"
                        };
                        return eco_format!("  {}: {words}", field.part);
                    }
                    let not_given = || EcoString::from("not given");
                    eco_format!(
                        "  {part}{}: {} → {}",
                        field.label,
                        field.from.clone().unwrap_or_else(not_given),
                        field.to.clone().unwrap_or_else(not_given)
                    )
                }));
                lines
            }
        }
    }
}
