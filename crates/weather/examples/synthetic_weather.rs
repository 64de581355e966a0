//! Writes invented weather of a place that does not exist as an EPW file: `synthetic_weather FIRST LAST`, from one
//! month to another, both let in (1 to 12; the whole year without them). Always the same, to the last letter. Not
//! here: reading it.
//!
//! A sine over the year, a sine over the day, and weather that comes and goes by seeded waves over days. No value is
//! measured anywhere. Sun: Haurwitz, Insolation in relation to cloudiness and cloud density, Journal of Meteorology
//! 2 (1945), less for cloud by Kasten and Czeplak, Solar Energy 24 (1980); both from memory.

use core::f64::consts::PI;
use std::error::Error;
use std::fmt::Write;

const LATITUDE: f64 = 52.0;
const ALTITUDE: f64 = 60.0;
const DAYS: [usize; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
/// Years jump from month to month, as in a year put together from several.
const YEARS: [u16; 12] = [
    2013, 2018, 2011, 2016, 2012, 2019, 2014, 2010, 2017, 2015, 2011, 2018,
];

fn main() -> Result<(), Box<dyn Error>> {
    let months: Vec<usize> = std::env::args()
        .skip(1)
        .map(|text| text.parse())
        .collect::<Result<_, _>>()?;
    let (first, last) = match months.as_slice() {
        [] => (1, 12),
        [first, last] if (1..=*last).contains(first) && *last <= 12 => (*first, *last),
        _ => return Err("usage: synthetic_weather FIRST LAST, months from 1 to 12".into()),
    };
    let mut text = head(first, last);
    let waves = Waves::new(20_261_129);
    let mut day = 0;
    for (month, (days, year)) in (1..).zip(DAYS.iter().zip(YEARS)) {
        for of_month in 1..=*days {
            for hour in 0..24 {
                if (first..=last).contains(&month) {
                    write!(text, "{year},{month},{of_month},{},60,?,", hour + 1)?;
                    line(&mut text, number(day), number(hour), &waves)?;
                }
            }
            day += 1;
        }
    }
    #[allow(clippy::print_stdout, reason = "what the example is for")]
    {
        print!("{text}");
    }
    Ok(())
}

fn head(first: usize, last: usize) -> String {
    let days = DAYS.get(last - 1).copied().unwrap_or_default();
    format!(
        "LOCATION,Hollowmere,-,ZZZ,invented-typical,000000,{LATITUDE:.2},0.00,0.0,{ALTITUDE:.1}\n\
         DESIGN CONDITIONS,0\n\
         TYPICAL/EXTREME PERIODS,0\n\
         GROUND TEMPERATURES,0\n\
         HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\n\
         COMMENTS 1,\"Invented weather, made by a formula: no place, no station, no measurement\"\n\
         COMMENTS 2,For trying things out; not for planning any work\n\
         DATA PERIODS,1,1,Invented,Sunday,{first}/1,{last}/{days}\n"
    )
}

/// The columns from the temperature on.
fn line(text: &mut String, day: f64, hour: f64, waves: &Waves) -> std::fmt::Result {
    let time = day + hour / 24.0;
    let middle = hour + 0.5;
    let cloud = (0.55 + 0.42 * waves.at(time, 1)).clamp(0.0, 1.0);
    let year = 8.5 - 9.5 * libm::cos(2.0 * PI * (time - 15.0) / 365.0);
    let mean = year + 3.8 * waves.at(time, 0);
    let swing = 5.5 - 3.5 * cloud;
    let warmth = tenth(mean + swing * libm::cos(2.0 * PI * (hour - 15.0) / 24.0));
    let dew = tenth((mean - swing - 1.5 + 3.0 * cloud + waves.at(time, 2)).min(warmth));
    let humidity = 100.0 * full(dew) / full(warmth);
    let pressure = 101_325.0 * libm::pow(1.0 - 0.0065 * ALTITUDE / 288.15, 5.2559)
        + 900.0 * waves.at(time, 3)
        - 500.0 * (cloud - 0.5);
    let (high, sun) = sun(day, middle, cloud);
    let diffuse = sun * (0.18 + 0.8 * cloud).min(1.0);
    let beam = if high > 0.05 {
        (sun - diffuse) / high
    } else {
        0.0
    };
    let wind = tenth((3.4 + 1.6 * waves.at(time, 4) + 1.2 * high.max(0.0)).max(0.3));
    let rain = tenth((6.0 * (cloud - 0.85)).max(0.0));
    let tenths = 10.0 * cloud;
    writeln!(
        text,
        "{warmth},{dew},{humidity:.0},{pressure:.0},9999,9999,9999,{sun:.0},{beam:.0},{diffuse:.0},\
         999999,999999,999999,9999,999,{wind},{tenths:.0},{tenths:.0},9999,99999,9,,999,.999,0,88,999,\
         {rain},1"
    )
}

/// The sine of the sun's height, and sun and sky on level ground in W/m².
fn sun(day: f64, hour: f64, cloud: f64) -> (f64, f64) {
    let tilt = 0.4093 * libm::sin(2.0 * PI * (day - 80.0) / 365.0);
    let latitude = LATITUDE.to_radians();
    let turn = PI * (hour - 12.0) / 12.0;
    let high = libm::sin(latitude) * libm::sin(tilt)
        + libm::cos(latitude) * libm::cos(tilt) * libm::cos(turn);
    if high <= 0.0 {
        return (high, 0.0);
    }
    let clear = 1098.0 * high * libm::exp(-0.057 / high);
    (high, clear * (1.0 - 0.75 * libm::pow(cloud, 3.4)))
}

/// Pressure of water vapour in full air, in units of that at 0 °C (WMO-No. 8, annex 4.B).
fn full(celsius: f64) -> f64 {
    libm::exp(17.62 * celsius / (243.12 + celsius))
}

fn tenth(value: f64) -> f64 {
    // Adding 0 makes −0 a 0.
    (value * 10.0).round() / 10.0 + 0.0
}

#[allow(clippy::cast_precision_loss, reason = "days of a year at most")]
fn number(value: usize) -> f64 {
    value as f64
}

/// Sums of seven waves over some days each, about from −1 to 1.
struct Waves([[(f64, f64); 7]; 5]);

impl Waves {
    fn new(seed: u64) -> Self {
        let mut state = seed;
        let mut draw = || {
            // The generator of Knuth, The Art of Computer Programming, volume 2, MMIX.
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            f64::from(u32::try_from(state >> 32).unwrap_or_default()) / f64::from(u32::MAX)
        };
        Self([(); 5].map(|()| [(); 7].map(|()| (2.5 + 14.0 * draw() * draw(), 2.0 * PI * draw()))))
    }

    fn at(&self, time: f64, which: usize) -> f64 {
        let waves = self.0.get(which).map_or(&[][..], |waves| &waves[..]);
        let sum: f64 = waves
            .iter()
            .map(|(days, phase)| libm::sin(2.0 * PI * time / days + phase))
            .sum();
        sum / 7.0_f64.sqrt()
    }
}
