//! Any text, put to every reader of typed values: none panics, what is read is finite, and a length
//! written out exactly reads back to the same bits. Not here: project files.
//!
//! `RUSTC_BOOTSTRAP=1 cargo fuzz run -s none dimension_reader -- -max_total_time=20`

#![no_main]

use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::read::{Amount, Money, Number};
use hodful_quantities::units::{Angle, Area, Length, Mass, MassDensity, Ratio, Volume};
use hodful_quantities::{Measure, Misread};
use libfuzzer_sys::fuzz_target;

const SYSTEMS: [UnitSystem; 2] = [UnitSystem::Us, UnitSystem::Metric];

/// The value, if the text is one; a refusal must have words.
fn sound<T>(read: Result<T, Misread>) -> Option<T> {
    read.inspect_err(|misread| assert!(!misread.why.is_empty())).ok()
}

fuzz_target!(|text: &str| {
    if let Some(length) = sound(Length::read(text)) {
        assert!(length.value.is_finite());
        for system in SYSTEMS {
            let _ = print::length(length, system);
            let _ = print::thickness(length, system);
            let written = print::exact_length(length, system);
            // Decimals of very large and very small lengths pass what is read.
            if written.len() <= 200 {
                let back = Length::read(&written).expect("an exact length is read");
                assert!(back.value == length.value, "{written}");
            }
        }
    }
    sound(Area::read(text)).inspect(|area| assert!(area.value.is_finite()));
    sound(Volume::read(text)).inspect(|volume| assert!(volume.value.is_finite()));
    sound(Mass::read(text)).inspect(|mass| assert!(mass.value.is_finite()));
    sound(MassDensity::read(text)).inspect(|density| assert!(density.value.is_finite()));
    sound(Ratio::read(text)).inspect(|ratio| assert!(ratio.value.is_finite()));
    sound(Angle::read(text)).inspect(|angle| assert!(angle.value.is_finite()));
    sound(Number::read(text)).inspect(|number| assert!(number.get().is_finite()));
    sound(Amount::read(text));
    if let Some(money) = sound(Money::read(text)) {
        for system in SYSTEMS {
            let written = print::money(money, system).to_string();
            assert_eq!(Money::read(&written).expect("printed money is read"), money);
        }
    }
});
