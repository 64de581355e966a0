//! One hour of weather, as read or foretold. Not here: files, and what follows from the weather.

use crate::fault::AirFault;
use crate::moist::Air;

/// One hour of weather at one place. What is not known is `None`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hour {
    /// When the hour begins, in local standard time (no summer time).
    pub begins: jiff::civil::DateTime,
    /// Temperature of the air in the shade, °C.
    pub dry_bulb: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
    /// Pressure of the air, Pa.
    pub pressure: f64,
    /// Wind, m/s.
    pub wind: Option<f64>,
    /// Sun and sky on level ground, mean of the hour, W/m².
    pub sun: Option<f64>,
    /// Sun alone, on a face square to it, mean of the hour, W/m².
    pub beam: Option<f64>,
    /// Sky alone, on level ground, mean of the hour, W/m².
    pub diffuse: Option<f64>,
    /// Share of the sky that is clouded, 0 to 1.
    pub cloud: Option<f64>,
    /// Rain in the hour, mm.
    pub rain: Option<f64>,
}

impl Hour {
    /// The air of the hour.
    ///
    /// # Errors
    ///
    /// When temperature, humidity or pressure is none that air can have; see [`Air::new`].
    pub fn air(&self) -> Result<Air, AirFault> {
        Air::new(self.dry_bulb, self.humidity, self.pressure)
    }
}
