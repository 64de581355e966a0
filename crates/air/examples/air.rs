//! States of air, wet walls, the sun, light on walls, and rooms, one JSON object a line: for reference libraries to
//! work out anew. Read by `tests/crosscheck/air.py`. Not here: any judgement of them.
//!
//! `cargo run --release -p hodful-air --example air`; with `-- speed` it says how long a wet bulb and a year of walls
//! take instead.

use hodful_air::drying::Coat;
use hodful_air::outside::{Sky, Stand};
use hodful_air::room::{Room, RoomCoat, RoomHour, Spell, WetWalls, dry_coats, dry_room};
use hodful_air::sun::{Facing, Place, Sun, on_wall_w_m2, split};
use hodful_air::wall::wet_face;
use hodful_air::{Air, Hour};
use jiff::civil::{DateTime, date};
use serde_json::{Value, json};
use std::io::{self, Write};
use std::time::Instant;

type Outcome<T> = Result<T, Box<dyn std::error::Error>>;

/// States of air, positions of the sun, and rooms.
const STATES: usize = 1000;
const SUNS: usize = 500;
const ROOMS: usize = 100;
const COATS: usize = 30;
const ROOMS_WITH_COATS: usize = 50;

fn main() -> Outcome<()> {
    let mut out = io::BufWriter::new(io::stdout().lock());
    if std::env::args().any(|word| word == "speed") {
        writeln!(out, "{}", speed()?)?;
        return Ok(());
    }
    let mut numbers = Numbers(1);
    for _ in 0..STATES {
        writeln!(out, "{}", state(&mut numbers)?)?;
    }
    for _ in 0..SUNS {
        writeln!(out, "{}", sun(&mut numbers)?)?;
    }
    for _ in 0..ROOMS {
        writeln!(out, "{}", room(&mut numbers)?)?;
    }
    for _ in 0..COATS {
        writeln!(out, "{}", coat(&mut numbers)?)?;
    }
    for _ in 0..ROOMS_WITH_COATS {
        writeln!(out, "{}", coats(&mut numbers)?)?;
    }
    Ok(out.flush()?)
}

/// Numbers that look drawn and are always the same: multiples of the golden ratio, each kind of figure with its own.
struct Numbers(u32);

impl Numbers {
    fn between(&mut self, least: f64, most: f64) -> f64 {
        self.0 += 1;
        let mixed = self.0.wrapping_mul(2_654_435_769);
        let mixed = (mixed ^ (mixed >> 15)).wrapping_mul(2_246_822_519);
        let mixed = mixed ^ (mixed >> 13);
        least + (most - least) * f64::from(mixed) / f64::from(u32::MAX)
    }

    fn whole(&mut self, least: i8, most: i8) -> Outcome<i8> {
        let drawn = self
            .between(f64::from(least), f64::from(most) + 1.0)
            .floor();
        (least..=most)
            .find(|whole| f64::from(*whole) >= drawn)
            .ok_or_else(|| "a number is out of its bounds".into())
    }
}

fn state(numbers: &mut Numbers) -> Outcome<Value> {
    let (t, humidity) = (numbers.between(-30.0, 50.0), numbers.between(0.02, 1.0));
    let air = Air::new(t, humidity, numbers.between(70_000.0, 108_000.0))?;
    let (h, sun) = (numbers.between(2.0, 40.0), numbers.between(0.0, 700.0));
    let face = wet_face(&air, h, sun);
    Ok(json!({
        "kind": "state",
        "t": t,
        "humidity": humidity,
        "pressure": air.pressure_pa(),
        "full": hodful_air::moist::saturation_pa(t),
        "vapour": air.vapour_pa(),
        "ratio": air.humidity_ratio(),
        "dew": air.dew_point(),
        "wet": air.wet_bulb(),
        "wet_over_water": air.wet_bulb_over_water(),
        "heat": air.enthalpy_j_kg(),
        "volume": air.volume_m3_kg(),
        "h": h,
        "sun": sun,
        "face": face.celsius,
        "rate": face.kg_m2_h,
    }))
}

fn sun(numbers: &mut Numbers) -> Outcome<Value> {
    let (latitude, longitude) = (numbers.between(-60.0, 65.0), numbers.between(-179.0, 179.0));
    let zone = (longitude / 15.0).round();
    let days = i64::from(numbers.whole(0, 120)?) * 90 + i64::from(numbers.whole(0, 89)?);
    let time: DateTime = date(1996, 1, 1)
        .checked_add(jiff::Span::new().days(days))?
        .at(numbers.whole(0, 23)?, numbers.whole(0, 59)?, 0, 0);
    let place = Place::new(latitude, longitude, zone)?;
    let sun = Sun::at(&place, time);
    let global = numbers.between(0.02, 0.9) * sun.beyond_w_m2 * sun.up.max(0.0);
    let light = split(&sun, global);
    let azimuth = numbers.between(0.0, 360.0);
    Ok(json!({
        "kind": "sun",
        "latitude": latitude,
        "longitude": longitude,
        "zone": zone,
        "time": time.to_string(),
        "altitude": sun.altitude(),
        "azimuth": sun.azimuth(),
        "beyond": sun.beyond_w_m2,
        "global": global,
        "beam": light.beam,
        "diffuse": light.diffuse,
        "facing": azimuth,
        "wall": on_wall_w_m2(&sun, &light, &Facing::new(azimuth)?, false),
        "shaded": on_wall_w_m2(&sun, &light, &Facing::new(azimuth)?, true),
    }))
}

/// Three days of a room, hour by hour, each with its own air and airing.
fn room(numbers: &mut Numbers) -> Outcome<Value> {
    let volume = numbers.between(15.0, 300.0);
    let walls = WetWalls {
        area_m2: numbers.between(0.0, 120.0),
        beta_m_h: numbers.between(1.0, 25.0),
        full_kg_m3: numbers.between(0.012, 0.025),
    };
    // So little that the air never becomes damper than the walls can make it.
    let given_kg_h = volume * numbers.between(0.0, 0.001);
    let start = numbers.between(0.004, 0.012);
    let mut left = numbers.between(1.0, 80.0);
    let water = left;
    let mut vapour = start;
    let mut hours = Vec::new();
    for _ in 0..72 {
        let (n, outside_kg_m3) = (numbers.between(0.5, 12.0), numbers.between(0.002, 0.010));
        let spell = Spell {
            outside_kg_m3,
            given_kg_h,
            walls,
        };
        let (after, given) = Room::new(volume, n)?.with_walls(vapour, &spell, 1.0, left);
        vapour = after;
        left -= given;
        hours.push(json!({"n": n, "outside": outside_kg_m3, "vapour": vapour, "left": left}));
    }
    Ok(json!({
        "kind": "room",
        "volume": volume,
        "area": walls.area_m2,
        "beta": walls.beta_m_h,
        "full": walls.full_kg_m3,
        "given": given_kg_h,
        "start": start,
        "water": water,
        "hours": hours,
    }))
}

/// A coat in a room in weather that stays the same.
fn coat(numbers: &mut Numbers) -> Outcome<Value> {
    let celsius = numbers.between(12.0, 26.0);
    let outside = Air::new(
        numbers.between(-5.0, 10.0),
        numbers.between(0.5, 0.9),
        101_325.0,
    )?;
    let (volume, n) = (numbers.between(30.0, 120.0), numbers.between(0.5, 15.0));
    let (area, h) = (numbers.between(20.0, 90.0), numbers.between(2.5, 12.0));
    let (free, left) = (numbers.between(2.0, 12.0), numbers.between(0.1, 0.5));
    let coat = Coat::new(free, 0.3, left)?;
    let begin = outside.at(celsius)?;
    let hour = RoomHour {
        outside,
        celsius,
        room: Room::new(volume, n)?,
        given_kg_h: 0.0,
    };
    let dried = dry_room(&coat, area, h, &begin, std::iter::repeat_n(hour, 5000))?;
    Ok(json!({
        "kind": "coat",
        "celsius": celsius,
        "outside": begin.vapour_kg_m3(),
        "start": begin.vapour_kg_m3(),
        "volume": volume,
        "n": n,
        "area": area,
        "h": h,
        "free": free,
        "critical": 0.3 * free,
        "left": left,
        "dry_after": dried.dry_after_h,
    }))
}

/// Three coats in a room, each from its hour on, in weather that stays the same.
fn coats(numbers: &mut Numbers) -> Outcome<Value> {
    let celsius = numbers.between(12.0, 26.0);
    let outside = Air::new(
        numbers.between(-5.0, 10.0),
        numbers.between(0.5, 0.9),
        101_325.0,
    )?;
    let (volume, n) = (numbers.between(30.0, 120.0), numbers.between(0.5, 15.0));
    let h = numbers.between(2.5, 12.0);
    let mut own = Vec::new();
    for from in [0, 30, 200] {
        let (free, left) = (numbers.between(2.0, 12.0), numbers.between(0.1, 0.5));
        own.push(RoomCoat {
            coat: Coat::new(free, 0.3, left)?,
            area_m2: numbers.between(10.0, 50.0),
            from,
            record: numbers.between(0.7, 1.6),
        });
    }
    let begin = outside.at(celsius)?;
    let hour = RoomHour {
        outside,
        celsius,
        room: Room::new(volume, n)?,
        given_kg_h: 0.0,
    };
    let dried = dry_coats(&own, h, &begin, std::iter::repeat_n(hour, 4000))?;
    let each = own.iter().zip(&dried.dry_after_h).map(|(of, dry_after)| {
        json!({
            "area": of.area_m2,
            "free": of.coat.free_kg_m2(),
            "critical": 0.3 * of.coat.free_kg_m2(),
            "left": of.coat.left_kg_m2(),
            "from": of.from,
            "record": of.record,
            "dry_after": dry_after,
        })
    });
    Ok(json!({
        "kind": "coats",
        "celsius": celsius,
        "outside": begin.vapour_kg_m3(),
        "start": begin.vapour_kg_m3(),
        "volume": volume,
        "n": n,
        "h": h,
        "coats": each.collect::<Vec<_>>(),
        "given": dried.given_kg.iter().sum::<f64>(),
    }))
}

/// Nanoseconds for a wet bulb and for an hour of a wall, and milliseconds for a year of forty walls, the best of five.
fn speed() -> Outcome<Value> {
    let mut numbers = Numbers(1);
    let mut hours = Vec::new();
    let mut begins = date(2025, 1, 1).at(0, 0, 0, 0);
    for number in 0..8760_u32 {
        let angle = f64::from(number % 24) / 24.0 * core::f64::consts::TAU;
        hours.push(Hour {
            begins,
            dry_bulb: 10.0 - 8.0 * libm::cos(angle) + numbers.between(-4.0, 4.0),
            humidity: numbers.between(0.3, 1.0),
            pressure: 100_000.0,
            wind: Some(numbers.between(0.0, 8.0)),
            sun: Some((-600.0 * libm::cos(angle)).max(0.0)),
            beam: None,
            diffuse: None,
            cloud: None,
            rain: None,
        });
        begins = begins.checked_add(jiff::Span::new().hours(1))?;
    }
    let place = Place::new(47.0, 8.0, 1.0)?;
    let stands = (0..40_u32)
        .map(|wall| Stand::new(9.0 * f64::from(wall), false))
        .collect::<Result<Vec<_>, _>>()?;
    let airs = hours.iter().map(Hour::air).collect::<Result<Vec<_>, _>>()?;
    let (mut bulb, mut once, mut walls) = (f64::INFINITY, f64::INFINITY, f64::INFINITY);
    let mut sum = 0.0;
    for _ in 0..5 {
        let begin = Instant::now();
        sum += airs.iter().map(Air::wet_bulb_over_water).sum::<f64>();
        bulb = bulb.min(begin.elapsed().as_secs_f64());
        let begin = Instant::now();
        let skies = hours
            .iter()
            .map(|hour| Sky::of(&place, hour))
            .collect::<Result<Vec<_>, _>>()?;
        once = once.min(begin.elapsed().as_secs_f64());
        let begin = Instant::now();
        for stand in &stands {
            sum += skies
                .iter()
                .map(|sky| sky.wet_face(stand).kg_m2_h)
                .sum::<f64>();
        }
        walls = walls.min(begin.elapsed().as_secs_f64());
    }
    Ok(json!({
        "wet_bulb_ns": bulb * 1e9 / 8760.0,
        "hour_ns": once * 1e9 / 8760.0,
        "wall_hour_ns": walls * 1e9 / 8760.0 / 40.0,
        "year_of_forty_walls_ms": (once + walls) * 1e3,
        "sum": sum,
    }))
}
