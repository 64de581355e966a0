//! Tables of hours: names, units, times and steps. Not here: units by themselves.

use crate::{reading, refused, told};
use hodful_air::Hour;

const PLAIN: &str = "time,temperature C,humidity,wind km/h,rain mm\n\
                     2026-04-12T06:00,2.0,90,7.2,0\n\
                     2026-04-12T07:00,3.5,80,10.8,0.4\n\
                     2026-04-12T08:00,5.0,70,14.4,\n";

fn warmth(hours: &[Hour]) -> Vec<f64> {
    hours.iter().map(|hour| hour.dry_bulb).collect()
}

#[test]
fn a_plain_table_is_read() {
    let found = reading(PLAIN);
    let hours = found.weather.hours();
    assert_eq!(warmth(hours), [2.0, 3.5, 5.0]);
    assert_eq!(hours[1].begins.to_string(), "2026-04-12T07:00:00");
    assert!((hours[1].wind.unwrap() - 3.0).abs() < 1e-12);
    assert_eq!((hours[1].rain, hours[2].rain), (Some(0.4), None));
    assert!((hours[0].pressure - 101_325.0).abs() < 1e-9);
    assert!(told(&found).contains("line 2: pressure is missing; the usual one at the sea"));
    assert!(!found.weather.is_typical());
}

/// The same hours in Fahrenheit and miles, with semicolons and commas, blanks, quotes, two columns of time, offsets.
#[test]
fn other_spellings_are_the_same_hours() {
    let plain = reading(PLAIN);
    for other in [
        "Time;Temp (°C);RH (%);Wind speed [km/h];rain (mm)\r\n\
         2026-04-12 06:00;2,0;90;7,2;0\r\n\
         2026-04-12 07:00;3,5;80;10,8;0,4\r\n\
         2026-04-12 08:00;5,0;70;14,4;\r\n",
        "# from the station\n\n\
         \"time\", \"air_temperature_2m (°F)\", relative_humidity_2m (%), wind_speed_10m (km/h), precipitation (inch)\n\
         2026-04-12T06:00:00, 35.6, 90, 7.2, 0.0\n\
         2026-04-12T07:00:00, 38.3, 80, 10.8, 0.015748031496062992\n\
         2026-04-12T08:00:00, 41.0, 70, 14.4, n/a\n",
        "date,local_time,dry bulb K,humidity share,wind m/s,wind direction,rain mm in the hour\n\
         2026-04-12,06:00,275.15,0.9,2,180,0\n\
         2026-04-12,07:00,276.65,0.8,3,190,0.4\n\
         2026-04-12,08:00,278.15,0.7,4,200,-\n",
        "time,temperature C,humidity,wind km/h,rain mm\n\
         2026-04-12T06:00+02:00,2.0,90,7.2,0\n\
         2026-04-12T05:00Z,3.5,80,10.8,0.4\n\
         2026-04-12T08:00+0200,5.0,70,14.4,\n",
    ] {
        let found = reading(other);
        for (a, b) in found.weather.hours().iter().zip(plain.weather.hours()) {
            let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{other}\n{a} {b}");
            assert_eq!(a.begins, b.begins);
            close(a.dry_bulb, b.dry_bulb);
            close(a.humidity, b.humidity);
            close(a.wind.unwrap(), b.wind.unwrap());
            assert_eq!(a.rain.is_some(), b.rain.is_some());
            close(a.rain.unwrap_or(0.0), b.rain.unwrap_or(0.0));
        }
        assert_eq!(found.weather.hours().len(), 3);
        let words = told(&found);
        assert_eq!(
            words.contains("+02:00 from universal time"),
            other.contains("+02:00")
        );
        assert_eq!(
            words.contains("brought to the first"),
            other.contains("05:00Z")
        );
        assert_eq!(
            words.contains("nothing is taken from column 'wind direction'"),
            other.contains("direction")
        );
    }
}

#[test]
fn every_third_hour_is_made_into_hours() {
    let found = reading(
        "time,temperature C,dew point C,rain mm\n\
         2026-04-12T06:00,3,3,6\n\
         2026-04-12T09:00,6,3,3\n\
         2026-04-12T12:00,12,3,0\n",
    );
    let hours = found.weather.hours();
    assert_eq!(warmth(hours), [3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0]);
    let rain: Vec<_> = hours.iter().map(|hour| hour.rain.unwrap()).collect();
    assert_eq!(rain, [2.0, 2.0, 2.0, 1.0, 1.0, 1.0, 0.0]);
    assert!((hours[0].humidity - 1.0).abs() < 1e-12);
    // Dew point 3 °C at 12 °C: 758.1 of 1402.8 Pa, ASHRAE Fundamentals, table of water (from memory).
    assert!((hours[6].humidity - 0.5404).abs() < 0.002);
    assert!(told(&found).contains("two hours of three are filled in"));
}

#[test]
fn other_steps_are_refused() {
    let table = |times: &[&str]| {
        let rows: Vec<String> = times
            .iter()
            .map(|t| format!("2026-04-12T{t},5,70\n"))
            .collect();
        format!("time,temperature C,humidity\n{}", rows.concat())
    };
    for (times, words) in [
        (
            &["06:00", "06:30", "07:00"][..],
            "line 3, column 1: after 2026-04-12T06:00:00 comes 2026-04-12T06:30:00; give a line for every hour",
        ),
        (
            &["06:00", "08:00", "10:00"],
            "give a line for every hour, or for every third",
        ),
        (
            &["06:00", "09:00", "15:00"],
            "line 4, column 1: after 2026-04-12T09:00:00 comes 2026-04-12T15:00:00",
        ),
        (
            &["06:30", "07:30"],
            "'2026-04-12T06:30:00' is no beginning of an hour",
        ),
        (
            &["06:00", "07:00", "12:00"],
            "line 4, column 1: between 2026-04-12T07:00:00 and 2026-04-12T12:00:00 hours are missing",
        ),
        (
            &["06:00", "24:30"],
            "line 3, column 1: '2026-04-12T24:30' is no time; write it as 2026-04-12T06:00",
        ),
        (&["06:00:00.5", "07:00:00.5"], "is no beginning of an hour"),
    ] {
        let said = refused(table(times));
        assert!(said.contains(words), "{said}");
    }
    assert_eq!(
        reading(table(&["06:00", "09:00", "10:00"]))
            .weather
            .hours()
            .len(),
        5
    );
    assert_eq!(reading(table(&["07:00", "06:00"])).weather.hours().len(), 2);
}

#[test]
fn names_without_a_meaning_are_refused_in_words() {
    for (names, row, words) in [
        (
            "time,temperature,humidity",
            "5,70",
            "line 1, column 2: 'temperature' has no unit; write C or F",
        ),
        (
            "time,temperature C",
            "5",
            "no column of humidity or dew point",
        ),
        (
            "time,humidity",
            "5",
            "no column of the temperature; name one in the first row, such as 'temperature C'",
        ),
        (
            "day,temperature C,humidity",
            "5,70",
            "no column of the time",
        ),
        (
            "time,temp C,temperature F,rh",
            "5,41,70",
            "line 1, column 3: 'temperature F' is a second column of temperature",
        ),
        (
            "time,temp C,rh,wind",
            "5,70,3",
            "'wind' has no unit; write m/s, km/h, mph or knots",
        ),
        (
            "time,temp C,rh",
            "5",
            "line 2, column 2: 2 columns, where 3 are needed",
        ),
        (
            "time,temp C,rh",
            "x,70",
            "line 2, column 2: the temperature 'x' is no number",
        ),
        (
            "time,temp C,rh",
            "50000,70",
            "line 2, column 2: temperature 50000 cannot be",
        ),
        (
            "time,temp C,rh",
            "5,70\n2026-04-12T07:00,5,120",
            "line 3, column 3: humidity 120 cannot be",
        ),
        (
            "time,temp C,rh",
            "5,0.7",
            "line 2, column 3: humidity is nowhere above 1 %",
        ),
        (
            "time,temp C,rh",
            "5,",
            "line 2, column 3: humidity is missing from 2026-04-12T06:00:00 on, hours in a row: 1;",
        ),
    ] {
        let said = refused(format!("{names}\n2026-04-12T06:00,{row}\n"));
        assert!(said.contains(words), "{said}");
    }
    assert!(refused("time,temp C,rh\n").contains("line 1, column 1: no hours follow"));
}

/// A column that only sounds like the wanted one is left alone and told.
#[test]
fn columns_that_are_something_else_are_not_taken() {
    let names = [
        "wet bulb temperature C",
        "soil temperature C",
        "wind direction",
        "wind gusts m/s",
        "sea level pressure hPa",
        "precipitation probability %",
        "direct radiation W/m2",
        "net radiation W/m2",
        "time of sunrise",
    ];
    for name in names {
        let found = reading(format!(
            "{name},time,temperature C,humidity\n9,2026-04-12T06:00,5,70\n"
        ));
        let hour = found.weather.hours()[0];
        let others = [hour.wind, hour.sun, hour.beam, hour.diffuse, hour.rain];
        assert_eq!(others, [None; 5], "{name}");
        assert!((hour.dry_bulb - 5.0).abs() < 1e-12 && hour.pressure > 101_000.0);
        let words = told(&found);
        assert!(words.contains(&format!("column '{name}'")), "{words}");
    }
}
