//! The table of units held against published factors and against another library.

use crate::read::table::{MOST_WORDS, find};
use crate::read::{Factor, Kind, UNITS, known_units};
use std::collections::HashSet;

fn base(spelling: &str) -> f64 {
    let unit = find(spelling).unwrap_or_else(|| panic!("no unit {spelling}"));
    #[allow(
        clippy::cast_precision_loss,
        reason = "every term of the table is below 2^53"
    )]
    match unit.factor {
        Factor::Exact(over, under) => over as f64 / under as f64,
        Factor::PiOver(under) => core::f64::consts::PI / under as f64,
    }
}

/// NIST Special Publication 811 (2008), appendix B.8, from memory; in metres, kilograms, radians,
/// with seven digits where the guide does not print an exact factor.
#[test]
fn factors_published_by_nist() {
    fn check(spelling: &str, base_in_si: f64, published: f64, exact: bool) {
        let ours = base(spelling) * base_in_si;
        let tolerance = if exact { 1e-15 } else { 5.1e-7 };
        assert!(
            (ours / published - 1.0).abs() < tolerance,
            "{spelling}: {ours} {published}"
        );
    }
    check("in", 1e-3, 2.54e-2, true);
    check("ft", 1e-3, 3.048e-1, true);
    check("yd", 1e-3, 9.144e-1, true);
    check("sq in", 1e-6, 6.4516e-4, true);
    check("sq ft", 1e-6, 9.290_304e-2, true);
    check("sq yd", 1e-6, 8.361_274e-1, false);
    check("cu in", 1e-9, 1.638_706e-5, false);
    check("cu ft", 1e-9, 2.831_685e-2, false);
    check("cu yd", 1e-9, 7.645_549e-1, false);
    check("fl oz", 1e-9, 2.957_353e-5, false);
    check("cup", 1e-9, 2.365_882e-4, false);
    check("pt", 1e-9, 4.731_765e-4, false);
    check("qt", 1e-9, 9.463_529e-4, false);
    check("gal", 1e-9, 3.785_412e-3, false);
    check("imp gal", 1e-9, 4.546_09e-3, true);
    check("litre", 1e-9, 1e-3, true);
    check("oz", 1.0, 2.834_952e-2, false);
    check("lb", 1.0, 4.535_924e-1, false);
    check("short ton", 1.0, 9.071_847e2, false);
    check("tonne", 1.0, 1e3, true);
    check("pcf", 1e9, 1.601_846e1, false);
    check("deg", 1.0, 1.745_329e-2, false);
}

/// The units library carries the same factors, rounded to seven digits, from the same guide.
#[test]
fn factors_of_another_library() {
    use crate::units::{Area, Length, Mass, Volume};
    use uom::si::{area, length, mass, volume};
    fn check(spelling: &str, theirs: f64) {
        let ours = base(spelling);
        assert!(
            (ours / theirs - 1.0).abs() < 5.1e-7,
            "{spelling}: {ours} {theirs}"
        );
    }
    check("cm", Length::new::<length::centimeter>(1.0).value);
    check("ft", Length::new::<length::foot>(1.0).value);
    check("yd", Length::new::<length::yard>(1.0).value);
    check("cm2", Area::new::<area::square_centimeter>(1.0).value);
    check("ft2", Area::new::<area::square_foot>(1.0).value);
    check("yd2", Area::new::<area::square_yard>(1.0).value);
    check("ml", Volume::new::<volume::milliliter>(1.0).value);
    check("ft3", Volume::new::<volume::cubic_foot>(1.0).value);
    check("yd3", Volume::new::<volume::cubic_yard>(1.0).value);
    check("fl oz", Volume::new::<volume::fluid_ounce>(1.0).value);
    check("cup", Volume::new::<volume::cup>(1.0).value);
    check("pt", Volume::new::<volume::pint_liquid>(1.0).value);
    check("qt", Volume::new::<volume::quart_liquid>(1.0).value);
    check("gal", Volume::new::<volume::gallon>(1.0).value);
    check("imp gal", Volume::new::<volume::gallon_imperial>(1.0).value);
    check("g", Mass::new::<mass::gram>(1.0).value);
    check("oz", Mass::new::<mass::ounce>(1.0).value);
    check("lb", Mass::new::<mass::pound>(1.0).value);
    check("ton", Mass::new::<mass::ton_short>(1.0).value);
    check("t", Mass::new::<mass::ton>(1.0).value);
}

#[test]
fn every_spelling_is_one_unit_and_can_be_typed() {
    let mut seen = HashSet::new();
    for unit in UNITS {
        for spelling in unit.spellings {
            assert!(seen.insert(*spelling), "{spelling} twice");
            assert_eq!(*spelling, spelling.to_lowercase());
            assert!(spelling.split(' ').count() <= MOST_WORDS, "{spelling}");
            let typed = format!("1 {spelling}");
            let value = crate::read::sum::evaluate(&typed, unit.kind, "it").expect(&typed);
            assert_eq!(value.value.to_bits(), base(spelling).to_bits(), "{typed}");
        }
        let typed = format!("1 {}", unit.symbol);
        assert!(
            crate::read::sum::evaluate(&typed, unit.kind, "it").is_ok(),
            "{typed}"
        );
    }
}

#[test]
fn the_known_units_in_words() {
    assert_eq!(known_units(Kind::Mass), "g, kg, t, oz, lb or short ton");
    assert_eq!(known_units(Kind::Ratio), "%");
}
