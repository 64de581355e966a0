//! Which cautions a task calls for, and what of frost is told in words alone. Not here: the cautions themselves.

use super::nights::kept_until;
use super::tasks::Found;
use super::{DayTask, Planner};
use ecow::{EcoString, eco_format};
use hodful_air::frost::{Binder, CLEAR_NIGHT_CELSIUS};
use hodful_workplan::Plan;
use jiff::civil::DateTime;
use std::iter::zip;

/// Warmth of the air from which heat is to be watched, °C: 80 °F, where the rule on heat that OSHA proposed in 2024
/// first asks for water and shade (by the heat index there; from memory).
const HEAT_CELSIUS: f64 = 26.7;

impl Planner {
    /// Keys of the cautions that a task calls for.
    pub(super) fn cautions(
        &self,
        of: &Found,
        task: &DayTask,
        end: Option<DateTime>,
        hottest: Option<f64>,
    ) -> Vec<&'static str> {
        let room = of.room.and_then(|at| self.rooms.get(at));
        let calls = [
            ("dust", true),
            ("mixer", self.has_mixer),
            ("power", self.has_mixer),
            ("lifting", true),
            ("slip", true),
            ("scaffold", task.is_high),
            ("frost", self.calls_for_frost(of, task, end)),
            // What a damp room is told first is to warm it.
            ("heaters", room.is_some()),
            (
                "heat",
                hottest.is_some_and(|celsius| celsius >= HEAT_CELSIUS),
            ),
            ("lime", task.binder != Binder::Earth || of.has_lime_wash),
            ("wet-straw", task.on_straw),
            ("straw-fire", task.on_straw),
        ];
        let called = calls.into_iter().filter(|(_, called)| *called);
        called.map(|(key, _)| key).collect()
    }

    /// Whether frost is to be thought of: a night speaks for it, or none can be told to be safe, as there is no weather,
    /// it ends before the coat is dry, or it is no forecast. Inside that is so of rooms that are not kept warm, and where
    /// the weather falls to frost around a face that stands in no room.
    pub(super) fn calls_for_frost(
        &self,
        of: &Found,
        task: &DayTask,
        end: Option<DateTime>,
    ) -> bool {
        if !task.nights.is_empty() {
            return true;
        }
        let room = of.room.and_then(|at| self.rooms.get(at));
        let is_cold = room.is_some_and(|room| {
            room.celsius
                .is_none_or(|celsius| celsius <= CLEAR_NIGHT_CELSIUS)
        });
        let (Some(drying), Some(end)) = (&task.drying, end) else {
            // It has no place in the plan, or is found dry.
            return false;
        };
        let until = kept_until(of, end, drying.slow);
        let end = end.max(self.site.begins.at(0, 0, 0, 0));
        let is_unknown = self.climate.is_typical || !self.climate.is_known_in([end, until]);
        (of.stand.is_some() || is_cold) && is_unknown
    }

    /// What is said of inside coats that stand in no room while the weather falls to frost: they are taken as kept warm.
    pub(super) fn cold_inside(&self, plan: &Plan) -> Option<EcoString> {
        let mut coldest = f64::INFINITY;
        let mut names: Vec<EcoString> = Vec::new();
        let mut look = |of: &Found, [begin, end]: [DateTime; 2]| {
            let drying = self.climate.drying(of, end);
            let lowest = self.climate.coldest_outside(of, begin, &drying);
            if let Some(lowest) = lowest.filter(|celsius| *celsius <= 0.0) {
                coldest = coldest.min(lowest);
                names.push(of.task.said());
            }
        };
        for (of, planned) in zip(&self.found, &plan.tasks) {
            if let Some(planned) = planned {
                look(of, [planned.begin, planned.end]);
            }
        }
        let begins = self.site.begins.at(0, 0, 0, 0);
        for (of, recorded) in &self.on_wall {
            if let (Some(placed), None) = (recorded.placed, recorded.dry) {
                let end = DateTime::from_parts(placed, self.site.hours.to);
                look(of, [end.max(begins), end]);
            }
        }
        (!names.is_empty()).then(|| {
            eco_format!(
                "Inside and in no room, so taken as kept warm, while it falls to {coldest:.0} °C outside: {}. Keep it from frost, or say what room it is in.",
                names.join("; ")
            )
        })
    }
}
