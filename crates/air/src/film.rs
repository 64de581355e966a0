//! Water that stands on a fresh coat, and how fast it goes: whether a face dries too fast to be worked. Not here: how
//! long a coat takes to dry, for which these formulas are no use: they take a level film as warm as the air.
//!
//! All of them are known to be off by about 40 % either way (Hover 2020, on the evaporation rate of concrete).

use crate::moist::{Air, saturation_over_water_pa};

/// Evaporation at which something should be done, kg/(m²·h). Source: ACI 305R and 308R, read in a trade page.
pub const ACT_KG_M2_H: f64 = 1.0;

/// Evaporation at which to watch, kg/(m²·h): half the other, as is said for mixes that bleed little. Source: as above.
pub const WATCH_KG_M2_H: f64 = 0.5;

/// A published formula for the evaporation of a film.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FilmFormula {
    /// Uno, ACI Materials Journal 95-M34, 1998, in rounded units (text read where it is quoted):
    /// `5·((Tc + 18)^2.5 − r·(Ta + 18)^2.5)·(V + 4)·10⁻⁶` with km/h.
    Uno,
    /// The same with units of the older formula converted exactly, as a maker of instruments gives it (trade page):
    /// `5.275·((Tc + 17.778)^2.5 − r·(Ta + 17.778)^2.5)·(V + 4.02336)·10⁻⁶`.
    UnoExact,
    /// Menzel 1954, which the chart of ACI 305R draws: `0.44·(e₀ − eₐ)·(0.253 + 0.096·V)` in lb/(ft²·h), psi and
    /// miles an hour (constants read in public programs), here converted exactly.
    Menzel,
    /// The same as Uno 1998 rounds it to kPa and km/h: `0.315·(e₀ − eₐ)·(0.253 + 0.060·V)` (from memory).
    MenzelRounded,
}

/// Every formula, for those who look through them.
pub const FORMULAS: [FilmFormula; 4] = [
    FilmFormula::Uno,
    FilmFormula::UnoExact,
    FilmFormula::Menzel,
    FilmFormula::MenzelRounded,
];

/// Kilometres an hour in a metre a second.
const KM_H: f64 = 3.6;

/// Kilometres in a mile. Source: international mile, NIST Special Publication 811, appendix B.
const MILE_KM: f64 = 1.609_344;

/// kg/m² in a lb/ft², and Pa in a psi. Source: NIST Special Publication 811, appendix B.
const LB_FT2_KG_M2: f64 = 4.882_428;
const PSI_PA: f64 = 6_894.757;

/// What a film of a temperature (°C) gives off to air with a wind (m/s, half a metre above it), kg/(m²·h); 0 when it
/// would take up water. A wind below 0 or no number counts as none; a film below −18 °C gives off nothing.
///
/// ```
/// use hodful_air::{Air, film::{FilmFormula, film_kg_m2_h}, moist::STANDARD_PA};
/// // 10 km/h.
/// let air = Air::new(20.0, 0.5, STANDARD_PA)?;
/// let rate = film_kg_m2_h(FilmFormula::Uno, 20.0, &air, 10.0 / 3.6);
/// assert!((rate - 0.3115).abs() < 0.0001);
/// # Ok::<(), hodful_air::AirFault>(())
/// ```
pub fn film_kg_m2_h(formula: FilmFormula, film: f64, air: &Air, wind_m_s: f64) -> f64 {
    let km_h = wind_m_s.max(0.0) * KM_H;
    let powers = |zero: f64| {
        let power = |t: f64| libm::pow((t + zero).max(0.0), 2.5);
        power(film) - air.humidity() * power(air.dry_bulb())
    };
    let lack_pa = || saturation_over_water_pa(film) - air.vapour_pa();
    let rate = match formula {
        FilmFormula::Uno => 0.000_005 * powers(18.0) * (km_h + 4.0),
        FilmFormula::UnoExact => 0.000_005_275 * powers(17.778) * (km_h + 4.023_36),
        FilmFormula::Menzel => {
            0.44 * LB_FT2_KG_M2 * (lack_pa() / PSI_PA) * (0.253 + 0.096 * km_h / MILE_KM)
        }
        FilmFormula::MenzelRounded => 0.315 * (lack_pa() / 1000.0) * (0.253 + 0.060 * km_h),
    };
    rate.max(0.0)
}

/// Whether a face dries too fast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Haste {
    /// Slowly enough.
    Calm,
    /// At [`WATCH_KG_M2_H`] or more.
    Watch,
    /// At [`ACT_KG_M2_H`] or more: shade, screen from the wind, mist.
    Act,
}

/// Whether a face that gives off so much (kg/(m²·h)) dries too fast.
pub fn haste(kg_m2_h: f64) -> Haste {
    if kg_m2_h >= ACT_KG_M2_H {
        Haste::Act
    } else if kg_m2_h >= WATCH_KG_M2_H {
        Haste::Watch
    } else {
        Haste::Calm
    }
}

/// Minutes a face can be worked, as an estimate: until it has lost about 1 kg/m² at this rate (kg/(m²·h)). Our own
/// rule, no source. `None` when nothing is given off.
///
/// ```
/// assert_eq!(hodful_air::film::open_minutes(0.5), Some(120.0));
/// assert_eq!(hodful_air::film::open_minutes(0.0), None);
/// ```
pub fn open_minutes(kg_m2_h: f64) -> Option<f64> {
    (kg_m2_h > 0.0).then(|| 60.0 / kg_m2_h)
}

/// Open water by Penman's formula, as a worked university exercise writes it (San Diego State University, CIVE 445):
/// `E = (α·En + Ea) / (α + 1)`, all cm/day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Penman {
    /// Slope of the saturation pressure over the psychrometric constant; no unit.
    pub alpha: f64,
    /// What the net radiation alone would evaporate, cm/day.
    pub radiation_cm_day: f64,
    /// What wind and dry air alone would evaporate, cm/day.
    pub air_cm_day: f64,
}

impl Penman {
    /// What wind and dry air alone evaporate, cm/day: `(0.013 + 0.00016·v)·e₀·(1 − r)`, with the wind in km/day two
    /// metres up, the saturation pressure in millibars and the humidity 0 to 1. Source: as above.
    pub fn air_cm_day(wind_km_day: f64, saturation_mbar: f64, humidity: f64) -> f64 {
        (0.013 + 0.000_16 * wind_km_day) * saturation_mbar * (1.0 - humidity)
    }

    /// What a net radiation (cal/(cm²·day)) alone evaporates from water of a temperature (°C), cm/day: the radiation
    /// over density and heat of evaporation `597.3 − 0.564·t` cal/g (the density taken as 0.999 g/cm³; from memory).
    pub fn radiation_cm_day(net_cal_cm2_day: f64, celsius: f64) -> f64 {
        net_cal_cm2_day / (0.999 * (597.3 - 0.564 * celsius))
    }

    /// Evaporation, cm/day.
    pub fn cm_day(&self) -> f64 {
        (self.alpha * self.radiation_cm_day + self.air_cm_day) / (self.alpha + 1.0)
    }
}

/// Open water by Penman's formula in Shuttleworth's form, mm/day, 0 or more; net radiation in MJ/(m²·day), wind in
/// m/s two metres up (below 0 counts as none).
///
/// `E = (Δ·Rn + γ·6.43·(1 + 0.536·u)·(es − ea)) / (λ·(Δ + γ))` with kPa. Source: Shuttleworth, Handbook of
/// Hydrology, 1993 (from memory); `γ = 0.000665·p` and `λ = 2.45` MJ/kg as in FAO Irrigation and Drainage Paper 56.
pub fn shuttleworth_mm_day(air: &Air, net_mj_m2_day: f64, wind_m_s: f64) -> f64 {
    let t = air.dry_bulb();
    let log = crate::moist::log_over_water(t);
    let full_kpa = libm::exp(log.value) / 1000.0;
    let rise = full_kpa * log.slope;
    let gamma = 0.000_665 * air.pressure_pa() / 1000.0;
    let lack_kpa = (full_kpa - air.vapour_pa() / 1000.0).max(0.0);
    let by_air = gamma * 6.43 * (1.0 + 0.536 * wind_m_s.max(0.0)) * lack_kpa;
    ((rise * net_mj_m2_day + by_air) / (2.45 * (rise + gamma))).max(0.0)
}
