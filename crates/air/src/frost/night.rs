//! The lowest temperature of a clear calm night, foretold from the evening. Not here: other nights, and what the
//! figure means for a wall.

use crate::fault::{AirFault, finite};
use crate::tolerance::SAME_VALUES;

/// A clear calm night as it was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NightRecord {
    /// Temperature of the air two hours after sunset, °C.
    pub evening: f64,
    /// Dew point two hours after sunset, °C.
    pub dew_point: f64,
    /// The lowest temperature of the night, °C.
    pub lowest: f64,
}

/// What records of clear calm nights at one place say of the next: `lowest = a·evening + b·dew_point + c`.
///
/// For nights with wind below 2 m/s and without cloud, fog or rain. Source: Snyder and de Melo-Abreu, Frost
/// Protection: fundamentals, practice and economics, FAO 2005.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NightMinimum {
    /// Share of the evening's temperature.
    pub a: f64,
    /// Share of the dew point.
    pub b: f64,
    /// What is added, K.
    pub c: f64,
}

/// Fewest records: a line through two points says nothing of how far it is off.
const LEAST: usize = 3;

impl NightMinimum {
    /// Fits records of nights, at least 3, in two steps as the source does: the lowest by the evening's temperature,
    /// and what is left by the dew point.
    ///
    /// # Errors
    ///
    /// When there are too few, when they are all the same in one of the two, or when one is no number.
    pub fn fit(records: &[NightRecord]) -> Result<Self, AirFault> {
        if records.len() < LEAST {
            return Err(AirFault::FewNights {
                count: records.len(),
                least: LEAST,
            });
        }
        for record in records {
            finite("the temperature of an evening (°C)", record.evening)?;
            finite("the dew point of an evening (°C)", record.dew_point)?;
            finite("the lowest temperature of a night (°C)", record.lowest)?;
        }
        let by_evening =
            line(records.iter().map(|r| (r.evening, r.lowest))).ok_or(AirFault::SameNights {
                what: "temperature in the evening",
            })?;
        let left = |r: &NightRecord| r.lowest - by_evening.at(r.evening);
        let by_dew = line(records.iter().map(|r| (r.dew_point, left(r))))
            .ok_or(AirFault::SameNights { what: "dew point" })?;
        Ok(Self {
            a: by_evening.slope,
            b: by_dew.slope,
            c: by_evening.start + by_dew.start,
        })
    }

    /// The lowest temperature to be looked for, °C, by temperature and dew point two hours after sunset, °C.
    pub fn predict(&self, evening: f64, dew_point: f64) -> f64 {
        self.a * evening + self.b * dew_point + self.c
    }
}

struct Line {
    slope: f64,
    start: f64,
}

impl Line {
    fn at(&self, x: f64) -> f64 {
        self.start + self.slope * x
    }
}

/// The line of least squares; `None` when all `x` are the same.
fn line(points: impl Iterator<Item = (f64, f64)> + Clone) -> Option<Line> {
    let count: f64 = points.clone().map(|_| 1.0).sum();
    let mean = |of: fn((f64, f64)) -> f64| points.clone().map(of).sum::<f64>() / count;
    let (x_mean, y_mean) = (mean(|p| p.0), mean(|p| p.1));
    let (mut squares, mut products, mut size) = (0.0, 0.0, 0.0);
    for (x, y) in points {
        squares += (x - x_mean) * (x - x_mean);
        products += (x - x_mean) * (y - y_mean);
        size += x * x;
    }
    (squares > SAME_VALUES * size).then(|| {
        let slope = products / squares;
        Line {
            slope,
            start: y_mean - slope * x_mean,
        }
    })
}
