//! Feet, inches and fractions of an inch. Not here: metric lengths.

use super::{Grouping, UnitSystem, fixed};
use crate::read::read_length_mm;
use crate::tolerance::WORKED_OUT;
use crate::units::Length;

/// Parts of an inch that a tape shows.
const SIXTEENTHS: u32 = 16;

/// The finest part of an inch that [`exact_length`] writes as a fraction.
const SIXTY_FOURTHS: u32 = 64;

/// Feet and inches to the nearest sixteenth of an inch, ties away from zero; feet are grouped by
/// commas. A length that is not finite gives `?`, and one past counting in sixteenths (some hundred
/// million kilometres) decimal feet.
///
/// ```
/// use hodful_quantities::{units::length_of_mm, print::feet_inches};
/// assert_eq!(feet_inches(length_of_mm(3822.7)), "12' 6 1/2\"");
/// assert_eq!(feet_inches(length_of_mm(12.7)), "1/2\"");
/// assert_eq!(feet_inches(length_of_mm(304.8)), "1'");
/// ```
pub fn feet_inches(length: Length) -> String {
    written(length, true)
}

/// Inches to the nearest sixteenth, without feet: `18"`, `5/8"`. Odd input as [`feet_inches`].
pub fn inches(length: Length) -> String {
    written(length, false)
}

fn written(length: Length, feet: bool) -> String {
    match parts(length, SIXTEENTHS) {
        Some(count) => spelt(length.value < 0.0, count, SIXTEENTHS, feet),
        None if length.value.is_finite() => {
            format!("{}'", fixed(length.value / 304.8, 0, Grouping::Comma))
        }
        None => fixed(length.value, 0, Grouping::None),
    }
}

/// A spelling that reads back to the very same length: feet and inches down to a 64th where they are
/// exact and the system has them, and decimal millimetres otherwise. For a field or a file that a
/// command fills in. A length that is not finite gives `?`, and one so small or large that its
/// decimals pass 200 characters is not read back.
///
/// ```
/// use hodful_quantities::{units::length_of_mm, print::{UnitSystem, exact_length}};
/// assert_eq!(exact_length(length_of_mm(3822.7), UnitSystem::Us), "12' 6 1/2\"");
/// assert_eq!(exact_length(length_of_mm(3822.7), UnitSystem::Metric), "3822.7 mm");
/// assert_eq!(exact_length(length_of_mm(1000.0), UnitSystem::Us), "1000 mm");
/// ```
pub fn exact_length(length: Length, system: UnitSystem) -> String {
    let mm = length.value;
    if !mm.is_finite() {
        return fixed(mm, 0, Grouping::None);
    }
    let fraction = match system {
        UnitSystem::Us => parts(length, SIXTY_FOURTHS),
        UnitSystem::Metric => None,
    };
    fraction
        .map(|count| spelt(mm < 0.0, count, SIXTY_FOURTHS, true))
        .filter(|text| read_length_mm(text).is_some_and(|back| back.to_bits() == mm.to_bits()))
        .unwrap_or_else(|| format!("{mm} mm"))
}

/// A spelling for a length that was worked out: as [`exact_length`], of the nearest 64th of an inch where
/// one lies within [`WORKED_OUT`], else of the nearest millionth of a millimetre.
///
/// ```
/// use hodful_quantities::{units::length_of_mm, print::{UnitSystem, worked_out_length}};
/// let sum = length_of_mm(7010.400000000001);
/// assert_eq!(worked_out_length(sum, UnitSystem::Us), "23'");
/// assert_eq!(worked_out_length(sum, UnitSystem::Metric), "7010.4 mm");
/// ```
pub fn worked_out_length(length: Length, system: UnitSystem) -> String {
    let mm = length.value;
    let near = (mm / WORKED_OUT).round() * WORKED_OUT;
    // The shortest decimal within the tolerance: what the division leaves is rounded away in writing.
    let near = format!("{near:.6}").parse().unwrap_or(near);
    let fraction = match system {
        UnitSystem::Us => parts(length, SIXTY_FOURTHS),
        UnitSystem::Metric => None,
    };
    fraction
        .map(|count| spelt(mm < 0.0, count, SIXTY_FOURTHS, true))
        .filter(|text| read_length_mm(text).is_some_and(|back| (back - mm).abs() <= WORKED_OUT))
        .unwrap_or_else(|| {
            exact_length(
                Length {
                    value: near,
                    ..length
                },
                UnitSystem::Metric,
            )
        })
}

/// How many parts of an inch the length is, without its sign; `None` past counting.
fn parts(length: Length, per_inch: u32) -> Option<u64> {
    // 25.4 mm is 127/5 mm: both products are exact for whole millimetres.
    let count = (length.value.abs() * f64::from(per_inch) * 5.0 / 127.0).round();
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole number from 0 to 2^53"
    )]
    (count <= 9_007_199_254_740_992.0).then_some(count as u64)
}

fn spelt(negative: bool, count: u64, per_inch: u32, with_feet: bool) -> String {
    let per_inch = u64::from(per_inch);
    let (whole, part) = (count / per_inch, count % per_inch);
    let (feet, inches) = if with_feet {
        (whole / 12, whole % 12)
    } else {
        (0, whole)
    };
    let mut words = Vec::new();
    if feet > 0 {
        words.push(format!(
            "{}'",
            super::rounding::grouped(&feet.to_string(), Grouping::Comma)
        ));
    }
    let shift = part.trailing_zeros().min(per_inch.trailing_zeros());
    let (over, under) = (part >> shift, per_inch >> shift);
    match (inches, over) {
        (0, 0) if feet > 0 => {}
        (_, 0) => words.push(format!("{inches}\"")),
        (0, _) => words.push(format!("{over}/{under}\"")),
        _ => words.push(format!("{inches} {over}/{under}\"")),
    }
    let sign = if negative && count > 0 { "-" } else { "" };
    format!("{sign}{}", words.join(" "))
}
