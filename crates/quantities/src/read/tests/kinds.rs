//! Spellings of every other kind. Expected numbers are worked from the exact definitions in NIST
//! Handbook 44, appendix C: ft³ 28 316 846.592 mm³, yd³ 764 554 857.984 mm³, US gal 3 785 411.784
//! mm³, lb 0.453 592 37 kg.

use crate::read::{Amount, Number};
use crate::typed::Measure;
use crate::units::{Angle, Area, Mass, MassDensity, Ratio, Volume};

/// The base value of a kind, for the checks below.
trait Base: Measure {
    fn base(&self) -> f64;
}

macro_rules! base {
    ($($kind:ty),*) => { $(impl Base for $kind { fn base(&self) -> f64 { self.value } })* };
}
base!(Area, Volume, Mass, MassDensity, Ratio, Angle);

impl Base for Number {
    fn base(&self) -> f64 {
        self.get()
    }
}

fn check<T: Base>(text: &str, expected: f64) {
    match T::read(text) {
        Ok(value) => {
            assert_eq!(
                value.base().to_bits(),
                expected.to_bits(),
                "{text}: {}",
                value.base()
            );
        }
        Err(misread) => panic!("{misread}"),
    }
}

fn refused<T: Measure>(text: &str, message: &str) {
    let misread = T::read(text).expect_err(text);
    assert_eq!(
        misread.to_string(),
        format!("'{text}' {message}; write {}", T::SPELLINGS)
    );
}

#[test]
fn areas() {
    for text in [
        "2 m2",
        "2 m²",
        "2m^2",
        "2 sq m",
        "2 sq. m.",
        "2 square metres",
        "2 Square Meters",
    ] {
        check::<Area>(text, 2e6);
    }
    for text in [
        "100 ft2",
        "100 ft²",
        "100 sq ft",
        "100 sq. ft.",
        "100sqft",
        "100 SF",
        "100 square feet",
    ] {
        check::<Area>(text, 9_290_304.0);
    }
    check::<Area>("1 sq yd", 836_127.36);
    check::<Area>("3 mm2", 3.0);
    check::<Area>("3 cm²", 300.0);
    check::<Area>("1 sq in", 645.16);
    check::<Area>("12' * 10'", 11_148_364.8);
    check::<Area>("2.5 m x 4 m", 1e7);
    check::<Area>("2 * (3' * 4')", 2_229_672.96);
    check::<Area>("1 ft2 3 in2", 94_838.52);
    check::<Area>("1,200 ft2", 111_483_648.0);
    check::<Area>("0", 0.0);
    refused::<Area>("12'", "is a length, not an area");
    refused::<Area>("12", "has no unit");
    refused::<Area>("1,200 m2", "can be read as 1.200 m² or as 1200 m²");
    refused::<Area>("3 sq", "has the unknown unit 'sq' (did you mean ft²?)");
    refused::<Area>("3 acre", "is not an area");
}

#[test]
fn volumes() {
    for text in [
        "1 yd3",
        "1 yd³",
        "1 cu yd",
        "1 cu. yd.",
        "1 CY",
        "1 cubic yard",
        "27 ft3",
        "27 cf",
    ] {
        check::<Volume>(text, 764_554_857.984);
    }
    for text in [
        "1 gal",
        "1 gallon",
        "1 US gal",
        "231 in3",
        "4 qt",
        "8 pt",
        "16 cups",
        "128 fl oz",
    ] {
        check::<Volume>(text, 3_785_411.784);
    }
    for text in [
        "1 m3",
        "1 m³",
        "1 cu m",
        "1000 L",
        "1000 l",
        "1000 litres",
        "1000 liter",
        "1 cubic metre",
    ] {
        check::<Volume>(text, 1e9);
    }
    check::<Volume>("1 imp gal", 4_546_090.0);
    check::<Volume>("1 imperial gallon", 4_546_090.0);
    check::<Volume>("250 ml", 250_000.0);
    check::<Volume>("250 cc", 250_000.0);
    check::<Volume>("3.5 cu ft", 99_108_963.072);
    check::<Volume>("1 gal 2 qt", 5_678_117.676);
    check::<Volume>("12' * 9' * 1/2\"", 127_425_809.664);
    check::<Volume>("100 ft2 * 1 in", 235_973_721.6);
    refused::<Volume>("3 ft2", "is an area, not a volume");
    refused::<Volume>(
        "3 galon",
        "has the unknown unit 'galon' (did you mean gal?)",
    );
    refused::<Volume>(
        "3 gallon 1 L",
        "has gal and L side by side: join them with +",
    );
}

#[test]
fn masses() {
    check::<Mass>("50 lb", 22.679_618_5);
    check::<Mass>("50 lbs", 22.679_618_5);
    check::<Mass>("50 pounds", 22.679_618_5);
    check::<Mass>("16 oz", 0.453_592_37);
    check::<Mass>("2 lb 8 oz", 1.133_980_925);
    check::<Mass>("25 kg", 25.0);
    check::<Mass>("500 g", 0.5);
    check::<Mass>("1 kg 500 g", 1.5);
    check::<Mass>("1 t", 1000.0);
    check::<Mass>("1 tonne", 1000.0);
    check::<Mass>("1 metric ton", 1000.0);
    check::<Mass>("1 ton", 907.184_74);
    check::<Mass>("1 short ton", 907.184_74);
    check::<Mass>("2,000 lb", 907.184_74);
    check::<Mass>("90 lb/ft3 * 1 yd3", 1_102.229_459_1);
    refused::<Mass>("2 m", "is a length, not a mass");
    refused::<Mass>("2,000 kg", "can be read as 2.000 kg or as 2000 kg");
    refused::<Mass>("2 lb 20 oz", "has 16 oz or more after a number in lb");
    refused::<Mass>("3 kgg", "has the unknown unit 'kgg' (did you mean kg?)");
}

#[test]
fn densities() {
    check::<MassDensity>("1442 kg/m3", 1442e-9);
    check::<MassDensity>("1442 kg/m³", 1442e-9);
    check::<MassDensity>("1442 kg per m3", 1442e-9);
    check::<MassDensity>("1442 kg per cubic metre", 1442e-9);
    check::<MassDensity>("1.442 kg/L", 1442e-9);
    check::<MassDensity>("1442 g/L", 1442e-9);
    check::<MassDensity>("1.442 g/cm3", 1442e-9);
    check::<MassDensity>("1.442 t/m3", 1442e-9);
    // Quotients of whole numbers, which `f64` holds exactly: 45 359 237 × 10⁻⁸ kg over mm³.
    check::<MassDensity>("1 lb/ft3", 45_359_237.0 / 2_831_684_659_200_000.0);
    check::<MassDensity>("1 pcf", 45_359_237.0 / 2_831_684_659_200_000.0);
    check::<MassDensity>("27 lb/yd3", 45_359_237.0 / 2_831_684_659_200_000.0);
    check::<MassDensity>("27 lb / 1 cu yd", 45_359_237.0 / 2_831_684_659_200_000.0);
    check::<MassDensity>("231 lb/gal", 45_359_237.0 / 1_638_706_400_000.0);
    check::<MassDensity>("16 oz/gal", 45_359_237.0 / 378_541_178_400_000.0);
    check::<MassDensity>(
        "8 oz/gal + 1/2 lb/gal",
        45_359_237.0 / 378_541_178_400_000.0,
    );
    refused::<MassDensity>("50 kg", "is a mass, not a mass per volume");
    refused::<MassDensity>("50 kg/m2", "is not a mass per volume");
    refused::<MassDensity>("50 kg/m4", "is not a mass per volume");
    refused::<MassDensity>("50 kg/", "is not a mass per volume");
    refused::<MassDensity>("50 kh/m3", "has the unknown unit 'kh' (did you mean kg?)");
    refused::<MassDensity>("kg/m3", "has the unit kg with no number before it");
}

#[test]
fn ratios() {
    check::<Ratio>("22 %", 0.22);
    check::<Ratio>("22%", 0.22);
    check::<Ratio>("22 percent", 0.22);
    check::<Ratio>("2,5 %", 0.025);
    check::<Ratio>("12 1/2 %", 0.125);
    check::<Ratio>("150 %", 1.5);
    check::<Ratio>("0.22", 0.22);
    check::<Ratio>("1/4", 0.25);
    check::<Ratio>("¼", 0.25);
    check::<Ratio>("0", 0.0);
    check::<Ratio>("3 kg / 12 kg", 0.25);
    check::<Ratio>("3 m / 1 m", 3.0);
    check::<Ratio>("-5 %", -0.05);
    refused::<Ratio>("22", "can be read as 22 % or as 2200 %");
    refused::<Ratio>("1", "can be read as 1 % or as 100 %");
    refused::<Ratio>("3/2", "can be read as 1.5 % or as 150 %");
    refused::<Ratio>("22 kg", "is a mass, not a percentage");
    refused::<Ratio>("1:4", "is not a percentage");
    refused::<Ratio>(
        "22 percnt",
        "has the unknown unit 'percnt' (did you mean %?)",
    );
}

#[test]
fn angles() {
    use core::f64::consts::{FRAC_PI_2, PI};
    check::<Angle>("90 deg", FRAC_PI_2);
    check::<Angle>("90°", FRAC_PI_2);
    check::<Angle>("90 degrees", FRAC_PI_2);
    check::<Angle>("180º", PI);
    check::<Angle>("360 deg / 4", FRAC_PI_2);
    check::<Angle>("0.35 rad", 0.35);
    check::<Angle>("0", 0.0);
    refused::<Angle>("20", "has no unit");
    refused::<Angle>("20° 30'", "has ° and ft side by side: join them with +");
    refused::<Angle>("20 dge", "has the unknown unit 'dge' (did you mean °?)");
}

#[test]
fn numbers() {
    check::<Number>("7", 7.0);
    check::<Number>("2.5", 2.5);
    check::<Number>("2,5", 2.5);
    check::<Number>("1 1/2", 1.5);
    check::<Number>("1½", 1.5);
    check::<Number>("3/2", 1.5);
    check::<Number>("2 * 3.5", 7.0);
    check::<Number>("-1", -1.0);
    check::<Number>("12 - 6", 6.0);
    check::<Number>("12-6", 6.0);
    refused::<Number>("1-1/2", "can be read as 1 1/2 or as 1 less 1/2");
    refused::<Number>("1,234", "can be read as 1.234 or as 1234");
    refused::<Number>("7 kg", "is a mass, not a number");
    refused::<Number>("7 %", "has a unit");
    refused::<Number>("7 parts", "is not a number");
    refused::<Number>("", "is not a number");
    assert_eq!(Number::new(f64::NAN), None);
}

#[test]
fn amounts() {
    fn packages(text: &str, count: f64, name: &str) {
        assert_eq!(
            Amount::read(text).unwrap(),
            Amount::Packages {
                count,
                name: name.into()
            }
        );
    }
    packages("2 bale", 2.0, "bale");
    packages(" 3 tipped load ", 3.0, "tipped load");
    packages("2 1/2 bulk bag", 2.5, "bulk bag");
    packages("½ bale", 0.5, "bale");
    packages("1 tonne bag", 1.0, "tonne bag");
    packages("2 bucket, 5 gal", 2.0, "bucket, 5 gal");
    packages("4 x-bag", 4.0, "x-bag");
    assert_eq!(
        Amount::read("0 yd3").unwrap(),
        Amount::Volume(Volume::default())
    );
    assert_eq!(
        Amount::read("40 lb").unwrap(),
        Amount::Mass(Mass::read("40 lb").unwrap())
    );
    assert_eq!(
        Amount::read("3 cup").unwrap(),
        Amount::Volume(Volume::read("3 cup").unwrap())
    );
    refused::<Amount>("2", "has neither a unit nor a package");
    refused::<Amount>("12'", "is a length, not an amount");
    refused::<Amount>("50 kg/m3", "is a mass per volume, not an amount");
    refused::<Amount>("5 lb 20 oz", "has 16 oz or more after a number in lb");
    refused::<Amount>("1,500 kg", "can be read as 1.500 kg or as 1500 kg");
    refused::<Amount>("bale", "is not an amount");
    refused::<Amount>("", "is not an amount");
    refused::<Amount>("1,500 bale", "can be read as 1.500 or as 1500");
}
