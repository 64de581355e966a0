//! Bounds and sieve lists as they are typed in one field. Not here: single values (see `understand`).

use super::Understood;
use super::held::Held;
use super::understand::{BareUnit, PERCENT, length_unit, with_unit};
use crate::project::{NumberBetween, ShareBetween, SieveBand, SievePoint};
use ecow::{EcoString, eco_format};
use hodful_quantities::print::UnitSystem;
use hodful_quantities::read::Number;
use hodful_quantities::units::{Length, Ratio};
use hodful_quantities::{Measure, Typed};

/// Stands for no bounds.
pub(super) const ANY: &str = "any";

/// The texts of two bounds, as they are stored.
type Bounds = [Option<EcoString>; 2];

/// Splits `8 % to 12 %`, `8-12 %`, `at least 8 %`, `at most 12 %`, `8 %` (both bounds) and `any`.
///
/// A first bound without a unit takes that of the second.
fn bounds<T: Measure + PartialOrd>(
    text: &str,
    unit: Option<BareUnit>,
) -> Result<Bounds, EcoString> {
    let text = text.trim();
    if text.eq_ignore_ascii_case(ANY) {
        return Ok([None, None]);
    }
    let one = |part: &str| with_unit::<T>(part.trim(), unit);
    let in_order = |first: &T, second: &T| first <= second;
    let lower = text.to_lowercase();
    for (word, at) in [
        ("at least", 0),
        ("from", 0),
        (">=", 0),
        ("at most", 1),
        ("up to", 1),
        ("<=", 1),
    ] {
        let rest = lower.strip_prefix(word).and_then(|rest| {
            let from = text.len().checked_sub(rest.len())?;
            text.get(from..)
        });
        if let Some(rest) = rest.filter(|rest| !rest.to_lowercase().contains(" to ")) {
            let mut both = [None, None];
            if let Some(bound) = both.get_mut(at) {
                *bound = Some(one(rest)?.0);
            }
            return Ok(both);
        }
    }
    let text = if lower.starts_with("from ") {
        text.get("from ".len()..).unwrap_or(text)
    } else {
        text
    };
    let mut wrong = None;
    for between in [" to ", "..", "\u{2013}", "-"] {
        let Some((first, second)) = text.split_once(between) else {
            continue;
        };
        match (one(first), one(second)) {
            // `6-1/2` is a number and no bounds.
            (Ok((_, first)), Ok((_, second))) if between == "-" && !in_order(&first, &second) => {}
            (Ok((first, _)), Ok((second, _))) => return Ok([Some(first), Some(second)]),
            (Err(why), _) | (_, Err(why)) => wrong = wrong.or(Some(why)),
        }
    }
    match (one(text), wrong) {
        (Ok((both, _)), _) => Ok([Some(both.clone()), Some(both)]),
        (Err(_), Some(wrong)) => Err(wrong),
        (Err(_), None) => Err(eco_format!(
            "'{text}' are no bounds; write 8 to 12, at least 8, at most 12 or any, each with its unit"
        )),
    }
}

/// Two bounds as one text.
fn joined([least, most]: [Option<&str>; 2]) -> EcoString {
    match (least, most) {
        (Some(least), Some(most)) if least == most => least.into(),
        (Some(least), Some(most)) => eco_format!("{least} to {most}"),
        (Some(least), None) => eco_format!("at least {least}"),
        (None, Some(most)) => eco_format!("at most {most}"),
        (None, None) => ANY.into(),
    }
}

fn understood([least, most]: Bounds) -> Understood {
    let stored = joined([least.as_deref(), most.as_deref()]);
    Understood {
        shown: stored.to_string(),
        stored,
    }
}

/// Bounds of a share, a bare number of one or more being percent.
pub(super) fn share(text: &str, _: UnitSystem) -> Result<Understood, EcoString> {
    bounds::<Ratio>(text, Some(PERCENT)).map(understood)
}

/// Bounds of a plain number.
pub(super) fn number(text: &str) -> Result<Understood, EcoString> {
    bounds::<Number>(text, None).map(understood)
}

/// Cuts a list at `;`, and each entry into a size and the rest.
fn entries<R>(
    text: &str,
    unit: Option<BareUnit>,
    example: &str,
    rest: impl Fn(&str) -> Result<R, EcoString>,
) -> Result<Vec<(EcoString, R)>, EcoString> {
    let parts = text.split(';').map(str::trim).filter(|p| !p.is_empty());
    parts
        .map(|entry| {
            let cuts = entry.match_indices([' ', ':', '=']).map(|(at, _)| at);
            let mut wrong = None;
            for cut in cuts {
                let Some((size, behind)) = entry.split_at_checked(cut) else {
                    continue;
                };
                let behind = behind.trim_start_matches([' ', ':', '=']);
                let Ok((size, _)) = with_unit::<Length>(size.trim(), unit) else {
                    continue;
                };
                match rest(behind) {
                    Ok(rest) => return Ok((size, rest)),
                    Err(why) => wrong = wrong.or(Some(why)),
                }
            }
            Err(wrong.unwrap_or_else(|| {
                eco_format!("'{entry}' is not a sieve and what passes it; write {example}")
            }))
        })
        .collect()
}

const ONE_SIEVE: &str = "2 mm 98 %";
const ONE_BAND: &str = "2 mm 90 % to 100 %";

fn points(text: &str, unit: Option<BareUnit>) -> Result<Vec<(EcoString, EcoString)>, EcoString> {
    let passing = |text: &str| with_unit::<Ratio>(text, Some(PERCENT)).map(|(text, _)| text);
    entries(text, unit, ONE_SIEVE, passing)
}

fn bands(text: &str, unit: Option<BareUnit>) -> Result<Vec<(EcoString, Bounds)>, EcoString> {
    entries(text, unit, ONE_BAND, |text| {
        bounds::<Ratio>(text, Some(PERCENT))
    })
}

/// A sieve list.
pub(super) fn sieves(text: &str, units: UnitSystem) -> Result<Understood, EcoString> {
    let points = points(text, length_unit(units))?;
    let stored: Vec<String> = points.iter().map(|(s, p)| format!("{s} {p}")).collect();
    Ok(list(&stored))
}

/// A list of sieves with bounds.
pub(super) fn sieve_ranges(text: &str, units: UnitSystem) -> Result<Understood, EcoString> {
    let bands = bands(text, length_unit(units))?;
    let stored: Vec<String> = bands
        .iter()
        .map(|(s, [least, most])| format!("{s} {}", joined([least.as_deref(), most.as_deref()])))
        .collect();
    Ok(list(&stored))
}

fn list(entries: &[String]) -> Understood {
    let sieves = if entries.len() == 1 {
        "sieve"
    } else {
        "sieves"
    };
    Understood {
        stored: entries.join("; ").into(),
        shown: format!("= {} {sieves}", entries.len()),
    }
}

fn typed<T: Measure>(text: Option<EcoString>) -> Result<Option<Typed<T>>, EcoString> {
    text.map(|text| Typed::read(text).map_err(|wrong| eco_format!("{wrong}")))
        .transpose()
}

/// Makes bounds hold a text; what is not given has no text.
macro_rules! held_bounds {
    ($($of:ident: $measure:ty;)+) => {$(
        impl Held for Option<$of> {
            fn text(&self) -> Option<EcoString> {
                self.as_ref().map(|of| {
                    joined([of.least.as_ref().map(Typed::text), of.most.as_ref().map(Typed::text)])
                })
            }

            fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
                *self = match text {
                    Some(text) => {
                        let [least, most] = bounds::<$measure>(text, None)?;
                        Some($of { least: typed(least)?, most: typed(most)? })
                    }
                    None => None,
                };
                Ok(())
            }

            fn is_optional(&self) -> bool {
                true
            }
        }
    )+};
}

held_bounds! {
    ShareBetween: Ratio;
    NumberBetween: Number;
}

impl Held for Vec<SievePoint> {
    fn text(&self) -> Option<EcoString> {
        let points = self.iter();
        let points = points.map(|p| format!("{} {}", p.size.text(), p.passing.text()));
        let points: Vec<String> = points.collect();
        (!points.is_empty()).then(|| points.join("; ").into())
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        let read = |(size, passing): (EcoString, EcoString)| {
            Ok(SievePoint {
                size: super::held::read(&size)?,
                passing: super::held::read(&passing)?,
            })
        };
        let points = points(text.unwrap_or_default(), None)?;
        *self = points
            .into_iter()
            .map(read)
            .collect::<Result<_, EcoString>>()?;
        Ok(())
    }

    fn is_optional(&self) -> bool {
        true
    }
}

impl Held for Vec<SieveBand> {
    fn text(&self) -> Option<EcoString> {
        let bands = self.iter().map(|band| {
            let both = [band.least.as_ref(), band.most.as_ref()];
            format!(
                "{} {}",
                band.size.text(),
                joined(both.map(|b| b.map(Typed::text)))
            )
        });
        let bands: Vec<String> = bands.collect();
        (!bands.is_empty()).then(|| bands.join("; ").into())
    }

    fn put(&mut self, text: Option<&str>) -> Result<(), EcoString> {
        let read = |(size, [least, most]): (EcoString, Bounds)| {
            Ok(SieveBand {
                size: super::held::read(&size)?,
                least: typed(least)?,
                most: typed(most)?,
            })
        };
        let bands = bands(text.unwrap_or_default(), None)?;
        *self = bands
            .into_iter()
            .map(read)
            .collect::<Result<_, EcoString>>()?;
        Ok(())
    }

    fn is_optional(&self) -> bool {
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_are_typed_as_people_say_them() {
        let stored = |text: &str| share(text, UnitSystem::Metric).map(|u| u.stored);
        for (typed, kept) in [
            ("8 % to 12 %", "8 % to 12 %"),
            ("8 to 12", "8 % to 12 %"),
            ("8-12", "8 % to 12 %"),
            ("8 % \u{2013} 12 %", "8 % to 12 %"),
            ("at least 8", "at least 8 %"),
            ("At most 12 %", "at most 12 %"),
            ("up to 0.5", "at most 0.5"),
            ("from 8 to 12", "8 % to 12 %"),
            ("10 %", "10 %"),
            ("any", "any"),
        ] {
            assert_eq!(stored(typed).as_deref(), Ok(kept), "{typed}");
            // What is stored reads the same again.
            assert_eq!(stored(kept).as_deref(), Ok(kept));
        }
        assert!(stored("much").is_err());
        assert!(stored("8 kg to 9 kg").is_err());
        assert!(stored("").is_err());
    }

    #[test]
    fn sieve_lists_come_back() {
        let mut points: Vec<SievePoint> = Vec::new();
        let text = sieves("4 98; 2 mm = 91 %; 0.063 mm: 40 %", UnitSystem::Metric);
        let stored = text.map(|u| u.stored).unwrap_or_default();
        assert_eq!(stored, "4 mm 98 %; 2 mm 91 %; 0.063 mm 40 %");
        assert_eq!(points.put(Some(&stored)), Ok(()));
        assert_eq!(points.len(), 3);
        assert_eq!(points.text(), Some(stored));
        let mut bands: Vec<SieveBand> = Vec::new();
        let text = sieve_ranges("1/4 in 100; 1/8 in 60 to 90", UnitSystem::Us);
        let stored = text.map(|u| u.stored).unwrap_or_default();
        assert_eq!(stored, "1/4 in 100 %; 1/8 in 60 % to 90 %");
        assert_eq!(bands.put(Some(&stored)), Ok(()));
        assert_eq!(bands.text(), Some(stored));
        assert!(sieves("2 mm", UnitSystem::Metric).is_err());
        assert!(sieves("2 mm 3 kg", UnitSystem::Metric).is_err());
    }
}
