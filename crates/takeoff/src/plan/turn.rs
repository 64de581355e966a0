//! Turns in words. Not here: what a turn does to a wall.

use super::tolerance::SAME_TURN;
use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::units::Angle;

/// Reads a turn as people say it: `left`, `right`, `left 45`, `45 deg right`, `30`, `-30 deg`.
///
/// The word alone is 90 degrees; a number with no unit is in degrees; left is more than 0. What comes
/// back has a unit and a sign, as a [`super::PlanSide`] holds it.
///
/// # Errors
/// What is wrong, in words: no angle, or a direction and a sign at once.
///
/// ```
/// use hodful_takeoff::plan::read_turn;
/// assert_eq!(read_turn("right 45")?.text(), "-45 deg");
/// assert_eq!(read_turn("Left")?.text(), "90 deg");
/// # Ok::<(), ecow::EcoString>(())
/// ```
pub fn read_turn(text: &str) -> Result<Typed<Angle>, EcoString> {
    let lower = text.trim().to_lowercase();
    let word = |word: &str| {
        let rest = lower
            .strip_prefix(word)
            .or_else(|| lower.strip_suffix(word))?;
        Some(rest.trim().to_owned())
    };
    let (rest, said, right) = match (word("left"), word("right")) {
        (Some(rest), _) => (rest, true, false),
        (None, Some(rest)) => (rest, true, true),
        (None, None) => (lower.clone(), false, false),
    };
    if said && rest.is_empty() {
        return angle(if right { "-90 deg" } else { "90 deg" });
    }
    let typed = angle(&rest)?;
    if !said {
        return Ok(typed);
    }
    if typed.value().value < 0.0 {
        return Err(eco_format!(
            "'{}' has a sign and a direction; write one of them",
            text.trim()
        ));
    }
    if !right {
        return Ok(typed);
    }
    // A sum has to be taken as a whole.
    let plain = eco_format!("-{}", typed.text());
    let turned = eco_format!("-({})", typed.text());
    let wanted = -typed.value().value;
    let same = |typed: &Typed<Angle>| (typed.value().value - wanted).abs() <= SAME_TURN;
    [plain, turned]
        .into_iter()
        .find_map(|text| Typed::read(text).ok().filter(same))
        .ok_or_else(|| eco_format!("'{}' cannot be turned to the right", text.trim()))
}

/// An angle, in degrees when it has no unit.
fn angle(text: &str) -> Result<Typed<Angle>, EcoString> {
    Typed::read(text).or_else(|misread| {
        Typed::read(eco_format!("{text} deg")).map_err(|_| eco_format!("{misread}"))
    })
}
