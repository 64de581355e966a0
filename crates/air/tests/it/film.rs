//! Films against printed charts and worked values. Not here: walls.

use crate::{air, near};
use hodful_air::film::{
    FilmFormula, Haste, Penman, film_kg_m2_h, haste, open_minutes, shuttleworth_mm_day,
};

/// Film °C, air °C, relative humidity, km/h, then kg/(m²·h) by each formula.
///
/// Worked from the formulas with the saturation pressure of `PsychroLib` 2.5.0.
const RATES: [[f64; 8]; 12] = [
    [10.0, 10.0, 0.7, 0.0, 0.0249, 0.0259, 0.0294, 0.0290],
    [10.0, 10.0, 0.7, 10.0, 0.0871, 0.0903, 0.0990, 0.0975],
    [20.0, 20.0, 0.5, 0.0, 0.0890, 0.0931, 0.0932, 0.0922],
    [20.0, 20.0, 0.5, 5.0, 0.2003, 0.2088, 0.2037, 0.2009],
    [20.0, 20.0, 0.5, 10.0, 0.3115, 0.3244, 0.3142, 0.3095],
    [25.0, 25.0, 0.4, 15.0, 0.6911, 0.7206, 0.6906, 0.6800],
    [30.0, 30.0, 0.3, 10.0, 0.7822, 0.8170, 0.7986, 0.7867],
    [30.0, 35.0, 0.2, 20.0, 1.4247, 1.4866, 1.4282, 1.4059],
    [20.0, 10.0, 0.8, 10.0, 0.3908, 0.4082, 0.3645, 0.3590],
    [15.0, 20.0, 0.6, 5.0, 0.0412, 0.0423, 0.0526, 0.0519],
    [25.0, 30.0, 0.5, 0.0, 0.0829, 0.0866, 0.0834, 0.0825],
    [35.0, 35.0, 0.1, 16.1, 1.8497, 1.9333, 1.9449, 1.9149],
];

#[test]
fn every_formula_gives_its_own_values() {
    for [film, t, humidity, km_h, uno, exact, rounded, menzel] in RATES {
        for (formula, expected) in [
            (FilmFormula::Uno, uno),
            (FilmFormula::UnoExact, exact),
            (FilmFormula::MenzelRounded, rounded),
            (FilmFormula::Menzel, menzel),
        ] {
            let found = film_kg_m2_h(formula, film, &air(t, humidity), km_h / 3.6);
            let name = format!("{formula:?}, film {film}, air {t}, {humidity}, {km_h} km/h");
            near(&name, found, expected, 1.1e-4);
        }
    }
}

/// Film °F, air °F, humidity in %, miles an hour, then lb/(ft²·h): the table of Lerch 1957 on plastic shrinkage (from
/// memory), Menzel's formula and the formula with powers of 2.5 in the units of its first form.
const LERCH: [[f64; 7]; 11] = [
    [70.0, 70.0, 70.0, 0.0, 0.015, 0.0121, 0.0123],
    [70.0, 70.0, 70.0, 10.0, 0.062, 0.0582, 0.0615],
    [70.0, 70.0, 70.0, 25.0, 0.135, 0.1272, 0.1353],
    [70.0, 70.0, 50.0, 10.0, 0.100, 0.0969, 0.1025],
    [70.0, 70.0, 10.0, 10.0, 0.175, 0.1745, 0.1845],
    [80.0, 80.0, 70.0, 10.0, 0.077, 0.0812, 0.0859],
    [80.0, 40.0, 100.0, 10.0, 0.205, 0.2058, 0.2356],
    [70.0, 40.0, 50.0, 25.0, 0.357, 0.3530, 0.3953],
    [90.0, 90.0, 10.0, 0.0, 0.070, 0.0700, 0.0692],
    [90.0, 90.0, 10.0, 10.0, 0.336, 0.3357, 0.3458],
    [90.0, 90.0, 10.0, 25.0, 0.740, 0.7342, 0.7607],
];

#[test]
fn the_table_of_lerch_and_the_first_forms() {
    let celsius = |f: f64| (f - 32.0) / 1.8;
    for [film, t, humidity, mph, lerch, menzel, uno] in LERCH {
        let state = air(celsius(t), humidity / 100.0);
        let rate =
            |formula| film_kg_m2_h(formula, celsius(film), &state, mph * 0.447_04) / 4.882_428;
        let name = format!("film {film} °F, air {t} °F, {humidity} %, {mph} mph");
        near(&name, rate(FilmFormula::Menzel), menzel, 1.1e-4);
        near(&name, rate(FilmFormula::UnoExact), uno, 2e-4);
        // The table is printed to 0.001 to 0.005 and is off by a fifth where it is next to nothing.
        near(
            &name,
            rate(FilmFormula::Menzel),
            lerch,
            0.07 * lerch + 0.002,
        );
    }
}

/// Source: ACI 305R and 308R, read in a trade page.
#[test]
fn alerts() {
    for (rate, expected) in [
        (0.0, Haste::Calm),
        (0.49, Haste::Calm),
        (0.5, Haste::Watch),
        (0.99, Haste::Watch),
        (1.0, Haste::Act),
    ] {
        assert_eq!(haste(rate), expected, "{rate}");
    }
    assert_eq!(open_minutes(1.5), Some(40.0));
}

/// Source: San Diego State University, CIVE 445, worked exercise: 15 °C, 550 cal/(cm²·day), 150 km/day, 70 %, 17.04 mbar
/// and α 1.66 give Ea 0.189, En 0.935 and 0.65 cm/day.
#[test]
fn the_worked_exercise_of_penman() {
    let by_air = Penman::air_cm_day(150.0, 17.04, 0.7);
    near("Ea", by_air, 0.189, 0.0005);
    let by_radiation = Penman::radiation_cm_day(550.0, 15.0);
    near("En", by_radiation, 0.935, 0.0005);
    let penman = Penman {
        alpha: 1.66,
        radiation_cm_day: by_radiation,
        air_cm_day: by_air,
    };
    near("E", penman.cm_day(), 0.65, 0.005);
    near("E to four figures", penman.cm_day(), 0.6545, 0.0003);
}

/// Worked from the formula as it stands in the Handbook of Hydrology (from memory), without radiation.
#[test]
fn open_water_without_radiation() {
    near(
        "still",
        shuttleworth_mm_day(&air(20.0, 0.5), 0.0, 0.0),
        0.97,
        0.006,
    );
    near(
        "1 m/s",
        shuttleworth_mm_day(&air(20.0, 0.5), 0.0, 1.0),
        1.50,
        0.006,
    );
    assert!(shuttleworth_mm_day(&air(20.0, 0.5), 10.0, 0.0) > 3.0);
}
