//! How long coats dry, against closed forms. Not here: weather.

use crate::{air, near};
use hodful_air::drying::{Band, Coat, Origin, RULES, band, hours_until, mixing_water_kg_m2};
use hodful_air::wall::wet_face;

/// Geankoplis, Transport Processes and Separation Process Principles, examples 9.7-1 and 9.7-2 (from memory): 399 kg of
/// dry solid on 18.58 m², water from 0.38 to 0.04 kg for each kg, critical at 0.195, 1.51 kg/(m²·h). The steady part
/// takes 2.63 h, and the falling one, as a straight line through the origin, 4.39 h.
#[test]
fn the_two_periods_of_a_textbook() {
    let (solid, rate) = (399.0 / 18.58, 1.51);
    let hours = |left: f64| {
        let coat = Coat::new(0.38 * solid, 0.195 / 0.38, left * solid).unwrap();
        hours_until(coat.needed_kg_m2(), std::iter::repeat_n(rate, 100)).unwrap()
    };
    near("steady", hours(0.195), 2.63, 0.006);
    near("falling", hours(0.04) - hours(0.195), 4.39, 0.006);
}

#[test]
fn a_steady_rate_alone() {
    let coat = Coat::new(5.0, 0.0, 0.5).unwrap();
    near("needed", coat.needed_kg_m2(), 4.5, 1e-12);
    near("left", coat.water_left_kg_m2(4.5), 0.5, 1e-12);
    // All of it falling: w = w₀·exp(−R·t / w₀).
    let coat = Coat::new(5.0, 1.0, 0.5).unwrap();
    near("needed", coat.needed_kg_m2(), 5.0 * libm::log(10.0), 1e-12);
    near("share", coat.share_of_wet(2.5), 0.5, 1e-12);
}

/// Changing weather: the same as tiny steps of `dw/dt = −R·min(1, w / w_c)`.
#[test]
fn weather_that_changes() {
    let coat = Coat::new(5.0, 0.4, 0.3).unwrap();
    let rate = |hour: usize| 0.02 + 0.03 * f64::from(u32::try_from(hour % 24).unwrap()) / 24.0;
    let steps = 2000;
    let (mut water, mut dry_at) = (5.0, None);
    for step in 0..steps * 400 {
        let r = rate(step / steps);
        water -= r * (water / 2.0_f64).min(1.0) / 2000.0;
        if water <= 0.3 {
            dry_at = Some(f64::from(u32::try_from(step + 1).unwrap()) / 2000.0);
            break;
        }
    }
    let found = hours_until(coat.needed_kg_m2(), (0..400).map(rate)).unwrap();
    near("hours", found, dry_at.unwrap(), 0.02);
}

/// Ten millimetres with 5 kg/m². In still air of 20 °C and 50 % 0.55 kg a day leave a wet face, in a draught 1.76 (worked
/// with `PsychroLib`): without a falling rate 9 and 2.8 days. The rules of thumb say 2 to 10 days.
#[test]
fn the_rules_of_thumb_hold_the_band() {
    let coat = Coat::of_mix(5.0, 17.0).unwrap();
    let days = |h: f64, record: f64| -> Band {
        let rate = wet_face(&air(20.0, 0.5), h, 0.0).kg_m2_h;
        band(&coat, 10.0, record, std::iter::repeat_n(rate, 24 * 60)).unwrap()
    };
    let still = days(2.5, 1.0);
    let of = |bound: Option<hodful_air::drying::Bound>| bound.unwrap().hours / 24.0;
    near("still, steady part", (5.0 - 1.5) / 0.55, 6.4, 0.05);
    assert!((9.0..13.0).contains(&of(still.likely)), "{still:?}");
    near("fast", of(still.fast), of(still.likely) / 1.4, 1e-9);
    near("slow", of(still.slow), of(still.likely) * 1.4, 1e-9);
    let draught = days(8.0, 1.0);
    assert!((2.8..4.5).contains(&of(draught.likely)), "{draught:?}");
    near("slow by the rule", of(draught.slow), 10.0, 1e-9);
    assert_eq!(draught.slow.unwrap().from, Origin::RuleOfThumb);
    assert_eq!(draught.likely.unwrap().from, Origin::Model);
    let gale = days(80.0, 1.0);
    near("fast by the rule", of(gale.fast), 2.0, 1e-9);
    assert_eq!(gale.fast.unwrap().from, Origin::RuleOfThumb);
    // Coats took half as long again: so will this one.
    near(
        "record",
        of(days(2.5, 1.5).likely),
        1.5 * of(still.likely),
        1e-9,
    );
}

#[test]
fn weather_that_does_not_suffice_says_so() {
    let coat = Coat::new(5.0, 0.3, 0.25).unwrap();
    let short = band(&coat, 10.0, 1.0, std::iter::repeat_n(0.05, 100)).unwrap();
    assert!(
        short.fast.is_some() && short.likely.is_none() && short.slow.is_none(),
        "{short:?}"
    );
    let none = band(&coat, 10.0, 1.0, [0.0, -1.0, f64::NAN]).unwrap();
    assert_eq!((none.fast, none.likely, none.slow), (None, None, None));
    // A storm: all in the first hour.
    let storm = band(&coat, 10.0, 1.0, [1000.0]).unwrap();
    assert!(storm.slow.is_some());
}

/// Five trade data sheets of dry bagged mixes: water and dry mix, m² and mm that they cover, and litres a m² and mm.
#[test]
fn mixing_water_of_data_sheets() {
    for (litres, square_metres, mm, expected) in [
        (8.0, 1.0, 14.0, 0.57),
        (6.5, 1.5, 6.5, 0.67),
        (6.5, 2.6, 4.5, 0.56),
        (10.0, 7.5, 2.0, 0.67),
    ] {
        near("L/(m²·mm)", litres / square_metres / mm, expected, 0.006);
        let water = mixing_water_kg_m2(mm, expected).unwrap();
        near("kg/m²", water, litres / square_metres, 0.01 * water);
    }
}

#[test]
fn rules_go_from_the_fastest() {
    assert!(
        RULES
            .iter()
            .all(|r| r.least_mm_day <= r.most_mm_day && !r.source.is_empty())
    );
    assert!(
        RULES
            .windows(2)
            .all(|p| p[0].most_mm_day >= p[1].most_mm_day)
    );
    // A month for 25 mm and a week for 5 mm are near the same.
    near("month", 25.0 / 30.0, 0.83, 0.005);
    near("week", 5.0 / 7.0, 0.71, 0.005);
}
