//! Units of weather as they stand behind a number or in the head of a column. Not here: which value has which (see
//! `table` and `typed`).

use crate::Kind;

/// A unit: `value · factor + offset` is in the unit of its kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Unit {
    factor: f64,
    offset: f64,
}

/// What a unit measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Measure {
    Temperature,
    Share,
    Pressure,
    Speed,
    Sun,
    Depth,
}

use Measure::{Depth, Pressure, Share, Speed, Sun, Temperature};

/// The words of a unit, in small letters, what it measures, factor and offset. Factors: NIST Special Publication
/// 811, appendix B.
const UNITS: &[(&[&str], Measure, f64, f64)] = &[
    (&["c", "°c", "degc", "celsius"], Temperature, 1.0, 0.0),
    (
        &["f", "°f", "degf", "fahrenheit"],
        Temperature,
        5.0 / 9.0,
        -160.0 / 9.0,
    ),
    (&["k", "kelvin"], Temperature, 1.0, -273.15),
    (&["%", "percent"], Share, 0.01, 0.0),
    (&["share"], Share, 1.0, 0.0),
    (&["tenths"], Share, 0.1, 0.0),
    (&["oktas", "eighths"], Share, 0.125, 0.0),
    (&["pa"], Pressure, 1.0, 0.0),
    (&["hpa", "mbar", "mb"], Pressure, 100.0, 0.0),
    (&["kpa"], Pressure, 1000.0, 0.0),
    (&["inhg"], Pressure, 3386.389, 0.0),
    (&["m/s", "mps"], Speed, 1.0, 0.0),
    (&["km/h", "kmh", "kph"], Speed, 1.0 / 3.6, 0.0),
    (&["mph"], Speed, 0.447_04, 0.0),
    (&["kn", "kt", "knots"], Speed, 1852.0 / 3600.0, 0.0),
    (&["w/m2", "w/m²", "wh/m2", "wh/m²"], Sun, 1.0, 0.0),
    (&["mm"], Depth, 1.0, 0.0),
    (&["cm"], Depth, 10.0, 0.0),
    (&["in", "inch", "inches"], Depth, 25.4, 0.0),
];

impl Unit {
    /// A value in the unit of its kind.
    pub(super) fn apply(self, value: f64) -> f64 {
        value * self.factor + self.offset
    }
}

fn measure(kind: Kind) -> Measure {
    match kind {
        Kind::Temperature | Kind::DewPoint => Temperature,
        Kind::Humidity | Kind::Cloud => Share,
        Kind::Pressure => Pressure,
        Kind::Wind => Speed,
        Kind::Sun | Kind::Beam | Kind::Diffuse => Sun,
        Kind::Rain => Depth,
    }
}

/// The unit a word stands for, of a kind.
pub(super) fn unit(kind: Kind, word: &str) -> Option<Unit> {
    let word = word.to_lowercase();
    let wanted = measure(kind);
    UNITS
        .iter()
        .find(|(words, of, ..)| *of == wanted && words.contains(&word.as_str()))
        .map(|(_, _, factor, offset)| Unit {
            factor: *factor,
            offset: *offset,
        })
}

/// The unit when none is written: percent, and watts per square metre. All others must be written.
pub(super) fn unwritten(kind: Kind) -> Option<Unit> {
    match measure(kind) {
        Share => unit(kind, "%"),
        Sun => unit(kind, "w/m2"),
        _ => None,
    }
}

/// The units that can be written for a kind.
pub(super) fn offered(kind: Kind) -> &'static str {
    match measure(kind) {
        Temperature => "C or F",
        Share => "%",
        Pressure => "Pa, hPa or inHg",
        Speed => "m/s, km/h, mph or knots",
        Sun => "W/m2",
        Depth => "mm or in",
    }
}

/// A number as people write it, with a dot or, when it is said, a comma. `None` for a text that is no number.
pub(super) fn number(text: &str, comma: bool) -> Option<f64> {
    let text = text.trim();
    let plain = |c: u8| c.is_ascii_digit() || matches!(c, b'.' | b'-' | b'+' | b'e' | b'E');
    let value: Option<f64> = if text.bytes().all(plain) {
        text.parse().ok()
    } else {
        let typed = text.replace('−', "-");
        let typed = if comma {
            typed.replace(',', ".")
        } else {
            typed
        };
        typed
            .bytes()
            .all(plain)
            .then(|| typed.parse().ok())
            .flatten()
    };
    value.filter(|value| value.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NIST Special Publication 811, appendix B: 1 mph is 0.447 04 m/s, 1 knot 0.514 444 m/s, 1 inHg 3386.389 Pa,
    /// 1 inch 25.4 mm; 32 °F is 0 °C and 212 °F is 100 °C by definition.
    #[test]
    fn units_are_those_of_the_tables() {
        let cases = [
            (Kind::Temperature, "F", 32.0, 0.0),
            (Kind::Temperature, "°f", 212.0, 100.0),
            (Kind::DewPoint, "K", 273.15, 0.0),
            (Kind::Wind, "MPH", 10.0, 4.4704),
            (Kind::Wind, "knots", 1.0, 0.514_444_444_444),
            (Kind::Wind, "km/h", 36.0, 10.0),
            (Kind::Pressure, "inHg", 30.0, 101_591.67),
            (Kind::Pressure, "hPa", 1013.25, 101_325.0),
            (Kind::Rain, "in", 0.5, 12.7),
            (Kind::Humidity, "%", 70.0, 0.7),
            (Kind::Cloud, "oktas", 4.0, 0.5),
        ];
        for (kind, word, value, expected) in cases {
            let found = unit(kind, word).unwrap().apply(value);
            assert!((found - expected).abs() < 1e-9, "{value} {word}: {found}");
        }
        assert_eq!(unit(Kind::Wind, "mm"), None);
        assert_eq!(unwritten(Kind::Wind), None);
    }

    #[test]
    fn numbers_are_only_digits() {
        assert_eq!(number(" 2,5", true), Some(2.5));
        assert_eq!(number("−3.5", false), Some(-3.5));
        for text in ["", "nan", "inf", "2,5", "1e999", "0x10", "2 5"] {
            assert_eq!(number(text, false), None, "{text}");
        }
    }
}
