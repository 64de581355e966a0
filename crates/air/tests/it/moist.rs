//! Damp air against tables. Not here: what it does to a wall.

use crate::{air, near};
use hodful_air::Air;
use hodful_air::moist::{
    STANDARD_PA, saturation_over_ice_pa, saturation_over_water_pa, saturation_pa,
    standard_pressure_pa,
};

/// °C, relative humidity in %, then saturation Pa, vapour Pa, kg/kg, dew point °C, wet bulb °C, kJ/kg, m³/kg, g/m³.
///
/// Source: `PsychroLib` 2.5.0, which implements ASHRAE Fundamentals 2017, chapter 1; at 101325 Pa.
const STATES: [[f64; 10]; 20] = [
    [
        -5.0, 80.0, 401.8, 321.4, 0.001_979, -7.59, -5.88, -0.1, 0.7621, 2.597,
    ],
    [
        0.0, 80.0, 611.2, 488.9, 0.003_016, -2.68, -1.16, 7.54, 0.7776, 3.878,
    ],
    [
        0.0, 100.0, 611.2, 611.2, 0.003_774, 0.0, 0.0, 9.44, 0.7785, 4.848,
    ],
    [
        5.0, 50.0, 872.5, 436.2, 0.002_689, -4.03, 1.35, 11.78, 0.7914, 3.398,
    ],
    [
        5.0, 80.0, 872.5, 698.0, 0.004_314, 1.84, 3.59, 15.86, 0.7934, 5.437,
    ],
    [
        5.0, 100.0, 872.5, 872.5, 0.005_402, 5.0, 5.0, 18.59, 0.7948, 6.797,
    ],
    [
        10.0, 50.0, 1228.0, 614.0, 0.003_792, 0.06, 5.54, 19.61, 0.807, 4.698,
    ],
    [
        10.0, 70.0, 1228.0, 859.6, 0.005_321, 4.79, 7.4, 23.47, 0.809, 6.578,
    ],
    [
        10.0, 100.0, 1228.0, 1228.0, 0.007_63, 10.0, 10.0, 29.28, 0.812, 9.397,
    ],
    [
        15.0, 60.0, 1705.4, 1023.3, 0.006_345, 7.31, 10.82, 31.14, 0.8246, 7.694,
    ],
    [
        15.0, 100.0, 1705.4, 1705.4, 0.010_647, 15.0, 15.0, 42.02, 0.8303, 12.824,
    ],
    [
        20.0, 50.0, 2338.8, 1169.4, 0.007_262, 9.27, 13.78, 38.55, 0.8402, 8.643,
    ],
    [
        20.0, 60.0, 2338.8, 1403.3, 0.008_734, 12.01, 15.14, 42.29, 0.8421, 10.372,
    ],
    [
        20.0, 80.0, 2338.8, 1871.0, 0.011_701, 16.45, 17.68, 49.82, 0.8461, 13.829,
    ],
    [
        20.0, 100.0, 2338.8, 2338.8, 0.014_695, 20.0, 20.0, 57.42, 0.8501, 17.287,
    ],
    [
        25.0, 50.0, 3169.2, 1584.6, 0.009_881, 13.86, 17.89, 50.32, 0.858, 11.516,
    ],
    [
        25.0, 100.0, 3169.2, 3169.2, 0.020_081, 25.0, 25.0, 76.31, 0.8719, 23.032,
    ],
    [
        30.0, 30.0, 4246.0, 1273.8, 0.007_918, 10.55, 17.97, 50.43, 0.8697, 9.104,
    ],
    [
        30.0, 50.0, 4246.0, 2123.0, 0.013_31, 18.45, 22.01, 64.21, 0.8772, 15.174,
    ],
    [
        35.0, 20.0, 5627.8, 1125.6, 0.006_986, 8.71, 18.87, 53.14, 0.8828, 7.914,
    ],
];

#[test]
fn states_are_those_of_a_reference_library() {
    for [
        t,
        humidity,
        full,
        vapour,
        ratio,
        dew,
        wet,
        heat,
        volume,
        grams,
    ] in STATES
    {
        let state = air(t, humidity / 100.0);
        let name = |what: &str| format!("{what} at {t} °C and {humidity} %");
        // Half of the last figure printed, and a little for the doubled rounding.
        near(&name("saturation"), saturation_pa(t), full, 0.06);
        near(&name("vapour"), state.vapour_pa(), vapour, 0.06);
        near(&name("ratio"), state.humidity_ratio(), ratio, 0.6e-6);
        near(&name("dew point"), state.dew_point().unwrap(), dew, 0.006);
        near(&name("wet bulb"), state.wet_bulb(), wet, 0.006);
        near(&name("heat"), state.enthalpy_j_kg() / 1000.0, heat, 0.006);
        near(&name("volume"), state.volume_m3_kg(), volume, 0.6e-4);
        near(
            &name("density"),
            1000.0 * state.vapour_kg_m3(),
            grams,
            0.6e-3,
        );
    }
}

/// Source: a table of moist air in a public collection of engineering tables, older equations, Pa.
#[test]
fn saturation_pressures_of_a_printed_table() {
    for (t, pa) in [
        (-10.0, 259.2),
        (-5.0, 401.5),
        (0.0, 610.8),
        (5.0, 871.9),
        (10.0, 1227.0),
        (15.0, 1704.0),
        (20.0, 2337.0),
        (25.0, 3167.0),
        (30.0, 4243.0),
        (35.0, 5623.0),
        (40.0, 7378.0),
        (50.0, 12_339.0),
    ] {
        near(&format!("{t} °C"), saturation_pa(t), pa, 0.003 * pa);
    }
}

/// Source: ASHRAE Fundamentals, chapter 1, table 2 (from memory), kg/kg. It counts that vapour and air are not quite
/// perfect gases, which is up to 0.5 %.
#[test]
fn full_air_of_a_printed_table() {
    for (t, ratio) in [
        (0.0, 0.003_789),
        (10.0, 0.007_661),
        (20.0, 0.014_758),
        (25.0, 0.020_170),
        (30.0, 0.027_329),
    ] {
        near(
            &format!("{t} °C"),
            air(t, 1.0).humidity_ratio(),
            ratio,
            0.005 * ratio,
        );
    }
}

/// Source: a German public leaflet on damp in houses, g/m³ of full air.
#[test]
fn vapour_of_full_air_of_a_printed_table() {
    for (t, grams) in [
        (-10.0, 2.14),
        (-5.0, 3.23),
        (0.0, 4.85),
        (5.0, 6.79),
        (10.0, 9.39),
        (15.0, 12.80),
        (20.0, 17.30),
        (25.0, 23.00),
        (30.0, 30.40),
    ] {
        near(
            &format!("{t} °C"),
            1000.0 * air(t, 1.0).vapour_kg_m3(),
            grams,
            0.06,
        );
    }
}

/// Source: ASHRAE Fundamentals, chapter 1, table 1 standard atmosphere (from memory), kPa.
#[test]
fn pressure_falls_with_altitude() {
    for (metres, kpa) in [
        (-500.0, 107.478),
        (0.0, 101.325),
        (500.0, 95.461),
        (1000.0, 89.875),
        (2000.0, 79.495),
        (3000.0, 70.108),
    ] {
        near(
            &format!("{metres} m"),
            standard_pressure_pa(metres).unwrap() / 1000.0,
            kpa,
            0.002,
        );
    }
}

/// Over water and over ice the pressures meet near the triple point, 611.657 Pa (from memory).
#[test]
fn water_and_ice_meet_at_the_triple_point() {
    near("water", saturation_over_water_pa(0.01), 611.657, 0.1);
    near("ice", saturation_over_ice_pa(0.01), 611.657, 0.1);
}

/// What a wet bulb over water shows has no step, what one over ice shows has.
#[test]
fn only_the_wet_bulb_over_ice_has_a_step() {
    let both = |t: f64| {
        let state = air(t, 0.6);
        (state.wet_bulb(), state.wet_bulb_over_water())
    };
    let (mut widest, mut widest_over_water) = (0.0_f64, 0.0_f64);
    let mut before = both(2.0);
    for step in 1..=200 {
        let now = both(2.0 + f64::from(step) * 0.005);
        widest = widest.max(now.0 - before.0);
        widest_over_water = widest_over_water.max(now.1 - before.1);
        before = now;
    }
    assert!((0.1..0.6).contains(&widest), "{widest}");
    assert!(widest_over_water < 0.005, "{widest_over_water}");
}

#[test]
fn air_that_is_warmed_keeps_its_vapour() {
    let outside = air(5.0, 0.8);
    let inside = outside.at(20.0).unwrap();
    near("vapour", inside.vapour_pa(), outside.vapour_pa(), 1e-9);
    near("humidity", inside.humidity(), 698.0 / 2338.8, 1e-4);
    near("dew point", inside.dew_point().unwrap(), 1.84, 0.006);
    near("cooled", outside.at(0.0).unwrap().humidity(), 1.0, 1e-12);
}

#[test]
fn dry_air_has_no_dew_point() {
    assert_eq!(air(20.0, 0.0).dew_point(), None);
    assert!(
        Air::new(20.0, 1e-9, STANDARD_PA)
            .unwrap()
            .dew_point()
            .is_none()
    );
}

/// °C, relative humidity, Pa, wet bulb °C. Source: `PsychroLib` 2.5.0, whose search ends within 0.001 K.
#[test]
fn wet_bulbs_in_dry_and_in_thin_air() {
    for (t, humidity, pressure, wet) in [
        (6.0, 0.1, 101_325.0, -1.6382),
        (3.0, 0.3, 101_325.0, -2.0214),
        (-20.0, 0.3, 101_325.0, -21.0756),
        (8.0, 0.05, 75_000.0, -2.4498),
        (1.0, 0.5, 70_000.0, -2.8567),
        (25.0, 0.4, 80_000.0, 15.4724),
        (40.0, 0.15, 85_000.0, 19.2933),
    ] {
        let state = Air::new(t, humidity, pressure).unwrap();
        near(&format!("{t} °C"), state.wet_bulb(), wet, 0.0006);
    }
}
