//! Reading quantities that have a type in the units library. Not here: the grammar (see `sum`).

use super::fault::{Fault, misread};
use super::table::Kind;
use super::{quick, sum};
use crate::print::significant;
use crate::typed::{Measure, Misread};
use crate::units::{
    Angle, Area, Length, Mass, MassDensity, Ratio, Time, Volume, angle_of_radians, area_of_mm2,
    density_of_kg_per_mm3, length_of_mm, mass_of_kg, ratio_of, time_of_seconds, volume_of_mm3,
};
use ecow::eco_format;

/// Significant digits of a number in a message.
const SHOWN: u32 = 12;

impl Measure for Length {
    const WHAT: &'static str = "a length";
    const SPELLINGS: &'static str = "2' 3\", 27 in or 685 mm";

    /// Reads a length; negative ones too.
    ///
    /// ```
    /// use hodful_quantities::{Measure, units::Length};
    /// assert_eq!(Length::read("12' 6 1/2\"")?.value, 3822.7);
    /// assert_eq!(Length::read("2*4' + 6\"")?.value, 2590.8);
    /// assert_eq!(
    ///     Length::read("27oo").unwrap_err().to_string(),
    ///     "'27oo' is not a length; write 2' 3\", 27 in or 685 mm",
    /// );
    /// # Ok::<(), hodful_quantities::Misread>(())
    /// ```
    fn read(text: &str) -> Result<Self, Misread> {
        // The spellings that fill a project file are read without the general reader, which must
        // give the same (held by a property test).
        match quick::length(text) {
            Some(mm) => Ok(length_of_mm(mm)),
            None => read(text, Kind::Length, length_of_mm),
        }
    }
}

impl Measure for Area {
    const WHAT: &'static str = "an area";
    const SPELLINGS: &'static str = "120 ft2, 12' * 10' or 11.5 m2";

    fn read(text: &str) -> Result<Self, Misread> {
        read(text, Kind::Area, area_of_mm2)
    }
}

impl Measure for Volume {
    const WHAT: &'static str = "a volume";
    const SPELLINGS: &'static str = "5 yd3, 3.5 ft3, 10 gal or 250 L";

    fn read(text: &str) -> Result<Self, Misread> {
        read(text, Kind::Volume, volume_of_mm3)
    }
}

impl Measure for Mass {
    const WHAT: &'static str = "a mass";
    const SPELLINGS: &'static str = "50 lb, 2 short ton or 25 kg";

    fn read(text: &str) -> Result<Self, Misread> {
        read(text, Kind::Mass, mass_of_kg)
    }
}

impl Measure for MassDensity {
    const WHAT: &'static str = "a mass per volume";
    const SPELLINGS: &'static str = "90 lb/ft3, 1442 kg/m3 or 1.44 kg/L";

    fn read(text: &str) -> Result<Self, Misread> {
        read(text, Kind::MassDensity, density_of_kg_per_mm3)
    }
}

impl Measure for Ratio {
    const WHAT: &'static str = "a percentage";
    const SPELLINGS: &'static str = "22 %, 0.22 or 1/4";

    /// Reads a percentage, a plain number or the quotient of two like quantities. A plain number of
    /// one or more is refused, because `22` where percents are usual can be read as 22 % or 2200 %.
    ///
    /// ```
    /// use hodful_quantities::{Measure, units::Ratio};
    /// assert_eq!(Ratio::read("22 %")?.value, 0.22);
    /// assert_eq!(Ratio::read("1/4")?.value, 0.25);
    /// assert_eq!(Ratio::read("11 kg / 50 kg")?.value, 0.22);
    /// assert_eq!(
    ///     Ratio::read("22").unwrap_err().to_string(),
    ///     "'22' can be read as 22 % or as 2200 %; write 22 %, 0.22 or 1/4",
    /// );
    /// # Ok::<(), hodful_quantities::Misread>(())
    /// ```
    fn read(text: &str) -> Result<Self, Misread> {
        let checked = || {
            let found = sum::evaluate(text, Kind::Ratio, Self::WHAT)?;
            if found.bare && found.value.abs() >= 1.0 {
                return Err(Fault::TwoReadings(
                    eco_format!("{} %", significant(found.value, SHOWN)),
                    eco_format!("{} %", significant(found.value * 100.0, SHOWN)),
                ));
            }
            sum::of_kind(found, Kind::Ratio, Self::WHAT)
        };
        checked()
            .map(ratio_of)
            .map_err(|fault| misread::<Self>(text, &fault))
    }
}

impl Measure for Time {
    const WHAT: &'static str = "a time";
    const SPELLINGS: &'static str = "45 s, 2 h 30 min or 3 days";

    /// Reads a time.
    ///
    /// ```
    /// use hodful_quantities::{Measure, units::Time};
    /// assert_eq!(Time::read("2 h 30 min")?.value, 9000.0);
    /// # Ok::<(), hodful_quantities::Misread>(())
    /// ```
    fn read(text: &str) -> Result<Self, Misread> {
        read(text, Kind::Time, time_of_seconds)
    }
}

impl Measure for Angle {
    const WHAT: &'static str = "an angle";
    const SPELLINGS: &'static str = "20 deg, 20° or 0.35 rad";

    fn read(text: &str) -> Result<Self, Misread> {
        match quick::angle(text) {
            Some(radians) => Ok(angle_of_radians(radians)),
            None => read(text, Kind::Angle, angle_of_radians),
        }
    }
}

fn read<T: Measure>(text: &str, kind: Kind, of_base: fn(f64) -> T) -> Result<T, Misread> {
    sum::read(text, kind, T::WHAT)
        .map(of_base)
        .map_err(|fault| misread::<T>(text, &fault))
}
