//! The words of the days, in one place for tables, papers and the screen. Not here: the days.

mod rooms;
mod weekend;

use super::{
    Cautioned, DayTask, Days, Drying, Hasty, Lacking, LearnedDrying, NightAhead, NightOnSite,
    OnWall, Open, RainOnSite, Stretch, Until, coats_on_walls,
};
use crate::project::Side;
use ecow::{EcoString, eco_format};
use hodful_air::film::Haste;
use hodful_air::frost::{Binder, Reason, Verdict, care};
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Area, Celsius, square_meter};
use hodful_workplan::{Because, Notice, Unplanned, Why};
use jiff::civil::{Date, DateTime, Weekday};
use std::collections::BTreeMap;

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
    /// The three dates, from the fastest: `04-20, 04-24, 05-02`, with the year where it is another than that of the
    /// day on which the coat is put on; a dash where it cannot be told.
    pub fn said(&self, placed: Date) -> [EcoString; 3] {
        [self.fast, self.likely, self.slow].map(|until: Option<Until>| {
            let date = until.map(|until| until.at.date());
            date.map_or_else(
                || "–".into(),
                |date| {
                    if date.year() == placed.year() {
                        eco_format!("{:02}-{:02}", date.month(), date.day())
                    } else {
                        eco_format!("{date}")
                    }
                },
            )
        })
    }
}

impl NightOnSite<'_> {
    /// What it may do, and why: `may freeze: the air falls to -1.2 °C`.
    pub fn said(&self, units: UnitSystem) -> EcoString {
        eco_format!("{}: {}", self.worst.verdict(), self.worst.said(units))
    }

    /// The coats that are wet then, in lines.
    pub fn wet(&self) -> Vec<EcoString> {
        wet(&self.likely, &self.slow)
    }
}

/// Coats, those that are likely wet first: `scratch outside on S, E`, `if it dries slowly: scratch outside on N`.
fn wet(likely: &[&DayTask], slow: &[&DayTask]) -> Vec<EcoString> {
    let told = |tasks: &[&DayTask], before: &str| {
        (!tasks.is_empty()).then(|| eco_format!("{before}{}", coats_on_walls(tasks)))
    };
    let slow = told(slow, "if it dries slowly: ");
    told(likely, "").into_iter().chain(slow).collect()
}

impl RainOnSite<'_> {
    /// How much, and how long: `4.2 mm in 3 hours`, `less than 0.01 inch in 1 hour`.
    pub fn said(&self, units: UnitSystem) -> EcoString {
        let (unit, amount, least) = match units {
            UnitSystem::Metric => ("mm", self.most.mm, 0.1),
            UnitSystem::Us => ("inch", self.most.mm / INCH, 0.01),
        };
        let hours = counted(self.most.hours, "hour");
        let amount = if amount < least {
            eco_format!("less than {least}")
        } else {
            let digits = if units == UnitSystem::Metric { 1 } else { 2 };
            eco_format!("{amount:.digits$}")
        };
        eco_format!("{amount} {unit} in {hours}")
    }

    /// The coats that are wet then, in lines.
    pub fn wet(&self) -> Vec<EcoString> {
        wet(&self.likely, &self.slow)
    }
}

/// Millimetres of an inch: the international inch.
const INCH: f64 = 25.4;

/// What stands with days of rain.
pub const RAIN: &str = "Rain washes fresh earth off and wets it anew, which is not reckoned: hang sheets before it, clear of the face so that it goes on drying (common practice, no source).";

impl Days {
    /// For what a caution is told: `scratch on S, E; screening`.
    pub fn told_for(&self, of: &Cautioned<'_>) -> EcoString {
        let coats = if of.coats.len() == self.coats().count() {
            "every coat".into()
        } else {
            coats_on_walls(&of.coats)
        };
        let coats = (!of.coats.is_empty()).then_some(coats);
        let all: Vec<EcoString> = coats.into_iter().chain(of.prepared.clone()).collect();
        all.join("; ").into()
    }
}

impl Stretch {
    /// When and how long: `Mon 2026-04-13 8:00 to 12:30`.
    pub fn said(&self) -> EcoString {
        eco_format!(
            "{} {} to {}",
            day(self.begin.date()),
            clock(self.begin),
            clock(self.end)
        )
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
            Reason::Near { celsius } => eco_format!(
                "a wet face cools to {}, and forecasts are off by as much",
                degrees(*celsius)
            ),
            Reason::BelowLimit { celsius, limit } => eco_format!(
                "the air falls to {}, below the {} that lime or cement may have",
                degrees(*celsius),
                degrees(*limit)
            ),
            Reason::ClearAndCalm { celsius } => {
                eco_format!(
                    "clear and calm as far as is known, at {}",
                    degrees(*celsius)
                )
            }
            Reason::DrynessUnknown { celsius, .. } => eco_format!(
                "the air falls to {}, and how dry it is is not known",
                degrees(*celsius)
            ),
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

/// Kilograms a square metre in a pound a square foot: NIST Special Publication 811, appendix B.
const LB_FT2_KG_M2: f64 = 4.882_428;

impl Hasty {
    /// When and what to do.
    pub fn said(&self, units: UnitSystem) -> EcoString {
        let advice = match self.haste() {
            Haste::Act => "shade it, screen it from the wind, mist it",
            Haste::Watch | Haste::Calm => "keep an eye on it and the mister at hand",
        };
        let (unit, most) = match units {
            UnitSystem::Metric => ("kg/m²", self.most_kg_m2_h),
            UnitSystem::Us => ("lb/ft²", self.most_kg_m2_h / LB_FT2_KG_M2),
        };
        eco_format!(
            "{} {} to {}, up to {most:.2} {unit} an hour: {advice}",
            day(self.from.date()),
            clock(self.from),
            clock(self.to),
        )
    }
}

impl OnWall {
    /// Since when it is there, and when it is dry: `N outside, scratch, since Sat 2026-04-11: dry not before 04-14, likely
    /// 04-16, to reckon with 04-22`.
    pub fn said(&self) -> EcoString {
        let since = self.placed.map_or_else(EcoString::new, |placed| {
            eco_format!(", since {}", day(placed))
        });
        let dry = match (self.dry, &self.task.drying) {
            (Some(dry), _) => eco_format!(": found dry {}", day(dry)),
            (None, Some(drying)) => {
                let since = self.placed.unwrap_or_default();
                let [fast, likely, slow] = drying.said(since);
                let likely = drying
                    .likely
                    .map_or_else(EcoString::new, |_| eco_format!(" likely {likely},"));
                let why = drying
                    .by_rule
                    .map_or_else(EcoString::new, |why| eco_format!(". {}", why.said()));
                let why = why.trim_end_matches('.');
                eco_format!(": dry not before {fast},{likely} to reckon with {slow}{why}")
            }
            (None, None) => ": taken as dry".into(),
        };
        eco_format!("{}{since}{dry}", self.task.said())
    }
}

/// Minutes from which a coat is told to stay workable all day: eight hours, ours.
const ALL_DAY: f64 = 480.0;

impl Open {
    /// Whether nobody need hurry.
    pub fn is_all_day(&self) -> bool {
        !self.is_measured && self.minutes >= ALL_DAY
    }

    /// How long, and on how much: `about 95 minutes, 12 m² at this pace (estimate)`.
    pub fn said(&self, units: UnitSystem) -> EcoString {
        let area = print::area(Area::new::<square_meter>(self.m2), units);
        let from = if self.is_measured {
            "measured"
        } else {
            "an estimate"
        };
        if self.is_all_day() {
            return "all day, as far as drying goes".into();
        }
        eco_format!(
            "{:.0} minutes, so {area} at this pace ({from})",
            self.minutes
        )
    }
}

/// So many, in words: `1 day`, `3 days`.
fn counted(count: u32, one: &str) -> EcoString {
    match count {
        1 => eco_format!("1 {one}"),
        many => eco_format!("{many} {one}s"),
    }
}

/// A share as people say it: `70 %`.
pub fn percent(share: f64) -> EcoString {
    eco_format!("{:.0} %", share * 100.0)
}

impl Days {
    /// What a task of the plan is called, by its position: a coat on a face, or what is prepared.
    pub fn name(&self, task: usize) -> EcoString {
        let prepared = || {
            self.site
                .tasks
                .get(task)
                .map(|task| task.name.as_str().into())
        };
        let coat = self.tasks.get(task).map(DayTask::said);
        coat.or_else(prepared).unwrap_or_default()
    }

    /// What holds coats up, and how many: `placing holds the work up: 8 of 24 coats on faces`.
    pub fn limits(&self) -> Vec<EcoString> {
        let mut count: BTreeMap<&str, usize> = BTreeMap::new();
        let coats = self.plan.tasks.iter().take(self.tasks.len());
        for planned in coats.flatten() {
            *count.entry(planned.limit.words()).or_default() += 1;
        }
        let all = self.tasks.len();
        let each = count.into_iter();
        each.map(|(words, coats)| eco_format!("{words}: {coats} of {all} coats on faces"))
            .collect()
    }

    /// How far the weather is known, where it begins late or ends: ` as far as the weather is known, to Sat 2026-05-30`.
    pub fn as_far(&self) -> EcoString {
        let from = self
            .weather_begins
            .map(|at| eco_format!(" from {}", day(at.date())));
        let to = self
            .weather_ends
            .map(|at| eco_format!(" to {}", day(at.date())));
        let both = [from, to]
            .into_iter()
            .flatten()
            .collect::<Vec<_>>()
            .concat();
        if both.is_empty() {
            return EcoString::new();
        }
        eco_format!(", as far as the weather is known,{both}")
    }

    /// What stands where no night is at risk.
    pub fn no_frost(&self) -> EcoString {
        self.safe("night is at risk of frost while a coat is wet")
    }

    /// What stands with a coat, put on then, for which no night is at risk.
    pub fn no_frost_until_dry(&self, begin: DateTime) -> EcoString {
        match self.weather_ends {
            Some(ends) if begin > ends => eco_format!(
                "The weather ends on {}, before this coat is put on: nothing is told of frost.",
                day(ends.date())
            ),
            _ if self.weather_begins.is_some_and(|begins| begin < begins) => eco_format!(
                "The weather begins after this coat is put on: until then nothing is told of frost. After that no night is seen to be at risk{}.",
                self.as_far()
            ),
            _ => self.safe("night is at risk until it is dry"),
        }
    }

    /// What stands under what is listed of nights and rain, where the weather begins late or ends.
    pub fn listed_until(&self) -> Option<EcoString> {
        let far = self.as_far();
        let known = far.strip_prefix(", as far as the weather is known,")?;
        let when = match (self.weather_begins, self.weather_ends) {
            (Some(_), Some(_)) => "before or after",
            (Some(_), None) => "before",
            _ => "after",
        };
        Some(eco_format!(
            "The weather is known{known} alone; of what is wet {when} that nothing is told."
        ))
    }

    /// What stands where it rains on no wet coat.
    pub fn no_rain(&self) -> EcoString {
        if self.lacking.contains(&Lacking::Rain) {
            return "Nothing is told of rain: the weather does not say it.".into();
        }
        self.safe("rain falls on a wet coat")
    }

    /// What stands where no hour dries a coat too fast.
    pub fn no_haste(&self) -> EcoString {
        let needed = [
            Lacking::Place,
            Lacking::Sun,
            Lacking::Wind,
            Lacking::Dryness,
        ];
        let lacks = needed.iter().any(|needed| self.lacking.contains(needed));
        if lacks && self.tasks.iter().any(|task| task.side == Side::Outside) {
            return "No hour is seen to dry a fresh coat too fast to be worked, but the weather does not say all that it takes: look at sun and wind on the day.".into();
        }
        self.safe("hour dries a fresh coat outside too fast to be worked")
    }

    /// That there is none of something, as far as the weather is known and for as much as a typical year says.
    fn safe(&self, none: &str) -> EcoString {
        let far = self.as_far();
        if self.is_typical {
            eco_format!("In this typical year no {none}{far}; look at the forecast of the day.")
        } else {
            eco_format!("No {none}{far}.")
        }
    }

    /// What holds the end of the work, from the first task to the last.
    pub fn held(&self) -> Vec<EcoString> {
        let each = self.plan.chain.iter().map(|link| {
            let own = self.name(link.task);
            match link.because {
                Because::First => eco_format!("{own}: begins the work"),
                Because::NotBefore => eco_format!("{own}: waits for the coat that is on the wall"),
                Because::Waits { task } => eco_format!("{own}: waits after {}", self.name(task)),
                Because::Dries { task } => {
                    eco_format!("{own}: waits until {} is dry", self.name(task))
                }
                Because::Taken { task } => {
                    eco_format!(
                        "{own}: waits for the people or the mix of {}",
                        self.name(task)
                    )
                }
                Because::DayEnd { task } => {
                    eco_format!("{own}: no time is left that day after {}", self.name(task))
                }
            }
        });
        each.collect()
    }

    /// When the last coat is on the wall that has a place in the plan.
    pub fn last_coat(&self) -> Option<DateTime> {
        let coats = self.plan.tasks.iter().take(self.tasks.len());
        coats.flatten().map(|planned| planned.end).max()
    }

    /// When the last coat is on the wall, in a few words: `last coat Thu 2026-05-21`, `3 coats without a place`.
    pub fn end_in_short(&self) -> Option<EcoString> {
        match self.without_a_place() {
            0 => self
                .last_coat()
                .map(|end| eco_format!("last coat {}", day(end.date()))),
            1 => Some("1 coat without a place".into()),
            many => Some(eco_format!("{many} coats without a place")),
        }
    }

    /// How many coats on faces have no place in the plan.
    pub fn without_a_place(&self) -> usize {
        let unplanned = self.plan.unplanned.iter();
        unplanned.filter(|of| of.task < self.tasks.len()).count()
    }

    /// When the work ends, and what no plan undercuts; where some coats have no place in the plan, that first.
    pub fn end(&self) -> Option<EcoString> {
        let (without, all) = (self.without_a_place(), self.tasks.len());
        let Some(end) = self.last_coat() else {
            return (all > 0).then(|| "No coat can be done by this plan.".into());
        };
        let (day, clock) = (day(end.date()), clock(end));
        if without > 0 {
            return Some(eco_format!(
                "{without} of {all} coats on faces have no place in this plan. The last of the others is on the wall on {day} at {clock}."
            ));
        }
        let bound = self.plan.bounds.map(|bounds| bounds.end());
        let bound = bound.map_or_else(EcoString::new, |bound| {
            eco_format!(" No plan can end before {}.", self::day(bound.date()))
        });
        Some(eco_format!(
            "The last coat is on the wall on {day} at {clock}.{bound}"
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

    /// What should be known of faces that are cut, and of those on which an edge does not stay wet.
    pub fn notices(&self, units: UnitSystem) -> Vec<EcoString> {
        let joints = self.plan.notices.iter().filter_map(|notice| match notice {
            Notice::Joint { task, .. } => self.notices_of(*task, units).into_iter().next(),
            Notice::LosesWetEdge { .. } => None,
        });
        let strips: Vec<EcoString> = (0..self.tasks.len())
            .filter_map(|task| {
                let area = print::area(Area::new::<square_meter>(self.strip(task)?), units);
                Some(eco_format!("{} ({area})", self.name(task)))
            })
            .collect();
        let strips = (!strips.is_empty()).then(|| {
            eco_format!(
                "Go in strips, no larger than an edge stays wet at this pace: {}.",
                strips.join("; ")
            )
        });
        let pooled = [
            (
                self.taken_as_dry(),
                "Taken as dry, as no day is written down for them: ",
                "Look at them before anything comes on, or write the day down.",
            ),
            (
                self.freezing(),
                "May freeze while likely wet, by this plan: ",
                "Begin them later, or keep them warm.",
            ),
            (
                self.hasty(),
                "Dry far too fast while fresh, by this plan: ",
                "Choose cooler, stiller hours, or shade them, screen them from the wind and mist them; where that cannot be had, do not plaster then.",
            ),
            (
                self.rained_on(),
                "It rains on the day they are put on: ",
                "Choose another day, or hang sheets before.",
            ),
        ];
        let far_off = self.learned.iter().flat_map(LearnedDrying::far_off);
        let pooled = pooled.into_iter().filter(|(of, ..)| !of.is_empty());
        let pooled =
            pooled.map(|(of, before, then)| eco_format!("{before}{}. {then}", coats_on_walls(&of)));
        far_off.chain(pooled).chain(joints).chain(strips).collect()
    }

    /// Coats that were recorded without a day, and have another coat before them.
    fn taken_as_dry(&self) -> Vec<&DayTask> {
        let undated = self.on_wall.iter().filter(|of| of.placed.is_none());
        let has_more = |of: &DayTask| {
            let face = (&of.wall, of.side);
            self.tasks
                .iter()
                .any(|task| (&task.wall, task.side) == face)
        };
        undated
            .map(|of| &of.task)
            .filter(|of| has_more(of))
            .collect()
    }

    /// Coats of the plan that a night may freeze while they are likely wet.
    fn freezing(&self) -> Vec<&DayTask> {
        let freezes =
            |night: &NightAhead| night.likely_wet && night.night.verdict() == Verdict::Freezes;
        self.tasks
            .iter()
            .filter(|task| task.nights.iter().any(freezes))
            .collect()
    }

    /// Coats of the plan that dry so fast, on the day they are put on or the morning after, that something must be done.
    fn hasty(&self) -> Vec<&DayTask> {
        let acts = |task: &&DayTask| task.hasty.iter().any(|of| of.haste() == Haste::Act);
        self.tasks.iter().filter(acts).collect()
    }

    /// Coats of the plan that it rains on while they are put on.
    fn rained_on(&self) -> Vec<&DayTask> {
        let all = self.tasks.iter().enumerate().filter(|(at, task)| {
            let stretches = self.stretches(*at);
            task.rain
                .iter()
                .any(|rain| stretches.iter().any(|of| of.begin.date() == rain.date))
        });
        all.map(|(_, task)| task).collect()
    }

    /// The same of one task, by its position.
    pub fn notices_of(&self, task: usize, units: UnitSystem) -> Vec<EcoString> {
        let cut = self.plan.notices.iter().find_map(|notice| match notice {
            Notice::Joint {
                task: of,
                parts,
                hands,
            } if *of == task => {
                let fits = hands.map_or_else(EcoString::new, |hands| {
                    eco_format!("; with {hands} at it, it would fit in a day")
                });
                Some(eco_format!(
                    "{} takes {parts} days: put the joint at a corner or an opening{fits}.",
                    self.name(task)
                ))
            }
            _ => None,
        });
        let strip = self.strip(task).map(|m2| {
            let area = print::area(Area::new::<square_meter>(m2), units);
            eco_format!("An edge stays wet on {area} at this pace, which is less than the face: go in strips.")
        });
        cut.into_iter().chain(strip).collect()
    }

    /// The surface on which an edge stays wet, m², where a task does more than that in a day: by what was measured or by
    /// the driest hour.
    fn strip(&self, task: usize) -> Option<f64> {
        let open = self
            .tasks
            .get(task)?
            .open
            .filter(|open| !open.is_all_day())?;
        let day = self.stretches(task).into_iter().map(|part| part.m2);
        (open.m2 < day.fold(0.0, f64::max)).then_some(open.m2)
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

/// What stands under what is told of the humidity of rooms.
pub const FRESH_EARTH: &str =
    "Fresh earth beside dry earth makes the air drier for a while; that is not counted.";

/// What stands with weather that is told by the hour.
pub const STANDARD_TIME: &str =
    "Hours of the weather are standard time: by summer time the clock on site shows an hour more.";
