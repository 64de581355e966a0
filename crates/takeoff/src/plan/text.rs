//! Texts of sizes that had to be worked out. Not here: sizes that are handed on as typed.

use super::tolerance::{SAME_LENGTH, SAME_TURN};
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Angle, Length, degree, length_of_mm};

/// A length of `mm` millimetres, not negative, as somebody would type it: a 64th of an inch where it is
/// one, otherwise a thousandth of an inch; a hundredth of a millimetre.
///
/// # Errors
/// What the reader says of it, for a number so odd that it cannot be written.
pub(super) fn length(mm: f64, units: UnitSystem) -> Result<Typed<Length>, EcoString> {
    let text = match units {
        UnitSystem::Us => feet_inches(mm),
        UnitSystem::Metric => format!("{} mm", (mm * 100.0).round() / 100.0),
    };
    Typed::read(text).map_err(|misread| eco_format!("{misread}"))
}

fn feet_inches(mm: f64) -> String {
    let sixty_fourths = (mm * 64.0 / 25.4).round();
    let near = length_of_mm(sixty_fourths * 127.0 / 320.0);
    if (near.value - mm).abs() < SAME_LENGTH {
        return print::exact_length(near, UnitSystem::Us);
    }
    let thousandths = (mm * 1000.0 / 25.4).round();
    let feet = (thousandths / 12_000.0).floor();
    let inches = (thousandths - feet * 12_000.0) / 1000.0;
    if feet > 0.0 {
        format!("{feet}' {inches}\"")
    } else {
        format!("{inches}\"")
    }
}

/// How far a turn goes, its side left aside: what was typed without its sign, or degrees to four
/// decimals.
///
/// # Errors
/// As [`length`].
pub(super) fn turn(
    turn: f64,
    typed: Option<&Typed<Angle>>,
) -> Result<Option<Typed<Angle>>, EcoString> {
    let quarter = (turn.abs() - core::f64::consts::FRAC_PI_2).abs() < SAME_TURN;
    let unsigned = typed.and_then(|typed| {
        let text = typed.text().trim();
        let text = text
            .strip_prefix('-')
            .or_else(|| text.strip_prefix('\u{2212}'))
            .unwrap_or(text);
        let unsigned = Typed::<Angle>::read(text.trim()).ok()?;
        ((unsigned.value().value - turn.abs()).abs() <= SAME_TURN).then_some(unsigned)
    });
    if unsigned.is_some() || quarter && typed.is_none() {
        return Ok(unsigned);
    }
    let degrees = turn.abs().to_degrees();
    let text = format!("{} deg", (degrees * 1e4).round() / 1e4);
    Typed::read(text)
        .map(Some)
        .map_err(|misread| eco_format!("{misread}"))
}

/// A length in a message.
pub(super) fn shown(mm: f64, units: UnitSystem) -> String {
    print::length(length_of_mm(mm), units).to_string()
}

/// How far a turn goes and to which side, in a message.
pub(super) fn shown_turn(turn: f64) -> String {
    let angle = Angle::new::<degree>(turn.abs().to_degrees());
    let side = if turn < 0.0 { "right" } else { "left" };
    format!("{} to the {side}", print::angle(angle, UnitSystem::Metric))
}
