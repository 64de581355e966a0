//! Rooms whose air the inside coats dry into. Not here: how damp they become (see `crate::days::rooms`).

use super::above;
use crate::check::values::Values;
use crate::problem::Place;
use crate::project::{HeaterFuel, Name, Project, Room, Side};
use ecow::eco_format;
use hodful_air::room::{CEILING_M2K_W, LIMIT_HUMIDITY, RESTING_CHANGES_H};
use hodful_air::wall::STILL_ROOM_W_M2K;
use hodful_quantities::Typed;
use hodful_quantities::read::Number;
use hodful_quantities::units::{Celsius, cubic_meter, kilogram, liter, ratio};
use std::collections::HashMap;

/// Heat from moved air to a wall, W/(m²·K): a breath of 1 m/s along it (`hodful_air::wall`).
const FAN_W_M2K: f64 = 8.0;

/// The lowest and the highest that a room may be kept at, °C: ours, what people work in.
const WARMTH: (f64, f64) = (-20.0, 50.0);

/// A room as numbers.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct CheckedRoom {
    /// Its position in the project.
    pub(crate) at: usize,
    pub(crate) name: Name,
    pub(crate) volume_m3: f64,
    /// Positions of its walls, each with an inside face.
    pub(crate) walls: Vec<usize>,
    /// °C; nothing where it is as warm as outside.
    pub(crate) celsius: Option<f64>,
    pub(crate) changes_per_h: f64,
    pub(crate) h_w_m2k: f64,
    /// Water from people and heaters, kg/h.
    pub(crate) given_kg_h: f64,
    pub(crate) has_heater: bool,
    /// 0 to 1.
    pub(crate) limit: f64,
    pub(crate) ceiling_u: Option<f64>,
}

/// Every room of which nothing is refused.
pub(crate) fn read(project: &Project, values: &mut Values) -> Vec<CheckedRoom> {
    let Some(work) = &project.work else {
        return Vec::new();
    };
    let mut taken: HashMap<usize, &Name> = HashMap::new();
    let mut found = Vec::new();
    for (at, (name, room)) in work.rooms.iter().enumerate() {
        let place = Place::project().field("work").thing("room", name.clone());
        let before = values.count_of_problems();
        let walls = walls(project, work.rooms.len(), room, &place, values);
        for wall in &walls {
            if let Some(other) = taken.insert(*wall, name) {
                let id = project.walls.get(*wall).map(|wall| wall.id.clone());
                let message = eco_format!(
                    "{} is already in {other}; a face has one room",
                    id.unwrap_or_default()
                );
                values.refuse(place.field("walls"), message);
            }
        }
        let volume = values.above_nothing(&place, "volume", &room.volume);
        let changes = values.optional(&place, "air_changes", room.air_changes.as_ref());
        if room.heater.is_some() && changes.is_some_and(|changes| changes.get() <= 0.0) {
            let message = "is nothing, and a heater without a flue burns in it: without fresh air that kills; say how often its air changes";
            values.refuse(place.field("air_changes"), message);
        }
        let water = values.optional(&place, "water_per_day", room.water_per_day.as_ref());
        let limit = limit(room, &place, values);
        let checked = CheckedRoom {
            at,
            name: name.clone(),
            volume_m3: volume.get::<cubic_meter>(),
            walls,
            celsius: warmth(room.temperature.as_ref(), &place, values),
            changes_per_h: changes.map_or(RESTING_CHANGES_H, Number::get),
            h_w_m2k: if room.fan == Some(true) {
                FAN_W_M2K
            } else {
                STILL_ROOM_W_M2K
            },
            // A litre of water is a kilogram.
            given_kg_h: (water.map_or(0.0, |water| water.get::<liter>())
                + fuel(room, &place, values))
                / 24.0,
            has_heater: room.heater.is_some(),
            limit,
            ceiling_u: ceiling(room, &place, values),
        };
        if values.count_of_problems() == before {
            found.push(checked);
        }
    }
    found
}

/// The walls of a room that have an inside face.
fn walls(
    project: &Project,
    rooms: usize,
    room: &Room,
    place: &Place,
    values: &mut Values,
) -> Vec<usize> {
    let place = place.field("walls");
    let with_inside = || {
        let all = project.walls.iter().enumerate();
        all.filter(|(_, wall)| wall.face(Side::Inside).is_some())
    };
    if room.walls.is_empty() {
        if rooms > 1 {
            values.refuse(place, "are not named, and there is another room; name them");
            return Vec::new();
        }
        return with_inside().map(|(at, _)| at).collect();
    }
    let mut found = Vec::new();
    for id in &room.walls {
        let mut own = with_inside().filter(|(_, wall)| wall.id == *id).peekable();
        if own.peek().is_none() {
            if project.walls.iter().any(|wall| wall.id == *id) {
                values.refuse(place.clone(), eco_format!("{id} has no inside face"));
            } else {
                values.missing(
                    &place,
                    "wall",
                    id,
                    project.walls.iter().map(|wall| &wall.id),
                );
            }
        }
        for (at, _) in own {
            if found.contains(&at) {
                values.refuse(place.clone(), eco_format!("names {id} twice"));
            } else {
                found.push(at);
            }
        }
    }
    found
}

fn warmth(typed: Option<&Typed<Celsius>>, place: &Place, values: &mut Values) -> Option<f64> {
    let typed = typed?;
    let Celsius(celsius) = typed.value();
    let (least, most) = WARMTH;
    if (least..=most).contains(&celsius) {
        return Some(celsius);
    }
    let message = eco_format!(
        "'{}' is no warmth of a room; it is from {least} to {most} °C",
        typed.text()
    );
    values.refuse(place.field("temperature"), message);
    None
}

/// The U-value of the coldest part, W/(m²·K): below 10, at which its face would be as cold as the air outside
/// (1 over the resistance at a ceiling, `hodful_air::room::CEILING_M2K_W`).
fn ceiling(room: &Room, place: &Place, values: &mut Values) -> Option<f64> {
    let u = above(values, place, "ceiling_u", room.ceiling_u.as_ref())?;
    if u * CEILING_M2K_W < 1.0 {
        return Some(u);
    }
    let message = eco_format!(
        "'{u}' is no U-value in W/(m²·K), which is below {:.0}; 1 BTU/(h·ft²·°F) is 5.68",
        1.0 / CEILING_M2K_W
    );
    values.refuse(place.field("ceiling_u"), message);
    None
}

fn limit(room: &Room, place: &Place, values: &mut Values) -> f64 {
    let Some(typed) = &room.stay_below else {
        return LIMIT_HUMIDITY;
    };
    let share = typed.value().get::<ratio>();
    if !(share > 0.0 && share < 1.0) {
        let message = eco_format!(
            "'{}' is no humidity to stay below; it is between 0 and 100 %",
            typed.text()
        );
        values.refuse(place.field("stay_below"), message);
    }
    share
}

/// Water from what burns, kg a day.
fn fuel(room: &Room, place: &Place, values: &mut Values) -> f64 {
    match (room.heater, &room.fuel_per_day) {
        (Some(fuel), Some(typed)) => {
            let burnt = values.at_least_nothing(place, "fuel_per_day", typed);
            burnt.get::<kilogram>() * water_kg_kg(fuel)
        }
        (Some(_), None) => {
            let message =
                "is missing; a heater without a flue wets the air by what it burns in a day";
            values.refuse(place.field("fuel_per_day"), message);
            0.0
        }
        (None, Some(_)) => {
            values.refuse(
                place.field("heater"),
                "is missing beside fuel_per_day; say what burns, or leave out both where the fumes go up a flue",
            );
            0.0
        }
        (None, None) => 0.0,
    }
}

/// Water of a kilogram of fuel, kg.
fn water_kg_kg(fuel: HeaterFuel) -> f64 {
    let known = hodful_air::room::FUELS.iter();
    let mut own = known.filter(|known| known.name == fuel.word());
    own.next().map_or(0.0, hodful_air::room::Fuel::water_kg_kg)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_fuel_gives_water() {
        for fuel in HeaterFuel::ALL {
            assert!(water_kg_kg(*fuel) > 1.0, "{}", fuel.word());
        }
    }
}
