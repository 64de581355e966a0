//! The words of days with helpers. Not here: the days.

use super::{clock, day};
use crate::days::{Ahead, DayTask, Hands, MixAhead, WeekendAhead};
use ecow::{EcoString, eco_format};
use hodful_quantities::order::round_up;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Area, Volume, liter, square_meter};
use hodful_workplan::Crew;

impl WeekendAhead {
    /// What fits, and on which days: `On Sat 2026-05-16 and Sun 2026-05-17 with 14 people 83.2 m² can be placed.`
    pub fn fits(&self, units: UnitSystem) -> EcoString {
        let area = print::area(Area::new::<square_meter>(self.m2), units);
        let days: Vec<EcoString> = self.days.plan.days.iter().map(|of| day(of.date)).collect();
        let days = match days.as_slice() {
            [] => return "Nothing can be placed in these days.".into(),
            [one] => one.clone(),
            [all @ .., last] => eco_format!("{} and {last}", all.join(", ")),
        };
        let people = match self.days.site.crew.people() {
            1 => "1 person".into(),
            many => eco_format!("{many} people"),
        };
        eco_format!("On {days} with {people} {area} can be placed.")
    }

    /// What is left for later, in a sentence.
    pub fn left(&self) -> Option<EcoString> {
        let names: Vec<EcoString> = self.left.iter().map(DayTask::said).collect();
        (!names.is_empty()).then(|| eco_format!("Left for later: {}.", names.join("; ")))
    }

    /// What stands where the project names nothing to prepare.
    pub const NOTHING_TO_PREPARE: &'static str = "The project names nothing to prepare. Usual are heaps at the mixer, clay in water, screening, masking, trimmed and keyed backgrounds: give them hours under 'prepare'.";

    /// Who does what, coat by coat, in sentences.
    pub fn who(&self, units: UnitSystem) -> Vec<EcoString> {
        match (self.hands.as_slice(), self.m2 > 0.0) {
            ([], true) => vec!["Nobody is kept to one thing: all do what comes next.".into()],
            ([], false) => {
                vec!["These people cannot be shared out so that a coat gets done.".into()]
            }
            (hands, _) => hands.iter().map(|hands| hands.said(units)).collect(),
        }
    }

    /// For how much of a mix the materials must lie there: `For 1.9 m³ of base, 24 batches, dry and screened, at the
    /// mixer`.
    pub fn heaps(&self, of: &MixAhead, units: UnitSystem) -> EcoString {
        let volume = print::volume(Volume::new::<liter>(of.litres), units);
        let batch = self.days.site.mixing.map(|mixing| mixing.litres_per_batch);
        let batches = batch.map_or_else(EcoString::new, |batch| {
            let batches = round_up(of.litres / batch).unwrap_or_default();
            eco_format!(
                ", {batches} {}",
                if batches == 1 { "batch" } else { "batches" }
            )
        });
        eco_format!(
            "For {volume} of {}{batches}, dry and screened, at the mixer",
            of.mix
        )
    }
}

impl Ahead {
    /// By when it must be done: `Fri 2026-05-15 16:30`.
    pub fn by(&self) -> EcoString {
        eco_format!("{} {}", day(self.by.date()), clock(self.by))
    }
}

impl Hands {
    /// Who does what: `scratch: 1 mixing, 2 carrying, 5 placing, 1 finishing; 12 m² an hour; the mixer holds the work up`.
    pub fn said(&self, units: UnitSystem) -> EcoString {
        let Crew::Roles {
            mixing,
            carrying,
            placing,
            finishing,
        } = self.crew
        else {
            return EcoString::new();
        };
        let roles = [
            (mixing, "mixing"),
            (carrying, "carrying"),
            (placing, "placing"),
            (finishing, "finishing"),
        ];
        let roles = roles.into_iter().filter(|(people, _)| *people > 0);
        let roles: Vec<String> = roles
            .map(|(people, role)| format!("{people} {role}"))
            .collect();
        let area = print::area(Area::new::<square_meter>(self.m2_per_hour), units);
        eco_format!(
            "{}: {}; {area} an hour, {}",
            self.coat,
            roles.join(", "),
            self.limit.words()
        )
    }
}
