//! Days of weather as they are typed, one a line, and hours made from them. Not here: the words of a whole project.

use crate::fault::Log;
use crate::series::DRIEST;
use crate::unit::{Unit, number, offered, unit};
use crate::{Kind, Told, Trouble, lines, when};
use hodful_air::moist::{STANDARD_PA, saturation_over_water_pa};
use hodful_air::{Hour, Weather};
use jiff::civil::Date;

/// The hour of the lowest temperature, about sunrise in spring and autumn. Common practice, no source.
const LOW_AT: f64 = 6.0;

/// The hour of the highest temperature. Common practice, no source.
const HIGH_AT: f64 = 15.0;

/// What a day can say, in the order of its values: the words, the kind, and the unit when none is written.
const PARTS: [(&[&str], Kind, Option<&str>); 6] = [
    (&["low", "min"], Kind::Temperature, None),
    (&["high", "max"], Kind::Temperature, None),
    (&["humidity", "rh"], Kind::Humidity, Some("%")),
    (&["wind"], Kind::Wind, None),
    (&["rain"], Kind::Rain, None),
    (&["cloud"], Kind::Cloud, Some("%")),
];

/// A day as typed, in the units of the kinds.
#[derive(Debug, Clone, Copy)]
struct Day {
    date: Date,
    low: f64,
    high: f64,
    humidity: Option<f64>,
    wind: Option<f64>,
    rain: Option<f64>,
    cloud: Option<f64>,
}

pub(super) fn read(text: &str, log: &mut Log) -> Option<Weather> {
    let mut days: Vec<Day> = Vec::new();
    let mut first_line = 1;
    let mut last: Option<Date> = None;
    for (line, written) in lines(text) {
        let Some(date) = when::date_at_start(written) else {
            let text = written.split_whitespace().next().unwrap_or_default();
            let trouble = Trouble::Time {
                text: text.to_owned(),
                what: "day",
                advice: "begin each line with a day, such as 2026-04-12",
            };
            log.fault(line, 1, trouble);
            continue;
        };
        match last.replace(date) {
            Some(before) if before.tomorrow().ok() != Some(date) => {
                let after = date;
                log.fault(line, 1, Trouble::Days { before, after });
            }
            Some(_) => {}
            None => first_line = line,
        }
        days.extend(day(line, written, date, log));
    }
    if !log.is_clean() {
        return None;
    }
    log.note(first_line, Told::AtSeaLevel);
    let weather = Weather::dated(hours(&days), None)
        .map_err(|fault| log.fault(first_line, 1, fault.into()))
        .ok()?;
    let is_known = days.iter().all(|day| day.humidity.is_some());
    Some(if is_known {
        weather
    } else {
        weather.with_dryness_unknown()
    })
}

/// A word and the letter of the line at which it begins, from 1.
fn words_of(line: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    let mut begins = None;
    let ends = line.char_indices().chain([(line.len(), ' ')]);
    for (letter, (at, c)) in (1..).zip(ends) {
        match (begins, c.is_whitespace()) {
            (None, false) => begins = Some((letter, at)),
            (Some((letter, from)), true) => {
                let word = line.get(from..at).unwrap_or_default();
                found.push((letter, word.trim_end_matches([',', ';'])));
                begins = None;
            }
            _ => {}
        }
    }
    found.retain(|(_, word)| !word.is_empty());
    found
}

fn day(line: usize, written: &str, date: Date, log: &mut Log) -> Option<Day> {
    let mut values: [Option<f64>; PARTS.len()] = [None; PARTS.len()];
    let words = words_of(written);
    let mut words = words.into_iter().skip(1).peekable();
    let mut clean = true;
    while let Some((column, word)) = words.next() {
        let lower = word.to_lowercase();
        let part = PARTS
            .iter()
            .zip(&mut values)
            .find(|((names, ..), _)| names.contains(&lower.as_str()));
        let Some(((.., kind, usual), value)) = part else {
            clean = false;
            let word = word.to_owned();
            log.fault(line, column, Trouble::Word { word });
            // Its value would only be a second word that is not known.
            words.next_if(|(_, next)| next.starts_with(|c: char| c.is_ascii_digit() || c == '-'));
            continue;
        };
        let Some((at, text)) = words.next() else {
            clean = false;
            let what = word.to_owned();
            let text = String::new();
            log.fault(line, column, Trouble::NoNumber { what, text });
            continue;
        };
        let following = words.peek().and_then(|(_, word)| unit(*kind, word));
        let (found, takes_next) = amount((word, *kind, *usual), text, following);
        if takes_next {
            words.next();
        }
        if value.is_some() {
            clean = false;
            let word = word.to_owned();
            log.fault(line, column, Trouble::WordTwice { word });
        }
        match found {
            Ok(found) if *kind == Kind::Humidity && found <= DRIEST => {
                clean = false;
                log.fault(line, at, Trouble::NoPercent);
            }
            Ok(found) => {
                *value = log.value((line, at), *kind, found, text);
                clean &= value.is_some() || !kind.needed();
            }
            Err(trouble) => {
                clean = false;
                log.fault(line, at, trouble);
            }
        }
    }
    let [low, high, humidity, wind, rain, cloud] = values;
    for (value, word) in [(low, "low"), (high, "high")] {
        if value.is_none() && clean {
            log.fault(line, 1, Trouble::NoWord { word });
        }
    }
    let (low, high) = (low?, high?);
    if low > high {
        log.fault(line, 1, Trouble::LowAboveHigh { low, high });
        return None;
    }
    if humidity.is_none() {
        log.note(line, Told::FromLow);
    }
    Some(Day {
        date,
        low,
        high,
        humidity,
        wind,
        rain,
        cloud,
    })
}

/// A value with its unit behind it, or in the word that follows; and whether that word is its unit.
fn amount(
    (word, kind, usual): (&str, Kind, Option<&str>),
    text: &str,
    following: Option<Unit>,
) -> (Result<f64, Trouble>, bool) {
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || "+-−.,".contains(c)))
        .unwrap_or(text.len());
    let (digits, behind) = text.split_at_checked(end).unwrap_or((text, ""));
    let alone = behind.is_empty();
    let written = if alone {
        following.or_else(|| unit(kind, usual?))
    } else {
        unit(kind, behind)
    };
    let value = match (number(digits, true), written) {
        (Some(value), Some(unit)) => Ok(unit.apply(value)),
        // Nothing is nothing in every unit whose scale begins at nothing.
        (Some(none), None) if none.abs() <= 0.0 && kind != Kind::Temperature => Ok(none),
        (Some(_), None) => Err(Trouble::NoUnit {
            name: format!("{word} {text}"),
            units: offered(kind),
        }),
        (None, _) => Err(Trouble::NoNumber {
            what: word.to_owned(),
            text: text.to_owned(),
        }),
    };
    (value, alone && following.is_some())
}

/// Twenty-four hours of each day; see [`crate::read`] for how.
fn hours(days: &[Day]) -> Vec<Hour> {
    let mut hours = Vec::with_capacity(days.len() * 24);
    for (at, day) in days.iter().enumerate() {
        let high_before = at
            .checked_sub(1)
            .and_then(|at| days.get(at))
            .map_or(day.high, |before| before.high);
        let low_after = days.get(at + 1).map_or(day.low, |after| after.low);
        let vapour = match day.humidity {
            Some(humidity) => humidity * saturation_over_water_pa(f64::midpoint(day.low, day.high)),
            None => saturation_over_water_pa(day.low),
        };
        for hour in 0..24_i8 {
            let warmth = warmth(f64::from(hour), day, high_before, low_after);
            hours.push(Hour {
                begins: day.date.at(hour, 0, 0, 0),
                dry_bulb: warmth,
                humidity: (vapour / saturation_over_water_pa(warmth)).min(1.0),
                pressure: STANDARD_PA,
                wind: day.wind,
                sun: None,
                beam: None,
                diffuse: None,
                cloud: day.cloud,
                rain: day.rain.map(|rain| rain / 24.0),
            });
        }
    }
    hours
}

/// The temperature at an hour of the day: half a cosine up from the low to the high, half a one down to the next low.
fn warmth(hour: f64, day: &Day, high_before: f64, low_after: f64) -> f64 {
    let down = 24.0 - (HIGH_AT - LOW_AT);
    let (from, to, part) = if hour < LOW_AT {
        (high_before, day.low, (hour + 24.0 - HIGH_AT) / down)
    } else if hour <= HIGH_AT {
        (day.low, day.high, (hour - LOW_AT) / (HIGH_AT - LOW_AT))
    } else {
        (day.high, low_after, (hour - HIGH_AT) / down)
    };
    from + (to - from) * (1.0 - libm::cos(core::f64::consts::PI * part)) / 2.0
}
