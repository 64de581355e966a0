//! Frost before a coat is dry: what a night brings, and how long which binder must be kept from it. Not here: how
//! long a coat takes to dry.
//!
//! A wet face is about as cold as a wet bulb, so that it can freeze in air of several degrees above 0 °C. No building
//! code is known that has a limit for earth: it must dry before it freezes.
//!
//! An estimate is no forecast: look at the forecast for the day, and follow local codes.

mod care;
mod night;

use crate::fault::AirFault;
use crate::hour::Hour;
use crate::moist::{Air, ICE, Phase, WATER, face};
use crate::tolerance::HALVINGS;
use jiff::civil::Date;

pub use care::{Binder, CARES, Care, Window, care};
pub use night::{NightMinimum, NightRecord};

/// Air at which to watch on a clear calm night, °C: faces then lose heat to the sky and are 1 to 4 K colder than the
/// air (from memory; that they differ is said in the FAO book on frost protection).
pub const CLEAR_NIGHT_CELSIUS: f64 = 4.0;

/// Wind below which a night is calm, m/s. Source: FAO, Frost Protection: fundamentals, practice and economics, on the
/// forecast of radiation frost.
pub const CALM_M_S: f64 = 2.0;

/// Share of the sky up to which a night is clear. Ours: the source says "no cloud", and clouds are counted in eighths
/// or tenths.
pub const CLEAR_SHARE: f64 = 0.2;

/// Wet bulb up to which a night is to be watched although nothing freezes in it as told, °C. Ours: the lowest warmth of a
/// night is forecast to about 2 K (from memory), and a face outside loses some heat to any sky that is not overcast.
pub const NEAR_CELSIUS: f64 = 2.0;

/// What a night does to a wet wall, from the best to the worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Nothing speaks for frost.
    Safe,
    /// Near enough to be watched, or below what a code asks for.
    Watch,
    /// Air or wet bulb at 0 °C or below.
    Freezes,
}

/// Why a night is not safe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reason {
    /// The air is at 0 °C or below.
    Air {
        /// The lowest, °C.
        celsius: f64,
    },
    /// The air is above 0 °C, and a wet face is not.
    WetBulb {
        /// The lowest wet bulb, °C.
        celsius: f64,
    },
    /// A wet face is colder than [`NEAR_CELSIUS`], and does not freeze as told.
    Near {
        /// The lowest wet bulb, °C.
        celsius: f64,
    },
    /// The air is colder than the binder may have it.
    BelowLimit {
        /// The lowest, °C.
        celsius: f64,
        /// The limit, °C.
        limit: f64,
    },
    /// The air is near 0 °C, the sky clear and the air calm, or one of them is not known.
    ClearAndCalm {
        /// The coldest such hour, °C.
        celsius: f64,
    },
    /// How dry the air is is not known, and in dry air of that temperature a wet face freezes; see
    /// [`Night::with_dryness_unknown`].
    DrynessUnknown {
        /// The lowest, °C.
        celsius: f64,
        /// The air in which a wet face freezes where it is dry, °C.
        limit: f64,
    },
}

impl Reason {
    /// How bad it is.
    pub fn verdict(&self) -> Verdict {
        match self {
            Self::Air { .. } | Self::WetBulb { .. } => Verdict::Freezes,
            Self::Near { .. }
            | Self::BelowLimit { .. }
            | Self::ClearAndCalm { .. }
            | Self::DrynessUnknown { .. } => Verdict::Watch,
        }
    }
}

/// One night, from noon to noon.
#[derive(Debug, Clone, PartialEq)]
pub struct Night {
    /// The day on whose evening it begins.
    pub evening: Date,
    /// The lowest temperature of the air, °C.
    pub lowest_air: f64,
    /// The lowest wet bulb over water, °C.
    pub lowest_wet_bulb: f64,
    /// Whether an hour at [`CLEAR_NIGHT_CELSIUS`] or below was clear and calm; what is not known counts as such.
    pub clear_and_calm: bool,
    /// What speaks for frost, nothing when it is safe.
    pub reasons: Vec<Reason>,
}

impl Night {
    /// The worst that is said of the night.
    pub fn verdict(&self) -> Verdict {
        self.reasons
            .iter()
            .map(Reason::verdict)
            .max()
            .unwrap_or(Verdict::Safe)
    }

    /// The same night where its humidity was not measured but taken as high, which hides frost in dry air: to be
    /// watched at what freezes a face in air of [`DRY_SHARE`], when nothing else says that it freezes.
    ///
    /// # Errors
    ///
    /// When the pressure (Pa) is none that air can have.
    ///
    /// ```
    /// use hodful_air::frost::{DRY_SHARE, freezing_air};
    /// use hodful_air::moist::STANDARD_PA;
    /// // 4.3 °C by a table of wet bulbs.
    /// assert!((freezing_air(DRY_SHARE, STANDARD_PA)? - 4.3).abs() < 0.1);
    /// # Ok::<(), hodful_air::AirFault>(())
    /// ```
    pub fn with_dryness_unknown(mut self, pressure_pa: f64) -> Result<Self, AirFault> {
        let limit = freezing_air(DRY_SHARE, pressure_pa)?;
        let celsius = self.lowest_air;
        if celsius <= limit && self.verdict() != Verdict::Freezes {
            self.reasons.push(Reason::DrynessUnknown { celsius, limit });
        }
        Ok(self)
    }
}

/// Relative humidity of dry air, 0 to 1, where it is not known: down to it the limits of 40 °F and 5 °C that codes have
/// are enough. Ours.
pub const DRY_SHARE: f64 = 0.4;

/// The hours from placing in which a coat must be kept from frost, when it is dry after so many (see [`Care::hours`]).
/// Fewer when fewer are known.
pub fn kept<'a>(hours: &'a [Hour], care: &Care, dry_after_h: f64) -> &'a [Hour] {
    let wanted = care.hours(dry_after_h);
    let count = (0_u32..)
        .zip(hours)
        .take_while(|(number, _)| f64::from(*number) < wanted)
        .count();
    hours.get(..count).unwrap_or(hours)
}

/// The nights of the hours in which a coat must be kept from frost, in the order of the hours. Hours of one night
/// stand together; a night that is only begun counts by the hours it has. Inside a room give its hours, not those
/// of the weather.
///
/// # Errors
///
/// When the air of an hour is none that air can be.
pub fn nights(window: &[Hour], care: &Care) -> Result<Vec<Night>, AirFault> {
    let mut found: Vec<(Night, Option<f64>)> = Vec::new();
    for hour in window {
        let wet_bulb = hour.air()?.wet_bulb_over_water();
        let evening = evening(hour);
        let is_risky = hour.dry_bulb <= CLEAR_NIGHT_CELSIUS && clear_and_calm(hour);
        let clear = is_risky.then_some(hour.dry_bulb);
        match found.last_mut() {
            Some((night, coldest)) if night.evening == evening => {
                night.lowest_air = night.lowest_air.min(hour.dry_bulb);
                night.lowest_wet_bulb = night.lowest_wet_bulb.min(wet_bulb);
                *coldest = coldest.iter().copied().chain(clear).reduce(f64::min);
            }
            _ => found.push((
                Night {
                    evening,
                    lowest_air: hour.dry_bulb,
                    lowest_wet_bulb: wet_bulb,
                    clear_and_calm: false,
                    reasons: Vec::new(),
                },
                clear,
            )),
        }
    }
    let each = found.into_iter().map(|(mut night, clear)| {
        night.clear_and_calm = clear.is_some();
        night.reasons = reasons(&night, clear, care);
        night
    });
    Ok(each.collect())
}

fn evening(hour: &Hour) -> Date {
    let day = hour.begins.date();
    if hour.begins.hour() < 12 {
        day.yesterday().unwrap_or(day)
    } else {
        day
    }
}

fn clear_and_calm(hour: &Hour) -> bool {
    let clear = hour.cloud.is_none_or(|share| share <= CLEAR_SHARE);
    let calm = hour.wind.is_none_or(|wind| wind < CALM_M_S);
    clear && calm
}

fn reasons(night: &Night, clear: Option<f64>, care: &Care) -> Vec<Reason> {
    let celsius = night.lowest_air;
    let mut found = Vec::new();
    if celsius <= 0.0 {
        found.push(Reason::Air { celsius });
    } else if night.lowest_wet_bulb <= 0.0 {
        found.push(Reason::WetBulb {
            celsius: night.lowest_wet_bulb,
        });
    } else if night.lowest_wet_bulb <= NEAR_CELSIUS {
        found.push(Reason::Near {
            celsius: night.lowest_wet_bulb,
        });
    }
    if let Some(limit) = care.least_air.filter(|limit| celsius < *limit) {
        found.push(Reason::BelowLimit { celsius, limit });
    }
    if let Some(clear) = clear.filter(|_| celsius > 0.0) {
        found.push(Reason::ClearAndCalm { celsius: clear });
    }
    found
}

/// The temperature of air of a relative humidity (0 to 1) and a pressure (Pa) in which a face of water comes down to
/// just 0 °C, °C: in colder air it freezes.
///
/// # Errors
///
/// When humidity or pressure is none that air can have.
///
/// ```
/// use hodful_air::{frost::freezing_air, moist::STANDARD_PA};
/// // In air half full of vapour a wet wall freezes at 3.4 °C.
/// assert!((freezing_air(0.5, STANDARD_PA)? - 3.40).abs() < 0.02);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn freezing_air(humidity: f64, pressure_pa: f64) -> Result<f64, AirFault> {
    air_with_face_at_zero(&WATER, humidity, pressure_pa)
}

/// As [`freezing_air`], for a face that has frozen: in warmer air it thaws. A little higher, as ice takes more heat.
///
/// # Errors
///
/// When humidity or pressure is none that air can have.
pub fn thawing_air(humidity: f64, pressure_pa: f64) -> Result<f64, AirFault> {
    air_with_face_at_zero(&ICE, humidity, pressure_pa)
}

fn air_with_face_at_zero(phase: &Phase, humidity: f64, pressure_pa: f64) -> Result<f64, AirFault> {
    // In wholly dry air at the lowest pressure let in it is 36 °C.
    let (mut cold, mut warm) = (-1.0, 45.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(cold, warm);
        if face(phase, &Air::new(middle, humidity, pressure_pa)?, 0.0).celsius < 0.0 {
            cold = middle;
        } else {
            warm = middle;
        }
    }
    Ok(f64::midpoint(cold, warm))
}
