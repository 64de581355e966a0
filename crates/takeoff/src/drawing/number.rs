//! Numbers of a drawing from what was typed, and figures for it. Not here: lines.

use super::limits::{MOST, MOST_SPLAY};
use ecow::EcoString;
use hodful_quantities::Typed;
use hodful_quantities::print::{self, UnitSystem};
use hodful_quantities::units::{Angle, Length, angle_of_radians, length_of_mm};

/// A length that can be drawn, mm; `None` for what is not a number or past drawing.
pub(super) fn mm(typed: &Typed<Length>) -> Option<f64> {
    let value = typed.value().value;
    (value.abs() <= MOST).then_some(value)
}

/// A length over nothing, mm.
pub(super) fn size(typed: &Typed<Length>) -> Option<f64> {
    mm(typed).filter(|value| *value > 0.0)
}

/// A length of at least nothing, mm; nothing when it is not given or cannot be drawn.
pub(super) fn or_nothing(typed: Option<&Typed<Length>>) -> f64 {
    typed.and_then(mm).unwrap_or_default().max(0.0)
}

/// A splay in radians as far as it is drawn; none when it is not given.
pub(super) fn splay(typed: Option<&Typed<Angle>>) -> f64 {
    let angle = typed.map_or(0.0, |typed| typed.value().value);
    if angle > 0.0 {
        angle.min(MOST_SPLAY)
    } else {
        0.0
    }
}

/// A length of mm as a figure.
pub(super) fn length(mm: f64, units: UnitSystem) -> EcoString {
    print::length(length_of_mm(mm), units).to_string().into()
}

/// A thickness of mm as a figure.
pub(super) fn thickness(mm: f64, units: UnitSystem) -> EcoString {
    print::thickness(length_of_mm(mm), units).to_string().into()
}

/// An angle of radians as a figure.
pub(super) fn angle(radians: f64, units: UnitSystem) -> EcoString {
    print::angle(angle_of_radians(radians), units)
        .to_string()
        .into()
}
