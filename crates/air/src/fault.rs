//! What cannot be of air, rooms, coats and records, in words. Not here: where it is found.

/// Why figures are none that can be worked with.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum AirFault {
    /// A temperature of the air that no site has.
    #[error(
        "air of {celsius} °C is not between {least} and {most} °C; check the temperature and its unit"
    )]
    Temperature {
        /// The temperature, °C.
        celsius: f64,
        /// The lowest let in.
        least: f64,
        /// The highest let in.
        most: f64,
    },
    /// A relative humidity below 0 or above 1.
    #[error("a relative humidity of {humidity} is not between 0 and 1 (0 and 100 %); check it")]
    Humidity {
        /// The relative humidity.
        humidity: f64,
    },
    /// A pressure that no site has.
    #[error(
        "a pressure of {pressure_pa} Pa is not between {least} and {most} Pa; sea level has about 101325 Pa"
    )]
    Pressure {
        /// The pressure, Pa.
        pressure_pa: f64,
        /// The lowest let in.
        least: f64,
        /// The highest let in.
        most: f64,
    },
    /// An altitude that no site has.
    #[error("an altitude of {metres} m is not between {least} and {most} m; check it and its unit")]
    Altitude {
        /// The altitude, m.
        metres: f64,
        /// The lowest let in.
        least: f64,
        /// The highest let in.
        most: f64,
    },
    /// Vapour that would be more than most of the air.
    #[error(
        "vapour of {vapour_pa} Pa in air of {pressure_pa} Pa is too much; check temperature and pressure"
    )]
    Vapour {
        /// The pressure of the vapour, Pa.
        vapour_pa: f64,
        /// The pressure of the air, Pa.
        pressure_pa: f64,
    },
    /// A figure that is below 0 or no number.
    #[error("{what} cannot be {value}; give 0 or more")]
    Negative {
        /// Which figure.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// A figure that is 0, below it, or no number.
    #[error("{what} cannot be {value}; give more than 0")]
    NotPositive {
        /// Which figure.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// A figure that is no number.
    #[error("{what} cannot be {value}; give a number")]
    NotFinite {
        /// Which figure.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// A share below 0 or above 1.
    #[error("{what} cannot be {value}; give a share from 0 to 1")]
    Share {
        /// Which share.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// A place that is not on the globe.
    #[error("{what} of {degrees}° is not between -{most} and {most}; check it")]
    Degrees {
        /// Which angle.
        what: &'static str,
        /// The angle, degrees.
        degrees: f64,
        /// The most either way.
        most: f64,
    },
    /// A coat that would be called dry while it still holds all its water.
    #[error(
        "a coat with {free} kg/m² of water to give off is not dry only at {left} kg/m²; \
         give a figure between 0 and {free}"
    )]
    DryFromTheStart {
        /// The free water, kg/m².
        free: f64,
        /// The free water at which it counts as dry, kg/m².
        left: f64,
    },
    /// Outside air that is no drier than the room may become.
    #[error(
        "outside air with {outside} kg/m³ of vapour cannot take water from a room that may have {limit} kg/m³; \
         heat the room, wait for drier air, or use a dryer"
    )]
    OutsideTooDamp {
        /// Vapour of the outside air, kg/m³.
        outside: f64,
        /// Vapour the room may have, kg/m³.
        limit: f64,
    },
    /// Too few records of nights for what is looked for.
    #[error("{count} records of nights are too few; give at least {least}")]
    FewNights {
        /// How many there are.
        count: usize,
        /// How many are needed.
        least: usize,
    },
    /// Records that are all the same in what should tell them apart.
    #[error("all records of nights have the same {what}; records that differ are needed")]
    SameNights {
        /// In what they are the same.
        what: &'static str,
    },
}

/// The value, when it is 0 or more and finite.
pub(crate) fn not_negative(what: &'static str, value: f64) -> Result<f64, AirFault> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(AirFault::Negative { what, value })
    }
}

/// The value, when it is above 0 and finite.
pub(crate) fn positive(what: &'static str, value: f64) -> Result<f64, AirFault> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(AirFault::NotPositive { what, value })
    }
}

/// The value, when it is finite.
pub(crate) fn finite(what: &'static str, value: f64) -> Result<f64, AirFault> {
    if value.is_finite() {
        Ok(value)
    } else {
        Err(AirFault::NotFinite { what, value })
    }
}

/// The value, when it is between 0 and 1.
pub(crate) fn share(what: &'static str, value: f64) -> Result<f64, AirFault> {
    if (0.0..=1.0).contains(&value) {
        Ok(value)
    } else {
        Err(AirFault::Share { what, value })
    }
}

/// The angle, when it is within `most` degrees either way.
pub(crate) fn within(what: &'static str, degrees: f64, most: f64) -> Result<f64, AirFault> {
    if (-most..=most).contains(&degrees) {
        Ok(degrees)
    } else {
        Err(AirFault::Degrees {
            what,
            degrees,
            most,
        })
    }
}
