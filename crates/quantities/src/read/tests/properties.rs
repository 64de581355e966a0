//! Properties of the readers over made-up texts.

use crate::print::{self, UnitSystem, exact_length, feet_inches, formula, inches};
use crate::read::exact::{Big, Small};
use crate::read::fault::Fault;
use crate::read::lexer::cut;
use crate::read::table::Kind;
use crate::read::{Amount, Money, Number, UNITS, quick, sum};
use crate::typed::Measure;
use crate::units::{
    Angle, Area, Length, Mass, MassDensity, Ratio, Volume, angle_of_radians, area_of_mm2,
    density_of_kg_per_mm3, length_of_mm, mass_of_kg, ratio_of, volume_of_mm3,
};
use proptest::prelude::*;
use rust_decimal::Decimal;

fn every_reader(text: &str) {
    let shown = [
        Length::read(text).map(|_| ()),
        Area::read(text).map(|_| ()),
        Volume::read(text).map(|_| ()),
        Mass::read(text).map(|_| ()),
        MassDensity::read(text).map(|_| ()),
        Ratio::read(text).map(|_| ()),
        Angle::read(text).map(|_| ()),
        Number::read(text).map(|_| ()),
        Money::read(text).map(|_| ()),
        Amount::read(text).map(|_| ()),
    ];
    for misread in shown.into_iter().filter_map(Result::err) {
        assert!(misread.to_string().chars().all(|c| !c.is_control()));
    }
}

/// Texts made of the pieces that dimensions are made of.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        "[0-9]{1,4}",
        "[0-9]{1,3}[.,][0-9]{1,3}",
        "[0-9]{1,2}/[0-9]{1,2}",
        r#"['"′″ .,+*/()x×−-]"#,
        proptest::sample::select(vec![
            "½", "''", "²", "^3", " ", " ", "per", "\u{a0}", "$", "bale"
        ])
        .prop_map(str::to_owned),
        (0..UNITS.len(), any::<proptest::sample::Index>()).prop_map(|(row, at)| {
            UNITS
                .get(row)
                .map_or("", |unit| *at.get(unit.spellings))
                .to_owned()
        }),
    ];
    proptest::collection::vec(piece, 0..12).prop_map(|pieces| pieces.concat())
}

/// Sums, products and quotients of quantities, most of them sound.
fn sums() -> impl Strategy<Value = String> {
    let number = prop_oneof![
        "[1-9][0-9]{0,3}",
        "[0-9]{1,3}[.][0-9]{1,9}",
        "[1-9] [1-3]/[4-8]",
        "[0-9]{18,40}"
    ];
    let unit = proptest::sample::select(vec![
        "mm", "m", "ft", "in", "'", "\"", "m2", "lb", "L", "", "%",
    ]);
    let sign = proptest::sample::select(vec![" + ", " - ", " * ", " / ", "+", "/"]);
    proptest::collection::vec((number, unit, sign), 1..5).prop_map(|parts| {
        let joined = parts
            .iter()
            .flat_map(|(number, unit, sign)| [number, " ", unit, sign]);
        let joined: String = joined.collect();
        joined
            .trim_end_matches([' ', '+', '-', '*', '/'])
            .to_owned()
    })
}

fn small_is_big(text: &str) -> Result<(), TestCaseError> {
    let Ok(tokens) = cut(text, "it") else {
        return Ok(());
    };
    for kind in [Kind::Length, Kind::Mass] {
        let small = sum::evaluate_in::<Small>(&tokens, kind, "it");
        if small != Err(Fault::TooLarge) {
            prop_assert_eq!(
                small,
                sum::evaluate_in::<Big>(&tokens, kind, "it"),
                "{}",
                text
            );
        }
    }
    Ok(())
}

/// Lengths in the spellings the quick reader knows, and near misses.
fn common_lengths() -> impl Strategy<Value = String> {
    let number = || {
        prop_oneof![
            "[0-9]{1,4}",
            "[0-9]{1,3}[.][0-9]{1,3}",
            "[0-9]{1,2} [0-9]{1,2}/[0-9]{1,2}",
            "[0-9]{1,2}/[0-9]{1,2}"
        ]
    };
    let unit = proptest::sample::select(vec!["m", " mm", "cm", " in", "\"", "'", " ft", "", "' "]);
    let joint = proptest::sample::select(vec!["", " ", "-", " -", "  "]);
    let end = proptest::sample::select(vec!["\"", "", " in", "'"]);
    prop_oneof![
        (number(), unit).prop_map(|(number, unit)| format!("{number}{unit}")),
        (number(), joint, number(), end)
            .prop_map(|(feet, joint, inches, end)| format!("{feet}'{joint}{inches}{end}")),
    ]
}

fn quick_is_general(text: &str) -> Result<(), TestCaseError> {
    if let Some(quick) = quick::length(text) {
        let general = sum::read(text, Kind::Length, Length::WHAT);
        prop_assert_eq!(general.map(f64::to_bits), Ok(quick.to_bits()), "{}", text);
    }
    if let Some(quick) = quick::angle(text) {
        let general = sum::read(text, Kind::Angle, Angle::WHAT);
        prop_assert_eq!(general.map(f64::to_bits), Ok(quick.to_bits()), "{}", text);
    }
    Ok(())
}

/// Every tenth of a degree of a full turn, as the general reader with its 36 digits of pi has it.
#[test]
fn quick_angles() {
    for tenths in 0..=3600 {
        let text = format!("{}.{} deg", tenths / 10, tenths % 10);
        assert!(quick::angle(&text).is_some());
        quick_is_general(&text).unwrap();
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn no_text_panics(text in any::<String>()) {
        every_reader(&text);
    }

    #[test]
    fn no_text_of_likely_pieces_panics(text in pieces()) {
        every_reader(&text);
    }

    #[test]
    fn the_quick_reader_gives_what_the_general_one_gives(text in common_lengths()) {
        quick_is_general(&text)?;
    }

    #[test]
    fn the_quick_reader_takes_nothing_the_general_one_refuses(text in pieces()) {
        quick_is_general(&text)?;
    }

    #[test]
    fn quick_degrees(number in "[0-9]{1,8}|[0-9]{1,4}[.][0-9]{1,9}|[0-9]{1,3}/[0-9]{1,3}") {
        quick_is_general(&format!("{number}°"))?;
    }

    #[test]
    fn the_quick_reader_over_short_texts(text in r#"[0-9'"/ .,incmft-]{1,9}"#) {
        quick_is_general(&text)?;
    }

    #[test]
    fn numbers_with_little_room_give_what_those_with_all_room_give(text in pieces()) {
        small_is_big(&text)?;
    }

    #[test]
    fn little_room_and_all_room_in_sums(text in sums()) {
        every_reader(&text);
        small_is_big(&text)?;
    }

    /// The oracle is the language's own correctly rounding reader of decimal numbers.
    #[test]
    fn decimal_millimetres_are_read_as_the_language_reads_them(digits in "[0-9]{1,25}[.][0-9]{1,25}") {
        let expected: f64 = digits.parse().unwrap();
        let read = Length::read(&format!("{digits} mm")).unwrap().value;
        prop_assert_eq!(read.to_bits(), expected.to_bits());
    }

    /// Worked in whole numbers: sixteenths of an inch are 127/80 mm.
    #[test]
    fn feet_inches_and_sixteenths(feet in 0..1000_u32, inches in 0..12_u32, part in 0..16_u32) {
        let text = format!("{feet}' {inches} {part}/16\"");
        let expected = f64::from((feet * 12 + inches) * 16 + part) * 127.0 / 80.0;
        prop_assert_eq!(Length::read(&text).unwrap().value.to_bits(), expected.to_bits());
        // Printed and read again it is the same, as it is a whole number of sixteenths.
        let printed = feet_inches(length_of_mm(expected));
        prop_assert_eq!(Length::read(&printed).unwrap().value.to_bits(), expected.to_bits(), "{}", printed);
        let printed = print::inches(length_of_mm(expected));
        prop_assert_eq!(Length::read(&printed).unwrap().value.to_bits(), expected.to_bits(), "{}", printed);
    }

    #[test]
    fn an_exact_spelling_is_exact(mm in prop_oneof![-1e6..1e6_f64, any::<i32>().prop_map(f64::from), any::<f32>().prop_map(f64::from)]) {
        prop_assume!(mm.is_finite());
        for system in [UnitSystem::Us, UnitSystem::Metric] {
            let text = exact_length(length_of_mm(mm), system);
            let back = Length::read(&text).unwrap().value;
            // Zero loses its sign.
            prop_assert!(back.to_bits() == mm.to_bits() || mm == 0.0, "{} {}", text, mm);
        }
    }

    #[test]
    fn what_is_printed_is_read_back(value in -1e6..1e6_f64) {
        fn within<T: Measure>(text: &str, base: impl Fn(T) -> f64, value: f64, half: f64) {
            let back = base(T::read(text).unwrap_or_else(|misread| panic!("{misread}")));
            // The slack is for the noise of conversion, a few units in the 15th digit.
            assert!((back - value).abs() <= half + value.abs() * 1e-13, "{text}: {back} {value}");
        }
        for system in [UnitSystem::Us, UnitSystem::Metric] {
            let us = system == UnitSystem::Us;
            let half = |in_us: f64, in_metric: f64| 0.5 * if us { in_us } else { in_metric };
            let length = |l: Length| l.value;
            let text = |figure: print::Figure| figure.to_string();
            within(&text(print::length(length_of_mm(value), system)), length, value, half(25.4 / 16.0, 1.0));
            within(&text(print::thickness(length_of_mm(value), system)), length, value, half(25.4 / 16.0, 0.1));
            within(&text(print::area(area_of_mm2(value * 1e3), system)), |a: Area| a.value, value * 1e3, half(9290.304, 1e4));
            within(&text(print::volume(volume_of_mm3(value * 1e6), system)), |v: Volume| v.value, value * 1e6, half(2_831_684.659_2, 1e6));
            within(&text(print::bulk_volume(volume_of_mm3(value * 1e6), system)), |v: Volume| v.value, value * 1e6, half(7_645_548.579_84, 1e7));
            within(&text(print::mass(mass_of_kg(value), system)), |m: Mass| m.value, value, half(0.045_359_237, 0.1));
            within(&text(print::density(density_of_kg_per_mm3(value * 1e-9), system)), |d: MassDensity| d.value, value * 1e-9, half(1.601_846_4e-9, 1e-9));
            within(&text(print::dose(density_of_kg_per_mm3(value * 1e-9), system)), |d: MassDensity| d.value, value * 1e-9, half(0.059_327_65e-9, 1e-10));
            within(&text(print::percentage(ratio_of(value), system)), |r: Ratio| r.value, value, 0.0005);
            within(&text(print::angle(angle_of_radians(value), system)), |a: Angle| a.value, value, 0.001);
            let six = value.abs() * 5e-6;
            within(&text(formula::length(length_of_mm(value), system)), length, value, six);
            within(&text(formula::area(area_of_mm2(value), system)), |a: Area| a.value, value, six);
            within(&text(formula::volume(volume_of_mm3(value), system)), |v: Volume| v.value, value, six);
            within(&text(formula::mass(mass_of_kg(value), system)), |m: Mass| m.value, value, six);
            within(&text(formula::density(density_of_kg_per_mm3(value * 1e-9), system)), |d: MassDensity| d.value, value * 1e-9, six * 1e-9);
            within(&text(formula::number(value)), Number::get, value, six);
        }
    }

    #[test]
    fn money_is_read_back_exactly(cents in 0..10_000_000_000_i64, places in 0..5_u32) {
        let money = Money::new(Decimal::new(cents, places)).unwrap();
        for system in [UnitSystem::Us, UnitSystem::Metric] {
            let text = print::money(money, system).to_string();
            prop_assert_eq!(Money::read(&text).unwrap(), money, "{}", text);
        }
    }

    #[test]
    fn inches_are_never_feet(mm in 0.0..1e6_f64) {
        prop_assert!(!inches(length_of_mm(mm)).contains('\''));
    }
}
