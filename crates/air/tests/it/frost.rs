//! Frost against tables and a worked forecast. Not here: wet bulbs in general.

use crate::{air, near};
use hodful_air::frost::{
    Binder, CARES, Night, NightMinimum, NightRecord, Reason, Verdict, care, freezing_air, kept,
    nights, thawing_air,
};
use hodful_air::moist::STANDARD_PA;
use hodful_air::{AirFault, Hour};
use jiff::civil::date;

/// Relative humidity and the air, °C, in which a reference library (`PsychroLib` 2.5.0, read between whole degrees to a
/// tenth) has the wet bulb cross 0 °C. It goes over from water to ice somewhere between the two temperatures that are
/// worked out here.
#[test]
fn air_in_which_a_wet_wall_freezes() {
    for (humidity, celsius) in [
        (1.0, 0.0),
        (0.9, 0.6),
        (0.8, 1.2),
        (0.7, 2.0),
        (0.6, 2.6),
        (0.5, 3.6),
        (0.4, 4.3),
        (0.3, 5.6),
        (0.2, 6.8),
    ] {
        let freezes = freezing_air(humidity, STANDARD_PA).unwrap();
        let thaws = thawing_air(humidity, STANDARD_PA).unwrap();
        assert!(
            freezes - 0.1 <= celsius && celsius <= thaws + 0.1,
            "{humidity}: {freezes} to {thaws}, expected {celsius}"
        );
        near(
            "wet bulb",
            air(freezes, humidity).wet_bulb_over_water(),
            0.0,
            1e-4,
        );
    }
}

/// Wholly dry air: `1.006·T = 2501·Ws(0 °C)` by the equation of the wet bulb, with Ws 0.003774 kg/kg (`PsychroLib` 2.5.0,
/// 101325 Pa).
#[test]
fn dry_air_freezes_a_wall_far_above_zero() {
    near(
        "dry",
        freezing_air(0.0, STANDARD_PA).unwrap(),
        2501.0 * 0.003_774 / 1.006,
        0.01,
    );
    assert!(freezing_air(0.0, 30_000.0).unwrap() > 30.0);
}

fn records() -> Vec<NightRecord> {
    let evening = [3.2, 0.8, 0.2, 2.6, 4.4, 5.2, 2.7, 1.2, 4.5, 5.6];
    let dew_point = [-4.2, -8.8, -6.5, -6.2, -6.1, 2.6, -0.7, -1.7, -1.2, 0.1];
    let lowest = [-3.1, -5.0, -6.3, -5.4, -4.0, -2.5, -4.8, -5.0, -4.4, -3.3];
    evening
        .into_iter()
        .zip(dew_point)
        .zip(lowest)
        .map(|((evening, dew_point), lowest)| NightRecord {
            evening,
            dew_point,
            lowest,
        })
        .collect()
}

/// Source: documentation of a public programme for the method of the FAO frost book, with these ten nights: an evening of
/// 10 °C and a dew point of 2 °C give −0.7409219 °C.
#[test]
fn the_worked_forecast_of_a_night() {
    let fit = NightMinimum::fit(&records()).unwrap();
    near("forecast", fit.predict(10.0, 2.0), -0.740_921_9, 1e-7);
    near("a", fit.a, 0.5028, 5e-5);
    near("b", fit.b, 0.0265, 5e-5);
    near("c", fit.c, -5.822, 5e-4);
}

#[test]
fn records_that_say_nothing_are_refused() {
    let all = records();
    assert_eq!(
        NightMinimum::fit(&all[..2]).unwrap_err(),
        AirFault::FewNights { count: 2, least: 3 }
    );
    let same: Vec<NightRecord> = all
        .iter()
        .map(|r| NightRecord {
            dew_point: 0.1,
            ..*r
        })
        .collect();
    assert_eq!(
        NightMinimum::fit(&same).unwrap_err().to_string(),
        "all records of nights have the same dew point; records that differ are needed"
    );
    let mut odd = all;
    odd[3].lowest = f64::NAN;
    assert!(matches!(
        NightMinimum::fit(&odd),
        Err(AirFault::NotFinite { .. })
    ));
}

fn hours(celsius: &[f64], humidity: f64, wind: Option<f64>, cloud: Option<f64>) -> Vec<Hour> {
    let mut begins = date(2025, 3, 1).at(18, 0, 0, 0);
    celsius
        .iter()
        .map(|t| {
            let hour = Hour {
                begins,
                dry_bulb: *t,
                humidity,
                pressure: STANDARD_PA,
                wind,
                sun: None,
                beam: None,
                diffuse: None,
                cloud,
                rain: None,
            };
            begins = begins.checked_add(jiff::Span::new().hours(1)).unwrap();
            hour
        })
        .collect()
}

/// Each reason on its own: the verdict, and which reason stands there.
#[test]
fn what_a_night_brings() {
    let clouded = (Some(5.0), Some(1.0));
    let clear = (Some(1.0), Some(0.0));
    for (celsius, humidity, (wind, cloud), binder, verdict, count) in [
        (6.0, 0.8, clouded, Binder::Earth, Verdict::Safe, 0),
        (6.0, 0.8, clear, Binder::Earth, Verdict::Safe, 0),
        (3.5, 0.9, clouded, Binder::Earth, Verdict::Safe, 0),
        (3.5, 0.9, clear, Binder::Earth, Verdict::Watch, 1),
        (3.5, 0.9, (None, None), Binder::Earth, Verdict::Watch, 1),
        (
            3.5,
            0.9,
            (Some(1.0), Some(0.5)),
            Binder::Earth,
            Verdict::Safe,
            0,
        ),
        (3.5, 0.9, clouded, Binder::Cement, Verdict::Watch, 1),
        (3.5, 0.9, clear, Binder::Cement, Verdict::Watch, 2),
        (4.5, 0.9, clouded, Binder::Cement, Verdict::Safe, 0),
        (4.5, 0.9, clouded, Binder::AirLime, Verdict::Watch, 1),
        // Wet bulbs of 0.6, 1.4 and 2.4 °C, to be watched up to 2 °C: by the formulas of psychrometry, whose values
        // for these are held against psychrolib among others.
        (1.0, 0.93, clouded, Binder::Earth, Verdict::Watch, 1),
        (2.0, 0.9, clouded, Binder::Earth, Verdict::Watch, 1),
        (3.0, 0.9, clouded, Binder::Earth, Verdict::Safe, 0),
        // Above 0 °C, and the wall freezes all the same.
        (3.0, 0.4, clouded, Binder::Earth, Verdict::Freezes, 1),
        (0.0, 1.0, clouded, Binder::Earth, Verdict::Freezes, 1),
        (-4.0, 0.9, clouded, Binder::Earth, Verdict::Freezes, 1),
    ] {
        let found = nights(
            &hours(&[8.0, celsius, 8.0], humidity, wind, cloud),
            &care(binder),
        )
        .unwrap();
        let [night] = found.as_slice() else {
            panic!("{found:?}")
        };
        assert_eq!(night.verdict(), verdict, "{celsius} °C: {night:?}");
        assert_eq!(night.reasons.len(), count, "{celsius} °C: {night:?}");
        assert!((night.lowest_air - celsius).abs() < 1e-9);
    }
}

/// Any hour at 4 °C or below that is clear and calm, and not the coldest alone: a wind that wakes before dawn hides none.
#[test]
fn any_cold_hour_that_is_clear_counts() {
    for (clear_at, verdict) in [
        (Some(1), Verdict::Watch),
        (Some(2), Verdict::Watch),
        // 6 °C: warm enough.
        (Some(0), Verdict::Safe),
        (None, Verdict::Safe),
    ] {
        let mut night = hours(&[6.0, 2.8, 3.5], 0.95, Some(1.0), Some(0.0));
        for (number, hour) in night.iter_mut().enumerate() {
            if Some(number) != clear_at {
                hour.wind = Some(9.0);
            }
        }
        let found = nights(&night, &care(Binder::Earth)).unwrap();
        assert_eq!(found[0].verdict(), verdict, "{found:?}");
        assert_eq!(found[0].clear_and_calm, verdict == Verdict::Watch);
        if let (Some(at), Verdict::Watch) = (clear_at, verdict) {
            let celsius = [6.0, 2.8, 3.5][at];
            assert_eq!(found[0].reasons, [Reason::ClearAndCalm { celsius }]);
        }
    }
}

/// Where the humidity is not known: 4.3 °C is what freezes a wet face in air of 40 % (the table above).
#[test]
fn a_night_whose_dryness_is_not_known_is_watched() {
    for (celsius, verdict, count) in [
        (5.0, Verdict::Safe, 0),
        (4.2, Verdict::Watch, 1),
        (-1.0, Verdict::Freezes, 1),
    ] {
        let night = hours(&[celsius], 1.0, Some(9.0), Some(1.0));
        let found = nights(&night, &care(Binder::Earth)).unwrap().remove(0);
        let found = found.with_dryness_unknown(STANDARD_PA).unwrap();
        assert_eq!((found.verdict(), found.reasons.len()), (verdict, count));
    }
}

#[test]
fn a_night_goes_from_noon_to_noon() {
    // From 18 o'clock on: 18 hours to noon, 24 to the next, 6 more.
    let mut celsius = [9.0; 48];
    celsius[17] = -1.0;
    celsius[18] = 1.0;
    celsius[43] = 2.0;
    let found = nights(
        &hours(&celsius, 0.95, Some(9.0), Some(1.0)),
        &care(Binder::Earth),
    )
    .unwrap();
    let lowest: Vec<(i8, f64)> = found
        .iter()
        .map(|n| (n.evening.day(), n.lowest_air))
        .collect();
    assert_eq!(lowest, [(1, -1.0), (2, 1.0), (3, 2.0)]);
    assert_eq!(found[0].reasons, [Reason::Air { celsius: -1.0 }]);
    assert_eq!(
        found.iter().map(Night::verdict).max(),
        Some(Verdict::Freezes)
    );
}

/// Sources beside each row of the table: 48 h above 40 °F, 72 h, weeks, and until it is dry.
#[test]
fn how_long_a_coat_is_kept_from_frost() {
    for (binder, dry_after, hours) in [
        (Binder::Earth, 200.0, 200.0),
        (Binder::Earth, 20.0, 20.0),
        (Binder::Cement, 20.0, 48.0),
        (Binder::Cement, 60.0, 60.0),
        (Binder::HydraulicLime, 20.0, 72.0),
        (Binder::AirLime, 20.0, 672.0),
    ] {
        near(
            &format!("{binder:?}"),
            care(binder).hours(dry_after),
            hours,
            1e-9,
        );
    }
    let hours = hours(&[5.0; 100], 0.9, None, None);
    for (binder, dry_after, count) in [
        (Binder::Earth, 20.2, 21),
        (Binder::Cement, 20.2, 48),
        (Binder::Earth, 0.0, 0),
        (Binder::AirLime, 20.2, 100),
    ] {
        let known = kept(&hours, &care(binder), dry_after);
        assert_eq!(known.len(), count, "{binder:?}");
    }
    // 40 °F in °C.
    near(
        "40 °F",
        care(Binder::Cement).least_air.unwrap(),
        (40.0 - 32.0) / 1.8,
        0.05,
    );
    assert!(CARES.iter().all(|care| !care.source.is_empty()));
}
