//! Temperatures that are looked for: the dew point, and that of a wet face. Not here: what they are used for.

use super::saturation::{Log, falls_as_water, log_over_ice, log_over_water};
use super::{Air, humidity_ratio};
use crate::tolerance::{FOUND_K, MOST_STEPS, MOST_VAPOUR, NEAR_K};

/// What evaporates: its heat in kJ/kg as `heat − less·t`, and the heat it holds itself, kJ/(kg·K).
///
/// Source: ASHRAE Fundamentals, chapter 1, equations 33 and 35 (from memory).
pub(crate) struct Phase {
    heat: f64,
    less: f64,
    own: f64,
    log: fn(f64) -> Log,
}

pub(crate) const WATER: Phase = Phase {
    heat: 2501.0,
    less: 2.326,
    own: 4.186,
    log: log_over_water,
};

pub(crate) const ICE: Phase = Phase {
    heat: 2830.0,
    less: 0.24,
    own: 2.1,
    log: log_over_ice,
};

/// Heat that dry air and vapour take up, kJ/(kg·K). Source: as above.
pub(crate) const DRY_AIR_KJ_KG_K: f64 = 1.006;
const VAPOUR_KJ_KG_K: f64 = 1.86;

/// Where the search begins and may not pass, °C.
const COLDEST: f64 = -100.0;
const HOTTEST: f64 = 200.0;

/// A wet face that was looked for, and how the balance of heat goes on from there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Face {
    /// Temperature, °C.
    pub(crate) celsius: f64,
    /// Vapour in a kilogram of dry air that leaves it full, kg/kg.
    pub(crate) full: f64,
    /// How much more heat it takes a kelvin, kJ/(kg·K), and how much that grows, kJ/(kg·K²).
    slope: f64,
    bend: f64,
}

impl Face {
    /// About where the face is with more heat, °C: `slope·x + bend·x² / 2 = more`.
    fn with(&self, more: f64) -> f64 {
        let root = (self.slope * self.slope + 2.0 * self.bend * more).sqrt();
        self.celsius + 2.0 * more / (self.slope + root)
    }
}

/// A wet face in air, °C, that takes in some heat besides that of the air: `gain` in kJ for each kilogram of dry air
/// that passes it, 0 or more. Without gain it is the wet bulb.
///
/// Heat to evaporate = heat from the air + gain:
/// `(heat − less·t)·Ws(t) − 1.006·(T − t) − W·(heat + 1.86·T − own·t) = gain`,
/// which with no gain is the source's equation of the wet bulb. The left side rises ever more steeply with `t`: Halley's
/// steps (e.g. Press et al., Numerical Recipes, section 9.4, from memory), between what was too cold and too hot.
pub(crate) fn face(phase: &Phase, air: &Air, gain: f64) -> Face {
    face_from(phase, air, gain, air.dry_bulb)
}

/// As [`face`], by the face of the same air without gain.
pub(crate) fn face_with(phase: &Phase, air: &Air, gain: f64, without: &Face) -> Face {
    face_from(phase, air, gain, without.with(gain))
}

fn face_from(phase: &Phase, air: &Air, gain: f64, begin: f64) -> Face {
    let (dry, pressure) = (air.dry_bulb, air.pressure_pa);
    let ratio = air.humidity_ratio();
    let brought = ratio * (phase.heat + VAPOUR_KJ_KG_K * dry) + gain + DRY_AIR_KJ_KG_K * dry;
    let taken = DRY_AIR_KJ_KG_K + ratio * phase.own;
    let (mut too_cold, mut too_hot) = (COLDEST, HOTTEST);
    let mut found = Face {
        celsius: begin.clamp(COLDEST, HOTTEST),
        full: ratio,
        slope: taken,
        bend: 0.0,
    };
    for _ in 0..MOST_STEPS {
        let t = found.celsius;
        let log = (phase.log)(t);
        let vapour = libm::exp(log.value);
        if vapour >= MOST_VAPOUR * pressure {
            // Almost boiling: half way back to where it was too cold.
            too_hot = t;
            found.celsius = f64::midpoint(too_cold, t);
            continue;
        }
        let full = humidity_ratio(vapour, pressure);
        // Rise and bend of `full`: p/(P − p) has the rises P/(P − p) and 2·p/(P − p) in ln p.
        let air_share = pressure / (pressure - vapour);
        let rise = full * log.slope * air_share;
        let bend = rise * log.slope * (2.0 * air_share - 1.0) + full * air_share * log.bend;
        let latent = phase.heat - phase.less * t;
        let off = latent * full + taken * t - brought;
        found.slope = latent * rise - phase.less * full + taken;
        found.bend = latent * bend - 2.0 * phase.less * rise;
        if off < 0.0 {
            too_cold = t;
        }
        let newton = off / found.slope;
        let halley = newton / (1.0 - newton * found.bend / (2.0 * found.slope)).max(0.5);
        let next = t - halley;
        let next = if next < too_hot {
            next.max(COLDEST)
        } else {
            f64::midpoint(too_cold, too_hot)
        };
        let moved = next - t;
        found.celsius = next;
        found.full = full + moved * (rise + moved * bend / 2.0);
        if moved.abs() < NEAR_K {
            break;
        }
    }
    found
}

/// Where vapour of a pressure (Pa) begins to fall, °C, at most `dry`; `None` when it is below −100 °C.
pub(crate) fn dew_point(vapour_pa: f64, dry: f64) -> Option<f64> {
    let log = if falls_as_water(vapour_pa) {
        log_over_water
    } else {
        log_over_ice
    };
    if vapour_pa <= super::saturation_over_ice_pa(COLDEST) {
        return None;
    }
    let wanted = libm::log(vapour_pa);
    let mut t = dry.max(0.0);
    for _ in 0..MOST_STEPS {
        let log = log(t);
        let step = (log.value - wanted) / log.slope;
        t = (t - step).max(COLDEST);
        if step.abs() < FOUND_K {
            break;
        }
    }
    Some(t.min(dry))
}
