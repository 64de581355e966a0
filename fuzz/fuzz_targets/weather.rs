//! Any bytes, read as weather: they are read or refused with a line and words, never with a panic; what is read is
//! the same when it is read once more, with other line ends, and written out as an EPW file. Not here: what is
//! reckoned from weather.
//!
//! `RUSTC_BOOTSTRAP=1 cargo fuzz run -s none weather -- -max_total_time=20`

#![no_main]

use hodful_air::{Hour, Weather};
use hodful_weather::read;
use libfuzzer_sys::fuzz_target;
use std::fmt::Write;

/// Share by which a value may be off after it was written in another unit: some rounding of the last bit.
const SAME: f64 = 1e-12;

fuzz_target!(|bytes: &[u8]| {
    match read(bytes, "bytes") {
        Ok(found) => {
            assert!(!found.weather.hours().is_empty());
            assert_eq!(read(bytes, "again").as_ref(), Ok(&found));
            if let Ok(text) = std::str::from_utf8(bytes)
                && !text.contains('\r')
            {
                let ends = text.replace('\n', "\r\n");
                assert_eq!(read(ends.as_bytes(), "other ends").as_ref(), Ok(&found));
            }
            let written = epw(&found.weather);
            let again = read(written.as_bytes(), "written").expect("what was read is weather");
            assert_eq!(again.weather.is_typical(), found.weather.is_typical());
            assert_eq!(again.weather.hours().len(), found.weather.hours().len());
            for (one, other) in found.weather.hours().iter().zip(again.weather.hours()) {
                same(one, other);
            }
        }
        Err(faults) => {
            assert!(!faults.faults.is_empty() && !faults.to_string().is_empty());
            assert!(faults.faults.iter().all(|fault| fault.line > 0 && fault.column > 0));
        }
    }
});

/// The hours as an EPW file (EnergyPlus Auxiliary Programs, weather data dictionary).
fn epw(weather: &Weather) -> String {
    let source = if weather.is_typical() { "TMY" } else { "data" };
    let mut text = format!(
        "LOCATION,Nowhere,-,ZZZ,{source},000000,47.5,-3.25,1.0,120.0\n\
         DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\n\
         HOLIDAYS/DAYLIGHT SAVING,No,0,0,0\nCOMMENTS 1,\nCOMMENTS 2,\n\
         DATA PERIODS,1,1,Data,Sunday,1/1,12/31\n"
    );
    for hour in weather.hours() {
        let begins = hour.begins;
        let or = |value: Option<f64>, code: &str| value.map_or(code.to_owned(), |v| v.to_string());
        let _ = writeln!(
            text,
            "{},{},{},{},60,?9,{},99.9,{},{},9999,9999,9999,{},{},{},999999,999999,999999,9999,999,{},{},99,9999,\
             99999,9,999999999,999,.999,999,99,999,{},99",
            begins.year(),
            begins.month(),
            begins.day(),
            begins.hour() + 1,
            hour.dry_bulb,
            hour.humidity * 100.0,
            hour.pressure,
            or(hour.sun, "9999"),
            or(hour.beam, "9999"),
            or(hour.diffuse, "9999"),
            or(hour.wind, "999"),
            or(hour.cloud.map(|share| share * 10.0), "99"),
            or(hour.rain, "999"),
        );
    }
    text
}

fn same(one: &Hour, other: &Hour) {
    let values = |hour: &Hour| {
        let Hour { begins: _, dry_bulb, humidity, pressure, wind, sun, beam, diffuse, cloud, rain } = *hour;
        let known = [Some(dry_bulb), Some(humidity), Some(pressure)];
        [known, [wind, sun, beam], [diffuse, cloud, rain]].concat()
    };
    assert_eq!(one.begins, other.begins);
    for (one, other) in values(one).into_iter().zip(values(other)) {
        let near = |(one, other): (f64, f64)| (one - other).abs() <= SAME * one.abs();
        assert!(one.is_some() == other.is_some());
        assert!(one.zip(other).is_none_or(near), "{one:?} and {other:?}");
    }
}
