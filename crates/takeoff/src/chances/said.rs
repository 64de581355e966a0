//! Chances in sentences, which stand the same on the screen, on paper and on the command line. Not here: the
//! figures.

use super::{Asked, Chances, FigureChances, Input};
use crate::compare::Line;
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

/// A chance, rounded so that it is not thought surer than it is: `30 times in 100`, `less than 1 time in 100`, `in none
/// of the draws`. Always of a hundred, so that one can be held against the other.
pub fn chance(of: f64) -> EcoString {
    if of <= 0.0 {
        "in none of the draws".into()
    } else if of >= 1.0 {
        "in all of the draws".into()
    } else if of < 0.01 {
        "less than 1 time in 100".into()
    } else if of > 0.99 {
        "more than 99 times in 100".into()
    } else {
        let hundredths = round_up(of * 100.0).unwrap_or(99);
        let times = if hundredths == 1 { "time" } else { "times" };
        eco_format!("{hundredths} {times} in 100")
    }
}

/// Over the orders that fall short no more often than is accepted: `enough 90 times in 100`.
pub fn enough(accepted: f64) -> EcoString {
    let times = fixed((1.0 - accepted) * 100.0, 2, UnitSystem::Metric.grouping());
    let times = times.trim_end_matches('0').trim_end_matches('.');
    let word = if times == "1" { "time" } else { "times" };
    eco_format!("enough {times} {word} in 100")
}

impl FigureChances {
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
    /// How often the orders that were asked for fall short, and what came so far, a sentence each.
    ///
    /// `4 tipped load of sand and what lay in the yard are 4.0 m³: it falls short 9 times in 100.`
    pub fn asked_said(&self, units: UnitSystem) -> Vec<EcoString> {
        let asked = self.asked.iter().map(|of| {
            let Asked {
                material,
                words,
                there,
                short,
                ..
            } = of;
            let of = eco_format!("{words} of {material}");
            self.there_said(material, &of, there, *short, units)
        });
        let came = self.orders.iter().filter_map(|order| {
            let (there, short) = self.came_short(&order.material)?;
            let of = eco_format!("What came of {}", order.material);
            let said = self.there_said(&order.material, &of, &there, short, units);
            Some(eco_format!(
                "{said} That is of the whole job, from its start."
            ))
        });
        asked.chain(came).collect()
    }

    fn there_said(
        &self,
        material: &str,
        what: &str,
        there: &Quantity,
        short: f64,
        units: UnitSystem,
    ) -> EcoString {
        let stock = self.order(material).map(|order| &order.stock);
        let yard = if stock.is_some_and(is_something) {
            " and what lay in the yard at the start"
        } else {
            ""
        };
        let amount = self
            .need_of(material)
            .and_then(|figure| amount(figure, there, units));
        let amount = amount.map_or_else(EcoString::new, |amount| eco_format!(" ({amount})"));
        eco_format!("{what}{yard}{amount}: short {}.", chance(short))
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
                "The job is drawn {} times, by the number {}; the same number gives the same again. Each time every input has one value out of its spread, and each face a thickness of its own.",
                count(self.draws),
                self.seed
            ),
            "Beside an input stands what it makes of how far a figure varies; all else comes from small inputs, from inputs together and from rounding up (in statistics: squared correlations; Saltelli et al., Global Sensitivity Analysis: The Primer, 2008, from memory).".into(),
            "Equal walls of one entry are drawn by one value that stands for all: what they bring together over flat surfaces is exact, at rounded edges their mean.".into(),
            "Surfaces are taken as measured, and water is left out: nobody orders it.".into(),
            "Nothing of what is recorded or was delivered is in these draws: they are of the whole job, from its start.".into(),
        ];
        notes.extend(self.untold.iter().map(|(line, draws)| {
            let label = line.label();
            let (some, all) = (count(*draws), count(self.draws));
            eco_format!("{label} is not told: {some} of {all} draws have no value of it, as where no package covers what is needed.")
        }));
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
    eco_format!("{}\u{a0}%", fixed(share * 100.0, 0, units.grouping()))
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
