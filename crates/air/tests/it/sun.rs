//! The sun against geometry and known days. Not here: a public library, which the cross-check asks.

use crate::near;
use hodful_air::sun::{Facing, Light, Place, Sun, on_wall_w_m2, split};
use jiff::civil::date;

/// Height of the sun at its noon: `90° − latitude + tilt`, with the tilt 23.44° in June, −23.44° in December and near 0
/// at the equinoxes (astronomy, common knowledge). Those days are hours off.
#[test]
fn heights_at_noon() {
    for (latitude, month, day, tilt) in [
        (45.0, 6, 21, 23.44),
        (45.0, 12, 21, -23.44),
        (52.0, 3, 20, 0.0),
        (52.0, 9, 22, 0.0),
        (-35.0, 12, 21, -23.44),
        (0.0, 6, 21, 23.44),
    ] {
        let place = Place::new(latitude, 0.0, 0.0).unwrap();
        let highest = (0..48)
            .map(|q| date(2025, month, day).at(9 + q / 8, (q % 8) * 7, 0, 0))
            .map(|time| Sun::at(&place, time).altitude())
            .fold(f64::MIN, f64::max);
        near(
            &format!("{latitude}° on {day}.{month}."),
            highest,
            90.0 - f64::abs(latitude - tilt),
            0.3,
        );
    }
}

/// How far the sun is ahead of the clock, minutes, on its four great days: −14.2 on 11 February, +3.7 on 14 May, −6.5 on
/// 26 July, +16.4 on 3 November (almanacs, from memory). So long before the clock's noon it crosses the south.
#[test]
fn the_sun_and_the_clock() {
    let place = Place::new(45.0, 15.0, 1.0).unwrap();
    for (month, day, ahead) in [(2, 11, -14.2), (5, 14, 3.7), (7, 26, -6.5), (11, 3, 16.4)] {
        let east = |minute: i64| {
            let noon = date(2025, month, day).at(12, 0, 0, 0);
            let time = noon.checked_add(jiff::Span::new().minutes(minute)).unwrap();
            Sun::at(&place, time).east
        };
        let crosses = (-30..30_i32)
            .map(|minute| (minute, east(minute.into()), east(i64::from(minute) + 1)))
            .find(|(_, now, next)| *now > 0.0 && *next <= 0.0)
            .map(|(minute, now, next)| f64::from(minute) + now / (now - next))
            .unwrap();
        near(&format!("{day}.{month}."), -crosses, ahead, 0.15);
    }
}

/// The earth is nearest to the sun at the beginning of January, 0.98329 of its mean distance, and furthest at the beginning
/// of July, 1.01671 (almanacs, from memory).
#[test]
fn nearer_in_january() {
    let place = Place::new(45.0, 0.0, 0.0).unwrap();
    for (month, distance) in [(1, 0.983_29), (7, 1.016_71)] {
        let sun = Sun::at(&place, date(2025, month, 4).at(12, 0, 0, 0));
        near("W/m²", sun.beyond_w_m2, 1366.1 / (distance * distance), 0.3);
    }
}

#[test]
fn east_in_the_morning_and_an_arrow_of_length_one() {
    let place = Place::new(47.0, 8.0, 1.0).unwrap();
    for hour in 0..24_i8 {
        let sun = Sun::mid_hour(&place, date(2025, 4, 10).at(hour, 0, 0, 0));
        near(
            "length",
            sun.north * sun.north + sun.east * sun.east + sun.up * sun.up,
            1.0,
            1e-12,
        );
        if sun.up > 0.0 {
            assert_eq!(sun.azimuth() < 180.0, hour < 12, "{hour}: {sun:?}");
        }
    }
}

/// By hand: sun 30° above the south, beam 800, sky 100, ground 0.2 of 500.
#[test]
fn light_on_four_walls() {
    let (up, north) = (0.5, -(0.75_f64.sqrt()));
    let sun = Sun {
        north,
        east: 0.0,
        up,
        beyond_w_m2: 1366.1,
    };
    let light = Light {
        beam: 800.0,
        diffuse: 100.0,
        global: 500.0,
    };
    let on = |azimuth: f64| on_wall_w_m2(&sun, &light, &Facing::new(azimuth).unwrap(), false);
    let sky_and_ground = 50.0 + 50.0;
    near(
        "south",
        on(180.0),
        800.0 * 0.75_f64.sqrt() + sky_and_ground,
        1e-9,
    );
    near(
        "south-east",
        on(135.0),
        800.0 * 0.75_f64.sqrt() * 0.5_f64.sqrt() + sky_and_ground,
        1e-9,
    );
    near("east", on(90.0), sky_and_ground, 1e-9);
    near("north", on(0.0), sky_and_ground, 1e-9);
    let shaded = on_wall_w_m2(&sun, &light, &Facing::new(180.0).unwrap(), true);
    near("shade", shaded, 50.0 + 0.2 * 100.0 / 2.0, 1e-9);
}

/// Erbs et al. 1982 (from memory): a clear sky has 0.165 of its light from the sky, an overcast one almost all; the
/// pieces meet within a few thousandths.
#[test]
fn the_sky_taken_apart() {
    let sun = Sun {
        north: 0.0,
        east: 0.0,
        up: 1.0,
        beyond_w_m2: 1000.0,
    };
    let share = |k: f64| split(&sun, 1000.0 * k).diffuse / (1000.0 * k);
    near("clear", share(0.85), 0.165, 1e-12);
    near("overcast", share(0.1), 0.991, 1e-12);
    near(
        "half",
        share(0.5),
        0.9511 - 0.0802 + 1.097 - 2.079_75 + 0.771,
        1e-12,
    );
    near("pieces at 0.22", share(0.2201), share(0.2199), 0.002);
    near("pieces at 0.8", share(0.8001), share(0.7999), 0.002);
    for global in [-5.0, 0.0, 120.0, 700.0, 5000.0] {
        let light = split(&sun, global);
        near(
            "sum",
            light.beam * sun.up + light.diffuse,
            global.max(0.0),
            1e-9,
        );
    }
    let low = Sun { up: 0.01, ..sun };
    near("no beam at the horizon", split(&low, 30.0).beam, 0.0, 0.0);
}

#[test]
fn light_by_what_is_known() {
    let sun = Sun {
        north: 0.0,
        east: 0.3,
        up: 0.8,
        beyond_w_m2: 1366.1,
    };
    let all = Light::known(&sun, Some(740.0), Some(800.0), Some(100.0));
    assert_eq!(
        all,
        Light {
            beam: 800.0,
            diffuse: 100.0,
            global: 740.0
        }
    );
    near(
        "sum",
        Light::known(&sun, None, Some(800.0), Some(100.0)).global,
        740.0,
        1e-9,
    );
    assert_eq!(
        Light::known(&sun, Some(740.0), None, None),
        split(&sun, 740.0)
    );
    assert_eq!(Light::known(&sun, None, None, None), Light::NONE);
}
