//! Wet walls against worked values. Not here: sun on a wall, and weather.

use crate::{air, near};
use hodful_air::wall::{STILL_ROOM_W_M2K, outside_w_m2k, wet_face};

/// °C, humidity, wet bulb °C, then kg/(m²·day) at 2.5, 4, 8, 12 and 20 W/(m²·K).
///
/// Worked with `PsychroLib` 2.5.0: `h / 1006 · (Ws(wet bulb) − W)`.
const FACES: [[f64; 8]; 7] = [
    [10.0, 0.8, 8.29, 0.15, 0.24, 0.48, 0.72, 1.20],
    [10.0, 0.6, 6.48, 0.31, 0.49, 0.99, 1.48, 2.47],
    [15.0, 0.6, 10.82, 0.37, 0.59, 1.18, 1.77, 2.95],
    [20.0, 0.5, 13.78, 0.55, 0.88, 1.76, 2.65, 4.41],
    [20.0, 0.7, 16.44, 0.32, 0.51, 1.02, 1.53, 2.55],
    [25.0, 0.5, 17.89, 0.64, 1.02, 2.03, 3.05, 5.09],
    [30.0, 0.3, 17.97, 1.07, 1.72, 3.43, 5.15, 8.58],
];

#[test]
fn faces_without_sun() {
    for [t, humidity, wet, still, four, eight, twelve, twenty] in FACES {
        let state = air(t, humidity);
        for (h, expected) in [
            (STILL_ROOM_W_M2K, still),
            (outside_w_m2k(0.0), four),
            (outside_w_m2k(1.0), eight),
            (outside_w_m2k(2.0), twelve),
            (outside_w_m2k(4.0), twenty),
        ] {
            let face = wet_face(&state, h, 0.0);
            let name = format!("{t} °C, {humidity}, {h} W/m²K");
            near(&name, face.celsius, wet, 0.006);
            near(&name, 24.0 * face.kg_m2_h, expected, 0.006);
        }
    }
}

/// What comes from the sun goes into vapour or back to the air: `S + h·(T − t) = m·L`, with the heat of evaporation of
/// the steam tables at the face, near `2501 − 2.36·t` kJ/kg (from memory). The air's own vapour is left out of this
/// balance, which is worth a few parts in a hundred.
#[test]
fn heat_in_is_heat_out() {
    for (t, humidity) in [(5.0, 0.8), (20.0, 0.5), (30.0, 0.3)] {
        for h in [4.0, 8.0, 20.0] {
            for sun in [50.0, 200.0, 600.0] {
                let face = wet_face(&air(t, humidity), h, sun);
                let into = sun + h * (t - face.celsius);
                let latent = 1000.0 * (2501.0 - 2.36 * face.celsius);
                let vapour = face.kg_m2_h / 3600.0 * latent;
                near(
                    &format!("{t} °C, {h} W/m²K, {sun} W/m²"),
                    vapour,
                    into,
                    0.04 * into,
                );
            }
        }
    }
}

/// Much sun in little air may warm water near boiling, and still gives a figure.
#[test]
fn sun_without_bounds_still_gives_a_figure() {
    for sun in [2e3, 1e4, 1e6, 1e300] {
        for h in [1e-3, 0.5, 4.0] {
            let face = wet_face(&air(40.0, 0.5), h, sun);
            assert!(face.celsius.is_finite() && face.celsius < 100.0, "{face:?}");
            assert!(face.kg_m2_h >= 0.0, "{face:?}");
        }
    }
}
