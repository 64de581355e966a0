//! What holds of any air, wall, coat and room. Not here: single figures.

use hodful_air::Air;
use hodful_air::drying::{Coat, Record, band, hours_until};
use hodful_air::film::{FORMULAS, film_kg_m2_h};
use hodful_air::room::{Room, Spell, WetWalls};
use hodful_air::wall::wet_face;
use proptest::prelude::*;

fn any_air() -> impl Strategy<Value = Air> {
    (-60.0..80.0_f64, 0.0..=1.0_f64, 30_000.0..120_000.0_f64)
        .prop_filter_map("boils", |(t, humidity, pa)| Air::new(t, humidity, pa).ok())
}

fn any_wind() -> impl Strategy<Value = f64> {
    prop_oneof![9 => -1e6..1e6_f64, 1 => Just(f64::NAN)]
}

proptest! {
    /// Dew point, wet bulb and dry bulb are in this order, and the face of a wall in the shade is the wet bulb.
    #[test]
    fn temperatures_are_in_order(air in any_air(), h in 0.1..50.0_f64) {
        let (dry, wet, water) = (air.dry_bulb(), air.wet_bulb(), air.wet_bulb_over_water());
        prop_assert!(wet <= dry + 1e-6 && water <= dry + 1e-6, "{wet} {water} {dry}");
        if let Some(dew) = air.dew_point() {
            // A wet bulb over water that should be ice is a little below the dew point in nearly full air.
            prop_assert!(dew <= wet + 1e-3, "{dew} {wet}");
        }
        prop_assert_eq!(water >= 0.0, wet >= 0.0);
        prop_assert!((wet_face(&air, h, 0.0).celsius - water).abs() < 1e-9);
    }

    /// Vapour that is put in comes out again, and air cooled to its dew point is full.
    #[test]
    fn vapour_goes_there_and_back(air in any_air()) {
        let again = Air::with_vapour(air.dry_bulb(), air.vapour_kg_m3(), air.pressure_pa()).unwrap();
        prop_assert!((again.humidity() - air.humidity()).abs() < 1e-9);
        if let Some(dew) = air.dew_point().filter(|dew| *dew >= -60.0) {
            prop_assert!((air.at(dew).unwrap().humidity() - 1.0).abs() < 1e-3);
        }
    }

    /// More sun dries faster and warms; damper air dries more slowly.
    #[test]
    fn drying_rises_with_sun_and_dry_air(
        t in -10.0..45.0_f64, damp in 0.05..1.0_f64, drier in 0.0..1.0_f64,
        h in 1.0..40.0_f64, sun in 0.0..800.0_f64, more in 1.0..200.0_f64,
    ) {
        let at = |humidity: f64| Air::new(t, humidity, 101_325.0).unwrap();
        let face = wet_face(&at(damp), h, sun);
        let sunnier = wet_face(&at(damp), h, sun + more);
        prop_assert!(sunnier.kg_m2_h > face.kg_m2_h && sunnier.celsius > face.celsius);
        let dry = wet_face(&at(damp * drier), h, sun);
        prop_assert!(dry.kg_m2_h >= face.kg_m2_h - 1e-9 && dry.celsius <= face.celsius + 1e-6);
    }

    /// Films give a figure of 0 or more for whatever wind.
    #[test]
    fn films_never_take_up_water(air in any_air(), film in -100.0..150.0_f64, wind in any_wind()) {
        for formula in FORMULAS {
            let rate = film_kg_m2_h(formula, film, &air, wind);
            prop_assert!(rate >= 0.0 && rate.is_finite(), "{formula:?} {rate}");
        }
    }

    /// After the time it takes to dry, what is left is what was to be left.
    #[test]
    fn a_dry_coat_holds_what_it_should(free in 0.5..40.0_f64, critical in 0.0..=1.0_f64, left in 0.001..0.9_f64) {
        let coat = Coat::new(free, critical, left * free).unwrap();
        prop_assert!((coat.water_left_kg_m2(coat.needed_kg_m2()) - left * free).abs() < 1e-9 * free);
        // It takes at least as long as at the full rate.
        prop_assert!(coat.needed_kg_m2() >= free * (1.0 - left) - 1e-9);
    }

    /// The band is in order, its likely end is that of the plain sum when the rule of thumb is out of the way, and no
    /// end lies within known hours that do not suffice for it.
    #[test]
    fn bands_are_in_order(
        free in 0.5..40.0_f64, mm in 0.1..60.0_f64, model in 0.3..3.0_f64, rule in 0.3..3.0_f64,
        before in prop_oneof![Just(0.0), 0.0..600.0_f64],
        rates in proptest::collection::vec(-0.1..0.6_f64, 0..400),
    ) {
        let coat = Coat::new(free, 0.3, 0.05 * free).unwrap();
        let band = band(&coat, mm, &Record { model, rule }, before, rates.iter().copied()).unwrap();
        let (fast, slow) = (band.fast.hours, band.slow.hours);
        prop_assert!(fast <= slow, "{fast} {slow}");
        prop_assert!(slow >= mm / 0.5 * 24.0 - 1e-9);
        let known = f64::from(u32::try_from(rates.len()).unwrap());
        prop_assert!(!band.is_beyond || slow >= before + known);
        if before > 0.0 {
            prop_assert!(band.likely.is_none());
            return Ok(());
        }
        let plain = hours_until(coat.needed_kg_m2() * model, rates);
        prop_assert_eq!(plain.is_some(), band.likely.is_some());
        if let (Some(plain), Some(likely)) = (plain, band.likely) {
            prop_assert!((likely.hours - plain.max(rule * mm / 1.58 * 24.0)).abs() < 1e-6);
            prop_assert!(fast <= likely.hours && likely.hours <= slow, "{fast} {} {slow}", likely.hours);
        }
    }

    /// Two spells one after the other are one spell, also when the water runs out in between.
    #[test]
    fn time_can_be_cut(
        volume in 5.0..500.0_f64, n in 0.0..30.0_f64, outside in 0.0..0.02_f64, from in 0.0..0.03_f64,
        given in 0.0..3.0_f64, area in 0.0..200.0_f64, beta in 0.0..30.0_f64, full in 0.02..0.04_f64,
        a in 0.0..5.0_f64, b in 0.0..5.0_f64, left in 0.0..20.0_f64,
    ) {
        let room = Room::new(volume, n).unwrap();
        // As damp as the walls can make it at the most, so that they never take up dew.
        let walls = WetWalls { area_m2: area, beta_m_h: beta, full_kg_m3: full };
        let spell = Spell { outside_kg_m3: outside, given_kg_h: given * n * volume * 0.001, walls };
        let from = from.min(full);
        let (once, gave) = room.with_walls(from, &spell, a + b, left);
        let (half, first) = room.with_walls(from, &spell, a, left);
        let (twice, second) = room.with_walls(half, &spell, b, left - first);
        if first >= 0.0 && second >= 0.0 {
            prop_assert!((once - twice).abs() < 1e-8, "{once} {twice}");
            prop_assert!((gave - first - second).abs() < 1e-6, "{gave} {first} {second}");
        }
    }
}
