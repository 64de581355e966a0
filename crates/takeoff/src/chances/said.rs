//! Chances in sentences, which stand the same on the screen, on paper and on the command line. Not here: the
//! figures.

use super::{Chances, FigureChances, Input, Ordered};
use crate::compare::Line;
use crate::packages::covering;
use crate::project::Project;
use ecow::{EcoString, eco_format};
use hodful_chance::rest;
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::round_up;
use hodful_quantities::print::{UnitSystem, fixed};

/// How often an order may be short unless another share is asked for: nine times out of ten it is enough.
pub const USUAL_SHORT: f64 = 0.1;

/// The shares of draws that are told beside a figure, as they are written in a table.
pub const TOLD: [(f64, &str); 4] = [
    (0.1, "1 of 10"),
    (0.5, "5 of 10"),
    (0.8, "8 of 10"),
    (0.9, "9 of 10"),
];

/// What stands under [`TOLD`], with what statistics calls it.
pub const LEGEND: &str = "Under 9 of 10 stands what is enough 9 times out of 10, and so on with 1, 5 and 8 (in statistics: P90, P10, P50 and P80).";

/// Smallest share of what a figure varies that is told of an input: one in fifty.
const SHOWN: f64 = 0.02;

/// Most inputs that are told of a figure.
const MOST_SHOWN: usize = 5;

/// Numbers up to ten.
const NUMBERS: [&str; 11] = [
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
];

/// Tenths of a share, when it is of whole tenths.
fn tenths(share: f64) -> Option<usize> {
    let tenths = fixed(share * 10.0, 2, UnitSystem::Metric.grouping());
    (0..=10).find(|of| tenths == format!("{of}.00"))
}

/// How often something holds: `nine times out of ten`, `95 times out of 100`.
pub fn often(share: f64) -> EcoString {
    match tenths(share) {
        Some(10) => "always".into(),
        Some(0) => "never".into(),
        Some(1) => "one time out of ten".into(),
        Some(of) => eco_format!(
            "{} times out of ten",
            NUMBERS.get(of).copied().unwrap_or_default()
        ),
        None => eco_format!(
            "{} times out of 100",
            fixed(share * 100.0, 0, UnitSystem::Metric.grouping())
        ),
    }
}

/// A chance, rounded so that it is not thought surer than it is: `3 times in 10`, `2 times in 100`, `less than
/// 1 time in 100`, `in none of the draws`.
pub fn chance(of: f64) -> EcoString {
    let times = |count: u64| if count == 1 { "time" } else { "times" };
    if of <= 0.0 {
        "in none of the draws".into()
    } else if of >= 1.0 {
        "in all of the draws".into()
    } else if of < 0.01 {
        "less than 1 time in 100".into()
    } else {
        let hundredths = round_up(of * 100.0).unwrap_or(100).min(99);
        if hundredths.is_multiple_of(10) {
            let count = hundredths / 10;
            eco_format!("{count} {} in 10", times(count))
        } else {
            eco_format!("{hundredths} {} in 100", times(hundredths))
        }
    }
}

impl FigureChances {
    /// `sand, loose: 4.0 m³ as worked out; eight times out of ten between 3.6 m³ and 4.9 m³, half the time not
    /// more than 4.2 m³`.
    pub fn said(&self, units: UnitSystem) -> EcoString {
        let shown = |share: f64| self.line.shown(self.sample.at(share), units);
        let base = self.line.shown(self.base, units);
        if self
            .sample
            .lowest()
            .total_cmp(&self.sample.highest())
            .is_eq()
        {
            return eco_format!("{}: {base}, whatever is off", self.line.label());
        }
        eco_format!(
            "{}: {base} as worked out; eight times out of ten between {} and {}, half the time not more than {}",
            self.line.label(),
            shown(0.1),
            shown(0.9),
            shown(0.5),
        )
    }

    /// What it varies by, the most first: `thickness of scratch makes 62 % of how far it varies`.
    pub fn causes(&self, inputs: &[Input], units: UnitSystem) -> Vec<EcoString> {
        self.seen(inputs)
            .map(|(words, share)| {
                let percent = percent(share, units);
                eco_format!("{words} makes {percent} of how far it varies")
            })
            .collect()
    }

    /// The same as what stands beside the name of the figure, with all that is left: `thickness of scratch
    /// 62 %, loss of scratch 31 %; all else 7 %`.
    pub fn causes_briefly(&self, inputs: &[Input], units: UnitSystem) -> EcoString {
        let seen: Vec<(&EcoString, f64)> = self.seen(inputs).collect();
        if seen.is_empty() {
            return "nothing by itself".into();
        }
        let each = seen
            .iter()
            .map(|(words, share)| format!("{words} {}", percent(*share, units)));
        let each: Vec<String> = each.collect();
        let shares: Vec<f64> = seen.iter().map(|(_, share)| *share).collect();
        let left = percent(rest(&shares), units);
        eco_format!("{}; all else {left}", each.join(", "))
    }

    /// The inputs that are told, with their shares.
    fn seen<'i>(&self, inputs: &'i [Input]) -> impl Iterator<Item = (&'i EcoString, f64)> {
        let ranked = self.ranked().into_iter().take(MOST_SHOWN);
        let seen = ranked.filter(|(_, share)| *share >= SHOWN);
        seen.filter_map(|(at, share)| Some((&inputs.get(at)?.words, share)))
    }
}

impl Input {
    /// `thickness of scratch: 90 % to 125 % of what is written (a default of ours; …)`.
    pub fn said(&self) -> EcoString {
        eco_format!("{}: {} ({})", self.words, self.spread, self.source)
    }
}

impl Chances {
    /// `nine times out of ten 4.2 m³ of sand is enough; the order as it stands (4 × tipped load, 4.0 m³) falls
    /// short 3 times in 10`. `None` where nothing can be told of the material.
    pub fn order_said(
        &self,
        project: &Project,
        material: &str,
        may_be_short: f64,
        units: UnitSystem,
    ) -> Option<EcoString> {
        let order = self.order(material)?;
        let figure = self.need_of(material)?;
        let (need, _) = self.order_for(material, may_be_short)?;
        let enough = amount(figure, &need, units)?;
        let often = often(1.0 - may_be_short);
        let first = eco_format!("{often} {enough} of {material} is enough");
        let (Some(short), Some(cover)) = (order.short, &order.cover) else {
            return Some(eco_format!(
                "{first}; no package of it can be held against that"
            ));
        };
        let packages = covering(project, material, cover);
        let there = amount(figure, &order.there, units);
        let there = there.map_or_else(EcoString::new, |there| {
            if is_something(&order.stock) {
                eco_format!(", with the yard {there}")
            } else {
                eco_format!(", {there}")
            }
        });
        Some(eco_format!(
            "{first}; the order as it stands ({packages}{there}) falls short {}",
            chance(short)
        ))
    }

    /// `order 5 × tipped load of sand to be short no more than 1 time in 10`; `None` where no package covers it.
    pub fn advice(
        &self,
        project: &Project,
        material: &str,
        may_be_short: f64,
    ) -> Option<EcoString> {
        let (_, cover) = self.order_for(material, may_be_short)?;
        let packages = covering(project, material, &cover?);
        let times = if may_be_short > 0.0 {
            eco_format!("no more than {}", chance(may_be_short))
        } else {
            chance(0.0)
        };
        Some(eco_format!(
            "order {packages} of {material} to be short {times}"
        ))
    }

    /// Every order with what to order instead, a sentence each.
    pub fn said(&self, project: &Project, units: UnitSystem) -> Vec<EcoString> {
        let mut lines = Vec::new();
        for order in &self.orders {
            let name = &order.material;
            lines.extend(self.order_said(project, name, USUAL_SHORT, units));
            if order.short.is_some_and(|short| short > USUAL_SHORT) {
                lines.extend(self.advice(project, name, USUAL_SHORT));
            }
        }
        lines
    }

    /// How the chances come about and what they leave out.
    pub fn notes(&self, units: UnitSystem) -> Vec<EcoString> {
        let count = |of: usize| -> EcoString {
            let digits = of.to_string();
            let number = digits.parse().unwrap_or(f64::NAN);
            fixed(number, 0, units.grouping()).into()
        };
        let defaults = self.inputs.iter().filter(|input| input.is_default).count();
        let mut notes = vec![
            eco_format!(
                "{} draws from the seed {}: in each, every input has one value out of its spread, and each face a thickness of its own.",
                count(self.draws),
                self.seed
            ),
            "What an input makes of how far a figure varies says how much surer the figure were if that input were known; all else comes from small ones, from inputs together and from rounding up (the square of their correlation; Saltelli et al., Global Sensitivity Analysis: The Primer, 2008, from memory).".into(),
            "Equal walls of one entry are drawn by one value that stands for all: what they bring together over flat surfaces is exact, at rounded edges their mean.".into(),
            "Surfaces are taken as measured, and water is left out: nobody orders it.".into(),
            "Nothing of what is recorded or was delivered is in these draws: they are of the whole job, from its start.".into(),
        ];
        if self.orders.iter().any(Ordered::has_kinds) {
            notes.push("Packages of several kinds are counted together, as they are cheapest in each draw.".into());
        }
        if defaults > 0 {
            notes.push(eco_format!(
                "{} of {} inputs are off by a default and not by what the project says; put in what was measured.",
                count(defaults),
                count(self.inputs.len())
            ));
        }
        for input in &self.inputs {
            if let Some(words) = &input.nonsense {
                notes.push(eco_format!("{}: {words}.", input.words));
            }
        }
        notes
    }
}

/// A share in whole percents.
fn percent(share: f64, units: UnitSystem) -> EcoString {
    eco_format!("{} %", fixed(share * 100.0, 0, units.grouping()))
}

/// A quantity in the measure of a figure.
fn amount(figure: &FigureChances, of: &Quantity, units: UnitSystem) -> Option<EcoString> {
    let value = match figure.line {
        Line::Mass(_) => of.mass?.value,
        _ => of.loose?.value,
    };
    Some(figure.line.shown(value, units).into())
}

fn is_something(of: &Quantity) -> bool {
    of.loose.is_some_and(|v| v.value > 0.0) || of.mass.is_some_and(|m| m.value > 0.0)
}
