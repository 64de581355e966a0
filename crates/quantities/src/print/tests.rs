//! Printed figures as a whole. Expected figures are worked by hand from 1 in = 25.4 mm, 1 lb =
//! 0.453 592 37 kg (NIST Handbook 44, appendix C).

use super::*;
use crate::typed::Measure;
use crate::units::{angle_of_radians, length_of_mm, ratio_of};
use proptest::prelude::*;

fn read<T: Measure>(text: &str) -> T {
    T::read(text).unwrap_or_else(|misread| panic!("{misread}"))
}

#[test]
fn feet_inches_and_fractions() {
    fn check(mm: f64, feet: &str, only_inches: &str) {
        assert_eq!(feet_inches(length_of_mm(mm)), feet, "{mm}");
        assert_eq!(inches(length_of_mm(mm)), only_inches, "{mm}");
    }
    check(0.0, "0\"", "0\"");
    check(3822.7, "12' 6 1/2\"", "150 1/2\"");
    check(-3822.7, "-12' 6 1/2\"", "-150 1/2\"");
    check(3657.6, "12'", "144\"");
    check(3670.3, "12' 1/2\"", "144 1/2\"");
    check(3810.0, "12' 6\"", "150\"");
    check(12.7, "1/2\"", "1/2\"");
    check(25.4, "1\"", "1\"");
    check(9.525, "3/8\"", "3/8\"");
    check(1.5875, "1/16\"", "1/16\"");
    // 685 mm is 26.9685 in, 26 and 15.496 sixteenths; 686 mm is 27.0079 in.
    check(685.0, "2' 2 15/16\"", "26 15/16\"");
    check(686.0, "2' 3\"", "27\"");
    // Half a sixteenth is 0.793 75 mm: a tie, away from zero.
    check(0.793_75, "1/16\"", "1/16\"");
    check(-0.793_75, "-1/16\"", "-1/16\"");
    check(0.793, "0\"", "0\"");
    check(-0.793, "0\"", "0\"");
    // 11 15/16 and a little: the inch carries into the foot.
    check(304.7, "1'", "12\"");
    check(376_123.2, "1,234'", "14808\"");
    check(f64::NAN, "?", "?");
    check(f64::INFINITY, "?", "?");
    check(
        3.048e18,
        "10,000,000,000,000,000'",
        "10,000,000,000,000,000'",
    );
}

#[test]
fn figures() {
    fn check(print: impl Fn(UnitSystem) -> Figure, us: &str, metric: &str) {
        assert_eq!(print(UnitSystem::Us).to_string(), us);
        assert_eq!(print(UnitSystem::Metric).to_string(), metric);
    }
    check(|s| length(read("12' 6 1/2\""), s), "12' 6 1/2\"", "3.823 m");
    check(
        |s| length(read("1234 m"), s),
        "4,048' 6 11/16\"",
        "1\u{a0}234.000 m",
    );
    check(|s| thickness(read("1/2 in"), s), "1/2\"", "12.7 mm");
    check(|s| thickness(read("20 mm"), s), "13/16\"", "20.0 mm");
    check(|s| area(read("1234.56 ft2"), s), "1,234.6 ft²", "114.69 m²");
    check(|s| volume(read("3.5 ft3"), s), "3.5 ft³", "99 L");
    check(|s| volume(read("2 m3"), s), "70.6 ft³", "2\u{a0}000 L");
    check(|s| bulk_volume(read("5 yd3"), s), "5.00 yd³", "3.82 m³");
    check(|s| mass(read("50 lb"), s), "50.0 lb", "22.7 kg");
    check(|s| mass(read("1 short ton"), s), "2,000.0 lb", "907.2 kg");
    check(
        |s| density(read("90 lb/ft3"), s),
        "90.0 lb/ft³",
        "1\u{a0}442 kg/m³",
    );
    check(|s| dose(read("50 kg/m3"), s), "84.3 lb/yd³", "50.0 kg/m³");
    check(|s| percentage(ratio_of(0.22), s), "22.0 %", "22.0 %");
    check(|s| angle(read("20 deg"), s), "20.0°", "20.0°");
    check(
        |s| angle(angle_of_radians(core::f64::consts::PI), s),
        "180.0°",
        "180.0°",
    );
    check(|s| money(read("1240"), s), "1,240.00", "1\u{a0}240.00");
    check(|s| money(read("0.0375"), s), "0.0375", "0.0375");
    check(|s| count(1234, s), "1,234", "1\u{a0}234");
    check(
        |s| count(u64::MAX, s),
        "18,446,744,073,709,551,615",
        "18\u{a0}446\u{a0}744\u{a0}073\u{a0}709\u{a0}551\u{a0}615",
    );
    check(
        |s| mass(crate::units::mass_of_kg(f64::NAN), s),
        "? lb",
        "? kg",
    );
}

#[test]
fn the_largest_price_prints() {
    let most = Money::new(rust_decimal::Decimal::MAX).unwrap();
    assert_eq!(
        money(most, UnitSystem::Us).to_string(),
        "79,228,162,514,264,337,593,543,950,335"
    );
}

#[test]
fn a_figure_can_be_padded() {
    let figure = mass(read("50 lb"), UnitSystem::Us);
    assert_eq!(
        format!("{figure:>9}|{:<6}|", figure.digits),
        "  50.0 lb|50.0  |"
    );
}

#[test]
fn formula_figures() {
    fn check(print: impl Fn(UnitSystem) -> Figure, us: &str, metric: &str) {
        assert_eq!(print(UnitSystem::Us).to_string(), us);
        assert_eq!(print(UnitSystem::Metric).to_string(), metric);
    }
    check(
        |s| formula::length(read("12' 6 1/2\""), s),
        "12.5417 ft",
        "3.8227 m",
    );
    check(
        |s| formula::area(read("324 ft2"), s),
        "324 ft²",
        "30.1006 m²",
    );
    check(
        |s| formula::volume(read("1 yd3"), s),
        "27 ft³",
        "0.764555 m³",
    );
    check(|s| formula::mass(read("50 lb"), s), "50 lb", "22.6796 kg");
    check(
        |s| formula::density(read("1442 kg/m3"), s),
        "90.0211 lb/ft³",
        "1442 kg/m³",
    );
    assert_eq!(formula::ratio(ratio_of(0.22)).to_string(), "0.22");
    assert_eq!(formula::number(12_345_678.9).to_string(), "12345679");
}

proptest! {
    /// Worked on a calculator, from the printed digits alone: width × height × thickness.
    #[test]
    fn a_printed_formula_can_be_worked(
        width in 100.0..50_000.0_f64,
        height in 100.0..10_000.0_f64,
        thick in 1.0..100.0_f64,
    ) {
        let [w, h, t] = [width, height, thick].map(length_of_mm);
        for system in [UnitSystem::Us, UnitSystem::Metric] {
            let digits = |figure: Figure| figure.digits.parse::<f64>().unwrap();
            let worked = digits(formula::length(w, system))
                * digits(formula::length(h, system))
                * digits(formula::length(t, system));
            let printed = digits(formula::volume(w * h * t, system));
            // Each of the four figures is within half a unit of its sixth digit, 5e-6 of its value.
            prop_assert!((worked / printed - 1.0).abs() < 4.0 * 5e-6 * 1.001, "{} {}", worked, printed);
        }
    }
}
