//! Any bytes, and files cut anywhere. Not here: what is read from whole files.

use crate::{file, head, hours, refused};
use hodful_air::Hour;
use hodful_weather::read;
use jiff::SignedDuration;
use jiff::civil::date;
use proptest::prelude::*;

/// Words and signs of all formats, thrown together.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        Just("LOCATION,a,b,c,TMY,0,1,2,3,4\n".to_owned()),
        Just("DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n".to_owned()),
        Just("2026-04-12 low 2C high 14C humidity 70 wind 3 m/s rain 0\n".to_owned()),
        Just("time,temperature C,humidity\n".to_owned()),
        Just("2026-04-12T06:00,2,80\n".to_owned()),
        Just("2026-04-12T09:00;2,5;80\n".to_owned()),
        (0_u16..30, 0_u16..30).prop_map(|(a, b)| format!(
            "2026,{a},{b},{a},60,?,{b},1,{a},100000,,,,,,,,,,,,1,1,1,1,1,1,1,1,1,1,1\n"
        )),
        "[0-9a-zA-Z ,;:.\"#°−\u{e9}\r\n-]{0,20}",
    ];
    prop::collection::vec(piece, 0..12).prop_map(|pieces| pieces.concat())
}

fn hour() -> impl Strategy<Value = Hour> {
    let optional = |most: u32| prop::option::of((0..=most).prop_map(|v| f64::from(v) / 10.0));
    (
        (-700..=700_i32, 2..=100_u32, 31_000..=120_000_u32),
        (
            optional(400),
            optional(9_000),
            optional(9_000),
            optional(9_000),
        ),
        (prop::option::of(0..=10_u32), optional(900)),
    )
        .prop_map(
            |((warmth, humidity, pressure), (wind, sun, beam, diffuse), (cloud, rain))| Hour {
                begins: date(2026, 1, 1).at(0, 0, 0, 0),
                dry_bulb: f64::from(warmth) / 10.0,
                humidity: f64::from(humidity) / 100.0,
                pressure: f64::from(pressure),
                wind,
                sun,
                beam,
                diffuse,
                cloud: cloud.map(|tenths| f64::from(tenths) / 10.0),
                rain,
            },
        )
}

proptest! {
    #[test]
    fn any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        let _ = read(&bytes, "bytes");
    }

    /// And a refusal says where: every fault has a line that is there.
    #[test]
    fn any_pieces_are_read_or_refused_with_a_line(text in pieces()) {
        match read(text.as_bytes(), "pieces") {
            Ok(found) => prop_assert!(!found.weather.hours().is_empty()),
            Err(faults) => {
                prop_assert!(!faults.faults.is_empty());
                // A carriage return alone may end a line too.
                let lines = text.replace('\r', "\n").lines().count().max(1);
                for fault in &faults.faults {
                    prop_assert!((1..=lines).contains(&fault.line), "{} of {}", fault, lines);
                    prop_assert!(fault.column > 0);
                }
            }
        }
    }

    #[test]
    fn a_series_that_is_written_is_read_again(
        mut series in prop::collection::vec(hour(), 1..80),
        start in 0..40_000_i64,
    ) {
        let begin = date(1999, 12, 20).at(0, 0, 0, 0);
        for (at, hour) in (start..).zip(&mut series) {
            hour.begins = begin + SignedDuration::from_hours(at);
        }
        let found = super::reading(file("data", &series));
        prop_assert!(!found.weather.is_typical());
        prop_assert_eq!(found.weather.hours(), series.as_slice());
        for hour in &series {
            prop_assert_eq!(found.weather.at(hour.begins), Some(*hour));
        }
    }

    /// Cut at any byte, a file has the hours before the cut as they were, or is refused.
    #[test]
    fn a_cut_file_has_fewer_hours_or_is_refused(cut in 0.0..1.0_f64) {
        let series = hours(date(2026, 2, 20).at(0, 0, 0, 0), 60);
        let text = file("data", &series);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss, reason = "below the length")]
        let cut = (cut * text.len() as f64) as usize;
        let whole_lines = text.bytes().take(cut).filter(|b| *b == b'\n').count().saturating_sub(8);
        match read(&text.as_bytes()[..cut], "cut") {
            Ok(found) => {
                let hours = found.weather.hours();
                prop_assert!(hours.len() == whole_lines || hours.len() == whole_lines + 1);
                prop_assert_eq!(hours, &series[..hours.len()]);
            }
            Err(faults) => {
                prop_assert!(whole_lines == 0, "{faults}");
                prop_assert!(faults.faults[0].line >= 1);
            }
        }
    }
}

#[test]
fn what_is_no_weather_is_refused_in_words() {
    for (bytes, words) in [
        (&b""[..], "line 1, column 1: there is nothing in the file"),
        (b"\n \n# remark\n", "there is nothing in the file"),
        (
            b"PK\x03\x04\0\0",
            "this is no text; when it is packed, unpack it first",
        ),
        (b"\xff\xfel\0o\0w\0", "each letter takes two bytes"),
        (b"\n\nhello\n", "line 3, column 1: this is no EPW file"),
        (
            b"2026-04-31 low 2C high 9C\n",
            "line 1, column 1: '2026-04-31' is no day",
        ),
        (b"LOCATION,a,b,c,d,0,1,2,3,4\n", "no hours follow"),
    ] {
        let said = refused(bytes);
        assert!(said.contains(words), "{said}");
    }
}

#[test]
fn faults_beyond_twenty_are_counted() {
    let mut text = head("data", "1", "1/1,12/31");
    for _ in 0..33 {
        text.push_str("2026,1,1,1,60\n");
    }
    let said = refused(text);
    assert_eq!(said.lines().count(), 22, "{said}");
    assert!(said.ends_with("\nand 13 more"), "{said}");
    assert!(said.contains("line 9, column 5: 5 columns, where 32 are needed at least"));
}
