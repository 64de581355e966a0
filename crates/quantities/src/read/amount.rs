//! An amount of a material as it lies in the yard: by volume, by mass, or in packages. Not here:
//! what a package holds.

use super::exact::Dimension;
use super::fault::{Fault, misread, too_long};
use super::table::Kind;
use super::{plain, sum};
use crate::typed::{Measure, Misread};
use crate::units::{Mass, Volume, mass_of_kg, volume_of_mm3};
use ecow::EcoString;

/// An amount of a material.
#[derive(Debug, Clone, PartialEq)]
pub enum Amount {
    /// A loose volume.
    Volume(Volume),
    /// A mass.
    Mass(Mass),
    /// So many of a package.
    Packages {
        /// How many; need not be whole.
        count: f64,
        /// The name of the package as typed, without outer blanks.
        name: EcoString,
    },
}

impl Measure for Amount {
    const WHAT: &'static str = "an amount";
    const SPELLINGS: &'static str = "5 yd3, 50 lb or 2 bale (a package by its name)";

    /// Reads a volume, a mass, or a number and the name of a package. What can be read as a quantity
    /// is one (`3 cup` is a volume); a name begins with a letter. Whether there is such a package is
    /// for the caller to know.
    ///
    /// ```
    /// use hodful_quantities::{Measure, read::Amount};
    /// assert_eq!(
    ///     Amount::read("3 tipped load")?,
    ///     Amount::Packages { count: 3.0, name: "tipped load".into() },
    /// );
    /// assert!(matches!(Amount::read("0 yd3")?, Amount::Volume(_)));
    /// # Ok::<(), hodful_quantities::Misread>(())
    /// ```
    fn read(text: &str) -> Result<Self, Misread> {
        read(text).map_err(|fault| misread::<Self>(text, &fault))
    }
}

fn read(text: &str) -> Result<Amount, Fault> {
    too_long(text)?;
    match sum::evaluate(text, Kind::Volume, Amount::WHAT) {
        Ok(found) if found.bare => Err(Fault::Says("has neither a unit nor a package".into())),
        Ok(found) if found.dimension == Dimension::of(Kind::Volume) => {
            Ok(Amount::Volume(volume_of_mm3(found.value)))
        }
        Ok(found) if found.dimension == Dimension::of(Kind::Mass) => {
            Ok(Amount::Mass(mass_of_kg(found.value)))
        }
        Ok(found) => Err(match found.dimension.what() {
            Some(other) => Fault::OtherKind(other, Amount::WHAT),
            None => Fault::NotOne(Amount::WHAT),
        }),
        Err(fault @ (Fault::NotOne(_) | Fault::UnknownUnit(..))) => {
            packages(text).unwrap_or(Err(fault))
        }
        Err(fault) => Err(fault),
    }
}

/// A count and a name; `None` when there is no name or its first word and a number after it look
/// like a quantity gone wrong (`5 lb 20 oz`).
fn packages(text: &str) -> Option<Result<Amount, Fault>> {
    let text = text.trim();
    let (count, name) = text.split_at_checked(text.find(char::is_alphabetic)?)?;
    let first = name
        .split(|c: char| !c.is_alphabetic())
        .next()
        .unwrap_or(name)
        .to_lowercase();
    let unlike_a_name = |c: char| c.is_ascii_digit() || "+*/×()\"".contains(c);
    if count.is_empty() || super::table::find(&first).is_some() && name.contains(unlike_a_name) {
        return None;
    }
    let count = plain::read(count).map(super::Number::get);
    Some(count.map(|count| Amount::Packages {
        count,
        name: name.into(),
    }))
}
