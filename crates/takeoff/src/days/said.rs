//! The words of the days, in one place for tables, papers and the screen. Not here: the days.

use super::{DayTask, Days, Drying, Hasty, NightAhead, Until};
use ecow::{EcoString, eco_format};
use hodful_air::film::Haste;
use hodful_air::frost::{Binder, Reason, Verdict, care};
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::Celsius;
use hodful_workplan::{Because, Notice, Unplanned, Why};
use jiff::civil::{Date, DateTime, Weekday};

impl DayTask {
    /// The face and the coat: `S outside, scratch`.
    pub fn said(&self) -> EcoString {
        eco_format!("{} {}, {}", self.wall, self.side.word(), self.coat)
    }
}

/// A day with its day of the week: `Mon 2026-04-13`.
pub fn day(date: Date) -> EcoString {
    let name = match date.weekday() {
        Weekday::Monday => "Mon",
        Weekday::Tuesday => "Tue",
        Weekday::Wednesday => "Wed",
        Weekday::Thursday => "Thu",
        Weekday::Friday => "Fri",
        Weekday::Saturday => "Sat",
        Weekday::Sunday => "Sun",
    };
    eco_format!("{name} {date}")
}

/// A time of the day: `8:15`.
pub fn clock(at: DateTime) -> EcoString {
    eco_format!("{}:{:02}", at.hour(), at.minute())
}

impl Drying {
    /// The three dates, from the fastest: `04-20, 04-24, 05-02`; a dash where it cannot be told.
    pub fn said(&self) -> [EcoString; 3] {
        [self.fast, self.likely, self.slow].map(|until: Option<Until>| {
            until.map_or_else(
                || "–".into(),
                |until| {
                    let date = until.at.date();
                    eco_format!("{:02}-{:02}", date.month(), date.day())
                },
            )
        })
    }
}

impl NightAhead {
    /// What speaks for frost: `the air falls to -1.2 °C`.
    pub fn said(&self, units: UnitSystem) -> EcoString {
        let degrees = |celsius: f64| print::temperature(Celsius(celsius), units).to_string();
        let each = self.night.reasons.iter().map(|reason| match reason {
            Reason::Air { celsius } => eco_format!("the air falls to {}", degrees(*celsius)),
            Reason::WetBulb { celsius } => {
                eco_format!("a wet face cools to {}", degrees(*celsius))
            }
            Reason::BelowLimit { celsius, limit } => eco_format!(
                "the air falls to {}, below the {} that lime or cement may have",
                degrees(*celsius),
                degrees(*limit)
            ),
            Reason::ClearAndCalm { celsius } => {
                eco_format!("clear or calm, or not known, at {}", degrees(*celsius))
            }
        });
        each.collect::<Vec<_>>().join("; ").into()
    }

    /// How bad it is, in a word or two.
    pub fn verdict(&self) -> &'static str {
        match self.night.verdict() {
            Verdict::Freezes => "may freeze",
            Verdict::Watch => "watch",
            Verdict::Safe => "safe",
        }
    }
}

impl Hasty {
    /// When and what to do.
    pub fn said(&self) -> EcoString {
        let advice = match self.haste() {
            Haste::Act => "shade it, screen it from the wind, mist it",
            Haste::Watch | Haste::Calm => "keep an eye on it and the mister at hand",
        };
        eco_format!(
            "{} {} to {}, up to {:.1} kg/m² an hour: {advice}",
            day(self.from.date()),
            clock(self.from),
            clock(self.to),
            self.most_kg_m2_h
        )
    }
}

impl Days {
    fn name(&self, task: usize) -> EcoString {
        self.tasks.get(task).map(DayTask::said).unwrap_or_default()
    }

    /// What holds the end of the work, from the first task to the last.
    pub fn held(&self) -> Vec<EcoString> {
        let each = self.plan.chain.iter().map(|link| {
            let own = self.name(link.task);
            match link.because {
                Because::First => eco_format!("{own}: begins the work"),
                Because::Waits { task } => eco_format!("{own}: waits after {}", self.name(task)),
                Because::Dries { task } => {
                    eco_format!("{own}: waits until {} is dry", self.name(task))
                }
                Because::Taken { task } => {
                    eco_format!("{own}: people or mix are at {}", self.name(task))
                }
                Because::DayEnd { task } => {
                    eco_format!("{own}: does not fit into the day after {}", self.name(task))
                }
            }
        });
        each.collect()
    }

    /// When the work ends, and what no plan undercuts.
    pub fn end(&self) -> Option<EcoString> {
        let end = self.plan.end()?;
        let bound = self.plan.bounds.map(|bounds| bounds.end());
        let bound = bound.map_or_else(EcoString::new, |bound| {
            eco_format!(" No plan can end before {}.", day(bound.date()))
        });
        Some(eco_format!(
            "The last coat is on the wall on {} at {}.{bound}",
            day(end.date()),
            clock(end)
        ))
    }

    /// Tasks that found no place, and why.
    pub fn left_out(&self) -> Vec<EcoString> {
        let each = self.plan.unplanned.iter();
        each.map(|Unplanned { task, why }| {
            let own = self.name(*task);
            match why {
                Why::TooLarge { hours, limit } => eco_format!(
                    "{own} takes {hours:.1} hours and finds no day: {}",
                    limit.words()
                ),
                Why::Nobody { limit } => {
                    eco_format!("{own} cannot be done: {}", limit.words())
                }
                Why::After { task } => {
                    eco_format!("{own} comes after {}, which has no place", self.name(*task))
                }
                Why::NoDaysLeft => eco_format!("{own} finds no day within ten years"),
            }
        })
        .collect()
    }

    /// What should be known of faces that are cut.
    pub fn notices(&self) -> Vec<EcoString> {
        let each = self.plan.notices.iter().map(|notice| match notice {
            Notice::Joint { task, parts, hands } => {
                let fits = hands.map_or_else(EcoString::new, |hands| {
                    eco_format!("; with {hands} at it, it would fit in a day")
                });
                eco_format!(
                    "{} takes {parts} days: put the joint at a corner or an opening{fits}.",
                    self.name(*task)
                )
            }
            Notice::LosesWetEdge { task, m2 } => eco_format!(
                "{} is larger than the {m2:.0} m² on which an edge stays wet: go in strips.",
                self.name(*task)
            ),
        });
        each.collect()
    }

    /// Where the rules for frost and waits come from, for the binders of the work.
    pub fn cares(&self) -> Vec<EcoString> {
        let mut binders: Vec<Binder> = Vec::new();
        for task in &self.tasks {
            if !binders.contains(&task.binder) {
                binders.push(task.binder);
            }
        }
        let each = binders.into_iter().map(|binder| {
            let name = match binder {
                Binder::Earth => "Earth",
                Binder::Cement => "Cement",
                Binder::HydraulicLime => "Hydraulic lime",
                Binder::AirLime => "Lime",
            };
            eco_format!("{name} and frost: {}.", care(binder).source)
        });
        each.collect()
    }
}
