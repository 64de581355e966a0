//! What is forecast, in sentences that stand the same on the screen, on paper and on the command line. Not
//! here: forecasting.
//!
//! "Worked out" is what the surfaces and coats come to by themselves, "forecast" is that with what the walls
//! took so far.

use super::learned::Learned;
use super::materials::{MaterialForecast, Needed};
use super::{CoatForecast, Forecast};
use crate::card::said::plural;
use crate::chances::said::{USUAL_SHORT, enough};
use crate::packages::covering;
use crate::project::{MaterialKind, Name, Project};
use ecow::{EcoString, eco_format};
use hodful_quantities::Batches;
use hodful_quantities::mix::Quantity;
use hodful_quantities::print::{self, UnitSystem, fixed};
use hodful_quantities::units::Volume;

/// Behind the factors.
const METHOD: &str = "What is mixed is forecast in the middle: as often it is more as it is less. A record counts the more, the less it can be off beside what was thought before: the logarithm of what was taken over what was thought is taken as normal (Gelman et al., Bayesian Data Analysis, section 2.5, from memory).";

/// What the order that is left is worth.
const MIDDLE: &str = "What is still to order is that middle, with yield, moisture, bulking and reject as they are written: about half the time it is short. What is enough 90 times in 100 goes by how far all of these may be off.";

/// What a record is read with.
const READ_NOW: &str = "Records are read with what the project has now: a batch is what the mixer holds now, what was worked out for a recorded wall is of its coat as it is now, and what was used is of its mix as it is now. Who changes one of them for the rest gives the rest a coat or a mix of another name; before another mixer, write batches as a volume.";

/// Behind what a count says.
const READING: &str = "A count of batches or buckets is off by half of one at most, a volume by half of its last digit, and by anything less as likely (JCGM 100:2008, 4.3.7).";

/// Beside an order of a job that has begun.
const WHOLE_JOB: &str = "This order is for the whole job, and of what is there it counts the yard at the start alone. What came since, what was used and what is still to order stand in the forecast (hodful forecast, page 0).";

/// Over what is enough for the rest as often as an order is usually asked to be.
pub fn enough_head() -> EcoString {
    enough(USUAL_SHORT)
}

/// What an order has to say once work or deliveries are recorded, for it knows of neither; `None` before.
pub fn beside_records(project: &Project) -> Option<&'static str> {
    let is_begun = !(project.done.is_empty() && project.delivered.is_empty());
    is_begun.then_some(WHOLE_JOB)
}

/// A factor.
fn times(factor: f64, units: UnitSystem) -> String {
    fixed(factor, 2, units.grouping())
}

impl Learned {
    /// `scratch took 1.18 times what was worked out on 2 walls, which counts for 63 %`; before any record `scratch is
    /// thought to take 1.05 times what is worked out`.
    pub fn reason(&self, units: UnitSystem) -> EcoString {
        let Some(taken) = self.ratio() else {
            let middle = times(self.factor, units);
            return eco_format!(
                "{} is thought to take {middle} times what is worked out",
                self.coat
            );
        };
        eco_format!(
            "{} took {} times what was worked out on {} {}, which counts for {}",
            self.coat,
            times(taken, units),
            self.walls,
            plural(self.walls, "wall"),
            counts_for(self.weight, units),
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

    /// What was thought of it before any record, and where that is from: what the chances draw it from.
    pub fn before_said(&self, units: UnitSystem) -> EcoString {
        let share = |sd| counts_for(sd, units);
        eco_format!(
            "Before any record {} is thought to take in the mean {} times what is worked out, 2 times in 3 no more than {} off, and \
             a wall no more than {} besides, as the chances have it ({}).",
            self.coat,
            times(self.before.mean, units),
            share(self.before.together),
            share(self.before.wall_to_wall),
            self.before.source,
        )
    }
}

/// A share in whole percents: `63 %`.
pub fn counts_for(share: f64, units: UnitSystem) -> EcoString {
    // The sign stays on the line of its number.
    eco_format!("{}\u{a0}%", fixed(share * 100.0, 0, units.grouping()))
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
        Some(covering(project, material, self.cover.as_ref()?))
    }
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
        let enough = self
            .enough
            .as_ref()
            .and_then(|of| of.packages(project, name));
        let enough = enough.map_or_else(EcoString::new, |packages| {
            eco_format!(" ({}: {packages})", enough_head())
        });
        eco_format!("{needs}, {yard}; {order}{enough}.")
    }

    /// Where the order is another than as worked out, and why; `None` where it is the same.
    ///
    /// `sand: 4 × tipped load instead of 3 × tipped load, because scratch took 1.18 times what was worked out on 2
    /// walls, which counts for 63 %.`
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
        let reason = self.because.as_deref().and_then(|of| forecast.learned(of));
        let because = reason.map_or_else(EcoString::new, |learned| {
            eco_format!(", because {}", learned.reason(units))
        });
        let name = &self.material;
        Some(eco_format!("{name}: {to} instead of {from}{because}."))
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
                "Nothing is recorded that counts: what is forecast is the middle of what the chances have."
                    .into(),
            );
        }
        notes.extend(
            self.learned
                .iter()
                .map(|learned| learned.before_said(units)),
        );
        if self.has_records() {
            notes.push(METHOD.into());
            notes.push(MIDDLE.into());
            notes.push(READING.into());
            notes.push(READ_NOW.into());
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
