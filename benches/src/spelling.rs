//! Lengths as an estimator would type them, in the ways the reader knows. Not here: which lengths.

use ecow::{EcoString, eco_format};
use hodful_quantities::Typed;
use hodful_quantities::units::Length;

/// How the lengths of one wall are typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Spelling {
    /// `12' 6 1/2"`.
    FeetAndInches,
    /// `12'-6"`, to the whole inch.
    Joined,
    /// `150 1/2 in`.
    Inches,
    /// `3.825 m`.
    Metres,
    /// `3825 mm`.
    Millimetres,
}

impl Spelling {
    pub(crate) const ALL: [Self; 5] = [
        Self::FeetAndInches,
        Self::Joined,
        Self::Inches,
        Self::Metres,
        Self::Millimetres,
    ];

    /// A length near `mm` millimetres: less than an inch away.
    pub(crate) fn length(self, mm: u32) -> Typed<Length> {
        // Eighths of an inch, rounded: 8 · mm / 25.4.
        let eighths = (mm * 80 + 127) / 254;
        let text = match self {
            Self::FeetAndInches => feet_and_inches(eighths),
            Self::Joined => {
                let inches = (eighths + 4) / 8;
                eco_format!("{}'-{}\"", inches / 12, inches % 12)
            }
            Self::Inches => eco_format!("{} in", with_eighths(eighths)),
            Self::Metres => eco_format!("{}.{:02} m", mm / 1000, mm % 1000 / 10),
            Self::Millimetres => eco_format!("{mm} mm"),
        };
        typed(text)
    }
}

/// No length at all.
pub(crate) fn zero() -> Typed<Length> {
    typed("0".into())
}

fn typed(text: EcoString) -> Typed<Length> {
    Typed::read(text).expect("it is a spelling of a length")
}

fn feet_and_inches(eighths: u32) -> EcoString {
    let (feet, rest) = (eighths / 96, eighths % 96);
    match (feet, rest) {
        (feet, 0) => eco_format!("{feet}'"),
        (0, rest) => eco_format!("{}\"", with_eighths(rest)),
        (feet, rest) => eco_format!("{feet}' {}\"", with_eighths(rest)),
    }
}

/// Inches with a fraction in its lowest terms.
fn with_eighths(eighths: u32) -> EcoString {
    let (whole, part) = (eighths / 8, eighths % 8);
    let fraction = match part {
        0 => return eco_format!("{whole}"),
        4 => "1/2".into(),
        2 | 6 => eco_format!("{}/4", part / 2),
        _ => eco_format!("{part}/8"),
    };
    if whole == 0 {
        fraction
    } else {
        eco_format!("{whole} {fraction}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The inch is 25.4 mm exactly: International yard and pound agreement, 1959.
    #[test]
    fn every_spelling_is_near() {
        for spelling in Spelling::ALL {
            for mm in [75, 203, 457, 2718, 3825, 12_301] {
                let length = spelling.length(mm);
                let off = (length.value().value - f64::from(mm)).abs();
                assert!(off < 25.4, "{mm} mm was typed as {}", length.text());
            }
        }
    }

    #[test]
    fn spellings_are_those_of_a_drawing() {
        let texts = Spelling::ALL.map(|spelling| spelling.length(3823).text().to_owned());
        assert_eq!(
            texts,
            ["12' 6 1/2\"", "12'-7\"", "150 1/2 in", "3.82 m", "3823 mm"]
        );
        assert_eq!(Spelling::FeetAndInches.length(305).text(), "1'");
        assert_eq!(Spelling::FeetAndInches.length(16).text(), "5/8\"");
    }
}
