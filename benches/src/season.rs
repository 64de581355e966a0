//! A year of invented weather, and outside faces that look to all sides in it. Not here: what is reckoned from them.

use crate::terrace::{self, Walls};
use core::f64::consts::TAU;
use hodful_air::outside::Stand;
use hodful_air::sun::Place;
use hodful_air::{Hour, Station, Weather};
use hodful_quantities::Typed;
use hodful_takeoff::project::{Project, Work};
use jiff::SignedDuration;
use jiff::civil::{Date, date};
use std::sync::Arc;

/// Degrees north of the equator, and east of Greenwich.
const WHERE: [f64; 2] = [52.0, 0.0];

/// The day from which the weather goes, and on which the work begins.
pub const BEGINS: Date = date(2026, 3, 2);

/// Where it is.
///
/// # Errors
/// None: the place is on the globe.
pub fn place() -> Result<Place, hodful_air::AirFault> {
    let [latitude, longitude] = WHERE;
    Place::new(latitude, longitude, 0.0)
}

/// The hours of a year: warm and cold by a cosine over the year and one over the day, with waves of cloud, wind and rain
/// that come round in some days. No value is measured anywhere.
pub fn hours() -> Vec<Hour> {
    (0..365 * 24)
        .map(|number| {
            let days = f64::from(number) / 24.0;
            let wave = |every: f64| libm::sin(TAU * days / every);
            let (season, time) = (
                -libm::cos(TAU * (days + 40.0) / 365.0),
                -libm::cos(TAU * days),
            );
            let cloud = f64::midpoint(1.0, wave(5.3));
            let light = (time + 0.5 * season) * (1.0 - 0.7 * cloud);
            let sun = 450.0 * light.max(0.0);
            Hour {
                begins: BEGINS.at(0, 0, 0, 0) + SignedDuration::from_hours(i64::from(number)),
                dry_bulb: 9.0 + 8.0 * season + 4.0 * time + 3.0 * wave(8.7),
                humidity: (0.75 - 0.15 * time + 0.1 * wave(3.9)).clamp(0.3, 1.0),
                pressure: 101_325.0,
                wind: Some(3.0 + 2.0 * wave(2.3)),
                sun: Some(sun),
                beam: None,
                diffuse: None,
                cloud: Some(cloud),
                rain: Some((wave(6.1) - 0.8).max(0.0)),
            }
        })
        .collect()
}

/// The same as weather of a place.
///
/// # Panics
/// Never: the hours follow one another, and a test reads them.
pub fn weather() -> Weather {
    let [latitude, longitude] = WHERE;
    let station = Station {
        name: "Invented".to_owned(),
        latitude,
        longitude,
        zone: 0.0,
        altitude: 60.0,
    };
    Weather::dated(hours(), Some(station)).expect("hours in a row")
}

/// So many outside faces, each looking another way.
///
/// # Panics
/// Never: every direction is less than once round.
pub fn stands(count: u32) -> Vec<Stand> {
    let each = (0..count).map(|number| 360.0 * f64::from(number) / f64::from(count));
    each.map(|azimuth| Stand::new(azimuth, false).expect("a direction"))
        .collect()
}

/// A project of so many walls, whose outside faces each look another way.
///
/// # Panics
/// Never: the day is one.
pub fn project(count: u32) -> Project {
    let mut project = terrace::project(Walls::Rectangles, count as usize);
    for (number, wall) in (0..).zip(&mut project.walls) {
        if let Some(face) = &mut Arc::make_mut(wall).outside {
            face.facing = Some(ecow::eco_format!("{}", 360 * number / count));
        }
    }
    let begins = Typed::read(BEGINS.to_string()).expect("a day");
    project.work = Some(Box::new(Work {
        begins: Some(begins),
        ..Work::default()
    }));
    project
}

#[cfg(test)]
mod tests {
    use super::*;
    use hodful_takeoff::Assessed;

    /// Every face is planned in the weather, and dries by it and not by a rule of thumb alone.
    #[test]
    fn the_days_of_the_walls_are_planned_in_the_weather() {
        let project = project(4);
        let rules = hodful_project_file::rules();
        let assessed = Assessed::new(&project, &rules).expect("nothing is refused");
        let days = assessed.days(Some(&weather()), None).expect("planned");
        assert!(days.plan.unplanned.is_empty());
        let mut looks: Vec<_> = project
            .walls
            .iter()
            .filter_map(|wall| wall.outside.as_ref()?.facing.clone())
            .collect();
        looks.dedup();
        assert_eq!(looks, ["0", "90", "180", "270"]);
        let known = |drying: hodful_takeoff::days::Drying| drying.likely.is_some();
        assert!(days.tasks.iter().all(|task| task.drying.is_some_and(known)));
        assert!(days.tasks.iter().any(|task| !task.nights.is_empty()));
    }
}
