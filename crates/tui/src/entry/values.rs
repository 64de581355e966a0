//! Lengths and angles: as typed in a line, and as worked out. Not here: how far a value goes in a line.

use super::tolerance::SAME_LENGTH;
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::print::{UnitSystem, feet_inches};
use hodful_quantities::units::{Angle, Length, inch, length_of_mm};
use hodful_takeoff::form::{Kind, understand};

/// Reads a length; a bare number is in inches or millimetres.
pub(super) fn length(text: &str, units: UnitSystem) -> Result<Typed<Length>, EcoString> {
    let stored = understand(&Kind::Length, text, units)?.stored;
    let length: Typed<Length> = Typed::read(stored).map_err(|misread| eco_format!("{misread}"))?;
    if length.value().value < 0.0 {
        return Err(eco_format!("'{text}' is less than nothing"));
    }
    Ok(length)
}

/// Reads an angle; a bare number is in degrees.
pub(super) fn angle(text: &str, units: UnitSystem) -> Result<Typed<Angle>, EcoString> {
    let stored = understand(&Kind::Angle, text, units)?.stored;
    Typed::read(stored).map_err(|misread| eco_format!("{misread}"))
}

/// A length that was worked out, in millimetres, as it would be typed: feet and inches where a tape has
/// them and a thousandth of an inch where not, or a hundredth of a millimetre. `None` when it is not
/// finite.
pub(super) fn worked_out(mm: f64, units: UnitSystem) -> Option<Typed<Length>> {
    let length = length_of_mm(mm);
    match units {
        UnitSystem::Us => {
            let tape = Typed::<Length>::read(feet_inches(length)).ok();
            let same = |tape: &Typed<Length>| (tape.value().value - mm).abs() < SAME_LENGTH;
            tape.filter(same).or_else(|| {
                let inches = (length.get::<inch>() * 1000.0).round() / 1000.0;
                Typed::read(eco_format!("{inches} in")).ok()
            })
        }
        UnitSystem::Metric => Typed::read(eco_format!("{} mm", (mm * 100.0).round() / 100.0)).ok(),
    }
}

/// A length in the units of the project: inches or millimetres.
pub(super) fn of(inches: u32, mm: u32, units: UnitSystem) -> Option<Typed<Length>> {
    let text = match units {
        UnitSystem::Us => eco_format!("{inches}\""),
        UnitSystem::Metric => eco_format!("{mm} mm"),
    };
    Typed::read(text).ok()
}

/// The millimetres of a length.
pub(super) fn mm(length: &Typed<Length>) -> f64 {
    length.value().value
}
