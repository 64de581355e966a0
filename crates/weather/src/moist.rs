//! Humidity from a dew point. Not here: all else of damp air (see `hodful_air`).

use hodful_air::moist::saturation_over_water_pa;

/// Relative humidity, 0 to 1, of air with a temperature and a dew point in °C, over water also in frost, as
/// weather stations tell it: WMO-No. 8, Guide to Instruments and Methods of Observation, annex 4.B (from memory).
pub(super) fn humidity(celsius: f64, dew_point: f64) -> f64 {
    (saturation_over_water_pa(dew_point) / saturation_over_water_pa(celsius)).min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn air_at_its_dew_point_is_full() {
        for t in [-20.0, 0.0, 15.0] {
            assert!((humidity(t, t) - 1.0).abs() < 1e-12);
            assert!(humidity(t, t - 5.0) < 0.75);
        }
    }
}
