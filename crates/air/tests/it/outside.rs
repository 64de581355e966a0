//! Walls in the weather. Not here: the parts they are made of.

use crate::{air, near};
use hodful_air::Hour;
use hodful_air::film::{FilmFormula, film_kg_m2_h};
use hodful_air::moist::STANDARD_PA;
use hodful_air::outside::{Sky, Stand};
use hodful_air::sun::{Facing, Light, Place, Sun, on_wall_w_m2};
use hodful_air::wall::{outside_w_m2k, wet_face};
use jiff::civil::date;

fn hour(at: i8, dry_bulb: f64) -> Hour {
    Hour {
        begins: date(2025, 5, 3).at(at, 0, 0, 0),
        dry_bulb,
        humidity: 0.5,
        pressure: STANDARD_PA,
        wind: Some(3.0),
        sun: Some(600.0),
        beam: Some(650.0),
        diffuse: Some(150.0),
        cloud: None,
        rain: None,
    }
}

fn place() -> Place {
    Place::new(45.0, 9.0, 1.0).unwrap()
}

/// The parts put together by hand: half of the wind, 0.7 of the light.
#[test]
fn a_wall_is_the_sum_of_its_parts() {
    let hour = hour(14, 18.0);
    let sky = Sky::of(&place(), &hour).unwrap();
    let sun = Sun::mid_hour(&place(), hour.begins);
    let light = Light {
        beam: 650.0,
        diffuse: 150.0,
        global: 600.0,
    };
    for azimuth in [0.0, 90.0, 180.0, 225.0, 270.0] {
        for shaded in [false, true] {
            let on = on_wall_w_m2(&sun, &light, &Facing::new(azimuth).unwrap(), shaded);
            let expected = wet_face(&air(18.0, 0.5), outside_w_m2k(1.5), 0.7 * on);
            let found = sky.wet_face(&Stand::new(azimuth, shaded).unwrap());
            near("face", found.celsius, expected.celsius, 1e-6);
            near("rate", found.kg_m2_h, expected.kg_m2_h, 1e-9);
        }
    }
}

/// In the dark a wall is at the wet bulb.
#[test]
fn at_night_a_wall_is_at_the_wet_bulb() {
    let dark = Hour {
        sun: None,
        beam: None,
        diffuse: None,
        wind: None,
        ..hour(2, 20.0)
    };
    let found = Sky::of(&place(), &dark)
        .unwrap()
        .wet_face(&Stand::new(180.0, false).unwrap());
    // 20 °C and 50 % in 4 W/(m²·K): 13.78 °C and 0.88 kg a day (worked with `PsychroLib`).
    near("face", found.celsius, 13.78, 0.006);
    near("day", 24.0 * found.kg_m2_h, 0.88, 0.006);
}

#[test]
fn rain_and_frost_stop_drying() {
    let stand = Stand::new(180.0, true).unwrap();
    let rain = Hour {
        rain: Some(0.4),
        ..hour(14, 18.0)
    };
    let rate =
        |hour: &Hour, stand: &Stand| Sky::of(&place(), hour).unwrap().wet_face(stand).kg_m2_h;
    near("rain", rate(&rain, &stand), 0.0, 0.0);
    assert!(rate(&rain, &stand.covered()) > 0.0);
    // Three degrees in dry air: the face is below 0 °C.
    let frost = Hour {
        sun: None,
        beam: None,
        diffuse: None,
        humidity: 0.3,
        ..hour(23, 3.0)
    };
    near("frost", rate(&frost, &stand), 0.0, 0.0);
}

/// A fresh face in dry wind is hasty by the published film, whatever the wall takes of the wind; in the sun and without
/// wind by its own heat, which no film knows. Rain does not hide it, and frost does.
#[test]
fn haste_takes_the_larger_of_film_and_face() {
    let stand = Stand::new(180.0, false).unwrap();
    let quick = |hour: &Hour, stand: &Stand| {
        let sky = Sky::of(&place(), hour).unwrap();
        (sky.face(stand).quick_kg_m2_h, sky.wet_face(stand).kg_m2_h)
    };
    // 38 °C, 15 %, 25 km/h: by Uno 0.000005 · 56^2.5 · 0.85 · 29 = 2.89, with the heat balance at half the wind 0.5.
    let desert = Hour {
        humidity: 0.15,
        wind: Some(25.0 / 3.6),
        ..hour(14, 38.0)
    };
    let (fast, wet) = quick(&desert, &Stand::new(0.0, true).unwrap());
    near("film", fast, 2.89, 0.01);
    assert!(wet < 0.7, "{wet}");
    let film = |hour: &Hour| {
        let air = hour.air().unwrap();
        film_kg_m2_h(FilmFormula::Uno, hour.dry_bulb, &air, hour.wind.unwrap())
    };
    near("by the formula", fast, film(&desert), 1e-12);
    let still = Hour {
        wind: Some(0.0),
        ..hour(14, 18.0)
    };
    let (fast, wet) = quick(&still, &stand);
    assert!(film(&still) < 0.3 && fast > 2.0 * film(&still), "{fast}");
    near("in the sun", fast, wet, 1e-12);
    let rain = Hour {
        rain: Some(0.1),
        ..still
    };
    assert_eq!(quick(&rain, &stand), (fast, 0.0));
    let frost = Hour {
        sun: None,
        beam: None,
        diffuse: None,
        humidity: 0.2,
        wind: Some(20.0),
        ..hour(23, -1.0)
    };
    assert_eq!(quick(&frost, &stand), (0.0, 0.0));
}

/// Without a place every wall is as one in the shade with the light of the sky: nothing of the beam, half of the sky and
/// a tenth of it from the ground.
#[test]
fn without_a_place_all_walls_are_in_the_shade() {
    let hour = hour(14, 18.0);
    let sky = Sky::without_place(&hour).unwrap();
    let expected = wet_face(&air(18.0, 0.5), outside_w_m2k(1.5), 0.7 * 150.0 * 0.6);
    for azimuth in [0.0, 90.0, 180.0] {
        for shaded in [false, true] {
            let found = sky.wet_face(&Stand::new(azimuth, shaded).unwrap());
            near("rate", found.kg_m2_h, expected.kg_m2_h, 1e-9);
        }
    }
    let of_shade = Sky::of(&place(), &hour).unwrap();
    let shade = of_shade.wet_face(&Stand::new(90.0, true).unwrap());
    near("as shaded", shade.kg_m2_h, expected.kg_m2_h, 1e-9);
}
