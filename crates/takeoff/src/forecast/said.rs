//! What is forecast, in sentences that stand the same on the screen, on paper and on the command line. Not
//! here: forecasting.
//!
//! "Worked out" is what the surfaces and coats come to by themselves, "forecast" is that with what the walls
//! took so far.

use super::learned::Learned;
use super::materials::{MaterialForecast, Needed};
use super::{CoatForecast, Forecast};
use crate::card::said::plural;
use crate::project::{MaterialKind, Name, Project};
use ecow::{EcoString, eco_format};
use hodful_quantities::Batches;
use hodful_quantities::mix::Quantity;
use hodful_quantities::order::Cover;
use hodful_quantities::print::{self, UnitSystem, fixed};
use hodful_quantities::units::{Ratio, Volume, ratio};

/// Behind the factors.
const METHOD: &str = "A factor is the median: the logarithm of what was taken over what was worked out is normal, and each record moves its mean by its share of the precision (Gelman et al., Bayesian Data Analysis, section 2.5, from memory).";

/// What the order that is left is worth.
const MIDDLE: &str = "What is still to order is the middle of what may come: but for rounding up to whole packages it is short as often as it is long.";

/// Behind what a count says.
const READING: &str = "A count of batches or buckets is off by half of one at most, and by anything less as likely (JCGM 100:2008, 4.3.7); a volume is taken as typed.";

/// A factor or a weight.
fn times(factor: f64, units: UnitSystem) -> String {
    fixed(factor, 2, units.grouping())
}

impl Learned {
    /// `scratch took 1.18 times what was worked out on 2 walls; weight 0.63`.
    pub fn reason(&self, units: UnitSystem) -> EcoString {
        let Some(taken) = self.ratio() else {
            return eco_format!("nothing of {} is recorded", self.coat);
        };
        eco_format!(
            "{} took {} times what was worked out on {} {}; weight {}",
            self.coat,
            times(taken, units),
            self.walls,
            plural(self.walls, "wall"),
            times(self.weight, units),
        )
    }

    /// What the records say of a coat, and what the rest of it is forecast at.
    pub fn said(&self, units: UnitSystem) -> EcoString {
        let (low, high) = self.between;
        eco_format!(
            "{}: the rest is forecast at {} times what was worked out, 8 times out of 10 between {} and {}.",
            self.reason(units),
            times(self.factor, units),
            times(low, units),
            times(high, units),
        )
    }

    /// How far it was thought to be off, and who says so.
    pub fn spreads_said(&self, units: UnitSystem) -> EcoString {
        let share = |sd| print::percentage(Ratio::new::<ratio>(sd), units);
        eco_format!(
            "{} was thought to be off by {} in all and by {} from wall to wall, as standard deviations ({}).",
            self.coat,
            share(self.spreads.together),
            share(self.spreads.wall_to_wall),
            self.spreads.source,
        )
    }
}

/// `830 L, 9 batches`.
fn mixed(volume: Volume, batches: Option<&Batches>, units: UnitSystem) -> EcoString {
    let volume = print::volume(volume, units);
    let Some(batches) = batches else {
        return eco_format!("{volume}");
    };
    let count = print::count(batches.loads, units);
    let word = if batches.loads == 1 {
        "batch"
    } else {
        "batches"
    };
    eco_format!("{volume}, {count} {word}")
}

impl CoatForecast {
    /// What is done of it and what the rest takes.
    pub fn said(&self, units: UnitSystem) -> EcoString {
        let volume = |of| print::volume(of, units);
        let name = eco_format!("{}, {}", self.build_up, self.coat);
        let rest = mixed(self.forecast_rest, self.batches.as_ref(), units);
        let worked_out = mixed(self.rest, self.batches_worked_out.as_ref(), units);
        let against = if rest == worked_out {
            EcoString::new()
        } else {
            eco_format!(" where {worked_out} was worked out")
        };
        if self.recorded.value <= 0.0 {
            return eco_format!("{name}: nothing is recorded; it takes {rest}{against}.");
        }
        let took = volume(self.took);
        let recorded = volume(self.recorded);
        if self.rest.value <= 0.0 {
            return eco_format!(
                "{name}: all of it is on the walls and took {took} where {recorded} was worked out."
            );
        }
        eco_format!(
            "{name}: {recorded} of {} is on the walls and took {took}; the rest takes {rest}{against}.",
            volume(self.whole),
        )
    }
}

impl Needed {
    /// What is still to order, in packages: `4 × tipped load`, `nothing`; `None` when no package covers it.
    pub fn packages(&self, project: &Project, material: &str) -> Option<EcoString> {
        packages(project, material, self.cover.as_ref()?)
    }
}

fn packages(project: &Project, material: &str, cover: &Cover) -> Option<EcoString> {
    let offered = &project.materials.get(material)?.packages;
    let each = cover.counts.iter().map(|(at, count)| {
        let package = offered.get(*at)?;
        Some(eco_format!("{count} × {}", package.name))
    });
    let each = each.collect::<Option<Vec<_>>>()?;
    Some(if each.is_empty() {
        "nothing".into()
    } else {
        each.join(" + ").into()
    })
}

/// `1.10 m³ (1 595.0 kg)`.
fn amount(of: &Quantity, units: UnitSystem) -> EcoString {
    let loose = of.loose.map(|v| print::bulk_volume(v, units));
    let mass = of.mass.map(|m| print::mass(m, units));
    match (loose, mass) {
        (Some(loose), Some(mass)) => eco_format!("{loose} ({mass})"),
        (Some(one), None) | (None, Some(one)) => eco_format!("{one}"),
        (None, None) => "an amount that cannot be told".into(),
    }
}

fn is_something(of: &Quantity) -> bool {
    of.loose.is_some_and(|v| v.value > 0.0) || of.mass.is_some_and(|m| m.value > 0.0)
}

impl MaterialForecast {
    /// What was used, what lies in the yard, what the rest needs and what is still to order.
    pub fn said(&self, project: &Project, units: UnitSystem) -> EcoString {
        let of = &self.forecast;
        let name = &self.material;
        let used = if is_something(&of.used) {
            eco_format!("{} used so far, ", amount(&of.used, units))
        } else {
            EcoString::new()
        };
        let needs = eco_format!("{name}: {used}{} for the rest", amount(&of.rest, units));
        let kind = project.materials.get(name).map(|material| material.kind);
        if kind == Some(MaterialKind::Water) {
            return eco_format!("{needs}.");
        }
        let yard = if is_something(&of.yard) {
            eco_format!("{} in the yard", amount(&of.yard, units))
        } else {
            "nothing in the yard".into()
        };
        let order = of.packages(project, name).map_or_else(
            || {
                let to_order = amount(&of.to_order, units);
                eco_format!("{to_order} is still to order, and no package covers it")
            },
            |packages| eco_format!("still to order: {packages}"),
        );
        eco_format!("{needs}, {yard}; {order}.")
    }

    /// What the records do to the order; `None` when nothing is recorded that moves it.
    ///
    /// `The records move sand from 3 × tipped load to 4 × tipped load, because scratch took 1.18 times what was
    /// worked out on 2 walls; weight 0.63.`
    pub fn moved(
        &self,
        forecast: &Forecast,
        project: &Project,
        units: UnitSystem,
    ) -> Option<EcoString> {
        let from = self.worked_out.packages(project, &self.material)?;
        let to = self.forecast.packages(project, &self.material)?;
        if from == to {
            return None;
        }
        let learned = self.because.as_deref().and_then(|of| forecast.learned(of));
        let reason = learned.filter(|learned| !learned.seen.is_empty());
        let because = reason.map_or_else(EcoString::new, |learned| {
            eco_format!(", because {}", learned.reason(units))
        });
        let name = &self.material;
        Some(eco_format!(
            "The records move {name} from {from} to {to}{because}."
        ))
    }

    /// That more was used than lay there and came; `None` when it was not.
    pub fn beyond_said(&self, project: &Project, units: UnitSystem) -> Option<EcoString> {
        let kind = project.materials.get(&self.material)?.kind;
        let beyond = &self.forecast.beyond;
        if kind == MaterialKind::Water || !is_something(beyond) {
            return None;
        }
        Some(eco_format!(
            "{} more of {} was used than lay in the yard and came: record what was delivered, or look at the stock.",
            amount(beyond, units),
            self.material,
        ))
    }
}

impl Forecast {
    /// Everything, a sentence each: what was learned, what is left of each coat, what is to order and why.
    pub fn said(&self, project: &Project, units: UnitSystem) -> Vec<EcoString> {
        let seen = self
            .learned
            .iter()
            .filter(|learned| !learned.seen.is_empty());
        let mut lines: Vec<EcoString> = seen.map(|learned| learned.said(units)).collect();
        lines.extend(self.coats.iter().map(|coat| coat.said(units)));
        for material in &self.materials {
            lines.push(material.said(project, units));
            lines.extend(material.moved(self, project, units));
            lines.extend(material.beyond_said(project, units));
        }
        lines
    }

    /// Where the forecast comes from and what it leaves out.
    pub fn notes(&self, units: UnitSystem) -> Vec<EcoString> {
        let mut notes: Vec<EcoString> = Vec::new();
        if !self.has_records() {
            notes.push(
                "Nothing is recorded that counts: the rest is the whole, and the order is the plain one."
                    .into(),
            );
        }
        let seen = self
            .learned
            .iter()
            .filter(|learned| !learned.seen.is_empty());
        notes.extend(seen.map(|learned| learned.spreads_said(units)));
        if self.has_records() {
            notes.push(MIDDLE.into());
            notes.push(METHOD.into());
            notes.push(READING.into());
        }
        let numbers = |of: &[usize]| -> String {
            let each: Vec<String> = of.iter().map(ToString::to_string).collect();
            each.join(", ")
        };
        if !self.records_left_out.is_empty() {
            notes.push(eco_format!(
                "Left out, because something in the record, its walls or its coat is refused, or nothing was worked out for it: record {}.",
                numbers(&self.records_left_out)
            ));
        }
        if !self.deliveries_left_out.is_empty() {
            notes.push(eco_format!(
                "Left out, because something in it is refused: delivery {}.",
                numbers(&self.deliveries_left_out)
            ));
        }
        if !self.waiting.is_empty() {
            let names: Vec<&str> = self.waiting.iter().map(Name::as_str).collect();
            notes.push(eco_format!(
                "Cannot be told while something is refused: {}.",
                names.join(", ")
            ));
        }
        notes
    }
}
