//! What is said of the rooms of the work, of what is on the walls already, and of what records of drying teach. Not
//! here: days and coats.

use super::Said;
use crate::State;
use ecow::eco_format;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Celsius, Mass, kilogram};
use hodful_takeoff::days::{Days, said as words};

/// A room, by its position.
pub(super) fn room(state: &State, days: &Days, at: usize, said: &mut Vec<Said>) {
    let units = state.units();
    let Some(room) = days.rooms.iter().find(|room| room.at == at) else {
        said.push(Said::words(
            "Nothing is told of it: there is no weather, or no coat of the plan is in it.",
        ));
        return;
    };
    said.push(Said::Head(room.name.clone()));
    said.push(Said::Words(room.water(units)));
    said.push(Said::Words(room.open()));
    said.extend(room.warnings(units).into_iter().map(Said::Bad));
    said.push(Said::Gap);
    said.push(Said::Head("Day by day".into()));
    for day in &room.days {
        let warmth = print::temperature(Celsius(day.celsius), units);
        let water = print::mass(Mass::new::<kilogram>(day.water_kg), units);
        said.push(Said::Pair(
            words::day(day.date),
            eco_format!(
                "{warmth}, {} to {}, {water} of water",
                words::percent(day.humidity),
                words::percent(day.highest)
            ),
        ));
    }
    said.push(Said::words(format_args!(
        "Warmth and humidity are means of the day, then the highest humidity. {}",
        words::FRESH_EARTH
    )));
}

/// What records of drying teach.
pub(super) fn learned(days: &Days, said: &mut Vec<Said>) {
    said.push(Said::Head("What was seen to dry".into()));
    if days.learned.is_empty() {
        said.push(Said::words(
            "Nothing yet: a record teaches when it says on which day the coat was found dry.",
        ));
    }
    said.extend(days.learned.iter().map(|of| Said::Words(of.said())));
}

/// What is on the walls already, as far as it is still wet.
pub(super) fn on_wall(days: &Days, units: UnitSystem, said: &mut Vec<Said>) {
    let wet = days.on_wall.iter().filter(|of| of.task.drying.is_some());
    let wet: Vec<_> = wet.collect();
    if wet.is_empty() {
        return;
    }
    said.push(Said::Head("On the walls already".into()));
    for of in wet {
        said.push(Said::Words(of.said()));
        for night in of.task.nights.iter().filter(|night| night.likely_wet) {
            said.push(Said::Under(eco_format!(
                "{}, {}: {}",
                words::day(night.night.evening),
                night.verdict(),
                night.said(units)
            )));
        }
    }
    said.push(Said::Gap);
}
