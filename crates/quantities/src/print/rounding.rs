//! Rounding a number to decimals, and grouping its thousands. Not here: units.

use rust_decimal::{Decimal, RoundingStrategy};

/// What stands between thousands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Grouping {
    /// Nothing: `1234.5`.
    None,
    /// A comma: `1,234.5`.
    Comma,
    /// A no-break space, as the SI brochure asks (9th edition, 5.4.4): `1 234.5`.
    Space,
}

/// What is printed for a number that is not finite: no figure can come out of a sound project so.
const NOT_FINITE: &str = "?";

/// Digits of an `f64` that are sure: any decimal number of so many digits survives the way into
/// `f64` and back (`f64::DIGITS`). Further ones are noise of conversion between units.
const SURE_DIGITS: u32 = f64::DIGITS;

/// A number to a fixed count of decimals: to the nearest, ties away from zero.
///
/// What is rounded is the number's first 15 significant digits, so that 0.25 and 1.005 are the ties
/// they look like, whatever their binary form. At most 28 decimals are printed. A number that is not
/// finite gives `?`; one that rounds to nothing has no sign.
///
/// ```
/// use hodful_quantities::print::{Grouping, fixed};
/// assert_eq!(fixed(1234.25, 1, Grouping::Comma), "1,234.3");
/// assert_eq!(fixed(1.005, 2, Grouping::None), "1.01");
/// assert_eq!(fixed(-0.04, 1, Grouping::None), "0.0");
/// ```
pub fn fixed(value: f64, places: u32, grouping: Grouping) -> String {
    if !value.is_finite() {
        return NOT_FINITE.to_owned();
    }
    let places = places.min(Decimal::MAX_SCALE);
    let width = usize::try_from(places).unwrap_or_default();
    let digits = match sure_decimal(value) {
        Some(exact) => {
            let rounded =
                exact.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero);
            with_decimals(rounded.to_string(), width)
        }
        None => format!("{value:.width$}"),
    };
    let nothing = digits.bytes().all(|b| matches!(b, b'-' | b'0' | b'.'));
    let digits = if nothing {
        digits.trim_start_matches('-')
    } else {
        &digits
    };
    grouped(digits, grouping)
}

/// The first 15 significant digits of a number below 10^15; `None` for others, whose sure digits are
/// all before the decimal point, and for those too small for a decimal.
fn sure_decimal(value: f64) -> Option<Decimal> {
    if value.abs() >= 1e15 {
        return None;
    }
    let after_first = usize::try_from(SURE_DIGITS.saturating_sub(1)).unwrap_or_default();
    Decimal::from_scientific(&format!("{value:.after_first$e}")).ok()
}

/// Digits with zeros added up to a count of decimals. The formatter of decimal numbers would do it,
/// but panics where digits and zeros together pass its room.
fn with_decimals(mut digits: String, width: usize) -> String {
    let has = digits.split_once('.').map_or(0, |(_, part)| part.len());
    if has == 0 && width > 0 {
        digits.push('.');
    }
    digits.extend(core::iter::repeat_n('0', width.saturating_sub(has)));
    digits
}

/// A number to so many significant digits, to the nearest, ties away from zero; digits before the
/// decimal point are never rounded off, and zeros at the end of the decimals are left out.
///
/// ```
/// use hodful_quantities::print::significant;
/// assert_eq!(significant(1.0 / 24.0, 6), "0.0416667");
/// assert_eq!(significant(112.875, 6), "112.875");
/// assert_eq!(significant(1_234_567.8, 6), "1234568");
/// ```
pub fn significant(value: f64, digits: u32) -> String {
    let scientific = format!("{value:e}");
    let exponent = scientific
        .split_once('e')
        .and_then(|(_, e)| e.parse::<i64>().ok())
        .unwrap_or(0);
    let places = i64::from(digits).saturating_sub(1).saturating_sub(exponent);
    let places = u32::try_from(places.clamp(0, i64::from(Decimal::MAX_SCALE))).unwrap_or(0);
    let printed = fixed(value, places, Grouping::None);
    match printed.split_once('.') {
        Some(_) => printed
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned(),
        None => printed,
    }
}

/// Plain digits with their thousands grouped.
pub(super) fn grouped(digits: &str, grouping: Grouping) -> String {
    let mark = match grouping {
        Grouping::None => return digits.to_owned(),
        Grouping::Comma => ',',
        Grouping::Space => '\u{a0}',
    };
    let (whole, part) = match digits.split_once('.') {
        Some((whole, part)) => (whole, Some(part)),
        None => (digits, None),
    };
    let mut out = String::new();
    let count = whole.bytes().filter(u8::is_ascii_digit).count();
    let mut seen = 0_usize;
    for c in whole.chars() {
        if c.is_ascii_digit() {
            if seen > 0 && count.saturating_sub(seen) % 3 == 0 {
                out.push(mark);
            }
            seen = seen.saturating_add(1);
        }
        out.push(c);
    }
    if let Some(part) = part {
        out.push('.');
        out.push_str(part);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn ties_and_signs() {
        fn check(value: f64, places: u32, expected: &str) {
            assert_eq!(
                fixed(value, places, Grouping::None),
                expected,
                "{value} {places}"
            );
        }
        check(0.5, 0, "1");
        check(1.5, 0, "2");
        check(2.5, 0, "3");
        check(-2.5, 0, "-3");
        check(0.25, 1, "0.3");
        check(0.35, 1, "0.4");
        check(1.005, 2, "1.01");
        check(2.675, 2, "2.68");
        check(0.1 + 0.2, 1, "0.3");
        // Three tenths short of a tie by noise of conversion only: 2.35 ft² through square millimetres.
        check(2.35 * 92_903.04 / 92_903.04, 1, "2.4");
        check(-0.0, 2, "0.00");
        check(-0.004, 2, "0.00");
        check(3.0, 3, "3.000");
        check(1e30, 1, "1000000000000000019884624838656.0");
        check(1e15, 1, "1000000000000000.0");
        check(
            999_999_999_999_999.0,
            28,
            &format!("999999999999999.{}", "0".repeat(28)),
        );
        check(1e-40, 2, "0.00");
        check(f64::NAN, 1, "?");
        check(f64::INFINITY, 1, "?");
    }

    #[test]
    fn thousands() {
        fn check(value: f64, places: u32, expected: &str) {
            assert_eq!(fixed(value, places, Grouping::Comma), expected);
            assert_eq!(
                fixed(value, places, Grouping::Space),
                expected.replace(',', "\u{a0}")
            );
        }
        check(0.0, 0, "0");
        check(999.0, 0, "999");
        check(1000.0, 0, "1,000");
        check(-1000.0, 0, "-1,000");
        check(-100.0, 0, "-100");
        check(999.96, 1, "1,000.0");
        check(1_234_567.891, 2, "1,234,567.89");
    }

    #[test]
    fn significant_digits() {
        fn check(value: f64, expected: &str) {
            assert_eq!(significant(value, 6), expected);
        }
        check(0.0, "0");
        check(12.5, "12.5");
        check(12.541_666_666, "12.5417");
        check(0.000_123_456_78, "0.000123457");
        check(999_999.7, "1000000");
        check(100.0, "100");
        check(-0.041_666_666, "-0.0416667");
        check(f64::NAN, "?");
    }

    proptest! {
        #[test]
        fn fixed_is_within_half_of_its_last_place(value in -1e12..1e12_f64, places in 0..6_u32) {
            let back: f64 = fixed(value, places, Grouping::None).parse().unwrap();
            let half = 0.5 * libm::pow(10.0, -f64::from(places));
            // 15 significant digits of at most 1e12 leave a thousandth.
            prop_assert!((back - value).abs() <= half + value.abs() * 1e-14);
        }

        #[test]
        fn any_number_prints(value in any::<f64>(), places in any::<u32>()) {
            prop_assert!(!fixed(value, places, Grouping::Comma).is_empty());
            prop_assert!(!significant(value, places).is_empty());
        }
    }
}
