//! The days of random projects: every plan can be done, and covers what the order mixes.

use crate::projects::{wall, with_walls};
use hodful_air::{Hour, Station, Weather};
use hodful_project_file as file;
use hodful_takeoff::days::Days;
use hodful_takeoff::{Assessed, Project};
use hodful_workplan::faults;
use jiff::ToSpan;
use jiff::civil::{Date, DateTime, date};
use proptest::prelude::*;
use serde_json::{Value, json};

/// The first day of all of these: a Monday.
pub(crate) const BEGINS: Date = date(2030, 5, 6);

/// An hour of air of this warmth and relative humidity, so many after the first day began: still, clouded, without sun or
/// rain.
pub(crate) fn hour(number: i64, celsius: f64, humidity: f64) -> Hour {
    Hour {
        begins: BEGINS.at(0, 0, 0, 0).checked_add(number.hours()).unwrap(),
        dry_bulb: celsius,
        humidity,
        pressure: 101_325.0,
        wind: Some(0.0),
        sun: Some(0.0),
        beam: Some(0.0),
        diffuse: Some(0.0),
        cloud: Some(1.0),
        rain: Some(0.0),
    }
}

/// The same hour for 400 days and the ten before, at a place.
pub(crate) fn steady(celsius: f64, humidity: f64) -> Weather {
    let station = Station {
        name: "nowhere".to_owned(),
        latitude: 45.0,
        longitude: 0.0,
        zone: 0.0,
        altitude: 0.0,
    };
    let hours = (-240..9_600).map(|number| hour(number, celsius, humidity));
    Weather::dated(hours.collect(), Some(station)).unwrap()
}

/// A project with two walls, with this under `work`, besides what the rest of the change does.
pub(crate) fn two_walls(work: &Value, change: impl FnOnce(&mut Value)) -> Project {
    let project = with_walls(&[wall("N", 5000, 2500, &[]), wall("S", 4000, 2500, &[])]);
    let mut json: Value = serde_json::from_slice(&file::write(&project)).unwrap();
    json["work"] = work.clone();
    change(&mut json);
    file::read(json.to_string().as_bytes()).unwrap_or_else(|wrong| panic!("{wrong:?}"))
}

/// Its days from [`BEGINS`] on.
pub(crate) fn days(project: &Project, weather: Option<&Weather>) -> Days {
    let rules = file::rules();
    let of = Assessed::new(project, &rules).unwrap_or_else(|wrong| panic!("{wrong:?}"));
    of.days(weather, Some(BEGINS)).unwrap()
}

/// When a task that ended then is dry, as the plan was told.
pub(crate) fn dry(of: &Days) -> impl FnMut(usize, DateTime) -> DateTime {
    |task, end| {
        let drying = of.tasks.get(task).and_then(|task| task.drying);
        let until = drying.and_then(|drying| drying.likely.or(drying.slow));
        until.map_or(end, |until| until.at)
    }
}

/// The position of a task.
pub(crate) fn at(of: &Days, said: &str) -> usize {
    let found = of.tasks.iter().position(|task| task.said() == said);
    found.unwrap_or_else(|| panic!("no {said}"))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    /// Any few walls, any small crew, without weather: the checker of plans finds nothing.
    #[test]
    fn plans_can_be_done(
        sizes in proptest::collection::vec((1500_u32..9000, 1500_u32..4000), 1..4),
        people in 1_u32..8,
        minutes in 5_u32..40,
        lime in any::<bool>(),
    ) {
        let walls: Vec<Value> = sizes
            .iter()
            .enumerate()
            .map(|(i, (length, height))| wall(&format!("W{i}"), *length, *height, &[]))
            .collect();
        let project = with_walls(&walls);
        let mut json: Value = serde_json::from_slice(&file::write(&project)).unwrap();
        json["work"] = json!({ "people": people, "batch_minutes": minutes });
        if lime {
            json["materials"]["clay"]["kind"] = json!("lime");
        }
        let project = file::read(json.to_string().as_bytes()).unwrap();
        let rules = file::rules();
        let of = Assessed::new(&project, &rules).unwrap();
        let days = of.days(None, Some(date(2030, 5, 6))).unwrap();
        let found = faults(&days.site, &days.plan, &[], &mut dry(&days));
        prop_assert!(found.is_empty(), "{found:?}");
        let planned: f64 = days.tasks.iter().map(|task| task.litres).sum();
        let ordered: f64 = of.coats().map(|(_, _, coat)| coat.volume.mixed.value / 1e6).sum();
        prop_assert!((planned - ordered).abs() <= 1e-9 * ordered, "{planned} and {ordered}");
    }
}
