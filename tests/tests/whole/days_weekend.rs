//! Helpers' weekends, what is prepared before them, waits between coats and wet edges, of whole projects. Not here:
//! plans of sites without a project (see `hodful_workplan`).

use crate::days::{at, days, dry, two_walls};
use hodful_project_file as file;
use hodful_takeoff::Assessed;
use hodful_takeoff::days::WeekendAhead;
use hodful_workplan::{Crew, faults};
use jiff::civil::{Date, date};
use serde_json::{Value, json};

const SATURDAY: Date = date(2030, 5, 11);

fn weekend(work: &Value, count: usize) -> WeekendAhead {
    let project = two_walls(work, |_| {});
    let rules = file::rules();
    let of = Assessed::new(&project, &rules).unwrap();
    of.weekend(None, Some(SATURDAY), count).unwrap()
}

/// What is placed and what is left is all; nothing is placed on a weekday.
#[test]
fn what_fits_and_what_is_left_is_all() {
    let of = weekend(
        &json!({ "people": 3, "rates": { "scratch": { "placing": "2 m2" } } }),
        2,
    );
    let all: f64 = of.days.tasks.iter().map(|task| task.m2).sum();
    let left: f64 = of.left.iter().map(|task| task.m2).sum();
    assert!((of.m2 + left - all).abs() < 1e-9 * all);
    assert!(of.m2 > 0.0 && left > 0.0);
    assert!(of.days.left_out().is_empty(), "{:?}", of.days.left_out());
    let worked: Vec<_> = of.days.plan.days.iter().map(|day| day.date).collect();
    assert_eq!(worked, [date(2030, 5, 11), date(2030, 5, 12)]);
    let mixed: f64 = of.mixes.iter().map(|mix| mix.litres).sum();
    let placed = of.days.tasks.iter().zip(&of.days.plan.tasks);
    let litres: f64 = placed
        .filter(|(_, plan)| plan.is_some())
        .map(|(task, _)| task.litres)
        .sum();
    assert!((mixed - litres).abs() < 1e-9 * litres);
}

/// Without a day that is given it is the first weekend from the first day of the project on, whatever days its crew
/// works; with one it is that day and those after it.
#[test]
fn helpers_come_on_the_weekend_or_when_they_are_told_to() {
    let worked = |weekdays: &[&str], begins: Option<Date>, count| {
        let project = two_walls(
            &json!({ "people": 1, "begins": "2030-05-06", "weekdays": weekdays }),
            |_| {},
        );
        let rules = file::rules();
        let of = Assessed::new(&project, &rules).unwrap();
        let of = of.weekend(None, begins, count).unwrap();
        of.days
            .plan
            .days
            .iter()
            .map(|day| day.date.day())
            .collect::<Vec<_>>()
    };
    let week = ["monday", "tuesday", "wednesday", "thursday", "friday"];
    assert_eq!(worked(&week, None, 2), [11, 12]);
    assert_eq!(worked(&[], None, 3), [11, 12]);
    assert_eq!(worked(&["friday", "saturday", "sunday"], None, 2), [10, 11]);
    assert_eq!(worked(&week, Some(date(2030, 5, 10)), 2), [10, 11]);
}

/// What lies at the mixer for a weekend of everything is what the whole project takes, dry and screened.
#[test]
fn a_weekend_of_everything_takes_what_the_project_takes() {
    let project = two_walls(&json!({ "people": 60 }), |json| {
        let coats = json["build_ups"]["all"].as_array_mut().unwrap();
        coats.truncate(1);
    });
    let rules = file::rules();
    let of = Assessed::new(&project, &rules).unwrap();
    let weekend = of.weekend(None, Some(SATURDAY), 5).unwrap();
    assert!(weekend.left.is_empty());
    let (_, _, coat) = of.coats().next().unwrap();
    let litres = weekend.mixes[0].litres;
    assert!((litres - coat.volume.mixed.value / 1e6).abs() < 1e-6 * litres);
    // Seven parts of sand to three of clay by loose volume, as the mix says.
    let loose = |name: &str| {
        let mut own = weekend.mixes[0]
            .materials
            .iter()
            .filter(|(of, _)| of == name);
        own.next().unwrap().1.loose.unwrap().value
    };
    assert!((loose("sand") / loose("clay") - 7.0 / 3.0).abs() < 1e-9);
}

/// Preparing is before the weekend: by when, with the hours that clay soaks.
#[test]
fn what_is_prepared_comes_before() {
    let work = json!({
        "people": 6,
        "prepare": [
            { "what": "masking", "hours": 5 },
            { "what": "soaking", "hours": 2, "then_wait": 24 }
        ]
    });
    let of = weekend(&work, 2);
    let soaking = of
        .before
        .iter()
        .find(|ahead| ahead.what == "soaking")
        .unwrap();
    assert_eq!(soaking.by, date(2030, 5, 10).at(8, 0, 0, 0));
    assert_eq!(soaking.hours, 2.0);
    let masking = of
        .before
        .iter()
        .find(|ahead| ahead.what == "masking")
        .unwrap();
    assert_eq!(masking.by, date(2030, 5, 11).at(8, 0, 0, 0));
    // Other days do it themselves, first, and wait as long.
    let days = days(&two_walls(&work, |_| {}), None);
    let first = days.plan.tasks.iter().take(days.tasks.len()).flatten();
    let first = first.map(|task| task.begin).min().unwrap();
    let prepared = &days.plan.tasks[days.tasks.len()..];
    let last = prepared
        .iter()
        .flatten()
        .map(|task| task.end)
        .max()
        .unwrap();
    assert_eq!(
        (prepared.len(), days.name(days.tasks.len())),
        (2, "masking".into())
    );
    assert!(first.duration_since(last).as_hours() >= 0, "{first} {last}");
    let found = faults(&days.site, &days.plan, &[], &mut dry(&days));
    assert!(found.is_empty(), "{found:?}");
}

/// Six people, and a mixer of 100 litres in 20 minutes: whoever is best put where, all of them are somewhere, and no
/// way of sharing them out is faster than the mixer.
#[test]
fn people_are_shared_out() {
    let work = json!({
        "people": 6, "batch_minutes": 20,
        "rates": { "scratch": { "placing": "3 m2", "finishing": "8 m2" } }
    });
    let of = weekend(&work, 1);
    let scratch = &of.hands[0];
    let Crew::Roles {
        mixing,
        carrying,
        placing,
        finishing,
    } = scratch.crew
    else {
        panic!("{scratch:?}");
    };
    assert_eq!(
        (
            scratch.coat.as_str(),
            mixing + carrying + placing + finishing
        ),
        ("scratch", 6)
    );
    let task = of
        .days
        .tasks
        .iter()
        .find(|task| task.coat == "scratch")
        .unwrap();
    let by_mixer = 300.0 / (task.litres / task.m2);
    assert!(scratch.m2_per_hour <= by_mixer * (1.0 + 1e-9));
    assert!(scratch.m2_per_hour <= 8.0 * f64::from(u32::try_from(finishing).unwrap()) + 1e-9);
}

/// A coat of cement: 48 hours under the second, a week under the finish. International Building Code, table 2512.6.
#[test]
fn cement_waits_as_the_code_says() {
    let project = two_walls(&json!({ "people": 40 }), |json| {
        json["materials"]["clay"]["kind"] = json!("cement");
        let coats = json["build_ups"]["all"].as_array_mut().unwrap();
        coats.push(json!({ "coat": "finish", "thickness": "3 mm", "mix": "base" }));
    });
    let days = days(&project, None);
    let hours = |after: &str, before: &str| {
        let site = &days.site.tasks[at(&days, after)];
        assert_eq!(site.after[0].task, at(&days, before));
        assert!(!site.after[0].dry);
        site.after[0].hours
    };
    assert_eq!(hours("N outside, fill", "N outside, scratch"), 48.0);
    assert_eq!(hours("N outside, finish", "N outside, fill"), 168.0);
}

/// Measured minutes stand; what is carried can hold the work up.
#[test]
fn a_wet_edge_and_slow_carrying() {
    let work = json!({
        "mixing": 1, "carrying": 1, "placing": 3,
        "carried_per_hour": "40 L",
        "rates": { "scratch": { "placing": "4 m2", "open_minutes": 30 } }
    });
    let days = days(&two_walls(&work, |_| {}), None);
    let task = at(&days, "N outside, scratch");
    let open = days.tasks[task].open.unwrap();
    assert!(open.is_measured && open.minutes == 30.0);
    let planned = days.plan.tasks[task].as_ref().unwrap();
    assert_eq!(planned.limit, hodful_workplan::Limit::Carrying);
    // 40 litres an hour at so many litres a square metre, for half an hour.
    let m2_per_hour = 40.0 / (days.tasks[task].litres / days.tasks[task].m2);
    assert!(
        (open.m2 / (m2_per_hour / 2.0) - 1.0).abs() < 0.05,
        "{open:?} {m2_per_hour}"
    );
}
