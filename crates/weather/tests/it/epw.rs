//! EPW files with all that is odd in them. Not here: any bytes (see `any`), and other libraries (see the
//! cross-check).

use crate::{file, head, hours, line, reading, refused, told};
use hodful_air::Hour;
use jiff::civil::{Date, DateTime, date};

const COLD: &str = include_str!("../../../../demo-projects/hollowmere.epw");

fn at(year: i16, month: i8, day: i8, hour: i8) -> DateTime {
    date(year, month, day).at(hour, 0, 0, 0)
}

/// A text with one column of one line changed, both from 1.
fn changed(text: &str, number: usize, column: usize, to: &str) -> String {
    let lines: Vec<String> = text
        .lines()
        .enumerate()
        .map(|(at, line)| {
            let mut cells: Vec<&str> = line.split(',').collect();
            if at + 1 == number {
                cells[column - 1] = to;
            }
            cells.join(",")
        })
        .collect();
    lines.join("\n") + "\n"
}

fn two_days() -> String {
    file("data", &hours(at(2026, 4, 12, 0), 48))
}

#[test]
fn a_line_is_the_hour_before_its_number() {
    let found = reading(two_days());
    let weather = &found.weather;
    assert_eq!(weather.hours().len(), 48);
    let last = weather.at(at(2026, 4, 13, 23)).unwrap();
    assert!((last.dry_bulb + 5.3).abs() < 1e-12);
    assert!((last.humidity - 0.77).abs() < 1e-12);
    assert_eq!(last.cloud, Some(0.7));
    let place = weather.place().unwrap();
    assert_eq!(
        (place.latitude, place.longitude, place.zone, place.altitude),
        (47.5, -3.25, 1.0, 120.0)
    );
}

/// Minute 0 or 60, CR LF, a byte order mark, Latin-1 letters, blanks, 32 columns: all the same hours.
#[test]
fn other_spellings_are_the_same_hours() {
    let text = two_days();
    let hours = reading(&text).weather.hours().to_vec();
    let latin: Vec<u8> = text
        .replace("Nowhere", "N\u{e9}where")
        .chars()
        .map(|c| u8::try_from(u32::from(c)).unwrap())
        .collect();
    let found = reading(&latin);
    assert_eq!(found.weather.place().unwrap().name, "Néwhere");
    assert_eq!(found.weather.hours(), hours);
    for other in [
        text.replace(",60,?9,", ",0,?9,"),
        text.replace('\n', "\r\n"),
        text.replace('\n', "\r"),
        format!("\u{feff}{text}"),
        text.replace("SAVING,", "SAVINGS,"),
        text.replace("1/1,12/31", " 4/12, 4/13"),
        text.replace(",4,12,", ",04, 12,"),
        text.replace('\n', "\n\n"),
        text.trim_end().to_owned(),
    ] {
        assert_eq!(reading(&other).weather.hours(), hours);
    }
    let short = text
        .lines()
        .map(|line| line.split(',').take(32).collect::<Vec<_>>().join(",") + "\n")
        .collect::<String>();
    let short = reading(short);
    assert_eq!(short.weather.hours().len(), 48);
    assert_eq!(short.weather.hours()[0].rain, None);
}

/// A rain of 12 cut to 1 looks whole.
#[test]
fn a_last_line_that_ends_in_the_rain_without_a_line_end_is_left_out() {
    let short = |line: &str| line.split(',').take(34).collect::<Vec<_>>().join(",");
    let text: Vec<String> = two_days().lines().map(short).collect();
    let whole = text.join("\n") + "\n";
    assert_eq!(reading(&whole).weather.hours().len(), 48);
    let found = reading(whole.trim_end());
    assert_eq!(found.weather.hours().len(), 47);
    assert!(told(&found).contains("line 56: the last line is cut and is left out"));
}

#[test]
fn a_year_that_jumps_stands_for_any_year() {
    let mut series = hours(at(2003, 1, 1, 0), 8760);
    for hour in &mut series {
        let begins = hour.begins;
        let year = 1990 + i16::from(begins.month());
        hour.begins =
            Date::new(year, begins.month(), begins.day())
                .unwrap()
                .at(begins.hour(), 0, 0, 0);
    }
    let found = reading(file("data", &series));
    assert!(found.weather.is_typical());
    assert!(told(&found).contains("each day stands for that day of any year"));
    let year: Vec<_> = found.weather.span(at(2030, 7, 1, 0), 8760).collect();
    assert!(year.iter().all(Option::is_some));
    let july = found.weather.at(at(1991, 7, 1, 5)).unwrap();
    assert_eq!(vec![july.dry_bulb], found_warmth(&series, 181 * 24 + 5, 1));
    // 29 February is 28 February again, and 1 March comes after it.
    let leap = found.weather.span(at(2028, 2, 28, 20), 30);
    let warmth: Vec<_> = leap.map(|hour| hour.unwrap().dry_bulb).collect();
    assert_eq!(warmth[4..8], found_warmth(&series, 58 * 24, 4));
    assert_eq!(warmth[28..30], found_warmth(&series, 59 * 24, 2));
}

fn found_warmth(series: &[Hour], from: usize, count: usize) -> Vec<f64> {
    series[from..from + count]
        .iter()
        .map(|hour| hour.dry_bulb)
        .collect()
}

#[test]
fn years_of_one_date_are_dated_unless_the_source_says_typical() {
    let leap = hours(at(2024, 1, 1, 0), 8784);
    let found = reading(file("data", &leap));
    assert!(!found.weather.is_typical());
    assert_eq!(found.weather.at(at(2025, 1, 1, 0)), None);
    assert!(found.weather.at(at(2024, 2, 29, 12)).is_some());
    for source in ["TMY3", "IWEC Data", "made-typical"] {
        assert!(reading(file(source, &leap)).weather.is_typical());
    }
    assert!(!reading(file("industry", &leap)).weather.is_typical());
    // A leap year without its leap day is put together.
    let without: Vec<Hour> = leap
        .iter()
        .filter(|hour| hour.begins.date() != date(2024, 2, 29))
        .copied()
        .collect();
    let found = reading(file("data", &without));
    assert!(found.weather.is_typical());
    assert_eq!(found.weather.hours().len(), 8760);
    let standing = found.weather.clone().for_any_year();
    assert_eq!(standing, found.weather);
}

#[test]
fn a_winter_in_a_typical_year_goes_over_the_new_year() {
    let mut winter = hours(at(2020, 12, 30, 0), 96);
    for hour in &mut winter {
        let begins = hour.begins;
        hour.begins = date(2019, begins.month(), begins.day()).at(begins.hour(), 0, 0, 0);
    }
    let found = reading(file("data", &winter));
    assert!(found.weather.is_typical());
    let all = found.weather.span(at(2030, 12, 30, 0), 97);
    assert_eq!(all.flatten().count(), 96);
    assert_eq!(found.weather.at(at(2030, 12, 29, 23)), None);
    assert!(told(&found).contains("the last hour is of 1/2"));
}

#[test]
fn codes_from_their_value_on_are_missing() {
    let mut text = two_days();
    for (column, code) in [
        (14, "9999"),
        (15, "9999.0"),
        (16, "99999"),
        (22, "999.0"),
        (23, "99"),
        (34, "999"),
    ] {
        text = changed(&text, 10, column, code);
    }
    let hour = reading(&text).weather.hours()[1];
    let rest = [
        hour.sun,
        hour.beam,
        hour.diffuse,
        hour.wind,
        hour.cloud,
        hour.rain,
    ];
    assert_eq!(rest, [None; 6]);
    // Humidity from a dew point of 5 °C: by the tables of ASHRAE Fundamentals 872.5 of 1705.6 Pa at 15 °C (from memory).
    let text = changed(
        &changed(&changed(&text, 10, 9, "999"), 10, 8, "5"),
        10,
        7,
        "15",
    );
    let found = reading(&text);
    assert!((found.weather.hours()[1].humidity - 0.5116).abs() < 0.002);
    assert!(told(&found).contains("line 10: humidity is worked out from the dew point"));
    // Pressure at 200 m in the standard atmosphere: 98 945 Pa (ISO 2533, table; from memory).
    let text = changed(&text, 1, 10, "200");
    let found = reading(changed(&text, 10, 10, "999999"));
    assert!((found.weather.hours()[1].pressure - 98_945.0).abs() < 5.0);
    assert!(told(&found).contains("line 10: pressure is missing; the usual one of the altitude"));
}

#[test]
fn short_gaps_are_filled_and_told_and_long_ones_refused() {
    let text = two_days();
    let gap = |from, to| (from..=to).fold(text.clone(), |t, n| changed(&t, n, 7, "99.9"));
    let found = reading(gap(20, 22));
    for (at, hour) in (0_u8..).zip(found.weather.hours()) {
        assert!((hour.dry_bulb - (f64::from(at) / 10.0 - 10.0)).abs() < 1e-12);
    }
    assert!(told(&found).contains(
        "line 20: temperature that is missing is filled in between its neighbours (3 times)"
    ));
    assert!(refused(gap(20, 23)).contains(
        "line 20, column 7: temperature is missing from 2026-04-12T11:00:00 on, hours in a row: 4; 3 are filled in at most"
    ));
    assert!(refused(gap(9, 9)).contains(
        "line 9, column 7: temperature is missing from 2026-04-12T00:00:00 on, hours in a row: 1;"
    ));
    let without = |from: usize, to: usize| {
        let lines = text.lines().enumerate();
        let kept = lines.filter(|(at, _)| !(from..=to).contains(&(at + 1)));
        let kept: Vec<&str> = kept.map(|(_, line)| line).collect();
        kept.join(
            "
",
        ) + "
"
    };
    let found = reading(without(20, 22));
    assert_eq!(found.weather.hours().len(), 48);
    assert!(told(&found).contains("line 20: an hour that is missing is filled in"));
    assert!(refused(without(20, 23)).contains(
        "line 20, column 1: between 2026-04-12T10:00:00 and 2026-04-12T15:00:00 hours are missing"
    ));
}

#[test]
fn lines_out_of_order_are_put_in_order_and_repeated_ones_told() {
    let series = hours(at(2026, 4, 12, 0), 48);
    let mut mixed = series.clone();
    mixed.swap(10, 30);
    let found = reading(file("data", &mixed));
    assert_eq!(found.weather.hours(), series);
    assert!(told(&found).contains("out of order"));
    let mut twice = two_days();
    twice.push_str(&line(&series[7]));
    let found = reading(&twice);
    assert_eq!(found.weather.hours(), series);
    assert!(told(&found).contains("line 57: an hour is there twice"));
    let other = changed(&twice, 57, 7, "30");
    assert!(refused(other).contains(
        "line 57, column 1: the hour of 2026-04-12T07:00:00 is already in line 16 with other values"
    ));
}

#[test]
fn values_that_cannot_be_are_refused_or_left_out() {
    let text = two_days();
    let found = reading(changed(&text, 10, 9, "107"));
    assert!((found.weather.hours()[1].humidity - 1.0).abs() < 1e-12);
    assert!(told(&found).contains("line 10: humidity above 100 % is taken as 100 %"));
    for (column, to, words) in [
        (
            9,
            "111",
            "column 9: humidity 111 cannot be: it is from 0 to 110 %",
        ),
        (
            7,
            "-71",
            "column 7: temperature -71 cannot be: it is from −70 to 70 °C",
        ),
        (7, "warm", "column 7: the temperature 'warm' is no number"),
        (7, "nan", "column 7: the temperature 'nan' is no number"),
        (10, "1013", "column 10: pressure 1013 cannot be"),
        (22, "x", "column 22: the wind 'x' is no number"),
        (3, "31", "column 2: '2026,4,31' is no day"),
        (
            4,
            "0",
            "column 4: '0' is no hour; hours are numbered from 1 to 24",
        ),
        (4, "25", "column 4: '25' is no hour"),
        (5, "61", "column 5: '61' is no minute"),
    ] {
        let said = refused(changed(&text, 10, column, to));
        assert!(said.contains(&format!("line 10, {words}")), "{said}");
        assert_eq!(
            said.lines().filter(|l| l.contains("line 10,")).count(),
            1,
            "{said}"
        );
    }
    let found = reading(changed(&text, 10, 22, "55"));
    assert_eq!(found.weather.hours()[1].wind, None);
    assert!(told(&found).contains("wind that cannot be is left out; it is from 0 to 40 m/s"));
}

#[test]
fn parts_of_hours_and_odd_heads_are_refused_in_words() {
    let quarters = head("data", "4", "1/1,12/31") + &line(&hours(at(2026, 1, 1, 0), 1)[0]);
    assert!(
        refused(quarters)
            .contains("line 8, column 3: 4 records an hour; only files with one can be read")
    );
    let text = two_days();
    assert!(
        refused(text.replace("47.5", "95")).contains("line 1, column 7: latitude 95 cannot be")
    );
    assert!(
        refused(text.replace("47.5", "north"))
            .contains("line 1, column 7: the latitude 'north' is no number")
    );
    let found = reading(text.replace("47.5", ""));
    assert_eq!(found.weather.place(), None);
    assert!(told(&found).contains("the place is not known"));
    let found = reading(text.replace("Nowhere", "\"Nowhere, by the sea\""));
    assert_eq!(found.weather.place().unwrap().name, "Nowhere, by the sea");
}

#[test]
fn the_invented_place_has_late_frosts() {
    let found = reading(COLD);
    assert!(found.weather.is_typical());
    assert_eq!(found.weather.hours().len(), 92 * 24);
    assert!(COLD.len() <= 300_000 && COLD.contains("Invented weather"));
    let frosty = |month| {
        let cold = |h: &&Hour| h.begins.month() == month && h.dry_bulb <= 0.0;
        found.weather.hours().iter().filter(cold).count()
    };
    assert!(frosty(3) > 24 && (1..24).contains(&frosty(4)) && frosty(5) == 0);
    assert_eq!(found.notes.len(), 1, "{}", told(&found));
}
