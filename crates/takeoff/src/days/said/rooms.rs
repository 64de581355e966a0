//! The words of damp rooms. Not here: the rooms.

use super::{counted, day, percent};
use crate::days::{DampDay, DampRoom, Needed};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Mass, kilogram};

/// Water from which on it is told how much runs down walls, kg: ours.
const LEAST_DRIPPED_KG: f64 = 0.5;

impl DampRoom {
    /// What its coats give off: `412 kg of water, which takes 280 kWh of heat`.
    pub fn water(&self, units: UnitSystem) -> EcoString {
        let mass = print::mass(Mass::new::<kilogram>(self.water_kg), units);
        eco_format!(
            "{mass} of water go into its air, which takes {:.0} kWh of heat.",
            self.heat_kwh
        )
    }

    /// What must be opened, in a sentence.
    pub fn open(&self) -> EcoString {
        let below = percent(self.stay_below);
        match self.needed {
            Needed::None => eco_format!(
                "It stays below {below} with no more than what leaks in, in the hours in which the air outside is dry enough for it."
            ),
            Needed::MoreThanOpenings => eco_format!(
                "No opening keeps it below {below}: warm it, or dry its air by machine."
            ),
            Needed::Changes(changes) => {
                let opening = self.needed.opening().map_or_else(EcoString::new, |of| {
                    let (least, most) = of.changes_per_h;
                    eco_format!(": {} ({least} to {most} by tables)", of.name)
                });
                let reckoned = self.changes_per_h;
                let hours = |of: fn(&DampDay) -> u32| -> u32 { self.days.iter().map(of).sum() };
                let (damp, in_vain) = (hours(|day| day.too_damp_h), hours(|day| day.no_help_h));
                if 2 * in_vain > damp {
                    return eco_format!(
                        "In most of its damp hours ({in_vain} of {damp}) no airing brings it below {below}. In the others its air must change about {changes:.1} times an hour{opening}; reckoned is with {reckoned:.1}."
                    );
                }
                eco_format!(
                    "To stay below {below} its air must change about {changes:.1} times an hour{opening}, in the hours in which the air outside is dry enough for it; reckoned is with {reckoned:.1}. Keeping it warm then takes heat besides."
                )
            }
        }
    }

    /// What outside air cannot do, where it drips, in sentences.
    pub fn warnings(&self, units: UnitSystem) -> Vec<EcoString> {
        let days = |of: fn(&DampDay) -> u32| {
            let own = self.days.iter().filter(|day| of(day) > 0);
            let hours: u32 = own.clone().map(of).sum();
            let first = own.clone().next().map(|day| self::day(day.date));
            first.map(|first| {
                let days = u32::try_from(own.count()).unwrap_or(u32::MAX);
                (counted(hours, "hour"), counted(days, "day"), first)
            })
        };
        let mut said = Vec::new();
        if self.has_heater {
            said.push("Never shut it while a heater without a flue burns in it.".into());
        }
        if let Some((hours, days, first)) = days(|day| day.too_damp_h) {
            said.push(eco_format!(
                "Damper than {} in {hours} on {days}, from {first} on.",
                percent(self.stay_below)
            ));
        }
        if let Some((hours, days, first)) = days(|day| day.no_help_h) {
            said.push(eco_format!(
                "In {hours} of these, on {days}, first on {first}, no airing brings it below, as the air outside is too damp for that. Airing helps while it is drier outside than in; to bring it below, warm it, or dry its air by machine."
            ));
        }
        if let Some((hours, days, first)) = days(|day| day.full_h) {
            let mass = print::mass(Mass::new::<kilogram>(self.dripped_kg), units);
            let mass = if self.dripped_kg < LEAST_DRIPPED_KG {
                "water runs".into()
            } else {
                eco_format!("{mass} of water run")
            };
            said.push(eco_format!(
                "Its air is full in {hours} on {days}, first on {first}: {mass} down its walls. Air it while the air outside is dry enough, warm it, or dry its air by machine."
            ));
        }
        if let Some((hours, days, first)) = days(|day| day.drips_h) {
            said.push(eco_format!(
                "Its coldest part drips in {hours} on {days}, first on {first}."
            ));
        }
        said
    }
}
