//! Days as a crew leader types them. Not here: tables of hours.

use crate::{reading, refused, told};
use jiff::civil::date;

const DAYS: &str = "# by the radio\n\
    2026-04-12 low 2C high 14C humidity 70 wind 3 m/s rain 12 mm\n\
    2026-04-13 low 36F, high 57 °F, humidity 65 %, wind 8mph\n\
    2026-04-14 low -1,5C high 9C rh 100% wind 8 km/h cloud 80 rain 0.5 in\n";

#[test]
fn days_become_hours_between_low_and_high() {
    let found = reading(DAYS);
    let weather = &found.weather;
    assert_eq!(weather.hours().len(), 72);
    let warmth = |day: i8, hour: i8| weather.at(date(2026, 4, day).at(hour, 0, 0, 0)).unwrap();
    let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} {b}");
    close(warmth(12, 6).dry_bulb, 2.0);
    close(warmth(12, 15).dry_bulb, 14.0);
    close(warmth(13, 6).dry_bulb, 20.0 / 9.0);
    close(warmth(13, 15).dry_bulb, 125.0 / 9.0);
    close(warmth(14, 6).dry_bulb, -1.5);
    // Half way down the night between 15 h and 6 h, half way between high and low: at 22.5 h, so 22 h and 23 h about.
    let night = f64::midpoint(warmth(12, 22).dry_bulb, warmth(12, 23).dry_bulb);
    close(night, f64::midpoint(14.0, 20.0 / 9.0));
    // And over midnight: 21 h is as far below the high as 0 h is above the low.
    let midnight = warmth(12, 21).dry_bulb + warmth(13, 0).dry_bulb;
    close(midnight, 14.0 + 20.0 / 9.0);
    assert!(warmth(12, 21).dry_bulb > warmth(13, 0).dry_bulb);
    close(warmth(12, 0).wind.unwrap(), 3.0);
    close(warmth(13, 0).wind.unwrap(), 8.0 * 0.44704);
    close(warmth(14, 0).wind.unwrap(), 8.0 / 3.6);
    close(warmth(12, 9).rain.unwrap(), 0.5);
    close(warmth(14, 9).rain.unwrap(), 12.7 / 24.0);
    assert_eq!(warmth(13, 9).rain, None);
    close(warmth(14, 9).cloud.unwrap(), 0.8);
    assert!(!weather.is_typical());
}

/// No hour is outside its lows and highs, the water in the air stays the same where it is not full, and the
/// humidity at the middle temperature is the one that was typed.
#[test]
fn hours_keep_to_what_was_typed() {
    let found = reading("2026-04-12 low 4C high 20C humidity 60\n");
    let hours = found.weather.hours();
    // WMO-No. 8, annex 4.B (from memory); some thousandths off the formula that the program goes by.
    let full = |t: f64| libm::exp(17.62 * t / (243.12 + t));
    for hour in hours {
        assert!((4.0..=20.0).contains(&hour.dry_bulb));
        let vapour = hour.humidity * full(hour.dry_bulb);
        let typed = 0.6 * full(12.0);
        let expected = typed.min(full(hour.dry_bulb));
        assert!((vapour / expected - 1.0).abs() < 0.004);
    }
    assert!(hours.iter().any(|hour| hour.humidity >= 1.0));
}

#[test]
fn without_a_humidity_the_low_is_the_dew_point() {
    let found = reading("2026-04-12 low 5C high 15C\n");
    // ASHRAE Fundamentals, table of water: 872.5 of 1705.6 Pa at 5 and 15 °C (from memory).
    assert!((found.weather.hours()[15].humidity - 0.5116).abs() < 0.002);
    assert!((found.weather.hours()[6].humidity - 1.0).abs() < 1e-12);
    assert!(told(&found).contains("line 1: humidity is missing; the air is taken to be full"));
    // One day of two is enough: frost in dry air is not seen on it.
    let both = reading("2026-04-12 low 5C high 15C\n2026-04-13 low 5C high 15C humidity 40\n");
    let measured = reading("2026-04-13 low 5C high 15C humidity 40\n");
    assert!(!found.weather.is_dryness_known() && !both.weather.is_dryness_known());
    assert!(measured.weather.is_dryness_known());
}

#[test]
fn what_is_odd_is_refused_where_it_stands() {
    for (typed, words) in [
        (
            "2026-04-12 low 2C",
            "line 1, column 1: the high of the day is missing; write 'high 14C', or 'high 57F'",
        ),
        (
            "2026-04-12 low 2C high",
            "line 1, column 19: high '' is no number",
        ),
        (
            "2026-04-12 low 2C high warm",
            "line 1, column 24: high 'warm' is no number",
        ),
        (
            "2026-04-12 low 2C hihg 14",
            "line 1, column 19: 'hihg' is no word that is known here",
        ),
        (
            "2026-04-12 low 2C high 14C wind 3",
            "line 1, column 33: 'wind 3' has no unit; write m/s, km/h, mph or knots",
        ),
        (
            "2026-04-12 low 2C high 14C rain 3",
            "line 1, column 33: 'rain 3' has no unit; write mm or in",
        ),
        (
            "2026-04-12 low 2C high 14C wind 3F",
            "'wind 3F' has no unit",
        ),
        // 28 °F freezes, 28 °C does not.
        (
            "2026-04-12 low 28 high 50F",
            "'low 28' has no unit; write C or F",
        ),
        (
            "2026-04-12 low 14C high 2C",
            "the low of 14.0 °C is above the high of 2.0 °C",
        ),
        (
            "2026-04-12 low 2C low 3C high 9C",
            "line 1, column 19: 'low' stands here for the second time",
        ),
        (
            "2026-04-12 low 2C high 90C",
            "line 1, column 24: temperature 90C cannot be",
        ),
        (
            "2026-04-12 low 2C high 9C humidity 0.7",
            "line 1, column 36: humidity is nowhere above 1 %",
        ),
        (
            "2026-04-12 low 2C high 9C humidity 120",
            "line 1, column 36: humidity 120 cannot be",
        ),
        (
            "2026-04-12 low 2C high 9C\n2026-04-14 low 2C high 9C",
            "line 2, column 1: after 2026-04-12 comes 2026-04-14",
        ),
        (
            "2026-04-12 low 2C high 9C\n2026-04-12 low 2C high 9C",
            "line 2, column 1: after 2026-04-12 comes 2026-04-12",
        ),
        (
            "2026-04-12 low 2C high 9C\ntomorrow low 2C high 9C",
            "line 2, column 1: 'tomorrow' is no day",
        ),
        (
            "2026-04-12 low 2C high 9C\n2026-04-31 low 2C high 9C",
            "line 2, column 1: '2026-04-31' is no day",
        ),
    ] {
        let said = refused(typed);
        assert!(said.contains(words), "{said}");
        assert_eq!(said.lines().count(), 2, "{said}");
    }
}
