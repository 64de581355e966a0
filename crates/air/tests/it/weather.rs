//! Series of hours, dated and typical, from outside. Not here: files of them.

#![allow(clippy::float_cmp, reason = "the very numbers that went in come out")]

use hodful_air::{Hour, Weather, WeatherFault};
use jiff::SignedDuration;
use jiff::civil::{Date, DateTime, date};
use proptest::prelude::*;

fn hour(begins: DateTime, dry_bulb: f64) -> Hour {
    Hour {
        begins,
        dry_bulb,
        humidity: 0.5,
        pressure: 101_325.0,
        wind: Some(2.0),
        sun: None,
        beam: None,
        diffuse: None,
        cloud: None,
        rain: None,
    }
}

/// Hours in a row, each with its own number for a temperature, over and over from 0 to 99.
fn hours(from: DateTime, count: u16) -> Vec<Hour> {
    (0..count)
        .map(|at| {
            let begins = from + SignedDuration::from_hours(i64::from(at));
            hour(begins, f64::from(at % 100))
        })
        .collect()
}

fn at(year: i16, month: i8, day: i8, hour: i8) -> DateTime {
    date(year, month, day).at(hour, 0, 0, 0)
}

#[test]
fn hours_that_do_not_follow_are_refused() {
    assert_eq!(Weather::dated(vec![], None), Err(WeatherFault::Empty));
    assert_eq!(Weather::typical(vec![], None), Err(WeatherFault::Empty));
    let start = at(2026, 2, 28, 22);
    for (hours_on, dated, typical) in [
        (1, true, true),
        (2, false, false),
        (0, false, false),
        (8761, false, true),
        (-1, false, false),
    ] {
        let next = start + SignedDuration::from_hours(hours_on);
        let pair = vec![hour(start, 0.0), hour(next, 1.0)];
        assert_eq!(Weather::dated(pair.clone(), None).is_ok(), dated, "{next}");
        assert_eq!(Weather::typical(pair, None).is_ok(), typical, "{next}");
    }
    let half = vec![hour(date(2026, 4, 12).at(6, 30, 0, 0), 1.0)];
    assert_eq!(
        Weather::dated(half, None).unwrap_err().to_string(),
        "the hour of 2026-04-12T06:30:00 does not begin on the hour; give whole hours"
    );
    let two_years = hours(at(2025, 1, 1, 0), 8761);
    assert!(matches!(
        Weather::typical(two_years, None),
        Err(WeatherFault::Twice { .. })
    ));
}

#[test]
fn values_that_cannot_be_are_refused() {
    let good = hour(at(2026, 4, 12, 6), 5.0);
    for bad in [
        Hour {
            dry_bulb: f64::NAN,
            ..good
        },
        Hour {
            dry_bulb: -101.0,
            ..good
        },
        Hour {
            humidity: 1.01,
            ..good
        },
        Hour {
            humidity: -0.01,
            ..good
        },
        Hour {
            pressure: 1013.0,
            ..good
        },
        Hour {
            wind: Some(-1.0),
            ..good
        },
        Hour {
            rain: Some(f64::INFINITY),
            ..good
        },
        Hour {
            cloud: Some(7.0),
            ..good
        },
    ] {
        let fault = Weather::dated(vec![bad], None).unwrap_err();
        assert!(matches!(fault, WeatherFault::Value { .. }), "{fault}");
    }
    assert!(Weather::dated(vec![good], None).is_ok());
}

#[test]
fn a_leap_day_of_its_own_counts_in_leap_years_alone() {
    let weather = Weather::typical(hours(at(2024, 1, 1, 0), 8784), None).unwrap();
    let warmth = |time| weather.at(time).unwrap().dry_bulb;
    assert_eq!(warmth(at(2028, 2, 29, 3)), f64::from((59 * 24 + 3) % 100));
    assert_eq!(warmth(at(2028, 3, 1, 3)), f64::from((60 * 24 + 3) % 100));
    let plain: Vec<_> = weather
        .span(at(2027, 2, 28, 23), 2)
        .map(|h| h.unwrap())
        .collect();
    assert_eq!(plain[1].begins, at(2027, 3, 1, 0));
    assert_eq!(plain[1].dry_bulb, f64::from((60 * 24) % 100));
}

#[test]
fn a_year_without_a_leap_day_has_28_february_twice() {
    let weather = Weather::typical(hours(at(2023, 1, 1, 0), 8760), None).unwrap();
    let warmth = |time| weather.at(time).unwrap().dry_bulb;
    assert_eq!(warmth(at(2028, 2, 29, 3)), warmth(at(2028, 2, 28, 3)));
    assert_eq!(warmth(at(2028, 3, 1, 3)), f64::from((59 * 24 + 3) % 100));
    let leap = weather.span(at(2028, 1, 1, 0), 8784);
    assert_eq!(leap.flatten().count(), 8784);
}

#[test]
fn dated_hours_can_stand_for_any_year() {
    let weather = Weather::dated(hours(at(2023, 3, 1, 0), 9000), None).unwrap();
    assert_eq!(weather.at(at(2026, 3, 1, 0)), None);
    let any = weather.clone().for_any_year();
    assert!(any.is_typical() && !weather.is_typical());
    // 366 days on is 1 March again, in 2024: the later one counts.
    assert_eq!(
        any.at(at(2026, 3, 1, 0)).unwrap().dry_bulb,
        f64::from((366 * 24) % 100)
    );
    assert_eq!(
        any.at(at(2026, 6, 1, 0)).unwrap().dry_bulb,
        f64::from((92 * 24) % 100)
    );
    assert_eq!(any.clone().for_any_year(), any);
}

#[test]
fn the_calendar_ends() {
    let last = at(9999, 12, 31, 22);
    let weather = Weather::dated(hours(last, 2), None).unwrap();
    assert_eq!(weather.span(last, 10).count(), 2);
    let past = weather.at(DateTime::MIN);
    assert_eq!(past, None);
}

proptest! {
    /// A span is what one look-up after the other gives, for both kinds, whenever it begins.
    #[test]
    fn a_span_is_hour_by_hour(
        start in 0..40_000_i64,
        length in 1..200_u16,
        from in -100..40_100_i64,
        minute in 0..60_i8,
        typical: bool,
    ) {
        let origin = at(2022, 12, 30, 0);
        let series = hours(origin + SignedDuration::from_hours(start), length);
        let made = if typical { Weather::typical(series, None) } else { Weather::dated(series, None) };
        let weather = made.unwrap();
        let from = origin + SignedDuration::from_hours(from) + SignedDuration::from_mins(i64::from(minute));
        let mut time = from;
        for found in weather.span(from, 60) {
            prop_assert_eq!(found, weather.at(time));
            if let Some(hour) = found {
                prop_assert_eq!(hour.begins, time.date().at(time.hour(), 0, 0, 0));
            }
            time += SignedDuration::from_hours(1);
        }
    }

    /// A dated series gives back each of its hours, and nothing before or after.
    #[test]
    fn a_dated_series_is_what_went_in(days in -3000..3000_i32, hour in 0..24_i8, length in 1..300_u16) {
        let day: Date = date(2020, 1, 1) + SignedDuration::from_hours(24 * i64::from(days));
        let series = hours(day.at(hour, 0, 0, 0), length);
        let weather = Weather::dated(series.clone(), None).unwrap();
        for hour in &series {
            prop_assert_eq!(weather.at(hour.begins), Some(*hour));
        }
        let outside = [series[0].begins - SignedDuration::from_hours(1), series[series.len() - 1].begins + SignedDuration::from_hours(1)];
        prop_assert_eq!(outside.map(|time| weather.at(time)), [None, None]);
    }
}
