//! What is told early: weather that begins after the work does, coats that find no place, cautions for what only comes
//! later, records that are far off. Not here: weather that ends or lacks something (see `days_told`).

use crate::days::{BEGINS, at, days, hour, two_walls};
use hodful_air::Weather;
use hodful_project_file as file;
use hodful_quantities::print::UnitSystem;
use hodful_takeoff::days::ByRule;
use hodful_takeoff::{Assessed, Caution};
use jiff::ToSpan;
use serde_json::json;
use std::ops::Range;

/// Still air of so many hours after the begin of the first day.
fn air(hours: Range<i64>, celsius: f64, humidity: f64) -> Weather {
    let hours = hours.map(|number| hour(number, celsius, humidity));
    Weather::dated(hours.collect(), None).unwrap()
}

fn has(texts: &[impl AsRef<str>], part: &str) -> bool {
    texts.iter().any(|text| text.as_ref().contains(part))
}

/// A file that begins at six on the first day is used from then on: it is before anybody works.
#[test]
fn weather_from_the_first_morning_on_is_used() {
    let project = two_walls(&json!({ "people": 20 }), |_| {});
    let whole = days(&project, Some(&air(0..2400, 12.0, 0.6)));
    let morning = days(&project, Some(&air(6..2400, 12.0, 0.6)));
    assert_eq!(morning.weather_begins, Some(BEGINS.at(6, 0, 0, 0)));
    assert_eq!(morning.tasks, whole.tasks);
    assert_eq!(morning.plan, whole.plan);
}

/// Frozen air from the sixth day on: what is put on before that is wet still, and its nights are told from then on. What
/// stands about the days before says that nothing is known.
#[test]
fn weather_that_begins_late_is_used_from_there_on() {
    let project = two_walls(&json!({ "people": 20 }), |_| {});
    let late = days(&project, Some(&air(120..2400, -3.0, 0.9)));
    let first = BEGINS.checked_add(5.days()).unwrap();
    assert_eq!(late.weather_begins, Some(first.at(0, 0, 0, 0)));
    let scratch = &late.tasks[at(&late, "N outside, scratch")];
    let begin = late.plan.tasks[at(&late, "N outside, scratch")]
        .as_ref()
        .unwrap()
        .begin;
    assert_eq!(begin.date(), BEGINS);
    // The night that goes on until the noon of the sixth day began on the evening before.
    assert_eq!(scratch.nights[0].night.evening, first.yesterday().unwrap());
    assert!(scratch.hasty.is_empty() && scratch.cautions.contains(&"frost"));
    assert!(
        has(&late.notes, "begins on 2030-05-11 at 0:00"),
        "{:?}",
        late.notes
    );
    // And warm air: no night is at risk as far as is known, which is not from the beginning.
    let warm = days(&project, Some(&air(120..2400, 15.0, 0.6)));
    let told = warm.no_frost();
    assert!(
        told.contains("as far as the weather is known, from Sat 2030-05-11"),
        "{told}"
    );
    let told = warm.no_frost_until_dry(begin);
    assert!(told.contains("begins after this coat is put on"), "{told}");
    let scratch = &warm.tasks[at(&warm, "N outside, scratch")];
    assert!(scratch.cautions.contains(&"frost"));
    assert!(scratch.drying.unwrap().by_rule != Some(ByRule::NoWeather));
    // Weather that is all over before the work begins helps nothing.
    let over = days(&project, Some(&air(-240..-24, 15.0, 0.6)));
    assert!(over.weather.is_none() && has(&over.notes, "has no hour from 2030-05-06 on"));
}

/// With nobody to mix nothing is placed, whatever is prepared meanwhile.
#[test]
fn a_plan_without_its_coats_says_so_first() {
    let nobody = json!({
        "mixing": 0, "carrying": 1, "placing": 3, "finishing": 0,
        "prepare": [{ "what": "masking", "hours": "4" }]
    });
    let of = days(&two_walls(&nobody, |_| {}), None);
    assert_eq!(of.last_coat(), None);
    assert_eq!(of.end().unwrap(), "No coat can be done by this plan.");
    let all = of.tasks.len();
    assert_eq!(
        of.end_in_short().unwrap(),
        format!("{all} coats without a place")
    );
    assert_eq!(of.left_out().len(), all);
    let good = days(&two_walls(&json!({ "people": 3 }), |_| {}), None);
    assert!(
        good.end()
            .unwrap()
            .starts_with("The last coat is on the wall on ")
    );
    assert_eq!(good.last_coat(), good.plan.end());
}

/// Lime wash burns as lime does, in the days and in the order; a room that is kept warm is warmed by something.
#[test]
fn cautions_come_with_lime_wash_and_with_warmth() {
    let work =
        json!({ "people": 3, "rooms": { "hall": { "volume": "60 m3", "temperature": "18 °C" } } });
    let plain = two_walls(&json!({ "people": 3 }), |_| {});
    let washed = two_walls(&work, |json| {
        let coats = json["build_ups"].as_object_mut().unwrap();
        for coats in coats.values_mut() {
            let last = coats.as_array_mut().unwrap().last_mut().unwrap();
            last["weather_finish"] = json!("Lime wash");
        }
    });
    let cautions = |project| -> Vec<&'static str> {
        let of = days(project, None);
        of.tasks
            .iter()
            .flat_map(|task| task.cautions.clone())
            .collect()
    };
    for (key, inside) in [("lime", false), ("heaters", true)] {
        assert!(!cautions(&plain).contains(&key), "{key}");
        let of = days(&washed, None);
        let side = if inside { "inside" } else { "outside" };
        let called = of.tasks.iter().filter(|task| task.cautions.contains(&key));
        assert!(called.clone().count() > 0 && called.clone().any(|task| task.side.word() == side));
        let rules = file::rules();
        let called = |project| {
            let of = Assessed::new(project, &rules).unwrap();
            let all = file::cautions();
            let all: Vec<Caution> = all
                .into_iter()
                .filter(|of_all| of.calls_for(of_all.applies))
                .collect();
            all.iter().any(|caution| caution.key == key)
        };
        assert!(called(&washed) && !called(&plain), "{key}");
    }
    assert!(has(
        &days(&washed, None).notes,
        "Weather finishes are no tasks here (Lime wash)"
    ));
}

/// A slip of the year moves every coat of a side, and is doubted before anything is read of it; a coat that took half
/// as long again is not.
#[test]
fn a_record_that_is_far_off_is_doubted() {
    let weather = air(-240..9600, 12.0, 0.6);
    let doubts = |dry: &str| {
        let mut work = json!({ "people": 3 });
        work["dried"] = json!([{ "wall": "N", "face": "outside", "coat": "scratch", "placed": "2030-04-27", "dry": dry }]);
        let of = days(&two_walls(&work, |_| {}), Some(&weather));
        has(&of.notices(UnitSystem::Metric), "look at its dates")
    };
    assert!(doubts("2030-04-27"));
    assert!(doubts("2031-04-27"));
    let of = days(&two_walls(&json!({ "people": 3 }), |_| {}), Some(&weather));
    let scratch = at(&of, "N outside, scratch");
    let (task, planned) = (&of.tasks[scratch], of.plan.tasks[scratch].as_ref().unwrap());
    let likely = task
        .drying
        .unwrap()
        .likely
        .unwrap()
        .at
        .duration_since(planned.end);
    let took = (1.5 * likely.as_secs_f64() / 86_400.0).round();
    #[allow(clippy::cast_possible_truncation, reason = "a few days")]
    let dry = jiff::civil::date(2030, 4, 27)
        .checked_add((took as i64).days())
        .unwrap();
    assert!(!doubts(&dry.to_string()), "{took} days");
}

/// A dry wind from nine o'clock on, where work begins before that: haste is told from the first hour that is known, and
/// how long a coat can be worked by the hours that are.
#[test]
fn haste_is_told_from_the_first_hour_of_the_weather_on() {
    let project = two_walls(&json!({ "people": 3 }), |_| {});
    let windy = |from: i64| {
        let hours = (from..2400).map(|number| {
            let mut hour = hour(number, 38.0, 0.15);
            hour.wind = Some(25.0 / 3.6);
            hour
        });
        days(
            &project,
            Some(&Weather::dated(hours.collect(), None).unwrap()),
        )
    };
    let scratch = |of: &hodful_takeoff::days::Days| of.tasks[at(of, "N outside, scratch")].clone();
    let (whole, late) = (scratch(&windy(0)), scratch(&windy(9)));
    assert!(whole.hasty[0].from < BEGINS.at(9, 0, 0, 0));
    assert_eq!(late.hasty[0].from, BEGINS.at(9, 0, 0, 0));
    assert!((late.hasty[0].most_kg_m2_h - whole.hasty[0].most_kg_m2_h).abs() < 1e-12);
    assert_eq!(late.open, whole.open);
    let inside = |of: &hodful_takeoff::days::Days| of.tasks[at(of, "N inside, scratch")].open;
    let next_week = windy(240);
    assert!(inside(&next_week).is_some(), "still air needs no weather");
    assert!(scratch(&next_week).open.is_none() && scratch(&next_week).hasty.is_empty());
}

/// Whatever lime wash is called; oil burns nobody.
#[test]
fn a_finish_of_lime_has_many_names() {
    let called = |finish: &str| {
        let project = two_walls(&json!({ "people": 3 }), |json| {
            for coats in json["build_ups"].as_object_mut().unwrap().values_mut() {
                coats.as_array_mut().unwrap().last_mut().unwrap()["weather_finish"] = json!(finish);
            }
        });
        let of = days(&project, None);
        of.tasks.iter().any(|task| task.cautions.contains(&"lime"))
    };
    assert!(called("limewash, five coats") && called("Whitewash"));
    assert!(!called("linseed oil"));
}
