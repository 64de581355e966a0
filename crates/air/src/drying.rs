//! How long a coat takes to dry, as a band and never as one date. Not here: how fast a wet face gives off water in
//! which weather.
//!
//! While a coat is wet through, water comes to its face as fast as it goes. From some point on too little comes, and
//! the coat gives off less in step with what it still holds. Both together make drying simple: a coat is dry when a
//! face that stays wet would have given off so much in the same weather ([`Coat::needed_kg_m2`]).
//!
//! ```
//! use hodful_air::drying::{Coat, band};
//!
//! // Ten millimetres with 5 kg of water in the square metre, dry at 0.25 kg; 0.55 kg a day from a wet face.
//! let coat = Coat::new(5.0, 0.3, 0.25)?;
//! let band = band(&coat, 10.0, 1.0, std::iter::repeat_n(0.55 / 24.0, 2000))?;
//! let days = [band.fast, band.likely, band.slow].map(|bound| bound.map(|b| (b.hours / 24.0).round()));
//! assert_eq!(days, [Some(8.0), Some(11.0), Some(16.0)]);
//! # Ok::<(), hodful_air::AirFault>(())
//! ```

mod rules;

use crate::fault::{AirFault, not_negative, positive, share};

pub use rules::{RULES, Rule};

/// Share of the free water at which a coat begins to dry more slowly. Our assumption, no source: set it by what you
/// see, when the colour begins to change in patches.
pub const CRITICAL_SHARE: f64 = 0.3;

/// Water at which a coat counts as dry, as a share of its dry mass: 1 to 2 % (from memory).
pub const LEFT_SHARE: f64 = 0.015;

/// By how much the speed may be off either way. Taken from what is said of formulas for films, about 40 % (Hover
/// 2020); nobody has published it for walls of earth.
pub const SPREAD: f64 = 1.4;

/// The fastest that is told of, mm of coat a day: 15 mm in 3 to 4 days in ideal conditions (a public entry on clay
/// plaster), so up to 5.
pub const FAST_MM_DAY: f64 = 5.0;

/// What is commonly reckoned with, mm of coat a day, and less in bad conditions (German trade lexicon, practice
/// behind DIN 18550; general advice on drying buildings has 25 mm a month, near the same).
pub const SLOW_MM_DAY: f64 = 1.0;

/// Water in a coat that is to dry. One that exists can be reckoned with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coat {
    free: f64,
    critical: f64,
    left: f64,
}

impl Coat {
    /// A coat with so much water to give off (kg/m²), that begins to dry more slowly at a share of it, and counts as
    /// dry at so much that is left (kg/m²).
    ///
    /// # Errors
    ///
    /// When a figure is none that it can be, or when the coat would be dry from the start.
    pub fn new(free_kg_m2: f64, critical_share: f64, left_kg_m2: f64) -> Result<Self, AirFault> {
        let free = positive("water in the coat (kg/m²)", free_kg_m2)?;
        let critical = free * share("the water at which drying slows down", critical_share)?;
        let left = positive("the water of a dry coat (kg/m²)", left_kg_m2)?;
        if left >= free {
            return Err(AirFault::DryFromTheStart { free, left });
        }
        Ok(Self {
            free,
            critical,
            left,
        })
    }

    /// A coat by its mixing water and its dry mass, both kg/m², with [`CRITICAL_SHARE`] and [`LEFT_SHARE`].
    ///
    /// # Errors
    ///
    /// As [`Coat::new`].
    pub fn of_mix(water_kg_m2: f64, dry_kg_m2: f64) -> Result<Self, AirFault> {
        let dry = positive("dry mass of the coat (kg/m²)", dry_kg_m2)?;
        Self::new(water_kg_m2, CRITICAL_SHARE, LEFT_SHARE * dry)
    }

    /// Water to give off, kg/m².
    pub fn free_kg_m2(&self) -> f64 {
        self.free
    }

    /// Water at which it counts as dry, kg/m².
    pub fn left_kg_m2(&self) -> f64 {
        self.left
    }

    /// What a face that stays wet gives off in the time this coat takes to dry, kg/m².
    ///
    /// A steady rate and then one in step with the water left: `t·R = (w₀ − w_c) + w_c·ln(w_c / w)`, which is the
    /// two-period equation of Perry's Chemical Engineers' Handbook and of Geankoplis, Transport Processes (from
    /// memory), with the water per square metre. As `R·t` stands on the left alone, it holds as `Σ R·Δt` in changing
    /// weather.
    pub fn needed_kg_m2(&self) -> f64 {
        self.until(self.left)
    }

    /// As [`Coat::needed_kg_m2`], until so much water is left (kg/m², above 0).
    fn until(&self, left: f64) -> f64 {
        if left >= self.critical {
            self.free - left
        } else {
            self.free - self.critical + self.critical * libm::log(self.critical / left)
        }
    }

    /// Water left when a face that stays wet would have given off so much, kg/m². Below 0 counts as nothing yet.
    pub fn water_left_kg_m2(&self, wet_face_kg_m2: f64) -> f64 {
        let given = wet_face_kg_m2.max(0.0);
        let steady = self.free - self.critical;
        if given <= steady {
            self.free - given
        } else if self.critical > 0.0 {
            self.critical * libm::exp((steady - given) / self.critical)
        } else {
            0.0
        }
    }

    /// How fast the coat gives off water beside a face that stays wet, 0 to 1, with so much water left (kg/m²).
    pub fn share_of_wet(&self, water_left_kg_m2: f64) -> f64 {
        if water_left_kg_m2 >= self.critical {
            1.0
        } else {
            (water_left_kg_m2 / self.critical).max(0.0)
        }
    }
}

/// Hours until a face that stays wet has given off so much (kg/m²), by what it gives off in each hour (kg/(m²·h)).
/// `None` when the hours do not suffice. An hour below 0 counts as one without drying.
///
/// ```
/// assert_eq!(hodful_air::drying::hours_until(0.5, [0.2, 0.2, 0.2, 0.2]), Some(2.5));
/// assert_eq!(hodful_air::drying::hours_until(1.0, [0.2, 0.2]), None);
/// ```
pub fn hours_until(kg_m2: f64, rates: impl IntoIterator<Item = f64>) -> Option<f64> {
    let mut reached = 0.0;
    if kg_m2 <= reached {
        return Some(0.0);
    }
    for (hour, rate) in (0_u32..).zip(rates) {
        let rate = rate.max(0.0);
        if reached + rate >= kg_m2 {
            return Some(f64::from(hour) + (kg_m2 - reached) / rate);
        }
        reached += rate;
    }
    None
}

/// Where a bound comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Origin {
    /// From the weather and the water in the coat.
    Model,
    /// From a rule of thumb: millimetres a day.
    RuleOfThumb,
}

/// One end of a band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound {
    /// Hours from placing.
    pub hours: f64,
    /// Where it comes from.
    pub from: Origin,
}

/// When a coat is dry: hours from placing. `None` where the hours of weather do not suffice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Not before.
    pub fast: Option<Bound>,
    /// Likely.
    pub likely: Option<Bound>,
    /// To reckon with.
    pub slow: Option<Bound>,
}

/// When a coat of a thickness (mm) is dry, by what a face that stays wet gives off in each hour from placing
/// (kg/(m²·h)), and by how much longer coats have taken here than was said before (`record`: real over predicted
/// time, 1 when nothing is known).
///
/// The likely end is by the model and the record. The fast and the slow end are by both and [`SPREAD`], and each is
/// put off to what the rule of thumb says, [`FAST_MM_DAY`] and [`SLOW_MM_DAY`], when that is later.
///
/// # Errors
///
/// When thickness or record is not above 0.
pub fn band(
    coat: &Coat,
    thickness_mm: f64,
    record: f64,
    rates: impl IntoIterator<Item = f64>,
) -> Result<Band, AirFault> {
    let thickness = positive("thickness of the coat (mm)", thickness_mm)?;
    let record = positive("real time of drying over the predicted one", record)?;
    let needed = coat.needed_kg_m2();
    let wanted = [1.0 / SPREAD, 1.0, SPREAD].map(|spread| needed * spread);
    // In order, so that one pass over the weather finds all three.
    let mut found = [None; 3];
    let (mut reached, mut next) = (0.0, 0);
    for (hour, rate) in (0_u32..).zip(rates) {
        let rate = rate.max(0.0) / record;
        while let (Some(wanted), Some(slot)) = (wanted.get(next), found.get_mut(next)) {
            if reached + rate < *wanted {
                break;
            }
            *slot = Some(f64::from(hour) + (wanted - reached) / rate);
            next += 1;
        }
        if next == wanted.len() {
            break;
        }
        reached += rate;
    }
    let [fast, likely, slow] = found;
    let not_before = |hours: Option<f64>, mm_day: f64| {
        let rule = thickness / mm_day * 24.0;
        hours.map(|hours| {
            if hours >= rule {
                Bound {
                    hours,
                    from: Origin::Model,
                }
            } else {
                Bound {
                    hours: rule,
                    from: Origin::RuleOfThumb,
                }
            }
        })
    };
    Ok(Band {
        fast: not_before(fast, FAST_MM_DAY),
        likely: not_before(likely, FAST_MM_DAY),
        slow: not_before(slow, SLOW_MM_DAY),
    })
}

/// Water that mixing puts into a coat, kg/m², by its thickness (mm) and the litres for each square metre and
/// millimetre: 0.4 to 0.67 by five trade data sheets of dry bagged mixes, where nothing better is known 0.5.
///
/// # Errors
///
/// When one of them is below 0 or no number.
pub fn mixing_water_kg_m2(thickness_mm: f64, litres_m2_mm: f64) -> Result<f64, AirFault> {
    let thickness = not_negative("thickness of the coat (mm)", thickness_mm)?;
    Ok(thickness * not_negative("water for each m² and mm (L)", litres_m2_mm)?)
}
