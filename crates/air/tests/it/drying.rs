//! How long coats dry, against closed forms. Not here: weather.

use crate::{air, near};
use hodful_air::drying::{
    Band, Bound, Coat, FAST_MM_DAY, MIDDLE_MM_DAY, Origin, RULES, Record, SLOW_MM_DAY, SPREAD,
    band, hours_until, mixing_water_kg_m2,
};
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
/// with `PsychroLib`): without a falling rate 9 and 2.8 days. The rules of thumb say 2 to 20 days.
#[test]
fn the_rules_of_thumb_hold_the_band() {
    let coat = Coat::of_mix(5.0, 17.0).unwrap();
    let days = |h: f64, model: f64| -> Band {
        let rate = wet_face(&air(20.0, 0.5), h, 0.0).kg_m2_h;
        let record = Record { model, rule: 1.0 };
        band(
            &coat,
            10.0,
            &record,
            0.0,
            std::iter::repeat_n(rate, 24 * 90),
        )
        .unwrap()
    };
    let of = |bound: Bound| bound.hours / 24.0;
    let likely = |band: &Band| of(band.likely.unwrap());
    let still = days(2.5, 1.0);
    near("still, steady part", (5.0 - 1.5) / 0.55, 6.4, 0.05);
    assert!((9.0..13.0).contains(&likely(&still)), "{still:?}");
    near("fast", of(still.fast), likely(&still) / SPREAD, 1e-9);
    near("slow by the rule", of(still.slow), 20.0, 1e-9);
    assert_eq!(still.slow.from, Origin::RuleOfThumb);
    assert_eq!(still.likely.unwrap().from, Origin::Model);
    // Damp: a third of that, so that the model decides all three.
    let damp = days(0.8, 1.0);
    near("slow", of(damp.slow), likely(&damp) * SPREAD, 1e-9);
    assert_eq!(damp.slow.from, Origin::Model);
    // A draught: a film would go in less than four days, a coat is told by the rule between.
    let draught = days(8.0, 1.0);
    near(
        "likely by the rule",
        likely(&draught),
        10.0 / MIDDLE_MM_DAY,
        1e-9,
    );
    assert_eq!(draught.likely.unwrap().from, Origin::RuleOfThumb);
    let gale = days(80.0, 1.0);
    near("fast by the rule", of(gale.fast), 2.0, 1e-9);
    assert_eq!(gale.fast.from, Origin::RuleOfThumb);
    // Coats took half as long again: so will this one.
    near(
        "record",
        likely(&days(2.5, 1.5)),
        1.5 * likely(&still),
        1e-9,
    );
}

/// The rules bracket what is published of clay: 15 mm in 3 days, and two days a millimetre; ours is their geometric
/// middle.
#[test]
fn the_rules_are_those_of_clay() {
    let clay = RULES.iter().filter(|rule| rule.what.starts_with("clay"));
    let ends = clay.map(|rule| (rule.least_mm_day, rule.most_mm_day));
    let (slow, fast) = ends
        .reduce(|of, other| (of.0.min(other.0), of.1.max(other.1)))
        .unwrap();
    near("slow", SLOW_MM_DAY, slow, 1e-12);
    near("fast", FAST_MM_DAY, fast, 1e-12);
    near("middle", MIDDLE_MM_DAY, (slow * fast).sqrt(), 0.002);
}

#[test]
fn weather_that_does_not_suffice_says_so() {
    // 3.5 kg while it is wet through, and 1.5·ln(1.5 / 0.25) = 2.69 of the falling part: 6.19 kg.
    let coat = Coat::new(5.0, 0.3, 0.25).unwrap();
    near("needed", coat.needed_kg_m2(), 6.19, 0.005);
    let rates = std::iter::repeat_n(0.0125, 400);
    let short = band(&coat, 10.0, &Record::NONE, 0.0, rates).unwrap();
    assert!(short.likely.is_none() && short.is_beyond, "{short:?}");
    // 5.0 of the 6.19 · 1.4 kg are gone in 400 hours; the rest is 42 % of 20 days.
    near(
        "slow",
        short.slow.hours,
        400.0 + (1.0 - 5.0 / 8.66) * 480.0,
        0.5,
    );
    near("fast", short.fast.hours, 6.19 / 1.4 / 0.0125, 0.5);
    for odd in [[0.0, -1.0, f64::NAN], [0.0; 3]] {
        let none = band(&coat, 10.0, &Record::NONE, 0.0, odd).unwrap();
        let hours = [none.fast.hours, none.slow.hours];
        assert_eq!((hours, none.likely), ([3.0 + 48.0, 3.0 + 480.0], None));
    }
    // A storm: all in the first hour.
    let storm = band(&coat, 10.0, &Record::NONE, 0.0, [1000.0]).unwrap();
    assert!(!storm.is_beyond);
    near("storm", storm.slow.hours, 480.0, 1e-9);
    // No hour at all: the rules of thumb.
    let nothing = band(&coat, 10.0, &Record::NONE, 0.0, []).unwrap();
    assert_eq!((nothing.fast.hours, nothing.slow.hours), (48.0, 480.0));
}

/// Ten days of which nothing is known are half of the slow rule of 20 days: with a frozen week after them the other
/// half comes after that week. By the fast rule it was dry before.
#[test]
fn hours_before_the_weather_count_by_the_rules() {
    let coat = Coat::new(5.0, 0.3, 0.25).unwrap();
    let found = band(&coat, 10.0, &Record::NONE, 240.0, [0.0; 7 * 24]).unwrap();
    near("fast", found.fast.hours, 48.0, 1e-9);
    near("slow", found.slow.hours / 24.0, 10.0 + 7.0 + 10.0, 1e-9);
    assert!(found.likely.is_none() && found.is_beyond);
    // A warm week instead: half of 8.66 kg at 0.05 kg an hour are 86.6 hours, and the rule of thumb is later.
    let warm = band(&coat, 10.0, &Record::NONE, 240.0, [0.05; 7 * 24]).unwrap();
    assert!(!warm.is_beyond);
    near("warm", warm.slow.hours, 480.0, 1e-9);
    let whole = band(&coat, 10.0, &Record::NONE, 600.0, [0.0; 24]).unwrap();
    near("long ago", whole.slow.hours, 480.0, 1e-9);
    assert!(!whole.is_beyond);
}

/// What coats took beside a rule of thumb moves the rules; a slow end no nearer.
#[test]
fn records_move_the_rules() {
    let coat = Coat::new(5.0, 0.3, 0.25).unwrap();
    let of = |rule: f64| {
        let record = Record { model: 1.0, rule };
        let band = band(&coat, 10.0, &record, 0.0, [1.0; 24]).unwrap();
        [band.fast, band.likely.unwrap(), band.slow].map(|bound| bound.hours)
    };
    let middle = 10.0 / MIDDLE_MM_DAY * 24.0;
    for (rule, wanted) in [
        (2.0, [96.0, 2.0 * middle, 960.0]),
        (0.5, [24.0, 0.5 * middle, 480.0]),
    ] {
        for (found, wanted) in of(rule).into_iter().zip(wanted) {
            near("hours", found, wanted, 1e-9);
        }
    }
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
