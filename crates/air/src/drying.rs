//! How long a coat takes to dry, as a band and never as one date. Not here: how fast a wet face gives off water in
//! which weather.
//!
//! While a coat is wet through, water comes to its face as fast as it goes. From some point on too little comes, and
//! the coat gives off less in step with what it still holds. Both together make drying simple: a coat is dry when a
//! face that stays wet would have given off so much in the same weather ([`Coat::needed_kg_m2`]).
//!
//! ```
//! use hodful_air::drying::{Coat, Record, band};
//!
//! // Ten millimetres with 5 kg of water in the square metre, dry at 0.25 kg; 0.55 kg a day from a wet face. Once
//! // wet through it would be 11 days give or take 1.4; at half a millimetre a day, the slow rule of thumb, it is 20.
//! let coat = Coat::new(5.0, 0.3, 0.25)?;
//! let band = band(&coat, 10.0, &Record::NONE, 0.0, std::iter::repeat_n(0.55 / 24.0, 2000))?;
//! let days = [Some(band.fast), band.likely, Some(band.slow)];
//! let days = days.map(|bound| bound.map(|b| (b.hours / 24.0).round()));
//! assert_eq!(days, [Some(8.0), Some(11.0), Some(20.0)]);
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

/// The slow end of what is told of clay, mm of coat a day: a millimetre in one to two days, longer in thick coats (a
/// public page, weak; the third of [`RULES`]). What is told of other plasters and of wet building lies
/// between: 1 (German trade lexicon, practice behind DIN 18550), 0.83 and 0.71.
pub const SLOW_MM_DAY: f64 = 0.5;

/// Between the fast and the slow rule, mm of coat a day: their geometric middle, `√(5 · 0.5)`. Ours, no source. No coat
/// is told as likely dry sooner than by this, however fast a film of water would go: from some point on water comes to
/// the face more slowly than sun and wind could take it, and nothing that is reckoned here knows how fast it comes.
/// That goes for thick coats above all: their water comes from further in, which is not reckoned beyond these rules.
pub const MIDDLE_MM_DAY: f64 = 1.58;

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

/// When a coat is dry: hours from placing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Not before.
    pub fast: Bound,
    /// Likely. `None` where the hours of weather do not suffice.
    pub likely: Option<Bound>,
    /// To reckon with.
    pub slow: Bound,
    /// Whether the hours of weather do not suffice for the slow end, so that a rule of thumb stands in for the rest.
    pub is_beyond: bool,
}

/// What coats took here over what was said of them: real over told time, 1 when nothing is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Record {
    /// Where weather and water decided.
    pub model: f64,
    /// Where a rule of thumb decided.
    pub rule: f64,
}

impl Record {
    /// Nothing is known.
    pub const NONE: Self = Self {
        model: 1.0,
        rule: 1.0,
    };
}

/// When a coat of a thickness (mm) is dry, by what a face that stays wet gives off in each hour (kg/(m²·h)), and by
/// what coats took here. The hours begin `before_h` hours after placing; of those before nothing is known, and they
/// count by the rules of thumb.
///
/// Each end is by the model, the fast and the slow one by [`SPREAD`] besides, and is put off to what its rule of thumb
/// says ([`FAST_MM_DAY`], [`MIDDLE_MM_DAY`], [`SLOW_MM_DAY`]) when that is later. Where the hours end first, the coat is
/// not dry in them: what it lacks then, as a share of the whole, takes that share of the rule of thumb from the last
/// hour on. A record below 1 brings the slow rule no nearer.
///
/// # Errors
///
/// When thickness or record is not above 0, or the hours before are below 0.
///
/// ```
/// use hodful_air::drying::{Coat, Record, band};
/// // Five millimetres, fourteen days of frost, and nothing known after: a day by the fast rule and ten by the slow one.
/// let coat = Coat::of_mix(2.5, 8.5)?;
/// let band = band(&coat, 5.0, &Record::NONE, 0.0, std::iter::repeat_n(0.0, 14 * 24))?;
/// assert_eq!((band.fast.hours / 24.0, band.slow.hours / 24.0), (15.0, 24.0));
/// assert!(band.likely.is_none() && band.is_beyond);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn band(
    coat: &Coat,
    thickness_mm: f64,
    record: &Record,
    before_h: f64,
    rates: impl IntoIterator<Item = f64>,
) -> Result<Band, AirFault> {
    let thickness = positive("thickness of the coat (mm)", thickness_mm)?;
    let model = positive("real time of drying over the predicted one", record.model)?;
    let rule = positive("real time of drying over the rule of thumb", record.rule)?;
    let before = not_negative("hours since the coat was put on", before_h)?;
    let needed = coat.needed_kg_m2();
    let end = |spread: f64, mm_day: f64, rule: f64| {
        let rule_h = thickness / mm_day * 24.0 * rule;
        End {
            wanted: needed * spread,
            rule_h,
            // By the rule of thumb alone, where that is over before anything is known.
            found: (before >= rule_h).then_some(rule_h),
        }
    };
    // In order, so that one pass over the weather finds all three.
    let mut ends = [
        end(1.0 / SPREAD, FAST_MM_DAY, rule),
        end(1.0, MIDDLE_MM_DAY, rule),
        end(SPREAD, SLOW_MM_DAY, rule.max(1.0)),
    ];
    let mut next = ends.iter().filter(|end| end.found.is_some()).count();
    let (mut reached, mut known) = (0.0, 0.0);
    for rate in rates {
        let rate = rate.max(0.0) / model;
        while let Some(end) = ends.get_mut(next) {
            let wanted = end.after(before);
            if reached + rate < wanted {
                break;
            }
            end.found = Some(before + known + (wanted - reached) / rate);
            next += 1;
        }
        if next == ends.len() {
            break;
        }
        reached += rate;
        known += 1.0;
    }
    let [fast, likely, slow] = ends;
    let last = |end: &End| {
        end.bound(
            end.found
                .unwrap_or_else(|| end.beyond(before, known, reached)),
        )
    };
    let is_known = before <= 0.0;
    Ok(Band {
        fast: last(&fast),
        likely: likely
            .found
            .filter(|_| is_known)
            .map(|hours| likely.bound(hours)),
        slow: last(&slow),
        is_beyond: slow.found.is_none(),
    })
}

/// One end of a band while it is looked for.
struct End {
    /// What a face that stays wet must give off, kg/m².
    wanted: f64,
    /// Hours by the rule of thumb.
    rule_h: f64,
    /// Hours from placing, where the weather suffices.
    found: Option<f64>,
}

impl End {
    /// What is still wanted after hours of which nothing is known.
    fn after(&self, before_h: f64) -> f64 {
        self.wanted * (1.0 - before_h / self.rule_h).max(0.0)
    }

    /// Hours from placing, where so many hours of weather gave off no more than that.
    fn beyond(&self, before_h: f64, known_h: f64, reached: f64) -> f64 {
        let missing = (self.after(before_h) - reached) / self.wanted;
        before_h + known_h + missing.max(0.0) * self.rule_h
    }

    fn bound(&self, hours: f64) -> Bound {
        let by_model = self.found.is_some() && hours > self.rule_h;
        Bound {
            hours: hours.max(self.rule_h),
            from: if by_model {
                Origin::Model
            } else {
                Origin::RuleOfThumb
            },
        }
    }
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
